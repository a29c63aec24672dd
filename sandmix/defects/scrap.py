"""The castings of one cast that were scrapped, in every form that has them: what cannot be."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol

from sandmix.language.errors import Problem


class OfCastings(Protocol):
    """A form with the castings that were poured and scrapped, and the main cause."""

    @property
    def castings_made(self) -> float | None:
        """How many were poured, good and bad."""

    @property
    def castings_scrapped(self) -> float | None:
        """How many of them were scrapped."""

    @property
    def scrap_cause(self) -> str | None:
        """The key of the main cause."""

    def wrong(self, name: str, allowed: str, what_to_do: str) -> Problem:
        """The problem of a word."""


def cannot_be(form: OfCastings) -> Iterable[Problem]:
    """Yield what is wrong: parts of castings, more scrapped than poured, or a cause where nothing was scrapped."""
    made, scrapped = form.castings_made, form.castings_scrapped
    for word, count in (("castings_made", made), ("castings_scrapped", scrapped)):
        if count is not None and count != int(count):
            yield form.wrong(word, "a whole number", f"{count:g} isn't a whole number. Enter 0, 1, 2 …")
    if scrapped is not None and made is None:
        what_to_do = "it is missing. Enter how many were poured, the good ones included."
        yield form.wrong("castings_made", "a number", what_to_do)
    elif scrapped is not None and made is not None and scrapped > made:
        what_to_do = f"{scrapped:g} is more than the {made:g} that were poured. Check both."
        yield form.wrong("castings_scrapped", f"at most {made:g}", what_to_do)
    if form.scrap_cause is not None and not scrapped:
        what_to_do = "a cause is given, but no casting was scrapped. Enter how many were, or leave the cause out."
        yield form.wrong("scrap_cause", "nothing", what_to_do)
