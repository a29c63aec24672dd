"""The texts of *heap*: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from sandmix.asking.cautions import DUST
from sandmix.asking.job import Computed, Lead, Next, Telling, ToDo
from sandmix.book import logged_readings
from sandmix.book.book import Book
from sandmix.book.heap import HeapState
from sandmix.book.standing import entries
from sandmix.drawings import composition_bar
from sandmix.drying import heap_water
from sandmix.entries.reading_entries import OWN
from sandmix.jobs.heap.figures import metal_of, stopped_by, wetness
from sandmix.jobs.heap.form import ResolvedHeap
from sandmix.jobs.heap.past import DEAD_CLAY_LIMIT_PCT, timeline
from sandmix.jobs.heap.season import charts
from sandmix.jobs.shared import wet_sand
from sandmix.language.wording import number_to
from sandmix.lessons import learned
from sandmix.materials.metals import METALS
from sandmix.materials.sand import PARTS
from sandmix.maths import statistics
from sandmix.maths.uncertainty import wider_side
from sandmix.recipes import temper, too_wet
from sandmix.vocabulary import quantity

TEST_IT = "test it"
"""The word where no test is there, or none that still counts."""

STALE_DAYS = 30.0
LEAST_SAID_PCT = 0.05
"""Less than this is 0.0 points of moisture as printed."""


def tell(computed: Computed[ResolvedHeap]) -> Telling:
    """Say what the heap is and what it needs."""
    book, state = computed.form.book.book, computed.form.book.state
    return Telling(
        headline=_headline(computed, state),
        state=_state(computed, state),
        lead=Lead(
            word="heap_kg",
            label=book.name or "The heap",
            text=computed.text("heap_kg"),
            then=computed.within("heap_kg"),
        ),
        todo=tuple(_to_do(computed, state)),
        remarks=tuple(_remarks(computed, book, state)),
        cautions=(*wet_sand.cautions(wetness(computed.form)), DUST),
        working=(_working(book, state),),
        charts=tuple(charts(entries(book.events), state, computed.form.now_s)),
        drawings=_drawings(state),
        next=_next(computed, state),
        timeline=tuple(timeline(book)),
        kept=tuple(_last_readings(computed.form.book.logged)),
    )


def _last_readings(
    logged: Mapping[str, Sequence[logged_readings.LoggedReading]],
) -> Iterable[Mapping[str, object]]:
    """The last logged reading of each word, with its time and its event."""
    for word, several in logged.items():
        last, declared = several[-1], quantity(word)
        yield {
            "word": word,
            "label": declared.label,
            "value": last.value,
            "doubt": list(last.band),
            "text": declared.show_to(last.value, last.half_width),
            "at": last.at,
            "event": last.event,
            "readings": len(several),
            "from": learned.from_readings(len(several)) if word in OWN else "",
        }


def _headline(computed: Computed[ResolvedHeap], state: HeapState) -> str:
    if state.sand.wet_kg <= 0:
        what = "By its book the heap is empty." if computed.form.book.book.events else "The book is empty."
        return f"{what} Start with the sand as it is now, or with a new mix."
    casts = f"after {state.casts} {'cast' if state.casts == 1 else 'casts'}" if state.casts else "before its first cast"
    return wet_sand.headline(
        wetness(computed.form),
        f"{computed.text('heap_kg')} at {computed.text('moisture_pct_wet')} water (of the wet mass) and "
        f"{computed.text('clay_pct_dry')} live clay (of the dry mass), {casts}.",
    )


def _state(computed: Computed[ResolvedHeap], state: HeapState) -> tuple[str, str]:
    """One word: begin, test it, or the verdict on the moisture for the metal that is poured."""
    if state.sand.wet_kg <= 0:
        return "begin", "plain"
    wet = wetness(computed.form)
    if state.tested_at_s is None or _is_stale(computed) or (wet.has_limits and not _decides(computed, state)):
        return wet_sand.state(wet, TEST_IT, "care")
    metal = metal_of(state)
    if not wet.has_limits:
        return "by its own tests", "care"
    verdict = temper.verdict(
        computed.number("moisture_pct_wet"), metal.target_moisture_pct_wet, metal.red_moisture_pct_wet
    )
    return wet_sand.state(wet, *(("ready", "go") if verdict == "go" else (verdict, "care")))


def _is_stale(computed: Computed[ResolvedHeap]) -> bool:
    """Whether the last test is so old that clay and fines are no longer known, whatever the water does."""
    age = computed.figures.get("last_test_age_days")
    return isinstance(age, float) and age > STALE_DAYS


def _decides(computed: Computed[ResolvedHeap], state: HeapState) -> bool:
    """Whether the moisture is known well enough to go by its word."""
    metal = metal_of(state)
    return temper.decides(
        computed.number("moisture_pct_wet"),
        computed.half_width("moisture_pct_wet"),
        metal.target_moisture_pct_wet,
        metal.red_moisture_pct_wet,
    )


def _as_a_test(computed: Computed[ResolvedHeap]) -> bool:
    """Whether the moisture of the book is known about as well as a test would give it."""
    return computed.half_width("moisture_pct_wet") <= temper.SURE_PCT


def _to_do(computed: Computed[ResolvedHeap], state: HeapState) -> Iterable[ToDo]:
    """What the heap's word leads to: begin it, dry it, test it, or add water."""
    (word, _), wet = _state(computed, state), wetness(computed.form)
    if wet.tone == too_wet.STOP:
        yield from wet_sand.to_do(wet)
        return
    said = {
        "begin": "Start with the sand as it is now, or mix new sand",
        TEST_IT: "Dry a sample, and enter the test",
        "temper": "Add water by the moisture of the book, or test it first"
        if _as_a_test(computed)
        else "Test the moisture, and add water by the test",
        "dry": "Spread the sand and dry it, then test it again",
        "by its own tests": "Go by the tests of this kind of sand before you pour",
    }
    if word in said:
        yield ToDo(text=said[word])


