"""What stands in the handbook besides its words: figures that the jobs work out while the site is built, cautions, sources, links.

A page of Markdown names each with a marker: `{{ figure dry_chest first_water_kg }}` is a figure of the answer to the question `dry_chest`
of `handbook_asks.py`. A name that does not exist, a figure that the answer does not show and a question that is refused stop the build.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from typing import Any

import checkout
import draw
import draw_plates
import draw_season
import draw_walk
from draw_tag import Markup, join, symbol, tag
from handbook_answers import ASKS, ROOT, NotInHandbook, address, answer, asked, figure_of, typed
from handbook_mistakes import MISTAKES
from handbook_pages import BY_NAME, FOLDER, PAGES, STEPS, Page, after

MARK = re.compile(r"\{\{ (\w+)((?: \w+)*) \}\}")
BOOK = f"{FOLDER}hall-season.json"
"""The book of the season, as a file of the site."""
HOW_SURE = {
    "read": "source, read",
    "memory": "from memory",
    "derived": "derived",
    "practice": "common practice, no source",
    "own": "own choice",
}
"""How sure a source is, in the words of a link to it."""


# What a marker draws


def figure(name: str, word: str) -> Markup:
    """A figure that the build worked out."""
    return _live(name, word, "text")


def likely(name: str, word: str) -> Markup:
    """The likely range of a figure."""
    return _live(name, word, "range")


def given(name: str, word: str) -> Markup:
    """A figure that a question gives."""
    if word not in typed(name):
        raise NotInHandbook(f"The question “{name}” gives no {word}, but {', '.join(typed(name))}.")
    return tag("span", typed(name)[word], class_="live-given", data_ask=name, data_given=word)


def headline(name: str) -> Markup:
    """The sentence that sums an answer up."""
    return tag("q", answer(name)["headline"], class_="live", data_ask=name, data_headline=True)


def state(name: str) -> Markup:
    """The one word of an answer."""
    return tag("b", answer(name)["state"]["word"], class_="live", data_ask=name, data_state=True)


def cite(key: str) -> Markup:
    """A link to a source, which says how sure it is."""
    return tag("a", f"({HOW_SURE[_source(key)['how_sure']]})", class_="cite", href=f"{ROOT}sources/#{key}")


def caution(name: str) -> Markup:
    """A caution of the library, with its source."""
    found = getattr(checkout.module("sandmix.asking.cautions"), name.upper(), None)
    if found is None:
        raise NotInHandbook(f"There is no caution “{name}”.")
    words = tag("p", tag("b", found.word), ": ", found.text, " ", cite(found.source))
    return tag("div", symbol("care"), words, class_="hand-caution", role="note", data_caution=name)


def plate(name: str) -> Markup:
    """A drawing with its words."""
    if name not in draw_plates.PLATES:
        raise NotInHandbook(f"There is no drawing “{name}”.")
    return draw_plates.figure(name)


def mistake(key: str) -> Markup:
    """One misunderstanding in a line, with the number that shows it."""
    if key not in MISTAKES:
        raise NotInHandbook(f"There is no misunderstanding “{key}”.")
    wrong, right = MISTAKES[key]
    return tag("p", tag("b", f"“{wrong}”"), " ", Markup(filled(right)), class_="mistake", data_mistake=key)


def mistakes(*keys: str) -> Markup:
    """Several misunderstandings, or all of them."""
    return join(*(mistake(key) for key in keys or MISTAKES))


def steps() -> Markup:
    """The steps of the sand's life, as the landing page lists them."""
    return tag("ol", *(tag("li", _page(page, "", page.short)) for page in STEPS), class_="doors day")


def others() -> Markup:
    """The pages that are no step, as the landing page lists them."""
    pages = (page for page in PAGES if page not in STEPS)
    return tag("ul", *(tag("li", _page(page, "", page.short)) for page in pages), class_="doors")


DRAWN: Mapping[str, Callable[..., Markup]] = {
    "figure": figure,
    "likely": likely,
    "given": given,
    "headline": headline,
    "state": state,
    "cite": cite,
    "caution": caution,
    "plate": plate,
    "mistake": mistake,
    "mistakes": mistakes,
    "walked": draw_walk.walked,
    "season_table": draw_season.season_table,
    "season_chart": draw_season.season_chart,
    "season_span": draw_season.span,
    "handbook_steps": steps,
    "handbook_others": others,
}
"""What each marker of the handbook draws."""


def filled(words: str) -> str:
    """A text with its markers replaced."""
    return MARK.sub(lambda found: DRAWN[found[1]](*found[2].split()), words)


def book() -> str:
    """The book of the season, as a file that the page of the heap book takes over."""
    return draw_season.book_file("season_autumn", "The hall's season")


# What every page ends with


def asks_of(markdown: str) -> list[str]:
    """The questions whose answers a page shows, in the order in which they come."""
    return list(dict.fromkeys(name for name in _names(markdown) if name in ASKS))


def _names(markdown: str) -> Iterator[str]:
    for found in MARK.finditer(markdown):
        words = found[2].split()
        if found[1] in ("mistake", "mistakes"):
            for key in words or MISTAKES:
                yield from _names(MISTAKES[key][1])
        elif words:
            yield words[0]


def end(name: str, markdown: str) -> Markup:
    """The jobs that work a page out, the questions behind its figures, and the page that follows."""
    page = BY_NAME[name]
    jobs = tag("ul", *(tag("li", _job(draw.job_named(job))) for job in page.jobs), class_="doors")
    follows = after(name)
    last = _page(follows, "../", f"Next: {follows.short}") if follows else _door("../", "Back to the handbook")
    return tag(
        "div",
        tag("h2", "Work it out with your own figures", id="work-it-out"),
        jobs,
        _behind([name for name in asks_of(markdown) if f"walked {name}" not in markdown]),
        tag("nav", last, class_="hand-next", aria_label="Next page"),
        class_="hand-end",
        data_search_exclude=True,
    )


def _behind(names: list[str]) -> Markup | None:
    if not names:
        return None
    title = tag("summary", tag("span", "What the figures on this page are from"), symbol("on"))
    words = tag(
        "p",
        "The figures in bold are worked out while this page is made, for these cases of the hall workshop. "
        "Each opens with its figures filled in.",
    )
    return tag(
        "details", title, words, tag("ul", *(tag("li", _case(name)) for name in names)), class_="more hand-behind"
    )


def _case(name: str) -> Markup:
    job = draw.job_named(asked(name).job)
    return join(asked(name).story, " ", tag("a", f"Open it in “{job['short']}”", href=address(name), data_case=name))


def _live(name: str, word: str, part: str) -> Markup:
    return tag("b", figure_of(name, word, part), class_="live", data_ask=name, data_word=word, data_part=part)


def _source(key: str) -> Mapping[str, Any]:
    sources = draw.description()["sources"]
    if key not in sources:
        raise NotInHandbook(f"There is no source “{key}”.")
    found: Mapping[str, Any] = sources[key]
    return found


def _job(job: Mapping[str, Any]) -> Markup:
    return _door(f"{ROOT}{job['page']}/", job["short"], job["title"])


def _page(page: Page, way: str, words: str) -> Markup:
    return _door(f"{way}{page.name}/", words, page.question)


def _door(href: str, words: str, more: str = "") -> Markup:
    text = tag("span", tag("b", words), tag("small", more) if more else None, class_="door-words")
    return tag("a", text, symbol("on"), class_="door", href=href)
