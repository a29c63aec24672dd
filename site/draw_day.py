"""The steps of a casting day: one line each, which opens its job with everything filled in."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from draw_tag import Markup, symbol, tag

Answer = Mapping[str, Any]


def day(answer: Answer) -> Markup:
    """The list of steps; hidden for an answer that has none."""
    steps = answer.get("steps", ())
    return tag(
        "nav",
        tag("h3", "The day, step by step", id="day-title"),
        tag("ol", *(day_step(step) for step in steps), class_="doors day", data_list="day"),
        class_="next",
        data_day=True,
        hidden=not steps,
        aria_labelledby="day-title",
    )


def day_step(step: Mapping[str, Any]) -> Markup:
    """One step: its name, its state, and what it says; the inputs are put in the address by the page."""
    words = tag(
        "span",
        tag("b", step["label"], data_slot="label"),
        tag("span", step["state"]["word"], class_="door-state", data_slot="state", data_tone=step["state"]["tone"]),
        tag("small", step["line"], data_slot="line"),
        class_="door-words",
    )
    return tag("li", tag("a", words, symbol("on"), class_="door", href=f"../{step['job']}/"))


def template() -> Markup:
    """An empty step, for the browser to clone."""
    return day_step({"job": "", "label": "", "line": "", "state": {"word": "", "tone": "plain"}})
