"""The units of a workshop and their conversion; nothing else in the library converts units."""

from __future__ import annotations

from dataclasses import dataclass

from sandmix.language.errors import SandmixError


class Unreadable(SandmixError):
    """A text that is not an amount: why, and what to write instead."""

    def __init__(self, why: str, instead: str) -> None:
        self.why = why
        self.instead = instead
        super().__init__(f"{why} {instead}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """A unit: ``base = value * factor + offset`` in the base unit of its dimension.

    Base units: kg, m, m2, m3, kg/m3, degC, s, m/s, MJ, N, Pa, share (1 = the whole), 1; a grain is measured in µm and cm²/g, a blow in
    kJ/m². The pound, inch, gallons and standard gravity are exact by definition.
    """

    symbol: str
    dimension: str
    factor: float
    offset: float
    aliases: tuple[str, ...]


POUND_KG = 0.45359237
INCH_M = 0.0254
GRAVITY_M_S2 = 9.80665
KELVIN_AT_0_C = 273.15

# fmt: off
_ROWS = (
    ("kg", "mass", 1.0, 0.0, "kgs | kilo | kilos | kilogram | kilograms | kilogramme | kilogrammes"),
    ("g", "mass", 0.001, 0.0, "gr | gram | grams | gramme | grammes"),
    ("t", "mass", 1000.0, 0.0, "tonne | tonnes"),
    ("lb", "mass", POUND_KG, 0.0, "lbs | pound | pounds"),
    ("oz", "mass", POUND_KG / 16, 0.0, "ounce | ounces"),
    ("mm", "length", 0.001, 0.0, "millimetre | millimetres | millimeter | millimeters"),
    ("cm", "length", 0.01, 0.0, "centimetre | centimetres | centimeter | centimeters"),
    ("m", "length", 1.0, 0.0, "metre | metres | meter | meters"),
    ("in", "length", INCH_M, 0.0, "inch | inches | \" | ″ | ”"),
    ("ft", "length", 12 * INCH_M, 0.0, "foot | feet | ' | ′ | ’"),
    ("cm²", "area", 0.0001, 0.0, "cm2 | sq cm"),
    ("mm²", "area", 1e-06, 0.0, "mm2 | sq mm"),
    ("m²", "area", 1.0, 0.0, "m2 | sq m"),
    ("in²", "area", INCH_M**2, 0.0, "in2 | sq in"),
    ("ft²", "area", (12 * INCH_M) ** 2, 0.0, "ft2 | sq ft"),
    ("L", "volume", 0.001, 0.0, "l | litre | litres | liter | liters"),
    ("mL", "volume", 1e-06, 0.0, "ml | millilitre | millilitres | milliliter | milliliters | cc"),
    ("cm³", "volume", 1e-06, 0.0, "cm3 | cu cm"),
    ("m³", "volume", 1.0, 0.0, "m3 | cu m"),
    ("in³", "volume", INCH_M**3, 0.0, "in3 | cu in"),
    ("ft³", "volume", (12 * INCH_M) ** 3, 0.0, "ft3 | cu ft"),
    ("US gal", "volume", 231 * INCH_M**3, 0.0, "us gallon | us gallons | us gal."),
    ("imp gal", "volume", 4.54609e-3, 0.0, "imperial gallon | imperial gallons | uk gal | uk gallon | uk gallons | imp gallon | imp gallons"),
    ("kg/L", "density", 1000.0, 0.0, "kg/l | g/cm3 | g/cm³ | g/ml | t/m3 | t/m³"),
    ("kg/m³", "density", 1.0, 0.0, "kg/m3"),
    ("lb/ft³", "density", POUND_KG / (12 * INCH_M) ** 3, 0.0, "lb/ft3 | pcf | lb/cu ft"),
    ("°C", "temperature", 1.0, 0.0, "c | degc | deg c | °c"),
    ("°F", "temperature", 5 / 9, -160 / 9, "f | degf | deg f | °f"),
    ("s", "time", 1.0, 0.0, "sec | second | seconds"),
    ("min", "time", 60.0, 0.0, "minute | minutes"),
    ("h", "time", 3600.0, 0.0, "hr | hour | hours"),
    ("day", "time", 86400.0, 0.0, "days | d"),
    ("m/s", "speed", 1.0, 0.0, "metre per second | metres per second"),
    ("km/h", "speed", 1 / 3.6, 0.0, "kph | kmh | kilometres per hour"),
    ("mph", "speed", 5280 * 12 * INCH_M / 3600, 0.0, "miles per hour"),
    ("MJ", "heat", 1.0, 0.0, "megajoule | megajoules"),
    ("kWh", "heat", 3.6, 0.0, "kwh | kilowatt hour | kilowatt hours"),
    ("W/m²K", "contact", 1.0, 0.0, "w/m2k | w/m²k | w/(m²k) | w/(m2k)"),
    ("N", "force", 1.0, 0.0, "newton | newtons"),
    ("kgf", "force", GRAVITY_M_S2, 0.0, "kp | kilogram force"),
    ("lbf", "force", POUND_KG * GRAVITY_M_S2, 0.0, "pound force"),
    ("kPa", "pressure", 1000.0, 0.0, "kilopascal | kilopascals | kn/m2 | kn/m²"),
    ("N/cm²", "pressure", 1e4, 0.0, "N/cm2 | n/cm² | newton per square centimetre"),
    ("MPa", "pressure", 1e6, 0.0, "megapascal | megapascals | n/mm2 | n/mm²"),
    ("bar", "pressure", 1e5, 0.0, "bars"),
    ("kg/cm²", "pressure", GRAVITY_M_S2 * 1e4, 0.0, "kg/cm2 | kgf/cm2 | kgf/cm² | kp/cm2 | kp/cm² | technical atmosphere"),
    ("g/cm²", "pressure", GRAVITY_M_S2 * 10, 0.0, "g/cm2 | gf/cm2 | gf/cm² | p/cm2 | p/cm²"),
    ("psi", "pressure", POUND_KG * GRAVITY_M_S2 / INCH_M**2, 0.0, "lbf/in² | lbf/in2 | lb/in2 | lb/in²"),
    ("µm", "grain size", 1.0, 0.0, "um | μm | micron | microns | micrometre | micrometres"),
    ("cm²/g", "grain surface", 1.0, 0.0, "cm2/g"),
    ("kJ/m²", "energy of a blow", 1.0, 0.0, "kj/m2"),
    ("%", "share", 0.01, 0.0, "percent | per cent | pct"),
    ("", "number", 1.0, 0.0, "parts | part | x"),
)
# fmt: on
UNITS = {
    row[0]: Unit(symbol=row[0], dimension=row[1], factor=row[2], offset=row[3], aliases=tuple(row[4].split(" | ")))
    for row in _ROWS
}
BY_NAME = {
    name.lower(): unit for unit in UNITS.values() for name in (unit.symbol, *unit.aliases) if name or not unit.symbol
}


def named(name: object, like: str) -> str | None:
    """Return the symbol of the unit that *name* stands for, or None if it does not measure the same thing as the unit *like*.

    >>> named("cu in", "cm³"), named("kg", "cm³")
    ('in³', None)
    """
    unit = BY_NAME.get(name.strip().lower()) if isinstance(name, str) else None
    return unit.symbol if unit and unit.symbol in same_dimension(like) else None


def convert(value: float, from_unit: str, to_unit: str) -> float:
    """Return *value* of one unit in another of the same dimension, both by symbol or by any of their other names.

    >>> round(convert(1180, "°F", "°C"), 1)
    637.8
    """
    source, target = BY_NAME[from_unit.lower()], BY_NAME[to_unit.lower()]
    if source.dimension != target.dimension:
        raise Unreadable(f"{from_unit} does not measure the same thing as {to_unit}.", f"Write it in {to_unit}.")
    if source is target:
        return value
    return (value * source.factor + source.offset - target.offset) / target.factor


def same_dimension(unit: str) -> tuple[str, ...]:
    """Return the symbols of all units that measure what *unit* measures."""
    return tuple(other.symbol for other in UNITS.values() if other.dimension == UNITS[unit].dimension)
