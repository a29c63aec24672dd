"""The engine: Bayes' rule by hand on small tables, readings over their doubt, the next test, and what turns the order."""

import math

import pytest

from sandmix import diagnosis
from sandmix.ailments import CAUSES, NAMED, OTHER
from sandmix.diagnosis import Clue
from sandmix.findings import TRIALS, Trial
from sandmix.metals import METALS

AL = METALS["aluminium"]


def clue(chance_of, usual=0.1, key="sign", family="made up"):
    return Clue(key=key, words=key, family=family, chances=dict.fromkeys(CAUSES, usual) | chance_of)


def trial(rows, effort=1.0):
    usual = tuple(sum(row[at] for row in rows.values()) / len(rows) for at in range(len(next(iter(rows.values())))))
    outcomes = {str(at): f"outcome {at}" for at in range(len(usual))}
    return Trial(key="made", short="Made", label="Made up", effort_min=effort, outcomes=outcomes, usual=usual, rows=rows)


def test_bayes_by_hand():
    """Priors 1 : 3, chances 0.9 : 0.1 and 0.2 : 0.4. 1 × 0.9 × 0.2 = 0.18; 3 × 0.1 × 0.4 = 0.12; 0.18 of 0.30 is 0.6."""
    clues = [({"a": 0.9, "b": 0.1}, 1.0), ({"a": 0.2, "b": 0.4}, 1.0)]
    assert diagnosis.posterior({"a": 1, "b": 3}, clues, power=1.0) == pytest.approx({"a": 0.6, "b": 0.4})


def test_a_power_of_a_half_takes_roots():
    """1 × √0.81 = 0.9; 3 × √0.09 = 0.9: half each, where the whole power gives 0.81 to 0.27."""
    assert diagnosis.posterior({"a": 1, "b": 3}, [({"a": 0.81, "b": 0.09}, 1.0)], power=0.5) == pytest.approx(
        {"a": 0.5, "b": 0.5}
    )
    assert diagnosis.posterior({"a": 1, "b": 3}, [({"a": 0.81, "b": 0.09}, 0.5)], power=1.0)["a"] == pytest.approx(0.5)


def test_without_evidence_the_weights_are_how_common_the_causes_are():
    """12 for too wet among all of 118."""
    whole = sum(cause.prior_pct for cause in CAUSES.values())
    assert diagnosis.weigh([])["too_wet"] == pytest.approx(12 / whole)
    assert next(iter(diagnosis.weigh([]))) == "too_wet"


def test_one_sign_of_the_table_by_hand():
    """Clay balls: 0.9 for mulling (10), 0.3 for much clay (4) and hot sand (4): 0.9^0.8 × 10 to 0.3^0.8 × 4."""
    weights = diagnosis.weigh([diagnosis.sign("clay_balls")])
    assert weights["poorly_mulled"] / weights["much_clay"] == pytest.approx(10 / 4 * (0.9 / 0.3) ** 0.8)
    assert weights["much_clay"] == pytest.approx(weights["hot_sand"])


def test_the_unknown_cause_has_the_mean_chance_of_a_sign():
    sign = diagnosis.sign("run_out")
    common = {cause: CAUSES[cause].prior_pct for cause in NAMED}
    mean = sum(common[cause] * sign.chances[cause] for cause in NAMED) / sum(common.values())
    assert sign.chances[OTHER] == pytest.approx(mean)


def test_very_small_chances_still_sum_to_one():
    weights = diagnosis.posterior({"a": 1, "b": 1}, [({"a": 1e-300, "b": 1e-200}, 1.0)] * 5, power=1.0)
    assert weights == {"a": 0.0, "b": 1.0}


def test_a_reading_lies_in_the_bands_by_its_normal_spread():
    """At an edge with a deviation of 1: half below; up to one deviation above 0.3413 (table of the normal curve)."""
    assert diagnosis.shares_in_bands(4.0, 1.96, [4, 5]) == pytest.approx([0.5, 0.3413, 0.1587], abs=1e-4)


