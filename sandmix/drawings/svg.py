"""Plain SVG: hatched shapes, dimension lines whose labels never overlap, and a legend.

All text has one size. Its width is estimated high, so that the drawing stays in its frame with any font.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

FONT = 14.0
LINE = 17.0
ARROW = 5.0
_BROAD = {
    "m": 1.0,
    "w": 0.84,
    "M": 1.0,
    "W": 1.0,
    "×": 0.86,
    " ": 0.36,
    "i": 0.36,
    "l": 0.36,
    "r": 0.45,
    "f": 0.42,
    ",": 0.36,
    ".": 0.36,
}
_ESCAPED = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A dimension across the picture: where it begins and ends, and its text."""

    start: float
    end: float
    words: str

    @property
    def middle(self) -> float:
        """Its middle."""
        return (self.start + self.end) / 2


def escaped(words: str) -> str:
    """Return *words* as text of an SVG."""
    return words.translate(_ESCAPED)


def picture(css: str, name: str, size: tuple[str, str], title: str, words: str, body: str) -> str:
    """Return a whole SVG of *size* (width and height) with its title and its description in *words*; *name* makes its ids unique on a page."""
    wide, high = size
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="{css}" viewBox="0 0 {wide} {high}" role="img" '
        f'aria-labelledby="{name}-title {name}-desc"><title id="{name}-title">{escaped(title)}</title>'
        f'<desc id="{name}-desc">{escaped(words)}</desc>{body}</svg>'
    )


def width_of(words: str) -> float:
    """Return the most that *words* are wide, in the widest of the usual fonts."""
    return FONT * sum(_BROAD.get(letter, 0.66) for letter in words)


def text(x: float, y: float, words: str, anchor: str = "start") -> str:
    """Return a text with its baseline at *y*, outlined in the colour of the background."""
    return (
        f'<text class="draw-text" x="{x:.2f}" y="{y:.2f}" font-size="{FONT:g}" text-anchor="{anchor}" fill="currentColor" stroke="#fff" '
        f'stroke-width="6" stroke-linejoin="round" paint-order="stroke">{escaped(words)}</text>'
    )


def rect(
    css: str, name: str, x: float, y: float, wide: float, high: float, *, round_to: float = 0.0, outline: bool = True
) -> str:
    """Return a rectangle in the colour of *css*, with its hatch."""
    shape = f'x="{x:.2f}" y="{y:.2f}" width="{wide:.2f}" height="{high:.2f}"' + (
        f' rx="{round_to:.2f}"' if round_to else ""
    )
    return _filled("rect", shape, css, name, outline=outline)


def ellipse(css: str, name: str, x: float, y: float, rx: float, ry: float) -> str:
    """Return an ellipse in the colour of *css*, with its hatch."""
    return _filled("ellipse", f'cx="{x:.2f}" cy="{y:.2f}" rx="{rx:.2f}" ry="{ry:.2f}"', css, name)


def circle(x: float, y: float, radius: float) -> str:
    """Return a dashed circle without a fill."""
    place = f'cx="{x:.2f}" cy="{y:.2f}" r="{radius:.2f}"'
    return f'<circle class="draw-circle" {place} fill="none" stroke="currentColor" stroke-width="1.5" stroke-dasharray="4 2" />'


def path(css: str, name: str, points: Sequence[tuple[float, float]]) -> str:
    """Return a closed shape through *points* in the colour of *css*, with its hatch."""
    corners = "L".join(f"{x:.2f} {y:.2f}" for x, y in points)
    return _filled("path", f'd="M{corners}Z"', css, name)


def loops(css: str, name: str, closed: Iterable[Sequence[tuple[float, float]]]) -> str:
    """Return a shape of *closed* loops in the colour of *css*, with its hatch; a loop inside another is a hole."""
    drawn = "".join(f"M{'L'.join(f'{x:.1f} {y:.1f}' for x, y in points)}Z" for points in closed)
    return _filled("path", f'fill-rule="evenodd" d="{drawn}"', css, name)


def _filled(tag: str, shape: str, css: str, name: str, *, outline: bool = True) -> str:
    line = ' stroke="currentColor"' if outline else ""
    return f'<{tag} class="{css}" fill="#fff" {shape} /><{tag} class="draw-hatch" fill="url(#{name}-{css})"{line} {shape} />'


