"""The figures of *feel*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures
from sandmix.jobs.feel.form import ResolvedFeel
from sandmix.jobs.shared.doses import dried, most_water, water_figures
from sandmix.jobs.shared.wet_sand import without_dose
from sandmix.materials.metals import METALS
from sandmix.maths.uncertainty import Band
from sandmix.recipes import temper
from sandmix.recipes.too_wet import STOP, Wetness


def run(form: ResolvedFeel) -> Figures:
    """Return the moisture and the check; a verdict and water only where the word may dose."""
    check = form.check
    figures: Figures = {
        "moisture_pct_wet": form.moisture_pct_wet,
        "feel_pairs": check.pairs,
        "feel_inside_pct": None if check.inside is None else int(100 * check.inside + 0.5),
        "feel_gain": None if check.gain is None else round(check.gain, 2) + 0.0,
        "feel_doses": form.doses,
    }
    if form.doses != "yes":
        return figures
    moisture, target = form.moisture_pct_wet, form.target_moisture_pct_wet
    figures["verdict"] = temper.verdict(moisture, target, wetness(form).red_pct_wet)
    if form.heap_kg is None:
        return figures
    figures |= water_figures(temper.water_to_add_kg(form.heap_kg, moisture / 100, target / 100))
    return figures | {"first_water_kg": _first_water_kg(form, form.heap_kg)}


def _first_water_kg(form: ResolvedFeel, heap_kg: float) -> float:
    """The usual share of the water that is missing, but never more than is missing at the wet end of the range."""
    missing, least = (
        temper.water_to_add_kg(heap_kg, pct / 100, form.target_moisture_pct_wet / 100)
        for pct in (form.judged.moisture_pct_wet, form.judged.high_pct)
    )
    return min(temper.FIRST_WATER * missing, least)


def wetness(form: ResolvedFeel, band: Band | None = None) -> Wetness:
    """Return how wet the sand and its target are for the metal, by the last test where that alone says stop."""
    stopped = form.stopped_by
    return Wetness(
        metal=METALS[form.metal],
        sand_pct_wet=stopped.read_pct if stopped else form.moisture_pct_wet,
        sand_band=stopped.band if stopped else band,
        target_pct_wet=form.target_moisture_pct_wet,
        sand_kind=form.sand_kind,
    )


def finish(filled: Filled[ResolvedFeel], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return the most water and the weight of too wet sand to dry to, and no water where the target is too wet to pour on."""
    form, wet = filled.form, wetness(filled.form)
    is_too_wet = figures.get("verdict") in ("dry", "stop") and wet.target != STOP
    weight = dried(figures, form.heap_kg or 0.0) if is_too_wet else {}
    return most_water(filled, figures, doubt) | weight | without_dose(wet)
