"""How far a riser feeds: the rules of steel plates and bars, from memory. No figure for aluminium, zinc or copper alloys was found.

Lengths in mm, from the riser's edge.
Holds for: steel in sand, even sections. Later research found that steel is fed about twice as far. Source: feeding_distance.
"""

from __future__ import annotations

import math

PLATE, BAR = "plate", "bar"
REACH, END = 2.0, 2.5
"""A plate is fed so many thicknesses from the riser, and so many more where it ends and cools from its edge."""
_BAR_TO_END = 30.0


def plate_mm(thickness_mm: float) -> float:
    """Return how far a plate is fed to its free edge, in mm: 4.5 T.

    >>> plate_mm(20.0)
    90.0
    """
    return (REACH + END) * thickness_mm


def between_risers_mm(thickness_mm: float) -> float:
    """Return how far apart the edges of two risers on a plate may be, in mm: 4 T."""
    return 2 * REACH * thickness_mm


def bar_mm(thickness_mm: float) -> float:
    """Return how far a bar is fed to its free end, in mm: 30 √T, which is 6 √T in inches.

    >>> round(bar_mm(25.4)), round(6 * 25.4)
    (151, 152)
    """
    return _BAR_TO_END * math.sqrt(thickness_mm)


def to_an_end_mm(shape: str, thickness_mm: float) -> float | None:
    """Return how far a section of that shape is fed to its free end, in mm; None for a lump, which a riser feeds as a whole."""
    rule = {PLATE: plate_mm, BAR: bar_mm}.get(shape)
    return rule(thickness_mm) if rule else None
