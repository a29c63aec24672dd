"""What an answer says to do: the rows in the order of the work, with amounts worked out by hand."""

import math
import re

import pytest

MIX = {"make_kg": 35, "clay_pct_dry": 7, "moisture_pct_wet": 3.5}
FLASK = {"flask_length_mm": 380, "flask_width_mm": 260, "drag_depth_mm": 95, "cope_depth_mm": 90}
WATER = 35 * 0.035 - 35 * 0.965 * 0.07 / 0.9 * 0.1
"""Target water of 35 kg at 3.5 % less what 10 % damp clay brings, kg."""


def texts(answer):
    return [row["text"] for row in answer["todo"]]


def amounts(answer):
    """The amounts as numbers, those in g as kg; None for a row without one."""
    return [number(row["amount"]) for row in answer["todo"]]


def number(amount):
    found = re.fullmatch(r"([\d.]+)(?: (kg|g|min|h|days|°C|%))?", amount)
    return float(found[1]) * (0.001 if found[2] == "g" else 1) if found else None


def close(*values):
    return [None if value is None else pytest.approx(value, rel=0.03) for value in values]


def test_a_mix_is_sand_clay_and_the_first_water(ask):
    """Dry 35 × 0.965; sand 93 % of it, clay 7 % of it as bought at 10 % damp; 70 % of the water first."""
    answer = ask("mix", **MIX)
    assert amounts(answer) == close(35 * 0.965 * 0.93, 35 * 0.965 * 0.07 / 0.9, 0.7 * WATER, None)
    assert [row.split()[0] for row in texts(answer)] == ["Sand,", "Clay,", "First", "Mull"]
    most = next(row["text"] for row in answer["shown"] if row["word"] == "water_most_kg")
    assert texts(answer)[-1].endswith(f"{most} at most in all")


def test_a_mix_in_batches_says_what_goes_into_each(ask):
    """35 kg in a mixer of 12 kg are 3 batches."""
    answer = ask("mix", **MIX, mixer_kg=12)
    row = next(row for row in answer["todo"] if row["text"].startswith("Batches"))
    assert row["amount"] == "3"
    assert number(re.search(r"([\d.]+ kg) of sand", row["text"])[1]) == pytest.approx(35 * 0.965 * 0.93 / 3, rel=0.01)
    assert number(re.search(r"([\d.]+ g) of clay", row["text"])[1]) == pytest.approx(
        35 * 0.965 * 0.07 / 0.9 / 3, rel=0.01
    )


def test_batches_without_clay_name_none(ask):
    answer = ask("mix", make_kg=35, clay_pct_dry=0, moisture_pct_wet=3.5, mixer_kg=12)
    assert not any("clay" in text.lower() for text in texts(answer))


def test_granules_of_unknown_live_share_go_in_by_steps(ask):
    """From 85 % live to 50 %: clay as bought 2.364 / 0.85 / 0.9 to 2.364 / 0.5 / 0.9, in four steps."""
    answer = ask("mix", **MIX, clay="clay_granules")
    start, most = (35 * 0.965 * 0.07 / live / 0.9 for live in (0.85, 0.5))
    assert amounts(answer)[-1] == pytest.approx((most - start) / 4, rel=0.01)
    assert number(re.search(r"up to ([\d.]+ kg)", texts(answer)[-1])[1]) == pytest.approx(most, rel=0.01)


def test_damp_materials_are_dried_first_and_nothing_is_weighed_in(ask):
    """5 % damp sand brings 31.41 / 0.95 × 0.05 = 1.653 kg, clay 0.263; needed 1.225: 0.691 too much. The sand then weighs 33.06 − 0.691."""
    answer = ask("mix", **MIX, sand_moisture_pct_wet=5)
    lose = 35 * 0.965 * 0.93 / 0.95 * 0.05 - WATER
    assert amounts(answer) == close(lose, 35 * 0.965 * 0.93 / 0.95 - lose, None)
    assert "Dry the sand" in texts(answer)[0]


