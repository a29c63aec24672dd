"""The texts of *season*: headline, what to do, remarks, working and chart."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import DUST
from sandmix.asking.job import Axis, Chart, Computed, Lead, Limit, Line, Next, Telling, ToDo, WayOut
from sandmix.jobs.season.figures import NAMES, ranked, through
from sandmix.jobs.season.form import ResolvedSeason
from sandmix.jobs.shared.bought import UNTESTED, is_untested, to_buy
from sandmix.language.wording import noun, to_figures
from sandmix.recipes.season import DILUTE, DUMP, EQUAL, HABIT, WAIT

_POINTS = 50
_STORAGE = ("covered_sand", "mould_growth", "frozen_clay", "baked_clay")


def tell(computed: Computed[ResolvedSeason]) -> Telling:
    """Say what to replace and when, and what it costs."""
    if not computed.has("keep_casts"):
        return _out_of_reach(computed)
    above_now = computed.has("now_share_pct")
    habit = through(computed.form, HABIT)[HABIT].above(computed.form.limit)
    return Telling(
        headline=_headline(computed),
        state=("above its limit", "care")
        if above_now
        else ("change the habit", "care")
        if habit
        else ("within its limit", "go"),
        lead=_lead(computed),
        todo=tuple(_to_do(computed)),
        remarks=tuple(_remarks(computed)),
        cautions=(DUST,),
        working=tuple(_working(computed)),
        charts=(_chart(computed),),
        next=_next(computed),
        sources=_STORAGE,
    )


def _out_of_reach(computed: Computed[ResolvedSeason]) -> Telling:
    form = computed.form
    said = (
        f"New sand with this clay already holds {100 * form.heap.idle:.2f} % dead fines of the dry mass, and the limit is "
        f"{form.dead_fines_limit_pct_dry:g} %: no amount of new sand gets below that."
    )
    return Telling(
        headline=said,
        state=("out of reach", "care"),
        lead=Lead(word="keep_casts", label="Limit", text="out of reach", then="with this clay"),
        todo=(ToDo(text="Use a clay with a higher live share, or test the one you have"),),
        remarks=(WayOut("The part of a clay product that is not live counts as dead fines from the first day."),),
        next=(Next(job="estimate", label="How live is the clay?"), Next(job="choose", label="Which clay?")),
    )


def _headline(computed: Computed[ResolvedSeason]) -> str:
    form, casts = computed.form, computed.form.casts
    limit = f"{form.dead_fines_limit_pct_dry:g} % dead fines of the dry mass"
    waits = computed.number("keep_casts")
    now = f"Replace {computed.text('now_share_pct')} of the heap now. " if computed.has("now_share_pct") else ""
    if waits >= casts:
        whole = "the next cast stays" if casts == 1 else f"all {casts:g} casts stay"
        then = f"{'Then keep' if now else 'Keep'} the heap: {whole} within {limit} with only the losses replaced."
    elif waits > 0:
        then = (
            f"{'Then keep' if now else 'Keep'} the heap for {computed.text('keep_casts')} {noun('cast', waits)}, and after that replace "
            f"{computed.text('then_share_pct')} of it at each cast, to stay within {limit}."
        )
    else:
        then = f"Replace {computed.text('then_share_pct')} of the heap at each cast, to stay within {limit}."
    return f"{now}{then}"


def _lead(computed: Computed[ResolvedSeason]) -> Lead:
    if computed.has("now_share_pct"):
        return Lead(word="now_share_pct", label="Replace now", text=computed.text("now_share_pct"), then="of the heap")
    waits = computed.number("keep_casts")
    if waits >= computed.form.casts:
        return Lead(
            word="keep_casts",
            label="Keep it for",
            text=computed.text("keep_casts"),
            then=f"{noun('cast', computed.form.casts)}: the whole season",
        )
    return Lead(
        word="equal_share_pct",
        label="At each cast, at least",
        text=computed.text("equal_share_pct"),
        then=f"of the heap, or only the losses for {computed.text('keep_casts')} {noun('cast', waits)} and then {computed.text('then_share_pct')}",
    )


def _to_do(computed: Computed[ResolvedSeason]) -> Iterable[ToDo]:
    form = computed.form
    if computed.has("now_share_pct"):
        kg = form.heap_kg * computed.number("now_share_pct") / 100
        yield ToDo(text="Take out of the heap now, and replace by new sand and clay", amount=f"{to_figures(kg, 2)} kg")
    if computed.is_above_zero("season_sand_kg"):
        yield ToDo(
            text=f"Sand to buy for {form.casts:g} {noun('cast', form.casts)}, as bought",
            amount=computed.text("season_sand_kg"),
        )
    if computed.is_above_zero("season_clay_kg"):
        yield ToDo(
            text=f"Clay to buy for {form.casts:g} {noun('cast', form.casts)}, as bought",
            amount=computed.text("season_clay_kg"),
        )
    yield ToDo(text="Wash a sample for dead fines every few casts, and enter what it gives here")
    yield ToDo(
        text=(
            "For the winter: cover the sand. If it holds flour, dextrin or wood flour, dry it first at 105 to 115 °C at most. After frost, "
            "thaw it, mix it again and test it"
        )
    )


def _remarks(computed: Computed[ResolvedSeason]) -> Iterable[str]:
    form = computed.form
    rows = ranked(form)
    best, cost = rows[0]
    keep = next(row for row in rows if row[0].way == WAIT)
    habit = next(row for row in rows if row[0].way == HABIT)
    above = habit[0].above(form.limit)
    if above:
        yield WayOut(
            f"Today's habit of {100 * form.new_sand_share:g} % a cast is above the limit after {above} of {form.casts:g} {noun('cast', form.casts)}."
        )
    elif habit[0].discard_kg > keep[0].discard_kg * 1.005:
        saved = habit[0].discard_kg - keep[0].discard_kg
        money = (
            f" and {to_figures((habit[1] - keep[1]) * form.casts, 2)} in money"
            if habit[1] is not None and keep[1] is not None
            else ""
        )
        yield f"That is {to_figures(saved, 2)} kg less old sand to throw away in the season than today's habit{money}."
    if best.way == DILUTE and cost is not None and keep[1] is not None and cost < keep[1] * 0.995:
        yield (
            f"By your prices it costs less to {NAMES[DILUTE]}, to a heap of {to_figures(best.times * form.heap_kg, 3)} kg, if you have the space: "
            f"{to_figures(cost, 3)} instead of {to_figures(keep[1], 3)} a cast."
        )
    if keep[0].dead[-1] > habit[0].dead[-1] + 0.005:
        yield (
            f"The season then ends with {100 * keep[0].dead[-1]:.1f} % dead fines instead of {100 * habit[0].dead[-1]:.1f} %. From there each cast "
            f"needs {computed.text('then_share_pct')} of the heap."
        )
    yield (
        "How wet bonded sand may be stored for months is not published. Covered damp sand keeps for several days (read). Mould grows on "
        "flour and wood flour in damp sand, not on clean sand and clay."
    )
    yield f"The limit of {form.dead_fines_limit_pct_dry:g} % is from memory. Casts differ: a wash test now and then shows more than this calculation."
    if is_untested(computed.filled):
        yield UNTESTED


def _next(computed: Computed[ResolvedSeason]) -> tuple[Next, ...]:
    form = computed.form
    restore = Next(
        job="rebond",
        label="Restore the sand now",
        inputs={"clay_pct_dry": f"{form.clay_pct_dry:.4g} %"},
        foremost=computed.has("now_share_pct"),
    )
    buy = to_buy(computed.number("season_sand_kg"), computed.number("season_clay_kg"))
    return (buy, restore) if buy else (restore,)


def _working(computed: Computed[ResolvedSeason]) -> Iterable[str]:
    form, heap = computed.form, computed.form.heap
    yield (
        f"a cast brings {heap.burnt:g} × {form.clay_pct_dry:g} × ({heap.kept:g} + {heap.idle / heap.clay if heap.clay else 0:.3g}) = "
        f"{100 * heap.grows:.3f} % dead fines"
    )
    if heap.idle > 0:
        yield f"new sand already holds {100 * heap.idle:.3f} % with its clay; dead fines are counted from there"
    yield (
        f"at the limit each cast needs {100 * heap.grows:.3f} / ({100 * heap.grows:.3f} + {100 * (form.limit - heap.idle):.3f}) of the heap, or the "
        f"{100 * heap.lost:g} % that is lost in any case if that is more"
    )
    yield f"equal share: the one with which dead fines are at their limit after cast {form.casts:g}"


def _chart(computed: Computed[ResolvedSeason]) -> Chart:
    form = computed.form
    casts = int(form.casts)
    each = max(1, casts // _POINTS)
    at = sorted({*range(0, casts, each), casts})
    ways = through(form, WAIT, EQUAL, DUMP, HABIT)
    ends = {way: 100 * one.dead[-1] for way, one in ways.items()}
    lines: dict[tuple[tuple[float, float], ...], str] = {}
    for way, one in ways.items():
        lines.setdefault(tuple((float(cast), round(100 * one.dead[cast], 4)) for cast in at), way)
    once = " Ways with the same figures share one line." if len(lines) < len(ways) else ""
    return Chart(
        name="dead_fines",
        title="Dead fines after each cast",
        sentence=(
            f"After {form.casts:g} {noun('cast', form.casts)} dead fines are at {ends[WAIT]:.2f} % if you {NAMES[WAIT]}, at {ends[EQUAL]:.2f} % "
            f"with the least equal share, and at {ends[HABIT]:.2f} % as today.{once}"
        ),
        x=Axis(label="Casts", unit=""),
        y=Axis(label="Dead fines, of the dry mass", unit="%"),
        series=tuple(Line(label=NAMES[way], points=points) for points, way in lines.items()),
        limits=(Limit(axis="y", at=form.dead_fines_limit_pct_dry, label="limit for dead fines"),),
    )
