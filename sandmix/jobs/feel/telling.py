"""The texts of *feel*: headline, what to do, remarks, cautions and working."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Computed, Lead, Next, Record, Telling, ToDo, WayOut
from sandmix.bench import feel_check
from sandmix.bench.feel import CENTRE_PCT, FEELS, ORDER
from sandmix.bench.feel_check import LEAST_INSIDE, LEAST_PAIRS, LEAST_WORDS
from sandmix.jobs.feel.figures import wetness
from sandmix.jobs.feel.form import USUAL_CLAY_PCT, ResolvedFeel
from sandmix.jobs.shared import wet_sand
from sandmix.jobs.shared.doses import first_water, weigh_and_water
from sandmix.language.wording import number_to, plain, to_figures
from sandmix.recipes.too_wet import CARE, STOP, WASHED, Wetness

_HEADLINES = {
    "go": "Go: by its feel the moisture is right.",
    "temper": "Temper it: by its feel the sand needs water.",
    "dry": "Too wet to mould: dry it or dilute it.",
    "stop": "Stop: by its feel too wet. Do not pour on it.",
}
_SHORT = {key: label.split(":")[0] for key, label in FEELS.items()}
LEAST_CHANGE_PCT = 1.0
"""From here a change of the live clay is worth a remark, in points of the dry mass (own choice)."""


def tell(computed: Computed[ResolvedFeel]) -> Telling:
    """Say what moisture the handful means, and whether water may be dosed by it."""
    form, wet = computed.form, wetness(computed.form, computed.doubt.get("moisture_pct_wet"))
    doses = form.doses == "yes"
    verdict = str(computed.figures["verdict"]) if doses else "test it"
    return Telling(
        headline=wet_sand.headline(wet, _headline(computed, verdict))
        if verdict != STOP
        else _headline(computed, verdict),
        state=wet_sand.state(wet, verdict, "go" if verdict == "go" else CARE),
        lead=_lead(computed, verdict),
        todo=tuple(_to_do(computed, verdict, wet)),
        remarks=tuple(_remarks(computed, wet)),
        cautions=tuple(wet_sand.cautions_of_a_test(wet, dries=verdict == "dry", doses=verdict == "temper")),
        working=tuple(_working(computed)),
        next=tuple(_next(computed, verdict, wet)),
        records=tuple(_records(computed, verdict)),
        sources=("feel_classes", "feel_temper", "mccullagh_1980"),
    )


def _headline(computed: Computed[ResolvedFeel], verdict: str) -> str:
    form = computed.form
    if form.doses == "yes":
        return (
            f"{_HEADLINES[verdict]} It holds {computed.text('moisture_pct_wet')} water, {computed.within('moisture_pct_wet')}; the "
            f"target is {form.target_moisture_pct_wet:g} % (all of the wet mass)."
        )
    word = f"“{_SHORT[form.feel]}”"
    if form.stopped_by:
        return f"Test it: the last moisture test was too wet to pour on, and {word} does not lift that stop."
    if form.judged.contradicts and form.known:
        return f"Test it: {word} contradicts the book, which has {_known(form)} % water (of the wet mass)."
    if form.judged.contradicts:
        return f"Test it: moulding sand hardly ever feels like {word}."
    return (
        f"Test it: {word} means {computed.range('moisture_pct_wet')} water (of the wet mass), and "
        f"{'that range is too wide to dose by' if form.doses == 'wide' else 'your own tests do not bear it out yet'}."
    )


def _known(form: ResolvedFeel) -> str:
    assert form.known is not None
    return f"{number_to(form.known.mean_pct, 1)} ± {number_to(1.96 * form.known.sd_pct, 1)}"


def _lead(computed: Computed[ResolvedFeel], verdict: str) -> Lead:
    if verdict == "temper" and computed.is_above_zero("first_water_kg"):
        return first_water(computed)
    band = computed.within("moisture_pct_wet")
    return Lead(word="moisture_pct_wet", label="Moisture by feel", text=computed.text("moisture_pct_wet"), then=band)


def _to_do(computed: Computed[ResolvedFeel], verdict: str, wet: Wetness) -> Iterable[ToDo]:
    form = computed.form
    if wet.tone == STOP:
        yield from wet_sand.to_do(wet)
    elif form.doses != "yes":
        yield ToDo(text="Dry a sample of this same sand, and enter its moisture together with the word")
    elif verdict == "temper":
        yield from weigh_and_water(computed, form.heap_kg)
    elif verdict == "dry":
        yield ToDo(text="Spread the sand and dry it, then test it again")


def _remarks(computed: Computed[ResolvedFeel], wet: Wetness) -> Iterable[str]:
    form = computed.form
    yield from wet_sand.remarks(wet)
    if form.judged.contradicts:
        yield WayOut(
            "Squeeze another handful from elsewhere in the heap. If the word stays the same, either the book lacks something, such as rain "
            "or added water, or the word is wrong. Only a test decides. Until then no dose is given, and the range covers both."
        )
    yield from _of_pairs(form)
    if abs(form.clay_change_pct) >= LEAST_CHANGE_PCT:
        than = "your pairs had" if form.check.pairs else f"the usual {USUAL_CLAY_PCT[0]:g} to {USUAL_CLAY_PCT[1]:g} %"
        yield (
            f"The heap has {to_figures(abs(form.clay_change_pct), 2)} points {'more' if form.clay_change_pct > 0 else 'less'} live clay (of the "
            f"dry mass) than {than}. Sand with more clay feels drier at the same moisture, so the range is wider."
        )
    if form.sand_kind != WASHED:
        yield "The usual words are for washed sand with bentonite. For another kind of sand they are off by far more, and never dose."


def _of_pairs(form: ResolvedFeel) -> Iterable[str]:
    """How far the person's own tests bear the words out, by the first condition that is not met."""
    check = form.check
    many = f"{check.pairs} own {'pair' if check.pairs == 1 else 'pairs'}"
    if not check.has_enough:
        yield WayOut(
            f"The book has {many} of word and moisture test, with {check.words} different {'word' if check.words == 1 else 'words'}. "
            f"A word may dose from {LEAST_PAIRS} pairs with {LEAST_WORDS} different words on: judge a handful before each moisture test, "
            "in dry and in wet sand, and enter both together."
        )
        return
    inside = round((check.inside or 0.0) * check.pairs)
    shown = f"Of your {many.replace('own ', '')}, each predicted from the others, {inside} were inside their range (19 in 20 should be)"
    if check.may_dose:
        yield f"{shown}, and your own words predict better than the usual ones. So a word may dose where its range decides."
    elif not check.tells:
        yield WayOut(
            f"{shown}, but your words say nothing about the moisture: wetter sand did not feel wetter to you. Judge each handful the same way, from "
            "the same place in the heap as the sample, and keep testing."
        )
    elif not check.is_honest:
        yield WayOut(
            f"{shown}. That is less than {100 * LEAST_INSIDE:g} %, so the words are not dependable yet. Keep testing."
        )
    else:
        yield WayOut(f"{shown}, but your own pairs do not predict better than the usual words yet. Keep testing.")


