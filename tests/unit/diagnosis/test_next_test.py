"""Which test parts causes best, by hand on small ones, and what turns the order."""

import math

import pytest

from sandmix.defects.causes import OTHER
from sandmix.defects.findings import TRIALS, Trial
from sandmix.diagnosis import next_test
from sandmix.diagnosis.ranking import reading, sign, weigh
from sandmix.materials.metals import METALS

AL = METALS["aluminium"]


def trial(rows, effort=1.0):
    usual = tuple(sum(row[at] for row in rows.values()) / len(rows) for at in range(len(next(iter(rows.values())))))
    outcomes = {str(at): f"outcome {at}" for at in range(len(usual))}
    return Trial(
        key="made", short="Made", label="Made up", effort_min=effort, outcomes=outcomes, usual=usual, rows=rows
    )


def test_a_test_that_tells_all_drops_all_uncertainty_and_one_that_tells_nothing_none():
    """Two causes alike: 1 bit. A test sure of each leaves 0; one that lies alike under both leaves 1."""
    weights = {"too_dry": 0.5, "too_wet": 0.5}
    sure = trial({"too_dry": (1.0, 0.0), "too_wet": (0.0, 1.0)})
    idle = trial({"too_dry": (0.3, 0.7), "too_wet": (0.3, 0.7)})
    assert next_test.expected_drop_bits(weights, sure) == pytest.approx(1)
    assert next_test.expected_drop_bits(weights, idle) == pytest.approx(0)


def test_a_test_in_between_by_hand():
    """Half each, outcomes 0.9/0.1 and 0.1/0.9: a binary channel that errs in 0.1, 1 − H(0.1) = 1 − 0.4690 = 0.5310 bit."""
    between = trial({"too_dry": (0.9, 0.1), "too_wet": (0.1, 0.9)})
    assert next_test.expected_drop_bits({"too_dry": 0.5, "too_wet": 0.5}, between) == pytest.approx(0.5310, abs=1e-4)


def test_the_next_test_parts_the_leaders():
    """Too wet from gas in the metal: a squeezed handful tells in a minute; with that done the water is known, and the metal is next."""
    weights = {"too_wet": 0.4, "gas_in_metal": 0.4, OTHER: 0.2}
    assert next_test.next_trial(weights, []).key == "squeeze"
    assert next_test.next_trial(weights, ["clean_squeeze"]).key == "probe"
    assert next_test.next_trial(weights, ["wet_squeeze", "compactability_read_pct"]).key not in (
        "squeeze",
        "compactability",
    )


def test_the_worth_of_a_test_is_its_drop_over_the_root_of_its_minutes():
    weights = {"too_wet": 0.4, "gas_in_metal": 0.4, OTHER: 0.2}
    pair = {"too_wet": 0.4, "gas_in_metal": 0.4}
    for worth, trial in next_test.ranked_trials(weights, []):
        assert worth == pytest.approx(next_test.expected_drop_bits(pair, trial) / math.sqrt(trial.effort_min))


def test_a_second_look_at_the_same_thing_is_worth_half():
    weights = {"too_wet": 0.4, "gas_in_metal": 0.4, OTHER: 0.2}
    alone = {trial.key: worth for worth, trial in next_test.ranked_trials(weights, [])}
    after = {trial.key: worth for worth, trial in next_test.ranked_trials(weights, ["moisture_pct_wet"])}
    assert after["squeeze"] == pytest.approx(alone["squeeze"] / 2)
    assert after["compactability"] == pytest.approx(alone["compactability"] / 2)
    assert after["probe"] == pytest.approx(alone["probe"])


def test_a_lone_leader_is_parted_from_all_others():
    """Coarse sand alone leads: what tells it from the rest is the sieves and the air test, and air is quicker."""
    weights = {"too_coarse": 0.7, "gas_in_metal": 0.06, "too_wet": 0.05, OTHER: 0.19}
    assert next_test.next_trial(weights, ["clean_squeeze", "sample_sound"]).key == "permeability"


def test_nothing_is_left_where_all_is_tested():
    done = [trial.word or next(iter(trial.outcomes)) for trial in TRIALS.values()]
    assert next_test.next_trial(weigh([]), done) is None


def test_what_turns_it_does_turn_it():
    clues = [sign("blows"), sign("bubbling_sprue")]
    before = next(iter(weigh(clues)))
    turn = next_test.what_turns_it(clues, AL)
    assert turn.cause != before
    assert turn.cause in weigh(clues)


def test_nothing_turns_what_all_speaks_for():
    signs = ("too_dry", ["weak_squeeze", "dusty", "crumbling_edges", "cope_drops", "sand_in_metal"])
    clues = [sign(key) for key in signs[1]]
    clues += [
        reading(word, value, 0.0, AL) for word, value in (("moisture_pct_wet", 1.0), ("compactability_read_pct", 20))
    ]
    assert next(iter(weigh(clues))) == signs[0]
    assert next_test.what_turns_it(clues * 3, AL) is None


@pytest.mark.parametrize(
    ("key", "at", "words"),
    [
        ("moisture", 0, "moisture under 2 % (far too dry)"),
        ("moisture", 3, "moisture of 4.5 to 6 % (wet)"),
        ("moisture", 4, "moisture over 6 % (far too wet)"),
        ("sieves", 1, "grain fineness number of 40 to 55 (coarse)"),
        ("vents", 0, "no vents or blocked ones"),
    ],
)
def test_a_finding_in_words(key, at, words):
    assert next_test.finding_in_words(TRIALS[key], at, AL) == words
