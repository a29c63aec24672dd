"""The table of what tests find: its rows are complete, and the bands follow the metal."""

import pytest

from sandmix.defects.causes import NAMED
from sandmix.defects.findings import CHECKS, READINGS, TRIALS
from sandmix.defects.signs import SYMPTOMS
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
    """Too dry: weak 0.9, wet 0.02, so 0.08 is left for a clean break: shares of 1.00."""
    squeeze = CHECKS["clean_squeeze"]
    assert squeeze.chances("too_dry") == pytest.approx((0.9, 0.02, 0.08))
    assert {"weak_squeeze", "wet_squeeze"} == squeeze.outcomes.keys() & SYMPTOMS.keys()


def test_a_cause_without_a_row_has_the_usual_chances():
    assert TRIALS["sieves"].chances("opened_early") == TRIALS["sieves"].usual
