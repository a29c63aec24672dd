"""The texts of *carbon*: headline, what to do, remarks, cautions and working."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import CARBON_MONOXIDE, COAL_DUST, DUST, VENT_GAS, Caution
from sandmix.asking.job import Computed, Lead, Next, Telling, ToDo, WayOut
from sandmix.cooling.freezing import FINE
from sandmix.jobs.carbon.figures import heated_kg, level
from sandmix.jobs.carbon.form import ResolvedCarbon
from sandmix.language.wording import to_figures
from sandmix.materials.metals import METALS
from sandmix.recipes.carbon import ADDITIVES, BY_LOSS, BY_SEACOAL, BY_VOLATILES, CELLULOSE, IRON, SEACOAL, VOLATILES_C

_NAMES = {BY_SEACOAL: "as seacoal", BY_VOLATILES: "of volatiles", BY_LOSS: "of loss on ignition"}


def tell(computed: Computed[ResolvedCarbon]) -> Telling:
    """Say whether the sand needs carbon, and how much."""
    form = computed.form
    if not form.is_needed:
        return _none_needed(form)
    sources = ["carbon_levels", "carbon_metals", *ADDITIVES[form.carbon_additive].sources, "loss_in_use", "mocek_2014"]
    return Telling(
        headline=_headline(computed),
        state=("test it", "care")
        if _is_open(computed)
        else ("enough", "go")
        if not _adds(computed)
        else ("add", "plain"),
        lead=_lead(computed),
        todo=tuple(_to_do(computed)),
        remarks=tuple(_remarks(computed)),
        cautions=tuple(_cautions()),
        working=tuple(_working(computed)),
        next=(Next(job="temper", label="Test and temper the sand"), Next(job="burnout", label="After the pour")),
        sources=(*sources, "co_foundries") if computed.has("co_l") else tuple(sources),
    )


def _none_needed(form: ResolvedCarbon) -> Telling:
    metal = METALS[form.metal].label
    return Telling(
        headline=f"None needed: sand for {metal} works without carbon (from memory).",
        state=("none needed", "go"),
        lead=Lead(word="additive_to_add_kg", label="Carbon", text="none needed", then=f"for {metal}"),
        remarks=(
            "Carbon helps against iron and copper alloys that wet the sand. With aluminium it only adds gas, smoke and carbon monoxide.",
        ),
        next=(Next(job="temper", label="Test and temper the sand"),),
        sources=("carbon_metals",),
    )


def _adds(computed: Computed[ResolvedCarbon]) -> bool:
    return computed.is_above_zero("additive_per_sand")


def _is_open(computed: Computed[ResolvedCarbon]) -> bool:
    """Whether the range of what is there cannot decide between some and none."""
    band = computed.doubt.get("additive_per_sand")
    return bool(_adds(computed) and band and band[0] <= 0)


def _grams(computed: Computed[ResolvedCarbon]) -> str:
    return f"{computed.text('additive_per_sand')} g"


def _headline(computed: Computed[ResolvedCarbon]) -> str:
    form = computed.form
    target = f"{form.carbon_target_pct:g} % {_NAMES[form.carbon_gauge]}"
    if not _adds(computed):
        return f"No more is needed: the sand has {target} of the dry mass or more already."
    if _is_open(computed):
        return f"Test it again: within its range the sand may be at {target} of the dry mass already."
    name = ADDITIVES[form.carbon_additive].label
    whole = f", {computed.text('additive_to_add_kg')} for the heap" if computed.has("additive_to_add_kg") else ""
    return f"Add {_grams(computed)} of {name} per kilogram of dry sand{whole}, for {target} of the dry mass."


def _lead(computed: Computed[ResolvedCarbon]) -> Lead:
    if not _adds(computed):
        return Lead(word="additive_per_sand", label="Additive", text="none", then="the level is there")
    if computed.has("additive_to_add_kg"):
        word = "additive_to_add_kg"
        return Lead(word=word, label="Additive in all", text=computed.text(word), then=computed.within(word))
    return Lead(word="additive_per_sand", label="Additive", text=_grams(computed), then="per kilogram of dry sand")


def _to_do(computed: Computed[ResolvedCarbon]) -> Iterable[ToDo]:
    if _is_open(computed):
        yield ToDo(text="Test the sand once more by the same method before you add any")
        return
    if not _adds(computed):
        return
    if computed.has("first_additive_kg"):
        yield ToDo(
            text="First half of the additive: sprinkle it in low and damp", amount=computed.text("first_additive_kg")
        )
    yield ToDo(text="Mull it well and test it by the same method. Then add the rest")
    if computed.has("additive_burnt_kg"):
        yield ToDo(text="After each cast, add what it took", amount=computed.text("additive_burnt_kg"))


def _remarks(computed: Computed[ResolvedCarbon]) -> Iterable[str]:
    form, assumed = computed.form, computed.filled.assumed
    if "carbon_now_pct" in assumed and form.carbon_gauge == BY_SEACOAL:
        yield WayOut(
            "What is there now is taken as none. If the sand held carbon before, test its loss on ignition or its volatiles first."
        )
    if "carbon_target_pct" in assumed:
        where = (
            "iron: 1 to 3 %, or 2 to 3 % for light and 7 to 8 % for heavy work"
            if form.metal == IRON
            else "copper alloys, from memory"
        )
        yield f"The level is taken as {form.carbon_target_pct:g} % as seacoal ({where}). Go by the skin of your castings."
    if form.carbon_gauge == BY_LOSS:
        yield (
            f"Both figures must be loss on ignition at {form.carbon_test_c:g} °C, by one method. Clay gives off water there too, in both "
            "alike. Coke from old coal counts in it and no longer helps, so volatiles show more."
        )
    elif form.carbon_gauge == BY_VOLATILES:
        yield "Volatiles and loss on ignition differ: one sand had 3.06 % of volatiles and a loss of 3.7 %, another 1.4 % and 2.0 to 2.2 % (read)."
    if form.carbon_additive == CELLULOSE:
        yield "Cellulose gives gas but hardly any of the film of carbon that seacoal leaves (from memory). Damp, it can go mouldy."
    plain = form.carbon_gauge == BY_SEACOAL and form.carbon_additive == SEACOAL
    if "additive_volatiles_pct" in assumed and form.carbon_gauge != BY_LOSS and not plain:
        yield "Additives of one name differ much. Enter the volatiles from the data sheet of yours, at 482 °C if it gives them."
    yield from _on_the_loss(computed)
    if computed.has("co_l"):
        yield (
            f"One cast can give up to {computed.text('co_l')} of carbon monoxide from what it takes, as an upper limit. Evenly mixed, it needs "
            f"{computed.text('co_air_m3')} m³ of air to fall to 35 ppm, the limit for a working day. More forms from the metal itself."
        )


def _on_the_loss(computed: Computed[ResolvedCarbon]) -> Iterable[str]:
    form = computed.form
    if not computed.has("additive_burnt_kg"):
        return
    if form.metal != IRON or form.cast_metal_kg is None:
        yield (
            f"A cast is taken to use up the carbon of all sand that gets hotter than {VOLATILES_C:g} °C, at perfect contact: an upper limit for "
            f"that temperature. No figure for {METALS[form.metal].label} was found."
        )
        return
    hot = heated_kg(form, FINE)
    if hot is not None:
        yield (
            f"By the heat, {to_figures(hot, 2)} kg of sand gets hotter than {VOLATILES_C:g} °C; by the wear factor "
            f"{to_figures(form.carbon_wear * form.cast_metal_kg, 2)} kg loses its carbon."
        )


def _cautions() -> Iterable[Caution]:
    yield CARBON_MONOXIDE
    yield VENT_GAS
    yield COAL_DUST
    yield DUST


def _working(computed: Computed[ResolvedCarbon]) -> Iterable[str]:
    form, kind = computed.form, ADDITIVES[computed.form.carbon_additive]
    dry = max(0.0, form.carbon_target_pct - form.carbon_now_pct) / (100 * form.strong - form.carbon_target_pct)
    yield (
        f"dry additive = ({form.carbon_target_pct:g} − {form.carbon_now_pct:g}) / ({100 * form.strong:g} − {form.carbon_target_pct:g}) = "
        f"{1000 * dry:.4g} g per kg of dry sand"
    )
    if kind.moisture:
        yield f"as bought, with {100 * kind.moisture:g} % of water: / {1 - kind.moisture:g} = {computed.number('additive_per_sand'):.4g} g"
    if form.metal == IRON and form.cast_metal_kg is not None:
        yield (
            f"a cast takes {form.cast_metal_kg:g} kg × {form.carbon_wear:g} × {100 * level(form):.3g} % = "
            f"{form.cast_metal_kg * form.carbon_wear * level(form):.4g} kg, dry"
        )
    if computed.has("co_kg"):
        yield "carbon monoxide: 28.01/12.011 = 2.33 g, or 24.06/12.011 = 2.0 L, for each gram of carbon"
