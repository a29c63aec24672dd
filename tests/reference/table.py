"""Make heat.csv: 126 cases on the fine grid and on half of it, a row at a time; about 25 minutes on two cores.

Run python table.py in this folder; it needs numpy and scipy.
"""

import csv
import itertools
import random
import time
from concurrent.futures import ProcessPoolExecutor, as_completed
from pathlib import Path

import heat

FINE = 2.0
TABLED = ("aluminium", "tin_bronze", "grey_iron")
RESULTS = ["freeze_s", "middle_c_at_2x_freeze", "dry_depth_mm", "depth_350_mm", "depth_638_mm", "face_peak_c", "open_s"]
ASKED = ["metal", "pour_temp_c", "moisture_pct_wet", "n", "modulus_mm", "contact_w_m2k", "wall_mm"]
NOTED = ["end_s", "end_middle_c", "balance_pct", "front_stops", "grid_change_max_pct", "grid_change_worst", "note"]
COLUMNS = [*ASKED, *RESULTS, *NOTED]


def cases():
    out = [
        {
            "metal": metal,
            "moisture_pct_wet": m,
            "n": n,
            "modulus_mm": 10.0,
            "contact_w_m2k": contact,
            "wall_mm": wall,
        }
        for metal, m, n, wall in itertools.product(TABLED, (0.0, 3.5, 6.0), (0, 1, 2), (40.0, 250.0))
        for contact in ["perfect", 500.0] + ([108.0] if metal == "aluminium" else [])
    ]
    random.Random(7).shuffle(out)
    return out


def one(case):
    began = time.time()
    row = dict(case, pour_temp_c=heat.METALS[case["metal"]]["pour"])
    try:
        more = 2.0 if case["metal"] == "aluminium" and case["contact_w_m2k"] == "perfect" else 1.0
        half = heat.solve(case | {"grid": FINE / 2, "metal_grid": FINE / 2 * more})
        full = heat.solve(case | {"grid": FINE, "metal_grid": FINE * more})
    except Exception as err:
        return row | {"note": f"{type(err).__name__}: {err}"}, time.time() - began
    worst, name = 0.0, ""
    for key in RESULTS:
        a, b = half[key], full[key]
        row[key] = "" if b is None else f"{b:.6g}"
        if a is not None and b:
            change = abs(a / b - 1) * 100
            if change > worst:
                worst, name = change, key
    row |= {
        "end_s": f"{full['end_s']:.6g}",
        "end_middle_c": f"{full['end_middle_c']:.5g}",
        "balance_pct": f"{full['balance_pct']:.4f}",
        "front_stops": full["halts"],
        "grid_change_max_pct": f"{worst:.4f}",
        "grid_change_worst": name,
        "note": "",
    }
    return row, time.time() - began


def main():
    todo = cases()
    with Path("heat.csv").open("w", newline="") as out, ProcessPoolExecutor(2) as pool:
        sheet = csv.DictWriter(out, COLUMNS, lineterminator="\n")
        sheet.writeheader()
        for i, job in enumerate(as_completed([pool.submit(one, c) for c in todo]), 1):
            row, took = job.result()
            sheet.writerow(row)
            out.flush()
            print(i, len(todo), f"{took:.1f} s", *(f"{k}={v}" for k, v in row.items()), flush=True)


if __name__ == "__main__":
    main()
