"""The rules of thumb, by hand in their own units: pounds, inches and pounds per second."""

import math

import pytest

from sandmix.gating import pouring_time
from sandmix.language.units import convert
from sandmix.materials.metals import METALS


def kg(pounds):
    return convert(pounds, "lb", "kg")


def mm(inches):
    return convert(inches, "in", "mm")


@pytest.mark.parametrize(("wall", "rate"), [(3, 1.48), (5.9, 1.48), (6, 1.25), (12, 1.25), (12.1, 0.70), (30, 0.70)])
def test_sixteen_pounds_of_light_metal(wall, rate):
    """√16 / b."""
    assert pouring_time.light_metal_s(kg(16), wall) == pytest.approx(4 / rate)


@pytest.mark.parametrize(
    ("pounds", "power"), [(100, 0.5), (499, 0.5), (501, 0.67), (4999, 0.67), (5001, 0.70), (20_000, 0.70)]
)
def test_iron_of_one_inch(pounds, power):
    """R = W^p / (0.95 + 1/0.853) lb/s, t = W/R."""
    rate = pounds**power / (0.95 + 1 / 0.853)
    assert pouring_time.heavy_metal_s(kg(pounds), mm(1)) == pytest.approx(pounds / rate)


@pytest.mark.parametrize(("mass", "wall"), [(1, 5), (10, 10), (40, 25)])
def test_the_metric_form_of_the_same_rule(mass, wall):
    """(1.41 + T/14.59) √W: constants from memory, to their last printed digit."""
    assert pouring_time.heavy_metal_s(mass, wall) == pytest.approx((1.41 + wall / 14.59) * math.sqrt(mass), rel=0.002)


@pytest.mark.parametrize(
    ("metal", "place", "factor"),
    [("yellow_brass", "top", 1.9), ("tin_bronze", "bottom", 2.8), ("other", "top", 1.3), ("other", "bottom", 1.8)],
)
def test_copper_alloys_by_the_cube_root(metal, place, factor):
    assert pouring_time.copper_cube_root_s(8, metal, place) == pytest.approx(2 * factor)


def test_every_metal_has_a_rule_and_copper_alloys_two():
    counts = {metal: len(list(pouring_time.rules(metal, 2.0, 8.0, "top"))) for metal in METALS}
    assert {metal for metal, count in counts.items() if count == 2} == set(pouring_time.COPPER)
    assert set(counts.values()) == {1, 2}


def test_the_first_rule_is_the_usual_one():
    for metal in METALS:
        first = next(iter(pouring_time.rules(metal, 3.0, 7.0, "top")))
        assert pouring_time.usual_s(metal, 3.0, 7.0, "top") == first.time_s


def test_the_rule_of_zinc_says_that_it_is_borrowed():
    assert "none was found" in next(iter(pouring_time.rules("zinc_al12", 1.0, 8.0, "top"))).holds
