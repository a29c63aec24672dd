"""The form of *rebond*: the heap as it is, what it is to be, and the one sand and one clay on hand."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from .. import rebond
from ..errors import Problem
from ..form import Filled, ask
from ..sand import Sand
from .bought import Bought, settle_activity


@dataclass(frozen=True, slots=True, kw_only=True)
class Rebond(Bought):
    """The heap as it is, what it is to be, and the one sand and one clay on hand."""

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

    def problems(self) -> Iterable[Problem]:
        clay, dead, target = self.clay_pct_dry, self.dead_fines_pct_dry or 0.0, self.target_clay_pct_dry
        assert clay is not None and target is not None
        if clay + dead > 100:
            yield self.wrong(
                "dead_fines_pct_dry",
                f"at most {100 - clay:g} %",
                f"live clay and dead fines come to {clay + dead:g} % of the dry sand. Together they are at most 100.",
            )
        elif target > 0.9 * self.activity_pct:
            yield self.wrong(
                "target_clay_pct_dry",
                f"at most {0.9 * self.activity_pct:g} %",
                (
                    f"a clay that is {self.activity_pct:g} % live can't bring sand to {target:g} %. Ask for less, "
                    "or take a better clay."
                ),
            )
        elif isinstance(found := plan_of(self), rebond.Impossible):
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


def heap_of(form: Rebond) -> Sand:
    """Return the heap as it lies; dead fines count as other fines, since no figure parts them."""
    assert form.heap_kg is not None and form.moisture_pct_wet is not None and form.clay_pct_dry is not None
    dead = min(form.dead_fines_pct_dry or 0.0, 100 - form.clay_pct_dry)
    return Sand.lying(
        form.heap_kg, moisture_pct_wet=form.moisture_pct_wet, clay_pct_dry=form.clay_pct_dry, other_fines_pct_dry=dead
    )


def plan_of(form: Rebond) -> rebond.Plan | rebond.Impossible:
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
    return rebond.plan(heap_of(form), target, form.materials(form.activity_pct))


def settle(filled: Filled[Rebond]) -> Filled[Rebond]:
    """Fill in the clay's activity, and fix the wanted mass, so that doubt in the heap's mass does not move the target along."""
    filled = settle_activity(filled)
    return filled if filled.form.target_kg is not None else filled.settled({"target_kg": filled.form.heap_kg})
