"""The job *facing*: how much facing a mould needs, where it goes, and where facing and backing end."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.facing.figures import LONG_RUN, SEASON, finish, needs, run, run_roughly
from sandmix.jobs.facing.form import FacingForm, resolve
from sandmix.jobs.facing.telling import tell

JOB = Job(
    name="facing",
    short="Facing and backing",
    title="How much facing does this mould need, and where do both sands end?",
    answered_with="facing and backing for one mould, both sands in the long run, what each needs in a season",
    group="heap",
    form=FacingForm,
    resolve=resolve,
    run=run,
    rough=run_roughly,
    finish=finish,
    tell=tell,
    answers=(
        "facing_rammed_kg",
        "backing_kg",
        "facing_layer_mm",
        "dry_depth_mm",
        "facing_share_pct",
        "facing_joins_kg",
        "facing_lost_kg",
        *LONG_RUN,
        "new_grain_pct",
        "backing_gfn_after",
        *SEASON,
    ),
    needs=needs,
    example={
        "metal": "aluminium",
        "casting_volume_cm3": "250 cm³",
        "casting_area_cm2": "420 cm²",
        "flask_sand_kg": "24 kg",
        "heap_kg": "45 kg",
        "casts": "30",
    },
    story="The hall's coat hooks, thirty times, with fine facing in front of the old heap.",
)
