"""What a drawing of the handbook is made of, and the marks that its sections share."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import ClassVar

from draw_lines import ball, line
from draw_tag import Markup, join, tag


@dataclass(frozen=True, slots=True, kw_only=True)
class Panels:
    """A row of small pictures: of each its name, a few words, and its lines on the sheet of `draw_lines.py`."""

    caption: str
    panels: tuple[tuple[str, str, Markup], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """One large drawing, 320 wide: its numbered parts in words, and its lines."""

    WIDE: ClassVar[int] = 320
    caption: str
    parts: tuple[str, ...]
    high: int
    drawing: Markup


def number(at: int, x: float, y: float, to: tuple[float, float] | None = None) -> Markup:
    """The number of a part in a ring, with a thin line to the part if it stands beside it."""
    digit = tag("text", at, x=x, y=y + 6, text_anchor="middle", class_="plate-number")
    return join(line(f"M{x} {y}L{to[0]} {to[1]}", "lead") if to else None, ball(x, y, 11, "ring"), digit)


def arrow(x: float, y: float, to_x: float, to_y: float) -> Markup:
    """An arrow along one of the axes."""
    along, across = (to_x > x) - (to_x < x), (to_y > y) - (to_y < y)
    back_x, back_y = to_x - 7 * along, to_y - 7 * across
    barbs = f"M{back_x - 6 * across} {back_y - 6 * along}L{to_x} {to_y}L{back_x + 6 * across} {back_y + 6 * along}"
    return line(f"M{x} {y}L{to_x} {to_y}{barbs}")


def grains_in(
    x: float, y: float, wide: float, high: float, leave: Iterable[tuple[float, float, float, float]] = ()
) -> Markup:
    """Grains of sand spread over a rectangle, but not over the rectangles that are left out: left, top, width, height."""
    holes = list(leave)
    marks = []
    for row in range(int(high // 11)):
        for column in range(int(wide // 13)):
            at_x = round(x + 5 + 13 * column + 6.5 * (row % 2), 1)
            at_y = round(y + 6 + 11 * row + 3 * (column % 2), 1)
            inside = at_x < x + wide - 2 and at_y < y + high - 2
            if inside and not any(_within(at_x, at_y, hole) for hole in holes):
                marks.append(f"M{at_x} {at_y}h.01")
    return line("".join(marks), "grains")


def _within(x: float, y: float, hole: tuple[float, float, float, float]) -> bool:
    left, top, wide, high = hole
    return left - 3 < x < left + wide + 3 and top - 3 < y < top + high + 3
