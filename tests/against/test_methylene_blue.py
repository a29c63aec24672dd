"""Live clay by methylene blue, and the strength of the dye.

Sources: the titration procedure as laboratories write it down: reference factor = grams of bentonite over millilitres it takes, active clay =
titre × factor × 100/sample (formula read); 3.739 g of dye in a litre, 373.90 g/mol (inputs read). BCIRA broadsheet 16-1: 5 g of dried sand.
A laboratory procedure's trap (input read): 0.4 g of clay with 5 g of sand is 8.00 % of the sand and 7.407 % of the mix.
Basis: percent of the dry sample, in equivalents of the clay calibrated with.
Rows: methylene_blue 8.0 ± 0.01; mb_molarity 0.01000 ± 0.1 %; blend_basis 8.00 and 7.407 ± 0.001.
Computed by: the rows' author. By hand 40 · (0.5/50) · 100/5 = 8.00; 3.739/373.90 = 0.0100.
"""

import pytest

from sandmix.bench import measurements


def test_40_ml_on_5_g_against_50_ml_on_half_a_gram_is_8_percent(result):
    answer = result("bench", test="methylene_blue", sample_g=5, titre_ml=40, calibration_ml=50, calibration_clay_g=0.5)
    assert answer["clay_pct_dry"] == pytest.approx(8.0, abs=0.01)


def test_a_blend_of_0_4_g_with_5_g_reads_as_a_share_of_the_blend(result):
    """All 5.4 g are the sample, and the 0.4 g take 40 mL of a dye of which 50 mL answer to 0.5 g: 0.4/5.4 = 7.407 %, not 8.00."""
    answer = result(
        "bench", test="methylene_blue", sample_g=5.4, titre_ml=40, calibration_ml=50, calibration_clay_g=0.5
    )
    assert answer["clay_pct_dry"] == pytest.approx(7.407, abs=0.001)


def test_the_dye_is_a_hundredth_of_a_mole_a_litre():
    assert measurements.dye_mol_l(3.739) == pytest.approx(0.01000, rel=0.001)
