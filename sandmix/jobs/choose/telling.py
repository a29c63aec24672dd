"""How *choose* presents its answer: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import CEMENT, DRYING, DUST, GRINDING, VENT_GAS, Caution
from sandmix.asking.job import Computed, Lead, Next, Telling, ToDo, WayOut
from sandmix.jobs.choose.figures import NOTHING_PCT
from sandmix.jobs.choose.form import ChooseForm, idle_tests, judged
from sandmix.language.sources import SOURCES
from sandmix.language.wording import list_of, raised
from sandmix.materials import choosing
from sandmix.recipes.too_wet import LABELS_OF
from sandmix.vocabulary import quantity

_ORIGINS = {
    "read": "read in the source",
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
LEAST_YIELD_PCT = 1.0
"""A sand that yields less is not worth sieving (own choice)."""


def tell(computed: Computed[ChooseForm]) -> Telling:
    """Say whether it is usable, and why."""
    form, judgement = computed.form, judged(computed.form)
    state = _STATES[judgement.usability]
    name = form.kind.label or f"a {form.what} without a label"
    if judgement.usability:
        why = judgement.reasons[0].why
        headline = f"{state[0].capitalize()}: {name}. {why}"
        lead = Lead(word="usability", label="Verdict", text=state[0], then=name)
    else:
        headline = f"Not decided: {name}. The label alone is not enough. {judgement.next_test}"
        lead = Lead(word="test_first", label="Test first", text=judgement.next_test.partition(":")[0], then=name)
    return Telling(
        headline=headline,
        state=state,
        lead=lead,
        todo=tuple(_to_do(computed, judgement)),
        remarks=tuple(_remarks(computed, judgement)),
        cautions=tuple(_cautions(form, judgement)),
        working=tuple(_working(computed)),
        next=tuple(_next(computed, judgement)),
    )


def _to_do(computed: Computed[ChooseForm], judgement: choosing.Judgement) -> Iterable[ToDo]:
    """The test that decides, what to leave, or how much to buy."""
    form = computed.form
    if not judgement.usability:
        yield ToDo(text=judgement.next_test)
    elif judgement.usability == choosing.NOT_USABLE:
        yield ToDo(text=f"Do not use it for moulding: look for another {form.what}")
    elif computed.has("buy_kg"):
        yield ToDo(text=f"Buy, for {form.wanted_kg:g} kg that pass the sieve", amount=computed.text("buy_kg"))


def _remarks(computed: Computed[ChooseForm], judgement: choosing.Judgement) -> Iterable[str]:
    form = computed.form
    against = (choosing.NOT_USABLE,) if judgement.usability == choosing.NOT_USABLE else choosing.VERDICTS
    for reason in judgement.reasons[1 if judgement.usability else 0 :]:
        if reason.usability not in against:
            continue
        why = f"{reason.why} ({_ORIGINS[SOURCES[reason.source].how_sure]})"
        yield why if reason.usability == choosing.USABLE else WayOut(why)
    if form.kind.has_own_figures and judgement.usability != choosing.NOT_USABLE:
        yield WayOut(choosing.OWN_FIGURES[form.kind.key])
    if idle := idle_tests(form):
        yield f"{raised(list_of(idle, 'and'))} {'means' if len(idle) == 1 else 'mean'} nothing for {form.what}, so the result is not used."
    if form.what == choosing.CLAY and form.swell_ml is not None and choosing.is_near_a_border(form.swell_ml):
        yield WayOut(
            f"{form.swell_ml:g} mL is close to the limit between two verdicts. Do the swell test twice, with dry powder."
        )
    if computed.has("yield_pct"):
        yield from _yield_remarks(computed)
    if computed.has("live_clay_kg"):
        yield (
            f"Of the dry clay that passed the sieve, {computed.range('live_clay_kg') or computed.text('live_clay_kg')} is live. Start from "
            "the high figure, so that you do not add more clay than you need."
        )


def _yield_remarks(computed: Computed[ChooseForm]) -> Iterable[str]:
    if computed.number("yield_pct") <= NOTHING_PCT:
        yield WayOut(
            "Nothing passed the sieve, so no amount would be enough. Grind it finer, or soak it in water overnight."
        )
    elif computed.form.what == choosing.CLAY and computed.number("yield_pct") < 100 - _MOST_LOST_PCT:
        yield "You can grind what stays on the sieve again, or soak it overnight and use it as slurry. Count the water in the slurry."
    if computed.number("yield_pct") > NOTHING_PCT and computed.doubt["yield_pct"][0] <= NOTHING_PCT:
        yield WayOut(
            "The scale is not exact enough for so little, so the amount to buy is unknown. Weigh it on a finer scale."
        )
    if computed.form.what == choosing.SAND:
        yield "Dry the sand before you sieve and weigh it: damp sand sticks to the mesh and is counted as lost."


def _cautions(form: ChooseForm, judgement: choosing.Judgement) -> Iterable[Caution]:
    if form.kind.key == "used_sand":
        yield VENT_GAS
    if form.kind.key in ("sand_mix", "cement", "unknown_sand"):
        yield CEMENT
    yield GRINDING if form.what == choosing.CLAY and form.kind.reason.usability != choosing.NOT_USABLE else DUST
    if (
        form.what == choosing.SAND
        and form.kind.reason.usability == choosing.CARE
        and judgement.usability != choosing.NOT_USABLE
    ):
        yield DRYING


def _working(computed: Computed[ChooseForm]) -> Iterable[str]:
    form = computed.form
    yield "the worst finding decides; where the label is not enough, the tests come first"
    if computed.has("yield_pct"):
        yield f"yield = 100 × {form.passed_kg:g} / {form.ground_kg:g} = {computed.number('yield_pct'):.1f} %"
    if computed.has("buy_kg"):
        yield f"to buy = {form.wanted_kg:g} / {computed.number('yield_pct') / 100:.3f} = {computed.number('buy_kg'):.2f} kg"
    if computed.has("live_clay_kg"):
        yield (
            f"live clay = {form.passed_kg:g} × (1 − {form.clay_moisture_pct_wet / 100:g}) × {form.clay_activity_pct:g} % = "
            f"{computed.number('live_clay_kg'):.3f} kg"
        )


_BENCH = {"swell": "swell", "jar": "jar"}
"""The tests that decide and have their own steps and clocks at the bench."""


def _next(computed: Computed[ChooseForm], judgement: choosing.Judgement) -> Iterable[Next]:
    form = computed.form
    if judgement.usability == choosing.NOT_USABLE:
        yield _another(form)
        return
    if not judgement.usability:
        test = next(key for key, text in choosing.NEXT_TESTS.items() if text == judgement.next_test)
        if test in _BENCH:
            yield Next(job="bench", label=f"{test.capitalize()} test: steps and result", inputs={"test": _BENCH[test]})
    if kind := next((kind for kind, label in LABELS_OF.items() if label == form.kind.key), ""):
        yield Next(job="temper", label="Test its moisture", inputs={"sand_kind": kind})
    if judgement.usability and (clay := choosing.clay_of(form.kind, form.swell_ml)):
        yield Next(job="mix", label="Mix new sand with it", inputs={"clay": clay})
    if form.what == choosing.SAND and computed.has("yield_pct") and computed.number("yield_pct") < LEAST_YIELD_PCT:
        yield _another(form)
    elif not computed.has("buy_kg") or computed.number("buy_kg") <= quantity("clay_kg").high:
        label = "How many bags is that?" if judgement.usability else "How many bags, if it passes?"
        yield Next(job="shopping", label=label, inputs=_bags(computed))


def _another(form: ChooseForm) -> Next:
    """The bags of another material, where this one is no use."""
    wanted = {} if form.wanted_kg is None else {f"{form.what}_kg": f"{form.wanted_kg:.4g} kg"}
    return Next(job="shopping", label=f"Buy another {form.what}", inputs=wanted)


def _bags(computed: Computed[ChooseForm]) -> dict[str, str]:
    """What “What to buy” takes over: how much, its yield, and the bag that was bought."""
    form = computed.form
    inputs: dict[str, str] = {}
    if form.what == choosing.CLAY and computed.has("buy_kg"):
        inputs |= computed.carried(clay_kg="buy_kg")
    elif form.wanted_kg is not None:
        inputs[f"{form.what}_kg"] = f"{form.wanted_kg:.4g} kg"
    if form.what == choosing.SAND and computed.has("yield_pct"):
        inputs |= computed.carried(sand_yield_pct="yield_pct")
    usual = quantity(f"{form.what}_bag_kg").usual
    if form.bought_kg is not None and usual and usual[0] <= form.bought_kg <= usual[1]:
        inputs[f"{form.what}_bag_kg"] = f"{form.bought_kg:.4g} kg"
    return inputs
