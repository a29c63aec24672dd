"""What *rebond* figures and says where a list of materials is on hand."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Computed, Figures
from sandmix.jobs.rebond.form import LIST_ONLY, ONE_OF_EACH, RebondForm, choice_of
from sandmix.jobs.rebond.on_hand import MOISTURE_PCT
from sandmix.jobs.shared.doses import FIRST_CLAY, water_figures
from sandmix.language.wording import list_of
from sandmix.language.words import Quantity
from sandmix.recipes import rebond, rebond_lp
from sandmix.vocabulary import WORDS

_SAND = WORDS["sand_kg"]
assert isinstance(_SAND, Quantity)
SHOWN_KG: Quantity = _SAND


def figures(form: RebondForm) -> Figures:
    """Return the figures of the least-cost plan and of the two other ways out; none where moved words leave no plan."""
    choice = choice_of(form)
    plan = choice.plan()
    if isinstance(plan, rebond_lp.Infeasible):
        return {}
    by_kind = dict.fromkeys(MOISTURE_PCT, 0.0)
    for kg, each in zip(plan.used_kg, choice.materials, strict=True):
        by_kind[each.kind] += kg
    dilute, dump = choice.dilute(), choice.dump()
    return {
        "discard_kg": plan.discard_kg,
        **{f"{kind}_kg": kg for kind, kg in by_kind.items()},
        "first_clay_kg": FIRST_CLAY * by_kind["clay"],
        **water_figures(plan.water_balance_kg),
        "cost": plan.cost,
        "dead_fines_after_pct_dry": None if form.dead_fines_pct_dry is None else plan.after.dead_fines_pct_dry,
        "gfn_after": plan.gfn,
        "binding": plan.binding,
        "plan": [
            {"name": each.name, "kind": each.kind, "kg": kg}
            for kg, each in zip(plan.used_kg, choice.materials, strict=True)
            if kg > 0
        ],
        "dilute_kg": dilute.becomes_kg if dilute else None,
        "dilute_added_kg": dilute.added_kg if dilute else None,
        "dilute_cost": dilute.cost if dilute else None,
        "dump_added_kg": dump.added_kg if dump else None,
        "dump_cost": dump.cost if dump else None,
    }


def plan_of(form: RebondForm) -> rebond_lp.LeastCostPlan:
    """Return the plan, of a form that has one."""
    plan = choice_of(form).plan()
    assert isinstance(plan, rebond_lp.LeastCostPlan)
    return plan


def added(computed: Computed[RebondForm]) -> list[str]:
    """Return what goes in, material by material, with no more digits than the band of its kind allows."""
    choice, used_kg = choice_of(computed.form), plan_of(computed.form).used_kg
    return [
        f"{_shown(kg, computed.half_width(f'{each.kind}_kg'))} {each.name}"
        for kg, each in zip(used_kg, choice.materials, strict=True)
        if kg > 0
    ]


def _shown(kg: float, half_width: float) -> str:
    """A mass to its doubt, but never rounded away."""
    text = SHOWN_KG.show_to(kg, half_width)
    return SHOWN_KG.show_to(kg, None) if text.startswith("0 ") else text


WHY = {
    rebond_lp.FINE: "The heap is finer than the window allows: that is what forces {discard} out.",
    rebond_lp.COARSE: "The heap is coarser than the window allows: that is what forces {discard} out.",
    rebond_lp.STOCK: "There is not enough of {scarce}: that is what forces {discard} out. With more of it more could stay.",
    rebond_lp.BIN: "The bin holds no more: that is what forces {discard} out.",
    rebond_lp.COST: "To keep more of the heap would cost more than new material: that, and no limit, puts {discard} out.",
}
WORTH = {
    rebond.DEAD_FINES: "one point more of dead fines",
    rebond_lp.BIN: "one kilogram more in the bin",
}


def remarks(computed: Computed[RebondForm]) -> Iterable[str]:
    """Say which prices are missing, what is not counted, and the two other ways out."""
    form = computed.form
    choice, plan = choice_of(form), plan_of(form)
    unpriced = tuple(each.name for each in choice.materials if each.price is None)
    if len(unpriced) == len(choice.materials):
        yield "No price is given, so the plan is the one that discards least."
    elif unpriced:
        yield (
            f"{' and '.join(unpriced)}: no price is given, and the plan counts that as costing nothing. A cost is "
            "left out where it takes it."
        )
    idle = [WORDS[word].label.lower() for word in ONE_OF_EACH if word not in computed.filled.assumed]
    if idle:
        yield f"With the list of materials these boxes are not counted: {', '.join(idle)}."
    if choice.limits.additive == 0 and any(each.kind == rebond_lp.ADDITIVE for each in choice.materials):
        yield "There is an additive on hand, and none is put in: say how much new additive is wanted."
    if plan.binding != rebond_lp.COST and plan.discard_kg > plan.forced_kg:
        yield f"Of that, {plan.discard_kg - plan.forced_kg:.2f} kg goes only because to keep it would cost more."
    yield from _ways(computed)
    yield (
        "The bands come from what was measured of the heap and from the materials that go in: the ± beside a figure, else what "
        "such a figure is usually off by."
    )


def not_counted(computed: Computed[RebondForm]) -> Iterable[str]:
    """Say which boxes count only with a list, where one of them is filled in and there is no list."""
    idle = [WORDS[word].label for word in LIST_ONLY if word not in computed.filled.assumed]
    if idle:
        yield f"{list_of(tuple(idle))}: counted only with the list of materials on hand."


def _ways(computed: Computed[RebondForm]) -> Iterable[str]:
    if computed.number("discard_kg") == 0:
        pass
    elif computed.has("dilute_kg"):
        cost = f", for {computed.text('dilute_cost')}" if computed.has("dilute_cost") else ""
        yield (
            f"Dilute: to discard nothing and thin the whole heap to the target takes {computed.text('dilute_added_kg')} of "
            f"materials{cost}, and it becomes {computed.text('dilute_kg')}."
        )
    else:
        yield "Dilute: no amount of these materials thins the whole heap to the target."
    if computed.has("dump_added_kg"):
        cost = f", for {computed.text('dump_cost')}" if computed.has("dump_cost") else ""
        yield (
            f"Dump: to throw all of it out and mix {computed.form.target_kg:g} kg new takes {computed.text('dump_added_kg')} of "
            f"materials{cost}."
        )
    else:
        yield "Dump: these materials alone make no new sand within the limits."


def working(computed: Computed[RebondForm]) -> Iterable[str]:
    """Say the balance of the plan, and what each limit is worth."""
    form, plan = computed.form, plan_of(computed.form)
    assert form.heap_kg is not None and form.target_kg is not None
    after, kept = plan.after, 1 - plan.discard_kg / form.heap_kg
    yield (
        f"dry mass wanted = {form.target_kg:g} × (1 − {form.target_moisture_pct_wet:g} / 100) = {after.dry_kg:.3f} kg"
    )
    yield f"share of the heap that stays = {kept:.4f}; what binds: {plan.binding.replace('_', ' ')}"
    yield from (
        f"{each.name}: {kg:.3f} kg as bought = {kg * (1 - each.water):.3f} kg dry, of it {kg * (1 - each.water) * each.live:.3f} "
        f"kg live clay and {kg * (1 - each.water) * each.dead:.3f} kg dead fines"
        for kg, each in zip(plan.used_kg, choice_of(form).materials, strict=True)
        if kg > 0
    )
    yield (
        f"live clay afterwards {after.live_clay_kg:.3f} kg, dead fines {after.dead_clay_kg + after.other_fines_kg:.3f} kg, "
        f"water {after.water_kg:.3f} kg"
    )
    for kind, name, saved in plan.worth:
        yield f"{WORTH.get(kind, f'one kilogram more of {name}')} would save {saved:.2f}"
