"""The tables of choosing: complete, and judged by the worst of what was found."""

import pytest

from sandmix.language.sources import SOURCES
from sandmix.materials import choosing
from sandmix.materials.choosing import CARE, CLAY, KINDS, NOT_USABLE, SAND, USABLE, judge
from sandmix.materials.sands_and_clays import CLAYS


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.key)
def test_every_row_is_whole(kind):
    assert kind.stuff in (SAND, CLAY)
    assert kind.reason.says in (USABLE, CARE, NOT_USABLE)
    assert kind.reason.why.endswith(".")
    assert kind.reason.source in SOURCES
    assert set(kind.proof) <= set(choosing.NEXT_TESTS)
    assert not kind.clay or kind.clay in CLAYS
    assert not (kind.reason.says == NOT_USABLE and kind.proof), "what is ruled out wants no test"
    assert bool(kind.label) == (kind.key not in ("unknown_sand", "unknown_clay"))


def test_every_rule_has_its_source_and_both_ways():
    for stuff, test, what, says, source, why in choosing._RULES:
        assert source in SOURCES and why.endswith(".") and says in (USABLE, CARE, NOT_USABLE), (stuff, test, what)
    assert choosing.TESTS == ("vinegar", "jar", "grain_shape", "swollen", "perfume")


@pytest.mark.parametrize("label", ["sand_mix", "jointing_sand", "blasting_grit"])
def test_what_is_ruled_out_by_its_label_no_test_redeems(label):
    found = {"vinegar": "no", "jar": "clear", "grain_shape": "round"}
    judgement = judge(SAND, label, found, pebbles_pct=0)
    assert (judgement.usability, judgement.next_test) == (NOT_USABLE, "")
    assert judgement.reasons[0] == KINDS[label].reason


@pytest.mark.parametrize("label", ["granules", "scented_granules", "absorbent", "pond_bentonite", "drilling_bentonite"])
def test_a_label_of_granules_alone_decides_nothing(label):
    judgement = judge(CLAY, label, {"perfume": "no"})
    assert judgement.usability == ""
    assert judgement.next_test.startswith("Swell")


@pytest.mark.parametrize(
    ("swell_ml", "says"),
    [(36, USABLE), (24, USABLE), (23.9, CARE), (8, CARE), (5, CARE), (4.9, NOT_USABLE), (0, NOT_USABLE)],
)
def test_what_swelling_says(swell_ml, says):
    assert choosing.swell_reason(swell_ml).says == says
    assert judge(CLAY, "pond_bentonite", {}, swell_ml=swell_ml).usability == says


def test_a_gel_will_do_without_a_volume_and_grit_will_not():
    assert judge(CLAY, "pond_bentonite", {"swollen": "gel"}).usability == USABLE
    assert judge(CLAY, "pond_bentonite", {"swollen": "grit"}).usability == ""


def test_granules_that_swell_are_still_to_be_taken_with_care():
    assert judge(CLAY, "granules", {}, swell_ml=30).usability == CARE


def test_granules_that_do_not_swell_are_ruled_out_without_more():
    assert judge(CLAY, "granules", {}, swell_ml=3).usability == NOT_USABLE


def test_shell_rules_a_sand_out_before_the_jar_is_tried():
    judgement = judge(SAND, "beach_sand", {"vinegar": "yes"})
    assert (judgement.usability, judgement.next_test) == (NOT_USABLE, "")


def test_tests_are_asked_for_one_after_the_other():
    assert judge(SAND, "beach_sand", {}).next_test.startswith("Vinegar")
    assert judge(SAND, "beach_sand", {"vinegar": "no"}).next_test.startswith("Jar")
    assert judge(SAND, "beach_sand", {"vinegar": "no", "jar": "clear"}).usability == CARE


def test_the_worst_finding_decides_and_stands_first():
    judgement = judge(SAND, "washed_silica", {"grain_shape": "sharp", "jar": "clear"})
    assert judgement.usability == CARE
    assert judgement.reasons[0].why.startswith("Sharp")


def test_pebbles():
    assert choosing.pebble_reason(12).says == USABLE
    assert choosing.pebble_reason(30).says == CARE
    assert judge(SAND, "washed_silica", {}, pebbles_pct=45).usability == CARE


def test_a_test_of_the_other_stuff_says_nothing():
    assert len(judge(SAND, "washed_silica", {"perfume": "yes"}, swell_ml=1).reasons) == 1
    assert len(judge(CLAY, "sodium_bentonite", {"jar": "cloudy"}, pebbles_pct=90).reasons) == 1


def test_a_border_is_one_millilitre_wide():
    assert [choosing.is_near_a_border(ml) for ml in (23.5, 24.9, 26, 0.5, 15.5)] == [True, True, False, False, True]
