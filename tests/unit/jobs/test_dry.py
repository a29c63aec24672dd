"""The job *dry*: masses by hand, and what it says where there is nothing to dry or the air cannot dry it."""

import pytest

from sandmix.jobs.dry.telling import TURN_IT, WEIGH_FIRST

HEAP = {"heap_kg": 40, "moisture_pct_wet": 6, "target_moisture_pct_wet": 3.5}
LOSE_KG = 40 * 2.5 / 96.5
AIR_ANSWERS = {"layer_mm", "spread_m2", "drying_min", "turns"}


def said(answer):
    return " ".join(answer["remarks"])


def texts(answer):
    return [row["text"] for row in answer["todo"]]


def jobs_after(answer):
    return [step["job"] for step in answer["next"]]


def test_the_masses(ask):
    """40 kg from 6 to 3.5 % lose 40 × 2.5/96.5 = 1.036 kg; with a container of 2.5 kg the scale shows 41.464. Dilution 40 (6/3.5 − 1)."""
    answer = ask("dry", **HEAP, container_kg=2.5)
    result = answer["result"]
    assert result["water_to_lose_kg"] == pytest.approx(LOSE_KG)
    assert result["dried_kg"] == pytest.approx(40 - LOSE_KG)
    assert result["full_container_kg"] == pytest.approx(42.5 - LOSE_KG)
    assert result["dry_mix_to_dilute_kg"] == pytest.approx(40 * (6 / 3.5 - 1))
    assert answer["lead"]["word"] == "full_container_kg"
    assert any(row["amount"] == "41.46 kg" for row in answer["todo"])
    assert answer["state"] == {"word": "dry", "tone": "care"}


def test_without_the_container_the_sand_alone_is_weighed(ask):
    answer = ask("dry", **HEAP)
    assert answer["lead"]["word"] == "dried_kg"
    assert "enter empty container" in said(answer)
    assert "It is dry enough when the sand alone weighs" in texts(answer)


def test_the_layer_follows_from_the_area_and_the_area_from_the_layer(ask):
    """40 kg at 1.15 kg/L are 34.8 L: 17.4 mm on 2 m², and 1.16 m² at the 30 mm that are assumed."""
    assert ask("dry", **HEAP, spread_m2=2)["result"]["layer_mm"] == pytest.approx(40 / 1.15 / 2)
    assert ask("dry", **HEAP)["result"]["spread_m2"] == pytest.approx(40 / 1150 / 0.03)
    assert "A layer of 30 mm is assumed" in said(ask("dry", **HEAP))


def test_the_area_and_the_layer_together_are_refused(ask):
    (problem,) = ask("dry", **HEAP, spread_m2=2, layer_mm=20)["problems"]
    assert problem["word"] == "layer_mm"
    assert "Leave one empty" in problem["message"]


def test_a_layer_without_a_mass_has_a_time_but_no_masses(ask):
    answer = ask("dry", moisture_pct_wet=5, layer_mm=20)
    assert answer["result"].keys() == {"layer_mm", "drying_min", "turns", "turn_every_min", "moisture_pct_wet"}
    assert answer["lead"]["word"] == "drying_min"
    assert "enter sand to dry" in said(answer)


def test_an_area_without_a_mass_has_neither(ask):
    answer = ask("dry", moisture_pct_wet=5, spread_m2=2)
    assert answer["result"].keys() == {"moisture_pct_wet"}
    assert "Left out: water to lose" in said(answer)


def test_half_the_depth_dries_in_about_a_quarter_of_the_time(ask):
    """A little more than a quarter, since the film of air counts as well; without turns: both so short that no turn saves an hour."""
    thick, thin = (ask("dry", **HEAP, layer_mm=depth)["result"] for depth in (10, 5))
    assert thick["turns"] == thin["turns"] == 0
    assert 0.25 < thin["drying_min"] / thick["drying_min"] < 0.45


def test_where_it_dries_faster(ask):
    minutes = {
        place: ask("dry", **HEAP, drying_place=place)["result"]["drying_min"]
        for place in ("indoors", "shade", "sun", "plate")
    }
    assert minutes["indoors"] > minutes["shade"] > minutes["sun"] > minutes["plate"]


