"""The figures and texts of *rebond* with a list of materials on hand."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Computed, Figures, ToDo
from sandmix.jobs.rebond.form import LIST_ONLY, ONE_OF_EACH, RebondForm, list_plan_of
from sandmix.jobs.rebond.on_hand import MOISTURE_PCT
from sandmix.jobs.shared.doses import FIRST_CLAY, water_figures
from sandmix.language.wording import list_of
from sandmix.recipes import rebond, rebond_lp
from sandmix.vocabulary import WORDS, quantity

SHOWN_KG = quantity("sand_kg")


def figures(form: RebondForm) -> Figures:
    """Return the figures of the least-cost plan and of the two other ways; none if changed inputs leave no plan."""
    problem, plan = list_plan_of(form)
    if isinstance(plan, rebond_lp.Infeasible):
        return {}
    by_kind = dict.fromkeys(MOISTURE_PCT, 0.0)
    for each, kg in plan.put_in:
        by_kind[each.kind] += kg
    dilute, dump = problem.dilute(), problem.dump()
    return {
        "discard_kg": plan.discard_kg,
        "heap_after_kg": plan.after.wet_kg,
        **{f"{kind}_kg": kg for kind, kg in by_kind.items()},
        "first_clay_kg": FIRST_CLAY * by_kind["clay"],
        **water_figures(plan.water_balance_kg),
        "cost": plan.cost,
        "dead_fines_after_pct_dry": None if form.dead_fines_pct_dry is None else plan.after.dead_fines_pct_dry,
        "gfn_after": plan.gfn,
        "binding": plan.binding,
        "plan": [{"name": each.name, "kind": each.kind, "kg": kg} for each, kg in plan.put_in],
        "dilute_kg": dilute.after.wet_kg if dilute else None,
        "dilute_added_kg": dilute.added_kg if dilute else None,
        "dilute_cost": dilute.cost if dilute else None,
        "dump_added_kg": dump.added_kg if dump else None,
        "dump_cost": dump.cost if dump else None,
    }


def plan_of(form: RebondForm) -> rebond_lp.LeastCostPlan:
    """Return the plan of a form that has one."""
    _, plan = list_plan_of(form)
    assert isinstance(plan, rebond_lp.LeastCostPlan)
    return plan


def added(computed: Computed[RebondForm]) -> list[str]:
    """Return what goes in, material by material, with no more digits than the likely range of its kind allows."""
    return [
        f"{_shown(kg, computed.half_width(f'{each.kind}_kg'))} {each.name}"
        for each, kg in plan_of(computed.form).put_in
    ]


def to_do(computed: Computed[RebondForm]) -> Iterable[ToDo]:
    """Yield what goes in, material by material; of a clay, half goes in first."""
    for each, kg in plan_of(computed.form).put_in:
        first = ": half of it first, then mull and test" if each.kind == "clay" else ""
        yield ToDo(text=f"{each.name}, as bought{first}", amount=_shown(kg, computed.half_width(f"{each.kind}_kg")))


def _shown(kg: float, half_width: float) -> str:
    """A mass with no more digits than its half-width allows, but never rounded to zero."""
    text = SHOWN_KG.show_to(kg, half_width)
    return SHOWN_KG.show_to(kg, None) if text.startswith("0 ") else text


WHY = {
    rebond_lp.FINE: "The heap is finer than its limit, so {discard} must come out.",
    rebond_lp.COARSE: "The heap is coarser than its limit, so {discard} must come out.",
    rebond_lp.STOCK: "There is not enough {scarce}, so {discard} must come out. With more of it, more of the heap could stay.",
    rebond_lp.BIN: "The bin can hold no more than {bin} kg, so {discard} must come out.",
    rebond_lp.COST: "Keeping more of the heap would cost more than new material, so {discard} comes out. No limit forces this.",
}
WORTH = {
    rebond.DEAD_FINES: "one percentage point more of dead fines",
    rebond_lp.BIN: "one kilogram more in the bin",
}


def remarks(computed: Computed[RebondForm]) -> Iterable[str]:
    """Say which prices are missing, what is not counted, and the two other ways."""
    form = computed.form
    plan = plan_of(form)
    unpriced = [each.name for each, _ in plan.used if each.price is None]
    if len(unpriced) == len(plan.used):
        yield "No prices are given, so this is the plan that discards least."
    elif unpriced:
        yield (
            f"{list_of(unpriced, 'and')}: no price is given, so the plan counts it as free, and gives no cost if it uses it."
        )
    idle = [WORDS[word].label.lower() for word in ONE_OF_EACH if word not in computed.filled.assumed]
    if idle:
        yield f"With the list of materials these inputs do not count: {', '.join(idle)}."
    if form.additive_pct_dry == 0 and any(each.kind == rebond_lp.ADDITIVE for each, _ in plan.used):
        yield "There is an additive on hand, but the plan uses none. Enter how much new additive you want."
    if plan.binding != rebond_lp.COST and plan.discard_kg > plan.forced_kg:
        yield f"Of that, {plan.discard_kg - plan.forced_kg:.2f} kg comes out only because keeping it would cost more."
    yield from _ways(computed)
    yield (
        "The likely ranges come from the figures of the heap and from the materials that go in: the ± given with a figure, or else "
        "the usual error of such a figure."
    )


def not_counted(computed: Computed[RebondForm]) -> Iterable[str]:
    """Say which inputs count only with a list, if one of them is given and there is no list."""
    idle = [WORDS[word].label for word in LIST_ONLY if word not in computed.filled.assumed]
    if idle:
        yield f"{list_of(idle, 'and')}: this counts only with the list of materials on hand."


def _ways(computed: Computed[RebondForm]) -> Iterable[str]:
    if computed.number("discard_kg") == 0:
        pass
    elif computed.has("dilute_kg"):
        cost = f", for {computed.text('dilute_cost')}" if computed.has("dilute_cost") else ""
        yield (
            f"Dilute: to keep the whole heap, add {computed.text('dilute_added_kg')} of materials{cost}. It becomes "
            f"{computed.text('dilute_kg')} at the target."
        )
    else:
        yield "Dilute: no amount of these materials brings the whole heap to the target."
    if computed.has("dump_added_kg"):
        cost = f", for {computed.text('dump_cost')}" if computed.has("dump_cost") else ""
        yield (
            f"Mix new: to throw out the whole heap and mix {plan_of(computed.form).after.wet_kg:.4g} kg, use {computed.text('dump_added_kg')} of "
            f"materials{cost}."
        )
    else:
        yield "Mix new: these materials alone make no sand within the limits."


def working(plan: rebond_lp.LeastCostPlan) -> Iterable[str]:
    """Show what each material brings, the sand that results, and what easing each limit would save."""
    after = plan.after
    yield from (
        f"{each.name}: {kg:.3f} kg as bought = {kg * (1 - each.water):.3f} kg dry, of it {kg * (1 - each.water) * each.live:.3f} "
        f"kg live clay and {kg * (1 - each.water) * each.dead:.3f} kg dead fines"
        for each, kg in plan.put_in
    )
    yield (
        f"live clay afterwards {after.live_clay_kg:.3f} kg, dead fines {after.dead_clay_kg + after.other_fines_kg:.3f} kg, "
        f"water {after.water_kg:.3f} kg"
    )
    for kind, name, saved in plan.worth:
        yield f"{WORTH.get(kind, f'one kilogram more of {name}')} would save {saved:.2f}"
