"""The root of a rising function, against roots that are known."""

import math

import pytest

from sandmix.maths.roots import rising_root

CASES = [
    (lambda x: (x * x - 2, 2 * x), 0.0, 2.0, math.sqrt(2)),
    (lambda x: (math.exp(x) - 5, math.exp(x)), -10.0, 10.0, math.log(5)),
    (lambda x: (math.atan(x - 3), 1 / (1 + (x - 3) ** 2)), -1000.0, 1000.0, 3.0),
    (lambda x: ((x - 1) ** 3, 3 * (x - 1) ** 2), 0.0, 5.0, 1.0),
    (lambda x: (x - 0.25, 0.0), 0.0, 1.0, 0.25),
    (lambda x: (-1.0 if x < 0.7 else 1.0, 0.0), 0.0, 1.0, 0.7),
]


@pytest.mark.parametrize(("function", "low", "high", "root"), CASES)
def test_it_finds_the_root(function, low, high, root):
    """Newton alone leaves the bracket for the arctangent, stalls at the triple root, and has no slope to go by in the last two."""
    assert rising_root(function, low, high) == pytest.approx(root, rel=1e-5, abs=1e-5)


def test_it_is_exact_to_rounding_where_the_slope_is_not_zero():
    assert rising_root(*CASES[0][:3]) == pytest.approx(math.sqrt(2), rel=1e-15)


def test_a_root_that_a_step_hits_is_taken():
    assert rising_root(lambda x: (x - 0.5, 1.0), 0.0, 1.0) == 0.5
    assert rising_root(lambda x: (x - 0.5, 1.0), 0.0, 1.0, 1.0) == 0.5


def test_a_slope_so_steep_that_no_step_is_left_ends_it():
    assert rising_root(lambda x: (x - 0.3, 1e30), 0.0, 1.0) == 0.5
