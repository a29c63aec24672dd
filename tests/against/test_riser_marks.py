"""Worked examples on risers.

Sources, all as a note of this project has them; "computed" is a question that was read with an answer worked out in that note:
- riser_sheet: riser problem sheet of a university (read): plate 7.5 × 12.5 × 2.0 cm, 1.6 min; riser for 2.0 min.
- exam_2014: an entrance paper of 2014 (computed): plate 7 × 10 × 2 cm, 1.36 min; riser of 6 × 6 cm. exam_1993: one of 1993 (computed):
  aluminium cube of 10 cm, 6 %.
- ghosh_mallik_riser: Ghosh and Mallik, sample problem 2.9 (read): aluminium cube of 15 cm, 6.5 %, without the factor 1.2.
- caine: values derived with constants from memory. naval_shape_factor: question read, answer computed with a table from memory.
- shrinkage_table: shrinkages read, volumes derived with 14 %, which is from memory.
- circles in joints: derived, exact geometry. neck_order: one set of moduli in a translated paper (read).
"""

import math

import pytest
from against.published import Checks

from sandmix.feeding import comparison, joints, riser
from sandmix.feeding.modulus import SIDE, TOP, cylinder_cm3, diameter_of_volume_mm, riser_share

SHEET = Checks("riser_freezing", source="riser_sheet", sure="read")
CUBE = SHEET.but(source="ghosh_mallik_riser")
EXAM_2014, EXAM_1993 = SHEET.but(source="exam_2014", sure="inputs"), SHEET.but(source="exam_1993", sure="inputs")
RULES = Checks("riser_rules", source="classroom_riser", sure="read")
CAINE = RULES.but(source="caine", sure="memory")
NAVAL = RULES.but(source="naval_shape_factor", sure="memory")
JOINTS = Checks("joints", source="geometry", sure="derived")


def block(length_cm, width_cm, height_cm):
    """Volume, surface and modulus of a block, in cm³, cm² and mm."""
    volume = length_cm * width_cm * height_cm
    area = 2 * (length_cm * width_cm + length_cm * height_cm + width_cm * height_cm)
    return volume, area, 10 * volume / area


def inputs(*sides_cm):
    volume, area, _ = block(*sides_cm)
    return {"casting_volume_cm3": volume, "casting_area_cm2": area}


class TestProblemSheet:
    """Plate 7.5 × 12.5 × 2.0 cm that freezes in 1.6 min, and a riser H = D for 2.0 min."""

    VOLUME, _, MODULUS = block(7.5, 12.5, 2.0)

    def test_its_constant(self):
        min_per_cm2 = 1.6 / (self.MODULUS / 10) ** 2
        SHEET.figure(
            min_per_cm2, "3.26", "constant of a plate of 7.5 × 12.5 × 2.0 cm that freezes in 1.6 min", unit="min/cm²"
        )

    def test_its_riser(self):
        diameter = riser.freezing_diameter_mm(self.MODULUS * math.sqrt(2.0 / 1.6), SIDE, 1.0)
        SHEET.figure(diameter / 10, "4.70", "its riser for 2.0 min", unit="cm")
        SHEET.figure(cylinder_cm3(47.0, 1.0), "81.5", "volume of that riser", unit="cm³")
        SHEET.figure(100 * cylinder_cm3(diameter, 1.0) / self.VOLUME, "44", "share of the plate", unit="%")

    def test_the_job_gives_the_same(self, result):
        found = result("feed", **inputs(7.5, 12.5, 2.0), riser_ratio=math.sqrt(2.0 / 1.6), shrinkage_pct=0)
        SHEET.figure(found["riser_diameter_mm"] / 10, "4.70", "its riser for 2.0 min", unit="cm")


