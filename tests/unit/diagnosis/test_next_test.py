"""Which test separates causes best, by hand on small examples, and which finding changes the order."""

import math

import pytest

from sandmix.defects.causes import CAUSES, NAMED, OTHER
from sandmix.defects.findings import TRIALS
from sandmix.defects.trial import Trial
from sandmix.diagnosis import next_test
from sandmix.diagnosis.ranking import Evidence, check, rank, reading, sign
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


def evidence(family="made up", **chances):
    """A clue that some causes bring with the given chances, and all others with 0.001."""
    spread = dict.fromkeys(CAUSES, 0.001) | chances
    return Evidence(key=family, text=family, family=family, chances=spread)


@pytest.mark.parametrize("cause", NAMED)
def test_a_cause_that_leads_alone_is_tested_by_its_own_first_test(cause):
    clues = [evidence(**{cause: 0.9}), *([sign("torn_casting")] if cause in ("hot_tear", "opened_early") else [])]
    assert next_test.leading(rank(clues)) == [cause]
    assert next_test.next_trial(clues).key == CAUSES[cause].tests[0]


def test_a_likely_cause_that_was_not_tested_is_tested_first():
    clues = [sign("dusty"), sign("crumbling_edges")]
    assert next_test.is_likely(rank(clues), clues)
    assert next_test.next_trial(clues).key == "moisture"


def test_a_likely_cause_whose_own_test_supports_it_needs_its_remedy():
    """A rough wall is an outcome of a look at the wall, a test of shrinkage."""
    assert next_test.next_trial([sign("sink"), sign("hole_in_thick"), sign("wall_rough")]) is None
    assert next_test.next_trial([sign("sink"), sign("hole_in_thick")]).key == "feed_look"


def test_a_test_that_speaks_against_the_first_cause_does_not_lead_to_its_remedy():
    """Well vented: the cause still leads by the other clues, but nothing has confirmed it."""
    clues = [evidence("one", unvented=0.9), evidence("two", unvented=0.9), check("vented")]
    assert next_test.leading(rank(clues)) == ["unvented"]
    assert next_test.is_likely(rank(clues), clues)
    assert next_test.next_trial(clues) is None, "its only test is done, so nothing of its own is left"
    wet = [evidence("one", too_wet=0.9), evidence("two", too_wet=0.9), reading("moisture_pct_wet", 3.4, 0.0, AL)]
    assert next_test.leading(rank(wet)) == ["too_wet"]
    assert next_test.next_trial(wet).key == "compactability"


def test_where_several_lead_one_of_their_own_tests_is_named():
    clues = [evidence(too_wet=0.1, gas_in_metal=0.1 * 12 / 9)]
    assert set(next_test.leading(rank(clues))) == {"too_wet", "gas_in_metal"}
    ranked = [trial.key for _, trial in next_test.ranked_trials(rank(clues), [])]
    assert set(ranked) == {"moisture", "compactability", "sample", "charge"}
    assert next_test.next_trial(clues).key == ranked[0]


def test_where_their_own_tests_are_done_any_other_test_may_separate_them():
    clues = [evidence(no_draft=0.1, light_cope=0.1)]
    done = ["good_pattern", "cope_held"]
    assert "squeeze" not in [trial.key for _, trial in next_test.ranked_trials(rank(clues), [])]
    shares = {"no_draft": 0.5, "unvented": 0.5}
    assert [trial.key for _, trial in next_test.ranked_trials(shares, ["vented", *done])] != []
    assert "thumb" in [trial.key for _, trial in next_test.ranked_trials(shares, ["vented", *done])]


def test_nobody_is_sent_to_look_at_the_wall_of_a_hole_that_was_not_seen():
    keys = [{trial.key for trial in next_test.open_trials(seen)} for seen in ([], ["pin_holes"], ["ragged_tear"])]
    assert [{"wall", "where", "tear_face"} & found for found in keys] == [set(), {"wall", "where"}, {"tear_face"}]


def test_the_value_of_a_test_is_its_drop_over_the_root_of_its_minutes():
    shares = {"too_wet": 0.4, "gas_in_metal": 0.4, OTHER: 0.2}
    pair = {"too_wet": 0.4, "gas_in_metal": 0.4}
    for value, trial in next_test.ranked_trials(shares, []):
        assert value == pytest.approx(next_test.expected_drop_bits(pair, trial) / math.sqrt(trial.effort_min))


def test_a_second_test_of_the_same_property_has_half_the_value():
    shares = {"too_wet": 0.4, "gas_in_metal": 0.4, OTHER: 0.2}
    alone = {trial.key: value for value, trial in next_test.ranked_trials(shares, [])}
    after = {trial.key: value for value, trial in next_test.ranked_trials(shares, ["moisture_pct_wet"])}
    assert after["compactability"] == pytest.approx(alone["compactability"] / 2)
    assert after["sample"] == pytest.approx(alone["sample"])


def test_a_single_leader_is_separated_from_all_others():
    """Only coarse sand leads. Its own tests are the sieves and the air test, and the air test is quicker."""
    shares = {"too_coarse": 0.7, "gas_in_metal": 0.06, "too_wet": 0.05, OTHER: 0.19}
    assert [trial.key for _, trial in next_test.ranked_trials(shares, [])] == ["permeability", "sieves"]


def test_no_test_is_left_when_all_are_done():
    done = [trial.word or next(iter(trial.outcomes)) for trial in TRIALS.values()]
    assert next_test.ranked_trials(rank([]), done) == []


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
