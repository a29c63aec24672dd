"""What the heat does to the sand, by hand arithmetic on a cooling written by hand: burnt, dried, by rate, and the heat left."""

import math

import pytest

from sandmix.cooling import burnout
from sandmix.cooling.burnout import HeatedMould, cool_enough_s, frequency_per_s, shape_n

R = 8.314462618


def test_a_shell_is_density_times_face_times_depth(cooled):
    """A plate: 1500 kg/m³ * 0.2 m² * 10 mm = 3 kg."""
    assert HeatedMould(cooling=cooled(), area_m2=0.2).shell_kg(10) == pytest.approx(3)


def test_no_more_sand_burns_or_dries_than_the_flask_holds(cooled):
    """Dried to 12 mm: 3.6 kg; the flask holds 2."""
    assert HeatedMould(cooling=cooled(), area_m2=0.2).dried_kg == pytest.approx(3.6)
    assert HeatedMould(cooling=cooled(), area_m2=0.2, dry_kg=2.0).dried_kg == 2


def test_the_water_of_the_dried_shell_boils_off(cooled):
    """3.5 of 96.5 kg of water to the dry kg: 3.6 * 3.5 / 96.5."""
    assert HeatedMould(cooling=cooled(), area_m2=0.2).water_driven_kg == pytest.approx(3.6 * 3.5 / 96.5)


def test_the_frequency_factor_makes_the_loss_fastest_at_600_degrees():
    """At the peak β E / (R T²) = A exp(-E/RT), with 10 K a minute and 873.15 K."""
    for activation in (170e3, 230e3, 300e3):
        rate = frequency_per_s(activation) * math.exp(-activation / (R * 873.15))
        assert rate == pytest.approx(10 / 60 * activation / (R * 873.15**2), rel=1e-9)
    assert frequency_per_s(230e3) == pytest.approx(3.5e11, rel=0.01)


@pytest.fixture
def solved_as(monkeypatch):
    """Use a cooling written by hand as the solution of its case."""

    def solved_as(one):
        burnout._reacted.cache_clear()
        monkeypatch.setattr(burnout, "cool", lambda *_: one)
        return one

    yield solved_as
    burnout._reacted.cache_clear()


def test_clay_burns_by_rate_in_each_cell_for_its_own_time(cooled, solved_as):
    """Cells of 0 to 1 and 1 to 3 mm. The first: 10 s at 300, 500, 400 °C; the second: 10 s at 300 and 280."""

    def rate(celsius):
        return frequency_per_s(230e3) * math.exp(-230e3 / (R * (celsius + 273.15)))

    first = 1 - math.exp(-10 * (rate(300) + rate(500) + rate(400)))
    second = 1 - math.exp(-10 * (rate(300) + rate(280)))
    by_hand = 1500 * 0.2 * (0.001 * first + 0.002 * second)
    assert HeatedMould(cooling=solved_as(cooled()), area_m2=0.2).burnt_by_rate_kg() == pytest.approx(by_hand, rel=1e-9)


def test_at_twice_the_modulus_clay_burns_for_four_times_as_long(cooled, casting, solved_as):
    """Cells of 0 to 2 and 2 to 6 mm, each for four times as long."""
    one = solved_as(cooled())
    two = one.unscaled(casting(modulus_mm=20.0))

    def burnt(seconds, *celsius):
        rates = (frequency_per_s(230e3) * math.exp(-230e3 / (R * (each + 273.15))) for each in celsius)
        return 1 - math.exp(-seconds * sum(rates))

    by_hand = 1500 * 0.2 * (0.002 * burnt(40, 300, 500, 400) + 0.004 * burnt(40, 300, 280))
    assert HeatedMould(cooling=two, area_m2=0.2).burnt_by_rate_kg() == pytest.approx(by_hand, rel=1e-9)


