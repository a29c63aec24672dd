"""The formulas of the tests: readings turned into figures and their errors, and the least work that makes a test exact enough."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from sandmix.bench.catalogue import TESTS
from sandmix.language.units import GRAVITY_M_S2, INCH_M, POUND_KG
from sandmix.materials.sands_and_clays import QUARTZ_KG_M3
from sandmix.maths.statistics import TWO_SIGMA

SAMPLING_PCT = TESTS["moisture"].home.scatter.absolute
"""How much handfuls of one heap differ, as a 95 % half-width in points of moisture (from memory)."""


def reading_error_g(scale_step_g: float) -> float:
    """Return the 95 % half-width, in g, of one reading on a scale of that step: standard deviation step/√12. Source: scale_rounding."""
    return TWO_SIGMA / math.sqrt(12) * scale_step_g


def moisture_pct_wet(sample_wet_g: float, sample_dry_g: float) -> float:
    """Return the moisture, in percent of the wet mass, of a sample dried to constant mass at 105 °C.

    M = 100 (W1 - W2) / W1. Source: tjfs_201.

    >>> round(moisture_pct_wet(50.00, 48.10), 2)
    3.8
    """
    return 100 * (sample_wet_g - sample_dry_g) / sample_wet_g


def weighing_error_pct(sample_wet_g: float, wet_error_g: float, dry_error_g: float) -> float:
    """Return the 95 % half-width, in points of moisture, from the errors of the two readings: they add as squares.

    >>> cases = ((100, 1), (300, 1), (500, 1), (100, 0.1))
    >>> [round(weighing_error_pct(sample, *[reading_error_g(step)] * 2), 2) for sample, step in cases]
    [0.8, 0.27, 0.16, 0.08]
    """
    return 100 * math.hypot(wet_error_g, dry_error_g) / sample_wet_g


def moisture_error_pct(weighing_error_pct: float) -> float:
    """Return the 95 % half-width of one moisture test, in points: scale and handful together."""
    return math.hypot(weighing_error_pct, SAMPLING_PCT)


def sample_for_error_g(error_pct: float, scale_step_g: float) -> float | None:
    """Return the sample, in g, that makes one moisture test exact to *error_pct* points, or None where handfuls alone differ by more."""
    if error_pct <= SAMPLING_PCT:
        return None
    return 100 * math.sqrt(2) * reading_error_g(scale_step_g) / math.sqrt(error_pct**2 - SAMPLING_PCT**2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Specimen:
    """A rammed specimen: its height and width in cm."""

    height_cm: float
    width_cm: float

    @property
    def area_cm2(self) -> float:
        """The area of its end, in cm²."""
        return math.pi / 4 * self.width_cm**2

    @property
    def volume_cm3(self) -> float:
        """Its volume, in cm³.

        >>> round(SPECIMENS["us"].volume_cm3, 2)
        102.96
        """
        return self.area_cm2 * self.height_cm


SPECIMENS = {"us": Specimen(height_cm=5.08, width_cm=5.08), "metric": Specimen(height_cm=5.0, width_cm=5.0)}
AIR_CM3 = 2000.0
RAMS, RAM_KG, RAM_FALL_M = 3, 14 * POUND_KG, 2 * INCH_M
DYE_G_L, DYE_G_MOL = 3.739, 373.90
SWELL_SAMPLE_G = 2.0
LEAST_DIFFERENCE = 0.1
_WATER_PA_S, _WATER_KG_M3 = 1.0e-3, 998.0


def sinking_mm_min(size_um: float) -> float:
    """Return how fast quartz of *size_um* sinks in water at 20 °C, in mm a minute: g d² Δρ/(18 μ). Holds for: up to about 50 µm. Source: stokes.

    >>> round(sinking_mm_min(20), 0)
    22.0
    """
    speed_m_s = GRAVITY_M_S2 * (size_um * 1e-6) ** 2 * (QUARTZ_KG_M3 - _WATER_KG_M3) / (18 * _WATER_PA_S)
    return speed_m_s * 1000 * 60


def blue_clay_pct_dry(sample_g: float, titre_ml: float, calibration_ml: float, calibration_clay_g: float) -> float:
    """Return live clay in percent of the dry sample, in equivalents of the clay used to calibrate. Source: bcira_methylene_blue.

    Each mL of dye stands for *calibration_clay_g* / *calibration_ml* of clay.

    >>> blue_clay_pct_dry(5, 40, 50, 0.5)
    8.0
    """
    return 100 * titre_ml * (calibration_clay_g / calibration_ml) / sample_g


def dye_mol_l(dye_g_l: float = DYE_G_L) -> float:
    """Return the concentration of a methylene blue solution, in mol/L, from its g/L (trihydrate, 373.90 g/mol)."""
    return dye_g_l / DYE_G_MOL


def permeability(pressure_cm: float, time_s: float, specimen: str = "us") -> float:
    """Return the permeability number: P = V H/(p A t), 2000 cm³ of air, pressure in cm of water, time in minutes. Source: permeability_lecture.

    >>> round(permeability(9.6, 36), 1)
    87.0
    """
    body = SPECIMENS[specimen]
    return AIR_CM3 * body.height_cm / (pressure_cm * body.area_cm2 * time_s / 60)


def compactability_pct(height_before_mm: float, height_after_mm: float) -> float:
    """Return the height lost under three blows, in percent of the height before. Source: bcira_specimen.

    >>> compactability_pct(120, 66)
    45.0
    """
    return 100 * (height_before_mm - height_after_mm) / height_before_mm


def ram_energy_j() -> float:
    """Return the energy of three blows of the standard rammer, in J: 14 lb that fall 2 in. Source: bcira_specimen."""
    return RAMS * RAM_KG * GRAVITY_M_S2 * RAM_FALL_M


def ram_energy_kj_m2(rammer_kg: float, rammer_fall_mm: float, tin_diameter_mm: float) -> float:
    """Return the energy of three blows over the area of the tin, in kJ/m²: 3 m g h/(π/4 d²). Source: geometry.

    >>> round(ram_energy_kj_m2(RAM_KG, 50.8, 50.8), 2)
    4.68
    """
    area_m2 = math.pi / 4 * (tin_diameter_mm / 1000) ** 2
    return RAMS * rammer_kg * GRAVITY_M_S2 * rammer_fall_mm / 1000 / area_m2 / 1000


STANDARD_RAM_KJ_M2 = ram_energy_kj_m2(RAM_KG, RAM_FALL_M * 1000, SPECIMENS["us"].width_cm * 10)
"""The energy per area of the standard: three blows of 14 lb through 2 in, on a specimen 2 in wide. Source: bcira_specimen."""
LIKE_STANDARD = 0.10
"""By what share the energy per area of a tin may differ for its reading to count as a standard one (own choice)."""


def rams_like_the_standard(rammer_kg: float, rammer_fall_mm: float, tin_diameter_mm: float) -> bool:
    """Return whether three blows give about the energy per area of the standard.

    >>> rams_like_the_standard(2.5, 250, 72), rams_like_the_standard(1.0, 250, 72)
    (True, False)
    """
    energy = ram_energy_kj_m2(rammer_kg, rammer_fall_mm, tin_diameter_mm)
    return abs(energy / STANDARD_RAM_KJ_M2 - 1) <= LIKE_STANDARD + 1e-9


def matching_fall_mm(rammer_kg: float, tin_diameter_mm: float) -> float:
    """Return the fall, in mm, at which three blows of a rammer give the energy per area of the standard in that tin.

    >>> round(matching_fall_mm(RAM_KG, 50.8), 1)
    50.8
    """
    return STANDARD_RAM_KJ_M2 / ram_energy_kj_m2(rammer_kg, 1.0, tin_diameter_mm)


def water_sensitivity(
    moistures_pct: tuple[float, float], compactabilities_pct: tuple[float, float], direction: float = 0.0
) -> float:
    """Return the points of moisture for ten points of compactability, 10 (M1 - M2)/(C1 - C2). Source: tjfs_109.

    Compactabilities closer than a tenth of a point count as a tenth apart. *direction* is 1 where the first is known to be the higher, -1
    where the second is; figures moved the other way round also count as a tenth apart.

    >>> water_sensitivity((4.0, 3.0), (50.0, 40.0))
    1.0
    """
    apart = compactabilities_pct[0] - compactabilities_pct[1]
    sign = direction or math.copysign(1.0, apart)
    return 10 * (moistures_pct[0] - moistures_pct[1]) / (sign * max(apart * sign, LEAST_DIFFERENCE))


def strength_kpa(load_n: float, specimen: str = "us") -> float:
    """Return the load over the area of the specimen's end, in kPa. Source: geometry.

    >>> round(strength_kpa(202.68, "us"), 1)
    100.0
    """
    return 10 * load_n / SPECIMENS[specimen].area_cm2


def share_pct(whole_g: float, part_g: float) -> float:
    """Return a part, in percent of the whole. Source: mass_balance.

    >>> round(share_pct(50, 5.9), 1)
    11.8
    """
    return 100 * part_g / whole_g


def lost_pct(whole_g: float, left_g: float) -> float:
    """Return what was lost, in percent of the whole."""
    return 100 * (whole_g - left_g) / whole_g


def round_tin_ml(diameter_mm: float, height_mm: float) -> float:
    """Return the inside volume of a round tin, in mL. Source: geometry."""
    return math.pi / 4 * diameter_mm**2 * height_mm / 1000


def strokes_per_100ml(strokes: float, sprayed_g: float) -> float:
    """Return the strokes that give 100 mL; a gram of water is a millilitre."""
    return 100 * strokes / sprayed_g


@dataclass(frozen=True, slots=True, kw_only=True)
class TestPlan:
    """One plan for a test: how often, on how large a sample and on which scale, with the ± and the work that follow."""

    repeats: int
    sample_g: float | None
    step_g: float | None
    error: float
    work_min: float


MOST_REPEATS = 5
FINER_STEP_G = 0.1
FINER_SCALE_MIN = 10.0
"""The work of getting a finer scale, counted once per plan (own choice)."""


def plans(
    test: str, *, reading_error: float, scatter: float, sample_g: float | None, step_g: float
) -> Sequence[TestPlan]:
    """Return all plans for *test* that are compared, the least work first, each with its ±.

    *reading_error* is the error of one test from its readings, on *sample_g* and a scale of *step_g*: where the sample decides it, it is
    proportional to the step and inversely proportional to the sample. *scatter* is the further error of one test. Both fall as 1/√n
    with n repeats. The work is our own estimate.
    """
    row = TESTS[test]
    weighed = bool(row.weighed) and sample_g is not None
    samples = sorted({sample_g, *row.sizes_g}) if weighed and sample_g is not None else [None]
    scales = sorted({step_g, min(step_g, FINER_STEP_G)}, reverse=True) if weighed else [None]
    found = []
    for repeats in range(1, MOST_REPEATS + 1):
        for sample in samples:
            for step in scales:
                reading, work = reading_error, repeats * row.work_min
                if sample is not None and sample_g is not None and step is not None:
                    reading *= sample_g / sample * step / step_g
                    work += repeats * row.work_100g_min * sample / 100 + (FINER_SCALE_MIN if step < step_g else 0.0)
                error = math.hypot(reading, scatter) / math.sqrt(repeats)
                found.append(TestPlan(repeats=repeats, sample_g=sample, step_g=step, error=error, work_min=work))
    return sorted(found, key=lambda plan: (plan.work_min, plan.sample_g or 0.0, plan.error))


def least_work(plans: Sequence[TestPlan], wanted_error: float) -> TestPlan | None:
    """Return the first of *plans* that reaches *wanted_error*, or None where none does."""
    return next((plan for plan in plans if plan.error <= wanted_error * (1 + 1e-9)), None)
