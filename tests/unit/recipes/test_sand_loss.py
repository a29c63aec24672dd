"""What a cast loses: a default, until three casts were weighed."""

import math

import pytest

from sandmix.recipes import sand_loss

WEIGHED = (0.03, 0.04, 0.05)


@pytest.mark.parametrize("own", [(), (0.03,), (0.03, 0.05)])
def test_below_three_weighed_casts_it_is_one_to_three_percent(own):
    loss = sand_loss.loss_a_cast(own)
    assert (loss.share, loss.half_width, loss.how) == (0.02, 0.01, "default")


def test_from_three_on_it_is_their_mean_with_a_prediction_interval():
    """Mean 0.04, spread 0.01, Student's t of two degrees 4.303: 4.303 · 0.01 · √(1 + 1/3) = 0.04969."""
    loss = sand_loss.loss_a_cast(WEIGHED)
    assert (loss.share, loss.how) == (pytest.approx(0.04), "learned")
    assert loss.half_width == pytest.approx(0.04969, abs=5e-6)


def test_casts_that_lost_nothing_count():
    loss = sand_loss.loss_a_cast((0.0, 0.0, 0.0))
    assert (loss.share, loss.half_width, loss.how) == (0, 0, "learned")


def test_only_the_last_twenty_count():
    """Ten at 1 % and ten at 3 %: mean 2 %, s² = 20/19 · 0.01², t of nineteen degrees 2.093."""
    lately = (0.01, 0.03) * 10
    loss = sand_loss.loss_a_cast((0.5, 0.5, *lately))
    assert loss.share == pytest.approx(0.02)
    assert loss.half_width == pytest.approx(2.093 * 0.01 * math.sqrt(20 / 19) * math.sqrt(21 / 20))


def test_the_sand_in_a_mould_is_that_of_the_flask_else_fifteen_times_the_metal_and_never_more_than_the_heap():
    """Estimated, it may be 7.5 to 22.5 times the metal; the heap cuts both ends off."""
    cases = {(1.0, 200.0): (15.0, 7.5), (1.0, 20.0): (15.0, 7.5), (1.0, 10.0): (10.0, 2.5), (2.0, 10.0): (10.0, 0.0)}
    for (metal_kg, heap_kg), wanted in cases.items():
        mould = sand_loss.sand_in_mould(metal_kg, heap_kg)
        assert (mould.kg, mould.half_width, mould.estimated) == (*wanted, True)
    flask = sand_loss.sand_in_mould(1.0, 20.0, 12.0, 0.5)
    assert (flask.kg, flask.half_width, flask.estimated) == (12.0, 0.5, False)
    assert sand_loss.sand_in_mould(1.0, 20.0, 30.0).kg == 20.0


def test_what_is_lost_is_a_share_of_the_sand_in_the_mould():
    """2 ± 1 % of 15 ± 7.5 kg: 0.3 kg, ± √(0.15² + 0.15²)."""
    lost = sand_loss.sand_in_mould(1.0, 200.0).lost_kg(sand_loss.loss_a_cast(()))
    assert lost == (pytest.approx(0.3), pytest.approx(0.15 * math.sqrt(2)))
