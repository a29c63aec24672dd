"""The nearest blend, by hand: a sand all on No. 50 has number 40, one all on No. 100 has 70."""

import pytest

from sandmix.materials.grading_match import COARSER, FINER, STOCK, Lot, nearest_blend

COARSE, FINE = {"50": 3.0}, {"100": 8.0}


def lots(coarse_kg=10.0, fine_kg=10.0, grain=1.0):
    return [Lot(kg=coarse_kg, grain=grain, retained=COARSE), Lot(kg=fine_kg, grain=1.0, retained=FINE)]


def test_a_number_between_two_sands():
    """40 + 30 x = 50: a third is fine; of 10 kg each, 10 and 5."""
    found = nearest_blend(lots(), 50)
    assert found.kg == pytest.approx((10, 5))
    assert found.gfn == pytest.approx(50)
    assert found.off == 0
    assert (found.why, found.short, found.fullest) == ("", (), "50")
    assert found.retained == pytest.approx({"50": 200 / 3, "100": 100 / 3})


def test_within_the_leeway_the_widest_spread_is_taken():
    """50 ± 5 allows x = 1/2, where no sieve holds more than 50 %."""
    found = nearest_blend(lots(), 50, leeway=5)
    assert found.kg == pytest.approx((10, 10))
    assert found.retained["50"] == pytest.approx(50)
    assert found.off == pytest.approx(5)


def test_of_several_blends_the_one_spread_widest():
    """The middle sand has number 50, and so have 2/3 and 1/3 of the outer two; with a share a of the middle one, (1-a)·2/3 = a at a = 0.4."""
    three = [*lots(), Lot(kg=10, grain=1.0, retained={"70": 1.0})]
    found = nearest_blend(three, 50, make_kg=10)
    assert found.kg == pytest.approx((4, 2, 4))
    assert max(found.retained.values()) == pytest.approx(40)


def test_lots_count_by_their_grain():
    """Half of the coarse lot is clay and water: 2 kg of it have as much grain as 1 kg of the fine one."""
    found = nearest_blend(lots(grain=0.5), 55, make_kg=3)
    assert found.kg == pytest.approx((2, 1))


def test_all_coarser_and_all_finer():
    coarser, finer = nearest_blend(lots(), 90), nearest_blend(lots(), 30)
    assert (coarser.why, coarser.gfn, coarser.off) == (COARSER, pytest.approx(70), pytest.approx(20))
    assert coarser.kg == pytest.approx((0, 10))
    assert (finer.why, finer.kg) == (FINER, pytest.approx((10, 0)))


def test_not_enough_of_the_fine_one():
    """60 needs 2 of 3 kg to be fine sand, and there is 1 kg: 50."""
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


FINEST = {"140": 1.0}


def test_only_lots_on_the_target_side_are_short():
    """All 3.5 kg are used: (2·40 + 1·70 + 0.5·100)/3.5 = 57.14. For 60 more of the two finer ones is needed, for 50 more of the coarse one."""
    three = [*lots(2, 1), Lot(kg=0.5, grain=1.0, retained=FINEST)]
    too_coarse, too_fine = nearest_blend(three, 60, make_kg=3.5), nearest_blend(three, 50, make_kg=3.5)
    assert too_coarse.gfn == too_fine.gfn == pytest.approx(200 / 3.5)
    assert (too_coarse.why, too_coarse.short) == (STOCK, (1, 2))
    assert (too_fine.why, too_fine.short) == (STOCK, (0,))


def test_a_lot_with_stock_left_is_not_short():
    """1 kg of the finest and 2 of 5 kg of the middle one: (100 + 2·50)/3 = 66.7. For 70 only the finest is short."""
    three = [Lot(kg=5, grain=1.0, retained={"70": 1.0}), Lot(kg=1, grain=1.0, retained=FINEST), *lots()[:1]]
    found = nearest_blend(three, 70, make_kg=3)
    assert found.kg == pytest.approx((2, 1, 0))
    assert (found.why, found.short) == (STOCK, (1,))


def test_where_all_lots_are_coarser_or_finer_none_is_short():
    assert nearest_blend(lots(), 90, make_kg=15).short == ()
    assert nearest_blend(lots(), 30, make_kg=15).short == ()
