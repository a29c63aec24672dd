"""Wordings that made readers stop do not come back: one list, looked for in every text that a person sees.

A text is what the code prints or draws (a string with a space in it, docstrings excluded), a string of a page's script, or a
written page. Code between backquotes and single words in quotes are left out: the words of the JSON door keep their names.
"""

from __future__ import annotations

import ast
import csv
import re
from collections.abc import Iterable, Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
INSTEAD = {
    "needs, target, missing": (r"wants(?! to\b)", "wanted", "wanting"),
    "the target is": ("is to hold", "are to hold"),
    "boils off, evaporates": ("goes off", "go off", "going off", "went off"),
    "likely range": (r"\(95 %\)", "95 % band", "doubts?", "doubted", "doubtful"),
    "read, reported, shown, given": ("heard", "told", "at its word"),
    "compared with, checked against": ("held against", "hold it against", "held to it"),
    "is an input": ("is asked", "are asked", "not asked"),
    "no number above": ("no number beyond",),
    "is too much; enter A to B": ("what it can be", r"it takes [\d.−-]+ to"),
    "this isn't a number": ("is no amount", "this is no"),
    "enter the …": ("it is needed here",),
    "is enough": ("suffices?", "sufficient"),
    "expensive": ("dear", "dearer", "dearest"),
    "again": ("anew",),
    "zero, nothing": ("nought",),
    "sprinkle": ("strewn?",),
    "is in the future": ("lies ahead", "lie ahead"),
    "calculate, estimate, count on": ("reckon(?:s|ed|ing)?",),
    "separates": ("told apart", "parts? (?:the|them|these)", "parted from"),
    "only known as a range": ("no more than a range", "no other say"),
    "in its way": ("in its road",),
    "by 70 %": ("tenths",),
    "gives off gas": ("gasses",),
    "close; the allowed difference": ("a close thing", "will do"),
    "restore the sand": ("put back what",),
    "scale resolution": ("step of the scale",),
    "projected area": ("outline from above",),
    "pouring cup": ("basin",),
    "points out of 100": ("what each weighs", "what it weighs"),
    "defects": ("ailments?",),
    "a range": ("brackets?", "bracketed"),
    "what the danger is": ("safe", "safely"),
    "the hall workshop": ("pulley", "plywood (?:flask|frame)s?", "muffin", "pavers?", "cider", "tub", "shed"),
}
"""What is written in the place of some wordings, each a regular expression of whole words."""
BANNED = {
    re.compile(rf"(?<!\w)(?:{'|'.join(phrases)})(?!\w)", re.IGNORECASE): instead for instead, phrases in INSTEAD.items()
}
CODE = re.compile(r"```.*?```|`[^`\n]*`|\]\([^)]*\)|\$\{[^}]*\}|[\"“]\w+[\"”]", re.DOTALL)
COMMENT = re.compile(r"/\*.*?\*/|(?<=\s)// [^\n]*", re.DOTALL)
LITERAL = re.compile(r'"([^"\n]* [^"\n]*)"|`([^`\n]* [^`\n]*)`')
SOURCES = {"sources.py"}
"""Titles of books and what other people wrote are quoted."""


def found(texts: Iterable[str]) -> list[str]:
    """Each banned wording in the texts, with some words around it and what to write instead."""
    plain = [" ".join(CODE.sub(" ", text).split()) for text in texts]
    return [
        f"{text[max(0, hit.start() - 40) : hit.end() + 40]} (write: {instead})"
        for text in plain
        for pattern, instead in BANNED.items()
        for hit in pattern.finditer(text)
    ]


def strings_of(file: Path) -> Iterator[str]:
    """The texts in a Python file, docstrings excluded."""
    tree = ast.parse(file.read_text("utf-8"))
    prose = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    texts = (node for node in ast.walk(tree) if isinstance(node, ast.Constant) and isinstance(node.value, str))
    yield from (text.value for text in texts if id(text) not in prose and " " in text.value.strip())


@pytest.mark.parametrize("folder", sorted(path.name for path in (ROOT / "sandmix").iterdir() if path.is_dir()))
def test_the_texts_of_a_chapter(folder: str) -> None:
    files = sorted((ROOT / "sandmix" / folder).rglob("*.py"))
    assert found(text for file in files if file.name not in SOURCES for text in strings_of(file)) == []


def test_the_texts_of_the_pages_and_commands() -> None:
    files = [*sorted((ROOT / "site").glob("*.py")), ROOT / "tests/run.py"]
    assert found(text for file in files for text in strings_of(file)) == []


def test_the_texts_of_the_scripts() -> None:
    scripts = [COMMENT.sub(" ", script.read_text("utf-8")) for script in sorted((ROOT / "site/docs/app").glob("*.js"))]
    assert found(double or back for script in scripts for double, back in LITERAL.findall(script)) == []


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md", "site"])
def test_the_written_pages(page: str) -> None:
    files = sorted((ROOT / "site/docs").rglob("*.md")) if page == "site" else [ROOT / page]
    assert found(file.read_text("utf-8") for file in files) == []


def test_what_the_checks_are_called() -> None:
    """The titles in the list of their sources are other people's words."""
    with (ROOT / "tests/against/checks.csv").open(encoding="utf-8", newline="") as sheet:
        assert found(" ".join((row["what"], row["unit"], row["differs"])) for row in csv.DictReader(sheet)) == []
