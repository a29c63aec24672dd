"""What holds a shape in the sand: along each axis, what faces down above a parting and up below it, what stands straight, what nothing reaches.

Areas here are as seen straight up and down, so that a wall that leans by a hair weighs a hair. A facet that a parting cuts is clipped there, so
each figure is a sum over facets, exact but for heights nearer than a millionth of the size, which are one height. A face that looks away from
the half it lies in holds that half's sand under it, wherever it lies: nothing between it and a flat parting lets that sand go. A stepped parting
lets go all that sees the sky on its own side; what is left is the gaps that rays find between one part and another.
Source: geometry; ray_casting.
"""

from __future__ import annotations

import itertools
import math
from array import array
from bisect import bisect
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from sandmix.mesh import gaps
from sandmix.mesh.facets import Facets
from sandmix.mesh.gaps import Hidden, PartingCut
from sandmix.mesh.rays import cast
from sandmix.mesh.seams import thirds

AXES = "xyz"
STRAIGHT_DEG = 1.0
FLAT_WITHIN_DEG = 0.5
ONE_HEIGHT = 1e-6
FEW_HEIGHTS = 11
FLATS, HUMPS, FINER = 6, 5, 5
"""At most so many heights of flat faces, of wide places, and on either side of the best; with ends and middle never above 24."""
COUNTS_AS_NONE = 0.01
"""Undercut of so much of all that is seen counts as none: files round, and sand gives a little (own choice)."""
_BINS = 256
_SLIVER = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """A shape along one axis: how high it is, all that is seen of it from both ends, its straight walls, its least draft, and its partings.

    ``straight`` is the surface within a degree of upright, as it is and not as seen; ``least_deg`` the least draft that any face has. ``hidden`` is
    looked for only where no flat parting does.
    """

    axis: str
    high: float
    seen: float
    straight: float
    least_deg: float
    cuts: tuple[PartingCut, ...]
    hidden: Hidden | None


def look(
    facets: Facets, shell_of: array[int], signs: Mapping[int, int], *, overlapping: bool = False
) -> tuple[Side, ...]:
    """Return what each axis shows of *facets*; *signs* says by shell whether it counts as it faces (1), turned (-1) or not at all (0, a hollow).

    Where pieces overlap, facets lie inside others, so the partings are reckoned by the rays instead, to about a hundredth.
    """
    faces, twice = _faced(facets, shell_of, signs)
    return tuple(
        _Along(facets=facets, axis=axis, looks=faces[axis], twice=twice).side(shell_of, signs, overlapping)
        for axis in AXES
    )


def _faced(
    facets: Facets, shell_of: array[int], signs: Mapping[int, int]
) -> tuple[dict[str, array[float]], array[float]]:
    """By axis, twice the area of each facet as seen along it, below 0 where it faces down; and twice its area. 0 for what does not count."""
    xs, ys, zs = facets.xs, facets.ys, facets.zs
    along_x, along_y, along_z, twice = array("d"), array("d"), array("d"), array("d")
    sqrt = math.sqrt
    for a, b, c in thirds(facets.corners):
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
    """Twice the area, and that times height, of what faces one way: in each slot between two heights, and in each slot that is a height."""

    area: list[float]
    moment: list[float] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.moment = list(self.area)

    def part(self, first: int, last: int | None, low: float) -> tuple[float, float]:
        """The area in those slots, and its moment about *low*."""
        area, moment = math.fsum(self.area[first:last]) / 2, math.fsum(self.moment[first:last]) / 2
        return area, moment - low * area

    def split(
        self, size: float, corners: tuple[float, float, float], lo: int, hi: int, heights: Sequence[float]
    ) -> None:
        """Add a facet of that size whose corners lie in slots *lo* to *hi*, cut at each height between."""
        z1, z2, z3 = sorted(corners)
        whole = size * (z1 + z2 + z3) / 3
        done = told = 0.0
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
            self.moment[slot] += moment - told
            done, told = below, moment
            slot += 2
        self.area[slot] += size - done
        self.moment[slot] += whole - told


