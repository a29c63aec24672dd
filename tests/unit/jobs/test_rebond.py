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
    """Target 3 % at the heap's own mass: half stays, sand is added, no clay."""
    answer = ask("rebond", **HEAP | {"target_clay_pct_dry": 3}, target_kg=100, sand_bag_kg=20, sand_bag_price=5)
    assert answer["result"]["clay_kg"] == 0
    assert answer["result"]["cost"] == pytest.approx(answer["result"]["sand_kg"] / 4)
    assert answer["result"]["binding"] == "live_clay"


def test_a_heap_at_its_target_needs_nothing(ask):
    answer = ask("rebond", **HEAP)
    assert answer["state"] == {"word": "nothing to do", "tone": "go"}
    assert [(link["job"], link["inputs"]) for link in answer["next"]] == [("temper", {"heap_kg": "100 kg"})]
    assert answer["lead"]["text"] == "none"


def test_a_heap_that_is_almost_at_its_target_leads_to_no_shopping(ask):
    """0.01 % of 96.5 kg is 10 g of live clay, of a heap of 100 kg less than the 100 g that a test sees."""
    answer = ask("rebond", **HEAP | {"clay_pct_dry": 5.99})
    assert 0 < answer["result"]["clay_kg"] < 0.1
    assert answer["headline"].startswith("Nothing to add")
    assert [link["job"] for link in answer["next"]] == ["temper"]
    assert not any("Hot sand" in caution for caution in answer["cautions"])
    assert any("Hot sand" in caution for caution in ask("rebond", **HEAP | {"clay_pct_dry": 5})["cautions"])


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
    assert "The limit of 6 % for dead fines (of the dry mass) forces 50 kg out" in remarks_of(answer)
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


SOLD = {"heap_kg": 30.49, "moisture_pct_wet": 1.28, "clay_pct_dry": 6.73, "dead_fines_pct_dry": 0.28}


def test_without_a_target_mass_the_whole_heap_stays_and_grows(ask):
    """Dry 30.49 · 0.9872 = 30.0997. Dry clay (0.07 - 0.0673) / (1 - 0.07) of it, 0.08739, and 10 % water in the bag; all at 3.5 %."""
    answer = ask("rebond", **SOLD, target_clay_pct_dry=7)
    dry = 30.49 * 0.9872
    clay = dry * 0.0027 / 0.93
    result = answer["result"]
    assert (result["discard_kg"], result["sand_kg"], result["binding"]) == (0, 0, "nothing")
    assert result["clay_kg"] == pytest.approx(clay / 0.9)
    assert result["heap_after_kg"] == pytest.approx((dry + clay) / 0.965)
    assert result["water_kg"] == pytest.approx((dry + clay) * 3.5 / 96.5 - 30.49 * 0.0128 - clay / 9)
    assert answer["state"] == {"word": "restore", "tone": "go"}
    assert "The whole heap stays" in remarks_of(answer)


def test_a_heap_with_too_much_clay_grows_by_sand(ask):
    """6 % brought to 3 % doubles the dry mass."""
    result = ask("rebond", **HEAP | {"target_clay_pct_dry": 3})["result"]
    assert (result["discard_kg"], result["clay_kg"]) == (0, 0)
    assert result["sand_kg"] == pytest.approx(96.5)
    assert result["heap_after_kg"] == pytest.approx(200)


def test_a_heap_with_clay_cannot_be_diluted_to_none(ask):
    result = ask("rebond", **HEAP | {"target_clay_pct_dry": 0})["result"]
    assert result["discard_kg"] == pytest.approx(100)
    assert result["binding"] == "live_clay"


def test_a_heap_that_is_too_wet_only_dries(ask):
    """100 kg at 5 % and at its clay: 95 dry, at 3.5 % 98.446."""
    result = ask("rebond", **HEAP | {"moisture_pct_wet": 5})["result"]
    assert (result["discard_kg"], result["sand_kg"], result["clay_kg"]) == (0, 0, 0)
    assert result["water_to_lose_kg"] == pytest.approx(100 - 95 / 0.965)


