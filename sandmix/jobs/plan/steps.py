"""A step of the day: a job with its inputs, and what that job answers to them."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from sandmix.asking.answer import Answer, answer
from sandmix.asking.job import AnyJob
from sandmix.language.errors import InputError, Problem
from sandmix.language.wording import sides_typed, to_figures
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
    "head_mm": "flasks",
    "flask_sand_kg": "flasks",
    "make_kg": "flasks",
    "sand_kg": "flasks",
}
"""The word of the plan for a word of a job that the plan never asks for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Carried:
    """An input of a step: its value, and where it is from; a document such as a book needs no origin."""

    given: object
    origin: str = ""


Inputs = dict[str, Carried]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step: its job, the inputs that it calls it with, why it comes here, and the answer, or what is missing or wrong.

    ``own`` are the words that were changed in the job of this step. ``takes`` are the words that the plan hands on to it unchanged, whether
    they are known or not: what is typed for one of them belongs to the plan, so that all steps get it.
    """

    job: AnyJob
    inputs: Mapping[str, object]
    carried_in: Inputs
    why: str
    own: Mapping[str, object] = field(default_factory=dict)
    takes: tuple[str, ...] = ()
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

    @property
    def origin(self) -> str:
        """Where a figure that this step hands on is from."""
        return f"from “{self.job.short}”"

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
            onward or word,
            max(0.0, times * value - less),
            None if half_width is None else times * half_width,
            origin=self.origin,
        )

    def carried_words(self, words: Iterable[str]) -> Inputs:
        """Return figures as inputs of another job under their own names."""
        return {name: carried for word in words for name, carried in self.carried(word).items()}

    def to_dict(self) -> dict[str, Any]:
        """Return the step as plain data; ``lead`` only where there is an answer."""
        common = {
            "job": self.job.name,
            "label": self.job.short,
            "inputs": dict(self.inputs),
            "carried": {
                word: {"given": carried.given, "text": as_text(carried.given), "origin": carried.origin}
                for word, carried in self.carried_in.items()
                if carried.origin
            },
            "own": list(self.own),
            "takes": list(self.takes),
            "state": dict(self.state),
            "headline": self.headline,
            "needs": list(self.needs),
            "why": self.why,
        }
        return common | ({"lead": self.answer["lead"]} if self.answer else {})


def amount(word: str, value: float, half_width: float | None = None, *, origin: str = "") -> Inputs:
    """Return a figure as the input *word* of a job: its value in the word's own unit, and its ±."""
    unit = getattr(WORDS[word], "unit", "")
    of_unit = {"unit": unit} if unit else {}
    given = {"value": value} | of_unit | ({} if half_width is None else {"doubt": half_width})
    return {word: Carried(given=given, origin=origin)}


def value_of(word: str, carried: Carried) -> float:
    """Return the value of a figure that is carried, in the unit of its word."""
    value = WORDS[word].read(carried.given).value
    assert isinstance(value, (int, float))
    return value


def without_range(inputs: Inputs) -> Inputs:
    """Return the same amounts as wishes, without a measuring error."""
    return {
        word: Carried(given=_without_doubt(carried.given), origin=carried.origin) for word, carried in inputs.items()
    }


def _without_doubt(given: object) -> object:
    return {part: value for part, value in given.items() if part != "doubt"} if isinstance(given, dict) else given


def ask_job(
    job: AnyJob, carried_in: Inputs, why: str, *, own: Mapping[str, object] | None = None, takes: Iterable[str] = ()
) -> Step:
    """Return the step that calls *job* with what is carried in; the person's *own* figures for this step take its place."""
    own = own or {}
    held = {word: carried.given for word, carried in carried_in.items() if word not in _given_otherwise(job, own)}
    step = Step(job=job, inputs=held | dict(own), carried_in=carried_in, why=why, own=own, takes=tuple(takes))
    try:
        return replace(step, answer=answer(job, step.inputs))
    except InputError as error:
        return replace(step, problems=tuple(error.problems))


def _given_otherwise(job: AnyJob, own: Iterable[str]) -> set[str]:
    """The words of the other ways to enter what is given by *own*: a weighed sample takes the place of a moisture."""
    return {
        word
        for ways in job.ways
        for way in ways.options
        if not set(own) & set(way.words) and any(set(own) & set(other.words) for other in ways.options)
        for word in way.words
    }


def as_text(given: object) -> str:
    """Return an input as a person would type it: an amount to four figures with its ± and unit, or sizes, or a choice."""
    if isinstance(given, Mapping) and not isinstance(given.get("value"), (int, float)):
        return f"{given.get('value', '')} {given.get('unit', '')}".strip()
    if isinstance(given, Mapping):
        half_width = f" ± {to_figures(given['doubt'], 2)}" if given.get("doubt") else ""
        return f"{to_figures(given['value'], 4)}{half_width} {given.get('unit', '')}".strip()
    if isinstance(given, list) and all(isinstance(side, float) for side in given):
        return sides_typed(given)
    if isinstance(given, float):
        return to_figures(given, 4)
    return given if isinstance(given, str) else json.dumps(given)
