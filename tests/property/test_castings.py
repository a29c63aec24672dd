"""Castings of any content: they are read or refused in words, and what is read is saved and read again as the same."""

from __future__ import annotations

import json

from effort import examples
from hypothesis import given
from hypothesis import strategies as st

from sandmix.asking.form import asks
from sandmix.doors.facade import call
from sandmix.jobs import JOBS
from sandmix.language.words import Choice, Quantity
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


STEPS = ("fit", "mix", "shopping", "temper", "flask", "pour", "burnout", "rebond")


@st.composite
def typed(draw):
    """An own figure for a step, as a box gives it: within its bounds or a bit beyond."""
    job = draw(st.sampled_from(STEPS))
    name, asked = draw(st.sampled_from([*asks(JOBS[job].form).items()]))
    match asked.word:
        case Quantity(low=low, high=high, unit=unit):
            usual = asked.usual or (low, min(high, 1000.0))
            number = f"{draw(st.floats(usual[0], usual[1])):.4g}"
            return (
                job,
                name,
                draw(st.sampled_from([number, f"{number} {unit}".strip(), {"value": number, "unit": unit}])),
            )
        case Choice(choices=choices):
            return job, name, draw(st.sampled_from([*choices, "nothing"]))
    return job, name, draw(st.text(max_size=8))


@examples(150)
@given(
    changes=st.lists(typed(), max_size=5),
    heap=st.booleans(),
    sizes=st.lists(st.floats(10, 200), min_size=3, max_size=3),
)
def test_a_step_with_own_figures_is_what_its_job_answers_to_them(changes, heap, sizes):
    own: dict[str, dict[str, object]] = {}
    for job, word, value in changes:
        own.setdefault(job, {})[word] = value
    figures = {"heap_kg": "45 kg", "moisture_pct_wet": "3.2 %", "clay_pct_dry": "6.5 %"} if heap else {}
    whole = {"format": "sandmix casting", "version": 1, "figures": {"box_mm": sizes, **figures}, "own": own}
    plan = ask("plan", casting=whole)
    assert "fault" not in plan, plan
    assert plan["ok"], plan
    for step in plan["steps"]:
        for word, value in own.get(step["job"], {}).items():
            if value not in ("", None) and str(value).strip():
                assert step["inputs"].get(word) == value
        answer = ask(step["job"], **step["inputs"])
        assert answer["ok"] == ("lead" in step)
        if answer["ok"]:
            assert [answer[part] for part in ("lead", "state", "headline")] == [
                step[part] for part in ("lead", "state", "headline")
            ]
