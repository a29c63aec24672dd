"""Shrinkage by metal: complete, in order, and with the freezing range by hand from solidus and liquidus."""

import pytest

from sandmix.language.sources import SOURCES
from sandmix.materials.metals import METALS
from sandmix.materials.shrinkage import (
    LONG,
    MIDDLE,
    SHORT,
    SHRINKAGES,
    freezes_over,
    freezing_range_k,
    superheat_shrinks_pct,
)


def test_every_metal_has_a_shrinkage():
    assert SHRINKAGES.keys() == METALS.keys()


@pytest.mark.parametrize("metal", METALS)
def test_the_figure_is_within_its_range_and_has_a_source(metal):
    row = SHRINKAGES[metal]
    assert 0 <= row.low_pct <= row.pct <= row.high_pct < 14
    assert row.low_pct < row.high_pct
    assert row.source in SOURCES


@pytest.mark.parametrize(
    ("metal", "range_k", "words"),
    [
        ("aluminium", 0, SHORT),
        ("yellow_brass", 15, SHORT),
        ("al_si7mg", 56, MIDDLE),
        ("al_6061", 70, MIDDLE),
        ("tin_bronze", 120, LONG),
    ],
)
def test_how_wide_a_metal_freezes(metal, range_k, words):
    """660 − 660, 900 − 885, 613 − 557, 652 − 582, 1000 − 880; short below 50, long above 110."""
    assert freezing_range_k(metal) == pytest.approx(range_k)
    assert freezes_over(metal) == words


def test_iron_shrinks_as_a_liquid_by_its_superheat():
    """1380 − 1200 = 180 °C at 1.5 % per 100 °C; at the liquidus and below nothing."""
    assert superheat_shrinks_pct("grey_iron", 1380) == pytest.approx(2.7)
    assert superheat_shrinks_pct("grey_iron", 1100) == 0
