"""Published figures on carbon in moulding sand.

Sources, all as a note of this project has them:
- wear_factor: Foundry lexicon (Giesserei-Lexikon), entry "Wear factor" (read: bentonite 0.25 to 0.40, carbon carriers 0.7 to 1.5; 1000 kg of sand,
  sand to iron 3, 8 % and 0.4 give "approx. 11" kg). Derived: 1000/3 × 0.4 × 0.08 = 10.67 kg, and by analogy with 4 % of a carbon carrier 9.3 to 20.0.
- carbon_substitutes: trade report (read: gilsonite or asphalt at one third of the seacoal have the same volatiles at 482 °C and under half the loss).
- coal_data: trade page (read: volatiles 23 to 25 %, ash 10 to 11 % in low-ash coal).
- co_bound: derived from molar masses: 1 g of carbon gives 2.33 g or 2.0 L of carbon monoxide.
"""

import pytest
from against.published import Checks

from sandmix.recipes.carbon import ADDITIVES, burnt_kg, carbon_monoxide_g, carbon_monoxide_l

WEAR = Checks("carbon", source="wear_factor", sure="inputs")
CARBON_WEAR = WEAR.but(source="carbon_wear")
BATCH = "1000 kg of sand, sand to iron 3"


def test_the_clay_of_a_thousand_kilograms():
    found = burnt_kg(1000 / 3, 0.4, 0.08)
    WEAR.but(sure="read").figure(found, "11", f"{BATCH}, 8 % of bentonite, factor 0.4, printed as “approx.”", unit="kg")
    WEAR.figure(found, "10.67", "the same, worked out", unit="kg")


@pytest.mark.parametrize(("wear", "kg"), [(0.7, "9.3"), (1.5, "20.0")])
def test_the_carbon_of_a_thousand_kilograms_by_analogy(wear, kg):
    CARBON_WEAR.figure(burnt_kg(1000 / 3, wear, 0.04), kg, f"{BATCH}, 4 % of carbon, factor {wear}", unit="kg")


def test_the_job_gives_the_same(result):
    """1000/3 kg of iron at 4 % as seacoal; bought with 5 % of water."""
    inputs = {
        "metal": "grey_iron",
        "cast_metal_kg": 1000 / 3,
        "carbon_target_pct": 4,
        "carbon_now_pct": 4,
        "carbon_wear": 1.5,
    }
    found = result("carbon", **inputs)["additive_burnt_kg"] * 0.95
    CARBON_WEAR.figure(found, "20.0", f"{BATCH}, 4 % of carbon, factor 1.5", unit="kg")


@pytest.mark.parametrize("kind", ["gilsonite", "asphalt"])
def test_a_third_of_the_seacoal_replaces_it(kind):
    coal, other = ADDITIVES["seacoal"], ADDITIVES[kind]
    third = Checks("carbon", source="carbon_substitutes", sure="read")
    ratio = coal.volatiles / other.volatiles
    third.figure(ratio, "0.333", f"{kind} that has the volatiles of 1 kg of seacoal", unit="kg")
    third.between(other.loss / 3 / coal.loss, "", "0.50", f"loss on ignition of that {kind}, over the seacoal's")


def test_the_coal_is_within_its_data_sheets():
    sheets = Checks("carbon", source="coal_data", sure="read")
    sheets.between(100 * ADDITIVES["seacoal"].volatiles, "23", "25", "volatiles of seacoal", unit="%")
    sheets.between(100 * (1 - ADDITIVES["seacoal"].loss), "10", "11", "ash of seacoal", unit="%")


def test_the_bound_on_carbon_monoxide():
    bound = Checks("carbon", source="co_bound", sure="derived")
    bound.figure(carbon_monoxide_g(1), "2.33", "most carbon monoxide of 1 g of carbon", unit="g")
    bound.figure(carbon_monoxide_l(1), "2.0", "the same, as a volume", unit="L")
