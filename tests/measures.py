"""What the browser tests measure in a page, as scripts that are evaluated there."""

from __future__ import annotations

from pathlib import Path

LOOKS = ("paper", "night", "contrast")
WEAR = """look => { document.documentElement.dataset.look = look;
    for (const change of document.getAnimations()) change.finish(); }"""
TOO_WIDE = """() => [Math.max(document.documentElement.scrollWidth, document.body.scrollWidth), innerWidth]"""
_MEASURE = (Path(__file__).parent / "browser" / "measure.js").read_text("utf-8").rstrip().rstrip(";")
SMALL_TARGETS = f"{_MEASURE}.smallTargets()"
FAINT_TEXTS = f"{_MEASURE}.faintTexts(7)"
