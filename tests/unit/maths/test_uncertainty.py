"""Uncertainty propagation, by hand arithmetic."""

import itertools
import math

import pytest

from sandmix.maths.uncertainty import Propagated, propagate, rescaled


def moving(figures):
    """Return *figures*, a function of the words x, y and z, as a function of the words that are moved."""
    return lambda moved: figures({"x": 2.0, "y": 3.0, "z": 4.0} | dict(moved))


def band_of(ask, bands, answer):
    """The bands that come out of the propagation."""
    return propagate(ask, bands, answer).bands


def rescaled_bands(bands, rough, fine):
    """The bands of a rough answer, moved to the fine one."""
    return rescaled(Propagated(bands=bands), rough, fine).bands


def test_two_inputs_add_as_a_root_of_squares():
    """x + y with ± 3 and ± 4 is 5 ± 5."""
    bands = band_of(moving(lambda at: {"sum": at["x"] + at["y"]}), {"x": (-1.0, 5.0), "y": (-1.0, 7.0)}, {"sum": 5.0})
    assert bands["sum"] == pytest.approx((0, 10))


def test_the_two_sides_stay_apart():
    bands = band_of(moving(lambda at: {"x": at["x"]}), {"x": (1.9, 2.5)}, {"x": 2.0})
    assert bands["x"] == pytest.approx((1.9, 2.5))


def test_an_answer_that_falls_when_the_input_rises_swaps_the_sides():
    bands = band_of(moving(lambda at: {"x": -at["x"]}), {"x": (1.9, 2.5)}, {"x": -2.0})
    assert bands["x"] == pytest.approx((-2.5, -1.9))


def test_a_band_that_moves_one_way_at_both_ends_widens_one_side():
    bands = band_of(moving(lambda at: {"square": (at["x"] - 2) ** 2}), {"x": (1.0, 3.0)}, {"square": 0.0})
    assert bands["square"] == pytest.approx((0, 1))


def test_whole_numbers_texts_and_missing_figures_have_no_band():
    def figures(at):
        return {"count": 3, "name": "go"} | ({"fits": at["x"]} if at["x"] == 2 else {"fits": None})

    bands = band_of(moving(figures), {"x": (1.0, 3.0)}, {"count": 3, "name": "go", "fits": 2.0})
    assert bands == {"fits": (2.0, 2.0)}


def test_without_uncertain_inputs_the_band_is_the_answer():
    assert band_of(moving(lambda at: {"z": at["z"]}), {}, {"z": 4.0}) == {"z": (4.0, 4.0)}


def test_two_choices_can_be_the_ends_of_a_band():
    """Sand a gives 2, b 1.5, c 2.25: from 1.5 to 2.25."""

    def ask(moved):
        return {"time": {"a": 2.0, "b": 1.5, "c": 2.25}[moved.get("sand", "a")]}

    assert band_of(ask, {"sand": ("b", "c")}, {"time": 2.0})["time"] == pytest.approx((1.5, 2.25))


def test_two_choices_on_one_side_of_the_answer_widen_that_side():
    """2, 3 and 5, and another input of ± 4: high √(3² + 4²) = 5, low 4."""

    def ask(moved):
        return {"time": {"a": 2.0, "b": 3.0, "c": 5.0}[moved.get("sand", "a")] + moved.get("x", 0.0)}

    assert band_of(ask, {"sand": ("b", "c"), "x": (-4.0, 4.0)}, {"time": 2.0})["time"] == pytest.approx((-2, 7))


def test_a_rough_band_is_scaled_in_proportion():
    """8 to 12 about 10 is 0.8 to 1.2: about 20 it is 16 to 24."""
    assert rescaled_bands({"y": (8.0, 12.0)}, {"y": 10.0}, {"y": 20.0})["y"] == pytest.approx((16, 24))


def test_what_each_input_moves_is_scaled_in_proportion():
    """Half as much again of 10 is 15; about 0 there is no proportion, so it stays."""
    rough = Propagated(
        bands={"y": (8.0, 13.0), "z": (0.0, 1.0)}, effects={"y": {"x": (2.0, 3.0)}, "z": {"x": (0.0, 1.0)}}
    )
    found = rescaled(rough, {"y": 10.0, "z": 0.0}, {"y": 15.0, "z": 0.2})
    assert found.effects == {"y": {"x": (3.0, 4.5)}, "z": {"x": (0.0, 1.0)}}


def test_a_rough_band_about_zero_is_shifted():
    """0 to 0.5 about 0: about 0.1 it is 0.1 to 0.6."""
    assert rescaled_bands({"y": (0.0, 0.5)}, {"y": 0.0}, {"y": 0.1})["y"] == pytest.approx((0.1, 0.6))
    assert rescaled_bands({"y": (0.0, 0.5)}, {"y": 0.0}, {"y": 0.0})["y"] == pytest.approx((0.0, 0.5))


def test_a_figure_missing_from_one_of_the_two_answers_has_no_band():
    bands = {"only_rough": (1.0, 2.0), "only_fine": (1.0, 2.0), "count": (1.0, 2.0), "both": (1.0, 2.0)}
    rough = {"only_rough": 1.5, "count": 3, "both": 1.5}
    assert set(rescaled_bands(bands, rough, {"only_fine": 1.5, "count": 3, "both": 1.5})) == {"both"}


