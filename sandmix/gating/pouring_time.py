"""The usual pouring time by mass and wall: rules of thumb of the trade, each for its metals and its range.

The rules were printed in pounds, inches and pounds per second. Here they take kilograms and millimetres, and only the conversion is ours.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from sandmix.language.units import INCH_M, POUND_KG
from sandmix.materials.metals import ALUMINIUM, COPPER

LIGHT = (*ALUMINIUM, "zinc_al12")
IRON = ("grey_iron",)
USUAL_WALL_MM = 8.0
"""The wall where none is given (own choice): the middle of the light metals' middle class."""
SPREAD = (0.6, 1.6)
"""How far a pouring time by a rule may be off, as factors (own choice): the rules for one metal differ by about that."""
_MM_PER_INCH = 1000 * INCH_M
_LIGHT_WALLS_MM = (6.0, 12.0)
_LIGHT_RATES = (1.48, 1.25, 0.70)
_HEAVY_POWERS = ((500.0, 0.50), (5000.0, 0.67), (15000.0, 0.70))
_CUBE_ROOT = {"tin_bronze": 2.8, "yellow_brass": 1.9, "silicon_brass": 1.9}


def light_metal_s(mass_kg: float, wall_mm: float) -> float:
    """Return the pouring time of a light metal, in s: √W/b, with b 1.48 below a wall of 6 mm, 1.25 up to 12 mm, 0.70 above (lb, lb/s).

    Printed for light metals in sand; no range of mass is given with it. Source: pouring_rates.

    >>> round(light_metal_s(2.0, 8.0), 2)
    1.68
    """
    thin, middle, thick = _LIGHT_RATES
    rate = thin if wall_mm < _LIGHT_WALLS_MM[0] else middle if wall_mm <= _LIGHT_WALLS_MM[1] else thick
    return math.sqrt(mass_kg / POUND_KG) / rate


def heavy_metal_s(mass_kg: float, wall_mm: float) -> float:
    """Return the pouring time of iron and copper alloys, in s: W (0.95 + t/0.853)/W^p (lb, inch), p 0.50, 0.67 or 0.70.

    p is 0.50 up to 500 lb, 0.67 up to 5000 lb and 0.70 above, printed up to 15 000 lb. At p = 0.50 it is (1.41 + T/14.59) √W in kg and mm.
    Source: pouring_rates.

    >>> round(heavy_metal_s(10.0, 10.0), 2)
    6.63
    """
    pounds = mass_kg / POUND_KG
    power = next((p for up_to, p in _HEAVY_POWERS if pounds <= up_to), _HEAVY_POWERS[-1][1])
    return float(pounds ** (1 - power)) * (0.95 + wall_mm / _MM_PER_INCH / 0.853)


def copper_cube_root_s(mass_kg: float, metal: str, place: str) -> float:
    """Return the pouring time of a copper alloy by its mass alone, in s: K ∛W in kg, K 1.9 for brass and 2.8 for tin bronze.

    For other copper alloys the trade takes 1.3 from the top and 1.8 from below (*place*). Source: memory.

    >>> round(copper_cube_root_s(8.0, "yellow_brass", "top"), 1)
    3.8
    """
    factor = _CUBE_ROOT.get(metal, 1.3 if place == "top" else 1.8)
    return factor * math.cbrt(mass_kg)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """A pouring time by one rule: its name, its range, the time in s, and the source."""

    name: str
    holds: str
    time_s: float
    source: str


_Timed = Callable[[float, float], float]


def rules(metal: str, mass_kg: float, wall_mm: float, place: str) -> Iterator[Rule]:
    """Yield the rules for *metal*, the one that is used first. There is always one.

    >>> [rule.source for rule in rules("yellow_brass", 2.0, 8.0, "top")]
    ['pouring_rates', 'pouring_memory']
    """
    if metal in LIGHT:
        borrowed = "; for zinc none was found" if metal == "zinc_al12" else ""
        holds = f"for light metals{borrowed}"
        yield Rule(name="√W/b", holds=holds, time_s=light_metal_s(mass_kg, wall_mm), source="pouring_rates")
        return
    holds = "for iron and copper alloys, up to 15 000 lb"
    name = "W (0.95 + t/0.853)/W^p"
    yield Rule(name=name, holds=holds, time_s=heavy_metal_s(mass_kg, wall_mm), source="pouring_rates")
    if metal in COPPER:
        time_s = copper_cube_root_s(mass_kg, metal, place)
        yield Rule(name="K ∛W", holds="for copper alloys, by mass alone", time_s=time_s, source="pouring_memory")


def usual_s(metal: str, mass_kg: float, wall_mm: float, place: str) -> float:
    """Return the usual pouring time of *metal*, in s: that of the first of its rules."""
    return next(iter(rules(metal, mass_kg, wall_mm, place))).time_s