def test_the_range_of_the_time_is_a_factor_of_two_at_least(ask):
    answer = ask("dry", **HEAP, air_temp_c="20 ± 0 °C", humidity_pct="60 ± 0 %", wind_m_s="1 ± 0 m/s")
    low, high = answer["doubt"]["drying_min"]
    expected = answer["result"]["drying_min"]
    assert low <= expected / 2
    assert high >= 2 * expected
    assert answer["uncertainty"]["drying_min"][0]["input"] == "drying_rate"


def test_a_sand_that_was_timed_has_a_narrower_range_and_its_own_time(ask):
    usual, timed = ask("dry", **HEAP), ask("dry", **HEAP, drying_rate=2)
    assert "only known to a factor of 2" in said(usual)
    assert "only known to a factor of 2" not in said(timed)
    width = {key: (a["doubt"]["drying_min"][1] / a["result"]["drying_min"]) for key, a in {1: usual, 2: timed}.items()}
    assert width[2] < width[1]
    assert timed["result"]["drying_min"] < usual["result"]["drying_min"]


def test_the_clocks(ask):
    answer = ask("dry", **HEAP, layer_mm=60)
    clocks = {timer["name"]: timer for timer in answer["timers"]}
    assert (clocks["turn"]["label"], clocks["weigh"]["label"]) == (TURN_IT, WEIGH_FIRST)
    expected_s = 60 * answer["result"]["drying_min"]
    assert clocks["turn"]["after_s"] == pytest.approx(expected_s / (answer["result"]["turns"] + 1))
    assert clocks["weigh"]["after_s"] == 60 * answer["doubt"]["drying_min"][0] <= expected_s / 2
    assert clocks["weigh"]["latest_s"] >= 2 * expected_s


def test_the_plan_ends_with_a_test(ask):
    for place in ("shade", "plate", "burner"):
        answer = ask("dry", **HEAP, drying_place=place)
        assert texts(answer)[-1].endswith("test it again before you mould")
        assert jobs_after(answer) == ["bench", "mix"]


def test_a_burner_dries_out_one_part(ask):
    """1.0363 kg are the water of 17.27 kg at 6 %; 2.694 MJ for it and 1.468 MJ for 16.24 kg of dry sand by 80 K at 1130 J/kgK."""
    answer = ask("dry", **HEAP, drying_place="burner")
    assert not AIR_ANSWERS & answer["result"].keys()
    assert answer["result"]["dry_out_kg"] == pytest.approx(LOSE_KG / 0.06)
    assert answer["result"]["burner_mj"] == pytest.approx(2.6 * LOSE_KG + 1.13e-3 * 80 * LOSE_KG / 0.06 * 0.94)
    assert answer["timers"] == []
    words = [caution.split(":")[0] for caution in answer["cautions"]]
    assert {"Burner", "Hot sand", "Dust"} <= set(words)
    assert "Drying" not in words


def test_a_burner_without_a_mass_still_says_how(ask):
    answer = ask("dry", moisture_pct_wet=6, drying_place="burner")
    assert "Dry out a part of it fully" in texts(answer)[0]
    assert "dry_out_kg" not in answer["result"]


@pytest.mark.parametrize("moisture", [3.0, 3.5, 3.8])
def test_with_nothing_to_dry_it_leads_to_the_water(ask, moisture):
    answer = ask("dry", heap_kg=40, moisture_pct_wet=moisture, target_moisture_pct_wet=3.5)
    assert answer["headline"].startswith("There is nothing to dry.")
    assert answer["result"].keys() == {"moisture_pct_wet"}
    assert answer["todo"] == answer["timers"] == answer["records"] == []
    assert answer["state"] == {"word": "not too wet", "tone": "go"}
    assert jobs_after(answer) == ["temper"]


def test_a_range_that_reaches_the_target_says_test_it(ask):
    assert "may already be dry enough" in said(ask("dry", heap_kg=40, moisture_pct_wet=4))
    assert "may already be dry enough" not in said(ask("dry", heap_kg=40, moisture_pct_wet="4.5 ± 0.1 %"))


def test_sand_above_the_stop_limit_begins_with_the_stop(ask):
    answer = ask("dry", heap_kg=40, moisture_pct_wet=8)
    assert answer["headline"].startswith("Stop: the sand is too wet to pour on. Dry it: ")
    assert answer["state"]["tone"] == "stop"
    assert any(caution.startswith("Steam") for caution in answer["cautions"])


