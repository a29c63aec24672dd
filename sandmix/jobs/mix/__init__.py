"""The job *mix*: what to weigh in for new moulding sand, for a given mass or from what is on hand."""

from __future__ import annotations

from sandmix.asking.job import Job, Way, Ways, needs_always
from sandmix.jobs.mix.figures import BATCH, finish, run
from sandmix.jobs.mix.form import MixForm, resolve
from sandmix.jobs.mix.telling import tell

JOB = Job(
    name="mix",
    short="Mix new sand",
    title="What do I weigh in for new moulding sand?",
    answered_with="kilograms as bought, in batches, litres and buckets; the recipe in all four bases",
    group="casting",
    form=MixForm,
    resolve=resolve,
    run=run,
    finish=finish,
    tell=tell,
    answers=(
        "sand_kg",
        "clay_kg",
        "clay_step_kg",
        "clay_most_kg",
        "first_water_kg",
        "water_most_kg",
        "water_kg",
        "water_to_lose_kg",
        "dried_kg",
        "make_kg",
        *BATCH,
        "sand_l",
        "clay_l",
        "sand_buckets",
        "clay_buckets",
        "standing_kg",
        "standing_moisture_pct_wet",
        "clay_pct_dry",
        "clay_pct_sand",
        "clay_pct_wet",
        "parts_sand",
        "parts_clay",
        "moisture_pct_wet",
        "moisture_pct_dry",
    ),
    needs=needs_always(BATCH, "mixer_kg"),
    ways=(
        Ways(
            name="amount",
            label="How much?",
            options=(
                Way(name="make", label="As much as I want", words=("make_kg",)),
                Way(
                    name="stock",
                    label="As much as my sand and clay allow",
                    words=("sand_on_hand_kg", "clay_on_hand_kg"),
                ),
            ),
        ),
        Ways(
            name="clay",
            label="How do you give the clay?",
            options=(
                Way(name="dry", label="% of dry mix", words=("clay_pct_dry",)),
                Way(name="sand", label="per 100 of dry sand", words=("clay_pct_sand",)),
                Way(name="wet", label="% of wet mix", words=("clay_pct_wet",)),
                Way(name="parts", label="parts by volume", words=("parts_sand", "parts_clay")),
            ),
        ),
    ),
    example={
        "make_kg": "45 kg",
        "clay_pct_dry": "7.5 %",
        "moisture_pct_wet": "3.4 %",
        "clay_moisture_pct_wet": "10 %",
        "mixer_kg": "15 kg",
    },
    story="The hall's first heap: dried silica sand, pond-liner bentonite, and a mixer that takes 15 kg.",
)