@dataclass(slots=True, kw_only=True)
class _Along:
    """A shape along one axis."""

    facets: Facets
    axis: str
    looks: array[float]
    twice: array[float]

    @property
    def heights(self) -> array[float]:
        """How high each corner stands."""
        return {"x": self.facets.xs, "y": self.facets.ys, "z": self.facets.zs}[self.axis]

    @property
    def longest(self) -> float:
        """The longest side of the box."""
        return max(max(values) - min(values) for values in (self.facets.xs, self.facets.ys, self.facets.zs))

    def side(self, shell_of: array[int], signs: Mapping[int, int], overlapping: bool) -> Side:
        """All that this axis shows."""
        low, top = min(self.heights), max(self.heights)
        near = ONE_HEIGHT * self.longest
        seen = math.fsum(map(abs, self.looks)) / 2
        at = self.first_heights()
        cuts = self.cut(at)
        finer = _between(at, cuts, seen, near)
        cuts = sorted(cuts + self.cut(finer), key=lambda cut: cut.height)
        met = None
        if overlapping or min(cut.undercut for cut in cuts) > COUNTS_AS_NONE * seen:
            met = gaps.met(cast(self.facets, shell_of, f"+{self.axis}", seen), signs)
        if met and overlapping:
            seen, cuts = met.seen, [met.cut(height - low, near) for height in sorted(at + finer)]
        straight, least = self.upright()
        return Side(
            axis=self.axis,
            high=top - low,
            seen=seen,
            straight=straight,
            least_deg=least,
            cuts=tuple(cuts),
            hidden=met.hidden if met else None,
        )

    def upright(self) -> tuple[float, float]:
        """The surface that stands straight, and the least draft in degrees that any face has."""
        steep, least = math.sin(math.radians(STRAIGHT_DEG)), 1.0
        sliver = _SLIVER * self.longest**2
        straight = 0.0
        for look, size in zip(self.looks, self.twice, strict=True):
            if size <= sliver:
                continue
            lean = look / size if look >= 0 else -look / size
            if lean <= steep:
                straight += size
            if lean < least:
                least = lean
        return straight / 2, math.degrees(math.asin(least))

    def first_heights(self) -> list[float]:
        """Where to part it: ends and middle, where flat faces lie, and where it is widest by a rough look."""
        heights, near = self.heights, ONE_HEIGHT * self.longest
        low, top = min(heights), max(heights)
        ends = [low, (low + top) / 2, top]
        corners = _apart(sorted(heights), near, FEW_HEIGHTS)
        if corners is not None:
            return _kept(ends, corners, near)
        flats: dict[int, float] = {}
        lean = [0.0] * (_BINS + 1)
        level, scale = math.cos(math.radians(FLAT_WITHIN_DEG)), _BINS / (3 * (top - low)) if top > low else 0.0
        base = 3 * low
        for (a, b, c), look, size in zip(thirds(self.facets.corners), self.looks, self.twice, strict=True):
            if not look:
                continue
            total = heights[a] + heights[b] + heights[c]
            lean[int((total - base) * scale)] -= look
            if look > level * size or -look > level * size:
                key = round((total / 3 - low) / near)
                flats[key] = flats.get(key, 0.0) + size
        largest = sorted(flats, key=lambda key: -flats[key])[:FLATS]
        wide = [low + (top - low) * at / _BINS for at in _humps(lean)]
        return _kept(ends, [low + key * near for key in largest] + wide, near)

    def cut(self, heights: Sequence[float]) -> list[PartingCut]:
        """The partings at *heights*, which are in order and further apart than what is one height."""
        if not heights:
            return []
        high, near = self.heights, ONE_HEIGHT * self.longest
        low = min(high)
        bounds = [edge for at in heights for edge in (at - near, at + near)]
        slots = bytes([bisect(bounds, z) for z in high])
        up, down = _Slots([0.0] * (len(bounds) + 1)), _Slots([0.0] * (len(bounds) + 1))
        for (a, b, c), look in zip(thirds(self.facets.corners), self.looks, strict=True):
            if look > 0:
                held, size = up, look
            elif look:
                held, size = down, -look
            else:
                continue
            i, j, k = slots[a], slots[b], slots[c]
            if i == j == k:
                held.area[i] += size
                held.moment[i] += size * (high[a] + high[b] + high[c]) / 3
            else:
                held.split(size, (high[a], high[b], high[c]), min(i, j, k), max(i, j, k), heights)
        return [_cut(up, down, at, 2 * number + 1, low) for number, at in enumerate(heights)]


def _cut(up: _Slots, down: _Slots, at: float, slot: int, low: float) -> PartingCut:
    roof, roof_moment = up.part(slot, None, low)
    floor, floor_moment = down.part(0, slot + 1, low)
    return PartingCut(
        height=at - low,
        undercut=down.part(slot + 1, None, low)[0] + up.part(0, slot, low)[0],
        roof=roof,
        roof_moment=roof_moment,
        floor=floor,
        floor_moment=floor_moment,
    )


def _apart(ordered: Sequence[float], near: float, most: int) -> list[float] | None:
    """The heights that differ, of *ordered* ones; None where they are more than *most*."""
    found = [ordered[0]]
    for value in ordered:
        if value - found[-1] > 2 * near:
            if len(found) == most:
                return None
            found.append(value)
    return found


def _kept(first: Sequence[float], more: Sequence[float], near: float) -> list[float]:
    """All of *first*, and of *more* what is apart from those before it, in order."""
    kept: list[float] = []
    for value in (*first, *more):
        if all(abs(value - other) > 2 * near for other in kept):
            kept.append(value)
    return sorted(kept)


def _humps(lean: Sequence[float]) -> list[int]:
    """Where the section is widest, as numbers of bins: the highest places of the running sum that no other hump is beside."""
    sections, total = [0.0], 0.0
    for value in lean:
        total += value
        sections.append(total)
    found: list[int] = []
    for at in sorted(range(1, _BINS), key=lambda at: -sections[at]):
        if len(found) < HUMPS and all(abs(at - other) > _BINS // 16 for other in found):
            found.append(at)
    return found


def _between(heights: Sequence[float], cuts: Sequence[PartingCut], seen: float, near: float) -> list[float]:
    """Heights between the best of *cuts*, which lie at *heights*, and its neighbours; none where it leaves nothing undercut."""
    best = min(range(len(cuts)), key=lambda at: cuts[at].undercut)
    if cuts[best].undercut <= ONE_HEIGHT * seen:
        return []
    finer: list[float] = []
    for low, high in itertools.pairwise(heights[max(0, best - 1) : best + 2]):
        step = (high - low) / (FINER + 1)
        finer += [low + step * at for at in range(1, FINER + 1)] if step > 4 * near else []
    return finer
