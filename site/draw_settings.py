"""The page of the settings: how the site looks and lies in the hand.

What is chosen is kept in the browser; the page's script marks it when it opens.
"""

from __future__ import annotations

from collections.abc import Iterable

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
        class_="settings",
        data_settings=True,
    )


def section(name: str, title: str, *parts: object) -> Markup:
    """One part of the page under its heading, which links can name."""
    return tag("section", tag("h2", title, id=name), *parts, class_="card setting-group")


def choice(name: str, label: str, choices: Choices, help_text: str = "") -> Markup:
    """One setting as chips; the first choice is the usual one."""
    chips = [
        tag(
            "label",
            tag("input", type="radio", name=f"setting-{name}", value=value, checked=at == 0),
            tag("span", words),
            class_="chip",
        )
        for at, (value, words) in enumerate(choices)
    ]
    described = f"about-{name}" if help_text else None
    about = tag("p", help_text, class_="hint", id=described) if help_text else None
    group = tag("div", *chips, class_="chips")
    return tag("fieldset", tag("legend", label), group, about, aria_describedby=described, data_setting=name)


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
