"""How well the book knows the water of heaps that behave otherwise than its own model, and what that saves in tests.

    python tests/bench/seasons.py [seasons]

Invented heaps, from a fixed seed. Each has its own rate of drying, which swings with the season and from day to day, falls with the moisture, and jumps
when somebody forgets the lid. A third stand in the open. Readings have errors, and so have the water that is weighed in and the water that the book
counts for a cast. Prints how often the printed range of the moisture held the truth (aim 93 to 97 %), and, for two ways of working, the tests of a season
and how often a mould was too wet to pour on: a test before every cast, or a test only where the heap says so.
"""

from __future__ import annotations

import json
import math
import random
import sys
from collections import defaultdict
from dataclasses import dataclass, field

from sandmix.book import book as books
from sandmix.book.heap import fold
from sandmix.book.ledger import Ledger
from sandmix.facade import call
from sandmix.language.timestamps import DAY_S, seconds_of

START_S = seconds_of("2027-03-01")
WEEKS = 30
TEST_SD = 0.35 / 1.96
TARGET, RED, AMBER = 3.5, 6.0, 4.5


@dataclass(slots=True)
class Truth:
    """A heap as it really is."""

    rng: random.Random
    in_the_open: bool
    dry_kg: float = 40.0
    water_kg: float = 1.45
    rate: float = field(init=False)
    phase: float = field(init=False)
    cast_factor: float = field(init=False)
    wind: float = 0.0

    def __post_init__(self):
        middle, spread = (0.12, 0.6) if self.in_the_open else (0.02, 0.9)
        self.rate = middle * math.exp(self.rng.gauss(0, spread))
        self.phase = self.rng.uniform(0, 2 * math.pi)
        self.cast_factor = math.exp(self.rng.gauss(0, 0.2))

    @property
    def moisture(self):
        return 100 * self.water_kg / (self.water_kg + self.dry_kg)

    def dries(self, points):
        share = max(0.0, self.moisture - points) / 100
        self.water_kg = self.dry_kg * share / (1 - share)

    def a_day(self, day):
        self.wind = 0.6 * self.wind + self.rng.gauss(0, 0.5)
        season = 1 + 0.5 * math.sin(2 * math.pi * day / 365 + self.phase)
        self.dries(self.rate * season * math.exp(self.wind) * self.moisture / TARGET)
        if not self.in_the_open and self.rng.random() < 0.01:
            self.dries(self.rng.uniform(0.1, 0.6))
        if self.in_the_open and self.rng.random() < 0.01:
            self.dries(-self.rng.uniform(0.1, 0.8))


def iso(seconds):
    days, rest = divmod(int(seconds - START_S), int(DAY_S))
    import datetime

    return (datetime.datetime(2027, 3, 1) + datetime.timedelta(days=days, seconds=rest)).strftime("%Y-%m-%dT%H:%M:%SZ")


def season(seed, policy, counts):
    rng = random.Random(seed)
    in_the_open = rng.random() < 1 / 3
    truth = Truth(rng=rng, in_the_open=in_the_open)
    truth.water_kg *= math.exp(rng.gauss(0, 0.03))
    book, ledger = books.read([]), None
    events = []

    def record(kind, seconds, **words):
        nonlocal book
        book = books.with_event(book, {"kind": kind, "at": iso(seconds), **words})

    record("mixed", START_S, make_kg=41.45, clay_pct_dry=7.5, moisture_pct_wet="3.5 %")
    if in_the_open:
        record("put_away", START_S, cover="open")
    day = 0
    tests = 0
    while day < 7 * WEEKS:
        gap = rng.choice((3, 7, 7, 14, 21))
        for _ in range(gap):
            day += 1
            truth.a_day(day)
        now = START_S + day * DAY_S
        state = fold(book.events).at(now).settled()
        low, high = state.bands()["moisture_pct_wet"]
        held = low <= truth.moisture <= high
        key = ("open" if in_the_open else "lid", min(len(state.moves), 20) // 3 * 3)
        counts[policy, "range", key].append((held, high - low))
        must_test = policy == "always" or says_test(state)
        if must_test:
            tests += 1
            read = truth.moisture + rng.gauss(0, TEST_SD)
            add = max(0.0, fold(book.events).sand.dry_kg * (TARGET / 100) / (1 - TARGET / 100) - truth.dry_kg * (read / 100) / (1 - read / 100))
            record("measured", now, moisture_pct_wet=f"{max(0.1, read):.3f} %", **({"water_added_kg": f"{add:.3f} kg"} if add > 0.001 else {}))
        else:
            add = max(0.0, state.sand.water_at(TARGET / 100) - state.sand.water_kg)
            if add > 0.001:
                record("tempered", now, water_kg=f"{add:.3f} kg")
        truth.water_kg += add * (1 + rng.gauss(0, 0.01))
        counts[policy, "pour", key[0]].append((truth.moisture > RED, truth.moisture > AMBER, truth.moisture > 4.1, truth.moisture))
        metal = rng.choice((0.5, 1.0, 1.5, 2.0))
        driven = 0.12 * metal
        record("poured", now + 3600, metal="aluminium", metal_kg=f"{metal} kg", water_driven_kg=f"{driven:.3f} ± {0.2 * driven:.3f} kg", clay_burnt_kg=f"{0.01 * metal:.3f} kg")
        change = book.events[-1]["outcome"]["change"]
        truth.water_kg += change.get("water_kg", 0.0) * truth.cast_factor * math.exp(rng.gauss(0, 0.1))
        truth.dry_kg += sum(kg for part, kg in change.items() if part != "water_kg")
    counts[policy, "tests", key[0]].append(tests)
    return book


def says_test(state):
    """The heap's own rule: its range holds the target to within half a point, or decides for *go*."""
    low, high = state.bands()["moisture_pct_wet"]
    half = (high - low) / 2
    if half <= 0.5:
        return False
    moisture, deviation = state.sand.moisture_pct_wet, half / 1.96
    within = [0.5 * (1 + math.erf((border - moisture) / deviation / math.sqrt(2))) for border in (TARGET - 0.3, TARGET + 0.3)]
    return within[1] - within[0] < 2 / 3


def main():
    seasons = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    counts = defaultdict(list)
    for policy in ("always", "when told"):
        for seed in range(seasons):
            season(seed, policy, counts)
    for key, rows in sorted(counts.items(), key=str):
        if key[1] == "range":
            print(key, len(rows), f"held {100*sum(h for h, _ in rows)/len(rows):.1f} %", f"mean width {sum(w for _, w in rows)/len(rows):.2f}")
        elif key[1] == "tests":
            print(key, sum(rows) / len(rows))
        else:
            print(key, len(rows), [f"{100*sum(r[i] for r in rows)/len(rows):.2f}" for i in range(3)], f"max {max(r[3] for r in rows):.2f}")
    for policy in ("always", "when told"):
        for cover in ("lid", "open"):
            rows = [r for key, rs in counts.items() if key[0] == policy and key[1] == "range" and key[2][0] == cover for r in rs]
            print(policy, cover, f"{100*sum(h for h,_ in rows)/len(rows):.1f}")


if __name__ == "__main__":
    main()
