"""The figures of *dry*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures, Needs
from sandmix.drying import drying_plan
from sandmix.drying.evaporation import Bed, DryingLaw
from sandmix.jobs.dry.form import ResolvedDry
from sandmix.jobs.shared.doses import dried
from sandmix.maths.uncertainty import Band
from sandmix.vocabulary.drying_words import LONGEST_MIN

TO_COME = (
    "drying_min", "left_min", "turns", "turn_every_min", "dry_out_kg", "burner_mj", "mixed_min", "dry_mix_in_time_kg",
    "dry_mix_to_dilute_kg",
)  # fmt: skip
"""The figures of drying that is still to come."""


def run(form: ResolvedDry) -> Figures:
    """Return the figures. Without the mass of the sand there are only times, and over a burner there are none."""
    lose_kg = form.lose_kg
    figures: Figures = {"moisture_pct_wet": form.moisture_pct_wet}
    if form.heap_kg is not None:
        figures["water_to_lose_kg"] = lose_kg
        figures["dry_mix_to_dilute_kg"] = drying_plan.dry_mix_for_kg(
            form.heap_kg, form.moisture, form.target, form.lost_so_far_kg or 0.0
        )
    if form.dries_in_air:
        return figures | in_air(form)
    if lose_kg is not None and form.moisture > 0:
        figures["dry_out_kg"] = drying_plan.part_to_dry_out_kg(lose_kg, form.moisture)
        figures["burner_mj"] = drying_plan.burner_mj(lose_kg, form.moisture)
    return figures


def in_air(form: ResolvedDry) -> Figures:
    """Return the layer, its area, how long it dries and when to turn it, and what a dry mix changes."""
    depth_m = form.depth_m
    if depth_m is None:
        return {}
    figures: Figures = {"layer_mm": 1000 * depth_m}
    if form.heap_kg is not None:
        figures["spread_m2"] = form.area_m2(depth_m)
    law, bed = form.law(depth_m), form.bed(depth_m)
    seconds = drying_plan.seconds_to_dry(law, bed, form.target, form.turns)
    if seconds is not None:
        figures["drying_min"] = seconds / 60
        figures["turns"] = form.turns
        if form.turns:
            figures["turn_every_min"] = seconds / 60 / (form.turns + 1)
    if form.prior_share < 1:
        figures["drying_rate"] = form.drying_rate
        if seconds is not None and form.dried_for_h is not None:
            figures["left_min"] = max(0.0, seconds / 60 - 60 * form.dried_for_h)
    return figures | _with_a_dry_mix(form, form.heap_kg, law, bed) if form.heap_kg is not None else figures


def _with_a_dry_mix(form: ResolvedDry, heap_kg: float, law: DryingLaw, bed: Bed) -> Figures:
    """Return the dry mix that makes it ready in time, and the time with the dry mix on hand."""
    figures: Figures = {}
    so_far_s = 3600 * (form.dried_for_h or 0.0) if form.prior_share < 1 else 0.0
    if form.ready_in_h is not None:
        lost = drying_plan.lost_by_then_kg_m2(law, bed, form.target, form.turns, so_far_s + 3600 * form.ready_in_h)
        figures["dry_mix_in_time_kg"] = drying_plan.dry_mix_for_kg(
            heap_kg, form.moisture, form.target, form.area_m2(bed.depth_m) * max(0.0, lost)
        )
    if form.dry_mix_on_hand_kg is not None:
        lose_kg = drying_plan.water_to_lose_kg(heap_kg, form.moisture, form.target, form.dry_mix_on_hand_kg)
        until = (heap_kg * form.moisture - lose_kg) / (heap_kg - lose_kg)
        mixed = drying_plan.seconds_to_dry(law, bed, min(form.moisture, until), form.turns)
        if mixed is not None:
            figures["mixed_min"] = max(0.0, mixed - so_far_s) / 60
    return figures


def finish(filled: Filled[ResolvedDry], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return the weights to stop at; leave everything out but the moisture where there is nothing to dry, or the target is too wet to pour on."""
    form = filled.form
    if not form.is_to_dry:
        return {word: None for word in figures if word != "moisture_pct_wet"}
    weight = dried(figures, form.heap_kg or 0.0) | _never(figures)
    if form.has_lost_enough:
        weight |= dict.fromkeys(TO_COME)
    if "dried_kg" in weight and form.container_kg is not None and isinstance(weight["dried_kg"], float):
        weight["full_container_kg"] = form.container_kg + weight["dried_kg"]
    return weight


def _never(figures: Figures) -> Figures:
    """The times to leave out, because they are longer than this library waits."""
    times = {word for word in ("drying_min", "mixed_min") if _is_too_long(figures.get(word))}
    turning = {"turns", "turn_every_min", "left_min"} if "drying_min" in times else set()
    return dict.fromkeys(times | turning)


def _is_too_long(minutes: object) -> bool:
    return isinstance(minutes, float) and minutes > LONGEST_MIN


def needs(form: ResolvedDry, figures: Figures) -> Needs:
    """Masses need the mass of the sand; so does the time where the sand is spread on an area."""
    masses = ("water_to_lose_kg", "dried_kg", "dry_mix_to_dilute_kg")
    if not form.is_to_dry:
        return {}
    in_all: dict[str, tuple[str, ...]] = dict.fromkeys(masses, ("heap_kg",))
    in_all["full_container_kg"] = ("heap_kg", "container_kg") if form.heap_kg is None else ("container_kg",)
    if form.drying_place == "burner":
        return in_all | dict.fromkeys(("dry_out_kg", "burner_mj"), ("heap_kg",))
    in_all["spread_m2"] = ("heap_kg",)
    return in_all | (dict.fromkeys(("layer_mm", "drying_min"), ("heap_kg",)) if form.layer_mm is None else {})
