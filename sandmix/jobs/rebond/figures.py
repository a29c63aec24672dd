"""The figures of *rebond*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures, Needs
from sandmix.jobs.rebond import several_materials
from sandmix.jobs.rebond.form import RebondForm, plan_of
from sandmix.jobs.shared.doses import FIRST_CLAY, dried, most_water, used_cost, water_figures
from sandmix.jobs.shared.wet_sand import without_dose
from sandmix.maths.uncertainty import Band
from sandmix.recipes import rebond
from sandmix.recipes.too_wet import STOP, Wetness


def run(form: RebondForm) -> Figures:
    """Return the plan's figures; none if changed inputs leave no plan."""
    if form.materials is not None:
        return several_materials.figures(form)
    plan = plan_of(form)
    if isinstance(plan, rebond.OutOfReach):
        return {}
    sand_bag, clay_bag = (form.sand_bag_kg, form.sand_bag_price), (form.clay_bag_kg, form.clay_bag_price)
    return {
        "discard_kg": plan.discard_kg,
        "heap_after_kg": plan.after.wet_kg,
        "sand_kg": plan.sand_kg,
        "clay_kg": plan.clay_kg,
        "first_clay_kg": FIRST_CLAY * plan.clay_kg,
        **water_figures(plan.water_balance_kg),
        "cost": used_cost(plan.sand_kg, sand_bag, plan.clay_kg, clay_bag),
        "dead_fines_after_pct_dry": None if form.dead_fines_pct_dry is None else plan.after.dead_fines_pct_dry,
        "binding": plan.binding,
    }


def needs(form: RebondForm, figures: Figures) -> Needs:
    """Dead fines afterwards need the dead fines now; the cost needs the bags and prices of what is added. A list has its own prices."""
    if form.materials is not None:
        return {"dead_fines_after_pct_dry": ("dead_fines_pct_dry",)}
    priced = [
        f"{kind}_{word}" for kind in ("sand", "clay") if figures[f"{kind}_kg"] for word in ("bag_kg", "bag_price")
    ]
    return {"dead_fines_after_pct_dry": ("dead_fines_pct_dry",), "cost": tuple(priced)}


def wetness(filled: Filled[RebondForm]) -> Wetness:
    """Return how wet the heap and its target are."""
    low, high = filled.bands.get("moisture_pct_wet", (None, None))
    return Wetness(
        sand_pct_wet=filled.form.moisture_pct_wet,
        sand_band=(low, high) if isinstance(low, float) and isinstance(high, float) else None,
        target_pct_wet=filled.form.target_moisture_pct_wet,
    )


def finish(filled: Filled[RebondForm], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return the most water and the weight to dry to, and neither where the target is too wet to pour on.

    No weight where more water would have to go than the sand that stays has: the rest is in what is added.
    """
    discard_kg = figures.get("discard_kg")
    wet, stays_kg = wetness(filled), filled.form.heap_kg - (discard_kg if isinstance(discard_kg, float) else 0.0)
    lose_kg, has_kg = figures.get("water_to_lose_kg"), stays_kg * filled.form.moisture_pct_wet / 100
    can_lose_it = isinstance(lose_kg, float) and lose_kg <= has_kg
    weight = dried(figures, stays_kg) if can_lose_it and wet.target != STOP else {}
    return most_water(filled, figures, doubt) | weight | without_dose(wet)
