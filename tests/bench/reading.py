"""Measure how long reading a heap book takes as it grows: each kind of book at doubling sizes, with the ratio of each time to the one before.

python tests/bench/reading.py --most 25000

A ratio near 2 is linear. Prints figures and asserts nothing.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from sandmix.book import book
from sandmix.doors.facade import call

Event = dict[str, Any]
BEGIN = datetime(2025, 3, 1, 9, tzinfo=UTC)
MIXED = {"kind": "mixed", "make_kg": 45, "clay_pct_dry": 7.5, "moisture_pct_wet": 3.4}
AIR = {"air_temp_c": 18, "humidity_pct": 60, "wind_m_s": 1, "heap_area_m2": 0.8}


def _poured(dice: random.Random) -> Event:
    lost = {"sand_lost_kg": round(dice.uniform(0.1, 0.6), 2)} if dice.random() < 0.5 else {}
    return {"kind": "poured", "metal_kg": round(dice.uniform(0.5, 2), 2), "modulus_mm": dice.choice((4, 6, 8)), **lost}


def casts(dice: random.Random) -> Iterator[Event]:
    """Casts, and what keeps the heap going."""
    while True:
        yield _poured(dice)
        yield {"kind": "tempered", "water_kg": 0.3}
        yield {"kind": "added", "sand_kg": 0.4, "clay_kg": 0.05}


def only_casts(dice: random.Random) -> Iterator[Event]:
    """Nothing but casts."""
    while True:
        yield {"kind": "poured", "metal_kg": round(dice.uniform(0.05, 0.1), 3), "modulus_mm": 4, "sand_lost_kg": 0.001}


def tests(dice: random.Random) -> Iterator[Event]:
    """Tests of the moisture, each after some days, and water in between."""
    while True:
        yield {"kind": "measured", "moisture_pct_wet": round(dice.uniform(2.4, 3.6), 2)}
        yield {"kind": "tempered", "water_kg": 0.2}
        yield {"kind": "measured", "compactability_pct": round(dice.uniform(35, 50), 1), "moisture_pct_wet": 3.1}


def opened(dice: random.Random) -> Iterator[Event]:
    """A heap that stands open in known air, with casts, tests and water in between."""
    while True:
        yield {"kind": "opened", "open_h": round(dice.uniform(2, 30), 1), **AIR}
        yield _poured(dice)
        yield {"kind": "measured", "moisture_pct_wet": round(dice.uniform(2.4, 3.6), 2)}
        yield {"kind": "opened", **AIR}
        yield {"kind": "put_away", "cover": "lid"}
        yield {"kind": "tempered", "water_kg": 0.3}
        yield {"kind": "added", "sand_kg": 0.4, "clay_kg": 0.05}


def left_open(dice: random.Random) -> Iterator[Event]:
    """A heap that is opened again and again and never tested."""
    while True:
        yield {"kind": "opened", "open_h": round(dice.uniform(2, 30), 1), **AIR}
        yield {"kind": "bought", "sand_kg": 25}


def slips(dice: random.Random) -> Iterator[Event]:
    """Many entries that are undone, corrected or set back."""
    at = 1
    while True:
        yield _poured(dice)
        at += 1
        yield {"kind": "measured", "moisture_pct_wet": 3.2, "heap_kg": 45}
        at += 1
        yield {"kind": "corrected", "of": f"e{at}", "moisture_pct_wet": round(dice.uniform(2.8, 3.4), 2)}
        at += 1
        yield {"kind": "undone", "of": f"e{at - 1}"}
        at += 1
        yield {"kind": "forgotten", "learned_figure": dice.choice(("lid_loss_pct_day", "loss_a_cast_pct"))}
        at += 1
        yield {"kind": "undone", "of": f"e{at - 4}"}
        at += 1


KINDS: dict[str, Callable[[random.Random], Iterator[Event]]] = {
    each.__name__: each for each in (casts, only_casts, tests, opened, left_open, slips)
}


def bare(kind: str, count: int, seed: int = 1) -> list[Event]:
    """Return so many events without outcomes, a day or so apart."""
    dice = random.Random(seed)
    source, at, events = KINDS[kind](dice), BEGIN, [MIXED | {"at": BEGIN.isoformat()}]
    while len(events) < count:
        at += timedelta(hours=dice.uniform(1, 30))
        events.append(next(source) | {"at": at.isoformat(timespec="seconds")})
    return events


def _timed(work: Callable[[], Any]) -> tuple[float, Any]:
    started = time.perf_counter()
    done = work()
    return time.perf_counter() - started, done


def _measure(kind: str, sizes: list[int]) -> None:
    before: tuple[float, ...] = ()
    for size in sizes:
        events = bare(kind, size)
        took, read = _timed(lambda events=events: book.read(events))
        stored = read.to_dict()
        again, _ = _timed(lambda stored=stored: book.read(stored))
        text = {job: json.dumps({"job": job, "inputs": {"book": stored}}) for job in ("heap", "learned")}
        jobs = {job: _timed(lambda job=job, text=text: call(text[job])) for job in text}
        assert all(json.loads(answer).get("ok") for _, answer in jobs.values())
        times = (took, again, *(seconds for seconds, _ in jobs.values()))
        ratios = [f"{now / then:5.2f}" if before else "     " for now, then in zip(times, before or times, strict=True)]
        print(
            f"{kind:>10} {size:>7}" + "".join(f"{t:9.3f} s {r}" for t, r in zip(times, ratios, strict=True)), flush=True
        )
        before = times


def main() -> int:
    """Print what the options ask for."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--most", type=int, default=8000, metavar="N", help="the longest book")
    parser.add_argument("--doublings", type=int, default=3, metavar="N", help="how many sizes below it")
    parser.add_argument("--kinds", nargs="*", default=[*KINDS], choices=[*KINDS])
    options = parser.parse_args()
    print(f"{'book':>10} {'entries':>7}{'read bare':>17}{'read stored':>17}{'heap':>17}{'learned':>17}")
    for kind in options.kinds:
        _measure(kind, [options.most >> by for by in range(options.doublings, -1, -1)])
    return 0


if __name__ == "__main__":
    sys.exit(main())
