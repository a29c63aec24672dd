"""Patternmaker's shrink.

Source: Dooley, W. H., Applied Science for Metal Workers, 1919, chapter XXXI: allowances in inches per foot of casting.
How sure: read in an online copy of that chapter; the year from memory. Basis: of the casting's length, 1 ft = 12 in. Printed to 1/32 in.
Zinc with 12 % of aluminium: MakeItFrom.com, Zinc-Aluminum 12: 1.3 % (read).
"""

import pytest
from against.published import Checks

from sandmix.mould.pattern import SHRINK_PCT

PRINTED = {"aluminium": 7 / 32, "yellow_brass": 7 / 32, "tin_bronze": 5 / 32, "grey_iron": 3 / 32}


@pytest.mark.parametrize(("metal", "inches"), PRINTED.items())
def test_the_band_of_a_metal_includes_the_printed_figure(metal, inches):
    """Half of the last printed step, 1/64 in a foot, is 0.13 points."""
    low, high = SHRINK_PCT[metal]
    printed, what = f"{100 * inches / 12:.2f}", f"{metal.replace('_', ' ')}, {32 * inches:g}/32 in per foot"
    Checks("shrink", source="dooley", sure="read").covered(low, high, printed, what, unit="%", within=0.13)


def test_the_band_of_the_zinc_alloy_includes_the_printed_figure():
    low, high = SHRINK_PCT["zinc_al12"]
    Checks("shrink", source="alloy_za12", sure="read").covered(
        low, high, "1.3", "zinc alloy with 12 % aluminium", unit="%"
    )