def test_a_bin_that_is_too_small_forces_sand_out_and_is_named(ask):
    """6 % brought to 3 % would be 200 kg; in 100 kg half of the heap stays."""
    answer = ask("rebond", **HEAP | {"target_clay_pct_dry": 3}, bin_kg=100)
    assert answer["result"]["discard_kg"] == pytest.approx(50)
    assert answer["result"]["binding"] == "bin"
    assert "The bin can hold no more than 100 kg" in remarks_of(answer)


def test_too_many_dead_fines_may_be_diluted_instead(ask):
    """12 % at a limit of 6 % in 100 kg: 200 kg would hold them."""
    assert "enter a target mass of 200 kg" in remarks_of(ask("rebond", **HEAP, dead_fines_pct_dry=12))
    assert "target mass of 200" not in remarks_of(ask("rebond", **HEAP, dead_fines_pct_dry=12, bin_kg=150))
    result = ask("rebond", **HEAP, dead_fines_pct_dry=12, target_kg=200)["result"]
    assert result["discard_kg"] == pytest.approx(0, abs=1e-9)


def test_a_target_mass_above_the_bin_is_refused(ask):
    answer = ask("rebond", **HEAP, target_kg=120, bin_kg=100)
    assert [problem["word"] for problem in answer["problems"]] == ["target_kg"]


def test_a_wider_range_of_the_clay_never_narrows_the_heap_afterwards(ask):
    """At its target clay of 7 % the heap stays 40 · 0.97 / 0.965 kg, and with less or more clay it grows: that is the low end."""
    asked = {"heap_kg": "40 ± 0 kg", "moisture_pct_wet": "3 ± 0 %", "target_clay_pct_dry": 7}
    low, high = 0.0, 0.0
    for half in (2, 2.1, 3, 4):
        answer = ask("rebond", **asked, clay_pct_dry=f"5 ± {half} %")
        low, before = answer["doubt"]["heap_after_kg"][0], high
        high = answer["doubt"]["heap_after_kg"][1]
        assert low == pytest.approx(40 * 0.97 / 0.965)
        assert high >= before


def test_sand_that_would_lower_the_clay_by_less_than_a_test_sees_is_not_added(ask):
    """30 kg at 3.5 % have 28.95 kg dry: 7.1 % of it is 7 % of 29.364 kg, so 414 g of sand move the clay by 0.1 point; 7.5 % of 31.018 kg."""
    asked = {"heap_kg": 30, "moisture_pct_wet": 3.5, "target_clay_pct_dry": 7, "target_moisture_pct_wet": 3.5}
    near = ask("rebond", **asked, clay_pct_dry=7.1)
    assert near["result"]["sand_kg"] == pytest.approx(0.4136, abs=1e-4)
    assert (near["state"]["word"], near["todo"]) == ("nothing to do", [])
    far = ask("rebond", **asked, clay_pct_dry=7.5)
    assert far["result"]["sand_kg"] == pytest.approx(2.068, abs=1e-3)
    assert (far["lead"]["word"], far["lead"]["label"]) == ("sand_kg", "Sand to add")
    grown = ask("rebond", **asked, clay_pct_dry=7, target_kg=30.4)
    assert grown["todo"][0]["text"] == "Sand, as bought", "a larger heap was asked for"


def test_no_weight_to_dry_to_where_the_water_is_in_what_is_added(ask):
    """2 kg at 3.479 % have 70 g of water; the damp new sand of a mix of 175 kg brings far more than that."""
    given = {
        "heap_kg": 2,
        "moisture_pct_wet": 3.479,
        "clay_pct_dry": 5.464,
        "target_clay_pct_dry": 7.997,
        "target_moisture_pct_wet": 2.5,
    }
    answer = ask("rebond", **given, target_kg=174.7, sand_moisture_pct_wet=3.791)
    assert answer["result"]["water_to_lose_kg"] > 0.07
    assert "dried_kg" not in answer["result"]
