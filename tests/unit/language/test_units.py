"""Units and their conversion. The factors are definitions: inch 25.4 mm, pound 0.45359237 kg, gallons by law."""

import pytest

from sandmix.language.units import UNITS, Unreadable, convert, same_dimension
from sandmix.language.words import Quantity
from sandmix.vocabulary import WORDS

LAWFUL = [
    (1, "lb", "kg", 0.45359237),
    (16, "oz", "lb", 1),
    (1, "in", "mm", 25.4),
    (1, "ft", "in", 12),
    (1, "m", "cm", 100),
    (1, "in²", "cm²", 6.4516),
    (1, "in³", "cm³", 16.387064),
    (1, "US gal", "L", 3.785411784),
    (1, "imp gal", "L", 4.54609),
    (1, "ft³", "L", 28.316846592),
    (1, "t", "kg", 1000),
    (1.55, "kg/L", "kg/m³", 1550),
    (1, "lb/ft³", "kg/m³", 16.01846337),
    (212, "°F", "°C", 100),
    (-40, "°C", "°F", -40),
    (1, "h", "min", 60),
    (1, "day", "s", 86400),
    (1, "kgf", "N", 9.80665),
    (1, "lbf", "N", 4.4482216152605),
    (1, "psi", "kPa", 6.894757293168),
    (1, "N/cm²", "kPa", 10),
    (1, "MPa", "kPa", 1000),
    (1, "bar", "kPa", 100),
    (1, "kg/cm²", "kPa", 98.0665),
    (1000, "g/cm²", "kg/cm²", 1),
]


@pytest.mark.parametrize(("value", "given", "wanted", "expected"), LAWFUL)
def test_a_unit_converts_by_its_definition(value, given, wanted, expected):
    assert convert(value, given, wanted) == pytest.approx(expected, rel=1e-9)
    assert convert(expected, wanted, given) == pytest.approx(value, rel=1e-9)


def test_converting_to_the_same_unit_changes_nothing():
    assert convert(0.1 + 0.2, "kg", "kg") == 0.1 + 0.2


def test_a_mass_does_not_convert_to_a_length():
    with pytest.raises(Unreadable, match=r"kg does not measure the same thing as mm\. Write it in mm\."):
        convert(1, "kg", "mm")


def test_units_of_one_kind_are_listed_together():
    assert set(same_dimension("kg")) == {"kg", "g", "t", "lb", "oz"}
    assert same_dimension("%") == ("%",)


def test_every_unit_has_a_positive_factor_and_unique_names():
    assert all(unit.factor > 0 for unit in UNITS.values())
    names = [{name.lower() for name in (unit.symbol, *unit.aliases)} for unit in UNITS.values()]
    assert sum(map(len, names)) == len(set().union(*names))


def test_contact_is_in_watts_per_square_metre_and_kelvin():
    assert same_dimension("W/m²K") == ("W/m²K",)
    assert {"w/m2k", "w/m²k", "w/(m²k)", "w/(m2k)"} <= {name.lower() for name in UNITS["W/m²K"].aliases}
    with pytest.raises(Unreadable, match="does not measure the same thing"):
        convert(1, "W/m²K", "kg")


def test_a_pound_to_the_square_inch():
    """0.45359237 kg × 9.80665 m/s² over (0.0254 m)² = 4.4482216 N / 6.4516e-4 m² = 6894.757 Pa."""
    assert convert(1, "psi", "kPa") == pytest.approx(6.894757, abs=1e-6)


def test_every_quantity_has_a_unit_that_is_known():
    units_of_words = {word.unit for word in WORDS.values() if isinstance(word, Quantity)}
    assert units_of_words <= set(UNITS)
