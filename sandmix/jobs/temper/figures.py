"""The figures of *temper*."""

from __future__ import annotations

from sandmix.asking.job import Figures
from sandmix.jobs.shared.doses import water_figures
from sandmix.jobs.temper.form import TemperForm
from sandmix.materials.metals import METALS
from sandmix.recipes import temper


def run(form: TemperForm) -> Figures:
    """Return the figures; water that can't be told without the heap's mass is left out."""
    moisture_pct, target_pct = form.moisture_pct_wet, form.target_moisture_pct_wet
    assert moisture_pct is not None and target_pct is not None
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
