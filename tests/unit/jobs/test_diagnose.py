"""The job *diagnose*: its answers and its remarks."""

import pytest

from sandmix.defects.causes import CAUSES, NAMED, OTHER
from sandmix.defects.findings import READINGS, TRIALS


def remarks(answer):
    return " ".join(answer["remarks"])


def test_the_points_of_all_causes_add_up_to_100_the_most_first(ask):
    result = ask("diagnose", symptoms=["blows", "steam"])["result"]
    points = list(result["causes"].values())
    assert set(result["causes"]) == {*NAMED, OTHER}
    assert sum(points) == pytest.approx(100)
    assert points == sorted(points, reverse=True)
    assert result["leading"][0] == next(key for key in result["causes"] if key != OTHER)


@pytest.mark.parametrize("sign", ["pin_holes", "run_out", "torn_casting", "misrun", "clay_balls"])
def test_one_sign_is_never_enough(ask, sign):
    answer = ask("diagnose", symptoms=[sign])
    assert answer["state"] == {"word": "not clear yet", "tone": "care"}
    assert "Likely" not in answer["headline"]
    assert answer["lead"]["word"] == "next_test"
    assert "One kind alone is not enough" in remarks(answer)


def test_two_signs_of_one_family_are_one_kind_of_evidence(ask):
    answer = ask("diagnose", symptoms=["weak_squeeze", "crumbling_edges", "cope_drops"])
    assert answer["state"]["word"] == "not clear yet"
    assert "Only one kind of evidence" in remarks(answer)


def test_a_cause_with_two_kinds_of_evidence_is_called_likely(ask):
    answer = ask("diagnose", symptoms=["dusty", "crumbling_edges"], moisture_pct_wet=1.5)
    assert answer["state"]["word"] == "likely"
    assert answer["headline"].startswith("Likely too dry.")
    assert answer["lead"] | {"then": "", "sentence": ""} == {
        "word": "leading", "label": "Likely", "text": "too dry", "then": "", "sentence": "",
    }  # fmt: skip
    assert "Only one kind of evidence" not in remarks(answer)


def card(answer, title):
    """The card of one cause, with its sides by name."""
    found = next(card for card in answer["cards"] if card["title"] == title)
    return found | {side["name"]: list(side["texts"]) for side in found["points"]}


def test_each_leading_cause_has_its_evidence_and_what_to_do(ask):
    vents = card(ask("diagnose", symptoms=["bubbling_sprue"], moisture_pct_wet=3.3), "Not vented")
    assert vents["For it"] == ["metal bubbles or spits in the sprue"]
    assert vents["Against it"] == ["nothing that you gave"]
    assert vents["What to do"][0].startswith("Prick vents")


def test_a_card_shows_what_speaks_against_its_cause(ask):
    answer = ask("diagnose", symptoms=["bubbling_sprue", "wet_squeeze", "steam"], moisture_pct_wet=3.3)
    assert card(answer, "Too wet")["Against it"] == ["moisture 3.3 % (as it should be)"]


def test_a_card_says_if_its_cause_is_only_common(ask):
    sides = [side for one in ask("diagnose", found="vented")["cards"] for side in one["points"]]
    assert {"name": "For it", "texts": ["nothing that you gave; it is only common"]} in sides


def test_the_cards_are_the_leading_causes_with_their_points(ask):
    answer = ask("diagnose", symptoms="dusty, weak_squeeze", moisture_pct_wet=1.5)
    leading, points = answer["result"]["leading"], answer["result"]["causes"]
    assert answer["headline"].startswith("Likely ")
    assert [one["share_pct"] for one in answer["cards"]] == [pytest.approx(points[cause]) for cause in leading]
    assert answer["cards"][0]["text"] == f"{points[leading[0]]:.0f} points out of 100: likely"
    assert not any("likely" in one["text"] for one in answer["cards"][1:])
    open_ = ask("diagnose", symptoms="crumbling_edges")
    assert all(one["text"].endswith(" points out of 100: possible") for one in open_["cards"])
    assert len(open_["cards"]) > 1


