"""Readings that a book logs and that change nothing in the heap, each with its time, and the figure that several of them give."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import band_about
from sandmix.book.events import CORRECTED, LOGGED, OWN, UNDONE, typed, words_of
from sandmix.language.timestamps import seconds_of
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
    """Return the logged readings that were not undone, by word, in order of time; skips what is not a figure of its word."""
    found: dict[str, list[LoggedReading]] = {word: [] for word in (*LOGGED, *OWN)}
    for event in _standing(events):
        for word in LOGGED if event["kind"] == "measured" else OWN:
            if reading := _read(word, event):
                found[word].append(reading)
    return {word: sorted(several, key=lambda reading: reading.at_s) for word, several in found.items() if several}


def _standing(events: Iterable[Mapping[str, Any]]) -> Iterable[Mapping[str, Any]]:
    """The tests and own measurements that were not undone, with their corrections."""
    there: dict[str, dict[str, Any]] = {}
    for event in events:
        if event["kind"] in ("measured", "calibrated"):
            there[event["id"]] = dict(event)
        elif event["kind"] == UNDONE:
            there.pop(event["of"], None)
        elif event["kind"] == CORRECTED and event["of"] in there:
            there[event["of"]] |= words_of(event)
    return there.values()


def _read(word: str, event: Mapping[str, Any]) -> LoggedReading | None:
    figure = typed(word, event)
    if figure is None:
        return None
    value, half_width = figure
    return LoggedReading(
        word=word, value=value, half_width=half_width, event=event["id"], at=event["at"], at_s=seconds_of(event["at"])
    )


def figures(found: Mapping[str, Sequence[LoggedReading]]) -> dict[str, tuple[float, Band]]:
    """Return each word's figure and band: the last test reading; for a person's own figures the weighted mean of the last twenty."""
    latest = {}
    for word, several in found.items():
        if word in LOGGED:
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
