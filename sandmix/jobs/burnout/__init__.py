"""The job *burnout*: what one casting does to the sand around it, and when its mould may be opened."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.burnout.figures import needs, run, run_roughly
from sandmix.jobs.burnout.form import BurnoutForm, resolve
from sandmix.jobs.burnout.telling import tell

JOB = Job(
    name="burnout",
    short="After the pour",
    title="When can you open it, and what did the heat do to the sand?",
    answered_with="clock times to wait, burnt clay, water driven off, charts",
    mind="Sand and casting stay hot long after they look cold.",
    group="casting",
    form=BurnoutForm,
    resolve=resolve,
    run=run,
    rough=run_roughly,
    tell=tell,
    answers=(
        "open_after_min",
        "casting_open_min",
        "solid_after_min",
        "handle_after_min",
        "bin_after_min",
        "freeze_s",
        "water_driven_kg",
        "dry_depth_mm",
        "clay_loss_pct",
        "clay_burnt_kg",
        "clay_burnt_by_rate_kg",
        "burnt_sand_kg",
        "burnt_sand_per_metal",
        "burnt_depth_mm",
        "sand_mean_c",
        "metal_kg",
    ),
    needs=needs,
    example={
        "metal": "grey_iron",
        "casting_volume_cm3": "250 cm³",
        "casting_area_cm2": "330 cm²",
        "sand_kg": "45 kg",
        "box_mm": "320 x 40 x 20 mm",
        "clay_pct_dry": "7.5 %",
        "flask_sand_kg": "24 kg",
    },
    story="The grate bar was poured in iron into 24 kg of the heap's 45 kg of sand.",
)