def hatches(name: str, lines: Mapping[str, str]) -> str:
    """Return the hatch of each class, drawn in a square of 6."""
    drawn = "".join(
        f'<pattern id="{name}-{css}" width="6" height="6" patternUnits="userSpaceOnUse"><g stroke="currentColor" stroke-width="0.8" '
        f'fill="none">{each}</g></pattern>'
        for css, each in lines.items()
    )
    return f"<defs>{drawn}</defs>"


def line(x1: float, y1: float, x2: float, y2: float, css: str = "draw-thin", dash: str = "") -> str:
    """Return a thin line; *dash* makes it a dashed one."""
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return f'<line class="{css}" x1="{x1:.2f}" y1="{y1:.2f}" x2="{x2:.2f}" y2="{y2:.2f}" stroke="currentColor" stroke-width="0.7"{dashed} />'


def dimension(x1: float, y1: float, x2: float, y2: float) -> str:
    """Return a vertical or level dimension line with an arrow at each end, or a stroke across where it is too short for arrows."""
    level = y1 == y2
    long = abs(x2 - x1) + abs(y2 - y1)
    marks = []
    for x, y, inward in ((x1, y1, 1.0), (x2, y2, -1.0)):
        if long < 3 * ARROW:
            ends = (f"M{x:.2f} {y - 3:.2f}V{y + 3:.2f}") if level else f"M{x - 3:.2f} {y:.2f}H{x + 3:.2f}"
        else:
            back = inward * ARROW
            ends = (
                f"M{x + back:.2f} {y - 2.5:.2f}L{x:.2f} {y:.2f}L{x + back:.2f} {y + 2.5:.2f}"
                if level
                else f"M{x - 2.5:.2f} {y + back:.2f}L{x:.2f} {y:.2f}L{x + 2.5:.2f} {y + back:.2f}"
            )
        marks.append(ends)
    return (
        f'<path class="draw-measure" d="M{x1:.2f} {y1:.2f}L{x2:.2f} {y2:.2f}{"".join(marks)}" fill="none" stroke="currentColor" '
        'stroke-width="1" />'
    )


def spaced(middles: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Return places near *middles*, which are in order, at least *gap* apart and within *low* to *high* if there is space for all.

    >>> spaced([10.0, 12.0, 40.0], 10.0, 0.0, 50.0)
    [10.0, 20.0, 40.0]
    """
    placed: list[float] = []
    for middle in middles:
        placed.append(max(middle, low if not placed else placed[-1] + gap))
    limit = high
    for at in range(len(placed) - 1, -1, -1):
        placed[at] = min(placed[at], limit)
        limit = placed[at] - gap
    return placed


def rows(labels: Iterable[Label], left: float, right: float) -> list[list[tuple[Label, float]]]:
    """Return the labels in rows, each with the middle of its text, so that none in a row overlap and all stay within *left* to *right*."""
    filled: list[list[tuple[Label, float]]] = []
    taken: list[list[tuple[float, float]]] = []
    for label in labels:
        half = width_of(label.words) / 2
        middle = min(max(label.middle, left + half), right - half)
        span = (min(label.start, middle - half) - 4, max(label.end, middle + half) + 4)
        at = next(
            (at for at, row in enumerate(taken) if all(span[1] < low or high < span[0] for low, high in row)), None
        )
        if at is None:
            filled.append([])
            taken.append([])
            at = len(filled) - 1
        filled[at].append((label, middle))
        taken[at].append(span)
    return filled


def legend(entries: Sequence[tuple[str, str]], name: str, left: float, right: float, top: float) -> tuple[str, float]:
    """Return a legend of hatched patches with their words, in as many rows as needed, and where it ends."""
    drawn, x, y = [], left, top
    for css, words in entries:
        wide = 22 + width_of(words) + 8
        if x > left and x + wide > right:
            x, y = left, y + LINE + 3
        drawn.append(rect(css, name, x, y + 2, 16, 13) + text(x + 22, y + 13.5, words))
        x += wide
    return "".join(drawn), y + LINE + 3
