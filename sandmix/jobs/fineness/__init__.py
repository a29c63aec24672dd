"""The job *fineness*: how fine the grain is, and on which sieves it lies."""

from __future__ import annotations

from sandmix.asking.job import Job, as_given
from sandmix.jobs.fineness.figures import known, needs, run
from sandmix.jobs.fineness.form import FinenessForm
from sandmix.jobs.fineness.telling import tell

JOB = Job(
    name="fineness",
    short="Grain size",
    title="How fine is the sand?",
    answered_with="grain fineness number with the range that missing sieves leave, mean size, screens, gaps, surface, losses",
    group="tests",
    form=FinenessForm,
    resolve=as_given,
    run=run,
    known=known,
    known_from="retained",
    tell=tell,
    answers=(
        "gfn",
        "gfn_estimate",
        "mean_um",
        "screens",
        "gaps",
        "passing",
        "surface_cm2_g",
        "washed_pct_dry",
        "sieve_loss_pct",
    ),
    needs=needs,
    example={
        "retained": "30: 0.6; 40: 3.2; 50: 9.8; 70: 19.5; 100: 11.7; 140: 2.4; 200: 0.5; 270: 0.1; pan: 0.1",
        "clay_washed_g": "2.1 g",
        "sample_g": "50.1 g",
    },
    story="Fifty grams of sand from the hall's heap, washed, dried, and shaken through a stack of sieves for a quarter of an hour.",
)
