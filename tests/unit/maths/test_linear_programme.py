"""The linear programme, by hand arithmetic."""

import pytest

from sandmix.maths.linear_programme import Row, solve

DIET = [
    Row(name="first", coefficients=(1, 2), bound=14),
    Row(name="second", coefficients=(-3, 1), bound=0),
    Row(name="third", coefficients=(1, -1), bound=2),
]


def test_the_optimum_and_the_price_of_each_limit():
    """3x + 4y is greatest where x + 2y = 14 and x - y = 2 meet: x 6, y 4, 34. Prices u and w: u + w = 3, 2u - w = 4."""
    found = solve(DIET, [(-3, -4)])
    assert found.unknowns == pytest.approx((6, 4))
    assert found.values == (pytest.approx(-34),)
    assert found.prices[0] == {"first": pytest.approx(-7 / 3), "third": pytest.approx(-2 / 3)}
    assert (found.broken, found.at_fault) == ({}, ())


def test_an_equality_has_a_price_of_either_sign():
    """x + y = 10, x at most 4, costs 1 and 3 each: 4 and 6. One more to make costs 3, one more in stock saves 2."""
    found = solve(
        [Row(name="make", coefficients=(1, 1), bound=10, kind="="), Row(name="stock", coefficients=(1, 0), bound=4)],
        [(1, 3)],
    )
    assert found.unknowns == (4, 6)
    assert found.prices == ({"make": 3, "stock": -2},)


def test_the_second_objective_chooses_among_equal_optima():
    """Two things cost the same; the second objective decides between them."""
    make = Row(name="make", coefficients=(1, 1, 1), bound=10, kind="=")
    assert solve([make], [(2, 2, 3), (1, 0, 0)]).unknowns == (0, 10, 0)
    assert solve([make], [(2, 2, 3), (0, 1, 0)]).unknowns == (10, 0, 0)
    assert solve([make], [(2, 2, 3), (0, 0, -1)]).values == (20, 0)


def test_rows_that_conflict_are_named_with_the_least_violation():
    """At most 4 and at least 6 of one thing: the row of the later level is missed by 2."""
    rows = [
        Row(name="few", coefficients=(1, 0), bound=4),
        Row(name="many", coefficients=(-1, 0), bound=-6, level=1),
        Row(name="idle", coefficients=(0, 1), bound=3),
    ]
    found = solve(rows, [(0, -1)])
    assert found.broken == {"many": pytest.approx(2)}
    assert set(found.at_fault) == {"few", "many"}
    assert found.unknowns == (4, 3)


def test_the_row_of_the_later_level_is_violated():
    few, many = {"name": "few", "coefficients": (1,), "bound": 4}, {"name": "many", "coefficients": (-1,), "bound": -6}
    assert solve([Row(**few, level=1), Row(**many)], [(1,)]).broken == {"few": pytest.approx(2)}
    assert solve([Row(**few), Row(**many, level=1)], [(1,)]).broken == {"many": pytest.approx(2)}


def test_an_equality_that_falls_short_is_broken_by_a_negative_number():
    rows = [
        Row(name="stock", coefficients=(1,), bound=4),
        Row(name="make", coefficients=(1,), bound=10, kind="=", level=1),
    ]
    assert solve(rows, [(1,)]).broken == {"make": pytest.approx(-6)}


def test_an_equality_with_a_negative_bound_cannot_be_met():
    assert solve([Row(name="make", coefficients=(1,), bound=-3, kind="=")], [(1,)]).broken == {"make": pytest.approx(3)}


def test_a_repeated_row_changes_nothing():
    make = {"coefficients": (1, 1), "bound": 10, "kind": "="}
    found = solve([Row(name="once", **make), Row(name="twice", **make)], [(1, 3), (0, 1)])
    assert found.unknowns == (10, 0)
    assert found.broken == {}


def test_two_rows_that_say_the_same_still_hold():
    """x - y = 0 and y - x = 0 say the same. Neither is violated when x is made large: both are 4, since y is at most 4."""
    rows = [
        Row(name="one", coefficients=(1, -1), bound=0, kind="="),
        Row(name="other", coefficients=(-1, 1), bound=0, kind="="),
        Row(name="stock", coefficients=(0, 1), bound=4),
    ]
    assert solve(rows, [(-1, 0)]).unknowns == (4, 4)


def test_an_unbounded_objective_is_an_error():
    with pytest.raises(ValueError, match="no least"):
        solve([Row(name="stock", coefficients=(1, 0), bound=4)], [(0, -1)])


def test_a_cost_below_a_millionth_of_the_largest_is_noise():
    assert solve([Row(name="stock", coefficients=(1, 0), bound=4)], [(1e8, -1)]).unknowns == (0, 0)


@pytest.mark.parametrize("free", [500, -1])
def test_a_known_cycling_problem_is_solved(monkeypatch, free):
    """With the lowest index from the start, and only later. The largest-cost rule cycles here; the least is -1/20 at (1/25, 0, 1, 0)."""
    monkeypatch.setattr("sandmix.maths.linear_programme.FREE_PIVOTS", free)
    rows = [
        Row(name="a", coefficients=(0.25, -60, -0.04, 9), bound=0),
        Row(name="b", coefficients=(0.5, -90, -0.02, 3), bound=0),
        Row(name="c", coefficients=(0, 0, 1, 0), bound=1),
    ]
    found = solve(rows, [(-0.75, 150, -0.02, 6)])
    assert found.values[0] == pytest.approx(-0.05)
    assert found.unknowns == pytest.approx((0.04, 0, 1, 0))


def test_too_many_pivots_raise_an_error(monkeypatch):
    monkeypatch.setattr("sandmix.maths.linear_programme.MOST_PIVOTS", 1)
    with pytest.raises(ArithmeticError):
        solve(DIET, [(-3, -4)])


def test_units_of_any_size_give_the_same_answer():
    """The corner of the first test with x in thousandths and the first limit in millionths."""
    rows = [
        Row(name="first", coefficients=(1e-9, 2e-6), bound=14e-6),
        Row(name="second", coefficients=(-3e-3, 1), bound=0),
        Row(name="third", coefficients=(1e-3, -1), bound=2),
    ]
    found = solve(rows, [(-3e-3, -4)])
    assert found.unknowns == pytest.approx((6000, 4))
    assert found.prices[0]["first"] == pytest.approx(-7 / 3 * 1e6)
