"""The nearest blend, by hand: a sand all on No. 50 counts 40, one all on No. 100 counts 70."""

import pytest

from sandmix.materials.grading_match import COARSER, FINER, STOCK, Lot, nearest_blend

COARSE, FINE = {"50": 3.0}, {"100": 8.0}


def lots(coarse_kg=10.0, fine_kg=10.0, grain=1.0):
    return [Lot(kg=coarse_kg, grain=grain, retained=COARSE), Lot(kg=fine_kg, grain=1.0, retained=FINE)]


def test_two_sands_to_a_number_between():
    """40 + 30 x = 50: a third of the fine one; of 10 kg each, 10 and 5."""
    found = nearest_blend(lots(), 50)
    assert found.kg == pytest.approx((10, 5))
    assert found.gfn == pytest.approx(50)
    assert found.off == 0
    assert (found.why, found.short, found.fullest) == ("", (), "50")
    assert found.retained == pytest.approx({"50": 200 / 3, "100": 100 / 3})


def test_within_the_leeway_the_widest_spread_is_taken():
    """50 ± 5 lets x go to a half, where no sieve holds more than 50 %."""
    found = nearest_blend(lots(), 50, leeway=5)
    assert found.kg == pytest.approx((10, 10))
    assert found.retained["50"] == pytest.approx(50)
    assert found.off == pytest.approx(5)


def test_of_several_ways_to_the_number_the_one_that_spreads_widest():
    """Number 50 is all of the middle sand, or a mixture; 2/3 and 1/3 of the outer two and a of it: (1-a)·2/3 = a at a = 0.4."""
    three = [*lots(), Lot(kg=10, grain=1.0, retained={"70": 1.0})]
    found = nearest_blend(three, 50, make_kg=10)
    assert found.kg == pytest.approx((4, 2, 4))
    assert max(found.retained.values()) == pytest.approx(40)


def test_lots_count_by_their_grain():
    """Half of the coarse lot is clay and water: 2 kg of it hold as much grain as 1 kg of the fine one."""
    found = nearest_blend(lots(grain=0.5), 55, make_kg=3)
    assert found.kg == pytest.approx((2, 1))


def test_all_coarser_and_all_finer():
    coarser, finer = nearest_blend(lots(), 90), nearest_blend(lots(), 30)
    assert (coarser.why, coarser.gfn, coarser.off) == (COARSER, pytest.approx(70), pytest.approx(20))
    assert coarser.kg == pytest.approx((0, 10))
    assert (finer.why, finer.kg) == (FINER, pytest.approx((10, 0)))


def test_not_enough_of_the_fine_one():
    """60 wants 2 of 3 kg of the fine sand, and there is 1: 50."""
    found = nearest_blend(lots(fine_kg=1), 60, make_kg=3)
    assert found.kg == pytest.approx((2, 1))
    assert (found.why, found.short, found.gfn) == (STOCK, (1,), pytest.approx(50))


def test_not_enough_of_the_coarse_one():
    found = nearest_blend(lots(coarse_kg=1), 45, make_kg=3)
    assert (found.why, found.short, found.gfn) == (STOCK, (0,), pytest.approx(60))


def test_all_of_everything():
    found = nearest_blend(lots(2, 3), 50, make_kg=5)
    assert found.kg == pytest.approx((2, 3))


def test_one_lot_is_its_own_blend():
    found = nearest_blend(lots()[:1], 40)
    assert found.kg == pytest.approx((10,))
