"""The figures of *heap*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.job import Figures
from sandmix.book import logged_readings
from sandmix.book.heap import age_days
from sandmix.jobs.heap.form import ResolvedHeap
from sandmix.maths.uncertainty import Band


def run(form: ResolvedHeap) -> Figures:
    """Return what the heap is."""
    state = form.book.state
    sand = state.sand
    return {
        "heap_kg": sand.wet_kg,
        "moisture_pct_wet": sand.moisture_pct_wet,
        "clay_pct_dry": sand.clay_pct_dry,
        "dead_clay_pct_dry": sand.dead_clay_pct_dry,
        "other_fines_pct_dry": sand.other_fines_pct_dry,
        "dead_fines_pct_dry": sand.dead_fines_pct_dry,
        "casts": state.casts,
        "last_test_age_days": age_days(state, form.now_s),
        **{word: value for word, (value, _) in logged_readings.figures(form.book.logged).items()},
    }


def known(form: ResolvedHeap) -> Mapping[str, Band]:
    """Return the bands that the book itself keeps."""
    own = {word: band for word, (_, band) in logged_readings.figures(form.book.logged).items()}
    return form.book.state.bands() | own