def test_a_target_above_the_stop_limit_has_no_plan(ask):
    answer = ask("dry", heap_kg=40, moisture_pct_wet=8, target_moisture_pct_wet=7)
    assert answer["headline"].startswith("Stop: the target is too wet")
    assert answer["result"].keys() == {"moisture_pct_wet"}
    assert any("Enter a lower target" in text for text in texts(answer))
    assert jobs_after(answer) == ["temper"]


@pytest.mark.parametrize(
    ("air", "remark"),
    [
        ({"humidity_pct": 100}, "Air of 100 % humidity takes up no water"),
        ({"humidity_pct": 90, "below_temp_c": 5}, "colder than 16 °C"),
        ({"air_temp_c": -5}, "Frozen sand hardly dries"),
        ({"humidity_pct": 99.9, "layer_mm": 200}, "more than 90 days"),
    ],
)
def test_air_that_cannot_dry_it_says_why_and_what_to_do(ask, air, remark):
    answer = ask("dry", **HEAP | air)
    assert answer["ok"]
    assert not {"drying_min", "turns", "turn_every_min"} & answer["result"].keys()
    assert remark in said(answer)
    assert any(remark in way for way in answer["ways_out"])
    assert answer["todo"][0]["text"].startswith("In this air it would not dry")
    assert not any("Spread it" in row["text"] for row in answer["todo"])
    assert answer["result"]["water_to_lose_kg"] > 0


def test_a_plate_dries_in_frost(ask):
    assert "drying_min" in ask("dry", **HEAP, air_temp_c=-5, drying_place="plate")["result"]


def test_bone_dry_air_is_unusual_and_is_used(ask):
    answer = ask("dry", **HEAP, humidity_pct=0)
    assert "Humidity of the air: 0 % is outside the usual 20 to 95 %" in said(answer)
    assert answer["result"]["drying_min"] < ask("dry", **HEAP)["result"]["drying_min"]


def test_a_deep_layer_has_a_way_out(ask):
    answer = ask("dry", heap_kg=200, moisture_pct_wet=5, spread_m2=0.5)
    assert "half the depth takes about a quarter of the time" in said(answer)
    assert "This air hardly dries it" in said(answer) or "The range reaches 90 days" in said(answer)


def test_what_is_missing_to_be_ready_in_time_is_mixed_in(ask):
    """At once it is all the dry mix that dilutes it; with more time less, and with much time none."""
    need = [
        ask("dry", **HEAP, ready_in_h=hours, humidity_pct=50)["result"]["dry_mix_in_time_kg"]
        for hours in (0.1, 5, 20, 2000)
    ]
    assert need == sorted(need, reverse=True)
    assert need[0] == pytest.approx(40 * (6 / 3.5 - 1), rel=0.1)
    assert need[-1] == 0


def test_the_dry_mix_in_time_leads_to_the_job_that_mixes_it(ask):
    answer = ask("dry", **HEAP, ready_in_h=5)
    mix = next(step for step in answer["next"] if step["job"] == "mix")
    assert mix["inputs"]["make_kg"].startswith(f"{answer['result']['dry_mix_in_time_kg']:.4g}")
    assert any("To be ready in 5 h" in way for way in answer["ways_out"])


def test_time_enough_needs_no_dry_mix(ask):
    assert "without a dry mix, also at the slow end" in said(ask("dry", **HEAP, ready_in_h=5000))


def test_a_dry_mix_on_hand_makes_it_faster(ask):
    """With all of the 28.6 kg that dilute it, nothing is left to dry."""
    minutes = [
        ask("dry", **HEAP, dry_mix_on_hand_kg=kg)["result"]["mixed_min"] for kg in (0, 10, 40 * (6 / 3.5 - 1) + 0.1)
    ]
    assert minutes[0] == pytest.approx(ask("dry", **HEAP)["result"]["drying_min"])
    assert minutes[0] > minutes[1] > minutes[2] == 0


def test_a_dry_mix_that_is_enough_says_so(ask):
    """100 kg, of which 28.6 kg dilute it."""
    remarks = said(ask("dry", **HEAP, dry_mix_on_hand_kg=100))
    assert "Your 100 kg of dry mix is enough to dilute it: mixed in, no time to dry is needed." in remarks
    assert "0 min" not in remarks


