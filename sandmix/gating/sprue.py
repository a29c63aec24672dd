"""The sprue: how it must narrow so that the falling metal fills it, the sizes of sticks and drills, and what it holds.

Falling metal speeds up and its stream narrows. A sprue that narrows in the same way stays full and draws in no air.
"""

from __future__ import annotations

import bisect
import math

STICKS_MM = (
    *(6.0, 8.0, 10.0, 12.0, 13.0, 14.0, 15.0, 16.0, 18.0, 20.0, 22.0, 25.0, 28.0, 30.0, 32.0, 35.0, 38.0, 40.0),
    *(45.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0),
)
"""Diameters in which drills, dowels and tubes are sold. Source: practice."""
CUP_MM = 30.0
"""The metal in the pouring cup above the sprue, where nothing is given (own choice)."""


def round_cm2(diameter_mm: float) -> float:
    """Return the area of a circle, in cm². Source: geometry.

    >>> round(round_cm2(10.0), 4)
    0.7854
    """
    return math.pi * diameter_mm**2 / 400


def diameter_mm(area_cm2: float) -> float:
    """Return the diameter of a circle of *area_cm2*, in mm. Source: geometry.

    >>> round(diameter_mm(0.7854), 2)
    10.0
    """
    return math.sqrt(400 * area_cm2 / math.pi)


def area_ratio(cup_mm: float, length_mm: float) -> float:
    """Return the area of the sprue's base over that of its top: √(h_top/h_base), heads from the metal's surface in the pouring cup.

    h_top = *cup_mm*, h_base = *cup_mm* + *length_mm*. Holds for a sprue that runs full. Source: torricelli and the same flow at both ends.

    >>> area_ratio(60.0, 180.0)
    0.5
    """
    return math.sqrt(cup_mm / (cup_mm + length_mm))


def base_mm(top_mm: float, cup_mm: float, length_mm: float) -> float:
    """Return the diameter of the base for that of the top, in mm.

    >>> round(base_mm(20.0, 60.0, 180.0), 2)
    14.14
    """
    return top_mm * math.sqrt(area_ratio(cup_mm, length_mm))


def top_mm(base_mm: float, cup_mm: float, length_mm: float) -> float:
    """Return the diameter of the top for that of the base, in mm.

    >>> round(top_mm(14.142, 60.0, 180.0), 2)
    20.0
    """
    return base_mm / math.sqrt(area_ratio(cup_mm, length_mm))


def stick_mm(diameter: float) -> float:
    """Return the next larger size of stick or drill, in mm; above 100 mm the next multiple of 10. Source: practice.

    >>> stick_mm(14.14), stick_mm(20.0), stick_mm(101.0)
    (15.0, 20.0, 110.0)
    """
    at = bisect.bisect_left(STICKS_MM, diameter * (1 - 1e-9))
    return STICKS_MM[at] if at < len(STICKS_MM) else 10.0 * math.ceil(diameter / 10 - 1e-9)


def volume_cm3(top_mm: float, base_mm: float, length_mm: float) -> float:
    """Return what a round tapered sprue holds, in cm³: π L (D² + D d + d²)/12. Source: geometry.

    >>> round(volume_cm3(20.0, 20.0, 100.0), 3)
    31.416
    """
    return math.pi * length_mm * (top_mm**2 + top_mm * base_mm + base_mm**2) / 12000
