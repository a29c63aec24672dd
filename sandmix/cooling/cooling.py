"""The solution: cells of metal and damp sand, advanced in time until the middle of the casting is cool.

The area grows as rⁿ. The metal is solid, freezing or liquid; the sand is damp until its water has boiled off at 100 °C, and stays dry after that.
Source: the method page derives it in the same symbols.
"""

from __future__ import annotations

import math
from array import array
from functools import lru_cache
from itertools import takewhile
from operator import mul

from sandmix.cooling.freezing import BOILS_C, FINE, Case, Cooling, Grid
from sandmix.materials.sands_and_clays import HEAT_START_C
from sandmix.maths.conduction import Cells, TimeStep, march

WATER_J_KGK = 4180.0
VAPOUR_J_KG = 2257e3
COOL_C = 60.0
LONGEST_S = 3e7
CACHED = 96
"""So many solutions are kept."""
NEARLY_FROZEN = 0.2
"""From this share of its latent heat on, steps are short."""
FACE_SETTLED = 3.0
"""The face counts from so many of its first cell's own times on."""
_WARM_C = 280.0
"""Below it clay loses nothing by rate."""


@lru_cache(maxsize=CACHED)
def cool(case: Case, grid: Grid = FINE) -> Cooling:
    """Return how the casting of *case* cools; all sizes that scale to the same case share one cached solution.

    >>> from sandmix.materials.metals import thermal
    >>> from sandmix.materials.sands_and_clays import SANDS_FOR_HEAT
    >>> plate = Case(metal=thermal("aluminium"), pour_temp_c=720.0, sand=SANDS_FOR_HEAT["a"], water=0.0, shape_n=0.0, modulus_mm=10.0)
    >>> 290 < cool(plate).freeze_s < 305
    True
    """
    scaled = case.scaled
    solution = _solved(scaled, grid)
    return solution if scaled == case else solution.unscaled(case)


@lru_cache(maxsize=CACHED)
def _solved(case: Case, grid: Grid) -> Cooling:
    return _Solution(case, grid).run()


