"""The job *flask*: is there enough sand for this flask, what to do if not, and what is about to be lifted."""

from __future__ import annotations

from sandmix.asking.job import Job, as_given, needs_always
from sandmix.jobs.flask.figures import _HEAP, run
from sandmix.jobs.flask.form import FlaskForm
from sandmix.jobs.flask.telling import tell

JOB = Job(
    name="flask",
    short="Fill the flask",
    title="Is there enough sand for this flask?",
    answered_with="enough or not, three ways out if not, and what each half weighs",
    on_casting_day=True,
    form=FlaskForm,
    resolve=as_given,
    run=run,
    tell=tell,
    answers=(
        "make_kg",
        "rammed_kg",
        "surplus_kg",
        "fits_length_mm",
        "filler_to_add_l",
        "mix_to_make_kg",
        "drag_kg",
        "cope_kg",
        "both_kg",
        "flask_l",
        "loose_l",
        "beside_mm",
    ),
    needs=needs_always(_HEAP, "heap_kg"),
    example={
        "flask_length_mm": "300 mm",
        "flask_width_mm": "300 mm",
        "drag_depth_mm": "100 mm",
        "cope_depth_mm": "100 mm",
        "heap_kg": "28 kg",
        "pattern_volume_cm3": "600 cm3",
        "pattern_length_mm": "150 mm",
        "pattern_width_mm": "100 mm",
    },
    story="A plywood flask of 300 × 300 mm in two halves, a printed bracket, and a tub of 28 kg.",
)
