"""What holds for *facing*, *season* and *carbon*, for any input within the limits of their words."""

import math

import pytest
from effort import examples
from hypothesis import given
from hypothesis import strategies as st

CHEAP = {"facing": 12, "season": 200, "carbon": 30}
"""How many are drawn: fewer where each draw solves the heat of another casting."""


def numbers(value):
    """All numbers of a figure, rows included."""
    if isinstance(value, list):
        return [number for row in value for number in numbers(list(row.values()) if isinstance(row, dict) else row)]
    return [] if isinstance(value, str) or value is None else [value]


@pytest.mark.parametrize("job", CHEAP)
def test_nothing_is_negative_or_endless_and_nothing_faults(ask, lawful, job):
    @examples(CHEAP[job])
    @given(asked=lawful(job))
    def holds(asked):
        answer = ask(job, **asked)
        assert "fault" not in answer, (answer["problems"], answer.get("fault"))
        if not answer["ok"]:
            assert all(problem["message"] for problem in answer["problems"])
            return
        for word, value in answer["result"].items():
            assert all(math.isfinite(number) and number >= 0 for number in numbers(value)), (word, value)
        for word, (low, high) in answer["doubt"].items():
            value = answer["result"][word]
            assert 0 <= low <= value * (1 + 1e-9) + 1e-9, word
            assert value <= high * (1 + 1e-9) + 1e-9, word
        assert answer["next"]

    holds()


SEASON = st.fixed_dictionaries(
    {
        "heap_kg": st.floats(5, 200),
        "clay_pct_dry": st.floats(0, 12),
        "clay_burnt_share": st.floats(0, 0.3),
        "dead_fines_pct_dry": st.floats(0, 20),
        "casts": st.integers(1, 60),
        "lost_share": st.floats(0, 0.05),
        "new_sand_share": st.floats(0.05, 1),
        "burnt_kept_share": st.floats(0, 1),
        "dead_fines_limit_pct_dry": st.floats(0.5, 10),
    }
)


@given(SEASON)
@examples(200)
def test_no_way_that_keeps_the_limit_throws_away_less_than_the_least(ask, asked):
    answer = ask("season", **asked)
    rows = {row["way"]: row for row in answer["result"].get("season_ways", ())}
    if not rows:
        assert answer["state"]["word"] == "out of reach"
        return
    keep = rows["keep until the limit, then the least"]
    for way in ("the same share at each cast", "keep until the limit, then all new"):
        assert keep["discard_kg"] <= rows[way]["discard_kg"] * (1 + 1e-9) + 1e-9
        assert rows[way]["casts_above"] == 0
    assert keep["casts_above"] == 0


FACING = st.fixed_dictionaries(
    {
        "casting_volume_cm3": st.floats(50, 300),
        "flask_sand_kg": st.floats(1, 60),
        "facing_mm": st.floats(1, 60),
        "sand_lost_kg": st.floats(0, 3),
        "clay_pct_dry": st.floats(0, 12),
        "facing_clay_pct_dry": st.floats(0, 12),
        "facing_from_backing_pct_dry": st.floats(0, 80),
        "dead_fines_pct_dry": st.floats(0, 20),
        "casts": st.integers(1, 40),
        "make_up": st.sampled_from(["yes", "no"]),
        "clay_activity_pct": st.floats(90, 100),
    }
)


@given(FACING)
@examples(40)
def test_the_mould_is_filled_and_its_facing_goes_somewhere(ask, asked):
    """Facing and backing are the sand in the flask; what joins and what is thrown away is the facing less water that boils off."""
    answer = ask("facing", **asked, casting_area_cm2=500)
    result, water = answer["result"], 3.5
    assert result["facing_rammed_kg"] + result["backing_kg"] == pytest.approx(asked["flask_sand_kg"])
    left = result["facing_joins_kg"] + result["facing_lost_kg"]
    assert (
        result["facing_rammed_kg"] * (1 - water / 100) <= left * (1 + 1e-9) <= result["facing_rammed_kg"] * (1 + 1e-8)
    )
    assert all(math.isfinite(number) and number >= 0 for value in result.values() for number in numbers(value))
