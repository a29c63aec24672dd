"""Pouring cup, sprue, runner, gate and cavity in section, heights and diameters to scale, as SVG with a title and a description.

Runner and cavity are cut short: only their heights are to scale. The level of the gate is a broken line. Source: geometry.
"""

from __future__ import annotations

from dataclasses import dataclass

from sandmix.drawings import svg
from sandmix.drawings.flask_section import CUP_TO_SPRUE, Box, millimetres

WIDTH = 320.0
_LEFT_ROOM, _RIGHT_ROOM, _TOP_ROOM, _EDGE = 74.0, 74.0, 28.0, 2.0
_MOST_HIGH = 240.0
_SAND = 0.06
"""Sand around everything, as a share of the width of what is drawn."""
_LONG = 0.5
"""The runner and the cavity are drawn this long, as a share of all heights together."""
_HATCHES = {"draw-sand": '<path d="M1 2h.8M4 5h.8" />', "draw-metal": ""}
_Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class GatingSection:
    """What is drawn, in mm: metal in the cup, head, sprue with both diameters, heights of runner and gate, and the cavity around the gate's level."""

    cup_mm: float
    head_mm: float
    sprue_mm: float
    top_mm: float
    base_mm: float
    runner_mm: float
    gate_mm: float
    over_gate_mm: float
    under_gate_mm: float

    @property
    def cup(self) -> Box:
        """The metal in the pouring cup; x grows to the right from the middle of the sprue, y downwards from the metal's surface."""
        wide = CUP_TO_SPRUE * self.top_mm
        return Box(x_mm=-wide / 2, y_mm=0.0, wide_mm=wide, high_mm=self.cup_mm)

    @property
    def sprue(self) -> tuple[_Point, ...]:
        """The corners of the sprue."""
        foot = self.cup_mm + self.sprue_mm
        return (
            (-self.top_mm / 2, self.cup_mm),
            (self.top_mm / 2, self.cup_mm),
            (self.base_mm / 2, foot),
            (-self.base_mm / 2, foot),
        )

    @property
    def _long_mm(self) -> float:
        return _LONG * (self.head_mm + self.under_gate_mm)

    @property
    def _rise_mm(self) -> float:
        """How far the gate reaches above its level: all of its depth where the cavity ends at that level."""
        return 0.0 if self.under_gate_mm > 0 else min(self.gate_mm, self.over_gate_mm)

    @property
    def runner(self) -> Box:
        """The runner, from below the sprue; it lies on the level of the gate where the sprue ends there, else below the sprue's base."""
        top = min(self.cup_mm + self.sprue_mm, self.head_mm) - self._rise_mm
        foot = self.head_mm - self._rise_mm + self.runner_mm
        start = -max(self.base_mm, self.runner_mm) / 2
        return Box(x_mm=start, y_mm=top, wide_mm=self.cup.right_mm + self._long_mm - start, high_mm=foot - top)

    @property
    def gate(self) -> Box:
        """The gate, below the level that the head counts to, or above it where the cavity ends there."""
        long = max(self.gate_mm, 0.3 * self._long_mm)
        return Box(x_mm=self.runner.right_mm, y_mm=self.head_mm - self._rise_mm, wide_mm=long, high_mm=self.gate_mm)

    @property
    def cavity(self) -> Box:
        """The cavity, cut off at its far end."""
        high = self.over_gate_mm + self.under_gate_mm
        return Box(x_mm=self.gate.right_mm, y_mm=self.head_mm - self.over_gate_mm, wide_mm=self._long_mm, high_mm=high)


def describe(section: GatingSection) -> str:
    """Return what the section shows, in words.

    >>> sizes = {"cup_mm": 30, "head_mm": 120, "sprue_mm": 90, "top_mm": 20, "base_mm": 14, "runner_mm": 25}
    >>> describe(GatingSection(**sizes, gate_mm=4, over_gate_mm=10, under_gate_mm=15)).split(". ")[-1]
    'The gate is 4 mm deep, and the cavity reaches 10 mm above its level and 15 mm below it.'
    """
    return (
        f"A sprue of {millimetres(section.sprue_mm)}, {millimetres(section.top_mm)} across at the top and {millimetres(section.base_mm)} at its "
        f"base, under {millimetres(section.cup_mm)} of metal in the pouring cup. The metal stands {millimetres(section.head_mm)} over the gate. "
        f"The gate is {millimetres(section.gate_mm)} deep, and the cavity reaches {millimetres(section.over_gate_mm)} above its level and "
        f"{millimetres(section.under_gate_mm)} below it."
    )


def draw(section: GatingSection, name: str, title: str) -> str:
    """Return *section* as SVG text; *name* makes its ids unique on a page."""
    boxes = (section.cup, section.runner, section.gate, section.cavity)
    left, right = min(box.x_mm for box in boxes), max(box.right_mm for box in boxes)
    top, foot = min(0.0, section.cavity.y_mm), max(box.foot_mm for box in boxes)
    sand = _SAND * (right - left)
    scale = min((WIDTH - _LEFT_ROOM - _RIGHT_ROOM) / (right - left + sand), _MOST_HIGH / (foot - top + sand))
    x0 = _LEFT_ROOM + (WIDTH - _LEFT_ROOM - _RIGHT_ROOM - (right - left + sand) * scale) / 2 - (left - sand) * scale
    y0 = _TOP_ROOM - top * scale

    def drawn(css: str, box: Box) -> str:
        return svg.rect(
            css, name, x0 + box.x_mm * scale, y0 + box.y_mm * scale, box.wide_mm * scale, box.high_mm * scale
        )

    around = Box(x_mm=left - sand, y_mm=top, wide_mm=right - left + sand, high_mm=foot - top + sand)
    ends = (x0 + (left - sand) * scale, x0 + right * scale)
    level = y0 + section.head_mm * scale
    body = [svg.hatches(name, _HATCHES), drawn("draw-sand", around)]
    body += [drawn("draw-metal", box) for box in boxes]
    body.append(svg.path("draw-metal", name, [(x0 + x * scale, y0 + y * scale) for x, y in section.sprue]))
    body.append(svg.line(ends[0] - 3, level, ends[1] + 3, level, "draw-parting", "7 2 1.5 2"))
    body += _upright(ends[0] - 8, y0, level, section.head_mm, "end")
    cavity = section.cavity
    body += _upright(ends[1] + 8, y0 + cavity.y_mm * scale, y0 + cavity.foot_mm * scale, cavity.high_mm, "start")
    below = y0 + (foot + sand) * scale + svg.LINE
    for words in (
        f"sprue {millimetres(section.top_mm)} down to {millimetres(section.base_mm)}",
        f"runner {millimetres(section.runner_mm)}, gate {millimetres(section.gate_mm)} deep",
    ):
        body.append(svg.text(WIDTH / 2, below, words, "middle"))
        below += svg.LINE
    legend, end = svg.legend([("draw-metal", "metal"), ("draw-sand", "sand")], name, _EDGE, WIDTH - _EDGE, below - 8)
    return svg.picture(
        "draw", name, (f"{WIDTH:g}", f"{end + _EDGE:.2f}"), title, describe(section), "".join(body) + legend
    )


def _upright(x: float, top: float, foot: float, size_mm: float, anchor: str) -> list[str]:
    """A height beside the drawing."""
    words_at = x + (5 if anchor == "start" else -5)
    return [svg.dimension(x, top, x, foot), svg.text(words_at, (top + foot) / 2 + 5, millimetres(size_mm), anchor)]
