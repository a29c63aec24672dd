"""The table of causes: it is complete, and each cause names tests that check it."""

import pytest

from sandmix.defects.causes import CAUSES, NAMED, OTHER
from sandmix.defects.findings import TRIALS
from sandmix.defects.signs import SYMPTOMS
from sandmix.language.sources import SOURCES


def test_there_are_25_causes_and_one_for_everything_else():
    assert len(NAMED) == 25
    assert set(CAUSES) == {*NAMED, OTHER}


def test_no_cause_is_six_times_as_common_as_another():
    priors = [cause.prior_pct for cause in CAUSES.values()]
    assert max(priors) < 6 * min(priors)


@pytest.mark.parametrize("cause", CAUSES.values(), ids=lambda cause: cause.key)
def test_a_cause_has_a_source_and_a_label_without_separators(cause):
    assert cause.source in SOURCES
    assert not set(",;") & set(cause.label)


@pytest.mark.parametrize("cause", NAMED)
def test_every_cause_often_brings_some_sign(cause):
    assert any(sign.chance(cause) >= 0.6 for sign in SYMPTOMS.values())


@pytest.mark.parametrize("cause", NAMED)
def test_the_first_own_test_of_a_cause_finds_it_more_often_than_not(cause):
    first = TRIALS[CAUSES[cause].tests[0]]
    gains = [own / usual for own, usual in zip(first.chances(cause), first.usual, strict=True)]
    assert max(gains) >= 1.8


def test_only_the_unknown_cause_has_no_test():
    assert [key for key, cause in CAUSES.items() if not cause.tests] == [OTHER]
    assert {key for cause in CAUSES.values() for key in cause.tests} <= TRIALS.keys()


def test_the_feel_of_a_handful_is_the_own_test_of_no_cause():
    assert not any("squeeze" in cause.tests for cause in CAUSES.values())