def test_the_next_test_comes_first_with_what_not_to_do_before_it(ask):
    answer = ask("diagnose", symptoms="blows, wet_squeeze, steam", found="vented, soft_mould", rested_h=5)
    assert answer["first"]["text"] == f"{TRIALS['moisture'].label}."
    assert list(answer["first"]["not_before"]) == answer["result"]["what_not_to_do"]


def test_a_likely_cause_that_was_tested_has_its_remedy_first(ask):
    answer = ask("diagnose", symptoms="sink, hole_in_thick, wall_rough")
    remedy = CAUSES["shrinkage"].remedy
    assert "next_test" not in answer["result"]
    assert answer["first"]["text"] == remedy
    assert answer["headline"] == f"Likely shrinkage of a thick part. {remedy}"
    assert answer["lead"]["label"] == "Likely"


@pytest.mark.parametrize(
    ("given", "test"),
    [
        ({"symptoms": "run_out"}, "held"),
        ({"symptoms": "misrun"}, "probe"),
        ({"symptoms": "offset"}, "joint"),
        ({"symptoms": "torn_casting"}, "clock"),
        ({"symptoms": "bubbling_sprue, blows, steam"}, "moisture"),
        ({"symptoms": "pin_holes", "moisture_pct_wet": 3.2}, "sample"),
    ],
)
def test_the_test_of_the_leading_cause_is_named_and_not_the_feel_of_a_handful(ask, given, test):
    assert ask("diagnose", **given)["result"]["next_test"] in {test, "pins"}


def test_a_tin_of_ones_own_is_not_read_as_the_standard(ask):
    """Without its usual reading it counts for nothing; the standard's bands do not hold for it."""
    plain = ask("diagnose", symptoms="crumbling_edges")
    own = ask("diagnose", symptoms="crumbling_edges", compactability_read_pct=28)
    standard = ask("diagnose", symptoms="crumbling_edges", compactability_read_pct=28, tin_rammed="standard")
    assert own["result"]["causes"] == pytest.approx(plain["result"]["causes"])
    assert standard["result"]["causes"]["too_dry"] > 1.3 * plain["result"]["causes"]["too_dry"]
    assert "Your tin reading is not used" in remarks(own)
    assert "tin" not in remarks(standard)
    assert own["result"]["next_test"] != "compactability"


def test_a_tin_of_ones_own_is_compared_with_its_usual_reading(ask):
    """The middle of the usual band is 44. 30 where 41 is usual is as 33 by the standard, ± √(5² + 3²) = 5.83."""
    own = ask("diagnose", symptoms="steam", compactability_read_pct="30 ± 5", compactability_usual_pct="41 ± 3")
    standard = ask("diagnose", symptoms="steam", compactability_read_pct=f"33 ± {34**0.5}", tin_rammed="standard")
    assert own["result"]["causes"] == pytest.approx(standard["result"]["causes"])
    assert "only by how far it is from your usual one" in remarks(own)
    assert any("30 % where 41 % is usual (low)" in line for line in own["working"])


def test_the_energy_of_the_blows_decides_whether_a_tin_counts_as_the_standard(ask):
    """2.5 kg through 250 mm three times in 72 mm: 18.387 J on 4.0715e-3 m², 4.52 kJ/m² of 4.68. 1 kg: 1.81, which needs 648 mm."""
    given = {"symptoms": "crumbling_edges", "compactability_read_pct": 28, "rammer_fall_mm": 250, "tin_diameter_mm": 72}
    plain = ask("diagnose", symptoms="crumbling_edges")["result"]["causes"]
    standard = ask("diagnose", symptoms="crumbling_edges", compactability_read_pct=28, tin_rammed="standard")
    measured = ask("diagnose", **given, rammer_kg=2.5)
    assert measured["result"]["causes"] == pytest.approx(standard["result"]["causes"])
    light = ask("diagnose", **given, rammer_kg=1, tin_rammed="standard")
    assert light["result"]["causes"] == pytest.approx(plain)
    assert "1.81 kJ/m²" in remarks(light) and "A fall of 648 mm would match them." in remarks(light)
    unmeasured = ask("diagnose", **given | {"rammer_fall_mm": None}, rammer_kg=1)
    assert unmeasured["result"]["causes"] == pytest.approx(plain)


