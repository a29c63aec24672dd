"""Make opening.csv: cases about when a mould may be opened, on grid 1 of heat.py, a row each; about 20 minutes, most of it for the thin plates.

Contacts of 61 W/m²K and perfect, a bar of 25 mm like a sprue, a thin plate of 100 × 100 × 3 mm, the heat figures at both ends of the range
of Al-Si7Mg, and 0.5 kg of aluminium in 10 kg of sand: as a ball within a ball of that sand, and as a plate 12 mm thick between two layers of it.

Run python opening.py in this folder; it needs numpy and scipy.
"""

import csv
import math
from pathlib import Path

import heat

GRID = 1.0
ASKED = [
    "name",
    "metal",
    "moisture_pct_wet",
    "n",
    "modulus_mm",
    "contact_w_m2k",
    "wall_mm",
    "latent_kj_kg",
    "liquid_j_kgk",
]
RESULTS = ["freeze_s", "open_s", "end_s", "dried_c_at_open", "dry_depth_mm"]
HALF_KG_MM3 = 0.5 / 2700 * 1e9
SAND_MM3 = 10 * 0.965 / 1500 * 1e9


def ball_in_its_sand():
    """Modulus of the ball of 0.5 kg, and the sand around it, in mm."""
    radius = (3 * HALF_KG_MM3 / (4 * math.pi)) ** (1 / 3)
    return radius / 3, (3 * (HALF_KG_MM3 + SAND_MM3) / (4 * math.pi)) ** (1 / 3) - radius


def cases():
    """The rows: name, metal, shape n, modulus, contact, wall, latent heat, liquid specific heat."""
    ball, around = ball_in_its_sand()
    thin = 30000 / 21200
    yield from (("sprue", "aluminium", 1, 6.25, contact, 250.0, 397.0, 1180.0) for contact in (61.0, "perfect"))
    yield from (("size 10", "aluminium", n, 10.0, 61.0, 250.0, 397.0, 1180.0) for n in (0, 1, 2))
    yield ("half a kilogram, ball", "aluminium", 2, ball, 61.0, around, 397.0, 1180.0)
    yield ("half a kilogram, plate", "aluminium", 0, 6.0, 61.0, SAND_MM3 / (HALF_KG_MM3 / 6.0), 397.0, 1180.0)
    ends = ((389.0, 1180.0), (500.0, 1180.0), (389.0, 963.0))
    yield from (("range", "al_si7mg", 0, 10.0, 61.0, 250.0, latent, liquid) for latent, liquid in ends)
    yield ("sprue", "grey_iron", 1, 6.25, 61.0, 250.0, 230.0, 850.0)
    yield ("sprue", "tin_bronze", 1, 6.25, 61.0, 250.0, 190.0, 480.0)
    yield from (("thin plate", "aluminium", 0, thin, contact, 60.0, 397.0, 1180.0) for contact in (61.0, "perfect"))


def main():
    with Path("opening.csv").open("w", newline="") as out:
        sheet = csv.DictWriter(out, ASKED + RESULTS, lineterminator="\n", extrasaction="ignore")
        sheet.writeheader()
        for name, metal, n, modulus, contact, wall, latent, liquid in cases():
            figures = heat.METALS[metal] | {"latent": 1000 * latent, "cl": liquid}
            asked = {
                "metal": figures,
                "moisture_pct_wet": 3.5,
                "n": n,
                "modulus_mm": modulus,
                "contact_w_m2k": contact,
                "wall_mm": wall,
            }
            solved = heat.solve(asked | {"grid": GRID})
            row = {"name": name, "latent_kj_kg": latent, "liquid_j_kgk": liquid} | asked | {"metal": metal}
            row |= {"modulus_mm": f"{modulus:.8g}", "wall_mm": f"{wall:.8g}"}
            sheet.writerow(row | {key: "" if solved[key] is None else f"{solved[key]:.6g}" for key in RESULTS})
            out.flush()
            print(row, {key: solved[key] for key in RESULTS}, flush=True)


if __name__ == "__main__":
    main()
