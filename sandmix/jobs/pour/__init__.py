"""The job *pour*: how much metal to melt, and what holds the mould shut."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.pour.figures import finish, needs, run
from sandmix.jobs.pour.form import PourForm, resolve
from sandmix.jobs.pour.telling import tell

JOB = Job(
    name="pour",
    short="Pour",
    title="How much metal, and what holds the mould shut?",
    answered_with="the charge, how full the crucible is, uplift and weights, vents, and a list to tick before pouring",
    mind=(
        "Sand that is too wet throws molten metal out of the sprue. Put the weights on just before you pour, not earlier. "
        "Stand the mould on dry sand, never on bare concrete."
    ),
    group="casting",
    form=PourForm,
    resolve=resolve,
    run=run,
    finish=finish,
    tell=tell,
    answers=(
        "charge_kg",
        "crucible_fill_pct",
        "put_on_kg",
        "weights_kg",
        "hold_down_kg",
        "uplift_kg",
        "vents",
        "choke_mm2",
        "scrap_take",
        "scrap_kg",
        "scrap_short_kg",
        "scrap_left_kg",
        "ingot_kg",
        "ingot_cm3",
        "hydrogen_cm3_100g",
    ),
    needs=needs,
    example={
        "metal": "aluminium",
        "casting_volume_cm3": "380 cm³",
        "projected_area_cm2": "300 cm²",
        "head_mm": "130 mm",
        "cope_kg": "11 kg",
        "crucible_l": "1.2 L",
        "moisture_pct_wet": "3.3 %",
    },
    story="Four coat hooks, cast flat under a cope of 11 kg, from a crucible of 1.2 litres.",
)
