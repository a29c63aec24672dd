"""The solution of `sandmix.cooling` compared with a separate one, in which SciPy follows a sharp drying front with moving cells.

Source: `tests/reference/heat.csv`, 126 cases, made by `tests/reference/table.py` with `heat.py`, which shares no line and no method with the
library (its head gives its accuracy against closed forms; halving its grid changes a figure by 0.02 % in the median). Derived.
Computed by: the author of that program. Accuracy claimed: 1 %, and 0.01 mm for depths below 1 mm.
"""

import csv
import sys
from pathlib import Path

import pytest
from against.published import Checks

from sandmix.cooling.cooling import cool
from sandmix.cooling.freezing import PERFECT, Case
from sandmix.materials.metals import thermal
from sandmix.materials.sands_and_clays import SANDS_FOR_HEAT

REFERENCE = Path(__file__).resolve().parents[1] / "reference"
with (REFERENCE / "heat.csv").open(encoding="utf-8") as sheet:
    ROWS = list(csv.DictReader(sheet))
REFERENCE_HEAT = Checks("heat_solution", source="heat_reference", sure="separate", claimed="source")
RESOLVED = (("aluminium", "3.5", "0"), ("tin_bronze", "6.0", "2"))


def name_of(row):
    return "-".join(row[part] for part in ("metal", "moisture_pct_wet", "n", "contact_w_m2k", "wall_mm"))


def cooled(row):
    contact = row["contact_w_m2k"]
    moisture = float(row["moisture_pct_wet"])
    return cool(
        Case(
            metal=thermal(row["metal"]),
            pour_temp_c=float(row["pour_temp_c"]),
            sand=SANDS_FOR_HEAT["a"],
            water=moisture / (100 - moisture),
            shape_n=float(row["n"]),
            modulus_mm=float(row["modulus_mm"]),
            contact_w_m2k=PERFECT if contact == "perfect" else float(contact),
            wall_mm=float(row["wall_mm"]),
        )
    )


def near(got, text, what):
    REFERENCE_HEAT.agrees(got, float(text), f"{what}, 126 cases", rel=0.01, within=0.01)


def test_the_cases_vary_metal_moisture_shape_contact_and_wall():
    kinds = {part: {row[part] for row in ROWS} for part in ROWS[0]}
    assert len(ROWS) == 126
    counted = {part: len(kinds[part]) for part in ("metal", "moisture_pct_wet", "n", "contact_w_m2k", "wall_mm")}
    assert counted == {"metal": 3, "moisture_pct_wet": 3, "n": 3, "contact_w_m2k": 3, "wall_mm": 2}


@pytest.mark.parametrize("row", ROWS, ids=name_of)
def test_freezing_opening_and_depths_agree_with_the_reference(row):
    cooling = cooled(row)
    near(cooling.freeze_s, row["freeze_s"], "time to freeze, s")
    near(cooling.middle_below_s(cooling.case.metal.solidus_c / 2), row["open_s"], "middle at half the solidus, s")
    middle_c = cooling.at_s(cooling.middle_c, 2 * float(row["freeze_s"]))
    near(middle_c, row["middle_c_at_2x_freeze"], "middle after twice the freezing time, °C")
    near(cooling.depth_past_mm(350), row["depth_350_mm"], "depth of 350 °C, mm")
    near(cooling.depth_past_mm(638), row["depth_638_mm"], "depth of 638 °C, mm")
    near(cooling.peaks_c[0], row["face_peak_c"], "hottest face of the sand, °C")
    if row["dry_depth_mm"]:
        near(cooling.dry_depth_mm, row["dry_depth_mm"], "depth that dries, mm")


@pytest.fixture(scope="module")
def heat():
    """The reference solver itself."""
    sys.path.insert(0, str(REFERENCE))
    try:
        import heat
    finally:
        sys.path.remove(str(REFERENCE))
    return heat


def test_the_reference_uses_the_figures_of_the_library(heat):
    for key, figures in heat.METALS.items():
        ours = thermal(key)
        assert figures["rho"] == ours.solid_kg_m3
        assert (figures["cs"], figures["cl"]) == (ours.solid_j_kgk, ours.liquid_j_kgk)
        assert (figures["sol"], figures["liq"]) == (ours.solidus_c, ours.liquidus_c)
        assert (figures["latent"], figures["k"]) == (ours.latent_j_kg, ours.conductivity_w_mk)
    sand = SANDS_FOR_HEAT["a"]
    assert list(heat.SAND.values()) == [sand.density_kg_m3, sand.heat_j_kgk, sand.conductivity_w_mk]


@pytest.mark.parametrize(("metal", "moisture", "n"), RESOLVED)
def test_the_table_repeats_what_the_reference_computes(heat, metal, moisture, n):
    row = next(
        row
        for row in ROWS
        if (row["metal"], row["moisture_pct_wet"], row["n"]) == (metal, moisture, n)
        and row["contact_w_m2k"] == "500.0"
        and row["wall_mm"] == "40.0"
    )
    case = {part: float(row[part]) for part in ("moisture_pct_wet", "modulus_mm", "contact_w_m2k", "wall_mm")}
    solved = heat.solve(case | {"metal": metal, "n": int(n), "grid": 1.0})
    for part in ("freeze_s", "open_s", "dry_depth_mm", "depth_350_mm"):
        assert solved[part] == pytest.approx(float(row[part]), rel=2e-3)
