"""What is said where no plan meets all limits: which of them gives way by least, how far, and what that plan is."""

from __future__ import annotations

import math
from collections.abc import Iterable

from sandmix.asking.form import Form
from sandmix.language.errors import Problem
from sandmix.language.wording import list_of
from sandmix.language.words import Quantity
from sandmix.recipes.rebond import DEAD_FINES, LIVE_CLAY, MASS
from sandmix.recipes.rebond_lp import ADDITIVE, BIN, COARSE, FINE, HEAP, STOCK, Infeasible, LeastCostPlan, RebondProblem
from sandmix.vocabulary import WORDS

WORD_OF = {
    MASS: "target_kg",
    LIVE_CLAY: "target_clay_pct_dry",
    DEAD_FINES: "dead_fines_limit_pct_dry",
    FINE: "gfn_high",
    COARSE: "gfn_low",
    ADDITIVE: "additive_pct_dry",
}
CALLED = {
    MASS: "the mass wanted",
    LIVE_CLAY: "the live clay wanted",
    DEAD_FINES: "the limit on dead fines",
    FINE: "the most fineness allowed",
    COARSE: "the least fineness allowed",
    ADDITIVE: "the additive wanted",
    BIN: "what the bin holds",
    HEAP: "the size of the heap",
}
PLACES = {MASS: 2, FINE: 1, COARSE: 1}


def problems(form: Form, choice: RebondProblem, found: Infeasible) -> Iterable[Problem]:
    """Yield one problem for each limit that would have to give way, with how far, the nearest plan, and what stands in the way."""
    for limit in found.relaxed:
        word = WORDS[WORD_OF[limit]]
        assert isinstance(word, Quantity)
        side, value = reached(limit, choice, found.nearest)
        bound = f"{side} {value:g} {word.unit}".rstrip()
        can_be_asked = word.low <= value <= word.high
        yield form.wrong(
            word.name,
            bound if can_be_asked else word.allowed,
            (
                f"with what is on hand no plan meets all limits. Here it could be {bound}. The nearest plan: "
                f"{described(choice, found.nearest)}. What can't be had together: {_fault(found)}. "
                f"{f'Ask for {bound}, or have' if can_be_asked else 'Have'} more or better materials{_less(found)}."
            ),
        )


def reached(limit: str, choice: RebondProblem, plan: LeastCostPlan) -> tuple[str, float]:
    """Return how far *limit* has to give way for *plan*, as "at least" or "at most" and the figure, rounded so that it still is one."""
    value, wanted = _values(limit, choice, plan)
    scale = 10 ** PLACES.get(limit, 2)
    if value > wanted:
        return "at least", math.ceil(value * scale - 1e-6) / scale
    return "at most", math.floor(value * scale + 1e-6) / scale


def described(choice: RebondProblem, plan: LeastCostPlan) -> str:
    """Return a plan and the sand that it gives, in words."""
    put_in = [f"{kg:.2f} kg of {each.name}" for kg, each in zip(plan.used_kg, choice.materials, strict=True) if kg > 0]
    parts = [f"discard {plan.discard_kg:.2f} kg"] if plan.discard_kg > 0 else []
    parts += [f"put in {', '.join(put_in)}"] if put_in else ["put nothing in"]
    after = plan.after
    return (
        f"{'; '.join(parts)}; that gives {after.wet_kg:.2f} kg with {after.clay_pct_dry:.2f} % live clay and "
        f"{after.dead_fines_pct_dry:.2f} % dead fines"
    )


def _values(limit: str, choice: RebondProblem, plan: LeastCostPlan) -> tuple[float, float]:
    wish, after = choice.limits, plan.after
    extra = sum(
        kg * (1 - each.water) for kg, each in zip(plan.used_kg, choice.materials, strict=True) if each.kind == ADDITIVE
    )
    return {
        MASS: (after.wet_kg, wish.wet_kg),
        LIVE_CLAY: (after.clay_pct_dry, 100 * wish.clay),
        DEAD_FINES: (after.dead_fines_pct_dry, 100 * (wish.dead_fines_limit or 0.0)),
        FINE: (plan.gfn or 0.0, wish.gfn_high or 0.0),
        COARSE: (plan.gfn or 0.0, wish.gfn_low or 0.0),
        ADDITIVE: (100 * extra / after.dry_kg if after.dry_kg else 0.0, 100 * wish.additive),
    }[limit]


def _fault(found: Infeasible) -> str:
    said = [f"what there is of {name}" if kind == STOCK else CALLED[kind] for kind, name in found.at_fault]
    return list_of(tuple(dict.fromkeys(said))).replace(" or ", " and ")


def _less(found: Infeasible) -> str:
    return (
        "" if found.most is None else f", or make no more than {math.floor(100 * found.most.after.wet_kg) / 100:g} kg"
    )
