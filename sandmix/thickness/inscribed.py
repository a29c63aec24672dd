"""The largest ball inside a shape near a point: climb from there until the surface holds the ball on all sides.

At each step the surface that the ball touches says where it may move: away from all that it touches at once. A few facets are enough for most
steps; each time the ball is compared with the whole surface, and where it comes out, the facet there is added. Source: geometry.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from sandmix.thickness.surface import Point, Surface

TOLERANCE = 2e-3
"""A ball is found to this share of its radius."""
FIRST_FACETS = 240
MOST_ROUNDS = 12
MOST_STEPS = 60
_TURNS = 40
_FLAT = 0.03
_ALMOST = 0.7
_WITHIN = 0.95
"""Each round stays within the ball before it, so that no centre ever leaves the shape."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ball:
    """A ball inside the shape: its centre, its radius, and a facet that it touches (-1 where that is not known)."""

    centre: Point
    radius: float
    facet: int = -1


def climb(surface: Surface, start: Point, about: float, step: float, limit: float = math.inf) -> Ball:
    """Return the ball to which *start* leads, at most *limit* away; *about* is its radius by the grid and *step* the step of the grid."""
    exact, touched, _ = surface.nearest(*start)
    near = _some(surface, start, max(exact, about) + 2 * step)
    near.setdefault(touched)
    centre = start
    move = min(step, limit / 3)
    for _ in range(MOST_ROUNDS):
        found, modelled, held = _climbed(
            surface, near, centre, min(move, _WITHIN * exact), ((centre, _WITHIN * exact), (start, limit))
        )
        least = max(0.0, exact - math.dist(found, centre))
        there, facet, _ = surface.nearest(*found, min(least, modelled * (1 - 1e-9)))
        grown = there > exact * (1 + TOLERANCE / 2)
        if there > exact:
            centre, exact, touched = found, there, facet
        if there < modelled * (1 - TOLERANCE / 2) and facet not in near:
            near[facet] = None
            move = max(move / 2, 4 * TOLERANCE * exact)
        elif held or not grown:
            break
    return Ball(centre=centre, radius=exact, facet=touched)


def _some(surface: Surface, start: Point, reach: float) -> dict[int, None]:
    """Facets within *reach*, at most about FIRST_FACETS, taken from all cells alike."""
    cells = list(surface.within(*start, reach))
    each = max(1, FIRST_FACETS // max(1, len(cells)))
    skip = max(1, len(cells) // FIRST_FACETS)
    near: dict[int, None] = {}
    for held in cells[::skip]:
        for facet in held[:: max(1, len(held) // each)]:
            near[facet] = None
    touching = surface.touching
    return {facet: None for facet in near if touching(facet, *start)[0] <= reach * reach}


def _climbed(
    surface: Surface, near: dict[int, None], centre: Point, move: float, limits: tuple[tuple[Point, float], ...]
) -> tuple[Point, float, bool]:
    """The centre that some facets allow, its distance to them, and whether they hold it; it stays within all *limits*."""
    touching = surface.touching
    x, y, z = centre
    contacts = [touching(facet, x, y, z) for facet in near]
    radius, held = math.sqrt(min(contacts)[0]), True
    for _ in range(MOST_STEPS):
        if move < TOLERANCE * radius:
            return (x, y, z), radius, held
        far = (radius + _ALMOST * move) ** 2
        away = [
            (-dx / long, -dy / long, -dz / long)
            for square, dx, dy, dz in contacts
            if square <= far and (long := math.sqrt(square)) > 0
        ]
        way = shortest(away) if away else (0.0, 0.0, 0.0)
        steep = math.sqrt(way[0] * way[0] + way[1] * way[1] + way[2] * way[2])
        if steep < _FLAT:
            move /= 2
            continue
        there = (x + move * way[0] / steep, y + move * way[1] / steep, z + move * way[2] / steep)
        if any(math.dist(there, point) > most for point, most in limits):
            held = False
            move /= 2
            continue
        tried = [touching(facet, *there) for facet in near]
        grown = math.sqrt(min(tried)[0])
        if grown > radius + 0.1 * steep * move:
            (x, y, z), contacts, radius = there, tried, grown
        else:
            move /= 2
    return (x, y, z), radius, False


def shortest(ways: list[Point]) -> Point:
    """Return the shortest of all weighted means of *ways*: away from everything at once, and almost nothing where they hold from all sides.

    >>> shortest([(1.0, 0.0, 0.0), (0.0, 1.0, 0.0)])
    (0.5, 0.5, 0.0)
    """
    x, y, z = ways[0]
    for _ in range(_TURNS):
        least, (ux, uy, uz) = min((x * ux + y * uy + z * uz, (ux, uy, uz)) for ux, uy, uz in ways)
        square = x * x + y * y + z * z
        if square - least <= 1e-4:
            break
        dx, dy, dz = ux - x, uy - y, uz - z
        share = min(1.0, (square - least) / (dx * dx + dy * dy + dz * dz))
        x, y, z = x + share * dx, y + share * dy, z + share * dz
    return x, y, z