def _working(computed: Computed[ResolvedFeel]) -> Iterable[str]:
    form, check = computed.form, computed.form.check
    usual = ", ".join(
        f"{_SHORT[word]} {number_to(CENTRE_PCT + cut / form.words.slopes[0], 1)}"
        for word, cut in zip(ORDER[1:], form.words.cuts, strict=True)
    )
    yield f"your words begin at, in % of the wet mass: {usual}; slope {form.words.slopes[0]:.1f} logits a point"
    known = f"the book's {_known(form)} %" if form.known else "a heap of which nothing is known, 4 ± 2.9 %"
    yield f"moisture = {known}, times the chance of “{_SHORT[form.feel]}” at each moisture; median and 95 % of it"
    yield (
        f"such a word, or one further out, comes in {100 * form.judged.expected:.2g} % of handfuls; it contradicts what is known below 2.5 %"
    )
    if check.gain is not None and check.told is not None:
        yield (
            f"each pair left out in turn: {plain(round(check.gain, 2))} against the usual words and {plain(round(check.told, 2))} against no word, "
            f"as mean logarithms of the density; needed are more than 0 and at least {feel_check.LEAST_TOLD:g} (own rule)"
        )


def _next(computed: Computed[ResolvedFeel], verdict: str, wet: Wetness) -> Iterable[Next]:
    form = computed.form
    given = {"metal": form.metal, "sand_kind": form.sand_kind}
    usual = {"metal": "aluminium", "sand_kind": WASHED}
    others = {word: value for word, value in given.items() if value != usual[word]}
    if form.heap_kg is not None:
        others["heap_kg"] = f"{to_figures(form.heap_kg, 4)} kg"
    test = Next(job="temper", label="Dry a sample, record both", inputs={"feel": form.feel} | others)
    if form.doses == "yes" and wet.tone != STOP:
        moisture = computed.carried_as_sure(moisture_pct_wet="moisture_pct_wet")
        label = "Temper it by this" if verdict == "temper" else "What that needs"
        yield Next(job="temper", label=label, inputs=moisture | {"feel": form.feel} | others)
    yield test


def _records(computed: Computed[ResolvedFeel], verdict: str) -> Iterable[Record]:
    """The word with the water that was added by it. A word alone is no record: next to its test it is worth more."""
    if verdict == "temper" and computed.is_above_zero("water_kg"):
        words = {"feel": computed.form.feel} | computed.carried(water_added_kg="water_kg")
        label = f"Once all {computed.text('water_kg')} of water are in: record them and the handful in the book"
        yield Record(kind="measured", label=label, words=words)
