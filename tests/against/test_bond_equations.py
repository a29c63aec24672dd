"""Bond, mulling and equilibrium moisture.

Source: Heine, R. W., and Green, R. A., quoted by the Iron Casting Research Institute, Report 610, 2003, p. 16 (equations read): available
bond 0.105 S + 1.316 M; working bond 15.29 S/(132.1 - C); equilibrium moisture clay/(3.213 - 0.02525 C) above a compactability of 47.5,
clay/(2.583 - 0.01185 C) below, both for 7 to 11 % of methylene blue clay.
Basis: S green strength in psi, M percent of wet mass, C percent, bond and clay in percent of the sand.
Rows: available_bond (28 psi, 3.2 %) 7.151 ± 0.001; working_bond (28 psi, 40) 4.648 ± 0.001; muller_efficiency 65.0 ± 0.1;
equilibrium_moisture_40 (8 %, 40) 3.793 ± 0.001.
Computed by: the rows' author. By hand 2.94 + 4.2112 = 7.1512; 428.12/92.1 = 4.6484; their ratio 65.00 %; 8/2.109 = 3.7933."""

import pytest

CRUSHED = {"strength_kpa": {"value": 28, "unit": "psi"}, "moisture_pct_wet": 3.2, "compactability_read_pct": 40}


@pytest.mark.parametrize(
    ("word", "printed", "tolerance"),
    [("available_bond_pct", 7.151, 0.001), ("working_bond_pct", 4.648, 0.001), ("mulling_efficiency_pct", 65.0, 0.1)],
)
def test_28_psi_at_3_2_percent_and_40(result, word, printed, tolerance):
    assert result("estimate", **CRUSHED)[word] == pytest.approx(printed, abs=tolerance)


def test_8_percent_at_40_holds_3_793_percent_of_water(result):
    answer = result("estimate", clay_blue_pct_dry=8, compactability_read_pct=40)
    assert answer["equilibrium_moisture_pct_wet"] == pytest.approx(3.793, abs=0.001)


def test_above_47_5_the_other_equation_is_used(result):
    """8/(3.213 - 0.02525 · 50) = 8/1.9505 = 4.1015, from the printed equation."""
    answer = result("estimate", clay_blue_pct_dry=8, compactability_read_pct=50)
    assert answer["equilibrium_moisture_pct_wet"] == pytest.approx(4.1015, abs=0.0005)


def test_the_clay_at_equilibrium_moisture(result):
    """The same equation solved for the clay: 3.793 % at 40 gives 8 %."""
    answer = result("estimate", moisture_pct_wet=3.793, compactability_read_pct=40)
    assert answer["clay_mulled_pct_dry"] == pytest.approx(8.0, abs=0.001)
