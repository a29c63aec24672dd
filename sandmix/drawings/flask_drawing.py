"""The section of a flask with its pattern, to scale, as SVG with a title, a description and dimensions in mm.

It is 320 wide, so that on the narrowest phone a text of 14 is still 11 pixels high. Classes name the parts, so that a page can colour them;
hatches, words and a legend show them without colour. The dimensions are outside the flask.
"""

from __future__ import annotations

from sandmix.drawings import svg
from sandmix.drawings.flask_section import CUP_TO_SPRUE, SPRUE_TAPER, Box, FlaskSection, millimetres

WIDTH = 320.0
_TOP, _EDGE = 6.0, 2.0
_LEFT_REACH, _RIGHT_REACH = 20.0, 19.0
_MOST_HIGH = 260.0
_LEAST_HIGH = 70.0
_LEFT_GAP, _RIGHT_GAP = 2 * svg.LINE, svg.LINE
_HATCHES = {
    "draw-sand": '<path d="M1 2h.8M4 5h.8" />',
    "draw-wood": '<path d="M0 2H6M0 5H6" />',
    "draw-metal": "",
    "draw-dry": '<path d="M0 6 6 0" />',
    "draw-burnt": '<path d="M0 0 6 6M0 6 6 0" />',
    "draw-filler": '<path d="M0 0H6M0 3H6M1 0V3M4 3V6" />',
}


_Span = tuple[float, float, tuple[str, ...]]
"""A dimension in the section: from, to, and its lines of text."""


class _Sheet:
    """Where the millimetres of a section are in the picture."""

    def __init__(self, section: FlaskSection) -> None:
        outside = section.inside.length_mm + 2 * section.wall_mm
        high = section.cup_mm + section.deep_mm + section.wall_mm
        left = _LEFT_REACH + _EDGE + _widest(_halves(section))
        right = _RIGHT_REACH + _EDGE + _widest(_levels(section))
        self.scale = min((WIDTH - left - right) / outside, _MOST_HIGH / high)
        spare = WIDTH - left - right - outside * self.scale
        self.left = left + spare / 2 + section.wall_mm * self.scale
        self.body_high = max(_LEAST_HIGH, high * self.scale)
        self.top = _TOP + (self.body_high - high * self.scale) / 2 + section.cup_mm * self.scale
        self.wood_left = self.left - section.wall_mm * self.scale
        self.wood_right = self.wood_left + outside * self.scale
        self.foot = self.top + (section.deep_mm + section.wall_mm) * self.scale

    def x(self, mm: float) -> float:
        return self.left + mm * self.scale

    def y(self, mm: float) -> float:
        return self.top + mm * self.scale

    def rect(self, css: str, name: str, box: Box, grown_mm: float = 0.0) -> str:
        grown = grown_mm * self.scale
        return svg.rect(
            css,
            name,
            self.x(box.x_mm) - grown,
            self.y(box.y_mm) - grown,
            box.wide_mm * self.scale + 2 * grown,
            box.high_mm * self.scale + 2 * grown,
            round_to=grown,
        )

    def ellipse(self, css: str, name: str, box: Box, grown_mm: float = 0.0) -> str:
        grown = grown_mm * self.scale
        rx, ry = box.wide_mm / 2 * self.scale, box.high_mm / 2 * self.scale
        return svg.ellipse(css, name, self.x(box.x_mm) + rx, self.y(box.y_mm) + ry, rx + grown, ry + grown)


def draw(section: FlaskSection, name: str, title: str) -> str:
    """Return *section* as SVG text; *name* makes its ids unique on a page."""
    sheet = _Sheet(section)
    parts = [_wood(section, sheet, name), _sand(section, sheet, name), _gates(section, sheet, name)]
    parts += [_cavities(section, sheet, name), _parting(section, sheet), _upright(section, sheet)]
    level, foot = _level(section, sheet)
    legend, foot = svg.legend(_entries(section), name, _EDGE, WIDTH - _EDGE, foot + 4)
    body = f"{svg.hatches(name, _HATCHES)}{_clip(section, sheet, name)}{''.join(parts)}{level}{legend}"
    return svg.picture("draw", name, (f"{WIDTH:g}", f"{foot + _EDGE:.2f}"), title, section.describe, body)


def _clip(section: FlaskSection, sheet: _Sheet, name: str) -> str:
    flask, scale = section.inside, sheet.scale
    return (
        f'<clipPath id="{name}-inside"><rect x="{sheet.x(0):.2f}" y="{sheet.y(0):.2f}" width="{flask.length_mm * scale:.2f}" '
        f'height="{section.deep_mm * scale:.2f}" /></clipPath>'
    )


