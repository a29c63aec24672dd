"""The tables of choosing are complete, and the worst finding decides."""

import pytest

from sandmix.bench.catalogue import TESTS
from sandmix.language.sources import SOURCES
from sandmix.materials import choosing
from sandmix.materials.choosing import CARE, CLAY, KINDS, NOT_USABLE, SAND, USABLE, judge
from sandmix.materials.sands_and_clays import CLAYS


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.key)
def test_every_label_is_complete(kind):
    assert kind.stuff in (SAND, CLAY)
    assert kind.reason.usability in (USABLE, CARE, NOT_USABLE)
    assert kind.reason.why.endswith(".")
    assert kind.reason.source in SOURCES
    assert set(kind.proof) <= set(choosing.NEXT_TESTS)
    assert not kind.clay or kind.clay in CLAYS
    assert not (kind.reason.usability == NOT_USABLE and kind.proof), "what is ruled out needs no test"
    assert bool(kind.label) == (kind.key not in ("unknown_sand", "unknown_clay"))


def test_every_rule_has_its_source():
    for stuff, test, result, usability, source, why in choosing._RULES:
        assert source in SOURCES and why.endswith(".") and usability in (USABLE, CARE, NOT_USABLE), (
            stuff,
            test,
            result,
        )
    assert choosing.TESTS == ("vinegar", "clay_vinegar", "jar", "smoke", "grain_shape", "swollen", "perfume")


@pytest.mark.parametrize("label", ["sand_mix", "jointing_sand", "blasting_grit"])
def test_no_test_makes_up_for_a_label_that_rules_it_out(label):
    found = {"vinegar": "no", "jar": "clear", "grain_shape": "round"}
    judgement = judge(SAND, label, found, pebbles_pct=0)
    assert (judgement.usability, judgement.next_test) == (NOT_USABLE, "")
    assert judgement.reasons[0] == KINDS[label].reason


@pytest.mark.parametrize("label", ["granules", "scented_granules", "absorbent", "pond_bentonite", "drilling_bentonite"])
def test_these_labels_need_the_swell_test(label):
    judgement = judge(CLAY, label, {"perfume": "no"})
    assert judgement.usability == ""
    assert judgement.next_test.startswith("Swell")


@pytest.mark.parametrize(
    ("swell_ml", "usability"),
    [(36.1, CARE), (36, USABLE), (24, USABLE), (23.9, CARE), (8, CARE), (5, CARE), (4.9, NOT_USABLE), (0, NOT_USABLE)],
)
def test_the_swollen_volume_decides(swell_ml, usability):
    assert choosing.swell_reason(swell_ml).usability == usability
    assert judge(CLAY, "pond_bentonite", {}, swell_ml=swell_ml).usability == usability


def test_a_gel_is_enough_without_a_volume_and_grit_is_not():
    assert judge(CLAY, "pond_bentonite", {"swollen": "gel"}).usability == USABLE
    assert judge(CLAY, "pond_bentonite", {"swollen": "grit"}).usability == ""


def test_granules_that_swell_are_usable_with_care():
    assert judge(CLAY, "granules", {}, swell_ml=30).usability == CARE


def test_granules_that_do_not_swell_are_not_usable():
    assert judge(CLAY, "granules", {}, swell_ml=3).usability == NOT_USABLE


def test_shell_rules_a_sand_out_before_the_jar_test():
    judgement = judge(SAND, "beach_sand", {"vinegar": "yes"})
    assert (judgement.usability, judgement.next_test) == (NOT_USABLE, "")


def test_the_tests_come_one_after_the_other():
    assert judge(SAND, "beach_sand", {}).next_test.startswith("Vinegar")
    assert judge(SAND, "beach_sand", {"vinegar": "no"}).next_test.startswith("Jar")
    assert judge(SAND, "beach_sand", {"vinegar": "no", "jar": "clear"}).usability == CARE


def test_the_worst_finding_decides_and_comes_first():
    judgement = judge(SAND, "washed_silica", {"grain_shape": "sharp", "jar": "clear"})
    assert judgement.usability == CARE
    assert judgement.reasons[0].why.startswith("Sharp")


def test_many_pebbles_need_care():
    assert choosing.pebble_reason(12).usability == USABLE
    assert choosing.pebble_reason(30).usability == CARE
    assert judge(SAND, "washed_silica", {}, pebbles_pct=45).usability == CARE


def test_the_test_of_a_clay_has_the_same_scale():
    """One row of the scale, one text and one tone, whichever of the two jobs is asked."""
    for swell_ml in (0, 3, 4.5, 5, 10, 15.5, 16, 20, 24, 36, 37):
        reason = choosing.swell_reason(swell_ml)
        rating = TESTS["swell"].rating(swell_ml)
        assert rating is not None
        assert rating.text == reason.why, swell_ml
        assert (rating.tone == "go") == (reason.usability == USABLE), swell_ml


def test_the_tests_of_sand_are_ignored_for_clay_and_the_other_way_round():
    assert len(judge(SAND, "washed_silica", {"perfume": "yes"}, swell_ml=1).reasons) == 1
    assert len(judge(CLAY, "sodium_bentonite", {"jar": "cloudy", "vinegar": "yes"}, pebbles_pct=90).reasons) == 1
    assert len(judge(SAND, "washed_silica", {"clay_vinegar": "yes"}).reasons) == 1


def test_near_a_limit_means_within_one_millilitre():
    assert [choosing.is_near_a_border(ml) for ml in (23.5, 24.9, 26, 0.5, 15.5)] == [True, True, False, False, True]
