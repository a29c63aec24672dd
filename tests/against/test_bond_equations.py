"""Bond, mulling and equilibrium moisture.

Source: Heine, R. W., and Green, R. A., quoted by the Iron Casting Research Institute, Report 610, 2003, p. 16 (equations read): available
bond 0.105 S + 1.316 M; working bond 15.29 S/(132.1 - C); equilibrium moisture clay/(3.213 - 0.02525 C) above a compactability of 47.5,
clay/(2.583 - 0.01185 C) below, both for 7 to 11 % of methylene blue clay.
Basis: S green strength in psi, M percent of wet mass, C percent, bond and clay in percent of the sand.
By hand 2.94 + 4.2112 = 7.1512; 428.12/92.1 = 4.6484; their ratio 65.00 %; 8/2.109 = 3.7933."""

import pytest
from against.published import Checks

BOND = Checks("bond", source="icri_610", sure="inputs")
CRUSHED = {"strength_kpa": {"value": 28, "unit": "psi"}, "moisture_pct_wet": 3.2, "compactability_read_pct": 40}


@pytest.mark.parametrize(
    ("what", "printed", "tolerance"),
    [("available bond", "7.151", 0.001), ("working bond", "4.648", 0.001), ("mulling efficiency", "65.0", 0.1)],
)
def test_28_psi_at_3_2_percent_and_40(result, what, printed, tolerance):
    found = result("estimate", **CRUSHED)[f"{what.replace(' ', '_')}_pct"]
    BOND.figure(found, printed, f"{what} at 28 psi, 3.2 % and a compactability of 40", unit="%", within=tolerance)


def test_8_percent_at_40_holds_3_793_percent_of_water(result):
    answer = result("estimate", clay_blue_pct_dry=8, compactability_read_pct=40)
    found = answer["equilibrium_moisture_pct_wet"]
    BOND.figure(found, "3.793", "moisture of mulled sand, 8 % of clay at 40", unit="% of the wet mass", within=0.001)


def test_above_47_5_the_other_equation_is_used(result):
    """8/(3.213 - 0.02525 · 50) = 8/1.9505 = 4.1015, from the printed equation."""
    answer = result("estimate", clay_blue_pct_dry=8, compactability_read_pct=50)
    found = answer["equilibrium_moisture_pct_wet"]
    BOND.figure(found, "4.1015", "the same at 50", unit="% of the wet mass", within=0.0005)


def test_the_clay_at_equilibrium_moisture(result):
    """The same equation solved for the clay: 3.793 % at 40 gives 8 %."""
    answer = result("estimate", moisture_pct_wet=3.793, compactability_read_pct=40)
    BOND.figure(answer["clay_mulled_pct_dry"], "8.0", "clay of sand with 3.793 % at 40", unit="%", within=0.001)
