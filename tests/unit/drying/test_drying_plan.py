"""The plan of the drying: mass balances by hand, and that turning, mixing and drying agree with one another."""

import pytest

from sandmix.drying import drying_plan as plan
from sandmix.drying.evaporation import Bed, DryingLaw, drying_law
from sandmix.drying.moist_air import Air

LAW = DryingLaw(surface_kg_m2s=1e-5, slowness=((0.0, 1e5), (0.06, 1.3e6)))
BED = Bed(depth_m=0.06, moisture=0.045)
H, M1, M2 = 40.0, 0.06, 0.035


def moisture_after(lost_kg, dry_mix_kg):
    return (H * M1 - lost_kg) / (H - lost_kg + dry_mix_kg)


def test_the_water_to_lose_brings_the_heap_to_its_target():
    assert moisture_after(plan.water_to_lose_kg(H, M1, M2), 0.0) == pytest.approx(M2)


@pytest.mark.parametrize("dry_mix_kg", [0.0, 5.0, 20.0])
def test_drying_and_a_dry_mix_together_bring_it_to_its_target(dry_mix_kg):
    lost_kg = plan.water_to_lose_kg(H, M1, M2, dry_mix_kg)
    assert moisture_after(lost_kg, dry_mix_kg) == pytest.approx(M2)
    assert plan.dry_mix_for_kg(H, M1, M2, lost_kg) == pytest.approx(dry_mix_kg)


def test_a_heap_that_is_dried_too_far_needs_no_dry_mix():
    assert plan.dry_mix_for_kg(H, M1, M2, 1.2) == 0.0


def test_a_layer_and_its_area_undo_each_other():
    """40 kg at 6 % are 37.6 kg dry; on 2 m² at 940 kg/m³ that is 20 mm."""
    assert plan.layer_m(H, M1, 2.0, 940.0) == pytest.approx(0.02)
    assert plan.area_m2(H, M1, 0.02, 940.0) == pytest.approx(2.0)


def test_the_water_of_a_square_metre():
    """0.06 m × 1100 kg/m³ = 66 kg dry; from 0.045/0.955 to 0.03/0.97 kg/kg."""
    assert plan.to_lose_kg_m2(BED, 0.03) == pytest.approx(66 * (0.045 / 0.955 - 0.03 / 0.97))
    assert plan.to_lose_kg_m2(BED, 0.05) == 0.0


def test_turning_in_a_front_that_alone_decides_divides_the_time():
    """Without a film 1/J = b z, so t = w b z²/2: n + 1 stages of one n + 1th of the depth take one n + 1th of the time where w stays."""
    law = DryingLaw(surface_kg_m2s=1e9, slowness=((0.0, 1e-9), (0.06, 1.2e6)))
    wet = Bed(depth_m=0.06, moisture=0.047)
    once = plan.seconds_to_dry(law, wet, 0.0469, 0)
    for turns in (1, 3):
        assert plan.seconds_to_dry(law, wet, 0.0469, turns) == pytest.approx(once / (turns + 1), rel=0.01)


def test_a_wait_turns_only_where_a_turn_saves_an_hour():
    found = plan.wait(LAW, BED, 0.03)
    seconds = [plan.seconds_to_dry(LAW, BED, 0.03, turns) for turns in range(plan.MOST_TURNS + 1)]
    assert seconds == sorted(seconds, reverse=True)
    assert found.seconds == seconds[found.turns]
    assert found.turns > 0
    assert all(seconds[at] - seconds[at + 1] >= plan.WORTH_A_TURN_S for at in range(found.turns))
    if found.turns < plan.MOST_TURNS:
        assert seconds[found.turns] - seconds[found.turns + 1] < plan.WORTH_A_TURN_S


def test_a_thin_layer_is_not_turned():
    assert plan.wait(LAW, Bed(depth_m=0.005, moisture=0.045), 0.04).turns == 0


def test_sand_at_its_target_needs_no_time():
    assert plan.wait(LAW, BED, 0.045) == plan.Wait(turns=0, seconds=0.0)


def test_a_target_below_air_dry_sand_is_never_reached():
    assert plan.wait(LAW, BED, 0.004) is None


@pytest.mark.parametrize("turns", [0, 1, 4])
def test_what_is_lost_by_then_is_what_takes_that_time(turns):
    need = plan.to_lose_kg_m2(BED, 0.035)
    for share in (0.05, 0.3, 0.5, 0.99):
        seconds = plan.seconds_to_lose(LAW, BED, share * need, need / (turns + 1))
        assert plan.lost_by_then_kg_m2(LAW, BED, 0.035, turns, seconds) == pytest.approx(share * need)


def test_no_more_is_lost_than_there_is_to_lose():
    assert plan.lost_by_then_kg_m2(LAW, BED, 0.035, 4, 1e12) == pytest.approx(plan.to_lose_kg_m2(BED, 0.035))
    assert plan.lost_by_then_kg_m2(LAW, BED, 0.045, 0, 1e12) == 0.0


def test_where_water_condenses_the_loss_is_below_zero():
    assert plan.lost_by_then_kg_m2(DryingLaw(surface_kg_m2s=-1e-6, slowness=()), BED, 0.035, 0, 1000.0) == -1e-3


def test_sand_that_dries_twice_as_fast_takes_half_the_time():
    air, layer = Air(temp_c=20.0, humidity_pct=60.0), Bed(depth_m=0.03, moisture=0.05)
    law = drying_law(air, layer)
    assert law.times(2.0).seconds_to_lose(0.5, layer) == pytest.approx(law.seconds_to_lose(0.5, layer) / 2)


def test_the_part_that_is_dried_out_holds_the_water_to_lose():
    lose_kg = plan.water_to_lose_kg(H, M1, M2)
    part_kg = plan.part_to_dry_out_kg(lose_kg, M1)
    assert moisture_after(part_kg * M1, 0.0) == pytest.approx(M2)


def test_the_heat_of_a_burner():
    """1.0363 kg of water at 2.6 MJ/kg is 2.69 MJ; 16.2 kg of dry sand by 80 K at 1130 J/kgK is 1.47 MJ."""
    assert plan.burner_mj(plan.water_to_lose_kg(H, M1, M2), M1) == pytest.approx(2.69 + 1.47, abs=0.01)


def test_no_more_than_six_turns_are_advised(monkeypatch):
    monkeypatch.setattr(plan, "seconds_to_dry", lambda *given: 1e9 / (1 + given[3]))
    assert plan.wait(LAW, BED, 0.03) == plan.Wait(turns=6, seconds=1e9 / 7)


def test_a_turn_that_saves_too_little_is_the_last_one_looked_at(monkeypatch):
    """In units of what a turn must save: the first saves 1.1, the second 0.9, and what a third would save is not asked."""
    times = [plan.WORTH_A_TURN_S * part for part in (10.0, 8.9, 8.0, 1.0, 1.0, 1.0, 1.0)]
    monkeypatch.setattr(plan, "seconds_to_dry", lambda *given: times[given[3]])
    assert plan.wait(LAW, BED, 0.03) == plan.Wait(turns=1, seconds=times[1])
    monkeypatch.setattr(plan, "seconds_to_dry", lambda *_: None)
    assert plan.wait(LAW, BED, 0.03) is None
