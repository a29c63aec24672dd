"""The job *estimate*: how much live clay is in a sand from all its tests, and how well it is mulled."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.estimate.figures import finish, known, needs, run
from sandmix.jobs.estimate.form import EstimateForm, resolve
from sandmix.jobs.estimate.telling import tell

JOB = Job(
    name="estimate",
    short="Live clay",
    title="How much live clay is in it?",
    answered_with="live clay from all your tests together, whether they agree, dead fines, bond and mulling",
    group="tests",
    form=EstimateForm,
    resolve=resolve,
    run=run,
    finish=finish,
    known=known,
    tell=tell,
    answers=(
        "clay_pct_dry",
        "dead_fines_pct_dry",
        "clay_washed_pct_dry",
        "clay_mulled_pct_dry",
        "agreement",
        "mulling_efficiency_pct",
        "available_bond_pct",
        "working_bond_pct",
        "equilibrium_moisture_pct_wet",
    ),
    needs=needs,
    example={
        "clay_blue_pct_dry": "7.6 %",
        "washed_pct_dry": "10.5 %",
        "clay_book_pct_dry": "8.1 %",
        "moisture_pct_wet": "3.4 %",
        "compactability_read_pct": "43 %",
        "strength_kpa": "14 psi",
    },
    story="The hall's heap in its second year. One evening a sample was washed, titrated, rammed and crushed; the book gives a figure too.",
)
