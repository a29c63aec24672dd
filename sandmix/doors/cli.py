"""The command line, drawn from the words: one command for each job, one option for each word.

An option is the word without its unit, with dashes for underscores: ``--heap`` for ``heap_kg``. Words in % or N keep their whole name.
The whole word always works, with dashes or underscores.
The exit status is 0 if answered and 2 if the input was refused.
"""

from __future__ import annotations

import argparse
import json
import re
import shlex
import sys
import textwrap
from collections.abc import Iterable, Sequence
from typing import Any

from sandmix import __version__
from sandmix.asking.form import Ask, asks
from sandmix.asking.job import AnyJob
from sandmix.book import book, book_file
from sandmix.book.events import CORRECTED, KINDS, UNDONE
from sandmix.book.heap import fold
from sandmix.doors import facade
from sandmix.doors.describe import describe
from sandmix.jobs import JOBS
from sandmix.language.errors import SandmixError
from sandmix.language.tables import Picks, Rows, Sizes, Table
from sandmix.language.texts import Data, Text, Timestamp, of_text
from sandmix.language.uploads import Upload
from sandmix.language.words import Choice, Quantity

_UNITS = (
    "_kg", "_g", "_l", "_ml", "_mm", "_cm", "_mm2", "_cm2", "_cm3", "_c", "_s", "_min", "_h", "_kpa", "_w_m2k",
)  # fmt: skip
"""The units that an option drops from the end of its word: all but percent and newton (beside ``load_kg`` stands ``load_n``)."""
WIDTH = 96
MOST_CONTRIBUTIONS = 4
LONGEST_CELL = 36
_NEGATIVE = re.compile(r"-[.,]?\d")
ROOM_BESIDE = 200


def option(word: str) -> str:
    """Return the option for *word*, as help shows it.

    >>> option("heap_kg"), option("moisture_pct_wet"), option("rammed_density_kg_l")
    ('--heap', '--moisture-pct-wet', '--rammed-density')
    """
    return options(word)[0]


def options(word: str) -> tuple[str, ...]:
    """Return all spellings of the option for *word*, the shortest first: its units may be left off, one after the other."""
    stems = [word]
    while unit := next((unit for unit in _UNITS if stems[-1].endswith(unit)), ""):
        stems.append(stems[-1].removesuffix(unit))
    return tuple(_dashed(stem) for stem in reversed(stems))


def options_of(words: Iterable[str]) -> dict[str, tuple[str, ...]]:
    """Return the spellings for all *words* of one command; one that is the whole name of another word belongs to that word."""
    whole = {word: _dashed(word) for word in words}
    return {
        word: tuple(said for said in options(word) if said == whole[word] or said not in whole.values())
        for word in whole
    }


def event_options() -> dict[str, tuple[str, ...]]:
    """Return the spellings for the words of all kinds of event, by which *heap* records one."""
    return options_of(_event_words())


def _event_words() -> dict[str, Ask]:
    return {word: part for kind in reversed([*KINDS.values()]) for word, part in asks(kind.form).items()}


