"""What one test of the sand is: its readings, its steps at home and in a laboratory, what its figure shows and does not show."""

from __future__ import annotations

from dataclasses import dataclass

from sandmix.language.words import Error

Group = tuple[tuple[str, ...], ...]
"""One reading that a test needs: the alternative ways to give it, each of one or more words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of a test, and how long to wait after it, in s, where a wait is needed."""

    text: str
    wait_s: float | None = None
    wait_label: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Procedure:
    """How a test is done at home or in a laboratory: what it takes and its steps in order.

    ``scatter`` is how far two such tests of one sand differ (95 % half-width), on top of the errors of the readings; ``error`` says it in words.
    """

    takes: tuple[str, ...]
    steps: tuple[Step, ...]
    scatter: Error
    error: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Rating:
    """What a figure below *below* means, and its tone: go, care, stop or plain."""

    below: float
    text: str
    tone: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Test:
    """One test of the sand.

    ``needs`` are the readings that it requires, ``also`` those that it can use, ``about`` those that say how it was done and do not go into the
    figure, ``figure`` the word that it gives. ``weighed`` names the
    sample whose mass and scale decide how exact the test is, ``sizes_g`` the samples that a plan may propose. ``work_min`` is the work of
    one test in min, ``work_100g_min`` what each 100 g of sample adds (both own choice). ``improve`` says what makes the test more exact.
    """

    key: str
    label: str
    measures: str
    says: str
    says_not: str
    figure: str
    needs: tuple[Group, ...]
    home: Procedure
    lab: Procedure | None
    work_min: float
    improve: str
    also: tuple[str, ...] = ()
    about: tuple[str, ...] = ()
    weighed: str = ""
    sizes_g: tuple[float, ...] = ()
    work_100g_min: float = 0.0
    ratings: tuple[Rating, ...] = ()

    @property
    def readings(self) -> tuple[str, ...]:
        """All the words that it uses, each once, in order."""
        needed = [word for group in self.needs for way in group for word in way]
        return tuple(dict.fromkeys((*needed, *self.also, *self.about)))

    def rating(self, value: float) -> Rating | None:
        """Return what the figure *value* means, or None where nothing general is known."""
        return next((rating for rating in self.ratings if value < rating.below), None)


def needed(*readings: str | Group) -> tuple[Group, ...]:
    """Return the needs of a test: words that are each given in one way, and groups from ``either``."""
    return tuple(((reading,),) if isinstance(reading, str) else reading for reading in readings)


def either(*ways: str | tuple[str, ...]) -> Group:
    """Return one reading that can be given in several *ways*, each of one word or of several together."""
    return tuple((way,) if isinstance(way, str) else way for way in ways)


def wait(text: str, minutes: float, label: str) -> Step:
    """Return a step after which a person has to wait."""
    return Step(text=text, wait_s=minutes * 60, wait_label=label)


def steps(*parts: str | Step) -> tuple[Step, ...]:
    """Return steps; one without a wait is written as its text alone."""
    return tuple(Step(text=part) if isinstance(part, str) else part for part in parts)
