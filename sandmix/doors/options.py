"""The parser of the command line, drawn from the words: one command for each job, one option for each word."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Iterable, Sequence
from itertools import takewhile
from typing import Any, NoReturn

from sandmix import __version__
from sandmix.asking.form import Ask, asks
from sandmix.asking.job import GROUPS, AnyJob
from sandmix.book.events import CORRECTED, KINDS, UNDONE
from sandmix.doors.spelling import event_options, event_words, nearest, option, options_of, typed
from sandmix.doors.terminal import clean
from sandmix.jobs import JOBS
from sandmix.language.tables import Picks, Rows, Sizes, Table
from sandmix.language.texts import Data, Text, Timestamp
from sandmix.language.uploads import Upload
from sandmix.language.words import Choice, Quantity

OF_FILES = {"heap": ("--record", "--at", "--note", "--of"), "plan": ("--again", "--record"), "blend": ("--into",)}
"""Options of a command that are no words: what it does with its files."""
DOCUMENTS = {
    "book": "the file of the heap book: the heap is read from it",
    "casting": "the file that keeps this casting: it is created if it does not exist, and the figures given here are written into it",
}
"""Help for the documents that a command reads from files."""
OTHER_COMMANDS = {
    "call": ("answer one JSON request from standard input", "Read one JSON request and answer it in JSON."),
    "describe": ("print all words, jobs and sources as JSON", "Print all words, jobs and sources as JSON."),
}
"""The commands that are no jobs, each with its line in the list of commands and its description."""
_NEGATIVE = re.compile(r"-[.,]?\d")


def parsed(arguments: Sequence[str]) -> argparse.Namespace:
    """Return what the *arguments* name; ends the program with status 2 and the reason if they cannot be read."""
    whole = parser()
    if not arguments:
        whole.print_help(sys.stderr)
        raise SystemExit(2)
    if (command := arguments[0]) not in (*JOBS, *OTHER_COMMANDS, "-h", "--help", "--version"):
        if command.startswith("-"):
            whole.error(f"“{command}” comes before the command. Write the command first, then its options.")
        hint = nearest(command, (*JOBS, *OTHER_COMMANDS)) or " See sandmix --help."
        whole.error(f"“{command}” isn't a command.{hint}")
    given, unknown = whole.parse_known_args(normalised(arguments))
    if unknown:
        named = unknown[0].partition("=")[0]
        hint = _to_quote(arguments, named) or nearest(named, _spellings(given.command))
        whole.error(
            f"“{unknown[0]}” isn't an option of {given.command}.{hint or f' See sandmix {given.command} --help.'}"
        )
    return given


def _to_quote(arguments: Sequence[str], stray: str) -> str:
    """What to type where a value has spaces but no quotes, so that *stray* stands after it; or nothing."""
    for at in range(2, len(arguments)):
        *_, name, first = arguments[:at]
        if first.startswith("--") and "=" in first:
            name, _, first = first.partition("=")
        if arguments[at] == stray and name.startswith("--") and not first.startswith("--"):
            rest = takewhile(lambda word: not word.startswith("--"), arguments[at:])
            return f" A value with spaces needs quotes: {name} {_quoted(' '.join((first, *rest)))}."
    return ""


def _spellings(command: str) -> list[str]:
    """All spellings of the options of a job."""
    if command not in JOBS:
        return []
    words = options_of(asks(JOBS[command].form)) | (event_options() if command == "heap" else {})
    return [
        "--json",
        "--no-doubt",
        *OF_FILES.get(command, ()),
        *(spelling for spellings in words.values() for spelling in spellings),
    ]


def normalised(arguments: Sequence[str]) -> list[str]:
    """Return the arguments with dashes in each option, and a value such as -5kg tied to its option, so that it is not taken for one.

    >>> normalised(["temper", "--heap_kg", "-5kg", "--json"])
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


class _Parser(argparse.ArgumentParser):
    """A parser whose errors a terminal can show, whatever was typed."""

    def error(self, message: str) -> NoReturn:
        super().error(clean(message))


class _Once(argparse.Action):
    """Keeps the value of an option, and refuses a second one."""

    def __call__(
        self,
        parser: argparse.ArgumentParser,
        namespace: argparse.Namespace,
        values: Any,
        option_string: str | None = None,
    ) -> None:
        if getattr(namespace, self.dest) is not None:
            parser.error(f"{option_string} is given twice. Give it once.")
        setattr(namespace, self.dest, values)