@pytest.mark.parametrize(
    ("job", "inputs"),
    [
        ("mix", {**MIX, "moisture_pct_wet": 7}),
        ("temper", {"heap_kg": 25, "moisture_pct_wet": 2, "target_moisture_pct_wet": 6.5}),
        (
            "rebond",
            {
                "heap_kg": 40,
                "moisture_pct_wet": 2,
                "clay_pct_dry": 6,
                "target_clay_pct_dry": 7,
                "target_moisture_pct_wet": 6.5,
            },
        ),
    ],
)
def test_a_target_too_wet_to_pour_on_gets_another_target_and_no_amount(ask, job, inputs):
    answer = ask(job, **inputs)
    assert answer["state"]["word"] == "stop"
    assert amounts(answer) == [None]
    assert texts(answer)[0].startswith("Enter a lower target")


def test_a_heap_that_is_too_dry_gets_its_first_water_and_the_most(ask):
    """25 × 1.5 / 96.5 = 0.3886 kg, of which 70 % first."""
    answer = ask("temper", heap_kg=25, moisture_pct_wet=2)
    assert amounts(answer) == close(0.7 * 25 * 1.5 / 96.5, None)


def test_a_heap_without_its_weight_is_weighed(ask):
    assert texts(ask("temper", moisture_pct_wet=2)) == [
        "Weigh the heap and enter its weight: it decides how much water to add"
    ]


@pytest.mark.parametrize(("moisture", "word"), [(4.2, "dry"), (7.0, "stop")])
def test_a_heap_that_is_too_wet_is_dried_and_tested_again(ask, moisture, word):
    """Water to lose: 25 × (moisture − 3.5) / 96.5; what stays weighs the rest of 25."""
    answer = ask("temper", heap_kg=25, moisture_pct_wet=moisture)
    lose = 25 * (moisture - 3.5) / 96.5
    assert answer["state"]["word"] == word
    assert amounts(answer) == close(lose, 25 - lose, None)
    assert "Test" in texts(answer)[2]
    assert texts(answer)[0].startswith("Do not pour") is (word == "stop")


def test_a_heap_at_its_target_needs_nothing(ask):
    assert ask("temper", heap_kg=25, moisture_pct_wet={"value": 3.5, "unit": "%", "doubt": 0.1})["todo"] == []


def test_a_heap_at_its_target_that_may_be_too_wet_is_tested_again(ask):
    answer = ask(
        "temper", heap_kg=25, moisture_pct_wet={"value": 5.8, "unit": "%", "doubt": 0.5}, target_moisture_pct_wet=5.8
    )
    assert texts(answer) == ["Test it again before you pour: it may be too wet"]


def test_sand_without_known_limits_goes_by_its_own_tests(ask):
    answer = ask("temper", heap_kg=25, moisture_pct_wet=6, target_moisture_pct_wet=6, sand_kind="natural")
    assert texts(answer) == ["Go by the tests of this kind of sand before you pour"]


def test_a_flask_says_what_to_have_ready_what_is_missing_and_what_to_lift(ask):
    """38 × 26 × 18.5 cm = 18.278 L at 1.55 kg/L, a quarter more ready; cope 38 × 26 × 9 cm; a heap of 30 kg is 5.41 short."""
    rammed = 18.278 * 1.55
    answer = ask("flask", **FLASK, heap_kg=30)
    assert amounts(answer) == [
        pytest.approx(hand, abs=0.5) for hand in (1.25 * rammed, 1.25 * rammed - 30, 8.892 * 1.55, rammed)
    ]
    assert amounts(ask("flask", **FLASK, heap_kg=90)) == close(1.25 * rammed, 8.892 * 1.55, rammed)
    assert texts(ask("flask", **FLASK | {"cope_depth_mm": 0}))[-1].startswith("Carry the flask")


ON_SHELF = [{"name": "short", "flask_length_mm": 260, "flask_width_mm": 200, "drag_depth_mm": 80, "cope_depth_mm": 75}]
BAR = {"pattern_length_mm": 60, "pattern_width_mm": 40, "pattern_height_mm": 30}


def test_the_flask_to_take_comes_with_its_inside_and_its_sand(ask):
    answer = ask("fit", **BAR, flasks=ON_SHELF, heap_kg=45)
    assert answer["todo"][0] == {"text": "Take “short”, inside", "amount": "260 × 200 mm"}
    assert amounts(answer)[-1] == pytest.approx(answer["result"]["make_kg"], rel=0.02)


