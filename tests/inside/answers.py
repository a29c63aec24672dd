"""The answers of every job to its worked example, to wrong input, and to inputs drawn by chance; the same file runs here and inside Pyodide."""

from __future__ import annotations

import json
import random
import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

SEED = 15
NUMBER = re.compile(r"\d+(?:\.\d+)?")
LEFT_OUT, CHANGED, ADDED, WITHOUT_RANGES = 0.05, 0.3, 0.15, 0.5
"""How often each of these happens to an input, and the last to a question."""


def main(words: list[str]) -> int:
    """Write the answers of the library that this interpreter finds."""
    path, count = words
    from sandmix.doors.facade import call

    Path(f"/host{path}").write_text(json.dumps(answers(call, int(count))), encoding="utf-8")
    return 0


def answers(call: Callable[[str], str], count: int) -> list[list[Any]]:
    """Pairs of request and answer, with *count* requests drawn by chance."""
    description = json.loads(call('{"job": "describe"}'))
    questions = [{"job": "describe"}, {"job": "no such job"}, {"job": 7}]
    for job in description["jobs"]:
        ask = {"job": job["name"], "inputs": job["example"]}
        questions += [ask, ask | {"doubt": False}, ask | {"inputs": {}}, ask | {"inputs": {"no such word": "nonsense"}}]
        questions += [ask | {"inputs": job["example"] | {word: "nonsense"}} for word in job["example"]]
    questions += drawn(description, count)
    return [[question, json.loads(call(json.dumps(question)))] for question in questions]


def drawn(description: dict[str, Any], count: int) -> Iterator[dict[str, Any]]:
    """Questions around the example of each job in turn: the same ones in every interpreter."""
    chance = random.Random(SEED)
    for at in range(count):
        job = description["jobs"][at % len(description["jobs"])]
        inputs = _drawn(job, description["words"], chance)
        yield {"job": job["name"], "inputs": inputs, "doubt": chance.random() >= WITHOUT_RANGES}


def _drawn(job: dict[str, Any], words: dict[str, Any], chance: random.Random) -> dict[str, Any]:
    """Inputs near a job's example: each number moved, some choices changed, some inputs left out, others added from their usual range."""
    inputs: dict[str, Any] = {}
    for asked in job["asks"]:
        word = words[asked["word"]]
        given = job["example"].get(word["name"])
        if word["kind"] == "choice" and chance.random() < (ADDED if given is None else CHANGED):
            inputs[word["name"]] = chance.choice(word["choices"])["value"]
        elif given is None and word["kind"] == "quantity" and word["usual"] and chance.random() < ADDED:
            figures = ".0f" if word["basis"].startswith("whole ") else ".5g"
            inputs[word["name"]] = f"{chance.uniform(*word['usual']):{figures}} {word['unit']}"
        elif given is not None and chance.random() >= LEFT_OUT:
            moves = word["kind"] in ("quantity", "sizes") and not word.get("basis", "").startswith("whole ")
            inputs[word["name"]] = NUMBER.sub(lambda number: _moved(number[0], chance), given) if moves else given
    return inputs


def _moved(number: str, chance: random.Random) -> str:
    """A number up to a seventh larger or smaller."""
    return f"{float(number) * chance.uniform(6 / 7, 7 / 6):.5g}"
