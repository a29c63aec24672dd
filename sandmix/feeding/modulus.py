"""The modulus V/A of risers, necks and joints of walls, over the faces that cool.

Lengths in mm. A riser is a cylinder with diameter D and height s D.
Holds for: faces that all cool alike. A face that looks at another hot face, as in a joint, cools less, so that its modulus is larger.
Source: geometry.
"""

from __future__ import annotations

import math

SIDE, TOP = "side", "top"
HEIGHT_SHARES = {SIDE: 1.0, TOP: 0.5}
"""The usual height over the diameter: the least surface for the volume, over the faces that cool. Source: geometry."""


def riser_share(kind: str, height_share: float) -> float:
    """Return the modulus of a riser as a share of its diameter: s/(4 s + 2) if it cools on all faces (side), s/(4 s + 1) if not on its base (top).

    >>> [round(1 / riser_share(*riser), 6) for riser in ((SIDE, 1.0), (TOP, 1.0), (TOP, 0.5))]
    [6.0, 5.0, 6.0]
    """
    return height_share / (4 * height_share + (2 if kind == SIDE else 1))


def cylinder_cm3(diameter_mm: float, height_share: float) -> float:
    """Return the volume of a riser, in cm³."""
    return math.pi / 4 * height_share * diameter_mm**3 / 1000


def diameter_of_volume_mm(volume_cm3: float, height_share: float) -> float:
    """Return the diameter of a riser of that volume, in mm."""
    return float((4000 * volume_cm3 / (math.pi * height_share)) ** (1 / 3))
