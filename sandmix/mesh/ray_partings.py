"""Partings by rays along an axis: the heights at which rays enter and leave the solid, and the gaps between one part of it and another.

The sand in a gap with solid above and below is held, however the parting is stepped. Source: ray_casting.
"""

from __future__ import annotations

import math
from array import array
from bisect import bisect
from collections.abc import Mapping
from dataclasses import dataclass

from sandmix.mesh.rays import Rays
from sandmix.mesh.shells import TOUCHING, turned


@dataclass(frozen=True, slots=True, kw_only=True)
class Parting:
    """A flat parting at one height above the lowest point, in the file's unit: the undercut, and the roof over the metal.

    ``roof`` is the projected area that faces up on or above the parting, and ``roof_moment`` the sum of area times height. ``floor`` and
    ``floor_moment`` are the same for what faces down on or below it, which is the roof when the shape is turned over.
    """

    height: float
    undercut: float
    roof: float
    roof_moment: float
    floor: float
    floor_moment: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Hidden:
    """The gaps with solid above and below: their area and its error bound, and the moments (area times height) of the faces below and above them.

    However the parting is stepped, the sand of a gap goes with one half or the other, and one of its two faces holds it.
    """

    area: float
    error: float
    up_moment: float
    down_moment: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RayCrossings:
    """The heights at which rays enter and leave the solid, in order, overlapping and touching parts taken as one; and the hidden gaps."""

    cell: float
    enters: list[float]
    leaves: list[float]
    hidden: Hidden

    @property
    def projected(self) -> float:
        """The projected area of all that faces up or down."""
        return self.cell * (len(self.enters) + len(self.leaves))

    def parting(self, at: float, near: float) -> Parting:
        """Return the parting at *at*; heights closer than *near* count as one."""
        below, floor = bisect(self.leaves, at - near), bisect(self.enters, at + near)
        return Parting(
            height=at,
            undercut=self.cell * (below + len(self.enters) - floor),
            roof=self.cell * (len(self.leaves) - below),
            roof_moment=self.cell * math.fsum(self.leaves[below:]),
            floor=self.cell * floor,
            floor_moment=self.cell * math.fsum(self.enters[:floor]),
        )


def ray_crossings(rays: Rays | None, signs: Mapping[int, int]) -> RayCrossings | None:
    """Return the crossings along an axis, with heights from the lowest point of the shape; None without rays."""
    if rays is None:
        return None
    rays = turned(rays, {shell: sign or 1 for shell, sign in signs.items()})
    enters, leaves, again = array("q"), array("q"), []
    up = down = 0
    for crossings in rays.crossings:
        inside, left, between = 0, None, 0
        for depth, goes_in, shell in crossings:
            if not signs.get(shell):
                continue
            if goes_in and not inside and (left is None or depth - left > TOUCHING):
                enters.append(depth)
                if left is not None:
                    leaves.append(left)
                    between, up, down = between + 1, up + left, down + depth
            inside += 1 if goes_in else -1
            left = depth
        if left is not None:
            leaves.append(left)
        again.append(float(between))
    unit = rays.cell * rays.step
    step = rays.step
    return RayCrossings(
        cell=rays.cell,
        enters=sorted(step * depth for depth in enters),
        leaves=sorted(step * depth for depth in leaves),
        hidden=Hidden(
            area=rays.cell * math.fsum(again), error=rays.bound(again), up_moment=unit * up, down_moment=unit * down
        ),
    )
