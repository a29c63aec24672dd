"""The figures of *flask*."""

from __future__ import annotations

from sandmix.asking.job import Figures
from sandmix.jobs.flask.form import FlaskForm
from sandmix.mould import flask

OF_THE_HEAP = ("surplus_kg", "fits_length_mm", "filler_to_add_l", "mix_to_make_kg")


def run(form: FlaskForm) -> Figures:
    """Return the figures; without the mass of the heap, those of the heap are left out."""
    inside, density, spare = form.inside, form.rammed_density_kg_l, form.spare_pct / 100
    rammed = max(0.0, inside.volume_l - form.taken_l) * density
    make = flask.make_kg(rammed, spare)
    drag, cope = flask.halves_kg(inside, density)
    figures: Figures = {
        "flask_l": inside.volume_l,
        "rammed_kg": rammed,
        "make_kg": make,
        "loose_l": flask.loose_l(make, density, form.compactability_pct / 100),
        "drag_kg": drag,
        "cope_kg": cope,
        "both_kg": drag + cope + form.frame_kg,
        "beside_mm": form.clearance.beside_mm,
    }
    if form.heap_kg is None:
        return figures
    missing = make - form.heap_kg
    length = flask.length_that_fits_mm(
        inside, heap_kg=form.heap_kg, rammed_kg_l=density, spare=spare, taken_l=form.taken_l
    )
    return figures | {
        "surplus_kg": -missing,
        "filler_to_add_l": flask.filler_for_l(missing, density, spare),
        "mix_to_make_kg": missing,
        "fits_length_mm": length if _still_clears(form, length) else None,
    }


def _still_clears(form: FlaskForm, length_mm: float) -> bool:
    inside = form.inside
    if form.pattern_mm is None or length_mm >= inside.length_mm:
        return True
    width_mm = inside.width_mm * length_mm / inside.length_mm
    return flask.clears(length_mm, width_mm, *form.pattern_mm, form.clearance.beside_mm)
