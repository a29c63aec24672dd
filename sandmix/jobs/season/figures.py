"""The figures of *season*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures, Needs
from sandmix.jobs.season.form import ResolvedSeason
from sandmix.jobs.shared.doses import used_cost
from sandmix.language.wording import noun, to_figures
from sandmix.maths.uncertainty import Band
from sandmix.recipes import forecast, season
from sandmix.recipes.forecast import Habit
from sandmix.recipes.season import DILUTE, DUMP, EQUAL, HABIT, WAIT, Heap, Season

WAYS = (WAIT, EQUAL, DUMP, DILUTE, HABIT)
NAMES = {
    WAIT: "keep until the limit, then the least",
    EQUAL: "the same share at each cast",
    DUMP: "keep until the limit, then all new",
    DILUTE: "dilute in one go",
    HABIT: "as today",
}
PRICES = ("sand_bag_kg", "sand_bag_price", "clay_bag_kg", "clay_bag_price")


def run(form: ResolvedSeason) -> Figures:
    """Return what each way through the season takes; nothing where no share of new sand would keep the limit."""
    heap = form.heap
    if form.limit <= heap.idle:
        return {}
    ways = through(form, WAIT, EQUAL, HABIT)
    keep, equal = ways[WAIT], ways[EQUAL]
    lost, grows, most = heap.lost, heap.grows, form.limit - heap.idle
    waits = next((at for at, share in enumerate(keep.shares) if share > lost * (1 + 1e-9)), len(keep.shares))
    figures: Figures = {
        "keep_casts": waits,
        "then_share_pct": 100 * max(lost, grows / (grows + most)),
        "equal_share_pct": 100 * equal.shares[0],
        "equal_replace_kg": equal.shares[0] * form.heap_kg,
        "habit_casts_until_limit": _until_limit(form, heap),
        "season_sand_kg": keep.sand_kg,
        "season_clay_kg": keep.clay_kg,
        "season_discard_kg": keep.discard_kg,
    }
    if keep.now > 0:
        figures["now_share_pct"] = 100 * keep.now
    costs = {
        f"{name}_cost_per_cast": cost_each(form, ways[way])
        for name, way in (("keep", WAIT), ("equal", EQUAL), ("habit", HABIT))
    }
    return figures | costs


def finish(filled: Filled[ResolvedSeason], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return all ways as a table, best first; nothing where no share of new sand would keep the limit."""
    form = filled.form
    if form.limit <= form.heap.idle:
        return {}
    return {"season_ways": [_row(form, one, cost) for one, cost in ranked(form)]}


def _row(form: ResolvedSeason, one: Season, cost: float | None) -> dict[str, object]:
    above = one.above(form.limit)
    said = [
        f"{to_figures(one.sand_kg, 3)} kg of sand",
        f"{to_figures(one.clay_kg, 3)} kg of clay",
        f"{to_figures(one.discard_kg, 3)} kg of old sand out",
    ]
    said += [f"{to_figures(cost, 3)} a cast"] if cost is not None else []
    said += [f"heap of {to_figures(one.times * form.heap_kg, 3)} kg"] if one.times > 1 else []
    said += [f"dead fines {100 * one.dead[-1]:.2f} % at the end"]
    said += [f"above the limit after {above} of {form.casts:g} {noun('cast', form.casts)}"] if above else []
    row: dict[str, object] = {
        "way": NAMES[one.way],
        "said": ", ".join(said),
        "sand_kg": one.sand_kg,
        "clay_kg": one.clay_kg,
        "discard_kg": one.discard_kg,
        "end_pct": 100 * one.dead[-1],
        "casts_above": above,
    }
    return row if cost is None else row | {"each_cost": cost}


def through(form: ResolvedSeason, *ways: str) -> dict[str, Season]:
    """Return the seasons that go these ways; the limit must be above what new sand brings."""
    heap = form.heap
    return {way: season.season(heap, way, form.limit, int(form.casts), form.new_sand_share) for way in ways}


def cost_each(form: ResolvedSeason, one: Season) -> float | None:
    """Return what a cast costs on average, by the kilogram; None where a bag that is needed has no mass or price."""
    sand, clay = (form.sand_bag_kg, form.sand_bag_price), (form.clay_bag_kg, form.clay_bag_price)
    bought = used_cost(one.sand_kg, sand, one.clay_kg, clay)
    if bought is None:
        return None
    return (bought + one.discard_kg * form.waste_price + one.water_kg * form.water_price) / form.casts


def ranked(form: ResolvedSeason) -> list[tuple[Season, float | None]]:
    """Return all ways with their cost: those that keep the limit first, then by cost, or by the sand that they need where there is none."""
    found = [(one, cost_each(form, one)) for one in through(form, *WAYS).values()]
    return sorted(
        found, key=lambda row: (row[0].above(form.limit) > 0, row[1] if row[1] is not None else row[0].sand_kg)
    )


def _until_limit(form: ResolvedSeason, heap: Heap) -> int | None:
    """After how many casts today's habit is above the limit; None if it never is. Dead fines are counted from what new sand brings."""
    habit = Habit(
        burnt=heap.burnt,
        replaced=form.new_sand_share,
        kept=heap.kept + heap.idle / heap.clay if heap.clay > 0 else heap.kept,
        make_up=True,
    )
    return forecast.casts_until(habit, 100 * heap.clay, 100 * (form.limit - heap.idle), 100 * (heap.dead - heap.idle))


def needs(form: ResolvedSeason, figures: Figures) -> Needs:
    """A cost needs the bags and prices of what is used."""
    return dict.fromkeys(("keep_cost_per_cast", "equal_cost_per_cast", "habit_cost_per_cast"), PRICES)
