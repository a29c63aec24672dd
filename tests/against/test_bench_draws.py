"""The likely range of a test's figure compared with random draws of its readings and of the test's own error.

Source: a Monte Carlo of 200 000 draws by numpy (fixed seed), with the formulas written out here. The error of a weighing is uniform over
one step of the scale. Ruler, watch, titre and the test's own scatter are normal with sd = half-width / 1.96; the half-widths are those stated by
the words and the table of tests. Derived. Computed by: the author of these tests.
Tolerance: each end of the band is within 8 % of its width from the 2.5 and 97.5 percentiles; a root of squares ignores the curvature of a formula.
"""

import numpy as np
import pytest
from against.published import Checks

from sandmix.vocabulary import WORDS

RANGES = Checks("bench_ranges", source="numpy", sure="drawn")
DRAWS = 200_000
SIGMAS = 1.96


def weighed(dice, grams, step=1.0):
    return grams + step * (dice.random(DRAWS) - 0.5)


def read(dice, value, half_width):
    return value + half_width / SIGMAS * dice.standard_normal(DRAWS)


def moisture(dice):
    wet, dry = weighed(dice, 100), weighed(dice, 96)
    return read(dice, 100 * (wet - dry) / wet, 0.3)


def washed(dice):
    return read(dice, 100 * (1 - weighed(dice, 179) / weighed(dice, 200)), 0.75)


def blue(dice):
    known = weighed(dice, 0.5, 0.01) / read(dice, 50, 0.5)
    clay = 100 * read(dice, 40, 0.5) * known / weighed(dice, 5, 0.01)
    return read(dice, clay, 0.08 * 8)


def permeability(dice):
    flow = 2000 * 5.08 / (read(dice, 9.6, 0.1) * 20.268 * read(dice, 36, 0.5) / 60)
    return read(dice, flow, 0.15 * 87.03)


def compactability(dice):
    before, after = read(dice, 120, 1), read(dice, 66, 1)
    return read(dice, 100 * (before - after) / before, 2.5)


def sensitivity(dice):
    wetter = read(dice, 4.5, 0.35) - read(dice, 3.0, 0.35)
    return 10 * wetter / (read(dice, 60, 3) - read(dice, 36, 3))


def tin(dice):
    litres = np.pi / 4 * read(dice, 100, 1) ** 2 * read(dice, 100, 1) / 1e6
    return read(dice, weighed(dice, 1217) / 1000 / litres, 0.03)


def mulling(dice):
    strength, wet, sinks = read(dice, 28, 0.06 * 28), read(dice, 3.2, 0.35), read(dice, 40, 5)
    return 100 * (15.29 * strength / (132.1 - sinks)) / (0.105 * strength + 1.316 * wet)


SANDS = {
    "moisture_first_pct_wet": 4.5,
    "moisture_second_pct_wet": 3,
    "compactability_first_pct": 60,
    "compactability_second_pct": 36,
}
CASES = [
    (moisture, "bench", "moisture_pct_wet", {"test": "moisture", "sample_wet_g": 100, "sample_dry_g": 96}),
    (washed, "bench", "washed_pct_dry", {"test": "wash", "sample_g": 200, "left_g": 179}),
    (blue, "bench", "clay_pct_dry",
     {"test": "methylene_blue", "sample_g": 5, "titre_ml": 40, "calibration_ml": 50, "calibration_clay_g": 0.5}),
    (permeability, "bench", "permeability", {"test": "permeability", "pressure_cm": 9.6, "time_s": 36}),
    (compactability, "bench", "compactability_pct", {"test": "compactability", "height_before_mm": 120, "height_after_mm": 66}),
    (sensitivity, "bench", "water_sensitivity", {"test": "water_sensitivity", **SANDS}),
    (tin, "bench", "rammed_density_kg_l", {"test": "tin_density", "tin_diameter_mm": 100, "tin_height_mm": 100, "net_g": 1217}),
    (mulling, "estimate", "mulling_efficiency_pct",
     {"strength_kpa": "28 psi", "moisture_pct_wet": 3.2, "compactability_read_pct": 40}),
]  # fmt: skip


@pytest.mark.parametrize(("drawn", "job", "word", "asked"), CASES, ids=[case[2] for case in CASES])
def test_the_range_contains_95_of_100_random_draws(ask, drawn, job, word, asked):
    low, high = ask(job, **asked)["doubt"][word]
    ends = np.percentile(drawn(np.random.default_rng(11)), (2.5, 97.5))
    what = f"both ends of the range of “{WORDS[word].label}”, 200 000 draws"
    RANGES.agrees((low, high), ends, what, within=0.08 * (high - low), allowed="8 % of the width")
