"""The job *blend*, by hand arithmetic, and its remarks."""

import math

import pytest

USED = {"kg": 20, "moisture_pct_wet": 5, "clay_pct_dry": 10, "dead_fines_pct_dry": 5, "retained": {"50": 40, "70": 40}}
BAG = {"kg": 10, "retained": {"100": 3}}
BONE_DRY = {"clay_activity_pct": 100, "clay_moisture_pct_wet": 0}


def remarks_of(answer):
    return " ".join(answer["remarks"])


def test_two_lots_are_added_up(ask):
    """19 dry: 1.9 live, 0.95 dead, 16.15 grain; with 10 of grain: 29 dry in 30."""
    result = ask("blend", lots=[USED, BAG])["result"]
    assert result["make_kg"] == pytest.approx(30)
    assert result["moisture_pct_wet"] == pytest.approx(100 / 30)
    assert result["clay_pct_dry"] == pytest.approx(190 / 29)
    assert result["dead_fines_pct_dry"] == pytest.approx(95 / 29)


def test_a_sample_is_weighted_by_the_dry_grain_of_its_lot(ask):
    """16.15 of grain half on 50 and half on 70, 10 on 100: 8.075, 8.075, 10 of 26.15."""
    result = ask("blend", lots=[USED, BAG])["result"]
    assert result["retained"] == pytest.approx({"50": 807.5 / 26.15, "70": 807.5 / 26.15, "100": 1000 / 26.15})
    assert result["gfn"] == pytest.approx((8.075 * 40 + 8.075 * 50 + 10 * 70) / 26.15)


def test_clay_and_water_reach_the_targets(ask):
    """(0.1 × 29 − 1.9) / 0.9 = 1.1111; 30.1111 dry at 4 %: 30.1111 / 24 = 1.25463 less the 1 there."""
    result = ask("blend", lots=[USED, BAG], target_clay_pct_dry=10, target_moisture_pct_wet=4, **BONE_DRY)["result"]
    assert result["clay_kg"] == pytest.approx(10 / 9)
    assert result["water_kg"] == pytest.approx((29 + 10 / 9) / 24 - 1)
    assert result["first_water_kg"] == pytest.approx(0.7 * result["water_kg"])
    assert result["make_kg"] == pytest.approx((29 + 10 / 9) / 0.96)


def test_too_much_clay_is_remarked_with_the_sand_that_dilutes_it(ask):
    """1.9 of live clay are 5 % of 38: 9 more than the 29."""
    answer = ask("blend", lots=[USED, BAG], target_clay_pct_dry=5)
    assert answer["result"]["clay_kg"] == 0
    assert answer["result"]["plain_sand_kg"] == pytest.approx(9)
    assert "No clay is added" in remarks_of(answer)
    assert "add 9 kg of dry plain sand" in remarks_of(answer)
    assert answer["state"]["word"] == "too much clay"


def test_plain_sand_cannot_bring_clay_to_zero(ask):
    answer = ask("blend", lots=[USED], target_clay_pct_dry=0)
    assert "plain_sand_kg" not in answer["result"]
    assert "Plain sand cannot bring it to zero" in remarks_of(answer)


def test_just_enough_clay_is_not_too_much(ask):
    answer = ask("blend", lots=[{"kg": 100, "clay_pct_dry": 7}], target_clay_pct_dry=7)
    assert answer["state"]["word"] == "blend"
    assert "plain_sand_kg" not in answer["result"]


def test_lots_that_are_too_wet_must_lose_water(ask):
    """100 kg at 10 % is 90 dry, at 4 % 3.75 of water: 6.25 to lose."""
    answer = ask("blend", lots=[{"kg": 100, "moisture_pct_wet": 10}], target_moisture_pct_wet=4)
    assert (answer["result"]["water_kg"], answer["result"]["water_to_lose_kg"]) == (0, pytest.approx(6.25))
    assert answer["lead"]["word"] == "water_to_lose_kg"
    assert answer["state"]["word"] == "stop"
    assert (
        ask("blend", lots=[{"kg": 100, "moisture_pct_wet": 5}], target_moisture_pct_wet=4)["state"]["word"] == "too wet"
    )
    assert any(caution.startswith("Drying") for caution in answer["cautions"])


