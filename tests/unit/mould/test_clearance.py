"""The sand around a pattern, and the smallest flask that leaves it, by hand arithmetic."""

import pytest

from sandmix.mould import clearance
from sandmix.mould.body import Body
from sandmix.mould.clearance import Clearance, Mould, Riser
from sandmix.mould.flask import Flask

BLOCK = Body(shape="box", length_mm=150, width_mm=100, height_mm=40)
NEEDED = Clearance(above_mm=40, below_mm=40, beside_mm=30, between_mm=30)


def inside(length, width, drag, cope):
    return Flask(length_mm=length, width_mm=width, drag_depth_mm=drag, cope_depth_mm=cope)


def row_of(needed):
    return needed.above_mm, needed.below_mm, needed.beside_mm, needed.between_mm


@pytest.mark.parametrize(
    ("casting", "row"),
    [
        (0, (40, 40, 30, 30)),
        (5, (40, 40, 30, 30)),
        (5.1, (50, 50, 40, 40)),
        (10, (50, 50, 40, 40)),
        (11, (60, 60, 40, 50)),
        (99, (60, 60, 40, 50)),
    ],
)
def test_a_heavier_casting_needs_more_sand_around_it(casting, row):
    """Trade figures, from memory: up to 5 kg 40, 40, 30, 30; to 10 kg 50, 50, 40, 40; 11 to 25 kg 60, 60, 40, 50."""
    assert row_of(clearance.required(casting)) == row


def test_the_home_rule_needs_less_whatever_the_mass():
    """40 to 50 above, 25 to 40 below, 25 beside: the low ends, as they are least figures."""
    assert row_of(clearance.required(1, "home")) == row_of(clearance.required(50, "home")) == (40, 25, 25, 25)


def test_the_smallest_flask_is_the_pattern_and_its_sand():
    """150 + 60 by 100 + 60; 40 + 40 deep, and 40 of cope."""
    assert Mould(BLOCK, 1, 40, NEEDED).smallest_flask() == inside(210, 160, 80, 40)


def test_a_sprue_takes_up_space_at_one_end():
    """Along the length 30 + 20 more: 260 × 160 = 41 600, and 210 × 210 = 44 100 with the pattern turned."""
    assert Mould(BLOCK, 1, 40, NEEDED, 20).smallest_flask() == inside(260, 160, 80, 40)


def test_the_parting_shifts_depth_from_drag_to_cope():
    assert Mould(BLOCK, 1, 10, NEEDED).smallest_flask() == inside(210, 160, 50, 70)


def test_an_open_mould_has_no_cope_and_all_of_the_pattern_in_the_drag():
    assert Mould(BLOCK, 1, 10, NEEDED, is_open=True).smallest_flask() == inside(210, 160, 80, 0)


def test_several_lie_in_rows_with_sand_between():
    """Four as 2 × 2: 150 + 30 + 150 + 60 by 100 + 30 + 100 + 60 = 390 × 290, 113 100; in one row of four across: 210 × 550, 115 500."""
    assert Mould(BLOCK, 4, 40, NEEDED).smallest_flask() == inside(390, 290, 80, 40)


def test_sizes_go_up_to_the_next_5_mm():
    odd = Body(shape="box", length_mm=151, width_mm=96, height_mm=41.2)
    assert Mould(odd, 1, 41.2, NEEDED).smallest_flask() == inside(215, 160, 85, 40)


def test_the_sand_that_a_flask_leaves():
    """300 × 200: (300 − 150) / 2 = 75 at the ends, (200 − 100) / 2 = 50 at the sides."""
    margins = clearance.margins(inside(300, 200, 90, 70), Mould(BLOCK, 1, 30, NEEDED))
    assert (margins.ends_mm, margins.sides_mm, margins.below_mm, margins.above_mm) == (75, 50, 60, 60)
    assert margins.lacks(NEEDED) == {}


