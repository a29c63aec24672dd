"""The modulus of a shape around a ball inside it: volume over surface of what lies near the ball.

What lies within two radii of the centre counts for the volume, and the surface within 2.14 radii. With these two reaches a wide plate comes out as
its radius and a long bar as half of it, each to 2 %, and a ball or a cube, which lies within both, as a third. Source: local_modulus.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from sandmix.thickness.inscribed import Ball
from sandmix.thickness.surface import Point, Surface, Triangle, halves

VOLUME_REACH, SURFACE_REACH = 2.0, 2.14
DIRECTIONS = 150
MOST_FACETS = 3000
_PIECE = 0.3
_GOLDEN = math.pi * (3 - math.sqrt(5))


def modulus(surface: Surface, ball: Ball, is_inside: Callable[[Point], bool]) -> float:
    """Return the modulus around *ball*, between a third of its radius and its radius.

    The volume is a sum over the surface within reach, and over the part of the sphere around it that lies inside the shape.
    """
    radius = ball.radius
    reach = VOLUME_REACH * radius
    moment, area = _sums(surface, ball)
    share = sum(map(is_inside, _sphere(ball.centre, reach))) / DIRECTIONS
    volume = (moment + 4 * math.pi * reach**3 * share) / 3
    if not area > 0:
        return radius / 2
    return min(radius, max(radius / 3, volume / area))


def _sphere(centre: Point, reach: float) -> list[Point]:
    """Points that are spread evenly over a sphere."""
    points = []
    for at in range(DIRECTIONS):
        high = 1 - (2 * at + 1) / DIRECTIONS
        flat = math.sqrt(1 - high * high)
        turn = _GOLDEN * at
        points.append(
            (
                centre[0] + reach * flat * math.cos(turn),
                centre[1] + reach * flat * math.sin(turn),
                centre[2] + reach * high,
            )
        )
    return points


def _sums(surface: Surface, ball: Ball) -> tuple[float, float]:
    """The area within reach times its height above the centre, for the volume; and the area within reach of the surface."""
    x, y, z = ball.centre
    far = SURFACE_REACH * ball.radius
    facets = list({facet: None for held in surface.within(x, y, z, far) for facet in held})
    each = max(1, len(facets) // MOST_FACETS)
    volume_square, surface_square = (VOLUME_REACH * ball.radius) ** 2, far * far
    moment = area = 0.0
    for facet in facets[::each]:
        nx, ny, nz = surface.normal(facet)
        left: list[Triangle] = [surface.triangle(facet)]
        while left:
            piece = left.pop()
            a, b, c = piece
            mx, my, mz = (a[0] + b[0] + c[0]) / 3 - x, (a[1] + b[1] + c[1]) / 3 - y, (a[2] + b[2] + c[2]) / 3 - z
            square = mx * mx + my * my + mz * mz
            size = math.sqrt(max((p[0] - x - mx) ** 2 + (p[1] - y - my) ** 2 + (p[2] - z - mz) ** 2 for p in piece))
            long = math.sqrt(square)
            if long - size > far:
                continue
            if size > _PIECE * ball.radius and long + size > VOLUME_REACH * ball.radius:
                left += halves(piece)
                continue
            if square > surface_square:
                continue
            own = each * _area(piece)
            area += own
            if square <= volume_square:
                moment += own * (mx * nx + my * ny + mz * nz)
    return moment, area


def _area(triangle: Triangle) -> float:
    (ax, ay, az), (bx, by, bz), (cx, cy, cz) = triangle
    ux, uy, uz = bx - ax, by - ay, bz - az
    vx, vy, vz = cx - ax, cy - ay, cz - az
    return 0.5 * math.sqrt((uy * vz - uz * vy) ** 2 + (uz * vx - ux * vz) ** 2 + (ux * vy - uy * vx) ** 2)
