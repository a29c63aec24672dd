"""A casting that cools in damp sand: the case to solve, and its solution: when it froze, how deep the heat went, when the middle was cool.

One coordinate runs from the middle of the casting outward, and the area grows as rⁿ: n = 0 is a plate, 1 a bar, 2 a ball, and other shapes lie
between. M = V/A is the modulus, a = (n + 1) M the half thickness. The metal has solid, latent and liquid heat. The sand is damp until its
water has boiled off at 100 °C, and stays dry after that.
Holds for: constant properties, no gap that opens, no flow in the metal, vapour that leaves at once. In real sand vapour condenses further
out, so that sand warms up sooner there. A gap makes real castings freeze later than perfect contact does.
Source: conduction of heat with a change of state, by finite volumes; see the method page.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from operator import neg
from typing import overload

from sandmix.materials.metals import Thermal
from sandmix.materials.sands_and_clays import HeatSand

BOILS_C = 100.0
OUTSIDE_W_M2K = 10.0
PERFECT = math.inf
CONTACTS_W_M2K = (61.0, 132.0)
"""The contacts measured beside aluminium in sand moulds. Source: measured_contact, green_sand_contact."""
MEASURED_CONTACT_W_M2K = CONTACTS_W_M2K[0]
"""The contact that times are computed with: the lowest that was measured, where they are longest."""
SCALE_MM = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """What decides how a casting cools: metal, pour temperature, kg of water per kg of dry sand, shape n, modulus, contact, depth of sand.

    ``contact_w_m2k`` is infinite for perfect contact. ``wall_mm`` is the sand between casting and flask, None where it is deeper than heat goes.
    """

    metal: Thermal
    pour_temp_c: float
    sand: HeatSand
    water: float
    shape_n: float
    modulus_mm: float
    contact_w_m2k: float = PERFECT
    wall_mm: float | None = None
    outside_w_m2k: float = OUTSIDE_W_M2K

    @property
    def scaled(self) -> Case:
        """The same case at a modulus of 10 mm: lengths are proportional to M, times to M², and heat transfer coefficients to 1/M."""
        share = SCALE_MM / self.modulus_mm
        return replace(
            self,
            modulus_mm=SCALE_MM,
            contact_w_m2k=self.contact_w_m2k / share,
            wall_mm=None if self.wall_mm is None else self.wall_mm * share,
            outside_w_m2k=OUTSIDE_W_M2K if self.wall_mm is None else self.outside_w_m2k / share,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Cells and time steps: cells in the metal, first cell of sand, growth of cells near and far, and of steps. Lengths in moduli."""

    metal_cells: int = 16
    first_cell: float = 0.02
    growth_near: float = 0.02
    growth_far: float = 0.08
    near: float = 25.0
    far: float = 1500.0
    first_step_s: float = 0.02
    step_growth: float = 0.025
    step_at_freezing: float = 0.008

    def finer(self, times: float) -> Grid:
        """Return a grid with *times* as many cells and steps."""
        return replace(
            self,
            metal_cells=max(3, round(self.metal_cells * times)),
            first_cell=self.first_cell / times,
            growth_near=self.growth_near / times,
            growth_far=self.growth_far / times,
            first_step_s=self.first_step_s / times,
            step_growth=self.step_growth / times,
            step_at_freezing=self.step_at_freezing / times,
        )


FINE = Grid()
ROUGH = Grid().finer(0.35)
QUICK = Grid().finer(0.25)
"""For likely ranges, and for bodies that are only assumed: gating, and a casting simplified to a ball. Times of the middle are within 1.5 % of
the reference."""