def test_a_short_heap_is_made_up(ask):
    answer = ask("fit", **BAR, flasks=ON_SHELF, heap_kg=5)
    assert answer["todo"][-1]["text"].startswith("Mix the missing sand")
    assert amounts(answer)[-1] == pytest.approx(answer["result"]["make_kg"] - 5, rel=0.02)


def test_a_flask_that_is_too_small_is_replaced_and_not_filled(ask):
    large = {"name": "long", "flask_length_mm": 460, "flask_width_mm": 150, "drag_depth_mm": 85, "cope_depth_mm": 80}
    bar = BAR | {"pattern_length_mm": 320, "flask_name": "short"}
    assert ask("fit", **bar, flasks=[*ON_SHELF, large])["todo"] == [
        {"text": "Take “long” instead", "amount": "460 × 150 mm"}
    ]
    assert texts(ask("fit", **bar, flasks=ON_SHELF)) == ["Make a larger flask, inside"]


def test_before_a_pour_come_vents_charge_weights_and_the_list(ask):
    """Charge 380 cm³ and half again of gating, solid at 2.70 g/cm³ within 3 %."""
    answer = ask("pour", casting_volume_cm3=380, projected_area_cm2=300, head_mm=130, cope_kg=11, moisture_pct_wet=3.3)
    first = [text.split()[0] for text in texts(answer)]
    assert first == ["Prick", "Melt,", "Just", "Tick"]
    assert amounts(answer)[2] == pytest.approx(answer["result"]["put_on_kg"], rel=0.05)


def test_a_charge_that_overflows_says_so_before_it_is_melted(ask):
    answer = ask("pour", casting_volume_cm3=3800, crucible_l=1.2)
    at = next(at for at, text in enumerate(texts(answer)) if "larger crucible" in text)
    assert texts(answer)[at + 1].startswith("Melt")


def test_nobody_melts_for_sand_that_is_too_wet(ask):
    answer = ask("pour", casting_volume_cm3=380, moisture_pct_wet=7)
    assert texts(answer) == ["Do not pour on this sand. Dry it", "Test its moisture again before you mould"]


def test_a_heavy_cope_is_clamped_all_the_same(ask):
    answer = ask("pour", casting_volume_cm3=100, projected_area_cm2=50, head_mm=50, cope_kg=60)
    assert any(text.startswith("Clamp the cope") for text in texts(answer))


def test_after_the_pour_the_waits_follow_in_the_order_of_time(ask):
    result = (answer := ask("burnout", metal="grey_iron", casting_volume_cm3=250, casting_area_cm2=330))["result"]
    assert texts(answer)[:2] == ["Leave the mould alone until the casting is solid", "Open the mould after"]
    assert amounts(answer)[1] == pytest.approx(result["open_after_min"], rel=0.1)
    assert result["solid_after_min"] <= result["open_after_min"] <= result["handle_after_min"]


def test_restoring_takes_out_then_adds_sand_half_the_clay_and_water(ask):
    answer = ask(
        "rebond",
        heap_kg=43,
        moisture_pct_wet=2.3,
        clay_pct_dry=6.1,
        target_clay_pct_dry=7.5,
        dead_fines_pct_dry=9,
        target_kg=43,
    )
    result = answer["result"]
    assert [text.split()[0] for text in texts(answer)] == ["Take", "Sand,", "First", "First", "Mull"]
    words = ("discard_kg", "sand_kg", "first_clay_kg", "first_water_kg")
    assert amounts(answer) == [*(pytest.approx(result[word], rel=0.04) for word in words), None]
    assert result["first_clay_kg"] == pytest.approx(result["clay_kg"] / 2)


