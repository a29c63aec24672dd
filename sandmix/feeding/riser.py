"""How large a riser must be: it freezes after the casting, and it holds enough metal. The larger of the two demands decides.

Volumes in cm³, lengths in mm, shares as fractions.
Holds for: one riser on one section. What a riser cannot reach, it does not feed: see ``distance``.
Source: riser_modulus for the first demand, feed_efficiency for the second; the method page derives both.
"""

from __future__ import annotations

import math

from sandmix.feeding.modulus import diameter_of_volume_mm, riser_share
from sandmix.maths.roots import rising_root

FREEZING, VOLUME, NONE = "freezing", "volume", "none"
RATIO = 1.2
"""The riser's modulus over the casting's, at least. Source: riser_modulus."""
NECK_RATIO = 1.1
"""The neck's modulus over the casting's. Source: neck_order."""
STEP_MM = 5.0
"""Riser patterns are made in steps of so many mm (own rule)."""
CLASSROOM = 3.0
"""The classroom's riser, in volumes of the shrinkage. Source: classroom_riser."""


def freezing_diameter_mm(riser_modulus_mm: float, kind: str, height_share: float) -> float:
    """Return the diameter of the riser that has a modulus, in mm.

    >>> round(freezing_diameter_mm(12.0, "side", 1.0), 6)
    72.0
    """
    return riser_modulus_mm / riser_share(kind, height_share)


def feed_needed_cm3(casting_cm3: float, shrinkage: float, efficiency: float) -> float:
    """Return the volume of the riser that can give what casting and riser shrink by, in cm³: β V/(e − β), from e V_r = β (V + V_r).

    Infinite where the efficiency is not above the shrinkage: a riser then cannot even feed itself.

    >>> round(feed_needed_cm3(100.0, 0.063, 0.14), 1)
    81.8
    """
    return shrinkage * casting_cm3 / (efficiency - shrinkage) if efficiency > shrinkage else math.inf


def volume_diameter_mm(casting_cm3: float, shrinkage: float, efficiency: float, height_share: float) -> float:
    """Return the diameter of the riser of that volume, in mm."""
    return diameter_of_volume_mm(feed_needed_cm3(casting_cm3, shrinkage, efficiency), height_share)


def decides(freezing_mm: float, volume_mm: float) -> str:
    """Return which demand asks for the larger riser; freezing where both ask for the same."""
    return VOLUME if volume_mm > freezing_mm else FREEZING


def made_mm(diameter_mm: float) -> float:
    """Return the diameter rounded up to a whole step, in mm; float noise is no reason to go up.

    >>> made_mm(70.1), made_mm(75.0)
    (75.0, 75.0)
    """
    return STEP_MM * math.ceil(diameter_mm / STEP_MM - 1e-9)


def covering_diameter_mm(
    casting_cm3: float, area_cm2: float, ratio: float, height_share: float, face_cm2: float | None = None
) -> float | None:
    """Return the diameter of a top riser that takes its base from the casting's cooling surface, in mm; None where there is none.

    The casting then has V/(A − π D²/4), which depends on D: D (A − π D²/4) = k r V, with k the diameter over the riser's modulus. The smaller
    root counts. It covers at most a third of the surface; where there is no root, no riser on top is large enough. *face_cm2* is the flat face
    under the riser: no more than that is covered.

    >>> round(covering_diameter_mm(3375.0, 1350.0, 1.0, 0.5, 225.0), 3)
    180.0
    """
    asked = ratio * casting_cm3 * 1000 / riser_share("top", height_share)
    area = area_cm2 * 100
    most = math.sqrt(4 * area / (3 * math.pi))
    found: float | None = None
    if _left(most, area)[0] >= asked:
        found = rising_root(lambda d: (_left(d, area)[0] - asked, _left(d, area)[1]), 0.0, most)
    if face_cm2 is None or (found is not None and math.pi / 4 * found**2 <= face_cm2 * 100):
        return found
    return asked / (area - face_cm2 * 100) if face_cm2 < area_cm2 else None


def flat_diameter_mm(riser_modulus_mm: float, volume_cm3: float, kind: str, height_mm: float) -> float | None:
    """Return the diameter of a riser that may be no higher than *height_mm*, in mm, by both demands; None where none of that height is enough.

    M = D h/(4 h + 2 D) on all faces, D h/(4 h + D) without the base, so D = 4 h M/(h − 2 M) and 4 h M/(h − M).

    >>> round(flat_diameter_mm(10.0, 0.0, "side", 60.0), 6)
    60.0
    """
    left = height_mm - (2 if kind == "side" else 1) * riser_modulus_mm
    if left <= 0:
        return None
    return max(4 * height_mm * riser_modulus_mm / left, math.sqrt(4000 * volume_cm3 / (math.pi * height_mm)))


def covered_modulus_mm(casting_cm3: float, area_cm2: float, diameter_mm: float, face_cm2: float | None = None) -> float:
    """Return the modulus of a casting without the face that a riser on top covers, in mm; infinite where it covers all of it.

    >>> covered_modulus_mm(3375.0, 1350.0, 180.0, 225.0)
    30.0
    """
    base_cm2 = math.pi / 4 * diameter_mm**2 / 100
    left_cm2 = area_cm2 - (base_cm2 if face_cm2 is None else min(base_cm2, face_cm2))
    return 10 * casting_cm3 / left_cm2 if left_cm2 > 0 else math.inf


def neck_mm(modulus_mm: float) -> float:
    """Return the diameter of a neck of that modulus, in mm, as a long round bar: 4 M. Source: geometry."""
    return 4 * modulus_mm


def _left(diameter: float, area: float) -> tuple[float, float]:
    """D (A − π D²/4) and its slope."""
    return diameter * (area - math.pi / 4 * diameter**2), area - 3 * math.pi / 4 * diameter**2
