"""How *plan* presents the day: the next thing to do, and a line for each step."""

from __future__ import annotations

import math
from collections.abc import Container, Iterable, Mapping
from typing import Any

from sandmix.asking import cautions
from sandmix.asking.cautions import Caution
from sandmix.asking.form import asks
from sandmix.asking.job import Computed, Lead, Next, Record, Telling, ToDo
from sandmix.casting.casting import ASSUMED_SAID
from sandmix.jobs.feed.telling import MAKE_IT
from sandmix.jobs.fit.telling import MAKE_ONE
from sandmix.jobs.heap.telling import TEST_IT
from sandmix.jobs.plan.carrier import BLOCK_SAID, COMPACT, COMPACT_SAID
from sandmix.jobs.plan.form import PlanForm, ResolvedPlan
from sandmix.jobs.plan.steps import Step, as_text
from sandmix.jobs.rebond.telling import NOTHING_TO_DO
from sandmix.jobs.shared.flasks import CLOSE, SHORT
from sandmix.language.wording import list_of, lowered, with_unit
from sandmix.vocabulary import WORDS

ALL_CAUTIONS = {str(caution): caution for caution in vars(cautions).values() if isinstance(caution, Caution)}
UNTESTED = "The sand was never tested, or its last test is too old to go by. Test it before you mould."
DONE = "done"
BOOK_STOPS = "The heap book says stop: only a later test in the book lifts that."
BEFORE_POURING = ("fit", "feed", "gate", "mix", "shopping", "temper", "flask")
UP_TO_POURING = (*BEFORE_POURING, "pour")
ADVICE = ("feed", "gate")
"""Steps that nothing waits for, unless they say stop."""


def tell(computed: Computed[ResolvedPlan]) -> Telling:
    """Say what to do next, and how each step stands."""
    form, steps = computed.form, computed.form.steps
    ahead = next_step(form)
    return Telling(
        headline=_headline(ahead, form),
        remarks=tuple(_remarks(form)),
        todo=tuple(ToDo(**line) for line in ahead.answer["todo"]) if ahead.answer else (),
        state=state(steps),
        lead=_lead(ahead),
        cautions=tuple(_cautions(form, ahead)),
        working=tuple(f"{step.job.short}: {step.why}" for step in steps),
        next=tuple(_link(step, step is ahead) for step in steps),
        steps=tuple(_told(step, form, ahead) for step in steps),
        records=tuple(_records(form)),
    )


def _headline(ahead: Step, form: ResolvedPlan) -> str:
    """What to do next; that nothing is left to do once the sand is restored."""
    line = UNTESTED if _is_untested(ahead, form) else _line(ahead)
    if _is_finished(ahead, form):
        return f"This casting is finished. {line}"
    if form.is_poured and ahead.job.name == "rebond" and not form.worked_since:
        return f"Next: open the mould, lift the casting out with tongs, and let the sand cool. Then restore it: {lowered(line)}"
    if _book_stops(form):
        line = f"{BOOK_STOPS} {line}"
    return f"Next: {lowered(ahead.job.short)}. {line}"


def _is_finished(ahead: Step, form: ResolvedPlan) -> bool:
    """Whether the sand is restored after the pour, so that nothing is left to do."""
    return form.is_poured and ahead.state["word"] == NOTHING_TO_DO


def _told(step: Step, form: ResolvedPlan, ahead: Step) -> dict[str, Any]:
    """A step as plain data, with where it stands in this day.

    ``past`` are the steps up to the pour once the book has the cast, and the opening once its time has come.
    """
    is_past = form.is_poured and (_is_before(step) or (step.job.name == "burnout" and ahead.job.name == "rebond"))
    locked = _locked(step, form)
    stands = dict(step.state)
    if is_past:
        stands = {"word": "past", "tone": "plain"}
    elif locked:
        stands = {"word": "locked", "tone": "stop"}
    elif step is ahead and _is_finished(step, form):
        stands = {"word": DONE, "tone": "go"}
    elif _is_left_out(step, form):
        stands = {"word": "optional", "tone": "plain"}
    return step.to_dict() | {
        "line": _line(step),
        "locked": locked,
        "next": step is ahead,
        "past": is_past,
        "stands": stands,
    }