class Scaled(Sequence[float]):
    """A series times a factor, computed only where it is read."""

    __slots__ = ("factor", "series")

    def __init__(self, series: Sequence[float], factor: float) -> None:
        self.series, self.factor = series, factor

    def __len__(self) -> int:
        return len(self.series)

    def __iter__(self) -> Iterator[float]:
        return (self.factor * value for value in self.series)

    @overload
    def __getitem__(self, at: int) -> float: ...
    @overload
    def __getitem__(self, at: slice) -> list[float]: ...
    def __getitem__(self, at: int | slice) -> float | list[float]:
        if isinstance(at, slice):
            return [self.factor * value for value in self.series[at]]
        return self.factor * self.series[at]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cooling:
    """How one casting cooled.

    ``freeze_s`` is when the middle passes the solidus. The series per step are ``times_s``, ``middle_c``, ``frozen_mm`` and ``dry_mm`` (from
    the face into metal and sand), per m² of the casting's face ``metal_j_m2`` (heat left above the start) and ``gone_j_m2`` (lost outside
    the flask), and ``dried_c``, the mean temperature of the sand that has dried by then, 20 °C where none has. ``peaks_c`` is the highest
    temperature that the sand ever had at ``depths_mm``, the face first and the flask's wall last. ``faces_mm`` are the faces of the sand's
    cells. ``warm_c`` holds, for each step, the temperatures of the cells above 280 °C, from the face on: there clay can die. ``residual`` is
    the energy that the solution lost or gained, as a share of the heat poured.
    """

    case: Case
    grid: Grid
    freeze_s: float | None
    times_s: Sequence[float]
    middle_c: Sequence[float]
    frozen_mm: Sequence[float]
    dry_mm: Sequence[float]
    metal_j_m2: Sequence[float]
    gone_j_m2: Sequence[float]
    dried_c: Sequence[float]
    depths_mm: Sequence[float]
    peaks_c: Sequence[float]
    faces_mm: Sequence[float]
    warm_c: Sequence[Sequence[float]]
    residual: float

    @property
    def dry_depth_mm(self) -> float:
        """How deep the sand has dried in the end, in mm from the casting's face; for dry sand, how deep it passed 100 °C."""
        return self.dry_mm[-1] if self.case.water else self.depth_past_mm(BOILS_C)

    @property
    def half_thickness_mm(self) -> float:
        """Half the thickness a = (n + 1) M, in mm."""
        return (self.case.shape_n + 1) * self.case.modulus_mm

    def depth_past_mm(self, limit_c: float) -> float:
        """Return the depth of sand, in mm from the face, that was ever hotter than *limit_c*.

        Sand that has dried counts as past 100 °C, since damp sand stays at it.
        """
        if self.peaks_c[0] <= limit_c:
            return 0.0
        for at, peak in enumerate(self.peaks_c):
            if peak <= limit_c:
                hotter, depth, deeper = self.peaks_c[at - 1], self.depths_mm[at - 1], self.depths_mm[at]
                return depth + (deeper - depth) * (hotter - limit_c) / (hotter - peak)
        return self.depths_mm[-1]

    def middle_below_s(self, limit_c: float) -> float | None:
        """Return when the middle has fallen to *limit_c*, in s; None where that is after the end of the solution."""
        if self.middle_c[-1] > limit_c:
            return None
        at = bisect_left(self.middle_c, -limit_c, key=neg)
        if at == 0:
            return 0.0
        return between(limit_c, self.middle_c[at - 1], self.middle_c[at], self.times_s[at - 1], self.times_s[at])

    def at_s(self, series: Sequence[float], time_s: float) -> float:
        """Return the value of one of the series at *time_s*."""
        at = bisect_left(self.times_s, time_s)
        if at == 0 or at >= len(self.times_s):
            return series[min(at, len(series) - 1)]
        return between(time_s, self.times_s[at - 1], self.times_s[at], series[at - 1], series[at])

    def shell_m3_m2(self, depth_mm: float) -> float:
        """Return the volume of sand from the face to *depth_mm*, in m³ per m² of face: V = a/(n + 1) · ((1 + d/a)^(n + 1) − 1)."""
        n, a = self.case.shape_n, self.half_thickness_mm
        return float(a / (n + 1) * ((1 + depth_mm / a) ** (n + 1) - 1) / 1000)

    def unscaled(self, case: Case) -> Cooling:
        """Return this solution for *case*, whose scaled form it solves."""
        longer = case.modulus_mm / self.case.modulus_mm
        later = longer * longer
        return replace(
            self,
            case=case,
            freeze_s=None if self.freeze_s is None else self.freeze_s * later,
            times_s=Scaled(self.times_s, later),
            frozen_mm=Scaled(self.frozen_mm, longer),
            dry_mm=Scaled(self.dry_mm, longer),
            metal_j_m2=Scaled(self.metal_j_m2, longer),
            gone_j_m2=Scaled(self.gone_j_m2, longer),
            depths_mm=Scaled(self.depths_mm, longer),
            faces_mm=Scaled(self.faces_mm, longer),
        )


def between(at: float, x0: float, x1: float, y0: float, y1: float) -> float:
    """Return y at *at* on the straight line through two points."""
    return y0 + (y1 - y0) * (at - x0) / (x1 - x0)
