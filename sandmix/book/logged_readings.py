"""What stands beside the sum of a book: readings that move no sand, each with its moment, and what several of them come to."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import band_about
from sandmix.book.events import CORRECTED, OWN, READ, UNDONE, words_of
from sandmix.language.errors import InputError
from sandmix.language.timestamps import seconds_of
from sandmix.language.words import Quantity
from sandmix.maths import statistics
from sandmix.maths.uncertainty import Band
from sandmix.vocabulary import WORDS

ENOUGH_READINGS = 3
LEAST_APART_PCT = 3.0
"""Two readings of one heap with a home tin differ by as much (from memory)."""
COMPACTABILITY = "compactability_read_pct"


@dataclass(frozen=True, slots=True, kw_only=True)
class LoggedReading:
    """One figure beside the sum, with its 95 % half-width, the event that holds it, and its moment as text and in seconds."""

    word: str
    value: float
    half_width: float
    event: str
    at: str
    at_s: float

    @property
    def band(self) -> Band:
        """The figure's 95 % band, cut off at what it can be."""
        return band_about(self.word, self.value, self.half_width)


def readings(events: Iterable[Mapping[str, Any]]) -> dict[str, list[LoggedReading]]:
    """Return what was read beside the sum and stands, by word, in the order of its moments; what is no figure of its word is passed over."""
    found: dict[str, list[LoggedReading]] = {word: [] for word in (*READ, *OWN)}
    for event in _standing(events):
        for word in READ if event["kind"] == "measured" else OWN:
            if reading := _read(word, event):
                found[word].append(reading)
    return {word: sorted(several, key=lambda reading: reading.at_s) for word, several in found.items() if several}


def _standing(events: Iterable[Mapping[str, Any]]) -> Iterable[Mapping[str, Any]]:
    """The tests and the own measurements that were not undone, with the words that they have by now."""
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
    declared = WORDS[word]
    assert isinstance(declared, Quantity)
    try:
        taken = declared.read(event.get(word))
    except InputError:
        return None
    assert isinstance(taken.value, float)
    half_width = declared.half_width(taken.value, assumed=False) if taken.half_width is None else taken.half_width
    return LoggedReading(
        word=word,
        value=taken.value,
        half_width=half_width,
        event=event["id"],
        at=event["at"],
        at_s=seconds_of(event["at"]),
    )


def figures(found: Mapping[str, Sequence[LoggedReading]]) -> dict[str, tuple[float, Band]]:
    """Return each word's figure and its band: of what a test reads the last, of what is a person's own the weighted mean of the last twenty."""
    told = {}
    for word, several in found.items():
        if word in READ:
            told[word] = several[-1].value, several[-1].band
        else:
            lately = [(reading.value, reading.half_width) for reading in several[-statistics.MOST_READINGS :]]
            mean = statistics.weighted_mean(lately)
            told[word] = mean.value, band_about(word, mean.value, mean.half_width)
    return told


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """The last reading beside the earlier ones: their number and mean, and how far from it one more may fall, all in the word's unit."""

    last: float
    count: int
    mean: float
    within: float

    @property
    def is_ordinary(self) -> bool:
        """Whether the last falls where one more reading would."""
        return abs(self.last - self.mean) <= self.within


def compactability(found: Mapping[str, Sequence[LoggedReading]]) -> History | None:
    """Return the last compactability beside the (at most twenty) before it; None below three of those.

    It is out of the ordinary beyond the prediction interval of the earlier ones, and at least three points from their mean (own rule).
    """
    *earlier, last = [reading.value for reading in found.get(COMPACTABILITY, ())] or [0.0]
    lately = earlier[-statistics.MOST_READINGS :]
    if len(lately) < ENOUGH_READINGS:
        return None
    mean, within = statistics.prediction_interval(lately)
    return History(last=last, count=len(lately), mean=mean, within=max(within, LEAST_APART_PCT))
