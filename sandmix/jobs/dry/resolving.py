"""What *dry* computes with: the usual figures of the place, the turns, and the rate learned from a weighing on the way."""

from __future__ import annotations

from sandmix.asking.form import Filled
from sandmix.drying import drying_plan
from sandmix.drying.evaporation import RATE_FACTOR
from sandmix.drying.own_rate import OwnRate, learned
from sandmix.jobs.dry.form import DryForm, ResolvedDry
from sandmix.maths.uncertainty import Band, Ends
from sandmix.recipes.too_wet import usual_target_pct_wet
from sandmix.vocabulary import quantity

LAYER_MM = 30.0
"""The layer where neither layer nor area is given (own choice)."""
PLATE_C = 60.0
PLATE_BAND_C = (45.0, 75.0)
OUTDOORS = ("shade", "sun")
WINDS_M_S: dict[str, tuple[float, Band]] = {"outdoors": (1.0, (0.3, 3.0)), "indoors": (0.0, (0.0, 0.3))}
"""The wind where none is given, and its likely range (own choice)."""
_IN_THE_RATE = ("air_temp_c", "humidity_pct", "wind_m_s", "below_temp_c", "layer_mm", "spread_m2")
LEAST_LOSS = 0.25
"""The low end of a loss is at least this share of it, so that a small loss on a coarse scale still has a time."""


def resolve(filled: Filled[DryForm]) -> Filled[ResolvedDry]:
    """Fill in the metal's target, the usual wind and temperature below for the place, a layer, the range of the drying rate, and the turns."""
    form = filled.form
    values: dict[str, object] = {}
    bands: dict[str, Band] = {}
    if form.target_moisture_pct_wet is None:
        values["target_moisture_pct_wet"] = usual_target_pct_wet(form.metal, form.sand_kind)
    if form.wind_m_s is None:
        wind, band = WINDS_M_S["outdoors" if form.drying_place in OUTDOORS else "indoors"]
        values["wind_m_s"], bands["wind_m_s"] = wind, band
    if form.below_temp_c is None and form.drying_place == "plate":
        values["below_temp_c"], bands["below_temp_c"] = PLATE_C, PLATE_BAND_C
    if form.spread_m2 is None and form.layer_mm is None:
        values["layer_mm"] = LAYER_MM
    if "drying_rate" in filled.assumed:
        values["drying_rate"], bands["drying_rate"] = form.drying_rate, (1 / RATE_FACTOR, RATE_FACTOR)
    resolved = filled.into(ResolvedDry, values, bands=bands)
    turned = _with_turns(resolved)
    learned_from = _with_own_rate(turned)
    return turned if learned_from is turned else _with_turns(learned_from)


def _with_turns(filled: Filled[ResolvedDry]) -> Filled[ResolvedDry]:
    """The same with how often the layer is turned; the range of the time is for so many turns."""
    form = filled.form
    depth_m = form.depth_m
    if depth_m is None or not form.dries_in_air:
        return filled
    waited = drying_plan.wait(form.law(depth_m), form.bed(depth_m), form.target)
    return filled.resolved({"turns": waited.turns if waited else 0})


def _with_own_rate(filled: Filled[ResolvedDry]) -> Filled[ResolvedDry]:
    """The same with the drying rate that the loss so far shows, together with the rate before it.

    What is uncertain of the air and the layer is then part of that rate, and does not count again.
    """
    found = _own_rate(filled.form, filled.bands.get("drying_rate"))
    if found is None:
        return filled
    values = {"drying_rate": found.rate, "prior_share": found.prior_share}
    return filled.resolved(values, bands={"drying_rate": found.band}, without=_IN_THE_RATE)


def _own_rate(form: ResolvedDry, before: Ends | None) -> OwnRate | None:
    depth_m, lost_kg = form.depth_m, form.lost_so_far_kg
    if not lost_kg or form.dried_for_h is None or depth_m is None or before is None:
        return None
    if not (form.dries_in_air and form.is_to_dry):
        return None
    error_kg = quantity("lost_so_far_kg").half_width(lost_kg, assumed=False)
    losses = (max(LEAST_LOSS * lost_kg, lost_kg - error_kg), lost_kg, lost_kg + error_kg)
    bed, law = form.bed(depth_m), form.law(depth_m).times(1 / form.drying_rate)
    stage = drying_plan.to_lose_kg_m2(bed, form.target) / (form.turns + 1)
    seconds = [drying_plan.seconds_to_lose(law, bed, kg / form.area_m2(depth_m), stage) for kg in losses]
    low_s, read_s, high_s = seconds
    if low_s is None or read_s is None:
        return None
    low, high = (float(end) for end in before)
    return learned(form.drying_rate, (low, high), (low_s, read_s, high_s or read_s), 3600 * form.dried_for_h)
