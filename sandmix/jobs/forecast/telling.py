"""The texts of *forecast*: headline, remarks, cautions, working and chart."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import DUST
from sandmix.asking.job import Axis, Chart, Computed, Lead, Limit, Line, Next, Telling
from sandmix.jobs.forecast.form import ResolvedForecast
from sandmix.jobs.shared.bought import UNTESTED, is_untested, to_buy
from sandmix.language.wording import noun
from sandmix.recipes import forecast
from sandmix.recipes.forecast import Habit

_POINTS = 50


def tell(computed: Computed[ResolvedForecast]) -> Telling:
    """Say how the clay changes."""
    form = computed.form
    live, dead = computed.numbers("clay_pct_dry")[-1], computed.numbers("dead_clay_pct_dry")[-1]
    within = computed.has("casts_until_limit") and computed.number("casts_until_limit") <= form.casts
    kept = (
        f"With live clay kept at {live:.2f} %,"
        if form.habit.make_up
        else f"Without make-up, live clay is {live:.2f} % and"
    )
    return Telling(
        headline=f"{kept} dead clay is {dead:.2f} % after {form.casts:g} {noun('cast', form.casts)} (both of the dry mass).",
        state=("at its limit", "care") if within else ("holds", "go"),
        lead=_lead(computed),
        remarks=tuple(_remarks(computed)),
        cautions=(DUST,),
        working=tuple(_working(computed)),
        charts=(_chart(computed),),
        next=_next(computed),
    )


def _lead(computed: Computed[ResolvedForecast]) -> Lead:
    limit = computed.form.dead_clay_limit_pct_dry
    if computed.has("casts_until_limit"):
        return Lead(
            word="casts_until_limit",
            label="Casts to the limit",
            text=computed.text("casts_until_limit"),
            then=f"then dead clay is at {limit:g} %",
        )
    if not computed.has("steady_dead_clay_pct_dry"):
        return Lead(word="dead_clay_pct_dry", label="Dead clay", text=computed.text("dead_clay_pct_dry"))
    return Lead(
        word="steady_dead_clay_pct_dry",
        label="Dead clay in the long run",
        text=computed.text("steady_dead_clay_pct_dry"),
        then=f"its limit of {limit:g} % is never reached",
    )


def _next(computed: Computed[ResolvedForecast]) -> tuple[Next, ...]:
    clay = {"clay_pct_dry": f"{computed.form.clay_pct_dry:.4g} %"}
    restore = Next(job="rebond", label="Restore the sand now", inputs=clay)
    sand_kg, clay_kg = (computed.number(word) if computed.has(word) else 0.0 for word in ("sand_kg", "clay_kg"))
    buy = to_buy(sand_kg, clay_kg)
    return (buy, restore) if buy else (restore,)


def _remarks(computed: Computed[ResolvedForecast]) -> Iterable[str]:
    form, habit, clay = computed.form, computed.form.habit, computed.form.clay_pct_dry
    limit = form.dead_clay_limit_pct_dry
    if computed.has("casts_until_limit") and (early := _earliest(computed)) < computed.number("casts_until_limit"):
        yield f"At the unfavourable end of all likely ranges, the limit is reached after {early} {noun('cast', early)}."
    if habit.make_up:
        yield from _made_up(form, habit, clay)
    elif habit.burnt > 0 or habit.replaced > 0:
        yield (
            f"To keep the live clay at {clay:g} %, add {forecast.make_up_pct(habit, clay):.3f} kg of live clay per 100 kg of dry "
            "heap after each cast."
        )
    if not computed.has("steady_dead_clay_pct_dry"):
        yield (
            "So little of the heap is replaced that dead clay grows without limit. The forecast holds for the first casts only."
        )
    if computed.has("clay_kg"):
        yield (
            f"For {form.casts:g} {noun('cast', form.casts)} you need {computed.text('sand_kg')} of sand and {computed.text('clay_kg')} "
            "of clay, both as bought."
        )
        if is_untested(computed.filled) and computed.number("clay_kg") > 0:
            yield UNTESTED
    yield (
        "Casts differ: test the clay and wash a sample now and then, and enter the new figures here. "
        f"The limit of {limit:g} % is from memory."
    )


def _made_up(form: ResolvedForecast, habit: Habit, clay: float) -> Iterable[str]:
    limit = form.dead_clay_limit_pct_dry
    needed = forecast.make_up_pct(habit, clay)
    if needed / form.activity_pct > habit.replaced * (1 + 1e-9):
        yield (
            f"The clay to add ({needed:.3f} kg live per 100 kg) is more than the {100 * habit.replaced:g} % of the heap that is "
            "replaced. The heap grows by the difference, and needs a little more clay than this."
        )
    _, ends = forecast.steady(habit, clay, form.dead_clay_pct_dry)
    if ends is not None and ends <= limit:
        return
    share = forecast.replaced_for_limit(habit, clay, limit)
    at_limit = Habit(burnt=habit.burnt, replaced=share, kept=habit.kept, make_up=True)
    text = (
        f"Replacing {100 * share:.2g} % of the heap at each cast would keep dead clay at {limit:g} % with {clay:g} % live clay. "
        f"That needs {forecast.make_up_pct(at_limit, clay):.3f} kg of live clay per 100 kg."
    )
    if 0 < habit.replaced < 1:
        text += (
            f" With {100 * habit.replaced:g} % replaced, as now, live clay can be at most "
            f"{forecast.clay_for_limit_pct_dry(habit, limit):.2g} %."
        )
    yield text


def _earliest(computed: Computed[ResolvedForecast]) -> int:
    """The casts to the limit with every uncertain word at the end of its band that reaches it sooner."""
    form, bands = computed.form, computed.filled.bands

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
    return int(computed.number("casts_until_limit")) if found is None else found


def _working(computed: Computed[ResolvedForecast]) -> Iterable[str]:
    form, habit, clay = computed.form, computed.form.habit, computed.form.clay_pct_dry
    b, n, f = habit.burnt, habit.replaced, habit.kept
    began = form.dead_clay_pct_dry
    yield (
        f"dead clay after the first cast = (1 − {n:g}) × ({began:g} + {f:g} × {b:g} × {clay:g}) = "
        f"{computed.numbers('dead_clay_pct_dry')[0]:.3f} %"
    )
    if habit.make_up:
        yield f"live clay to make up = {clay:g} × ({b:g} + {n:g} − {b:g} × {n:g}) = {computed.number('make_up_pct'):.4f} kg per 100 kg"
        if n > 0 and computed.has("steady_dead_clay_pct_dry"):
            yield (
                f"dead clay in the long run = (1 − {n:g}) × {f:g} × {b:g} × {clay:g} / {n:g} = "
                f"{computed.number('steady_dead_clay_pct_dry'):.3f} %"
            )
    else:
        yield (
            f"live clay after {form.casts:g} = {clay:g} × ((1 − {b:g}) × (1 − {n:g}))^{form.casts:g} = "
            f"{computed.numbers('clay_pct_dry')[-1]:.3f} %"
        )


def _chart(computed: Computed[ResolvedForecast]) -> Chart:
    form = computed.form
    live = (form.clay_pct_dry, *computed.numbers("clay_pct_dry"))
    dead = (form.dead_clay_pct_dry, *computed.numbers("dead_clay_pct_dry"))
    each = max(1, len(live) // _POINTS)
    kept = sorted({*range(0, len(live), each), len(live) - 1})
    return Chart(
        name="clay",
        title="Clay after each cast",
        sentence=(
            f"Live clay goes from {live[0]:.2f} to {live[-1]:.2f} % and dead clay from {dead[0]:.2f} to {dead[-1]:.2f} % "
            f"over {form.casts:g} {noun('cast', form.casts)}."
        ),
        x=Axis(label="Casts", unit=""),
        y=Axis(label="Share of the dry sand", unit="%"),
        series=(
            Line(label="live clay", points=tuple((float(at), round(live[at], 4)) for at in kept)),
            Line(label="dead clay", points=tuple((float(at), round(dead[at], 4)) for at in kept)),
        ),
        limits=(Limit(axis="y", at=form.dead_clay_limit_pct_dry, label="limit for dead clay"),),
    )
