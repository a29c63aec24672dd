"""True for every diagnosis: the order of the evidence does not matter, shares add up to one, and what more evidence may do."""

import math

import pytest
from effort import examples
from hypothesis import given
from hypothesis import strategies as st

from sandmix.defects.causes import CAUSES, NAMED, OTHER
from sandmix.defects.findings import CHECKS, READINGS, TRIALS
from sandmix.defects.signs import SYMPTOMS
from sandmix.diagnosis import next_test, ranking
from sandmix.materials.metals import METALS
from sandmix.vocabulary import WORDS

AL = METALS["aluminium"]
SIGNS = st.lists(st.sampled_from(list(SYMPTOMS)), unique=True, min_size=1, max_size=8)
ANY_CAUSE = st.sampled_from(list(CAUSES))


@st.composite
def readings(draw):
    word = draw(st.sampled_from(list(READINGS)))
    declared = WORDS[word]
    value = draw(st.floats(declared.low, declared.high))
    return ranking.reading(word, value, draw(st.floats(0, 5)), draw(st.sampled_from(list(METALS.values()))))


CLUES = st.one_of(
    st.sampled_from(list(SYMPTOMS)).map(ranking.sign), st.sampled_from(list(CHECKS)).map(ranking.check), readings()
)


@given(symptoms=SIGNS, data=st.data())
@examples()
def test_the_order_of_the_signs_does_not_matter(ask, symptoms, data):
    shuffled = data.draw(st.permutations(symptoms))
    assert ask("diagnose", symptoms=symptoms) == ask("diagnose", symptoms=shuffled)


@given(clues=st.lists(CLUES, max_size=8))
@examples()
def test_the_shares_add_up_to_one_and_none_is_missing(clues):
    shares = ranking.rank(clues)
    assert shares.keys() == CAUSES.keys()
    assert math.isclose(sum(shares.values()), 1)
    assert min(shares.values()) > 0
    assert shares[OTHER] > 0


@given(clues=st.lists(CLUES, max_size=6), more=CLUES, one=ANY_CAUSE, two=ANY_CAUSE)
@examples(300)
def test_evidence_never_lowers_a_cause_against_one_that_explains_it_less(clues, more, one, two):
    if more.chances[one] < more.chances[two]:
        one, two = two, one
    before, after = ranking.rank(clues), ranking.rank([*clues, more])
    assert after[one] / after[two] >= before[one] / before[two] * (1 - 1e-9)


@given(more=CLUES)
@examples()
def test_the_chances_of_a_clue_are_between_0_and_1(more):
    assert more.chances.keys() == CAUSES.keys()
    assert all(0 < chance <= 1 + 1e-12 for chance in more.chances.values())


@given(sign=st.sampled_from(list(SYMPTOMS)))
@examples()
def test_one_sign_is_never_called_likely(ask, sign):
    assert ask("diagnose", symptoms=[sign])["state"]["word"] == "not clear yet"


@given(clues=st.lists(CLUES, max_size=6), key=st.sampled_from(list(TRIALS)))
@examples()
def test_no_test_is_expected_to_add_uncertainty_or_remove_more_than_there_is(clues, key):
    shares = ranking.rank(clues)
    drop = next_test.expected_drop_bits(shares, TRIALS[key])
    assert 0 <= drop <= next_test.entropy_bits(shares.values()) + 1e-9


@given(clues=st.lists(CLUES, max_size=5))
@examples(60)
def test_a_reversal_puts_another_named_cause_first(clues):
    reversal = next_test.likeliest_reversal(clues, AL)
    if reversal is not None:
        before = next(cause for cause in ranking.rank(clues) if cause != OTHER)
        assert reversal.cause in NAMED
        assert reversal.cause != before


@pytest.mark.parametrize("inputs", ["lawful", "sensible"])
def test_any_input_is_answered_or_refused(ask, inputs, request):
    drawn = request.getfixturevalue(inputs)

    @examples(120)
    @given(asked=drawn("diagnose"))
    def holds(asked):
        answer = ask("diagnose", **asked)
        assert "fault" not in answer, answer
        if not answer["ok"]:
            assert all(problem["message"] for problem in answer["problems"])
            return
        causes = answer["result"]["causes"].values()
        assert math.isclose(sum(causes), 100)
        assert all(math.isfinite(points) and points >= 0 for points in causes)
        assert 1 <= len(answer["result"]["leading"]) <= 4
        assert answer["result"].get("next_test", "moisture") in TRIALS
        text = " ".join([answer["headline"], *answer["remarks"], *answer["cautions"], *answer["working"]]).lower()
        assert "nan" not in text.split()
        assert "safe" not in text

    holds()