def _wood(section: FlaskSection, sheet: _Sheet, name: str) -> str:
    """Both walls of each half, and the bottom board."""
    flask, wall = section.inside, section.wall_mm
    boxes = [Box(x_mm=-wall, y_mm=section.deep_mm, wide_mm=flask.length_mm + 2 * wall, high_mm=wall)]
    for top, deep in ((0.0, flask.cope_depth_mm), (flask.cope_depth_mm, flask.drag_depth_mm)):
        if deep:
            boxes += [Box(x_mm=x, y_mm=top, wide_mm=wall, high_mm=deep) for x in (-wall, flask.length_mm)]
    return "".join(sheet.rect("draw-wood", name, box) for box in boxes)


def _sand(section: FlaskSection, sheet: _Sheet, name: str) -> str:
    """The sand, the part that the heat dries and burns, filler and bars; all of it ends at the walls."""
    whole = Box(x_mm=0.0, y_mm=0.0, wide_mm=section.inside.length_mm, high_mm=section.deep_mm)
    far = whole.wide_mm + whole.high_mm
    shells = sorted(
        (
            (min(depth, far), css)
            for css, depth in (("draw-dry", section.dry_mm), ("draw-burnt", section.burnt_mm))
            if depth > 0
        ),
        reverse=True,
    )
    shape = sheet.ellipse if section.is_round else sheet.rect
    drawn = "".join(shape(css, name, cavity, depth) for depth, css in shells for cavity in section.cavities)
    held = "".join(sheet.rect("draw-filler", name, box) for box in section.fillers)
    held += "".join(sheet.rect("draw-wood", name, box) for box in section.bars)
    clipped = f'<g class="draw-shells" clip-path="url(#{name}-inside)">{drawn}</g>' if drawn else ""
    return sheet.rect("draw-sand", name, whole) + clipped + held


def _gates(section: FlaskSection, sheet: _Sheet, name: str) -> str:
    """Risers with their necks, and runner, sprue and cup."""
    risers = "".join(sheet.rect("draw-metal", name, box) for box in (*section.risers, *section.necks))
    sprue, runner = section.sprue, section.runner
    if sprue is None or runner is None:
        return risers
    middle, half = sprue.x_mm + sprue.wide_mm / 2, sprue.wide_mm / 2
    to_the_outside = min(middle, section.inside.length_mm - middle) + section.wall_mm
    cup = min(CUP_TO_SPRUE * half, to_the_outside)
    wide = min((section.sprue_top_mm or SPRUE_TAPER * sprue.wide_mm) / 2, cup)
    outline = [
        (-cup, -section.cup_mm),
        (cup, -section.cup_mm),
        (wide, 0.0),
        (half, sprue.foot_mm),
        (-half, sprue.foot_mm),
        (-wide, 0.0),
    ]
    points = [(sheet.x(middle + dx), sheet.y(y)) for dx, y in outline]
    return risers + sheet.rect("draw-metal", name, runner) + svg.path("draw-metal", name, points)


def _cavities(section: FlaskSection, sheet: _Sheet, name: str) -> str:
    shape = sheet.ellipse if section.is_round else sheet.rect
    cavities = (shape("draw-metal", name, cavity) for cavity in section.cavities)
    return f'<g class="draw-cavities">{"".join(cavities)}</g>'


def _parting(section: FlaskSection, sheet: _Sheet) -> str:
    if not section.inside.cope_depth_mm:
        return ""
    y = sheet.y(section.inside.cope_depth_mm)
    return svg.line(sheet.wood_left - 3, y, sheet.wood_right + 3, y, "draw-parting", "7 2 1.5 2")


def _upright(section: FlaskSection, sheet: _Sheet) -> str:
    """Depths: the halves on the left; on the right the sand above the pattern, the pattern, and the sand below it."""
    cavity, cope = section.cavities[-1], section.inside.cope_depth_mm
    at, reach = sheet.x(cavity.right_mm), sheet.wood_right + _RIGHT_REACH - 9
    thin = "".join(svg.line(at, sheet.y(y), reach + 3, sheet.y(y), dash="2 2") for y in (cavity.y_mm, cavity.foot_mm))
    edges = "".join(svg.line(sheet.wood_right, sheet.y(y), reach + 3, sheet.y(y)) for y in (0.0, section.deep_mm))
    edges += "".join(
        svg.line(sheet.wood_left - 13, sheet.y(y), sheet.wood_left, sheet.y(y)) for y in (0.0, cope, section.deep_mm)
    )
    return (
        thin
        + edges
        + _column(sheet, _halves(section), sheet.wood_left - 10, sheet.wood_left - _LEFT_REACH, "end", _LEFT_GAP)
        + _column(sheet, _levels(section), reach, reach + 9, "start", _RIGHT_GAP)
    )


