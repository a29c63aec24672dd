"""Worked examples on risers.

Sources, all as a note of this project has them; "computed" is a question that was read with an answer worked out in that note:
- riser_sheet: riser problem sheet of a university (read): plate 7.5 × 12.5 × 2.0 cm, 1.6 min; riser for 2.0 min.
- an entrance paper of 2014 (computed): plate 7 × 10 × 2 cm, 1.36 min; riser of 6 × 6 cm. One of 1993 (computed): aluminium cube of 10 cm, 6 %.
- ghosh_mallik_riser: Ghosh and Mallik, sample problem 2.9 (read): aluminium cube of 15 cm, 6.5 %, without the factor 1.2.
- caine: values derived with constants from memory. naval_shape_factor: question read, answer computed with a table from memory.
- shrinkage_table: shrinkages read, volumes derived with 14 %, which is from memory.
- circles in joints: derived, exact geometry. neck_order: one set of moduli in a translated paper (read).
Tolerance: half the last printed digit.
"""

import math

import pytest

from sandmix.feeding import comparison, joints, riser
from sandmix.feeding.modulus import SIDE, TOP, cylinder_cm3, diameter_of_volume_mm, riser_share


def block(length_cm, width_cm, height_cm):
    """Volume, surface and modulus of a block, in cm³, cm² and mm."""
    volume = length_cm * width_cm * height_cm
    area = 2 * (length_cm * width_cm + length_cm * height_cm + width_cm * height_cm)
    return volume, area, 10 * volume / area


def inputs(*sides_cm):
    volume, area, _ = block(*sides_cm)
    return {"casting_volume_cm3": volume, "casting_area_cm2": area}


class TestProblemSheet:
    """Plate 7.5 × 12.5 × 2.0 cm that freezes in 1.6 min, and a riser H = D for 2.0 min: K 3.26 min/cm², D 4.70 cm, 81.5 cm³, 44 %."""

    VOLUME, _, MODULUS = block(7.5, 12.5, 2.0)

    def test_its_constant(self):
        min_per_cm2 = 1.6 / (self.MODULUS / 10) ** 2
        assert min_per_cm2 == pytest.approx(3.26, abs=0.005)

    def test_its_riser(self):
        diameter = riser.freezing_diameter_mm(self.MODULUS * math.sqrt(2.0 / 1.6), SIDE, 1.0)
        assert diameter == pytest.approx(47.0, abs=0.05)
        assert cylinder_cm3(47.0, 1.0) == pytest.approx(81.5, abs=0.05)
        assert 100 * cylinder_cm3(diameter, 1.0) / self.VOLUME == pytest.approx(44, abs=0.5)

    def test_the_job_gives_the_same(self, result):
        found = result("feed", **inputs(7.5, 12.5, 2.0), riser_ratio=math.sqrt(2.0 / 1.6), shrinkage_pct=0)
        assert found["riser_diameter_mm"] == pytest.approx(47.0, abs=0.05)


def test_the_paper_of_2014():
    """7 × 10 × 2 cm in 1.36 min; 6 × 6 cm in 3.00 min."""
    _, _, modulus = block(7, 10, 2)
    assert 1.36 * (riser_share(SIDE, 1.0) * 60 / modulus) ** 2 == pytest.approx(3.00, abs=0.005)


class TestCubeOf15:
    """Aluminium, 6.5 %: three times the shrinkage 658 cm³ → 9.43 cm; freezing D 15 cm, 2650 cm³ (side) or D 18, H 9, 2290 cm³ (top)."""

    CUBE = inputs(15, 15, 15)

    def test_the_classroom_rule(self, result):
        found = result("feed", **self.CUBE, shrinkage_pct=6.5)
        assert found["classroom_cm3"] == pytest.approx(658, abs=0.5)
        assert diameter_of_volume_mm(found["classroom_cm3"], 1.0) == pytest.approx(94.3, abs=0.1)

    def test_beside_it_without_the_factor(self, result):
        found = result("feed", **self.CUBE, shrinkage_pct=0, riser_ratio=1)
        assert found["riser_diameter_mm"] == pytest.approx(150, abs=0.5)
        assert found["riser_volume_cm3"] == pytest.approx(2650, abs=5)

    def test_on_top_of_it_a_face_less_cools(self, result):
        found = result("feed", **self.CUBE, shrinkage_pct=0, riser_ratio=1, riser_kind=TOP, top_face_cm2=225)
        assert found["covered_modulus_mm"] == pytest.approx(30, abs=0.5)
        assert found["covered_diameter_mm"] == pytest.approx(180, abs=0.5)
        assert cylinder_cm3(180, 0.5) == pytest.approx(2290, abs=5)


