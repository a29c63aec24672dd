"""The problem where no plan meets all limits: which limit needs the smallest change, how far, and the plan that would then work."""

from __future__ import annotations

import math
from collections.abc import Iterable

from sandmix.asking.form import Form
from sandmix.language.errors import Problem
from sandmix.language.wording import list_of
from sandmix.recipes.rebond import DEAD_FINES, LIVE_CLAY, MASS
from sandmix.recipes.rebond_lp import ADDITIVE, BIN, COARSE, FINE, HEAP, STOCK, Infeasible, LeastCostPlan, RebondProblem
from sandmix.vocabulary import quantity

WORD_OF = {
    MASS: "target_kg",
    LIVE_CLAY: "target_clay_pct_dry",
    DEAD_FINES: "dead_fines_limit_pct_dry",
    FINE: "gfn_high",
    COARSE: "gfn_low",
    ADDITIVE: "additive_pct_dry",
}
CALLED = {
    MASS: "the mass to make",
    LIVE_CLAY: "the target for live clay",
    DEAD_FINES: "the limit on dead fines",
    FINE: "the highest fineness allowed",
    COARSE: "the lowest fineness allowed",
    ADDITIVE: "the target for the additive",
    BIN: "the size of the bin",
    HEAP: "the size of the heap",
}
PLACES = {MASS: 2, FINE: 1, COARSE: 1}


def problems(form: Form, problem: RebondProblem, found: Infeasible) -> Iterable[Problem]:
    """Yield one problem for each limit that would have to change, with how far, the nearest plan, and the limits that conflict."""
    for limit in found.relaxed:
        word = quantity(WORD_OF[limit])
        side, value = reached(limit, problem, found.nearest)
        bound = f"{side} {value:g} {word.unit}".rstrip()
        can_be_asked = word.low <= value <= word.high
        yield form.wrong(
            word.name,
            bound if can_be_asked else word.allowed,
            (
                f"the materials on hand cannot meet all limits. This limit would have to be {bound}. The nearest plan: "
                f"{described(problem, found.nearest)}. These limits conflict: {_conflict(found)}. "
                f"{f'Enter {bound}, or get' if can_be_asked else 'Get'} more or better materials{_less(found)}."
            ),
        )


def reached(limit: str, problem: RebondProblem, plan: LeastCostPlan) -> tuple[str, float]:
    """Return how far *limit* has to change for *plan*: "at least" or "at most", and the figure, rounded to the side that *plan* meets."""
    value, target = _values(limit, problem, plan)
    scale = 10 ** PLACES.get(limit, 2)
    if value > target:
        return "at least", math.ceil(value * scale - 1e-6) / scale
    return "at most", math.floor(value * scale + 1e-6) / scale


def described(problem: RebondProblem, plan: LeastCostPlan) -> str:
    """Return a plan and the sand that it gives, in words."""
    put_in = [f"{kg:.2f} kg of {each.name}" for each, kg in plan.put_in]
    parts = [f"discard {plan.discard_kg:.2f} kg"] if plan.discard_kg > 0 else []
    parts += [f"put in {', '.join(put_in)}"] if put_in else ["put nothing in"]
    after = plan.after
    return (
        f"{'; '.join(parts)}; that gives {after.wet_kg:.2f} kg with {after.clay_pct_dry:.2f} % live clay and "
        f"{after.dead_fines_pct_dry:.2f} % dead fines"
    )


def _values(limit: str, problem: RebondProblem, plan: LeastCostPlan) -> tuple[float, float]:
    wish, after = problem.limits, plan.after
    extra = sum(kg * (1 - each.water) for each, kg in plan.put_in if each.kind == ADDITIVE)
    return {
        MASS: (after.wet_kg, wish.wet_kg),
        LIVE_CLAY: (after.clay_pct_dry, 100 * wish.clay),
        DEAD_FINES: (after.dead_fines_pct_dry, 100 * (wish.dead_fines_limit or 0.0)),
        FINE: (plan.gfn or 0.0, wish.gfn_high or 0.0),
        COARSE: (plan.gfn or 0.0, wish.gfn_low or 0.0),
        ADDITIVE: (100 * extra / after.dry_kg if after.dry_kg else 0.0, 100 * wish.additive),
    }[limit]


def _conflict(found: Infeasible) -> str:
    limits = [f"the stock of {name}" if kind == STOCK else CALLED[kind] for kind, name in found.at_fault]
    return list_of(tuple(dict.fromkeys(limits)), "and")


def _less(found: Infeasible) -> str:
    return (
        "" if found.most is None else f", or make no more than {math.floor(100 * found.most.after.wet_kg) / 100:g} kg"
    )
