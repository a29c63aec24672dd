"""What rays along an axis find of a parting: how high they enter what is solid and leave it, and the gaps between one part and another.

A gap that one part lies over and another under holds its sand however the parting is stepped. Source: ray_casting.
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
class PartingCut:
    """A flat parting at one height above the lowest point, in the file's unit: what is undercut, and the roofs over the metal.

    ``roof`` is what faces up on or above the parting and ``roof_moment`` the sum of its area times its height; ``floor`` and ``floor_moment`` what
    faces down on or below it, which is the roof when the shape lies the other way up.
    """

    height: float
    undercut: float
    roof: float
    roof_moment: float
    floor: float
    floor_moment: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Hidden:
    """The gaps that other parts lie over and under: their area, how far that may be off, and area times height of their floors and their roofs.

    The sand of a gap goes with one half or the other, however the parting is stepped, and one of its two faces holds it.
    """

    area: float
    off: float
    up_moment: float
    down_moment: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RayCrossings:
    """How high rays enter what is solid and leave it, in order, what overlaps or touches taken as one; and what they find hidden."""

    cell: float
    enters: list[float]
    leaves: list[float]
    hidden: Hidden

    @property
    def seen(self) -> float:
        """All that is seen from both ends, and between."""
        return self.cell * (len(self.enters) + len(self.leaves))

    def cut(self, at: float, near: float) -> PartingCut:
        """The parting at *at*, by the rays alone."""
        below, floor = bisect(self.leaves, at - near), bisect(self.enters, at + near)
        return PartingCut(
            height=at,
            undercut=self.cell * (below + len(self.enters) - floor),
            roof=self.cell * (len(self.leaves) - below),
            roof_moment=self.cell * math.fsum(self.leaves[below:]),
            floor=self.cell * floor,
            floor_moment=self.cell * math.fsum(self.enters[:floor]),
        )


def met(seen: Rays | None, signs: Mapping[int, int]) -> RayCrossings | None:
    """What the rays met along an axis, from the shape's lowest point; None without rays."""
    if seen is None:
        return None
    seen = turned(seen, {shell: sign or 1 for shell, sign in signs.items()})
    enters, leaves, again = array("q"), array("q"), []
    up = down = 0
    for crossings in seen.met:
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
    unit = seen.cell * seen.step
    step = seen.step
    return RayCrossings(
        cell=seen.cell,
        enters=sorted(step * depth for depth in enters),
        leaves=sorted(step * depth for depth in leaves),
        hidden=Hidden(
            area=seen.cell * math.fsum(again), off=seen.bound(again), up_moment=unit * up, down_moment=unit * down
        ),
    )