def test_a_band_about_a_tiny_rough_figure_is_kept_where_the_fine_answer_is_zero():
    """Rough 0.001 with 0 to 0.4: the fine answer 0 keeps 0.4."""
    assert rescaled_bands({"y": (0.0, 0.4)}, {"y": 0.001}, {"y": 0.0})["y"][1] == pytest.approx(0.4, abs=0.01)


def test_figures_whose_squares_overflow_have_a_band():
    """10²⁰⁰ x with x of 1 between 0 and 3: from 0 to 3 · 10²⁰⁰."""
    band = band_of(lambda moved: {"y": 1e200 * moved.get("x", 1.0)}, {"x": (0.0, 3.0)}, {"y": 1e200})["y"]
    assert band == pytest.approx((0.0, 3e200))


class TestShares:
    def test_the_shares_of_a_sum_are_the_squares_of_the_widths(self):
        """± 3 and ± 4 in a sum are 9/25 and 16/25 of its variance."""
        found = propagate(
            moving(lambda at: {"sum": at["x"] + at["y"]}), {"x": (-1.0, 5.0), "y": (-1.0, 7.0)}, {"sum": 5.0}
        )
        assert [(key, share, effect) for key, share, effect in found.shares("sum")] == [
            ("y", pytest.approx(0.64), pytest.approx((4, 4))),
            ("x", pytest.approx(0.36), pytest.approx((3, 3))),
        ]

    def test_an_input_that_moves_nothing_has_no_share(self):
        found = propagate(moving(lambda at: {"x": at["x"]}), {"x": (1.0, 3.0), "y": (0.0, 9.0)}, {"x": 2.0})
        assert [key for key, *_ in found.shares("x")] == ["x"]
        assert propagate(moving(lambda at: {"z": at["z"]}), {"x": (1.0, 3.0)}, {"z": 4.0}).shares("z") == []

    def test_figures_whose_squares_overflow_have_shares(self):
        found = propagate(lambda moved: {"y": 1e200 * moved.get("x", 1.0)}, {"x": (0.0, 3.0)}, {"y": 1e200})
        assert found.shares("y") == [("x", 1.0, pytest.approx((1e200, 2e200)))]


class TestOpenEnds:
    """An answer 10/x, which exists for x above 1 only."""

    def ask(self, moved):
        x = moved.get("x", 2.0)
        return {"y": 10 / x} if x > 1 else {}

    def test_a_band_goes_as_far_as_there_is_an_answer(self):
        found = propagate(self.ask, {"x": (0.5, 3.5)}, {"y": 5.0}, {"x": 2.0})
        assert found.bands["y"] == pytest.approx((10 / 3.5, 10))
        assert found.open_ends["y"]["x"] == pytest.approx(1)

    def test_a_wider_input_never_narrows_the_answer(self):
        widths = [
            propagate(self.ask, {"x": (2 - half, 2 + half)}, {"y": 5.0}, {"x": 2.0}).bands["y"]
            for half in (0.5, 0.99, 1.0, 1.5, 30)
        ]
        assert all(
            wider[0] <= band[0] and wider[1] >= band[1] * (1 - 1e-12) for band, wider in itertools.pairwise(widths)
        )

    def test_arithmetic_without_an_answer_is_an_open_end_and_no_fault(self):
        found = propagate(lambda moved: {"y": 1 / moved.get("x", 2.0)}, {"x": (0.0, 4.0)}, {"y": 0.5}, {"x": 2.0})
        assert found.bands["y"][0] == pytest.approx(0.25)
        assert "x" in found.open_ends["y"]


def test_a_turn_inside_a_band_is_looked_at_like_an_end():
    """|x - 7| about 5: at 7 it is 0, though both ends of 1 to 9 give at least 2."""

    def distance(moved):
        return {"y": abs(moved.get("x", 5.0) - 7)}

    without = propagate(distance, {"x": (1.0, 9.0)}, {"y": 2.0}).bands["y"]
    assert without == (2, 6)
    assert propagate(distance, {"x": (1.0, 9.0)}, {"y": 2.0}, turns={"x": 7.0}).bands["y"] == (0, 6)
    assert propagate(distance, {"x": (3.0, 6.0)}, {"y": 2.0}, turns={"x": 7.0}).bands["y"] == (1, 4)
    assert propagate(distance, {"x": (3.0, 7.0)}, {"y": 2.0}, turns={"z": 7.0}).bands["y"] == (0, 4)


def test_changes_that_multiply_add_as_logarithms():
    """Two factors of 2 and 3 each way together are exp √(ln²2 + ln²3), about 3.67."""

    def product(moved):
        return {"y": 5 * moved.get("a", 1.0) * moved.get("b", 1.0)}

    factor = math.exp(math.hypot(math.log(2), math.log(3)))
    found = propagate(product, {"a": (1 / 2, 2.0), "b": (1 / 3, 3.0)}, {"y": 5.0}, by_factor={"y"})
    assert found.bands["y"] == pytest.approx((5 / factor, 5 * factor))


def test_changes_that_leave_nothing_are_added():
    def less(moved):
        return {"y": moved.get("a", 1.0) - 1 + moved.get("b", 1.0)}

    bands = {"a": (0.0, 2.0), "b": (0.5, 1.5)}
    added, multiplied = (propagate(less, bands, {"y": 1.0}, by_factor=named).bands for named in ((), {"y"}))
    assert multiplied == added


def test_a_figure_known_to_a_factor_without_bands_has_no_range():
    assert propagate(lambda _: {"y": 2.0}, {}, {"y": 2.0}, by_factor={"y"}).bands == {"y": (2.0, 2.0)}