def _dashed(name: str) -> str:
    return "--" + name.replace("_", "-")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status."""
    given = vars(_parser().parse_args(_normalised(sys.argv[1:] if arguments is None else arguments)))
    command = given.pop("command")
    if command == "call":
        return _say(facade.call(sys.stdin.read()))
    if command == "describe":
        return _say(json.dumps(describe(), ensure_ascii=False, indent=1))
    try:
        return _run(JOBS[command], given)
    except SandmixError as error:
        print(error, file=sys.stderr)
        return 2


def _run(job: AnyJob, given: dict[str, Any]) -> int:
    """Answer *job* with the options *given* and return the exit status; raises SandmixError where a file is the problem."""
    as_json, doubt, into = given.pop("json"), not given.pop("no_doubt"), given.pop("into", None)
    asked = asks(job.form)
    inputs = {word: _of_json(asked.get(word), value) for word, value in given.items() if value is not None}
    if job.name == "heap":
        inputs = _opened(inputs)
    uploads = {word: book_file.bytes_of(str(inputs[word])) for word in inputs if _is_upload(asked.get(word))}
    inputs |= {word: {"upload": word} for word in uploads}
    text = facade.call(json.dumps({"job": job.name, "inputs": inputs, "doubt": doubt}), uploads)
    answer = json.loads(text)
    if into and answer["ok"]:
        _write(into, answer["records"])
    if as_json:
        return _say(text)
    if not answer["ok"]:
        print(_refusal(answer, job), file=sys.stderr)
        return 2
    print(_table(answer))
    return 0


def _normalised(arguments: Sequence[str]) -> list[str]:
    """The arguments with dashes in each option, and a value such as -5kg tied to its option, so that it is not taken for one.

    >>> _normalised(["temper", "--heap_kg", "-5kg", "--json"])
    ['temper', '--heap-kg=-5kg', '--json']
    """
    tied: list[str] = []
    for argument in arguments:
        name, equals, value = argument.partition("=")
        if tied and tied[-1].startswith("--") and "=" not in tied[-1] and _NEGATIVE.match(argument):
            tied[-1] = f"{tied[-1]}={argument}"
        else:
            tied.append(f"{name.replace('_', '-')}{equals}{value}" if name.startswith("--") else argument)
    return tied


def _opened(inputs: dict[str, Any]) -> dict[str, Any]:
    """The inputs of *heap* with the book read from its file, after an event is recorded in it if one is given; raises SandmixError."""
    path = inputs.get("book", "")
    words = {word: value for word, value in inputs.items() if word not in ("book", "now", "record")}
    if path.lstrip().startswith(("[", "{")) or not path:
        if words or "record" in inputs:
            raise SandmixError("An entry is recorded in a file. Name the file with --book FILE.")
        return inputs
    now = inputs.get("now") or book_file.now_text()
    if "record" in inputs:
        event = {"kind": inputs["record"], "at": now, **words}
        book_file.change(path, lambda data: _with_event([] if data is None else data, event))
    elif words:
        spelled = event_options()
        raise SandmixError(
            f"{', '.join(spelled[word][0] for word in words)}: this belongs to an entry. Name its kind with --record."
        )
    return {"book": book_file.read(path), "now": now}


def _with_event(data: Any, event: dict[str, Any]) -> dict[str, Any]:
    opened = book.read(data)
    told = book.with_event(opened, event).to_dict()
    if len(json.dumps(told, ensure_ascii=False).encode("utf-8", "replace")) + ROOM_BESIDE > facade.LONGEST_TEXT:
        raise SandmixError("The book is full, and nothing was written. Begin a new one with a test of the heap.")
    return told


def _write(path: str, records: Sequence[dict[str, Any]]) -> None:
    """Write the entries that an answer suggests into the book of an empty heap, all of them or none; raises SandmixError."""
    if not records:
        raise SandmixError("There is nothing to write: the lots are not enough for this much sand. Ask for less.")
    at = book_file.now_text()

    def written(data: Any) -> dict[str, Any]:
        data = [] if data is None else data
        there_kg = fold(book.read(data).events).sand.wet_kg
        if there_kg > 0:
            raise SandmixError(
                f"{path} already holds {there_kg:.3g} kg of sand, but all lots are written at once into an empty heap. Name a "
                "new file, or record each missing lot with heap --record joined. Nothing was changed."
            )
        for record in records:
            data = _with_event(data, {"kind": record["kind"], "at": at, **record["words"]})
        return dict(data)

    book_file.change(path, written)


def _is_upload(part: Ask | None) -> bool:
    return part is not None and isinstance(part.word, Upload)


def _of_json(part: Ask | None, value: str) -> object:
    """The content of a table or list that is written in JSON; other text stays as it is, to be read or refused in words."""
    return of_text(value) if part is not None and isinstance(part.word, (Table, Rows)) else value


def _say(text: str) -> int:
    print(text)
    return 0 if json.loads(text)["ok"] else 2


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="sandmix",
        description="Green sand for a home foundry: mix, temper, fill the flask, pour, restore, blend, buy.",
    )
    parser.add_argument("--version", action="version", version=f"sandmix {__version__}")
    commands = parser.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for job in JOBS.values():
        _add_job(commands, job)
    commands.add_parser(
        "call",
        help="answer one JSON request from standard input",
        description="Read one JSON request and answer it in JSON.",
    )
    commands.add_parser(
        "describe",
        help="print all words, jobs and sources as JSON",
        description="Print all words, jobs and sources as JSON.",
    )
    return parser


def _add_job(commands: Any, job: AnyJob) -> None:
    example = " ".join(f"{option(word)} {_quoted(value)}" for word, value in job.example.items())
    if job.name == "heap":
        example = '--book heap.json --record poured --metal-kg "1.5 kg" --pattern "coat hooks"'
    parser = commands.add_parser(
        job.name,
        help=job.title,
        description=f"{job.title} {job.story}",
        epilog=f"Example: python3 -m sandmix {job.name} {example}",
        allow_abbrev=False,
    )
    parser.add_argument("--json", action="store_true", help="print the whole answer as JSON")
    parser.add_argument("--no-doubt", action="store_true", help="leave the likely ranges out of the JSON answer")
    if job.name == "heap":
        _add_events(parser)
    if job.name == "blend":
        words = (
            "write the lots and the additions into the book of an empty heap; the file is created if it does not exist"
        )
        parser.add_argument("--into", metavar="FILE", help=words)
    spelled = options_of(asks(job.form))
    for word, part in asks(job.form).items():
        parser.add_argument(*spelled[word], dest=word, metavar=_metavar(part), help=_help(part))


def _add_events(parser: argparse.ArgumentParser) -> None:
    """Add the words of all kinds of event, which record one in the file of a book."""
    group = parser.add_argument_group(
        "to record an entry in the file of a book", "--book FILE is created if it does not exist"
    )
    group.add_argument("--record", metavar="KIND", help=f"one of {', '.join([*KINDS, UNDONE, CORRECTED])}")
    group.add_argument("--at", metavar="WHEN", help="date and time of the entry; if left out, now")
    group.add_argument("--note", metavar="TEXT", help="anything worth remembering")
    group.add_argument("--of", metavar="ID", help="the entry to undo or correct")
    spelled = event_options()
    for word, part in _event_words().items():
        group.add_argument(*spelled[word], dest=word, metavar=_metavar(part), help=_help(part))


def _quoted(value: str) -> str:
    return f"'{value}'" if '"' in value else f'"{value}"'


def _metavar(part: Ask) -> str:
    match part.word:
        case Table() | Rows():
            return "JSON"
        case Upload() | Data():
            return "FILE"
        case Picks():
            return "LIST"
        case Timestamp():
            return "WHEN"
        case Text():
            return "TEXT"
        case Quantity(unit=unit) | Sizes(unit=unit):
            return (unit.upper() or "NUMBER").replace("%", "PCT")
        case _:
            return "CHOICE"


def _help(part: Ask) -> str:
    word = part.word
    if isinstance(word, Choice):
        default = f" (default {part.default})" if part.default is not None else ""
        return f"{part.label}: {', '.join(word.choices)}{default}".replace("%", "%%")
    if not isinstance(word, Quantity):
        return f"{part.label}; {word.allowed}. {part.help}".replace("%", "%%")
    basis = f", {word.basis}" if word.basis else ""
    default = f" (default {part.default:g})" if isinstance(part.default, (int, float)) else ""
    return f"{part.label}{basis}; {word.allowed}{default}. {part.help}".replace("%", "%%")


def _refusal(answer: dict[str, Any], job: AnyJob) -> str:
    asked = asks(job.form)
    return "\n".join(
        f"{option(problem['word']) + ': ' if problem['word'] in asked else ''}{problem['message']}"
        for problem in answer["problems"]
    )


def _table(answer: dict[str, Any]) -> str:
    lead = answer["lead"]
    lines = [
        answer["headline"],
        "",
        f"  {lead['label'].upper()}  {lead['text']}" + (f"   {lead['then']}" if lead["then"] else ""),
        "",
    ]
    if answer["state"]["tone"] == "stop" and answer["state"]["word"] != lead["text"]:
        lines[1:1] = ["", f"  {answer['state']['word'].upper()}"]
    if answer["todo"]:
        lines += ["What to do", *_numbered(answer["todo"]), ""]
    rows = [(row["label"], row["text"], row["range"], row["basis"]) for row in answer["shown"]]
    widths = [
        max((len(row[column]) for row in rows if len(row[column]) <= LONGEST_CELL), default=0) for column in (0, 1, 2)
    ]
    lines += [
        "  " + f"{label:<{widths[0]}}  {text:>{widths[1]}}  {band:<{widths[2]}}  {basis}".rstrip()
        for label, text, band, basis in rows
    ]
    if first := answer["first"]:
        lines += ["", "First"]
        lines += [
            line
            for text in (first["text"], *(f"Until then, do not: {text}" for text in first["not_before"]))
            for line in _wrapped(text)
        ]
    for card in answer["cards"]:
        lines += ["", f"{card['title']}: {card['text']}"]
        for point in card["points"]:
            lines += _wrapped(f"{point['name']}: {'; '.join(point['texts'])}")
    ticks = [check["text"] for check in answer["checklist"]]
    lists = (
        (
            "The day, step by step",
            [f"{step['label']}, {step['state']['word']}: {step['line']}" for step in answer["steps"]],
        ),
        ("Last entry in the book", list(_last_event(answer["timeline"]))),
        ("Checklist", ticks),
        (f"What makes “{lead['label'].lower()}” uncertain", list(_uncertain(answer))),
        ("Remarks", answer["remarks"]),
        ("Cautions", answer["cautions"]),
    )
    for title, entries in lists:
        if entries:
            lines += ["", title]
            for entry in entries:
                lines += _wrapped(entry)
    if answer["next"]:
        lines += ["", "Next", *(line for link in answer["next"] for line in _onward(link))]
    return "\n".join(lines)


def _uncertain(answer: dict[str, Any]) -> Iterable[str]:
    """The shares of the ± of the main figure, the largest first, and how to make it smaller."""
    word = answer["lead"]["word"]
    for one in answer.get("uncertainty", {}).get(word, ())[:MOST_CONTRIBUTIONS]:
        yield f"{one['text']}: {one['label']}"
    if step := answer.get("surer", {}).get(word):
        yield step["sentence"]


def _last_event(timeline: Sequence[dict[str, Any]]) -> Iterable[str]:
    """What the last entry of a book did, and how to undo it."""
    if timeline:
        last = timeline[-1]
        yield f"{last['id']}, {last['at']}: {last['label'].lower()}{': ' + last['text'] if last['text'] else ''}"
        yield from last["lines"]
        if last["can_undo"]:
            yield f"A mistake? --record {UNDONE} --of {last['id']} undoes it."


def _onward(link: dict[str, Any]) -> list[str]:
    """What to do next and the command for it, to be copied; without inputs where one is too long for a line."""
    start = f"  - {link['label']}{'' if link['label'].endswith('?') else ':'} sandmix {link['job']}"
    lines = [start]
    for word, value in link["inputs"].items():
        part = f" {option(word)} {shlex.quote(str(value))}"
        if len(part) > WIDTH - 8:
            return [start]
        if len(lines[-1]) + len(part) > WIDTH - 2:
            lines[-1] += " \\"
            lines.append("   ")
        lines[-1] += part
    return lines


def _numbered(todo: Sequence[dict[str, str]]) -> Iterable[str]:
    """What to do in its order, each with its amount before it."""
    width = max(len(one["amount"]) for one in todo)
    for at, one in enumerate(todo, start=1):
        yield from _wrapped(one["text"], f"  {at}. {one['amount']:>{width}} " if width else f"  {at}.")


def _wrapped(text: str, mark: str = "  -") -> list[str]:
    first, later = f"{mark} ", " " * (len(mark) + 1)
    return textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=later, break_long_words=False)
