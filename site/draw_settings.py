"""The page of the settings: how the site looks and lies in the hand, a person's units, and the figures that a person always uses.

What is chosen is kept in the browser; the page's script marks it when it opens.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from typing import Any

import draw
import draw_answer
import draw_book
import draw_fields
from draw_tag import Markup, symbol, tag

LOOKS = (("", "As the device"), ("paper", "Paper"), ("night", "Night"), ("contrast", "High contrast"))
"""The looks of `look.js`, by their names; none named follows what the device prefers."""
TEXT_SIZES = (("", "Usual"), ("large", "Large"), ("larger", "Larger"), ("largest", "Largest"))
"""The sizes of `settings.css`, by their names; each comes on top of the browser's own text size."""
HANDS = (("", "Right hand"), ("left", "Left hand"))

Choices = Iterable[tuple[str, str]]


def page() -> Markup:
    """The whole page."""
    return tag(
        "div",
        tag("noscript", tag("p", "Settings need JavaScript, because they are kept in this browser.", class_="notice")),
        tag("p", class_="unseen", role="status", data_setting_said=True),
        _appearance(),
        _units(),
        _own_figures(),
        _everything(),
        draw_book.import_templates(),
        draw_answer.templates(),
        class_="settings",
        data_settings=True,
    )


def section(name: str, title: str, *parts: object) -> Markup:
    """One part of the page under its heading, which links can name."""
    return tag("section", tag("h2", title, id=name), *parts, class_="card setting-group")


def choice(name: str, label: str, choices: Choices, help_text: str = "") -> Markup:
    """One setting as chips; the first choice is the usual one."""
    described = f"about-{name}" if help_text else None
    about = tag("p", help_text, class_="hint", id=described) if help_text else None
    return tag(
        "fieldset", tag("legend", label), _chips(name, choices), about, aria_describedby=described, data_setting=name
    )


def more(title: str, *parts: object) -> Markup:
    """Settings that few people need, folded."""
    return tag("details", tag("summary", title, symbol("on")), *parts, class_="more")


def _appearance() -> Markup:
    return section(
        "appearance",
        "Look and reach",
        choice("look", "Look", LOOKS, "The button with the half disc at the top of each page changes it too."),
        choice(
            "text",
            "Text size",
            TEXT_SIZES,
            "On top of the text size of your browser. Gloves on, phone on the bench: a size larger can be read from further away.",
        ),
        choice(
            "hand",
            "The hand that holds the phone",
            HANDS,
            "With the left hand, − and + and the buttons at the edge change sides, so that your thumb reaches them.",
        ),
    )


def _units() -> Markup:
    """One choice for all units, and one for each kind of amount. A chip holds the wish that it stands for, as the library takes it."""
    described = draw.description()
    systems = [(system["wish"], system["label"]) for system in described["unit_systems"]]
    kinds = [
        _wish_choice(f"unit-{kind['key']}", kind["label"], [(each["wish"], each["label"]) for each in kind["choices"]])
        for kind in described["unit_kinds"]
    ]
    return section(
        "units",
        "Units",
        _wish_choice("units", "For everything", systems),
        more("By kind of amount", *kinds),
        tag(
            "p",
            "Boxes open in these units, and answers are written in them. A box can still be changed by itself: tap its unit. Formulas, "
            "drawings, charts and the fields for several flasks stay metric.",
            class_="hint",
        ),
    )


def _wish_choice(name: str, label: str, choices: Iterable[tuple[Mapping[str, str], str]]) -> Markup:
    """A choice of units; the value of each chip is its wish."""
    written = ((json.dumps(wish, ensure_ascii=False), words) for wish, words in choices)
    return tag("fieldset", tag("legend", label), _chips(name, written), data_wishes=name)


def _chips(name: str, choices: Choices) -> Markup:
    chips = (draw_fields.chip(f"setting-{name}", value, words, at == 0) for at, (value, words) in enumerate(choices))
    return tag("div", *chips, class_="chips")


def plan_takes() -> list[str]:
    """The figures of a workshop that the plan of a casting takes."""
    asked = {entry["word"] for entry in draw.job_named("plan")["asks"]}
    return [word for group in draw.description()["workshop"] for word in group["words"] if word in asked]


def _own_figures() -> Markup:
    """What a person always uses: one field for each word of the workshop, with the help that a job gives it."""
    words = draw.description()["words"]
    groups = [
        more(group["label"], *(draw_fields.field(_ask(name), words[name]) for name in group["words"]))
        for group in draw.description()["workshop"]
    ]
    form = tag(
        "form",
        draw.others(),
        draw.summary("Something here cannot be used yet"),
        draw.said(),
        tag("div", *groups, class_="ruled"),
        class_="form",
        data_form="own",
        data_own_figures=True,
        novalidate=True,
        autocomplete="off",
    )
    about = (
        "They stand in every form where nothing better is known, and say that they are from here. Your own figure in a form, "
        "a measurement, the heap book and a link go before them. An empty box means the usual default."
    )
    return section("own", "Your own materials and prices", tag("p", about, class_="hint"), form)


def _ask(name: str) -> Mapping[str, Any]:
    """How a job asks for a word; the usual default of the first that has one is named."""
    asked: list[Mapping[str, Any]] = [
        entry for job in draw.description()["jobs"] for entry in job["asks"] if entry["word"] == name
    ]
    return next((entry for entry in asked if entry["default"] is not None), asked[0])


def _everything() -> Markup:
    """One file with everything, and the way to delete it all."""
    export = tag("button", "Export everything", type="button", class_="deed quiet", data_export_everything=True)
    file = tag(
        "input", type="file", id="import", accept=".json,application/json", class_="unseen-file", data_import=True
    )
    choose = tag("label", "Import a file", for_="import", class_="deed quiet pick")
    back = tag(
        "button",
        "Bring back what the last import replaced",
        type="button",
        class_="deed quiet",
        data_bring_back_import=True,
        hidden=True,
    )
    sure = tag(
        "div",
        tag(
            "p", "This deletes all books, castings, patterns, figures and settings in this browser. Export them first."
        ),
        tag("button", "Export everything first", type="button", class_="deed", data_export_everything=True),
        tag("button", "Delete everything", type="button", class_="deed quiet", data_delete_all=True),
        tag("button", "Keep it", type="button", class_="deed quiet", data_delete_leave=True),
        class_="card sure",
        data_delete_sure=True,
        hidden=True,
    )
    return section(
        "everything",
        "Everything in one file",
        tag(
            "p",
            "Heap books, castings, kept patterns, settings and what stands in the forms. An import checks the whole file first, shows "
            "what would change, and deletes nothing.",
            class_="hint",
        ),
        tag(
            "div",
            tag("div", export, file, choose, class_="two-deeds"),
            tag("div", data_asking=True, class_="card sure", role="group", aria_label="Import", hidden=True),
            tag("p", class_="deed-said", role="status", data_file_said=True),
            tag(
                "div",
                back,
                tag(
                    "button",
                    "Delete everything on this device",
                    type="button",
                    class_="deed quiet",
                    data_delete_begin=True,
                ),
                class_="two-deeds",
            ),
            sure,
            data_everything=True,
        ),
    )
