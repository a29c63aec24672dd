"""The jobs as functions of Python: each takes the words of its form as keywords and returns an `Answer`, or raises InputError."""

from __future__ import annotations

import inspect
import json
from collections.abc import Callable, Container, Iterator, Mapping
from functools import cache
from typing import Any

from sandmix.asking.answer import answer
from sandmix.asking.form import Ask, asks
from sandmix.asking.job import AnyJob
from sandmix.doors import document_file
from sandmix.doors.spelling import content_of, keywords_of
from sandmix.jobs import JOBS
from sandmix.language.errors import InputError, Problem, SandmixError
from sandmix.language.texts import Data, is_deeper, parsed
from sandmix.language.uploads import BYTES, Upload
from sandmix.language.words import Quantity
from sandmix.python.answered import Answer

Function = Callable[..., Answer[Mapping[str, Any]]]


@cache
def function(name: str) -> Function:
    """Return the job *name* as a function, with the signature and the description that `help` and a notebook show."""
    job = JOBS[name]

    def asked(**given: object) -> Answer[Mapping[str, Any]]:
        inputs = _inputs(job, given)
        return Answer(answer(job, inputs))

    asked.__name__ = asked.__qualname__ = job.name
    asked.__module__ = "sandmix.ask"
    asked.__doc__ = description(job)
    asked.__dict__["__signature__"] = inspect.Signature(
        [inspect.Parameter(name, inspect.Parameter.KEYWORD_ONLY, default=None) for name in keywords_of(asks(job.form))]
    )
    return asked


def description(job: AnyJob) -> str:
    """Return what the function of *job* does, and a line for each of its inputs and of its figures."""
    form = asks(job.form)
    keywords: dict[str, list[str]] = {}
    for keyword, word in keywords_of(form).items():
        keywords.setdefault(word, []).append(keyword)
    return "\n".join(
        (
            f"{job.title} {job.story}",
            "",
            f"Answered with {job.answered_with}.",
            "",
            "Inputs:",
            *(f"    {' or '.join(keywords[word])}: {_told(part)}" for word, part in form.items()),
            "",
            "Returns an Answer. Raises InputError with everything that is wrong in what was given.",
        )
    )


def _told(part: Ask) -> str:
    """The label of an input, its basis, what is allowed, and whether it is required or what stands for it."""
    word = part.word
    basis = f", {word.basis}" if isinstance(word, Quantity) and word.basis else ""
    left_out = (
        "; required" if part.required else "" if part.default is None else f"; {word.show(part.default)} if left out"
    )
    return f"{part.label}{basis}; {word.allowed}{left_out}"


def _inputs(job: AnyJob, given: Mapping[str, object]) -> dict[str, object]:
    """What was given by keyword as inputs of *job* by word, with the content of the files that were named; raises InputError."""
    form = asks(job.form)
    words = keywords_of(form)
    keyword_of: dict[str, str] = {}
    inputs: dict[str, object] = {}
    problems: list[Problem] = []
    for keyword, value in given.items():
        word = words.get(keyword, keyword)
        if value is None:
            continue
        if word in keyword_of:
            both = f"{keyword_of[word]} and {keyword}"
            said = f"{form[word].label}: this is given twice, as {both}. Give it once."
            problems.append(Problem(word=word, given=both, allowed="one of them", message=said))
            continue
        keyword_of[word] = keyword
        try:
            inputs[word] = _content(form.get(word), value)
        except SandmixError as error:
            said = f"{form[word].label}: {error}"
            problems.append(Problem(word=word, given=str(value), allowed=form[word].word.allowed, message=said))
    if problems:
        raise InputError([*problems, *_other_problems(job, inputs, {problem.word for problem in problems})])
    if "now" in form and document_file.is_file(given.get("book")):
        inputs.setdefault("now", document_file.now_text())
    return inputs


def _other_problems(job: AnyJob, inputs: Mapping[str, object], told: Container[str]) -> Iterator[Problem]:
    """What is wrong with other words than those of which a problem was told."""
    try:
        answer(job, inputs, doubt=False)
    except InputError as error:
        yield from (problem for problem in error.problems if problem.word not in told)


def _content(part: Ask | None, given: object) -> object:
    """What was given as plain data, or the content of the file that it names; raises SandmixError."""
    if part is not None and isinstance(part.word, Upload):
        return given if isinstance(given, BYTES) else document_file.bytes_of(str(given))
    if part is not None and isinstance(part.word, Data) and document_file.is_file(given):
        return document_file.read(str(given), document_file.KINDS[part.word.name])
    return content_of(part, _plain(given))


def _plain(given: object) -> object:
    """What was given as data that JSON can hold; what can't be is left to its word, which refuses it."""
    try:
        text = json.dumps(given, default=_other)
        return given if is_deeper(text) else parsed(text)
    except (TypeError, ValueError, RecursionError):
        return str(given) if isinstance(given, float) else given


def _other(given: object) -> object:
    """What stands for a value that JSON does not know: the text of a time or a path, the numbers of an array."""
    for name in ("isoformat", "__fspath__", "tolist"):
        if hasattr(given, name):
            return getattr(given, name)()
    raise TypeError
