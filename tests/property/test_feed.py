"""What holds for *feed*, for any casting within the limits of its words."""

import math

import pytest
from effort import examples
from hypothesis import assume, given
from hypothesis import strategies as st

from sandmix.feeding.modulus import cylinder_cm3, riser_share

VOLUMES = st.floats(5, 20_000)
ROUND = st.floats(0.05, 0.9)
"""The modulus over that of a ball of the same volume."""
KINDS = st.sampled_from(["side", "top"])
HEIGHTS = st.floats(0.4, 2.0)
SHRINKAGES = st.floats(0, 9)


def modulus_of(volume_cm3, roundness):
    return max(0.2, roundness * (1000 * volume_cm3 / (36 * math.pi)) ** (1 / 3))


@pytest.fixture
def size(ask):
    """The answer's figures for a casting by its volume and how round it is."""

    def size(volume, roundness, kind, height, shrinkage, **others):
        inputs = {"casting_volume_cm3": volume, "modulus_mm": modulus_of(volume, roundness), "riser_kind": kind}
        return ask("feed", **inputs, riser_height_share=height, shrinkage_pct=shrinkage, **others)

    return size


def test_the_riser_meets_both_demands_and_one_exactly(size):
    @examples(200)
    @given(volume=VOLUMES, roundness=ROUND, kind=KINDS, height=HEIGHTS, shrinkage=SHRINKAGES)
    def holds(volume, roundness, kind, height, shrinkage):
        result = size(volume, roundness, kind, height, shrinkage)["result"]
        diameter = result["riser_diameter_mm"]
        own_modulus, own_volume = riser_share(kind, height) * diameter, cylinder_cm3(diameter, height)
        spare = (own_modulus / (1.2 * modulus_of(volume, roundness)), own_volume / max(result["feed_needed_cm3"], 1e-9))
        assert min(spare) == pytest.approx(1, rel=1e-6)
        assert spare[0 if result["decides"] == "freezing" else 1] == pytest.approx(1, rel=1e-6)
        assert 0.14 * own_volume >= shrinkage / 100 * (volume + own_volume) * (1 - 1e-9)
        assert result["riser_diameter_mm"] <= result["riser_made_mm"] * (1 + 1e-9) < diameter + 5.001

    holds()


def test_a_casting_twice_as_large_asks_for_a_riser_twice_as_large(size):
    @examples(120)
    @given(volume=VOLUMES, roundness=ROUND, kind=KINDS, height=HEIGHTS, shrinkage=SHRINKAGES)
    def holds(volume, roundness, kind, height, shrinkage):
        assume(modulus_of(volume, roundness) > 0.2)
        small = size(volume, roundness, kind, height, shrinkage)["result"]
        large = size(8 * volume, roundness, kind, height, shrinkage)["result"]
        assert large["riser_diameter_mm"] == pytest.approx(2 * small["riser_diameter_mm"])
        assert large["riser_kg"] == pytest.approx(8 * small["riser_kg"])

    holds()


def test_more_shrinkage_never_asks_for_less(size):
    @examples(120)
    @given(volume=VOLUMES, roundness=ROUND, shrinkage=SHRINKAGES, more=st.floats(0, 3))
    def holds(volume, roundness, shrinkage, more):
        less = size(volume, roundness, "side", 1.0, shrinkage)["result"]
        most = size(volume, roundness, "side", 1.0, shrinkage + more)["result"]
        assert most["riser_diameter_mm"] >= less["riser_diameter_mm"] * (1 - 1e-9)

    holds()


def test_a_wider_range_of_an_input_never_narrows_the_answer(size):
    @examples(100)
    @given(volume=VOLUMES, roundness=ROUND, half=st.floats(0, 2), wider=st.floats(0, 2))
    def holds(volume, roundness, half, wider):
        bands = [
            size(volume, roundness, "side", 1.0, {"value": 5, "doubt": each})["doubt"]["riser_volume_cm3"]
            for each in (half, half + wider)
        ]
        assert bands[1][0] <= bands[0][0] * (1 + 1e-9)
        assert bands[1][1] >= bands[0][1] * (1 - 1e-9)

    holds()


def test_a_riser_on_top_that_covers_part_of_the_casting_is_never_smaller(ask):
    @examples(120)
    @given(sides=st.lists(st.floats(5, 400), min_size=3, max_size=3), shrinkage=SHRINKAGES)
    def holds(sides, shrinkage):
        a, b, c = sides
        inputs = {"casting_volume_cm3": a * b * c / 1000, "casting_area_cm2": 2 * (a * b + a * c + b * c) / 100}
        answer = ask("feed", **inputs, riser_kind="top", shrinkage_pct=shrinkage)
        result = answer["result"]
        if "covered_diameter_mm" not in result:
            assert any("no size is large enough" in way for way in answer["ways_out"])
            return
        assert result["covered_diameter_mm"] >= result["riser_diameter_mm"] * (1 - 1e-9)
        assert result["covered_diameter_mm"] / 6 >= 1.2 * result["covered_modulus_mm"] * (1 - 1e-6)

    holds()