def _is_left_out(step: Step, form: ResolvedPlan) -> bool:
    """Whether it is a riser that would be worth making, but that the plan does not count with."""
    return step.job.name == "feed" and step.state["word"] == MAKE_IT and form.with_riser != "yes"


def state(steps: Iterable[Step]) -> tuple[str, str]:
    """Return the word of the day: stop if a step up to pouring says so, else missing, else care, else go."""
    until = [step.state for step in steps if step.job.name in UP_TO_POURING]
    if any(state["tone"] == "stop" for state in until):
        return "stop", "stop"
    if any(step.needs for step in steps if step.job.name in UP_TO_POURING):
        return "missing", "care"
    return ("care", "care") if any(state["tone"] == "care" for state in until) else ("go", "go")


def next_step(form: ResolvedPlan) -> Step:
    """Return the step to look at first.

    Before the pour it is a step that says stop, else the first in the order of the day that is still to do: sand to mix, something missing,
    a heap that the book says to test, or something to take care with. After the pour it is the opening until its time has come, also while
    that is not known, then the sand.
    """
    by_job = {step.job.name: step for step in form.steps}
    if form.poured_ago_min is not None:
        opening = by_job["burnout"].figure("open_after_min")
        may_open = isinstance(opening, float) and form.poured_ago_min >= opening
        return by_job["rebond" if may_open else "burnout"]
    if _book_stops(form):
        return by_job["temper"]
    until = [step for step in form.steps if _is_before(step)]
    stopped = [step for step in until if _stops(step)]
    passed = {CLOSE, SHORT} if "mix" in by_job else {CLOSE}
    return [*stopped, *(step for step in until if _is_to_do(step, passed)), *form.steps][0]


def _book_stops(form: ResolvedPlan) -> bool:
    """Whether the book says stop, before the pour: a moisture that was only typed does not lift that."""
    heap = next(step for step in form.steps if step.job.name == "heap")
    return not form.is_poured and _stops(heap)


def _is_untested(step: Step, form: ResolvedPlan) -> bool:
    """Whether a step is the test of a heap that the book says to test."""
    heap = next(step for step in form.steps if step.job.name == "heap")
    return step.needs == ("moisture_pct_wet",) and heap.state["word"] == TEST_IT


def _is_to_do(step: Step, passed: Container[str]) -> bool:
    """Whether a step is still to do. The words *passed* ask for nothing: sand that is just enough, or that a later step mixes."""
    if step.job.name in ADVICE:
        return False
    cares = step.state["tone"] == "care" and step.state["word"] not in passed
    return step.job.name == "mix" or step.answer is None or cares or step.state["word"] == MAKE_ONE


def _locked(step: Step, form: ResolvedPlan) -> str:
    """Why a step must wait: the pour, while the sand says stop, as given or by the book."""
    if step.job.name != "pour":
        return ""
    stopped = [other for other in form.steps if other.job.name in BEFORE_POURING and _stops(other)]
    if stopped:
        return f"Locked: “{stopped[0].job.short}” says stop."
    return f"Locked. {BOOK_STOPS}" if _book_stops(form) else ""


def _remarks(form: ResolvedPlan) -> Iterable[str]:
    """What is assumed, as far as a step uses it."""
    used = {word for step in form.steps if _is_before(step) for word in step.inputs}
    yield from dict.fromkeys(ASSUMED_SAID[word] for word in form.assumes if word in used)
    if any(step.job.name == "fit" and BLOCK_SAID in step.why for step in form.steps):
        yield BLOCK_SAID
    if any(carried.origin == COMPACT for step in form.steps for carried in step.carried_in.values()):
        yield COMPACT_SAID
    if any(_is_left_out(step, form) for step in form.steps):
        yield (
            "Planned without a riser. If the first casting has a hole in its thickest part, choose “Plan with a riser”."
        )


