"""The job *burnout*: what one casting does to the sand around it, and when its mould may be opened."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.burnout.figures import needs, run, run_roughly
from sandmix.jobs.burnout.form import BurnoutForm, resolve
from sandmix.jobs.burnout.telling import tell

JOB = Job(
    name="burnout",
    short="After the pour",
    title="When may it be opened, and what did the heat do to the sand?",
    answered_with="clock times to wait, burnt clay, water driven off, charts",
    on_casting_day=True,
    mind="Sand and casting stay hot long after they look cold.",
    form=BurnoutForm,
    resolve=resolve,
    run=run,
    rough=run_roughly,
    tell=tell,
    answers=(
        "open_after_min",
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
        "metal": "aluminium",
        "casting_volume_cm3": "420 cm3",
        "casting_area_cm2": "560 cm2",
        "sand_kg": "28 kg",
        "box_mm": "180 x 180 x 24 mm",
        "clay_pct_dry": "7 %",
        "flask_sand_kg": "24 kg",
    },
    story="The pulley of 420 cm³ was poured at the usual heat into 24 kg of the heap's 28 kg of sand, at 3.5 % moisture and 7 % clay.",
)
