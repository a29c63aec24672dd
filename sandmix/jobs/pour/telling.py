"""What *pour* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import BURNS, FURNACE, HOLD_DOWN, LIFT, WET_CHARGE, WET_MOULD, ZINC_FUME, Caution
from sandmix.asking.job import Check, Computed, Lead, Next, Telling
from sandmix.jobs.pour.form import PourForm
from sandmix.materials.metals import METALS, thermal
from sandmix.mould import pour

_ZINC = ("yellow_brass", "silicon_brass", "zinc_al12")
_COOLER_C = 700.0


def _is_too_wet(form: PourForm) -> bool:
    return form.moisture_pct_wet is not None and form.moisture_pct_wet > METALS[form.metal].red_moisture_pct_wet


def _overflows(computed: Computed[PourForm]) -> bool:
    return computed.has("crucible_fill_pct") and computed.number("crucible_fill_pct") > 100


def tell(computed: Computed[PourForm]) -> Telling:
    """Say what to melt, what to put on the cope, and what must be true before pouring."""
    form = computed.form
    said = []
    if computed.has("charge_kg"):
        said.append(f"Melt {computed.text('charge_kg')}.")
    if computed.has("weights_kg"):
        said.append(
            f"Put {computed.text('weights_kg')} on the cope, just before pouring."
            if computed.number("weights_kg") > 0
            else "The cope is heavy enough by itself; clamp it all the same."
        )
    elif computed.has("hold_down_kg"):
        said.append(f"The cope and its weights must come to {computed.text('hold_down_kg')}.")
    state = ("check", "care")
    if _is_too_wet(form):
        state = ("stop", "stop")
        said.insert(0, "Stop: the sand is far too wet to pour on.")
    elif _overflows(computed):
        said.append("The charge does not go into the crucible.")
    return Telling(
        headline=" ".join(said),
        state=state,
        lead=_lead(computed),
        remarks=tuple(_remarks(computed)),
        cautions=tuple(_cautions(form)),
        working=tuple(_working(computed)),
        checklist=tuple(_checklist(computed)),
        next=(Next(job="burnout", label="When may it be opened?", inputs=_handed_on(form)),),
    )


def _handed_on(form: PourForm) -> dict[str, str]:
    volume = {} if form.casting_volume_cm3 is None else {"casting_volume_cm3": f"{form.casting_volume_cm3:g} cm3"}
    return {"metal": form.metal} | volume


def _lead(computed: Computed[PourForm]) -> Lead:
    if computed.has("charge_kg"):
        then = computed.within("charge_kg")
        return Lead(word="charge_kg", label="Melt", text=computed.text("charge_kg"), then=then)
    word = "weights_kg" if computed.has("weights_kg") else "hold_down_kg"
    label = "Put on" if word == "weights_kg" else "Hold down with"
    return Lead(word=word, label=label, text=computed.text(word), then=computed.within(word))


def _checklist(computed: Computed[PourForm]) -> Iterable[Check]:
    """Go or no-go, hard stops first."""
    form, metal = computed.form, METALS[computed.form.metal]
    red = metal.red_moisture_pct_wet
    if form.moisture_pct_wet is None:
        yield Check(tone="stop", text=f"The sand's moisture is tested, and below {red:g} %.")
    elif _is_too_wet(form):
        yield Check(
            tone="stop", text=f"The sand is dried: {form.moisture_pct_wet:g} % is above the limit of {red:g} %."
        )
    else:
        yield Check(
            tone="go", text=f"The sand's moisture is {form.moisture_pct_wet:g} %, below the limit of {red:g} %."
        )
    yield Check(
        tone="stop",
        text="Scrap, crucible, tools and ingot mould are dry and warmed; no closed can or tube is in the charge.",
    )
    yield Check(tone="stop", text="A bed of dry sand lies under the mould and along the way: no bare or damp concrete.")
    if computed.is_above_zero("weights_kg"):
        yield Check(tone="stop", text=f"{computed.text('weights_kg')} of weights lie on the cope, or it is clamped.")
    else:
        yield Check(tone="stop", text="The cope is weighted or clamped.")
    yield Check(tone="stop", text="Face shield, leather and boots are on; nobody stands in line with the parting.")
    if _overflows(computed):
        yield Check(tone="stop", text="The charge is split, or the crucible larger: this one would overflow.")
    yield Check(tone="care", text="The way is clear, and somebody knows that you pour and is within call.")
    yield Check(tone="care", text="Vents are open, sprue and cup are blown clean of loose sand before closing.")
    yield Check(tone="care", text=f"The metal is at {form.pour_temp_c:g} °C, skimmed, and not held there for long.")
    yield Check(tone="care", text="A warm, dry ingot mould stands ready for what is left over.")


def _remarks(computed: Computed[PourForm]) -> Iterable[str]:
    form, metal = computed.form, thermal(computed.form.metal)
    if computed.has("crucible_fill_pct"):
        low, high = pour.CRUCIBLE_FULL_PCT
        fill = computed.number("crucible_fill_pct")
        if fill > 100:
            yield (
                f"The charge would fill the crucible to {computed.text('crucible_fill_pct')}: it overflows. Take a larger one, or pour less."
            )
        elif fill > high:
            yield (
                f"The crucible would be {computed.text('crucible_fill_pct')} full: above {high:g} % it can't be carried and skimmed "
                "without spilling."
            )
        elif fill < low / 3:
            yield f"The crucible would be only {computed.text('crucible_fill_pct')} full: a small melt cools on the way."
    if computed.has("weights_kg"):
        low_kg, high_kg = computed.doubt["weights_kg"]
        if low_kg <= 0 < high_kg:
            yield "Whether weights are needed at all is within the doubt: put some on."
    if computed.has("vents"):
        yield (
            f"Vents (common practice, no source): about {computed.number('vents'):.0f} holes with a 2 to 3 mm wire, "
            f"{pour.VENT_SPACING_MM:g} mm apart, down to {pour.VENT_ABOVE_PATTERN_MM:g} mm above the pattern, "
            "before it is drawn."
        )
    if computed.has("hydrogen_cm3_100g"):
        assert form.pour_temp_c is not None
        cooler = pour.hydrogen_cm3_100g(_COOLER_C)
        more = 100 * (computed.number("hydrogen_cm3_100g") / cooler - 1)
        compared = f", {more:.0f} % more than at {_COOLER_C:g} °C" if more > 1 else ""
        yield (
            f"At {form.pour_temp_c:g} °C the melt can hold {computed.number('hydrogen_cm3_100g'):.2f} cm³ of hydrogen "
            "per 100 g"
            f"{compared}; solid it holds about a {pour.SOLID_HOLDS:.0f}th of what it does at its freezing point. "
            "Damp scrap, hot "
            "metal and every remelting bring pores."
        )
    yield from lent(form.metal, ("liquid density",))
    if form.core_volume_cm3 and form.core_volume_cm3 * 1e-6 * (metal.liquid_kg_m3 - pour.CORE_KG_M3) > 0.1:
        yield (
            f"The core floats: a density of {pour.CORE_KG_M3:g} kg/m³ is assumed for it. Its prints and chaplets "
            "must hold it down."
        )


def lent(metal: str, figures: tuple[str, ...] = ()) -> Iterable[str]:
    """Yield what is not known of *metal* and who lent it, and what is from memory; of the named *figures* only, where any are named."""
    lenders: dict[str, list[str]] = {}
    for figure, lender in thermal(metal).borrowed:
        if not figures or figure in figures:
            lenders.setdefault(lender, []).append(figure)
    for lender, names in lenders.items():
        yield f"Not known for {METALS[metal].label}, and taken from {METALS[lender].label}: {', '.join(names)}."
    remembered = METALS[metal].from_memory
    if remembered and not figures:
        yield f"From memory, with no source: of the heat figures of {METALS[metal].label} {', '.join(remembered)}."


def _cautions(form: PourForm) -> Iterable[Caution]:
    metal = METALS[form.metal]
    if form.moisture_pct_wet is not None and form.moisture_pct_wet > metal.amber_moisture_pct_wet:
        yield WET_MOULD
    yield WET_CHARGE
    yield HOLD_DOWN
    yield BURNS
    yield FURNACE
    if form.metal in _ZINC:
        yield ZINC_FUME
    yield LIFT


def _working(computed: Computed[PourForm]) -> Iterable[str]:
    form, metal = computed.form, thermal(computed.form.metal)
    if computed.has("charge_kg"):
        yield (
            f"charge = {form.casting_volume_cm3:g} cm³ × (1 + {form.gating_pct:g}/100) × {metal.solid_kg_m3 / 1000:g} "
            "g/cm³ / "
            f"(1 − {form.melt_loss_pct:g}/100) × (1 + {form.spare_pct:g}/100) = {computed.number('charge_kg'):.3f} kg"
        )
    if computed.has("crucible_fill_pct"):
        yield (
            f"crucible = {computed.number('charge_kg'):.3f} kg / ({metal.liquid_kg_m3 / 1000:g} kg/L × "
            f"{form.crucible_l:g} L) = "
            f"{computed.number('crucible_fill_pct'):.0f} %"
        )
    if computed.has("uplift_kg"):
        core = " and the floating core" if form.core_volume_cm3 else ""
        yield (
            f"uplift = {form.projected_area_cm2:g} cm² × {form.head_mm:g} mm × {metal.liquid_kg_m3:g} kg/m³{core} = "
            f"{computed.number('uplift_kg'):.2f} kg; × {form.uplift_factor:g} = {computed.number('hold_down_kg'):.2f} kg"
        )
    if computed.has("weights_kg"):
        yield (
            f"weights = {computed.number('hold_down_kg'):.2f} − {form.cope_kg:g} kg of cope = "
            f"{computed.number('weights_kg'):.2f} kg"
        )
    if computed.has("choke_mm2"):
        yield (
            f"choke = m / (ρ t c √(2 g h)), c = {pour.DISCHARGE:g} (from memory) = {computed.number('choke_mm2'):.0f} "
            "mm²; it holds "
            "for a mould filled from the top"
        )
