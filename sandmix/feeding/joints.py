"""Where walls meet: the largest circle that fits into the joint.

Lengths in mm. The joint's modulus lies between D/4, that of a round bar, and D/2, that of a plate as thick as the circle.
Holds for: equal walls, long in both directions, with sharp outside corners; a fillet R at every inside corner. Source: geometry.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

_ROOT = math.sqrt(2)


def corner_mm(wall_mm: float, fillet_mm: float = 0.0) -> float:
    """Return the circle in an L: 2 (√2 (t + R) − R)/(1 + √2).

    >>> round(corner_mm(10.0), 3), round(corner_mm(10.0, 5.0), 3)
    (11.716, 13.431)
    """
    return 2 * (_ROOT * (wall_mm + fillet_mm) - fillet_mm) / (1 + _ROOT)


def tee_mm(wall_mm: float, fillet_mm: float = 0.0, web_mm: float | None = None) -> float:
    """Return the circle in a T of a web b on a plate t: ((t + R)² + (b/2 + R)² − R²)/(t + 2 R). Holds for b up to 2 t.

    >>> round(tee_mm(10.0), 3), round(tee_mm(10.0, 5.0), 3)
    (12.5, 15.0)
    """
    half_web = (wall_mm if web_mm is None else web_mm) / 2
    outside = (wall_mm + fillet_mm) ** 2 + (half_web + fillet_mm) ** 2 - fillet_mm**2
    return outside / (wall_mm + 2 * fillet_mm)


def cross_mm(wall_mm: float, fillet_mm: float = 0.0) -> float:
    """Return the circle in a cross: 2 (√2 (t/2 + R) − R).

    >>> round(cross_mm(10.0), 3), round(cross_mm(10.0, 5.0), 3)
    (14.142, 18.284)
    """
    return 2 * (_ROOT * (wall_mm / 2 + fillet_mm) - fillet_mm)


def star_mm(wall_mm: float, fillet_mm: float = 0.0) -> float:
    """Return the circle in a Y of three walls at 120°: 2 (2/√3 (t/2 + R) − R).

    A fillet's middle is t/2 + R from the middle lines of both walls, so (t/2 + R)/sin 60° from the middle of the joint.

    >>> round(star_mm(10.0), 3)
    11.547
    """
    return 2 * (2 / math.sqrt(3) * (wall_mm / 2 + fillet_mm) - fillet_mm)


JOINTS: Mapping[str, Callable[[float, float], float]] = {"l": corner_mm, "t": tee_mm, "x": cross_mm, "y": star_mm}
"""The joints by key; each gives its circle from the wall and the fillet."""


def bounds_mm(circle_mm: float) -> tuple[float, float]:
    """Return the least and the largest modulus that a joint with this circle may have, in mm."""
    return circle_mm / 4, circle_mm / 2
