"""The job *temper*: whether the heap is ready to mould, and how much water it needs."""

from __future__ import annotations

from sandmix.asking.job import Job, Way, Ways, needs_always
from sandmix.jobs.temper.figures import finish, run
from sandmix.jobs.temper.form import TemperForm, resolve
from sandmix.jobs.temper.telling import tell

JOB = Job(
    name="temper",
    short="Test and temper",
    title="Is the sand ready to mould?",
    answered_with="one word, the first dose of water and the most, or how much water must go",
    group="casting",
    form=TemperForm,
    resolve=resolve,
    run=run,
    finish=finish,
    tell=tell,
    answers=(
        "verdict",
        "first_water_kg",
        "water_most_kg",
        "water_kg",
        "water_to_lose_kg",
        "dried_kg",
        "dry_mix_to_dilute_kg",
        "moisture_pct_wet",
    ),
    needs=needs_always(
        ("water_kg", "first_water_kg", "water_most_kg", "water_to_lose_kg", "dry_mix_to_dilute_kg"), "heap_kg"
    ),
    ways=(
        Ways(
            name="moisture",
            label="How do you know the moisture?",
            options=(
                Way(name="weighed", label="I dried a sample", words=("sample_wet_g", "sample_dry_g", "scale_step_g")),
                Way(name="figure", label="I have a figure", words=("moisture_pct_wet",)),
            ),
        ),
    ),
    example={"heap_kg": "45 kg", "sample_wet_g": "400 g", "sample_dry_g": "391 g", "scale_step_g": "1 g"},
    story="The hall's chest of 45 kg stood through a dry March. A sample of 400 g loses 9 g in the oven.",
)
