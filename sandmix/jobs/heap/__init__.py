"""The job *heap*: what a heap is according to its book, how certain that is, and what it needs."""

from __future__ import annotations

from sandmix.asking.job import Job, needs_always
from sandmix.entries.reading_entries import LOGGED, OWN, OWN_TIN
from sandmix.jobs.heap.figures import known, run
from sandmix.jobs.heap.form import HeapForm, resolve
from sandmix.jobs.heap.telling import tell

JOB = Job(
    name="heap",
    short="The heap book",
    title="What is the heap now?",
    answered_with="mass, moisture, live and dead clay from the entries of its book, each with its ±",
    group="heap",
    form=HeapForm,
    resolve=resolve,
    run=run,
    known=known,
    known_from="book",
    tell=tell,
    answers=(
        "heap_kg",
        "moisture_pct_wet",
        "mould_moisture_pct_wet",
        "clay_pct_dry",
        "dead_clay_pct_dry",
        "other_fines_pct_dry",
        "dead_fines_pct_dry",
        "casts",
        "last_test_age_days",
        *LOGGED,
        *OWN,
        *OWN_TIN,
    ),
    needs=needs_always(("last_test_age_days",), "now"),
    example={
        "book": """[
{"kind": "mixed", "at": "2027-03-06", "make_kg": "45 kg", "clay_pct_dry": "7.5 %", "moisture_pct_wet": "3.4 %"},
{"kind": "poured", "at": "2027-03-13", "metal": "aluminium", "metal_kg": "1.5 kg", "pattern": "coat hooks"},
{"kind": "poured", "at": "2027-03-20", "metal": "tin_bronze", "metal_kg": "2.1 kg", "pattern": "door pull"},
{"kind": "measured", "at": "2027-03-21", "heap_kg": "43.6 kg", "moisture_pct_wet": "2.5 %"},
{"kind": "tempered", "at": "2027-03-21", "water_kg": "400 g"}]""",
        "now": "2027-03-24T09:00Z",
    },
    story="Forty-five kilograms were mixed in March; coat hooks and a door pull were cast; the chest was weighed and tested.",
)
