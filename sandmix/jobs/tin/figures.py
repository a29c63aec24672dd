"""The figures of *tin*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures
from sandmix.bench import measurements, tin_dosing
from sandmix.jobs.shared.doses import dried, most_water, water_figures
from sandmix.jobs.shared.wet_sand import without_dose
from sandmix.jobs.tin.form import ResolvedTin
from sandmix.materials.metals import METALS
from sandmix.maths.statistics import is_above
from sandmix.maths.uncertainty import Band
from sandmix.recipes import temper
from sandmix.recipes.too_wet import STOP, Wetness
from sandmix.vocabulary import quantity

DISAGREE = 2.0
"""From so many times what their errors allow on, two readings can't both be right (own choice)."""
WATER = ("water_kg", "first_water_kg", "water_most_kg", "water_to_lose_kg", "dried_kg")


def run(form: ResolvedTin) -> Figures:
    """Return the figures. Without the heap's mass there are no kilograms of water, without own pairs no moisture."""
    step = tin_dosing.step_pct(form.compactability_now_pct, form.target_compactability_pct, form.compactability_slope)
    figures: Figures = {
        "compactability_now_pct": form.compactability_now_pct,
        "compactability_slope": form.compactability_slope,
        "moisture_step_pct_wet": step,
        "tin_pairs": len(form.line.points),
        "tin_steps": len(form.line.differences),
    }
    if not form.own_slope:
        figures |= {"prior_share_pct": 100 * form.line.prior_share, "pairs_to_go": tin_dosing.pairs_to_go(form.line)}
    if form.knows_moisture:
        figures["moisture_pct_wet"] = form.moisture_at(form.compactability_now_pct)
    if form.heap_kg is not None:
        target = target_moisture_pct(form) / 100
        figures |= water_figures(temper.water_to_add_kg(form.heap_kg, target - step / 100, target))
    if form.tin is not None:
        own = (form.tin.rammer_kg, form.tin.rammer_fall_mm, form.tin.tin_diameter_mm)
        figures["ram_energy_kj_m2"] = measurements.ram_energy_kj_m2(*own)
        figures["matching_fall_mm"] = measurements.matching_fall_mm(form.tin.rammer_kg, form.tin.tin_diameter_mm)
    return figures


def target_moisture_pct(form: ResolvedTin) -> float:
    """Return the moisture at the target, for the size of the whole: off the own line, else what is usual for the metal."""
    if form.knows_moisture:
        declared = quantity("target_moisture_pct_wet")
        return min(declared.high, max(declared.low, form.moisture_at(form.target_compactability_pct)))
    return METALS[form.metal].target_moisture_pct_wet


def known(form: ResolvedTin) -> Mapping[str, Band]:
    """Return the band of the moisture that is read off the line: its height and slope hang together."""
    return {"moisture_pct_wet": form.moisture_band} if form.moisture_band else {}


def wetness(form: ResolvedTin) -> Wetness:
    """Return how wet the sand and its target are: by the last moisture test where that alone says stop, else by the own line, else by the book.

    The line lifts no stop: very wet sand can read low, so where the book adds up to one, the book counts.
    """
    metal, state = METALS[form.metal], form.past.state if form.past else None
    in_book = state.sand.moisture_pct_wet if state and state.sand.wet_kg > 0 else None
    sand: float | None = None
    band: Band | None = None
    if form.knows_moisture and not is_above(in_book or 0.0, metal.red_moisture_pct_wet):
        sand, band = form.moisture_at(form.compactability_now_pct), form.moisture_band
    elif state is not None and in_book is not None:
        sand, band = in_book, state.bands().get("moisture_pct_wet")
    step = tin_dosing.step_pct(form.compactability_now_pct, form.target_compactability_pct, form.compactability_slope)
    target = None if sand is None else sand + max(0.0, step)
    test = state.moisture_test if state else None
    if test and test.says_stop(metal):
        sand, band = test.read_pct, test.band
    return Wetness(
        metal=metal,
        sand_pct_wet=sand,
        sand_band=band,
        target_pct_wet=target if step > 0 else None,
        sand_kind=form.sand_kind,
    )


def book_may_stop(form: ResolvedTin) -> bool:
    """Return whether the range of the book's moisture reaches above the stop limit, while the own line is what counts."""
    state, metal = form.past.state if form.past else None, METALS[form.metal]
    if state is None or state.sand.wet_kg <= 0 or not form.knows_moisture or wetness(form).tone == STOP:
        return False
    in_book = Wetness(metal=metal, sand_band=state.bands().get("moisture_pct_wet"), sand_kind=form.sand_kind)
    return in_book.may_be_above


def verdict(form: ResolvedTin, bands: Mapping[str, Band]) -> str:
    """Return what the tin says: *go* where the target is within the reading's ±, *temper* or *dry* where the range decides, else *test it*."""
    if form.apart > DISAGREE or form.is_aged:
        return "test it"
    off = form.target_compactability_pct - form.compactability_now_pct
    if abs(off) <= form.reading_half:
        return "go"
    if not tin_dosing.decides(*bands["moisture_step_pct_wet"]):
        return "test it"
    return "temper" if off > 0 else "dry"


def finish(filled: Filled[ResolvedTin], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return the most water and the weight to dry to, and no water at all where the range cannot decide or the sand is too wet."""
    form = filled.form
    wet, word = wetness(form), verdict(form, doubt)
    if word in ("go", "test it"):
        return dict.fromkeys(WATER)
    if word == "temper":
        too_wet = {"first_water_kg": None, "water_kg": None} if wet.sand == STOP else {}
        most = {} if too_wet else most_water(filled, figures, doubt)
        return {"water_to_lose_kg": None} | most | too_wet | without_dose(wet)
    return {"first_water_kg": None, "water_kg": None} | dried(figures, form.heap_kg or 0.0)
