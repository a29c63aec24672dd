"""The commands of the command line and the options of each, drawn from the words, as data: for its parser, its completion and its page."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from sandmix.asking.form import Ask, asks
from sandmix.asking.job import AnyJob
from sandmix.book.events import CORRECTED, KINDS, UNDONE
from sandmix.doors.spelling import FLASKS, event_options, event_words, option, options_of, quoted, typed
from sandmix.language.shown_units import SYSTEMS
from sandmix.language.tables import Picks, Rows, Sizes, Table
from sandmix.language.texts import Data, Text, Timestamp
from sandmix.language.uploads import Upload
from sandmix.language.words import Choice, Quantity

SHELLS = ("bash", "zsh", "fish")
OTHER_COMMANDS = {
    "call": ("answer one JSON request from standard input", "Read one JSON request and answer it in JSON."),
    "describe": ("print all words, jobs and sources as JSON", "Print all words, jobs and sources as JSON."),
    "completion": (
        "print a script that completes commands in a shell",
        "Print a script by which bash, zsh or fish completes commands, options and choices when you press Tab.",
    ),
}
"""The commands that are no jobs, each with its line in the list of commands and its description."""
DOCUMENTS = {
    "book": "the file of the heap book: the heap is read from it",
    "casting": "the file that keeps this casting: it is created if it does not exist, and the figures given here are written into it",
}
"""Help for the documents that a command reads from files."""
BY_THE_CLOCK = ("plan", "heap")
"""The commands that take the time of this computer for --now."""
CLOCK = "If it is left out, the clock of this computer is used where --book names a file."
RECORDED_BY_PLAN = ("joined", "mixed", "poured")
FILE = "FILE"


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One option of a command: its spellings, the shortest first, the name of what is given with it, and its help.

    ``given`` is what stands for its value in the help, empty for a switch. ``values`` are what can be chosen, if it is a choice. ``records``:
    it belongs to an entry that *heap* records.
    """

    spellings: tuple[str, ...]
    name: str
    given: str
    label: str
    help: str
    values: tuple[str, ...] = ()
    required: bool = False
    records: bool = False


def options_for(job: AnyJob) -> list[Option]:
    """Return the options of the command of *job*: those of every command, those of its files, and those of its form."""
    return [*_of_all(job), *_of_files(job), *_of_words(job)]


def example_of(job: AnyJob) -> str:
    """Return the command of *job* with its worked example, or with an entry of a book."""
    if job.name == "heap":
        return 'heap --book heap.json --record poured --metal-kg "1.5 kg" --pattern "coat hooks"'
    typed_in = (f"{option(word)} {quoted(typed(word, value))}" for word, value in job.example.items())
    return " ".join((job.name, *typed_in))


def _of_all(job: AnyJob) -> Iterable[Option]:
    yield _switch("--json", "print the whole answer as JSON")
    yield _switch("--no-doubt", "leave the likely ranges out of the JSON answer")
    words = "the units of the answer's texts: inch for inch, pound and °F, or pairs such as kg=lb,mm=in"
    yield _own("--shown-in", "UNITS", words, values=tuple(SYSTEMS))
    if "book" in asks(job.form):
        yield _switch("--watch", "answer again each time the file of --book changes, until you press Ctrl+C")


def _of_files(job: AnyJob) -> Iterable[Option]:
    """The options that are no words: what a command does with its files."""
    if job.name == "heap":
        kinds = (*KINDS, UNDONE, CORRECTED)
        yield _own("--record", "KIND", f"one of {', '.join(kinds)}", values=kinds, records=True)
        yield _own("--at", "WHEN", "date and time of the entry; if left out, now", records=True)
        yield _own("--note", "TEXT", "anything worth remembering", records=True)
        yield _own("--of", "ID", "the entry to undo or correct", records=True)
        spelled = event_options()
        for word, part in event_words().items():
            yield _of_word(word, part, spelled[word], records=True)
    if job.name == "plan":
        yield _own(
            "--again", FILE, "the file of an old casting to do once more; this one is kept in the new file of --casting"
        )
        words = "write an entry of the plan (joined, mixed or poured) into the book of --book FILE, which is created if it does not exist"
        yield _own("--record", "KIND", words, values=RECORDED_BY_PLAN)
    if job.name == "blend":
        words = (
            "write the lots and the additions into the book of an empty heap; the file is created if it does not exist"
        )
        yield _own("--into", FILE, words)


def _of_words(job: AnyJob) -> Iterable[Option]:
    asked = asks(job.form)
    spelled = options_of(asked)
    for word, part in asked.items():
        by_clock = word == "now" and job.name in BY_THE_CLOCK
        yield _of_word(word, replace(part, help=CLOCK) if by_clock else part, spelled[word])


def _switch(spelling: str, help: str) -> Option:
    return Option(spellings=(spelling,), name=spelling[2:].replace("-", "_"), given="", label=_short(help), help=help)


def _own(spelling: str, given: str, help: str, *, values: tuple[str, ...] = (), records: bool = False) -> Option:
    return Option(
        spellings=(spelling,), name=spelling[2:].replace("-", "_"), given=given, label=_short(help), help=help, values=values, records=records
    )  # fmt: skip


def _short(help: str) -> str:
    """The start of a help text, up to its first mark."""
    return help.partition(";")[0].partition(":")[0].partition(" (")[0]


def _of_word(word: str, part: Ask, spellings: tuple[str, ...], *, records: bool = False) -> Option:
    choices = tuple(part.word.choices) if isinstance(part.word, (Choice, Picks)) else ()
    return Option(
        spellings=spellings,
        name=word,
        given=_given(part),
        label=part.label,
        help=_help(part),
        values=choices,
        required=part.required and not records,
        records=records,
    )


def _given(part: Ask) -> str:
    """What stands for the value of a word in the help."""
    match part.word:
        case Rows(name="flasks"):
            return "LIST"
        case Table() | Rows():
            return "JSON"
        case Upload() | Data():
            return FILE
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
        return f"{part.label}, as {FLASKS}, or JSON. {part.help}"
    if isinstance(word, Choice):
        default = f" (default {part.default})" if part.default is not None else ""
        return f"{part.label}: {', '.join(word.choices)}{default}"
    if not isinstance(word, Quantity):
        return f"{part.label}; {word.allowed}. {part.help}"
    basis = f", {word.basis}" if word.basis else ""
    default = f" (default {part.default:g})" if isinstance(part.default, (int, float)) else ""
    return f"{part.label}{basis}; {word.allowed}{default}. {part.help}"
