"""How long an answer takes natively: p50 and p95 of `facade.call` for each job over 200 changes of one number.

python tests/bench/answers.py
"""

from __future__ import annotations

import json
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from sandmix.facade import call

CHANGES = 200
CHANGED = {
    "mix": "make_kg",
    "shopping": "sand_kg",
    "temper": "heap_kg",
    "flask": "heap_kg",
    "pour": "casting_volume_cm3",
    "burnout": "sand_kg",
    "rebond": "heap_kg",
}


def milliseconds(job: str, inputs: dict[str, str], *, doubt: bool) -> list[float]:
    """Times of CHANGES answers, sorted, each to another number than the one before."""
    times = []
    for change in range(CHANGES):
        request = json.dumps({"job": job, "inputs": inputs | {CHANGED[job]: 20 + change / 10}, "doubt": doubt})
        started = time.perf_counter()
        answer = call(request)
        times.append(1000 * (time.perf_counter() - started))
        if not json.loads(answer)["ok"]:
            raise SystemExit(f"{job} was refused: {answer}")
    return sorted(times)


def main() -> None:
    """Print a line a job, with doubt and without."""
    print(f"{'job':<10} {'doubt':<8} {'p50 ms':>7} {'p95 ms':>7}")
    for job in json.loads(call('{"job": "describe"}'))["jobs"]:
        for doubt in (True, False):
            times = milliseconds(job["name"], job["example"], doubt=doubt)
            p50, p95 = times[CHANGES // 2], times[CHANGES * 95 // 100]
            print(f"{job['name']:<10} {'with' if doubt else 'without':<8} {p50:>7.2f} {p95:>7.2f}")


if __name__ == "__main__":
    main()
