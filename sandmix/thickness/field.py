"""How far each point of a grid inside a shape is from its surface, and where that distance has its peaks.

Rays fill the grid. Along a ray the distance is exact; across the rays each line of the grid takes the least of what its points reach and of its
two ends, which is the exact distance transform of Felzenszwalb and Huttenlocher, a line at a time. A wall across the rays is known to half a
cell. Sources: ray_casting; distance_transform.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from sandmix.mesh.rays import Crossing, Rays

POINTS_INSIDE = 14_000
"""About how many points of the grid lie inside the shape, and so how fine the grid is (own choice)."""
MOST_LEVELS = 400
LEAST_SHARE = 0.2
"""Peaks below this share of the highest are left out: what is a fifth as thick freezes in a 25th of the time."""
PLATEAU = 0.93
"""Points at least this share of a peak's distance belong to its top (own choice)."""
MOST_AVERAGED = 2000
_WIDTHS = 8
_FEWEST_LEVELS = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Peak:
    """A peak of the distance: its point and its distance; of the ridge to a higher peak the lowest point and its distance, and which peak that is."""

    place: int
    value: float
    saddle: int = -1
    lowest: float = 0.0
    parent: int = -1


class Field:
    """The distance to the surface at each point of a grid, 0 outside, with one layer of points outside all round."""

    def __init__(self, rays: Rays, left: float, front: float, tall: float, volume: float) -> None:
        narrow = math.sqrt(rays.cell)
        ahead = len(rays.crossings) // rays.across
        wanted = math.cbrt(volume / POINTS_INSIDE)
        each = max(1, min(round(wanted / narrow), max(rays.across, ahead) // _WIDTHS))
        self.side = narrow * each
        rise = min(self.side, max(0.25 * self.side, volume / (self.side * self.side * POINTS_INSIDE)))
        levels = min(MOST_LEVELS, max(_FEWEST_LEVELS, math.ceil(tall / rise)))
        self.rise = tall / levels
        self.columns = list(range(each // 2, rays.across, each))
        self.rows = list(range(each // 2, ahead, each))
        self.wide, self.deep, self.tall = len(self.columns) + 2, len(self.rows) + 2, levels + 2
        self.left, self.front, self.low, self.narrow = left, front, rays.bottom, narrow
        self.values: list[float] = [0.0] * (self.wide * self.deep * self.tall)
        self._along_the_rays(rays)
        self._across(self.wide, self.tall)
        self._across(self.deep, self.wide * self.tall)
        self.values = [math.sqrt(value) for value in self.values]

    def place(self, at: int) -> tuple[float, float, float]:
        """Return where a point of the grid is, in the unit of the file."""
        rest, level = divmod(at, self.tall)
        row, column = divmod(rest, self.wide)
        return (
            self.left + (self.columns[column - 1] + 0.5) * self.narrow,
            self.front + (self.rows[row - 1] + 0.5) * self.narrow,
            self.low + (level - 0.5) * self.rise,
        )

    def _along_the_rays(self, rays: Rays) -> None:
        values, rise = self.values, self.rise
        for j, row in enumerate(self.rows, start=1):
            for i, column in enumerate(self.columns, start=1):
                start = (j * self.wide + i) * self.tall + 1
                for low, high in inside(rays.crossings[row * rays.across + column]):
                    near, far = low * rays.step, high * rays.step
                    first, last = math.ceil(near / rise - 0.5), math.ceil(far / rise - 0.5)
                    for level in range(max(0, first), min(self.tall - 2, last)):
                        height = (level + 0.5) * rise
                        least = min(height - near, far - height)
                        values[start + level] = least * least or 1e-300

    def _across(self, count: int, step: int) -> None:
        """Lower every line of *count* points that are *step* apart."""
        values, square = self.values, self.side * self.side
        for start in range(len(values)):
            if start // step % count == 0:
                line = values[start : start + count * step : step]
                if any(line):
                    values[start : start + count * step : step] = lowered(line, square)

    def peaks(self) -> list[Peak]:
        """Return the peaks, the highest first."""
        values = self.values
        floor = LEAST_SHARE * max(values)
        order = sorted((at for at, value in enumerate(values) if value > floor), key=values.__getitem__, reverse=True)
        around = self._around()
        label = [-1] * len(values)
        above: list[int] = []
        found: list[Peak] = []

        def root(one: int) -> int:
            while above[one] != one:
                above[one] = one = above[above[one]]
            return one

        for at in order:
            here = -1
            for step in around:
                other = label[at + step]
                if other < 0 or other == here:
                    continue
                other = root(other)
                if here < 0:
                    here = other
                elif other != here:
                    here, lower = (here, other) if here < other else (other, here)
                    above[lower] = here
                    found[lower] = Peak(
                        place=found[lower].place,
                        value=found[lower].value,
                        saddle=at,
                        lowest=values[at],
                        parent=here,
                    )
            if here < 0:
                here = len(found)
                above.append(here)
                found.append(Peak(place=at, value=values[at]))
            label[at] = here
        return found

    def _around(self) -> tuple[int, ...]:
        steps = (-1, 0, 1)
        offsets = ((j * self.wide + i) * self.tall + k for j in steps for i in steps for k in steps if i or j or k)
        return tuple(offsets)

    def middle_of(self, peak: int) -> int:
        """Return the point nearest to the middle of all around a peak that is almost as far from the surface."""
        values, around = self.values, self._around()
        floor = PLATEAU * values[peak]
        seen, left = {peak}, [peak]
        while left:
            at = left.pop()
            for step in around:
                other = at + step
                if values[other] >= floor and other not in seen:
                    seen.add(other)
                    left.append(other)
        kept = sorted(seen)
        places = [self.place(at) for at in kept[:: max(1, len(kept) // MOST_AVERAGED)]]
        x, y, z = (math.fsum(axis) / len(axis) for axis in zip(*places, strict=True))
        squares = self._squares_from(x, y, z, kept)
        return kept[squares.index(min(squares))]

    def _squares_from(self, x: float, y: float, z: float, points: list[int]) -> list[float]:
        """The squares of the distances of points of the grid from there."""
        columns = [0.0, *((self.left + (at + 0.5) * self.narrow - x) ** 2 for at in self.columns)]
        rows = [0.0, *((self.front + (at + 0.5) * self.narrow - y) ** 2 for at in self.rows)]
        levels = [(self.low + (at - 0.5) * self.rise - z) ** 2 for at in range(self.tall)]
        wide, tall = self.wide, self.tall
        return [levels[at % tall] + columns[at // tall % wide] + rows[at // (tall * wide)] for at in points]


def inside(crossings: list[Crossing]) -> Iterator[tuple[int, int]]:
    """Yield where a ray is inside, from where to where; pieces that touch or overlap are one.

    >>> list(inside([(0, 1, 0), (5, 1, 1), (6, 0, 0), (9, 0, 1), (20, 1, 2), (21, 0, 2)]))
    [(0, 9), (20, 21)]
    """
    depth, began, ended = 0, -1, -1
    for (start, enters, _), (end, _, _) in pairwise(crossings):
        depth += 1 if enters else -1
        if not depth:
            continue
        if began >= 0 and start - ended > 2:
            yield began, ended
            began = -1
        if began < 0:
            began = start
        ended = end
    if began >= 0:
        yield began, ended


def lowered(line: list[float], square: float) -> list[float]:
    """Return the least of value + distance² over all points of each run above 0, and over both ends of the run half a step out, where it is 0.

    *square* is the square of a step.

    >>> lowered([0.0, 9.0, 9.0, 9.0, 0.0], 1.0)
    [0.0, 0.25, 2.25, 0.25, 0.0]
    >>> lowered([0.0, 9.0, 0.09, 9.0, 9.0, 0.0], 1.0)
    [0.0, 0.25, 0.09, 1.09, 0.25, 0.0]
    """
    result = [0.0] * len(line)
    start, count = 0, len(line)
    while start < count:
        if not line[start]:
            start += 1
            continue
        end = start
        while end < count and line[end]:
            end += 1
        _run(line, result, start, end, square)
        start = end
    return result


def _run(line: list[float], result: list[float], start: int, end: int, square: float) -> None:
    """Lower one run from *start* up to *end*."""
    places, heights, begins = [start - 0.5], [0.0], [-math.inf]
    for at in range(start, end + 1):
        place, height = (float(at), line[at] / square) if at < end else (end - 0.5, 0.0)
        raised = height + place * place
        while True:
            before = places[-1]
            meets = (raised - heights[-1] - before * before) / (2 * (place - before))
            if meets > begins[-1]:
                break
            places.pop()
            heights.pop()
            begins.pop()
        places.append(place)
        heights.append(height)
        begins.append(meets)
    begins.append(math.inf)
    piece = 0
    for at in range(start, end):
        while begins[piece + 1] < at:
            piece += 1
        away = at - places[piece]
        result[at] = square * (heights[piece] + away * away)
