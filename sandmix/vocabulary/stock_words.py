"""The words of what is on hand: a list of sands, clays, mixes and additives, with stock and price, and what comes of it."""

from __future__ import annotations

from sandmix.language.tables import Rows
from sandmix.language.texts import Text
from sandmix.language.words import Choice, Error, Quantity, Word, quantities
from sandmix.vocabulary.mass_words import AS_BOUGHT, AS_IT_LIES
from sandmix.vocabulary.share_words import DRY, WET
from sandmix.vocabulary.trade_words import OWN_CURRENCY

GFN_BASIS = "of the grain, clay left out"
KINDS = {"sand": "sand", "clay": "clay", "mix": "a fresh mix", "additive": "an additive"}


_kg = quantities("kg", low=0.0, high=1e6, digits=2, step=1.0, units=("kg", "g", "lb"), source="mass_balance")
_pct = quantities("%", low=0.0, high=100.0, digits=2, step=0.5, units=("%",))
_gfn = quantities("", GFN_BASIS, low=3.0, high=300.0, usual=(40.0, 160.0), digits=1, step=5.0, source="mass_balance")
_money = quantities("", OWN_CURRENCY, low=0.0, high=1e9, digits=2, step=1.0, source="own")

MATERIAL: tuple[Word, ...] = (
    Choice(name="kind", label="Kind", choices=KINDS, help="A fresh mix is sand that holds its clay already."),
    Text(name="name", label="Name", longest=40, help="What you call it. Left empty: its kind."),
    _kg("stock_kg", "On hand", AS_BOUGHT, high=5000.0, help="Left empty: as much as is needed."),
    _money("price_per_kg", "Price a kilogram", "in your own currency, as bought", high=1e6, help="Or a bag and its price."),
    Quantity(name="bag_kg", label="Bag", unit="kg", basis="printed on the bag", low=0.1, high=2000.0, usual=(1.0, 50.0), digits=1, step=1.0, units=("kg", "lb"), help="As sold.", source="own"),
    _money("bag_price", "Price of a bag", high=1e6),
    _pct("moisture_pct_wet", "Moisture", WET, high=30.0, error=Error(absolute=0.35), error_note="± 0.35 points where tested; for clay ± 3 where left empty", help="Left empty: 10 % for clay, 3.5 % for a mix, else 0.", source="memory"),
    _pct("clay_activity_pct", "Live share of the clay product", "share of the dry product", low=1.0, step=5.0, error=Error(absolute=5.0), error_note="± 5 points (from memory)", help="Of a clay alone. Left empty: 100 %, as for foundry bentonite.", source="memory"),
    _pct("clay_pct_dry", "Live clay", DRY, error=Error(absolute=0.7), error_note="± 0.7 points: a careful home test", help="Of a mix it is needed, of a sand it is 0 where left empty.", source="mass_balance"),
    _pct("dead_fines_pct_dry", "Dead clay and other fines", DRY, error=Error(absolute=1.0), error_note="± 1 point: a home wash test less the live clay", help="Left empty: none; of a clay, all that is not live.", source="mass_balance"),
    _gfn("gfn", "Grain fineness number", help="Needed of sand and mix where a window is asked for."),
)

CHAPTER: tuple[Word, ...] = (
    Rows(name="materials", label="Materials on hand", each=MATERIAL, needed=("kind",), row_label="material", most=40,
         help="In place of one sand and one clay: all that could go in. The plan takes what costs least.", source="own"),
    _kg("bin_kg", "What the bin holds", AS_IT_LIES, low=0.05, high=5000.0, usual=(2.0, 250.0), help="With the list of materials: no more than this is in it at any time.", source="own"),
    _gfn("heap_gfn", "Fineness number of the heap", help="With the list of materials, where a window is asked for."),
    _gfn("gfn_low", "Fineness number at least", help="With the list of materials. Below it the sand is too coarse, and castings come rough."),
    _gfn("gfn_high", "Fineness number at most", help="With the list of materials. Above it the sand is too fine to vent."),
    _pct("additive_pct_dry", "New additive wanted", DRY, high=20.0, usual=(0.0, 5.0), default=0.0, help="With the list of materials: what goes in anew, per 100 of dry sand. What the heap holds of it is not counted.", source="own"),
    Rows(name="plan", label="What to put in", each=(
            Text(name="name", label="Name", longest=40), Choice(name="kind", label="Kind", choices=KINDS), _kg("kg", "To weigh in", AS_BOUGHT)),
         needed=("name", "kind", "kg"), row_label="material", spoken=("name", "kg"), help="Of each material, as bought.", source="mass_balance"),
    _kg("mix_kg", "Fresh mix", AS_BOUGHT, help="Weigh it as it lies."),
    _kg("additive_kg", "Additive", AS_BOUGHT, help="Weigh it as it comes."),
    _gfn("gfn_after", "Fineness number afterwards", low=0.0, help="By mass of grain, a mean of the numbers given."),
    _kg("dilute_kg", "Diluted, it becomes", AS_IT_LIES, help="All of the heap kept and thinned until it meets the target. Stock and bin are not looked at."),
    _kg("dilute_added_kg", "To dilute, put in", AS_BOUGHT, help="All materials together."),
    _money("dilute_cost", "To dilute, it costs", help="By the kilogram."),
    _kg("dump_added_kg", "Mixed new, put in", AS_BOUGHT, help="The heap thrown out and the same mass mixed new. Stock and bin are not looked at."),
    _money("dump_cost", "Mixed new, it costs", help="By the kilogram."),
)
