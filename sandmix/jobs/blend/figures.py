"""The figures of *blend*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures, Needs
from sandmix.jobs.blend.form import BlendForm, blend_of, blended_grading
from sandmix.jobs.shared.doses import most_water, water_figures
from sandmix.jobs.shared.wet_sand import without_dose
from sandmix.materials import fineness
from sandmix.maths.uncertainty import Band
from sandmix.recipes.too_wet import Wetness


def run(form: BlendForm) -> Figures:
    """Return what is added, the lots together before that, and their grain sizes."""
    found = blend_of(form)
    figures: Figures = {
        "clay_kg": None if form.target_clay_pct_dry is None else found.clay_kg,
        "plain_sand_kg": found.plain_sand_kg or None,
        "make_kg": found.made.wet_kg,
        "lots_share_pct": 100 * found.lots_share,
        "moisture_pct_wet": found.together.moisture_pct_wet,
        "clay_pct_dry": found.together.clay_pct_dry,
        "dead_fines_pct_dry": found.together.dead_fines_pct_dry,
        "dead_fines_after_pct_dry": found.made.dead_fines_pct_dry,
    }
    if found.water_balance_kg is not None:
        figures |= water_figures(found.water_balance_kg)
    retained = blended_grading(form)
    return figures if retained is None else figures | {"retained": retained, "gfn": fineness.gfn(retained)}


def needs(form: BlendForm, figures: Figures) -> Needs:
    """Clay to add needs a target clay, water to add a target moisture."""
    clay, water = ("target_clay_pct_dry",), ("target_moisture_pct_wet",)
    return {
        "clay_kg": clay,
        "water_kg": water,
        "first_water_kg": water,
        "water_most_kg": water,
        "water_to_lose_kg": water,
    }


def wetness(form: BlendForm, band: Band | None = None) -> Wetness:
    """Return how wet the lots are together, and the target; *band* is that of the lots' moisture."""
    return Wetness(
        sand_pct_wet=blend_of(form).together.moisture_pct_wet,
        sand_band=band,
        target_pct_wet=form.target_moisture_pct_wet,
    )


def finish(filled: Filled[BlendForm], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return the most water, and no dose where the target is too wet to pour on."""
    return most_water(filled, figures, doubt) | without_dose(wetness(filled.form))
