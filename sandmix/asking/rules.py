"""Rules between fields that several forms share."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.form import Form
from sandmix.language.errors import Problem

ALL_PCT = 100.0
"""All of the dry sand."""


def whole_number(form: Form, word: str, of_what: str) -> Iterable[Problem]:
    """Yield the problem of a number of things, such as casts, that is no whole number; *of_what* names the things."""
    number = getattr(form, word)
    if number != int(number):
        what_to_do = f"{number:g} isn't a whole number. Enter a whole number of {of_what}."
        yield form.wrong(word, "a whole number", what_to_do)


def is_in_form_or_book(form: Form, word: str, what: str) -> Iterable[Problem]:
    """Yield the problem of a form that has neither the figure *word* nor a book to read it from; *what* says what to enter."""
    if all(getattr(form, name) is None for name in ("book", word)):
        yield form.wrong(word, "a figure, or a book", f"this is missing. Enter {what}, or a book of the heap.")


def clay_and_fines_fit(
    form: Form, clay_pct: float | None, dead_pct: float | None, *, wrong: str = "dead_fines_pct_dry"
) -> Iterable[Problem]:
    """Yield the problem of live clay and dead fines, in % of the dry mass, that are more than all of it; *wrong* is the word that is named.

    A share that is not given counts as 0.
    """
    clay, dead = clay_pct or 0.0, dead_pct or 0.0
    if clay + dead > ALL_PCT:
        other = clay if wrong == "dead_fines_pct_dry" else dead
        what_to_do = f"live clay and dead fines add up to {clay + dead:g} % of the dry sand. Together they can be at most 100 %. Check both."
        yield form.wrong(wrong, f"at most {ALL_PCT - other:g} %", what_to_do)
