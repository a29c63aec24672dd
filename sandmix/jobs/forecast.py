"""The job *forecast*: where a habit takes the clay of a heap, cast after cast, and what a season of it asks for."""

from __future__ import annotations

import itertools
from collections.abc import Iterable

from .. import forecast
from ..cautions import DUST
from ..forecast import Habit
from ..forms.bought import is_untested
from ..forms.forecast import Forecast, settle
from ..job import Axis, Chart, Figures, Job, Lead, Limit, Line, Needs, Next, Telling, Told
from .doses import used_cost

_POINTS = 50
_MOST_TO_BUY_KG = 5000.0


def run(form: Forecast) -> Figures:
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


def _clay(form: Forecast) -> float:
    assert form.clay_pct_dry is not None
    return form.clay_pct_dry


def _season(form: Forecast, heap_kg: float) -> Figures:
    """Sand and clay as bought for all the casts; what the clay product fills of the share replaced is not bought as sand."""
    assert form.target_moisture_pct_wet is not None
    dry_kg = heap_kg * (1 - form.target_moisture_pct_wet / 100) * form.casts
    materials = form.as_bought(form.activity_pct)
    live = forecast.make_up_pct(form.habit, _clay(form)) / 100 if form.habit.make_up else 0.0
    product_kg = dry_kg * live / materials.clay_activity
    sand_kg = max(0.0, dry_kg * form.new_sand_share - product_kg) / (1 - materials.sand_moisture)
    clay_kg = product_kg / (1 - materials.clay_moisture)
    sand_bag, clay_bag = (form.sand_bag_kg, form.sand_bag_price), (form.clay_bag_kg, form.clay_bag_price)
    return {"sand_kg": sand_kg, "clay_kg": clay_kg, "cost": used_cost(sand_kg, sand_bag, clay_kg, clay_bag)}


def needs(form: Forecast, figures: Figures) -> Needs:
    """What a season takes is of one heap; its cost takes the bags and prices of what is used."""
    priced = [
        f"{kind}_{word}" for kind in ("sand", "clay") if figures.get(f"{kind}_kg") for word in ("bag_kg", "bag_price")
    ]
    season = {"sand_kg": ("heap_kg",), "clay_kg": ("heap_kg",)}
    return season | ({"cost": tuple(priced)} if form.heap_kg is not None else {"cost": ("heap_kg",)})


def tell(told: Told[Forecast]) -> Telling:
    """Say where the habit leads."""
    form = told.form
    live, dead = told.numbers("clay_pct_dry")[-1], told.numbers("dead_clay_pct_dry")[-1]
    within = told.has("casts_until_limit") and told.number("casts_until_limit") <= form.casts
    after = f"after {form.casts:g} {_casts(form.casts)}"
    if form.habit.make_up:
        headline = f"Kept at {live:.2f} % live clay, the sand holds {dead:.2f} % dead clay {after}."
    else:
        headline = f"Left to run down, live clay is {live:.2f} % and dead clay {dead:.2f} % {after}."
    return Telling(
        headline=headline,
        state=("at its limit", "care") if within else ("holds", "go"),
        lead=_lead(told),
        remarks=tuple(_remarks(told)),
        cautions=(DUST,),
        working=tuple(_working(told)),
        charts=(_chart(told),),
        next=_next(told),
    )


def _casts(count: float) -> str:
    return "cast" if count == 1 else "casts"


def _lead(told: Told[Forecast]) -> Lead:
    limit = told.form.dead_clay_limit_pct_dry
    if told.has("casts_until_limit"):
        return Lead(
            word="casts_until_limit",
            label="Casts to the limit",
            text=told.text("casts_until_limit"),
            then=f"then dead clay is at {limit:g} %",
        )
    if not told.has("steady_dead_clay_pct_dry"):
        return Lead(word="dead_clay_pct_dry", label="Dead clay", text=told.text("dead_clay_pct_dry"))
    return Lead(
        word="steady_dead_clay_pct_dry",
        label="Dead clay in the end",
        text=told.text("steady_dead_clay_pct_dry"),
        then=f"its limit of {limit:g} % is never reached",
    )


def _next(told: Told[Forecast]) -> tuple[Next, ...]:
    bought = [told.number(word) for word in ("sand_kg", "clay_kg") if told.has(word)]
    if not any(bought) or max(bought) > _MOST_TO_BUY_KG:
        return ()
    wanted = told.carried(sand_kg="sand_kg", clay_kg="clay_kg")
    return (Next(job="shopping", label="How many bags is that?", inputs=wanted),)


def _remarks(told: Told[Forecast]) -> Iterable[str]:
    form, habit, clay = told.form, told.form.habit, _clay(told.form)
    limit = form.dead_clay_limit_pct_dry
    if told.has("casts_until_limit") and (early := _earliest(told)) < told.number("casts_until_limit"):
        yield f"With what is least sure at its worst the limit is reached after {early} {_casts(early)} already."
    if habit.make_up:
        yield from _made_up(form, habit, clay)
    elif habit.burnt > 0 or habit.replaced > 0:
        yield (
            f"To hold the live clay at {clay:g} %, each cast takes {forecast.make_up_pct(habit, clay):.3f} kg of live "
            "clay per 100 kg of dry heap."
        )
    if not told.has("steady_dead_clay_pct_dry"):
        yield (
            "With so little replaced dead clay grows until there is no room for it: there is no figure at which it "
            "stays, and what is foretold holds for the first casts only."
        )
    if told.has("clay_kg"):
        yield (
            f"Over {form.casts:g} {_casts(form.casts)}: {told.text('sand_kg')} of sand and {told.text('clay_kg')} of "
            "clay, both as bought."
        )
        if is_untested(told.filled) and told.number("clay_kg") > 0:
            yield "The live share of the granules is not known: they are counted as 85 % live, and the band reaches to 50."
    yield (
        "Casts are never all alike: test clay and wash now and then, and put the figures found in place of these. "
        f"The limit of {limit:g} % is trade memory."
    )


