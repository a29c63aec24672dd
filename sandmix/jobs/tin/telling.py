"""The texts of *tin*: headline, what to do, remarks, cautions, working and chart."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from sandmix.asking.job import Computed, Lead, Next, Record, Telling, ToDo, WayOut
from sandmix.bench import tin_dosing
from sandmix.entries.reading_entries import OWN_TIN
from sandmix.jobs.shared import sand_clocks, wet_sand
from sandmix.jobs.shared.doses import first_water, weigh_and_water
from sandmix.jobs.tin import line_chart, line_remarks
from sandmix.jobs.tin.figures import DISAGREE, book_may_stop, target_moisture_pct, verdict, wetness
from sandmix.jobs.tin.form import ResolvedTin
from sandmix.language.wording import number_to, to_figures
from sandmix.recipes import temper
from sandmix.recipes.too_wet import CARE, STOP, Wetness

_HEADLINES = {
    "go": "Go: the tin is at its target.",
    "temper": "Temper it: the sand needs water.",
    "dry": "Too wet to mould: dry it or dilute it.",
    "test it": "Test it: the tin alone can't decide on a dose.",
}
_TONES = {"go": "go", "temper": "care", "dry": "care", "test it": "care"}


def tell(computed: Computed[ResolvedTin]) -> Telling:
    """Say what the tin test calls for."""
    form, word, wet = computed.form, verdict(computed.form, computed.doubt), wetness(computed.form)
    doses = wet.tone != STOP and word == "temper" and computed.is_above_zero("first_water_kg")
    clocks = tuple(sand_clocks.after_a_dose(water=doses))
    return Telling(
        headline=wet_sand.headline(
            wet,
            f"{_HEADLINES[word] if wet.tone != STOP else ''} The compactability is {computed.text('compactability_now_pct')}; the target is "
            f"{form.target_compactability_pct:g} % (both of the height before ramming).".strip(),
        ),
        state=wet_sand.state(
            wet, "wet" if word == "go" and wet.tone == CARE and wet.has_limits else word, _TONES[word]
        ),
        lead=_lead(computed, word, wet),
        todo=tuple(_to_do(computed, word, wet)),
        remarks=(*_remarks(computed, word, wet), *line_remarks.remarks(computed)),
        cautions=tuple(wet_sand.cautions_of_a_test(wet, dries=word == "dry", doses=doses)),
        working=tuple(_working(computed)),
        charts=tuple(line_chart.charts(computed)),
        timers=clocks,
        next=tuple(_next(computed, word, wet)),
        records=tuple(_records(computed, doses=doses)),
        sources=("errors_in_variables", "tin_slope", "tjfs_109", *((sand_clocks.SOURCE,) if clocks else ())),
    )


def _lead(computed: Computed[ResolvedTin], word: str, wet: Wetness) -> Lead:
    if word == "temper" and wet.tone != STOP and computed.has("first_water_kg"):
        return first_water(computed)
    lead, label = "compactability_now_pct", "Compactability"
    if word == "dry" and computed.is_above_zero("water_to_lose_kg"):
        lead, label = "water_to_lose_kg", "Dry off"
    return Lead(word=lead, label=label, text=computed.text(lead), then=computed.within(lead))


def _to_do(computed: Computed[ResolvedTin], word: str, wet: Wetness) -> Iterable[ToDo]:
    """What the sand needs: water, drying, another tin test, or a dried sample."""
    form = computed.form
    to_lose = computed.text("water_to_lose_kg") if computed.is_above_zero("water_to_lose_kg") else ""
    if wet.tone == STOP:
        yield from wet_sand.to_do(wet, "" if wet.target == STOP else to_lose, sand_clocks.dry_enough(computed))
        return
    if form.is_aged:
        yield ToDo(text="Mull the sand for ten minutes, then fill and ram the tin again")
    elif form.apart > DISAGREE:
        yield ToDo(text="Fill and ram the tin twice more, and enter the two readings that agree")
    elif word == "test it":
        yield ToDo(text="Dry a sample, and temper the sand by that")
    elif word == "temper":
        yield from weigh_and_water(computed, form.heap_kg)
    elif word == "dry":
        yield from sand_clocks.spread_and_dry(computed)
        yield ToDo(text="Mull it, and test it again before you mould")
    elif wet.may_be_above:
        yield ToDo(text="Dry a sample before you pour: the sand may be too wet")


def _remarks(computed: Computed[ResolvedTin], word: str, wet: Wetness) -> Iterable[str]:
    form = computed.form
    yield from wet_sand.remarks(wet)
    if form.is_aged:
        yield WayOut(
            f"The sand has stood for {form.since_mulling_h:g} hours since it was mulled. Its compactability falls while its moisture stays, so a "
            f"dose by the tin would make it too wet. After {tin_dosing.AGED_H:g} hours none is given (own rule)."
        )
    elif form.apart > DISAGREE:
        yield WayOut(
            f"The two readings are {abs(2 * (form.compactability_again_pct or 0.0) - 2 * form.compactability_now_pct):.0f} points apart, more than "
            "twice what their errors allow. One of them is wrong, so no dose is given."
        )
    elif word == "test it":
        yield WayOut(
            f"The moisture would have to change by {_range(computed)} points (of the wet mass). That is wider than the ± "
            f"{tin_dosing.USEFUL_PCT:g} points of an oven test, so no dose is given."
        )
    if word == "temper" and computed.has("water_most_kg"):
        first, least = computed.number("first_water_kg"), computed.doubt["water_kg"][0]
        if first > least:
            yield WayOut("The first dose may already be enough or too much: test it again before you add the rest.")
    if word == "dry" and computed.has("dried_kg"):
        yield from sand_clocks.dry_to(computed)
    if form.since_mulling_h is None:
        yield "Read the tin soon after mulling: as sand stands, its compactability falls even if it keeps its moisture."
    if word in ("go", "temper") and book_may_stop(form):
        yield WayOut(
            "By the book the sand may be too wet to pour on, and sand so wet that it wets the hand can read low (from memory). If it does, add no "
            "water. Dry a sample before you pour."
        )
    if wet.sand_pct_wet is None and word in ("go", "temper"):
        yield WayOut(
            "The tin shows how the sand rams, not its moisture, so this can't be compared with the stop limit of the metal. Sand so wet that it "
            "wets the hand can read low too (from memory). Dry a sample before you pour."
        )


def _working(computed: Computed[ResolvedTin]) -> Iterable[str]:
    form = computed.form
    target, now, slope = form.target_compactability_pct, form.compactability_now_pct, form.compactability_slope
    if form.height_before_mm is not None and form.height_after_mm is not None:
        before, after = form.height_before_mm, form.height_after_mm
        yield f"compactability = 100 × ({before:g} − {after:g}) / {before:g} = {100 * (before - after) / before:.1f} %"
    step = computed.number("moisture_step_pct_wet")
    change = f"({target:g} − {now:.1f}) / {slope:.1f} = {number_to(step, 2)} points"
    yield f"change of moisture = (target − compactability) / slope = {change}"
    if form.heap_kg is not None:
        whole = target_moisture_pct(form)
        water = form.heap_kg * step / (100 - whole)
        yield (
            f"water = heap × change / (100 − moisture at the target) = {to_figures(form.heap_kg, 4)} × {number_to(step, 2)} / (100 − {whole:.1f}) = "
            f"{number_to(water, 3)} kg"
        )
        if water > 0:
            yield f"first dose = {temper.FIRST_WATER:.2f} × {water:.3f} = {temper.FIRST_WATER * water:.3f} kg, if one is given"
    yield from line_remarks.working(form)


def _range(computed: Computed[ResolvedTin]) -> str:
    """The likely range of the change of moisture, in points."""
    low, high = computed.doubt["moisture_step_pct_wet"]
    return f"{number_to(low, 1)} to {number_to(high, 1)}"


def _next(computed: Computed[ResolvedTin], word: str, wet: Wetness) -> Iterable[Next]:
    """The flask where the sand is at its target; else the test that decides, and the job that doses by it."""
    form = computed.form
    metal: Mapping[str, str] = {} if form.metal == "aluminium" else {"metal": form.metal}
    heap = {"heap_kg": f"{to_figures(form.heap_kg, 4)} kg"} if form.heap_kg else {}
    oven = Next(job="bench", label="Dry a sample", inputs={"test": "moisture"})
    by_test = Next(job="temper", label="Test and temper by a dried sample", inputs={**heap, **metal})
    if wet.tone == STOP or word == "dry":
        yield from (oven, by_test)
    elif word == "go":
        yield from (Next(job="flask", label="Fill the flask", inputs=heap), oven)
    elif word == "test it":
        yield from (by_test, oven)
    else:
        water_kg = computed.number("water_kg") if computed.has("water_kg") else 0.0
        wetter = {"heap_kg": f"{to_figures(form.heap_kg + water_kg, 4)} kg"} if form.heap_kg else {}
        yield from (Next(job="flask", label="Fill the flask", inputs=wetter), oven)


def _is_saved(form: ResolvedTin) -> bool:
    """Whether the book has this tin and rammer already, to the figures that a page carries."""
    saved = form.past.tin if form.past else None
    if saved is None or form.tin is None:
        return False
    return all(math.isclose(getattr(saved, word), getattr(form.tin, word), rel_tol=0.01) for word in OWN_TIN)


def _records(computed: Computed[ResolvedTin], *, doses: bool) -> Iterable[Record]:
    """The reading as an entry of the book, with the first dose; and the own tin, where it is not in the book yet."""
    form = computed.form
    reading = computed.carried_as_sure(compactability_read_pct="compactability_now_pct")
    if doses:
        label = f"Record the reading and the first dose of {computed.text('first_water_kg')} in the book"
        yield Record(kind="measured", label=label, words=reading | computed.carried(water_added_kg="first_water_kg"))
    else:
        yield Record(kind="measured", label="Record the reading in the book", words=reading)
    if form.step is not None and form.step.dy > 0:
        slope, half = tin_dosing.slope_of(form.step)
        own = {"compactability_slope": f"{to_figures(slope, 4)} ± {to_figures(half, 2)}"}
        yield Record(
            kind="calibrated", label=f"Save the slope of this step, {slope:.0f} ± {half:.0f}, as my own", words=own
        )
    typed = [getattr(form, word) for word in OWN_TIN]
    if form.tin is not None and None not in typed and not _is_saved(form):
        words = {
            word: f"{to_figures(getattr(form, word), 4)} {unit}"
            for word, unit in zip(OWN_TIN, ("kg", "mm", "mm"), strict=True)
        }
        yield Record(kind="calibrated", label="Save this tin and rammer as my own", words=words)
