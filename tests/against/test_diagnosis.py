"""The ranking of causes against invented cases, and its arithmetic against a library.

Sources: (1) `cases_tuned.csv` and `cases_held_out.csv`: invented cases of defects, each with the cause that an experienced founder would
name. They were written from trade texts and common practice by somebody who did not see the table; none is a report of a real casting. The
cases of each cause were divided between the two files at random. The table was tuned on the first; the second was not opened while the
table was made. (2) `cases_fresh.json`: 60 cases written later, when causes in the mould and the metal were added, by somebody who had not
seen the causes or the signs. `cases_fresh.csv` maps them: `symptoms`, `found` and `readings` were ticked from the stories and the labels of
the signs alone, without looking at the causes; `left_out` is what no input can hold; `tests` are the next tests that the person who ticked
would do. After that came, from the author, `cause`, the next tests (`case_tests`) and the causes that are called possible too
(`possible`, no hits). `also` is there only because the program divides “gas in the metal” into two. Only then were they scored.
The tin readings count as standard ones, as in the other files. (3) scipy.stats.entropy and norm.
What the score is, and which chance it is compared with: `tests/bench/diagnosis.py`, which prints it.
Bounds: for the tuned file two cases below the score reached; for the held-out file a floor set before it was ever scored, far
above always naming the commonest cause (about one case in nine). The fresh cases have the floor of the held-out ones, set before they
were scored. No bound is moved to suit the table. For the next tests, four below the
score reached.
"""

import json
import sys
from itertools import pairwise
from pathlib import Path

import pytest
from against.published import Checks
from scipy.stats import entropy, norm

from sandmix.defects.findings import CHECKS, TRIALS
from sandmix.defects.signs import SYMPTOMS
from sandmix.diagnosis import next_test
from sandmix.diagnosis import ranking as engine

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "bench"))

import diagnosis as scored

BOUNDS = {"tuned": (0.86, 0.95, 0.35), "held out": (0.50, 0.75, 0.25), "fresh": (0.50, 0.75, 0.25)}
"""The least share of cases whose cause comes first, and is among the first three, and the least mean share of the named cause."""
CHANCE = 1 / 9
INVENTED = Checks("causes", source="invented_cases", sure="practice", claimed="project")
SCIPY = Checks("causes", source="scipy", sure="library")


def cases(name):
    path = scored.FILES[name]
    if not path.exists():
        pytest.skip(f"{path.name} is not here")
    return scored.cases_in(path)


def cases_with_and_without_checks(name):
    given = cases(name)
    return [given, scored.without_checks(given)] if name == "fresh" else [given]


@pytest.mark.parametrize("name", BOUNDS)
def test_the_ranking_finds_the_causes_of_the_cases(name):
    first, three, share = BOUNDS[name]
    for given, how in zip(cases_with_and_without_checks(name), ("", ", without what was found"), strict=False):
        score = scored.score(given)
        INVENTED.between(score.first, f"{first:.2f}", "", f"{name} cases whose cause comes first{how}")
        INVENTED.between(
            score.among_three, f"{three:.2f}", "", f"{name} cases whose cause is among the first three{how}"
        )
        INVENTED.between(score.mean_share, f"{share:.2f}", "", f"mean share of the named cause, {name} cases{how}")


@pytest.mark.parametrize("name", BOUNDS)
def test_the_ranking_is_far_better_than_the_commonest_cause(name):
    score = scored.score(cases(name))
    assert score.commonest_cause < 0.2
    assert score.first >= score.commonest_cause + 3 * CHANCE
    assert score.first >= score.priors_alone + 3 * CHANCE


@pytest.mark.parametrize("name", BOUNDS)
def test_the_cases_name_known_causes(name):
    named = {cause for case in cases(name) for cause in scored.accepted(case)}
    assert named <= set(scored.NAMED)
    assert len(cases(name)) >= 20


@pytest.mark.parametrize("name", BOUNDS)
def test_a_likely_cause_is_nearly_always_right(name):
    """At least nine in ten (three in four of the held-out cases); and at least one case in six is called likely."""
    likely = [
        scored.ranked(case)[0] in scored.accepted(case)
        for case in cases(name)
        if engine.is_likely(engine.rank(scored.clues_of(case)), scored.clues_of(case))
    ]
    least = 0.9 if name == "tuned" else 0.75
    INVENTED.between(sum(likely) / len(likely), f"{least:.2f}", "", f"likely causes that are right, {name} cases")
    assert len(likely) >= len(cases(name)) / 6


def test_the_causes_in_the_mould_and_the_metal_come_first_where_their_author_meant_them():
    score = scored.score(cases("metal"))
    INVENTED.between(score.first, "0.90", "", "cases of mould and metal whose cause comes first")
    assert score.among_three == 1, score


def test_the_next_test_is_one_that_a_founder_would_do():
    """34 of 44; the rule before it named an accepted one in 18, and the squeeze in 17, none of them accepted."""
    tuned = cases("tuned")
    accepted = scored.tests_of(tuned)
    named = {case["id"]: scored.test_named(case) for case in tuned}
    assert len(accepted) == len(tuned)
    right = sum(named[key] in tests for key, tests in accepted.items())
    INVENTED.between(right, "34", "", f"next tests that a founder would do, of {len(tuned)}")
    assert list(named.values()).count("squeeze") <= 2


def test_the_next_test_of_the_fresh_cases_is_far_better_than_always_naming_one_test():
    """A weak floor: always naming the remedy of the first cause would reach it too, see the bench script."""
    for given in cases_with_and_without_checks("fresh"):
        assert scored.share_of_next_tests(given) >= scored.best_constant_test(given) + 3 * CHANCE


def test_the_fresh_cases_are_those_of_their_author():
    told = json.loads((scored.FOLDER / "cases_fresh.json").read_text(encoding="utf-8"))["cases"]
    rows = cases("fresh")
    assert [row["id"] for row in rows] == sorted(case["id"] for case in told)
    assert all(set(scored.listed(row["symptoms"])) <= set(SYMPTOMS) for row in rows)
    assert all(set(scored.listed(row["found"])) <= set(CHECKS) for row in rows)
    assert all(scored.tests_of_both_readers(row) <= {*TRIALS, "remedy"} for row in rows)


@pytest.mark.parametrize("shares", [[1, 1], [0.7, 0.2, 0.1], [5, 3, 0, 1], [1.0]])
def test_entropy_is_that_of_scipy(shares):
    SCIPY.agrees(next_test.entropy_bits(shares), entropy(shares, base=2), "entropy, bits", within=1e-12)


@pytest.mark.parametrize(("value", "half_width"), [(3.0, 0.5), (4.4, 0.35), (9.0, 3.0)])
def test_a_reading_is_spread_over_its_bands_by_the_normal_distribution(value, half_width):
    edges = [2.0, 2.9, 4.5, 6.0]
    below = [0.0, *norm.cdf(edges, loc=value, scale=half_width / 1.96), 1.0]
    expected = [high - low for low, high in pairwise(below)]
    found = engine.shares_in_bands(value, half_width, edges)
    SCIPY.agrees(found, expected, "a reading spread over its bands by the normal curve", within=1e-12)
