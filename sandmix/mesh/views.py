"""A shape seen from above, from the front and from the right, as outlines drawn from the crossings of rays from above.

Each ray represents a cell of its grid. What is thinner than a cell may be missed; the outermost lines lie on the shape's own box.
Source: ray_casting.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from sandmix.mesh.facets import Facets
from sandmix.mesh.rays import Rays, axes_for

MOST_CORNERS = 600
MOST_UP = 96

Place = tuple[float, float]
Loop = tuple[Place, ...]
Cells = list[bytearray]


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """One view: width and height of its box, and closed loops in it from the lower left, in the unit of the shape.

    What lies inside an odd number of loops belongs to the shape.
    """

    wide: float
    high: float
    loops: tuple[Loop, ...]


def views(rays: Rays, wide: float, deep: float, tall: float) -> tuple[View, View, View]:
    """Return the views from above, from the front and from the right of the shape that the *rays* cross; its box is *wide*, *deep* and *tall*."""
    side = rays.cell**0.5
    ahead = len(rays.crossings) // rays.across
    up = max(1, min(MOST_UP, ceil(tall / side)))
    step = tall / up
    above = [bytearray(rays.across) for _ in range(ahead)]
    front = [bytearray(rays.across) for _ in range(up)]
    right = [bytearray(ahead) for _ in range(up)]
    for at, crossings in enumerate(rays.crossings):
        row, column = divmod(at, rays.across)
        for low, high in _within(crossings):
            above[row][column] = 1
            first, last = _cells_of(low * rays.step / step, high * rays.step / step, up)
            for level in range(first, last):
                front[level][column] = right[level][row] = 1
    return (
        _view(above, side, side, wide, deep),
        _view(front, side, step, wide, tall),
        _view(right, side, step, deep, tall),
    )


def points_in_views(facets: Facets, up: str, point: tuple[float, float, float]) -> tuple[Place, Place, Place]:
    """Return where a *point* in the axes of the file is in the views from above, from the front and from the right, with *up* upwards."""
    axes = axes_for(facets, up)
    own = [value - start for value, start in zip(point, facets.origin, strict=True)]
    held = [facets.xs, facets.ys, facets.zs]
    right, ahead = (own[_which(held, axis)] - min(axis) for axis in axes[:2])
    high, sign = axes[2], axes[3]
    along = own[_which(held, high)]
    over = along - min(high) if sign > 0 else max(high) - along
    return (right, ahead), (right, over), (ahead, over)


def _which(held: list[array[float]], axis: array[float]) -> int:
    return next(at for at, values in enumerate(held) if values is axis)


def _within(crossings: Sequence[tuple[int, int, int]]) -> Iterator[tuple[int, int]]:
    """The depths between which a ray is inside."""
    depth = 0
    for (start, enters, _), (end, _, _) in pairwise(crossings):
        depth += 1 if enters else -1
        if depth:
            yield start, end


def _cells_of(low: float, high: float, count: int) -> tuple[int, int]:
    """The cells whose middles lie between two depths, or else the one cell of the depth halfway."""
    first, last = ceil(low - 0.5), ceil(high - 0.5)
    if first >= last:
        first = int((low + high) / 2)
        last = first + 1
    first = min(max(first, 0), count - 1)
    return first, min(max(last, first + 1), count)


def _view(cells: Cells, across: float, up: float, wide: float, high: float) -> View:
    """The view of these cells, made coarser until it has few enough corners."""
    loops = outlines(cells)
    while sum(len(loop) for loop in loops) > MOST_CORNERS:
        cells, across, up = _coarser(cells), 2 * across, 2 * up
        loops = outlines(cells)
    columns = [x for loop in loops for x, _ in loop]
    rows = [y for loop in loops for _, y in loop]
    on_x, on_y = _Scale(columns, across, wide), _Scale(rows, up, high)
    return View(wide=wide, high=high, loops=tuple(tuple((on_x.at(x), on_y.at(y)) for x, y in loop) for loop in loops))


class _Scale:
    """Cells along one side as lengths; an outermost line less than a cell from the box lies on it."""

    def __init__(self, found: list[float], cell: float, box: float) -> None:
        self.cell, self.box = cell, box
        self.first, self.last = min(found, default=0.0), max(found, default=0.0)

    def at(self, place: float) -> float:
        length = place * self.cell
        if place == self.first and length <= self.cell:
            return 0.0
        if place == self.last and abs(length - self.box) <= self.cell:
            return self.box
        return min(length, self.box)


def _coarser(cells: Cells) -> Cells:
    """Cells twice as large, each in the shape where one of the smaller cells is."""
    rows = []
    for lower in range(0, len(cells), 2):
        both = [a | b for a, b in zip(cells[lower], cells[min(lower + 1, len(cells) - 1)], strict=True)]
        rows.append(bytearray(max(both[at : at + 2]) for at in range(0, len(both), 2)))
    return rows


def outlines(cells: Sequence[bytes | bytearray]) -> list[Loop]:
    """Return the loops around the cells that are not 0, in cells from the lower left; corners are cut off halfway along the cell.

    >>> outlines([bytes([1, 1])])
    [((0.5, 0.0), (1.5, 0.0), (2.0, 0.5), (1.5, 1.0), (0.5, 1.0), (0.0, 0.5))]
    """
    left = _edges(cells)
    loops = []
    while left:
        loop: list[Place] = []
        here = next(iter(left))
        while here in left:
            ends = left[here]
            there = ends.pop()
            if not ends:
                del left[here]
            loop.append(((here[0] + there[0]) / 2, (here[1] + there[1]) / 2))
            here = there
        loops.append(_without_straight(loop))
    return loops


def _edges(cells: Sequence[bytes | bytearray]) -> dict[tuple[int, int], list[tuple[int, int]]]:
    """The sides of cells on the rim, from corner to corner, with the shape on the left."""
    found: dict[tuple[int, int], list[tuple[int, int]]] = {}
    empty = bytes(len(cells[0]))
    for y, row in enumerate(cells):
        below = cells[y - 1] if y else empty
        above = cells[y + 1] if y + 1 < len(cells) else empty
        for x, filled in enumerate(row):
            if not filled:
                continue
            if not below[x]:
                found.setdefault((x, y), []).append((x + 1, y))
            if x + 1 == len(row) or not row[x + 1]:
                found.setdefault((x + 1, y), []).append((x + 1, y + 1))
            if not above[x]:
                found.setdefault((x + 1, y + 1), []).append((x, y + 1))
            if not x or not row[x - 1]:
                found.setdefault((x, y + 1), []).append((x, y))
    return found


def _without_straight(loop: list[Place]) -> Loop:
    """The same without points that lie on a straight line between their neighbours."""
    kept = []
    for (ax, ay), (bx, by), (cx, cy) in zip(loop[-1:] + loop[:-1], loop, loop[1:] + loop[:1], strict=True):
        if (bx - ax) * (cy - by) != (by - ay) * (cx - bx):
            kept.append((bx, by))
    return tuple(kept)
