"""The words of “Dump, dilute or keep”: what is lost anyway, prices of waste and water, and what each way through a season costs."""

from __future__ import annotations

from sandmix.language.tables import Rows
from sandmix.language.texts import Text
from sandmix.language.words import Error, Quantity, Word, quantities
from sandmix.vocabulary.mass_words import AS_BOUGHT, AS_IT_LIES
from sandmix.vocabulary.trade_words import OWN_CURRENCY

OF_HEAP = "of the heap, by dry mass"

_pct = quantities("%", OF_HEAP, low=0.0, high=100.0, digits=2, step=0.5, units=("%",), source="mass_balance")
_kg = quantities("kg", AS_BOUGHT, low=0.0, high=1e9, digits=1, units=("kg", "lb"), source="mass_balance")
_money = quantities("", OWN_CURRENCY, low=0.0, high=1e9, digits=2, step=0.1, source="own")

CHAPTER: tuple[Word, ...] = (
    Quantity(name="lost_share", label="Heap lost per cast in any case", unit="", basis="share of the heap", low=0.0, high=1.0, usual=(0.002, 0.05), typical=0.01, digits=4, step=0.005, is_share=True, error=Error(relative=0.2), error_note="± 0.01 where assumed, ± a fifth where weighed",
             help="Crust, lumps, dust and spills. It is replaced whatever you decide. Write 0.01 or 1 %. Leave empty for 1 %.", source="memory"),
    _money("waste_price", "Price of removing old sand", "in your own currency, per kg as it lies", high=1e6, default=0.0, help="What the tip or the skip charges. 0 where it costs nothing.", source="own"),
    _money("water_price", "Price of water", "in your own currency, per kg", high=1e6, default=0.0, step=0.001, digits=4, help="One litre is one kilogram. Usually too little to matter."),
    Quantity(name="keep_casts", label="Casts before any more sand has to go", unit="", basis="whole casts, with only the losses replaced", low=0, high=1e6, digits=0, source="mass_balance", help="From the sand as it is now."),
    _pct("now_share_pct", "Replace now", help="Where dead fines are above their limit already."),
    _pct("then_share_pct", "Then replace at each cast", help="What keeps dead fines at their limit, losses included."),
    _pct("equal_share_pct", "Least equal share to replace at each cast", help="If you replace the same share at each cast. Losses included."),
    _kg("equal_replace_kg", "Least equal amount to replace at each cast", AS_IT_LIES, digits=2, help="The same share, in kilograms."),
    Quantity(name="habit_casts_until_limit", label="Casts to the limit with today's habit", unit="", basis="whole casts", low=0, high=1e7, digits=0, source="mass_balance", help="Until dead fines are above their limit."),
    _money("keep_cost_per_cast", "Cost per cast: keep, then the least", help="Sand, clay, water and waste, by the kilogram."),
    _money("equal_cost_per_cast", "Cost per cast: equal share", help="Sand, clay, water and waste, by the kilogram."),
    _money("habit_cost_per_cast", "Cost per cast: today's habit", help="Sand, clay, water and waste, by the kilogram."),
    _kg("season_sand_kg", "Sand for all casts", help="For the cheapest way."),
    _kg("season_clay_kg", "Clay for all casts", help="For the cheapest way."),
    _kg("season_discard_kg", "Old sand that leaves in all casts", AS_IT_LIES, help="For the cheapest way, losses included."),
    Rows(
        name="season_ways", label="All ways through the season", row_label="way", most=9, needed=("way", "said"), spoken=("way", "said"), source="mass_balance",
        each=(
            Text(name="way", label="Way"), Text(name="said", label="What it takes"), _money("each_cost", "Cost per cast"), _kg("sand_kg", "Sand"), _kg("clay_kg", "Clay"),
            _kg("discard_kg", "Old sand that leaves", AS_IT_LIES), Quantity(name="end_pct", label="Dead fines at the end", unit="%", basis="of the dry mass", low=0.0, high=1e9, source="mass_balance"),
            Quantity(name="casts_above", label="Casts above the limit", unit="", low=0, high=1e6, digits=0, source="mass_balance"),
        ),
        help="Cheapest first, and those that keep the limit before those that don't.",
    ),
)