class _Solution:
    """A solution in progress: the cells, and what is recorded after each step."""

    def __init__(self, case: Case, grid: Grid) -> None:
        self.case, self.grid = case, grid
        n, metal, sand = case.shape_n, case.metal, case.sand
        self.a_m = (n + 1) * case.modulus_mm / 1000
        self.faces = _metal_faces(self.a_m, grid) + _sand_faces(self.a_m, case, grid)
        self.metal_count = grid.metal_cells
        self.centres = [(r0 + r1) / 2 for r0, r1 in zip(self.faces, self.faces[1:], strict=False)]
        self.unit = float(self.a_m**n)
        self.damp_heat = sand.density_kg_m3 * (sand.heat_j_kgk + WATER_J_KGK * case.water)
        self.dry_heat = sand.density_kg_m3 * sand.heat_j_kgk
        self.latent = sand.density_kg_m3 * case.water * VAPOUR_J_KG
        self.to_boil = self.damp_heat * (BOILS_C - HEAT_START_C)
        self.liquid_heat = metal.solid_kg_m3 * metal.liquid_j_kgk
        self.solid_heat = metal.solid_kg_m3 * metal.solid_j_kgk
        self.solidus_h = metal.solid_kg_m3 * metal.to_solidus_j_kg
        self.liquidus_h = metal.solid_kg_m3 * metal.to_liquidus_j_kg
        self.poured_h = metal.solid_kg_m3 * metal.poured_j_kg(case.pour_temp_c)
        self.cells = self._cells()
        self.drying = self.metal_count
        self.peaks = [HEAT_START_C] * (len(self.centres) - self.metal_count)
        self.face_peak = HEAT_START_C
        first_m = self.faces[self.metal_count + 1] - self.a_m
        self.face_from_s = FACE_SETTLED * first_m**2 * self.dry_heat / sand.conductivity_w_mk
        face_to_centre = _resistance(self.a_m, self.centres[self.metal_count], n)
        self.face_resistance = face_to_centre / sand.conductivity_w_mk
        self.notes = {
            name: array("d")
            for name in ("times_s", "middle_c", "frozen_mm", "dry_mm", "metal_j_m2", "gone_j_m2", "dried_c")
        }
        self.warm: list[array[float]] = []
        self.freeze_s: float | None = None
        self.freezing = ((math.inf, math.inf), (math.inf, math.inf))
        self.pure = metal.liquidus_c == metal.solidus_c
        self.outside_peak = HEAT_START_C
        self.gone_j = 0.0

    def _cells(self) -> Cells:
        case, count = self.case, self.metal_count
        sand_count = len(self.centres) - count
        metal = case.metal
        during = (metal.liquidus_c - metal.solidus_c) / (self.liquidus_h - self.solidus_h)
        return Cells(
            volume=[_volume(r0, r1, case.shape_n) for r0, r1 in zip(self.faces, self.faces[1:], strict=False)],
            conductance=self._conductances(),
            h=[self.poured_h] * count + [0.0] * sand_count,
            h_low=[self.solidus_h] * count + [self.to_boil] * sand_count,
            t_low=[metal.solidus_c] * count + [BOILS_C] * sand_count,
            h_high=[self.liquidus_h] * count + [self.to_boil + self.latent] * sand_count,
            t_high=[metal.liquidus_c] * count + [BOILS_C] * sand_count,
            before=[1 / self.solid_heat] * count + [1 / self.damp_heat] * sand_count,
            during=[during] * count + [0.0] * sand_count,
            after=[1 / self.liquid_heat] * count + [1 / self.dry_heat] * sand_count,
            outside_c=HEAT_START_C,
        )

    def _conductances(self) -> list[float]:
        """The conductance of each face between cells, and to the outside last."""
        n, faces, centres, edge = self.case.shape_n, self.faces, self.centres, self.metal_count
        metal_k, sand_k = self.case.metal.conductivity_w_mk, self.case.sand.conductivity_w_mk
        conductances = []
        for at in range(1, len(centres)):
            near = _resistance(centres[at - 1], faces[at], n) / (metal_k if at <= edge else sand_k)
            beyond = _resistance(faces[at], centres[at], n) / (metal_k if at < edge else sand_k)
            between = 1 / (self.case.contact_w_m2k * self.unit) if at == edge else 0.0
            conductances.append(1 / (near + between + beyond))
        last = _resistance(centres[-1], faces[-1], n) / sand_k + 1 / (self.case.outside_w_m2k * faces[-1] ** n)
        return [*conductances, 1 / last]

    def run(self) -> Cooling:
        """Advance until the middle is cool, and return the solution."""
        case, cells = self.case, self.cells
        poured_j = cells.heat_j(0, self.metal_count)
        self.latent_j = sum(cells.volume[: self.metal_count]) * (self.liquidus_h - self.solidus_h)
        march(
            cells,
            first_step_s=self.grid.first_step_s,
            growth=1 + self.grid.step_growth,
            reached=self.metal_count + 1,
            start_c=HEAT_START_C,
            longest_s=LONGEST_S,
            after_step=self._record,
        )
        now_j = cells.heat_j(0, len(cells.h)) + self.gone_j
        centres = (1000 * (r - self.a_m) for r in self.centres[self.metal_count :])
        return Cooling(
            case=case,
            grid=self.grid,
            freeze_s=self.freeze_s,
            depths_mm=array("d", (0.0, *centres, 1000 * (self.faces[-1] - self.a_m))),
            peaks_c=array("d", (max(self.face_peak, self.peaks[0]), *self.peaks, self.outside_peak)),
            faces_mm=array("d", (1000 * (r - self.a_m) for r in self.faces[self.metal_count :])),
            warm_c=self.warm,
            residual=abs(now_j - poured_j) / poured_j,
            **self.notes,
        )

    def _record(self, step: TimeStep) -> float:
        temperatures, edge = step.temperatures_c, self.metal_count
        self.gone_j = step.gone_j
        self._dry_out()
        self._note_freezing(step.time_s)
        sand = temperatures[edge:]
        self.peaks[: len(sand)] = [now if now > peak else peak for now, peak in zip(sand, self.peaks, strict=False)]
        if step.time_s > self.face_from_s:
            self.face_peak = max(self.face_peak, self._face_c(temperatures))
        if len(temperatures) == len(self.centres):
            self.outside_peak = max(self.outside_peak, self._outside_c(temperatures[-1]))
        notes = self.notes
        notes["times_s"].append(step.time_s)
        before_c = notes["middle_c"][-1] if notes["middle_c"] else self.case.pour_temp_c
        notes["middle_c"].append(min(before_c, temperatures[0]))
        notes["frozen_mm"].append(1000 * self._frozen_m())
        notes["dry_mm"].append(1000 * self._dry_m())
        notes["metal_j_m2"].append(self.cells.heat_j(0, edge) / self.unit)
        notes["gone_j_m2"].append(step.gone_j / self.unit)
        notes["dried_c"].append(self._dried_c(temperatures))
        self.warm.append(array("d", takewhile(_is_warm, sand)))
        if temperatures[0] < COOL_C and max(temperatures) < COOL_C:
            return 0.0
        nearly = self.freeze_s is None and self.freezing[1][1] < NEARLY_FROZEN * self.latent_j
        return self.grid.step_at_freezing * step.time_s if nearly else math.inf

    def _dry_out(self) -> None:
        """Sand that boils loses the water that its heat drives off, for good."""
        cells = self.cells
        while self.drying < len(cells.h):
            at = self.drying
            gone = (cells.h[at] - self.to_boil) / self.latent if self.latent else float(cells.h[at] > self.to_boil)
            if gone <= 0:
                return
            gone = min(gone, 1.0)
            low = self.to_boil + gone * self.latent
            if low > cells.h_low[at]:
                left = self.damp_heat + gone * (self.dry_heat - self.damp_heat)
                cells.h_low[at], cells.before[at] = low, 1 / left
                cells.choose(at)
            if gone < 1:
                return
            self.drying += 1

    def _dry_m(self) -> float:
        """How far the drying front has come: the dry cells, and the dry share by volume of the one that is drying."""
        at, cells = self.drying, self.cells
        share = (cells.h_low[at] - self.to_boil) / self.latent if at < len(cells.h) and self.latent else 0.0
        inner = self.faces[at]
        if not share:
            return inner - self.a_m
        power = self.case.shape_n + 1
        return float((inner**power + power * share * cells.volume[at]) ** (1 / power)) - self.a_m

    def _dried_c(self, temperatures: list[float]) -> float:
        """The mean temperature, by volume, of the sand that has dried."""
        dried = slice(self.metal_count, self.drying)
        volumes = self.cells.volume[dried]
        if not volumes:
            return HEAT_START_C
        return float(sum(map(mul, volumes, temperatures[dried]))) / sum(volumes)

    def _frozen_m(self) -> float:
        """How far in from the face the metal is solid."""
        at = next((at for at in range(self.metal_count - 1, -1, -1) if self.cells.h[at] > self.solidus_h), -1)
        if at < 0:
            return self.a_m
        liquid = sum(
            volume
            for volume, h in zip(self.cells.volume[: self.metal_count], self.cells.h, strict=False)
            if h > self.solidus_h
        )
        span = self.liquidus_h - self.solidus_h
        share = min(1.0, (self.cells.h[at] - self.solidus_h) / span)
        liquid -= (1 - share) * self.cells.volume[at]
        power = self.case.shape_n + 1
        return self.a_m - float((power * max(0.0, liquid)) ** (1 / power))

    def _note_freezing(self, time_s: float) -> None:
        """Set the freezing time once the innermost cell has no more heat than at its solidus.

        The time within the step is extrapolated from the two steps before: from the innermost cell's heat, or, in a pure metal or where that
        cell freezes all at once, from the latent heat left in all of the metal, which falls evenly.
        """
        if self.freeze_s is not None:
            return
        inner = self.cells.h[0] - self.solidus_h
        left = self._latent_left()
        times = self.notes["times_s"]
        if inner <= 0 and len(times) > 1:
            (inner_before, left_before), (inner_last, left_last) = self.freezing
            at_once = inner_last > 0.5 * (self.liquidus_h - self.solidus_h) or self.pure
            had, was = (left_last, left_before) if at_once else (inner_last, inner_before)
            ends = times[-1] + (had * (times[-1] - times[-2]) / (was - had) if was > had else math.inf)
            self.freeze_s = min(time_s, ends)
        self.freezing = (self.freezing[1], (inner, left))

    def _latent_left(self) -> float:
        """The heat above that at the solidus, in the metal that is not yet solid."""
        return sum(
            volume * (h - self.solidus_h)
            for volume, h in zip(self.cells.volume[: self.metal_count], self.cells.h, strict=False)
            if h > self.solidus_h
        )

    def _face_c(self, temperatures: list[float]) -> float:
        """The temperature of the sand's face, from the heat that flows between the cells on both sides of it."""
        edge = self.metal_count
        flow = self.cells.conductance[edge - 1] * (temperatures[edge - 1] - temperatures[edge])
        return temperatures[edge] + flow * self.face_resistance

    def _outside_c(self, last_c: float) -> float:
        """The temperature of the sand at the flask's wall."""
        flow = self.cells.conductance[-1] * (last_c - HEAT_START_C)
        return HEAT_START_C + flow / (self.case.outside_w_m2k * float(self.faces[-1] ** self.case.shape_n))


