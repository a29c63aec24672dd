"""The one door for the command line, the browser and outside tools: JSON text in, JSON text out.

`call` never raises and never gives NaN, infinity, or a negative mass to add; what is wrong comes back as problems in words.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from . import units
from .describe import Answer, describe
from .doubt import Band, spread
from .errors import InputError, Problem
from .form import Filled, asks, fill
from .job import Figures, Job, Telling, Told
from .jobs import JOBS
from .sources import SOURCES
from .vocabulary import WORDS
from .words import Quantity, Value, plain, shown_given

LONGEST_TEXT = 8_000_000
LONGEST_UPLOAD = 256_000_000


def call(text: str, uploads: Mapping[str, bytes] | None = None) -> str:
    """Return the answer to the request *text*, as JSON text.

    A request is ``{"job": name, "inputs": {word: value}}``; see DOOR in the documentation for the words. *uploads* maps names to bytes
    that an Upload word may refer to. Raises nothing.

    >>> json.loads(call('{"job": "temper", "inputs": {"heap_kg": 25, "moisture_pct_wet": 2}}'))["result"]["verdict"]
    'temper'
    """
    try:
        answer = _answer(_request(text, uploads or {}))
    except InputError as error:
        answer = {"ok": False, "problems": [_problem(problem) for problem in error.problems]}
    except RecursionError:
        answer = {
            "ok": False,
            "problems": [
                _problem(
                    _whole(
                        "a deeply nested text", "the request is nested too deeply. Send one object with job and inputs."
                    )
                )
            ],
        }
    except Exception as fault:
        answer = {
            "ok": False,
            "problems": [
                _problem(
                    _whole(
                        "this request",
                        (
                            f"sandmix itself has a fault here ({type(fault).__name__}): what you gave is kept. Tell "
                            "its makers what you typed."
                        ),
                    )
                )
            ],
            "fault": repr(fault),
        }
    return json.dumps(answer, allow_nan=False, ensure_ascii=False)


def answer(job: Job[Any], inputs: Mapping[str, object], *, doubt: bool = True) -> Answer:
    """Return the answer of *job* to *inputs* as plain data; raises InputError with all that is wrong."""
    filled = job.settle(fill(job.form, inputs))
    figures: Figures = {word: value for word, value in job.run(filled.form).items() if value is not None}
    bands = _bands(job, filled, figures)
    figures |= job.finish(filled, figures, bands)
    told = Told(filled=filled, figures=figures, doubt=bands)
    telling = job.tell(told)
    result: Figures = {word: figures[word] for word in job.answers if word in figures}
    return {
        "ok": True,
        "job": job.name,
        "headline": telling.headline,
        "result": result,
        **({"doubt": {word: list(bands[word]) for word in result if word in bands}} if doubt else {}),
        "remarks": [*filled.remarks, *telling.remarks, *_left_out(job, filled, result)],
        "cautions": [str(caution) for caution in telling.cautions],
        "working": list(telling.working),
        "charts": [],
        "drawings": dict(telling.drawings),
        "sources": {key: SOURCES[key].citation for key in _source_keys(job, filled, result, telling)},
        "state": {"word": telling.state[0], "tone": telling.state[1]},
        "lead": {
            "word": telling.lead.word,
            "label": telling.lead.label,
            "text": telling.lead.text,
            "then": telling.lead.then,
            "sentence": telling.headline,
        },
        "shown": [
            {
                "word": word,
                "label": WORDS[word].label,
                "text": told.text(word),
                "range": told.range(word),
                "basis": getattr(WORDS[word], "basis", ""),
            }
            for word in result
        ],
        "next": [{"job": link.job, "label": link.label, "inputs": dict(link.inputs)} for link in telling.next],
    }


def convert(inputs: Mapping[str, object]) -> Answer:
    """Return an amount of a word in another of its units, as text for the box it is typed in; raises InputError."""
    word = WORDS.get(str(inputs.get("word")))
    to = inputs.get("to")
    if not isinstance(word, Quantity):
        raise InputError(
            [_whole(shown_given(inputs.get("word")), "only a quantity can be converted. Name one of the words.")]
        )
    allowed = units.same_dimension(word.unit)
    if to not in allowed:
        raise InputError(
            [
                Problem(
                    word=word.name,
                    given=shown_given(to),
                    allowed=", ".join(allowed),
                    message=f"{word.label}: “{shown_given(to)}” is not a unit for it. Use one of {', '.join(allowed)}.",
                )
            ]
        )
    value = word.read(inputs.get("given")).value
    assert isinstance(value, float)
    return {"ok": True, "job": "convert", "text": plain(units.convert(value, word.unit, str(to)))}


def _request(text: str, uploads: Mapping[str, bytes]) -> Mapping[str, object]:
    size = len(text.encode("utf-8", "surrogatepass"))
    if size > LONGEST_TEXT:
        too_long = f"the request is longer than {LONGEST_TEXT} bytes. Send large files as uploads."
        raise InputError([_whole(f"{size} bytes", too_long)])
    if sum(len(data) for data in uploads.values()) > LONGEST_UPLOAD:
        raise InputError(
            [_whole("the uploads", f"they are larger than {LONGEST_UPLOAD} bytes in all. Send less at once.")]
        )
    try:
        request = json.loads(text, parse_constant=_no_constant)
    except ValueError:
        raise InputError(
            [
                _whole(
                    shown_given(text), 'the request is no JSON. Send an object such as {"job": "temper", "inputs": {}}.'
                )
            ]
        ) from None
    if not isinstance(request, dict):
        raise InputError([_whole(shown_given(text), "the request is no object. Send one with job and inputs.")])
    return request


def _no_constant(name: str) -> float:
    raise ValueError(name)


def _answer(request: Mapping[str, object]) -> Answer:
    name, inputs = request.get("job"), request.get("inputs", {})
    names = [*JOBS, "convert", "describe"]
    problems = []
    if not isinstance(name, str) or name not in names:
        problems.append(
            Problem(
                word="job",
                given=shown_given(name),
                allowed=", ".join(names),
                message=f"Job: “{shown_given(name)}” is no job. Name one of {', '.join(names)}.",
            )
        )
    if not isinstance(inputs, dict):
        problems.append(
            Problem(
                word="inputs",
                given=shown_given(inputs),
                allowed="an object",
                message='Inputs: they are an object of words and values, such as {"heap_kg": 25}. Send that.',
            )
        )
    if problems:
        raise InputError(problems)
    assert isinstance(name, str) and isinstance(inputs, dict)
    if name == "describe":
        return describe()
    if name == "convert":
        return convert(inputs)
    return answer(JOBS[name], inputs, doubt=request.get("doubt", True) is not False)


def _bands(job: Job[Any], filled: Filled[Any], figures: Figures) -> dict[str, Band]:
    bands = spread(lambda moved: job.run(replace(filled.form, **moved)), filled.bands, figures)
    return {
        name: _within(name, band, figures[name])
        for name, band in bands.items()
        if math.isfinite(band[0]) and math.isfinite(band[1])
    }


def _within(name: str, band: Band, value: Value) -> Band:
    word = WORDS[name]
    assert isinstance(word, Quantity) and isinstance(value, float)
    return max(min(word.low, value), band[0]), band[1]


def _left_out(job: Job[Any], filled: Filled[Any], result: Figures) -> Iterable[str]:
    """One remark for each set of words without which some answers are left out."""
    asked = asks(job.form)
    missing: dict[tuple[str, ...], list[str]] = {}
    for word, needs in job.needs(filled.form, result).items():
        absent = tuple(need for need in needs if getattr(filled.form, need) is None)
        if word not in result and absent:
            missing.setdefault(absent, []).append(WORDS[word].label.lower())
    for absent, answers in missing.items():
        yield (
            f"Left out: {', '.join(answers)}. To have it, give "
            f"{', '.join(asked[need].label.lower() for need in absent)}."
        )


def _source_keys(job: Job[Any], filled: Filled[Any], result: Figures, telling: Telling) -> list[str]:
    used = [name for name in asks(job.form) if getattr(filled.form, name) is not None]
    keys = [WORDS[name].source for name in (*used, *result)] + [caution.source for caution in telling.cautions]
    return list(dict.fromkeys(keys))


def _whole(given: str, what_to_do: str) -> Problem:
    return Problem(word="", given=given, allowed="", message=f"Request: {what_to_do}")


def _problem(problem: Problem) -> Answer:
    return {"word": problem.word, "given": problem.given, "allowed": problem.allowed, "message": problem.message}
