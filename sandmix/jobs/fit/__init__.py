"""The job *fit*: which flask for this pattern, what it clears, what it costs in sand, and the flask to make where none does."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.fit.figures import needs, run
from sandmix.jobs.fit.form import FitForm, resolve
from sandmix.jobs.fit.telling import tell

JOB = Job(
    name="fit",
    short="Choose a flask",
    title="Which flask for this pattern?",
    answered_with="the flask that clears it with the least sand, or one to make and how to cut it; walls, bars, loads to lift, a section",
    form=FitForm,
    resolve=resolve,
    run=run,
    tell=tell,
    answers=(
        "flask_taken",
        "make_kg",
        "rammed_kg",
        "surplus_kg",
        "sand_cost",
        "above_mm",
        "below_mm",
        "ends_mm",
        "sides_mm",
        "beside_mm",
        "others",
        "least_length_mm",
        "least_width_mm",
        "least_drag_mm",
        "least_cope_mm",
        "cuts",
        "boards_used",
        "boards_fewest",
        "cut_length_mm",
        "filler_to_add_l",
        "filler_room_l",
        "mix_to_make_kg",
        "facing_kg",
        "facing_l",
        "drag_kg",
        "cope_kg",
        "frame_kg",
        "both_kg",
        "casting_kg",
        "poured_kg",
        "uplift_kg",
        "cope_bars",
        "clamps",
        "wall_ties",
        "wall_gives_mm",
        "wall_kpa",
        "ways_up",
        "suggested_way",
    ),
    needs=needs,
    example={
        "pattern_length_mm": "150 mm",
        "pattern_width_mm": "100 mm",
        "pattern_height_mm": "40 mm",
        "flasks": (
            '[{"name": "square", "flask_length_mm": 300, "flask_width_mm": 300, "drag_depth_mm": 100, "cope_depth_mm": 100}, '
            '{"name": "small", "flask_length_mm": 220, "flask_width_mm": 170, "drag_depth_mm": 90, "cope_depth_mm": 70}, '
            '{"name": "long", "flask_length_mm": 280, "flask_width_mm": 180, "drag_depth_mm": 90, "cope_depth_mm": 70}]'
        ),
        "heap_kg": "28 kg",
        "pattern_volume_cm3": "420 cm3",
        "gating_volume_cm3": "90 cm3",
    },
    story="A bracket with a flat back, three plywood flasks on the shelf, and a tub of 28 kg of sand.",
)
