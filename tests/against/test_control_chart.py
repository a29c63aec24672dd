"""Control charts of individual readings.

Sources: SAS/QC user's guide, example 9.4, 30 tires, and its constants E2 = k/d2, D4 = 1 + k d3/d2 (read); Montgomery and Runger, Applied statistics
and probability for engineers, table 16-3 and p. 617, 20 values (read); d2 1.1284, d3 0.8525, D4 3.2665 in the vignette of an R package for charts,
and 2.660, 1.128, 3.267 in a second table (read); the flow rates of a public handbook of engineering statistics (from memory).
Computed by: scipy's straight line and Student's t. Tolerance: half of the last printed digit; Montgomery and Runger round the mean moving range to
2.59 and the mean to 99.1 before they go on, so their limits are to 0.03.
"""

import numpy as np
import pytest
from against.published import Checks
from scipy import stats

from sandmix.maths.control_chart import D2, D3, D4, E2, drift, limits, two_sided

SAS = Checks("control_chart", source="sas_individuals", sure="read")
BOOK = SAS.but(source="montgomery_runger")
MEMORY = SAS.but(source="nist_individuals", sure="memory")
LIBRARY = SAS.but(source="scipy", sure="library")
TIRES = [
    24.05, 23.99, 23.95, 23.93, 23.97, 24.02, 24.06, 24.10, 23.98, 24.03, 23.91, 24.06, 24.06, 23.96, 23.98,
    24.06, 24.01, 24.00, 23.93, 23.92, 24.09, 24.11, 24.05, 23.98, 23.98, 24.06, 24.02, 24.06, 23.97, 23.96,
]  # fmt: skip
CONCENTRATIONS = [
    102, 94.8, 98.3, 98.4, 102, 98.5, 99, 97.7, 100, 98.1, 101.3, 98.7, 101.1, 98.4, 97, 96.7, 100.3, 101.4, 97.2, 101,
]  # fmt: skip
FLOWS = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1]


@pytest.mark.parametrize(
    ("name", "constant", "printed", "table", "differs"),
    [
        ("d2", D2, "1.1284", "chart_vignette", ""),
        ("d3", D3, "0.8525", "chart_vignette", ""),
        ("D4", D4, "3.2665", "chart_vignette", ""),
        ("d2", D2, "1.128", "chart_table", ""),
        ("D4", D4, "3.267", "chart_table", ""),
        ("E2", E2, "2.660", "chart_table", "2.660 is 3/1.128, with d2 rounded first; 3/d2 itself is 2.6587"),
    ],
)
def test_the_constants_of_the_tables(name, constant, printed, table, differs):
    SAS.but(source=table).figure(constant, printed, f"constant {name} of moving ranges of two", differs=differs)


def test_the_30_tires():
    found = limits(TIRES)
    assert found.left_out == 0
    SAS.figure([found.low, found.mean, found.high], "23.8571, 24.0083, 24.1596", "limits and mean of 30 tires")
    SAS.figure(found.mean_range, "0.056897", "their mean moving range")
    SAS.figure(found.range_high, "0.18585", "limit of their moving ranges")
    SAS.figure(found.sigma, "0.050423", "their standard deviation by it")
    assert all(found.holds(tire) for tire in TIRES)


def test_the_20_concentrations():
    found = limits(CONCENTRATIONS)
    BOOK.figure(found.mean, "99.1", "mean of 20 concentrations")
    BOOK.figure(found.mean_range, "2.59", "mean moving range of the concentrations")
    what = "limits of the concentrations; the book rounds mean and range before it goes on"
    BOOK.figure([found.low, found.high], "92.21, 105.99", what, within=0.03)


def test_the_flow_rates_from_memory():
    found = limits(FLOWS)
    MEMORY.figure(found.mean, "50.81", "mean of ten flow rates")
    half = (found.high - found.mean) * D2 / 1.128
    MEMORY.figure([found.mean - half, found.mean + half], "45.8159, 55.8041", "their limits, with d2 as 1.128")


def test_a_jump_does_not_widen_the_limits():
    """SAS/QC, after Nelson: a moving range above 3.5 times their mean is left out of the mean."""
    jumped = [*TIRES[:15], *(tire + 1 for tire in TIRES[15:])]
    found = limits(jumped)
    ranges = np.abs(np.diff(jumped))
    assert found.left_out == 1
    rule, what = SAS.but(source="nelson_1982"), "a moving range above 3.5 times their mean is left out"
    rule.agrees(found.mean_range, ranges[ranges <= 3.5 * ranges.mean()].mean(), what, rel=1e-6)


def test_the_share_beyond_students_t():
    for freedom in range(1, 60):
        for t in (0.0, 0.01, 0.5, 1.0, 2.5, 5.0, 20.0):
            LIBRARY.agrees(two_sided(t, freedom), 2 * stats.t.sf(t, freedom), "chance beyond Student's t", within=1e-12)


def test_the_straight_line_on_200_random_series():
    dice = np.random.default_rng(7)
    for count in [*range(3, 23)] * 10:
        series = list(dice.normal(size=count) + dice.normal() * 0.2 * np.arange(count))
        line = stats.linregress(range(count), series)
        found = drift(series)
        LIBRARY.agrees(found.a_reading, line.slope, "slope of the straight line, 200 random series", rel=1e-9)
        LIBRARY.agrees(found.chance, line.pvalue, "its chance", rel=1e-6, within=1e-12)


def test_a_shift_of_one_sigma_is_found_after_about_44_readings():
    """Montgomery and Runger, p. 617: 43.9 readings on average, a geometric law: 1 / the chance that one shifted reading is out.

    Readings ± 1.1284/2 in turn have the mean moving range of a normal variable of σ 1.
    """
    found = limits([0.5642, -0.5642] * 10)
    out = stats.norm.sf(found.high, loc=1) + stats.norm.cdf(found.low, loc=1)
    BOOK.figure(1 / out, "43.9", "readings until a shift of one σ is found")
