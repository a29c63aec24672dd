"""The job *fit*: which flask for this pattern, how much sand it needs, and the flask to make where none is large enough."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.fit.figures import needs, run, run_in_numbers
from sandmix.jobs.fit.form import FitForm, resolve
from sandmix.jobs.fit.telling import tell

JOB = Job(
    name="fit",
    short="Choose a flask",
    title="Which flask for this pattern?",
    answered_with="the flask that needs the least sand, or one to make and how to cut it; walls, bars, loads to lift, a section",
    group="casting",
    form=FitForm,
    resolve=resolve,
    run=run,
    rough=run_in_numbers,
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
        "pattern_length_mm": "320 mm",
        "pattern_width_mm": "40 mm",
        "pattern_height_mm": "30 mm",
        "flasks": (
            '[{"name": "wide", "flask_length_mm": 380, "flask_width_mm": 260, "drag_depth_mm": 95, "cope_depth_mm": 90}, '
            '{"name": "short", "flask_length_mm": 260, "flask_width_mm": 200, "drag_depth_mm": 80, "cope_depth_mm": 75}, '
            '{"name": "long", "flask_length_mm": 460, "flask_width_mm": 150, "drag_depth_mm": 85, "cope_depth_mm": 80}]'
        ),
        "heap_kg": "45 kg",
        "pattern_volume_cm3": "255 cm³",
        "gating_volume_cm3": "110 cm³",
        "metal": "grey_iron",
    },
    story="A grate bar for the stove, three flasks on the shelf, and 45 kg of sand in the chest.",
)
