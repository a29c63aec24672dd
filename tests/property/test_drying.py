"""What holds for every layer that dries: the direction in which each input moves it, and that times and losses agree."""

from dataclasses import replace

import pytest
from effort import examples
from hypothesis import assume, given
from hypothesis import strategies as st

from sandmix.drying import drying_plan as plan
from sandmix.drying.evaporation import (
    CAPILLARY_M,
    CRITICAL,
    Bed,
    drying_law,
    front,
    hours_to_lose,
    lost_kg_m2,
    most_kg_m2,
)
from sandmix.drying.moist_air import Air

few = examples(150)
AIRS = st.builds(Air, temp_c=st.floats(0, 60), humidity_pct=st.floats(0, 100), wind_m_s=st.floats(0, 20))
BEDS = st.builds(
    Bed,
    depth_m=st.floats(0.001, 0.6),
    moisture=st.floats(0, 0.25),
    dry_kg_m3=st.floats(600, 1900),
    below_c=st.none() | st.floats(-10, 95),
    below_w_m2k=st.floats(0, 100),
    radiation_w_m2=st.floats(0, 600),
    leak_m_h=st.none() | st.floats(0.01, 10),
    two_sided=st.booleans(),
)
HOURS = st.floats(0, 2000)
ALONE = {"below_c": None, "below_w_m2k": 0.0, "radiation_w_m2": 0.0}


@given(air=AIRS, bed=BEDS, hours=HOURS)
@few
def test_a_layer_loses_no_more_than_it_can(air, bed, hours):
    assert lost_kg_m2(hours, air, bed) <= most_kg_m2(bed) * (1 + 1e-9)


@given(air=AIRS, bed=BEDS, hours=HOURS, more=HOURS)
@few
def test_a_layer_that_dries_never_gains(air, bed, hours, more):
    first, then = lost_kg_m2(hours, air, bed), lost_kg_m2(hours + more, air, bed)
    assert then >= first - 1e-12 if first >= 0 else then <= first


@given(air=AIRS, bed=BEDS, hours=HOURS)
@few
def test_the_time_of_a_loss_is_the_loss_of_that_time(air, bed, hours):
    lost = lost_kg_m2(hours, air, bed)
    assume(1e-9 < lost < most_kg_m2(bed) * (1 - 1e-9))
    assert hours_to_lose(lost, air, bed) == pytest.approx(hours, rel=1e-6)


@given(air=AIRS, bed=BEDS)
@few
def test_without_other_heat_water_is_never_gained_and_the_front_is_not_warmer_than_the_air(air, bed):
    for dry_m in (0.0, bed.depth_m):
        lost, temp_c = front(air, replace(bed, **ALONE), dry_m)
        assert lost >= 0
        assert temp_c <= air.temp_c + 1e-9


@given(air=AIRS, bed=BEDS, drier=st.floats(0, 1))
@few
def test_drier_air_takes_more(air, bed, drier):
    dry = replace(air, humidity_pct=air.humidity_pct * drier)
    assert front(dry, bed, 0.0)[0] >= front(air, bed, 0.0)[0] - 1e-12


@given(air=AIRS, bed=BEDS, hours=HOURS, wind=st.floats(0, 20))
@few
def test_more_wind_takes_more_where_the_air_alone_gives_the_heat(air, bed, hours, wind):
    alone = replace(bed, **ALONE)
    windier = replace(air, wind_m_s=air.wind_m_s + wind)
    assert lost_kg_m2(hours, windier, alone) >= lost_kg_m2(hours, air, alone) * (1 - 1e-6) - 1e-12


@given(air=AIRS, bed=BEDS, turns=st.integers(0, 6), target=st.floats(0.006, 0.2))
@few
def test_a_turn_never_makes_it_slower(air, bed, turns, target):
    """In layers that stay wet down to the bottom at first, or not at all: a deeper one is wet only in its top 50 mm."""
    assume(bed.face_depth_m <= CAPILLARY_M or bed.water <= CRITICAL)
    law = drying_law(air, bed)
    fewer, more = (plan.seconds_to_dry(law, bed, target, count) for count in (turns, turns + 1))
    if fewer is not None:
        assert more is not None
        assert more <= fewer * (1 + 1e-9)
