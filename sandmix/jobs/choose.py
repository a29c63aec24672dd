"""The job *choose*: is a sand or a clay usable for moulding sand, why, what to test next, and what grinding and sieving leave of it."""

from __future__ import annotations

from collections.abc import Iterable

from .. import choosing
from ..cautions import CEMENT, DRYING, DUST, GRINDING, Caution
from ..forms.choose import WEIGHED, Choose, idle_tests, judged, settle
from ..job import Figures, Job, Lead, Needs, Next, OnlyFor, Telling, Told
from ..sources import SOURCES
from ..vocabulary import WORDS
from ..wording import raised
from ..words import Quantity

_ORIGINS = {
    "read": "read",
    "memory": "from memory",
    "practice": "common practice",
    "own": "own rule",
}
_STATES = {
    choosing.USABLE: ("usable", "go"),
    choosing.CARE: ("usable with care", "care"),
    choosing.NOT_USABLE: ("not usable", "stop"),
    "": ("test first", "care"),
}
_MOST_LOST_PCT = 5.0
_NOTHING_PCT = 0.01


def run(form: Choose) -> Figures:
    """Return the verdict or the test that it wants, the reasons, and the yield with what follows of it."""
    judgement = judged(form)
    figures: Figures = {
        "usability": judgement.usability or None,
        "test_first": judgement.next_test or None,
        "reasons": [
            {"why": reason.why, "usability": reason.says, "origin": SOURCES[reason.source].citation}
            for reason in judgement.reasons
        ],
    }
    if form.ground_kg is None or form.passed_kg is None:
        return figures
    left = choosing.yield_pct(form.ground_kg, form.passed_kg)
    figures["yield_pct"] = left
    if form.bought_kg is not None:
        figures["usable_kg"] = form.bought_kg * left / 100
    if form.wanted_kg is not None and left > _NOTHING_PCT:
        figures["buy_kg"] = form.wanted_kg / (left / 100)
    if _may_bind(form, judgement) and form.clay_activity_pct is not None:
        dry = form.passed_kg * (1 - form.clay_moisture_pct_wet / 100)
        figures["live_clay_kg"] = dry * form.clay_activity_pct / 100
    return figures


def _may_bind(form: Choose, judgement: choosing.Judgement) -> bool:
    """Whether it is a clay of which it is known that it binds."""
    return bool(form.kind.clay) and judgement.usability in (choosing.USABLE, choosing.CARE)


def needs(form: Choose, figures: Figures) -> Needs:
    """What is left of it takes two weighings, and is spoken of where one of them was begun."""
    if all(getattr(form, word) is None for word in WEIGHED):
        return {}
    both = ("ground_kg", "passed_kg")
    asked: dict[str, tuple[str, ...]] = {"yield_pct": both}
    if form.bought_kg is not None:
        asked["usable_kg"] = both
    if form.wanted_kg is not None:
        asked["buy_kg"] = both
    return asked


def tell(told: Told[Choose]) -> Telling:
    """Say whether it is usable and why."""
    form, judgement = told.form, judged(told.form)
    state = _STATES[judgement.usability]
    name = form.kind.label or f"a {form.what} without a label"
    if judgement.usability:
        why = judgement.reasons[0].why
        headline = f"{state[0].capitalize()}: {name}. {why}"
        lead = Lead(word="usability", label="Usable", text=state[0], then=name)
    else:
        headline = f"Not decided: {name}. The label alone does not tell. {judgement.next_test}"
        lead = Lead(word="test_first", label="Test first", text=judgement.next_test.partition(":")[0], then=name)
    return Telling(
        headline=headline,
        state=state,
        lead=lead,
        remarks=tuple(_remarks(told, judgement)),
        cautions=tuple(_cautions(form, judgement)),
        working=tuple(_working(told)),
        next=tuple(_next(told, judgement)),
    )


def _remarks(told: Told[Choose], judgement: choosing.Judgement) -> Iterable[str]:
    form = told.form
    against = (choosing.NOT_USABLE,) if judgement.usability == choosing.NOT_USABLE else choosing.VERDICTS
    for reason in judgement.reasons[1 if judgement.usability else 0 :]:
        if reason.says not in against:
            continue
        yield f"{reason.why} ({_ORIGINS[SOURCES[reason.source].how_sure]})"
    if idle := idle_tests(form):
        yield f"{raised(' and '.join(idle))} {'says' if len(idle) == 1 else 'say'} nothing of a {form.what}: left out."
    if form.what == choosing.CLAY and form.swell_ml is not None and choosing.is_near_a_border(form.swell_ml):
        yield f"{form.swell_ml:g} mL is close to a border. Do the swell test twice, on dry powder."
    if told.has("yield_pct"):
        yield from _yield_remarks(told)
    if told.has("live_clay_kg"):
        yield (
            f"Of what passed the sieve {told.range('live_clay_kg') or told.text('live_clay_kg')} is live clay, its water left out. "
            "Start from the high end, so that no more goes in than is needed."
        )