def _halves(section: FlaskSection) -> list[_Span]:
    """The depth of each half."""
    cope = section.inside.cope_depth_mm
    drag = (cope, section.deep_mm, ("drag", millimetres(section.inside.drag_depth_mm)))
    return [(0.0, cope, ("cope", millimetres(cope))), drag] if cope else [drag]


def _levels(section: FlaskSection) -> list[_Span]:
    """The sand above the pattern, the height of the pattern, and the sand below it."""
    cavity = section.cavities[-1]
    above = (0.0, cavity.y_mm, (millimetres(cavity.y_mm),))
    below = (cavity.foot_mm, section.deep_mm, (millimetres(section.deep_mm - cavity.foot_mm),))
    own = (cavity.y_mm, cavity.foot_mm, (millimetres(cavity.high_mm),))
    return [above, own, below] if section.inside.cope_depth_mm else [own, below]


def _widest(spans: list[_Span]) -> float:
    return max(svg.width_of(words) for _, _, lines in spans for words in lines)


def _column(sheet: _Sheet, spans: list[_Span], at: float, words_at: float, anchor: str, gap: float) -> str:
    """Dimensions one above the other, with their words beside them, spaced so that none overlap."""
    middles = [sheet.y((top + foot) / 2) for top, foot, _ in spans]
    half = gap / 2
    placed = svg.spaced(middles, gap, _TOP + half - 2, _TOP + sheet.body_high - half + 2)
    drawn = []
    for (top, foot, words), middle, place in zip(spans, middles, placed, strict=True):
        drawn.append(svg.dimension(at, sheet.y(top), at, sheet.y(foot)))
        near = words_at + (2 if anchor == "end" else -2)
        drawn.append(svg.line(at, middle, near, place))
        first = place - half + svg.LINE * 0.5 + 4.8
        drawn += [svg.text(words_at, first + number * svg.LINE, each, anchor) for number, each in enumerate(words)]
    return "".join(drawn)


def _level(section: FlaskSection, sheet: _Sheet) -> tuple[str, float]:
    """Lengths in rows under the flask: to the wall, the pattern, between patterns, to the sprue, and the whole inside; and where the rows end."""
    first, last, sprue = section.cavities[0], section.cavities[-1], section.sprue
    spans = [(0.0, first.x_mm), (first.x_mm, first.right_mm)]
    if len(section.cavities) > 1:
        spans.append((first.right_mm, section.cavities[1].x_mm))
    if sprue:
        spans += [(last.right_mm, sprue.x_mm), (sprue.right_mm, section.inside.length_mm)]
    else:
        spans.append((last.right_mm, section.inside.length_mm))
    whole = (0.0, section.inside.length_mm)
    labels = [svg.Label(start=sheet.x(a), end=sheet.x(b), words=millimetres(b - a)) for a, b in spans]
    rows = svg.rows(labels, _EDGE, WIDTH - _EDGE)
    rows += svg.rows(
        [svg.Label(start=sheet.x(whole[0]), end=sheet.x(whole[1]), words=f"{millimetres(whole[1])} inside")],
        _EDGE,
        WIDTH - _EDGE,
    )
    top = _TOP + sheet.body_high + 4
    marks, words = [], []
    for number, row in enumerate(rows):
        y = top + (number + 1) * (svg.LINE + 5)
        for label, middle in row:
            marks += [svg.line(x, sheet.foot, x, y + 3) for x in (label.start, label.end)]
            words += [svg.dimension(label.start, y, label.end, y), svg.text(middle, y - 4, label.words, "middle")]
    return "".join(marks + words), top + len(rows) * (svg.LINE + 5) + 4


def _entries(section: FlaskSection) -> list[tuple[str, str]]:
    entries = [("draw-metal", "metal"), ("draw-sand", "sand"), ("draw-wood", "wood")]
    if section.dry_mm > 0:
        entries.append(("draw-dry", "dry"))
    if section.burnt_mm > 0:
        entries.append(("draw-burnt", "clay burnt"))
    if section.fillers:
        entries.append(("draw-filler", "filler"))
    return entries