def test_the_paper_of_2014():
    """7 × 10 × 2 cm in 1.36 min; 6 × 6 cm in 3.00 min."""
    _, _, modulus = block(7, 10, 2)
    found = 1.36 * (riser_share(SIDE, 1.0) * 60 / modulus) ** 2
    EXAM_2014.figure(found, "3.00", "riser of 6 × 6 cm beside a plate of 7 × 10 × 2 cm that takes 1.36", unit="min")


class TestCubeOf15:
    """Aluminium, 6.5 %."""

    CAST = inputs(15, 15, 15)

    def test_the_classroom_rule(self, result):
        found = result("feed", **self.CAST, shrinkage_pct=6.5)
        by_volume = CUBE.but(topic="riser_rules")
        by_volume.figure(
            found["classroom_cm3"], "658", "three times the shrinkage, aluminium cube of 15 cm", unit="cm³"
        )
        wide = diameter_of_volume_mm(found["classroom_cm3"], 1.0) / 10
        by_volume.figure(wide, "9.43", "width of that riser", unit="cm", within=0.01)

    def test_beside_it_without_the_factor(self, result):
        found = result("feed", **self.CAST, shrinkage_pct=0, riser_ratio=1)
        CUBE.figure(
            found["riser_diameter_mm"], "150", "riser beside an aluminium cube of 15 cm, without the 1.2", unit="mm"
        )
        CUBE.figure(found["riser_volume_cm3"], "2650", "volume of that riser", unit="cm³", within=5)

    def test_on_top_of_it_a_face_less_cools(self, result):
        found = result("feed", **self.CAST, shrinkage_pct=0, riser_ratio=1, riser_kind=TOP, top_face_cm2=225)
        CUBE.figure(found["covered_modulus_mm"], "30", "modulus of the cube with a face covered", unit="mm")
        CUBE.figure(found["covered_diameter_mm"], "180", "riser on top of it, half as high as wide", unit="mm")
        CUBE.figure(cylinder_cm3(180, 0.5), "2290", "volume of the riser on top", unit="cm³", within=5)


class TestCubeOf10:
    """Aluminium, 6 %."""

    def test_its_two_demands(self, result):
        found = result("feed", **inputs(10, 10, 10), shrinkage_pct=6)
        wide = diameter_of_volume_mm(found["classroom_cm3"], 1.0) / 10
        EXAM_1993.but(topic="riser_volume").figure(
            found["shrinkage_cm3"], "60", "shrinkage of a cube of 10 cm", unit="cm³"
        )
        EXAM_1993.but(topic="riser_rules").figure(wide, "6.12", "width of a riser of three times that", unit="cm")
        EXAM_1993.figure(found["riser_diameter_mm"], "120", "riser of 1.2 times its modulus", unit="mm")
        assert found["decides"] == "freezing"


def test_a_slab_has_the_right_modulus_where_a_page_met_has_a_wrong_one():
    """25 × 25 × 5 cm: 3125 cm³ over 1750 cm² is 1.786 cm."""
    found = block(25, 25, 5)[2] / 10
    SHEET.but(source="geometry", sure="derived").figure(
        found, "1.786", "modulus of a slab of 25 × 25 × 5 cm", unit="cm"
    )
    wrong = "its volume of 3125 cm³ over its surface of 1750 cm² is 1.786 cm"
    page = SHEET.but(source="slab_page")
    page.figure(found, "2.98", "modulus of a slab of 25 × 25 × 5 cm, as a page has it", unit="cm", differs=wrong)


def test_a_fifth_more_modulus_is_44_percent_more_time():
    SHEET.but(source="riser_modulus").figure(riser.RATIO, "1.2", "riser's modulus over the casting's")
    SHEET.but(source="geometry", sure="derived").figure(riser.RATIO**2, "1.44", "times as long to freeze")


