"""The texts of *rebond*: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

import math
from collections.abc import Iterable

from sandmix.asking.cautions import DRYING, DUST, HOT_SAND, VENT_GAS, Caution
from sandmix.asking.job import Computed, Lead, Next, Telling, ToDo, WayOut
from sandmix.drawings import composition_bar
from sandmix.jobs.rebond import several_materials
from sandmix.jobs.rebond.figures import wetness
from sandmix.jobs.rebond.form import MOST_KG, RebondForm, plan_of
from sandmix.jobs.shared import sand_clocks, wet_sand
from sandmix.jobs.shared.bought import UNTESTED, is_untested
from sandmix.jobs.shared.doses import water_to_do
from sandmix.language.wording import raised
from sandmix.materials.sand import Sand
from sandmix.recipes import rebond, rebond_lp
from sandmix.recipes.too_wet import STOP, Wetness

NOTHING_TO_DO = "nothing to do"
LEAST_SHARE = 0.001
"""Less than this share of the heap moves its clay or moisture by 0.1 point, which no test sees: nothing is said to be done about it (own rule)."""


def counts(computed: Computed[RebondForm], word: str) -> bool:
    """Whether a mass is large enough to be taken out, dried off or put in; of a first dose, whether the whole is.

    Sand that only thins the clay moves it by its share of the clay, so it takes more of it to move the clay by as much.
    """
    whole, least = word.replace("first_", ""), LEAST_SHARE
    if word == "sand_kg" and computed.form.target_kg is None and not computed.is_above_zero("discard_kg"):
        least = 100 * LEAST_SHARE / max(computed.form.clay_pct_dry, 1.0)
    return computed.is_above_zero(word) and computed.number(whole) >= least * computed.form.heap_kg


def tell(computed: Computed[RebondForm]) -> Telling:
    """Say what to take out and what to add."""
    discards, added = counts(computed, "discard_kg"), ", ".join(_added(computed))
    parts = [f"discard {computed.text('discard_kg')}"] if discards else []
    parts += [f"add {added}"] if added else []
    if counts(computed, "water_to_lose_kg"):
        parts.append(f"dry off {computed.text('water_to_lose_kg')} of water")
    plan, wet = _plan_of(computed.form), wetness(computed.filled)
    word, tone = ("restore", "care" if discards else "go") if parts else (NOTHING_TO_DO, "go")
    clocks = tuple(sand_clocks.after_a_dose(water=counts(computed, "first_water_kg"), clay=counts(computed, "clay_kg")))
    summed_up = f"{raised('; '.join(parts))}." if parts else _nothing(computed)
    return Telling(
        headline=wet_sand.headline(wet, summed_up),
        state=wet_sand.state(wet, word, tone),
        lead=_lead(computed),
        todo=tuple(_to_do(computed, wet)),
        remarks=(*wet_sand.remarks(wet), *_remarks(computed, plan)),
        cautions=(*wet_sand.cautions(wet), *_cautions(computed)),
        working=tuple(_working(computed, plan)),
        drawings=_drawings(computed.form.heap, plan),
        timers=clocks,
        sources=(sand_clocks.SOURCE,) if clocks else (),
        next=_next(computed),
    )


def _nothing(computed: Computed[RebondForm]) -> str:
    too_little = any(
        computed.is_above_zero(word) for word in ("discard_kg", "clay_kg", "sand_kg", "water_kg", "water_to_lose_kg")
    )
    near = "so near its target that no test would see the rest" if too_little else "at its target"
    return f"Nothing to add: the heap is {near}."


def _to_do(computed: Computed[RebondForm], wet: Wetness) -> Iterable[ToDo]:
    """What to take out, what to dry off, and what to put in, the water last."""
    to_lose = computed.text("water_to_lose_kg") if counts(computed, "water_to_lose_kg") else ""
    discards = counts(computed, "discard_kg")
    dried = tuple(sand_clocks.dry_enough(computed))
    if wet.tone == STOP:
        yield from wet_sand.to_do(wet, "" if wet.target == STOP else to_lose, () if discards else dried)
        return
    if discards:
        yield ToDo(text="Take out of the heap", amount=computed.text("discard_kg"))
    if to_lose:
        yield ToDo(text="Dry the heap before you add anything: water to lose", amount=to_lose)
        yield from dried
    if computed.form.materials is not None:
        yield from several_materials.to_do(computed)
    elif counts(computed, "sand_kg"):
        yield ToDo(text="Sand, as bought", amount=computed.text("sand_kg"))
    if computed.form.materials is None and counts(computed, "clay_kg"):
        whole = f"the rest, {computed.text('clay_kg')} in all"
        yield ToDo(
            text=f"First clay, as bought: add it, mull and test. Then {whole}", amount=computed.text("first_clay_kg")
        )
    if counts(computed, "water_kg"):
        yield from water_to_do(computed)


def _added(computed: Computed[RebondForm]) -> list[str]:
    listed = [] if computed.form.materials is None else several_materials.added(computed)
    names = {"water_kg": "water"} if listed else {"sand_kg": "sand", "clay_kg": "clay", "water_kg": "water"}
    return listed + [f"{computed.text(word)} {name}" for word, name in names.items() if counts(computed, word)]


def _plan_of(form: RebondForm) -> rebond.RestoringPlan:
    plan = plan_of(form) if form.materials is None else several_materials.plan_of(form)
    assert isinstance(plan, rebond.RestoringPlan)
    return plan


def _lead(computed: Computed[RebondForm]) -> Lead:
    if counts(computed, "clay_kg"):
        return Lead(
            word="first_clay_kg",
            label="First clay",
            text=computed.text("first_clay_kg"),
            then=", ".join(filter(None, (f"{computed.text('clay_kg')} in all", computed.within("clay_kg")))),
        )
    sand = [("sand_kg", "Sand to add")] if computed.form.materials is None else []
    leads = [("discard_kg", "Discard"), ("water_to_lose_kg", "Dry off"), *sand, ("first_water_kg", "First water")]
    for word, label in leads:
        if counts(computed, word):
            return Lead(word=word, label=label, text=computed.text(word), then=computed.within(word))
    for word, label in (("sand_kg", "Sand"), ("mix_kg", "Fresh mix"), ("additive_kg", "Additive")):
        if computed.form.materials is not None and computed.number(word) > 0:
            return Lead(word=word, label=label, text=computed.text(word), then=computed.within(word))
    return Lead(word="clay_kg", label="Clay to add", text="none")


def _next(computed: Computed[RebondForm]) -> tuple[Next, ...]:
    test = Next(job="temper", label="Test and temper it", inputs=computed.carried(heap_kg="heap_after_kg"))
    if not (counts(computed, "sand_kg") or counts(computed, "clay_kg")):
        return (test,)
    needed = computed.carried(sand_kg="sand_kg", clay_kg="clay_kg")
    return (Next(job="shopping", label="How many bags is that?", inputs=needed), test)


_WHY = {
    rebond.MASS: (
        "With the additions the heap would be larger than you asked for, so {discard} must come out. No other limit forces this. "
        "Enter a larger mass to keep it all."
    ),
    rebond.LIVE_CLAY: (
        "The heap has more live clay than the target, so {discard} must come out. New sand in its place, or a larger mass, "
        "lowers it."
    ),
    rebond.DEAD_FINES: (
        "The limit of {limit} % for dead fines (of the dry mass) forces {discard} out: only new sand in place of old lowers them."
    ),
    **several_materials.WHY,
}


def _remarks(computed: Computed[RebondForm], plan: rebond.RestoringPlan) -> Iterable[str]:
    form = computed.form
    if counts(computed, "discard_kg"):
        scarce = plan.scarce if isinstance(plan, rebond_lp.LeastCostPlan) else ""
        why = _WHY[plan.binding].format(
            discard=computed.text("discard_kg"),
            scarce=scarce,
            limit=f"{form.dead_fines_limit_pct_dry:g}",
            bin=f"{form.bin_kg or 0:g}",
        )
        yield WayOut(why)
        yield from _without_a_discard(form, plan)
    elif form.target_kg is None and _added(computed):
        yield (
            f"The whole heap stays, and with what is added it becomes {computed.text('heap_after_kg')}. To make less, enter a target "
            "mass."
        )
    yield from (
        several_materials.not_counted(computed) if form.materials is None else several_materials.remarks(computed)
    )
    if form.dead_fines_pct_dry is None:
        yield "The dead fines are not given, so the plan sets no limit on them. A wash test minus the live clay gives them."
    if counts(computed, "clay_kg"):
        yield "The live clay now is the least certain figure here, so add the clay in two halves with a test between them."
    if counts(computed, "water_to_lose_kg"):
        yield WayOut(
            f"The heap has {computed.text('water_to_lose_kg')} too much water: dry it before you add anything. Wet sand need not "
            "be thrown away."
        )
        yield from sand_clocks.dry_to(computed)
    if form.materials is None and is_untested(computed.filled):
        yield f"{UNTESTED} Test between the steps."


def _without_a_discard(form: RebondForm, plan: rebond.RestoringPlan) -> Iterable[str]:
    """The target mass at which nothing comes out for dead fines, with one sand and one clay."""
    if form.materials is not None or form.target_kg is not None or plan.binding != rebond.DEAD_FINES:
        return
    mass = rebond.diluted_kg(form.heap, form.within(plan.after.wet_kg), form.as_bought(form.activity_pct))
    if mass is not None and mass <= (form.bin_kg or MOST_KG):
        yield WayOut(
            f"To keep the whole heap instead and dilute them, enter a target mass of {math.ceil(10 * mass) / 10:g} kg."
        )


def _cautions(computed: Computed[RebondForm]) -> Iterable[Caution]:
    if _added(computed):
        yield HOT_SAND
    yield DUST
    if computed.form.additive_pct_dry > 0:
        yield VENT_GAS
    if counts(computed, "water_to_lose_kg"):
        yield DRYING


def _working(computed: Computed[RebondForm], plan: rebond.RestoringPlan) -> Iterable[str]:
    form, after = computed.form, plan.after
    stays = 1 - plan.discard_kg / form.heap_kg
    yield f"target dry mass = {after.wet_kg:.6g} × (1 − {form.target_moisture_pct_wet:g} / 100) = {after.dry_kg:.3f} kg"
    yield f"share of the heap that stays = {stays:.4f}; limit that binds: {plan.binding.replace('_', ' ')}"
    if isinstance(plan, rebond_lp.LeastCostPlan):
        yield from several_materials.working(plan)
        return
    clay_kg = computed.number("clay_kg")
    kept_kg = after.live_clay_kg - clay_kg * (1 - form.clay_moisture_pct_wet / 100) * form.activity_pct / 100
    yield f"target live clay = {after.live_clay_kg:.3f} kg, of which the heap keeps {kept_kg:.3f} kg; clay as bought = {clay_kg:.3f} kg"
    water = f"; water to add = {computed.number('water_kg'):.3f} kg" if computed.has("water_kg") else ""
    yield f"sand as bought = {computed.number('sand_kg'):.3f} kg{water}"


def _drawings(heap: Sand, plan: rebond.RestoringPlan) -> dict[str, str]:
    full = max(heap.dry_kg, plan.after.dry_kg)
    bars = {"before": (heap, "The heap now"), "after": (plan.after, "The heap afterwards")}
    if plan.discard_kg > 0:
        bars["discarded"] = (plan.discarded, "What comes out")
    return {
        name: composition_bar.draw(sand, f"rebond-{name}", title, full_dry_kg=full)
        for name, (sand, title) in bars.items()
    }
