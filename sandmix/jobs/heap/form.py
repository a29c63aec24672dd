"""The form of *heap*: a book, and the time now."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import Filled, Form, ask
from sandmix.book.book import Book, read
from sandmix.book.heap import HeapState
from sandmix.book.logged_readings import LoggedReading, readings
from sandmix.jobs.shared.from_book import heap_at
from sandmix.language import timestamps


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A book that was read and checked, the heap that it adds up to, and its logged readings."""

    book: Book
    state: HeapState
    logged: Mapping[str, Sequence[LoggedReading]]


@dataclass(frozen=True, slots=True, kw_only=True)
class HeapForm(Form):
    """A book, and the time to which the age of the last test and that of the water are counted; without it, that of the last entry."""

    book: Any = ask("book", first=True, required=True)  # noqa: RUF009  a book is a document, and the field's default is None
    now: str | None = ask("now")
    sand_kind: str = ask("sand_kind")

    @property
    def now_s(self) -> float | None:
        """Now, in seconds from 1970; None if it is not given."""
        return None if self.now is None else timestamps.seconds_of(self.now)


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedHeap(HeapForm):
    """The same, with the book read and added up."""

    book: Opened


def resolve(filled: Filled[HeapForm]) -> Filled[ResolvedHeap]:
    """Read the book and add it up; raises InputError with what is wrong with it."""
    book = read(filled.form.book)
    opened = Opened(book=book, state=heap_at(book.events, filled.form.now), logged=readings(book.events))
    return filled.into(ResolvedHeap, {"book": opened})
