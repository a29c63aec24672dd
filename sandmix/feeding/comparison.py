"""Two other rules for the size of a riser, for comparison only: Caine's hyperbola and the shape factor of the Naval Research Laboratory.

The form of both was read; their constants are from memory. Source: caine, naval_shape_factor.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import pairwise

from sandmix.feeding.modulus import cylinder_cm3, riser_share


@dataclass(frozen=True, slots=True, kw_only=True)
class Caine:
    """The constants of Caine's hyperbola X = a/(Y − b) + c, with X the riser's modulus over the casting's and Y its volume over the casting's."""

    a: float
    b: float
    c: float

    def least_ratio(self, volume_ratio: float) -> float:
        """Return the least X for a Y above b."""
        return self.a / (volume_ratio - self.b) + self.c


CAINE: Mapping[str, Caine] = {
    "steel": Caine(a=0.10, b=0.03, c=1.00),
    "aluminium": Caine(a=0.10, b=0.03, c=1.08),
    "grey_iron": Caine(a=0.33, b=0.03, c=1.00),
    "brass": Caine(a=0.04, b=0.017, c=1.00),
    "bronze": Caine(a=0.24, b=0.017, c=1.00),
}
"""The constants by kind of metal; bronze is aluminium bronze or silicon bronze."""
CAINE_OF = {
    "aluminium": "aluminium",
    "al_si7mg": "aluminium",
    "al_si12": "aluminium",
    "al_6061": "aluminium",
    "yellow_brass": "brass",
    "grey_iron": "grey_iron",
}
"""Which constants stand for a metal. There are none for tin bronze, silicon brass and zinc."""
_HALVINGS = 60
_NAVAL = ((2.0, 1.00), (4.0, 0.70), (6.0, 0.55), (8.0, 0.50), (10.0, 0.40), (12.0, 0.35))
"""The shape factor, and the riser's volume over the casting's. Source: naval_shape_factor."""


def caine_diameter_mm(
    constants: Caine, casting_cm3: float, modulus_mm: float, kind: str = "side", height_share: float = 1.0
) -> float:
    """Return the least diameter of a riser by Caine's hyperbola, in mm.

    As it grows, its X rises and the least X falls, so that they meet once: the bracket is halved until it is within rounding.

    >>> round(caine_diameter_mm(CAINE["steel"], 25 * 25 * 5.0, 17.857), 1)
    128.5
    """
    share = riser_share(kind, height_share)

    def is_enough(diameter_mm: float) -> bool:
        volume_ratio = cylinder_cm3(diameter_mm, height_share) / casting_cm3
        return volume_ratio > constants.b and share * diameter_mm / modulus_mm >= constants.least_ratio(volume_ratio)

    low, high = 0.0, modulus_mm / share
    while not is_enough(high):
        low, high = high, 2 * high
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if is_enough(middle) else (middle, high)
    return high


def shape_factor(sides_mm: tuple[float, float, float]) -> float:
    """Return (L + W)/T of a plate from its three sides.

    >>> shape_factor((50.0, 250.0, 150.0))
    8.0
    """
    thickness, width, length = sorted(sides_mm)
    return (length + width) / thickness


def naval_volume_ratio(factor: float) -> float:
    """Return the riser's volume over the casting's for a shape factor from 2 to 12, between the rows of the table; its ends hold beyond. Steel.

    >>> naval_volume_ratio(8.0), round(naval_volume_ratio(7.0), 3)
    (0.5, 0.525)
    """
    if factor <= _NAVAL[0][0]:
        return _NAVAL[0][1]
    for (low, before), (high, after) in pairwise(_NAVAL):
        if factor <= high:
            return before + (after - before) * (factor - low) / (high - low)
    return _NAVAL[-1][1]
