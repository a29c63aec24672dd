"""The job *plan*: one casting from its flask to the restored sand, each step answered by its own job."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.plan.day import resolve
from sandmix.jobs.plan.figures import ANSWERS, causes, known, run
from sandmix.jobs.plan.form import PlanForm, unfold
from sandmix.jobs.plan.telling import tell

JOB = Job(
    name="plan",
    short="Plan a casting",
    title="What does this casting take, step by step?",
    answered_with="the steps of the day, from the flask to the restored sand, each with its main figure or what is still missing for it",
    group="casting",
    form=PlanForm,
    resolve=resolve,
    run=run,
    known=known,
    causes=causes,
    unfold=unfold,
    tell=tell,
    answers=ANSWERS,
    example={
        "metal": "aluminium",
        "box_mm": "160 x 90 x 30 mm",
        "casting_volume_cm3": "300 cm³",
        "casting_area_cm2": "420 cm²",
        "flasks": '[{"name": "small", "flask_length_mm": 290, "flask_width_mm": 200, "drag_depth_mm": 90, "cope_depth_mm": 90}]',
        "heap_kg": "45 kg",
        "moisture_pct_wet": "2.3 %",
        "clay_pct_dry": "6.4 %",
        "dead_fines_pct_dry": "2.5 %",
        "crucible_l": "1.2 L",
    },
    story="A strap for the gate of the hall, 160 mm long, is to be cast in the small flask, with the sand of the chest, 45 kg at 2.3 % water.",
)
