"""What *heap* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from sandmix.asking.cautions import DUST, WET_MOULD
from sandmix.asking.job import Computed, Lead, Next, Telling
from sandmix.book import logged_readings
from sandmix.book.book import Book
from sandmix.book.heap import State
from sandmix.drawings import composition_bar
from sandmix.jobs.heap.form import HeapForm
from sandmix.jobs.heap.past import DEAD_CLAY_LIMIT_PCT, charts, timeline
from sandmix.language.words import Quantity
from sandmix.materials.metals import METALS, Metal
from sandmix.materials.sand import PARTS
from sandmix.maths import statistics
from sandmix.recipes import temper
from sandmix.vocabulary import WORDS

STALE_DAYS = 30.0


def tell(computed: Computed[HeapForm]) -> Telling:
    """Say what the heap is and what it wants."""
    opened, state = computed.form.opened.book, computed.form.opened.state
    return Telling(
        headline=_headline(computed, state),
        state=_state(computed, state),
        lead=Lead(
            word="heap_kg",
            label=opened.name or "The heap",
            text=computed.text("heap_kg"),
            then=computed.within("heap_kg"),
        ),
        remarks=tuple(_remarks(computed, opened, state)),
        cautions=(*((WET_MOULD,) if _is_past(computed, state, "amber_moisture_pct_wet") else ()), DUST),
        working=tuple(_working(opened)),
        charts=tuple(charts(opened)),
        drawings=_strip(state),
        next=_next(computed, state),
        timeline=tuple(timeline(opened)),
        kept=tuple(_kept(computed.form.opened.kept)),
    )


def _kept(found: Mapping[str, Sequence[logged_readings.LoggedReading]]) -> Iterable[Mapping[str, object]]:
    """The last reading of each word beside the sum, with its moment and its event."""
    for word, several in found.items():
        last, declared = several[-1], WORDS[word]
        assert isinstance(declared, Quantity)
        yield {
            "word": word,
            "label": declared.label,
            "value": last.value,
            "doubt": list(last.band),
            "text": declared.show_to(last.value, last.half_width),
            "at": last.at,
            "event": last.event,
            "readings": len(several),
        }


def _metal_of(state: State) -> Metal:
    """What was poured last, or is to be from now on."""
    return METALS.get(str(state.metal), METALS["aluminium"])


def _is_past(computed: Computed[HeapForm], state: State, limit: str) -> bool:
    return state.sand.wet_kg > 0 and computed.number("moisture_pct_wet") > float(getattr(_metal_of(state), limit))


def _headline(computed: Computed[HeapForm], state: State) -> str:
    if state.sand.wet_kg <= 0:
        return "Nothing is in the book yet: begin with the sand as it is now, or with what was mixed."
    casts = f"after {state.casts} {'cast' if state.casts == 1 else 'casts'}" if state.casts else "before its first cast"
    return (
        f"{computed.text('heap_kg')} at {computed.text('moisture_pct_wet')} water and {computed.text('clay_pct_dry')} live clay, "
        f"{casts}."
        + (
            " Do not pour on it: it is past the stop limit of its metal."
            if _is_past(computed, state, "red_moisture_pct_wet")
            else ""
        )
    )


def _state(computed: Computed[HeapForm], state: State) -> tuple[str, str]:
    """One word: begin, test it, or what the moisture says for the metal that is poured."""
    if state.sand.wet_kg <= 0:
        return "begin", "plain"
    age = computed.figures.get("last_test_age_days")
    if state.tested_at_s is None or (isinstance(age, float) and age > STALE_DAYS):
        return "test it", "care"
    metal = _metal_of(state)
    verdict = temper.verdict(
        computed.number("moisture_pct_wet"), metal.target_moisture_pct_wet, metal.red_moisture_pct_wet
    )
    return ("ready", "go") if verdict == "go" else (verdict, "stop" if verdict == "stop" else "care")


def _remarks(computed: Computed[HeapForm], opened: Book, state: State) -> Iterable[str]:
    if state.sand.wet_kg <= 0:
        return
    if state.tested_at_s is None:
        yield "It was never tested: what the book says is only what was put in and what was reckoned to be lost."
    elif computed.has("last_test_age_days") and computed.number("last_test_age_days") > STALE_DAYS:
        yield f"The last test is {computed.number('last_test_age_days'):.0f} days old. Dry a sample before you mould."
    elif computed.has("last_test_age_days") and computed.number("last_test_age_days") < 0:
        yield "The last test lies ahead of now: look at the clock, or at the date of the test."
    undone = opened.undone()
    standing = (event for event in opened.events if event["kind"] == "measured" and event["id"] not in undone)
    if not any("clay_pct_dry" in event for event in standing):
        yield "Its live clay was never tested: the book only knows what was put in and what the casts took."
    if computed.number("dead_clay_pct_dry") > DEAD_CLAY_LIMIT_PCT:
        yield (
            f"Dead clay is above {DEAD_CLAY_LIMIT_PCT:g} % (a limit from memory): it drinks water and does not bond. "
            "Discard some sand and add new."
        )
    if opened.resting:
        yield (
            "It was put away. To begin again: break the lumps and riddle it, weigh it, dry a sample; then half of "
            "the water it lacks, mull, rest "
            "a night, test, and the rest of it. Old sand takes longer to take up water than new (common practice, "
            "no source)."
        )
    yield from _own(computed)
    if len(state.own_losses) >= 3:
        yield f"What a cast loses is taken from your own {len(state.own_losses)} weighed casts."


def _own(computed: Computed[HeapForm]) -> Iterable[str]:
    """What was read beside the sum, and what is the person's own."""
    found = computed.form.opened.kept
    history = logged_readings.compactability(found)
    if history and not history.is_ordinary:
        yield (
            f"The last compactability, {history.last:g} %, is out of the ordinary for you: your {history.count} readings "
            f"before it lie about {history.mean:.0f} %, and one more would fall within {history.within:.0f} points of that "
            f"(own rule, at least {logged_readings.LEAST_APART_PCT:g}). Do it again, then dry a sample before you mould."
        )
    elif history:
        yield (
            f"The last compactability, {history.last:g} %, is as usual: your {history.count} readings before it lie about "
            f"{history.mean:.0f} %, ± {history.within:.0f} for one more."
        )
    for word, whose in (
        ("rammed_density_kg_l", "Your own rammed density"),
        ("strokes_per_100ml", "Your own spray bottle"),
    ):
        if word in found:
            count = min(statistics.MOST_READINGS, len(found[word]))
            strokes = " strokes to 100 mL" if word == "strokes_per_100ml" else ""
            times = "once" if count == 1 else f"{count} times, the weighted mean"
            yield f"{whose}: {computed.text(word)}{strokes}, measured {times}."


def _working(opened: Book) -> Iterable[str]:
    total = dict.fromkeys(PARTS, 0.0)
    for event in opened.events:
        for part, kg in event["outcome"]["change"].items():
            total[part] += kg
    parts = ", ".join(f"{name} {total[part]:.3f} kg" for part, name in PARTS.items())
    yield f"{len(opened.events)} events, added up: {parts}"


def _strip(state: State) -> dict[str, str]:
    if state.sand.dry_kg <= 0:
        return {}
    return {"now": composition_bar.draw(state.sand, "heap-now", "The heap by its book")}


def _next(computed: Computed[HeapForm], state: State) -> tuple[Next, ...]:
    if state.sand.wet_kg <= 0:
        return (Next(job="mix", label="Mix new sand"),)
    metal = {} if _metal_of(state) is METALS["aluminium"] else {"metal": str(state.metal)}
    shares = {word: word for word in ("heap_kg", "moisture_pct_wet", "clay_pct_dry", "dead_fines_pct_dry")}
    return (
        Next(job="temper", label="Test and temper it", inputs=computed.carried(heap_kg="heap_kg") | metal),
        Next(job="rebond", label="Put back what it lost", inputs=computed.carried(**shares)),
    )
