"""The row that writes one entry into the heap book in one tap: its button, the way to change it first, and what was written, with its undo."""

from __future__ import annotations

from draw_tag import Markup, tag


def template() -> Markup:
    """The row, empty, for any page that suggests an entry."""
    return tag("template", _row(), data_template="record")


def _row() -> Markup:
    change = tag("a", "Change before recording", href="", class_="record-change", data_change=True)
    undo = tag("button", "Undo", type="button", class_="deed quiet", data_undo_record=True, hidden=True)
    return tag(
        "div",
        tag("button", tag("span", data_slot="label"), type="button", class_="deed", data_record_now=True),
        change,
        tag("p", class_="saved", role="status", data_slot="recorded", data_tone="plain"),
        tag(
            "details",
            tag("summary", "What it changes"),
            tag("p", data_slot="changes"),
            class_="folded",
            data_changes=True,
            hidden=True,
        ),
        undo,
        class_="record-row",
        data_record_row=True,
    )
