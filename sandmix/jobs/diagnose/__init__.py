"""The job *diagnose*: from what was seen and read to ranked causes, the next test, and what not to do meanwhile."""

from __future__ import annotations

from sandmix.asking.job import Job, as_given
from sandmix.jobs.diagnose.figures import run, weighed
from sandmix.jobs.diagnose.form import DiagnoseForm
from sandmix.jobs.diagnose.telling import tell

JOB = Job(
    name="diagnose",
    short="What went wrong",
    title="What went wrong?",
    answered_with="likely causes with points out of 100 and the reasons, the next test, what not to do, what would change the ranking",
    form=DiagnoseForm,
    resolve=as_given,
    run=run,
    finish=weighed,
    tell=tell,
    answers=("next_test", "leading", "what_not_to_do", "changes_mind", "causes"),
    example={"symptoms": "weak_squeeze, crumbling_edges, ever_more_water", "moisture_pct_wet": "4.4 %"},
    story=(
        "The edges crumble and a handful breaks with crumbs, though the heap was wetted only yesterday; it drinks more "
        "each month. A dried sample says 4.4 % water."
    ),
)