def _made_up(form: Forecast, habit: Habit, clay: float) -> Iterable[str]:
    limit = form.dead_clay_limit_pct_dry
    needed = forecast.make_up_pct(habit, clay)
    if needed / form.activity_pct > habit.replaced * (1 + 1e-9):
        yield (
            f"The clay to make up, {needed:.3f} kg live per 100 kg, is more than the {100 * habit.replaced:g} % that is "
            "replaced: the heap grows by the rest, and a little more than this is what it takes."
        )
    _, ends = forecast.steady(habit, clay, form.dead_clay_pct_dry)
    if ends is not None and ends <= limit:
        return
    share = forecast.replaced_for_limit(habit, clay, limit)
    told_at = Habit(burnt=habit.burnt, replaced=share, kept=habit.kept, make_up=True)
    text = (
        f"Replacing {100 * share:.2g} % of the heap each cast would hold dead clay at {limit:g} % with {clay:g} % live "
        f"clay, for {forecast.make_up_pct(told_at, clay):.3f} kg of live clay per 100 kg."
    )
    if 0 < habit.replaced < 1:
        text += (
            f" With {100 * habit.replaced:g} % replaced, as now, live clay of at most "
            f"{forecast.clay_for_limit_pct_dry(habit, limit):.2g} % would."
        )
    yield text


def _earliest(told: Told[Forecast]) -> int:
    """The casts to the limit with every doubtful word at the end of its band that brings it sooner."""
    form, bands = told.form, told.filled.bands

    def end(word: str, at: int) -> float:
        value = bands[word][at] if word in bands else getattr(form, word)
        assert isinstance(value, float)
        return value

    worst = Habit(
        burnt=end("clay_burnt_share", 1),
        replaced=end("new_sand_share", 0),
        kept=end("burnt_kept_share", 1),
        make_up=form.habit.make_up,
    )
    found = forecast.casts_until(
        worst, end("clay_pct_dry", 1), form.dead_clay_limit_pct_dry, end("dead_clay_pct_dry", 1)
    )
    return int(told.number("casts_until_limit")) if found is None else found


def _working(told: Told[Forecast]) -> Iterable[str]:
    form, habit, clay = told.form, told.form.habit, _clay(told.form)
    b, n, f = habit.burnt, habit.replaced, habit.kept
    began = form.dead_clay_pct_dry
    yield (
        f"dead clay after the first cast = (1 − {n:g}) × ({began:g} + {f:g} × {b:g} × {clay:g}) = "
        f"{told.numbers('dead_clay_pct_dry')[0]:.3f} %"
    )
    if habit.make_up:
        yield f"make-up = {clay:g} × ({b:g} + {n:g} − {b:g} × {n:g}) = {told.number('make_up_pct'):.4f} kg per 100 kg"
        if n > 0 and told.has("steady_dead_clay_pct_dry"):
            yield (
                f"dead clay in the end = (1 − {n:g}) × {f:g} × {b:g} × {clay:g} / {n:g} = "
                f"{told.number('steady_dead_clay_pct_dry'):.3f} %"
            )
    else:
        yield (
            f"live clay after {form.casts:g} = {clay:g} × ((1 − {b:g}) × (1 − {n:g}))^{form.casts:g} = "
            f"{told.numbers('clay_pct_dry')[-1]:.3f} %"
        )


def _chart(told: Told[Forecast]) -> Chart:
    form = told.form
    live = (_clay(form), *told.numbers("clay_pct_dry"))
    dead = (form.dead_clay_pct_dry, *told.numbers("dead_clay_pct_dry"))
    each = max(1, len(live) // _POINTS)
    kept = sorted({*range(0, len(live), each), len(live) - 1})
    return Chart(
        name="clay",
        title="Clay, cast after cast",
        sentence=(
            f"Live clay goes from {live[0]:.2f} to {live[-1]:.2f} % and dead clay from {dead[0]:.2f} to {dead[-1]:.2f} % "
            f"over {form.casts:g} {_casts(form.casts)}."
        ),
        x=Axis(label="Casts", unit=""),
        y=Axis(label="Share of the dry sand", unit="%"),
        series=(
            Line(label="live clay", points=tuple((float(at), round(live[at], 4)) for at in kept)),
            Line(label="dead clay", points=tuple((float(at), round(dead[at], 4)) for at in kept)),
        ),
        limits=(Limit(axis="y", at=form.dead_clay_limit_pct_dry, label="limit of dead clay"),),
    )


JOB = Job(
    name="forecast",
    short="Look ahead",
    title="Where does my habit take the heap?",
    form=Forecast,
    settle=settle,
    run=run,
    tell=tell,
    answers=(
        "casts_until_limit",
        "clay_pct_dry",
        "dead_clay_pct_dry",
        "steady_clay_pct_dry",
        "steady_dead_clay_pct_dry",
        "make_up_pct",
        "sand_kg",
        "clay_kg",
        "cost",
    ),
    needs=needs,
    example={
        "clay_pct_dry": "8 %",
        "clay_burnt_share": "0.02",
        "new_sand_share": "0.03",
        "make_up": "yes",
        "casts": "24",
        "heap_kg": "40 kg",
    },
    story="A heap of 40 kg, two castings a week for a season, with clay put back after each.",
)
