"""The card that a job prints: one small sheet with the main figure, blanks, what to do, and a code with the same inputs.

It is a template, which the browser fills and adds to the page only while it prints.
"""

from __future__ import annotations

from draw_tag import Markup, join, symbol, tag

SAND = ("Moisture measured", "Height before / after ramming")
BLANKS = {
    "mix": SAND,
    "temper": SAND,
    "rebond": SAND,
    "flask": ("Rammed at",),
    "pour": ("Poured at", "Metal at"),
    "burnout": ("Poured at", "Opened at"),
    "plan": ("Poured at", "Opened at"),
}
"""What a person writes on the card of a job, in addition to the date and a name."""
NO_CODE = "The inputs are too long for a code. “Copy a link” on the page has them all."
NOT_DRAWN = "The code could not be loaded. “Copy a link” on the page has the same inputs."


def template(job: str) -> Markup:
    """The card and its rows, each in a template of its own."""
    rows = {"paper": card(job), "paper-line": line(), "paper-figure": figure(), "paper-given": given()}
    return join(*(tag("template", row, data_template=name, data_search_exclude=True) for name, row in rows.items()))


def card(job: str) -> Markup:
    """The whole card, empty."""
    return tag(
        "article",
        tag("header", tag("h1", data_slot="title"), badge(), class_="paper-head"),
        tag(
            "p",
            tag("span", data_slot="label"),
            tag("strong", data_slot="text"),
            tag("span", data_slot="then"),
            class_="paper-lead",
        ),
        blanks(job),
        tag("p", data_slot="headline", class_="paper-headline"),
        tag("ul", data_list="paper-lines", class_="paper-lines"),
        tag("dl", data_list="paper-figures", class_="paper-pairs"),
        tag(
            "footer",
            tag(
                "div",
                tag("p", data_slot="cautions", class_="paper-cautions"),
                tag("dl", data_list="paper-given", class_="paper-pairs"),
                class_="paper-beside",
            ),
            tag("div", tag("p", data_slot="no-code", data_too_long=NO_CODE, data_not_drawn=NOT_DRAWN), data_code=True),
            class_="paper-foot",
        ),
        class_="paper",
        data_paper=job,
        aria_hidden="true",
    )


def badge() -> Markup:
    """The state as an icon and a word."""
    signs = [tag("span", symbol(tone), data_sign=tone, hidden=True) for tone in ("go", "care", "stop", "plain")]
    return tag("span", *signs, tag("b", data_slot="state"), class_="paper-state")


def blanks(job: str) -> Markup:
    """The lines to write on."""
    names = ("Date", "By", *BLANKS.get(job, ()))
    return tag(
        "ul", *(tag("li", name, tag("span", class_="paper-blank-line")) for name in names), class_="paper-blanks"
    )


def line() -> Markup:
    """One thing to do: a box to tick, or a sign if it is already so, with its amount or a blank for the time."""
    return tag(
        "li",
        tag("span", symbol("go"), class_="paper-box"),
        tag("span", tag("b", data_slot="name"), " ", tag("span", data_slot="words"), class_="paper-words"),
        tag("b", data_slot="amount"),
        tag("span", "at", tag("span", class_="paper-blank-line"), class_="paper-at"),
    )


def figure() -> Markup:
    """One figure of the answer under its label."""
    return tag("div", tag("dt", data_slot="label"), tag("dd", data_slot="text"))


def given() -> Markup:
    """One input under its label."""
    return figure()