def test_a_mass_to_make_takes_the_same_share_of_each_lot(ask):
    answer = ask("blend", lots=[USED, BAG], make_kg=15)
    assert answer["result"]["lots_share_pct"] == pytest.approx(50)
    assert answer["result"]["make_kg"] == pytest.approx(15)
    assert "Take lot 1: 10.00 kg, lot 2: 5.00 kg." in remarks_of(answer)


def test_lots_that_are_not_enough_are_remarked(ask):
    answer = ask("blend", lots=[USED, BAG], make_kg=60)
    assert "The lots are not enough. You would need lot 1: 40.00 kg" in remarks_of(answer)
    assert answer["next"][-1]["job"] == "mix"


def test_without_sieve_results_of_a_lot_there_is_no_blended_grading(ask):
    answer = ask("blend", lots=[USED, {"kg": 5}])
    assert "retained" not in answer["result"]
    assert "gfn" not in answer["result"]
    assert "enter the sieve results of lot 2" in remarks_of(answer)
    assert [link["job"] for link in answer["next"]] == ["temper"]


def test_a_lot_of_clay_alone_needs_no_sieving(ask):
    lots = [USED, {"kg": 1, "clay_pct_dry": 60, "dead_fines_pct_dry": 40}]
    assert ask("blend", lots=lots)["result"]["retained"] == pytest.approx({"50": 50, "70": 50})


def test_without_any_grain_there_is_no_grading(ask):
    answer = ask("blend", lots=[{"kg": 1, "clay_pct_dry": 60, "dead_fines_pct_dry": 40, "retained": {"50": 1}}])
    assert "contains no grain" in remarks_of(answer)


def test_without_targets_nothing_is_added(ask):
    answer = ask("blend", lots=[USED])
    assert not {"clay_kg", "water_kg", "water_most_kg"} & answer["result"].keys()
    assert answer["lead"]["word"] == "clay_pct_dry"
    assert "enter target live clay." in remarks_of(answer)
    assert answer["headline"].startswith("The one lot makes 20.00 kg")


def test_the_unknown_live_share_of_granules_is_remarked(ask):
    assert "not known" in remarks_of(ask("blend", lots=[BAG], target_clay_pct_dry=5, clay="clay_granules"))


def test_the_blended_grading_is_passed_on_to_fineness(ask):
    answer = ask("blend", lots=[USED, BAG])
    onward = ask(answer["next"][0]["job"], **answer["next"][0]["inputs"])
    assert onward["result"]["gfn"] == pytest.approx(answer["result"]["gfn"], rel=1e-3)


def test_a_lot_may_be_given_in_other_units(ask):
    """22 lb and 4 oz are 10.0924 kg."""
    assert ask("blend", lots=[{"kg": "22 lb 4 oz"}])["result"]["make_kg"] == pytest.approx(22.25 * 0.45359237)


def test_the_uncertainty_of_a_lot_widens_the_bands(ask):
    """20 ± 1 kg of dry plain sand to 5 % with a clay that is all live, dry and exactly known: 20/19 of clay a 20 kg, so ± 1/19."""
    exact = {"clay_activity_pct": "100 ± 0 %", "clay_moisture_pct_wet": "0 ± 0 %", "target_clay_pct_dry": 5}
    low, high = ask("blend", lots=[{"kg": "20 ± 1 kg"}], **exact)["doubt"]["clay_kg"]
    assert (low, high) == pytest.approx((19 / 19, 21 / 19))


