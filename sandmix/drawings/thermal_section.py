"""The casting and the sand that its heat burnt and dried, in section and to scale, as SVG.

A plate is drawn as a slab with sand on both sides, anything rounder as a circle. Classes name the parts, so that a page can colour them;
hatches and words show them without colour.
"""

from __future__ import annotations

from dataclasses import dataclass

from sandmix.drawings import svg
from sandmix.language.wording import to_figures

WIDTH, HEIGHT = 360, 224
_DRAWN = 176
_HATCHES = {
    "shell-burnt": '<path d="M0 0 6 6M0 6 6 0" />',
    "shell-dry": '<path d="M0 6 6 0" />',
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ThermalSection:
    """What is drawn, in mm: half the thickness of the casting, the depth of burnt clay and of dry sand, and whether it is a flat plate."""

    half_mm: float
    burnt_mm: float
    dry_mm: float
    flat: bool


def draw(section: ThermalSection, name: str, title: str) -> str:
    """Return *section* as SVG text; *name* makes its ids unique on a page."""
    words = describe(section)
    scale = _DRAWN / 2 / (section.half_mm + max(section.burnt_mm, section.dry_mm) * 1.15)
    parts = _flat(section, scale, name) if section.flat else _round(section, scale, name)
    return svg.picture(
        "shell", name, (str(WIDTH), str(HEIGHT)), title, words, f"{_hatches(name)}{parts}{_rule(section, scale)}"
    )


def describe(section: ThermalSection) -> str:
    """Return what the section shows, in words.

    >>> describe(ThermalSection(half_mm=10.0, burnt_mm=1.5, dry_mm=30.0, flat=True))
    'A plate 20 mm thick. Clay is burnt to 1.5 mm from its face, and the sand is dry to 30 mm.'
    """
    body = (
        f"A plate {to_figures(2 * section.half_mm, 3)} mm thick"
        if section.flat
        else f"A casting about {to_figures(2 * section.half_mm, 3)} mm across"
    )
    burnt = (
        f"Clay is burnt to {to_figures(section.burnt_mm, 2)} mm from its face"
        if section.burnt_mm > 0
        else "No clay is burnt"
    )
    return f"{body}. {burnt}, and the sand is dry to {to_figures(section.dry_mm, 3)} mm."


def _layers(section: ThermalSection) -> list[tuple[str, float]]:
    """From the outside in: class, and the distance from the middle that it reaches."""
    layers = [("shell-dry", section.half_mm + section.dry_mm), ("shell-burnt", section.half_mm + section.burnt_mm)]
    layers.sort(key=lambda layer: -layer[1])
    return [*layers, ("shell-metal", section.half_mm)]


def _flat(section: ThermalSection, scale: float, name: str) -> str:
    middle = _DRAWN / 2 + 4
    slabs = [
        f'<rect class="{css}" x="20" y="{middle - half * scale:.2f}" width="{WIDTH - 40}" height="{2 * half * scale:.2f}"{_fill(css, name)} />'
        for css, half in _layers(section)
    ]
    return "".join(slabs)


def _round(section: ThermalSection, scale: float, name: str) -> str:
    middle = _DRAWN / 2 + 4
    rings = [
        f'<circle class="{css}" cx="{WIDTH / 2:g}" cy="{middle:g}" r="{half * scale:.2f}"{_fill(css, name)} />'
        for css, half in _layers(section)
    ]
    return "".join(rings)


def _fill(css: str, name: str) -> str:
    return f' fill="url(#{name}-{css})" stroke="currentColor"' if css in _HATCHES else ' fill="currentColor"'


def _hatches(name: str) -> str:
    patterns = "".join(
        f'<pattern id="{name}-{css}" class="{css}-hatch" width="6" height="6" patternUnits="userSpaceOnUse">'
        f'<g fill="none" stroke="currentColor" stroke-width="{1.2 if css == "shell-burnt" else 0.5}">{path}</g></pattern>'
        for css, path in _HATCHES.items()
    )
    return f"<defs>{patterns}</defs>"


def _rule(section: ThermalSection, scale: float) -> str:
    """A scale bar of a round length."""
    wanted_mm = 90 / scale
    length = next(step * 10**power for power in range(3, -3, -1) for step in (5, 2, 1) if step * 10**power <= wanted_mm)
    y = HEIGHT - 22
    end = 20 + length * scale
    captions = [(y, f"dry to {to_figures(section.dry_mm, 3)} mm (hatched)")]
    if section.burnt_mm > 0:
        captions.append((HEIGHT - 4, f"clay burnt to {to_figures(section.burnt_mm, 2)} mm (crossed)"))
    texts = "".join(
        f'<text class="shell-text" x="{WIDTH - 20}" y="{at}" font-size="14" text-anchor="end" fill="currentColor">{words}</text>'
        for at, words in captions
    )
    return (
        f'<g class="shell-rule" stroke="currentColor" fill="none"><path d="M20 {y - 4}V{y + 4}M20 {y}H{end:.2f}M{end:.2f} {y - 4}V{y + 4}" /></g>'
        f'<text class="shell-text" x="20" y="{HEIGHT - 4}" font-size="14" fill="currentColor">{length:g} mm</text>{texts}'
    )
