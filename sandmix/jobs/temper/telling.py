"""How *temper* presents its answer: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

from sandmix.asking.job import Computed, Lead, Next, Record, Telling, ToDo, WayOut
from sandmix.bench import measurements
from sandmix.drawings import composition_bar
from sandmix.jobs.shared import sand_clocks, wet_sand
from sandmix.jobs.shared.doses import first_water, weigh_and_water
from sandmix.jobs.temper.figures import wetness
from sandmix.jobs.temper.form import ResolvedTemper
from sandmix.language.wording import to_figures
from sandmix.materials.metals import METALS
from sandmix.materials.sand import Sand
from sandmix.recipes import temper
from sandmix.recipes.too_wet import CARE, GO, LABELS_OF, STOP, Wetness

GOOD_SAMPLE_G = 500.0
LARGEST_SAMPLE_G = 2000.0
SPRAYS_PER_KG = 10.0
"""Portions of 100 mL in a kilogram of water."""

_HEADLINES = {
    "go": "Go: the moisture is right.",
    "temper": "Temper it: the sand needs water.",
    "dry": "Too wet to mould: dry it or dilute it.",
    "stop": "Stop: too wet. Do not pour on it.",
}
_TONES = {"go": "go", "temper": "care", "dry": "care", "stop": "stop"}


def tell(computed: Computed[ResolvedTemper]) -> Telling:
    """Say what to do with the heap."""
    verdict = str(computed.figures["verdict"])
    wet = wetness(computed.form, computed.doubt.get("moisture_pct_wet"))
    clocks = tuple(sand_clocks.after_a_dose(water=verdict == "temper" and computed.is_above_zero("first_water_kg")))
    return Telling(
        headline=(
            f"{_opening(verdict, wet)} It holds {computed.text('moisture_pct_wet')} water; the target is "
            f"{computed.form.target_moisture_pct_wet:g} % (both of the wet mass)."
        ),
        state=wet_sand.state(
            wet, "wet" if verdict == GO and wet.tone == CARE and wet.has_limits else verdict, _TONES[verdict]
        ),
        lead=_lead(computed, verdict),
        todo=tuple(_to_do(computed, verdict, wet)),
        remarks=tuple(_remarks(computed, verdict, wet)),
        cautions=tuple(wet_sand.cautions_of_a_test(wet, dries=verdict == "dry", doses=verdict == "temper")),
        working=tuple(_working(computed)),
        drawings=_bars(computed),
        timers=clocks,
        next=tuple(_next(computed, verdict, wet)),
        records=(_record(computed, verdict, wet),),
        sources=(sand_clocks.SOURCE,) if clocks else (),
    )


def _record(computed: Computed[ResolvedTemper], verdict: str, wet: Wetness) -> Record:
    """The test as one entry of the book, with the feel of its sand, and the water that is added or dried off because of it.

    A moisture that comes with a feel and without a sample was worked out from that feel and the book: it is no test, and is not recorded as one.
    """
    form = computed.form
    feel = {"feel": form.feel} if form.feel else {}
    is_test = not feel or form.sample_wet_g is not None
    test = (computed.carried_as_sure(moisture_pct_wet="moisture_pct_wet") if is_test else {}) | feel
    what = "test" if is_test else "handful"
    if verdict == "temper" and computed.is_above_zero("water_kg"):
        label = f"Once all {computed.text('water_kg')} of water are in: record them and the {what} in the book"
        return Record(kind="measured", label=label, words=test | computed.carried(water_added_kg="water_kg"))
    if verdict in ("dry", "stop") and wet.target != STOP and computed.is_above_zero("water_to_lose_kg"):
        label = f"Record the {what} and {computed.text('water_to_lose_kg')} of water dried off in the book"
        return Record(kind="measured", label=label, words=test | computed.carried(water_dried_kg="water_to_lose_kg"))
    return Record(kind="measured", label=f"Record the {what} in the book", words=test)


TEST_AGAIN = Next(job="bench", label="Test it again", inputs={"test": "moisture"})


def _next(computed: Computed[ResolvedTemper], verdict: str, wet: Wetness) -> Iterable[Next]:
    """The flask with the sand and its water; where the sand is too wet, the dry mix for it and another test, and no mould.

    A target that is too wet for washed sand is usual for natural sand, which has its own limits.
    """
    form = computed.form
    if verdict == STOP and wet.sand != STOP:
        natural = {"bag_label": LABELS_OF["natural"]}
        yield Next(job="choose", label="Is it natural sand? It needs more water", inputs=natural)
        return
    if verdict in ("dry", STOP):
        if wet.target != STOP:
            yield Next(job="dry", label="Plan the drying", inputs=_to_dry(computed))
        if computed.is_above_zero("dry_mix_to_dilute_kg") and wet.target != STOP:
            dry = computed.carried_as_sure(make_kg="dry_mix_to_dilute_kg")
            if dry:
                dry = computed.carried(make_kg="dry_mix_to_dilute_kg") | {"moisture_pct_wet": "0 %"}
                yield Next(job="mix", label="Weigh in the dry mix to dilute it", inputs=dry)
        yield TEST_AGAIN
        return
    water_kg = computed.number("water_kg") if verdict == "temper" and computed.has("water_kg") else 0.0
    sand = {"heap_kg": f"{to_figures(form.heap_kg + water_kg, 4)} kg"} if form.heap_kg else {}
    yield Next(job="flask", label="Fill the flask", inputs=sand)
    if verdict == "temper":
        yield replace(TEST_AGAIN, label="Test it again after the first dose")


def _to_dry(computed: Computed[ResolvedTemper]) -> dict[str, str]:
    """What the plan of the drying needs: the sand, its moisture as sure as it is here, its target, and what decides the limits."""
    form = computed.form
    heap = {} if form.heap_kg is None else {"heap_kg": f"{to_figures(form.heap_kg, 4)} kg"}
    target = {"target_moisture_pct_wet": f"{form.target_moisture_pct_wet:g} %"}
    kinds = {"metal": form.metal, "sand_kind": form.sand_kind}
    return heap | computed.carried_as_sure(moisture_pct_wet="moisture_pct_wet") | target | kinds


def _opening(verdict: str, wet: Wetness) -> str:
    if verdict == STOP and wet.sand != STOP:
        return "Stop: the target is too wet to pour on."
    if verdict == GO and not wet.has_limits:
        return "Take care: the moisture is at its target, but no limit is known for this kind of sand."
    if verdict == GO and wet.tone == CARE:
        return "Take care: the moisture is at its target, but that may be too wet to pour on."
    return _HEADLINES[verdict]


def _lead(computed: Computed[ResolvedTemper], verdict: str) -> Lead:
    if verdict == "temper" and computed.has("water_kg"):
        return first_water(computed)
    to_dry = verdict in ("dry", "stop") and computed.is_above_zero("water_to_lose_kg") and computed.has("water_kg")
    word, label = ("water_to_lose_kg", "Dry off") if to_dry else ("moisture_pct_wet", "Moisture")
    return Lead(word=word, label=label, text=computed.text(word), then=computed.within(word))


def _to_do(computed: Computed[ResolvedTemper], verdict: str, wet: Wetness) -> Iterable[ToDo]:
    """What the heap needs before it is moulded: water, drying, or a better test."""
    to_lose = computed.text("water_to_lose_kg") if computed.is_above_zero("water_to_lose_kg") else ""
    if wet.tone == STOP:
        yield from wet_sand.to_do(wet, "" if wet.target == STOP else to_lose, sand_clocks.dry_enough(computed))
        return
    if verdict == "temper":
        yield from weigh_and_water(computed, computed.form.heap_kg)
    if verdict == "dry":
        yield from sand_clocks.spread_and_dry(computed)
        yield ToDo(text="Test it again before you mould")
    elif verdict == GO and wet.may_be_above:
        yield ToDo(text="Test it again before you pour: it may be too wet")
    elif verdict == GO and not wet.has_limits:
        yield ToDo(text="Go by the tests of this kind of sand before you pour")


def _remarks(computed: Computed[ResolvedTemper], verdict: str, wet: Wetness) -> Iterable[str]:
    form = computed.form
    target, moisture = form.target_moisture_pct_wet, computed.number("moisture_pct_wet")
    yield from wet_sand.remarks(wet)
    if form.feel and form.sample_wet_g is None:
        yield "A moisture that comes with a feel is not recorded as a test. Weigh a sample instead, or enter your own test in the heap book."
    low, high = computed.doubt.get("moisture_pct_wet", (moisture, moisture))
    others = [other for other in temper.verdicts_within(low, high, target, wet.red_pct_wet) if other != verdict]
    said = ""
    if others:
        nearest = min(abs(moisture - border) for border in temper.borders_pct(target, wet.red_pct_wet))
        said = _better_test(form, nearest)
        yield WayOut(
            f"The test is not exact enough. The true value may be {low:.1f} to {high:.1f} %, so the right word could also be "
            f"{' or '.join(f'“{other}”' for other in others)}. {said}"
        )
    if computed.is_above_zero("water_kg") and form.heap_kg:
        water = computed.number("water_kg")
        if computed.number("first_water_kg") > computed.doubt["water_kg"][0]:
            enough = (1 - temper.FIRST_WATER) * water * (100 - target) / form.heap_kg
            better = _better_test(form, enough)
            yield WayOut(
                "The first dose may already be enough or too much: this test is not exact enough to show it. "
                f"{'The same better test shows it.' if better == said else better}"
            )
        if form.strokes_per_100ml is not None:
            strokes = max(1, round(SPRAYS_PER_KG * form.strokes_per_100ml * computed.number("first_water_kg")))
            counted = "1 stroke" if strokes == 1 else f"{to_figures(strokes, 2)} strokes"
            yield f"The first dose is about {counted} of your spray bottle."
    to_dry = verdict in ("dry", "stop") and computed.has("water_kg")
    if to_dry:
        yield from sand_clocks.dry_to(computed)
    if to_dry and computed.is_above_zero("dry_mix_to_dilute_kg"):
        yield WayOut(
            f"Instead of drying it, you can mix in {computed.text('dry_mix_to_dilute_kg')} of bone-dry sand and clay in the "
            "heap's own proportion."
        )
    if computed.number("moisture_pct_wet") < 2:
        yield "Below 2 % water (of the wet mass) edges crumble, and the mould tears when you draw the pattern."


def _better_test(form: ResolvedTemper, wanted_error_pct: float) -> str:
    """The cheapest test that measures the moisture to within *wanted_error_pct* points, in words."""
    step, now = form.scale_step_g, form.sample_wet_g or 0.0
    instead = f" instead of {now:g} g" if now else ""
    sample = measurements.sample_for_error_g(wanted_error_pct, step)
    rounded = None if sample is None else math.ceil(sample / 50) * 50
    if rounded is not None and now < rounded <= LARGEST_SAMPLE_G:
        return f"Dry {rounded:g} g{instead} on this scale."
    reading = measurements.reading_error_g(step)
    if 0 < now < GOOD_SAMPLE_G and measurements.weighing_error_pct(now, reading, reading) > measurements.SAMPLING_PCT:
        return f"Dry {GOOD_SAMPLE_G:g} g{instead}, and take it from three places in the heap."
    return (
        f"A larger sample alone is not enough: handfuls of one heap differ by {measurements.SAMPLING_PCT:g} points. Mix handfuls "
        f"from five places, dry {max(now, GOOD_SAMPLE_G):g} g of the mixture, and do this twice."
    )


def _working(computed: Computed[ResolvedTemper]) -> Iterable[str]:
    form = computed.form
    if form.sample_wet_g is not None and form.sample_dry_g is not None:
        yield (
            f"moisture = 100 × ({form.sample_wet_g:g} − {form.sample_dry_g:g}) / {form.sample_wet_g:g} = "
            f"{computed.number('moisture_pct_wet'):.2f} % of the wet mass, ± {computed.half_width('moisture_pct_wet'):.2f}; "
            f"the spread between handfuls alone is ± {measurements.SAMPLING_PCT}"
        )
    if computed.has("water_kg") and form.heap_kg:
        m, t, heap = computed.number("moisture_pct_wet"), form.target_moisture_pct_wet, form.heap_kg
        water = computed.number("water_kg") - computed.number("water_to_lose_kg")
        yield (
            f"water = heap × (target − moisture) / (100 − target) = {heap:g} × ({t:g} − {m:.2f}) / (100 − {t:g}) = "
            f"{f'{water:.3f}'.replace('-', '−')} kg"
        )
        if water > 0:
            yield f"first dose = {temper.FIRST_WATER:.2f} × {water:.3f} = {computed.number('first_water_kg'):.3f} kg"
    limit = f"{METALS[form.metal].red_moisture_pct_wet:g} % for {METALS[form.metal].label} (from memory)"
    stop = (
        f"stop: moisture or target above {limit}"
        if wetness(form).has_limits
        else "stop: no limit is known for this kind of sand"
    )
    yield f"{stop}; go: within {temper.GO_BAND} points of the target"


def _bars(computed: Computed[ResolvedTemper]) -> dict[str, str]:
    if computed.form.heap_kg is None:
        return {}
    before = Sand.lying(computed.form.heap_kg, moisture_pct_wet=computed.number("moisture_pct_wet"))
    full = before.dry_kg
    now = composition_bar.draw(before, "temper-before", "The heap now", full_dry_kg=full, divided=False)
    if not computed.has("water_kg"):
        return {"before": now}
    after = before.wet(computed.number("water_kg") - computed.number("water_to_lose_kg"))
    return {
        "before": now,
        "after": composition_bar.draw(after, "temper-after", "The heap at its target", full_dry_kg=full, divided=False),
    }
