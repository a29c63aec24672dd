"""The heat of a cast between shared solutions: near a solution of the cast itself, and few solutions for many casts."""

import random

import pytest

from sandmix.book import book
from sandmix.cooling import cast_heat
from sandmix.cooling.burnout import HeatedMould
from sandmix.cooling.cooling import cool
from sandmix.cooling.freezing import MEASURED_CONTACT_W_M2K, PERFECT, ROUGH, Case
from sandmix.materials.metals import METALS, thermal
from sandmix.materials.sands_and_clays import SANDS_FOR_HEAT

CASTS = [
    ("aluminium", 0.0325, 7.3, PERFECT),
    ("aluminium", 0.0412, 3.1, MEASURED_CONTACT_W_M2K),
    ("tin_bronze", 0.0271, 11.9, MEASURED_CONTACT_W_M2K),
    ("grey_iron", 0.0559, 2.3, PERFECT),
]


@pytest.mark.parametrize(("metal", "water", "modulus_mm", "contact"), CASTS)
def test_the_shared_heat_is_near_a_solution_of_the_cast_itself(metal, water, modulus_mm, contact):
    pour_temp_c = METALS[metal].pour_temp_c
    case = Case(
        metal=thermal(metal),
        pour_temp_c=pour_temp_c,
        sand=SANDS_FOR_HEAT["a"],
        water=water,
        shape_n=0.0,
        modulus_mm=modulus_mm,
        contact_w_m2k=contact,
    )
    own = cool(case, ROUGH)
    rate_mm = 1000 * HeatedMould(cooling=own, area_m2=1.0).burnt_by_rate_kg() / case.sand.density_kg_m3
    heat = cast_heat.cast_heat(metal, pour_temp_c, water, modulus_mm, contact)
    assert heat.limit_mm == pytest.approx(own.depth_past_mm(638.0), rel=0.04, abs=0.05 * modulus_mm)
    assert heat.rate_mm == pytest.approx(rate_mm, rel=0.04, abs=0.05 * modulus_mm)
    assert heat.dry_mm == pytest.approx(own.dry_depth_mm, rel=0.04)
    assert heat.freeze_s == pytest.approx(own.freeze_s, rel=0.01)


def test_at_a_shared_water_and_modulus_the_heat_is_that_of_the_solution():
    heat = cast_heat.cast_heat("aluminium", 720.0, 0.03, 8.0, PERFECT)
    wetter = cast_heat.cast_heat("aluminium", 720.0, 0.03 + 1e-12, 8.0 + 1e-12, PERFECT)
    assert heat.dry_mm == pytest.approx(wetter.dry_mm, rel=1e-9)
    assert heat.limit_mm == pytest.approx(wetter.limit_mm, rel=1e-9)


def test_many_casts_without_outcomes_share_a_few_solutions():
    dice = random.Random(5)
    events = [{"kind": "mixed", "at": "2026-05-01", "make_kg": 45, "clay_pct_dry": 7.5, "moisture_pct_wet": 3.4}]
    for _ in range(150):
        cast = {
            "kind": "poured",
            "metal_kg": round(dice.uniform(0.2, 2), 2),
            "modulus_mm": round(dice.uniform(3, 12), 2),
        }
        events += [cast | {"at": "2026-05-02"}, {"kind": "tempered", "at": "2026-05-02", "water_kg": 0.1}]
    cast_heat._solved.cache_clear()
    book.read(events)
    assert cast_heat._solved.cache_info().misses <= 70
