"""The unit to show an amount in: the one that suits it, or the one that a question wishes for, and the choices for each kind of amount.

A wish names for a unit of the library the unit to show instead, such as ``{"kg": "lb"}``. It changes texts only: all figures are computed
and returned in the library's own units.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass

from sandmix.language import units
from sandmix.language.errors import InputError, Problem
from sandmix.language.wording import list_of, shown_given

Wish = Mapping[str, str]
"""The unit to show, by the unit of the library that it stands for."""
NO_WISH: Wish = {}


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitChoice:
    """One way to show amounts of a kind: what it is called, and the wish that stands for it."""

    key: str
    label: str
    wish: Wish


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitKind:
    """A kind of amount and the ways to show it, the library's own first."""

    key: str
    label: str
    choices: tuple[UnitChoice, ...]


def _kind(key: str, label: str, own: str, *others: tuple[str, str, Wish]) -> UnitKind:
    choices = (UnitChoice(key="", label=own, wish=NO_WISH), *(UnitChoice(key=a, label=b, wish=c) for a, b, c in others))
    return UnitKind(key=key, label=label, choices=choices)


UNIT_KINDS = (
    _kind("mass", "Mass", "kg, g", ("lb", "lb, oz", {"kg": "lb", "g": "oz"})),
    _kind(
        "length",
        "Length",
        "mm",
        ("cm", "cm", {"mm": "cm"}),
        ("in", "in", {"mm": "in", "cm": "in", "m": "ft"}),
    ),
    _kind("area", "Area", "cm², m²", ("in", "in², ft²", {"cm²": "in²", "mm²": "in²", "m²": "ft²"})),
    _kind("volume", "Volume of a casting", "cm³", ("in", "in³", {"cm³": "in³"})),
    _kind(
        "capacity",
        "Volume of sand and water",
        "L",
        ("us", "US gal", {"L": "US gal"}),
        ("imp", "imp gal", {"L": "imp gal"}),
    ),
    _kind("density", "Density", "kg/L", ("lb", "lb/ft³", {"kg/L": "lb/ft³", "kg/m³": "lb/ft³"})),
    _kind("temperature", "Temperature", "°C", ("f", "°F", {"°C": "°F"})),
    _kind(
        "pressure",
        "Pressure and strength",
        "kPa",
        ("n", "N/cm²", {"kPa": "N/cm²"}),
        ("kg", "kg/cm²", {"kPa": "kg/cm²"}),
        ("psi", "psi", {"kPa": "psi"}),
    ),
    _kind("force", "Force", "N", ("kgf", "kgf", {"N": "kgf"}), ("lbf", "lbf", {"N": "lbf"})),
    _kind("speed", "Wind", "m/s", ("kmh", "km/h", {"m/s": "km/h"}), ("mph", "mph", {"m/s": "mph"})),
    _kind("heat", "Heat", "MJ", ("kwh", "kWh", {"MJ": "kWh"})),
)
"""The choices by the kind of amount."""
SYSTEMS: Mapping[str, tuple[str, Mapping[str, str]]] = {
    "metric": ("Metric", {}),
    "inch": (
        "Inch, pound and °F",
        {
            "mass": "lb",
            "length": "in",
            "area": "in",
            "volume": "in",
            "capacity": "us",
            "density": "lb",
            "temperature": "f",
            "pressure": "psi",
            "force": "lbf",
            "speed": "mph",
        },
    ),
}
"""One choice for all kinds: its label, and the choice of each kind that is not the library's own."""

_SUITED = (
    ("kg", 0.0, 1.0, "g", 1000.0),
    ("L", 0.0, 1.0, "mL", 1000.0),
    ("s", 300.0, 10800.0, "min", 1 / 60),
    ("s", 10800.0, 172800.0, "h", 1 / 3600),
    ("s", 172800.0, math.inf, "days", 1 / 86400),
    ("min", 180.0, 2880.0, "h", 1 / 60),
    ("min", 2880.0, math.inf, "days", 1 / 1440),
)
_SMALLER = {"lb": "oz"}
"""What less than one of a unit is shown in."""
_WISHED: ContextVar[Wish] = ContextVar("wished", default=NO_WISH)


