"""The surface of a shape, sorted into cells, so that what is near a point or ahead of a ray is found without a look at every facet.

A facet is in each cell that it may touch; a large one is cut until its pieces are as small as a cell. Source: geometry.
"""

from __future__ import annotations

import math
from array import array
from collections.abc import Iterator, Sequence
from functools import cache

from sandmix.mesh.facets import Facets
from sandmix.mesh.rays import axes_for

MOST_FACETS = 250_000
CLUSTERED_INTO = 200
MOST_CELLS_ALONG = 56
FEWEST_CELLS_ALONG = 4
MOST_ENTRIES = 60_000
_X, _Y, _HALF = 1 << 22, 1 << 11, 512
_LEAF = 6

Point = tuple[float, float, float]
Triangle = tuple[Point, Point, Point]


@cache
def ring(cells: int) -> tuple[int, ...]:
    """Return how far the keys of the cells lie that are exactly *cells* away along the axis where they are farthest.

    >>> [len(ring(cells)) for cells in range(3)]
    [1, 26, 98]
    """
    if not cells:
        return (0,)
    whole, inner = range(-cells, cells + 1), range(1 - cells, cells)
    ends = (-cells, cells)
    return (
        *(x * _X + y * _Y + z for x in ends for y in whole for z in whole),
        *(x * _X + y * _Y + z for x in inner for y in ends for z in whole),
        *(x * _X + y * _Y + z for x in inner for y in inner for z in ends),
    )


