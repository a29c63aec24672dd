"""The words of materials on hand: sands, clays, mixes and additives with stock and price, and the plan made from them."""

from __future__ import annotations

from sandmix.language.tables import Rows
from sandmix.language.texts import Text
from sandmix.language.words import Choice, Error, Quantity, Word, quantities
from sandmix.vocabulary.mass_words import AS_BOUGHT, AS_IT_LIES
from sandmix.vocabulary.share_words import DRY, WET
from sandmix.vocabulary.trade_words import OWN_CURRENCY

GFN_BASIS = "of the grain, without clay"
KINDS = {"sand": "sand", "clay": "clay", "mix": "a fresh mix", "additive": "an additive"}


_kg = quantities("kg", low=0.0, high=1e6, digits=2, step=1.0, units=("kg", "g", "lb"), source="mass_balance")
_pct = quantities("%", low=0.0, high=100.0, digits=2, step=0.5, units=("%",))
_gfn = quantities("", GFN_BASIS, low=3.0, high=300.0, usual=(40.0, 160.0), digits=1, step=5.0, source="mass_balance")
_money = quantities("", OWN_CURRENCY, low=0.0, high=1e9, digits=2, step=1.0, source="own")

MATERIAL: tuple[Word, ...] = (
    Choice(name="kind", label="Kind", choices=KINDS, help="A fresh mix is sand that already contains its clay."),
    Text(name="name", label="Name", longest=40, help="What you call it. If empty, its kind."),
    _kg("stock_kg", "On hand", AS_BOUGHT, high=5000.0, help="Leave empty if there is as much as needed."),
    _money("price_per_kg", "Price per kilogram", "in your own currency, as bought", high=1e6, help="Or enter a bag and its price."),
    Quantity(name="bag_kg", label="Bag", unit="kg", basis="printed on the bag", low=0.1, high=2000.0, usual=(1.0, 50.0), digits=1, step=1.0, units=("kg", "lb"), help="As sold.", source="own"),
    _money("bag_price", "Price of a bag", high=1e6),
    _pct("moisture_pct_wet", "Moisture", WET, high=30.0, error=Error(absolute=0.35), error_note="± 0.35 points where tested; for clay ± 3 where left empty", help="If left empty: 10 % for clay, 3.5 % for a mix, otherwise 0.", source="memory"),
    _pct("clay_activity_pct", "Live share of the clay product", "share of the dry product", low=1.0, step=5.0, error=Error(absolute=5.0), error_note="± 5 points (from memory)", help="Only for a clay. If left empty, 100 %, as for foundry bentonite.", source="memory"),
    _pct("clay_pct_dry", "Live clay", DRY, error=Error(absolute=0.7), error_note="± 0.7 points: a careful home test", help="Needed for a mix. For a sand, 0 if left empty.", source="mass_balance"),
    _pct("dead_fines_pct_dry", "Dead fines", DRY, error=Error(absolute=1.0), error_note="± 1 point: a home wash test less the live clay", help="If left empty: none; for a clay, all that is not live.", source="mass_balance"),
    _gfn("gfn", "Grain fineness number", help="Needed for sand and mix if you set a fineness range."),
)

CHAPTER: tuple[Word, ...] = (
    Rows(name="materials", label="Materials on hand", each=MATERIAL, needed=("kind",), row_label="material", most=40,
         help="Instead of one sand and one clay: all materials that you could use. The plan takes the cheapest combination.", source="own"),
    _kg("bin_kg", "Bin capacity", AS_IT_LIES, low=0.05, high=5000.0, usual=(2.0, 250.0), help="The bin never holds more than this. Without a target mass the heap grows up to it.", source="own"),
    _gfn("heap_gfn", "Fineness number of the heap", help="With the list of materials, if you set a fineness range."),
    _gfn("gfn_low", "Lowest fineness number", help="With the list of materials. Below it the sand is too coarse and castings turn out rough."),
    _gfn("gfn_high", "Highest fineness number", help="With the list of materials. Above it the sand is too fine to vent."),
    _pct("additive_pct_dry", "New additive", DRY, high=20.0, usual=(0.0, 5.0), default=0.0, help="With the list of materials: new additive, per 100 of dry sand. Additive already in the heap is not counted.", source="own"),
    Rows(name="plan", label="What to add", each=(
            Text(name="name", label="Name", longest=40), Choice(name="kind", label="Kind", choices=KINDS), _kg("kg", "To weigh", AS_BOUGHT)),
         needed=("name", "kind", "kg"), row_label="material", spoken=("name", "kg"), help="Of each material, as bought.", source="mass_balance"),
    _kg("mix_kg", "Fresh mix", AS_BOUGHT, help="Weigh it with its water."),
    _kg("additive_kg", "Additive", AS_BOUGHT, help="Weigh it as it comes."),
    _gfn("gfn_after", "Fineness number afterwards", low=0.0, help="The mean of the numbers given, by mass of grain."),
    _kg("dilute_kg", "Mass if diluted", AS_IT_LIES, help="The whole heap is kept and diluted until it meets the target. This figure ignores your stock and the size of the bin."),
    _kg("dilute_added_kg", "Added if diluted", AS_BOUGHT, help="All materials together."),
    _money("dilute_cost", "Cost if diluted", help="By the kilogram."),
    _kg("dump_added_kg", "Added if mixed new", AS_BOUGHT, help="The heap is thrown out and the same mass mixed new. This figure ignores your stock and the size of the bin."),
    _money("dump_cost", "Cost if mixed new", help="By the kilogram."),
)
