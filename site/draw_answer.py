"""An answer as the page shows it: the bar at the foot of the screen, and the full answer below the form.

The build fills the slots with the worked example, and the browser fills the same slots with a live answer. Rows that
repeat are also drawn as templates, so that the browser only clones what is declared here.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from html import unescape
from typing import Any

import draw_cards
import draw_charts
import draw_day
import draw_steps
import draw_to_do
from draw_tag import Markup, join, symbol, tag

Answer = Mapping[str, Any]
NOTHING = "none"
EMPTY = {"word": "waiting", "tone": "plain"}
"""The state of a form without an answer of its own."""
WORDY = 28
"""A text with more characters than this is a sentence, shown below its label and not next to it."""
TITLE = re.compile(r"<title[^>]*>(.*?)</title>", re.DOTALL)


def bar(needed: Mapping[str, str]) -> Markup:
    """The bar at the foot of the screen: one word, one number, a second figure, one sentence.

    The build draws it for an empty form: what to enter first, and the way to the example.
    """
    figure = tag(
        "p",
        tag("span", needed["label"], class_="bar-label", data_slot="label"),
        tag("strong", needed["text"], class_="bar-number", data_slot="text"),
        tag("span", class_="bar-then", data_slot="then"),
        class_="bar-figure",
    )
    top = tag("p", badge(EMPTY), class_="bar-top")
    way = tag(
        "a",
        tag("span", "See an example", data_slot="way"),
        symbol("up"),
        href="#answer",
        class_="bar-open",
        data_open_answer=True,
    )
    inner = join(
        engine(),
        top,
        way,
        draw_day.go_on("bar-on", short=True),
        figure,
        tag("p", needed["sentence"], class_="bar-sentence", data_slot="sentence"),
    )
    return tag(
        "aside",
        tag("div", inner, class_="bar-inner"),
        class_="bar",
        data_bar=True,
        data_search_exclude=True,
        data_tone=EMPTY["tone"],
        data_whose="example",
        aria_label="Answer",
    )


def engine() -> Markup:
    """How far the calculator has loaded, shown until it is ready."""
    return tag(
        "div",
        tag("p", data_engine_words=True),
        tag("progress", data_engine_progress=True, max="1", value="0", hidden=True, aria_label="Calculator loading"),
        class_="bar-engine",
        data_engine="idle",
        hidden=True,
    )


def not_started() -> Markup:
    """What stands at a form until its script runs: shown after a while, or by `starting.js` as soon as a script breaks off."""
    return tag(
        "div",
        tag("p", "This page does not answer yet: its script has not arrived. What you typed is kept.", role="status"),
        tag("a", "Load this page again", href="", class_="deed quiet", data_load_again=True),
        class_="notice not-started",
        data_not_started=True,
        data_waits=True,
    )


def badge(state: Mapping[str, str]) -> Markup:
    """The state as an icon and a word."""
    signs = [
        tag("span", symbol(tone), data_sign=tone, hidden=tone != state["tone"])
        for tone in ("go", "care", "stop", "plain")
    ]
    return tag("span", *signs, tag("b", state["word"], data_slot="state"), class_="badge", data_badge=True)


def full(answer: Answer, story: str, given: Iterable[tuple[str, str]], name: str) -> Markup:
    """The full answer, in reading order. The worked example stands in it folded, until there is an answer of the person's own."""
    example = tag(
        "details",
        tag("summary", tag("span", tag("b", "Worked example"), " ", story), symbol("on"), class_="example-head"),
        tag("dl", *(given_row(*pair) for pair in given), class_="given", data_list="given"),
        tag("div", _body(answer, name), data_body=True),
        class_="example",
        data_example_fold=True,
    )
    return tag(
        "section",
        tag("h2", "Example", id="answer-title", data_slot="kind"),
        draw_steps.clocks(name),
        _cover(),
        example,
        class_="answer card",
        id="answer",
        tabindex="-1",
        data_answer=True,
        data_search_exclude=True,
        data_tone=answer["state"]["tone"],
        data_whose="example",
        aria_labelledby="answer-title",
    )


def given_row(label: str, value: str) -> Markup:
    """One input, as the example and the printed page list it."""
    return tag("div", tag("dt", label), tag("dd", value))


def row(shown: Mapping[str, str]) -> Markup:
    """One row of the table of figures: label and basis, figure and likely range."""
    label = tag(
        "th",
        tag("span", shown["label"], data_slot="label"),
        tag("small", shown.get("basis", ""), data_slot="basis"),
        scope="row",
    )
    value = tag(
        "td", tag("b", shown["text"], data_slot="text"), tag("small", shown.get("range", ""), data_slot="range")
    )
    kind = "nothing" if shown["text"] == NOTHING else "wordy" if len(shown["text"]) > WORDY else None
    return tag("tr", label, value, class_=kind)


def next_link(step: Mapping[str, Any]) -> Markup:
    """A way on to another job; the inputs are put in the address by the page."""
    return tag(
        "li",
        tag(
            "a",
            tag("span", step["label"], data_slot="label"),
            symbol("on"),
            class_="door",
            href=f"../{step['job']}/",
            data_next=step["job"],
        ),
    )


