"""The job *rebond*: what to add to used sand, and what to take out."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.rebond.figures import finish, needs, run
from sandmix.jobs.rebond.form import RebondForm, resolve
from sandmix.jobs.rebond.telling import tell

JOB = Job(
    name="rebond",
    short="Restore the sand",
    title="What does the used sand need?",
    answered_with="what to discard, the sand, clay and water to add, and which limit decides",
    group="heap",
    form=RebondForm,
    resolve=resolve,
    run=run,
    finish=finish,
    tell=tell,
    answers=(
        "first_clay_kg",
        "clay_kg",
        "sand_kg",
        "mix_kg",
        "additive_kg",
        "plan",
        "first_water_kg",
        "water_most_kg",
        "water_kg",
        "water_to_lose_kg",
        "dried_kg",
        "discard_kg",
        "heap_after_kg",
        "dead_fines_after_pct_dry",
        "gfn_after",
        "cost",
        "binding",
        "dilute_kg",
        "dilute_added_kg",
        "dilute_cost",
        "dump_added_kg",
        "dump_cost",
    ),
    needs=needs,
    example={
        "heap_kg": "43 kg",
        "moisture_pct_wet": "2.3 %",
        "clay_pct_dry": "6.1 %",
        "dead_fines_pct_dry": "3.1 %",
        "target_clay_pct_dry": "7.5 %",
        "target_kg": "45 kg",
    },
    story="The hall's heap after a dozen casts.",
)
