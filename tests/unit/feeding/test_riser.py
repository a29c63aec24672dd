"""The demands on a riser, by hand."""

import math

import pytest

from sandmix.feeding import riser
from sandmix.feeding.modulus import cylinder_cm3, riser_share


def test_volume_needed_feeds_casting_and_riser():
    """200 cm³ at 5 % from 14 %: 10/0.09 = 111.11 cm³, and 14 % of it is 5 % of 311.11 cm³."""
    needed = riser.feed_needed_cm3(200.0, 0.05, 0.14)
    assert needed == pytest.approx(111.111, abs=0.001)
    assert 0.14 * needed == pytest.approx(0.05 * (200 + needed))


def test_a_riser_that_gives_no_more_than_it_shrinks_is_never_large_enough():
    assert riser.feed_needed_cm3(200.0, 0.14, 0.14) == math.inf


def test_the_larger_demand_decides():
    assert riser.decides(50.0, 60.0) == "volume"
    assert riser.decides(60.0, 50.0) == "freezing"
    assert riser.decides(60.0, 60.0) == "freezing"


def test_made_in_steps_of_five():
    assert [riser.made_mm(diameter) for diameter in (0.1, 5.0, 5.000000000001, 57.2)] == [5.0, 5.0, 5.0, 60.0]


@pytest.mark.parametrize("kind", ["side", "top"])
def test_a_flatter_riser_has_the_same_modulus(kind):
    """Its volume over its faces, at a height of 40 mm, for a modulus of 12 mm."""
    diameter = riser.flat_diameter_mm(12.0, 0.0, kind, 40.0)
    end = math.pi / 4 * diameter**2
    faces = math.pi * diameter * 40 + (2 if kind == "side" else 1) * end
    assert end * 40 / faces == pytest.approx(12.0)


def test_a_flatter_riser_holds_the_volume_too():
    """500 cm³ at 40 mm: √(4 × 500 000/(40 π)) = 126.16 mm."""
    assert riser.flat_diameter_mm(1.0, 500.0, "side", 40.0) == pytest.approx(126.157, abs=0.001)


@pytest.mark.parametrize(("kind", "high"), [("side", 24.0), ("top", 12.0), ("side", 3.0)])
def test_a_layer_thinner_than_its_modulus_allows_is_never_enough(kind, high):
    """A flat layer has at most h/2, or h where its base does not cool."""
    assert riser.flat_diameter_mm(12.0, 0.0, kind, high) is None


class TestCovering:
    """A riser on top takes its base from the casting's cooling surface."""

    def test_both_agree_at_the_root(self):
        """A block of 120 × 100 × 40 mm: V 480 cm³, A 416 cm²."""
        diameter = riser.covering_diameter_mm(480.0, 416.0, 1.2, 0.5)
        left_cm2 = 416 - math.pi / 4 * (diameter / 10) ** 2
        assert riser_share("top", 0.5) * diameter == pytest.approx(1.2 * 4800 / left_cm2)
        assert riser.covered_modulus_mm(480.0, 416.0, diameter) == pytest.approx(4800 / left_cm2)
        assert diameter > 6 * 1.2 * 4800 / 416

    def test_none_where_it_would_cover_more_than_a_third(self):
        """A cube of 100 mm: D (60 000 − 0.7854 D²) is at most 6.38 million at 159.6 mm, and 7.2 million is needed."""
        assert riser.covering_diameter_mm(1000.0, 600.0, 1.2, 0.5) is None

    def test_no_more_than_the_flat_face_is_covered(self):
        """The same cube with its face of 100 cm²: 7.2 million/50 000 = 144 mm."""
        assert riser.covering_diameter_mm(1000.0, 600.0, 1.2, 0.5, 100.0) == pytest.approx(144.0)

    def test_a_riser_smaller_than_the_face_covers_only_its_base(self):
        small = riser.covering_diameter_mm(480.0, 416.0, 1.2, 0.5)
        assert riser.covering_diameter_mm(480.0, 416.0, 1.2, 0.5, 200.0) == small

    def test_a_face_smaller_than_the_riser_is_covered_whole(self):
        """50 cm² of the block: 6 × 1.2 × 480 000/(41 600 − 5000) = 94.43 mm, whose base of 70 cm² is larger than that face."""
        assert riser.covering_diameter_mm(480.0, 416.0, 1.2, 0.5, 50.0) == pytest.approx(94.426, abs=0.001)

    def test_a_casting_that_is_wholly_covered_never_freezes(self):
        assert riser.covering_diameter_mm(1000.0, 600.0, 1.2, 0.5, 600.0) is None
        assert riser.covered_modulus_mm(1000.0, 600.0, 1000.0) == math.inf


def test_the_neck_is_a_round_bar():
    """π/4 d² over π d is d/4."""
    assert riser.neck_mm(5.5) == 22.0


def test_the_riser_of_the_freezing_demand_has_its_modulus():
    diameter = riser.freezing_diameter_mm(9.0, "top", 1.0)
    assert diameter == pytest.approx(45.0)
    assert cylinder_cm3(diameter, 1.0) == pytest.approx(71.569, abs=0.001)
