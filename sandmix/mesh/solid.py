"""What a shape measures: volume, surface, box, centre, projected area; and whether that volume can be trusted.

The volume of a closed surface is a sum over its facets. It is right where every point is inside the surface once or not at all, and rays check
that: shells that cut into each other or into themselves count twice, a shell inside another is a hollow if it faces the other way, and a shell
that is not inside another and faces inwards is turned. Where something counts twice, either that is taken off the sum, or what is inside at least
once is measured by the rays alone: whichever has the smaller error bound. What can't be decided gets no volume. Source: divergence_theorem.
"""

from __future__ import annotations

import math
from array import array
from dataclasses import dataclass, replace
from typing import NamedTuple

from sandmix.mesh import undercut
from sandmix.mesh.facets import Facets
from sandmix.mesh.rays import FLAT, TINIEST, Rays, axes_for, cast
from sandmix.mesh.shells import Shells, classified, lengths, turned
from sandmix.mesh.topology import Topology, topology_of
from sandmix.mesh.undercut import Side
from sandmix.mesh.views import View, views

_ROWS_AT_ONCE = 4096
OVERLAP_COUNTS = 1e-6
MOST_JOINED = 0.01
RIGHT, OVERLAPS, OPEN, UNDECIDED = "right", "overlaps", "open", "undecided"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundedFigure:
    """A figure from rays, its half-width, and the least and the most that it can be, apart from what is finer than the rays."""

    value: float
    half_width: float
    least: float
    most: float

    def at(self, side: float) -> BoundedFigure:
        """Return the same at one end of its band."""
        return replace(self, value=min(max(self.value + side * self.half_width, self.least), self.most))


@dataclass(frozen=True, slots=True, kw_only=True)
class Solid:
    """What was measured, in the file's own unit to the first, second and third power.

    ``trust`` is *right*; *overlaps*: shells cut into each other, so rays measure the volume there and the surface is too large; *open* or
    *undecided*: then there is no volume, and ``why`` gives the reason. ``volume_error`` is a half-width.
    ``projected`` is the projected area, ``space_above`` the space above the shape up to the level of its top.
    ``sides`` are the axes with their partings, if asked for. ``views`` are from above, front and right, where there is a volume.
    """

    facets: int
    trust: str
    why: str
    volume: float | None
    volume_error: float
    area: float
    box: tuple[float, float, float]
    centroid: tuple[float, float, float] | None
    projected: BoundedFigure | None
    space_above: BoundedFigure | None
    shells: int
    hollows: int
    flipped: int
    overlap: float
    flat: int
    topology: Topology
    unit: str
    remarks: tuple[str, ...] = ()
    sides: tuple[Side, ...] = ()
    views: tuple[View, ...] = ()

    def at(self, side: float) -> Solid:
        """Return the same at one end of the error of the rays: *side* -1 the low, 1 the high."""
        return replace(
            self,
            volume=None if self.volume is None else max(0.0, self.volume + side * self.volume_error),
            projected=self.projected and self.projected.at(side),
            space_above=self.space_above and self.space_above.at(side),
        )


class _Sums(NamedTuple):
    """Sums over some facets of a shell: 6 × volume, 2 × surface, moments of the volume; 2 × the area that faces up or down, 6 × its moment."""

    volume6: float
    area2: float
    moment_x: float
    moment_y: float
    moment_z: float
    up2: float
    up6: float
    down2: float
    down6: float


def measure(facets: Facets, up: str = "+z", *, sides: bool = False) -> Solid:
    """Return what *facets* measure, with the direction *up* upwards in the mould; with *sides* also the undercut along each axis."""
    topology = topology_of(facets)
    facets = topology.facets
    sums, flat = _summed(facets, topology.shell_of, up)
    runs = [run for of_shell in sums.values() for run in of_shell]
    facing = 0.5 * math.fsum(value for run in runs for value in (run.up2, run.down2))
    rays = cast(facets, topology.shell_of, up, facing)
    area = 0.5 * math.fsum(run.area2 for run in runs)
    measuring = _Measuring(facets=facets, topology=topology, sums=sums, flat=flat, area=area, facing=facing, up=up)
    if not topology.closed:
        return measuring.solid(rays, trust=OPEN, why="the shape is not closed")
    if rays is None:
        is_flat = min(facets.box) <= max(FLAT * max(facets.box), TINIEST)
        why = "the shape is flat" if is_flat else "the facets are too long and thin"
        return measuring.solid(None, trust=UNDECIDED, why=why)
    return measuring.closed(rays, sides=sides)


