"""The job *feel*: what moisture a squeezed handful means, by the usual words and by a person's own tests, and whether water may be dosed by it."""

from __future__ import annotations

from sandmix.asking.job import Job, needs_always
from sandmix.jobs.feel.figures import finish, run
from sandmix.jobs.feel.form import FeelForm, resolve
from sandmix.jobs.feel.telling import tell

JOB = Job(
    name="feel",
    short="Judge a handful",
    title="How much water does a handful that feels like this hold?",
    answered_with="the moisture behind a squeezed handful with its range, what your own tests say of your words, a dose only where they bear it out",
    group="tests",
    form=FeelForm,
    resolve=resolve,
    run=run,
    finish=finish,
    tell=tell,
    answers=(
        "feel_doses",
        "moisture_pct_wet",
        "feel_pairs",
        "feel_inside_pct",
        "feel_gain",
        "verdict",
        "first_water_kg",
        "water_most_kg",
        "water_kg",
        "water_to_lose_kg",
        "dried_kg",
    ),
    needs=needs_always((), "heap_kg"),
    example={
        "feel": "crumbles",
        "book": """[
{"kind": "mixed", "at": "2027-03-06", "make_kg": "45 kg", "clay_pct_dry": "7.5 %", "moisture_pct_wet": "3.4 %"},
{"kind": "measured", "at": "2027-03-06T15:00Z", "moisture_pct_wet": "3.5 %", "feel": "prints"},
{"kind": "measured", "at": "2027-03-13T09:00Z", "moisture_pct_wet": "2.7 %", "feel": "weak", "water_added_kg": "350 g"},
{"kind": "measured", "at": "2027-03-13T11:00Z", "moisture_pct_wet": "3.4 %", "feel": "prints"},
{"kind": "measured", "at": "2027-03-20T09:00Z", "moisture_pct_wet": "2.1 %", "feel": "crumbles", "water_added_kg": "650 g"},
{"kind": "measured", "at": "2027-03-20T12:00Z", "moisture_pct_wet": "3.6 %", "feel": "prints"},
{"kind": "measured", "at": "2027-03-27T09:00Z", "moisture_pct_wet": "2.8 %", "feel": "weak", "water_added_kg": "750 g"},
{"kind": "measured", "at": "2027-03-27T12:00Z", "moisture_pct_wet": "4.4 %", "feel": "shiny"},
{"kind": "measured", "at": "2027-04-03T09:00Z", "moisture_pct_wet": "2.0 %", "feel": "crumbles", "water_added_kg": "600 g"},
{"kind": "measured", "at": "2027-04-03T12:00Z", "moisture_pct_wet": "3.3 %", "feel": "prints"},
{"kind": "measured", "at": "2027-04-10T09:00Z", "moisture_pct_wet": "2.3 %", "feel": "crumbles"}]""",
        "now": "2027-04-17T09:00Z",
    },
    story="The hall's moulder has squeezed a handful before each oven test since March. After a dry week in April a handful crumbles.",
)
