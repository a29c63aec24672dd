"""The figures of *heap*."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from sandmix.asking.job import Figures
from sandmix.book import logged_readings
from sandmix.book.heap import HeapState, age_days
from sandmix.book.known_water import MoistureTest
from sandmix.jobs.heap.form import ResolvedHeap
from sandmix.lessons import learned
from sandmix.materials.metals import METALS, Metal
from sandmix.maths.uncertainty import Band
from sandmix.recipes import too_wet
from sandmix.recipes.too_wet import Wetness


def run(form: ResolvedHeap) -> Figures:
    """Return what the heap is."""
    state = form.book.state
    sand = state.sand
    return {
        "heap_kg": sand.wet_kg,
        "moisture_pct_wet": sand.moisture_pct_wet,
        "mould_moisture_pct_wet": wetness(form).sand_pct_wet,
        "clay_pct_dry": sand.clay_pct_dry,
        "dead_clay_pct_dry": sand.dead_clay_pct_dry,
        "other_fines_pct_dry": sand.other_fines_pct_dry,
        "dead_fines_pct_dry": sand.dead_fines_pct_dry,
        "casts": state.casts,
        "last_test_age_days": age_days(state, form.now_s),
        **{word: value for word, (value, _) in own_figures(form).items()},
    }


def known(form: ResolvedHeap) -> Mapping[str, Band]:
    """Return the bands that the book itself keeps."""
    own = {word: band for word, (_, band) in own_figures(form).items()}
    to_pour = wetness(form).sand_band
    return form.book.state.bands() | ({"mould_moisture_pct_wet": to_pour} if to_pour else {}) | own


def own_figures(form: ResolvedHeap) -> dict[str, tuple[float, Band]]:
    """Return the logged figures with their bands; the rammed density is the one that its readings have taught."""
    figures, logged = logged_readings.figures(form.book.logged), form.book.logged
    if logged.get(learned.DENSITY):
        density = learned.density(logged[learned.DENSITY])
        figures[learned.DENSITY] = density.now, density.band
    return figures


def metal_of(state: HeapState) -> Metal:
    """Return the metal that was poured last, or that was chosen since."""
    return METALS.get(str(state.metal), METALS["aluminium"])


def wetness(form: ResolvedHeap) -> Wetness:
    """Return how wet the heap is for its metal, by the last test where that alone says stop; an empty heap is not judged."""
    wet, test = _wetness_of_sum(form), stopped_by(form)
    return replace(wet, sand_pct_wet=test.read_pct, sand_band=test.band) if test else wet


def stopped_by(form: ResolvedHeap) -> MoistureTest | None:
    """Return the last moisture test, if the heap is too wet to pour on by that alone and not by its sum."""
    state, wet = form.book.state, _wetness_of_sum(form)
    if state.sand.wet_kg <= 0 or not wet.has_limits or wet.sand == too_wet.STOP:
        return None
    test = state.moisture_test
    return test if test and test.says_stop(metal_of(state)) else None


def _wetness_of_sum(form: ResolvedHeap) -> Wetness:
    state = form.book.state
    return Wetness(
        metal=metal_of(state),
        sand_pct_wet=state.sand.moisture_pct_wet if state.sand.wet_kg > 0 else None,
        sand_band=state.bands().get("moisture_pct_wet"),
        sand_kind=form.sand_kind,
    )
