"""The series of readings in a book, each as points in order of time: moisture less the book, compactability, sand in the tin, castings scrapped.

A heap that dries is no stable series, so a moisture is taken as its difference from what the book added up to just before that test. Readings of one
kind within ten minutes are of the same sand: they are one point, their mean.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise
from typing import Any

from sandmix.book import known_water, logged_readings, standing
from sandmix.book.events import chosen, typed
from sandmix.book.heap import HeapFold
from sandmix.book.logged_readings import LoggedReading
from sandmix.entries.reading_entries import OWN_TIN
from sandmix.language.timestamps import seconds_of
from sandmix.vocabulary.reading_words import SERIES

SAME_SAND_S = 600.0
"""Readings that are no further apart are of the same sand (own choice)."""
OTHER_TIN = 0.02
UNKNOWN = "unknown"
Event = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One reading with its 95 % half-width and its time in seconds; *base* is what the book had before it, 0 where it is not compared."""

    value: float
    half_width: float
    at_s: float
    base: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """One series: its points in order of time, each less its base, and the readings of the same sand that differ by more than their errors."""

    points: tuple[float, ...] = ()
    disagree: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Readings:
    """All series of a book by their key, the castings scrapped by main cause, and how many entries are not in the order of their times.

    *other_tin* counts the tin readings that are left out because the tin or its rammer was changed since.
    """

    series: Mapping[str, Series]
    scrapped: Mapping[str, float] = field(default_factory=dict)
    out_of_order: int = 0
    other_tin: int = 0


def readings(events: Sequence[Event]) -> Readings:
    """Return the series of a book's *events*, without what was undone and with its corrections."""
    logged = logged_readings.readings(events)
    of = {"compactability": logged_readings.COMPACTABILITY, "tin": "tin_g"}
    changed_s = _tin_changed_s(logged)
    found, other_tin = {"moisture": moistures(events)}, 0
    for key, word in of.items():
        every = logged.get(word, ())
        now = [one for one in every if one.at_s >= changed_s]
        found[key] = [Reading(value=one.value, half_width=one.half_width, at_s=one.at_s) for one in now]
        other_tin += len(every) - len(now)
    series = {key: _merged(several) for key, several in found.items()}
    casts = _scrap(events)
    series["scrap"] = Series(points=tuple(100 * scrapped / made for made, scrapped, _ in casts))
    times = [seconds_of(event["at"]) for event in events if event["kind"] in ("measured", "poured")]
    return Readings(
        series={key: series[key] for key in SERIES},
        scrapped=_by_cause(casts),
        out_of_order=sum(two < one for one, two in pairwise(times)),
        other_tin=other_tin,
    )


def _tin_changed_s(logged: Mapping[str, Sequence[LoggedReading]]) -> float:
    """When the tin or its rammer was changed last: one of its figures by more than their errors and 2 % (own choice); never is −∞."""
    times = [
        two.at_s
        for word in OWN_TIN
        for one, two in pairwise(logged.get(word, ()))
        if abs(two.value - one.value) > max(math.hypot(one.half_width, two.half_width), OTHER_TIN * abs(one.value))
    ]
    return max(times, default=-math.inf)


def moistures(events: Iterable[Event]) -> list[Reading]:
    """Return each moisture test with what the book added up to just before it, in order of time.

    A test that was written after a later entry is left out: what the book had at its time is not known.
    """
    every = tuple(events)
    tests = {entry.event["id"]: entry.words for entry in standing.entries(every) if entry.kind == "measured"}
    found, heap, latest_s = [], HeapFold(), -math.inf
    for event in every:
        at_s = seconds_of(event["at"])
        read = known_water.reading(tests[event["id"]]) if event["id"] in tests else None
        if read and at_s >= latest_s:
            sand = heap.state().at(at_s).settled().sand
            if sand.dry_kg > 0 and heap.water.known_s is not None:
                found.append(Reading(value=read[0], half_width=read[1], at_s=at_s, base=sand.moisture_pct_wet))
        latest_s = max(latest_s, at_s)
        heap.add(event)
    return found


def _merged(several: Iterable[Reading]) -> Series:
    """The points of readings in order of time: those of the same sand as their mean, less the base of the first."""
    groups: list[list[Reading]] = []
    for one in several:
        if groups and one.at_s - groups[-1][0].at_s <= SAME_SAND_S:
            groups[-1].append(replace(one, base=groups[-1][0].base))
        else:
            groups.append([one])
    return Series(
        points=tuple(sum(one.value - one.base for one in group) / len(group) for group in groups),
        disagree=tuple(
            (least.value, most.value)
            for group in groups
            for least, most in [(min(group, key=_value), max(group, key=_value))]
            if most.value - least.value > math.hypot(least.half_width, most.half_width)
        ),
    )


def _value(one: Reading) -> float:
    return one.value


def _scrap(events: Iterable[Event]) -> list[tuple[float, float, str]]:
    """Each cast that says how many castings were poured and scrapped, in order of time: both numbers, and the main cause."""
    found = []
    for entry in standing.entries(events):
        words = entry.words if entry.kind == "poured" else {}
        made, scrapped = typed("castings_made", words), typed("castings_scrapped", words)
        if made and scrapped and made[0] > 0:
            found.append((made[0], min(made[0], scrapped[0]), chosen("scrap_cause", words) or UNKNOWN))
    return found


def _by_cause(casts: Iterable[tuple[float, float, str]]) -> dict[str, float]:
    """The castings scrapped by main cause, the most first."""
    counted: dict[str, float] = {}
    for _, scrapped, cause in casts:
        if scrapped > 0:
            counted[cause] = counted.get(cause, 0.0) + scrapped
    return dict(sorted(counted.items(), key=lambda one: -one[1]))
