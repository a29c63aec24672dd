"""How *plan* presents the day: the next thing to do, and a line for each step."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping

from sandmix.asking import cautions
from sandmix.asking.cautions import Caution
from sandmix.asking.form import asks
from sandmix.asking.job import Computed, Lead, Next, Telling
from sandmix.jobs.plan.form import PlanForm, ResolvedPlan
from sandmix.jobs.plan.steps import Inputs, Step
from sandmix.language.wording import list_of, lowered, sides_typed, to_figures

ALL_CAUTIONS = {str(caution): caution for caution in vars(cautions).values() if isinstance(caution, Caution)}
UP_TO_POURING = ("fit", "mix", "shopping", "temper", "flask", "pour")


def tell(computed: Computed[ResolvedPlan]) -> Telling:
    """Say what to do next, and how each step stands."""
    steps = computed.form.steps
    ahead = next_step(steps)
    return Telling(
        headline=f"Next: {lowered(ahead.job.short)}. {_line(ahead)}",
        state=state(steps),
        lead=_lead(ahead),
        cautions=tuple(_cautions(steps)),
        working=tuple(f"{step.job.short}: {step.why}" for step in steps),
        next=tuple(_link(step, step is ahead) for step in steps),
        steps=tuple(step.to_dict() | {"line": _line(step)} for step in steps),
    )


def state(steps: Iterable[Step]) -> tuple[str, str]:
    """Return the word of the day: stop if a step up to pouring says so, else missing, else care, else go."""
    until = [step.state for step in steps if step.job.name in UP_TO_POURING]
    if any(state["tone"] == "stop" for state in until):
        return "stop", "stop"
    if any(step.needs for step in steps if step.job.name in UP_TO_POURING):
        return "missing", "care"
    return ("care", "care") if any(state["tone"] == "care" for state in until) else ("go", "go")


def next_step(steps: tuple[Step, ...]) -> Step:
    """Return the step to look at first: one that says stop, else one that cannot be answered, else one to take care with, else the first."""
    until = [step for step in steps if step.job.name in UP_TO_POURING]
    for fits in (_stops, _is_open, _wants_care):
        for step in until:
            if fits(step):
                return step
    return steps[0]


def _cautions(steps: Iterable[Step]) -> Iterable[Caution]:
    """The cautions of the steps up to pouring that say stop; those of all others stand at their own jobs."""
    said = [text for step in steps if step.answer and _stops(step) for text in step.answer["cautions"]]
    return (ALL_CAUTIONS[text] for text in dict.fromkeys(said))


def _stops(step: Step) -> bool:
    return step.state["tone"] == "stop"


def _is_open(step: Step) -> bool:
    return step.answer is None


def _wants_care(step: Step) -> bool:
    return step.state["tone"] == "care"


def _lead(step: Step) -> Lead:
    if step.answer:
        lead = step.answer["lead"]
        return Lead(word=lead["word"], label=lead["label"], text=lead["text"], then=lead["then"])
    word = step.needs[0] if step.needs else ""
    return Lead(word=word, label=_labels(step) or step.job.short, text="not given" if word else "refused")


def _labels(step: Step) -> str:
    asked = asks(PlanForm)
    return list_of([asked[need].label for need in step.needs if need in asked] or [""], "and")


def _line(step: Step) -> str:
    """What the step says in one sentence or two."""
    if step.needs:
        return f"Still needed: {lowered(_labels(step))}."
    return step.headline


def _link(step: Step, foremost: bool) -> Next:
    return Next(job=step.job.name, label=step.job.title, inputs=_as_text(step.inputs), foremost=foremost)


def _as_text(inputs: Inputs) -> dict[str, str]:
    """The inputs of a step as a person would type them; a book goes its own way."""
    return {word: _text(given) for word, given in inputs.items() if word not in ("book", "now")}


def _text(given: object) -> str:
    if isinstance(given, Mapping):
        half_width = f" ± {to_figures(given['doubt'], 2)}" if "doubt" in given else ""
        return f"{to_figures(given['value'], 4)}{half_width} {given.get('unit', '')}".strip()
    if isinstance(given, list) and all(isinstance(side, float) for side in given):
        return sides_typed(given)
    return given if isinstance(given, str) else json.dumps(given)
