"""What a job is: one row with its form, what computes it, and what to tell; and the shape of what it tells."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, Generic

from sandmix.asking.cautions import Caution
from sandmix.asking.form import F, Filled, Form, R
from sandmix.language.wording import to_figures
from sandmix.language.words import Quantity, Value
from sandmix.maths.uncertainty import Band, wider_side
from sandmix.vocabulary import WORDS

Figures = dict[str, Value]


@dataclass(frozen=True, slots=True, kw_only=True)
class Computed(Generic[R]):
    """What a job has when it writes its answer: the resolved form, the figures, and the 95 % band of each."""

    filled: Filled[R]
    figures: Figures
    doubt: Mapping[str, Band]

    @property
    def form(self) -> R:
        """The resolved form."""
        return self.filled.form

    def number(self, word: str) -> float:
        """Return the figure *word*; it must be there."""
        value = self.figures[word]
        assert isinstance(value, (int, float))
        return value

    def has(self, word: str) -> bool:
        """Whether *word* was answered."""
        return self.figures.get(word) is not None

    def is_above_zero(self, word: str) -> bool:
        """Whether *word* was answered with a number above 0."""
        return self.has(word) and self.number(word) > 0

    def numbers(self, word: str) -> tuple[float, ...]:
        """Return the figure *word* that is a list of numbers; it must be there."""
        return _numbers(self.figures[word])

    def half_width(self, word: str) -> float:
        """Return the larger side of the band of *word* (or of the word it rounds like); 0 without one, or where it is only float noise."""
        word = getattr(WORDS[word], "rounds_like", "") or word
        side = wider_side(self.doubt[word], self.number(word)) if word in self.doubt else 0.0
        return side if side > 1e-9 * abs(self.number(word)) else 0.0

    def text(self, word: str) -> str:
        """Return the figure *word* as a person reads it, with no more digits than its doubt allows."""
        declared, value = WORDS[word], self.figures[word]
        if isinstance(declared, Quantity) and isinstance(value, (int, float)):
            if value == 0 and declared.unit in ("kg", "L"):
                return "none"
            return declared.show_to(value, self.half_width(word))
        if isinstance(declared, Quantity) and (listed := _numbers(value)):
            return declared.show_several(listed)
        return declared.show(value)

    def carried(self, **words: str) -> dict[str, str]:
        """Return figures as inputs of another job, by its own words, to four figures: ``carried(heap_kg="make_kg")``.

        A figure below what the other word can be is handed on as the least that it can.
        """
        least = {theirs: getattr(WORDS[theirs], "low", 0.0) for theirs in words}
        return {
            theirs: f"{max(least[theirs], self.number(ours)):.4g} {getattr(WORDS[ours], 'unit', '')}"
            for theirs, ours in words.items()
        }

    def carried_as_sure(self, **words: str) -> dict[str, str]:
        """Return figures as inputs of another job with the ± that they have here, so that it is as sure of them as this one.

        A figure that the other word can't be is not handed on.
        """
        return {
            theirs: f"{to_figures(self.number(ours), 4)} ± {to_figures(self.half_width(ours), 2)} {getattr(WORDS[ours], 'unit', '')}"
            for theirs, ours in words.items()
            if getattr(WORDS[theirs], "low", 0.0) <= self.number(ours) <= getattr(WORDS[theirs], "high", math.inf)
        }

    def within(self, word: str) -> str:
        """Return the likely range of *word*, named as such, or nothing where it has none."""
        band = self.range(word)
        return f"likely range {band}" if band else ""

    def range(self, word: str) -> str:
        """Return the 95 % band of *word* in words, or nothing where it has none."""
        declared = WORDS[word]
        if word not in self.doubt or not isinstance(declared, Quantity):
            return ""
        low, high = self.doubt[word]
        return (
            declared.show_range(low, high, self.number(word), self.half_width(word))
            if high - low > 1e-9 * max(1.0, abs(high))
            else ""
        )


def _numbers(value: Value) -> tuple[float, ...]:
    """The numbers of a figure that is a list of them, else none."""
    if not isinstance(value, Sequence) or isinstance(value, str):
        return ()
    return tuple(float(part) for part in value if isinstance(part, (int, float)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Lead:
    """The one number of the answer bar: its word, what it is called there, and what stands after it."""

    word: str
    label: str
    text: str
    then: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Next:
    """Another job that goes on from here, and the inputs it takes along; the foremost is the way to what is to be done first."""

    job: str
    label: str
    inputs: Mapping[str, str] = field(default_factory=dict)
    foremost: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DoFirst:
    """What to do before anything else, and what to leave alone until it is done."""

    text: str
    not_before: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """One axis of a chart: what it shows, its unit, and whether its scale is linear or log."""

    label: str
    unit: str
    scale: str = "linear"


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One series of a chart: its label, its points, and whether they are drawn as a line or as bars."""

    label: str
    points: tuple[tuple[float, float], ...]
    shape: str = "line"


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A straight line across a chart, at one place of the axis x or y."""

    axis: str
    at: float
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart:
    """A chart as data, and the sentence that says what it shows; its band, where it has one, is a lower and an upper line."""

    name: str
    title: str
    sentence: str
    x: Axis
    y: Axis
    series: tuple[Line, ...]
    limits: tuple[Limit, ...] = ()
    band: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One line of a list to tick: its tone is stop (do not go on until it is done), care, or go (already met by what was given)."""

    tone: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One side of a card: its name, such as for it or against it, and what is said there."""

    name: str
    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """One of several answers that stand side by side: its title, how much of 100 it weighs, that in words, and its points."""

    title: str
    share_pct: float
    text: str
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Timer:
    """Something to wait for, in s from the start, as the answer has it and at the latest."""

    name: str
    label: str
    after_s: float
    text: str
    latest_s: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """What an answer comes to in a heap's book: a kind of event, what a person calls writing it, and its words as text."""

    kind: str
    label: str
    words: Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Telling:
    """What a job says of its figures; ``state`` is one word and its tone: go, care, stop or plain.

    ``sources`` are the keys of what is said beyond the words and the cautions.
    """

    headline: str
    state: tuple[str, str]
    lead: Lead
    remarks: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    working: tuple[str, ...] = ()
    charts: tuple[Chart, ...] = ()
    drawings: Mapping[str, str] = field(default_factory=dict)
    first: DoFirst | None = None
    cards: tuple[Card, ...] = ()
    checklist: tuple[Check, ...] = ()
    timers: tuple[Timer, ...] = ()
    next: tuple[Next, ...] = ()
    timeline: tuple[Mapping[str, object], ...] = ()
    kept: tuple[Mapping[str, object], ...] = ()
    sources: tuple[str, ...] = ()
    records: tuple[Record, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way of saying the same thing, and the words that it asks."""

    name: str
    label: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ways:
    """Several ways of saying one thing, of which a person takes one."""

    name: str
    label: str
    options: tuple[Way, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OnlyFor:
    """Which words are asked only for some values of a choice, such as the readings of one test: word by word, the values it goes with."""

    choice: str
    words: Mapping[str, tuple[str, ...]]


def as_given(filled: Filled[F]) -> Filled[F]:
    """Return the form as it was filled in: the ``resolve`` of a job that computes with just that."""
    return filled


Needs = Mapping[str, tuple[str, ...]]


def needs_always(answers: Iterable[str], *words: str) -> Callable[[Form, Figures], Needs]:
    """Return the ``needs`` of a job whose *answers* always need *words*."""
    needs = dict.fromkeys(answers, words)

    def always(form: Form, figures: Figures) -> Needs:
        return needs

    return always


def _needs_nothing(form: Form, figures: Figures) -> Needs:
    return {}


def _no_more(filled: Filled[R], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    return {}


@dataclass(frozen=True, slots=True, kw_only=True)
class Job(Generic[F, R]):
    """One row for each job: F is its form as filled in, R the form that it computes with (often the same).

    ``resolve`` turns the one into the other (a weighed test into a moisture, a metal into a target). ``run`` gives the figures, with
    their signs (water to add may be negative), and is called again at the ends of each uncertain input. Where that takes long, ``rough``
    gives the figures less exactly and is called again instead; where figures come with their own bands, ``known`` gives those.
    ``finish`` adds figures that are read off a band. ``tell`` writes the answer, once.
    ``only_for`` names the words that a page shows only for some values of a choice.
    ``needs`` names, for an answer that may be left out, the words that it needs.

    Menu, home page, README and the title of the method page are drawn from the row: ``short`` is the job's one short name, ``title`` its
    question, ``answered_with`` what it answers, ``on_casting_day`` whether it belongs to the day's path, and ``mind`` the warning that the
    home page shows beside it.
    """

    name: str
    short: str
    title: str
    form: type[F]
    resolve: Callable[[Filled[F]], Filled[R]]
    run: Callable[[R], Figures]
    tell: Callable[[Computed[R]], Telling]
    answered_with: str
    answers: tuple[str, ...]
    example: Mapping[str, str]
    story: str
    on_casting_day: bool = False
    mind: str = ""
    ways: tuple[Ways, ...] = ()
    only_for: tuple[OnlyFor, ...] = ()
    needs: Callable[[R, Figures], Needs] = _needs_nothing
    rough: Callable[[R], Figures] | None = None
    known: Callable[[R], Mapping[str, Band]] | None = None
    finish: Callable[[Filled[R], Figures, Mapping[str, Band]], Figures] = _no_more


AnyJob = Job[Any, Any]
"""A job whose forms are not looked into."""
