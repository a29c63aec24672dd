"""The job *heap*: what a heap is by its book, how sure that is, and what it wants."""

from __future__ import annotations

from sandmix.asking.job import Job, needs_always
from sandmix.book.events import OWN, READ
from sandmix.jobs.heap.figures import known, run
from sandmix.jobs.heap.form import HeapForm, resolve
from sandmix.jobs.heap.telling import tell

JOB = Job(
    name="heap",
    short="The heap book",
    title="What is the heap now?",
    answered_with="mass, moisture, live and dead clay from the entries of its book, each with its ±",
    form=HeapForm,
    resolve=resolve,
    run=run,
    known=known,
    tell=tell,
    answers=(
        "heap_kg",
        "moisture_pct_wet",
        "clay_pct_dry",
        "dead_clay_pct_dry",
        "other_fines_pct_dry",
        "dead_fines_pct_dry",
        "casts",
        "last_test_age_days",
        *READ,
        *OWN,
    ),
    needs=needs_always(("last_test_age_days",), "now"),
    example={
        "book": """[
{"kind": "mixed", "at": "2026-05-02", "make_kg": "30 kg", "clay_pct_dry": "7 %", "moisture_pct_wet": "3.5 %"},
{"kind": "poured", "at": "2026-05-09", "metal": "aluminium", "metal_kg": "1.2 kg", "pattern": "pulley"},
{"kind": "poured", "at": "2026-05-16", "metal": "aluminium", "metal_kg": "1.2 kg", "pattern": "pulley"},
{"kind": "measured", "at": "2026-05-17", "heap_kg": "28.9 kg", "moisture_pct_wet": "2.6 %"},
{"kind": "tempered", "at": "2026-05-17", "water_kg": "250 g"}]""",
        "now": "2026-05-20T09:00Z",
    },
    story="Thirty kilograms were mixed in May, the pulley was cast twice, and the bin was weighed and tested on a Sunday.",
)
