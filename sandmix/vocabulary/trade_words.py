"""The words of buying: bags, prices, yields."""

from __future__ import annotations

from sandmix.language.words import Error, Quantity, Word, quantities

OWN_CURRENCY = "in your own currency"


_bag = quantities("kg", "printed on the bag", low=0.1, high=2000.0, usual=(1.0, 50.0), digits=1, step=1.0, units=("kg", "lb"), help="As sold.", source="own")
_money = quantities("", OWN_CURRENCY, low=0.0, high=1e6, digits=2, step=1.0, source="own")
_count = quantities("", "whole bags", low=0, high=1e9, digits=0, source="mass_balance")

CHAPTER: tuple[Word, ...] = (
    _bag("sand_bag_kg", "Bag of sand"),
    _bag("clay_bag_kg", "Bag of clay"),
    _money("sand_bag_price", "Price of a bag of sand"),
    _money("clay_bag_price", "Price of a bag of clay"),
    Quantity(name="sand_yield_pct", label="Sand left after screening", unit="%", basis="share of a bag", low=1, high=100, usual=(50, 100), default=100.0, digits=0, step=5.0, units=("%",),
             error=Error(absolute=3.0, assumed=0.0), error_note="± 3 points where weighed", help="100 if you use it as it comes. Play sand with pebbles may leave only 70.", source="practice"),
    _count("sand_bags", "Bags of sand"),
    _count("clay_bags", "Bags of clay"),
    Quantity(name="sand_left_kg", label="Sand left over", unit="kg", basis="screened", low=0, high=1e6, digits=1, units=("kg", "lb"), source="mass_balance"),
    Quantity(name="clay_left_kg", label="Clay left over", unit="kg", basis="as bought", low=0, high=1e6, digits=1, units=("kg", "lb"), source="mass_balance"),
    _money("cost", "Cost", high=1e9, help="Whole bags."),
    _money("cost_per_kg", "Cost per kilogram of sand made", "your own currency per kg", high=1e9,
           help="The whole bags, divided by the finished sand if it is given, otherwise by the sand and clay needed."),
)
