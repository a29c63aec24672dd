"""The casting on the home page: its sheet with one line a step, the list of other castings, and the questions that begin a new one."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import checkout
import draw
import draw_answer
import draw_fields
import draw_to_do
import handbook_pages
from draw_tag import Markup, join, symbol, tag

EXACT = {
    "name": "size",
    "label": "More exact, if you know it",
    "options": (
        {"name": "water", "label": "Dipped in water", "words": ("casting_volume_cm3",)},
        {"name": "weight", "label": "Weighed", "words": ("casting_kg",)},
    ),
}
"""Ways to give the volume of a casting; without one it is taken as a block. A file is measured on the page of the pattern."""
ASKED = ("metal", "box_mm")
ON_HAND = ("flasks", "heap_kg", "sand_bag_kg", "clay_bag_kg")
HEAP = ("heap_kg",)
"""What is not asked where there is a heap book."""
HINTS = {
    "flasks": "Inside, without the wood. Left empty: one flask of 300 × 300 mm, with 100 mm in each half.",
    "heap_kg": "Moulding sand that you have already. Left empty: there is none yet.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Handwork:
    """Work between two steps of the sheet that nothing is calculated for: what it is, what to do, where to read how, and what can hurt.

    *before* is the job of the step that it comes before.
    """

    before: str
    name: str
    short: str
    words: str
    pages: tuple[str, ...]
    cautions: tuple[str, ...]
    done: str = ""
    """What to tick once it is done, where the next step waits for it."""


HANDWORK = (
    Handwork(
        before="pour",
        name="Mould it",
        short="ram, turn over, vent, draw",
        words=(
            "Lay the pattern on a board inside the drag, ram the sand around it in layers, and turn it over. Put the cope on, stand a stick for "
            "the sprue beside the pattern, ram, and prick vents. Lift the cope off, cut the runner and the gate, draw the pattern, clean, and close."
        ),
        pages=("ramming", "gating", "venting"),
        cautions=("turn", "lift"),
        done="The mould is closed",
    ),
    Handwork(
        before="heap",
        name="Shake out",
        short="pick out crust, riddle",
        words="Once it may be opened: lift the casting out, pick out the crust, and riddle the sand when it is cool.",
        pages=("opening", "riddling"),
        cautions=("dust", "hot_sand"),
    ),
)
"""In the order of the day."""


def home() -> Markup:
    """Everything that the home page shows of castings; the browser shows the part that fits."""
    return join(draw_answer.not_started(), sheet(), start(), others(), bar(), templates())


def sheet() -> Markup:
    """The casting in use: its name, its state, what to do next, and one line a step."""
    name = tag(
        "input",
        type="text",
        class_="heap-name",
        data_casting_name=True,
        aria_label="Name of the casting",
        maxlength="60",
        autocomplete="off",
    )
    figures = tag("a", "Change its figures", href="plan/", class_="deed quiet", data_casting_figures=True)
    deeds = [
        tag("button", label, type="button", class_="deed quiet", data_casting_deed=deed)
        for deed, label in (("finish", "It is finished"), ("new", "New casting"))
    ]
    return tag(
        "section",
        tag("div", name, draw_answer.badge({"word": "no answer yet", "tone": "plain"}), class_="heap-head"),
        tag("p", class_="casting-about", data_slot="about"),
        tag("p", class_="casting-next", data_slot="sentence", role="status"),
        tag("ul", class_="cautions", data_list="casting-cautions"),
        tag("ol", class_="doors day sheet", data_list="casting-steps", aria_label="The day, step by step"),
        tag("div", class_="casting-entries", id="record-cast", data_casting_entries=True),
        tag(
            "details",
            tag("summary", "What is assumed ", tag("span", data_slot="remarks")),
            tag("ul", class_="remarks", data_list="casting-remarks"),
            class_="folded",
            data_casting_remarks=True,
            hidden=True,
        ),
        tag("p", figures, *deeds, class_="heap-ways", id="finish"),
        class_="card casting",
        data_casting=True,
        hidden=True,
        aria_label="This casting",
    )


def step(tone: str = "plain") -> Markup:
    """One step of the sheet: its name, its state, its main figure with the likely range, or what is missing."""
    return tag(
        "li",
        tag(
            "a",
            tag(
                "span",
                tag("b", data_slot="label"),
                tag("span", class_="door-state", data_slot="state", data_tone=tone),
                tag(
                    "span",
                    tag("b", class_="sheet-figure", data_slot="figure"),
                    tag("small", data_slot="line"),
                    class_="sheet-said",
                ),
                class_="door-words",
            ),
            symbol("on"),
            class_="door",
            href="",
        ),
    )


def handwork(work: Handwork) -> Markup:
    """One line of work by hand, between the steps; it opens to what to do."""
    pages = [handbook_pages.BY_NAME[name] for name in work.pages]
    said = checkout.module("sandmix.asking.cautions")
    cautions = (draw_to_do.caution(str(getattr(said, name.upper()))) for name in work.cautions)
    links = (tag("a", page.short, href=f"{handbook_pages.FOLDER}{page.name}/") for page in pages)
    box = tag("input", type="checkbox", data_hand_tick=True, autocomplete="off")
    tick = tag("label", box, tag("span", work.done), class_="flag") if work.done else None
    return tag(
        "li",
        tag(
            "details",
            tag("summary", tag("span", tag("b", work.name), f": {work.short}")),
            tag("p", work.words),
            tag("ul", *cautions, class_="cautions"),
            tag("p", *links, class_="ways"),
            tick,
            class_="folded",
        ),
        class_="by-hand",
        id=f"before-{work.before}",
        data_before=work.before,
    )


def start() -> Markup:
    """The questions that begin a casting: its metal and its size, and what is on hand."""
    job = draw.job_named("plan")
    words, asks = draw.description()["words"], {entry["word"]: dict(entry) for entry in job["asks"]}
    for word, hint in HINTS.items():
        asks[word]["help"] = hint
    form = tag(
        "form",
        draw.others(),
        draw.summary(),
        draw.said(),
        tag("h3", "What do you want to cast?"),
        tag(
            "div",
            *(draw_fields.field(asks[word], words[word]) for word in ASKED),
            draw_fields.way(EXACT, asks, words),
            class_="ruled",
        ),
        tag("p", tag("a", "Measure it from a file: STL or 3MF", href="pattern/"), class_="hint"),
        tag("h3", "What do you have?"),
        tag("div", *(_on_hand(asks[word], words[word]) for word in ON_HAND), class_="ruled"),
        tag("button", "Plan this casting", type="submit", class_="deed", data_submit=True),
        class_="form",
        data_form="start",
        novalidate=True,
        autocomplete="off",
    )
    away = tag("button", "Not now", type="button", class_="deed quiet", data_start_away=True, hidden=True)
    return tag(
        "section",
        tag("h2", "A new casting"),
        tag(
            "p",
            "Two answers are enough: the metal and the size. Everything else has a usual value, which is named.",
            class_="hint",
        ),
        form,
        away,
        class_="card start",
        data_start=True,
        data_labels=json.dumps({entry["word"]: entry["label"] for entry in job["asks"]}, ensure_ascii=False),
    )


def _on_hand(ask: Mapping[str, Any], word: Mapping[str, Any]) -> Markup:
    return tag("div", draw_fields.field(ask, word), data_without_book=ask["word"] in HEAP or None)


def others() -> Markup:
    """The other castings: open ones to go on with, finished ones to do again."""
    return tag(
        "details",
        tag("summary", "Other castings ", tag("span", data_slot="count")),
        tag("ul", class_="castings", data_list="castings"),
        class_="folded",
        data_castings=True,
        hidden=True,
    )


def row() -> Markup:
    """One of the other castings."""
    deeds = [
        tag("button", label, type="button", class_="deed quiet", data_casting_deed=deed)
        for deed, label in (("open", "Go on"), ("again", "Cast it again"), ("drop", "Throw it away"))
    ]
    return tag(
        "li",
        tag("p", tag("b", data_slot="words"), " ", tag("small", data_slot="about")),
        tag("p", *deeds, class_="heap-ways"),
    )


def bar() -> Markup:
    """What to do next, at the foot of the screen."""
    door = tag("a", tag("span", data_slot="label"), symbol("on"), class_="deed", href="", data_casting_next=True)
    return tag(
        "aside",
        tag("div", door, class_="bar-inner"),
        class_="bar casting-bar",
        data_casting_bar=True,
        hidden=True,
        aria_label="Next",
    )


def templates() -> Markup:
    """The rows that repeat, empty, for the browser to clone."""
    blanks = {"sheet-step": step(), "handwork": join(*map(handwork, HANDWORK)), "casting-row": row()}
    return join(
        draw_answer.templates(),
        *(tag("template", blank, data_template=name, data_search_exclude=True) for name, blank in blanks.items()),
    )
