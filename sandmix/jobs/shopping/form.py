"""The form of *shopping*: how much sand and clay is needed, and how it is sold."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking.form import Form, ask, rule
from sandmix.language.errors import Problem
from sandmix.recipes import shopping


@dataclass(frozen=True, slots=True)
class Purchase:
    """One material to buy: how much is needed, how it is sold, and the usable share of a bag."""

    kind: str
    kg: float | None
    bag_kg: float | None
    bag_price: float | None
    usable: float = 1.0

    @property
    def bags(self) -> int | None:
        """Whole bags to buy, or None where a mass is missing."""
        return None if self.kg is None or self.bag_kg is None else shopping.bags(self.kg, self.bag_kg, self.usable)

    @property
    def cost(self) -> float | None:
        """What the bags cost, or None where that is unknown."""
        if self.bags is None or (self.bags and self.bag_price is None):
            return None
        return self.bags * (self.bag_price or 0.0)


OF_THE_MIX = "“Mix new sand” works it out."


@dataclass(frozen=True, slots=True, kw_only=True)
class ShoppingForm(Form):
    """How much sand and clay is needed, as bought, and how it is sold."""

    sand_kg: float | None = ask("sand_kg", first=True, exact=True, label="Sand needed", help=OF_THE_MIX)
    sand_bag_kg: float | None = ask("sand_bag_kg", first=True)
    clay_kg: float | None = ask("clay_kg", first=True, exact=True, label="Clay needed", help=OF_THE_MIX)
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

    @property
    def purchases(self) -> tuple[Purchase, Purchase]:
        """The sand and the clay."""
        return (
            Purchase("sand", self.sand_kg, self.sand_bag_kg, self.sand_bag_price, self.sand_yield_pct / 100),
            Purchase("clay", self.clay_kg, self.clay_bag_kg, self.clay_bag_price),
        )

    @rule
    def bags_can_be_counted(self) -> Iterable[Problem]:
        if all(one.bags is None for one in self.purchases):
            missing = next((f"{one.kind}_bag_kg" for one in self.purchases if one.kg is not None), "sand_kg")
            yield self.wrong(
                missing, "a mass", "this is not enough to count bags. Enter how much you need, and the mass of a bag."
            )
