"""How *pour* presents its answer: headline, checklist, remarks, cautions and working."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import (
    BURNS,
    FLUX_FUME,
    FURNACE,
    GLARE,
    HOLD_DOWN,
    LEAD,
    LIFT,
    MAGNESIUM,
    VENT_GAS,
    WET_CHARGE,
    ZINC_FUME,
    Caution,
)
from sandmix.asking.form import Filled
from sandmix.asking.job import Check, Computed, Lead, Next, Telling, ToDo, WayOut
from sandmix.jobs.pour import charge_remarks
from sandmix.jobs.pour.form import ResolvedPour
from sandmix.jobs.shared import wet_sand
from sandmix.jobs.shared.metal_remarks import borrowed_figures, liquid_density
from sandmix.language.wording import sides_typed, to_figures
from sandmix.materials.metals import ALUMINIUM, COPPER, METALS, ZINC_FUMING, thermal
from sandmix.maths.uncertainty import Band
from sandmix.mould import pour
from sandmix.recipes.too_wet import STOP, Wetness

_LIGHT = (*ALUMINIUM, "zinc_al12")
"""What is melted from light scrap, among which magnesium can be."""
_COOLER_C = 700.0


def _wetness(filled: Filled[ResolvedPour]) -> Wetness:
    """How wet the sand of the mould is for the metal, with the band of its test."""
    low, high = filled.bands.get("moisture_pct_wet", (None, None))
    band: Band | None = (low, high) if isinstance(low, float) and isinstance(high, float) else None
    form = filled.form
    return Wetness(
        metal=METALS[form.metal], sand_pct_wet=form.moisture_pct_wet, sand_band=band, sand_kind=form.sand_kind
    )


def _overflows(computed: Computed[ResolvedPour]) -> bool:
    return computed.has("crucible_fill_pct") and computed.number("crucible_fill_pct") > 100


def tell(computed: Computed[ResolvedPour]) -> Telling:
    """Say what to melt, what to put on the cope, and what must be true before pouring."""
    form = computed.form
    wet = _wetness(computed.filled)
    overflows = wet.sand != STOP and _overflows(computed)
    sentences = ["The charge is too large for the crucible."] if overflows else []
    if computed.has("charge_kg"):
        sentences.append(f"Melt {computed.text('charge_kg')}.")
    if computed.has("put_on_kg"):
        sentences.append(
            f"Put {computed.text('put_on_kg')} on the cope just before you pour, in addition to its own weight, or clamp it."
            if computed.number("put_on_kg") > 0
            else "The cope is heavy enough by itself; clamp it anyway."
        )
    elif computed.has("hold_down_kg"):
        sentences.append(f"The cope and its weights together must weigh {computed.text('hold_down_kg')}.")
    return Telling(
        headline=wet_sand.headline(wet, " ".join(sentences)),
        state=wet_sand.state(wet, "too much" if overflows else "check", "care"),
        lead=_lead(computed),
        todo=tuple(_to_do(computed, wet)),
        remarks=(*wet_sand.remarks(wet), *_remarks(computed)),
        cautions=(*wet_sand.cautions(wet), *_cautions(form)),
        working=tuple(_working(computed)),
        checklist=tuple(_checklist(computed, wet)),
        sources=(METALS[form.metal].source,),
        next=(_next(form, wet),),
    )


def _next(form: ResolvedPour, wet: Wetness) -> Next:
    """Opening the mould; where its sand is too wet, drying it instead."""
    if wet.tone != STOP:
        return Next(job="burnout", label="When can you open it?", inputs=_onward(form))
    wet_sand = {"moisture_pct_wet": f"{form.moisture_pct_wet:g} %", "metal": form.metal}
    return Next(job="temper", label="Dry the sand first", inputs=wet_sand)


def _onward(form: ResolvedPour) -> dict[str, str]:
    """What “After the pour” takes over."""
    inputs = {"metal": form.metal}
    if form.casting_volume_cm3 is not None:
        inputs["casting_volume_cm3"] = f"{form.casting_volume_cm3:g} cm³"
    if form.casting_area_cm2 is not None:
        inputs["casting_area_cm2"] = f"{form.casting_area_cm2:g} cm²"
    if form.box_mm is not None:
        inputs["box_mm"] = sides_typed(form.box_mm)
    if form.gating_section_mm is not None:
        inputs["gating_section_mm"] = f"{form.gating_section_mm:g} mm"
    return inputs


def _lead(computed: Computed[ResolvedPour]) -> Lead:
    labels = {"charge_kg": "Melt", "put_on_kg": "Put on the cope", "hold_down_kg": "Hold down with"}
    word = next(word for word in labels if computed.has(word))
    return Lead(word=word, label=labels[word], text=computed.text(word), then=computed.within(word))


def _to_do(computed: Computed[ResolvedPour], wet: Wetness) -> Iterable[ToDo]:
    """The vents, the charge and the weights, in the order of the work; on sand that is too wet only what to do instead."""
    if wet.sand == STOP:
        yield from wet_sand.to_do(wet)
        return
    if computed.is_above_zero("vents"):
        yield ToDo(text="Prick vents before you draw the pattern, about", amount=computed.text("vents"))
    if _overflows(computed):
        yield ToDo(text="Take a larger crucible, or pour less: this charge overflows")
    if computed.has("charge_kg"):
        yield ToDo(text="Melt, spare and loss included", amount=computed.text("charge_kg"))
        yield from charge_remarks.to_do(computed)
    if computed.is_above_zero("put_on_kg"):
        yield ToDo(text="Just before you pour, put weights on the cope, or clamp it", amount=computed.text("put_on_kg"))
    elif computed.has("put_on_kg"):
        yield ToDo(text="Clamp the cope: it is heavy enough, but clamp it anyway")
    elif computed.has("hold_down_kg"):
        yield ToDo(text="Hold down with the cope and weights together", amount=computed.text("hold_down_kg"))
    yield ToDo(text="Tick the list before you pour")


def _checklist(computed: Computed[ResolvedPour], wet: Wetness) -> Iterable[Check]:
    """What must be done or true before pouring, hard stops first."""
    form, red = computed.form, METALS[computed.form.metal].red_moisture_pct_wet
    if not wet.has_limits:
        yield Check(
            tone="stop",
            text=(
                "The sand's own tests are done, because no limit is known for it: a handful holds and is not sticky, the vents are "
                "open, and a small open mould was poured."
            ),
        )
    elif form.moisture_pct_wet is None:
        yield Check(tone="stop", text=f"The sand's moisture is tested and below {red:g} % of the wet mass.")
    elif wet.sand == STOP:
        yield Check(
            tone="stop",
            text=f"The sand is dried: its moisture of {form.moisture_pct_wet:g} % is above the limit of {red:g} % of the wet mass.",
        )
    elif wet.may_be_above:
        yield Check(
            tone="care",
            text=f"The sand is tested again: {wet_sand.measured(wet)} against the limit of {red:g} % of the wet mass.",
        )
    else:
        yield Check(
            tone=wet.sand,
            text=f"The sand's moisture of {to_figures(form.moisture_pct_wet, 2)} % is not above the limit of {red:g} % of the wet mass.",
        )
    stops = [
        "Scrap, crucible, tools and ingot mould are dry and warm. No closed can or tube is in the charge.",
        "A bed of dry sand lies under the mould and along your way. There is no bare or damp concrete.",
        f"{computed.text('put_on_kg')} of weights lie on the cope, in addition to its own weight, or it is clamped."
        if computed.is_above_zero("put_on_kg")
        else "The cope is weighted or clamped.",
        "Face shield, leather and boots are on. Nobody stands level with the joint between the two halves.",
    ]
    if _overflows(computed):
        stops.append("The charge is split or the crucible is larger: this one would overflow.")
    yield from (Check(tone="stop", text=text) for text in stops)
    yield from (
        Check(tone="care", text=text)
        for text in (
            "The way is clear. Somebody knows that you pour and can hear you.",
            "Vents are open. Loose sand was brushed or tipped out of sprue and pouring cup before closing, never blown out.",
            f"The metal is at {form.pour_temp_c:g} °C and skimmed, and is not kept that hot for long.",
            charge_remarks.ingot_mould(computed),
        )
    )


def _remarks(computed: Computed[ResolvedPour]) -> Iterable[str]:
    form = computed.form
    yield from charge_remarks.remarks(computed)
    if computed.has("crucible_fill_pct"):
        yield from _on_the_crucible(computed.number("crucible_fill_pct"), computed.text("crucible_fill_pct"))
    if computed.has("weights_kg"):
        low_kg, high_kg = computed.doubt["weights_kg"]
        if low_kg <= 0 < high_kg:
            yield WayOut("The figures cannot tell whether weights are needed. Put some on.")
    if computed.has("vents"):
        yield (
            f"Vents (common practice, no source): prick about {computed.number('vents'):.0f} holes with a 2 to 3 mm wire, "
            f"{pour.VENT_SPACING_MM:g} mm apart, down to {pour.VENT_ABOVE_PATTERN_MM:g} mm above the pattern, before you "
            "draw the pattern."
        )
    if computed.has("hydrogen_cm3_100g"):
        yield from _on_hydrogen(computed.number("hydrogen_cm3_100g"), form.pour_temp_c)
    yield from borrowed_figures(form.metal, ("liquid density",))
    if any(computed.has(word) for word in ("crucible_fill_pct", "uplift_kg", "choke_mm2")):
        yield liquid_density(form.metal)
    if form.core_volume_cm3 and form.core_volume_cm3 * 1e-6 * (form.liquid_kg_m3 - pour.CORE_KG_M3) > 0.1:
        yield (
            f"The core floats; its density is taken as {pour.CORE_KG_M3:g} kg/m³. Its prints and chaplets must hold it "
            "down."
        )


def _on_the_crucible(fill_pct: float, shown: str) -> Iterable[str]:
    low, high = pour.CRUCIBLE_FULL_PCT
    if fill_pct > 100:
        yield WayOut(f"The charge would fill the crucible to {shown}: it overflows. Take a larger one, or pour less.")
    elif fill_pct > high:
        yield WayOut(
            f"The crucible would be {shown} full. Above {high:g} % (common practice) it cannot be carried and skimmed "
            "without spilling."
        )
    elif fill_pct < low / 3:
        yield f"The crucible would be only {shown} full: a small melt cools on the way."


def _on_hydrogen(hydrogen: float, pour_temp_c: float) -> Iterable[str]:
    more = 100 * (hydrogen / pour.hydrogen_cm3_100g(_COOLER_C) - 1)
    compared = f", {more:.0f} % more than at {_COOLER_C:g} °C" if more > 1 else ""
    yield (
        f"At {pour_temp_c:g} °C the melt can hold {hydrogen:.2f} cm³ of hydrogen per 100 g{compared}. The solid holds about "
        f"1/{pour.SOLID_HOLDS:g} of what the melt holds at its freezing point. Damp scrap, hot metal and every remelting bring pores."
    )


def _cautions(form: ResolvedPour) -> Iterable[Caution]:
    """What can hurt someone, in the order of the work: the charge, the melt, the pour, the load."""
    yield WET_CHARGE
    if form.metal in _LIGHT:
        yield MAGNESIUM
    if form.metal in COPPER:
        yield LEAD
    if form.metal in ZINC_FUMING:
        yield ZINC_FUME
    yield FURNACE
    yield FLUX_FUME
    if form.metal in (*COPPER, "grey_iron"):
        yield GLARE
    yield HOLD_DOWN
    yield BURNS
    yield VENT_GAS
    yield LIFT


def _working(computed: Computed[ResolvedPour]) -> Iterable[str]:
    form, metal = computed.form, thermal(computed.form.metal)
    if computed.has("charge_kg"):
        yield (
            f"charge = {form.casting_volume_cm3:g} cm³ × (1 + {form.gating_pct:g}/100) × {metal.solid_kg_m3 / 1000:g} "
            f"g/cm³ / (1 − {100 * form.loss:.4g}/100) × (1 + {form.spare_pct:g}/100) = {computed.number('charge_kg'):.3f} kg"
        )
    if computed.has("crucible_fill_pct"):
        yield (
            f"crucible = {computed.number('charge_kg'):.3f} kg / ({form.liquid_kg_m3 / 1000:g} kg/L × "
            f"{form.crucible_l:g} L) = {computed.number('crucible_fill_pct'):.0f} %"
        )
    if computed.has("uplift_kg"):
        core = " and the floating core" if form.core_volume_cm3 else ""
        yield (
            f"uplift = {form.projected_area_cm2:g} cm² × {form.head_mm:g} mm × {form.liquid_kg_m3:g} kg/m³{core} = "
            f"{computed.number('uplift_kg'):.2f} kg; × {form.uplift_factor:g} = {computed.number('hold_down_kg'):.2f} kg"
        )
    if computed.has("weights_kg"):
        yield (
            f"weights = {computed.number('hold_down_kg'):.2f} − {form.cope_kg:g} kg of cope = "
            f"{computed.number('weights_kg'):.2f} kg; at most {computed.doubt['weights_kg'][1]:.2f} kg"
        )
    if computed.has("choke_mm2"):
        yield (
            f"choke = m / (ρ t c √(2 g h)), c = {pour.DISCHARGE:g} (from memory) = {computed.number('choke_mm2'):.0f} mm², "
            "for a mould that is filled from the top"
        )
