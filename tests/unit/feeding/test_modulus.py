"""The moduli of cylinders, by their volumes and faces."""

import math

import pytest

from sandmix.feeding.modulus import SIDE, TOP, cylinder_cm3, diameter_of_volume_mm, riser_share


@pytest.mark.parametrize("share", [0.3, 0.5, 1.0, 1.7, 3.0])
@pytest.mark.parametrize(("kind", "ends"), [(SIDE, 2), (TOP, 1)])
def test_the_modulus_is_volume_over_the_faces_that_cool(kind, ends, share):
    """A cylinder of 80 mm: its mantle, and both ends or only the upper one."""
    diameter, high = 80.0, 80.0 * share
    end = math.pi / 4 * diameter**2
    faces = math.pi * diameter * high + ends * end
    assert riser_share(kind, share) * diameter == pytest.approx(end * high / faces)


def test_a_diameter_and_its_volume():
    """π/4 × 60² × 90 mm³ = 254.469 cm³."""
    assert cylinder_cm3(60.0, 1.5) == pytest.approx(254.469, abs=0.001)
    assert diameter_of_volume_mm(cylinder_cm3(60.0, 1.5), 1.5) == pytest.approx(60.0)