def test_contradictory_evidence_is_remarked(ask):
    assert "No single cause explains both" in remarks(ask("diagnose", symptoms="dusty, wet_squeeze"))
    assert "No single cause explains both" not in remarks(ask("diagnose", symptoms="dusty, weak_squeeze"))


def test_evidence_that_fits_no_single_cause_is_remarked(ask):
    answer = ask("diagnose", symptoms="dusty, wet_squeeze, torn_casting, run_out, clay_balls")
    assert answer["headline"].startswith("No single cause fits all of this.")
    assert "No single cause fits well" in remarks(answer)
    assert answer["result"]["leading"], "the next test still has causes to separate"


def test_signs_not_picked_are_unknown_unless_there_was_nothing_else(ask):
    plain = ask("diagnose", symptoms="pin_holes")
    looked = ask("diagnose", symptoms="pin_holes", nothing_else="yes")
    assert "counts as unknown" in remarks(plain)
    assert "counts as unknown" not in remarks(looked)
    assert looked["result"]["causes"]["too_wet"] < plain["result"]["causes"]["too_wet"]
    assert any("signs not seen" in line for line in looked["working"])


def test_the_signs_of_a_squeeze_check_are_not_counted_again_as_not_seen(ask):
    """With the squeeze given as clean, its signs are left out of those not seen."""
    one = ask("diagnose", found="clean_squeeze", nothing_else="yes")["result"]["causes"]
    two = ask("diagnose", found="clean_squeeze")["result"]["causes"]
    assert one["too_coarse"] != two["too_coarse"]


def test_a_reading_is_used_with_its_range(ask):
    exact = ask("diagnose", moisture_pct_wet="1.8 ± 0.1")["result"]["causes"]["too_dry"]
    rough = ask("diagnose", moisture_pct_wet="1.8 ± 3")["result"]["causes"]["too_dry"]
    assert exact > rough


def test_the_next_test_was_not_done_yet(ask):
    given = {"symptoms": "blows", "moisture_pct_wet": 3.5, "compactability_read_pct": 45, "found": "vented; firm_mould"}
    answer = ask("diagnose", **given)["result"]
    assert answer["next_test"] in TRIALS
    assert answer["next_test"] not in ("moisture", "compactability", "vents", "thumb")


WELL = ["firm_mould" if trial.key == "thumb" else "weight_right" if trial.key == "weigh" else list(trial.outcomes)[-1]
        for trial in TRIALS.values() if not trial.word]  # fmt: skip
"""The outcome of each check where all is well."""
EVERYTHING = {
    "symptoms": "pin_holes, torn_casting",
    "found": WELL,
    **{word: 5 for word in READINGS if word != "pour_temp_c"},
    "pour_temp_c": 720,
    "compactability_read_pct": 45,
    "tin_rammed": "standard",
}


def test_when_everything_is_tested_no_next_test_is_named(ask):
    answer = ask("diagnose", **EVERYTHING)
    assert "next_test" not in answer["result"]
    assert answer["lead"]["word"] == "leading"
    assert "nothing left to test" in answer["headline"]
    assert answer["first"] is None


def test_the_remarks_say_what_would_change_the_order(ask):
    answer = ask("diagnose", symptoms="bubbling_sprue, blows")
    assert "would come first if you found this" in answer["result"]["changes_mind"]
    assert f"What would change this: {answer['result']['changes_mind']}." in answer["remarks"]


