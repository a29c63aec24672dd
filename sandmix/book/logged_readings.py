"""Readings that a book logs and that change nothing in the heap, each with its time, and the figure that several of them give.

Tin tests are read again as a whole: with the moisture of the same handful, and with the water that went in between two of them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import band_about
from sandmix.bench import measurements, tin_dosing
from sandmix.bench.tin_dosing import TinTest
from sandmix.book import known_water
from sandmix.book.events import CORRECTED, LOGGED, OWN, OWN_TIN, UNDONE, typed, words_of
from sandmix.language.timestamps import seconds_of
from sandmix.maths import statistics
from sandmix.maths.slope_grid import Difference
from sandmix.maths.straight_line import Line
from sandmix.maths.uncertainty import Band

ENOUGH_READINGS = 3
LEAST_APART_PCT = 3.0
"""Two readings of one heap with a home tin differ by as much (from memory)."""
COMPACTABILITY = "compactability_read_pct"
_OTHER_SAND = ("mixed", "added", "joined", "poured", "dried", "rained_on", "put_away")
"""After these a heap is another sand than before, or its water moved by an amount that nobody weighed."""


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
    found: dict[str, list[LoggedReading]] = {word: [] for word in (*LOGGED, *OWN, *OWN_TIN)}
    for event in _standing(events, ("measured", "calibrated")):
        for word in LOGGED if event["kind"] == "measured" else (*OWN, *OWN_TIN):
            if reading := _read(word, event):
                found[word].append(reading)
    return {word: sorted(several, key=lambda reading: reading.at_s) for word, several in found.items() if several}


def _standing(events: Iterable[Mapping[str, Any]], kinds: Sequence[str]) -> Iterable[Mapping[str, Any]]:
    """The events of these kinds that were not undone, with their corrections."""
    there: dict[str, dict[str, Any]] = {}
    for event in events:
        if event["kind"] in kinds:
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


@dataclass(frozen=True, slots=True, kw_only=True)
class TinPast:
    """The line that a book's own tin tests give, and how many of them lie in the future and do not count."""

    line: Line
    ahead: int


def tin_past(
    events: Sequence[Mapping[str, Any]], until_s: float = math.inf, more: Sequence[Difference] = ()
) -> TinPast:
    """Return what the tin tests and the slopes in a book, and *more* steps, teach up to a time, since the tin or its rammer was changed last.

    A step whose slope is in the book already counts once.
    """
    tests, since_s = tin_tests(events), _tin_changed_s(events)
    now = [test for test in tests if test.at_s <= until_s]
    slopes = [
        tin_dosing.of_slope(reading.value, reading.half_width)
        for reading in _readings_of(events, ("calibrated",), ("compactability_slope",))
        if since_s <= reading.at_s <= until_s
    ]
    new = [step for step in more if not any(_is_same(step, saved) for saved in slopes)]
    return TinPast(line=tin_dosing.learned(now, [*slopes, *new]), ahead=len(tests) - len(now))


def _is_same(step: Difference, saved: Difference) -> bool:
    """Whether a step is the one whose slope was saved, to the figures that a book keeps of it."""
    return abs(tin_dosing.slope_of(step)[0] - saved.dy) < 1e-3 * abs(saved.dy)


def _readings_of(
    events: Iterable[Mapping[str, Any]], kinds: Sequence[str], words: Sequence[str]
) -> Iterable[LoggedReading]:
    for event in _standing(events, kinds):
        yield from (reading for word in words if (reading := _read(word, event)))


def tin_tests(events: Sequence[Mapping[str, Any]]) -> list[TinTest]:
    """Return the tin tests that were not undone, in order of time, since the tin or its rammer was changed last.

    A test follows the one before it where only water went in or out between them, by its mass in the book; sand that was taken out as it lay
    changes nothing. A change of the tin counts from ten percent of its energy per area on.
    """
    masses, kg = {}, {"water_kg": 0.0, "dry": 0.0}
    for event in events:
        for part, change in event["outcome"]["change"].items():
            kg["water_kg" if part == "water_kg" else "dry"] += change
        masses[event["id"]] = kg["dry"], kg["dry"] + kg["water_kg"]
    since_s = _tin_changed_s(events)
    kinds = ("measured", "tempered", *_OTHER_SAND)
    found: list[TinTest] = []
    water: float | None = 0.0
    same_sand = False
    for event in sorted(_standing(events, kinds), key=lambda event: seconds_of(event["at"])):
        if event["kind"] in _OTHER_SAND:
            same_sand = False
            continue
        read, at_s = typed(COMPACTABILITY, event) if event["kind"] == "measured" else None, seconds_of(event["at"])
        if read is not None and at_s >= since_s:
            moisture, half = known_water.reading(event) or (None, 0.0)
            found.append(
                TinTest(
                    at_s=at_s,
                    compactability_pct=read[0],
                    half_width=read[1],
                    moisture_pct=moisture,
                    moisture_half=half,
                    follows=same_sand and bool(found),
                    water_pct=water if same_sand else None,
                )
            )
            water, same_sand = 0.0, True
        gone_in = _water_points(event, *masses[event["id"]])
        water = None if water is None or gone_in is None else water + gone_in
    return found


def _water_points(event: Mapping[str, Any], dry_kg: float, heap_kg: float) -> float | None:
    """By how many points an event moved the moisture with weighed water; None where water was moved and nobody weighed it."""
    words = {"water_added_kg": 1.0, "water_dried_kg": -1.0} if event["kind"] == "measured" else {"water_kg": 1.0}
    given = [(sign, figure[0]) for word, sign in words.items() if (figure := typed(word, event))]
    if event["kind"] == "tempered" and not given:
        return None
    kg = sum(sign * amount for sign, amount in given)
    before_kg = heap_kg - kg
    if not kg:
        return 0.0
    return 100 * kg * dry_kg / (heap_kg * before_kg) if before_kg > 0 and heap_kg > 0 and dry_kg > 0 else None


def _tin_changed_s(events: Iterable[Mapping[str, Any]]) -> float:
    """When the energy of the blows over the area of the tin changed last by more than counts as the same; minus infinity if never."""
    latest: dict[str, float] = {}
    energy, changed_s = 0.0, -math.inf
    for event in sorted(_standing(events, ("calibrated",)), key=lambda event: seconds_of(event["at"])):
        latest |= {word: figure[0] for word in OWN_TIN if (figure := typed(word, event))}
        if len(latest) < len(OWN_TIN):
            continue
        now = measurements.ram_energy_kj_m2(*(latest[word] for word in OWN_TIN))
        if energy and abs(now / energy - 1) > measurements.LIKE_STANDARD:
            changed_s = seconds_of(event["at"])
        energy = now
    return changed_s
