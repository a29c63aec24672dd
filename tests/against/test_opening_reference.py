"""Opening and handling times compared with the separate program of `tests/reference`, at the contact that times are computed with.

Source: `tests/reference/opening.csv`, 14 cases, made by `tests/reference/opening.py` with `heat.py`, which shares no line and no method with the
library. Derived. Computed by: the author of that program. Accuracy claimed: 1 % of the times; 2 % of the layer that has dried, whose mean there
counts the cell that is drying.
What is taken from a case is by DOOR's definitions: 1.5 times the freezing time, half the solidus, the middle below 60 °C (`end_s`).
"""

import csv
import math
from dataclasses import replace
from pathlib import Path

import pytest
from against.published import Checks

from sandmix.cooling.cooling import cool
from sandmix.cooling.freezing import PERFECT, Case
from sandmix.materials.metals import METALS, thermal
from sandmix.materials.sands_and_clays import SANDS_FOR_HEAT

with (Path(__file__).resolve().parents[1] / "reference" / "opening.csv").open(encoding="utf-8") as sheet:
    ROWS = list(csv.DictReader(sheet))

OPENING = Checks("heat_solution", source="heat_reference", sure="separate", claimed="source")


def name_of(row):
    return "-".join(row[part] for part in ("name", "metal", "n", "contact_w_m2k", "latent_kj_kg", "liquid_j_kgk"))


def row_of(name):
    return next(row for row in ROWS if name_of(row) == name)


def minutes(row, part):
    return float(row[part]) / 60


@pytest.mark.parametrize("row", ROWS, ids=name_of)
def test_freezing_opening_and_handling_agree_with_the_reference(row):
    contact = row["contact_w_m2k"]
    figures = {"latent_j_kg": 1000 * float(row["latent_kj_kg"]), "liquid_j_kgk": float(row["liquid_j_kgk"])}
    cooling = cool(
        Case(
            metal=replace(thermal(row["metal"]), **figures),
            pour_temp_c=METALS[row["metal"]].pour_temp_c,
            sand=SANDS_FOR_HEAT["a"],
            water=3.5 / 96.5,
            shape_n=float(row["n"]),
            modulus_mm=float(row["modulus_mm"]),
            contact_w_m2k=PERFECT if contact == "perfect" else float(contact),
            wall_mm=float(row["wall_mm"]),
        )
    )
    opened_s = float(row["open_s"])
    half = cooling.middle_below_s(cooling.case.metal.solidus_c / 2)
    OPENING.agrees(cooling.freeze_s, float(row["freeze_s"]), "time to freeze at the usual contact, s", rel=0.01)
    OPENING.agrees(half, opened_s, "middle at half the solidus at the usual contact, s", rel=0.01)
    OPENING.agrees(cooling.middle_below_s(60), float(row["end_s"]), "middle at 60 °C, s", rel=0.01)
    dried_c = cooling.at_s(cooling.dried_c, opened_s)
    OPENING.agrees(dried_c, float(row["dried_c_at_open"]), "mean of the dried layer at opening, °C", rel=0.02)


SPRUE = row_of("sprue-aluminium-1-61.0-397.0-1180.0")
THIN = {"casting_volume_cm3": 30, "casting_area_cm2": 212, "shape": "plate"}
HALF_KG = {"casting_volume_cm3": 500 / 2.7, "modulus_mm": 6, "shape": "plate"}


def test_a_plate_of_3_mm_waits_for_its_sprue_of_25_mm(ask):
    """100 × 100 × 3 mm: the plate by itself is ready after 2.5 min, the sprue after 13.7."""
    answer = ask("burnout", **THIN)
    plate = row_of("thin plate-aluminium-0-61.0-397.0-1180.0")
    opened = (answer["result"]["casting_open_min"], answer["result"]["open_after_min"])
    times = (minutes(plate, "open_s"), minutes(SPRUE, "open_s"))
    OPENING.agrees(opened, times, "plate of 3 mm, and its sprue of 25 mm, through the job, min", rel=0.01)
    assert "The gating decides" in " ".join(answer["remarks"])


