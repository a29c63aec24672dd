"""The job *match*: the blend of the sands on hand that comes nearest to a target fineness and is spread over the most sieves."""

from __future__ import annotations

from sandmix.asking.job import Job, as_given
from sandmix.jobs.match.figures import run
from sandmix.jobs.match.form import MatchForm
from sandmix.jobs.match.telling import tell

JOB = Job(
    name="match",
    short="Match a grain size",
    title="Which blend comes nearest to the grain I want?",
    answered_with="kilograms of each lot, the blend's grain sizes, how far off they are, and what limits the match",
    group="tests",
    form=MatchForm,
    resolve=as_given,
    run=run,
    tell=tell,
    answers=("take", "make_kg", "gfn", "gfn_off", "retained", "screens", "gaps", "fullest_pct"),
    example={
        "lots": (
            '[{"kg": "40 kg", "retained": "40: 12; 50: 48; 70: 32; 100: 7; pan: 1"}, '
            '{"kg": "25 kg", "retained": "70: 8; 100: 44; 140: 36; 200: 10; pan: 2"}, '
            '{"kg": "20 kg", "retained": "50: 6; 70: 30; 100: 46; 140: 16; pan: 2"}]'
        ),
        "target_gfn": "65",
        "make_kg": "30 kg",
        "gfn_leeway": "2",
    },
    story=(
        "The hall has three dry sands: a coarse filter sand, a fine one and one in between. It needs thirty kilograms with a number "
        "of about 65, spread over as many sieves as possible."
    ),
)