def templates() -> Markup:
    """The rows that repeat, empty, for the browser to clone."""
    blanks = {
        "caution": join(*draw_to_do.blank_cautions()),
        "todo": draw_to_do.row({"text": "", "amount": ""}),
        "row": row({"label": "", "text": ""}),
        "line": tag("li", tag("span", data_slot="words")),
        "contribution": contribution({"label": "", "text": "", "share": 0}),
        "next": next_link({"job": "", "label": ""}),
        "given": given_row("", ""),
        "strip": strip(""),
        "chart": draw_charts.template(),
        "day-step": draw_day.template(),
        **draw_steps.templates(),
        **draw_cards.templates(),
    }
    return join(
        *(tag("template", blank, data_template=name, data_search_exclude=True) for name, blank in blanks.items())
    )


def figures(shown: Iterable[Mapping[str, str]]) -> Markup:
    """The table of all figures of an answer."""
    title = tag("caption", "All figures, with their likely range (19 times in 20)")
    return tag("table", title, tag("tbody", *(row(line) for line in shown), data_list="shown"), class_="rows")


def _body(answer: Answer, name: str) -> Markup:
    after = [] if answer.get("steps") else [step for step in answer.get("next", ()) if not step.get("foremost")]
    return join(
        draw_to_do.told(answer, badge(answer["state"])),
        draw_to_do.to_do(answer),
        draw_cards.first_step(answer),
        draw_to_do.ways_out(answer),
        draw_to_do.cautions(answer),
        draw_day.day(answer),
        draw_steps.checklist(answer),
        draw_steps.begin(answer, name),
        draw_cards.cards(answer),
        tag("div", *(strip(svg) for svg in answer.get("drawings", {}).values()), class_="strips", data_list="drawings"),
        key(),
        tag(
            "nav",
            tag("h3", "Next"),
            tag("ul", *(next_link(step) for step in after), class_="doors", data_list="next"),
            class_="next",
            data_next_box=True,
            hidden=not after,
        ),
        _folded("All figures", figures(answer.get("shown", ())), "figures"),
        _folded("Charts", draw_charts.charts(answer.get("charts", ())), "charts", hidden=not answer.get("charts")),
        _remarks(draw_to_do.others(answer)),
        _folded("What makes it uncertain", _uncertain(answer), "uncertain"),
        _folded(
            "Working",
            tag("ol", *(_line(line) for line in answer.get("working", ())), class_="working", data_list="working"),
            "working",
        ),
        _folded(
            "Sources",
            tag("ul", *(_line(line) for line in answer.get("sources", {}).values()), data_list="sources"),
            "sources",
        ),
        _deeds(name),
    )


def _remarks(lines: list[str]) -> Markup:
    return _folded(
        "Remarks",
        tag("ul", *(_line(line) for line in lines), class_="remarks", data_list="remarks"),
        "remarks",
        hidden=not lines,
    )


def strip(svg: str) -> Markup:
    """A drawing under its title."""
    title = TITLE.search(svg)
    return tag(
        "figure",
        tag("figcaption", unescape(title[1]) if title else "", data_slot="title"),
        Markup(svg),
        class_="strip-figure",
    )


def key() -> Markup:
    """The legend of the composition bars: which hatching means what, in the order of every bar."""
    parts = (
        ("grain", "grain"),
        ("live", "live clay"),
        ("dead", "dead clay"),
        ("fines", "other fines"),
        ("organics", "organics"),
        ("water", "water"),
    )
    return tag(
        "ul",
        *(tag("li", tag("span", class_=f"swatch swatch-{css}"), words) for css, words in parts),
        class_="key",
        aria_hidden="true",
        data_key=True,
    )


def _line(line: str) -> Markup:
    return tag("li", tag("span", line, data_slot="words"))


def _uncertain(answer: Answer) -> Markup:
    """The shares of the main figure's ±, as bars, and how to make it smaller."""
    word = answer["lead"]["word"]
    step = answer.get("surer", {}).get(word, {})
    rows = (contribution(one) for one in answer.get("uncertainty", {}).get(word, ()))
    return join(
        tag("ul", *rows, class_="contributions", data_list="uncertain"),
        tag("p", step.get("sentence", ""), data_slot="surer"),
    )


def contribution(one: Mapping[str, Any]) -> Markup:
    """One input and its share of the ±."""
    return tag(
        "li",
        tag("span", one["label"], data_slot="label"),
        tag("b", one["text"], data_slot="text"),
        tag("meter", value=f"{one['share']:.4f}", min="0", max="1", aria_hidden="true"),
    )


def _folded(title: str, inside: Markup, name: str, *, hidden: bool = False) -> Markup:
    return tag("details", tag("summary", title), inside, class_="folded", data_folded=name, hidden=hidden)


def _cover() -> Markup:
    """What covers an answer whose word is stop, until the person has read it."""
    words = tag("p", symbol("stop"), tag("b", "Stop"), class_="cover-word")
    read = tag("button", "I have read this", type="button", class_="deed", data_read=True)
    return tag(
        "div",
        words,
        tag("p", data_cover_words=True),
        tag("ul", class_="cautions", data_list="cover"),
        read,
        class_="cover",
        data_cover=True,
        hidden=True,
    )


def _deeds(name: str) -> Markup:
    """The buttons below an answer."""
    deeds = (("link", "Copy link"), ("copy", "Copy text"), ("print", "Print"), ("clear", "Clear form"))
    buttons = [tag("button", label, type="button", class_="deed quiet", data_deed=deed) for deed, label in deeds]
    return tag(
        "div",
        *buttons,
        tag("p", class_="deed-said", role="status", data_deed_said=True),
        class_="deeds",
        data_deeds=name,
    )
