"""Wordings that made readers stop do not come back: one list, looked for in everything that a person reads.

Code between backquotes is left out: the words of the JSON door keep their names.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from typing import Any

import pytest

import draw
import draw_book
import draw_job_book
import draw_patterns
import draw_words
from sandmix.doors.facade import call

ROOT = Path(__file__).parents[2]
INSTEAD = {
    "needs, target, missing": (r"wants(?! to\b)", "wanted", "wanting"),
    "the target is": ("is to hold", "are to hold"),
    "boils off, evaporates": ("goes off", "go off", "went off"),
    "likely range": (r"\(95 %\)", "95 % band", "doubt", "doubts", "doubted", "doubtful"),
    "read, reported, shown, given": ("heard", "told", "at its word"),
    "compared with, checked against": ("held against", "hold it against", "held to it"),
    "is an input": ("is asked", "are asked", "not asked", "is asked for"),
    "no number above": ("no number beyond",),
    "is too much; enter A to B": ("above what it can be", "below what it can be", r"it takes [\d.−-]+ to"),
    "this isn't a number": ("is no amount", "this is no"),
    "enter the …": ("it is needed here",),
    "is enough": ("suffice", "suffices", "sufficient"),
    "expensive": ("dear", "dearer", "dearest"),
    "again": ("anew",),
    "zero, nothing": ("nought",),
    "sprinkle": ("strew", "strewn"),
    "is in the future": ("lies ahead", "lie ahead"),
    "calculate, estimate, count on": ("reckon", "reckons", "reckoned", "reckoning"),
    "separates": ("told apart", "parts the", "parts them", "part the", "parts these", "parted from"),
    "only known as a range": ("no more than a range", "no other say"),
    "in its way": ("in its road",),
    "by 70 %": ("tenths",),
    "gives off gas": ("gasses",),
    "close; the allowed difference": ("a close thing", "will do"),
    "restore the sand": ("put back what",),
    "pouring cup": ("basin",),
    "points out of 100": ("what each weighs", "what it weighs"),
    "defects": ("ailment", "ailments"),
    "starts with the wrong bag": ("bought with the bag",),
    "a range": ("bracket", "brackets", "bracketed"),
    "what the danger is": ("safe", "safely"),
    "the hall workshop": (
        "pulley",
        "plywood flask",
        "plywood frames",
        "muffin",
        "paver",
        "cider",
        "tub",
        "shed",
    ),
}
"""What is written in the place of some wordings, each a regular expression of whole words."""
BANNED = {
    re.compile(rf"(?<!\w)(?:{'|'.join(phrases)})(?!\w)", re.IGNORECASE): instead for instead, phrases in INSTEAD.items()
}
NOT_OURS = {"author", "title", "citation", "year"}
"""Of a source: names and quotations."""
CODE = re.compile(r"```.*?```|`[^`\n]*`|\]\([^)]*\)|\$\{[^}]*\}|[\"“]\w+[\"”]", re.DOTALL)
"""Code in Markdown, values in a script's text, and single words in quotes."""
TAGS = re.compile(r"<[^>]+>")
COMMENT = re.compile(r"/\*.*?\*/|(?<=\s)// [^\n]*", re.DOTALL)
LITERAL = re.compile(r'"[^"\n]*"|`[^`]*`')

DESCRIPTION = json.loads(call('{"job": "describe"}'))
JOBS = [job["name"] for job in DESCRIPTION["jobs"]]


def found(text: str) -> list[str]:
    """Each banned wording in a text, with some words around it and what to write instead."""
    text = " ".join(CODE.sub(" ", text).split())
    return [
        f"{text[max(0, hit.start() - 40) : hit.end() + 40]} (write: {instead})"
        for pattern, instead in BANNED.items()
        for hit in pattern.finditer(text)
    ]


def found_in(texts: Iterator[str]) -> list[str]:
    return [line for text in dict.fromkeys(texts) for line in found(text)]


def texts_in(value: Any) -> Iterator[str]:
    """Every text in an answer that is longer than a name."""
    if isinstance(value, dict):
        for inner in value.values():
            yield from texts_in(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from texts_in(inner)
    elif isinstance(value, str) and " " in value:
        yield unescape(TAGS.sub(" ", value))


def read_in(html: str) -> Iterator[str]:
    """The texts between the tags of a page, and its labels for screen readers."""
    yield from (unescape(text) for text in TAGS.split(html) if text and " " in text)
    yield from (unescape(label) for label in re.findall(r'aria-label="([^"]+)"', html))


def answers(job: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """What a job answers to its example, to nothing, and to one wrong input at a time."""

    def ask(inputs: dict[str, Any]) -> dict[str, Any]:
        return json.loads(call(json.dumps({"job": job["name"], "inputs": inputs})))

    example = job["example"]
    yield ask(example)
    yield ask({})
    yield ask(example | {"no such word": 1})
    for entry in job["asks"]:
        yield ask({word: value for word, value in example.items() if word != entry["word"]})
        for wrong in ("nonsense", "1:7", -1, 1e9, {"value": 1, "unit": "furlong"}, [{"no such part": 1}]):
            yield ask(example | {entry["word"]: wrong})


def test_the_description() -> None:
    parts = DESCRIPTION | {
        "sources": [
            {key: text for key, text in source.items() if key not in NOT_OURS}
            for source in DESCRIPTION["sources"].values()
        ]
    }
    assert found_in(texts_in(parts)) == []


@pytest.mark.parametrize("job", DESCRIPTION["jobs"], ids=JOBS)
def test_the_answers_and_refusals_of_a_job(job: dict[str, Any]) -> None:
    assert found_in(text for answer in answers(job) for text in texts_in(answer)) == []


@pytest.mark.parametrize(
    "page", ["README.md", *(str(file.relative_to(ROOT)) for file in sorted((ROOT / "site/docs").rglob("*.md")))]
)
def test_the_written_pages(page: str) -> None:
    assert found((ROOT / page).read_text("utf-8")) == []


@pytest.mark.parametrize("job", JOBS)
def test_the_page_of_a_job(job: str) -> None:
    parts = (draw.page(job), draw_job_book.for_job(job), draw_patterns.for_job(job), draw.fields_table(job))
    assert found_in(text for part in parts for text in read_in(part)) == []


def test_the_other_drawn_pages() -> None:
    parts = (draw_book.page(), draw_words.glossary(), *(draw_words.ways(name) for name in ("first", "day", "other")))
    assert found_in(text for part in parts for text in read_in(part)) == []


@pytest.mark.parametrize("script", sorted((ROOT / "site/docs/app").glob("*.js")), ids=lambda script: script.name)
def test_the_texts_of_a_script(script: Path) -> None:
    code = COMMENT.sub(" ", script.read_text("utf-8"))
    assert found_in(text for literal in LITERAL.finditer(code) for text in texts_in(literal[0].strip('`"'))) == []
