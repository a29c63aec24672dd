"""The job *choose*: its verdicts, and what it answers in addition to them."""

import pytest

from sandmix.jobs import JOBS


def remarks_of(answer):
    return " ".join(answer["remarks"])


def cautions(answer):
    return [caution.partition(":")[0] for caution in answer["cautions"]]


def steps_of(answer):
    return [(link["job"], link["inputs"]) for link in answer["next"]]


def test_the_label_alone_does_not_decide_granules(ask):
    answer = ask("choose", bag_label="granules")
    assert "usability" not in answer["result"]
    assert answer["result"]["test_first"].startswith("Swell: grind some to powder")
    assert answer["state"] == {"word": "test first", "tone": "care"}
    assert answer["lead"] == {
        "word": "test_first",
        "label": "Test first",
        "text": "Swell",
        "then": "clay litter granules without scent",
        "sentence": answer["headline"],
    }
    assert steps_of(answer) == [("bench", {"test": "swell"}), ("shopping", {})]


def test_granules_that_swell_are_usable_with_care(ask):
    answer = ask("choose", bag_label="granules", swell_ml=28)
    assert answer["result"]["usability"] == "usable_with_care"
    assert "test_first" not in answer["result"]
    assert steps_of(answer) == [("mix", {"clay": "clay_granules"}), ("shopping", {})]
    assert cautions(answer) == ["Grinding"]


@pytest.mark.parametrize("label", ["sand_mix", "sand mix, mortar mix or concrete mix"])
def test_sand_mix_is_not_usable_whatever_the_tests_show(ask, label):
    answer = ask("choose", bag_label=label, vinegar="no", jar="clear", grain_shape="round", pebbles_pct=0)
    assert answer["result"]["usability"] == "not_usable"
    assert answer["state"] == {"word": "not usable", "tone": "stop"}
    assert cautions(answer) == ["Cement", "Dust"]
    assert "contains cement" in answer["headline"]
    assert steps_of(answer) == [("shopping", {})]
    assert answer["next"][0]["label"] == "Buy another sand"


def test_every_reason_has_its_origin(ask):
    answer = ask("choose", bag_label="sodium_bentonite", swell_ml=30, clay_vinegar="no")
    rows = answer["result"]["reasons"]
    assert [row["usability"] for row in rows] == ["usable"] * 3
    assert "Vingas" in rows[0]["origin"] and rows[0]["origin"].endswith("(read in the source)")
    assert "common practice" in rows[1]["origin"]
    assert "24 mL or more" in remarks_of(answer) and "(from memory)" in remarks_of(answer)


def test_yield_and_what_follows_from_it(ask):
    """1.3 of 2 kg is 65 %; of 10 kg 6.5; for 3.9 kg 6 must be bought; 1.3 × 0.9 dry × 0.85 live = 0.9945."""
    answer = ask("choose", bag_label="granules", swell_ml=28, ground_kg=2, passed_kg=1.3, bought_kg=10, wanted_kg=3.9)
    result = answer["result"]
    assert result["yield_pct"] == pytest.approx(65)
    assert result["usable_kg"] == pytest.approx(6.5)
    assert result["buy_kg"] == pytest.approx(6)
    assert result["live_clay_kg"] == pytest.approx(0.9945)
    low, high = answer["doubt"]["live_clay_kg"]
    assert low < 1.3 * 0.9 * 0.50 and high > 0.9945
    assert "grind what stays on the sieve again" in remarks_of(answer)
    assert {link["job"]: link["inputs"] for link in answer["next"]}["shopping"] == {
        "clay_kg": "6 kg",
        "clay_bag_kg": "10 kg",
    }


def test_the_live_share_of_bagged_bentonite_is_nearly_all(ask):
    result = ask("choose", bag_label="sodium_bentonite", ground_kg=1, passed_kg=1)["result"]
    assert result["live_clay_kg"] == pytest.approx(0.9)


def test_a_measured_share_is_used(ask):
    result = ask("choose", bag_label="granules", swell_ml=28, ground_kg=1, passed_kg=1, clay_activity_pct=60)["result"]
    assert result["live_clay_kg"] == pytest.approx(0.9 * 0.6)


def test_live_clay_is_only_given_once_the_verdict_is_clear(ask):
    result = ask("choose", bag_label="granules", ground_kg=2, passed_kg=1.3)["result"]
    assert "live_clay_kg" not in result
    assert result["yield_pct"] == pytest.approx(65)


