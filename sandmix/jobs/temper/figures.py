"""The figures of *temper*."""

from __future__ import annotations

from sandmix.asking.job import Figures
from sandmix.jobs.shared.doses import water_figures
from sandmix.jobs.temper.form import ResolvedTemper
from sandmix.materials.metals import METALS
from sandmix.recipes import temper


def run(form: ResolvedTemper) -> Figures:
    """Return the figures. Without the heap's mass there are no figures of water."""
    moisture_pct, target_pct = form.moisture_pct_wet, form.target_moisture_pct_wet
    moisture, target = moisture_pct / 100, target_pct / 100
    figures: Figures = {
        "verdict": temper.verdict(moisture_pct, target_pct, METALS[form.metal].red_moisture_pct_wet),
        "moisture_pct_wet": moisture_pct,
    }
    if form.heap_kg is None:
        return figures
    water = temper.water_to_add_kg(form.heap_kg, moisture, target)
    return figures | {
        **water_figures(water),
        "dry_mix_to_dilute_kg": temper.dry_mix_to_dilute_kg(form.heap_kg, moisture, target),
    }