def _remarks(computed: Computed[ResolvedHeap], book: Book, state: HeapState) -> Iterable[str]:
    if state.sand.wet_kg <= 0:
        return
    yield from wet_sand.remarks(wetness(computed.form))
    if stopped_by(computed.form):
        yield (
            "That is the last moisture test. The book adds up to less water now, but only a later moisture test lifts this stop."
        )
    yield from _aging(computed, state)
    if state.tested_at_s is None:
        yield "The heap was never tested. These figures only add up what went in and what was computed as lost."
    elif _is_stale(computed):
        yield f"The last test is {computed.number('last_test_age_days'):.0f} days old. Dry a sample before you mould."
    elif computed.has("last_test_age_days") and computed.number("last_test_age_days") < 0:
        yield "The last test is in the future. Check the clock, or the date of the test."
    undone = book.undone()
    standing = (event for event in book.events if event["kind"] == "measured" and event["id"] not in undone)
    if not any("clay_pct_dry" in event for event in standing):
        yield "The live clay was never tested. Its figure only adds up what went in and what the casts burnt."
    if computed.number("dead_clay_pct_dry") > DEAD_CLAY_LIMIT_PCT:
        yield (
            f"Dead clay is above {DEAD_CLAY_LIMIT_PCT:g} % of the dry mass (limit from memory). It takes up water and does not "
            "bond. Discard some sand and add new sand."
        )
    if book.resting:
        yield (
            "The heap was put away. To start again: break the lumps and riddle it, weigh it, and dry a sample. Then add half of "
            "the missing water, mull, rest it for a night, test, and add the rest. Old sand takes up water more slowly than new "
            "sand (common practice, no source)."
        )
    yield from _own(computed)
    if count := len(state.own_losses):
        casts = "weighed cast" if count == 1 else f"{count} weighed casts"
        yield f"The sand that a cast loses is a share of the sand in its mould, learned from your own {casts}."


