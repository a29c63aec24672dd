"""The figures of *plan*: the main ones of its steps, under the words of their own jobs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sandmix.asking.answer import Answer
from sandmix.asking.job import Figures
from sandmix.jobs.plan.form import ResolvedPlan
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
    "riser_made_mm",
    "riser_made_height_mm",
    "fill_time_s",
    "sprue_base_mm",
    "sprue_top_mm",
    "runner_cm2",
    "gate_cm2",
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


def run(form: ResolvedPlan) -> Figures:
    """Return the main figures of the steps."""
    return {word: answer["result"][word] for word, answer in _sources(form).items()}


def known(form: ResolvedPlan) -> Mapping[str, Band]:
    """Return the likely ranges that the steps have for these figures."""
    bands = {word: answer["doubt"].get(word) for word, answer in _sources(form).items()}
    return {word: (band[0], band[1]) for word, band in bands.items() if band}


def causes(form: ResolvedPlan) -> Mapping[str, list[dict[str, Any]]]:
    """Return what makes these figures uncertain, as their steps say it."""
    listed = {word: answer["uncertainty"].get(word) for word, answer in _sources(form).items()}
    return {word: causes for word, causes in listed.items() if causes}


def _sources(form: ResolvedPlan) -> dict[str, Answer]:
    """The answer whose figure counts, for each word that a step answers."""
    found: dict[str, Answer] = {}
    for word in ANSWERS:
        having = {step.job.name: step.answer for step in form.steps if step.answer and step.figure(word) is not None}
        first = [answer for job, answer in having.items() if word in TAKEN_FROM.get(job, ())]
        if answers := [*first, *having.values()]:
            found[word] = answers[0]
    return found