@pytest.mark.parametrize(
    ("kind", "sides", "caine_cm", "modulus_cm"),
    [
        ("steel", (25, 25, 5), "12.85", "12.86"),
        ("steel", (30, 30, 6), "15.41", None),
        ("aluminium", (10, 10, 10), "11.63", "12.00"),
    ],
)
def test_caine_against_the_modulus_method(kind, sides, caine_cm, modulus_cm):
    volume, _, modulus = block(*sides)
    found = comparison.caine_diameter_mm(comparison.CAINE[kind], volume, modulus)
    what = f"{kind}, {' × '.join(map(str, sides))} cm"
    CAINE.figure(found / 10, caine_cm, f"riser by the hyperbola, {what}", unit="cm")
    if modulus_cm:
        found = riser.freezing_diameter_mm(1.2 * modulus, SIDE, 1.0)
        by_hand = SHEET.but(source="geometry", sure="derived")
        by_hand.figure(found / 10, modulus_cm, f"riser of 1.2 times the modulus, {what}", unit="cm")


def test_the_shape_factor():
    """25 × 15 × 5 cm: S 8, half the casting's volume, D = H 10.61 cm."""
    volume, _, _ = block(25, 15, 5)
    factor = comparison.shape_factor((250.0, 150.0, 50.0))
    NAVAL.figure(factor, "8", "shape factor of 25 × 15 × 5 cm", within=1e-9)
    ratio = comparison.naval_volume_ratio(factor)
    NAVAL.figure(diameter_of_volume_mm(ratio * volume, 1.0) / 10, "10.61", "riser of half its volume", unit="cm")


def test_the_table_of_the_shape_factor():
    found = [comparison.naval_volume_ratio(factor) for factor in (2, 4, 6, 8, 10, 12)]
    NAVAL.figure(found, "1.00, 0.70, 0.55, 0.50, 0.40, 0.35", "volume of the riser over the casting's, factor 2 to 12")


@pytest.mark.parametrize(
    ("source", "sure", "shrinkages", "ratios"),
    [
        ("shrinkage_table", "inputs", (7.1, 3.8, 4.5, 6.5), "1.03, 0.37, 0.47, 0.87"),
        ("shrinkage_memory", "memory", (6.3, 4.9, 4.0, 4.2, 2.5, 5.5), "0.82, 0.54, 0.40, 0.43, 0.22, 0.65"),
    ],
)
def test_the_riser_that_each_shrinkage_needs_at_14_percent(source, sure, shrinkages, ratios):
    """V_f/V_c of the table."""
    found = [riser.feed_needed_cm3(1.0, pct / 100, 0.14) for pct in shrinkages]
    what = f"volume of the riser over the casting's at 14 %, shrinkage of {', '.join(map(str, shrinkages))} %"
    Checks("riser_volume", source=source, sure=sure).figure(found, ratios, what)


@pytest.mark.parametrize(
    ("joint", "sharp", "filleted"),
    [("l", "1.1716", "13.431"), ("t", "1.2500", "15.000"), ("x", "1.4142", "18.284"), ("y", "1.1547", None)],
)
def test_the_circles_in_joints(joint, sharp, filleted):
    """D/t of sharp joints, and D for walls of 10 mm with a fillet of 5 mm."""
    letter = joint.upper()
    JOINTS.figure(joints.JOINTS[joint](1.0, 0.0), sharp, f"sharp {letter}, over the wall")
    if filleted:
        JOINTS.figure(joints.JOINTS[joint](10.0, 5.0), filleted, f"{letter} of 10 mm with a fillet of 5 mm", unit="mm")


def test_the_neck_of_a_published_iron_casting_lies_between_the_limits(result):
    """Casting, neck and riser of 6.471, 9.75 and 10.36 mm: only the order is general."""
    found = result("feed", modulus_mm=6.471, riser_ratio=10.36 / 6.471)
    neck = Checks("riser_rules", source="neck_paper", sure="read")
    low, high = found["neck_least_mm"] / 4, found["neck_most_mm"] / 4
    neck.covered(low, high, "9.75", "modulus of a neck between 6.471 and 10.36 mm", unit="mm")