class TestCubeOf10:
    """Aluminium, 6 %: 60 cm³; three times that → 6.12 cm; 1.2 times the modulus → 12.0 cm."""

    def test_its_two_demands(self, result):
        found = result("feed", **inputs(10, 10, 10), shrinkage_pct=6)
        assert found["shrinkage_cm3"] == pytest.approx(60, abs=0.5)
        assert diameter_of_volume_mm(found["classroom_cm3"], 1.0) == pytest.approx(61.2, abs=0.05)
        assert found["riser_diameter_mm"] == pytest.approx(120, abs=0.5)
        assert found["decides"] == "freezing"


def test_a_slab_has_the_right_modulus_where_a_page_met_has_a_wrong_one():
    """25 × 25 × 5 cm: 1.786 cm, not 2.98."""
    assert block(25, 25, 5)[2] == pytest.approx(17.86, abs=0.005)


def test_a_fifth_more_modulus_is_44_percent_more_time():
    more = riser.RATIO**2
    assert more == pytest.approx(1.44)


@pytest.mark.parametrize(
    ("kind", "sides", "caine_cm", "modulus_cm"),
    [
        ("steel", (25, 25, 5), 12.85, 12.86),
        ("steel", (30, 30, 6), 15.41, None),
        ("aluminium", (10, 10, 10), 11.63, 12.00),
    ],
)
def test_caine_against_the_modulus_method(kind, sides, caine_cm, modulus_cm):
    volume, _, modulus = block(*sides)
    found = comparison.caine_diameter_mm(comparison.CAINE[kind], volume, modulus)
    assert found == pytest.approx(10 * caine_cm, abs=0.05)
    if modulus_cm:
        assert riser.freezing_diameter_mm(1.2 * modulus, SIDE, 1.0) == pytest.approx(10 * modulus_cm, abs=0.05)


def test_the_shape_factor():
    """25 × 15 × 5 cm: S 8, half the casting's volume, D = H 10.61 cm."""
    volume, _, _ = block(25, 15, 5)
    factor = comparison.shape_factor((250.0, 150.0, 50.0))
    assert factor == pytest.approx(8)
    ratio = comparison.naval_volume_ratio(factor)
    assert diameter_of_volume_mm(ratio * volume, 1.0) == pytest.approx(106.1, abs=0.05)


@pytest.mark.parametrize(("factor", "ratio"), [(2, 1.00), (4, 0.70), (6, 0.55), (8, 0.50), (10, 0.40), (12, 0.35)])
def test_the_table_of_the_shape_factor(factor, ratio):
    assert comparison.naval_volume_ratio(factor) == pytest.approx(ratio, abs=0.005)


@pytest.mark.parametrize(
    ("shrinkage_pct", "ratio"),
    [
        *((7.1, 1.03), (6.3, 0.82), (3.8, 0.37), (4.9, 0.54), (4.5, 0.47), (4.0, 0.40), (6.5, 0.87), (4.2, 0.43)),
        *((2.5, 0.22), (5.5, 0.65)),
    ],
)
def test_the_riser_that_each_shrinkage_needs_at_14_percent(shrinkage_pct, ratio):
    """V_f/V_c of the table."""
    assert riser.feed_needed_cm3(1.0, shrinkage_pct / 100, 0.14) == pytest.approx(ratio, abs=0.005)


@pytest.mark.parametrize(
    ("joint", "sharp", "filleted"),
    [("l", 1.1716, 13.431), ("t", 1.25, 15.000), ("x", 1.4142, 18.284), ("y", 1.1547, None)],
)
def test_the_circles_in_joints(joint, sharp, filleted):
    """D/t of sharp joints, and D for walls of 10 mm with a fillet of 5 mm."""
    assert joints.JOINTS[joint](1.0, 0.0) == pytest.approx(sharp, abs=0.00005)
    if filleted:
        assert joints.JOINTS[joint](10.0, 5.0) == pytest.approx(filleted, abs=0.0005)


def test_the_neck_of_a_published_iron_casting_lies_between_the_limits(result):
    """Casting, neck and riser of 6.471, 9.75 and 10.36 mm: only the order is general."""
    found = result("feed", modulus_mm=6.471, riser_ratio=10.36 / 6.471)
    assert found["neck_least_mm"] < 4 * 9.75 < found["neck_most_mm"]
