"""What a book teaches about its tin: tests with the moisture of the same handful, the water between two of them, and slopes that were given."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sandmix.bench import measurements, tin_dosing
from sandmix.bench.tin_dosing import TinTest
from sandmix.book import known_water
from sandmix.book.events import typed
from sandmix.book.logged_readings import COMPACTABILITY
from sandmix.book.standing import Entry, Event, entries
from sandmix.entries.reading_entries import OWN_TIN
from sandmix.maths.slope_grid import Difference
from sandmix.maths.straight_line import Line

SLOPE = "compactability_slope"
_OTHER_SAND = ("mixed", "added", "joined", "poured", "dried", "rained_on", "put_away")
"""After these a heap is another sand than before, or its water moved by an amount that nobody weighed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TinPast:
    """What a book teaches about its tin: the line, how many tests lie in the future and do not count, and the tin by its words as it is now."""

    line: Line
    ahead: int
    tin: Mapping[str, float]


def tin_past(events: Sequence[Event], until_s: float = math.inf, more: Sequence[Difference] = ()) -> TinPast:
    """Return what the tin tests and the slopes in a book, and *more* steps, teach up to a time, since the tin was changed or the slope set back.

    A step whose slope is in the book already counts once.
    """
    there = entries(events)
    own = [entry for entry in there if entry.kind == "calibrated"]
    tin, since_s = _own_tin(own)
    since_s = max([since_s, *(math.nextafter(entry.at_s, math.inf) for entry in there if entry.sets_back == SLOPE)])
    tests = tin_tests(events, there, since_s)
    now = [test for test in tests if test.at_s <= until_s]
    slopes = [
        tin_dosing.of_slope(*figure)
        for entry in own
        if since_s <= entry.at_s <= until_s and (figure := typed(SLOPE, entry.words))
    ]
    new = [step for step in more if not any(_is_same(step, saved) for saved in slopes)]
    return TinPast(line=tin_dosing.learned(now, [*slopes, *new]), ahead=len(tests) - len(now), tin=tin)


def _is_same(step: Difference, saved: Difference) -> bool:
    """Whether a step is the one whose slope was saved, to the figures that a book keeps of it."""
    return abs(tin_dosing.slope_of(step)[0] - saved.dy) < 1e-3 * abs(saved.dy)


def _own_tin(own: Iterable[Entry]) -> tuple[dict[str, float], float]:
    """The tin by its words, and when the energy of the blows over its area changed last by more than counts as the same."""
    latest: dict[str, float] = {}
    energy, changed_s = 0.0, -math.inf
    for entry in own:
        latest |= {word: figure[0] for word in OWN_TIN if (figure := typed(word, entry.words))}
        if len(latest) < len(OWN_TIN):
            continue
        now = measurements.ram_energy_kj_m2(*(latest[word] for word in OWN_TIN))
        if energy and abs(now / energy - 1) > measurements.LIKE_STANDARD:
            changed_s = entry.at_s
        energy = now
    return latest, changed_s


def tin_tests(events: Sequence[Event], there: Sequence[Entry], since_s: float = -math.inf) -> list[TinTest]:
    """Return the tin tests among the entries *there* that count of a book's *events*, in order of time, from a time on.

    A test follows the one before it where only water went in or out between them, by its mass in the book; sand that was taken out as it lay
    changes nothing.
    """
    masses = _masses(events)
    found: list[TinTest] = []
    water: float | None = 0.0
    same_sand = False
    for entry in there:
        if entry.kind in _OTHER_SAND:
            same_sand = False
        if entry.kind not in ("measured", "tempered"):
            continue
        words = entry.words
        read = typed(COMPACTABILITY, words) if entry.kind == "measured" else None
        if read is not None and entry.at_s >= since_s:
            moisture, half = known_water.reading(words) or (None, 0.0)
            found.append(
                TinTest(
                    at_s=entry.at_s,
                    compactability_pct=read[0],
                    half_width=read[1],
                    moisture_pct=moisture,
                    moisture_half=half,
                    follows=same_sand and bool(found),
                    water_pct=water if same_sand else None,
                )
            )
            water, same_sand = 0.0, True
        gone_in = _water_points(entry.kind, words, *masses[entry.event["id"]])
        water = None if water is None or gone_in is None else water + gone_in
    return found


def _masses(events: Iterable[Event]) -> dict[str, tuple[float, float]]:
    """The dry mass and the whole mass of the heap after each event, in kg, by the event's id."""
    found, dry_kg, water_kg = {}, 0.0, 0.0
    for event in events:
        change = event["outcome"]["change"]
        water = change.get("water_kg", 0.0)
        water_kg += water
        dry_kg += sum(change.values()) - water
        found[event["id"]] = dry_kg, dry_kg + water_kg
    return found


def _water_points(kind: str, given: Mapping[str, Any], dry_kg: float, heap_kg: float) -> float | None:
    """By how many points an event moved the moisture with weighed water; None where water was moved and nobody weighed it."""
    signs = {"water_added_kg": 1.0, "water_dried_kg": -1.0} if kind == "measured" else {"water_kg": 1.0}
    weighed = [sign * figure[0] for word, sign in signs.items() if (figure := typed(word, given))]
    if kind == "tempered" and not weighed:
        return None
    kg = sum(weighed)
    before_kg = heap_kg - kg
    if not kg:
        return 0.0
    return 100 * kg * dry_kg / (heap_kg * before_kg) if before_kg > 0 and heap_kg > 0 and dry_kg > 0 else None
