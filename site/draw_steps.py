"""Things to do: a list to tick before the start, and clocks that run from the pour or from a dose."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from draw_tag import Markup, join, symbol, tag

Answer = Mapping[str, Any]
NAMES = {
    "stop": "Do not pour until this is done",
    "care": "Take care",
    "go": "True by the figures you gave",
    "plain": "",
}
BEGINS = {
    "bench": ("Waiting times of this test", "Start the clocks", "Started"),
    "mix": ("Times after the water", "Water is in: start the clocks", "Water in"),
    "temper": ("Times after the water", "Water is in: start the clocks", "Water in"),
    "tin": ("Times after the water", "Water is in: start the clocks", "Water in"),
    "dry": ("Times while it dries", "It is drying: start the clocks", "Drying began"),
    "rebond": ("Times after each dose", "The dose is in: start the clocks", "Dose in"),
    "": ("Times after the pour", "Metal is poured: start the clocks", "Poured"),
}
"""For some jobs and for the others: the title over the times, the button that starts the clocks, and what comes before the time of the start."""
MINUTE_S, HOUR_S = 60, 3600


def checklist(answer: Answer) -> Markup:
    """The list to tick by hand; some points may already be true by the figures given."""
    items = answer.get("checklist", ())
    return tag(
        "section",
        tag("h3", "Tick before you start", id="checklist-title"),
        tag("ul", *(check(item["tone"], item["text"]) for item in items), class_="checks", data_list="checklist"),
        tag("p", class_="checks-left", data_checks_left=True),
        tag("button", "Clear the ticks", type="button", class_="deed quiet", data_clear_ticks=True),
        class_="steps",
        data_checklist=True,
        hidden=not items,
        aria_labelledby="checklist-title",
    )


def check(tone: str, words: str) -> Markup:
    """One point to tick, or one that needs no tick."""
    text = tag("span", tag("b", NAMES[tone]) if NAMES[tone] else None, tag("span", words, data_slot="words"))
    if tone == "go":
        return tag("li", tag("p", symbol("go"), text, class_="check-met"), class_="check", data_tone=tone)
    box = tag("input", type="checkbox", data_check=True, autocomplete="off")
    return tag("li", tag("label", box, text, class_="flag"), class_="check", data_tone=tone)


def begin(answer: Answer, job: str) -> Markup:
    """How long each wait takes from the start, and the button that starts the clocks."""
    timers = answer.get("timers", ())
    title, start, _ = BEGINS.get(job, BEGINS[""])
    return tag(
        "section",
        tag("h3", title, id="begin-title"),
        tag("ul", *(span(timer) for timer in timers), class_="spans", data_list="spans"),
        tag("button", start, type="button", class_="deed", data_clock_begin=True),
        tag("p", "These are the example's times. Enter your own figures to start clocks.", class_="hint"),
        class_="steps",
        data_begin=True,
        hidden=not timers,
        aria_labelledby="begin-title",
    )


def span(timer: Mapping[str, Any]) -> Markup:
    """One wait before its clock runs; on paper it has a blank for the time."""
    latest = timer.get("latest_s")
    return tag(
        "li",
        tag("span", timer["label"], data_slot="label"),
        tag("b", f"after {timer['text']}", data_slot="after"),
        tag("small", f"after {spell(latest)} at the latest" if latest else "", data_slot="latest"),
        tag("span", "at", tag("span", class_="blank"), class_="paper-blank"),
        class_="span",
    )


def clocks(job: str) -> Markup:
    """The running clocks: empty here, filled by the browser."""
    *_, since = BEGINS.get(job, BEGINS[""])
    return tag(
        "section",
        tag("h3", f"{since} ", tag("span", data_slot="since"), id="clocks-title"),
        running("Stop the clocks"),
        class_="steps clocks",
        data_clocks=True,
        hidden=True,
        aria_labelledby="clocks-title",
    )


def running(stop: str) -> Markup:
    """The list of running clocks, and the button that stops them."""
    return join(
        tag("ul", class_="spans", data_list="clocks"),
        tag("button", stop, type="button", class_="deed quiet", data_clock_stop=True),
        tag("p", class_="unseen", role="status", data_clock_said=True),
    )


def clock() -> Markup:
    """One running clock: when it ends, how long until then, and the latest time."""
    return tag(
        "li",
        tag("span", data_slot="label"),
        tag("b", data_slot="at"),
        tag("span", class_="clock-left", data_slot="left"),
        tag("small", data_slot="latest"),
        class_="span clock",
    )


def templates() -> dict[str, Markup]:
    """The rows that repeat, empty, under the names by which the browser clones them."""
    blank = {"label": "", "text": ""}
    return {
        "check": join(*(check(tone, "") for tone in NAMES)),
        "span": span(blank),
        "clock": clock(),
    }


def spell(seconds: float) -> str:
    """A span of time in hours and minutes, or in seconds below a minute."""
    if seconds < MINUTE_S:
        return f"{round(seconds)} s"
    hours, minutes = divmod(round(seconds / MINUTE_S), HOUR_S // MINUTE_S)
    return " ".join([f"{hours} h"] * (hours > 0) + [f"{minutes} min"] * (minutes > 0 or not hours))
