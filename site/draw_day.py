"""The steps of a casting day: one line each, which opens its job with everything filled in; and the casting that a page is for."""

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
    """One step: its name, its state, its main figure or what is missing; the inputs are put in the address by the page."""
    words = tag(
        "span",
        tag("b", step["label"], data_slot="label"),
        tag("span", step["state"]["word"], class_="door-state", data_slot="state", data_tone=step["state"]["tone"]),
        tag("small", _figure(step), data_slot="line"),
        class_="door-words",
    )
    return tag("li", tag("a", words, symbol("on"), class_="door", href=f"../{step['job']}/"))


def _figure(step: Mapping[str, Any]) -> str:
    """The main figure of a step with its likely range, or what is missing."""
    lead = step.get("lead")
    if not lead:
        return str(step["line"])
    return ", ".join(part for part in (f"{lead['label']}: {lead['text']}", lead["then"]) if part)


def template() -> Markup:
    """An empty step, for the browser to clone."""
    return day_step({"job": "", "label": "", "line": "", "state": {"word": "", "tone": "plain"}})


def for_casting() -> Markup:
    """Which casting a job's page is for, with the way back to it, and the way to use the page without it."""
    name = tag("a", "For ", tag("b", data_slot="name"), href="../")
    leave = tag("a", "Use it without the casting", href="#alone", data_leave_casting=True)
    return tag("p", name, " · ", leave, class_="for-casting", data_for_casting=True, hidden=True)


def unfold() -> Markup:
    """What stands in place of a form whose figures are all known from the casting, and opens it."""
    words = "Figures from your casting · Change"
    return tag("button", words, type="button", class_="deed quiet unfold", data_unfold=True, hidden=True)


def go_on(css: str, *, short: bool = False) -> Markup:
    """The way on to the next step of the casting; a short one says no more than that."""
    words = tag("span", "Next") if short else tag("span", "Back to the casting", data_slot="step")
    return tag("a", words, symbol("on"), href="../", class_=css, data_casting_on=True, hidden=True)


def keep() -> Markup:
    """The button that keeps a plan as a casting, so that its steps, ticks and clocks stay together."""
    return tag(
        "button", "Keep it as a casting", type="button", class_="deed casting-on", data_keep_casting=True, hidden=True
    )
