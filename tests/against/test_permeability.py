"""Permeability and the rammed specimen.

Sources: (1) "Foundry shop, experiment 3: permeability number of green sand", a teaching sheet without author or year: 2000 cm³, 5.08 cm
high, 20.268 cm², 9.6 cm of water, 36 s (read).
(2) The rounded constant in use, 30 072/(p t) with t in seconds (read); with the metric specimen 30 557. (3) BCIRA Broadsheet 16-1,
preparation of standard test pieces: 14 lb fall 2 in, three times; 155 to 160 g in 2 × 2 in (inputs read). (4) Geometry (derived).
Basis: pressure in cm of water, time in minutes for P = V H/(p A t).
By hand 2000 · 5.08/20.268 = 501.28, over 9.6 · 0.6 is 87.03; 6.350 kg · 9.807 · 0.0508 m · 3 = 9.49 J."""

import pytest
from against.published import Checks

from sandmix.bench import measurements

PERMEABILITY = Checks("permeability", source="permeability_lecture", sure="read")
SPECIMEN = Checks("specimen", source="bcira_specimen", sure="inputs")


def test_the_worked_example(result):
    answer = result("bench", test="permeability", pressure_cm=9.6, time_s=36)
    PERMEABILITY.figure(answer["permeability"], "87.0", "9.6 cm of water and 36 s", within=0.1)


def test_ten_centimetres_and_a_minute(result):
    answer = result("bench", test="permeability", pressure_cm=10, time_s=60)
    PERMEABILITY.but(sure="inputs").figure(answer["permeability"], "50.13", "10 cm of water and 60 s", within=0.05)


@pytest.mark.parametrize(("specimen", "printed"), [("us", "30072"), ("metric", "30557")])
def test_the_rounded_constants_in_use(result, specimen, printed):
    """30 072/600 = 50.12 and 30 557/600 = 50.93; exact geometry differs in the fifth figure."""
    answer = result("bench", test="permeability", pressure_cm=10, time_s=60, specimen=specimen)
    what = f"constant over pressure and seconds, specimen of {'50 mm' if specimen == 'metric' else '2 in'}"
    PERMEABILITY.figure(600 * answer["permeability"], printed, what, unit="cm s", share=3e-4)


def test_the_specimen_holds_102_96_cm3():
    geometry = SPECIMEN.but(source="geometry", sure="derived")
    geometry.figure(measurements.SPECIMENS["us"].area_cm2, "20.268", "section of 2 in across", unit="cm²")
    geometry.figure(measurements.SPECIMENS["us"].volume_cm3, "102.96", "2 × 2 in", unit="cm³", within=0.01)


@pytest.mark.parametrize("size", [{"tin_ml": 102.96}, {"tin_diameter_mm": "2 in", "tin_height_mm": "2 in"}], ids=str)
def test_160_g_in_that_volume_are_1_554_kg_per_litre(result, size):
    answer = result("bench", test="tin_density", net_g=160, **size)
    SPECIMEN.figure(answer["rammed_density_kg_l"], "1.554", "160 g in the specimen", unit="kg/L", within=0.001)


def test_the_energy_of_three_blows_is_9_49_j():
    SPECIMEN.figure(measurements.ram_energy_j(), "9.49", "three blows of 14 lb through 2 in", unit="J", share=0.005)
