"""Lots of scrap melted together, by hand arithmetic."""

import pytest

from sandmix.mould import charge
from sandmix.mould.charge import Lot

LOTS = [Lot(kg=2.0, loss=0.02), Lot(kg=0.5, loss=0.12)]


def test_the_loss_of_all_lots_is_weighted_by_mass():
    """2 kg * 2 % = 40 g, 0.5 kg * 12 % = 60 g: 100 g of 2.5 kg."""
    assert charge.loss_of(LOTS) == pytest.approx(0.04)


def test_the_same_share_of_each_lot_is_weighed():
    """2 kg of 2.5 kg are four fifths."""
    assert charge.to_weigh_kg(LOTS, 2.0) == pytest.approx([1.6, 0.4])


def test_no_more_is_weighed_than_there_is():
    assert charge.to_weigh_kg(LOTS, 9.0) == [2.0, 0.5]


def test_what_is_left_over_is_the_metal_less_what_the_mould_took():
    """2.5 kg less 4 % are 2.4 kg of metal; the mould takes 2.1."""
    assert charge.left_over_kg(2.5, 0.04, 2.1) == pytest.approx(0.3)


def test_nothing_is_left_over_where_the_mould_takes_more():
    assert charge.left_over_kg(1.0, 0.04, 2.1) == 0