def test_no_single_finding_may_change_the_order(ask):
    answer = ask("diagnose", symptoms="run_out", found="cope_loose, good_pattern, firm_mould, sand_cool, clean_squeeze",
                 moisture_pct_wet=3.5, compactability_read_pct=45, clay_pct_dry=8, dead_fines_pct_dry=2)  # fmt: skip
    assert answer["result"]["changes_mind"].startswith("no single finding")


def cautions(ask, **given):
    return {caution.split(":")[0] for caution in ask("diagnose", **given)["cautions"]}


@pytest.mark.parametrize(
    ("given", "word"),
    [
        ({"symptoms": "bubbling_sprue"}, "Steam"),
        ({"moisture_pct_wet": 4.6}, "Steam"),
        ({"moisture_pct_wet": 4.1, "metal": "tin_bronze"}, "Steam"),
        ({"symptoms": "run_out"}, "Run-out"),
        ({"symptoms": "torn_casting"}, "Hot"),
        ({"symptoms": "walls_blow_out"}, "Turning over"),
        ({"symptoms": "dusty"}, "Dust"),
        ({"symptoms": "pin_holes", "found": "sample_pores"}, "Explosion"),
    ],
)
def test_cautions_follow_signs_readings_and_tests(ask, given, word):
    assert word in cautions(ask, **given)


def test_a_dry_heap_has_no_caution_about_steam(ask):
    assert "Steam" not in cautions(ask, symptoms="dusty, crumbling_edges", moisture_pct_wet=1.5)


def test_each_caution_is_shown_once(ask):
    listed = ask("diagnose", symptoms="bubbling_sprue, steam, run_out", moisture_pct_wet=6.5)["cautions"]
    assert len(listed) == len(set(listed))


def links(ask, **given):
    return {link["job"]: link["inputs"] for link in ask("diagnose", **given)["next"]}


def test_the_next_jobs_help_with_the_leading_causes(ask):
    wet = links(ask, symptoms="wet_squeeze, bubbling_sprue", moisture_pct_wet=6, metal="tin_bronze")
    assert wet["temper"] == {"moisture_pct_wet": "6 %", "metal": "tin_bronze"}
    worn = links(ask, symptoms="ever_more_water", clay_pct_dry=5, dead_fines_pct_dry=12)
    assert worn["rebond"] == {"clay_pct_dry": "5 %", "dead_fines_pct_dry": "12 %"}
    assert links(ask, symptoms="run_out", found="cope_loose")["pour"] == {"metal": "aluminium"}
    assert "burnout" in links(ask, symptoms="torn_casting", found="opened_soon")


def test_the_first_next_job_is_the_test_that_is_named(ask):
    answer = ask("diagnose", symptoms="blows, wet_squeeze, steam", found="vented, soft_mould", rested_h=5)
    assert answer["result"]["next_test"] == "moisture"
    assert answer["next"][0] == {
        "job": "bench", "label": "Moisture test: steps and result", "inputs": {"test": "moisture"}, "foremost": True,
    }  # fmt: skip
    assert not any(link["foremost"] for link in answer["next"][1:])


def test_the_sieve_test_goes_on_to_the_job_fineness(ask):
    answer = ask("diagnose", symptoms="burnt_on_face, rough_face", found="firm_mould", pour_temp_c=715)
    assert answer["result"]["next_test"] == "sieves"
    assert answer["next"][0] == {
        "job": "fineness", "label": "Sieve test: the result", "inputs": {}, "foremost": True,
    }  # fmt: skip


def test_weighing_the_casting_goes_on_to_the_job_pattern(ask):
    answer = ask("diagnose", found="soft_mould, vented", metal="tin_bronze")
    assert answer["result"]["next_test"] == "weigh"
    assert answer["next"][0]["job"] == "pattern"
    assert answer["next"][0]["inputs"] == {"metal": "tin_bronze"}


def test_the_working_shows_the_product_and_the_best_tests(ask):
    answer = ask("diagnose", symptoms="clay_balls, weak_squeeze")
    assert any("0.9 (hard little balls of clay in the sand)" in line for line in answer["working"])
    assert any("in bits of uncertainty" in line for line in answer["working"])


