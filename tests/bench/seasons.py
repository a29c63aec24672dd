"""How well the book knows the water of heaps that behave otherwise than its own model, and how many tests that saves.

    python tests/bench/seasons.py [seasons]

Invented heaps, from fixed seeds, a third of them in the open. Each has its own rate of drying, which swings with the season and from day to day and
falls with the moisture; now and then somebody forgets the lid, or it drizzles into the open. Readings have errors, and so have the water that is
weighed in and the water that the book counts for a cast. Before each cast the sand is brought to its target. Two ways of working:

- always test: dry a sample before every cast, and add water by it;
- test it: dry a sample only where the heap says so, or needs water and is not known to ± 0.5 points; else add water by the book.

Prints how often the printed range of the moisture held the truth just before that (aim 93 to 97 %), by the number of changes that the book had
learned from; and the tests of a season and how wet the moulds were that were poured on.
"""

from __future__ import annotations

import math
import random
import sys
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from sandmix.book.event_effects import outcome_of
from sandmix.book.heap import HeapState
from sandmix.book.ledger import Ledger
from sandmix.language.timestamps import seconds_of
from sandmix.maths.statistics import TWO_SIGMA
from sandmix.maths.uncertainty import half_width
from sandmix.recipes import temper

START = datetime(2027, 3, 1)
DAYS = 210
GAPS = (3, 7, 7, 14, 21)
METALS_KG = (0.5, 1.0, 1.5, 2.0)
DRIVEN_KG = 0.12
TEST_PCT, TARGET_PCT, RED_PCT, WET_PCT = 0.35, 3.5, 6.0, 4.1
ALWAYS, TEST_IT = "always test", "test it"


@dataclass(slots=True)
class Truth:
    """A heap as it really is."""

    rng: random.Random
    in_the_open: bool
    dry_kg: float = 40.0
    water_kg: float = 1.45
    rate_pct: float = field(init=False)
    phase: float = field(init=False)
    cast_factor: float = field(init=False)
    weather: float = 0.0

    def __post_init__(self) -> None:
        middle, spread = (0.12, 0.6) if self.in_the_open else (0.02, 0.9)
        self.rate_pct = middle * math.exp(self.rng.gauss(0, spread))
        self.phase = self.rng.uniform(0, math.tau)
        self.cast_factor = math.exp(self.rng.gauss(0, 0.2))
        self.water_kg *= math.exp(self.rng.gauss(0, 0.03))

    @property
    def moisture_pct(self) -> float:
        return 100 * self.water_kg / (self.water_kg + self.dry_kg)

    def dry(self, points: float) -> None:
        share = max(0.0, self.moisture_pct - points) / 100
        self.water_kg = self.dry_kg * share / (1 - share)

    def live(self, day: int) -> None:
        """Let one day go by."""
        self.weather = 0.6 * self.weather + self.rng.gauss(0, 0.5)
        season = 1 + 0.5 * math.sin(math.tau * day / 365 + self.phase)
        self.dry(self.rate_pct * season * math.exp(self.weather) * self.moisture_pct / TARGET_PCT)
        if self.rng.random() < 0.01:
            self.dry(-self.rng.uniform(0.1, 0.8) if self.in_the_open else self.rng.uniform(0.1, 0.6))


@dataclass(frozen=True, slots=True)
class Day:
    """One casting day: changes learned from, whether the range held the truth, its ±, whether a test was done, and the moisture poured on."""

    learned: int
    held: bool
    half_pct: float
    tested: bool
    poured_pct: float


def says_test_it(state: HeapState) -> bool:
    """The rule of the heap's word, and a dose by the book only where it is known as well as a test."""
    moisture, half = state.sand.moisture_pct_wet, half_width(state.bands()["moisture_pct_wet"])
    if not temper.decides(moisture, half, TARGET_PCT, RED_PCT):
        return True
    return half > temper.SURE_PCT and temper.verdict(moisture, TARGET_PCT, RED_PCT) != "go"


def season(seed: int, way: str) -> tuple[bool, list[Day]]:
    """Return whether the heap of this seed stood in the open, and its casting days."""
    rng = random.Random(seed)
    truth = Truth(rng, in_the_open=rng.random() < 1 / 3)
    return truth.in_the_open, list(_days(truth, rng, way))