def _aging(computed: Computed[ResolvedHeap], state: HeapState) -> Iterable[str]:
    """What the days have done: the loss that the book's own tests lead to expect, and from when on they make the moisture more uncertain."""
    known = replace(state, aging_pct2=0.0).bands().get("moisture_pct_wet", (0.0, 0.0))
    before, now = wider_side(known, state.sand.moisture_pct_wet), computed.half_width("moisture_pct_wet")
    own = heap_water.seen(state.moves)
    by = f"as your own {len(state.moves)} tests show" if own else "own rule"
    if own and state.last_lost_pct >= LEAST_SAID_PCT:
        yield f"Since its water was last known, the heap has probably lost {state.last_lost_pct:.1f} points of moisture, {by}."
    if state.aging_pct2 > before**2:
        test = "" if _decides(computed, state) else " Dry a sample before you add water."
        yield (
            f"The water moves on days that nobody records: since it was last known, the ± of the moisture has grown from {before:.1f} to "
            f"{now:.1f} points ({by}).{test}"
        )


def _own(computed: Computed[ResolvedHeap]) -> Iterable[str]:
    """How the last compactability compares with the earlier ones, and the person's own figures."""
    logged = computed.form.book.logged
    history = logged_readings.compactability(logged)
    if history:
        last, before = f"The last compactability, {history.last:g} %,", f"your {history.count} readings before it"
        if history.is_usual:
            yield f"{last} is as usual: {before} average {history.mean:.0f} %, ± {history.within:.0f} for one more."
        else:
            yield (
                f"{last} is unusual for you: {before} average {history.mean:.0f} %, and one more should be within "
                f"{history.within:.0f} points of that (own rule, at least {logged_readings.LEAST_APART_PCT:g}). Repeat the test, "
                "then dry a sample before you mould."
            )
    for word, whose, unit in (
        ("rammed_density_kg_l", "Your own rammed density", ""),
        ("strokes_per_100ml", "Your own spray bottle", " strokes per 100 mL"),
    ):
        if word in logged:
            count = min(statistics.MOST_READINGS, len(logged[word]))
            times = "once" if count == 1 else f"{count} times, the weighted mean"
            general = ""
            if word == learned.DENSITY:
                general = f"; {100 * learned.density(logged[word]).prior_share:.0f} % of it is still the general figure"
            yield f"{whose}: {computed.text(word)}{unit}, measured {times}{general}."


def _working(book: Book, state: HeapState) -> str:
    parts = ", ".join(f"{PARTS[part]} {number_to(kg, 3)} kg" for part, kg in state.total.by_part().items())
    return f"{len(book.events)} entries, added up: {parts}"


def _drawings(state: HeapState) -> dict[str, str]:
    if state.sand.dry_kg <= 0:
        return {}
    return {"now": composition_bar.draw(state.sand, "heap-now", "The heap, from its book")}


def _next(computed: Computed[ResolvedHeap], state: HeapState) -> tuple[Next, ...]:
    if state.sand.wet_kg <= 0:
        return (Next(job="mix", label="Mix new sand"),)
    metal = {} if metal_of(state) is METALS["aluminium"] else {"metal": str(state.metal)}
    kind = {} if computed.form.sand_kind == too_wet.WASHED else {"sand_kind": computed.form.sand_kind}
    shares = {word: word for word in ("heap_kg", "moisture_pct_wet", "clay_pct_dry", "dead_fines_pct_dry")}
    word, _ = _state(computed, state)
    by_book = (
        computed.carried_as_sure(moisture_pct_wet="moisture_pct_wet")
        if word == "temper" and _as_a_test(computed)
        else {}
    )
    to_temper = computed.carried(heap_kg="heap_kg") | by_book | metal
    links = (
        Next(
            job="temper",
            label="Add the water that is missing" if by_book else "Test and temper the sand",
            inputs=to_temper,
        ),
        Next(job="rebond", label="Restore the sand", inputs=computed.carried(**shares)),
    )
    if _state(computed, state)[1] == "stop":
        return links
    tested = computed.carried_as_sure(moisture_pct_wet="mould_moisture_pct_wet")
    return (*links, Next(job="pour", label="Pour on it", inputs=tested | metal | kind))
