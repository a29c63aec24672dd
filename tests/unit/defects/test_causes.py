"""The table of causes and signs: that it is whole, and that what not to do is said where it is meant."""

import pytest

from sandmix.defects.causes import CAUSES, DONTS, GRADES, NAMED, OTHER, SYMPTOMS
from sandmix.defects.findings import CHECKS
from sandmix.language.sources import SOURCES
from sandmix.vocabulary import WORDS


def test_there_are_17_causes_and_one_for_what_the_table_does_not_know():
    assert len(NAMED) == 17
    assert set(CAUSES) == {*NAMED, OTHER}


def test_how_common_the_causes_are_is_said_as_some_hundred_troubles():
    assert sum(cause.prior_pct for cause in CAUSES.values()) == pytest.approx(118, abs=20)


@pytest.mark.parametrize("sign", SYMPTOMS.values(), ids=lambda sign: sign.key)
def test_a_sign_names_known_causes_by_known_grades(sign):
    assert sign.chances.keys() <= set(NAMED)
    assert set(sign.chances.values()) <= set(GRADES)
    assert sign.otherwise in GRADES
    assert sign.chances, "a sign that no cause brings tells nothing"


@pytest.mark.parametrize("row", [*SYMPTOMS.values(), *CAUSES.values()], ids=lambda row: row.key)
def test_a_row_has_a_source_and_a_label_that_a_list_can_hold(row):
    assert row.source in SOURCES
    assert "," not in row.label
    assert ";" not in row.label


@pytest.mark.parametrize("cause", NAMED)
def test_every_cause_has_a_sign_that_it_brings_often(cause):
    assert any(sign.chance(cause) >= GRADES["often"] for sign in SYMPTOMS.values())


def test_a_sign_that_comes_anyway_is_seldom_where_it_is_not_named():
    assert SYMPTOMS["steam"].chance("light_cope") == 0.1
    assert SYMPTOMS["clay_balls"].chance("light_cope") == 0.02


@pytest.mark.parametrize("dont", DONTS, ids=lambda dont: dont.text[:30])
def test_what_not_to_do_names_what_there_is(dont):
    assert dont.signs <= SYMPTOMS.keys()
    assert dont.causes | dont.unless_leading <= set(NAMED)
    assert dont.unless_read <= WORDS.keys() | CHECKS.keys()
    assert "," not in dont.text


def texts(signs, leading, read):
    return [dont.text for dont in DONTS if dont.applies(set(signs), set(leading), set(read))]


def test_water_is_not_added_for_weakness_until_the_moisture_is_read():
    water = "add water because the sand is weak before its moisture is known"
    assert water in texts(["weak_squeeze"], [], [])
    assert water not in texts(["weak_squeeze"], [], ["moisture_pct_wet"])


def test_ramming_harder_is_not_forbidden_where_soft_ramming_leads():
    harder = "ram harder to make weak sand hold"
    assert harder in texts(["cope_drops"], ["too_dry"], [])
    assert harder not in texts(["cope_drops"], ["under_rammed"], [])


def test_two_things_are_never_changed_at_once():
    assert texts([], [], []) == ["change two things at once"]
