"""The job *blend*: several lots made into one sand, and what brings it to its target clay and moisture."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.blend.figures import finish, needs, run
from sandmix.jobs.blend.form import BlendForm
from sandmix.jobs.blend.telling import tell
from sandmix.jobs.shared.bought import resolve_activity

JOB = Job(
    name="blend",
    short="Blend lots",
    title="What do several sands make together?",
    answered_with="clay and water to add, or the plain sand that would dilute it; the grain sizes of the blend",
    group="heap",
    form=BlendForm,
    resolve=resolve_activity,
    run=run,
    finish=finish,
    tell=tell,
    answers=(
        "clay_kg",
        "first_water_kg",
        "water_most_kg",
        "water_kg",
        "water_to_lose_kg",
        "plain_sand_kg",
        "make_kg",
        "lots_share_pct",
        "moisture_pct_wet",
        "clay_pct_dry",
        "dead_fines_pct_dry",
        "dead_fines_after_pct_dry",
        "retained",
        "gfn",
    ),
    needs=needs,
    example={
        "lots": (
            '[{"kg": "30 kg", "moisture_pct_wet": 2.5, "clay_pct_dry": 6, "dead_fines_pct_dry": 3, '
            '"retained": "40: 5; 50: 20; 70: 45; 100: 25; 140: 5"}, '
            '{"kg": "10 kg", "retained": "70: 10; 100: 40; 140: 35; 200: 12; pan: 3"}]'
        ),
        "target_clay_pct_dry": "7 %",
        "target_moisture_pct_wet": "3.5 %",
    },
    story="Thirty kilograms of the hall's used sand, and a 10 kg bag of fine dry sand for a smoother surface.",
)
