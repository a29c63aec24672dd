"""The figures of *shopping*."""

from __future__ import annotations

from sandmix.asking.job import Figures, Needs
from sandmix.jobs.shopping.form import ShoppingForm
from sandmix.recipes import shopping


def run(form: ShoppingForm) -> Figures:
    """Return bags, leftovers and cost. There is a cost only where every material that is needed has bags and a price."""
    figures: Figures = {}
    for one in form.purchases:
        if one.kg is not None and one.bag_kg is not None and one.bags is not None:
            left = shopping.left_kg(one.kg, one.bag_kg, one.bags, one.usable)
            figures |= {f"{one.kind}_bags": one.bags, f"{one.kind}_left_kg": left}
    needed = [one for one in form.purchases if one.kg is not None]
    costs = [one.cost for one in needed if one.cost is not None]
    if len(costs) < len(needed):
        return figures
    made = form.make_kg if form.make_kg is not None else (form.sand_kg or 0.0) + (form.clay_kg or 0.0)
    return figures | {"cost": sum(costs)} | ({"cost_per_kg": sum(costs) / made} if made else {})


def needs(form: ShoppingForm, figures: Figures) -> Needs:
    """Bags need a mass and the mass of a bag; the cost needs bags and prices of all that is bought."""
    priced = tuple(f"{one.kind}_{word}" for one in form.purchases if one.kg for word in ("bag_kg", "bag_price"))
    counted: dict[str, tuple[str, ...]] = {
        f"{one.kind}_{answer}": (f"{one.kind}_kg", f"{one.kind}_bag_kg")
        for one in form.purchases
        for answer in ("bags", "left_kg")
    }
    return counted | {"cost": priced, "cost_per_kg": priced}
