"""The page of licences: a table of all that the site ships, and under it the words of every licence."""

from __future__ import annotations

from collections.abc import Sequence

from draw_tag import Markup, join, tag
from shipped import Part


def page(parts: Sequence[Part]) -> Markup:
    """The table, then each text once, under the names of the parts that it is for."""
    names: dict[str, list[str]] = {}
    for part in parts:
        for words in part.terms:
            names.setdefault(words, []).append(named(part))
    texts = (join(tag("h2", ", ".join(whose)), tag("pre", words, class_="terms")) for words, whose in names.items())
    return join(_table(parts), *texts)


def named(part: Part) -> str:
    """A part's name, with its version where that is known."""
    return f"{part.name} {part.version}".strip()


def _table(parts: Sequence[Part]) -> Markup:
    head = tag("tr", *(tag("th", word, scope="col") for word in ("part", "licence", "part of")))
    rows = (
        tag("tr", *(tag("td", word) for word in (named(part), part.licence.removeprefix("LicenseRef-"), part.within)))
        for part in parts
    )
    return tag("table", tag("thead", head), tag("tbody", *rows))
