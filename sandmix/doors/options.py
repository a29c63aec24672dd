"""The parser of the command line, drawn from the words: one command for each job, one option for each word."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Iterable, Sequence
from itertools import takewhile
from typing import Any, NoReturn

from sandmix import __version__
from sandmix.asking.job import GROUPS, AnyJob
from sandmix.doors.commands import OTHER_COMMANDS, SHELLS, example_of, options_for
from sandmix.doors.spelling import nearest, quoted
from sandmix.doors.terminal import clean
from sandmix.jobs import JOBS
from sandmix.language.wording import list_of

_NEGATIVE = re.compile(r"-[.,]?\d")


def parsed(arguments: Sequence[str]) -> argparse.Namespace:
    """Return what the *arguments* name; ends the program with status 2 and the reason if they cannot be read."""
    whole = parser(arguments[:1] if arguments and arguments[0] in JOBS else JOBS)
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
        if (
            arguments[at] == stray
            and not stray.startswith("--")
            and name.startswith("--")
            and not first.startswith("--")
        ):
            rest = takewhile(lambda word: not word.startswith("--"), arguments[at:])
            return f" A value with spaces needs quotes: {name} {quoted(' '.join((first, *rest)))}."
    return ""


def _spellings(command: str) -> list[str]:
    """All spellings of the options of a job."""
    return [said for option in options_for(JOBS[command]) for said in option.spellings] if command in JOBS else []


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


def parser(jobs: Iterable[str] = JOBS) -> argparse.ArgumentParser:
    """Return the parser of the whole command line, or of some jobs only: each that it knows takes a moment to import."""
    whole = _Parser(
        prog="sandmix",
        description="Green sand for a home foundry: mix, temper, fill the flask, pour, restore, blend, buy.",
        epilog="\n".join((*_groups(jobs), "", "sandmix COMMAND --help shows the options of a command.")),
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    whole.add_argument("--version", action="version", version=f"sandmix {__version__}")
    commands = whole.add_subparsers(dest="command", required=True, metavar="COMMAND")
    for name in jobs:
        _add_job(commands, JOBS[name])
    for name, (line, description) in OTHER_COMMANDS.items():
        other = commands.add_parser(name, help=line, description=description)
        if name == "completion":
            other.add_argument("shell", metavar="SHELL", choices=SHELLS, help=list_of(SHELLS))
    return whole


def _groups(jobs: Iterable[str]) -> Iterable[str]:
    """The commands of each group of the menu."""
    for group, label in GROUPS.items():
        yield f"{label + ':':<20}{', '.join(name for name in jobs if JOBS[name].group == group)}"


def _add_job(commands: Any, job: AnyJob) -> None:
    parser = commands.add_parser(
        job.name,
        usage=f"sandmix {job.name} [--OPTION VALUE ...]",
        help=job.title,
        description=f"{job.title} The answer: {job.answered_with}.",
        epilog=f"{job.story} Example: python3 -m sandmix {example_of(job)}",
        allow_abbrev=False,
    )
    listed = options_for(job)
    records = "to record an entry in the file of a book", "--book FILE is created if it does not exist"
    group = parser.add_argument_group(*records) if any(one.records for one in listed) else parser
    for one in listed:
        more: dict[str, Any] = {"metavar": one.given, "action": _Once} if one.given else {"action": "store_true"}
        into = group if one.records else parser
        into.add_argument(*one.spellings, dest=one.name, help=one.help.replace("%", "%%"), **more)
