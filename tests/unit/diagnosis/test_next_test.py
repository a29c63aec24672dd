"""Which test separates causes best, by hand on small examples, and which finding changes the order."""

import math

import pytest

from sandmix.defects.causes import OTHER
from sandmix.defects.findings import TRIALS
from sandmix.defects.trial import Trial
from sandmix.diagnosis import next_test
from sandmix.diagnosis.ranking import rank, reading, sign
from sandmix.materials.metals import METALS

AL = METALS["aluminium"]


def trial(rows, effort=1.0):
    usual = tuple(sum(row[at] for row in rows.values()) / len(rows) for at in range(len(next(iter(rows.values())))))
    outcomes = {str(at): f"outcome {at}" for at in range(len(usual))}
    return Trial(
        key="made", short="Made", label="Made up", effort_min=effort, outcomes=outcomes, usual=usual, rows=rows
    )


def test_a_perfect_test_removes_all_uncertainty_and_an_idle_one_none():
    """Two equal causes: 1 bit. A test that always finds the cause leaves 0; one with the same outcomes for both leaves 1."""
    shares = {"too_dry": 0.5, "too_wet": 0.5}
    perfect = trial({"too_dry": (1.0, 0.0), "too_wet": (0.0, 1.0)})
    idle = trial({"too_dry": (0.3, 0.7), "too_wet": (0.3, 0.7)})
    assert next_test.expected_drop_bits(shares, perfect) == pytest.approx(1)
    assert next_test.expected_drop_bits(shares, idle) == pytest.approx(0)


def test_a_test_in_between_by_hand():
    """Half each, outcomes 0.9/0.1 and 0.1/0.9: a binary channel with error 0.1, 1 − H(0.1) = 1 − 0.4690 = 0.5310 bit."""
    between = trial({"too_dry": (0.9, 0.1), "too_wet": (0.1, 0.9)})
    assert next_test.expected_drop_bits({"too_dry": 0.5, "too_wet": 0.5}, between) == pytest.approx(0.5310, abs=1e-4)


def test_the_next_test_separates_the_leaders():
    """Too wet or gas in the metal: a squeezed handful shows it in a minute. After that the water is known, and the metal is next."""
    shares = {"too_wet": 0.4, "gas_in_metal": 0.4, OTHER: 0.2}
    assert next_test.next_trial(shares, []).key == "squeeze"
    assert next_test.next_trial(shares, ["clean_squeeze"]).key == "probe"
    assert next_test.next_trial(shares, ["wet_squeeze", "compactability_read_pct"]).key not in (
        "squeeze",
        "compactability",
    )


def test_the_value_of_a_test_is_its_drop_over_the_root_of_its_minutes():
    shares = {"too_wet": 0.4, "gas_in_metal": 0.4, OTHER: 0.2}
    pair = {"too_wet": 0.4, "gas_in_metal": 0.4}
    for value, trial in next_test.ranked_trials(shares, []):
        assert value == pytest.approx(next_test.expected_drop_bits(pair, trial) / math.sqrt(trial.effort_min))


def test_a_second_test_of_the_same_property_has_half_the_value():
    shares = {"too_wet": 0.4, "gas_in_metal": 0.4, OTHER: 0.2}
    alone = {trial.key: value for value, trial in next_test.ranked_trials(shares, [])}
    after = {trial.key: value for value, trial in next_test.ranked_trials(shares, ["moisture_pct_wet"])}
    assert after["squeeze"] == pytest.approx(alone["squeeze"] / 2)
    assert after["compactability"] == pytest.approx(alone["compactability"] / 2)
    assert after["probe"] == pytest.approx(alone["probe"])


def test_a_single_leader_is_separated_from_all_others():
    """Only coarse sand leads. The sieves and the air test separate it from the rest, and the air test is quicker."""
    shares = {"too_coarse": 0.7, "gas_in_metal": 0.06, "too_wet": 0.05, OTHER: 0.19}
    assert next_test.next_trial(shares, ["clean_squeeze", "sample_sound"]).key == "permeability"


def test_no_test_is_left_when_all_are_done():
    done = [trial.word or next(iter(trial.outcomes)) for trial in TRIALS.values()]
    assert next_test.next_trial(rank([]), done) is None


def test_a_reversal_names_another_cause():
    clues = [sign("blows"), sign("bubbling_sprue")]
    before = next(iter(rank(clues)))
    reversal = next_test.likeliest_reversal(clues, AL)
    assert reversal.cause != before
    assert reversal.cause in rank(clues)


def test_no_finding_reverses_a_cause_that_everything_supports():
    clues = [sign(key) for key in ("weak_squeeze", "dusty", "crumbling_edges", "cope_drops", "sand_in_metal")]
    clues += [
        reading(word, value, 0.0, AL) for word, value in (("moisture_pct_wet", 1.0), ("compactability_read_pct", 20))
    ]
    assert next(iter(rank(clues))) == "too_dry"
    assert next_test.likeliest_reversal(clues * 3, AL) is None


@pytest.mark.parametrize(
    ("key", "at", "words"),
    [
        ("moisture", 0, "moisture under 2 % (far too dry)"),
        ("moisture", 3, "moisture of 4.5 to 6 % (wet)"),
        ("moisture", 4, "moisture over 6 % (far too wet)"),
        ("sieves", 1, "grain fineness number of 40 to 55 (coarse)"),
        ("vents", 0, "no vents or blocked vents"),
    ],
)
def test_a_finding_in_words(key, at, words):
    assert next_test.finding_in_words(TRIALS[key], at, AL) == words
