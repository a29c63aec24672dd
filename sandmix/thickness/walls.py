"""The thinnest wall of a shape: from points all over its surface, how far it is to the surface on the other side.

Only a surface that faces the other way, to within 32 degrees, is the other side of a wall. Source: geometry.
"""

from __future__ import annotations

import math
from itertools import accumulate

from sandmix.thickness.surface import Point, Surface

SAMPLES = 240
"""From how many points the wall is measured (own choice)."""
THINNEST_SHARE = 0.03
"""The thinnest wall is what this share of the sampled walls is thinner than: single odd facets count for nothing."""
OPPOSITE = -0.85
"""The cosine between two faces below which they are the two sides of a wall (own choice)."""


def thinnest(surface: Surface, facing: int) -> float | None:
    """Return the thickness of the thinnest wall, in the unit of the file; None where there is no wall.

    *facing* is 1 where facets face outwards, -1 where all face inwards.
    """
    found = sorted(_walls(surface, facing))
    return found[int(THINNEST_SHARE * len(found))] if found else None


def _walls(surface: Surface, facing: int) -> list[float]:
    """The thickness at each sample that has another side."""
    walls = []
    for facet, start in _samples(surface):
        nx, ny, nz = surface.normal(facet)
        met = surface.ahead_of(start, (-facing * nx, -facing * ny, -facing * nz), 2 * surface.size, facet)
        if met is None:
            continue
        ox, oy, oz = surface.normal(met[1])
        along = nx * ox + ny * oy + nz * oz
        if along < OPPOSITE:
            walls.append(met[0] * math.sqrt(-along))
    return walls


def _samples(surface: Surface) -> list[tuple[int, Point]]:
    """Points spread over the surface, each for the same area, with their facets."""
    areas = list(accumulate(map(surface.area, range(surface.count))))
    whole = areas[-1]
    found = []
    facet = 0
    for at in range(SAMPLES):
        wanted = (at + 0.5) * whole / SAMPLES
        while areas[facet] < wanted:
            facet += 1
        # two numbers that fill the unit square evenly, folded into the triangle
        s, t = at * 0.7548776662466927 % 1, at * 0.5698402909980532 % 1
        if s + t > 1:
            s, t = 1 - s, 1 - t
        a, b, c = surface.triangle(facet)
        found.append(
            (
                facet,
                (
                    a[0] + s * (b[0] - a[0]) + t * (c[0] - a[0]),
                    a[1] + s * (b[1] - a[1]) + t * (c[1] - a[1]),
                    a[2] + s * (b[2] - a[2]) + t * (c[2] - a[2]),
                ),
            )
        )
    return found
