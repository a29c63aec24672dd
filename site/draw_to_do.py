"""The first part of an answer: the word and the main figure, what to do, the ways out of a problem, and the cautions."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from draw_tag import Markup, symbol, tag

Answer = Mapping[str, Any]


def told(answer: Answer, badge: Markup) -> Markup:
    """The word and the main figure, as the bar shows them too."""
    lead = answer["lead"]
    figure = tag(
        "p",
        tag("span", lead["label"], data_slot="label"),
        tag("b", lead["text"], data_slot="text"),
        tag("small", lead.get("then", ""), data_slot="then"),
        class_="told-figure",
    )
    return tag("div", badge, figure, class_="told", data_told=True)


def to_do(answer: Answer) -> Markup:
    """What to do, in its order, with amounts; a test that comes first has a box of its own instead."""
    rows = () if is_said_first(answer) else answer.get("todo", ())
    return tag(
        "section",
        tag("h3", "What to do", id="todo-title", tabindex="-1"),
        tag("ol", *(row(one) for one in rows), class_="todo-list", data_list="todo"),
        class_="todo",
        data_todo=True,
        hidden=not rows,
        aria_labelledby="todo-title",
    )


def is_said_first(answer: Answer) -> bool:
    """Whether the box of the first step says all there is to do."""
    return bool(answer.get("first")) and answer["state"]["tone"] != "stop"


def row(one: Mapping[str, str]) -> Markup:
    """One thing to do and its amount."""
    return tag("li", tag("span", one["text"], data_slot="text"), tag("b", one["amount"], data_slot="amount"))


def ways_out(answer: Answer) -> Markup:
    """The remarks that a person must see."""
    lines = (tag("li", tag("span", text, data_slot="words")) for text in answer.get("ways_out", ()))
    return tag("ul", *lines, class_="remarks ways-out", data_list="ways-out")


def others(answer: Answer) -> list[str]:
    """The remarks that can be left unread."""
    shown = set(answer.get("ways_out", ()))
    return [text for text in answer.get("remarks", ()) if text not in shown]


def cautions(answer: Answer) -> Markup:
    """The cautions of an answer: a line each, open where the word is stop."""
    stops = answer["state"]["tone"] == "stop"
    rows = (caution(line, is_open=stops) for line in answer.get("cautions", ()))
    return tag("ul", *rows, class_="cautions", data_list="cautions")


def caution(line: str, *, is_open: bool = False) -> Markup:
    """A caution as a line that opens: its icon and its name, which is the word before the colon."""
    name, _, rest = line.partition(":")
    tone = "stop" if name.strip().lower() == "stop" else "care"
    head = tag("summary", symbol("stop" if tone == "stop" else "care"), tag("b", name, data_slot="name"))
    words = tag("p", tag("span", rest.strip(), data_slot="words"))
    return tag("li", tag("details", head, words, open=is_open or tone == "stop"), class_="caution", data_tone=tone)


def blank_cautions() -> Iterable[Markup]:
    """An empty caution of each tone, for the browser to clone."""
    return (caution("care:"), caution("stop:"))
