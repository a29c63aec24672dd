"""A step of the day: a job with its inputs, and what that job answers to them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from sandmix.asking.answer import Answer, answer
from sandmix.asking.job import AnyJob
from sandmix.language.errors import InputError, Problem
from sandmix.maths.uncertainty import Band, wider_side
from sandmix.vocabulary import WORDS

MISSING = {"word": "missing", "tone": "care"}
REFUSED = {"word": "refused", "tone": "care"}
NOTHING = "nothing"
OF_THE_PLAN = {
    "pattern_length_mm": "box_mm",
    "pattern_width_mm": "box_mm",
    "pattern_height_mm": "box_mm",
    "flask_length_mm": "flasks",
    "flask_width_mm": "flasks",
    "drag_depth_mm": "flasks",
}
"""The word of the plan for a word of a job that the plan never asks for."""

Inputs = dict[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step: its job, the inputs that it calls it with, why it comes here, and the answer, or what is missing or wrong."""

    job: AnyJob
    inputs: Inputs
    why: str
    answer: Answer | None = None
    problems: tuple[Problem, ...] = ()

    @property
    def needs(self) -> tuple[str, ...]:
        """The words of the plan that are missing, if that is all that keeps the job from an answer."""
        if any(problem.given != NOTHING for problem in self.problems):
            return ()
        return tuple(dict.fromkeys(OF_THE_PLAN.get(problem.word, problem.word) for problem in self.problems))

    @property
    def state(self) -> Mapping[str, str]:
        """The word and the tone of the step."""
        if self.answer:
            return dict(self.answer["state"])
        return MISSING if self.needs else REFUSED

    @property
    def headline(self) -> str:
        """What its job says, or what is missing or wrong."""
        if self.answer:
            return str(self.answer["headline"])
        return " ".join(problem.message for problem in self.problems)

    def figure(self, word: str) -> object:
        """Return the figure *word* of the answer, or None where there is none."""
        return self.answer["result"].get(word) if self.answer else None

    def band(self, word: str) -> Band | None:
        """Return the likely range of a figure, or None where it has none."""
        ends = self.answer["doubt"].get(word) if self.answer else None
        return (ends[0], ends[1]) if ends else None

    def carried(self, word: str, onward: str = "", times: float = 1.0, less: float = 0.0) -> Inputs:
        """Return the figure *word*, multiplied and lessened, as the input *onward* of another job with its ±; nothing where there is none.

        An uneven range is carried by its wider side.
        """
        value, band = self.figure(word), self.band(word)
        if not isinstance(value, (int, float)) or isinstance(value, bool):
            return {}
        half_width = wider_side(band, float(value)) if band else None
        return amount(
            onward or word, max(0.0, times * value - less), None if half_width is None else times * half_width
        )

    def to_dict(self) -> dict[str, Any]:
        """Return the step as plain data; ``lead`` only where there is an answer."""
        common = {
            "job": self.job.name,
            "label": self.job.short,
            "inputs": self.inputs,
            "state": dict(self.state),
            "headline": self.headline,
            "needs": list(self.needs),
            "why": self.why,
        }
        return common | ({"lead": self.answer["lead"]} if self.answer else {})


def amount(word: str, value: float, half_width: float | None = None) -> Inputs:
    """Return a figure as the input *word* of a job: its value in the word's own unit, and its ±."""
    unit = getattr(WORDS[word], "unit", "")
    of_unit = {"unit": unit} if unit else {}
    return {word: {"value": value} | of_unit | ({} if half_width is None else {"doubt": half_width})}


def ask_job(job: AnyJob, inputs: Inputs, why: str) -> Step:
    """Return the step that calls *job* with *inputs*."""
    try:
        return Step(job=job, inputs=inputs, why=why, answer=answer(job, inputs))
    except InputError as error:
        return Step(job=job, inputs=inputs, why=why, problems=tuple(error.problems))