def test_materials_on_hand_are_named_and_half_of_a_clay_goes_in_first(ask):
    """100 kg with 4 % dead at a limit of 2: half goes, 47 kg of sand and 3 kg of clay come in, and 100/24 kg of water."""
    shares = {"clay_pct_dry": 6, "target_clay_pct_dry": 6, "dead_fines_pct_dry": 4, "dead_fines_limit_pct_dry": 2}
    masses = {"heap_kg": 100, "moisture_pct_wet": 0, "target_moisture_pct_wet": 4, "target_kg": 100 / 0.96}
    plain = {"kind": "sand", "name": "plain", "price_per_kg": 0.2}
    sound = {"kind": "clay", "name": "sound", "bag_kg": 10, "bag_price": 20, "moisture_pct_wet": 0}
    answer = ask("rebond", **shares, **masses, materials=[plain, sound])
    assert amounts(answer) == [*(pytest.approx(hand, rel=0.1) for hand in (50, 47, 3, 0.7 * 100 / 24)), None]
    assert texts(answer)[1:3] == ["plain, as bought", "sound, as bought: half of it first, then mull and test"]


def test_a_heap_too_wet_to_pour_on_is_dried_before_it_is_restored(ask):
    answer = ask("rebond", heap_kg=43, moisture_pct_wet=7, clay_pct_dry=6.1, target_clay_pct_dry=7.5, target_kg=45)
    assert texts(answer)[0].startswith("Do not pour on this sand")
    assert not any("First" in text for text in texts(answer))


def test_bags_are_whole(ask):
    bags = {"sand_kg": 40.3, "clay_kg": 3.62, "sand_bag_kg": 25, "clay_bag_kg": 10}
    answer = ask("shopping", **bags)
    assert [row["amount"] for row in answer["todo"]] == [str(math.ceil(40.3 / 25)), str(math.ceil(3.62 / 10))]


LOTS = [{"kg": 30, "moisture_pct_wet": 2.5, "clay_pct_dry": 6}, {"kg": 10}]


def test_lots_are_taken_whole_unless_less_is_made(ask):
    whole = ask("blend", lots=LOTS, target_clay_pct_dry=7, target_moisture_pct_wet=3.5)
    assert [row["amount"] for row in whole["todo"][:2]] == ["30.00 kg", "10.00 kg"]
    assert [text.split()[0] for text in texts(whole)[2:]] == ["Clay,", "First", "Mull"]
    half = ask("blend", lots=LOTS, make_kg=20)
    assert [row["amount"] for row in half["todo"]] == ["15.00 kg", "5.00 kg"]


def test_too_few_lots_and_too_rich_lots(ask):
    assert "not enough" in texts(ask("blend", lots=LOTS, make_kg=80))[0]
    rich = ask("blend", lots=[{"kg": 30, "clay_pct_dry": 10}], target_clay_pct_dry=7)
    assert rich["todo"][-1]["text"].startswith("Dry plain sand")
    assert amounts(rich)[-1] == pytest.approx(rich["result"]["plain_sand_kg"], rel=0.05)


def test_wet_lots_are_dried_and_too_wet_ones_stop(ask):
    wet = ask("blend", lots=[{"kg": 30, "moisture_pct_wet": 5}], target_moisture_pct_wet=3.5)
    """30 × (5 − 3.5) / 96.5 kg."""
    assert amounts(wet) == close(30, 30 * 1.5 / 96.5)
    assert texts(ask("blend", lots=[{"kg": 30, "moisture_pct_wet": 7}]))[0].startswith("Do not pour")


def test_nearest_blend_is_weighed_in_lot_by_lot(ask):
    lots = [{"kg": 40, "retained": "40: 12; 50: 48; 70: 40"}, {"kg": 25, "retained": "100: 50; 140: 50"}]
    answer = ask("match", lots=lots, target_gfn=65, make_kg=30)
    assert sum(amount for amount in amounts(answer) if amount) == pytest.approx(30, abs=0.02)
    assert answer["todo"][-1]["amount"] == ""


@pytest.mark.parametrize(
    ("given", "begins"),
    [
        ({"bag_label": "builders_sand"}, "Vinegar: "),
        ({"bag_label": "sand_mix"}, "Do not use it"),
        ({"bag_label": "washed_silica", "ground_kg": 3, "passed_kg": 2.6, "wanted_kg": 3.6}, "Buy"),
    ],
)
def test_a_bag_is_tested_left_or_bought(ask, given, begins):
    """3.6 / (2.6 / 3) = 4.154 kg."""
    answer = ask("choose", **given)
    assert texts(answer)[0].startswith(begins)
    if begins == "Buy":
        assert amounts(answer) == close(3.6 * 3 / 2.6)


