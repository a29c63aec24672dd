"""The job *season*: how much sand to replace in a season of casts so that dead fines stay within their limit at the least cost."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.season.figures import finish, needs, run
from sandmix.jobs.season.form import SeasonForm, resolve
from sandmix.jobs.season.telling import tell

JOB = Job(
    name="season",
    short="Dump, dilute or keep",
    title="Do I dump the heap, dilute it or keep it?",
    answered_with="the cheapest way through a season within the limit on dead fines, next to today's habit; what to buy before winter",
    group="heap",
    form=SeasonForm,
    resolve=resolve,
    run=run,
    finish=finish,
    tell=tell,
    answers=(
        "keep_casts",
        "now_share_pct",
        "then_share_pct",
        "equal_share_pct",
        "equal_replace_kg",
        "habit_casts_until_limit",
        "keep_cost_per_cast",
        "equal_cost_per_cast",
        "habit_cost_per_cast",
        "season_sand_kg",
        "season_clay_kg",
        "season_discard_kg",
        "season_ways",
    ),
    needs=needs,
    example={
        "heap_kg": "45 kg",
        "clay_pct_dry": "7.5 %",
        "clay_burnt_share": "0.03",
        "new_sand_share": "0.06",
        "casts": "30",
        "dead_fines_pct_dry": "3 %",
        "sand_bag_kg": "25 kg",
        "sand_bag_price": "7.20",
        "clay_bag_kg": "10 kg",
        "clay_bag_price": "16",
    },
    story="Thirty casts until spring for the hall, and a heap that has grown a little old.",
)