def test_the_entry_of_the_book_is_the_water_dried_off_and_no_test(ask):
    """The moisture may be the book's own, which would then count itself twice."""
    (record,) = ask("dry", **HEAP)["records"]
    assert (record["kind"], record["words"]) == ("dried", {"water_kg": "1.036 kg"})


def test_natural_sand_dries_to_its_own_target(ask):
    """7 % unless another target is given; no limit is known for it."""
    answer = ask("dry", heap_kg=40, moisture_pct_wet=9, sand_kind="natural")
    assert answer["result"]["water_to_lose_kg"] == pytest.approx(40 * 2 / 93)
    assert answer["state"]["tone"] == "care"


def test_the_way_there_from_too_wet_sand(ask):
    step = ask("temper", heap_kg=40, moisture_pct_wet=5)["next"][0]
    assert step["job"] == "dry"
    answer = ask("dry", **step["inputs"])
    assert answer["result"]["water_to_lose_kg"] == pytest.approx(40 * 1.5 / 96.5)


WEIGHED = {"heap_kg": 45, "moisture_pct_wet": 5.6, "spread_m2": 3, "container_kg": 6.5}


def test_a_weighing_on_the_way_teaches_how_fast_it_dries(ask):
    """Where it lost in two hours what should take about 0.6 h more or less, the rate follows, and the range gets narrower."""
    first = ask("dry", **WEIGHED)
    slow, fast = (ask("dry", **WEIGHED, dried_for_h=2, lost_so_far_kg=lost) for lost in (0.3, 0.85))
    assert slow["result"]["drying_rate"] < 1 < fast["result"]["drying_rate"]
    assert slow["result"]["left_min"] == pytest.approx(slow["result"]["drying_min"] - 120)
    factors = [a["doubt"]["drying_min"][1] / a["doubt"]["drying_min"][0] for a in (first, slow)]
    assert factors[1] < factors[0] / 2
    assert "Dry it for about" in fast["headline"] and "850 g of" in fast["headline"]
    assert "is still the figure from before the weighing" in said(fast)
    assert texts(fast)[0] == "Weigh it again after another"
    assert fast["result"]["dry_mix_to_dilute_kg"] == pytest.approx((45 * 2.1 / 96.5 - 0.85) * 96.5 / 3.5)


def test_a_loss_and_its_time_belong_together(ask):
    for given, missing in (({"dried_for_h": 2}, "lost_so_far_kg"), ({"lost_so_far_kg": 0.2}, "dried_for_h")):
        (problem,) = ask("dry", **WEIGHED, **given)["problems"]
        assert problem["word"] == missing


def test_a_loss_without_a_mass_is_refused(ask):
    (problem,) = ask("dry", moisture_pct_wet=5, layer_mm=20, dried_for_h=2, lost_so_far_kg=0.2)["problems"]
    assert problem["word"] == "heap_kg"


def test_no_more_is_lost_than_there_was(ask):
    """45 kg at 5.6 % hold 2.52 kg."""
    (problem,) = ask("dry", **WEIGHED, dried_for_h=2, lost_so_far_kg=2.6)["problems"]
    assert problem["allowed"] == "at most 2.52 kg"


def test_enough_lost_says_stop_drying_and_test(ask):
    """45 × 2.1/96.5 = 0.979 kg had to go."""
    answer = ask("dry", **WEIGHED, dried_for_h=4, lost_so_far_kg=1.05)
    assert answer["headline"].startswith("Stop drying and test it: it has lost 1.05 kg, and 980 g had to go.")
    assert answer["state"]["word"] == "test it"
    assert answer["timers"] == []
    assert len(answer["todo"]) == 1
    assert not {"left_min", "drying_min", "turns"} & answer["result"].keys()
    assert answer["records"][0]["words"] == {"water_kg": "1.05 kg"}
    assert jobs_after(answer) == ["bench"]


def test_no_loss_on_the_scale_teaches_nothing(ask):
    answer = ask("dry", **WEIGHED, dried_for_h=1, lost_so_far_kg=0)
    assert "nothing is learned from it" in said(answer)
    assert "drying_rate" not in answer["result"]


def test_over_a_burner_nothing_is_learned(ask):
    answer = ask("dry", **WEIGHED | {"spread_m2": None}, drying_place="burner", dried_for_h=1, lost_so_far_kg=0.3)
    assert answer["ok"]
    assert "drying_rate" not in answer["result"]


