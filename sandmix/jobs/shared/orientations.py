"""Rows and words that *fit* and *pattern* share about an orientation of the pattern."""

from __future__ import annotations

from sandmix.language.wording import to_figures
from sandmix.mould.body_orientation import BodyOrientation
from sandmix.mould.shape_orientation import ShapeOrientation

Orientation = BodyOrientation | ShapeOrientation
TAPER = "1 to 2 mm of taper in 100 mm"


def sand(each: Orientation, rammed_kg_l: float) -> str:
    """Return the sand that the smallest flask needs."""
    return f"{to_figures(each.sand_l * rammed_kg_l, 3)} kg"


def uplift(each: Orientation) -> str:
    """Return the uplift in the smallest flask."""
    return f"{to_figures(each.uplift_kg, 2)} kg"


def undercut(each: Orientation) -> str:
    """Return the projected area that is undercut."""
    return f"{to_figures(each.undercut_cm2, 2)} cm²"


def described(each: Orientation, rammed_kg_l: float, *, held: bool, vertical_cm2: float = 0.0) -> str:
    """Return what one orientation needs, and what is against it where the sand *held* by an undercut matters."""
    walls = f", {to_figures(vertical_cm2, 2)} cm² of vertical walls" if vertical_cm2 else ""
    against = f", but {undercut(each)} is undercut and would tear the sand" if held else ""
    return (
        f"{sand(each, rammed_kg_l)} of sand, cope {each.flask.cope_depth_mm:g} mm, draw {to_figures(each.draw_mm, 3)} mm, "
        f"uplift {uplift(each)}{walls}{against}"
    )


def row(each: Orientation, way: str, words: str) -> dict[str, object]:
    """Return the figures of one orientation, named *way* and described in *words*."""
    return {
        "way": way,
        "said": words,
        "sand_l": each.sand_l,
        "cope_mm": each.flask.cope_depth_mm,
        "draw_mm": each.draw_mm,
        "lift_kg": each.uplift_kg,
        "undercut_cm2": each.undercut_cm2,
    }
