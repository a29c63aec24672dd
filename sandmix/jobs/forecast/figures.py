"""The figures of *forecast*."""

from __future__ import annotations

import itertools

from sandmix.asking.job import Figures, Needs
from sandmix.jobs.forecast.form import ForecastForm
from sandmix.jobs.shared.doses import used_cost
from sandmix.recipes import forecast


def run(form: ForecastForm) -> Figures:
    """Return the clay after each cast, where it ends, and what a season takes where the heap is named."""
    clay, dead, habit = _clay(form), form.dead_clay_pct_dry, form.habit
    steps = list(itertools.islice(forecast.casts(habit, clay, dead), int(form.casts)))
    ends, dead_ends = forecast.steady(habit, clay, dead)
    figures: Figures = {
        "clay_pct_dry": [live for live, _ in steps],
        "dead_clay_pct_dry": [killed for _, killed in steps],
        "steady_clay_pct_dry": ends,
        "steady_dead_clay_pct_dry": dead_ends,
        "make_up_pct": forecast.make_up_pct(habit, clay) if habit.make_up else None,
        "casts_until_limit": forecast.casts_until(habit, clay, form.dead_clay_limit_pct_dry, dead),
    }
    return figures | ({} if form.heap_kg is None else _season(form, form.heap_kg))


def _clay(form: ForecastForm) -> float:
    assert form.clay_pct_dry is not None
    return form.clay_pct_dry


def _season(form: ForecastForm, heap_kg: float) -> Figures:
    """Sand and clay as bought for all the casts; what the clay product fills of the share replaced is not bought as sand."""
    assert form.target_moisture_pct_wet is not None
    dry_kg = heap_kg * (1 - form.target_moisture_pct_wet / 100) * form.casts
    materials = form.as_bought(form.activity_pct)
    live = forecast.make_up_pct(form.habit, _clay(form)) / 100 if form.habit.make_up else 0.0
    product_kg = dry_kg * live / materials.clay_activity
    sand_kg = materials.sand(max(0.0, dry_kg * form.new_sand_share - product_kg)).wet_kg
    clay_kg = materials.clay(product_kg).wet_kg
    sand_bag, clay_bag = (form.sand_bag_kg, form.sand_bag_price), (form.clay_bag_kg, form.clay_bag_price)
    return {"sand_kg": sand_kg, "clay_kg": clay_kg, "cost": used_cost(sand_kg, sand_bag, clay_kg, clay_bag)}


def needs(form: ForecastForm, figures: Figures) -> Needs:
    """What a season takes is of one heap; its cost takes the bags and prices of what is used."""
    priced = [
        f"{kind}_{word}" for kind in ("sand", "clay") if figures.get(f"{kind}_kg") for word in ("bag_kg", "bag_price")
    ]
    season = {"sand_kg": ("heap_kg",), "clay_kg": ("heap_kg",)}
    return season | ({"cost": tuple(priced)} if form.heap_kg is not None else {"cost": ("heap_kg",)})