def _days(truth: Truth, rng: random.Random, way: str) -> Iterator[Day]:
    ledger = Ledger()
    _record(ledger, 0, "mixed", make_kg=41.45, clay_pct_dry=7.5, moisture_pct_wet="3.5 %")
    if truth.in_the_open:
        _record(ledger, 0, "put_away", cover="open")
    day = 0
    while day < DAYS:
        for _ in range(rng.choice(GAPS)):
            day += 1
            truth.live(day)
        state = ledger.state().at(_seconds(day)).settled()
        learned = len(state.moves)
        low, high = state.bands()["moisture_pct_wet"]
        held, tested = low <= truth.moisture_pct <= high, way == ALWAYS or says_test_it(state)
        read = max(0.1, truth.moisture_pct + rng.gauss(0, TEST_PCT / TWO_SIGMA))
        if tested:
            _record(ledger, day, "measured", moisture_pct_wet=f"{read:.3f} %")
            state = ledger.state()
        add_kg = state.sand.water_at(TARGET_PCT / 100) - state.sand.water_kg
        if add_kg > 0.005:
            _record(ledger, day, "tempered", water_kg=f"{add_kg:.3f} kg")
            truth.water_kg += add_kg * (1 + rng.gauss(0, 0.01))
        yield Day(learned, held, (high - low) / 2, tested, truth.moisture_pct)
        metal_kg = rng.choice(METALS_KG)
        driven_kg = DRIVEN_KG * metal_kg
        change = _record(
            ledger,
            day,
            "poured",
            metal_kg=f"{metal_kg} kg",
            clay_burnt_kg=f"{0.01 * metal_kg:.3f} kg",
            water_driven_kg=f"{driven_kg:.3f} kg",
        )
        truth.water_kg += change["water_kg"] * truth.cast_factor * math.exp(rng.gauss(0, 0.1))
        truth.dry_kg += sum(kg for part, kg in change.items() if part != "water_kg")


def _record(ledger: Ledger, day: int, kind: str, **words: object) -> dict[str, float]:
    """Record an event as a book does, and return its change of the masses."""
    outcome = outcome_of(kind, words, ledger.state().at(_seconds(day))).to_dict()
    ledger.add({"id": f"e{len(ledger) + 1}", "kind": kind, "at": _at(day), **words, "outcome": outcome})
    return outcome["change"]


def _at(day: int) -> str:
    return f"{START + timedelta(days=day):%Y-%m-%dT%H:%MZ}"


def _seconds(day: int) -> float:
    return seconds_of(_at(day))


def main() -> None:
    seasons = int(sys.argv[1]) if len(sys.argv) > 1 else 100
    for way in (ALWAYS, TEST_IT):
        days: dict[str, list[Day]] = defaultdict(list)
        for seed in range(seasons):
            in_the_open, lived = season(seed, way)
            days["in the open" if in_the_open else "under a lid"] += lived
        print(f"\n{way}, {seasons} seasons")
        for name, lived in (*days.items(), ("all", [day for several in days.values() for day in several])):
            print(
                f"  {name:12} {len(lived):6} casts, range held the truth {_share(day.held for day in lived):5.1f} %, "
                f"tested before {_share(day.tested for day in lived):5.1f} %, poured above {WET_PCT} % "
                f"{_share(day.poured_pct > WET_PCT for day in lived):5.2f} %, above {RED_PCT} % "
                f"{_share(day.poured_pct > RED_PCT for day in lived):5.2f} %, wettest {max(day.poured_pct for day in lived):.2f} %"
            )
            for least in (0, 3, 6, 10, 15):
                some = [day for day in lived if least <= day.learned < {0: 3, 3: 6, 6: 10, 10: 15, 15: 99}[least]]
                if some:
                    mean = sum(day.half_pct for day in some) / len(some)
                    print(
                        f"      from {least:2} changes on: {_share(day.held for day in some):5.1f} %, mean ± {mean:.2f} points, {len(some)} casts"
                    )


def _share(flags: Iterator[bool]) -> float:
    told = list(flags)
    return 100 * sum(told) / len(told)


if __name__ == "__main__":
    main()