def _yield_remarks(told: Told[Choose]) -> Iterable[str]:
    if told.number("yield_pct") <= _NOTHING_PCT:
        yield "Nothing passed the sieve, so no amount bought would do. Grind it finer, or slake it overnight."
    elif told.form.what == choosing.CLAY and told.number("yield_pct") < 100 - _MOST_LOST_PCT:
        yield "What stays on the sieve can be ground again, or slaked overnight and used as slurry: its water then counts."
    if told.number("yield_pct") > _NOTHING_PCT and told.doubt["yield_pct"][0] <= _NOTHING_PCT:
        yield "What passed is no more than the scale may be off: how much to buy can't be told. Weigh it on a finer one."
    if told.form.what == choosing.SAND:
        yield "Weigh it dry: damp sand clings to the mesh, and what clings counts as left behind."


def _cautions(form: Choose, judgement: choosing.Judgement) -> Iterable[Caution]:
    if form.kind.key in ("sand_mix", "cement", "unknown_sand"):
        yield CEMENT
    yield GRINDING if form.kind.clay else DUST
    if (
        form.what == choosing.SAND
        and form.kind.reason.says == choosing.CARE
        and judgement.usability != choosing.NOT_USABLE
    ):
        yield DRYING


def _working(told: Told[Choose]) -> Iterable[str]:
    form = told.form
    yield "the worst of all that was found decides; what a label leaves open must pass its tests first"
    if told.has("yield_pct"):
        yield f"left = 100 × {form.passed_kg:g} / {form.ground_kg:g} = {told.number('yield_pct'):.1f} %"
    if told.has("buy_kg"):
        yield f"to buy = {form.wanted_kg:g} / {told.number('yield_pct') / 100:.3f} = {told.number('buy_kg'):.2f} kg"
    if told.has("live_clay_kg"):
        yield (
            f"live clay = {form.passed_kg:g} × (1 − {form.clay_moisture_pct_wet / 100:g}) × {form.clay_activity_pct:g} % = "
            f"{told.number('live_clay_kg'):.3f} kg"
        )


def _next(told: Told[Choose], judgement: choosing.Judgement) -> Iterable[Next]:
    form = told.form
    if judgement.usability == choosing.NOT_USABLE:
        return
    if judgement.usability and (clay := choosing.clay_of(form.kind, form.swell_ml)):
        yield Next(job="mix", label="Mix with it", inputs={"clay": clay})
    taken = WORDS["clay_kg"]
    assert isinstance(taken, Quantity)
    if told.has("buy_kg") and told.number("buy_kg") > taken.high:
        return
    if told.has("buy_kg") and form.what == choosing.CLAY:
        yield Next(job="shopping", label="How many bags is that?", inputs=told.carried(clay_kg="buy_kg"))
    elif told.has("buy_kg") and told.number("yield_pct") >= 1:
        left = {"sand_kg": f"{form.wanted_kg:.4g} kg", **told.carried(sand_yield_pct="yield_pct")}
        yield Next(job="shopping", label="How many bags is that?", inputs=left)


def _labels_of(stuff: str) -> tuple[str, ...]:
    """The labels of a stuff, and that of none."""
    return (*(kind.key for kind in choosing.KINDS.values() if kind.stuff == stuff and kind.label), choosing.UNKNOWN)


JOB = Job(
    name="choose",
    short="Choose",
    title="Is this usable for moulding sand?",
    form=Choose,
    settle=settle,
    run=run,
    tell=tell,
    answers=(
        "usability",
        "test_first",
        "reasons",
        "yield_pct",
        "usable_kg",
        "buy_kg",
        "live_clay_kg",
    ),
    needs=needs,
    only_for=(
        OnlyFor(
            choice="bag_label",
            words={
                "stuff": (choosing.UNKNOWN,),
                **dict.fromkeys(("jar", "grain_shape", "pebbles_pct"), _labels_of(choosing.SAND)),
                **dict.fromkeys(
                    ("swell_ml", "swollen", "perfume", "clay_activity_pct", "clay_moisture_pct_wet"),
                    _labels_of(choosing.CLAY),
                ),
            },
        ),
    ),
    example={
        "bag_label": "clay litter granules without scent",
        "swell_ml": "26 mL",
        "swollen": "a gel",
        "bought_kg": "10 kg",
        "ground_kg": "2 kg",
        "passed_kg": "1.45 kg",
        "wanted_kg": "4 kg",
    },
    story="A ten kilogram bag of grey litter granules. Two kilograms went through a hand mill and a fine sieve, and a pinch stood a day in water.",
)
