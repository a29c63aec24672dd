"""Three views of a shape to one scale, as SVG with a title, a description and dimensions in mm.

The view from the front is below the one from above, and the view from the right is beside it. Hidden edges are not drawn.
It is 320 wide, so that on the narrowest phone a text of 14 is still 11 pixels high.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sandmix.drawings import svg
from sandmix.mesh.views import Place, View

WIDTH = 320.0
_CSS = "draw-shape"
_EDGE, _GAP = 2.0, 18.0
_MOST_HIGH = 300.0
_SMALLER = 0.98
_BESIDE = 18.0
_SMALLEST, _HALF_TEXT = 2.0, 7.0
_FOOT = svg.LINE + 9


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A circle to draw in each view: its radius, and its centre in the view from above, from the front and from the right."""

    radius: float
    centres: tuple[Place, Place, Place]


def draw(views: tuple[View, ...], mm: float, name: str, title: str, circles: Sequence[Circle] = ()) -> str:
    """Return the *views* from above, front and right as SVG text, with *mm* to their unit; *name* makes its ids unique on a page.

    Of several *circles*, each has its number in the view from above, if there is space.
    """
    above, front, right = views
    wide, tall = _mm(front.wide * mm), _mm(front.high * mm)
    deep = _mm(right.wide * mm)
    first, second = _least("front", wide, "from above"), _least("side", deep)
    left = _EDGE + svg.width_of(tall) + _BESIDE
    room = WIDTH - _EDGE - _GAP - left
    scale = min(room / (front.wide + right.wide), _MOST_HIGH / (above.high + front.high))
    while max(first, front.wide * scale) + max(second, right.wide * scale) > room:
        scale *= _SMALLER
    columns = max(first, front.wide * scale), max(second, right.wide * scale)
    start = left + (room - sum(columns)) / 2
    middles = start + columns[0] / 2, start + columns[0] + _GAP + columns[1] / 2
    top = svg.LINE + 4
    under = top + above.high * scale + svg.LINE + 10
    foot = under + front.high * scale
    parts = [
        _placed(above, name, middles[0], top, scale, "from above"),
        _placed(front, name, middles[0], under, scale, "front"),
        _placed(right, name, middles[1], under, scale, "side"),
        _across(front, middles[0], foot, scale, wide),
        _across(right, middles[1], foot, scale, deep),
        _upright(middles[0] - front.wide * scale / 2, middles[0] - svg.width_of("front") / 2, under, foot, tall),
    ]
    placed = (
        (above, middles[0], top, True),
        (front, middles[0], under, False),
        (right, middles[1], under, False),
    )
    for at, (view, middle, start, numbered) in enumerate(placed):
        parts += _circles(view, [(each.radius, each.centres[at]) for each in circles], middle, start, scale, numbered)
    words = f"From above it is {wide} wide and {deep} deep; from the front and from the side it is {tall} high."
    if circles:
        words += " Circles show the largest balls that fit, where it freezes last."
    size = (f"{WIDTH:g}", f"{foot + _FOOT + _EDGE:.2f}")
    return svg.picture("draw", name, size, title, words, svg.hatches(name, {_CSS: ""}) + "".join(parts))


def _least(*words: str) -> float:
    """The least width of a column: that of its longest text."""
    return max(svg.width_of(each) for each in words)


def _placed(view: View, name: str, middle: float, top: float, scale: float, words: str) -> str:
    """One view, with its name above it."""
    left, foot = middle - view.wide * scale / 2, top + view.high * scale
    drawn = [[(left + x * scale, foot - y * scale) for x, y in loop] for loop in view.loops]
    return svg.loops(_CSS, name, drawn) + svg.text(middle, top - 5, words, "middle")


def _circles(
    view: View, circles: Sequence[tuple[float, Place]], middle: float, top: float, scale: float, numbered: bool
) -> list[str]:
    """The circles in one view, and their numbers where they do not touch each other or what is around the view."""
    left, foot = middle - view.wide * scale / 2, top + view.high * scale
    drawn = []
    taken: list[Place] = []
    for at, (radius, (x, y)) in enumerate(circles, start=1):
        across, down = left + x * scale, foot - y * scale
        drawn.append(svg.circle(across, down, max(radius * scale, _SMALLEST)))
        free = top + _HALF_TEXT <= down <= foot - _HALF_TEXT and left + 5 <= across <= left + view.wide * scale - 5
        if not (numbered and len(circles) > 1 and free):
            continue
        if all(abs(across - other) >= 10 or abs(down - under) >= svg.LINE for other, under in taken):
            taken.append((across, down))
            drawn.append(svg.text(across, down + 4.8, str(at), "middle"))
    return drawn


def _across(view: View, middle: float, foot: float, scale: float, words: str) -> str:
    """The width of a view, below it."""
    half, y = view.wide * scale / 2, foot + 7
    ends = "".join(svg.line(x, foot, x, y + 3) for x in (middle - half, middle + half))
    measured = svg.dimension(middle - half, y, middle + half, y)
    return ends + measured + svg.text(middle, y + svg.LINE - 1, words, "middle")


def _upright(left: float, words_left: float, top: float, foot: float, words: str) -> str:
    """The height of a view, to the left of it and of its name."""
    x = min(left, words_left) - 8
    ends = "".join(svg.line(x - 3, y, left, y) for y in (top, foot))
    return ends + svg.dimension(x, top, x, foot) + svg.text(x - 6, (top + foot) / 2 + 4.8, words, "end")


def _mm(size: float) -> str:
    """A length with at most four figures, and never so long that no space is left for the views."""
    if not 0.005 <= size < 1e6:
        return f"{size:.0e} mm"
    return f"{size:.0f} mm" if size >= 1000 else f"{round(size, 2):.4g} mm"