class Surface:
    """The facets of a shape in the axes to the right, ahead and upwards for the direction *up*.

    More than 250 000 facets are made fewer: corners in the same 200th of the size count as one, and ``error`` says how far they moved at most.
    """

    def __init__(self, facets: Facets, up: str) -> None:
        self.right, self.ahead, self.high, _ = axes_for(facets, up)
        self.corners: Sequence[int] = facets.corners
        self.low = min(self.right), min(self.ahead), min(self.high)
        self.size = max(facets.box)
        self.error = 0.0
        if len(facets) > MOST_FACETS:
            self._cluster()
        self.count = len(self.corners) // 3
        self.cell = self.size / self._cells_along()
        self.cells: dict[int, list[int]] = {}
        self._prepared: dict[int, tuple[float, ...]] = {}
        self._fill()

    def _cluster(self) -> None:
        """Let corners in the same small cell be one, and leave out the facets that have no area then."""
        step = self.size / CLUSTERED_INTO
        x, y, z = self.low
        first: dict[int, int] = {}
        number = array("I")
        places = zip(self.right, self.ahead, self.high, strict=True)
        for at, (a, b, c) in enumerate(places):
            key = int((a - x) / step) * _X + int((b - y) / step) * _Y + int((c - z) / step)
            number.append(first.setdefault(key, at))
        kept = array("I")
        one = map(number.__getitem__, self.corners)
        for i, j, k in zip(one, one, one, strict=True):
            if i != j and j != k and k != i:
                kept.extend((i, j, k))
        if len(kept):
            self.corners, self.error = kept, step * math.sqrt(3)

    def _cells_along(self) -> int:
        """How many cells along the longest side: more for more facets, fewer where these are long."""
        count, corners = self.count, self.corners
        most = min(MOST_CELLS_ALONG, max(FEWEST_CELLS_ALONG, round(0.35 * math.sqrt(count))))
        each = max(1, count // 2000)
        length = 0.0
        sampled = range(0, count, each)
        for facet in sampled:
            a, b, c = corners[3 * facet : 3 * facet + 3]
            length += max(
                max(values[a], values[b], values[c]) - min(values[a], values[b], values[c])
                for values in (self.right, self.ahead, self.high)
            )
        long = count * length / (len(sampled) * self.size)
        return max(FEWEST_CELLS_ALONG, min(most, int((7 * count + MOST_ENTRIES) / (2 * long + 1))))

    def _fill(self) -> None:
        cell, (x, y, z) = self.cell, self.low
        columns = [int((value - x) / cell) + _HALF for value in self.right]
        rows = [int((value - y) / cell) + _HALF for value in self.ahead]
        levels = [int((value - z) / cell) + _HALF for value in self.high]
        keys = [i * _X + j * _Y + k for i, j, k in zip(columns, rows, levels, strict=True)]
        found = self.cells
        one = iter(self.corners)
        for facet, (a, b, c) in enumerate(zip(one, one, one, strict=True)):
            key = keys[a]
            if keys[b] == key and keys[c] == key:
                if key in found:
                    found[key].append(facet)
                else:
                    found[key] = [facet]
                continue
            first_x, last_x = _ends(columns[a], columns[b], columns[c])
            first_y, last_y = _ends(rows[a], rows[b], rows[c])
            first_z, last_z = _ends(levels[a], levels[b], levels[c])
            if (last_x - first_x + 1) * (last_y - first_y + 1) * (last_z - first_z + 1) > _LEAF:
                for key in self._cells_of(self.triangle(facet)):
                    found.setdefault(key, []).append(facet)
                continue
            for i in range(first_x * _X, last_x * _X + 1, _X):
                for j in range(i + first_y * _Y, i + last_y * _Y + 1, _Y):
                    for key in range(j + first_z, j + last_z + 1):
                        if key in found:
                            found[key].append(facet)
                        else:
                            found[key] = [facet]

    def triangle(self, facet: int) -> Triangle:
        """Return the three corners of a facet."""
        a, b, c = self.corners[3 * facet : 3 * facet + 3]
        right, ahead, high = self.right, self.ahead, self.high
        return (right[a], ahead[a], high[a]), (right[b], ahead[b], high[b]), (right[c], ahead[c], high[c])

    def _cells_of(self, triangle: Triangle) -> set[int]:
        """The cells that a large triangle may touch."""
        found: set[int] = set()
        left = [triangle]
        while left:
            piece = left.pop()
            spans = [self._span(piece, axis) for axis in range(3)]
            (a, b), (c, d), (e, f) = spans
            if (b - a + 1) * (d - c + 1) * (f - e + 1) > _LEAF:
                left += halves(piece)
                continue
            found.update(i * _X + j * _Y + k for i in range(a, b + 1) for j in range(c, d + 1) for k in range(e, f + 1))
        return found

    def _span(self, triangle: Triangle, axis: int) -> tuple[int, int]:
        low, cell = self.low[axis], self.cell
        a, b, c = triangle[0][axis], triangle[1][axis], triangle[2][axis]
        return int((min(a, b, c) - low) / cell) + _HALF, int((max(a, b, c) - low) / cell) + _HALF

    def _key(self, x: float, y: float, z: float) -> int:
        low, cell = self.low, self.cell
        return (
            (math.floor((x - low[0]) / cell) + _HALF) * _X
            + (math.floor((y - low[1]) / cell) + _HALF) * _Y
            + math.floor((z - low[2]) / cell)
            + _HALF
        )

    def _ready(self, facet: int) -> tuple[float, ...]:
        """A facet's first corner, its two edges from there, their products, and its normal with the length 1; kept for the next time."""
        ready = self._prepared.get(facet)
        if ready is None:
            (ax, ay, az), (bx, by, bz), (cx, cy, cz) = self.triangle(facet)
            ux, uy, uz = bx - ax, by - ay, bz - az
            vx, vy, vz = cx - ax, cy - ay, cz - az
            nx, ny, nz = uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx
            long = math.sqrt(nx * nx + ny * ny + nz * nz) or 1.0
            uu, uv, vv = ux * ux + uy * uy + uz * uz, ux * vx + uy * vy + uz * vz, vx * vx + vy * vy + vz * vz
            ready = (ax, ay, az, ux, uy, uz, vx, vy, vz, uu, uv, vv, nx / long, ny / long, nz / long)
            self._prepared[facet] = ready
        return ready

    def normal(self, facet: int) -> Point:
        """Return the direction to which a facet faces; zeros where it has no area."""
        x, y, z = self._ready(facet)[12:]
        return x, y, z

    def area(self, facet: int) -> float:
        """Return the area of a facet."""
        corners = self.corners
        a, b, c = corners[3 * facet], corners[3 * facet + 1], corners[3 * facet + 2]
        right, ahead, high = self.right, self.ahead, self.high
        ax, ay, az = right[a], ahead[a], high[a]
        ux, uy, uz = right[b] - ax, ahead[b] - ay, high[b] - az
        vx, vy, vz = right[c] - ax, ahead[c] - ay, high[c] - az
        return 0.5 * math.sqrt((uy * vz - uz * vy) ** 2 + (uz * vx - ux * vz) ** 2 + (ux * vy - uy * vx) ** 2)

    def touching(self, facet: int, x: float, y: float, z: float) -> tuple[float, float, float, float]:
        """Return the square of the distance from a point to a facet, and the way from there to the nearest point of it."""
        ax, ay, az, ux, uy, uz, vx, vy, vz, uu, uv, vv, _, _, _ = self._ready(facet)
        px, py, pz = x - ax, y - ay, z - az
        pu, pv = px * ux + py * uy + pz * uz, px * vx + py * vy + pz * vz
        whole = uu * vv - uv * uv
        if whole > 1e-14 * uu * vv:
            s, t = (vv * pu - uv * pv) / whole, (uu * pv - uv * pu) / whole
            inside = s >= 0 and t >= 0 and s + t <= 1
        else:
            s = t = 0.0
            inside = False
        if not inside:
            s, t = _on_the_rim(pu, pv, uu, uv, vv)
        dx, dy, dz = s * ux + t * vx - px, s * uy + t * vy - py, s * uz + t * vz - pz
        return dx * dx + dy * dy + dz * dz, dx, dy, dz

    def nearest(self, x: float, y: float, z: float, least: float = 0.0) -> tuple[float, int, Point]:
        """Return the distance to the surface, the facet there, and the way to it; *least* is what the distance is known to be at least."""
        key, cell, get = self._key(x, y, z), self.cell, self.cells.get
        edge = min(
            min((value - low) / cell % 1, 1 - (value - low) / cell % 1)
            for value, low in zip((x, y, z), self.low, strict=True)
        )
        best, at, way = math.inf, -1, (0.0, 0.0, 0.0)
        seen: set[int] = set()
        away = max(0, math.floor(least / (cell * math.sqrt(3))) - 1)
        while away < _HALF // 2:
            for step in ring(away):
                held = get(key + step)
                if held is None:
                    continue
                for facet in held:
                    if facet not in seen:
                        seen.add(facet)
                        square, dx, dy, dz = self.touching(facet, x, y, z)
                        if square < best:
                            best, at, way = square, facet, (dx, dy, dz)
            if best <= ((away + edge) * cell) ** 2:
                break
            away += 1
        return math.sqrt(best), at, way

    def within(self, x: float, y: float, z: float, reach: float) -> Iterator[list[int]]:
        """Yield the facets of each cell that lies within *reach* of a point, and perhaps of some more."""
        low, cell, get = self.low, self.cell, self.cells.get
        far = (reach + 0.87 * cell) ** 2
        spans = []
        for value, start in zip((x, y, z), low, strict=True):
            first = max(0, math.floor((value - reach - start) / cell))
            last = min(MOST_CELLS_ALONG, math.floor((value + reach - start) / cell))
            spans.append([(at + _HALF, (start + (at + 0.5) * cell - value) ** 2) for at in range(first, last + 1)])
        for i, dx in spans[0]:
            for j, dy in spans[1]:
                left = far - dx - dy
                if left < 0:
                    continue
                start_key = i * _X + j * _Y
                for k, dz in spans[2]:
                    if dz <= left and (held := get(start_key + k)):
                        yield held

    def ahead_of(self, start: Point, way: Point, reach: float, without: int) -> tuple[float, int] | None:
        """Return how far along *way* (of length 1) the first facet is met other than *without*, and which; None where there is none in *reach*."""
        cell, get = self.cell, self.cells.get
        x, y, z = start
        dx, dy, dz = way
        at, steps, nexts, each = [], [], [], []
        for value, along, low in zip(start, way, self.low, strict=True):
            place = (value - low) / cell
            here = math.floor(place)
            at.append(here + _HALF)
            steps.append(1 if along > 0 else -1)
            if abs(along) < 1e-12:
                nexts.append(math.inf)
                each.append(math.inf)
            else:
                nexts.append((here + (along > 0) - place) * cell / along)
                each.append(cell / abs(along))
        key, keys = at[0] * _X + at[1] * _Y + at[2], (steps[0] * _X, steps[1] * _Y, steps[2])
        best, met = reach, -1
        seen = {without}
        nearest = 1e-7 * self.size
        passed = 0.0
        while passed < best:
            for facet in get(key, ()):
                if facet in seen:
                    continue
                seen.add(facet)
                ax, ay, az, ux, uy, uz, vx, vy, vz, _, _, _, _, _, _ = self._ready(facet)
                hx, hy, hz = dy * vz - dz * vy, dz * vx - dx * vz, dx * vy - dy * vx
                whole = ux * hx + uy * hy + uz * hz
                if not whole:
                    continue
                px, py, pz = x - ax, y - ay, z - az
                s = (px * hx + py * hy + pz * hz) / whole
                if not -1e-9 <= s <= 1.000000001:
                    continue
                qx, qy, qz = py * uz - pz * uy, pz * ux - px * uz, px * uy - py * ux
                t = (dx * qx + dy * qy + dz * qz) / whole
                if t < -1e-9 or s + t > 1.000000001:
                    continue
                far = (vx * qx + vy * qy + vz * qz) / whole
                if nearest < far < best:
                    best, met = far, facet
            axis = nexts.index(min(nexts))
            passed = nexts[axis]
            nexts[axis] += each[axis]
            key += keys[axis]
        return (best, met) if met >= 0 else None


def _ends(i: int, j: int, k: int) -> tuple[int, int]:
    """The least and the most of three numbers, which are often equal."""
    if i > j:
        i, j = j, i
    if k < i:
        return k, j
    return (i, k) if k > j else (i, j)


def _on_the_rim(pu: float, pv: float, uu: float, uv: float, vv: float) -> tuple[float, float]:
    """The nearest place on the three edges of a triangle, as shares of its two edges from the first corner."""
    best, found = math.inf, (0.0, 0.0)
    ww = uu + vv - 2 * uv
    one = min(1.0, max(0.0, pu / uu)) if uu else 0.0
    two = min(1.0, max(0.0, pv / vv)) if vv else 0.0
    three = min(1.0, max(0.0, (pv - pu + uu - uv) / ww)) if ww else 0.0
    for s, t in ((one, 0.0), (0.0, two), (1 - three, three)):
        square = s * s * uu + 2 * s * t * uv + t * t * vv - 2 * (s * pu + t * pv)
        if square < best:
            best, found = square, (s, t)
    return found


def halves(triangle: Triangle) -> tuple[Triangle, Triangle]:
    """Return the two halves of a triangle, cut in the middle of its longest edge."""
    a, b, c = max(
        (triangle, triangle[1:] + triangle[:1], triangle[2:] + triangle[:2]),
        key=lambda each: math.dist(each[0], each[1]),
    )
    middle = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2)
    return (a, middle, c), (middle, b, c)
