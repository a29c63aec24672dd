"""The composition bar: what a sand is made of, to scale by dry mass, always in the same order, with its water as a line above.

It is plain SVG with a title and a description. Classes name the parts, so that a page can colour them; the hatches are drawn here, so
that the bar can be read in grey and in print.
"""

from __future__ import annotations

from sandmix.drawings import svg
from sandmix.materials.sand import PARTS, Sand

WIDTH, HEIGHT = 360, 58
_LEFT, _TOP, _BAR, _WATER_Y, _ROOM_FOR_TEXT = 2, 22, 32, 12, 44
_CLASSES = {
    "grain_kg": "strip-grain",
    "live_clay_kg": "strip-live",
    "dead_clay_kg": "strip-dead",
    "other_fines_kg": "strip-fines",
    "organics_kg": "strip-organics",
}
_WHOLE = "strip-whole"
_HATCHES = {
    "strip-live": '<path d="M0 6 6 0" />',
    "strip-dead": '<path d="M0 0 6 6M0 6 6 0" />',
    "strip-fines": '<path d="M0 3H6" />',
    "strip-organics": '<path d="M3 0V6" />',
}


def draw(sand: Sand, name: str, title: str, *, full_dry_kg: float | None = None, divided: bool = True) -> str:
    """Return the bar of *sand* as SVG text; *name* makes its ids unique on a page.

    A full bar stands for *full_dry_kg* of dry mass, so that two bars with the same value can be compared by eye. With *divided* false the
    bar is in one piece, for sand whose composition is not known.
    """
    scale = (WIDTH - 2 * _LEFT) / (full_dry_kg or sand.dry_kg or 1.0)
    frame = f'<rect class="strip-frame" {_box(_LEFT, sand.dry_kg * scale)} fill="none" stroke="currentColor" />'
    bar = _bar(sand, name, scale) if divided else _whole(sand, scale)
    body = f"{svg.hatches(name, _HATCHES)}{bar}{_water(sand, scale)}{frame}"
    return svg.picture("strip", name, (str(WIDTH), str(HEIGHT)), title, describe(sand, divided=divided), body)


def describe(sand: Sand, *, divided: bool = True) -> str:
    """Return what the bar shows, in words with each basis.

    >>> describe(Sand(grain_kg=9.3, live_clay_kg=0.7, water_kg=0.5))
    '10.50 kg with its water. Of the dry mass: sand grains 93.0 %, live clay 7.0 %. Of the wet mass: water 4.8 %.'
    """
    shares = [
        f"{PARTS[part]} {100 * getattr(sand, part) / sand.dry_kg:.1f} %" for part in _CLASSES if getattr(sand, part) > 0
    ]
    dry = f" Of the dry mass: {', '.join(shares)}." if shares and divided else ""
    return f"{sand.wet_kg:.2f} kg with its water.{dry} Of the wet mass: water {sand.moisture_pct_wet:.1f} %."


def _bar(sand: Sand, name: str, scale: float) -> str:
    x, shapes = float(_LEFT), []
    for part, css in _CLASSES.items():
        width = getattr(sand, part) * scale
        if width <= 0:
            continue
        shapes.append(f'<rect class="{css}" {_box(x, width)} />')
        if css in _HATCHES:
            shapes.append(f'<rect class="strip-hatch" fill="url(#{name}-{css})" {_box(x, width)} />')
        if width >= _ROOM_FOR_TEXT:
            shapes.append(_text(x + width / 2, f"{100 * getattr(sand, part) / sand.dry_kg:.0f} %"))
        x += width
    return "".join(shapes)


def _whole(sand: Sand, scale: float) -> str:
    width = sand.dry_kg * scale
    return f'<rect class="{_WHOLE}" {_box(_LEFT, width)} />{_text(_LEFT + width / 2, "dry sand mix")}'


def _water(sand: Sand, scale: float) -> str:
    if sand.water_kg <= 0:
        return ""
    end = _LEFT + min(sand.water_kg * scale, WIDTH - 2 * _LEFT)
    label_x = min(end, WIDTH - 120) + 6
    return (
        f'<line class="strip-water" x1="{_LEFT}" y1="{_WATER_Y}" x2="{end:.2f}" y2="{_WATER_Y}" stroke-width="7" />'
        f'<text class="strip-text" x="{label_x:.2f}" y="{_WATER_Y + 4}">water {sand.moisture_pct_wet:.1f} %</text>'
    )


def _box(x: float, width: float) -> str:
    return f'x="{x:.2f}" y="{_TOP}" width="{min(width, WIDTH - 2 * _LEFT):.2f}" height="{_BAR}"'


def _text(x: float, words: str) -> str:
    return f'<text class="strip-text" x="{x:.2f}" y="{_TOP + _BAR / 2 + 4:.0f}" text-anchor="middle">{words}</text>'
