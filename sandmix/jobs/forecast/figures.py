"""The figures of *forecast*."""

from __future__ import annotations

import itertools

from sandmix.asking.job import Figures, Needs
from sandmix.jobs.forecast.form import ForecastForm, ResolvedForecast
from sandmix.jobs.shared.doses import used_cost
from sandmix.recipes import forecast


def run(form: ResolvedForecast) -> Figures:
    """Return the clay after each cast and in the long run, and what a season uses if the heap is given."""
    clay, dead, habit = form.clay_pct_dry, form.dead_clay_pct_dry, form.habit
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


def _season(form: ResolvedForecast, heap_kg: float) -> Figures:
    """Sand and clay as bought for all the casts; the clay product counts towards the share that is replaced."""
    dry_kg = heap_kg * (1 - form.target_moisture_pct_wet / 100) * form.casts
    materials = form.as_bought(form.activity_pct)
    live = forecast.make_up_pct(form.habit, form.clay_pct_dry) / 100 if form.habit.make_up else 0.0
    product_kg = dry_kg * live / materials.clay_activity
    sand_kg = materials.sand(max(0.0, dry_kg * form.new_sand_share - product_kg)).wet_kg
    clay_kg = materials.clay(product_kg).wet_kg
    sand_bag, clay_bag = (form.sand_bag_kg, form.sand_bag_price), (form.clay_bag_kg, form.clay_bag_price)
    return {"sand_kg": sand_kg, "clay_kg": clay_kg, "cost": used_cost(sand_kg, sand_bag, clay_kg, clay_bag)}


def needs(form: ForecastForm, figures: Figures) -> Needs:
    """A season needs the heap; its cost needs the bags and prices of what is used."""
    priced = [
        f"{kind}_{word}" for kind in ("sand", "clay") if figures.get(f"{kind}_kg") for word in ("bag_kg", "bag_price")
    ]
    season = {"sand_kg": ("heap_kg",), "clay_kg": ("heap_kg",)}
    return season | ({"cost": tuple(priced)} if form.heap_kg is not None else {"cost": ("heap_kg",)})
