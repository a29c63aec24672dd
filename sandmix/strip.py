"""The sand strip: what a sand is made of, to scale by dry mass, always in the same order, with its water as a line above it.

It is plain SVG with a title and a description. Classes name the parts, so that a page gives them colour; hatches are drawn here, so
that it reads in grey, in print and on its own.
"""

from __future__ import annotations

from html import escape

from .sand import PARTS, Sand

WIDTH, HEIGHT = 360, 58
_LEFT, _TOP, _BAR, _WATER_Y = 2, 22, 32, 12
_CLASSES = {
    "grain_kg": "strip-grain",
    "live_clay_kg": "strip-live",
    "dead_clay_kg": "strip-dead",
    "other_fines_kg": "strip-fines",
    "organics_kg": "strip-organics",
}
_HATCHES = {
    "strip-live": '<path d="M0 6 6 0" />',
    "strip-dead": '<path d="M0 0 6 6M0 6 6 0" />',
    "strip-fines": '<path d="M0 3H6" />',
    "strip-organics": '<path d="M3 0V6" />',
}


def draw(sand: Sand, name: str, title: str, *, full_dry_kg: float | None = None) -> str:
    """Return the strip of *sand* as SVG text; *name* makes its ids unique on a page, *full_dry_kg* is the dry mass a full bar stands for.

    Two strips with the same *full_dry_kg* can be compared by eye.
    """
    full = full_dry_kg or sand.dry_kg or 1.0
    scale = (WIDTH - 2 * _LEFT) / full
    x, body = float(_LEFT), []
    for part, css in _CLASSES.items():
        width = getattr(sand, part) * scale
        if width <= 0:
            continue
        shape = f'x="{x:.2f}" y="{_TOP}" width="{width:.2f}" height="{_BAR}"'
        body.append(f'<rect class="{css}" {shape} />')
        if css in _HATCHES:
            body.append(f'<rect class="strip-hatch" fill="url(#{name}-{css})" {shape} />')
        share = 100 * getattr(sand, part) / sand.dry_kg
        if width > 44:
            body.append(
                f'<text class="strip-text" x="{x + width / 2:.2f}" y="{_TOP + _BAR / 2 + 4:.0f}" '
                f'text-anchor="middle">{share:.0f} %</text>'
            )
        x += width
    water = sand.water_kg * scale
    if water > 0:
        body.append(
            f'<line class="strip-water" x1="{_LEFT}" y1="{_WATER_Y}" '
            f'x2="{_LEFT + min(water, WIDTH - 2 * _LEFT):.2f}" y2="{_WATER_Y}" stroke-width="7" />'
        )
        body.append(
            f'<text class="strip-text" x="{_LEFT + min(water, WIDTH - 120) + 6:.2f}" y="{_WATER_Y + 4}">water '
            f"{sand.moisture_pct_wet:.1f} %</text>"
        )
    hatches = "".join(
        (
            f'<pattern id="{name}-{css}" width="6" height="6" patternUnits="userSpaceOnUse"><g '
            f'stroke="currentColor" stroke-width="1" fill="none">{lines}</g></pattern>'
        )
        for css, lines in _HATCHES.items()
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="strip" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" '
        f'aria-labelledby="{name}-title {name}-desc">'
        f'<title id="{name}-title">{escape(title)}</title><desc id="{name}-desc">{escape(describe(sand))}</desc>'
        f"<defs>{hatches}</defs>{''.join(body)}"
        f'<rect class="strip-frame" x="{_LEFT}" y="{_TOP}" '
        f'width="{min(sand.dry_kg * scale, WIDTH - 2 * _LEFT):.2f}" height="{_BAR}" fill="none" '
        'stroke="currentColor" /></svg>'
    )


def describe(sand: Sand) -> str:
    """Return what the strip shows, in words with each basis.

    >>> describe(Sand(grain_kg=9.3, live_clay_kg=0.7, water_kg=0.5))
    '10.50 kg as it lies. Of the dry mass: sand grains 93.0 %, live clay 7.0 %. Of the wet mass: water 4.8 %.'
    """
    shares = [
        f"{label} {100 * getattr(sand, part) / sand.dry_kg:.1f} %"
        for part, label in PARTS.items()
        if part != "water_kg" and getattr(sand, part) > 0
    ]
    dry = f" Of the dry mass: {', '.join(shares)}." if shares else ""
    return f"{sand.wet_kg:.2f} kg as it lies.{dry} Of the wet mass: water {sand.moisture_pct_wet:.1f} %."
