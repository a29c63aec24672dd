"""The job *rebond*, by hand arithmetic from the definitions of its words, and its remarks."""

import pytest

HEAP = {"heap_kg": 100, "moisture_pct_wet": 3.5, "clay_pct_dry": 6, "target_clay_pct_dry": 6}


def remarks_of(answer):
    return " ".join(answer["remarks"])


def test_cost_is_by_the_kilogram_of_the_bags(ask):
    """Target 200 kg: dry 193, heap dry 96.5 with 5.79 live; target 11.58: 5.79 live / 0.9 = 6.4333; sand 90.71."""
    answer = ask("rebond", **HEAP, target_kg=200, sand_bag_kg=20, sand_bag_price=5, clay_bag_kg=5, clay_bag_price=10)
    result = answer["result"]
    assert result["clay_kg"] == pytest.approx(5.79 / 0.9)
    assert result["sand_kg"] == pytest.approx(90.71)
    assert result["first_clay_kg"] == pytest.approx(5.79 / 1.8)
    assert result["cost"] == pytest.approx(90.71 / 4 + 2 * 5.79 / 0.9)
    assert answer["next"][0]["job"] == "shopping"


def test_cost_uses_only_the_prices_of_what_is_added(ask):
    """Target 3 % at the heap's dry mass: half stays, sand is added, no clay."""
    answer = ask("rebond", **HEAP | {"target_clay_pct_dry": 3}, sand_bag_kg=20, sand_bag_price=5)
    assert answer["result"]["clay_kg"] == 0
    assert answer["result"]["cost"] == pytest.approx(answer["result"]["sand_kg"] / 4)
    assert answer["result"]["binding"] == "live_clay"


def test_a_heap_at_its_target_needs_nothing(ask):
    answer = ask("rebond", **HEAP)
    assert answer["state"] == {"word": "nothing to do", "tone": "go"}
    assert answer["next"] == []
    assert answer["lead"]["text"] == "none"


def test_without_dead_fines_there_is_no_limit_and_a_remark(ask):
    answer = ask("rebond", **HEAP)
    assert "dead_fines_after_pct_dry" not in answer["result"]
    assert "dead fines are not given" in remarks_of(answer)


def test_dead_fines_force_sand_out(ask):
    """12 % now, 6 % allowed: half stays."""
    answer = ask("rebond", **HEAP, dead_fines_pct_dry=12)
    assert answer["result"]["discard_kg"] == pytest.approx(50)
    assert answer["result"]["dead_fines_after_pct_dry"] == pytest.approx(6)
    assert answer["result"]["binding"] == "dead_fines"
    assert "too many dead fines" in remarks_of(answer)
    assert "discarded" in answer["drawings"]


def test_a_heap_that_is_only_too_wet_is_dried_and_not_discarded(ask):
    """100 kg at 8 %: dry 92. Wanted 92 / 0.965 kg at 3.5 %: 8 - 3.3368 water to lose."""
    answer = ask("rebond", **HEAP | {"moisture_pct_wet": 8}, target_kg=92 / 0.965)
    assert answer["result"]["discard_kg"] == pytest.approx(0, abs=1e-9)
    assert answer["result"]["water_to_lose_kg"] == pytest.approx(8 - 92 * 3.5 / 96.5)
    assert answer["lead"]["word"] == "water_to_lose_kg"
    assert "dry it before" in remarks_of(answer)


def test_a_dry_heap_leads_with_water(ask):
    """98 dry at 2 %: the target is as much at 3.5 %."""
    answer = ask("rebond", **HEAP | {"moisture_pct_wet": 2}, target_kg=98 / 0.965)
    assert answer["lead"]["word"] == "first_water_kg"


def test_untested_granules_count_as_85_percent_with_a_range_down_to_50(ask):
    answer = ask("rebond", **HEAP, target_kg=150, clay="clay_granules")
    tested = ask("rebond", **HEAP, target_kg=150, clay="clay_granules", clay_activity_pct=85)
    assert answer["result"] == tested["result"] | {"water_most_kg": answer["result"]["water_most_kg"]}
    assert "down to 50 %" in remarks_of(answer)
    assert "down to 50 %" not in remarks_of(tested)
    assert answer["doubt"]["clay_kg"][1] > 1.5 * answer["result"]["clay_kg"]


def test_a_likely_range_may_reach_where_no_plan_exists(ask):
    """Granules that were only half live could not bring it to 45 %: that end of the band is left out, and nothing breaks."""
    answer = ask(
        "rebond", heap_kg=40, moisture_pct_wet=3, clay_pct_dry=40, target_clay_pct_dry=60, clay="clay_granules"
    )
    assert answer["ok"]
