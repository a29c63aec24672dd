"""What *bench* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from sandmix.asking.cautions import DRYING, DUST, DYE, FURNACE, HOT_CASTING, LIFT, WET_MOULD, Caution
from sandmix.asking.job import Check, Computed, Lead, Next, Telling, Timer
from sandmix.bench import measurements
from sandmix.bench.catalogue import Mark, Step
from sandmix.jobs.bench.figures import FEWEST_PAST, _ways
from sandmix.jobs.bench.form import BenchForm
from sandmix.jobs.bench.working import working
from sandmix.language.wording import plain, to_figures
from sandmix.language.words import Quantity
from sandmix.materials.choosing import CLAY
from sandmix.vocabulary import WORDS
from sandmix.vocabulary.bench_words import HEATS, SCALES

_SQUEEZE_TONES = {"falls": "care", "crumbles": "care", "clean": "go", "sticky": "care"}
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


def tell(computed: Computed[BenchForm]) -> Telling:
    """Say what the figure says of the sand and what it does not, the steps and waits of the test, and how to be surer."""
    form, row = computed.form, computed.form.row
    text, mark = computed.text(row.figure), _mark(computed)
    strange = computed.figures.get("ordinary") == "no"
    return Telling(
        headline=_headline(computed, text, mark),
        state=("out of the ordinary", "care") if strange else (_TONE_WORDS[mark.tone], mark.tone),
        lead=Lead(word=row.figure, label=WORDS[row.figure].label, text=text, then=computed.within(row.figure)),
        remarks=(f"It says: {row.says}", f"It does not say: {row.says_not}", *_remarks(computed)),
        cautions=(*((WET_MOULD,) if mark.tone == "stop" else ()), *_CAUTIONS.get(row.key, ())),
        working=tuple(working(computed)),
        checklist=tuple(Check(tone="care", text=step.text) for step in _steps(form)),
        timers=tuple(_timers(form)),
        next=tuple(_next(computed)),
    )


def _mark(computed: Computed[BenchForm]) -> Mark:
    """What the figure says by itself; plain where nothing general is known."""
    row, value = computed.form.row, computed.figures[computed.form.row.figure]
    if isinstance(value, str):
        return Mark(below=math.inf, says="", tone=_SQUEEZE_TONES[value])
    known = (
        None
        if computed.form.hardness_scale == "cone" and row.key == "hardness"
        else row.mark(computed.number(row.figure))
    )
    return known or Mark(below=math.inf, says="Compare it with your own earlier ones.", tone="plain")


def _headline(computed: Computed[BenchForm], text: str, mark: Mark) -> str:
    form, label = computed.form, WORDS[computed.form.row.figure].label
    if form.test == "squeeze":
        return f"{label}: {text}."
    if form.test == "spray":
        dose = f" {computed.text('dose_strokes')} for the dose." if computed.has("dose_strokes") else ""
        return f"{label}: {text}.{dose} {mark.says}"
    on = {"hardness": SCALES, "volatiles": HEATS}.get(str(form.test))
    which = "" if on is None else f", {on[str(form.hardness_scale if form.test == 'hardness' else form.volatiles_at)]}"
    return f"{label} {text}{which}. {mark.says}"


def _steps(form: BenchForm) -> tuple[Step, ...]:
    manner = form.row.lab if form.manner == "lab" and form.row.lab is not None else form.row.home
    return manner.steps


def _timers(form: BenchForm) -> Iterable[Timer]:
    for at, step in enumerate(_steps(form), start=1):
        if step.wait_s is not None and step.wait_label is not None:
            minutes = step.wait_s / 60
            text = f"{minutes:g} min" if minutes < 180 else f"{minutes / 60:g} h"
            name = f"{form.row.key}-{at}"
            yield Timer(name=name, label=step.wait_label, after_s=step.wait_s, text=text, latest_s=step.wait_s)


def _remarks(computed: Computed[BenchForm]) -> Iterable[str]:
    form = computed.form
    if form.test == "squeeze" and (form.wanted_error is not None or form.history is not None):
        yield "A squeeze is a word and no number, so the wanted ± and earlier figures are left aside."
    if computed.has("ordinary"):
        yield from _history(computed)
    elif form.history is not None and isinstance(computed.figures[form.row.figure], float):
        yield f"Earlier figures: {len(form.history)} are too few to judge today's by. From {FEWEST_PAST} on they say something."
    if form.wanted_error is not None and isinstance(computed.figures[form.row.figure], float):
        yield _plan(computed, form.wanted_error)
    elif form.row.key in ("squeeze", "jar"):
        yield form.row.surer
    if form.test == "water_sensitivity":
        yield from _touchy(computed)
    if form.test == "swell" and form.sample_g is not None and form.sample_g != measurements.SWELL_SAMPLE_G:
        yield f"Read on {form.sample_g:g} g and brought to {measurements.SWELL_SAMPLE_G:g} g by proportion, which gel follows only roughly."
    value = computed.figures[form.row.figure]
    if isinstance(value, float) and 0 < value < computed.half_width(form.row.figure):
        yield f"The ± is larger than the figure itself, so it says next to nothing. {form.row.surer}"
    if form.test == "moisture" and computed.number("moisture_pct_wet") == 0:
        yield "The sample lost nothing: either the sand is bone dry, or it was not dried long enough. Dry it again."


def _touchy(computed: Computed[BenchForm]) -> Iterable[str]:
    first, second = computed.form.compactabilities
    error = WORDS["compactability_first_pct"]
    assert isinstance(error, Quantity)
    if abs(first - second) < 2 * math.sqrt(2) * error.error.absolute:
        yield (
            f"The two compactabilities are only {plain(abs(first - second))} apart, close to what the tin itself leaves in "
            f"doubt. {computed.form.row.surer}"
        )


def _history(computed: Computed[BenchForm]) -> Iterable[str]:
    figure = computed.form.row.figure
    assert computed.form.history is not None
    count = len(computed.form.history)
    mean = to_figures(computed.number("history_mean"), 3)
    within = to_figures(computed.number("history_within"), 2)
    start = (
        f"Your {count} earlier figures have a mean of {mean}, and one more falls within ± {within} 19 times out of 20."
    )
    if computed.figures["ordinary"] == "yes":
        yield f"{start} Today's {computed.text(figure)} does."
    else:
        yield f"{start} Today's {computed.text(figure)} is out of the ordinary: repeat the test first, then look for what changed."


def _plan(computed: Computed[BenchForm], wanted: float) -> str:
    """The least work that reaches the wanted error, beside what else was compared; or in words that nothing does."""
    form, figure = computed.form, computed.form.row.figure
    unit = getattr(WORDS[figure], "unit", "")
    of = {"%": "point" if wanted == 1 else "points"}.get(unit, unit)
    want = f"± {plain(wanted)} {of}".rstrip()
    ways = _ways(form, computed.number(figure), computed.doubt)
    best = measurements.least_work(ways, wanted)
    if best is None:
        closest = min(ways, key=lambda plan: plan.error)
        return f"{want} is out of reach: even {_said(closest)} would leave ± {to_figures(closest.error, 2)}. {form.row.surer}"
    if computed.half_width(figure) <= wanted:
        return (
            f"{want} is reached already. The least work for it would be {_said(best)}, {best.work_min:.0f} min of work."
        )
    others = [plan for plan in ways if form.row.weighed and plan.error <= wanted and plan.repeats != best.repeats]
    beside = f" {_said(others[0]).capitalize()} would do too, at {others[0].work_min:.0f} min." if others else ""
    return f"For {want}: {_said(best)}, {best.work_min:.0f} min of work in all.{beside}"


def _said(plan: measurements.TestPlan) -> str:
    count = ("one", "two", "three", "four", "five")[plan.repeats - 1]
    times = f"{count} {'test' if plan.repeats == 1 else 'tests'}"
    if plan.sample_g is None or plan.step_g is None:
        return times
    return f"{times} of {plan.sample_g:g} g on a scale that shows {plan.step_g:g} g"


_ONWARD = {
    "moisture": ("temper", "Is the sand fit to mould?", "moisture_pct_wet"),
    "wash": ("estimate", "How much of it is live?", "washed_pct_dry"),
    "methylene_blue": ("estimate", "How much live clay is in it?", "clay_blue_pct_dry"),
    "swell": ("choose", "Is this clay usable?", "swell_ml"),
    "tin_density": ("flask", "Is it enough for a flask?", "rammed_density_kg_l"),
    "flask_density": ("flask", "Is it enough for a flask?", "rammed_density_kg_l"),
}
"""Where the figure of a test goes on to, and as which word there."""

_BESIDE = {"swell": {"stuff": CLAY}}
"""What else the next job has to be told."""


def _next(computed: Computed[BenchForm]) -> Iterable[Next]:
    """The figure handed on with its ±, so that the next job is as sure of it as this one."""
    row = computed.form.row
    if row.key not in _ONWARD:
        return
    job, label, word = _ONWARD[row.key]
    yield Next(job=job, label=label, inputs=computed.carried_as_sure(**{word: row.figure}) | _BESIDE.get(row.key, {}))
