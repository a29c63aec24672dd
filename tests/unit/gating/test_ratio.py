"""Ratios as people write them, and what is usual for a metal."""

import pytest

from sandmix.gating import ratio
from sandmix.materials.metals import METALS


@pytest.mark.parametrize("text", ["1:4:4", " 1 : 4 : 4 ", "1.0:4:4", "1,0:4,0:4"])
def test_a_ratio_is_three_numbers(text):
    assert ratio.read(text) == ratio.Ratio(sprue=1, runner=4, gates=4)


@pytest.mark.parametrize(
    "text", ["", "1", "1:4", "1:4:4:4", "a:b:c", "1:0:4", "1:-2:4", "1:nan:4", "1:inf:4", "1:1e9:4", "1/4/4"]
)
def test_anything_else_is_none(text):
    assert ratio.read(text) is None


@pytest.mark.parametrize(
    ("text", "known"), [("0.01:1:1", True), ("0.009:1:1", False), ("1:1:100", True), ("1:1:100.5", False)]
)
def test_a_part_is_from_a_hundredth_to_a_hundred(text, known):
    assert (ratio.read(text) is not None) is known


def test_the_choke_is_the_narrowest():
    assert ratio.Ratio(sprue=3, runner=2, gates=1).choke == 1
    assert ratio.Ratio(sprue=4, runner=8, gates=3).choke == 3
    assert ratio.Ratio(sprue=1, runner=4, gates=4).choke == 1


def test_pressurised_means_gates_narrower_than_the_sprue():
    assert ratio.Ratio(sprue=3, runner=2, gates=1).is_pressurised
    assert not ratio.Ratio(sprue=1, runner=2, gates=4).is_pressurised
    assert not ratio.ONE.is_pressurised


def test_every_metal_has_a_usual_ratio_and_only_iron_a_pressurised_one():
    assert ratio.USUAL.keys() == METALS.keys()
    assert {metal for metal, usual in ratio.USUAL.items() if usual.ratio.is_pressurised} == {"grey_iron"}
