"""The types of the functions of Python: they are up to date, true of every example, and a type checker finds a misspelt word by them."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any, get_args, get_origin

import pytest

import ask_types
from sandmix import facade
from sandmix.jobs import JOBS

ROOT = Path(__file__).parents[2]
USERS = """
import sandmix
from sandmix import InputError
from sandmix.ask import flask

answer = sandmix.ask.temper(heap="45 kg", sample_wet="400 g", sample_dry=391, metal="aluminium")
dose: float = answer.result["first_water_kg"]
word: str = answer.state.word
try:
    full = flask(flask_length_mm=380, flask_width_mm=260, drag_depth_mm=95, cope_depth=90, heap_kg=45)
except InputError as error:
    print([problem.message for problem in error.problems])
else:
    print(f"{dose + full.result['rammed_kg']:.1f}", word)
sandmix.ask.flask(flask_length="380 mm", flask_width="260 mm", drag_depth="95 mm")
sandmix.ask.fineness(retained={50: 21.4, "pan": 0.2})
sandmix.ask.heap(book="heap.json")
"""
MISTAKES = {
    'sandmix.ask.temper(heep="45 kg")': 'Unexpected keyword argument "heep" for "temper"',
    'sandmix.ask.temper(heap="45 kg", metal="alluminium")': 'Argument "metal" to "temper" has incompatible type',
    'sandmix.ask.temper(heap=45).result["first_water"]': 'TypedDict "TemperResult" has no key "first_water"',
    "sandmix.ask.flask(flask_length_mm=380)": 'No overload variant of "flask" matches',
    "sandmix.ask.heap()": 'Missing named argument "book" for "heap"',
    "sandmix.ask.tempr(heap=1)": 'Module has no attribute "tempr"',
}


def test_the_types_are_those_of_the_forms() -> None:
    assert ask_types.FILE.read_text("utf-8") == ask_types.text(), "run python3 site/ask_types.py"


def test_a_type_checker_accepts_what_a_user_writes_and_finds_each_mistake(tmp_path: Path) -> None:
    (tmp_path / "users.py").write_text(USERS, "utf-8")
    (tmp_path / "mistakes.py").write_text("\n".join(("import sandmix", *MISTAKES)), "utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "mypy", "--strict", "--hide-error-context", "--cache-dir", str(tmp_path), "users.py", "mistakes.py"],
        cwd=tmp_path,
        env={"MYPYPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=False,
    )  # fmt: skip
    errors = [line for line in done.stdout.splitlines() if ": error: " in line]
    assert [line.split(":")[:2] for line in errors] == [["mistakes.py", str(2 + at)] for at in range(len(MISTAKES))]
    assert all(words in line for line, words in zip(errors, MISTAKES.values(), strict=True))


@pytest.mark.parametrize(
    "job", [job if job in ("mix", "match") else pytest.param(job, marks=pytest.mark.full) for job in JOBS]
)
def test_the_figures_of_an_example_have_the_types_that_are_promised(job: str) -> None:
    names: dict[str, Any] = {}
    exec(compile(ask_types.text(), "ask.pyi", "exec", dont_inherit=True), names)
    told = json.loads(facade.call(json.dumps({"job": job, "inputs": dict(JOBS[job].example)})))["result"]
    kinds = names[f"{job.capitalize()}Result"].__annotations__
    assert set(told) <= set(kinds)
    assert [(word, value) for word, value in told.items() if not _is(value, kinds[word])] == []


def _is(value: Any, kind: Any) -> bool:
    """Whether a value has a type: a plain one, a literal, or a list or dictionary of such."""
    parts = get_args(kind)
    match get_origin(kind):
        case None:
            return kind is object or isinstance(value, (int, float) if kind is float else kind)
        case _ if kind.__class__.__name__ == "_LiteralGenericAlias":
            return value in parts
        case whole if whole is dict:
            return isinstance(value, dict) and all(_is(part, parts[1]) for part in value.values())
        case whole:
            return isinstance(value, whole) and all(_is(part, parts[0]) for part in value)
