"""The budget of the end gauge, example H.1 of the guide to uncertainty, out of the propagation.

Source: JCGM 100:2008, Evaluation of measurement data: Guide to the expression of uncertainty in measurement, H.1, as worked in the documentation
of the Measurement Standards Laboratory of New Zealand's calculator of uncertainty, page “Gauge block measurement (GUM H1)” (read there, not in
the guide itself): standard uncertainties of the inputs, their components in nm (25, 16.599, 6.7, 5.8, 3.9, 2.88679; the others 0), and 32 nm in all.
Basis: standard uncertainties; the law of propagation is linear, so bands of one standard uncertainty give components of one.
"""

import math

from against.published import Checks

from sandmix.maths.uncertainty import propagate

GIVEN = {
    "standard_nm": (5.0000623e7, 25.0),
    "reading_nm": (215.0, 5.8),
    "random_nm": (0.0, 3.9),
    "systematic_nm": (0.0, 6.7),
    "expansion_per_c": (11.5e-6, 2e-6 / math.sqrt(3)),
    "difference_per_c": (0.0, 1e-6 / math.sqrt(3)),
    "gauges_apart_c": (0.0, 0.05 / math.sqrt(3)),
    "bed_c": (-0.1, 0.2),
    "cycle_c": (0.0, 0.5 / math.sqrt(2)),
}
COMPONENTS_NM = {
    "standard_nm": "25", "gauges_apart_c": "16.599", "systematic_nm": "6.7", "reading_nm": "5.8", "random_nm": "3.9",
    "difference_per_c": "2.88679",
}  # fmt: skip
BUDGET = Checks("budget", source="gum_end_gauge", sure="read")


def length(moved):
    at = {name: value for name, (value, _) in GIVEN.items()} | dict(moved)
    apart = at["reading_nm"] + at["random_nm"] + at["systematic_nm"]
    warm = at["bed_c"] + at["cycle_c"]
    heat = at["difference_per_c"] * warm + at["expansion_per_c"] * at["gauges_apart_c"]
    return {"length_nm": at["standard_nm"] + apart - at["standard_nm"] * heat}


FOUND = propagate(length, {name: (value - u, value + u) for name, (value, u) in GIVEN.items()}, length({}))


def test_the_components_of_the_end_gauge():
    moved = {name: (below + above) / 2 for name, _, (below, above) in FOUND.shares("length_nm")}
    assert moved.keys() == COMPONENTS_NM.keys()
    for name, printed in COMPONENTS_NM.items():
        part = name.removesuffix("_nm").removesuffix("_per_c").removesuffix("_c").replace("_", " ")
        BUDGET.figure(moved[name], printed, f"end gauge: component of “{part}”", unit="nm", share=2e-5)


def test_the_whole_uncertainty_of_the_end_gauge():
    low, high = FOUND.bands["length_nm"]
    BUDGET.figure((high - low) / 2, "32", "end gauge: standard uncertainty of the length", unit="nm")
    BUDGET.figure((high + low) / 2, "50000838", "end gauge: length", unit="nm")


def test_the_shares_of_the_end_gauge_are_its_squared_components():
    squares = {name: float(printed) ** 2 for name, printed in COMPONENTS_NM.items()}
    shares = {name: share for name, share, _ in FOUND.shares("length_nm")}
    expected = [squares[name] / sum(squares.values()) for name in shares]
    BUDGET.but(sure="inputs").agrees(
        list(shares.values()), expected, "end gauge: shares are squared components", rel=1e-4
    )
