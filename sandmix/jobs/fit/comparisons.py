"""How the other flasks and the other orientations of the pattern compare, in rows and in words."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.jobs.fit.form import ResolvedFit
from sandmix.jobs.shared import orientations as shared
from sandmix.language.wording import to_figures
from sandmix.mould import fit
from sandmix.mould.body_orientation import BodyOrientation
from sandmix.mould.fit import CheckedFlask
from sandmix.mould.flask import Flask

Row = dict[str, object]


def sizes(inside: Flask) -> str:
    """Return the inside of a flask in words.

    >>> sizes(Flask(length_mm=300, width_mm=200, drag_depth_mm=90, cope_depth_mm=0))
    '300 × 200 mm, drag 90'
    """
    cope = f", cope {inside.cope_depth_mm:g}" if inside.cope_depth_mm else ""
    return f"{inside.length_mm:g} × {inside.width_mm:g} mm, drag {inside.drag_depth_mm:g}{cope}"


def lacking(lacks: Mapping[str, float]) -> str:
    """Return what is missing where.

    >>> lacking({"above": 12.0, "at the ends": 4.5})
    '12 mm too little above, 4.5 mm too little at the ends'
    """
    return ", ".join(f"{to_figures(mm, 3)} mm too little {where}" for where, mm in lacks.items())


def others(form: ResolvedFit, taken: CheckedFlask) -> list[Row]:
    """Return a row for each flask on hand that is not taken: how much more sand it needs, or what it lacks."""
    return [_other(form, taken, each) for each in form.checked if each.name != taken.name]


def _other(form: ResolvedFit, taken: CheckedFlask, each: CheckedFlask) -> Row:
    if not each.clears:
        return {"name": each.name, "said": f"it is too small: {lacking(each.lacks)}"}
    extra = fit.extra_kg(each.inside, taken.inside, form.rammed_density_kg_l, form.spare_pct / 100)
    said = f"it needs {to_figures(abs(extra), 3)} kg {'more' if extra >= 0 else 'less'} sand"
    if extra < 0:
        return {"name": each.name, "said": said}
    if form.cost_per_kg is None:
        return {"name": each.name, "said": said, "extra_kg": extra}
    cost = extra * form.cost_per_kg
    return {"name": each.name, "said": f"{said}, which costs {cost:.2f} more", "extra_kg": extra, "extra_cost": cost}


def named(way: BodyOrientation) -> str:
    """Return which side is up and where the parting is, in words."""
    return f"{way.up} up, parted {way.place}"


def described(way: BodyOrientation, rammed_kg_l: float) -> str:
    """Return one orientation in words."""
    return shared.described(way, rammed_kg_l, held=way.undercut_cm2 > 0)


def orientation_rows(form: ResolvedFit) -> list[Row]:
    """Return a row for each orientation."""
    return [shared.row(way, named(way), described(way, form.rammed_density_kg_l)) for way in form.orientations]
