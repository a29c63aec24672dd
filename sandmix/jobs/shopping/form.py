"""The form of *shopping*: how much sand and clay is needed, and how it is sold."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking.form import Form, ask
from sandmix.language.errors import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class ShoppingForm(Form):
    """How much sand and clay is needed, as bought, and how it is sold."""

    sand_kg: float | None = ask("sand_kg", first=True, exact=True, label="Sand needed")
    sand_bag_kg: float | None = ask("sand_bag_kg", first=True)
    clay_kg: float | None = ask("clay_kg", first=True, exact=True, label="Clay needed")
    clay_bag_kg: float | None = ask("clay_bag_kg", first=True)
    sand_bag_price: float | None = ask("sand_bag_price")
    clay_bag_price: float | None = ask("clay_bag_price")
    sand_yield_pct: float = ask("sand_yield_pct", exact=True)
    make_kg: float | None = ask(
        "make_kg",
        exact=True,
        label="Moulding sand that it makes",
        help="Only for the cost per kilogram of finished sand.",
    )

    def problems(self) -> Iterable[Problem]:
        sand, clay = (self.sand_kg, self.sand_bag_kg), (self.clay_kg, self.clay_bag_kg)
        if None in sand and None in clay:
            missing = (
                "sand_bag_kg" if self.sand_kg is not None else "clay_bag_kg" if self.clay_kg is not None else "sand_kg"
            )
            yield self.wrong(
                missing, "a mass", "this is not enough to count bags. Enter how much you need, and the mass of a bag."
            )
