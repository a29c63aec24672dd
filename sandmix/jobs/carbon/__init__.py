"""The job *carbon*: seacoal and its substitutes in the sand for iron and copper alloys."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.carbon.figures import finish, needs, run, run_roughly
from sandmix.jobs.carbon.form import CarbonForm, resolve
from sandmix.jobs.carbon.telling import tell

JOB = Job(
    name="carbon",
    short="Carbon in the sand",
    title="Does the sand need carbon, and how much?",
    answered_with="grams of seacoal or a substitute per kilogram of sand, what a cast takes, and how much carbon monoxide that can give",
    mind="Carbon in the sand gives off carbon monoxide: only outdoors. Aluminium needs none.",
    group="heap",
    form=CarbonForm,
    resolve=resolve,
    run=run,
    rough=run_roughly,
    finish=finish,
    tell=tell,
    answers=(
        "additive_per_sand",
        "additive_to_add_kg",
        "first_additive_kg",
        "additive_burnt_kg",
        "additive_season_kg",
        "co_kg",
        "co_l",
        "co_air_m3",
        "additive_ways",
    ),
    needs=needs,
    example={
        "metal": "grey_iron",
        "heap_kg": "45 kg",
        "carbon_target_pct": "3 %",
        "carbon_now_pct": "1 %",
        "cast_metal_kg": "3 kg",
    },
    story="The hall's grate bars in iron: seacoal for a heap that has lost some of it.",
)