def chart_of(answer):
    (chart,) = answer["charts"]
    return chart


def test_the_chart_falls_from_the_weight_now_to_the_weight_to_stop_at(ask):
    answer = ask("dry", **WEIGHED)
    chart, result = chart_of(answer), answer["result"]
    (expected,) = chart["series"]
    weights = [kg for _, kg in expected["points"]]
    assert weights[0] == 51.5
    assert weights[-1] == pytest.approx(result["full_container_kg"], abs=0.001)
    assert weights == sorted(weights, reverse=True)
    fast, slow = ([kg for _, kg in line["points"]] for line in chart["band"])
    assert all(low <= kg <= high for low, kg, high in zip(fast, weights, slow, strict=True))
    assert chart["limits"][0]["at"] == pytest.approx(result["full_container_kg"], abs=0.001)


def test_the_weighing_is_a_point_of_the_chart(ask):
    chart = chart_of(ask("dry", **WEIGHED, dried_for_h=2, lost_so_far_kg=0.4))
    point = chart["series"][-1]
    assert point["points"] == [[2.0, pytest.approx(51.1)]]
    assert point["ends"] == [[pytest.approx(51.03), pytest.approx(51.17)]]


def test_a_weighing_that_is_hardly_possible_says_so(ask):
    answer = ask("dry", **WEIGHED, dried_for_h=0.1, lost_so_far_kg=0.9)
    assert any("hardly possible. Check both weighings" in way for way in answer["ways_out"])


@pytest.mark.parametrize(
    "inputs",
    [
        {"moisture_pct_wet": 5},
        {"heap_kg": 40, "moisture_pct_wet": 3},
        HEAP | {"humidity_pct": 100},
        HEAP | {"drying_place": "burner"},
    ],
)
def test_without_a_mass_or_a_time_there_is_no_chart(ask, inputs):
    assert ask("dry", **inputs)["charts"] == []


def test_after_a_weighing_the_dry_mix_is_for_the_rest(ask):
    """Ready in no time: all that the loss so far has left. With a dry mix on hand the time counts from now."""
    so_far = WEIGHED | {"dried_for_h": 2, "lost_so_far_kg": 0.4}
    rest = (45 * 2.1 / 96.5 - 0.4) * 96.5 / 3.5
    assert ask("dry", **so_far, ready_in_h=0.1)["result"]["dry_mix_in_time_kg"] == pytest.approx(rest, rel=0.15)
    result = ask("dry", **so_far, dry_mix_on_hand_kg=0)["result"]
    assert result["mixed_min"] == pytest.approx(result["left_min"])


def test_a_range_of_the_time_that_begins_at_zero_still_has_a_chart(ask):
    """The moisture may already be that of the target, so the fast end takes no time."""
    answer = ask("dry", heap_kg=45, moisture_pct_wet=3.42, metal="silicon_brass", layer_mm=70)
    assert answer["ok"] and answer["doubt"]["drying_min"][0] < answer["result"]["drying_min"] / 20
    assert len(chart_of(answer)["band"]) == 2
    assert "may already be dry enough" in said(answer)


def test_temperatures_below_zero_have_a_true_minus(ask):
    answer = ask("dry", **HEAP, air_temp_c=-5, humidity_pct=20, drying_place="plate")
    (air,) = [line for line in answer["working"] if line.startswith("air")]
    assert air.startswith("air −5 °C")
    assert "-" not in air


def test_a_range_that_cannot_say_whether_the_sand_must_dry_calls_for_a_test(ask):
    """Rain of unknown amount: 1.3 to 6.9 % against a target of 3.5 %. Nothing is recorded as dried off, and no clock runs."""
    answer = ask("dry", heap_kg=40, moisture_pct_wet="4.1 ± 2.8 %", target_moisture_pct_wet=3.5)
    assert answer["state"] == {"word": "test it", "tone": "care"}
    assert answer["headline"].startswith("Test it first")
    assert texts(answer)[0].startswith("Dry a sample first")
    assert (answer["records"], answer["timers"]) == ([], [])
    assert (answer["lead"]["word"], jobs_after(answer)[0]) == ("moisture_pct_wet", "bench")
    known = ask("dry", heap_kg=40, moisture_pct_wet="4.1 ± 0.3 %", target_moisture_pct_wet=3.5)
    assert known["state"]["word"] == "dry"
    assert known["records"]
