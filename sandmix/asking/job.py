"""What a job is: one row with its form, its computation and its answer; and the parts of an answer."""

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
    """What a job has when it writes its answer: the resolved form, the figures, and the likely range of each."""

    filled: Filled[R]
    figures: Figures
    doubt: Mapping[str, Band]

    @property
    def form(self) -> R:
        """The resolved form."""
        return self.filled.form

    def number(self, word: str) -> float:
        """Return the figure *word*, which must be there."""
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
        """Return the figure *word*, a list of numbers, which must be there."""
        return _numbers(self.figures[word])

    def half_width(self, word: str) -> float:
        """Return the wider side of the band of *word* (or of the word that it is rounded like); 0 if it has none, or only float noise.

        A range that is a factor each way has a lower side that is narrower: that one counts, so that its low end keeps a figure.
        """
        word = getattr(WORDS[word], "rounds_like", "") or word
        side = wider_side(self.doubt[word], self.number(word)) if word in self.doubt else 0.0
        if side and getattr(WORDS[word], "by_factor", False):
            side = self.number(word) - self.doubt[word][0] or side
        return side if side > 1e-9 * abs(self.number(word)) else 0.0

    def text(self, word: str) -> str:
        """Return the figure *word* as a person reads it, with no more digits than its range allows."""
        declared, value = WORDS[word], self.figures[word]
        if isinstance(declared, Quantity) and isinstance(value, (int, float)):
            if value == 0 and declared.unit in ("kg", "L"):
                return "none"
            return declared.show_to(value, self.half_width(word))
        if isinstance(declared, Quantity) and (listed := _numbers(value)):
            return declared.show_several(listed)
        return declared.show(value)

    def carried(self, **words: str) -> dict[str, str]:
        """Return figures as inputs of another job, named by its words, to four figures: ``carried(heap_kg="make_kg")``.

        A figure below the lower bound of the other word becomes that bound.
        """
        least = {theirs: getattr(WORDS[theirs], "low", 0.0) for theirs in words}
        return {
            theirs: f"{max(least[theirs], self.number(ours)):.4g} {getattr(WORDS[ours], 'unit', '')}"
            for theirs, ours in words.items()
        }

    def carried_as_sure(self, **words: str) -> dict[str, str]:
        """Return figures as inputs of another job, each with its ± here, so that the uncertainty goes with it.

        A figure outside the bounds of the other word is left out.
        """
        return {
            theirs: f"{to_figures(self.number(ours), 4)} ± {to_figures(self.half_width(ours), 2)} {getattr(WORDS[ours], 'unit', '')}"
            for theirs, ours in words.items()
            if getattr(WORDS[theirs], "low", 0.0) <= self.number(ours) <= getattr(WORDS[theirs], "high", math.inf)
        }

    def within(self, word: str) -> str:
        """Return the likely range of *word* as text that begins with “likely range”, or nothing if it has none."""
        band = self.range(word)
        return f"likely range {band}" if band else ""

    def range(self, word: str) -> str:
        """Return the likely range of *word* as text, or nothing if it has none."""
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
    """The numbers of a figure that is a list, or none."""
    if not isinstance(value, Sequence) or isinstance(value, str):
        return ()
    return tuple(float(part) for part in value if isinstance(part, (int, float)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Lead:
    """The main number of an answer: its word, its label, its text, and what follows it."""

    word: str
    label: str
    text: str
    then: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Next:
    """A job that follows, with inputs for it; the foremost one does what is to be done first."""

    job: str
    label: str
    inputs: Mapping[str, str] = field(default_factory=dict)
    foremost: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DoFirst:
    """What to do first, and what not to do before that."""

    text: str
    not_before: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ToDo:
    """One thing to do, and how much of it: *amount* is a figure of the answer as a person reads it, or nothing."""

    text: str
    amount: str = ""


class WayOut(str):
    """A remark that a person must see: what is wrong, or a way out of it. Any other remark adds something that can be left unread."""

    __slots__ = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Axis:
    """One axis of a chart: its label, its unit, and its scale: linear, log, or time, in seconds from 1970."""

    label: str
    unit: str
    scale: str = "linear"


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One series of a chart: its label, its points, and its shape.

    The shape is line (a smooth curve), steps (straight from point to point, upright where two points share their place), bars, points, or marks,
    which only show a place. *ends* are the low and the high end of each point, *texts* what happened there; both are empty or one for each point.
    """

    label: str
    points: tuple[tuple[float, float], ...]
    shape: str = "line"
    ends: tuple[tuple[float, float], ...] = ()
    texts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A straight line across a chart, at one value of the axis x or y."""

    axis: str
    at: float
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """What is drawn over one stretch of an x axis: its y axis, series and limits, and a band of a lower and an upper line."""

    y: Axis
    series: tuple[Line, ...]
    limits: tuple[Limit, ...] = ()
    band: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Chart(Panel):
    """A chart as data, with a sentence that says what it shows; *below* are more panels under it along the same x axis."""

    name: str
    title: str
    sentence: str
    x: Axis
    below: tuple[Panel, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One line of a checklist. Its tone is stop (do not go on before it is done), care, or go (already true by the inputs)."""

    tone: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One side of a card: its name, such as “For it” or “Against it”, and its sentences."""

    name: str
    texts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """One of several possible answers: its title, its points out of 100 as a number and as text, and what speaks for and against it."""

    title: str
    share_pct: float
    text: str
    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Timer:
    """A time to wait, in s from the start: the expected time, and the latest."""

    name: str
    label: str
    after_s: float
    text: str
    latest_s: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """An entry that an answer suggests for the heap book: a kind of event, the label of the button, and its words as text."""

    kind: str
    label: str
    words: Mapping[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Telling:
    """What a job answers, from its figures. ``state`` is one word and its tone: go, care, stop or plain.

    ``cards_titles`` stand above the cards and on the fold of each. ``sources`` are keys of sources in addition to those of the words and the
    cautions. ``labels`` replace the label of a word in this answer, where it depends on what was given. ``todo`` is what to do, in the order it
    is done, and what to do instead where the state is stop; it is empty where nothing is to be done. ``steps`` are the jobs of a day in their
    order, each with its inputs, state and headline.
    """

    headline: str
    state: tuple[str, str]
    lead: Lead
    todo: tuple[ToDo, ...] = ()
    remarks: tuple[str, ...] = ()
    cautions: tuple[Caution, ...] = ()
    working: tuple[str, ...] = ()
    charts: tuple[Chart, ...] = ()
    drawings: Mapping[str, str] = field(default_factory=dict)
    first: DoFirst | None = None
    cards: tuple[Card, ...] = ()
    cards_titles: tuple[str, str] = ("What it may be", "For, against, and what to do")
    checklist: tuple[Check, ...] = ()
    timers: tuple[Timer, ...] = ()
    next: tuple[Next, ...] = ()
    timeline: tuple[Mapping[str, object], ...] = ()
    kept: tuple[Mapping[str, object], ...] = ()
    sources: tuple[str, ...] = ()
    records: tuple[Record, ...] = ()
    labels: Mapping[str, str] = field(default_factory=dict)
    steps: tuple[Mapping[str, object], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way to enter something, and the words that it asks for."""

    name: str
    label: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ways:
    """Several ways to enter the same thing, of which a person chooses one."""

    name: str
    label: str
    options: tuple[Way, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OnlyFor:
    """Words that are shown only for some values of a choice, such as the readings of one test: for each word, those values."""

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


def _as_typed(inputs: Mapping[str, object]) -> Mapping[str, object]:
    return inputs


def _needs_nothing(form: Form, figures: Figures) -> Needs:
    return {}


def _no_more(filled: Filled[R], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    return {}


GROUPS = {"casting": "This casting", "heap": "The heap", "tests": "Tests and troubles"}
"""The groups of the menu in their order, each with its heading."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job(Generic[F, R]):
    """One row for each job: F is its form as filled in, R the form that it computes with (often the same).

    ``resolve`` turns the one into the other (a weighed test into a moisture, a metal into a target). ``run`` gives the figures, with
    their signs (water to add may be negative), and is called again at the ends of each uncertain input. Where that takes long, ``rough``
    gives the figures less exactly and is called again instead; where figures come with their own bands, ``known`` gives those, and
    ``known_from`` or ``causes`` what makes them uncertain.
    ``finish`` adds figures that are read off a band, and leaves out those that it sets to None. ``tell`` writes the answer, once.
    ``only_for`` names the words that a page shows only for some values of a choice.
    ``needs`` names, for an answer that may be left out, the words that it needs. ``unfold`` turns a document among the inputs, such as a
    casting, into the inputs that it holds, before the form is filled; it raises InputError with what is wrong with the document.

    Menu, home page, README and the title of the method page are drawn from the row: ``short`` is the job's one short name, ``title`` its
    question, ``answered_with`` what it answers, ``group`` its part of the menu (a key of ``GROUPS``), and ``mind`` the warning that the
    home page shows next to it.
    """

    name: str
    short: str
    title: str
    form: type[F]
    resolve: Callable[[Filled[F]], Filled[R]]
    run: Callable[[R], Figures]
    tell: Callable[[Computed[R]], Telling]
    answered_with: str
    group: str
    answers: tuple[str, ...]
    example: Mapping[str, str]
    story: str
    mind: str = ""
    ways: tuple[Ways, ...] = ()
    only_for: tuple[OnlyFor, ...] = ()
    needs: Callable[[R, Figures], Needs] = _needs_nothing
    rough: Callable[[R], Figures] | None = None
    known: Callable[[R], Mapping[str, Band]] | None = None
    known_from: str = ""
    causes: Callable[[R], Mapping[str, list[dict[str, Any]]]] | None = None
    finish: Callable[[Filled[R], Figures, Mapping[str, Band]], Figures] = _no_more
    unfold: Callable[[Mapping[str, object]], Mapping[str, object]] = _as_typed


AnyJob = Job[Any, Any]
"""A job whose forms are not looked into."""
