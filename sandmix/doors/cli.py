"""The command line: one command for each job, which reads and keeps its documents in files.

The exit status is 0 if answered and 2 if the input was refused.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Mapping, Sequence
from typing import Any

from sandmix.asking.form import Ask, asks
from sandmix.asking.job import AnyJob
from sandmix.doors import completion, document_file, documents, facade, options, printing, terminal, watch
from sandmix.doors.describe import describe
from sandmix.doors.spelling import content_of
from sandmix.jobs import JOBS
from sandmix.language.errors import InputError, SandmixError
from sandmix.language.shown_units import wish_of
from sandmix.language.uploads import Upload


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status."""
    given = vars(options.parsed(sys.argv[1:] if arguments is None else arguments))
    command = given.pop("command")
    if command == "call":
        return _say(facade.call("" if sys.stdin is None else sys.stdin.read(facade.LONGEST_TEXT + 1)))
    if command == "describe":
        return _say(json.dumps(describe(), ensure_ascii=False, indent=1))
    if command == "completion":
        print(completion.script(given["shell"]), end="")
        return 0
    is_watched = given.pop("watch", False)
    return _watched(JOBS[command], given) if is_watched else _answered(JOBS[command], given)


def _answered(job: AnyJob, given: Mapping[str, Any]) -> int:
    """Answer *job* with the options *given*, or print what is wrong, and return the exit status."""
    try:
        return _run(job, dict(given))
    except SandmixError as error:
        problems = [problem.message for problem in error.problems] if isinstance(error, InputError) else [str(error)]
        print("\n".join(map(terminal.clean, problems)), file=sys.stderr)
        return 2


def _watched(job: AnyJob, given: Mapping[str, Any]) -> int:
    """Answer *job* now, and again each time a document that it reads changes, until Ctrl+C ends the program; return 2 if it can't be watched."""
    files = [given[word] for word in document_file.KINDS if document_file.is_file(given.get(word))]
    if trouble := _not_to_watch(job, given, files):
        print(terminal.clean(f"--watch: {trouble}"), file=sys.stderr)
        return 2
    for at, _ in enumerate(watch.changes(files)):
        if at and not given["json"]:
            print(terminal.clean(f"--- {' and '.join(files)} changed, {document_file.now_text()}"), end="\n\n")
        _answered(job, given)
        sys.stdout.flush()
    return 0


def _not_to_watch(job: AnyJob, given: Mapping[str, Any], files: Sequence[str]) -> str:
    """Why a command can't be answered again and again, in words, or nothing."""
    if not document_file.is_file(given.get("book")):
        return "the file of a book is watched. Name it with --book FILE."
    if any(given.get(name) for name in ("record", "again", "into")):
        return "a command that writes can't be repeated. Give the command without --watch first, then watch."
    own = [word for word in asks(job.form) if word not in (*document_file.KINDS, "now") and given.get(word) is not None]
    if "casting" in asks(job.form) and len(files) > 1 and own:
        return f"the figures would be written into {files[1]} each time. Give them without --watch first, then watch."
    return ""


def _run(job: AnyJob, given: dict[str, Any]) -> int:
    """Answer *job* with the options *given* and return the exit status; raises SandmixError where a file is the problem."""
    as_json, doubt, units = given.pop("json"), not given.pop("no_doubt"), given.pop("shown_in")
    shown_in = {} if units is None else {"shown_in": wish_of(units)}
    into, again = given.pop("into", None), given.pop("again", None)
    record = given.pop("record", None) if job.name == "plan" else None
    asked = asks(job.form)
    inputs = {word: content_of(asked.get(word), value) for word, value in given.items() if value is not None}

    def ask(inputs: dict[str, Any]) -> str:
        uploads = {word: document_file.bytes_of(str(inputs[word])) for word in inputs if _is_upload(asked.get(word))}
        named = inputs | {word: {"upload": word} for word in uploads}
        return facade.call(json.dumps({"job": job.name, "inputs": named, "doubt": doubt} | shown_in), uploads)

    said: list[str] = []
    if job.name == "plan":
        files = documents.PlanFiles(inputs=inputs, ask=ask, again=again, record=record)
        text = files.answer()
        said = files.said
    else:
        text = ask(documents.of_heap(inputs) if job.name == "heap" else documents.with_book(inputs))
    answer = json.loads(text)
    if into and answer["ok"]:
        documents.write_records(into, answer["records"])
    if as_json:
        return _say(text)
    if not answer["ok"]:
        print("\n".join((printing.refusal(answer, job, inputs), *map(terminal.clean, said))), file=sys.stderr)
        return 2
    named = {word: given[word] for word in ("casting", "book", "now") if document_file.is_file(given.get(word))}
    print(printing.table(answer, terminal.width(), named))
    if said:
        print(printing.said(said, terminal.width()))
    return 0


def _is_upload(part: Ask | None) -> bool:
    return part is not None and isinstance(part.word, Upload)


def _say(text: str) -> int:
    print(terminal.clean_json(text))
    return 0 if json.loads(text)["ok"] else 2