@contextmanager
def showing(wish: Wish) -> Iterator[None]:
    """Show amounts as this wish says, for as long as one question is answered."""
    token = _WISHED.set(wish)
    try:
        yield
    finally:
        _WISHED.reset(token)


def wished() -> Wish:
    """Return the wish of the question that is being answered; an empty one outside any question."""
    return _WISHED.get()


def read_wish(given: object) -> Wish:
    """Return the wish that a request gives as ``shown_in``; raises InputError with everything that is wrong in it.

    >>> read_wish({"kg": "pounds"})
    {'kg': 'lb'}
    """
    if given is None:
        return NO_WISH
    if not isinstance(given, Mapping):
        raise InputError([_problem(shown_given(given), 'write the units to show as {"kg": "lb", "mm": "in"}.')])
    read: dict[str, str] = {}
    problems = []
    for own, to in given.items():
        if not isinstance(own, str) or not own or own not in units.UNITS:
            problems.append(
                _problem(shown_given(own), f"“{shown_given(own)}” isn't a unit of sandmix. Name one such as kg.")
            )
        elif (unit := units.named(to, own)) is None:
            fits = list_of(units.same_dimension(own))
            problems.append(_problem(shown_given(to), f"“{shown_given(to)}” can't stand for {own}. Use {fits}."))
        elif unit != own:
            read[own] = unit
    if problems:
        raise InputError(problems)
    return read


def wish_of(text: str) -> object:
    """Return what a text on the command line wishes for: a system by its name, or units as ``kg=lb, mm=in``. `read_wish` checks it.

    >>> wish_of("kg=lb, mm = in"), wish_of("metric")
    ({'kg': 'lb', 'mm': 'in'}, {})
    """
    if text.strip() in SYSTEMS:
        kinds = {kind.key: {choice.key: choice.wish for choice in kind.choices} for kind in UNIT_KINDS}
        return {own: unit for kind, key in SYSTEMS[text.strip()][1].items() for own, unit in kinds[kind][key].items()}
    pairs = [pair.partition("=") for pair in text.split(",") if pair.strip()]
    return {own.strip(): to.strip() for own, _, to in pairs}


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownUnit:
    """A unit to show amounts in, how they get there from the unit of their word, and how many decimals they may have."""

    unit: str
    digits: int
    scale: float = 1.0
    zero: float = 0.0
    """What 0 of the word's unit is here."""

    def of(self, value: float) -> float:
        """Return an amount of the word's unit in this one."""
        return value * self.scale + self.zero

    def width(self, half_width: float) -> float:
        """Return a ± of the word's unit in this one."""
        return half_width * self.scale


def unit_for(unit: str, offered: Sequence[str], value: float, digits: int) -> ShownUnit:
    """Return the unit in which to show *value* of a word's *unit*; one that the question wishes for must be among those *offered*.

    Less than one kilogram is shown in grams, less than one litre in millilitres, long times in minutes, hours or days. In a unit that is
    wished for, the last decimal is never coarser than in the word's own unit.

    >>> unit_for("kg", ("kg", "lb"), 0.41, 2).unit
    'g'
    """
    wish = wished().get(unit, unit)
    if wish != unit and wish in offered:
        wish = smaller(wish, units.convert(value, unit, wish))
        zero = units.convert(0.0, unit, wish)
        scale = units.convert(1.0, unit, wish) - zero
        return ShownUnit(unit=wish, digits=max(0, math.ceil(digits - math.log10(scale))), scale=scale, zero=zero)
    for own, least, most, shown, scale in _SUITED:
        if unit == own and value and least <= abs(value) < most:
            return ShownUnit(unit=shown, digits=max(0, digits - 3) if scale == 1000 else 1, scale=scale)
    return ShownUnit(unit=unit, digits=digits)


def smaller(unit: str, value: float) -> str:
    """Return the unit for *value* of a unit that was wished for: less than one pound is shown in ounces.

    >>> smaller("lb", 0.9), smaller("lb", 1.1), smaller("in", 0.5)
    ('oz', 'lb', 'in')
    """
    return _SMALLER.get(unit, unit) if value and abs(value) < 1 else unit


def _problem(given: str, what_to_do: str) -> Problem:
    return Problem(word="shown_in", given=given, allowed="units", message=f"Units to show: {what_to_do}")
