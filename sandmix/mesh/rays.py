"""Ray casting: parallel rays along one direction through a fine grid, and where each ray enters and leaves which shell.

One rule says for all facets that share a corner on which side of a ray it lies. So a ray through a closed shape enters as often as it leaves,
even if it passes along an edge. Depths are counted in ten-millionths of the shape's size; surfaces closer than that touch.
Source: ray_casting.
"""

from __future__ import annotations

import math
from array import array
from dataclasses import dataclass
from math import ceil, floor

from sandmix.mesh.facets import Facets

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
    """The crossings of each ray with the surface, from below up, as (depth in steps, 1 in or 0 out, shell); rays are in rows of ``across``.

    ``cell`` is the area that each ray represents and ``step`` the length of a step of depth, in the unit of the shape.
    """

    across: int
    cell: float
    step: float
    bottom: float
    crossings: list[list[Crossing]]

    def bound(self, of_ray: list[float]) -> float:
        """Return the error bound of the sum of *of_ray* times the cell: half a cell along every line where it jumps from ray to ray."""
        jumps = 0.0
        for at, value in enumerate(of_ray):
            right = of_ray[at + 1] if (at + 1) % self.across else 0.0
            above = of_ray[at + self.across] if at + self.across < len(of_ray) else 0.0
            jumps += abs(right - value) + abs(above - value)
        return 0.5 * self.cell * jumps


def axes_for(facets: Facets, up: str) -> tuple[array[float], array[float], array[float], float]:
    """Return the coordinates to the right, ahead and upwards when *up* is up, right-handed, and the sign of the last.

    >>> axes_for(Facets(), "-x")[3]
    -1.0
    """
    right, ahead, high = (facets.along(axis) for axis in {"z": "xyz", "x": "yzx", "y": "zxy"}[up[1]])
    return (right, ahead, high, 1.0) if up[0] == "+" else (ahead, right, high, -1.0)


def cast(facets: Facets, shell_of: array[int], up: str, projected: float) -> Rays | None:
    """Return the crossings of rays along *up*; *projected* is the projected area of all facets together.

    None where the shape is flat, or would take too long.
    """
    right, ahead, high, sign = axes_for(facets, up)
    left, front = min(right), min(ahead)
    wide, deep = max(right) - left, max(ahead) - front
    low, top = (min(high), max(high)) if sign > 0 else (-max(high), -min(high))
    longest = max(wide, deep, top - low)
    if not min(wide, deep, top - low) > max(FLAT * longest, TINIEST):
        return None
    widest = max(wide, deep)
    few = floor(widest / math.sqrt(projected / MOST_CROSSINGS)) if projected else CELLS_ACROSS
    cells = CELLS_ACROSS
    while cells >= FEWEST_ACROSS:
        side = widest / max(1, min(cells, few))
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
        found = grid.crossings(facets, right, ahead, high, shell_of)
        if found is not None:
            for of_ray in found:
                of_ray.sort()
            return Rays(across=grid.across, cell=side * side, step=grid.step, bottom=low, crossings=found)
        cells //= 2
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class _Grid:
    """The places of the rays: the middles of square cells."""

    side: float
    across: int
    ahead: int
    left: float
    front: float
    sign: float
    low: float
    step: float

    def crossings(
        self,
        facets: Facets,
        right: array[float],
        ahead: array[float],
        high: array[float],
        shell_of: array[int],
    ) -> list[list[Crossing]] | None:
        """The crossings of each ray, unsorted; None where that takes too many strips.

        In each column of rays one edge of a facet passes to the right and one to the left. A facet that faces up has the first of them in
        front, and there the rays leave the shape.
        """
        side, left, sign = self.side, self.left, self.sign
        columns = array("i", [ceil((value - left) / side - 0.5) for value in right])
        rows = array("i", [ceil((value - self.front) / side - 0.5) for value in ahead])
        found: list[list[Crossing]] = [[] for _ in range(self.across * self.ahead)]
        strips = 0
        for a, b, c in facets.triples():
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
                self._wide(found, (a, b, c), (i, j, k), right, ahead, high, shell_of[a])
                continue
            # one corner is alone on its side: all columns between cross the same two edges
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
                # the edge alone → one passes to the right where alone lies left; the other edge comes back
                if i < j:
                    self._fill(found, column, there, back, shell_of[a])
                else:
                    self._fill(found, column, back, there, shell_of[a])
        return found

    def _wide(
        self,
        found: list[list[Crossing]],
        facet: tuple[int, int, int],
        at_columns: tuple[int, int, int],
        right: array[float],
        ahead: array[float],
        high: array[float],
        shell: int,
    ) -> None:
        """Add the crossings of a facet whose corners lie in three columns."""
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
            self._fill(found, column, rightward, leftward, shell)

    def _fill(
        self,
        found: list[list[Crossing]],
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
            found[row * across + column].append((round((base + share * rise) / step), enters, shell))
