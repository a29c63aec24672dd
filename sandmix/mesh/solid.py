"""What a shape measures: volume, surface, box, centre, shadow; and whether that volume can be trusted.

The volume of a closed surface is a sum over its facets, right where every point is inside it once or not at all. Rays look whether that is so:
shells that cut into each other or into themselves count twice, a shell inside another is a hollow where it faces the other way, and a shell
that faces inwards and stands alone is turned. What can't be told is not told. Source: divergence_theorem.
"""

from __future__ import annotations

import math
from array import array
from dataclasses import dataclass, field, replace

from sandmix.mesh import rays, seams, undercut
from sandmix.mesh.facets import Facets
from sandmix.mesh.projected_area import View, views
from sandmix.mesh.rays import Rays, cast, seen_along
from sandmix.mesh.seams import Seams, thirds
from sandmix.mesh.shells import Shells, counted_wrong, told_apart, turned
from sandmix.mesh.undercut import Side

_ROWS_AT_ONCE = 4096
OVERLAP_TOLD = 1e-6
JOINED_MOST = 0.01
RIGHT, OVERLAPS, OPEN, UNTOLD = "right", "overlaps", "open", "untold"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundedFigure:
    """A figure that rays helped to find, its half-width, and the least and the most that it can be, but for what is finer than the rays."""

    value: float
    off: float
    least: float
    most: float

    def at(self, side: float) -> BoundedFigure:
        """Return the same at one end of its band."""
        return replace(self, value=min(max(self.value + side * self.off, self.least), self.most))


@dataclass(frozen=True, slots=True, kw_only=True)
class Solid:
    """What was measured, in the file's own unit to the first, second and third power.

    ``trust`` is *right*; *overlaps*: shells cut into each other, so the volume is counted by the rays where they do and the surface is too large;
    *open* or *untold*: then there is no volume, and ``why`` says what can't be told. ``volume_off`` and the like are half-widths.
    ``sides`` is what each axis shows of it for the parting, where that was asked.
    ``views`` are from above, from the front and from the right, where there is a volume.
    """

    facets: int
    trust: str
    why: str
    volume: float | None
    volume_off: float
    area: float
    box: tuple[float, float, float]
    middle: tuple[float, float, float] | None
    shadow: BoundedFigure | None
    column: BoundedFigure | None
    shells: int
    hollows: int
    flipped: int
    overlap: float
    flat: int
    seams: Seams
    unit: str
    remarks: tuple[str, ...] = ()
    sides: tuple[Side, ...] = ()
    views: tuple[View, ...] = ()

    def at(self, side: float) -> Solid:
        """Return the same at one end of what the rays leave open: *side* -1 the low, 1 the high."""
        return replace(
            self,
            volume=None if self.volume is None else max(0.0, self.volume + side * self.volume_off),
            shadow=self.shadow and self.shadow.at(side),
            column=self.column and self.column.at(side),
        )


@dataclass(slots=True)
class _Sums:
    """Sums over the facets of a shell: six times the volume, twice the surface, the moments of the volume; what is seen from above and below."""

    volume6: list[float] = field(default_factory=list)
    area2: list[float] = field(default_factory=list)
    moments: tuple[list[float], list[float], list[float]] = field(default_factory=lambda: ([], [], []))
    up2: list[float] = field(default_factory=list)
    up6: list[float] = field(default_factory=list)
    down2: list[float] = field(default_factory=list)
    down6: list[float] = field(default_factory=list)

    def add(self, sums: tuple[float, ...]) -> None:
        """Add one run of facets."""
        self.volume6.append(sums[0])
        self.area2.append(sums[1])
        for held, value in zip(self.moments, sums[2:5], strict=True):
            held.append(value)
        self.up2.append(sums[5])
        self.up6.append(sums[6])
        self.down2.append(sums[7])
        self.down6.append(sums[8])


def measure(facets: Facets, up: str = "+z", *, sides: bool = False) -> Solid:
    """Return what *facets* measure, the direction *up* being up when the mould is poured; with *sides* also what holds it in the sand each way."""
    found = seams.look(facets)
    facets = found.facets
    sums, flat = _summed(facets, found.shell_of, up)
    shadows = 0.5 * math.fsum(value for held in sums.values() for value in (*held.up2, *held.down2))
    seen = cast(facets, found.shell_of, up, shadows)
    area = 0.5 * math.fsum(value for held in sums.values() for value in held.area2)
    known = _Known(facets=facets, found=found, sums=sums, flat=flat, area=area, shadows=shadows, seen=seen, up=up)
    told = known.told()
    return replace(told, sides=known.sides(told.trust)) if sides and told.volume is not None else told


