"""The job *forecast*: how the clay of a heap changes from cast to cast if nothing is done differently, and what a season uses."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.forecast.figures import needs, run
from sandmix.jobs.forecast.form import ForecastForm, resolve
from sandmix.jobs.forecast.telling import tell

JOB = Job(
    name="forecast",
    short="Look ahead",
    title="What happens to the heap if I go on like this?",
    answered_with="live and dead clay after each cast and in the long run, what keeps dead clay within its limit, what a season uses",
    group="heap",
    form=ForecastForm,
    resolve=resolve,
    run=run,
    tell=tell,
    answers=(
        "casts_until_limit",
        "clay_pct_dry",
        "dead_clay_pct_dry",
        "steady_clay_pct_dry",
        "steady_dead_clay_pct_dry",
        "make_up_pct",
        "sand_kg",
        "clay_kg",
        "cost",
    ),
    needs=needs,
    example={
        "clay_pct_dry": "7.5 %",
        "clay_burnt_share": "0.015",
        "new_sand_share": "0.025",
        "make_up": "yes",
        "casts": "30",
        "heap_kg": "45 kg",
    },
    story="Thirty casts for the hall, clay put back after each.",
)