def _is_warm(temperature_c: float) -> bool:
    return temperature_c > _WARM_C


def _metal_faces(a_m: float, grid: Grid) -> list[float]:
    """Equally spaced faces from the middle to the face of the casting."""
    return [a_m * at / grid.metal_cells for at in range(grid.metal_cells + 1)]


def _sand_faces(a_m: float, case: Case, grid: Grid) -> list[float]:
    """Faces from the casting outward, to the wall where there is one: cells that grow slowly where heat matters, and fast beyond."""
    modulus_m = case.modulus_mm / 1000
    end = grid.far * modulus_m if case.wall_mm is None else case.wall_mm / 1000
    widths, depth, width = [], 0.0, grid.first_cell * modulus_m
    while depth < end:
        widths.append(width)
        depth += width
        width *= 1 + (grid.growth_near if depth < grid.near * modulus_m else grid.growth_far)
    share = end / depth if case.wall_mm is not None else 1.0
    faces, at = [], a_m
    for width in widths:
        at += width * share
        faces.append(at)
    return faces


def _volume(r0: float, r1: float, n: float) -> float:
    return float(r1 ** (n + 1) - r0 ** (n + 1)) / (n + 1)


def _resistance(r0: float, r1: float, n: float) -> float:
    """∫ dr / rⁿ: the resistance between two radii for a conductivity of 1."""
    if n == 0:
        return r1 - r0
    if abs(n - 1) < 1e-9:
        return math.log(r1 / r0)
    return float(r1 ** (1 - n) - r0 ** (1 - n)) / (1 - n)
