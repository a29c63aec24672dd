"""The figures of *shopping*."""

from __future__ import annotations

from sandmix.asking.job import Figures, Needs
from sandmix.jobs.shopping.form import ShoppingForm
from sandmix.recipes import shopping


def run(form: ShoppingForm) -> Figures:
    """Return bags, leftovers and cost. There is a cost only where every kind that is needed has bags and a price."""
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


def needs(form: ShoppingForm, figures: Figures) -> Needs:
    """Bags need a mass and the mass of a bag; the cost needs bags and prices of all that is bought."""
    wanted = [kind for kind, mass in (("sand", form.sand_kg), ("clay", form.clay_kg)) if mass]
    priced = tuple(f"{kind}_{word}" for kind in wanted for word in ("bag_kg", "bag_price"))
    counted: dict[str, tuple[str, ...]] = {
        f"{kind}_{answer}": (f"{kind}_kg", f"{kind}_bag_kg")
        for kind in ("sand", "clay")
        for answer in ("bags", "left_kg")
    }
    return counted | {"cost": priced, "cost_per_kg": priced}