def test_tests_that_disagree_are_repeated(ask):
    answer = ask("estimate", clay_blue_pct_dry=7.6, clay_book_pct_dry={"value": 12, "unit": "%", "doubt": 0.2})
    assert texts(answer)[0] == "Repeat the test that you trust least"


def test_a_test_that_says_stop_says_what_to_do_instead(ask):
    answer = ask("bench", test="moisture", sample_wet_g=400, sample_dry_g=370)
    assert answer["state"]["tone"] == "stop"
    assert texts(answer) == ["Do not pour on this sand. Dry it, and test it again"]


def test_a_figure_out_of_the_ordinary_is_repeated(ask):
    answer = ask(
        "bench", test="compactability", height_before_mm=120, height_after_mm=80, history="45, 45.5, 44.5, 45, 45.2"
    )
    assert answer["result"]["ordinary"] == "no", "33 % after five readings of about 45"
    assert texts(answer) == ["Repeat the test, then look for what changed"]


def test_a_diagnosis_begins_with_its_next_test_and_its_time(ask):
    answer = ask("diagnose", symptoms="dusty, pin_holes", moisture_pct_wet=2.2)
    assert answer["todo"][0]["text"] == answer["first"]["text"].rstrip(".")
    assert answer["todo"][0]["amount"].endswith(" min")
    wet = ask("diagnose", symptoms="steam", moisture_pct_wet=7)
    assert texts(wet)[0] == "Do not pour on this sand. Dry it, and test it again"


def test_an_empty_book_is_begun(ask):
    book = {"format": "sandmix book", "version": 2, "name": "The hall", "events": []}
    answer = ask("heap", book=book, now="2027-03-24T10:00:00+00:00")
    assert texts(answer) == ["Start with the sand as it is now, or mix new sand"]


@pytest.mark.parametrize(
    ("job", "given"),
    [
        ("pattern", {"box_mm": "140 x 55 x 12 mm"}),
        ("fineness", {"retained": "50: 21; 70: 42; 100: 10"}),
        ("forecast", {"clay_pct_dry": 7.5, "clay_burnt_share": 0.015, "new_sand_share": 0.025, "casts": 10}),
    ],
)
def test_a_figure_that_leads_to_no_work_has_an_empty_list(ask, job, given):
    answer = ask(job, **given)
    assert answer["ok"], answer
    assert answer["todo"] == []


@pytest.mark.parametrize(
    ("job", "given", "begins"),
    [
        ("flask", {**FLASK, "heap_kg": 30}, "Third option"),
        ("temper", {"heap_kg": 25, "moisture_pct_wet": 4.2}, "Instead of drying it"),
        ("pour", {"casting_volume_cm3": 3800, "crucible_l": 1.2}, "The charge would fill"),
        ("mix", {**MIX, "sand_moisture_pct_wet": 5}, "The materials bring more water"),
        ("blend", {"lots": LOTS, "make_kg": 80}, "The lots are not enough"),
        ("estimate", {"clay_blue_pct_dry": 7.6, "clay_book_pct_dry": "12 ± 0.2 %"}, "The tests differ"),
    ],
)
def test_a_problem_has_its_ways_out_among_the_remarks(ask, job, given, begins):
    answer = ask(job, **given)
    assert any(way.startswith(begins) for way in answer["ways_out"])
    assert set(answer["ways_out"]) <= set(answer["remarks"])


def test_an_answer_without_a_problem_has_no_way_out(ask):
    assert ask("flask", **FLASK, heap_kg=90)["ways_out"] == []
    assert ask("mix", **MIX, mixer_kg=12)["ways_out"] == []
    assert ask("choose", bag_label="pond or liner bentonite", swell_ml=27, swollen="gel")["ways_out"] == []


def test_an_unusual_input_is_among_what_a_person_must_see(ask):
    """2 % clay is far below the usual 6 to 10 %."""
    answer = ask("mix", **MIX | {"make_kg": 2000})
    assert answer["ways_out"][:1] == answer["remarks"][:1] != []
