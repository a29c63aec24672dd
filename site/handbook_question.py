"""What a question of the handbook is made of: a job, and figures that are typed or taken from the answers to other questions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class From:
    """A figure of the answer to another question, as it is shown there, and so as a person would type it."""

    ask: str
    word: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Total:
    """Several masses of answers together, in kg to 10 g, as a person would find them on a scale."""

    of: tuple[From, ...]


Value = str | From | Total
Entry = Mapping[str, Value]
"""An entry of a heap book: its kind, its date, and its figures."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """A book of a heap: its entries."""

    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """One question: the job, what is typed, and in a line what it is about."""

    job: str
    inputs: Mapping[str, Value | Book]
    story: str
