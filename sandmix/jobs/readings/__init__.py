"""The job *readings*: control charts of a person's own readings from the book of the heap."""

from __future__ import annotations

from sandmix.asking.job import Job
from sandmix.jobs.readings.figures import run
from sandmix.jobs.readings.form import ReadingsForm, resolve
from sandmix.jobs.readings.telling import tell

JOB = Job(
    name="readings",
    short="Your own readings",
    title="Are my readings as usual, or does something drift?",
    answered_with="a chart with limits for your moisture tests, compactability, tin weight and scrap: what is far out, what drifts slowly",
    group="tests",
    form=ReadingsForm,
    resolve=resolve,
    run=run,
    tell=tell,
    answers=(
        "readings_outside",
        "readings_drifting",
        "readings_count",
        "readings_mean",
        "readings_low",
        "readings_high",
        "scrap_causes",
    ),
    example={
        "book": """[
{"kind": "mixed", "at": "2027-03-06", "make_kg": "45 kg", "clay_pct_dry": "7.5 %", "moisture_pct_wet": "3.4 %"},
{"kind": "measured", "at": "2027-03-13T09:00Z", "compactability_read_pct": "45 %", "tin_g": "362 g"},
{"kind": "poured", "at": "2027-03-13T15:00Z", "metal_kg": "1.5 kg", "castings_made": 3, "castings_scrapped": 0},
{"kind": "measured", "at": "2027-03-20T09:00Z", "compactability_read_pct": "43 %", "tin_g": "365 g"},
{"kind": "measured", "at": "2027-03-27T09:00Z", "compactability_read_pct": "46 %", "tin_g": "361 g"},
{"kind": "measured", "at": "2027-04-03T09:00Z", "compactability_read_pct": "44 %", "tin_g": "364 g"},
{"kind": "poured", "at": "2027-04-03T15:00Z", "metal_kg": "2.1 kg", "castings_made": 4, "castings_scrapped": 1, "scrap_cause": "unvented"},
{"kind": "measured", "at": "2027-04-10T09:00Z", "compactability_read_pct": "45 %", "tin_g": "363 g"},
{"kind": "measured", "at": "2027-04-17T09:00Z", "compactability_read_pct": "44 %", "tin_g": "366 g"},
{"kind": "measured", "at": "2027-04-24T09:00Z", "compactability_read_pct": "43 %", "tin_g": "364 g"},
{"kind": "measured", "at": "2027-05-01T09:00Z", "compactability_read_pct": "45 %", "tin_g": "362 g"},
{"kind": "measured", "at": "2027-05-08T09:00Z", "compactability_read_pct": "36 %", "tin_g": "383 g"}]""",
    },
    story="The hall tests its sand before each casting day. In May a tin reads lower and heavier than before.",
)
