"""Measure how long an answer takes in plain Python: p50 and p95 of `facade.call` for each job over 200 changes of one input.

python tests/bench/answers.py
"""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from sandmix.doors.facade import call

CHANGES = 200
LEAST = {
    "shrink_pct": 1.0,
    "moisture_pct_wet": 3.0,
    "clay_pct_dry": 6.0,
    "height_before_mm": 100.0,
    "clay_washed_g": 1.0,
}
"""The number that a change begins at, where 20 is none of the word; it goes up to twice that."""
CHANGED = {
    "plan": "heap_kg",
    "pattern": "shrink_pct",
    "fit": "heap_kg",
    "feed": "casting_volume_cm3",
    "mix": "make_kg",
    "shopping": "sand_kg",
    "temper": "heap_kg",
    "flask": "heap_kg",
    "pour": "casting_volume_cm3",
    "burnout": "sand_kg",
    "rebond": "heap_kg",
    "blend": "make_kg",
    "heap": "now",
    "learned": "book",
    "tin": "heap_kg",
    "dry": "heap_kg",
    "forecast": "clay_pct_dry",
    "facing": "flask_sand_kg",
    "season": "heap_kg",
    "carbon": "heap_kg",
    "bench": "height_before_mm",
    "feel": "heap_kg",
    "readings": "book",
    "fineness": "clay_washed_g",
    "match": "make_kg",
    "estimate": "strength_kpa",
    "diagnose": "moisture_pct_wet",
    "choose": "bought_kg",
}


LIST = [
    {"kind": "sand", "moisture_pct_wet": "1 %", "price_per_kg": 0.3},
    {"kind": "clay", "clay_activity_pct": "90 %", "price_per_kg": 1.2},
    {"kind": "mix", "clay_pct_dry": "7 %", "price_per_kg": 2},
]
BESIDE = {"rebond, a list": ("rebond", {"materials": LIST})}
"""More cases: a job's example with more inputs."""


def changed(inputs: dict[str, str], word: str, change: int) -> dict[str, str]:
    """The inputs with another number or time in *word*; a book gets another note."""
    if word == "book":
        first, *others = json.loads(inputs[word])
        return inputs | {word: json.dumps([first | {"note": f"change {change}"}, *others])}
    if word == "now":
        return inputs | {word: f"2027-06-{1 + change % 28:02}"}
    return inputs | {word: f"{LEAST.get(word, 20.0) * (1 + change / CHANGES):.4f}"}


def milliseconds(job: str, inputs: dict[str, str], *, doubt: bool) -> list[float]:
    """The times of CHANGES answers, sorted; each has one input changed."""
    times = []
    for change in range(CHANGES):
        request = json.dumps({"job": job, "inputs": changed(inputs, CHANGED[job], change), "doubt": doubt})
        started = time.perf_counter()
        answer = call(request)
        times.append(1000 * (time.perf_counter() - started))
        if not json.loads(answer)["ok"]:
            raise SystemExit(f"{job} was refused: {answer}")
    return sorted(times)


def main() -> None:
    """Print one line for each job, with likely ranges and without."""
    print(f"{'job':<14} {'doubt':<8} {'p50 ms':>7} {'p95 ms':>7}")
    examples = {job["name"]: job["example"] for job in json.loads(call('{"job": "describe"}'))["jobs"]}
    cases = {name: (name, example) for name, example in examples.items()}
    cases |= {name: (job, examples[job] | more) for name, (job, more) in BESIDE.items()}
    for name, (job, inputs) in cases.items():
        for doubt in (True, False):
            times = milliseconds(job, inputs, doubt=doubt)
            p50, p95 = times[CHANGES // 2], times[CHANGES * 95 // 100]
            print(f"{name:<14} {'with' if doubt else 'without':<8} {p50:>7.2f} {p95:>7.2f}")


if __name__ == "__main__":
    main()