def test_the_causes_are_shown_by_their_labels(ask):
    shown = {row["word"]: row["text"] for row in ask("diagnose", symptoms="run_out", found="cope_loose")["shown"]}
    assert shown["leading"] == CAUSES["light_cope"].label
    assert shown["causes"].startswith("cope not held down: ")
    assert shown["causes"].endswith(", the rest under 1 % each")
    assert ": 0 %" not in shown["causes"]


def refused(answer):
    assert not answer["ok"]
    return [problem["word"] for problem in answer["problems"]]


def test_an_empty_form_is_refused(ask):
    assert refused(ask("diagnose")) == ["symptoms"]
    assert refused(ask("diagnose", symptoms=[], metal="tin_bronze", nothing_else="yes")) == ["symptoms"]


def test_two_outcomes_of_one_check_are_refused(ask):
    assert refused(ask("diagnose", found="soft_mould, hard_mould")) == ["found"]
    assert refused(ask("diagnose", symptoms="wet_squeeze", found="clean_squeeze")) == ["found"]
    assert ask("diagnose", symptoms="wet_squeeze, weak_squeeze")["ok"], (
        "mud next to crumbs is possible in badly mulled sand"
    )


def test_more_clay_and_fines_than_sand_is_refused(ask):
    assert refused(ask("diagnose", clay_pct_dry=55, dead_fines_pct_dry=50)) == ["dead_fines_pct_dry"]
    assert ask("diagnose", clay_pct_dry=50, dead_fines_pct_dry=50)["ok"]


def test_a_pour_far_below_the_melting_point_is_refused(ask):
    """Pure aluminium is liquid from 660 °C, and 100 °C less is allowed (own rule)."""
    assert refused(ask("diagnose", pour_temp_c=559)) == ["pour_temp_c"]
    assert ask("diagnose", pour_temp_c=560)["ok"]


def test_a_pour_just_below_the_melting_point_counts_as_cold_and_is_not_passed_on(ask):
    answer = ask("diagnose", symptoms="misrun", pour_temp_c=645)
    assert answer["result"]["leading"] == ["poured_cold"]
    assert "645 °C is below 660 °C" in remarks(answer)
    assert {link["job"]: link["inputs"] for link in answer["next"]}["pour"] == {"metal": "aluminium"}
    assert "fully liquid" not in remarks(ask("diagnose", symptoms="misrun", pour_temp_c=661))


@pytest.mark.parametrize(
    ("metal", "pct", "stops"), [("aluminium", 6.1, True), ("aluminium", 6.0, False), ("yellow_brass", 5.5, True)]
)
def test_sand_above_the_stop_limit_is_always_a_stop(ask, metal, pct, stops):
    """6.0 % for aluminium, 5.25 % for brass; the job temper stops there too."""
    answer = ask("diagnose", symptoms=["run_out", "steam"], moisture_pct_wet=pct, metal=metal)
    assert (answer["state"]["word"] == "stop") is stops
    assert answer["headline"].startswith(f"Do not pour: {pct:g} % water") is stops
    assert (ask("temper", heap_kg=25, moisture_pct_wet=pct, metal=metal)["state"]["word"] == "stop") is stops


def test_readings_without_a_sign_get_a_remark(ask):
    assert "You picked no sign" in remarks(ask("diagnose", moisture_pct_wet=3.5))
    assert "You picked no sign" not in remarks(ask("diagnose", moisture_pct_wet=3.5, symptoms=["blows"]))


def test_once_all_its_own_tests_are_done_the_remedy_is_named_even_if_the_cause_is_not_yet_likely(ask):
    """The pattern itself was found bad and no test of it is left, so no squeeze of the sand is named."""
    answer = ask(
        "diagnose", symptoms="sticks_to_pattern", metal="yellow_brass", moisture_pct_wet=3.2, found="poor_pattern"
    )
    assert "next_test" not in answer["result"]
    assert "nothing else comes near: pattern does not release. Give it draft" in answer["headline"]
