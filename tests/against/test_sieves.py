"""Grain fineness number, sieves, wash and surface.

Sources: (1) FHWA, Report on Use of Recycled Foundry Sand in the Cleveland Area, 29 Jan 2003: a lake sand named AFS 52, three screen
(percents retained and name read; number derived from the multipliers). (2) The classic example of the AFS procedure, 50 g with 5.9 g
washed out, seen in a secondary text (totals 15243 and 88.2 % read; its grid from memory). (3) ISO 3310-1 / ASTM E11, nominal
openings (read). (4) S = 6/(ρ d), smooth spheres (derived).
Basis: shares of the sieved grain, clay washed out before and in no divisor; the wash as a share of the dry sample.
By hand, (1): 1 + 30 + 243 + 856 + 2100 + 1638 + 340 + 14 = 5222 over 100.
Below, with them: the lake sand on fewer sieves, where the grain of a missing sieve falls to the next finer one; the band must contain
its true number. And the band compared with scipy.optimize.linprog over all gradings on a fine grid of sizes (derived; the authors
of these tests).
"""

import itertools

import numpy as np
import pytest
from against.published import Checks
from scipy.optimize import linprog

from sandmix.materials.fineness import SIEVES, sphere_surface_cm2_g

LAKE = dict(
    zip(("20", "30", "40", "50", "70", "100", "140", "200"), (0.1, 1.5, 8.1, 21.4, 42.0, 23.4, 3.4, 0.1), strict=True)
)
FINENESS = Checks("fineness", source="lake_sand", sure="inputs")
HANDBOOK = FINENESS.but(source="afs_example", sure="read")
MISSING = Checks("missing_sieves", source="lake_sand", sure="inputs")
WASH = Checks("wash", source="afs_example", sure="read")
CLASSIC = {"40": 0.20, "50": 0.65, "70": 1.20, "100": 2.25, "140": 8.55, "200": 11.05, "270": 10.90, "pan": 9.30}


def test_the_lake_sand_has_number_52(result):
    FINENESS.figure(result("fineness", retained=LAKE)["gfn"], "52.22", "number of a lake sand", within=0.01)


def test_the_lake_sand_is_a_three_screen_sand(result):
    answer = result("fineness", retained=LAKE)
    assert answer["screens"] == ["50", "70", "100"]
    FINENESS.but(sure="read").figure(len(answer["screens"]), "3", "screens of the lake sand", within=0)
    assert answer["gaps"] == []


def test_what_passes_each_sieve_of_the_lake_sand(result):
    passing = result("fineness", retained=LAKE)["passing"]
    assert list(passing) == list(LAKE)
    printed = "99.9, 98.4, 90.3, 68.9, 26.9, 3.5, 0.1, 0.0"
    FINENESS.figure(list(passing.values()), printed, "what passes each sieve, No. 20 to 200", unit="%")


def test_the_mean_grain_of_the_lake_sand(result):
    """13 600 / 52.22 = 260.4 µm (the constant from memory, ± 5 %)."""
    found = result("fineness", retained=LAKE)["mean_um"]
    FINENESS.but(source="memory", sure="memory").figure(
        found, "260.4", "mean size, 13 600/52.22", unit="µm", within=0.1
    )


def test_the_classic_grid(result):
    found = result("fineness", retained=CLASSIC, clay_washed_g=5.9)["gfn"]
    HANDBOOK.but(sure="memory").figure(
        found, "172.82", "number of the classic example, its grid from memory", within=0.05
    )


def test_clay_is_excluded_from_the_divisor(result):
    """The printed totals are in percent of the 50 g: twice the grams, 15243 over 88.2; over 100 it would be 152.4."""
    in_percent = {number: 2 * grams for number, grams in CLASSIC.items()}
    assert sum(in_percent.values()) == pytest.approx(88.2)
    found = result("fineness", retained=in_percent, clay_washed_g=11.8)["gfn"]
    HANDBOOK.figure(found, "172.8", "clay left out of the divisor, 15243 over 88.2", within=0.1)


def test_the_classic_wash(result):
    answer = result("fineness", retained=CLASSIC, clay_washed_g=5.9)
    WASH.figure(answer["washed_pct_dry"], "11.8", "5.9 g of 50 g", unit="%", within=0.01)


