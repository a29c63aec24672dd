"""The figures of *carbon*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures, Needs
from sandmix.cooling.freezing import FINE, QUICK, Grid
from sandmix.jobs.carbon.form import ResolvedCarbon
from sandmix.jobs.shared.heated import cooled
from sandmix.language.wording import to_figures
from sandmix.materials.sands_and_clays import SANDS_FOR_HEAT
from sandmix.maths.uncertainty import Band
from sandmix.recipes import carbon
from sandmix.recipes.carbon import ADDITIVES, IRON

SHIFT_PPM = 35.0
"""Source: co_limits."""


def run(form: ResolvedCarbon) -> Figures:
    """Return the figures; none for a metal whose sand needs no carbon."""
    return _figures(form, FINE)


def run_roughly(form: ResolvedCarbon) -> Figures:
    """Return the figures with the heat on a coarse grid, for their uncertainty."""
    return _figures(form, QUICK)


def _figures(form: ResolvedCarbon, grid: Grid) -> Figures:
    if not form.is_needed:
        return {}
    kind = ADDITIVES[form.carbon_additive]
    as_bought = carbon.dose(form.carbon_now_pct / 100, form.carbon_target_pct / 100, form.strong) / (1 - kind.moisture)
    figures: Figures = {"additive_per_sand": 1000 * as_bought}
    if form.heap_kg is not None:
        add_kg = as_bought * form.heap_kg * (1 - form.moisture_pct_wet / 100)
        figures |= {"additive_to_add_kg": add_kg, "first_additive_kg": add_kg / 2}
    dry_kg = lost_dry_kg(form, grid)
    if dry_kg is None:
        return figures
    carbon_g = 1000 * dry_kg * form.additive_loss_pct / 100
    litres = carbon.carbon_monoxide_l(carbon_g)
    lost_kg = dry_kg / (1 - kind.moisture)
    return figures | {
        "additive_burnt_kg": lost_kg,
        "additive_season_kg": form.casts * lost_kg,
        "co_kg": carbon.carbon_monoxide_g(carbon_g) / 1000,
        "co_l": litres,
        "co_air_m3": litres / (SHIFT_PPM / 1000),
    }


def level(form: ResolvedCarbon) -> float:
    """Return the additive in the sand at its level, as a fraction of the dry mass."""
    return max(form.carbon_target_pct, form.carbon_now_pct) / 100 / form.strong


def lost_dry_kg(form: ResolvedCarbon, grid: Grid) -> float | None:
    """Return the dry additive that one cast takes, in kg: for iron by its wear, else by the heat; None where neither can be computed."""
    if form.metal == IRON and form.cast_metal_kg is not None:
        return carbon.burnt_kg(form.cast_metal_kg, form.carbon_wear, level(form))
    heated = heated_kg(form, grid)
    return None if heated is None else heated * level(form)


def heated_kg(form: ResolvedCarbon, grid: Grid) -> float | None:
    """Return the dry sand that gets hotter than the test of volatiles, in kg, at most; None where the casting's size is not given."""
    volume, area = form.casting_volume_cm3, form.casting_area_cm2
    if volume is None or area is None:
        return None
    cooling = cooled(form, 10 * volume / area, grid)
    depth_mm = cooling.depth_past_mm(carbon.VOLATILES_C)
    return area * 1e-4 * cooling.shell_m3_m2(depth_mm) * SANDS_FOR_HEAT[form.sand_heat].density_kg_m3


def finish(filled: Filled[ResolvedCarbon], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return the same level by each additive, by the middle figures of its kind."""
    form = filled.form
    if not form.is_needed or form.heap_kg is None:
        return {}
    rows = []
    for kind in ADDITIVES.values():
        strong = carbon.strength(kind, form.carbon_gauge, kind.volatiles, kind.loss)
        if form.carbon_target_pct / 100 >= strong:
            continue
        per_kg = carbon.dose(form.carbon_now_pct / 100, form.carbon_target_pct / 100, strong) / (1 - kind.moisture)
        kg = per_kg * form.heap_kg * (1 - form.moisture_pct_wet / 100)
        rows.append(
            {
                "additive": kind.label,
                "said": f"{to_figures(1000 * per_kg, 2)} g per kg of dry sand, {to_figures(kg, 2)} kg in all",
                "kg": kg,
            }
        )
    return {"additive_ways": rows}


def needs(form: ResolvedCarbon, figures: Figures) -> Needs:
    """Masses need the heap; what a cast takes needs the iron, or the size of the casting."""
    if not form.is_needed:
        return {}
    casting = ("cast_metal_kg",) if form.metal == IRON else ("casting_volume_cm3", "casting_area_cm2")
    lost = ("additive_burnt_kg", "additive_season_kg", "co_kg", "co_l", "co_air_m3")
    return dict.fromkeys(("additive_to_add_kg", "first_additive_kg"), ("heap_kg",)) | dict.fromkeys(lost, casting)
