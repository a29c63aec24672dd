"""What the heat of one casting does to the sand around it: clay burnt, water driven off, and heat left in the sand.

All masses are for the casting's own area: the shell of sand around it to a depth d, with its curvature, and never more than the flask holds.
Clay burns by threshold (all of it where the sand was ever hotter than its limit) or by first-order kinetics, dx/dt = −A exp(−E/RT) x.
Source: thresholds of vingas_zrimsek_1964; kinetics from the temperature of the fastest dehydroxylation (jelinek_2014); see the method page.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from sandmix.cooling.cooling import CACHED, VAPOUR_J_KG, WATER_J_KGK, cool
from sandmix.cooling.freezing import BOILS_C, Case, Cooling, Grid
from sandmix.language.units import KELVIN_AT_0_C
from sandmix.materials.sands_and_clays import HEAT_START_C

GAS_J_MOLK = 8.314462618
DEHYDROXYLATION_J_MOL = 230e3
"""Our choice between 170 and 300 kJ/mol. Source: dehydroxylation, own."""
FASTEST_C = 600.0
"""Source: jelinek_2014."""
HEATED_K_S = 10 / 60
MULLS_BELOW_C = 49.0
EXCESSIVELY_HOT_C = 71.0
"""Source of both: hot_sand."""
SPREAD_M = 0.05
SPREAD_W_M2K = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatedMould:
    """The sand around one casting: how it cooled, its face in m², and the dry kilograms in the flask (infinite: more than heat reaches)."""

    cooling: Cooling
    area_m2: float
    dry_kg: float = math.inf

    @property
    def water(self) -> float:
        """Kilograms of water per kilogram of dry sand before the pour."""
        return self.cooling.case.water

    def shell_kg(self, depth_mm: float) -> float:
        """Return the dry sand from the casting's face to *depth_mm*, in kg: ρ A a/(n + 1) ((1 + d/a)^(n + 1) − 1), at most what the flask holds."""
        return self._sand_kg(self.cooling.shell_m3_m2(depth_mm))

    def _sand_kg(self, volume_m3_m2: float) -> float:
        return min(self.cooling.case.sand.density_kg_m3 * self.area_m2 * volume_m3_m2, self.dry_kg)

    @property
    def dried_kg(self) -> float:
        """The dry mass of the sand that has lost its water, in kg."""
        return self.shell_kg(self.cooling.dry_depth_mm)

    @property
    def water_driven_kg(self) -> float:
        """Water driven off, in kg: all water of the dried shell, which is as much as the heat could boil."""
        return self.water * self.dried_kg

    def burnt_by_rate_kg(self, activation_j_mol: float = DEHYDROXYLATION_J_MOL) -> float:
        """Return the dry sand whose clay is burnt by first-order kinetics, in kg: each cell counts with the burnt share of its clay."""
        cooling = self.cooling
        scaled = cooling.case.scaled
        later = (cooling.case.modulus_mm / scaled.modulus_mm) ** 2
        reacted = _reacted(scaled, cooling.grid, activation_j_mol)
        shells = [cooling.shell_m3_m2(face) for face in cooling.faces_mm[: len(reacted) + 1]]
        volume = sum(
            (outer - inner) * -math.expm1(-later * per)
            for (inner, outer), per in zip(pairwise(shells), reacted, strict=True)
        )
        return self._sand_kg(volume)

    def sand_mean_c(self, opened_s: float) -> float:
        """Return the mean temperature of the flask's sand when it is mixed at *opened_s*, in °C, by a heat balance.

        The heat that the metal gave, less what left with the vapour and through the flask's wall, warms the dry sand and the water that is left.
        It is never hotter than the casting. Holds for: a finite ``dry_kg``.
        """
        cooling = self.cooling
        metal, poured_c = cooling.case.metal, cooling.case.pour_temp_c
        poured_j = metal.solid_kg_m3 * cooling.case.modulus_mm / 1000 * metal.poured_j_kg(poured_c)
        given_j = poured_j - cooling.at_s(cooling.metal_j_m2, opened_s)
        lost_j = cooling.at_s(cooling.gone_j_m2, opened_s)
        driven_kg = self.water * self.shell_kg(cooling.at_s(cooling.dry_mm, opened_s))
        vapour_j = driven_kg * (VAPOUR_J_KG + WATER_J_KGK * (BOILS_C - HEAT_START_C))
        kept_j = max(0.0, self.area_m2 * (given_j - lost_j) - vapour_j)
        left_kg = max(0.0, self.water * self.dry_kg - driven_kg)
        holds_j_k = self.dry_kg * cooling.case.sand.heat_j_kgk + left_kg * WATER_J_KGK
        return min(HEAT_START_C + kept_j / holds_j_k, cooling.at_s(cooling.middle_c, opened_s))


