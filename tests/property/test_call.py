"""The door never raises and never faults, whatever text or JSON comes in, and what goes out can be written down."""

import json

from effort import examples
from hypothesis import given
from hypothesis import strategies as st

from sandmix.doors.facade import call

DESCRIBED = json.loads(call('{"job": "describe"}'))
JOBS = [job["name"] for job in DESCRIBED["jobs"]] + ["convert", "describe"]
NAMES = st.one_of(
    st.sampled_from([*DESCRIBED["words"], "word", "given", "to", "value", "unit", "doubt"]), st.text(max_size=8)
)
LEAVES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=12),
    st.sampled_from([10**400, -(10**400), "1e999", "2,5 kg", "3 lb 4 oz", "5 gal"]),
)
VALUES = st.recursive(
    LEAVES,
    lambda inner: st.one_of(
        st.lists(inner, max_size=3),
        st.dictionaries(NAMES, inner, max_size=3),
        st.fixed_dictionaries(
            {"value": inner},
            optional={"unit": st.one_of(inner, st.sampled_from(["kg", "g", "lb", "mm"])), "doubt": inner},
        ),
    ),
    max_leaves=6,
)


def answered(text):
    said = call(text)
    said.encode("utf-8")
    answer = json.loads(said, parse_constant=lambda name: pytest_fail(name))
    assert isinstance(answer["ok"], bool)
    assert "fault" not in answer, answer
    if not answer["ok"]:
        assert answer["problems"]
        assert all(
            set(problem) == {"word", "given", "allowed", "message"} and problem["message"]
            for problem in answer["problems"]
        )


def pytest_fail(name):
    raise AssertionError(f"{name} in an answer")


@given(st.text())
def test_any_text(text):
    answered(text)


@given(VALUES)
def test_any_json(value):
    answered(json.dumps(value))


@given(st.sampled_from(JOBS), st.dictionaries(NAMES, VALUES, max_size=6))
@examples(500)
def test_any_inputs_of_any_job(job, inputs):
    answered(json.dumps({"job": job, "inputs": inputs}))


@given(st.sampled_from(list(DESCRIBED["jobs"])), st.data())
@examples(500)
def test_an_example_with_anything_in_one_of_its_boxes(job, data):
    word = data.draw(st.sampled_from([part["word"] for part in job["asks"]]))
    answered(json.dumps({"job": job["name"], "inputs": job["example"] | {word: data.draw(VALUES)}}))
