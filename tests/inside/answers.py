"""The answers of every job to its worked example and to wrong input; the same file runs here and inside Pyodide."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any


def main(words: list[str]) -> int:
    """Write the answers of the library that this interpreter finds."""
    (path,) = words
    from sandmix.doors.facade import call

    Path(f"/host{path}").write_text(json.dumps(answers(call)), encoding="utf-8")
    return 0


def answers(call: Callable[[str], str]) -> list[list[Any]]:
    """Pairs of request and answer."""
    description = json.loads(call('{"job": "describe"}'))
    questions = [{"job": "describe"}, {"job": "no such job"}, {"job": 7}]
    for job in description["jobs"]:
        ask = {"job": job["name"], "inputs": job["example"]}
        questions += [ask, ask | {"doubt": False}, ask | {"inputs": {}}, ask | {"inputs": {"no such word": "nonsense"}}]
        questions += [ask | {"inputs": job["example"] | {word: "nonsense"}} for word in job["example"]]
    return [[question, json.loads(call(json.dumps(question)))] for question in questions]
