"""Measure the heat solution: its error compared with the reference, its time, how well it conserves energy, and its memory.

python tests/bench/heat.py
"""

from __future__ import annotations

import csv
import json
import statistics
import sys
import time
import tracemalloc
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from sandmix.cooling import cooling  # noqa: E402  found only once the path is set
from sandmix.cooling.freezing import FINE, PERFECT, QUICK, ROUGH, Case, Cooling  # noqa: E402
from sandmix.doors.facade import call  # noqa: E402
from sandmix.materials.metals import METALS, thermal  # noqa: E402
from sandmix.materials.sands_and_clays import SANDS_FOR_HEAT  # noqa: E402

COMPARED: dict[str, Callable[[Cooling, dict[str, str]], float | None]] = {
    "freeze_s": lambda cooled, _: cooled.freeze_s,
    "open_s": lambda cooled, _: cooled.middle_below_s(cooled.case.metal.solidus_c / 2),
    "middle_c_at_2x_freeze": lambda cooled, row: cooled.at_s(cooled.middle_c, 2 * float(row["freeze_s"])),
    "dry_depth_mm": lambda cooled, _: cooled.dry_depth_mm,
    "depth_350_mm": lambda cooled, _: cooled.depth_past_mm(350.0),
    "depth_638_mm": lambda cooled, _: cooled.depth_past_mm(638.0),
    "face_peak_c": lambda cooled, _: cooled.peaks_c[0],
}


def case_of(row: dict[str, str]) -> Case:
    """The case of one row of the reference."""
    moisture, contact = float(row["moisture_pct_wet"]), row["contact_w_m2k"]
    return Case(
        metal=thermal(row["metal"]),
        pour_temp_c=float(row["pour_temp_c"]),
        sand=SANDS_FOR_HEAT["a"],
        water=moisture / (100 - moisture),
        shape_n=float(row["n"]),
        modulus_mm=float(row["modulus_mm"]),
        contact_w_m2k=PERFECT if contact == "perfect" else float(contact),
        wall_mm=float(row["wall_mm"]),
    )


def compare_opening(rows: list[dict[str, str]]) -> None:
    """Print the error of the times of middle and hot layer on each grid, over the cases about opening."""
    print(f"{len(rows)} cases about opening against the reference, worst error in %")
    for name, grid in (("fine", FINE), ("rough, for a book", ROUGH), ("quick, for ranges, gating and ball", QUICK)):
        errors: dict[str, list[float]] = {}
        for row in rows:
            cooled, opened_s = cooling.cool(opening_case_of(row), grid), float(row["open_s"])
            found = {
                "freeze_s": cooled.freeze_s,
                "open_s": cooled.middle_below_s(cooled.case.metal.solidus_c / 2),
                "end_s": cooled.middle_below_s(60.0),
                "dried_c_at_open": cooled.at_s(cooled.dried_c, opened_s),
            }
            for part, value in found.items():
                errors.setdefault(part, []).append(100 * abs((value or 0.0) / float(row[part]) - 1))
        print(f"  {name:<27}" + "   ".join(f"{part} {max(each):.2f}" for part, each in errors.items()))


def opening_case_of(row: dict[str, str]) -> Case:
    """The case of one row about opening."""
    figures = {"latent_j_kg": 1000 * float(row["latent_kj_kg"]), "liquid_j_kgk": float(row["liquid_j_kgk"])}
    case = case_of(row | {"pour_temp_c": str(METALS[row["metal"]].pour_temp_c)})
    return replace(case, metal=replace(case.metal, **figures))


def milliseconds(deed: Callable[[], object]) -> float:
    """How long a call takes."""
    began = time.perf_counter()
    deed()
    return 1000 * (time.perf_counter() - began)


def compare(rows: list[dict[str, str]], solved: list[Cooling]) -> None:
    """Print the error of each answer over all cases."""
    print(f"{len(rows)} cases against the reference, error in % (of depths under 1 mm also in mm)")
    everything: list[float] = []
    for name, told in COMPARED.items():
        pairs = [(told(cooled, row), float(row[name])) for cooled, row in zip(solved, rows, strict=True) if row[name]]
        known = [(ours, theirs) for ours, theirs in pairs if ours is not None and theirs]
        errors = sorted(100 * abs(ours / theirs - 1) for ours, theirs in known)
        everything += errors
        thin = max((abs(ours - theirs) for ours, theirs in known if theirs < 1), default=0.0)
        more = f"   under 1 mm at most {thin:.4f} mm" if thin else ""
        print(f"  {name:<24} median {statistics.median(errors):7.3f}   worst {errors[-1]:7.3f}{more}")
    print(f"  {'all of them':<24} median {statistics.median(everything):7.3f}   worst {max(everything):7.3f}")
    print(f"energy lost or made: worst {max(cooled.residual for cooled in solved):.1e} of the heat poured")


def time_it(cases: list[Case], forget: Callable[[], None]) -> None:
    """Print how long solutions and answers take."""
    for name, grid in (("fine", FINE), ("quick, for likely ranges", QUICK)):
        forget()
        times = []
        for case in cases:
            began = time.perf_counter()
            cooling.cool(case, grid)
            times.append(1000 * (time.perf_counter() - began))
        times.sort()
        print(f"one solution, {name}: median {times[len(times) // 2]:.1f} ms, slowest {times[-1]:.1f} ms")
    jobs = {job["name"]: job for job in json.loads(call('{"job": "describe"}'))["jobs"]}
    example = jobs["burnout"]["example"]
    for name, inputs in (("deep sand", example), ("a wall of 60 mm", example | {"wall_mm": "60 mm"})):
        request = json.dumps({"job": "burnout", "inputs": inputs})
        forget()
        began = time.perf_counter()
        call(request)
        first = 1000 * (time.perf_counter() - began)
        again = []
        for _ in range(20):
            began = time.perf_counter()
            call(request)
            again.append(1000 * (time.perf_counter() - began))
        print(
            f"an answer with its likely ranges, {name}: first {first:.0f} ms, again {statistics.median(again):.1f} ms"
        )


def weigh(case: Case, forget: Callable[[], None]) -> None:
    """Print how much memory solutions use."""
    forget()
    tracemalloc.start()
    cooling.cool(case)
    one = tracemalloc.get_traced_memory()[0]
    for warmer in range(1, cooling.CACHED):
        cooling.cool(replace(case, pour_temp_c=case.pour_temp_c + warmer))
    full, peak = tracemalloc.get_traced_memory()
    print(f"memory: one solution {one / 1e6:.2f} MB, the memo when full {full / 1e6:.0f} MB, peak {peak / 1e6:.0f} MB")


def main() -> None:
    """Print everything."""
    with (ROOT / "tests" / "reference" / "heat.csv").open(encoding="utf-8") as sheet:
        rows = list(csv.DictReader(sheet))
    cases = [case_of(row) for row in rows]
    compare(rows, [cooling.cool(case) for case in cases])
    with (ROOT / "tests" / "reference" / "opening.csv").open(encoding="utf-8") as sheet:
        compare_opening(list(csv.DictReader(sheet)))
    forget = cooling._solved.cache_clear
    time_it(cases, forget)
    weigh(cases[0].scaled, forget)


if __name__ == "__main__":
    main()
