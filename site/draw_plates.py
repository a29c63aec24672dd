"""The drawings of the handbook: a section with numbered parts, or a row of small pictures, each with its words as text of the page.

A drawing holds no words but numbers, so that its words grow with the text of the page. Its title says what it shows to whoever hears it.
"""

from __future__ import annotations

from collections.abc import Mapping

import draw_lines
import plates_metal
import plates_mould
import plates_sand
from draw_tag import Markup, tag
from plate import Panels, Section

PLATES: Mapping[str, Panels | Section] = {**plates_sand.DRAWN, **plates_mould.DRAWN, **plates_metal.DRAWN}
"""Every drawing by its name."""


def figure(name: str) -> Markup:
    """A drawing with its words."""
    drawn = PLATES[name]
    body = _panels(drawn) if isinstance(drawn, Panels) else _section(drawn)
    return tag("figure", *body, tag("figcaption", drawn.caption), class_="plate", data_plate=name)


def _panels(drawn: Panels) -> list[Markup]:
    cells = [
        tag("li", draw_lines.picture(parts), tag("span", tag("b", name), " ", words))
        for name, words, parts in drawn.panels
    ]
    return [tag("ul", *cells, class_="plate-panels")]


def _section(drawn: Section) -> list[Markup]:
    sheet = tag(
        "svg",
        tag("title", f"{drawn.caption} " + "; ".join(f"{at}: {words}" for at, words in enumerate(drawn.parts, 1))),
        drawn.drawing,
        class_="pic plate-section",
        viewBox=f"0 0 {Section.WIDE} {drawn.high}",
        role="img",
        focusable="false",
    )
    return [sheet, tag("ol", *(tag("li", words) for words in drawn.parts), class_="plate-parts")]
