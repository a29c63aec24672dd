"""The pages of the library: its functions in Python by chapter, the commands with their options, and the examples of both."""

from __future__ import annotations

import re
from functools import cache

import checkout
import draw
from draw_tag import Markup, join, tag
from sandmix.asking.form import asks
from sandmix.doors.commands import OTHER_COMMANDS, Option, example_of, options_for
from sandmix.doors.spelling import keywords_of
from sandmix.jobs import JOBS

GUIDE = checkout.ROOT / "DEVELOPERS.md"
FOLDER = "library/"
SHOWN = ("materials", "mould", "cooling", "feeding", "gating", "drying", "recipes", "bench", "diagnosis")
"""The chapters with a page: the arithmetic of sand and metal. The others serve them, or put the jobs together."""
_ROW = re.compile(r"^\| `(\w+)/` \| ([^|]+) \| ([^|]+) \|", re.MULTILINE)


@cache
def chapters() -> dict[str, tuple[list[str], str]]:
    """The chapters with a page: the files of each in reading order, and what it is for, from the table of the contributors' guide."""
    rows = {
        name: (re.findall(r"`(\w+)`", files), about) for name, files, about in _ROW.findall(GUIDE.read_text("utf-8"))
    }
    return {name: rows[name] for name in SHOWN}


def page_of(chapter: str) -> str:
    """The Markdown of the page of a chapter: the public functions of each of its files."""
    files, about = chapters()[chapter]
    head = f"---\ntitle: 'The library: {chapter}'\nsearch:\n  exclude: true\n---\n# The library: {chapter}\n\n"
    about = f"{about[0].upper()}{about[1:]}. [Back to Python](../python.md)\n\n"
    return head + about + "\n".join(f"::: sandmix.{chapter}.{file}\n" for file in files)


def chapter_list() -> Markup:
    """The chapters with a page, each with what it is for."""
    rows = (
        tag("li", tag("a", name, href=f"../{FOLDER}{name}/"), f": {about}") for name, (_, about) in chapters().items()
    )
    return tag("ul", *rows)


def call_of(name: str) -> str:
    """The worked example of a job as a call in Python, with the shortest keyword of each word."""
    job = JOBS[name]
    shortest = {word: said for said, word in reversed(keywords_of(asks(job.form)).items())}
    given = ", ".join(f"{shortest[word]}={value!r}" for word, value in job.example.items())
    return f"sandmix.ask.{name}({given})"


def functions() -> Markup:
    """All functions of Python: what each answers, and its worked example."""
    return join(*(_function(name) for name in JOBS))


def _function(name: str) -> Markup:
    job = draw.job_named(name)
    return tag(
        "details",
        tag("summary", f"{name}: {job['title']}"),
        tag("p", f"Answered with {job['answered_with']}."),
        tag("pre", tag("code", call_of(name))),
        tag("p", tag("a", "What each input means", href=f"../command-line/#{name}")),
        id=name,
        class_="folded topic",
        data_search_exclude=True,
    )


def commands() -> Markup:
    """Every command with its options and its worked example, and those that are no jobs."""
    others = (
        tag("details", tag("summary", f"{name}: {line}"), tag("p", about), id=name, class_="folded topic")
        for name, (line, about) in OTHER_COMMANDS.items()
    )
    return join(*(_command(name) for name in JOBS), *others)


def _command(name: str) -> Markup:
    job = JOBS[name]
    listed = options_for(job)
    records = [option for option in listed if option.records]
    own = [option for option in listed if not option.records]
    return tag(
        "details",
        tag("summary", f"{name}: {job.title}"),
        tag("pre", tag("code", f"sandmix {example_of(job)}")),
        _options(own),
        join(tag("p", "To record an entry in the file of a book:"), _options(records)) if records else None,
        id=name,
        class_="folded topic",
        data_search_exclude=True,
    )


def _options(listed: list[Option]) -> Markup:
    return tag("dl", *(join(tag("dt", tag("code", _spelled(one))), tag("dd", _help(one))) for one in listed))


def _spelled(option: Option) -> str:
    """The spellings of an option, and what follows it."""
    return f"{', '.join(option.spellings)}{f' {option.given}' if option.given else ''}"


def _help(option: Option) -> str:
    return f"{option.help[0].upper()}{option.help[1:]}{' Required.' if option.required else ''}"