def test_the_range_of_the_opening_time_reaches_to_perfect_contact_but_not_below_10_minutes(ask):
    """The sprue in perfect contact is ready after 5.7 min, solid with a margin after 1.9: 10 min remain."""
    perfect = row_of("sprue-aluminium-1-perfect-397.0-1180.0")
    assert minutes(perfect, "open_s") < 10
    answer = ask("burnout", **THIN, gating_section_mm="25 ± 0 mm")
    assert answer["doubt"]["open_after_min"][0] == pytest.approx(10)
    thin = row_of("thin plate-aluminium-0-perfect-397.0-1180.0")
    assert answer["doubt"]["freeze_s"][0] <= 1.01 * float(thin["freeze_s"])


@pytest.mark.parametrize("metal", ["aluminium", "grey_iron", "tin_bronze"])
def test_the_gating_of_each_metal_opens_by_its_own_solidus(ask, metal):
    row = next(row for row in ROWS if (row["name"], row["metal"], row["contact_w_m2k"]) == ("sprue", metal, "61.0"))
    thin = ask("burnout", modulus_mm=1, shape="plate", metal=metal)["result"]
    latest = max(minutes(row, "open_s"), 1.5 * minutes(row, "freeze_s"))
    OPENING.agrees(thin["open_after_min"], latest, "gating of three metals, through the job, min", rel=0.01)


def test_half_a_kilogram_in_10_kg_of_sand_is_handled_after_hours_and_not_nine(ask):
    """As a plate between layers of its sand 9 h, as a ball in the middle of it 2.7: the sooner."""
    ball, plate = (
        row_of(f"half a kilogram, {shape}-aluminium-{n}-61.0-397.0-1180.0") for shape, n in (("ball", 2), ("plate", 0))
    )
    assert minutes(ball, "end_s") < 170 < 500 < minutes(plate, "end_s")
    found = ask("burnout", **HALF_KG, flask_sand_kg=10)["result"]["handle_after_min"]
    OPENING.agrees(found, minutes(ball, "end_s"), "half a kilogram in 10 kg of sand is handled, min", rel=0.02)
    assert ask("burnout", **HALF_KG)["result"]["handle_after_min"] > 500


def test_a_large_thin_plate_is_handled_sooner_than_a_ball_of_its_mass(ask):
    """1 kg, 3 mm thick, in 15 kg of sand: 39 mm of sand on each side of the plate."""
    plate = {"casting_volume_cm3": 1000 / 2.7, "modulus_mm": 1.5}
    flat = ask("burnout", **plate, shape="plate", flask_sand_kg=15)["result"]["handle_after_min"]
    ball_mm = (1000 * 1000 / 2.7 / (36 * math.pi)) ** (1 / 3)
    ball = ask("burnout", casting_volume_cm3=1000 / 2.7, modulus_mm=0.999 * ball_mm, shape="ball", flask_sand_kg=15)
    assert flat < 0.5 * ball["result"]["handle_after_min"]


def test_the_range_of_al_si7mg_reaches_to_500_kilojoules_and_to_963(ask):
    """Freezing and opening at the ends of the latent and the liquid heat, one at a time; what else is uncertain is given as exact."""
    usual, high, low = (
        row_of(f"range-al_si7mg-0-61.0-{ends}") for ends in ("389.0-1180.0", "500.0-1180.0", "389.0-963.0")
    )
    exact = {
        "modulus_mm": "10 ± 0 mm",
        "pour_temp_c": "720 ± 0 °C",
        "moisture_pct_wet": "3.5 ± 0 %",
        "contact_w_m2k": "61 ± 0",
    }
    answer = ask("burnout", metal="al_si7mg", shape="plate", sand_heat="a", gating_section_mm="25 ± 0 mm", **exact)
    for word, part, scale in (("freeze_s", "freeze_s", 1), ("casting_open_min", "open_s", 60)):
        ends = [float(row[part]) / scale for row in (low, usual, high)]
        below, above = answer["doubt"][word]
        what = "freezing and opening of Al-7 Si over its range of latent and liquid heat"
        OPENING.agrees((below, answer["result"][word], above), ends, what, rel=0.01)
    causes = [one["label"] for one in answer["uncertainty"]["freeze_s"]]
    assert causes == ["Latent heat of the alloy", "Specific heat of the liquid alloy"]
