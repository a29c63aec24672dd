"""The form of *heap*: a book, and what time it is for whoever asks."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from .. import moments
from ..book import Book, read
from ..errors import InputError, Problem
from ..form import Form, ask


@dataclass(frozen=True, slots=True, kw_only=True)
class HeapBook(Form):
    """A book, and the moment that the age of the last test is counted to."""

    book: Mapping[str, object] | None = ask("book", first=True, required=True)
    now: str | None = ask("now")

    def problems(self) -> Iterable[Problem]:
        try:
            self.opened()
        except InputError as error:
            yield from error.problems

    def opened(self) -> Book:
        """Return the book, checked; raises InputError with what is wrong with it."""
        return read(self.book)

    @property
    def now_s(self) -> float | None:
        """Now, in seconds from 1970; None where nobody says."""
        return None if self.now is None else moments.seconds_of(self.now)
