"""What not to do while the cause is not known, and when it is shown."""

import pytest

from sandmix.defects.causes import NAMED
from sandmix.defects.donts import DONTS
from sandmix.defects.findings import CHECKS
from sandmix.defects.signs import SYMPTOMS
from sandmix.vocabulary import WORDS


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


def test_the_sand_is_left_alone_until_the_wall_of_a_hole_in_the_thickest_part_was_looked_at():
    vent = "dry or vent the sand because of a hole in the thickest part before you have looked at its wall"
    assert vent in texts(["hole_in_thick"], ["shrinkage"], [])
    assert vent not in texts(["hole_in_thick"], ["unvented"], [])