@lru_cache(maxsize=CACHED)
def _reacted(scaled: Case, grid: Grid, activation_j_mol: float) -> tuple[float, ...]:
    """∫ A exp(−E/RT) dt in each cell of sand that was ever warm enough, for a scaled case; proportional to M², as times are."""
    cooling = cool(scaled, grid)
    falls_j_mol = -activation_j_mol / GAS_J_MOLK
    done: list[float] = []
    before_s = 0.0
    for time_s, row in zip(cooling.times_s, cooling.warm_c, strict=True):
        step_s, before_s = time_s - before_s, time_s
        done.extend([0.0] * (len(row) - len(done)))
        for cell, temperature in enumerate(row):
            done[cell] += step_s * math.exp(falls_j_mol / (temperature + KELVIN_AT_0_C))
    per_s = frequency_per_s(activation_j_mol)
    return tuple(per_s * part for part in done)


def frequency_per_s(activation_j_mol: float) -> float:
    """Return A = β E/(R T_p²) exp(E/R T_p), in 1/s: the A for which dehydroxylation is fastest at 600 °C when heated by 10 K a minute.

    >>> f"{frequency_per_s(230e3):.1e}"
    '3.5e+11'
    """
    peak = FASTEST_C + KELVIN_AT_0_C
    ratio = activation_j_mol / (GAS_J_MOLK * peak)
    return HEATED_K_S * ratio / peak * math.exp(ratio)


def cool_enough_s(mean_c: float, heat_j_kgk: float, loose_kg_m3: float, limit_c: float = MULLS_BELOW_C) -> float:
    """Return how long sand of *mean_c*, spread 50 mm deep and turned, takes to cool to *limit_c*, in s: ρ c d/h ln((T − 20)/(limit − 20)).

    One open face with 10 W/m²K; evaporation, which would cool it sooner, is left out. Source: own choice of depth and coefficient.

    >>> round(cool_enough_s(78.0, 1130.0, 850.0) / 60)
    55
    """
    if mean_c <= limit_c:
        return 0.0
    lasting_s = loose_kg_m3 * heat_j_kgk * SPREAD_M / SPREAD_W_M2K
    return lasting_s * math.log((mean_c - HEAT_START_C) / (limit_c - HEAT_START_C))


def shape_n(half_thickness_mm: float, modulus_mm: float) -> tuple[float, bool]:
    """Return n = a/M − 1 of a casting, where a is half its box's smallest side, and whether that is more than a compact body can have.

    Below 0 it is 0, a plate. Up to 0.05 above 2 it is a ball, within measuring error. Above that the casting is thin-walled, hollow or
    branched, and is taken as a plate.

    >>> shape_n(45.0, 15.0), shape_n(10.0, 10.0), shape_n(50.0, 5.0)
    ((2.0, False), (0.0, False), (0.0, True))
    """
    n = half_thickness_mm / modulus_mm - 1
    if n > 2.05:
        return 0.0, True
    return min(2.0, max(0.0, n)), False
