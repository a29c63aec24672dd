"""How *mix* presents its answer: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from sandmix.asking.cautions import CEMENT, DRYING, DUST, Caution
from sandmix.asking.job import Computed, Lead, Next, Record, Telling, ToDo, WayOut
from sandmix.drawings import composition_bar
from sandmix.jobs.mix.figures import can_be_mixed, weigh, wetness
from sandmix.jobs.mix.form import MixForm
from sandmix.jobs.shared import sand_clocks, wet_sand
from sandmix.jobs.shared.bought import is_untested
from sandmix.jobs.shared.doses import water_to_do
from sandmix.language.wording import to_figures
from sandmix.materials.sands_and_clays import CLAYS
from sandmix.recipes import mix
from sandmix.recipes.too_wet import STOP, Wetness


def tell(computed: Computed[MixForm]) -> Telling:
    """Say what to weigh in."""
    over_wet, wet = computed.is_above_zero("water_to_lose_kg"), wetness(computed.form)
    clay = computed.text("clay_kg") if computed.number("clay_kg") else "no"
    clocks = tuple(
        sand_clocks.after_a_dose(water=computed.is_above_zero("first_water_kg"), batches=_has_batches(computed))
    )
    return Telling(
        headline=wet_sand.headline(
            wet,
            f"{computed.text('sand_kg')} sand and {clay} clay, as bought, make {computed.text('make_kg')} of moulding sand.",
        ),
        state=wet_sand.state(wet, *(("dry first", "care") if over_wet else ("mix", "go"))),
        lead=_lead(computed, over_wet),
        todo=tuple(_to_do(computed, wet)),
        remarks=(
            *wet_sand.remarks(wet),
            *_remarks(computed),
            *(_granules(computed) if is_untested(computed.filled) else ()),
        ),
        cautions=(*wet_sand.cautions(wet), *_cautions(over_wet)),
        working=tuple(_working(computed)),
        drawings=_bar(computed),
        timers=clocks,
        sources=(sand_clocks.SOURCE,) if clocks else (),
        next=tuple(_next(computed, wet)),
        records=() if wet.tone == STOP else (_record(computed),),
    )


def _record(computed: Computed[MixForm]) -> Record:
    """The new sand as it was weighed in. Between the first dose and all of the water may be in it, until a test says how much."""
    form = computed.form
    masses = [word for word in ("sand_kg", "clay_kg") if computed.is_above_zero(word)]
    words = computed.carried(**{word: word for word in masses})
    if computed.is_above_zero("water_kg"):
        water, first = computed.number("water_kg"), computed.number("first_water_kg")
        words["water_kg"] = f"{to_figures(water, 4)} ± {to_figures(water - first, 2)} kg"
    bought = {"sand_moisture_pct_wet": form.sand_moisture_pct_wet, "clay_moisture_pct_wet": form.clay_moisture_pct_wet}
    if form.clay_activity_pct is not None:
        bought["clay_activity_pct"] = form.clay_activity_pct
    given = {word: f"{share:g} %" for word, share in bought.items()}
    return Record(kind="mixed", label="Mixed: record the new sand", words=words | {"clay": form.clay} | given)


def _next(computed: Computed[MixForm], wet: Wetness) -> Iterable[Next]:
    """The bags, and the flask unless nobody can pour on this sand."""
    needed = computed.carried(sand_kg="sand_kg", clay_kg="clay_kg", make_kg="make_kg")
    yield Next(job="shopping", label="How many bags is that?", inputs=needed)
    if wet.tone != STOP:
        yield Next(job="flask", label="Is it enough for a flask?", inputs=computed.carried(heap_kg="make_kg"))


def _lead(computed: Computed[MixForm], over_wet: bool) -> Lead:
    if not computed.has("water_kg"):
        return Lead(
            word="moisture_pct_wet",
            label="Target moisture",
            text=computed.text("moisture_pct_wet"),
            then="too wet to pour on",
        )
    if over_wet:
        lose = computed.text("water_to_lose_kg")
        return Lead(word="water_to_lose_kg", label="Add no water. Dry off", text=lose, then="before the sand goes in")
    most = f"{computed.text('water_most_kg')} at most in all" if computed.number("water_kg") > 0 else ""
    return Lead(word="first_water_kg", label="First water", text=computed.text("first_water_kg"), then=most)


def _has_batches(computed: Computed[MixForm]) -> bool:
    return computed.has("batches") and computed.number("batches") > 1


def _to_do(computed: Computed[MixForm], wet: Wetness) -> Iterable[ToDo]:
    """What to weigh in, the water last; where the materials are too wet, or the target is, what to do before that."""
    to_lose = computed.text("water_to_lose_kg") if computed.is_above_zero("water_to_lose_kg") else ""
    if wet.target == STOP:
        yield from wet_sand.to_do(replace(wet, sand_pct_wet=None))
        return
    if to_lose:
        yield ToDo(text="Add no water. Dry the sand first: water to lose", amount=to_lose)
        yield from sand_clocks.dry_enough(computed)
        yield ToDo(text="Measure its moisture again, and enter it here")
        return
    yield ToDo(text="Sand, as bought", amount=computed.text("sand_kg"))
    if computed.is_above_zero("clay_kg"):
        yield ToDo(text="Clay, as bought: mix it into the sand dry", amount=computed.text("clay_kg"))
    if _has_batches(computed):
        clay = f", {computed.text('batch_clay_kg')} of clay" if computed.is_above_zero("batch_clay_kg") else ""
        yield ToDo(
            text=f"Batches: in each {computed.text('batch_sand_kg')} of sand{clay} and its share of the water",
            amount=computed.text("batches"),
        )
    yield from water_to_do(computed)
    if computed.is_above_zero("clay_step_kg"):
        yield ToDo(
            text=f"If it is still weak, add clay in steps, up to {computed.text('clay_most_kg')} in all",
            amount=computed.text("clay_step_kg"),
        )


def _remarks(computed: Computed[MixForm]) -> Iterable[str]:
    form = computed.form
    if computed.is_above_zero("water_to_lose_kg"):
        yield WayOut(
            "The materials bring more water than the mix needs. With none added it would weigh "
            f"{computed.number('standing_kg'):.2f} kg and hold {computed.number('standing_moisture_pct_wet'):.1f} % water (of the "
            "wet mass). Add none. Dry the sand to about 1 %, measure its moisture, and calculate again."
        )
        yield from sand_clocks.dry_to(computed, "Or dry the sand")
    elif computed.has("water_kg") and computed.number("first_water_kg") > computed.doubt["water_kg"][0]:
        yield (
            "The first dose may already be enough: the water that clay needs is only known as a range. Test before you add "
            "more."
            if form.moisture_pct_wet is None
            else "The first dose may already be enough: the water in the sand and the clay is not known well enough. Dry 500 g of "
            "the damp sand, weigh it on a 1 g scale, and enter its moisture."
        )
    if form.moisture_pct_wet is None:
        low, high = mix.WATER_PER_LIVE_CLAY
        yield (
            f"No moisture is given, so the water follows from the live clay: {low:g} to {high:g} kg in all per kg of live clay. "
            "The squeeze test or the tin test decides."
        )
    if form.sand_on_hand_kg is not None and form.clay_on_hand_kg is not None:
        _, scarce = mix.dry_from_stock(
            sand_on_hand_kg=form.sand_on_hand_kg,
            clay_on_hand_kg=form.clay_on_hand_kg,
            clay=form.clay_fraction,
            materials=form.as_bought(form.activity_pct),
        )
        yield WayOut(f"The {scarce} on hand runs out first and decides how much you can make.")
    if form.make_kg is not None and computed.number("make_kg") < form.make_kg * (1 - 1e-9):
        yield WayOut(f"What is on hand is enough for {computed.text('make_kg')} of the {form.make_kg:g} kg.")
    if _has_batches(computed):
        yield (
            "Mull each batch until no clay balls are left. If you riddle them out later, their clay is missing in the sand."
        )
    if "parts_sand" not in computed.filled.assumed:
        yield (
            "The parts are taken as loose dry sand and dry clay that is all live. With the sand and clay as bought here, "
            f"that is {computed.number('sand_l') / computed.number('clay_l'):.1f} : 1 in level buckets."
        )
    if computed.number("clay_pct_dry") == 0:
        yield WayOut("Without clay it is only damp sand, which does not bond.")


GRANULES_TEST = (
    "Test it: stir 2 g of the ground granules into 100 mL of water and wait overnight. Sodium bentonite swells to a gel of "
    "24 to 36 mL, calcium bentonite to about 8 mL."
)


def _granules(computed: Computed[MixForm]) -> Iterable[str]:
    form = computed.form
    low, high = CLAYS[form.clay].activity_band_pct
    if not can_be_mixed(form, low):
        yield (
            f"The label does not show how much of the granules is live: it may be {low:g} to {high:g} %. At {low:g} % not even the "
            "granules alone hold this much clay: choose less clay, or test the granules before you mix."
        )
        yield GRANULES_TEST
        return
    start, most = weigh(form, high), weigh(form, low)
    live = start.mix.live_clay_kg * low / high
    ratio = mix.WATER_PER_LIVE_CLAY
    fines = 100 * (1 - most.mix.grain_kg / most.mix.dry_kg)
    yield (
        f"The label does not show how much of the granules is live: it may be {low:g} to {high:g} %. Start with "
        f"{start.clay.wet_kg:.1f} kg, mull and test, and continue in steps of {computed.number('clay_step_kg'):.1f} kg up to "
        f"{most.clay.wet_kg:.1f} kg in all. At that point fines are {fines:.0f} % of the dry mass. If the sand is still weak, these "
        "granules are not suitable: stop."
    )
    yield (
        f"The first mix needs {ratio[0] * start.mix.live_clay_kg:.1f} to {ratio[1] * start.mix.live_clay_kg:.1f} kg of water "
        f"in all if {high:g} % is live, and {ratio[0] * live:.1f} to {ratio[1] * live:.1f} kg if {low:g} % is. The materials bring "
        f"{start.brought_kg:.2f} kg of it."
    )
    yield GRANULES_TEST


def _cautions(over_wet: bool) -> Iterable[Caution]:
    yield DUST
    yield CEMENT
    if over_wet:
        yield DRYING


def _working(computed: Computed[MixForm]) -> Iterable[str]:
    form, activity = computed.form, computed.form.activity_pct / 100
    dry = computed.number("make_kg") / (1 + computed.number("moisture_pct_dry") / 100)
    live = dry * form.clay_fraction
    yield f"dry mix = {computed.number('make_kg'):.3f} × (1 − {computed.number('moisture_pct_wet') / 100:.4f}) = {dry:.3f} kg"
    yield (
        f"live clay = {form.clay_fraction:.4f} × {dry:.3f} = {live:.3f} kg; dry clay product = {live:.3f} / "
        f"{activity:g} = {live / activity:.3f} kg"
    )
    yield (
        f"clay as bought = {live / activity:.3f} / (1 − {form.clay_moisture_pct_wet / 100:g}) = "
        f"{computed.number('clay_kg'):.3f} kg"
    )
    yield (
        f"sand as bought = ({dry:.3f} − {live / activity:.3f}) / (1 − {form.sand_moisture_pct_wet / 100:g}) = "
        f"{computed.number('sand_kg'):.3f} kg"
    )
    needed = computed.number("make_kg") - dry
    brought = computed.number("sand_kg") + computed.number("clay_kg") - dry
    to_add = f", to add {computed.number('water_kg'):.3f} kg" if computed.has("water_kg") else ""
    yield f"water needed {needed:.3f} kg, already in sand and clay {brought:.3f} kg{to_add}"
    parts = (
        f"{computed.number('parts_sand'):.1f} : 1 by volume, loose and dry" if computed.has("parts_sand") else "no clay"
    )
    yield (
        f"the recipe in four bases: live clay {computed.number('clay_pct_dry'):.2f} % of dry mix = {computed.number('clay_pct_sand'):.2f} "
        f"per 100 of dry sand = {computed.number('clay_pct_wet'):.2f} % of wet mix = {parts}"
    )


def _bar(computed: Computed[MixForm]) -> dict[str, str]:
    mixed = weigh(computed.form, computed.form.activity_pct).mix
    return {"mix": composition_bar.draw(mixed, "mix-mix", "The mix", full_dry_kg=mixed.dry_kg)}
