"""What a cast loses: a default, until a cast was weighed."""

import math

import pytest

from sandmix.recipes import sand_loss

WEIGHED = (0.03, 0.04, 0.05)


def test_without_a_weighed_cast_it_is_one_to_three_percent():
    loss = sand_loss.loss_a_cast(())
    assert (loss.share, loss.half_width, loss.how) == (0.02, 0.01, "default")


def test_weighed_casts_move_it_by_the_errors_of_both():
    """In logarithms: prior ln 0.02 = −3.91202, ± ln 2 → s.d. 0.35365. Own 3, 4 and 5 %: mean −3.24045, squares 0.13115.

    Spread: √((4 · 0.13386² + 0.13115)/6) = 0.18391, of the mean 0.10618. K = 0.35365²/(0.35365² + 0.10618²) = 0.91731.
    So −3.91202 + 0.91731 · 0.67157 = −3.29598, which is 3.703 %, s.d. 0.10170; with t of six degrees 2.447 and one more cast
    2.447 · √(0.10170² + 0.18391²) = 0.51426, and 3.703 · sinh 0.51426 = 1.989 points.
    """
    loss = sand_loss.loss_a_cast(WEIGHED)
    assert loss.how == "learned"
    assert loss.share == pytest.approx(0.03703, abs=1e-5)
    assert loss.half_width == pytest.approx(0.01989, abs=2e-5)


def test_one_weighed_cast_at_the_prior_leaves_the_share_and_makes_the_long_run_surer():
    now, _ = sand_loss.learned((0.02,))
    assert sand_loss.loss_a_cast((0.02,)).share == pytest.approx(0.02)
    assert now.sd < sand_loss.PRIOR.sd / 2


def test_casts_that_lost_nothing_count_as_a_tenth_of_a_percent():
    loss = sand_loss.loss_a_cast((0.0, 0.0, 0.0))
    assert (loss.share, loss.how) == (pytest.approx(0.001, abs=0.0002), "learned")


def test_only_the_last_twenty_count():
    lately = (0.01, 0.03) * 10
    assert sand_loss.loss_a_cast((0.5, 0.5, *lately)) == sand_loss.loss_a_cast(lately)


def test_the_sand_in_a_mould_is_that_of_the_flask_else_fifteen_times_the_metal_and_never_more_than_the_heap():
    """Estimated, it may be 7.5 to 22.5 times the metal; the heap cuts both ends off."""
    cases = {(1.0, 200.0): (15.0, 7.5), (1.0, 20.0): (15.0, 7.5), (1.0, 10.0): (10.0, 2.5), (2.0, 10.0): (10.0, 0.0)}
    for (metal_kg, heap_kg), wanted in cases.items():
        mould = sand_loss.sand_in_mould(metal_kg, heap_kg)
        assert (mould.kg, mould.half_width, mould.estimated) == (*wanted, True)
    flask = sand_loss.sand_in_mould(1.0, 20.0, 12.0, 0.5)
    assert (flask.kg, flask.half_width, flask.estimated) == (12.0, 0.5, False)
    full = sand_loss.sand_in_mould(1.0, 20.0, 30.0)
    assert (full.kg, full.half_width) == (20.0, 0.0)


def test_what_is_lost_is_a_share_of_the_sand_in_the_mould():
    """2 ± 1 % of 15 ± 7.5 kg: 0.3 kg, ± √(0.15² + 0.15²)."""
    lost = sand_loss.sand_in_mould(1.0, 200.0).lost_kg(sand_loss.loss_a_cast(()))
    assert lost == (pytest.approx(0.3), pytest.approx(0.15 * math.sqrt(2)))
