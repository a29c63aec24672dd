"""Published figures on carbon in moulding sand.

Sources, all as a note of this project has them:
- wear_factor: Foundry lexicon (Giesserei-Lexikon), entry "Wear factor" (read: bentonite 0.25 to 0.40, carbon carriers 0.7 to 1.5; 1000 kg of sand,
  sand to iron 3, 8 % and 0.4 give "approx. 11" kg). Derived: 1000/3 × 0.4 × 0.08 = 10.67 kg, and by analogy with 4 % of a carbon carrier 9.3 to 20.0.
- carbon_substitutes: trade report (read: gilsonite or asphalt at one third of the seacoal have the same volatiles at 482 °C and under half the loss).
- coal_data: trade page (read: volatiles 23 to 25 %, ash 10 to 11 % in low-ash coal).
- co_bound: derived from molar masses: 1 g of carbon gives 2.33 g or 2.0 L of carbon monoxide.
Tolerance: half the last printed digit.
"""

import pytest

from sandmix.recipes.carbon import ADDITIVES, burnt_kg, carbon_monoxide_g, carbon_monoxide_l


def test_the_clay_of_a_thousand_kilograms():
    assert burnt_kg(1000 / 3, 0.4, 0.08) == pytest.approx(10.67, abs=0.005)


@pytest.mark.parametrize(("wear", "kg"), [(0.7, 9.3), (1.5, 20.0)])
def test_the_carbon_of_a_thousand_kilograms_by_analogy(wear, kg):
    assert burnt_kg(1000 / 3, wear, 0.04) == pytest.approx(kg, abs=0.05)


def test_the_job_gives_the_same(result):
    """1000/3 kg of iron at 4 % as seacoal; bought with 5 % of water."""
    inputs = {
        "metal": "grey_iron",
        "cast_metal_kg": 1000 / 3,
        "carbon_target_pct": 4,
        "carbon_now_pct": 4,
        "carbon_wear": 1.5,
    }
    assert result("carbon", **inputs)["additive_burnt_kg"] * 0.95 == pytest.approx(20.0, abs=0.05)


@pytest.mark.parametrize("kind", ["gilsonite", "asphalt"])
def test_a_third_of_the_seacoal_replaces_it(kind):
    coal, other = ADDITIVES["seacoal"], ADDITIVES[kind]
    assert other.volatiles / 3 == pytest.approx(coal.volatiles)
    assert other.loss / 3 < coal.loss / 2


def test_the_coal_is_within_its_data_sheets():
    assert 0.23 <= ADDITIVES["seacoal"].volatiles <= 0.25
    assert 0.89 <= ADDITIVES["seacoal"].loss <= 0.90


def test_the_bound_on_carbon_monoxide():
    assert carbon_monoxide_g(1) == pytest.approx(2.33, abs=0.005)
    assert carbon_monoxide_l(1) == pytest.approx(2.0, abs=0.05)