def test_a_reading_without_doubt_lies_in_one_band():
    assert diagnosis.shares_in_bands(5.0, 0.0, [4, 6]) == [0, 1, 0]
    assert diagnosis.shares_in_bands(4.0, 0.0, [4, 6]) == [0, 1, 0]
    assert diagnosis.shares_in_bands(9.0, 0.0, [4, 6]) == [0, 0, 1]


def test_a_reading_counts_by_its_bands():
    """Rested 0.2 h, no doubt: 62 of 100 where mulling is at fault, 14 as usual."""
    clue = diagnosis.reading("rested_h", 0.2, 0.0, AL)
    assert clue.chances["poorly_mulled"] == pytest.approx(0.62)
    assert clue.chances["light_cope"] == pytest.approx(0.14)
    assert clue.words == "rested 0.2 h (hardly rested)"


def test_a_doubtful_reading_says_less():
    sharp, blunt = (diagnosis.reading("moisture_pct_wet", 1.0, doubt, AL) for doubt in (0.1, 3.0))
    assert diagnosis.weigh([blunt])["too_dry"] < diagnosis.weigh([sharp])["too_dry"]


def test_the_same_moisture_is_wetter_under_bronze():
    light, heavy = (diagnosis.reading("moisture_pct_wet", 4.3, 0.1, METALS[key]) for key in ("aluminium", "tin_bronze"))
    assert diagnosis.weigh([heavy])["too_wet"] > 2 * diagnosis.weigh([light])["too_wet"]


def test_a_check_counts_by_its_outcome():
    assert diagnosis.check("no_vents").chances["unvented"] == pytest.approx(0.95)
    assert diagnosis.check("no_vents").family == "vents"
    assert diagnosis.check("clean_squeeze").family == "strength"


def test_what_was_not_seen_speaks_weakly_and_counts_as_no_evidence():
    seen = [diagnosis.sign("pin_holes")]
    more = [*seen, *diagnosis.absent(["pin_holes"])]
    assert len(more) == 22
    assert diagnosis.weigh(more)["unvented"] < diagnosis.weigh(seen)["unvented"]
    assert diagnosis.families(more) == {"gas"}


def test_those_lead_that_weigh_half_as_much_as_the_first_and_never_the_unknown():
    weights = {"a": 0.3, "b": 0.15, "c": 0.14, OTHER: 0.41}
    assert diagnosis.leading(weights) == ["a", "b"]


def test_at_most_four_lead():
    assert len(diagnosis.leading(dict.fromkeys("abcdef", 1 / 6))) == 4


def kinds(*names):
    return [clue({}, key=name, family=name) for name in names]


@pytest.mark.parametrize(
    ("weights", "clues", "told"),
    [
        ({"a": 0.6, "b": 0.2, OTHER: 0.2}, kinds("x", "y"), True),
        ({"a": 0.6, "b": 0.2, OTHER: 0.2}, kinds("x", "x"), False),
        ({"a": 0.44, "b": 0.2, OTHER: 0.2}, kinds("x", "y"), False),
        ({"a": 0.6, "b": 0.31, OTHER: 0.09}, kinds("x", "y"), False),
        ({OTHER: 0.8, "a": 0.1, "b": 0.1}, kinds("x", "y"), False),
        ({"a": 0.6, "b": 0.2, OTHER: 0.2}, kinds("x", "absent"), False),
    ],
)
def test_likely_takes_weight_a_margin_and_two_kinds_of_evidence(weights, clues, told):
    assert diagnosis.is_likely(weights, clues) is told


def test_a_test_that_tells_all_drops_all_uncertainty_and_one_that_tells_nothing_none():
    """Two causes alike: 1 bit. A test sure of each leaves 0; one that lies alike under both leaves 1."""
    weights = {"too_dry": 0.5, "too_wet": 0.5}
    sure = trial({"too_dry": (1.0, 0.0), "too_wet": (0.0, 1.0)})
    idle = trial({"too_dry": (0.3, 0.7), "too_wet": (0.3, 0.7)})
    assert diagnosis.expected_drop_bits(weights, sure) == pytest.approx(1)
    assert diagnosis.expected_drop_bits(weights, idle) == pytest.approx(0)


