"""Castings of any content: they are read or refused in words, and what is read is saved and read again as the same."""

from __future__ import annotations

import json

from effort import examples
from hypothesis import given
from hypothesis import strategies as st

from sandmix.doors.facade import call
from sandmix.vocabulary import WORDS

SCALARS = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(allow_nan=False, allow_infinity=False), st.text(max_size=20)
)
ANYTHING = st.recursive(
    SCALARS,
    lambda parts: st.one_of(st.lists(parts, max_size=4), st.dictionaries(st.text(max_size=8), parts, max_size=4)),
)
WORD = st.sampled_from(sorted(WORDS))
FIGURES = st.dictionaries(
    WORD, st.one_of(SCALARS, st.fixed_dictionaries({"value": SCALARS, "unit": SCALARS})), max_size=6
)
ROWS = st.lists(st.dictionaries(st.text(max_size=8), SCALARS, max_size=4), max_size=3)
PARTS = {
    "name": st.text(max_size=70),
    "begun": st.sampled_from(["", "2027-03-10", "2027-03-10T08:00Z", "soon"]),
    "finished": st.sampled_from(["", "2027-03-11"]),
    "figures": FIGURES,
    "own": st.dictionaries(st.sampled_from(["flask", "temper", "pour", "nothing"]), FIGURES, max_size=3),
    "pattern": st.fixed_dictionaries({"name": st.text(max_size=10), "figures": FIGURES}),
    "ticks": ROWS,
    "clocks": ROWS,
    "recorded": ROWS,
}
HOSTILE = {name: st.one_of(part, part, part, ANYTHING) for name, part in PARTS.items()}
VERSIONS = st.one_of(st.just(1), st.just(1), ANYTHING)


def ask(job, **inputs):
    return json.loads(call(json.dumps({"job": job, "inputs": inputs})))


@examples(400)
@given(parts=st.fixed_dictionaries({}, optional=HOSTILE), version=VERSIONS)
def test_a_casting_of_any_content_is_read_or_refused_in_words(parts, version):
    whole = {"format": "sandmix casting", "version": version, **parts}
    answer = ask("read_casting", casting=whole)
    assert "fault" not in answer, answer
    if answer["ok"]:
        assert ask("read_casting", casting=answer["casting"]) == answer
        assert ask("again", casting=answer["casting"], at="2027-03-10")["ok"]
    else:
        assert all(problem["message"].startswith("The casting: ") for problem in answer["problems"])


@examples(40)
@given(parts=st.fixed_dictionaries({}, optional=HOSTILE))
def test_a_plan_of_any_casting_is_answered_or_refused_in_words(parts):
    answer = ask("plan", casting={"format": "sandmix casting", "version": 1, **parts}, box_mm=[160, 90, 30])
    assert "fault" not in answer, answer
