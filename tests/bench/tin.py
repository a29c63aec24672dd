"""Measure the job *tin*: milliseconds for an answer with 20 pairs in the book, and how often the printed range of a dose held the true one.

python tests/bench/tin.py [seasons]

The simulated sands are learned from pairs with the errors that the library states. *like the model*: slopes from the prior, a straight line.
*otherwise*: any slope from 8 to 50, a curve that flattens when wet, twice the scatter from day to day, one test in twenty grossly wrong.
"""

from __future__ import annotations

import json
import random
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from sandmix.bench.tin_dosing import SLOPE, USEFUL_PCT, TinTest, decides, dose_half_pct, learned, step_pct
from sandmix.book.book import read
from sandmix.doors.facade import call
from sandmix.maths.uncertainty import propagate

TARGET_PCT, MOISTURE_PCT = 45.0, 3.5
ANSWERS = 200
DAY_S = 86400.0


def book(pairs: int) -> list[dict[str, object]]:
    """A heap with that many pairs of moisture and compactability."""
    chance = random.Random(pairs)
    events: list[dict[str, object]] = [
        {"kind": "mixed", "at": "2027-01-01", "make_kg": 45, "clay_pct_dry": 7.5, "moisture_pct_wet": 3.4}
    ]
    for at in range(pairs):
        moisture = chance.gauss(3.4, 0.5)
        wet = {"sample_wet_g": 500, "sample_dry_g": round(500 * (1 - (moisture + chance.gauss(0, 0.17)) / 100))}
        read = round(TARGET_PCT + 22 * (moisture - MOISTURE_PCT) + chance.gauss(0, 2.5))
        events.append(
            {"kind": "measured", "at": f"2027-02-{1 + at:02}", **wet, "compactability_read_pct": max(5, min(78, read))}
        )
    return events


def milliseconds(pairs: int) -> list[float]:
    """The times of an answer, sorted; the book comes with its outcomes, as a page sends it."""
    events = read(book(pairs)).to_dict()
    times = []
    for at in range(ANSWERS):
        inputs = {"compactability_now_pct": 30 + at / 20, "book": events, "now": "2027-03-01", "since_mulling_h": 0.2}
        request = json.dumps({"job": "tin", "inputs": inputs})
        started = time.perf_counter()
        answer = json.loads(call(request))
        times.append(1000 * (time.perf_counter() - started))
        if not answer["ok"]:
            raise SystemExit(f"refused: {answer}")
    return sorted(times)


def tests_of(chance: random.Random, pairs: int, steps: int, slope: float, *, otherwise: bool) -> list[TinTest]:
    """Pairs on different days, and steps by weighed water of about half a point."""
    height = chance.gauss(TARGET_PCT, 5)

    def tin(moisture: float, day: float) -> float:
        off = moisture - MOISTURE_PCT
        bent = 0.12 * slope * max(0.0, off) ** 2 if otherwise else 0.0
        wrong = chance.choice((-20, 20)) if otherwise and chance.random() < 0.05 else 0.0
        return height + slope * off - bent + day + chance.gauss(0, 3 / 1.96) + wrong

    found = []
    scatter = (8.0 if otherwise else 4.0) / 1.96
    for at in range(pairs):
        moisture = chance.gauss(MOISTURE_PCT, 0.5)
        read = moisture + chance.gauss(0, 0.35 / 1.96)
        found.append(
            TinTest(
                at_s=at * 7 * DAY_S, compactability_pct=tin(moisture, chance.gauss(0, scatter)), half_width=5.0,
                moisture_pct=read, moisture_half=0.35,
            )
        )  # fmt: skip
    for at in range(steps):
        day, moisture, water = chance.gauss(0, scatter), chance.uniform(2.6, 3.3), chance.uniform(0.3, 0.7)
        got = water * (1 + chance.gauss(0, 0.1 / 1.96)) + chance.gauss(0, 0.05 / 1.96)
        at_s = (1000 + 7 * at) * DAY_S
        found.append(TinTest(at_s=at_s, compactability_pct=tin(moisture, day), half_width=5.0))
        found.append(
            TinTest(
                at_s=at_s + 7200, compactability_pct=tin(moisture + got, day), half_width=5.0, follows=True, water_pct=water
            )
        )  # fmt: skip
    return found


def held(seasons: int, pairs: int, steps: int, *, otherwise: bool) -> tuple[int, int]:
    """How many doses were given in so many seasons, and in how many the printed range held what the sand needed."""
    chance = random.Random(1000 * pairs + steps + otherwise)
    given = inside = 0
    for _ in range(seasons):
        slope = (
            chance.uniform(8, 50) if otherwise else SLOPE.median * 2.718281828 ** (SLOPE.log_sd * chance.gauss(0, 1))
        )
        line = learned(tests_of(chance, pairs, steps, slope, otherwise=otherwise))
        true = chance.uniform(30, 43)
        read = true + chance.gauss(0, 3 / 1.96)
        if TARGET_PCT - read <= 3:
            continue

        def figures(values: object, read: float = read, median: float = line.slope) -> dict[str, float]:
            moved = dict(values)  # type: ignore[call-overload]
            return {"step": step_pct(moved.get("read", read), TARGET_PCT, moved.get("slope", median))}

        bands = {"read": (read - 3, read + 3), "slope": line.slope_band}
        low, high = propagate(figures, bands, figures({})).bands["step"]
        if decides(low, high):
            given += 1
            inside += low <= (TARGET_PCT - true) / slope <= high
    return given, inside


def until_useful(slope: float, *, steps: bool, seasons: int = 60, most: int = 25) -> list[int]:
    """How many pairs, or steps of about half a point, made the dose of a usual step useful; sorted."""
    counts = []
    for season in range(seasons):
        for count in range(most + 1):
            chance = random.Random(1000 * season + int(slope))
            pairs = (0, count) if steps else (count, 0)
            if dose_half_pct(learned(tests_of(chance, *pairs, slope, otherwise=False))) <= USEFUL_PCT:
                break
        counts.append(count)
    return sorted(counts)


def main() -> None:
    """Print the times, then one line for each kind of sand and book."""
    seasons = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    for pairs in (0, 5, 20):
        times = milliseconds(pairs)
        print(f"{pairs:>2} pairs: p50 {times[ANSWERS // 2]:.2f} ms, p95 {times[ANSWERS * 95 // 100]:.2f} ms")
    print(f"\n{'sand':<15} {'pairs':>5} {'steps':>5} {'doses given':>12} {'range held':>11}")
    for otherwise in (False, True):
        for pairs, steps in ((0, 0), (3, 0), (6, 0), (20, 0), (0, 1), (0, 3), (6, 3), (20, 10)):
            given, inside = held(seasons, pairs, steps, otherwise=otherwise)
            name = "otherwise" if otherwise else "like the model"
            print(f"{name:<15} {pairs:>5} {steps:>5} {given / seasons:>11.0%} {inside / max(1, given):>11.1%}")
    print("\ntests until a dose for ten points is known to ± 0.35 points: a tenth, half and nine tenths of the sands")
    for slope in (12, 15, 20, 30):
        for steps in (False, True):
            counts = until_useful(float(slope), steps=steps)
            shares = [counts[len(counts) * tenth // 10] for tenth in (1, 5, 9)]
            print(f"slope {slope}: {shares} {'steps of half a point' if steps else 'pairs'}")


if __name__ == "__main__":
    main()
