"""The job *dry*: how to dry a heap that is too wet, how long it takes, and the weight to stop at."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.dry.figures import finish, needs, run
from sandmix.jobs.dry.form import DryForm
from sandmix.jobs.dry.resolving import resolve
from sandmix.jobs.dry.telling import tell

JOB = Job(
    name="dry",
    short="Dry the sand",
    title="How do you dry a heap that is too wet?",
    answered_with="water to lose, the layer to spread, hours with their range, and the weight to stop at",
    group="heap",
    form=DryForm,
    resolve=resolve,
    run=run,
    finish=finish,
    tell=tell,
    needs=needs,
    answers=(
        "water_to_lose_kg",
        "full_container_kg",
        "dried_kg",
        "layer_mm",
        "spread_m2",
        "drying_min",
        "left_min",
        "turns",
        "turn_every_min",
        "dry_out_kg",
        "burner_mj",
        "dry_mix_to_dilute_kg",
        "dry_mix_in_time_kg",
        "mixed_min",
        "drying_rate",
        "moisture_pct_wet",
    ),
    example={
        "heap_kg": "45 kg",
        "moisture_pct_wet": "5.6 %",
        "air_temp_c": "20 °C",
        "humidity_pct": "60 %",
        "container_kg": "6.5 kg",
        "spread_m2": "3 m²",
    },
    story="The lid of the hall's chest was left open in the rain. A tarpaulin of 3 m² lies in the shade behind the hall.",
)
