"""Readings that a book logs and that change nothing in the heap, each with its time, and the figure that several of them give."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import band_about
from sandmix.book.events import typed
from sandmix.book.standing import Entry, entries
from sandmix.entries.reading_entries import LOGGED, OWN, OWN_TIN
from sandmix.maths import statistics
from sandmix.maths.uncertainty import Band

ENOUGH_READINGS = 3
LEAST_APART_PCT = 3.0
"""Two readings of one heap with a home tin differ by as much (from memory)."""
COMPACTABILITY = "compactability_read_pct"


@dataclass(frozen=True, slots=True, kw_only=True)
class LoggedReading:
    """One logged figure, with its 95 % half-width, the event that it is from, and its time as text and in seconds."""

    word: str
    value: float
    half_width: float
    event: str
    at: str
    at_s: float

    @property
    def band(self) -> Band:
        """The figure's likely range, cut off at the limits of its word."""
        return band_about(self.word, self.value, self.half_width)


def readings(events: Iterable[Mapping[str, Any]]) -> dict[str, list[LoggedReading]]:
    """Return the logged readings that were not undone, by word, in order of time; skips what is not a figure of its word.

    Of a figure that was set back, only the readings since then are returned.
    """
    found: dict[str, list[LoggedReading]] = {word: [] for word in (*LOGGED, *OWN, *OWN_TIN)}
    for entry in entries(events):
        for word in _LOGGED_BY.get(entry.kind, ()):
            if reading := _read(word, entry):
                found[word].append(reading)
        found.get(entry.sets_back, []).clear()
    return {word: several for word, several in found.items() if several}


_LOGGED_BY = {"measured": LOGGED, "calibrated": (*OWN, *OWN_TIN)}


def _read(word: str, entry: Entry) -> LoggedReading | None:
    figure = typed(word, entry.words)
    if figure is None:
        return None
    value, half_width = figure
    event = entry.event
    return LoggedReading(
        word=word, value=value, half_width=half_width, event=event["id"], at=event["at"], at_s=entry.at_s
    )


def figures(found: Mapping[str, Sequence[LoggedReading]]) -> dict[str, tuple[float, Band]]:
    """Return each word's figure and band: the last test reading or tin; for a person's other figures the weighted mean of the last twenty."""
    latest = {}
    for word, several in found.items():
        if word in (*LOGGED, *OWN_TIN):
            latest[word] = several[-1].value, several[-1].band
        else:
            lately = [(reading.value, reading.half_width) for reading in several[-statistics.MOST_READINGS :]]
            mean = statistics.weighted_mean(lately)
            latest[word] = mean.value, band_about(word, mean.value, mean.half_width)
    return latest


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """The last reading and the earlier ones: their number and mean, and how far from it one more may fall, all in the word's unit."""

    last: float
    count: int
    mean: float
    within: float

    @property
    def is_usual(self) -> bool:
        """Whether the last is within the range of one more reading."""
        return abs(self.last - self.mean) <= self.within


def compactability(found: Mapping[str, Sequence[LoggedReading]]) -> History | None:
    """Return the last compactability and the (at most twenty) before it; None if there are fewer than three before it.

    It is unusual if it is outside the prediction interval of the earlier ones, and at least three points from their mean (own rule).
    """
    *earlier, last = [reading.value for reading in found.get(COMPACTABILITY, ())] or [0.0]
    lately = earlier[-statistics.MOST_READINGS :]
    if len(lately) < ENOUGH_READINGS:
        return None
    mean, within = statistics.prediction_interval(lately)
    return History(last=last, count=len(lately), mean=mean, within=max(within, LEAST_APART_PCT))
