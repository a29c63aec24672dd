"""Ordered regression at its edges: few rows, empty classes, numbers far out, one row left out."""

import math

import pytest

from sandmix.language.errors import SandmixError
from sandmix.maths.ordered_regression import OrderedFit, Prior, each_left_out, fit, logistic

FIRM = Prior(mean=[1.0, -1.0, 1.0], precision=[[1.0, 0, 0], [0, 1.0, 0], [0, 0, 1.0]], gaps=0.1)
FLAT = Prior(mean=[0.0, 0.0, 0.0], precision=[[0.0] * 3 for _ in range(3)])


def test_without_rows_the_fit_is_the_prior():
    """Without gap weight mean and covariance are the prior's own: slope 1, cut points ∓ 1, variances 1."""
    found = fit([], [], 3, Prior(mean=FIRM.mean, precision=FIRM.precision))
    assert [*found.slopes, *found.cuts] == pytest.approx([1, -1, 1])
    assert found.covariance == [[1, 0, 0], [0, 1, 0], [0, 0, 1]]
    assert found.log_likelihood == 0


def test_two_classes_are_the_plain_logistic_regression():
    """Half of each at x = 0: the cut is 0. At x = ±1 three of four: F(β) = 3/4, so β = ln 3."""
    rows = [[0.0]] * 2 + [[1.0]] * 4 + [[-1.0]] * 4
    classes = [0, 1, 1, 1, 1, 0, 0, 0, 0, 1]
    found = fit(rows, classes, 2, Prior(mean=[0.0, 0.0], precision=[[0.0, 0.0], [0.0, 0.0]]))
    assert found.slopes[0] == pytest.approx(math.log(3))
    assert found.cuts[0] == pytest.approx(0, abs=1e-9)


def test_classes_that_x_separates_have_no_fit_without_a_prior():
    rows, classes = [[-1.0], [0.0], [1.0]], [0, 1, 2]
    with pytest.raises(SandmixError, match="no single fit"):
        fit(rows, classes, 3, FLAT)
    assert fit(rows, classes, 3, FIRM).slopes[0] > 1, "a prior gives one"


def test_an_empty_class_keeps_its_place_between_its_neighbours():
    found = fit([[0.0]] * 30 + [[0.1]] * 30, [0, 2] * 30, 3, FIRM)
    assert found.cuts[0] < found.cuts[1]
    assert all(chance > 0 for chance in found.chances((0.0,)))


def test_rows_far_out_neither_overflow_nor_lose_the_order():
    found = fit([[900.0], [-900.0], [0.0]], [2, 0, 1], 3, FIRM)
    assert found.cuts[0] < found.cuts[1]
    assert math.isfinite(found.log_likelihood)
    assert found.chances((1e6,))[2] > 0.7
    assert found.curve(2, [-1e6, 1e6]) == pytest.approx([found.chances((x,))[2] for x in (-1e6, 1e6)])


def test_the_curve_is_the_chances_of_one_class():
    found = fit([[0.3], [-1.0], [1.5], [0.2]], [1, 0, 2, 1], 3, FIRM)
    for kind in range(3):
        for x in (-2.0, 0.0, 0.7):
            assert found.curve(kind, [x], 0.4)[0] == pytest.approx(found.chances((x,), 0.4)[kind])
    assert sum(found.chances((0.7,))) == pytest.approx(1)


def test_more_uncertain_cut_points_bring_the_chances_closer_together():
    found = fit([], [], 3, FIRM)
    assert found.chances((3.0,))[2] > found.chances((3.0,), 5.0)[2] > 0.5


def test_one_row_left_out_is_close_to_a_fit_without_it():
    rows = [[x] for x in (-1.5, -0.5, 0.0, 0.2, 0.4, 0.9, 1.4, 2.0)]
    classes = [0, 0, 1, 0, 1, 2, 2, 2]
    whole = fit(rows, classes, 3, FIRM)
    for at, found in enumerate(each_left_out(rows, classes, 3, FIRM, whole)):
        exact = fit(rows[:at] + rows[at + 1 :], classes[:at] + classes[at + 1 :], 3, FIRM)
        assert found.chances(rows[at]) == pytest.approx(exact.chances(rows[at]), abs=0.03)


def test_the_logistic_curve_far_out():
    assert logistic(-1e9) == 0
    assert logistic(1e9) == 1
    assert logistic(0) == 0.5


def test_the_curve_of_a_class_is_its_chance_at_each_x():
    """Both average over the uncertainty of the fit, by the same formula, one x at a time and many at once."""
    found = fit([], [], 3, Prior(mean=FIRM.mean, precision=FIRM.precision))
    for kind in range(3):
        for x in (-1.5, 0.0, 0.7):
            assert found.curve(kind, [x]) == pytest.approx([found.chances([x])[kind]])
            assert found.curve(kind, [x], 2.0) == pytest.approx([found.chances([x], 2.0)[kind]])


def test_chances_by_hand():
    """Cut points −1, 0 and 2, the last with a variance of 24/π, which makes it 2/√(1 + π/8 · 24/π) = 1: F(−1), F(0), F(1) and 1, less each other."""
    covariance = [[0.0] * 4 for _ in range(4)]
    covariance[3][3] = 24 / math.pi
    found = OrderedFit(slopes=(1.0,), cuts=(-1.0, 0.0, 2.0), log_likelihood=0.0, covariance=covariance)
    low, high = logistic(-1), logistic(1)
    assert found.chances([0.0]) == pytest.approx([low, 0.5 - low, high - 0.5, 1 - high])


def test_a_chance_is_never_below_zero_where_a_doubtful_cut_point_falls_behind():
    """Cut points 0 and 2 are sure, 3 with a variance of 120/π is 3/√(1 + 15) = 0.75: its class and the one before it have F(2) together."""
    covariance = [[0.0] * 4 for _ in range(4)]
    covariance[3][3] = 120 / math.pi
    found = OrderedFit(slopes=(1.0,), cuts=(0.0, 2.0, 3.0), log_likelihood=0.0, covariance=covariance)
    assert found.chances([0.0]) == pytest.approx([0.5, logistic(2) - 0.5, 0, 1 - logistic(2)])