def _summed(facets: Facets, shell_of: array[int], up: str) -> tuple[dict[int, _Sums], int]:
    """The sums of each shell, and how many facets have no area."""
    xs, ys, zs = facets.xs, facets.ys, facets.zs
    axis, high = "xyz".index(up[1]), seen_along(facets, up)[2]
    sign = 1.0 if up[0] == "+" else -1.0
    held: dict[int, _Sums] = {}
    flat = 0
    sqrt = math.sqrt
    rows = thirds(facets.corners)
    shell, left = shell_of[facets.corners[0]], _ROWS_AT_ONCE
    volume6 = area2 = mx = my = mz = up2 = up6 = down2 = down6 = 0.0
    for a, b, c in rows:
        if shell_of[a] != shell or not left:
            held.setdefault(shell, _Sums()).add((volume6, area2, mx, my, mz, up2, up6, down2, down6))
            volume6 = area2 = mx = my = mz = up2 = up6 = down2 = down6 = 0.0
            shell, left = shell_of[a], _ROWS_AT_ONCE
        left -= 1
        ax, ay, az = xs[a], ys[a], zs[a]
        bx, by, bz = xs[b], ys[b], zs[b]
        cx, cy, cz = xs[c], ys[c], zs[c]
        ux = bx - ax
        uy = by - ay
        uz = bz - az
        vx = cx - ax
        vy = cy - ay
        vz = cz - az
        nx = uy * vz - uz * vy
        ny = uz * vx - ux * vz
        nz = ux * vy - uy * vx
        twice = sqrt(nx * nx + ny * ny + nz * nz)
        if not twice:
            flat += 1
            continue
        area2 += twice
        v = ax * nx + ay * ny + az * nz
        volume6 += v
        mx += v * (ax + bx + cx)
        my += v * (ay + by + cy)
        mz += v * (az + bz + cz)
        looks = sign * (nz, nx, ny)[axis - 2]
        if looks > 0:
            up2 += looks
            up6 += looks * (high[a] + high[b] + high[c])
        else:
            down2 -= looks
            down6 -= looks * (high[a] + high[b] + high[c])
    held.setdefault(shell, _Sums()).add((volume6, area2, mx, my, mz, up2, up6, down2, down6))
    return {shell: sums for shell, sums in held.items() if any(sums.area2)}, flat


