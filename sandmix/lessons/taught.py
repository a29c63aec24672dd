"""What the entries of a book say of its casts and its clay: weighed losses, live shares of granules, and dead fines from cast to cast.

Nothing here is combined with a first figure; `learned.py` does that.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from sandmix.book.events import FORGOTTEN, typed
from sandmix.book.heap import LEAST_HEAP_KG, HeapFold
from sandmix.book.standing import Entry, Event, entries
from sandmix.maths import learning
from sandmix.maths.learning import Belief
from sandmix.maths.statistics import MOST_READINGS, TWO_SIGMA
from sandmix.vocabulary import default_of

GRANULES, FINES = "clay_activity_pct", "dead_fines_a_cast_pct_dry"
BY_ITSELF = ("poured", "measured")
"""Kinds of entry that change the share of dead fines by what is to be learned, or only in the book."""
LEAST_SD = 1e-3
Point = tuple[float, float, float]


@dataclass(slots=True, kw_only=True)
class _Granules:
    """Clay granules in the heap whose live share was assumed: dry kg, the live kg that the book counted and its variance."""

    dry_kg: float = 0.0
    live_kg: float = 0.0
    variance: float = 0.0

    def scaled(self, kept: float) -> None:
        """Keep only a share of it, as the live clay of the heap has lost the rest."""
        self.dry_kg, self.live_kg, self.variance = kept * self.dry_kg, kept * self.live_kg, kept**2 * self.variance


@dataclass(slots=True, kw_only=True)
class Taught:
    """What the entries say: losses as shares of the sand in the mould, live shares of granules in %, and runs of tests of dead fines by casts.

    A point of a run is the casts so far, the dead fines in % of the dry mass without what was mixed in or diluted, and its standard deviation.
    """

    losses: Sequence[float] = ()
    granules: list[Belief] = field(default_factory=list)
    growth: list[Belief] = field(default_factory=list)
    runs: list[list[Point]] = field(default_factory=lambda: [[]])
    _heap: HeapFold = field(default_factory=HeapFold)
    _casts: int = 0
    _mixed_in: float = 0.0
    _pending: _Granules = field(default_factory=_Granules)

    @classmethod
    def of(cls, events: Sequence[Event]) -> Taught:
        """Return what a whole book says; its time grows with the number of its entries."""
        taught = cls()
        for entry in entries(events):
            taught._add(entry)
        taught.losses = taught._heap.losses.last()
        return taught

    def growths(self) -> tuple[list[Belief], int]:
        """Return what each run says of the dead fines gained at a cast, with the figures that were given, and how many readings those are."""
        slopes = [(slope, len(run)) for run in self.runs if (slope := learning.slope(run[-MOST_READINGS:]))]
        count = sum(min(MOST_READINGS, tests) for _, tests in slopes) + len(self.growth)
        return [*self.growth, *(slope for slope, _ in slopes)], count

    def _add(self, entry: Entry) -> None:
        kind, words = entry.kind, entry.words
        if kind == "measured":
            self._test_clay(words)
            self._test_fines(words)
        live, fines, dry_kg = self._live(), self._fines_pct(), self._dry()
        for event in (entry.event, *entry.corrections):
            self._heap.add(event)
        if kind == FORGOTTEN:
            self._forget(entry.sets_back)
        elif kind == "calibrated":
            self._take(words)
        elif kind == "poured":
            self._casts += 1
        elif kind not in BY_ITSELF:
            if dry_kg < LEAST_HEAP_KG:
                self._begin()
            self._mixed_in += self._fines_pct() - fines
        if kind in ("added", "mixed"):
            self._put_in(entry, words)
        elif live > 0 and kind != "measured":
            self._pending.scaled(min(1.0, self._live() / live))

    def _begin(self) -> None:
        """An empty heap is begun again: what was in it before says nothing about it."""
        self._pending, self._mixed_in = _Granules(), 0.0
        self.runs.append([])

    def _forget(self, figure: str) -> None:
        if figure == GRANULES:
            self.granules.clear()
            self._pending = _Granules()
        elif figure == FINES:
            self.runs, self.growth = [[]], []

    def _take(self, words: dict[str, object]) -> None:
        """Figures that a person gives, each as one reading."""
        for word, readings in ((GRANULES, self.granules), (FINES, self.growth)):
            if own := typed(word, words):
                readings.append(learning.belief(own[0], max(LEAST_SD, own[1])))

    def _put_in(self, entry: Entry, words: dict[str, object]) -> None:
        """Granules whose live share nobody gave: the book has counted them with the usual one."""
        clay, moisture = typed("clay_kg", words), typed("clay_moisture_pct_wet", words)
        if clay is None or words.get("clay") != "clay_granules" or words.get(GRANULES) is not None:
            return
        water_pct = moisture[0] if moisture else default_of("clay_moisture_pct_wet")
        changes = [event["outcome"] for event in (entry.event, *entry.corrections)]
        self._pending.dry_kg += clay[0] * (1 - water_pct / 100)
        self._pending.live_kg += sum(outcome["change"].get("live_clay_kg", 0.0) for outcome in changes)
        self._pending.variance += sum(outcome["variance"].get("live_clay_kg", 0.0) for outcome in changes)

    def _test_clay(self, words: dict[str, object]) -> None:
        """A test of live clay after granules went in: what it leaves for them, when the rest is as the book has it."""
        read, dry_kg, put_in = typed("clay_pct_dry", words), self._dry(), self._pending
        if read is None or dry_kg < LEAST_HEAP_KG or put_in.dry_kg <= 0:
            return
        rest_kg = self._live() - put_in.live_kg
        variance = max(0.0, self._heap.total().variance("live_clay_kg") - put_in.variance)
        sd_kg = math.hypot(read[1] / 100 * dry_kg / TWO_SIGMA, math.sqrt(variance))
        share = 100 * (read[0] / 100 * dry_kg - rest_kg) / put_in.dry_kg
        self.granules.append(Belief(mean=share, sd=max(LEAST_SD, 100 * sd_kg / put_in.dry_kg)))
        self._pending = _Granules()

    def _test_fines(self, words: dict[str, object]) -> None:
        if read := typed("dead_fines_pct_dry", words):
            self.runs[-1].append((float(self._casts), read[0] - self._mixed_in, max(LEAST_SD, read[1] / TWO_SIGMA)))

    def _live(self) -> float:
        return max(0.0, self._heap.kg("live_clay_kg"))

    def _dry(self) -> float:
        return sum(kg for part, kg in self._heap.total().by_part().items() if part != "water_kg")

    def _fines_pct(self) -> float:
        dry_kg = self._dry()
        return (
            100 * (self._heap.kg("dead_clay_kg") + self._heap.kg("other_fines_kg")) / dry_kg
            if dry_kg >= LEAST_HEAP_KG
            else 0.0
        )
