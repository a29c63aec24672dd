"""The pairs of a book: handfuls whose word and tested moisture are in one entry, with the live clay of the heap at the time."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from statistics import fmean
from typing import Any

from sandmix.bench.feel import ORDER, Pair
from sandmix.bench.feel_check import MOST_PAIRS
from sandmix.book import known_water, standing
from sandmix.book.events import chosen
from sandmix.entries.reading_entries import FEEL
from sandmix.materials.sand import DRY_PARTS
from sandmix.maths.statistics import TWO_SIGMA
from sandmix.vocabulary import default_of

LARGEST_ERROR_PCT = 0.7
"""A moisture test with a larger 95 % half-width, in points, teaches nothing of a word: half of what usually lies between two words (own choice)."""
LIVE_CLAY = "live_clay_kg"
POINTS_A_POINT = default_of("water_per_clay") * (1 - 0.035) ** 2
"""How many points of moisture one more point of live clay takes to feel the same: its water, as a share of the wet mass at 3.5 %."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnPairs:
    """The last 40 pairs of a book in order of time, and the mean live clay of the heap at the time, in % of the dry mass; None without clay."""

    pairs: tuple[Pair, ...] = ()
    clay_pct_dry: float | None = None


NO_PAIRS = OwnPairs()


def own_pairs(events: Iterable[Mapping[str, Any]]) -> OwnPairs:
    """Return the pairs of a book's *events* that were not undone."""
    every = tuple(events)
    found = [
        (entry.event["id"], pair)
        for entry in standing.entries(every)
        if entry.kind == "measured" and (pair := _pair(entry.words))
    ]
    last = found[-MOST_PAIRS:]
    clays = _clays(every, {name for name, _ in last})
    return OwnPairs(pairs=tuple(pair for _, pair in last), clay_pct_dry=fmean(clays) if clays else None)


def _pair(words: Mapping[str, Any]) -> Pair | None:
    read, feel = known_water.reading(words), chosen(FEEL, words)
    if feel is None or read is None or read[1] > LARGEST_ERROR_PCT:
        return None
    return Pair(feel=ORDER.index(feel), moisture_pct_wet=read[0], sd_pct=read[1] / TWO_SIGMA)


def _clays(events: Iterable[Mapping[str, Any]], names: set[str]) -> list[float]:
    """The live clay of the heap after each of those entries, in % of its dry mass, where there is any: only these masses are added up."""
    clays, live_kg, dry_kg = [], 0.0, 0.0
    for event in events if names else ():
        change = event["outcome"]["change"]
        live_kg += change.get(LIVE_CLAY, 0.0)
        dry_kg += sum(kg for part, kg in change.items() if part in DRY_PARTS)
        if event["id"] in names and 0 < live_kg <= dry_kg:
            clays.append(100 * live_kg / dry_kg)
    return clays
