"""What *bench* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from sandmix.asking.cautions import DRYING, DUST, DYE, FURNACE, HOT_CASTING, LIFT, WET_MOULD, Caution
from sandmix.asking.job import Check, Computed, Lead, Next, Telling, Timer, ToDo
from sandmix.bench import measurements
from sandmix.bench.catalogue import Rating
from sandmix.bench.feel import BY_SQUEEZE
from sandmix.jobs.bench.figures import FEWEST_PAST, plans
from sandmix.jobs.bench.form import ResolvedBench
from sandmix.jobs.bench.working import working
from sandmix.language.wording import plain, to_figures
from sandmix.materials.choosing import CLAY, SAND
from sandmix.vocabulary import WORDS, quantity
from sandmix.vocabulary.bench_words import HEATS, SCALES

_SQUEEZE_TONES = {"falls": "care", "crumbles": "care", "clean": "go", "sticky": "care"}
_HIGH_FALL_MM = 600.0
"""A fall above this is hard to do by hand (own choice)."""
_TONE_WORDS = {"go": "as it should be", "care": "look at it", "stop": "stop", "plain": "read"}
_CAUTIONS: Mapping[str, tuple[Caution, ...]] = {
    "moisture": (DRYING,),
    "wash": (DUST,),
    "methylene_blue": (DYE, DUST),
    "swell": (DUST,),
    "water_sensitivity": (DRYING,),
    "loss_on_ignition": (FURNACE, HOT_CASTING),
    "volatiles": (FURNACE, HOT_CASTING),
    "flask_density": (LIFT,),
    "strength": (LIFT,),
}


def tell(computed: Computed[ResolvedBench]) -> Telling:
    """Say what the figure shows about the sand and what it does not, the steps and waits of the test, and how to make it more exact."""
    form, row = computed.form, computed.form.row
    text, rating = computed.text(row.figure), _rating(computed)
    unusual = computed.figures.get("ordinary") == "no"
    return Telling(
        headline=_headline(computed, text, rating),
        state=("out of the ordinary", "care") if unusual else (_TONE_WORDS[rating.tone], rating.tone),
        lead=Lead(word=row.figure, label=WORDS[row.figure].label, text=text, then=computed.within(row.figure)),
        todo=tuple(_to_do(rating, unusual=unusual)),
        remarks=(f"It shows: {row.says}", f"It does not show: {row.says_not}", *_remarks(computed)),
        cautions=(*((WET_MOULD,) if rating.tone == "stop" else ()), *_CAUTIONS.get(row.key, ())),
        working=tuple(working(computed)),
        checklist=tuple(Check(tone="care", text=step.text) for step in form.procedure.steps),
        timers=tuple(_timers(form)),
        next=tuple(_next(computed)),
    )


def _rating(computed: Computed[ResolvedBench]) -> Rating:
    """What the figure means by itself; plain where nothing general is known."""
    row, value = computed.form.row, computed.figures[computed.form.row.figure]
    if isinstance(value, str):
        return Rating(below=math.inf, text="", tone=_SQUEEZE_TONES[value])
    if row.key == "compactability" and computed.form.tin_rammed == "own":
        return Rating(below=math.inf, text="A trend: compare it with your own readings in this tin.", tone="plain")
    other_scale = computed.form.hardness_scale == "cone" and row.key == "hardness"
    known = None if other_scale else row.rating(computed.number(row.figure))
    return known or Rating(below=math.inf, text="Compare it with your own earlier figures.", tone="plain")


def _to_do(rating: Rating, *, unusual: bool) -> Iterable[ToDo]:
    """What a figure out of the ordinary, or one that stops the pour, leads to."""
    if unusual:
        yield ToDo(text="Repeat the test, then look for what changed")
    if rating.tone == "stop":
        yield ToDo(text="Do not pour on this sand. Dry it, and test it again")


def _headline(computed: Computed[ResolvedBench], text: str, rating: Rating) -> str:
    form, label = computed.form, WORDS[computed.form.row.figure].label
    if form.test == "squeeze":
        return f"{label}: {text}."
    if form.test == "spray":
        dose = f" {computed.text('dose_strokes')} for the dose." if computed.has("dose_strokes") else ""
        return f"{label}: {text}.{dose} {rating.text}"
    on = {"hardness": SCALES, "volatiles": HEATS}.get(str(form.test))
    which = "" if on is None else f", {on[str(form.hardness_scale if form.test == 'hardness' else form.volatiles_at)]}"
    basis = {"pct_wet": " of the wet mass", "pct_dry": " of the dry mass"}.get(form.row.figure[-7:], "")
    return f"{label} {text}{basis}{which}. {rating.text}"


def _timers(form: ResolvedBench) -> Iterable[Timer]:
    for at, step in enumerate(form.procedure.steps, start=1):
        if step.wait_s is not None and step.wait_label is not None:
            minutes = step.wait_s / 60
            text = f"{minutes:g} min" if minutes < 180 else f"{minutes / 60:g} h"
            name = f"{form.row.key}-{at}"
            yield Timer(name=name, label=step.wait_label, after_s=step.wait_s, text=text, latest_s=step.wait_s)


def _remarks(computed: Computed[ResolvedBench]) -> Iterable[str]:
    form, value = computed.form, computed.figures[computed.form.row.figure]
    if form.test == "squeeze" and (form.wanted_error is not None or form.history is not None):
        yield "A squeeze gives a word, not a number, so the target ± and earlier figures are not used."
    if form.test == "compactability":
        yield from _of_the_tin(computed)
    if form.history is not None and isinstance(value, float):
        yield _history(computed, len(form.history))
    if form.wanted_error is not None and isinstance(value, float):
        yield _plan(computed, form.wanted_error)
    elif form.row.key in ("squeeze", "jar"):
        yield form.row.improve
    if form.test == "water_sensitivity":
        yield from _close_together(computed)
    if form.test == "swell" and form.sample_g is not None and form.sample_g != measurements.SWELL_SAMPLE_G:
        yield f"Read with {form.sample_g:g} g and scaled to {measurements.SWELL_SAMPLE_G:g} g. Gel follows the mass only roughly."
    if isinstance(value, float) and 0 < value < computed.half_width(form.row.figure):
        yield f"The ± is larger than the figure itself, so the figure shows almost nothing. {form.row.improve}"
    if form.test == "moisture" and computed.number("moisture_pct_wet") == 0:
        yield "The sample lost nothing. Either the sand is completely dry, or it was not dried long enough. Dry it again."


def _of_the_tin(computed: Computed[ResolvedBench]) -> Iterable[str]:
    """Whether the blows are those of the standard, and what would make them so."""
    form, standard = computed.form, f"{measurements.STANDARD_RAM_KJ_M2:.2f} kJ/m²"
    trend = "the reading is a trend, and “What went wrong” does not take it as a standard one"
    if not computed.has("ram_energy_kj_m2"):
        if form.manner != "lab":
            yield (
                f"The mass of the rammer, its fall and the width of the tin are not all known, so {trend}. Enter them once: they show the fall that "
                f"matches the standard blow of {standard}."
            )
        return
    energy = f"Your three blows give {computed.number('ram_energy_kj_m2'):.2f} kJ/m², and those of the standard rammer {standard}."
    if form.tin_rammed == "standard":
        yield f"{energy} That is within {100 * measurements.LIKE_STANDARD:g} % (own rule), so it counts as a standard reading."
        return
    fall = computed.number("matching_fall_mm")
    heavier = " A heavier rammer or a narrower tin is easier." if fall > _HIGH_FALL_MM else ""
    yield f"{energy} So {trend}. A fall of {to_figures(fall, 3)} mm would match it.{heavier}"


def _close_together(computed: Computed[ResolvedBench]) -> Iterable[str]:
    first, second = computed.form.compactabilities
    error = quantity("compactability_first_pct").error.absolute
    if abs(first - second) < 2 * math.sqrt(2) * error:
        yield (
            f"The two compactabilities are only {plain(abs(first - second))} apart, close to the ± of the tin test itself. "
            f"{computed.form.row.improve}"
        )


def _history(computed: Computed[ResolvedBench], count: int) -> str:
    if not computed.has("ordinary"):
        return f"Earlier figures: {count} are too few to compare today's with. Enter at least {FEWEST_PAST}."
    mean = to_figures(computed.number("history_mean"), 3)
    within = to_figures(computed.number("history_within"), 2)
    start = (
        f"Your {count} earlier figures have a mean of {mean}; the next one lies within ± {within} of it 19 times in 20."
    )
    today = f"{start} Today's {computed.text(computed.form.row.figure)}"
    if computed.figures["ordinary"] == "yes":
        return f"{today} does."
    return f"{today} does not: repeat the test first, then look for what changed."


def _plan(computed: Computed[ResolvedBench], wanted: float) -> str:
    """The least work for the target ±, and another plan that reaches it; or that none does."""
    form, figure = computed.form, computed.form.row.figure
    unit = getattr(WORDS[figure], "unit", "")
    unit = {"%": "point" if wanted == 1 else "points"}.get(unit, unit)
    target = f"± {plain(wanted)} {unit}".rstrip()
    compared = plans(form, computed.number(figure), computed.doubt)
    best = measurements.least_work(compared, wanted)
    if best is None:
        closest = min(compared, key=lambda plan: plan.error)
        return f"{target} is out of reach: even {_in_words(closest)} would leave ± {to_figures(closest.error, 2)}. {form.row.improve}"
    if computed.half_width(figure) <= wanted:
        return (
            f"{target} is reached already. The least work for it is {_in_words(best)}, {best.work_min:.0f} min of work."
        )
    others = [plan for plan in compared if form.row.weighed and plan.error <= wanted and plan.repeats != best.repeats]
    other = f" {_in_words(others[0]).capitalize()} would do too, with {others[0].work_min:.0f} min." if others else ""
    return f"For {target}: {_in_words(best)}, {best.work_min:.0f} min of work in all.{other}"


def _in_words(plan: measurements.TestPlan) -> str:
    count = ("one", "two", "three", "four", "five")[plan.repeats - 1]
    times = f"{count} {'test' if plan.repeats == 1 else 'tests'}"
    if plan.sample_g is None or plan.step_g is None:
        return times
    return f"{times} of {plan.sample_g:g} g on a scale that shows {plan.step_g:g} g"


_ONWARD = {
    "moisture": ("temper", "Is the sand ready for moulding?", "moisture_pct_wet"),
    "wash": ("estimate", "How much of it is live?", "washed_pct_dry"),
    "methylene_blue": ("estimate", "How much live clay is in it?", "clay_blue_pct_dry"),
    "compactability": ("diagnose", "What went wrong?", "compactability_read_pct"),
    "swell": ("choose", "Is this clay usable?", "swell_ml"),
    "tin_density": ("flask", "Is it enough for a flask?", "rammed_density_kg_l"),
    "flask_density": ("flask", "Is it enough for a flask?", "rammed_density_kg_l"),
    "permeability": ("diagnose", "What went wrong?", "permeability"),
    "strength": ("diagnose", "What went wrong?", "strength_kpa"),
    "spray": ("temper", "How many strokes does it need?", "strokes_per_100ml"),
    "water_sensitivity": ("temper", "Is the sand ready for moulding?", ""),
    "squeeze": ("feel", "How much water is that?", ""),
    "shatter": ("temper", "Is the sand ready for moulding?", ""),
    "hardness": ("flask", "Fill the flask", ""),
    "jar": ("choose", "Is this sand usable?", ""),
    "loss_on_ignition": ("rebond", "What does the used sand need?", ""),
    "volatiles": ("rebond", "What does the used sand need?", ""),
}
"""The next job after a test, its label, and the word of the figure there, if it takes it over."""

_ALSO = {"swell": {"stuff": CLAY}, "jar": {"stuff": SAND}}
"""What else the next job needs."""


def _next(computed: Computed[ResolvedBench]) -> Iterable[Next]:
    """The next job, with the figure and its ±."""
    row = computed.form.row
    job, label, word = _ONWARD[row.key]
    figure = computed.carried_as_sure(**{word: row.figure}) if word else {}
    also = _ALSO.get(row.key, {})
    if row.key == "compactability":
        also = {"tin_rammed": computed.form.tin_rammed}
    elif row.key == "squeeze":
        also = {"feel": BY_SQUEEZE[str(computed.form.squeeze)]}
    yield Next(job=job, label=label, inputs=figure | also)
    yield from _to_the_tin(computed)


def _to_the_tin(computed: Computed[ResolvedBench]) -> Iterable[Next]:
    """The dose by the tin, from its reading or from the slope that two tests of one sand show."""
    label = "How much water does it need by the tin?"
    if computed.form.test == "compactability":
        yield Next(job="tin", label=label, inputs=computed.carried_as_sure(compactability_now_pct="compactability_pct"))
    elif computed.form.test == "water_sensitivity" and computed.is_above_zero("water_sensitivity"):
        sensitivity, declared = computed.number("water_sensitivity"), quantity("compactability_slope")
        slope = 10 / sensitivity
        side = slope * min(1.0, computed.half_width("water_sensitivity") / sensitivity)
        if declared.low <= slope <= declared.high:
            given = f"{to_figures(slope, 3)} ± {to_figures(side, 2)}"
            yield Next(job="tin", label=label, inputs={"compactability_slope": given})
