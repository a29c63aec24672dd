"""Live clay by methylene blue, and the strength of the dye.

Sources: the titration procedure as laboratories describe it: reference factor = grams of bentonite over the millilitres that it takes,
active clay = titre × factor × 100/sample (formula read); 3.739 g of dye in a litre, 373.90 g/mol (inputs read). BCIRA broadsheet on the
test (read): 5 g of dried sand. A common mistake in a laboratory procedure (input read): 0.4 g of clay with 5 g of sand is 8.00 % of the
sand and 7.407 % of the mix.
Basis: percent of the dry sample, in equivalents of the clay used to calibrate.
By hand 40 · (0.5/50) · 100/5 = 8.00; 3.739/373.90 = 0.0100."""

from against.published import Checks

from sandmix.bench import measurements

BLUE = Checks("methylene_blue", source="blue_procedure", sure="inputs")


def test_40_ml_for_5_g_and_50_ml_for_half_a_gram_give_8_percent(result):
    answer = result("bench", test="methylene_blue", sample_g=5, titre_ml=40, calibration_ml=50, calibration_clay_g=0.5)
    BLUE.figure(answer["clay_pct_dry"], "8.0", "40 mL for 5 g, where 50 mL go to 0.5 g of clay", unit="%", within=0.01)


def test_0_4_g_of_clay_with_5_g_of_sand_is_a_percent_of_the_mix(result):
    """The sample is all 5.4 g. Its 0.4 g of clay take 40 mL of dye, since 0.5 g take 50 mL: 0.4/5.4 = 7.407 %, not 8.00."""
    answer = result(
        "bench", test="methylene_blue", sample_g=5.4, titre_ml=40, calibration_ml=50, calibration_clay_g=0.5
    )
    mistake = BLUE.but(source="blend_by_mass")
    mistake.figure(answer["clay_pct_dry"], "7.407", "0.4 g of clay with 5 g of sand", unit="% of the mix", within=0.001)


def test_the_dye_has_0_01_mol_per_litre():
    found = measurements.dye_mol_l(3.739)
    BLUE.figure(found, "0.01000", "3.739 g of dye in a litre, 373.90 g/mol", unit="mol/L", share=0.001)