def test_what_is_missing_where():
    """Turned or not, 200 × 150 is too narrow: (200 − 150) / 2 = 25, (150 − 100) / 2 = 25; 60 − 40 = 20 below; 30 above."""
    margins = clearance.margins(inside(200, 150, 60, 30), Mould(BLOCK, 1, 40, NEEDED))
    assert margins.lacks(NEEDED) == {"above": 10, "below": 20, "at the ends": 5, "at the sides": 5}
    assert "above" not in margins.lacks(NEEDED, is_open=True)


def test_half_a_millimetre_is_missing_and_a_hundredth_is_not():
    for short_mm, told in (
        (0.5, {"below": pytest.approx(0.5)}),
        (0.0095, {}),
        (0.0105, {"below": pytest.approx(0.0105)}),
    ):
        margins = clearance.margins(inside(300, 200, 80 - short_mm, 70), Mould(BLOCK, 1, 40, NEEDED))
        assert margins.lacks(NEEDED) == told


def test_the_pattern_is_turned_where_that_suits():
    margins = clearance.margins(inside(160, 210, 80, 40), Mould(BLOCK, 1, 40, NEEDED))
    assert (margins.layout.along_mm, margins.layout.across_mm) == (100, 150)
    assert margins.lacks(NEEDED) == {}


class TestRiser:
    """A riser of 40 mm: beside the casting it takes 40 mm and a neck of half as much, on top the depth of the cope."""

    BESIDE = Riser(diameter_mm=40, height_mm=60, is_on_top=False)
    ON_TOP = Riser(diameter_mm=40, height_mm=60, is_on_top=True)

    def test_beside_the_casting_it_takes_length_and_its_height_of_cope(self):
        """150 + 20 + 40 + 60 = 270 by 160, 43 200; turned 100 + 60 + 60 = 220 by 210, 46 200. The riser is 60 high, the sand above 40."""
        assert Mould(BLOCK, 1, 40, NEEDED, riser=self.BESIDE).smallest_flask() == inside(270, 160, 80, 60)

    def test_each_casting_has_its_own_before_the_sprue(self):
        """Two along the flask: 2 × (150 + 60) + 30 + 30 + 20 + 60 = 560 by 160, 89 600; beside one another 320 by 290, 92 800;

        turned, along 2 × (100 + 60) + 30 + 50 + 60 = 460 by 210, 96 600; turned, beside one another 270 by 390, 105 300.
        """
        assert Mould(BLOCK, 2, 40, NEEDED, 20, riser=self.BESIDE).smallest_flask() == inside(560, 160, 80, 60)

    def test_one_wider_than_the_casting_takes_width(self):
        """A bar 200 × 20: 200 + 60 + 60 = 320 by 40 + 60 = 100, 32 000."""
        bar = Body(shape="box", length_mm=200, width_mm=20, height_mm=40)
        assert Mould(bar, 1, 40, NEEDED, riser=self.BESIDE).smallest_flask() == inside(320, 100, 80, 60)

    def test_on_top_it_needs_a_cope_as_high_as_the_casting_in_it_and_itself(self):
        """10 mm of the casting and 60 of the riser in the cope: 70; with the parting on top, 60."""
        assert Mould(BLOCK, 1, 30, NEEDED, riser=self.ON_TOP).smallest_flask() == inside(210, 160, 70, 70)
        assert Mould(BLOCK, 1, 40, NEEDED, riser=self.ON_TOP).smallest_flask() == inside(210, 160, 80, 60)

    def test_a_low_one_leaves_the_cope_to_the_sand_above(self):
        low = Riser(diameter_mm=40, height_mm=20, is_on_top=False)
        assert Mould(BLOCK, 1, 40, NEEDED, riser=low).smallest_flask().cope_depth_mm == 40

    def test_a_cope_that_is_too_low_for_it_is_named(self):
        """60 mm of riser in 45 mm of cope."""
        margins = clearance.margins(inside(300, 200, 90, 45), Mould(BLOCK, 1, 40, NEEDED, riser=self.BESIDE))
        assert margins.lacks(NEEDED) == {"of cope for the riser": 15}

    def test_an_open_mould_needs_none(self):
        assert Mould(BLOCK, 1, 40, NEEDED, is_open=True, riser=self.BESIDE).smallest_flask() == inside(210, 160, 80, 0)