def test_the_classic_wash_in_the_job_bench(result):
    for reading in ({"clay_washed_g": 5.9}, {"left_g": 44.1}):
        answer = result("bench", test="wash", sample_g=50, **reading)
        WASH.figure(answer["washed_pct_dry"], "11.8", "5.9 g of 50 g", unit="%", within=0.01)


@pytest.mark.parametrize(("coarser", "finer"), [("70", "100"), ("100", "140"), ("140", "200")])
def test_neighbouring_openings_have_the_ratio_of_the_root_of_two(coarser, finer):
    ratio = SIEVES[coarser].opening_mm / SIEVES[finer].opening_mm
    FINENESS.but(source="iso_3310_1", sure="read").figure(ratio, "1.414", "ratio of neighbouring openings", share=0.005)


def test_the_surface_of_spheres():
    found = sphere_surface_cm2_g(0.20, 2650)
    by_hand = FINENESS.but(source="geometry", sure="derived")
    by_hand.figure(found, "113.2", "surface of spheres of 0.20 mm", unit="cm²/g", within=0.1)


FEWER = [
    ("40", "70", "140", "pan"),
    ("50", "100", "pan"),
    ("40", "100", "pan"),
    ("30", "50", "70", "140", "pan"),
    ("70", "pan"),
]


def sieved_on(few):
    """The lake sand on a few sieves: each holds its own grain and that of the missing sieves above it."""
    held, carried = {}, 0.0
    for number in (*LAKE, "pan"):
        carried += LAKE.get(number, 0.0)
        if number in few:
            held[number], carried = carried, 0.0
    assert carried == pytest.approx(0, abs=0.11)
    return held


@pytest.mark.parametrize("few", FEWER, ids=" ".join)
def test_on_fewer_sieves_the_band_holds_the_number_of_the_lake_sand(ask, few):
    answer = ask("fineness", retained=sieved_on(few), unnamed_sieves="absent")
    low, high = answer["doubt"]["gfn"]
    MISSING.covered(low, high, "52.22", f"the lake sand on {', '.join(few)} alone")
    assert high - low > 5
    assert low <= answer["result"]["gfn_estimate"] <= high


def test_the_best_guess_is_nearer_the_lake_sand_than_the_shown_number(ask):
    """On No. 40, 70, 140 and the pan: 9.7×30 + 63.4×50 + 26.8×100 + 0.1×300 = 6171; the guess is less than half as far from 52.22."""
    result = ask("fineness", retained=sieved_on(("40", "70", "140", "pan")))["result"]
    MISSING.figure(result["gfn"], "61.71", "its number as shown on 40, 70, 140, pan", within=0.01)
    assert abs(result["gfn_estimate"] - 52.22) < abs(result["gfn"] - 52.22) / 2


STACKS = [
    {"40": 20, "70": 50, "140": 25, "pan": 5},
    {"1.3 mm": 4, "pan": 96},
    {"0.8 mm": 30, "0.5 mm": 40, "100": 20, "pan": 10},
    {"6 mm": 5, "0.09 mm": 60, "0.03 mm": 20, "pan": 15},
]


@pytest.mark.parametrize("retained", STACKS, ids=str)
def test_the_band_is_that_of_all_gradings_that_fit(ask, retained):
    """The least and the greatest value of a linear programme whose unknowns are the grain in 4000 size cells, 0.005 to 30 mm."""
    edges = np.geomspace(0.005, 30, 4001)
    middles = np.sqrt(edges[1:] * edges[:-1])
    counts = np.array(
        [next(sieve.multiplier for sieve in SIEVES.values() if sieve.opening_mm <= size) for size in middles]
    )
    openings = [SIEVES[name].opening_mm if name in SIEVES else float(name.split()[0]) for name in retained]
    rows = [
        ((middles >= lower) & (middles < upper)).astype(float)
        for upper, lower in itertools.pairwise([np.inf, *openings])
    ]
    low, high = (
        sign * linprog(sign * counts / 100, A_eq=rows, b_eq=list(retained.values()), bounds=(0, None)).fun
        for sign in (1, -1)
    )
    band = ask("fineness", retained=retained, unnamed_sieves="absent")["doubt"]["gfn"]
    programme = MISSING.but(source="scipy", sure="library")
    programme.agrees(band, [low, high], "least and greatest number of all gradings that fit", rel=1e-9)