def parser() -> argparse.ArgumentParser:
    """Return the parser of the whole command line."""
    whole = _Parser(
        prog="sandmix",
        description="Green sand for a home foundry: mix, temper, fill the flask, pour, restore, blend, buy.",
        epilog="\n".join((*_groups(), "", "sandmix COMMAND --help shows the options of a command.")),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    whole.add_argument("--version", action="version", version=f"sandmix {__version__}")
    commands = whole.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for job in JOBS.values():
        _add_job(commands, job)
    for name, (line, description) in OTHER_COMMANDS.items():
        commands.add_parser(name, help=line, description=description)
    return whole


def _groups() -> Iterable[str]:
    """The commands of each group of the menu."""
    for group, label in GROUPS.items():
        yield f"{label + ':':<20}{', '.join(job.name for job in JOBS.values() if job.group == group)}"


def _add_job(commands: Any, job: AnyJob) -> None:
    example = " ".join(f"{option(word)} {_quoted(typed(word, value))}" for word, value in job.example.items())
    if job.name == "heap":
        example = '--book heap.json --record poured --metal-kg "1.5 kg" --pattern "coat hooks"'
    parser = commands.add_parser(
        job.name,
        usage=f"sandmix {job.name} [--OPTION VALUE ...]",
        help=job.title,
        description=f"{job.title} {job.story}",
        epilog=f"Example: python3 -m sandmix {job.name} {example}",
        allow_abbrev=False,
    )
    parser.add_argument("--json", action="store_true", help="print the whole answer as JSON")
    parser.add_argument("--no-doubt", action="store_true", help="leave the likely ranges out of the JSON answer")
    if job.name == "heap":
        _add_events(parser)
    if job.name == "plan":
        words = "the file of an old casting to do once more; this one is kept in the new file of --casting"
        parser.add_argument("--again", metavar="FILE", action=_Once, help=words)
        words = "write an entry of the plan (joined, mixed or poured) into the book of --book FILE, which is created if it does not exist"
        parser.add_argument("--record", metavar="KIND", action=_Once, help=words)
    if job.name == "blend":
        words = (
            "write the lots and the additions into the book of an empty heap; the file is created if it does not exist"
        )
        parser.add_argument("--into", metavar="FILE", action=_Once, help=words)
    spelled = options_of(asks(job.form))
    for word, part in asks(job.form).items():
        parser.add_argument(*spelled[word], dest=word, metavar=_metavar(part), action=_Once, help=_help(part))


def _add_events(parser: argparse.ArgumentParser) -> None:
    """Add the words of all kinds of event, which record one in the file of a book."""
    group = parser.add_argument_group(
        "to record an entry in the file of a book", "--book FILE is created if it does not exist"
    )
    group.add_argument(
        "--record", metavar="KIND", action=_Once, help=f"one of {', '.join([*KINDS, UNDONE, CORRECTED])}"
    )
    group.add_argument("--at", metavar="WHEN", action=_Once, help="date and time of the entry; if left out, now")
    group.add_argument("--note", metavar="TEXT", action=_Once, help="anything worth remembering")
    group.add_argument("--of", metavar="ID", action=_Once, help="the entry to undo or correct")
    spelled = event_options()
    for word, part in event_words().items():
        group.add_argument(*spelled[word], dest=word, metavar=_metavar(part), action=_Once, help=_help(part))


def _quoted(value: str) -> str:
    return f"'{value}'" if '"' in value else f'"{value}"'


def _metavar(part: Ask) -> str:
    match part.word:
        case Rows(name="flasks"):
            return "LIST"
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
    if isinstance(word, Data):
        return DOCUMENTS[word.name]
    if word.name == "flasks":
        return f"{part.label}, as “small: 290 x 200 x 90 + 90 mm; large: …” (length, width, drag and cope inside), or JSON. {part.help}"
    if isinstance(word, Choice):
        default = f" (default {part.default})" if part.default is not None else ""
        return f"{part.label}: {', '.join(word.choices)}{default}".replace("%", "%%")
    if not isinstance(word, Quantity):
        return f"{part.label}; {word.allowed}. {part.help}".replace("%", "%%")
    basis = f", {word.basis}" if word.basis else ""
    default = f" (default {part.default:g})" if isinstance(part.default, (int, float)) else ""
    return f"{part.label}{basis}; {word.allowed}{default}. {part.help}".replace("%", "%%")
