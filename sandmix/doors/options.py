"""The options of the command line, drawn from the words: one command for each job, one option for each word.

An option is the word without its unit, with dashes for underscores: ``--heap`` for ``heap_kg``. Words in % or N keep their whole name.
The whole word always works, with dashes or underscores.
"""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Iterable, Mapping, Sequence
from difflib import get_close_matches
from itertools import takewhile
from typing import Any, NoReturn

from sandmix import __version__
from sandmix.asking.form import Ask, asks
from sandmix.asking.job import GROUPS, AnyJob
from sandmix.book.events import CORRECTED, KINDS, UNDONE
from sandmix.doors.terminal import clean
from sandmix.jobs import JOBS
from sandmix.language.tables import Picks, Rows, Sizes, Table
from sandmix.language.texts import Data, Text, Timestamp, of_text
from sandmix.language.uploads import Upload
from sandmix.language.words import Choice, Quantity

_UNITS = (
    "_m_s", "_kg", "_g", "_l", "_ml", "_mm", "_cm", "_mm2", "_cm2", "_m2", "_cm3", "_c", "_s", "_min", "_h", "_kpa", "_w_m2k", "_mj",
)  # fmt: skip
"""The units that an option drops from the end of its word: all but percent and newton (beside ``load_kg`` stands ``load_n``)."""
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
_FLASK_SIZES = ("flask_length_mm", "flask_width_mm", "drag_depth_mm", "cope_depth_mm")
_SIZE = r"\d+(?:[.,]\d+)?"
_FLASK = re.compile(
    rf"(?:(?P<name>[^:]*?)\s*:)?\s*(?P<length>{_SIZE})\s*[x×]\s*(?P<width>{_SIZE})\s*[x×]\s*(?P<drag>{_SIZE})"
    rf"(?:\s*\+\s*(?P<cope>{_SIZE}))?\s*(?P<unit>mm|cm|in)?",
    re.IGNORECASE,
)
_NEGATIVE = re.compile(r"-[.,]?\d")


def option(word: str) -> str:
    """Return the option for *word*, as help shows it.

    >>> option("heap_kg"), option("moisture_pct_wet"), option("rammed_density_kg_l"), option("wind_m_s")
    ('--heap', '--moisture-pct-wet', '--rammed-density', '--wind')
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


def flasks_of(text: str) -> list[dict[str, str]]:
    """Return the flasks of a text such as ``small: 290 x 200 x 90 + 90 mm``, several with ; between them; none if it is not written so.

    Length, width and depth of the drag; after the + the depth of the cope, if it has one.

    >>> flasks_of("small: 290 x 200 x 90 + 85 mm")[0]["cope_depth_mm"], flasks_of("[]")
    ('85 mm', [])
    """
    found = [_FLASK.fullmatch(part.strip()) for part in text.strip(" ;").split(";")]
    rows = []
    for one in found:
        if one is None:
            return []
        *sides, cope = one.group("length", "width", "drag", "cope")
        sizes = zip(_FLASK_SIZES, (*sides, cope or "0"), strict=True)
        rows.append({"name": one["name"] or ""} | {word: f"{size} {one['unit'] or 'mm'}" for word, size in sizes})
    return rows


def typed(word: str, value: str) -> str:
    """Return the value of a word as a person types it here: flasks in short, if each has its four sizes in mm.

    >>> typed("flasks", '[{"flask_length_mm": 290.0, "flask_width_mm": 200, "drag_depth_mm": 90, "cope_depth_mm": 85}]')
    '290 x 200 x 90 + 85 mm'
    """
    rows = of_text(value) if word == "flasks" else None
    if not isinstance(rows, list) or not all(isinstance(row, dict) and _has_sizes(row) for row in rows):
        return value
    return "; ".join(
        (f"{row['name']}: " if row.get("name") else "")
        + "{:g} x {:g} x {:g} + {:g} mm".format(*(row[size] for size in _FLASK_SIZES))
        for row in rows
    )


def _has_sizes(row: Mapping[str, object]) -> bool:
    """Whether a flask has four sizes in mm, and a name that can be written in short."""
    return all(isinstance(row.get(size), (int, float)) for size in _FLASK_SIZES) and not {":", ";"} & {
        *str(row.get("name", ""))
    }


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


def nearest(given: str, names: Iterable[str]) -> str:
    """Return a question after the name that is most like what was given, or nothing.

    >>> nearest("pored", ("poured", "mixed")), nearest("xyzzy", ("poured", "mixed"))
    (' Did you mean poured?', '')
    """
    near = get_close_matches(given, [*names], n=1)
    return f" Did you mean {near[0]}?" if near else ""


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
    for word, part in _event_words().items():
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
