"""True for every test of the sand and every estimate, for any readings within the bounds of the words."""

import json
import math

import pytest
from effort import examples
from hypothesis import assume, given
from hypothesis import strategies as st

from sandmix.bench.catalogue import TESTS
from sandmix.bench.estimates import Estimate, combine
from sandmix.doors.facade import call

DESCRIBED = json.loads(call('{"job": "describe"}'))
WORDS = DESCRIBED["words"]
ALSO = ("manner", "scale_step_g", "repeats", "wanted_error", "history", "specimen", "dose_ml")
ESTIMATE = next(job for job in DESCRIBED["jobs"] if job["name"] == "estimate")


def value_of(draw, word, *, usual):
    described = WORDS[word]
    if described["kind"] == "choice":
        return draw(st.sampled_from([choice["value"] for choice in described["choices"]]))
    if word == "repeats":
        return draw(st.integers(1, 6))
    if word == "history":
        return draw(st.lists(st.floats(0, 100), min_size=1, max_size=30))
    low, high = described["usual"] if usual and described["usual"] else (described["low"], described["high"])
    return draw(st.floats(low, high))


@st.composite
def bench_inputs(draw, usual):
    """One test with all its readings, each given in one way, and some of the inputs that every test has."""
    row = TESTS[draw(st.sampled_from(list(TESTS)))]
    words = [word for group in row.needs for word in draw(st.sampled_from(group))]
    words += [word for word in ALSO if draw(st.booleans())]
    asked = {"test": row.key} | {word: value_of(draw, word, usual=usual) for word in words}
    for whole, part in (
        ("sample_wet_g", "sample_dry_g"),
        ("sample_g", "left_g"),
        ("sample_g", "clay_washed_g"),
        ("height_before_mm", "height_after_mm"),
    ):
        if usual and {whole, part} <= asked.keys():
            asked[part] = asked[whole] * draw(st.floats(0.8, 1) if part != "clay_washed_g" else st.floats(0, 0.2))
    return asked


@st.composite
def estimate_inputs(draw):
    words = [part["word"] for part in ESTIMATE["asks"] if draw(st.booleans())]
    return {word: value_of(draw, word, usual=draw(st.booleans())) for word in words}


def sound(answer):
    assert "fault" not in answer, answer
    if not answer["ok"]:
        assert all(problem["message"] and problem["word"] for problem in answer["problems"])
        return
    for word, value in answer["result"].items():
        assert isinstance(value, str) or (math.isfinite(value) and value >= 0), (word, value)
    for word, (low, high) in answer["doubt"].items():
        value = answer["result"][word]
        assert 0 <= low <= value + 1e-9 * abs(value), word
        assert value <= high + 1e-9 * abs(value) < math.inf, word
    assert answer["lead"]["text"]
    assert all(0 < timer["after_s"] <= timer["latest_s"] for timer in answer["timers"])


@pytest.mark.parametrize("usual", [True, False])
def test_any_test_is_answered_soundly_or_refused(ask, usual):
    @examples(500)
    @given(asked=bench_inputs(usual))
    def holds(asked):
        sound(ask("bench", **asked))

    holds()


@given(asked=estimate_inputs())
@examples(500)
def test_any_estimate_is_answered_soundly_or_refused(ask, asked):
    sound(ask("estimate", **asked))


@pytest.mark.parametrize(("job", "drawn"), [("bench", bench_inputs(True)), ("estimate", estimate_inputs())])
def test_ranges_change_nothing_else_and_answers_repeat_exactly(call_bare, ask, without_ranges, job, drawn):
    @examples(150)
    @given(asked=drawn)
    def holds(asked):
        answer = ask(job, **asked)
        assert json.dumps(answer) == json.dumps(ask(job, **asked))
        assert call_bare(job, asked) == without_ranges(answer)

    holds()


@given(asked=bench_inputs(True), often=st.integers(2, 9))
@examples(200)
def test_repeating_never_makes_a_test_less_exact(ask, asked, often):
    assume(asked["test"] != "squeeze")
    once, more = (ask("bench", **asked | {"repeats": times}) for times in (1, often))
    assume(once["ok"])
    word = TESTS[asked["test"]].figure
    (low, high), (above, below) = once["doubt"][word], more["doubt"][word]
    assert above >= low - 1e-9
    assert below <= high + 1e-9


@given(asked=bench_inputs(True))
@examples(150)
def test_the_next_job_accepts_what_it_gets(ask, asked):
    answer = ask("bench", **asked)
    assume(answer["ok"])
    for link in answer["next"]:
        onward = ask(link["job"], **link["inputs"])
        problems = [] if onward["ok"] else onward["problems"]
        assert [problem for problem in problems if problem["word"] in link["inputs"]] == []


@given(st.lists(st.tuples(st.floats(0, 60), st.floats(0, 5)), min_size=1, max_size=4))
@examples(300)
def test_a_combined_estimate_lies_among_its_parts_and_is_never_too_exact(parts):
    found = combine([Estimate(key="", value=value, half_width=half) for value, half in parts])
    assert min(value for value, _ in parts) - 1e-9 <= found.value <= max(value for value, _ in parts) + 1e-9
    weights = sum(1 / max(half, 0.05) ** 2 for _, half in parts)
    assert found.half_width >= weights**-0.5 - 1e-9
