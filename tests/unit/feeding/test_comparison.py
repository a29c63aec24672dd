"""The two rules for comparison, by hand."""

import pytest

from sandmix.feeding import comparison
from sandmix.feeding.modulus import cylinder_cm3, riser_share
from sandmix.materials.metals import METALS


@pytest.mark.parametrize("kind", comparison.CAINE)
@pytest.mark.parametrize("riser_kind", ["side", "top"])
def test_the_riser_lies_on_the_hyperbola(kind, riser_kind):
    """X and Y of the diameter that is returned, in the formula itself."""
    constants = comparison.CAINE[kind]
    diameter = comparison.caine_diameter_mm(constants, 500.0, 8.0, riser_kind, 1.0)
    x, y = riser_share(riser_kind, 1.0) * diameter / 8.0, cylinder_cm3(diameter, 1.0) / 500.0
    assert x == pytest.approx(constants.a / (y - constants.b) + constants.c)


def test_constants_are_named_for_known_metals_only():
    assert comparison.CAINE_OF.keys() <= METALS.keys()
    assert set(comparison.CAINE_OF.values()) <= comparison.CAINE.keys()


def test_the_shape_factor_takes_the_smallest_side_as_thickness():
    assert comparison.shape_factor((250.0, 50.0, 150.0)) == 8.0


@pytest.mark.parametrize(
    ("factor", "ratio"), [(1.0, 1.0), (2.0, 1.0), (3.0, 0.85), (11.0, 0.375), (12.0, 0.35), (40.0, 0.35)]
)
def test_between_the_rows_of_the_table(factor, ratio):
    """Half way between 1.00 and 0.70, and between 0.40 and 0.35; the ends hold beyond."""
    assert comparison.naval_volume_ratio(factor) == pytest.approx(ratio)
