"""What holds a shape in the sand: along each axis, the faces that face down above a parting or up below it, and the vertical walls.

Areas are projected along the axis, so that a wall that leans slightly counts only slightly. A facet that crosses a parting is clipped there, so
each figure is an exact sum over facets, except that heights closer than a millionth of the size count as one. With a flat parting, a face that
faces away from its half holds the sand under it. A stepped parting frees all that nothing covers on its own side; what stays held are the gaps
that rays find between one part and another. Source: geometry; ray_casting.
"""

from __future__ import annotations

import itertools
import math
from array import array
from bisect import bisect
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sandmix.mesh import ray_partings
from sandmix.mesh.facets import Facets
from sandmix.mesh.ray_partings import Hidden, Parting
from sandmix.mesh.rays import cast

AXES = "xyz"
VERTICAL_DEG = 1.0
LEVEL_DEG = 0.5
ONE_HEIGHT = 1e-6
FEW_HEIGHTS = 11
FLATS, HUMPS, FINER = 6, 5, 5
"""The most heights of level faces, of wide places, and on either side of the best one; with ends and middle never more than 24."""
COUNTS_AS_NONE = 0.01
"""An undercut of this share of the projected area counts as none: files round, and sand yields a little (own choice)."""
_BINS = 256
_SLIVER = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """A shape along one axis: its height, its projected area from both ends, its vertical walls, its least draft, and its partings.

    ``vertical`` is the true surface within a degree of vertical; ``least_draft_deg`` the least draft of any face. ``hidden`` is worked out only
    where no flat parting is enough.
    """

    axis: str
    height: float
    projected: float
    vertical: float
    least_draft_deg: float
    partings: tuple[Parting, ...]
    hidden: Hidden | None


def sides_of(facets: Facets, shell_of: array[int], signs: Mapping[int, int], *, overlapping: bool) -> tuple[Side, ...]:
    """Return each axis of *facets*; by shell, *signs* is 1 where it counts as it faces, -1 where it is turned, 0 where it is a hollow.

    Where pieces overlap, facets lie inside others; then the partings are worked out from rays instead, to about 1 %.
    """
    faces, twice = _normals(facets, shell_of, signs)
    return tuple(
        _Along(facets=facets, axis=axis, facing=faces[axis], twice=twice).side(shell_of, signs, overlapping)
        for axis in AXES
    )


def _normals(
    facets: Facets, shell_of: array[int], signs: Mapping[int, int]
) -> tuple[dict[str, array[float]], array[float]]:
    """By axis, twice the projected area of each facet, negative where it faces down; and twice its area. 0 for what does not count."""
    xs, ys, zs = facets.xs, facets.ys, facets.zs
    along_x, along_y, along_z, twice = array("d"), array("d"), array("d"), array("d")
    sqrt = math.sqrt
    for a, b, c in facets.triples():
        sign = signs.get(shell_of[a], 0)
        ax, ay, az = xs[a], ys[a], zs[a]
        ux, uy, uz = xs[b] - ax, ys[b] - ay, zs[b] - az
        vx, vy, vz = xs[c] - ax, ys[c] - ay, zs[c] - az
        nx = sign * (uy * vz - uz * vy)
        ny = sign * (uz * vx - ux * vz)
        nz = sign * (ux * vy - uy * vx)
        along_x.append(nx)
        along_y.append(ny)
        along_z.append(nz)
        twice.append(sqrt(nx * nx + ny * ny + nz * nz))
    return {"x": along_x, "y": along_y, "z": along_z}, twice


