"""The job *shopping*: how many bags, what they cost, what is left."""

from __future__ import annotations

from collections.abc import Iterable

from .. import shopping
from ..cautions import CEMENT
from ..forms.shopping import Shopping
from ..job import Figures, Job, Lead, Needs, Telling, Told


def run(form: Shopping) -> Figures:
    """Return bags, leftovers and cost; cost only where every kind that is wanted has bags and a price."""
    figures: Figures = {}
    usable = form.sand_yield_pct / 100
    costs: list[float | None] = []
    if form.sand_kg is not None and form.sand_bag_kg is not None:
        count = shopping.bags(form.sand_kg, form.sand_bag_kg, usable)
        figures |= {"sand_bags": count, "sand_left_kg": shopping.left_kg(form.sand_kg, form.sand_bag_kg, count, usable)}
        costs.append(_cost(count, form.sand_bag_price))
    if form.clay_kg is not None and form.clay_bag_kg is not None:
        count = shopping.bags(form.clay_kg, form.clay_bag_kg)
        figures |= {"clay_bags": count, "clay_left_kg": shopping.left_kg(form.clay_kg, form.clay_bag_kg, count)}
        costs.append(_cost(count, form.clay_bag_price))
    unbagged = (form.sand_kg is not None and form.sand_bag_kg is None) or (
        form.clay_kg is not None and form.clay_bag_kg is None
    )
    known = [cost for cost in costs if cost is not None]
    if unbagged or len(known) < len(costs):
        return figures
    made = form.make_kg if form.make_kg is not None else (form.sand_kg or 0.0) + (form.clay_kg or 0.0)
    return figures | {"cost": sum(known)} | ({"cost_per_kg": sum(known) / made} if made else {})


def _cost(count: int, price: float | None) -> float | None:
    return 0.0 if count == 0 else None if price is None else count * price


def needs(form: Shopping, figures: Figures) -> Needs:
    """Bags take what is wanted and what a bag holds; cost takes the bags and prices of what is wanted."""
    wanted = [kind for kind, mass in (("sand", form.sand_kg), ("clay", form.clay_kg)) if mass]
    priced = tuple(f"{kind}_{word}" for kind in wanted for word in ("bag_kg", "bag_price"))
    counted: dict[str, tuple[str, ...]] = {
        f"{kind}_{answer}": (f"{kind}_kg", f"{kind}_bag_kg")
        for kind in ("sand", "clay")
        for answer in ("bags", "left_kg")
    }
    return counted | {"cost": priced, "cost_per_kg": priced}


def tell(told: Told[Shopping]) -> Telling:
    """Say what to put in the basket."""
    bags = [f"{told.number(f'{kind}_bags'):.0f} of {kind}" for kind in ("sand", "clay") if told.has(f"{kind}_bags")]
    lead = "sand_bags" if told.has("sand_bags") else "clay_bags"
    cost = f", {told.text('cost')} in all" if told.has("cost") else ""
    return Telling(
        headline=f"Bags to buy: {' and '.join(bags)}{cost}.",
        state=("buy", "plain"),
        lead=Lead(
            word=lead,
            label="Bags to buy",
            text=" + ".join(
                f"{told.number(f'{kind}_bags'):.0f} {kind}" for kind in ("sand", "clay") if told.has(f"{kind}_bags")
            ),
            then=told.text("cost") if told.has("cost") else "",
        ),
        remarks=tuple(_remarks(told)),
        cautions=(CEMENT,),
        working=tuple(_working(told)),
    )


def _remarks(told: Told[Shopping]) -> Iterable[str]:
    form = told.form
    if told.has("clay_left_kg") and form.clay_kg:
        left = told.number("clay_left_kg")
        if left < 0.25 * form.clay_kg:
            yield (
                f"{_only(told, 'clay_left_kg')} clay would be left, which is no stock for putting back what "
                "casting burns: one bag more is wise. None is counted here."
            )
    if told.has("sand_left_kg") and form.sand_kg and told.number("sand_left_kg") < 0.1 * form.sand_kg:
        yield (
            f"{_only(told, 'sand_left_kg')} sand would be left for spills, facing and making good: one "
            "bag more is wise. None is counted here."
        )
    if form.make_kg is None and told.has("cost_per_kg"):
        yield (
            "The cost per kilogram is over the sand and clay wanted; name the moulding sand it makes to have it "
            "over that."
        )
    yield (
        "Look at the sand before buying: grains that fizz in vinegar are shell or limestone, and slag sold as "
        "blasting sand is no moulding sand."
    )


def _only(told: Told[Shopping], word: str) -> str:
    return f"Only {told.text(word)} of" if told.number(word) > 0 else "No"


def _working(told: Told[Shopping]) -> Iterable[str]:
    form = told.form
    if told.has("sand_bags"):
        yield (
            f"sand: {form.sand_kg:g} kg / {form.sand_yield_pct / 100:g} / {form.sand_bag_kg:g} kg, rounded up to "
            f"whole bags = {told.number('sand_bags'):.0f}"
        )
    if told.has("clay_bags"):
        yield (
            f"clay: {form.clay_kg:g} kg / {form.clay_bag_kg:g} kg, rounded up to whole bags = "
            f"{told.number('clay_bags'):.0f}"
        )


JOB = Job(
    name="shopping",
    short="Buy",
    title="How many bags do I buy?",
    form=Shopping,
    run=run,
    tell=tell,
    answers=("sand_bags", "clay_bags", "cost", "cost_per_kg", "sand_left_kg", "clay_left_kg"),
    needs=needs,
    example={
        "sand_kg": "53.6 kg",
        "clay_kg": "4.77 kg",
        "sand_bag_kg": "20 kg",
        "clay_bag_kg": "5 kg",
        "sand_bag_price": "6.50",
        "clay_bag_price": "11",
        "make_kg": "60 kg",
    },
    story="Sixty kilograms for a lidded bin, from the shop's 20 kg sacks and 5 kg bags of bentonite.",
)
