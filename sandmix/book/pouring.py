"""What a cast does to the heap: clay burnt, water driven off, and sand that does not come back; and whether its mould was opened too early."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from sandmix.asking.form import Filled
from sandmix.book import burnt_sand
from sandmix.book.heap import HeapState, Outcome, can_be_there
from sandmix.cooling.cast_heat import CastHeat, cast_heat
from sandmix.cooling.freezing import CONTACTS_W_M2K, MEASURED_CONTACT_W_M2K, PERFECT
from sandmix.entries.cast_entries import Poured
from sandmix.language.wording import to_figures
from sandmix.materials.delta import DRY, UNCERTAIN, Delta, added
from sandmix.materials.metals import METALS
from sandmix.materials.sand import Sand
from sandmix.materials.sands_and_clays import SANDS_FOR_HEAT
from sandmix.maths.statistics import TWO_SIGMA
from sandmix.maths.uncertainty import half_width
from sandmix.recipes import sand_loss

KNOWN_HEAT = 0.2
MOST_WATER = 0.25
"""Wetter sand, in kg of water for each kg of dry sand, counts as this."""


def poured(filled: Filled[Poured], state: HeapState) -> Outcome:
    """Return what a cast does: clay burnt and water driven off, between the measured and perfect contact; then what does not come back."""
    form = filled.form
    dry_kg = state.sand.dry_kg
    if dry_kg <= 0:
        return Outcome(how="computed", lines=("there is no sand in the book yet, so nothing changes",))
    can_be_there(form, "sand_lost_kg", state)
    is_given = form.clay_burnt_kg is not None and form.water_driven_kg is not None
    burnt_share, burnt_half, water_kg, water_half = (0.0,) * 4 if is_given else _by_heat(form, state)
    live, water = state.sand.live_clay_kg, state.sand.water_kg
    killed, killed_half = live * burnt_share, live * burnt_half
    driven, driven_half = min(water, water_kg), min(water, water_half)
    if form.clay_burnt_kg is not None:
        killed, killed_half = min(live, form.clay_burnt_kg), KNOWN_HEAT * min(live, form.clay_burnt_kg)
    if form.water_driven_kg is not None:
        driven, driven_half = min(water, form.water_driven_kg), KNOWN_HEAT * min(water, form.water_driven_kg)
    halves = {"live_clay_kg": killed_half, "dead_clay_kg": killed_half, "water_kg": driven_half}
    variances = {part: (half / TWO_SIGMA) ** 2 for part, half in halves.items()}
    heat = Outcome(
        delta=Delta(live_clay_kg=-killed, dead_clay_kg=killed, water_kg=-driven, variances=variances),
        burnt=burnt_sand.left_by(killed, variances["dead_clay_kg"], live, dry_kg),
    )
    lost = _lost(filled, state.after(heat))
    lines = (
        f"{1000 * killed:.0f} g of live clay burnt, {1000 * driven:.0f} g of water driven off ({'as given' if is_given else 'computed'})",
        *lost.lines,
        *_opened(form, state),
    )
    return heat.plus(replace(lost, lines=lines), f"computed, {lost.how}")


def _lost(filled: Filled[Poured], left: HeapState) -> Outcome:
    """The sand that does not come back from the mould: weighed, or a share of the sand in the mould."""
    form = filled.form
    half = half_width(filled.bands["flask_sand_kg"]) if "flask_sand_kg" in filled.bands else 0.0
    mould = sand_loss.sand_in_mould(form.metal_kg, left.sand.wet_kg, form.flask_sand_kg, half)
    loss = sand_loss.loss_a_cast(left.own_losses)
    lost_kg, half_kg = mould.lost_kg(loss)
    how, weighed_share = loss.how, None
    if form.sand_lost_kg is not None:
        lost_kg, half_kg, how = form.sand_lost_kg, half_width(filled.bands["sand_lost_kg"]), sand_loss.WEIGHED
        weighed_share = min(1.0, lost_kg / mould.kg) if mould.kg > 0 else None
    lost = left.leaving(left.share_of(lost_kg))
    one = left.share_of(half_kg) / TWO_SIGMA
    own = {DRY: (one * left.sand.dry_kg) ** 2, "water_kg": (one * left.sand.water_kg) ** 2}
    return replace(
        lost.with_variances(added(own, lost.delta.variances, UNCERTAIN)),
        how=how,
        lines=(f"{-lost.delta.wet_kg:.2f} kg of sand lost ({_of_mould(how, loss, mould)})",),
        mould_loss_share=weighed_share,
    )


def _of_mould(how: str, loss: sand_loss.Loss, mould: sand_loss.MouldSand) -> str:
    """Where a loss comes from, in words."""
    if how == sand_loss.WEIGHED:
        return "weighed"
    of = f"of the {mould.kg:.3g} kg of sand in the mould{', estimated from the metal' if mould.estimated else ''}"
    if how == sand_loss.LEARNED:
        return f"by your own weighed casts {100 * loss.share:.1f} % {of}"
    return f"not weighed: usually 1 to 3 % {of}"


def _heat(form: Poured, state: HeapState, contact_w_m2k: float) -> CastHeat:
    metal, sand = METALS[form.metal], state.sand
    pour_temp_c = metal.pour_temp_c if form.pour_temp_c is None else form.pour_temp_c
    return cast_heat(form.metal, pour_temp_c, _water_of(sand), form.modulus_mm, contact_w_m2k)


def _water_of(sand: Sand) -> float:
    """The water that the heat meets, in kg for each kg of dry sand."""
    return min(MOST_WATER, sand.water_kg / sand.dry_kg)


def _by_heat(form: Poured, state: HeapState) -> tuple[float, float, float, float]:
    """The share of the live clay burnt and the water driven off, each with its half-width: the middle and half the span of both contacts."""
    sand = state.sand
    volume_m3 = form.metal_kg / METALS[form.metal].solid_kg_m3
    in_flask = (
        sand.dry_kg
        if form.flask_sand_kg is None
        else min(sand.dry_kg, form.flask_sand_kg * (1 - sand.moisture_pct_wet / 100))
    )
    shell_kg = SANDS_FOR_HEAT["a"].density_kg_m3 * volume_m3 / form.modulus_mm
    burnt, driven = [], []
    for contact in (PERFECT, MEASURED_CONTACT_W_M2K):
        heat = _heat(form, state, contact)
        burnt += [min(shell_kg * depth_mm, in_flask) / sand.dry_kg for depth_mm in (heat.limit_mm, heat.rate_mm)]
        driven.append(_water_of(sand) * min(shell_kg * heat.dry_mm, in_flask))
    middle, half = (max(burnt) + min(burnt)) / 2, (max(burnt) - min(burnt)) / 2
    return middle, half, sum(driven) / 2, max(0.15 * max(driven), abs(driven[0] - driven[1]) / 2)


def _opened(form: Poured, state: HeapState) -> Iterable[str]:
    """Whether the casting was solid when its mould was opened: by the highest measured contact at the soonest, by the lowest at the latest."""
    if form.opened_after_min is None:
        return
    latest, soonest = (_heat(form, state, contact).freeze_s / 60 for contact in sorted(CONTACTS_W_M2K))
    opened = f"opened at {form.opened_after_min:.4g} min"
    froze = f"it froze after {to_figures(soonest, 2)} to {to_figures(latest, 2)} min (computed)"
    if form.opened_after_min < soonest:
        yield f"{opened}: it was still liquid inside; {froze}"
    elif form.opened_after_min < latest:
        yield f"{opened}: it may still have been liquid inside; {froze}"
    else:
        yield f"{opened}: the casting was solid by then; {froze}, but a thicker sprue or riser takes longer"