@dataclass(frozen=True, slots=True, kw_only=True)
class _Known:
    """All that was summed up and seen, from which the solid is told."""

    facets: Facets
    found: Seams
    sums: dict[int, _Sums]
    flat: int
    area: float
    shadows: float
    seen: Rays | None
    up: str

    @property
    def box(self) -> tuple[float, float, float]:
        """The three sides."""
        x, y, z = (max(values) - min(values) for values in (self.facets.xs, self.facets.ys, self.facets.zs))
        return x, y, z

    @property
    def volumes(self) -> dict[int, float]:
        """The volume of each shell, below 0 where it faces inwards."""
        return {shell: math.fsum(held.volume6) / 6 for shell, held in self.sums.items()}

    def sides(self, trust: str) -> tuple[Side, ...]:
        """What each axis shows; a hollow counts for nothing there, since no sand gets in."""
        assert self.seen is not None
        volumes = self.volumes
        signs = told_apart(self.seen, volumes).sign
        counted = {shell: sign if sign * volumes[shell] > 0 else 0 for shell, sign in signs.items()}
        return undercut.look(self.facets, self.found.shell_of, counted, overlapping=trust == OVERLAPS)

    def told(self) -> Solid:
        """All that can be told."""
        if not self.found.closed:
            return self._solid(trust=OPEN, why="it is not closed")
        if self.seen is None:
            flat = min(self.box) <= max(rays.FLAT * max(self.box), rays.TINIEST)
            return self._solid(
                trust=UNTOLD, why="it is flat" if flat else "its facets are too long and thin to look through"
            )
        volumes = self.volumes
        shells = told_apart(self.seen, volumes)
        if shells.why:
            return self._solid(trust=UNTOLD, why=shells.why)
        seen = turned(self.seen, shells.sign)
        volume = math.fsum(shells.sign[shell] * value for shell, value in volumes.items())
        twice, outside = counted_wrong(seen)
        unit = seen.cell * seen.step
        if not volume > rays.FLAT * math.prod(self.box):
            return self._solid(trust=UNTOLD, why="there is no room inside it")
        if unit * math.fsum(outside) > OVERLAP_TOLD * volume:
            return self._solid(trust=UNTOLD, why="parts of its surface are turned inside out")
        unseen = math.fsum(abs(value) for shell, value in volumes.items() if shell not in shells.seen)
        if self.found.joined * self.area > JOINED_MOST * volume:
            return self._solid(trust=UNTOLD, why="its corners lie too far apart to be taken as one")
        off = 2 * unseen + self.found.joined * self.area
        overlap = unit * math.fsum(twice)
        if overlap <= OVERLAP_TOLD * volume:
            return self._solid(trust=RIGHT, volume=volume, off=off, shells=shells, seen=seen)
        off += seen.step * seen.bound(twice)
        return self._solid(trust=OVERLAPS, volume=volume - overlap, off=off, shells=shells, seen=seen, overlap=overlap)

    def _solid(
        self,
        *,
        trust: str,
        why: str = "",
        volume: float | None = None,
        off: float = 0.0,
        shells: Shells | None = None,
        seen: Rays | None = None,
        overlap: float = 0.0,
    ) -> Solid:
        return Solid(
            facets=len(self.facets),
            trust=trust,
            why=why,
            volume=volume,
            volume_off=off,
            area=self.area,
            box=self.box,
            middle=self._middle(shells) if shells and trust == RIGHT else None,
            shadow=_shadow(self.seen, self.shadows) if self.seen and self.found.closed else None,
            column=self._column(shells, seen) if shells and seen else None,
            shells=len(self.sums),
            hollows=shells.hollows if shells else 0,
            flipped=shells.flipped if shells else 0,
            overlap=overlap,
            flat=self.flat,
            seams=self.found,
            unit=self.facets.unit,
            remarks=self.facets.remarks,
            views=self._views(seen) if seen else (),
        )

    def _views(self, seen: Rays) -> tuple[View, ...]:
        right, ahead, high, _ = seen_along(self.facets, self.up)
        wide, deep, tall = (max(values) - min(values) for values in (right, ahead, high))
        return views(seen, wide, deep, tall)

    def _middle(self, shells: Shells) -> tuple[float, float, float]:
        """The centre of the volume."""
        signs = shells.sign
        volume6 = math.fsum(signs[shell] * value for shell, held in self.sums.items() for value in held.volume6)
        x, y, z = (
            start
            + math.fsum(signs[shell] * value for shell, held in self.sums.items() for value in held.moments[axis])
            / (4 * volume6)
            for axis, start in enumerate(self.facets.origin)
        )
        return x, y, z

    def _column(self, shells: Shells, seen: Rays) -> BoundedFigure:
        """The space over the shape up to the level of its top.

        By the facets that look up, exactly; less what stands over those that others hide from above, by the rays.
        """
        *_, high, sign = seen_along(self.facets, self.up)
        top = max(high) if sign > 0 else -min(high)
        parts: list[float] = []
        for shell, held in self.sums.items():
            kept = shells.sign[shell] > 0
            parts += [top * value / 2 for value in (held.up2 if kept else held.down2)]
            parts += [-sign * value / 6 for value in (held.up6 if kept else held.down6)]
        reach = round((top - seen.bottom) / seen.step)
        hidden = [
            float(sum(reach - depth for depth, enters, _ in crossings[:-1] if not enters)) for crossings in seen.met
        ]
        value = max(0.0, math.fsum(parts) - seen.cell * seen.step * math.fsum(hidden))
        off = seen.step * seen.bound(hidden)
        return BoundedFigure(value=value, off=off, least=max(0.0, value - off), most=value + off)


def _shadow(seen: Rays, shadows: float) -> BoundedFigure:
    """The outline as seen from above: half of all that faces up or down, less what lies behind something else."""
    hit = [1.0 if crossings else 0.0 for crossings in seen.met]
    inner = 0
    for at, value in enumerate(hit):
        inner += bool(
            value
            and 0 < at % seen.across < seen.across - 1
            and seen.across <= at < len(hit) - seen.across
            and hit[at - 1]
            and hit[at + 1]
            and hit[at - seen.across]
            and hit[at + seen.across]
        )
    least = seen.cell * inner
    again = [max(0.0, len(crossings) / 2 - 1) for crossings in seen.met]
    value = max(least, shadows / 2 - seen.cell * math.fsum(again))
    return BoundedFigure(value=value, off=seen.bound(again), least=least, most=shadows / 2)
