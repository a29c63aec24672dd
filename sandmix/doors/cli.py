"""The command line: one command for each job, which reads and keeps its documents in files.

The exit status is 0 if answered and 2 if the input was refused.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from typing import Any

from sandmix.asking.form import Ask, asks
from sandmix.asking.job import AnyJob
from sandmix.doors import document_file, documents, facade, options, printing, terminal
from sandmix.doors.describe import describe
from sandmix.doors.spelling import content_of
from sandmix.jobs import JOBS
from sandmix.language.errors import InputError, SandmixError
from sandmix.language.uploads import Upload


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status."""
    given = vars(options.parsed(sys.argv[1:] if arguments is None else arguments))
    command = given.pop("command")
    if command == "call":
        return _say(facade.call("" if sys.stdin is None else sys.stdin.read(facade.LONGEST_TEXT + 1)))
    if command == "describe":
        return _say(json.dumps(describe(), ensure_ascii=False, indent=1))
    try:
        return _run(JOBS[command], given)
    except SandmixError as error:
        problems = [problem.message for problem in error.problems] if isinstance(error, InputError) else [str(error)]
        print("\n".join(map(terminal.clean, problems)), file=sys.stderr)
        return 2


def _run(job: AnyJob, given: dict[str, Any]) -> int:
    """Answer *job* with the options *given* and return the exit status; raises SandmixError where a file is the problem."""
    as_json, doubt = given.pop("json"), not given.pop("no_doubt")
    into, again = given.pop("into", None), given.pop("again", None)
    record = given.pop("record", None) if job.name == "plan" else None
    asked = asks(job.form)
    inputs = {word: content_of(asked.get(word), value) for word, value in given.items() if value is not None}

    def ask(inputs: dict[str, Any]) -> str:
        uploads = {word: document_file.bytes_of(str(inputs[word])) for word in inputs if _is_upload(asked.get(word))}
        named = inputs | {word: {"upload": word} for word in uploads}
        return facade.call(json.dumps({"job": job.name, "inputs": named, "doubt": doubt}), uploads)

    kept = ""
    if job.name == "plan":
        files = documents.PlanFiles(inputs=inputs, ask=ask, again=again, record=record)
        text = files.answer()
        kept = f"\nThe figures are kept in {files.casting}." if files.kept else ""
    else:
        text = ask(documents.of_heap(inputs) if job.name == "heap" else documents.with_book(inputs))
    answer = json.loads(text)
    if into and answer["ok"]:
        documents.write_records(into, answer["records"])
    if as_json:
        return _say(text)
    if not answer["ok"]:
        print(printing.refusal(answer, job) + terminal.clean_lines(kept), file=sys.stderr)
        return 2
    print(printing.table(answer, terminal.width()))
    return 0


def _is_upload(part: Ask | None) -> bool:
    return part is not None and isinstance(part.word, Upload)


def _say(text: str) -> int:
    print(terminal.clean_json(text))
    return 0 if json.loads(text)["ok"] else 2