def test_a_lot_without_a_given_error_has_the_usual_one(ask):
    """6 % of 20 kg dry ± 0.7 points is 0.14 kg; to 8 %, (1.6 − C)/0.92, so ± 0.14/0.92 in addition to the scale: 0.02 · 0.1118/0.92."""
    exact = {"clay_activity_pct": "100 ± 0 %", "clay_moisture_pct_wet": "0 ± 0 %", "target_clay_pct_dry": 8}
    low, high = ask("blend", lots=[{"kg": 20, "clay_pct_dry": 6}], **exact)["doubt"]["clay_kg"]
    assert (high - low) / 2 == pytest.approx(math.hypot(0.14 / 0.92, 0.02 / 0.92 * math.hypot(0.05, 0.1)))


def test_a_lot_of_only_clay_and_dead_fines_is_answered(ask):
    answer = ask("blend", lots=[{"kg": 20, "clay_pct_dry": 60, "dead_fines_pct_dry": 40}], target_clay_pct_dry=5)
    assert answer["ok"]


def test_a_blend_can_be_recorded_as_events_of_a_heap(ask):
    """A figure that is left out counts as zero; a ± is kept. 100 kg of dry sand to 5 %: 5.263 kg of clay that is dry and all live."""
    exact = {"clay_activity_pct": "100 ± 0 %", "clay_moisture_pct_wet": "0 ± 0 %", "clay": "calcium_bentonite"}
    lots = [{"kg": "60 ± 0 kg"}, {"kg": "40 kg", "dead_fines_pct_dry": "3 ± 0.4 %"}]
    one, two, added = ask("blend", lots=lots, target_clay_pct_dry=5, target_moisture_pct_wet=3, **exact)["records"]
    assert (one["kind"], two["kind"], added["kind"]) == ("joined", "joined", "added")
    assert one["words"] == {
        "joined_kg": "60 kg",
        "moisture_pct_wet": "0 %",
        "clay_pct_dry": "0 %",
        "dead_fines_pct_dry": "0 %",
    }
    assert two["words"]["dead_fines_pct_dry"] == "3 ± 0.4 %"
    assert two["words"]["joined_kg"] == "40 ± 0.21 kg"
    assert added["words"]["clay_kg"] == "5.263 kg"
    assert (
        added["words"] | {"clay": "calcium_bentonite", "clay_activity_pct": "100 %", "clay_moisture_pct_wet": "0 %"}
        == added["words"]
    )
    assert (two["label"], added["label"]) == ("Record lot 2 in the book", "Record the clay and the water in the book")


def test_the_events_hold_the_share_of_each_lot_that_is_used(ask):
    """50 of 100 kg: half of each."""
    one, two = ask("blend", lots=[{"kg": "60 ± 2 kg"}, {"kg": "40 ± 0 kg"}], make_kg=50)["records"]
    assert (one["words"]["joined_kg"], two["words"]["joined_kg"]) == ("30 ± 1 kg", "20 kg")
    assert ask("blend", lots=[{"kg": 60}], make_kg=70)["records"] == []


def test_water_to_lose_is_recorded_as_dried(ask):
    """20 kg at 5 %, so 19 dry; at 3 % they hold 19 · 3/97 = 0.5876: 0.4124 must dry off."""
    [_, dried] = ask("blend", lots=[{"kg": 20, "moisture_pct_wet": 5}], target_moisture_pct_wet=3)["records"]
    assert (dried["kind"], dried["words"]) == ("dried", {"water_kg": "0.4124 kg"})


def test_the_events_of_a_blend_give_the_same_heap(ask):
    """Written one after the other into an empty book, they give the sand of the answer. Figures have six digits, additions four."""
    inputs = {
        "lots": [USED, {"kg": 10, "moisture_pct_wet": 1}],
        "target_clay_pct_dry": 7,
        "target_moisture_pct_wet": 3.5,
    }
    answer = ask("blend", **inputs, clay_activity_pct=90)
    events = [{"kind": record["kind"], "at": "2026-05-02", **record["words"]} for record in answer["records"]]
    heap = ask("heap", book=events)["result"]
    assert heap["heap_kg"] == pytest.approx(answer["result"]["make_kg"], rel=1e-4)
    assert heap["clay_pct_dry"] == pytest.approx(7, rel=1e-3)
    assert heap["moisture_pct_wet"] == pytest.approx(3.5, rel=1e-3)
