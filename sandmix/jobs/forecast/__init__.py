"""The job *forecast*: where a habit takes the clay of a heap, cast after cast, and what a season of it asks for."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.forecast.figures import needs, run
from sandmix.jobs.forecast.form import ForecastForm, resolve
from sandmix.jobs.forecast.telling import tell

JOB = Job(
    name="forecast",
    short="Look ahead",
    title="Where does my habit take the heap?",
    answered_with="live and dead clay cast after cast, where they end, what keeps within the limit, what a season uses",
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
        "clay_pct_dry": "8 %",
        "clay_burnt_share": "0.02",
        "new_sand_share": "0.03",
        "make_up": "yes",
        "casts": "24",
        "heap_kg": "40 kg",
    },
    story="A heap of 40 kg, two castings a week for a season, with clay put back after each.",
)
