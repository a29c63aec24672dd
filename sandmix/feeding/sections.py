"""The modulus of a plain part of a casting from its sizes: volume over the surface that cools.

Lengths in mm. Long parts are taken without their ends, and a boss without its base, where it joins the wall.
Holds for: a part that is much thicker than what it joins. Source: geometry.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A kind of part: how many sizes it takes, and its modulus from them."""

    sizes: int
    modulus_mm: Callable[..., float]


def _plate(thickness: float) -> float:
    return thickness / 2


def _bar(thickness: float, width: float) -> float:
    return thickness * width / (2 * (thickness + width))


def _round_bar(diameter: float) -> float:
    return diameter / 4


def _block(thickness: float, width: float, length: float) -> float:
    return thickness * width * length / (2 * (thickness * width + width * length + length * thickness))


def _boss(diameter: float, height: float) -> float:
    return diameter * height / (4 * height + diameter)


SECTIONS: Mapping[str, Section] = {
    "plate": Section(sizes=1, modulus_mm=_plate),
    "bar": Section(sizes=2, modulus_mm=_bar),
    "round_bar": Section(sizes=1, modulus_mm=_round_bar),
    "ring": Section(sizes=2, modulus_mm=_bar),
    "block": Section(sizes=3, modulus_mm=_block),
    "boss": Section(sizes=2, modulus_mm=_boss),
}
"""The parts by name. A ring of rectangular section has exactly the modulus of the bar that it is bent from (Pappus)."""


def modulus_mm(part: str, *sizes: float | None) -> float | None:
    """Return the modulus of a part in mm from thickness or diameter, width or height, and length; None where a size that it takes is missing.

    >>> modulus_mm("plate", 20.0, None, None), modulus_mm("boss", 40.0, 35.0, None), modulus_mm("bar", 20.0, None, None)
    (10.0, 7.777777777777778, None)
    """
    section = SECTIONS[part]
    taken = [size for size in sizes[: section.sizes] if size is not None]
    return section.modulus_mm(*taken) if len(taken) == section.sizes else None
