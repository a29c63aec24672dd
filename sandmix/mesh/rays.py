"""A shape looked at along one direction: parallel rays through a fine grid, and where each enters and leaves which shell.

A corner lies left or right of a ray by one rule for all facets that share it, so a ray through a closed shape enters as often as it leaves,
whatever it grazes. Depths are counted in ten-millionths of the shape's size: surfaces nearer than that touch.
Source: ray_casting.
"""

from __future__ import annotations

import math
from array import array
from dataclasses import dataclass
from math import ceil

from sandmix.mesh.facets import Facets
from sandmix.mesh.seams import thirds

CELLS_ACROSS = 96
MOST_CROSSINGS = 120_000
MOST_STRIPS = 1_200_000
FEWEST_ACROSS = 8
STEPS = 10_000_000
FLAT = 1e-9
TINIEST = 1e-30
DIRECTIONS = ("+z", "-z", "+x", "-x", "+y", "-y")

Crossing = tuple[int, int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rays:
    """What the rays met: by ray, in rows of ``across``, the crossings from below up as (depth in steps, 1 in or 0 out, shell).

    ``cell`` is the area that each ray stands for and ``step`` the length of a step of depth, in the unit of the shape.
    """

    across: int
    cell: float
    step: float
    bottom: float
    met: list[list[Crossing]]

    def bound(self, of_ray: list[float]) -> float:
        """Return how far the sum of *of_ray* times the cell may be off: half a cell along every line where it jumps from ray to ray."""
        jumps = 0.0
        for at, value in enumerate(of_ray):
            right = of_ray[at + 1] if (at + 1) % self.across else 0.0
            above = of_ray[at + self.across] if at + self.across < len(of_ray) else 0.0
            jumps += abs(right - value) + abs(above - value)
        return 0.5 * self.cell * jumps


def seen_along(facets: Facets, up: str) -> tuple[array[float], array[float], array[float], float]:
    """Return what lies to the right, what lies ahead, and what lies up when *up* is up, and the sign of the last: right-handed.

    >>> seen_along(Facets(), "-x")[3]
    -1.0
    """
    right, ahead, high = {
        "z": (facets.xs, facets.ys, facets.zs),
        "x": (facets.ys, facets.zs, facets.xs),
        "y": (facets.zs, facets.xs, facets.ys),
    }[up[1]]
    return (right, ahead, high, 1.0) if up[0] == "+" else (ahead, right, high, -1.0)


def cast(facets: Facets, shell_of: array[int], up: str, shadows: float) -> Rays | None:
    """Return what rays along *up* meet; *shadows* is the area of all facets as seen from there.

    None where the shape has no size that way, or would take too long.
    """
    right, ahead, high, sign = seen_along(facets, up)
    left, front = min(right), min(ahead)
    wide, deep = max(right) - left, max(ahead) - front
    low, top = (min(high), max(high)) if sign > 0 else (-max(high), -min(high))
    longest = max(wide, deep, top - low)
    if not min(wide, deep, top - low) > max(FLAT * longest, TINIEST):
        return None
    cells = CELLS_ACROSS
    while cells >= FEWEST_ACROSS:
        side = max(max(wide, deep) / cells, math.sqrt(shadows / MOST_CROSSINGS))
        grid = _Grid(
            side=side,
            across=max(1, ceil(wide / side)),
            ahead=max(1, ceil(deep / side)),
            left=left,
            front=front,
            sign=sign,
            low=low,
            step=longest / STEPS,
        )
        met = grid.meet(facets.corners, right, ahead, high, shell_of)
        if met is not None:
            for crossings in met:
                crossings.sort()
            return Rays(across=grid.across, cell=side * side, step=grid.step, bottom=low, met=met)
        cells //= 2
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Grid:
    """Where the rays stand: in the middles of square cells."""

    side: float
    across: int
    ahead: int
    left: float
    front: float
    sign: float
    low: float
    step: float

    def meet(
        self,
        corners: array[int],
        right: array[float],
        ahead: array[float],
        high: array[float],
        shell_of: array[int],
    ) -> list[list[Crossing]] | None:
        """What each ray meets, unsorted; None where that takes too many strips.

        In each column of rays a facet is crossed by one edge that runs rightward and by one that runs leftward. A facet that looks up has the
        first of them in front, and there rays go out.
        """
        side, left, sign = self.side, self.left, self.sign
        columns = array("i", [ceil((value - left) / side - 0.5) for value in right])
        rows = array("i", [ceil((value - self.front) / side - 0.5) for value in ahead])
        met: list[list[Crossing]] = [[] for _ in range(self.across * self.ahead)]
        strips = 0
        for a, b, c in thirds(corners):
            i = columns[a]
            j = columns[b]
            k = columns[c]
            if i == j == k or rows[a] == rows[b] == rows[c]:
                continue
            strips += max(i, j, k) - min(i, j, k)
            if strips > MOST_STRIPS:
                return None
            if i == j:
                alone, one, other = c, a, b
            elif j == k:
                alone, one, other = a, b, c
            elif i == k:
                alone, one, other = b, c, a
            else:
                self._wide(met, (a, b, c), (i, j, k), right, ahead, high, shell_of[a])
                continue
            # one corner on its own side: in all columns between, the same two edges are crossed
            i, j = columns[alone], columns[one]
            if one < alone:
                first, last = one, alone
            else:
                first, last = alone, one
            x1, y1, z1 = right[first], ahead[first], high[first]
            w1 = right[last] - x1
            d1, e1 = ahead[last] - y1, high[last] - z1
            if other < alone:
                first, last = other, alone
            else:
                first, last = alone, other
            x2, y2, z2 = right[first], ahead[first], high[first]
            w2 = right[last] - x2
            d2, e2 = ahead[last] - y2, high[last] - z2
            for column in range(i, j) if i < j else range(j, i):
                at = left + (column + 0.5) * side
                s1, s2 = (at - x1) / w1, (at - x2) / w2
                there = (y1 + s1 * d1, sign * (z1 + s1 * e1))
                back = (y2 + s2 * d2, sign * (z2 + s2 * e2))
                # the edge alone → one runs rightward where alone lies left; the other edge comes back
                if i < j:
                    self._fill(met, column, there, back, shell_of[a])
                else:
                    self._fill(met, column, back, there, shell_of[a])
        return met

    def _wide(
        self,
        met: list[list[Crossing]],
        facet: tuple[int, int, int],
        at_columns: tuple[int, int, int],
        right: array[float],
        ahead: array[float],
        high: array[float],
        shell: int,
    ) -> None:
        """Fill the strips of a facet whose corners lie in three columns."""
        edges = []
        for one, other in ((0, 1), (1, 2), (2, 0)):
            start, end = facet[one], facet[other]
            first, last = (start, end) if start < end else (end, start)
            edges.append((at_columns[one], at_columns[other], first, last, right[last] - right[first]))
        for column in range(min(at_columns), max(at_columns)):
            at = self.left + (column + 0.5) * self.side
            rightward = leftward = (0.0, 0.0)
            for begin, finish, first, last, run in edges:
                if begin <= column < finish or finish <= column < begin:
                    share = (at - right[first]) / run
                    place = (
                        ahead[first] + share * (ahead[last] - ahead[first]),
                        self.sign * (high[first] + share * (high[last] - high[first])),
                    )
                    if begin < finish:
                        rightward = place
                    else:
                        leftward = place
            self._fill(met, column, rightward, leftward, shell)

    def _fill(
        self,
        met: list[list[Crossing]],
        column: int,
        rightward: tuple[float, float],
        leftward: tuple[float, float],
        shell: int,
    ) -> None:
        side, front = self.side, self.front
        first = ceil((rightward[0] - front) / side - 0.5)
        last = ceil((leftward[0] - front) / side - 0.5)
        if first == last:
            return
        enters = 0
        near, far = rightward, leftward
        if first > last:
            first, last, enters = last, first, 1
            near, far = leftward, rightward
        (start, base), span, rise = near, far[0] - near[0], far[1] - near[1]
        step, across = self.step, self.across
        base -= self.low
        for row in range(first, last):
            share = (front + (row + 0.5) * side - start) / span
            met[row * across + column].append((round((base + share * rise) / step), enters, shell))
