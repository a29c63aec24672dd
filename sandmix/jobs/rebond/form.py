"""The form of *rebond*: the heap as it is, what it is to be, and one sand and one clay, or the list of all that is on hand."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from sandmix.asking.form import Filled, ask, asks
from sandmix.jobs.rebond import no_plan, on_hand
from sandmix.jobs.shared.bought import BoughtForm, resolve_activity
from sandmix.language.errors import Problem
from sandmix.materials.sand import Sand
from sandmix.maths.uncertainty import Ends, Key
from sandmix.recipes import rebond, rebond_lp

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
LIST_ONLY = ("bin_kg", "heap_gfn", "gfn_low", "gfn_high", "additive_pct_dry")


@dataclass(frozen=True, slots=True, kw_only=True)
class RebondForm(BoughtForm):
    """The heap as it is, what it is to be, and one sand and one clay, or the list of all that is on hand."""

    heap_kg: float | None = ask("heap_kg", first=True, required=True)
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True, required=True, label="Moisture now")
    clay_pct_dry: float | None = ask("clay_pct_dry", first=True, required=True, label="Live clay now")
    dead_fines_pct_dry: float | None = ask("dead_fines_pct_dry", first=True, label="Dead fines now")
    target_clay_pct_dry: float | None = ask("target_clay_pct_dry", first=True, required=True, exact=True)
    target_moisture_pct_wet: float | None = ask("target_moisture_pct_wet", required=True, exact=True, default=3.5)
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

    def problems(self) -> Iterable[Problem]:
        clay, dead, target = self.clay_pct_dry, self.dead_fines_pct_dry or 0.0, self.target_clay_pct_dry
        assert clay is not None and target is not None
        if clay + dead > 100:
            yield self.wrong(
                "dead_fines_pct_dry",
                f"at most {100 - clay:g} %",
                f"live clay and dead fines come to {clay + dead:g} % of the dry sand. Together they are at most 100.",
            )
        elif self.materials is not None:
            yield from self._list_problems(self.materials)
        elif target > 0.9 * self.activity_pct:
            yield self.wrong(
                "target_clay_pct_dry",
                f"at most {0.9 * self.activity_pct:g} %",
                (
                    f"a clay that is {self.activity_pct:g} % live can't bring sand to {target:g} %. Ask for less, "
                    "or take a better clay."
                ),
            )
        elif isinstance(found := plan_of(self), rebond.OutOfReach):
            least = math.ceil(10000 * found.least_dead_fines - 1e-6) / 100
            yield self.wrong(
                "dead_fines_limit_pct_dry",
                f"at least {least:.2f} %",
                (
                    f"no plan keeps within {self.dead_fines_limit_pct_dry:g} %: this clay is {self.activity_pct:g} "
                    f"% live and brings dead fines itself. The least that can be reached is {least:.2f} % of dry. "
                    "Raise the limit to that, ask for less clay, or take a better one."
                ),
            )

    def _list_problems(self, rows: on_hand.Rows) -> Iterable[Problem]:
        found = [*self._window_problems(), *self._row_problems(rows)]
        if self.bin_kg is not None and self.target_kg is not None and self.target_kg > self.bin_kg:
            said = f"the bin holds {self.bin_kg:g} kg. Ask for no more than that, or take a larger one."
            found.append(self.wrong("target_kg", f"at most {self.bin_kg:g} kg", said))
        if not found:
            choice = choice_of(self)
            plan = choice.plan()
            found += no_plan.problems(self, choice, plan) if isinstance(plan, rebond_lp.Infeasible) else ()
        return found

    def _window_problems(self) -> Iterable[Problem]:
        if self.gfn_low is not None and self.gfn_high is not None and self.gfn_low > self.gfn_high:
            said = f"the least allowed, {self.gfn_low:g}, is above it. Look whether the two are swapped."
            yield self.wrong("gfn_high", f"at least {self.gfn_low:g}", said)
        if self.asks_window and self.heap_gfn is None:
            said = "it is needed where a window is asked for. Sieve the heap, or clear the window."
            yield self.wrong("heap_gfn", "3 to 300", said)

    def _row_problems(self, rows: on_hand.Rows) -> Iterable[Problem]:
        label = asks(type(self))["materials"].label
        for given, allowed, said in on_hand.faults(rows, window=self.asks_window):
            yield Problem(word="materials", given=given, allowed=allowed, message=f"{label}: {said}")

    @property
    def asks_window(self) -> bool:
        """Whether the fineness of the grain is limited."""
        return self.gfn_low is not None or self.gfn_high is not None


def heap_of(form: RebondForm) -> Sand:
    """Return the heap as it lies; dead fines count as other fines, since no figure parts them."""
    assert form.heap_kg is not None and form.moisture_pct_wet is not None and form.clay_pct_dry is not None
    dead = min(form.dead_fines_pct_dry or 0.0, 100 - form.clay_pct_dry)
    return Sand.lying(
        form.heap_kg, moisture_pct_wet=form.moisture_pct_wet, clay_pct_dry=form.clay_pct_dry, other_fines_pct_dry=dead
    )


def plan_of(form: RebondForm) -> rebond.RebondPlan | rebond.OutOfReach:
    """Return the plan for the form's figures; without a figure for dead fines no limit is kept to."""
    assert (
        form.heap_kg is not None and form.target_clay_pct_dry is not None and form.target_moisture_pct_wet is not None
    )
    target = rebond.Target(
        wet_kg=form.heap_kg if form.target_kg is None else form.target_kg,
        clay=form.target_clay_pct_dry / 100,
        moisture=form.target_moisture_pct_wet / 100,
        dead_fines_limit=None if form.dead_fines_pct_dry is None else form.dead_fines_limit_pct_dry / 100,
    )
    return rebond.plan(heap_of(form), target, form.as_bought(form.activity_pct))


