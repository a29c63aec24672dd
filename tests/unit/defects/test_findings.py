"""The table of what tests find: its rows are complete, and the bands follow the metal."""

import pytest

from sandmix.defects.causes import NAMED
from sandmix.defects.findings import CHECKS, OVERLAPPING, READINGS, TRIALS
from sandmix.defects.signs import HOLES, SYMPTOMS, TEARS
from sandmix.language.sources import SOURCES
from sandmix.materials.metals import METALS
from sandmix.vocabulary import WORDS


@pytest.mark.parametrize("trial", TRIALS.values(), ids=lambda trial: trial.key)
class TestEveryTrial:
    def test_each_row_has_a_share_for_each_outcome(self, trial):
        for row in (trial.usual, *trial.rows.values()):
            assert len(row) == len(trial.outcomes)
            assert sum(row) == pytest.approx(1)
            assert min(row) > 0, "no outcome is impossible"

    def test_a_trial_names_known_causes_a_source_and_an_effort(self, trial):
        assert trial.rows.keys() <= set(NAMED)
        assert trial.only_with <= SYMPTOMS.keys()
        assert trial.source in SOURCES
        assert 1 <= trial.effort_min <= 120

    def test_the_short_name_fits_the_answer_bar(self, trial):
        assert len(trial.short) <= 20


@pytest.mark.parametrize("word", READINGS)
@pytest.mark.parametrize("metal", METALS.values(), ids=lambda metal: metal.key)
def test_the_edges_of_a_reading_rise_and_there_is_one_more_band(word, metal):
    edges = READINGS[word].edges(metal)
    assert list(edges) == sorted(set(edges))
    assert len(READINGS[word].outcomes) == len(edges) + 1
    assert WORDS[word].low <= edges[0] < edges[-1] <= WORDS[word].high


def test_wet_begins_at_the_limits_of_the_metal():
    """Aluminium: caution above 4.5, stop above 6; tin bronze 4.0 and 5.25."""
    assert READINGS["moisture_pct_wet"].edges(METALS["aluminium"])[-2:] == (4.5, 6.0)
    assert READINGS["moisture_pct_wet"].edges(METALS["tin_bronze"])[-2:] == (4.0, 5.25)


def test_the_squeeze_takes_two_outcomes_from_the_table_of_signs():
    """Too dry: weak 0.9, wet 0.01, so 0.09 is left for a clean break: shares of 1.00."""
    squeeze = CHECKS["clean_squeeze"]
    assert squeeze.chances("too_dry") == pytest.approx((0.9, 0.01, 0.09))
    assert {"weak_squeeze", "wet_squeeze"} == squeeze.outcomes.keys() & SYMPTOMS.keys()


def test_a_cause_without_a_row_has_the_usual_chances():
    assert TRIALS["sieves"].chances("opened_early") == TRIALS["sieves"].usual


def test_a_look_at_the_wall_takes_three_outcomes_from_the_table_of_signs():
    """Shrinkage: smooth 0.01, rough 0.9, film 0.1, and at least 0.05 for nothing clear: shares of 1.06."""
    assert TRIALS["wall"].chances("shrinkage") == pytest.approx((0.01 / 1.06, 0.9 / 1.06, 0.1 / 1.06, 0.05 / 1.06))
    assert CHECKS["wall_rough"].outcomes["wall_rough"] == SYMPTOMS["wall_rough"].label


def test_only_somebody_who_saw_a_hole_or_a_crack_is_sent_to_look_into_it():
    assert TRIALS["wall"].only_with == TRIALS["where"].only_with == HOLES
    assert TRIALS["tear_face"].only_with == TEARS
    assert not TRIALS["joint"].only_with


def test_overlapping_trials_are_trials():
    assert set().union(*OVERLAPPING) <= TRIALS.keys()


def test_every_outcome_reads_alone():
    """What would change the order is named by the outcome alone, so it says of what it is."""
    assert not {"as it should be", "sound", "nothing"} & {
        text for trial in TRIALS.values() if not trial.word for text in trial.outcomes.values()
    }
