"""The figures of *burnout*."""

from __future__ import annotations

import math
from collections.abc import Iterable

from sandmix.asking.job import Figures, Needs
from sandmix.cooling.burnout import HeatedMould, cool_enough_s
from sandmix.cooling.cooling import cool
from sandmix.cooling.freezing import FINE, MEASURED_CONTACT_W_M2K, PERFECT, ROUGH, Cooling, Grid
from sandmix.jobs.burnout.form import ResolvedBurnout
from sandmix.materials.sands_and_clays import RAMMED_KG_L

LONGEST_WAIT_MIN = 90 * 24 * 60.0
LOOSE_KG_M3 = RAMMED_KG_L * 550
HANDLE_C = 60.0


def run(form: ResolvedBurnout) -> Figures:
    """Return the figures."""
    return _figures(form, FINE)


def run_roughly(form: ResolvedBurnout) -> Figures:
    """Return the figures on a coarse grid, for their uncertainty."""
    return _figures(form, ROUGH)


def coolings(form: ResolvedBurnout, grid: Grid = FINE) -> tuple[Cooling, ...]:
    """Return the solution for the contact given; without one, for perfect contact, which burns the most, and then for the measured one."""
    contacts = (PERFECT, MEASURED_CONTACT_W_M2K) if form.contact_w_m2k is None else (form.contact_w_m2k,)
    return tuple(cool(form.case(contact), grid) for contact in contacts)


def _figures(form: ResolvedBurnout, grid: Grid) -> Figures:
    solutions = coolings(form, grid)
    hot = solutions[0]
    freeze_s = _latest(solution.freeze_s for solution in solutions)
    opened_s = _latest(solution.middle_below_s(hot.case.metal.solidus_c / 2) for solution in solutions)
    handled_s = _latest(solution.middle_below_s(HANDLE_C) for solution in solutions)
    figures: Figures = {
        "freeze_s": freeze_s,
        "solid_after_min": _minutes(None if freeze_s is None else 1.5 * freeze_s),
        "open_after_min": _minutes(opened_s),
        "handle_after_min": _minutes(handled_s),
        "burnt_depth_mm": hot.depth_past_mm(form.clay_limit_c),
        "dry_depth_mm": hot.dry_depth_mm,
    }
    if form.casting_volume_cm3 is None:
        return figures
    return figures | _masses(form, form.casting_volume_cm3, hot, opened_s)


def _masses(form: ResolvedBurnout, volume_cm3: float, hot: Cooling, opened_s: float | None) -> Figures:
    mould = HeatedMould(cooling=hot, area_m2=volume_cm3 * 1e-3 / form.modulus, dry_kg=form.dry_kg)
    burnt_kg = mould.shell_kg(hot.depth_past_mm(form.clay_limit_c))
    metal_kg = volume_cm3 * 1e-6 * hot.case.metal.solid_kg_m3
    figures: Figures = {
        "metal_kg": metal_kg,
        "burnt_sand_kg": burnt_kg,
        "burnt_sand_per_metal": burnt_kg / metal_kg,
        "water_driven_kg": mould.water_driven_kg,
    }
    if form.clay_pct_dry is not None:
        figures["clay_burnt_kg"] = burnt_kg * form.clay_pct_dry / 100
        by_rate = mould.burnt_by_rate_kg(1000 * form.activation_kj_mol)
        figures["clay_burnt_by_rate_kg"] = by_rate * form.clay_pct_dry / 100
    if form.sand_kg is not None:
        heap_dry_kg = form.sand_kg * (1 - form.moisture_pct_wet / 100)
        figures["clay_loss_pct"] = min(100.0, 100 * burnt_kg / heap_dry_kg)
    if math.isfinite(form.dry_kg) and opened_s is not None:
        mean_c = mould.sand_mean_c(opened_s)
        figures["sand_mean_c"] = mean_c
        figures["bin_after_min"] = _minutes(opened_s + cool_enough_s(mean_c, hot.case.sand.heat_j_kgk, LOOSE_KG_M3))
    return figures


def _latest(times: Iterable[float | None]) -> float | None:
    """The latest of the times, or None where one of them is never reached."""
    latest = 0.0
    for time_s in times:
        if time_s is None:
            return None
        latest = max(latest, time_s)
    return latest


def _minutes(time_s: float | None) -> float | None:
    """The time in minutes, or None where it is too long for a closed mould."""
    return None if time_s is None or time_s / 60 > LONGEST_WAIT_MIN else time_s / 60


def needs(form: ResolvedBurnout, figures: Figures) -> Needs:
    """Return the inputs that each answer needs."""
    volume = "casting_volume_cm3"
    takes: dict[str, tuple[str, ...]] = dict.fromkeys(
        ("burnt_sand_kg", "burnt_sand_per_metal", "water_driven_kg", "metal_kg"), (volume,)
    )
    takes |= dict.fromkeys(("clay_burnt_kg", "clay_burnt_by_rate_kg"), (volume, "clay_pct_dry"))
    takes["clay_loss_pct"] = (volume, "sand_kg")
    if math.isinf(form.dry_kg):
        takes |= dict.fromkeys(("sand_mean_c", "bin_after_min"), (volume, "sand_kg"))
    return takes