@dataclass(slots=True)
class _Slots:
    """Twice the area of what faces one way, and its moment: for each slot between two heights, and for each slot that is a height."""

    area: list[float]
    moment: list[float] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.moment = list(self.area)

    def part(self, first: int, last: int | None, low: float) -> tuple[float, float]:
        """Return the area in those slots, and its moment about *low*."""
        area, moment = math.fsum(self.area[first:last]) / 2, math.fsum(self.moment[first:last]) / 2
        return area, moment - low * area

    def split(
        self, size: float, corners: tuple[float, float, float], lo: int, hi: int, heights: Sequence[float]
    ) -> None:
        """Add a facet of that size whose corners lie in slots *lo* to *hi*, cut at each height between them."""
        z1, z2, z3 = sorted(corners)
        whole = size * (z1 + z2 + z3) / 3
        done = done_moment = 0.0
        slot = (lo + 1) & ~1
        while slot + 1 < hi:
            at = heights[slot // 2]
            if at <= z2:
                below = size * (at - z1) ** 2 / ((z2 - z1) * (z3 - z1))
                moment = below * (z1 + 2 * at) / 3
            else:
                above = size * (z3 - at) ** 2 / ((z3 - z1) * (z3 - z2))
                below, moment = size - above, whole - above * (z3 + 2 * at) / 3
            self.area[slot] += below - done
            self.moment[slot] += moment - done_moment
            done, done_moment = below, moment
            slot += 2
        self.area[slot] += size - done
        self.moment[slot] += whole - done_moment


@dataclass(slots=True, kw_only=True)
class _Along:
    """A shape along one axis."""

    facets: Facets
    axis: str
    facing: array[float]
    twice: array[float]

    @property
    def heights(self) -> array[float]:
        """The height of each corner."""
        return self.facets.along(self.axis)

    @property
    def longest(self) -> float:
        """The longest side of the box."""
        return max(self.facets.box)

    def side(self, shell_of: array[int], signs: Mapping[int, int], overlapping: bool) -> Side:
        """Return all figures of this axis."""
        low, top = min(self.heights), max(self.heights)
        near = ONE_HEIGHT * self.longest
        projected = math.fsum(map(abs, self.facing)) / 2
        heights = self.first_heights()
        partings = self.partings(heights)
        finer = _between(heights, partings, projected, near)
        partings = sorted(partings + self.partings(finer), key=lambda parting: parting.height)
        crossings = None
        if overlapping or min(parting.undercut for parting in partings) > COUNTS_AS_NONE * projected:
            rays = cast(self.facets, shell_of, f"+{self.axis}", projected)
            crossings = ray_partings.ray_crossings(rays, signs)
        if crossings and overlapping:
            projected = crossings.projected
            partings = [crossings.parting(height - low, near) for height in sorted(heights + finer)]
        vertical, least = self.vertical()
        return Side(
            axis=self.axis,
            height=top - low,
            projected=projected,
            vertical=vertical,
            least_draft_deg=least,
            partings=tuple(partings),
            hidden=crossings.hidden if crossings else None,
        )

    def vertical(self) -> tuple[float, float]:
        """Return the surface of the vertical walls, and the least draft of any face in degrees."""
        steep, least = math.sin(math.radians(VERTICAL_DEG)), 1.0
        sliver = _SLIVER * self.longest**2
        vertical = 0.0
        for facing, size in zip(self.facing, self.twice, strict=True):
            if size <= sliver:
                continue
            lean = facing / size if facing >= 0 else -facing / size
            if lean <= steep:
                vertical += size
            if lean < least:
                least = lean
        return vertical / 2, math.degrees(math.asin(least))

    def first_heights(self) -> list[float]:
        """Return the heights to try: ends and middle, the level faces, and the widest places by a rough estimate."""
        heights, near = self.heights, ONE_HEIGHT * self.longest
        low, top = min(heights), max(heights)
        ends = [low, (low + top) / 2, top]
        corners = _apart(sorted(heights), near, FEW_HEIGHTS)
        if corners is not None:
            return _kept(ends, corners, near)
        flats: dict[int, float] = {}
        lean = [0.0] * (_BINS + 1)
        level, scale = math.cos(math.radians(LEVEL_DEG)), _BINS / (3 * (top - low)) if top > low else 0.0
        base = 3 * low
        for (a, b, c), facing, size in zip(self.facets.triples(), self.facing, self.twice, strict=True):
            if not facing:
                continue
            total = heights[a] + heights[b] + heights[c]
            lean[int((total - base) * scale)] -= facing
            if facing > level * size or -facing > level * size:
                key = round((total / 3 - low) / near)
                flats[key] = flats.get(key, 0.0) + size
        largest = sorted(flats, key=lambda key: -flats[key])[:FLATS]
        wide = [low + (top - low) * at / _BINS for at in _humps(lean)]
        return _kept(ends, [low + key * near for key in largest] + wide, near)

    def partings(self, heights: Sequence[float]) -> list[Parting]:
        """Return the partings at *heights*, which are in order and far enough apart to count as different."""
        if not heights:
            return []
        high, near = self.heights, ONE_HEIGHT * self.longest
        low = min(high)
        bounds = [edge for at in heights for edge in (at - near, at + near)]
        slots = bytes([bisect(bounds, z) for z in high])
        up, down = _Slots([0.0] * (len(bounds) + 1)), _Slots([0.0] * (len(bounds) + 1))
        for (a, b, c), facing in zip(self.facets.triples(), self.facing, strict=True):
            if facing > 0:
                held, size = up, facing
            elif facing:
                held, size = down, -facing
            else:
                continue
            i, j, k = slots[a], slots[b], slots[c]
            if i == j == k:
                held.area[i] += size
                held.moment[i] += size * (high[a] + high[b] + high[c]) / 3
            else:
                held.split(size, (high[a], high[b], high[c]), min(i, j, k), max(i, j, k), heights)
        return [_parting(up, down, at, 2 * number + 1, low) for number, at in enumerate(heights)]


def _parting(up: _Slots, down: _Slots, at: float, slot: int, low: float) -> Parting:
    roof, roof_moment = up.part(slot, None, low)
    floor, floor_moment = down.part(0, slot + 1, low)
    return Parting(
        height=at - low,
        undercut=down.part(slot + 1, None, low)[0] + up.part(0, slot, low)[0],
        roof=roof,
        roof_moment=roof_moment,
        floor=floor,
        floor_moment=floor_moment,
    )


def _apart(ordered: Sequence[float], near: float, most: int) -> list[float] | None:
    """The different heights among *ordered* ones; None where there are more than *most*."""
    found = [ordered[0]]
    for value in ordered:
        if value - found[-1] > 2 * near:
            if len(found) == most:
                return None
            found.append(value)
    return found


def _kept(first: Sequence[float], more: Sequence[float], near: float) -> list[float]:
    """All of *first*, and those of *more* that differ from the ones before, in order."""
    kept: list[float] = []
    for value in (*first, *more):
        if all(abs(value - other) > 2 * near for other in kept):
            kept.append(value)
    return sorted(kept)


def _humps(lean: Sequence[float]) -> list[int]:
    """Where the section is widest, as numbers of bins: the highest places of the running sum, not too close to each other."""
    sections = list(itertools.accumulate(lean))
    found: list[int] = []
    for at in sorted(range(1, _BINS), key=lambda at: -sections[at - 1]):
        if len(found) < HUMPS and all(abs(at - other) > _BINS // 16 for other in found):
            found.append(at)
    return found


def _between(heights: Sequence[float], partings: Sequence[Parting], projected: float, near: float) -> list[float]:
    """Heights between the best of the *partings* at *heights* and its neighbours; none where the best leaves nothing undercut."""
    best = min(range(len(partings)), key=lambda at: partings[at].undercut)
    if partings[best].undercut <= ONE_HEIGHT * projected:
        return []
    finer: list[float] = []
    for low, high in itertools.pairwise(heights[max(0, best - 1) : best + 2]):
        step = (high - low) / (FINER + 1)
        finer += [low + step * at for at in range(1, FINER + 1)] if step > 4 * near else []
    return finer
