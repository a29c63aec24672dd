"""The card of a test of the sand: what it is for, what you need, its steps to tick, its waits, and its error.

The build puts all cards into the page, so they can be read before the calculator has loaded, and without it.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

import draw_pictures
from draw_steps import running, spell
from draw_tag import Markup, join, tag

Test = Mapping[str, Any]
WORD = "test"
NBSP = "\u00a0"
MANNERS = {"home": "At home", "lab": "In a laboratory"}


def cards(tests: Sequence[Test]) -> Markup:
    """A card for every test; the page shows the chosen one, and all of them without JavaScript."""
    return tag("div", *(card(test) for test in tests), class_="tests", data_tests=True)


def card(test: Test) -> Markup:
    """One test: its picture and purpose, then its versions next to each other."""
    key = test["key"]
    first = next(iter(test["readings"]), None)
    head = tag(
        "div",
        tag("div", draw_pictures.of(WORD, key, f"Drawing: {test['label']}"), class_="test-picture"),
        tag("div", tag("h3", test["label"], id=f"test-{key}"), tag("p", test["measures"]), class_="test-words"),
        class_="test-head",
    )
    facts = tag(
        "dl",
        tag("dt", "What it shows"),
        tag("dd", test["says"]),
        tag("dt", "What it does not show"),
        tag("dd", test["says_not"]),
        class_="test-says",
    )
    readings = tag("a", "Go to the readings", href=f"#field-{first}", class_="deed quiet", data_go_to=first)
    another = tag("a", "Another test", href=f"#field-{WORD}", class_="deed quiet", data_go_to=WORD)
    ways = [_way(key, manner, test[manner]) for manner in MANNERS if test.get(manner)]
    return tag(
        "section",
        head,
        facts,
        tag("p", readings if first else None, " ", another, class_="test-goes"),
        tag("div", *ways, class_="test-ways"),
        class_="test",
        data_only=WORD,
        data_only_for=key,
        aria_labelledby=f"test-{key}",
    )


def _way(key: str, manner: str, way: Mapping[str, Any]) -> Markup:
    """One version of the test: what you need, the steps, the error."""
    steps = [_step(key, manner, at, step) for at, step in enumerate(way["steps"], start=1)]
    ticks = tag(
        "div",
        tag("ol", *steps, class_="checks test-steps"),
        tag("p", class_="checks-left", data_checks_left=True),
        tag("button", "Clear the ticks", type="button", class_="deed quiet", data_clear_ticks=True, hidden=True),
        data_checklist=True,
    )
    return tag(
        "section",
        tag("h4", MANNERS[manner]),
        tag("p", tag("b", "You need: "), "; ".join(way["takes"]), ".", class_="test-takes"),
        ticks,
        tag("p", tag("b", "Error: "), way["error"].replace("± ", f"±{NBSP}"), ".", class_="test-error"),
        class_="test-way",
        data_manner=f"{key}.{manner}",
    )


def _step(key: str, manner: str, at: int, step: Mapping[str, Any]) -> Markup:
    box = tag("input", type="checkbox", data_check=True, autocomplete="off")
    words = tag("span", tag("span", step["text"], data_slot="words"))
    wait = _wait(f"{key}.{manner}.{at}", step) if step.get("wait_s") else None
    return tag("li", tag("label", box, words, class_="flag"), wait, class_="check", data_tone="plain")


def _wait(name: str, step: Mapping[str, Any]) -> Markup:
    """The clock of a step with a wait: a button that starts it, then the time when the wait is over."""
    wait_s, label = step["wait_s"], step.get("wait_label")
    timer = {
        "name": name,
        "label": f"Wait over: {label}" if label else "Wait over",
        "after_s": wait_s,
        "text": spell(wait_s),
    }
    begin = tag(
        "div",
        tag("p", "Wait ", tag("b", spell(wait_s)), class_="span without-script"),
        tag(
            "button",
            f"Start a clock: {spell(wait_s).replace(' ', NBSP)}",
            type="button",
            class_="deed quiet",
            data_clock_begin=True,
        ),
        data_begin=True,
    )
    runs = tag("div", running("Stop the clock"), class_="clocks", data_clocks=True, hidden=True)
    return tag("div", join(begin, runs), class_="wait", data_wait=json.dumps(timer, ensure_ascii=False))
