"""The job *flask*: is there enough sand for this flask, what to do if not, and the load to lift."""

from __future__ import annotations

from sandmix.asking.job import Job, as_given, needs_always
from sandmix.jobs.flask.figures import OF_THE_HEAP, run
from sandmix.jobs.flask.form import FlaskForm
from sandmix.jobs.flask.telling import tell

JOB = Job(
    name="flask",
    short="Fill the flask",
    title="Is there enough sand for this flask?",
    answered_with="whether the heap is enough, three options if it is not, and what each half weighs",
    group="casting",
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
    needs=needs_always(OF_THE_HEAP, "heap_kg"),
    example={
        "flask_length_mm": "380 mm",
        "flask_width_mm": "260 mm",
        "drag_depth_mm": "95 mm",
        "cope_depth_mm": "90 mm",
        "heap_kg": "45 kg",
        "pattern_volume_cm3": "380 cm³",
        "pattern_length_mm": "290 mm",
        "pattern_width_mm": "150 mm",
    },
    story="Four coat hooks on one board in the wide flask, with 45 kg of sand in the chest.",
)