def test_sieved_sand_goes_on_to_shopping_with_its_yield(ask):
    answer = ask("choose", bag_label="washed_silica", ground_kg=20, passed_kg=14, wanted_kg=35)
    assert answer["result"]["buy_kg"] == pytest.approx(50)
    assert answer["next"][0]["inputs"] == {"sand_kg": "35 kg", "sand_yield_pct": "70 %"}
    assert "Dry the sand" in remarks_of(answer)
    assert "live_clay_kg" not in answer["result"]


def test_if_nothing_passed_there_is_no_amount_to_buy(ask):
    answer = ask("choose", bag_label="granules", swell_ml=28, ground_kg=2, passed_kg=0, wanted_kg=3)
    assert answer["result"]["yield_pct"] == 0
    assert "buy_kg" not in answer["result"]
    assert "Nothing passed the sieve" in remarks_of(answer)


def test_a_yield_below_one_percent_is_not_passed_on_to_shopping(ask):
    answer = ask("choose", bag_label="washed_silica", ground_kg=200, passed_kg=1, wanted_kg=3)
    assert steps_of(answer) == [("shopping", {"sand_kg": "3 kg"})]
    assert answer["next"][0]["label"] == "Buy another sand"


def test_a_sand_whose_jar_decides_goes_to_the_jar_test(ask):
    """Builder's sand must pass the vinegar and then the jar."""
    assert steps_of(ask("choose", bag_label="builders_sand"))[0][0] == "shopping"
    assert steps_of(ask("choose", bag_label="builders_sand", vinegar="no"))[0] == ("bench", {"test": "jar"})


def test_several_bags_bought_at_once_are_not_taken_for_one(ask):
    """Bags hold 1 to 50 kg, as printed on them: 250 kg are more than one."""
    assert steps_of(ask("choose", bag_label="washed_silica", bought_kg=25)) == [("shopping", {"sand_bag_kg": "25 kg"})]
    assert steps_of(ask("choose", bag_label="washed_silica", bought_kg=250)) == [("shopping", {})]


def test_a_missing_weighing_is_named(ask):
    answer = ask("choose", bag_label="granules", swell_ml=28, ground_kg=2, bought_kg=10, wanted_kg=3)
    assert "Left out: yield of grinding and sieving, usable part of what you bought and mass to buy" in remarks_of(
        answer
    )
    assert "enter mass that passed the sieve" in remarks_of(answer)


def test_a_sand_without_a_label_ignores_the_tests_of_clay(ask):
    answer = ask("choose", stuff="sand", vinegar="no", jar="cloudy", swell_ml=3, perfume="no")
    assert answer["result"]["usability"] == "usable_with_care"
    assert "Scent and the swell test mean nothing for sand" in remarks_of(answer)
    assert cautions(answer) == ["Cement", "Dust", "Drying"]
    assert "a sand without a label" in answer["headline"]


def test_a_clay_without_a_label_ignores_the_tests_of_sand(ask):
    answer = ask("choose", stuff="clay", jar="clear", swell_ml=23.5)
    assert answer["result"]["usability"] == "usable_with_care"
    assert "The jar test means nothing for clay" in remarks_of(answer)
    assert "close to the limit between two verdicts" in remarks_of(answer)


def test_bentonite_that_swells_little_goes_into_the_mix_as_calcium_bentonite(ask):
    answer = ask("choose", bag_label="pond_bentonite", swell_ml=8)
    assert answer["next"][0]["inputs"] == {"clay": "calcium_bentonite"}


def test_what_was_found_of_a_sand_does_not_speak_for_a_clay(ask):
    """The label changes from a sand to a clay, and what was typed stays: the vinegar test was of the sand."""
    typed = {"vinegar": "yes", "jar": "cloudy", "smoke": "yes", "swell_ml": 27}
    assert ask("choose", bag_label="play_sand", **typed)["result"]["usability"] == "not_usable"
    clay = ask("choose", bag_label="pond_bentonite", **typed)
    assert clay["result"]["usability"] == "usable"
    assert "bubbles" not in clay["headline"]
    assert "The vinegar test of a sand, smoke of a heated sand and the jar test mean nothing for clay" in remarks_of(
        clay
    )
    own = ask("choose", bag_label="pond_bentonite", clay_vinegar="yes", swell_ml=27)
    assert own["result"]["usability"] == "usable_with_care"
    assert "The vinegar test of a clay means nothing for sand" in remarks_of(
        ask("choose", bag_label="washed_silica", clay_vinegar="yes")
    )


