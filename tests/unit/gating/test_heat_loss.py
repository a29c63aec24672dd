"""What metal loses in the crucible, by hand and by an independent solution of the same equation."""

import math

import pytest

from sandmix.gating.heat_loss import Pot, convection_w_m2, radiation_w_m2

POT = Pot(diameter_mm=120, mass_kg=3.2, liquid_j_kgk=1180, emissivity=0.3)


def test_a_black_surface_radiates_as_the_fourth_power_by_hand():
    """5.670374e-8 * (1000⁴ - 293.15⁴) = 56 704 - 418.8 W/m²; 726.85 °C is 1000 K."""
    assert radiation_w_m2(726.85, 1.0) == pytest.approx(56_285, abs=1)
    assert radiation_w_m2(726.85, 0.1) == pytest.approx(5_628.5, abs=0.1)


def test_nothing_is_lost_at_the_temperature_of_the_air():
    assert radiation_w_m2(20, 0.5) == 0
    assert convection_w_m2(20) == 0


def test_the_film_is_about_what_handbooks_give_for_still_air():
    """5 to 12 W/m²K over a hot level plate, from memory."""
    assert all(5 < convection_w_m2(hot) / (hot - 20) < 12 for hot in (200, 500, 900, 1400))


def test_the_loss_is_heat_over_heat_capacity():
    """A disc of 60 mm radius; 3.2 kg * 1180 J/kgK; surface and wall alike."""
    lost_w = math.pi * 0.06**2 * (radiation_w_m2(750, 0.3) + convection_w_m2(750)) * 2
    assert POT.loss_c_s(750) * 3.2 * 1180 == pytest.approx(lost_w)


def test_the_wall_takes_as_much_again():
    bare = Pot(diameter_mm=120, mass_kg=3.2, liquid_j_kgk=1180, emissivity=0.3, wall_share=0.0)
    assert POT.loss_c_s(750) == pytest.approx(2 * bare.loss_c_s(750))


def test_the_temperature_after_some_minutes_by_small_steps():
    """An independent method: Euler's steps of a hundredth of a second."""
    now = 750.0
    for _ in range(6000):
        now -= 0.01 * POT.loss_c_s(now)
    assert POT.after(750, 1.0) == pytest.approx(now, abs=0.02)


@pytest.mark.parametrize("minutes", [0.0, 0.3, 2.0, 20.0])
def test_backwards_is_the_inverse(minutes):
    assert POT.before(POT.after(750, minutes), minutes) == pytest.approx(750, abs=0.05)


def test_the_minutes_until_a_temperature_are_the_inverse_of_the_loss():
    left = POT.after(750, 3.0)
    assert POT.minutes_until(750, left) == pytest.approx(3.0, rel=1e-4)
    assert POT.minutes_until(700, 750) == 0


def test_metal_never_gets_colder_than_the_air_and_a_tiny_melt_has_no_past():
    tiny = Pot(diameter_mm=500, mass_kg=0.01, liquid_j_kgk=500, emissivity=1.0)
    assert tiny.after(1400, 120) == pytest.approx(20, abs=1)
    assert tiny.before(1400, 1) is None


def test_twice_the_size_halves_the_loss():
    """Mass goes with the cube, the surface with the square."""
    large = Pot(diameter_mm=240, mass_kg=25.6, liquid_j_kgk=1180, emissivity=0.3)
    assert large.loss_c_s(750) == pytest.approx(POT.loss_c_s(750) / 2)
    assert math.isfinite(large.loss_c_s(750))
