"""How doubt adds up, by hand."""

import pytest

from sandmix.doubt import spread


def asked(figures):
    """Ask *figures*, a function of the words x, y and z, of which some are moved."""
    return lambda moved: figures({"x": 2.0, "y": 3.0, "z": 4.0} | dict(moved))


def test_two_words_add_as_a_root_of_squares():
    """x + y with ± 3 and ± 4 is 5 ± 5."""
    bands = spread(asked(lambda at: {"sum": at["x"] + at["y"]}), {"x": (-1.0, 5.0), "y": (-1.0, 7.0)}, {"sum": 5.0})
    assert bands["sum"] == pytest.approx((0, 10))


def test_the_two_sides_stay_apart():
    bands = spread(asked(lambda at: {"x": at["x"]}), {"x": (1.9, 2.5)}, {"x": 2.0})
    assert bands["x"] == pytest.approx((1.9, 2.5))


def test_a_falling_answer_turns_the_sides_round():
    bands = spread(asked(lambda at: {"x": -at["x"]}), {"x": (1.9, 2.5)}, {"x": -2.0})
    assert bands["x"] == pytest.approx((-2.5, -1.9))


def test_a_band_that_moves_one_way_at_both_ends_widens_one_side():
    bands = spread(asked(lambda at: {"square": (at["x"] - 2) ** 2}), {"x": (1.0, 3.0)}, {"square": 0.0})
    assert bands["square"] == pytest.approx((0, 1))


def test_whole_numbers_words_and_what_is_missing_have_no_band():
    def figures(at):
        return {"count": 3, "name": "go"} | ({"fits": at["x"]} if at["x"] == 2 else {"fits": None})

    bands = spread(asked(figures), {"x": (1.0, 3.0)}, {"count": 3, "name": "go", "fits": 2.0})
    assert bands == {"fits": (2.0, 2.0)}


def test_without_doubt_the_band_is_the_answer():
    assert spread(asked(lambda at: {"z": at["z"]}), {}, {"z": 4.0}) == {"z": (4.0, 4.0)}