def test_fire_clay_is_usable_with_care_and_without_our_figures(ask):
    answer = ask("choose", bag_label="fire_clay", ground_kg=2, passed_kg=2)
    assert answer["state"] == {"word": "usable with care", "tone": "care"}
    assert "No figure for clay, water or burning here holds for it" in remarks_of(answer)
    assert "live_clay_kg" not in answer["result"]
    assert steps_of(answer) == [("shopping", {})]
    assert cautions(answer) == ["Grinding"]


def test_natural_moulding_sand_needs_care_and_has_no_limit_that_is_not_known(ask):
    """It works at 6 to 8 % of water, where the stop limits of washed sand with bentonite, 6 and 5.25 %, would forbid it."""
    answer = ask("choose", bag_label="natural_sand")
    assert answer["state"] == {"word": "usable with care", "tone": "care"}
    assert "12 to 18 %" in answer["headline"] and "6 to 8 % water" in answer["headline"]
    assert "For natural sand no limit is known here" in remarks_of(answer)
    assert steps_of(answer) == [("temper", {"sand_kind": "natural"}), ("shopping", {})]
    assert ask("choose", bag_label="natural_sand", vinegar="yes")["state"]["word"] == "not usable"


def test_used_foundry_sand_is_heated_first_and_smoke_rules_it_out(ask):
    assert ask("choose", bag_label="used_sand")["result"]["test_first"].startswith("Smoke: heat a spoonful")
    smoking = ask("choose", bag_label="used_sand", smoke="yes")
    assert smoking["state"] == {"word": "not usable", "tone": "stop"}
    assert "no limit" not in remarks_of(smoking)
    clean = ask("choose", bag_label="used_sand", smoke="no", jar="clear")
    assert clean["state"]["word"] == "usable with care"
    assert "Its binder is unknown" in remarks_of(clean)


def test_shell_makes_a_sand_unusable(ask):
    answer = ask("choose", bag_label="beach_sand", vinegar=True)
    assert answer["result"]["usability"] == "not_usable"
    assert answer["headline"].startswith("Not usable: beach sand. It bubbles in vinegar")


def test_an_amount_above_the_bound_of_shopping_is_not_passed_on(ask):
    """A five-hundredth of it passes: for 20 kg, 10 000 kg must be bought."""
    answer = ask("choose", bag_label="granules", swell_ml=28, ground_kg=50, passed_kg=0.1, wanted_kg=20)
    assert answer["result"]["buy_kg"] == pytest.approx(10_000)
    assert [link["job"] for link in answer["next"]] == ["mix"]


def test_each_test_is_shown_only_for_the_labels_it_is_for():
    (only,) = JOBS["choose"].only_for
    assert "sand_mix" in only.words["jar"] and "granules" not in only.words["jar"]
    assert "granules" in only.words["swell_ml"] and "sand_mix" not in only.words["swell_ml"]
    assert all("unknown" in labels for labels in only.words.values())


def test_a_passed_mass_within_the_error_of_the_scale_is_remarked(ask):
    """40 g on a luggage scale, ± 50 g."""
    assert "finer scale" in remarks_of(ask("choose", bag_label="washed_silica", ground_kg=2, passed_kg=0.04))
    assert "finer scale" not in remarks_of(
        ask("choose", bag_label="washed_silica", ground_kg=2, passed_kg="40 g ± 1 g")
    )


def test_there_is_no_advice_on_improving_what_is_not_usable(ask):
    """Shell rules the sand out: no advice to wash or dry it. A clay that does not swell is not worth a small mould."""
    beach = ask("choose", bag_label="beach_sand", vinegar="yes")
    assert beach["result"]["usability"] == "not_usable"
    assert "Wash it" not in remarks_of(beach)
    assert cautions(beach) == ["Dust"]
    assert len(beach["result"]["reasons"]) == 2
    clay = ask("choose", bag_label="unknown", stuff="clay", swell_ml=3)
    assert "try it in a small mould" not in remarks_of(clay)