def _records(form: ResolvedPlan) -> Iterable[Record]:
    """The entries of the book that this day leads to: the sand that is there, new sand, and the cast."""
    by_job = {step.job.name: step for step in form.steps}
    if form.is_poured:
        return
    if form.book is None:
        yield from _begun(by_job["rebond"])
    if (mix := by_job.get("mix")) and mix.answer:
        yield from (Record(**record) for record in mix.answer["records"])
    pour = by_job["pour"]
    stopped = _book_stops(form) or any(_stops(step) for step in form.steps if _is_before(step))
    if form.book is not None and pour.answer and form.cast and not stopped and not by_job["temper"].needs:
        cast = {word: _with_its_unit(word, given) for word, given in form.cast.items()}
        opening = by_job["burnout"].figure("open_after_min")
        if isinstance(opening, float):
            cast["opened_after_min"] = f"{math.ceil(opening)} min"
        yield Record(kind="poured", label="Poured: record this cast", words=cast)
        if (facing := by_job.get("facing")) and facing.answer:
            yield from (Record(**record) for record in facing.answer["records"] if record["kind"] != "poured")


def _with_its_unit(word: str, given: object) -> str:
    """A word of an entry as a person would type it; a plain number names the unit of its word."""
    text = as_text(given)
    return with_unit(text, getattr(WORDS[word], "unit", "")) if isinstance(given, float) else text


def _begun(rebond: Step) -> Iterable[Record]:
    """The sand as it lies, as the first entry of a book; nothing while its clay or its moisture is not known."""
    known = {"joined_kg": "heap_kg"} | {word: word for word in ("moisture_pct_wet", "clay_pct_dry")}
    if all(word in rebond.inputs for word in known.values()):
        also = ["dead_fines_pct_dry"] if "dead_fines_pct_dry" in rebond.inputs else []
        words = {theirs: as_text(rebond.inputs[ours]) for theirs, ours in known.items()}
        words |= {word: as_text(rebond.inputs[word]) for word in also}
        yield Record(kind="joined", label="Start the heap book with this sand", words=words)


def _is_before(step: Step) -> bool:
    return step.job.name in UP_TO_POURING


def _cautions(form: ResolvedPlan, ahead: Step) -> Iterable[Caution]:
    """The cautions of the steps that say stop and, after the pour, of the next step; those of all others stand at their own jobs."""
    speaking = [step for step in form.steps if _stops(step) or (form.is_poured and step is ahead)]
    said = [text for step in speaking if step.answer for text in step.answer["cautions"]]
    return (ALL_CAUTIONS[text] for text in dict.fromkeys(said))


def _stops(step: Step) -> bool:
    return step.state["tone"] == "stop"


def _lead(step: Step) -> Lead:
    if step.answer:
        lead = step.answer["lead"]
        return Lead(word=lead["word"], label=lead["label"], text=lead["text"], then=lead["then"])
    word = step.needs[0] if step.needs else ""
    return Lead(word=word, label=_labels(step) or step.job.short, text="not given" if word else "refused")


def _labels(step: Step) -> str:
    asked = asks(PlanForm)
    first, *others = [asked[need].label for need in step.needs if need in asked] or [""]
    return list_of([first, *map(lowered, others)], "and")


def _line(step: Step) -> str:
    """What the step says in one sentence or two."""
    if step.needs == ("book",):
        return "It begins with its first entry, such as the new sand."
    if labels := _labels(step):
        return f"Still needed: {lowered(labels)}."
    return step.headline


def _link(step: Step, foremost: bool) -> Next:
    return Next(job=step.job.name, label=step.job.title, inputs=_typed(step.inputs), foremost=foremost)


def _typed(inputs: Mapping[str, object]) -> dict[str, str]:
    """The inputs of a step as a person would type them; a book goes its own way."""
    return {word: as_text(given) for word, given in inputs.items() if word not in ("book", "now")}
