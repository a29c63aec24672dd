"""The figures of *plan*: the main ones of its steps, under the words of their own jobs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sandmix.asking.job import Figures
from sandmix.jobs.plan.form import ResolvedPlan
from sandmix.jobs.plan.steps import Step
from sandmix.maths.uncertainty import Band

TAKEN_FROM = {
    "temper": ("verdict", "moisture_pct_wet", "first_water_kg", "water_most_kg", "water_kg", "water_to_lose_kg"),
    "flask": ("rammed_kg", "surplus_kg", "drag_kg", "cope_kg", "both_kg"),
    "rebond": ("first_clay_kg", "clay_kg", "sand_kg", "discard_kg", "heap_after_kg"),
}
"""The job whose figure counts where several steps answer a word; for all other words the first step that answers it."""
ANSWERS = (
    "flask_taken",
    "make_kg",
    "rammed_kg",
    "surplus_kg",
    "sand_bags",
    "clay_bags",
    "cost",
    "verdict",
    "moisture_pct_wet",
    "first_water_kg",
    "water_most_kg",
    "water_kg",
    "water_to_lose_kg",
    "drag_kg",
    "cope_kg",
    "both_kg",
    "charge_kg",
    "crucible_fill_pct",
    "put_on_kg",
    "hold_down_kg",
    "vents",
    "freeze_s",
    "solid_after_min",
    "casting_open_min",
    "open_after_min",
    "handle_after_min",
    "heap_kg",
    "clay_pct_dry",
    "discard_kg",
    "sand_kg",
    "first_clay_kg",
    "clay_kg",
    "heap_after_kg",
)


def source(steps: tuple[Step, ...], word: str) -> Step | None:
    """Return the step whose figure *word* counts, or None where no step has it."""
    having = [step for step in steps if step.figure(word) is not None]
    first = [step for step in having if word in TAKEN_FROM.get(step.job.name, ())]
    return next(iter([*first, *having]), None)


def run(form: ResolvedPlan) -> Figures:
    """Return the main figures of the steps."""
    found = {word: source(form.steps, word) for word in ANSWERS}
    return {word: step.answer["result"][word] for word, step in found.items() if step and step.answer}


def known(form: ResolvedPlan) -> Mapping[str, Band]:
    """Return the likely ranges that the steps have for these figures."""
    found = {word: source(form.steps, word) for word in ANSWERS}
    return {word: band for word, step in found.items() if step and (band := step.band(word))}


def causes(form: ResolvedPlan) -> Mapping[str, list[dict[str, Any]]]:
    """Return what makes these figures uncertain, as their steps say it."""
    found = {word: source(form.steps, word) for word in ANSWERS}
    listed = {word: step.answer["uncertainty"].get(word) for word, step in found.items() if step and step.answer}
    return {word: causes for word, causes in listed.items() if causes}
