"""The figures of *burnout*."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Figures, Needs
from sandmix.cooling.burnout import HeatedMould, cool_enough_s
from sandmix.cooling.cooling import cool
from sandmix.cooling.freezing import FINE, MEASURED_CONTACT_W_M2K, PERFECT, ROUGH, Cooling, Grid
from sandmix.jobs.burnout.form import BurnoutForm
from sandmix.materials.sands_and_clays import RAMMED_KG_L

LONGEST_WAIT_MIN = 90 * 24 * 60.0
LOOSE_KG_M3 = RAMMED_KG_L * 550
HANDLE_C = 60.0


def run(form: BurnoutForm) -> Figures:
    """Return the figures."""
    return _figures(form, FINE)


def run_roughly(form: BurnoutForm) -> Figures:
    """Return the figures on a coarse grid, for their doubt."""
    return _figures(form, ROUGH)


def _coolings(form: BurnoutForm, grid: Grid) -> tuple[Cooling, ...]:
    """One solution for the contact given; where none is, perfect contact, which burns the most, and then the measured one."""
    if form.contact_w_m2k is not None:
        return (cool(form.case(form.contact_w_m2k), grid),)
    return tuple(cool(form.case(contact), grid) for contact in (PERFECT, MEASURED_CONTACT_W_M2K))


def _figures(form: BurnoutForm, grid: Grid) -> Figures:
    assert form.clay_limit_c is not None
    coolings = _coolings(form, grid)
    hot = coolings[0]
    solidus_c = hot.case.metal.solidus_c
    freeze_s = _latest(cooling.freeze_s for cooling in coolings)
    opened_s = _latest(cooling.middle_below_s(solidus_c / 2) for cooling in coolings)
    handled_s = _latest(cooling.middle_below_s(HANDLE_C) for cooling in coolings)
    figures: Figures = {
        "freeze_s": freeze_s,
        "solid_after_min": _told(None if freeze_s is None else 1.5 * freeze_s),
        "open_after_min": _told(opened_s),
        "handle_after_min": _told(handled_s),
        "burnt_depth_mm": hot.depth_past_mm(form.clay_limit_c),
        "dry_depth_mm": hot.dry_depth_mm,
    }
    return figures | (_masses(form, hot, opened_s) if form.area_m2 is not None else {})


def _masses(form: BurnoutForm, hot: Cooling, opened_s: float | None) -> Figures:
    assert form.clay_limit_c is not None and form.area_m2 is not None and form.casting_volume_cm3 is not None
    mould = HeatedMould(cooling=hot, area_m2=form.area_m2, dry_kg=form.dry_kg)
    burnt_kg = mould.shell_kg(hot.depth_past_mm(form.clay_limit_c))
    metal_kg = form.casting_volume_cm3 * 1e-6 * hot.case.metal.solid_kg_m3
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
    if mould.dry_kg is not None and opened_s is not None:
        mean_c = mould.sand_mean_c(opened_s)
        figures["sand_mean_c"] = mean_c
        figures["bin_after_min"] = _told(opened_s + cool_enough_s(mean_c, hot.case.sand.heat_j_kgk, LOOSE_KG_M3))
    return figures


def _latest(times: Iterable[float | None]) -> float | None:
    """The latest of the times, or None where one of them is never reached."""
    latest = 0.0
    for time_s in times:
        if time_s is None:
            return None
        latest = max(latest, time_s)
    return latest


def _told(time_s: float | None) -> float | None:
    """Minutes, or None for a wait so long that nobody leaves a mould shut for it."""
    return None if time_s is None or time_s / 60 > LONGEST_WAIT_MIN else time_s / 60


def needs(form: BurnoutForm, figures: Figures) -> Needs:
    """Return what each answer takes."""
    volume = "casting_volume_cm3"
    takes: dict[str, tuple[str, ...]] = dict.fromkeys(
        ("burnt_sand_kg", "burnt_sand_per_metal", "water_driven_kg", "metal_kg"), (volume,)
    )
    takes |= dict.fromkeys(("clay_burnt_kg", "clay_burnt_by_rate_kg"), (volume, "clay_pct_dry"))
    takes["clay_loss_pct"] = (volume, "sand_kg")
    if form.dry_kg is None:
        takes |= dict.fromkeys(("sand_mean_c", "bin_after_min"), (volume, "sand_kg"))
    return takes