def test_a_test_in_between_by_hand():
    """Half each, outcomes 0.9/0.1 and 0.1/0.9: a binary channel that errs in 0.1, 1 − H(0.1) = 1 − 0.4690 = 0.5310 bit."""
    between = trial({"too_dry": (0.9, 0.1), "too_wet": (0.1, 0.9)})
    assert diagnosis.expected_drop_bits({"too_dry": 0.5, "too_wet": 0.5}, between) == pytest.approx(0.5310, abs=1e-4)


def test_the_next_test_parts_the_leaders():
    """Too wet from gas in the metal: a squeezed handful tells in a minute; with that done, the tin in five."""
    weights = {"too_wet": 0.4, "gas_in_metal": 0.4, OTHER: 0.2}
    assert diagnosis.next_trial(weights, []).key == "squeeze"
    assert diagnosis.next_trial(weights, ["clean_squeeze"]).key == "compactability"
    assert diagnosis.next_trial(weights, ["wet_squeeze", "compactability_read_pct"]).key not in ("squeeze", "compactability")


def test_the_worth_of_a_test_is_its_drop_over_the_root_of_its_minutes():
    weights = {"too_wet": 0.4, "gas_in_metal": 0.4, OTHER: 0.2}
    pair = {"too_wet": 0.4, "gas_in_metal": 0.4}
    for worth, trial in diagnosis.ranked_trials(weights, []):
        assert worth == pytest.approx(diagnosis.expected_drop_bits(pair, trial) / math.sqrt(trial.effort_min))


def test_a_lone_leader_is_parted_from_the_runner_up():
    weights = {"unvented": 0.7, "gas_in_metal": 0.1, "too_wet": 0.02, OTHER: 0.18}
    assert diagnosis.next_trial(weights, []).key in ("vents", "sample")


def test_nothing_is_left_where_all_is_tested():
    done = [trial.word or next(iter(trial.outcomes)) for trial in TRIALS.values()]
    assert diagnosis.next_trial(diagnosis.weigh([]), done) is None


def test_what_turns_it_does_turn_it():
    clues = [diagnosis.sign("blows"), diagnosis.sign("bubbling_sprue")]
    before = next(iter(diagnosis.weigh(clues)))
    turn = diagnosis.what_turns_it(clues, AL)
    assert turn.cause != before
    assert turn.cause in diagnosis.weigh(clues)


def test_nothing_turns_what_all_speaks_for():
    signs = ("too_dry", ["weak_squeeze", "dusty", "crumbling_edges", "cope_drops", "sand_in_metal"])
    clues = [diagnosis.sign(key) for key in signs[1]]
    clues += [diagnosis.reading(word, value, 0.0, AL) for word, value in (("moisture_pct_wet", 1.0), ("compactability_read_pct", 20))]
    assert next(iter(diagnosis.weigh(clues))) == signs[0]
    assert diagnosis.what_turns_it(clues * 3, AL) is None


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
    assert diagnosis.finding_in_words(TRIALS[key], at, AL) == words


def test_dusty_and_wet_contradict_and_dusty_and_weak_do_not():
    dusty, wet, weak = (diagnosis.sign(key) for key in ("dusty", "wet_squeeze", "weak_squeeze"))
    assert diagnosis.contradictions([dusty, wet]) == [(dusty, wet)]
    assert diagnosis.contradictions([dusty, weak, *diagnosis.absent(["dusty", "weak_squeeze"])]) == []


def test_a_dry_reading_contradicts_a_wet_handful():
    wet, dry = diagnosis.sign("wet_squeeze"), diagnosis.reading("moisture_pct_wet", 1.2, 0.3, AL)
    assert diagnosis.contradictions([wet, dry]) == [(wet, dry)]


def test_contrary_evidence_feeds_the_unknown_cause():
    one = diagnosis.weigh([diagnosis.sign("dusty")])[OTHER]
    assert diagnosis.weigh([diagnosis.sign("dusty"), diagnosis.sign("wet_squeeze")])[OTHER] > one


@pytest.mark.parametrize(("chance", "said"), [(0.2, 1), (0.1, 0), (0.05, -1), (0.12, 0)])
def test_a_clue_speaks_for_against_or_says_little(chance, said):
    assert diagnosis.speaks(clue({"too_dry": chance}), "too_dry") == said