def _summed(facets: Facets, shell_of: array[int], up: str) -> tuple[dict[int, list[_Sums]], int]:
    """The sums of each shell in runs of facets, and how many facets have no area."""
    xs, ys, zs = facets.xs, facets.ys, facets.zs
    axis, high = "xyz".index(up[1]), facets.along(up[1])
    sign = 1.0 if up[0] == "+" else -1.0
    runs: dict[int, list[_Sums]] = {}
    flat = 0
    sqrt = math.sqrt
    shell, left = shell_of[facets.corners[0]], _ROWS_AT_ONCE
    volume6 = area2 = mx = my = mz = up2 = up6 = down2 = down6 = 0.0
    for a, b, c in facets.triples():
        if shell_of[a] != shell or not left:
            runs.setdefault(shell, []).append(_Sums(volume6, area2, mx, my, mz, up2, up6, down2, down6))
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
    runs.setdefault(shell, []).append(_Sums(volume6, area2, mx, my, mz, up2, up6, down2, down6))
    return {shell: of_shell for shell, of_shell in runs.items() if any(run.area2 for run in of_shell)}, flat


@dataclass(frozen=True, slots=True, kw_only=True)
class _Measuring:
    """A shape with its sums, from which the solid is made; ``facing`` is the projected area of all facets together."""

    facets: Facets
    topology: Topology
    sums: dict[int, list[_Sums]]
    flat: int
    area: float
    facing: float
    up: str

    @property
    def volumes(self) -> dict[int, float]:
        """The volume of each shell, negative where it faces inwards."""
        return {shell: math.fsum(run.volume6 for run in runs) / 6 for shell, runs in self.sums.items()}

    def closed(self, rays: Rays, *, sides: bool) -> Solid:
        """Return the solid of a closed shape, with its *sides* if asked for and where it has a volume."""
        volumes = self.volumes
        shells = classified(rays, volumes)
        if shells.why:
            return self.solid(rays, trust=UNDECIDED, why=shells.why)
        rays = turned(rays, shells.sign)
        volume = math.fsum(shells.sign[shell] * value for shell, value in volumes.items())
        along = lengths(rays)
        unit = rays.cell * rays.step
        if not volume > FLAT * math.prod(self.facets.box):
            return self.solid(rays, trust=UNDECIDED, why="the shape has no inside")
        if unit * math.fsum(along.negative) > OVERLAP_COUNTS * volume:
            return self.solid(rays, trust=UNDECIDED, why="parts of the surface are inside out")
        if self.topology.joined * self.area > MOST_JOINED * volume:
            return self.solid(rays, trust=UNDECIDED, why="corners that belong together are too far apart")
        missed = [shells.sign[shell] * value for shell, value in volumes.items() if shell not in shells.seen]
        error = 2 * math.fsum(map(abs, missed)) + self.topology.joined * self.area
        overlap = unit * math.fsum(along.again)
        trust = RIGHT
        if overlap <= OVERLAP_COUNTS * volume:
            overlap = 0.0
        else:
            less = (volume - overlap, rays.step * rays.bound(along.again))
            direct = (unit * math.fsum(along.inside) + math.fsum(missed), rays.step * rays.bound(along.inside))
            once, by_rays = _surer(less, direct)
            trust, error, overlap, volume = OVERLAPS, error + by_rays, volume - once, once
        found = self.solid(rays, trust=trust, volume=volume, error=error, shells=shells, overlap=overlap)
        return replace(found, sides=self._sides(shells, volumes, trust)) if sides else found

    def _sides(self, shells: Shells, volumes: dict[int, float], trust: str) -> tuple[Side, ...]:
        """Each axis; a hollow counts for nothing there, since no sand gets in."""
        counted = {shell: sign if sign * volumes[shell] > 0 else 0 for shell, sign in shells.sign.items()}
        return undercut.sides_of(self.facets, self.topology.shell_of, counted, overlapping=trust == OVERLAPS)

    def solid(
        self,
        rays: Rays | None,
        *,
        trust: str,
        why: str = "",
        volume: float | None = None,
        error: float = 0.0,
        shells: Shells | None = None,
        overlap: float = 0.0,
    ) -> Solid:
        """Return all that is known; *shells* are those of a shape with a volume."""
        return Solid(
            facets=len(self.facets),
            trust=trust,
            why=why,
            volume=volume,
            volume_error=error,
            area=self.area,
            box=self.facets.box,
            centroid=self._centroid(shells) if shells and trust == RIGHT else None,
            projected=_projected(rays, self.facing) if rays and self.topology.closed else None,
            space_above=self._space_above(shells, rays) if shells and rays else None,
            shells=len(self.sums),
            hollows=shells.hollows if shells else 0,
            flipped=shells.flipped if shells else 0,
            overlap=overlap,
            flat=self.flat,
            topology=self.topology,
            unit=self.facets.unit,
            remarks=self.facets.remarks,
            views=self._views(rays) if shells and rays else (),
        )

    def _views(self, rays: Rays) -> tuple[View, ...]:
        right, ahead, high, _ = axes_for(self.facets, self.up)
        wide, deep, tall = (max(values) - min(values) for values in (right, ahead, high))
        return views(rays, wide, deep, tall)

    def _centroid(self, shells: Shells) -> tuple[float, float, float]:
        """The centre of the volume."""
        signed = [(shells.sign[shell], run) for shell, runs in self.sums.items() for run in runs]
        volume24 = 4 * math.fsum(sign * run.volume6 for sign, run in signed)
        moments = zip(
            *((sign * run.moment_x, sign * run.moment_y, sign * run.moment_z) for sign, run in signed), strict=True
        )
        x, y, z = (
            start + math.fsum(moment) / volume24 for start, moment in zip(self.facets.origin, moments, strict=True)
        )
        return x, y, z

    def _space_above(self, shells: Shells, rays: Rays) -> BoundedFigure:
        """The space above the shape up to the level of its top.

        The facets that face up give it exactly; what is above those that others cover is taken off by the rays.
        """
        *_, high, sign = axes_for(self.facets, self.up)
        top = max(high) if sign > 0 else -min(high)
        parts: list[float] = []
        for shell, runs in self.sums.items():
            kept = shells.sign[shell] > 0
            for run in runs:
                parts += [top * (run.up2 if kept else run.down2) / 2, -sign * (run.up6 if kept else run.down6) / 6]
        reach = round((top - rays.bottom) / rays.step)
        hidden = [
            float(sum(reach - depth for depth, enters, _ in of_ray[:-1] if not enters)) for of_ray in rays.crossings
        ]
        open_above = [float(reach - of_ray[-1][0]) if of_ray else 0.0 for of_ray in rays.crossings]
        unit = rays.cell * rays.step
        less = (math.fsum(parts) - unit * math.fsum(hidden), rays.step * rays.bound(hidden))
        value, error = _surer(less, (unit * math.fsum(open_above), rays.step * rays.bound(open_above)))
        value = max(0.0, value)
        return BoundedFigure(value=value, half_width=error, least=max(0.0, value - error), most=value + error)


def _surer(*found: tuple[float, float]) -> tuple[float, float]:
    """The figure with the smallest error bound, of one and the same thing; the first of equals."""
    return min(found, key=lambda figure: figure[1])


def _projected(rays: Rays, facing: float) -> BoundedFigure:
    """The projected area: half of all that faces up or down, less what something else covers; or what the rays meet, where that is surer."""
    hit = [1.0 if of_ray else 0.0 for of_ray in rays.crossings]
    inner = 0
    for at, value in enumerate(hit):
        inner += bool(
            value
            and 0 < at % rays.across < rays.across - 1
            and rays.across <= at < len(hit) - rays.across
            and hit[at - 1]
            and hit[at + 1]
            and hit[at - rays.across]
            and hit[at + rays.across]
        )
    least = rays.cell * inner
    again = [max(0.0, len(of_ray) / 2 - 1) for of_ray in rays.crossings]
    less = (facing / 2 - rays.cell * math.fsum(again), rays.bound(again))
    value, error = _surer(less, (min(facing / 2, rays.cell * math.fsum(hit)), rays.bound(hit)))
    return BoundedFigure(value=max(least, value), half_width=error, least=least, most=facing / 2)
