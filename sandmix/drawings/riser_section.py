"""A riser on or beside the part that it feeds, in section and to scale, as SVG with a title, a description and dimensions in mm.

The part is drawn as a slab of its thickness, cut off at its far end. A side riser stands on the parting line; its neck lies in the drag.
Source: geometry.
"""

from __future__ import annotations

from dataclasses import dataclass

from sandmix.drawings import svg
from sandmix.drawings.flask_section import Box, millimetres

WIDTH = 320.0
_SIDE_ROOM, _TOP_ROOM, _EDGE = 76.0, 30.0, 2.0
_MOST_HIGH = 230.0
_SAND = 0.12
"""Sand around everything, as a share of the width of what is drawn."""
_HATCHES = {"draw-sand": '<path d="M1 2h.8M4 5h.8" />', "draw-metal": ""}


@dataclass(frozen=True, slots=True, kw_only=True)
class RiserSection:
    """What is drawn, in mm: the thickness of the part, how much of it is above the parting line, riser, and neck (none for a riser on top)."""

    thickness_mm: float
    above_mm: float
    diameter_mm: float
    height_mm: float
    neck_mm: float | None

    @property
    def over_mm(self) -> float:
        """How much of the part is drawn above the parting line."""
        return min(self.above_mm, self.thickness_mm)

    @property
    def part(self) -> Box:
        """The part, from the left edge; y grows downwards from the parting line."""
        long_mm = max(1.2 * self.diameter_mm, 1.5 * self.thickness_mm)
        return Box(x_mm=0.0, y_mm=-self.over_mm, wide_mm=long_mm, high_mm=self.thickness_mm)

    @property
    def riser(self) -> Box:
        """The riser."""
        part = self.part
        if self.neck_mm is None:
            left, foot = (part.wide_mm - self.diameter_mm) / 2, part.y_mm
        else:
            left, foot = part.right_mm + max(0.2 * self.diameter_mm, self.neck_mm / 2), 0.0
        return Box(x_mm=left, y_mm=foot - self.height_mm, wide_mm=self.diameter_mm, high_mm=self.height_mm)

    @property
    def neck(self) -> Box | None:
        """The neck: from the part to the middle of the riser, below the parting line, no thicker than the part drawn there."""
        if self.neck_mm is None:
            return None
        part, riser = self.part, self.riser
        below = self.thickness_mm - self.over_mm
        deep = min(self.neck_mm, below) if below > 0 else self.neck_mm
        top = 0.0 if below > 0 else -deep
        return Box(x_mm=part.right_mm, y_mm=top, wide_mm=riser.x_mm + riser.wide_mm / 2 - part.right_mm, high_mm=deep)

    @property
    def boxes(self) -> tuple[Box, ...]:
        """Everything that is metal."""
        return tuple(box for box in (self.part, self.neck, self.riser) if box is not None)


def describe(section: RiserSection) -> str:
    """Return what the section shows, in words.

    >>> describe(RiserSection(thickness_mm=20.0, above_mm=0.0, diameter_mm=75.0, height_mm=75.0, neck_mm=44.0))
    'A part 20 mm thick. The riser beside it is 75 mm across and 75 mm high, with a neck of 44 mm.'
    """
    where = "on top of" if section.neck_mm is None else "beside"
    neck = "" if section.neck_mm is None else f", with a neck of {millimetres(section.neck_mm)}"
    return (
        f"A part {millimetres(section.thickness_mm)} thick. The riser {where} it is {millimetres(section.diameter_mm)} across and "
        f"{millimetres(section.height_mm)} high{neck}."
    )


def draw(section: RiserSection, name: str, title: str) -> str:
    """Return *section* as SVG text; *name* makes its ids unique on a page."""
    boxes, part, riser = section.boxes, section.part, section.riser
    left, right = min(box.x_mm for box in boxes), max(box.right_mm for box in boxes)
    top, foot = min(box.y_mm for box in boxes), max(box.foot_mm for box in boxes)
    sand = _SAND * (right - left)
    scale = min((WIDTH - 2 * _SIDE_ROOM) / (right - left + sand), _MOST_HIGH / (foot - top + sand))
    x0 = WIDTH / 2 - (left + right) / 2 * scale
    y0 = _TOP_ROOM - top * scale

    def drawn(css: str, box: Box) -> str:
        return svg.rect(
            css, name, x0 + box.x_mm * scale, y0 + box.y_mm * scale, box.wide_mm * scale, box.high_mm * scale
        )

    around = Box(x_mm=left, y_mm=top, wide_mm=right - left + sand, high_mm=foot - top + sand)
    ends = (x0 + left * scale, x0 + (right + sand) * scale)
    body = [svg.hatches(name, _HATCHES), drawn("draw-sand", around)]
    body += [drawn("draw-metal", box) for box in boxes]
    body.append(svg.line(ends[0] - 3, y0, ends[1] + 3, y0, "draw-parting", "7 2 1.5 2"))
    body += _across(x0 + riser.x_mm * scale, x0 + riser.right_mm * scale, section.diameter_mm)
    body += _upright(ends[1] + 8, y0 + riser.y_mm * scale, y0 + riser.foot_mm * scale, section.height_mm, "start")
    body += _upright(ends[0] - 8, y0 + part.y_mm * scale, y0 + part.foot_mm * scale, section.thickness_mm, "end")
    below = y0 + (foot + sand) * scale + svg.LINE
    if section.neck_mm is not None:
        way = "wide" if section.neck_mm > section.thickness_mm else "across"
        body.append(svg.text(WIDTH / 2, below, f"neck {millimetres(section.neck_mm)} {way}", "middle"))
        below += svg.LINE
    legend, end = svg.legend([("draw-metal", "metal"), ("draw-sand", "sand")], name, _EDGE, WIDTH - _EDGE, below - 8)
    return svg.picture(
        "draw", name, (f"{WIDTH:g}", f"{end + _EDGE:.2f}"), title, describe(section), "".join(body) + legend
    )


def _across(start: float, end: float, size_mm: float) -> list[str]:
    """The riser's diameter, above it."""
    y = _TOP_ROOM - 6
    words = millimetres(size_mm)
    half = svg.width_of(words) / 2
    middle = min(max((start + end) / 2, _EDGE + half), WIDTH - _EDGE - half)
    return [svg.dimension(start, y, end, y), svg.text(middle, y - 5, words, "middle")]


def _upright(x: float, top: float, foot: float, size_mm: float, anchor: str) -> list[str]:
    """A height beside the drawing."""
    words_at = x + (5 if anchor == "start" else -5)
    return [svg.dimension(x, top, x, foot), svg.text(words_at, (top + foot) / 2 + 5, millimetres(size_mm), anchor)]
