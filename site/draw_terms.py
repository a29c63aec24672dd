"""The glossary: each trade word with its meaning and the quantities that belong to it, as a page and as a list for the page's scripts."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import draw
import marking
from draw_tag import Markup, join, tag

if TYPE_CHECKING:
    from pathlib import Path

    from sandmix.vocabulary.glossary_words import Term

LIST = "words/terms.json"
"""What `terms.js` fetches when a word is first opened."""


def glossary() -> Markup:
    """Every trade word in the order of the alphabet."""
    belong = quantities_of()
    terms = sorted(marking.terms().values(), key=lambda term: term.name)
    return tag("dl", *(_entry(term, belong[term.key]) for term in terms), class_="trade-words")


def meaning(term: Term) -> str:
    """What a trade word means: its own text, or the help of the word that has it."""
    return term.says or str(draw.description()["words"][term.meant_by]["help"])


def _entry(term: Term, words: list[str]) -> Markup:
    declared = draw.description()["words"]
    labels = Counter(declared[word]["label"] for word in words)
    links = [tag("a", _label(declared[word], among=labels), href=f"#{word}") for word in words]
    belonging = [join(" · " if at else "", link) for at, link in enumerate(links)]
    return tag(
        "div",
        tag("dt", term.name),
        tag("dd", meaning(term)),
        tag("dd", "Quantities: ", *belonging, class_="belongs") if links else None,
        id=f"term-{term.key}",
    )


def _label(word: Mapping[str, Any], *, among: Counter[str]) -> str:
    """The label of a quantity, with its unit where another of the same list has the same label."""
    return f"{word['label']}, {word['unit']}" if among[word["label"]] > 1 else str(word["label"])


def quantities_of() -> dict[str, list[str]]:
    """The quantities that belong to each trade word: those whose label has it, and the one whose help is its meaning."""
    found: dict[str, list[str]] = {
        key: [term.meant_by] if term.meant_by else [] for key, term in marking.terms().items()
    }
    for name, word in draw.description()["words"].items():
        for _, key in marking.pieces(word["label"], set()):
            if key and name not in found[key]:
                found[key].append(name)
    return found


def write(out: Path) -> None:
    """Write the list of words beside the page *Words*."""
    rows = [
        {"key": key, "name": term.name, "forms": term.written, "meaning": meaning(term)}
        for key, term in marking.terms().items()
    ]
    (out / LIST).write_text(json.dumps(rows, ensure_ascii=False, separators=(",", ":")), encoding="utf-8")
