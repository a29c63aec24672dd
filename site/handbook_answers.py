"""The answers behind the handbook's figures: each question of `handbook_asks.py` is put to its job once, while the site is built."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from typing import Any
from urllib.parse import urlencode

import draw
import walk_season
import walk_two_bags
from handbook_asks import ASKS as ASKED
from handbook_question import Ask, Book, From, Total, Value

ASKS: Mapping[str, Ask] = {**ASKED, **walk_two_bags.ASKS, **walk_season.ASKS}
"""Every question by its name."""
ROOT = "../../"
"""The way from a page of the handbook to the site's root."""


class NotInHandbook(Exception):
    """A page of the handbook names what does not exist: the build stops."""


def asked(name: str) -> Ask:
    """One question by its name."""
    if name not in ASKS:
        raise NotInHandbook(f"The handbook has no question “{name}”.")
    return ASKS[name]


@cache
def typed(name: str) -> Mapping[str, str]:
    """What is typed for a question; a book is typed as JSON, an entry a line."""
    return {
        word: _book(value) if isinstance(value, Book) else _value(value) for word, value in asked(name).inputs.items()
    }


def entries(name: str) -> list[dict[str, str]]:
    """The entries of the book that a question gives."""
    found: list[dict[str, str]] = json.loads(typed(name)["book"])
    return found


def _book(book: Book) -> str:
    lines = ({word: _value(value) for word, value in entry.items()} for entry in book.entries)
    return "[\n" + ",\n".join(json.dumps(line, ensure_ascii=False) for line in lines) + "]"


def _value(value: Value) -> str:
    if isinstance(value, From):
        return figure_of(value.ask, value.word)
    if isinstance(value, Total):
        return f"{sum(answer(each.ask)['result'][each.word] for each in value.of):.2f} kg"
    return value


@cache
def answer(name: str) -> Mapping[str, Any]:
    """The answer to a question."""
    return draw.ask({"job": asked(name).job, "inputs": typed(name)})


def figure_of(name: str, word: str, part: str = "text") -> str:
    """One figure of an answer, as its page shows it; or its likely range."""
    found = {shown["word"]: shown[part] for shown in answer(name)["shown"]}
    if not found.get(word):
        there = ", ".join(word for word, text in found.items() if text)
        raise NotInHandbook(f"The answer to “{name}” shows no {part} of {word}, but of {there}.")
    return str(found[word])


def address(name: str) -> str:
    """The address of the job's page with the figures of a question filled in; a book of a heap is not in it."""
    job, given = draw.job_named(asked(name).job), typed(name)
    page = f"{ROOT}{job['page']}/"
    return page if "book" in given else f"{page}#{urlencode(given)}"
