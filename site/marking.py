"""Find the trade words of a text, and turn each into a small button that opens its line of the glossary.

On a page, a word is marked the first time it appears in each part: in the help texts of a form, in each list of an answer, on a
page of text. Headings, links, buttons, labels, tables and formulas stay as they are. `term-marks.js` does the same with an
answer that arrives later.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from html.parser import HTMLParser
from typing import TYPE_CHECKING

import checkout
from draw_tag import VOID, tag

if TYPE_CHECKING:
    from sandmix.vocabulary.glossary_words import Term

TEXT = frozenset({"p", "li", "dd"})
"""The elements of a page of text in which words are marked."""
CLEAN = frozenset(
    {"a", "button", "code", "figure", "h1", "h2", "h3", "h4", "h5", "h6", "label", "nav", "pre", "script", "style"}
    | {"summary", "svg", "table", "template", "textarea", "title"}
)
"""The elements of a page of text in which no word is marked."""
FORMULA = "formula"
HELP = "hint-"
"""How the id of a help text begins."""
LISTS = frozenset({"todo", "ways-out", "remarks", "working"})
"""The lists of an answer in which words are marked."""


def terms() -> Mapping[str, Term]:
    """Every trade word by its key."""
    found: Mapping[str, Term] = checkout.module("sandmix.vocabulary.glossary_words").TERMS
    return found


@cache
def _pattern() -> tuple[re.Pattern[str], dict[str, str]]:
    """What finds any form of any word, the longest first; and the key of each form."""
    keys = {form.lower(): key for key, term in terms().items() for form in term.written}
    forms = sorted(keys, key=len, reverse=True)
    either = "|".join(r"\s+".join(map(re.escape, form.split())) for form in forms)
    return re.compile(rf"(?<![\w-])(?:{either})(?![\w-])", re.IGNORECASE), keys


def pieces(text: str, used: set[str]) -> Iterator[tuple[str, str | None]]:
    """The text piece by piece, each with the key of its trade word, or None. A word in `used` is not marked; what is marked is added."""
    pattern, keys = _pattern()
    at = 0
    for found in pattern.finditer(text):
        key = keys[" ".join(found[0].lower().split())]
        if key in used:
            continue
        used.add(key)
        yield text[at : found.start()], None
        yield found[0], key
        at = found.end()
    yield text[at:], None


def page_of_text(html: str, base: str) -> str:
    """A page of text, with the words marked once."""
    return _Marker(base, is_text=True).marked(html)


def drawn_page(html: str, base: str) -> str:
    """A page with forms, with the words marked in the help texts of each form and in the lists of the worked example."""
    return _Marker(base, is_text=False).marked(html)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Inside:
    """What holds inside an open element: whether its text is marked, and which words its part of the page has already."""

    name: str
    marks: bool
    clean: bool
    used: set[str]


class _Marker(HTMLParser):
    """Copy HTML as it is, but for the words."""

    def __init__(self, base: str, *, is_text: bool) -> None:
        super().__init__(convert_charrefs=False)
        self.base, self.is_text = base, is_text
        self.out: list[str] = []
        self.open = [_Inside(name="", marks=False, clean=False, used=set())]

    def marked(self, html: str) -> str:
        self.feed(html)
        self.close()
        return "".join(self.out)

    def handle_starttag(self, name: str, attrs: list[tuple[str, str | None]]) -> None:
        self.out.append(self.get_starttag_text() or "")
        if name not in VOID and name not in ("img", "source", "wbr"):
            self.open.append(self._inside(name, {key: value or "" for key, value in attrs}))

    def _inside(self, name: str, attrs: Mapping[str, str]) -> _Inside:
        around = self.open[-1]
        if self.is_text:
            clean = name in CLEAN or FORMULA in attrs.get("class", "").split()
            return _Inside(name=name, marks=name in TEXT or around.marks, clean=clean or around.clean, used=around.used)
        is_list = attrs.get("data-list") in LISTS
        is_part = is_list or name in ("form", "template")
        return _Inside(
            name=name,
            marks=around.marks or is_list or attrs.get("id", "").startswith(HELP),
            clean=around.clean or (around.marks and name in CLEAN),
            used=set() if is_part else around.used,
        )

    def handle_endtag(self, name: str) -> None:
        self.out.append(f"</{name}>")
        for at in range(len(self.open) - 1, 0, -1):
            if self.open[at].name == name:
                del self.open[at:]
                return

    def handle_data(self, data: str) -> None:
        inside = self.open[-1]
        if not inside.marks or inside.clean:
            self.out.append(data)
            return
        for words, key in pieces(data, inside.used):
            self.out.append(
                tag("a", words, class_="term", data_term=key, href=address(self.base, key)) if key else words
            )

    def handle_startendtag(self, _name: str, _attrs: list[tuple[str, str | None]]) -> None:
        self.out.append(self.get_starttag_text() or "")

    def handle_entityref(self, name: str) -> None:
        self.out.append(f"&{name};")

    def handle_charref(self, name: str) -> None:
        self.out.append(f"&#{name};")

    def handle_comment(self, data: str) -> None:
        self.out.append(f"<!--{data}-->")


def address(base: str, key: str) -> str:
    """The line of a word on the page *Words*."""
    return f"{base}words/#term-{key}"
