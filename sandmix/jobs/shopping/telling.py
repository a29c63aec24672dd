"""How *shopping* presents its answer: headline, remarks, caution and working."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import CEMENT
from sandmix.asking.job import Computed, Lead, Next, Telling, ToDo
from sandmix.jobs.shopping.form import ShoppingForm
from sandmix.vocabulary import quantity

_SPARE = {"sand": (0.1, "for spills, facing and repairs"), "clay": (0.25, "to replace what casting burns")}
"""The share that is good to have left, by material (own choice), and what it is for."""


def tell(computed: Computed[ShoppingForm]) -> Telling:
    """Say what to buy."""
    bought = {one.kind: one.bags for one in computed.form.purchases if one.bags is not None}
    bags = [f"{count} of {kind}" for kind, count in bought.items()]
    cost = f", {computed.text('cost')} in all" if computed.has("cost") else ""
    return Telling(
        headline=f"Bags to buy: {' and '.join(bags)}{cost}.",
        state=("buy", "plain"),
        lead=Lead(
            word=f"{next(iter(bought))}_bags",
            label="Bags to buy",
            text=" + ".join(f"{count} {kind}" for kind, count in bought.items()),
            then=computed.text("cost") if computed.has("cost") else "",
        ),
        todo=tuple(
            ToDo(text=f"Buy bags of {one.kind}, {one.bag_kg:g} kg each", amount=computed.text(f"{one.kind}_bags"))
            for one in computed.form.purchases
            if one.bags
        ),
        remarks=tuple(_remarks(computed)),
        cautions=(CEMENT,),
        working=tuple(_working(computed)),
        next=(
            Next(job="mix", label="Mix it", inputs=_to_mix(computed.form)),
            Next(job="choose", label="Is the bag usable?"),
        ),
    )


def _to_mix(form: ShoppingForm) -> dict[str, str]:
    """What “Mix new sand” takes over: the sand that is made, or the sand and clay that are bought, if they can be those of a new mix."""
    if form.make_kg is not None:
        return {"make_kg": f"{form.make_kg:.4g} kg"}
    usual, sand_kg, clay_kg = quantity("clay_pct_dry").usual, form.sand_kg or 0.0, form.clay_kg or 0.0
    if usual and usual[0] * (sand_kg + clay_kg) <= 100 * clay_kg <= usual[1] * (sand_kg + clay_kg) and clay_kg:
        return {"sand_on_hand_kg": f"{sand_kg:.4g} kg", "clay_on_hand_kg": f"{clay_kg:.4g} kg"}
    return {}


def _remarks(computed: Computed[ShoppingForm]) -> Iterable[str]:
    for one in reversed(computed.form.purchases):
        spare, purpose = _SPARE[one.kind]
        word = f"{one.kind}_left_kg"
        if one.kg and computed.has(word) and computed.number(word) < spare * one.kg:
            only = f"Only {computed.text(word)} of" if computed.number(word) > 0 else "No"
            yield f"{only} {one.kind} would be left {purpose}. Consider one more bag; it is not counted here."
    if computed.form.make_kg is None and computed.has("cost_per_kg"):
        yield (
            "The cost per kilogram counts the sand and clay as bought. For the cost of finished sand, enter the moulding sand that "
            "it makes."
        )
    yield (
        "Test the sand before you buy: grains that bubble in vinegar are shell or limestone, and slag sold as blasting sand is "
        "not moulding sand."
    )


def _working(computed: Computed[ShoppingForm]) -> Iterable[str]:
    for one in computed.form.purchases:
        if one.bags is not None:
            screened = f" / {one.usable:g}" if one.usable != 1 else ""
            yield f"{one.kind}: {one.kg:g} kg{screened} / {one.bag_kg:g} kg, rounded up to whole bags = {one.bags}"
