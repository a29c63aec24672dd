"""The form of *learned*: a book."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import Filled, Form, ask
from sandmix.book.book import read
from sandmix.lessons.learned import Learned, learned


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedForm(Form):
    """A book of the heap."""

    book: Any = ask("book", first=True, required=True)  # noqa: RUF009  a book is a document, and the field's default is None


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedLearned(LearnedForm):
    """The figures that the entries of the book teach."""

    book: Sequence[Learned]


def resolve(filled: Filled[LearnedForm]) -> Filled[ResolvedLearned]:
    """Read the book and learn from it; raises InputError with what is wrong with it."""
    return filled.into(ResolvedLearned, {"book": learned(read(filled.form.book).events)})