def test_by_rate_no_more_clay_burns_than_the_flask_holds(cooled, solved_as):
    """After 10 s at 1200 °C all of it is burnt: 3 mm of 0.2 m² are 0.9 kg."""
    hot = solved_as(cooled(warm_c=[[1200.0, 1200.0], [], [], []]))
    assert HeatedMould(cooling=hot, area_m2=0.2).burnt_by_rate_kg() == pytest.approx(0.9)
    assert HeatedMould(cooling=hot, area_m2=0.2, dry_kg=0.5).burnt_by_rate_kg() == 0.5


def test_sand_that_was_never_warm_loses_nothing_by_rate(cooled, solved_as):
    cold = solved_as(cooled(warm_c=[[], [], [], []]))
    assert HeatedMould(cooling=cold, area_m2=0.2).burnt_by_rate_kg() == 0


def test_the_mean_temperature_follows_from_the_heat_left_in_the_sand(cooled):
    """Poured 27 kg/m² * (1050 * 640 + 397 000 + 1180 * 60) J = 30.7746 MJ/m². At 30 s 10 are left and 1 is gone: 19.7746 * 0.1 m².

    Dried 10 mm: 1.5 kg, 0.0544 kg of water at 2.5914 MJ. 100 kg dry with the rest of the water.
    """
    driven = 3.5 / 96.5 * 1.5
    kept = 1.97746e6 - driven * (2.257e6 + 4180 * 80)
    holds = 100 * 1130 + (100 * 3.5 / 96.5 - driven) * 4180
    mould = HeatedMould(cooling=cooled(), area_m2=0.1, dry_kg=100.0)
    assert mould.sand_mean_c(30) == pytest.approx(20 + kept / holds)


def test_sand_is_never_hotter_than_the_casting(cooled):
    """0.1 kg of dry sand would come to thousands of degrees; the middle is at 400."""
    assert HeatedMould(cooling=cooled(), area_m2=0.1, dry_kg=0.1).sand_mean_c(30) == 400


def test_sand_is_never_colder_than_at_the_start(cooled):
    """30.8 MJ/m² poured and 40 gone."""
    odd = cooled(gone_j_m2=[0.0, 0.0, 40e6, 40e6])
    assert HeatedMould(cooling=odd, area_m2=0.1, dry_kg=10.0).sand_mean_c(30) == 20


def test_a_spread_layer_cools_through_its_open_face():
    """850 * 1000 * 0.05 / 10 = 4250 s; from 78 to 49 °C 58/29 = 2: 4250 ln 2."""
    assert cool_enough_s(78, 1000, 850) == pytest.approx(4250 * math.log(2))
    assert cool_enough_s(120, 1000, 850, limit_c=70) == pytest.approx(4250 * math.log(2))
    assert cool_enough_s(49, 1000, 850) == cool_enough_s(30, 1000, 850) == 0


@pytest.mark.parametrize(
    ("half_mm", "modulus_mm", "n"),
    [(10, 10, 0), (15, 10, 0.5), (20, 10, 1), (30, 10, 2), (30.4, 10, 2), (5, 10, 0)],
)
def test_the_shape_is_half_the_smallest_side_over_the_modulus_minus_one(half_mm, modulus_mm, n):
    """A plate a = M, a bar 2 M, a ball or a cube 3 M; slightly above is a ball, within measuring error; below is a plate."""
    assert shape_n(half_mm, modulus_mm) == (pytest.approx(n), False)


def test_a_casting_far_thinner_than_its_box_is_hollow_and_taken_as_a_plate():
    """a = 3.1 M: 2.1."""
    assert shape_n(31, 10) == (0, True)


def test_the_limits_of_hot_sand_are_the_published_ones():
    """120 and 160 °F."""
    assert pytest.approx((120 - 32) / 1.8, abs=0.5) == burnout.MULLS_BELOW_C
    assert pytest.approx((160 - 32) / 1.8, abs=0.5) == burnout.EXCESSIVELY_HOT_C
