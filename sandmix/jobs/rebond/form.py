"""The form of *rebond*: the heap as it is, the target sand, and one sand and one clay, or the list of all materials on hand."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from sandmix.asking import rules
from sandmix.asking.form import Filled, ask, asks, rule
from sandmix.jobs.rebond import no_plan, on_hand
from sandmix.jobs.shared.bought import BoughtForm, resolve_activity
from sandmix.language.errors import Problem
from sandmix.materials.sand import Sand
from sandmix.maths.statistics import is_above
from sandmix.maths.uncertainty import Ends, Key
from sandmix.recipes import rebond, rebond_lp
from sandmix.vocabulary import quantity

ONE_OF_EACH = (
    "sand_moisture_pct_wet",
    "clay",
    "clay_activity_pct",
    "clay_moisture_pct_wet",
    "sand_bag_kg",
    "sand_bag_price",
    "clay_bag_kg",
    "clay_bag_price",
)
P = TypeVar("P", bound=rebond.RestoringPlan)
LIST_ONLY = ("heap_gfn", "gfn_low", "gfn_high", "additive_pct_dry")
MOST_KG = quantity("target_kg").high


@dataclass(frozen=True, slots=True, kw_only=True)
class RebondForm(BoughtForm):
    """The heap as it is, the target sand, and one sand and one clay, or the list of all materials on hand."""

    heap_kg: float = ask("heap_kg", first=True, required=True)
    moisture_pct_wet: float = ask("moisture_pct_wet", first=True, required=True, label="Moisture now")
    clay_pct_dry: float = ask("clay_pct_dry", first=True, required=True, label="Live clay now")
    dead_fines_pct_dry: float | None = ask("dead_fines_pct_dry", first=True, label="Dead fines now")
    target_clay_pct_dry: float = ask("target_clay_pct_dry", first=True, required=True, exact=True)
    target_moisture_pct_wet: float = ask("target_moisture_pct_wet", required=True, exact=True, default=3.5)
    target_kg: float | None = ask("target_kg", exact=True)
    dead_fines_limit_pct_dry: float = ask("dead_fines_limit_pct_dry", exact=True)
    sand_bag_kg: float | None = ask("sand_bag_kg")
    sand_bag_price: float | None = ask("sand_bag_price")
    clay_bag_kg: float | None = ask("clay_bag_kg")
    clay_bag_price: float | None = ask("clay_bag_price")
    materials: Sequence[Mapping[str, object]] | None = ask("materials")
    bin_kg: float | None = ask("bin_kg")
    heap_gfn: float | None = ask("heap_gfn")
    gfn_low: float | None = ask("gfn_low", exact=True)
    gfn_high: float | None = ask("gfn_high", exact=True)
    additive_pct_dry: float = ask("additive_pct_dry", exact=True)

    @rule
    def the_bin_holds_the_target(self) -> Iterable[Problem]:
        if self.bin_kg is not None and self.target_kg is not None and is_above(self.target_kg, self.bin_kg):
            what_to_do = f"the bin can hold {self.bin_kg:g} kg. Enter at most that, or use a larger bin."
            yield self.wrong("target_kg", f"at most {self.bin_kg:g} kg", what_to_do)

    @rule
    def clay_and_fines_are_no_more_than_all(self) -> Iterable[Problem]:
        return rules.clay_and_fines_fit(self, self.clay_pct_dry, self.dead_fines_pct_dry)

    @rule
    def the_window_of_fineness_is_open(self) -> Iterable[Problem]:
        low, high = self.gfn_low, self.gfn_high
        if self.materials is not None and low is not None and high is not None and low > high:
            what_to_do = f"this is below the lowest fineness allowed, {low:g}. Check whether the two are swapped."
            yield self.wrong("gfn_high", f"at least {low:g}", what_to_do)

    @rule
    def limits_of_fineness_need_the_heap(self) -> Iterable[Problem]:
        if self.materials is not None and self.limits_fineness and self.heap_gfn is None:
            what_to_do = "this is missing, and the fineness limits need it. Sieve the heap, or clear the limits."
            yield self.wrong("heap_gfn", "3 to 300", what_to_do)

    @rule
    def each_material_is_possible(self) -> Iterable[Problem]:
        label = asks(type(self))["materials"].label
        for given, allowed, what_to_do in on_hand.faults(self.materials or (), limits_fineness=self.limits_fineness):
            yield Problem(word="materials", given=given, allowed=allowed, message=f"{label}: {what_to_do}")

    @rule
    def the_clay_reaches_the_target(self) -> Iterable[Problem]:
        return self.clay_problems(self.target_clay_pct_dry) if self.materials is None else ()

    @rule
    def a_plan_exists(self) -> Iterable[Problem]:
        if any(True for check in self._before_a_plan() for _ in check):
            return
        if self.materials is not None:
            problem, found = list_plan_of(self)
            yield from no_plan.problems(self, problem, found) if isinstance(found, rebond_lp.Infeasible) else ()
        elif isinstance(plan := plan_of(self), rebond.OutOfReach):
            least = math.ceil(10000 * plan.least_dead_fines - 1e-6) / 100
            what_to_do = (
                f"no plan stays within {self.dead_fines_limit_pct_dry:g} %: this clay is only {self.activity_pct:g} % live and adds "
                f"dead fines itself. The lowest possible is {least:.2f} % of the dry mass. Raise the limit to that, lower the target "
                "for live clay, or use a better clay."
            )
            yield self.wrong("dead_fines_limit_pct_dry", f"at least {least:.2f} %", what_to_do)

    def _before_a_plan(self) -> Iterable[Iterable[Problem]]:
        yield self.the_bin_holds_the_target()
        yield self.clay_and_fines_are_no_more_than_all()
        yield self.the_window_of_fineness_is_open()
        yield self.limits_of_fineness_need_the_heap()
        yield self.each_material_is_possible()
        yield self.the_clay_reaches_the_target()

    @property
    def limits_fineness(self) -> bool:
        """Whether the fineness of the grain is limited."""
        return self.gfn_low is not None or self.gfn_high is not None

    @property
    def heap(self) -> Sand:
        """The heap as it lies. Dead fines count as other fines, because no figure separates them."""
        dead = min(self.dead_fines_pct_dry or 0.0, 100 - self.clay_pct_dry)
        return Sand.lying(
            self.heap_kg,
            moisture_pct_wet=self.moisture_pct_wet,
            clay_pct_dry=self.clay_pct_dry,
            other_fines_pct_dry=dead,
        )

    def within(self, made_kg: float) -> rebond_lp.Limits:
        """Return the target sand of that mass, and its limits; if the dead fines of the heap are not given, they have no limit."""
        return rebond_lp.Limits(
            wet_kg=made_kg,
            clay=self.target_clay_pct_dry / 100,
            moisture=self.target_moisture_pct_wet / 100,
            dead_fines_limit=None if self.dead_fines_pct_dry is None else self.dead_fines_limit_pct_dry / 100,
            additive=self.additive_pct_dry / 100,
            bin_kg=self.bin_kg,
            gfn_low=self.gfn_low,
            gfn_high=self.gfn_high,
        )

    def most_kg(self, grown_kg: float | None) -> float:
        """Return the sand to make, in kg with its water: the target, else what the heap grows to, as far as the bin allows."""
        if self.target_kg is not None:
            return self.target_kg
        return min(self.heap_kg if grown_kg is None else grown_kg, self.bin_kg or MOST_KG, MOST_KG)


def plan_of(form: RebondForm) -> rebond.RebondPlan | rebond.OutOfReach:
    """Return the plan with one sand and one clay."""
    heap, bought = form.heap, form.as_bought(form.activity_pct)
    grown = rebond.grown_kg(
        heap,
        clay=form.target_clay_pct_dry / 100,
        moisture=form.target_moisture_pct_wet / 100,
        activity=form.activity_pct / 100,
    )
    plan = rebond.plan(heap, form.within(form.most_kg(grown)), bought)
    return plan if isinstance(plan, rebond.OutOfReach) else _by_bin(form, plan)


def problem_of(form: RebondForm, made_kg: float) -> rebond_lp.RebondProblem:
    """Return the heap, the limits of a sand of that mass, and the materials of the list."""
    materials = on_hand.materials(form.materials or ())
    return rebond_lp.RebondProblem(
        heap=form.heap,
        limits=form.within(made_kg),
        materials=materials,
        gfn=form.heap_gfn,
        keeps_first=form.target_kg is None,
    )


def list_plan_of(
    form: RebondForm,
) -> tuple[rebond_lp.RebondProblem, rebond_lp.LeastCostPlan | rebond_lp.Infeasible]:
    """Return the problem with the list of materials, and its plan or why there is none.

    Without a target mass the heap grows by what its clay needs, at the least cost, or at the least mass where that keeps more of it.
    """
    if form.target_kg is not None:
        problem = problem_of(form, form.target_kg)
        return problem, problem.plan()
    grown = problem_of(form, form.heap_kg).grown_kg() or (None,)
    tried = [problem_of(form, form.most_kg(mass)) for mass in dict.fromkeys(grown)]
    found = [(problem, problem.plan()) for problem in tried]
    problem, plan = min(found, key=lambda each: _discarded(each[1]))
    return problem, plan if isinstance(plan, rebond_lp.Infeasible) else _by_bin(form, plan)


def _discarded(plan: rebond_lp.LeastCostPlan | rebond_lp.Infeasible) -> float:
    return math.inf if isinstance(plan, rebond_lp.Infeasible) else plan.discard_kg


def _by_bin(form: RebondForm, plan: P) -> P:
    """The plan, whose discard is put down to the bin where only its size keeps the whole heap from growing."""
    full = form.target_kg is None and form.bin_kg is not None and plan.after.wet_kg >= form.bin_kg * (1 - 1e-9)
    return replace(plan, binding=rebond_lp.BIN) if full and plan.binding in (rebond.MASS, rebond.LIVE_CLAY) else plan


def resolve(filled: Filled[RebondForm]) -> Filled[RebondForm]:
    """Fill in the clay's activity. At its target clay the heap needs neither clay nor sand, and the figures turn around.

    With a list of materials the one sand and the one clay are ignored, and so is their uncertainty; of the list only what goes in is uncertain.
    """
    rows = filled.form.materials
    resolved = resolve_activity(filled) if rows is None else _resolve_rows(filled, rows)
    return replace(resolved, turns={"clay_pct_dry": filled.form.target_clay_pct_dry})


def _resolve_rows(filled: Filled[RebondForm], rows: on_hand.Rows) -> Filled[RebondForm]:
    _, plan = list_plan_of(filled.form)
    used = [kg > 0 for _, kg in plan.used] if isinstance(plan, rebond_lp.LeastCostPlan) else []
    idle = [key for key in filled.bands if isinstance(key, tuple) and key[0] == "materials" and not used[key[1]]]
    assumed: dict[Key, Ends] = {
        ("materials", at, word): band
        for at, (row, goes_in) in enumerate(zip(rows, used, strict=True))
        if goes_in
        for word, band in on_hand.assumed_bands(row).items()
    }
    return filled.resolved({}, without=(*ONE_OF_EACH, *idle), bands=assumed)
