"""The job *diagnose*: from signs and readings to ranked causes, the next test, and what not to do until then."""

from __future__ import annotations

from sandmix.asking.job import Job, as_given
from sandmix.jobs.diagnose.figures import finish, run
from sandmix.jobs.diagnose.form import DiagnoseForm
from sandmix.jobs.diagnose.telling import tell

JOB = Job(
    name="diagnose",
    short="What went wrong",
    title="What went wrong?",
    answered_with="likely causes with points out of 100 and the reasons, the next test, what not to do, what would change the ranking",
    group="tests",
    form=DiagnoseForm,
    resolve=as_given,
    run=run,
    finish=finish,
    tell=tell,
    answers=("next_test", "leading", "what_not_to_do", "changes_mind", "causes"),
    example={"symptoms": "weak_squeeze, crumbling_edges, ever_more_water", "moisture_pct_wet": "4.4 %"},
    story=(
        "The edges crumble and a squeezed handful breaks with crumbs, although the hall's heap was wetted only yesterday. It needs more "
        "water each month. A dried sample shows 4.4 % water."
    ),
)
