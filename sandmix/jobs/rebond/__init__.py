"""The job *rebond*: what to put back into used sand, and what to take out."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.rebond.figures import needs, run
from sandmix.jobs.rebond.form import RebondForm, resolve
from sandmix.jobs.rebond.telling import tell
from sandmix.jobs.shared.doses import most_water

JOB = Job(
    name="rebond",
    short="Restore the sand",
    title="What does the used sand need?",
    answered_with="what to discard, the sand, clay and water to add, and which limit decides",
    on_casting_day=True,
    form=RebondForm,
    resolve=resolve,
    run=run,
    finish=most_water,
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
        "discard_kg",
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
        "heap_kg": "40 kg",
        "moisture_pct_wet": "2.1 %",
        "clay_pct_dry": "5.8 %",
        "dead_fines_pct_dry": "3.4 %",
        "target_clay_pct_dry": "7 %",
        "target_kg": "42 kg",
    },
    story="A bin of 40 kg after a dozen small castings: clay has burnt, water has gone, a little sand was lost.",
)
