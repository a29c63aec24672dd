"""The figures of *temper*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures
from sandmix.jobs.shared.doses import dried, most_water, water_figures
from sandmix.jobs.shared.wet_sand import without_dose
from sandmix.jobs.temper.form import ResolvedTemper
from sandmix.materials.metals import METALS
from sandmix.maths.uncertainty import Band
from sandmix.recipes import temper
from sandmix.recipes.too_wet import STOP, Wetness


def run(form: ResolvedTemper) -> Figures:
    """Return the figures. Without the heap's mass there are no figures of water."""
    moisture_pct, target_pct = form.moisture_pct_wet, form.target_moisture_pct_wet
    moisture, target = moisture_pct / 100, target_pct / 100
    figures: Figures = {
        "verdict": temper.verdict(moisture_pct, target_pct, wetness(form).red_pct_wet),
        "moisture_pct_wet": moisture_pct,
    }
    if form.heap_kg is None:
        return figures
    water = temper.water_to_add_kg(form.heap_kg, moisture, target)
    return figures | {
        **water_figures(water),
        "dry_mix_to_dilute_kg": temper.dry_mix_to_dilute_kg(form.heap_kg, moisture, target),
    }


def wetness(form: ResolvedTemper, band: Band | None = None) -> Wetness:
    """Return how wet the heap and its target are for the metal; *band* is that of the moisture."""
    return Wetness(
        metal=METALS[form.metal],
        sand_pct_wet=form.moisture_pct_wet,
        sand_band=band,
        target_pct_wet=form.target_moisture_pct_wet,
        sand_kind=form.sand_kind,
    )


def finish(filled: Filled[ResolvedTemper], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return the most water and the weight of too wet sand to dry to, and neither where the target is too wet to pour on.

    Sand that is too wet to pour on gets no water, whatever its range.
    """
    form, wet = filled.form, wetness(filled.form)
    is_too_wet = figures["verdict"] in ("dry", "stop") and wet.target != STOP
    weight = dried(figures, form.heap_kg or 0.0) if is_too_wet else {}
    most = most_water(filled, figures, doubt)
    if figures["verdict"] == STOP:
        most = dict.fromkeys(most, 0.0)
    return most | weight | without_dose(wet)
