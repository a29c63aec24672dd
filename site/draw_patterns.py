"""Kept patterns: the page of the pattern can keep one, and the pages that use a pattern have a list to take one from."""

from __future__ import annotations

import json

from draw_book import NAME_LENGTH
from draw_tag import Markup, symbol, tag

FROM = "pattern"
KEPT = (
    "volume_cm3",
    "area_cm2",
    "box_mm",
    "casting_volume_cm3",
    "casting_area_cm2",
    "modulus_mm",
    "projected_area_cm2",
    "pattern_volume_cm3",
    "casting_kg",
    "thinnest_mm",
)
"""The figures that are kept with the name."""
LISTED = ("casting_kg", "box_mm")
"""What the list shows of a pattern, as texts of the answer."""
TAKEN_BY = ("plan", "fit", "feed", "gate", "flask", "pour", "burnout")
"""Jobs that use a pattern; each takes the inputs that the pattern's answer passes on to it."""


def for_job(name: str) -> Markup:
    """The part of a job's page that keeps a pattern or takes one."""
    drawn = _keep() if name == FROM else _take(name) if name in TAKEN_BY else None
    return tag("template", drawn, data_template="pattern", data_search_exclude=True) if drawn else Markup("")


def _keep() -> Markup:
    box = tag(
        "input", id="pattern-name", type="text", maxlength=NAME_LENGTH, autocomplete="off", data_pattern_name=True
    )
    return tag(
        "div",
        tag("label", "Name of the pattern", for_="pattern-name"),
        tag("span", box, class_="box"),
        tag("button", "Keep this pattern", type="button", class_="deed quiet", data_keep=True),
        tag("p", class_="deed-said", role="status", data_keep_said=True),
        class_="named keep-pattern",
        data_kept=json.dumps(KEPT),
        data_said=json.dumps(LISTED),
        hidden=True,
    )


def _take(name: str) -> Markup:
    row = tag(
        "li",
        tag(
            "button",
            tag("span", data_slot="name"),
            tag("small", data_slot="said"),
            type="button",
            class_="deed quiet",
            data_take=True,
        ),
        tag("button", "Forget", type="button", class_="deed quiet", data_forget=True),
    )
    return tag(
        "details",
        tag("summary", "Take a pattern", symbol("on")),
        tag("ul", class_="kept-patterns", data_patterns=True),
        tag("p", class_="deed-said", role="status", data_take_said=True),
        tag("template", row, data_pattern_row=True),
        class_="more",
        data_takes=name,
        hidden=True,
    )