def choice_of(form: RebondForm) -> rebond_lp.RebondProblem:
    """Return the heap, what it is to be and all that is on hand; without a figure for dead fines no limit is kept to."""
    assert form.materials is not None and form.heap_kg is not None
    assert form.target_clay_pct_dry is not None and form.target_moisture_pct_wet is not None
    return rebond_lp.RebondProblem(
        heap=heap_of(form),
        limits=rebond_lp.Limits(
            wet_kg=form.heap_kg if form.target_kg is None else form.target_kg,
            clay=form.target_clay_pct_dry / 100,
            moisture=form.target_moisture_pct_wet / 100,
            dead_fines_limit=None if form.dead_fines_pct_dry is None else form.dead_fines_limit_pct_dry / 100,
            additive=form.additive_pct_dry / 100,
            bin_kg=form.bin_kg,
            gfn_low=form.gfn_low,
            gfn_high=form.gfn_high,
        ),
        materials=on_hand.materials(form.materials),
        gfn=form.heap_gfn,
    )


def resolve(filled: Filled[RebondForm]) -> Filled[RebondForm]:
    """Fill in the clay's activity, and fix the wanted mass, so that doubt in the heap's mass does not move the target along.

    With a list of materials the one sand and the one clay are not looked at, nor is their doubt; and of the list only what goes in is doubted.
    """
    rows = filled.form.materials
    filled = resolve_activity(filled) if rows is None else _settled_rows(filled, rows)
    return filled if filled.form.target_kg is not None else filled.resolved({"target_kg": filled.form.heap_kg})


def _settled_rows(filled: Filled[RebondForm], rows: on_hand.Rows) -> Filled[RebondForm]:
    plan = choice_of(filled.form).plan()
    used = [kg > 0 for kg in plan.used_kg] if isinstance(plan, rebond_lp.LeastCostPlan) else []
    idle = [key for key in filled.bands if isinstance(key, tuple) and key[0] == "materials" and not used[key[1]]]
    assumed: dict[Key, Ends] = {
        ("materials", at, word): band
        for at, (row, goes_in) in enumerate(zip(rows, used, strict=True))
        if goes_in
        for word, band in on_hand.assumed_bands(row).items()
    }
    return filled.resolved({}, without=(*ONE_OF_EACH, *idle), bands=assumed)
