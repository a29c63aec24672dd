"""What an answer shows before its figures: the one thing to do next, as a large link, and several answers as cards with their points."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import draw_pictures
from draw_tag import Markup, join, symbol, tag

Answer = Mapping[str, Any]
WORD = "test"
BLANK = {"title": "", "text": "", "share_pct": 0, "points": ()}


def first_step(answer: Answer) -> Markup:
    """What to do before anything else, the link to it if there is one, and what not to do until then."""
    first = answer.get("first")
    shown = first or {"text": "", "not_before": ()}
    link = next((step for step in answer.get("next", ()) if step.get("foremost")), None)
    until = tag(
        "div",
        tag("p", symbol("care"), " ", tag("b", "Until then, do not:")),
        tag("ul", *(_line(text) for text in shown["not_before"]), data_list="not-before"),
        data_until=True,
        hidden=not shown["not_before"],
    )
    return tag(
        "section",
        tag("h3", "Do this next", id="first-title"),
        tag("p", shown["text"], class_="first-text", data_slot="first"),
        _link(link),
        until,
        class_="first-step",
        data_first_step=True,
        hidden=first is None,
        aria_labelledby="first-title",
    )


def _link(step: Mapping[str, Any] | None) -> Markup:
    named = step or {"job": "", "label": "", "inputs": {}}
    key = named["inputs"].get(WORD, "")
    return tag(
        "a",
        tag("span", draw_pictures.of(WORD, key) if key else None, class_="first-picture", data_first_picture=True),
        tag("span", named["label"], data_slot="label"),
        symbol("on"),
        href=f"../{named['job']}/",
        class_="door first-door",
        data_first_door=True,
        hidden=step is None,
    )


def cards(answer: Answer) -> Markup:
    """Several answers, the one with the most points first."""
    shown = answer.get("cards", ())
    titles = answer.get("cards_titles", ("", ""))
    return tag(
        "section",
        tag("h3", titles[0], id="cards-title", data_slot="cards-title"),
        tag("ol", *(card(one, titles[1]) for one in shown), class_="weighed", data_list="cards"),
        data_cards=True,
        hidden=not shown,
        aria_labelledby="cards-title",
    )


def card(one: Mapping[str, Any], fold: str = "") -> Markup:
    """One of them: its name, its points as number and bar, and under *fold* the reasons for and against it."""
    head = tag(
        "p",
        tag("b", one["title"], data_slot="title"),
        " ",
        tag("span", one["text"], data_slot="text"),
        class_="weighed-head",
    )
    filled = tag("rect", x=0, y=0, width=round(one["share_pct"], 2), height=8, class_="weighed-part", data_share=True)
    whole = tag("rect", x=0, y=0, width=100, height=8, class_="weighed-whole")
    bar = tag(
        "svg", whole, filled, viewBox="0 0 100 8", preserveAspectRatio="none", class_="weighed-bar", aria_hidden="true"
    )
    points = tag("div", *(point(side) for side in one["points"]), class_="points", data_list="points")
    why = tag(
        "details",
        tag("summary", tag("span", fold, data_slot="fold"), symbol("on")),
        points,
        class_="more weighed-why",
    )
    return tag("li", head, bar, why, class_="weighed-one")


def point(side: Mapping[str, Any]) -> Markup:
    """The reasons for it, or those against it."""
    texts = tag("ul", *(_line(text) for text in side["texts"]), data_list="texts")
    return tag("div", tag("p", tag("b", side["name"], data_slot="name")), texts, class_="point")


def templates() -> dict[str, Markup]:
    """The rows that repeat, empty, and the pictures that a large link may show."""
    pictures = (tag("span", draw_pictures.of(WORD, key), data_picture=key) for key in draw_pictures.keys(WORD))
    return {"card": card(BLANK), "point": point({"name": "", "texts": ()}), "pictures": join(*pictures)}


def _line(text: str) -> Markup:
    return tag("li", tag("span", text, data_slot="words"))
