"""What one test of the sand is: how it is done at home and in a laboratory, what it asks, what its figure says and does not say."""

from __future__ import annotations

from dataclasses import dataclass

from sandmix.language.words import Error

Group = tuple[tuple[str, ...], ...]
"""One reading that a test needs, said one way or another: alternatives, each of one or more words."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step of a test, and how long to wait after it, in s, where there is something to wait for."""

    text: str
    wait_s: float | None = None
    wait_label: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Manner:
    """One form of a test: what it takes, its steps in order, and how far two such tests of one sand differ (95 % half-width, beside the readings)."""

    takes: tuple[str, ...]
    steps: tuple[Step, ...]
    scatter: Error
    error: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """What a figure below *below* says, and its tone: go, care, stop or plain."""

    below: float
    says: str
    tone: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Test:
    """One test of the sand.

    ``needs`` are the readings it can't do without, ``also`` those it can use, ``figure`` the word it gives. ``weighed`` names the sample
    whose mass and scale decide how sure it is, ``sizes_g`` the samples that can be tried. ``work_min`` is the work of one test in min,
    ``work_100g_min`` what each 100 g of sample adds (both own choice). ``surer`` says what to do where repeating does not help.
    """

    key: str
    label: str
    measures: str
    says: str
    says_not: str
    figure: str
    needs: tuple[Group, ...]
    home: Manner
    lab: Manner | None
    work_min: float
    surer: str
    also: tuple[str, ...] = ()
    weighed: str = ""
    sizes_g: tuple[float, ...] = ()
    work_100g_min: float = 0.0
    marks: tuple[Mark, ...] = ()

    @property
    def readings(self) -> tuple[str, ...]:
        """All the words that it asks, each once, in order."""
        asked = [word for group in self.needs for way in group for word in way]
        return tuple(dict.fromkeys((*asked, *self.also)))

    def mark(self, value: float) -> Mark | None:
        """Return what the figure *value* says, or None where nothing general is known."""
        return next((mark for mark in self.marks if value < mark.below), None)


def of(*words: str) -> Group:
    """Return the need of one reading that is said in one way, by *words* together."""
    return (words,)


def wait(text: str, minutes: float, label: str) -> Step:
    """Return a step after which there is something to wait for."""
    return Step(text=text, wait_s=minutes * 60, wait_label=label)


def steps(*parts: str | Step) -> tuple[Step, ...]:
    """Return steps, those without a wait written as their text alone."""
    return tuple(Step(text=part) if isinstance(part, str) else part for part in parts)
