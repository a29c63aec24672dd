"""The casting and the shell of sand that its heat has burnt and dried, in section and to scale, as SVG.

A plate is drawn as a slab with sand on both sides, anything rounder as a circle. Classes name the parts, so that a page gives them
colour; hatches and words tell them apart without.
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
    """What is drawn, in mm: half the thickness of the casting, how deep clay is dead and sand is dry, and whether it is a flat plate."""

    half_mm: float
    burnt_mm: float
    dry_mm: float
    flat: bool


def draw(shell: ThermalSection, name: str, title: str) -> str:
    """Return *shell* as SVG text; *name* makes its ids unique on a page."""
    words = describe(shell)
    scale = _DRAWN / 2 / (shell.half_mm + max(shell.burnt_mm, shell.dry_mm) * 1.15)
    parts = _flat(shell, scale, name) if shell.flat else _round(shell, scale, name)
    return svg.picture(
        "shell", name, (str(WIDTH), str(HEIGHT)), title, words, f"{_hatches(name)}{parts}{_rule(shell, scale)}"
    )


def describe(shell: ThermalSection) -> str:
    """Return what the section shows, in words.

    >>> describe(ThermalSection(half_mm=10.0, burnt_mm=1.5, dry_mm=30.0, flat=True))
    'A plate 20 mm thick. Clay is dead to 1.5 mm from its face, the sand dried to 30 mm.'
    """
    body = (
        f"A plate {to_figures(2 * shell.half_mm, 3)} mm thick"
        if shell.flat
        else f"A casting about {to_figures(2 * shell.half_mm, 3)} mm across"
    )
    burnt = (
        f"Clay is dead to {to_figures(shell.burnt_mm, 2)} mm from its face"
        if shell.burnt_mm > 0
        else "No sand passes the clay's limit"
    )
    return f"{body}. {burnt}, the sand dried to {to_figures(shell.dry_mm, 3)} mm."


def _layers(shell: ThermalSection) -> list[tuple[str, float]]:
    """From the outside in: class, and half the thickness it reaches to."""
    layers = [("shell-dry", shell.half_mm + shell.dry_mm), ("shell-burnt", shell.half_mm + shell.burnt_mm)]
    layers.sort(key=lambda layer: -layer[1])
    return [*layers, ("shell-metal", shell.half_mm)]


def _flat(shell: ThermalSection, scale: float, name: str) -> str:
    middle = _DRAWN / 2 + 4
    slabs = [
        f'<rect class="{css}" x="20" y="{middle - half * scale:.2f}" width="{WIDTH - 40}" height="{2 * half * scale:.2f}"{_fill(css, name)} />'
        for css, half in _layers(shell)
    ]
    return "".join(slabs)


def _round(shell: ThermalSection, scale: float, name: str) -> str:
    middle = _DRAWN / 2 + 4
    rings = [
        f'<circle class="{css}" cx="{WIDTH / 2:g}" cy="{middle:g}" r="{half * scale:.2f}"{_fill(css, name)} />'
        for css, half in _layers(shell)
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


def _rule(shell: ThermalSection, scale: float) -> str:
    """A measure of a round length, to read the section by."""
    wanted_mm = 90 / scale
    length = next(step * 10**power for power in range(3, -3, -1) for step in (5, 2, 1) if step * 10**power <= wanted_mm)
    y = HEIGHT - 22
    end = 20 + length * scale
    said = [(y, f"dried to {to_figures(shell.dry_mm, 3)} mm (hatched)")]
    if shell.burnt_mm > 0:
        said.append((HEIGHT - 4, f"clay dead to {to_figures(shell.burnt_mm, 2)} mm (crossed)"))
    texts = "".join(
        f'<text class="shell-text" x="{WIDTH - 20}" y="{at}" font-size="14" text-anchor="end" fill="currentColor">{words}</text>'
        for at, words in said
    )
    return (
        f'<g class="shell-rule" stroke="currentColor" fill="none"><path d="M20 {y - 4}V{y + 4}M20 {y}H{end:.2f}M{end:.2f} {y - 4}V{y + 4}" /></g>'
        f'<text class="shell-text" x="20" y="{HEIGHT - 4}" font-size="14" fill="currentColor">{length:g} mm</text>{texts}'
    )
