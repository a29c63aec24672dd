"""The table of causes and signs: it is complete, and what not to do is shown where it applies."""

import pytest

from sandmix.defects.causes import CAUSES, GRADES, NAMED, OTHER
from sandmix.defects.donts import DONTS
from sandmix.defects.findings import CHECKS
from sandmix.defects.signs import SYMPTOMS
from sandmix.language.sources import SOURCES
from sandmix.vocabulary import WORDS


def test_there_are_17_causes_and_one_for_everything_else():
    assert len(NAMED) == 17
    assert set(CAUSES) == {*NAMED, OTHER}


def test_the_priors_add_up_to_about_a_hundred():
    assert sum(cause.prior_pct for cause in CAUSES.values()) == pytest.approx(118, abs=20)


@pytest.mark.parametrize("sign", SYMPTOMS.values(), ids=lambda sign: sign.key)
def test_a_sign_names_known_causes_by_known_grades(sign):
    assert sign.chances.keys() <= set(NAMED)
    assert set(sign.chances.values()) <= set(GRADES)
    assert sign.otherwise in GRADES
    assert sign.chances, "a sign without a cause shows nothing"


@pytest.mark.parametrize("row", [*SYMPTOMS.values(), *CAUSES.values()], ids=lambda row: row.key)
def test_a_row_has_a_source_and_a_label_without_separators(row):
    assert row.source in SOURCES
    assert "," not in row.label
    assert ";" not in row.label


@pytest.mark.parametrize("cause", NAMED)
def test_every_cause_often_brings_some_sign(cause):
    assert any(sign.chance(cause) >= GRADES["often"] for sign in SYMPTOMS.values())


def test_a_sign_that_also_comes_without_a_defect_is_seldom_with_other_causes():
    assert SYMPTOMS["steam"].chance("light_cope") == 0.1
    assert SYMPTOMS["clay_balls"].chance("light_cope") == 0.02


@pytest.mark.parametrize("dont", DONTS, ids=lambda dont: dont.text[:30])
def test_what_not_to_do_names_known_signs_causes_and_readings(dont):
    assert dont.signs <= SYMPTOMS.keys()
    assert dont.causes | dont.unless_leading <= set(NAMED)
    assert dont.unless_read <= WORDS.keys() | CHECKS.keys()
    assert "," not in dont.text


def texts(signs, leading, readings):
    return [dont.text for dont in DONTS if dont.applies(set(signs), set(leading), set(readings))]


def test_no_water_for_weak_sand_before_the_moisture_is_known():
    water = "add water because the sand is weak before you know its moisture"
    assert water in texts(["weak_squeeze"], [], [])
    assert water not in texts(["weak_squeeze"], [], ["moisture_pct_wet"])


def test_ramming_harder_is_allowed_where_soft_ramming_leads():
    harder = "ram harder to make weak sand hold"
    assert harder in texts(["cope_drops"], ["too_dry"], [])
    assert harder not in texts(["cope_drops"], ["under_rammed"], [])


def test_two_things_are_never_changed_at_once():
    assert texts([], [], []) == ["change two things at once"]
