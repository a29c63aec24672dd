"""The figures of *mix*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures
from sandmix.jobs.mix.form import DAMP_FROM_PCT, MixForm
from sandmix.jobs.shared.bought import is_untested
from sandmix.jobs.shared.doses import dried, most_water, water_figures
from sandmix.jobs.shared.wet_sand import without_dose
from sandmix.materials.metals import METALS
from sandmix.materials.sands_and_clays import CLAYS
from sandmix.maths.uncertainty import Band
from sandmix.recipes import mix
from sandmix.recipes.too_wet import Wetness

CLAY_STEPS = 4
"""In how many steps a clay of unknown live share is added, from the start to the most."""

BATCH = ("batches", "batch_sand_kg", "batch_clay_kg", "batch_water_kg")


def weigh(form: MixForm, activity_pct: float) -> mix.MixWeights:
    """Return what to weigh in if *activity_pct* of the dry clay product is live."""
    materials, clay = form.as_bought(activity_pct), form.clay_fraction
    dry = float("inf")
    if form.sand_on_hand_kg is not None or form.clay_on_hand_kg is not None:
        dry, _ = mix.dry_from_stock(
            sand_on_hand_kg=form.sand_on_hand_kg, clay_on_hand_kg=form.clay_on_hand_kg, clay=clay, materials=materials
        )
    moisture = _moisture(form)
    if form.make_kg is not None:
        dry = min(dry, form.make_kg * (1 - moisture))
    return mix.design(dry_kg=dry, clay=clay, moisture=moisture, materials=materials)


def _moisture(form: MixForm) -> float:
    if form.moisture_pct_wet is not None:
        return form.moisture_pct_wet / 100
    return mix.moisture_from_clay(form.clay_fraction, form.water_per_clay)


def can_be_mixed(form: MixForm, activity_pct: float) -> bool:
    """Return whether there is room for sand beside the clay if *activity_pct* of the dry clay product is live."""
    return form.clay_fraction < activity_pct / 100


def run(form: MixForm) -> Figures:
    """Return the figures of the mix; none where an input at the end of its range leaves no sand in the mix."""
    if not can_be_mixed(form, form.activity_pct):
        return {}
    weights = weigh(form, form.activity_pct)
    clay, activity, moisture = form.clay_fraction, form.activity_pct / 100, _moisture(form)
    bulking = form.bulking_pct / 100 if form.sand_moisture_pct_wet >= DAMP_FROM_PCT else 0.0
    sand_l = weights.sand.wet_kg * (1 - form.sand_moisture_pct_wet / 100) / form.sand_bulk_kg_l * (1 + bulking)
    clay_l = weights.clay.wet_kg / form.bulk_kg_l
    figures: Figures = {
        "make_kg": weights.mix.wet_kg,
        "sand_kg": weights.sand.wet_kg,
        "clay_kg": weights.clay.wet_kg,
        **water_figures(weights.water_balance_kg),
        "moisture_pct_wet": 100 * moisture,
        "moisture_pct_dry": 100 * moisture / (1 - moisture),
        "clay_pct_dry": 100 * clay,
        "clay_pct_sand": 100 * mix.clay_per_sand(clay, activity),
        "clay_pct_wet": 100 * clay * (1 - moisture),
        "sand_l": sand_l,
        "clay_l": clay_l,
        "sand_buckets": sand_l / form.bucket_l,
        "clay_buckets": clay_l / form.bucket_l,
    }
    if form.mixer_kg is not None:
        count = mix.batches(weights.mix.wet_kg, form.mixer_kg)
        figures |= {
            "batches": count,
            "batch_sand_kg": weights.sand.wet_kg / count,
            "batch_clay_kg": weights.clay.wet_kg / count,
            "batch_water_kg": weights.water_balance_kg / count,
        }
    return figures


def finish(filled: Filled[MixForm], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return the figures that have no band of their own, and no dose where the target is too wet to pour on.

    These are the most water, the mix as it is with no water added, the weight to which its sand must dry if the sand holds all the
    water to lose, the recipe by volume, and for a clay of unknown live share the most clay and the steps towards it.
    """
    more, form = most_water(filled, figures, doubt), filled.form
    standing = weigh(form, form.activity_pct).with_all_its_water
    more |= {"standing_kg": standing.wet_kg, "standing_moisture_pct_wet": standing.moisture_pct_wet}
    sand_kg, lose_kg = figures.get("sand_kg"), figures.get("water_to_lose_kg")
    if (
        isinstance(sand_kg, float)
        and isinstance(lose_kg, float)
        and lose_kg <= sand_kg * form.sand_moisture_pct_wet / 100
    ):
        more |= dried(figures, sand_kg)
    more |= without_dose(wetness(form))
    if form.clay_fraction > 0:
        more["parts_sand"] = mix.parts_sand_per_clay(form.clay_fraction, form.sand_bulk_kg_l, form.parts_bulk_kg_l)
        more["parts_clay"] = 1.0
    if is_untested(filled) and can_be_mixed(form, least := CLAYS[form.clay].activity_band_pct[0]):
        start, most = weigh(form, form.activity_pct).clay.wet_kg, weigh(form, least).clay.wet_kg
        more |= {"clay_most_kg": most, "clay_step_kg": max(0.0, most - start) / CLAY_STEPS}
    return more


def wetness(form: MixForm) -> Wetness:
    """Return how wet the target is, and the mix as it stands where its materials bring more water than that."""
    weights = weigh(form, form.activity_pct)
    over = weights.water_balance_kg < 0
    return Wetness(
        metal=METALS[form.metal],
        sand_pct_wet=weights.with_all_its_water.moisture_pct_wet if over else None,
        target_pct_wet=weights.mix.moisture_pct_wet,
    )
