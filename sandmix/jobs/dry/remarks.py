"""The remarks of *dry*: an inexact test, air that does not dry the sand, how sure the time is, and a dry mix."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Computed, WayOut
from sandmix.drying.moist_air import dew_point_c
from sandmix.jobs.dry.form import ResolvedDry
from sandmix.jobs.dry.resolving import LAYER_MM, OUTDOORS
from sandmix.language.wording import raised
from sandmix.recipes.temper import GO_BAND
from sandmix.recipes.too_wet import STOP
from sandmix.vocabulary.drying_words import LONGEST_MIN

DEEP_MM = 80.0
ODD_RATE = (0.25, 4.0)
"""Outside this a rate from a weighing is more likely a slip (own choice: twice the range of the prior)."""
LONG_MIN = 14 * 24 * 60.0
"""Above this, two weeks, the answer says that this air hardly dries the sand (own choice)."""


def remarks(computed: Computed[ResolvedDry]) -> Iterable[str]:
    """Say what else a person should know."""
    form = computed.form
    if not computed.form.is_to_dry:
        if form.wetness().target != STOP:
            yield "Handfuls of one heap differ by more than this moisture is above the target, so drying would not improve it."
        return
    low, _ = computed.doubt.get("moisture_pct_wet", (form.moisture_pct_wet, 0.0))
    if low <= form.target_moisture_pct_wet + GO_BAND:
        yield WayOut(
            f"The test is not exact enough: the sand may already be dry enough, from {low:.1f} % on. Test it again before you spread it."
        )
    if form.has_lost_enough:
        yield "By its weight it is dry enough, if the moisture at the start was right. Only a new test shows that."
        if computed.has("drying_rate"):
            yield _on_the_rate(computed)
        return
    if form.dries_in_air:
        yield from _on_the_air(computed)
    else:
        yield "The heat is for the water and the sand alone. An open burner needs two to three times as much (from memory)."
    if computed.is_above_zero("dry_mix_to_dilute_kg"):
        further = " further" if form.lost_so_far_kg else ""
        yield (
            f"Instead of drying it{further}, you can mix in {computed.text('dry_mix_to_dilute_kg')} of bone-dry sand and clay in the "
            "heap's own proportion."
        )


def _on_the_air(computed: Computed[ResolvedDry]) -> Iterable[str]:
    form = computed.form
    if form.depth_m is None:
        return
    if stays_wet(computed):
        yield WayOut(_why_not(form))
    else:
        yield from _on_the_time(computed)
    yield from _on_the_mix(computed)


def stays_wet(computed: Computed[ResolvedDry]) -> bool:
    """Whether this air does not bring the spread sand to its target."""
    return computed.form.depth_m is not None and not computed.has("drying_min")


def _why_not(form: ResolvedDry) -> str:
    """Why this air does not bring the sand to its target, and what to do."""
    if form.air_temp_c < 0 and form.drying_place != "plate":
        return "Frozen sand hardly dries. Bring it indoors."
    if form.humidity_pct < 100 and form.law(form.depth_m or LAYER_MM / 1000).surface_kg_m2s > 0:
        return "It would take more than 90 days. Spread it in a thinner layer, or in warmer, drier or moving air."
    dew_c = dew_point_c(form.air.vapour_pa)
    below_c = form.air_temp_c if form.below_temp_c is None else form.below_temp_c
    if dew_c is not None and below_c < dew_c and form.humidity_pct < 100:
        return (
            f"The sand gets wetter: it is colder than {dew_c:.0f} °C, at which water condenses from this air (its dew point). Warm "
            "the sand or what it lies on, or let in drier air."
        )
    return "Air of 100 % humidity takes up no water. Wait for drier air, or dry it in a warm room or over a burner."


def _on_the_time(computed: Computed[ResolvedDry]) -> Iterable[str]:
    form = computed.form
    yield _on_the_rate(computed)
    if form.drying_place in OUTDOORS:
        yield "Count only hours of such air. Bring the sand in or cover it before rain, dew and night."
    if computed.doubt.get("drying_min", (0.0, 0.0))[1] >= LONGEST_MIN:
        yield WayOut(
            "The range reaches 90 days: in air so damp or a layer so deep the sand may hardly dry. Look for drier air."
        )
    elif computed.number("drying_min") > LONG_MIN:
        yield WayOut("This air hardly dries it. Spread it in a thinner layer, or in warmer, drier or moving air.")
    if computed.number("layer_mm") > DEEP_MM:
        yield WayOut(
            f"A layer of {computed.text('layer_mm')} dries slowly: half the depth takes about a quarter of the time. Use a larger area, "
            "or dry it in parts."
        )
    if form.spread_m2 is None and "layer_mm" in computed.filled.assumed:
        yield f"A layer of {LAYER_MM:g} mm is assumed. Enter the area that you have, or another layer."


def _on_the_rate(computed: Computed[ResolvedDry]) -> str:
    form = computed.form
    if computed.has("drying_rate"):
        if not ODD_RATE[0] <= form.drying_rate <= ODD_RATE[1]:
            return WayOut(
                f"Your sand would dry {computed.text('drying_rate')} times as fast as computed here, which is hardly possible. Check both "
                "weighings, the hours, the area and the air."
            )
        return (
            f"Your sand dries {computed.text('drying_rate')} times as fast as computed here ({computed.range('drying_rate')}); "
            f"{100 * form.prior_share:.0f} % of that is still the figure from before the weighing. Enter it the next time."
        )
    if form.lost_so_far_kg == 0:
        return "The scale shows no loss yet, so nothing is learned from it. Weigh it again later."
    if "drying_rate" in computed.filled.assumed:
        return (
            "The time is only known to a factor of 2 each way, so go by the weight. Weigh it on the way and enter the loss and the hours: "
            "the range gets much narrower."
        )
    return f"The time is for sand that dries {form.drying_rate:g} times as fast as computed here, as you entered. Go by the weight."


def _on_the_mix(computed: Computed[ResolvedDry]) -> Iterable[str]:
    form = computed.form
    if computed.has("dry_mix_in_time_kg") and form.ready_in_h is not None:
        mix, most = computed.number("dry_mix_in_time_kg"), computed.doubt["dry_mix_in_time_kg"][1]
        if mix == 0 and most == 0:
            yield f"It is ready in {form.ready_in_h:g} h without a dry mix, also at the slow end of the range."
        else:
            yield WayOut(
                f"To be ready in {form.ready_in_h:g} h, dry it for as long as you have and then mix in "
                f"{computed.text('dry_mix_in_time_kg')} of dry sand and clay ({computed.range('dry_mix_in_time_kg')}). Weigh the sand "
                "first: the weight shows how much it still needs."
            )
    if computed.has("mixed_min"):
        on_hand, band = f"your {form.dry_mix_on_hand_kg:g} kg of dry mix", computed.range("mixed_min")
        if band or computed.is_above_zero("mixed_min"):
            within = f" ({band})" if band else ""
            yield f"With {on_hand} it dries for about {computed.text('mixed_min')}{within}."
        else:
            yield WayOut(f"{raised(on_hand)} is enough to dilute it: mixed in, no time to dry is needed.")
