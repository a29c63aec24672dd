"""The words of “Carbon in the sand”: the additive and its gauge, the level, what a cast takes, and the gas."""

from __future__ import annotations

from sandmix.language.tables import Rows
from sandmix.language.texts import Text
from sandmix.language.words import Choice, Error, Quantity, Word, quantities
from sandmix.recipes.carbon import ADDITIVES, BY_LOSS, BY_SEACOAL, BY_VOLATILES, VOLATILES_C
from sandmix.vocabulary.mass_words import AS_BOUGHT

GAUGES = {
    BY_SEACOAL: "seacoal: kg of it, or its like, in 100 kg of dry sand",
    BY_VOLATILES: "volatiles: loss of the dried sand at 482 °C, without air",
    BY_LOSS: "loss on ignition: loss of the dried sand when it burns in air",
}
DRY_SAND = "share of the dry sand, by the gauge chosen"

_pct = quantities("%", DRY_SAND, low=0.0, high=30.0, digits=2, step=0.5, units=("%",))
_own = quantities("%", "of the dry additive", low=1.0, high=100.0, digits=0, step=1.0, units=("%",), error=Error(absolute=2.0), error_note="± 2 points from a data sheet")
_kg = quantities("kg", AS_BOUGHT, low=0.0, high=1e6, digits=2, step=0.1, units=("kg", "g", "lb"), source="mass_balance")

CHAPTER: tuple[Word, ...] = (
    Choice(name="carbon_additive", label="Additive", choices={row.key: row.label for row in ADDITIVES.values()}, default="seacoal", help="They differ in volatiles: a third as much gilsonite or asphalt replaces seacoal.", source="carbon_substitutes"),
    Choice(name="carbon_gauge", label="Counted by", choices=GAUGES, default=BY_SEACOAL, help="Use one gauge for what is there and for the level. Loss on ignition and volatiles are different tests.", source="own"),
    _pct("carbon_target_pct", "Level you want", usual=(0.5, 8.0), help="As seacoal: 1 to 3 % at one works, 2 to 3 for light and 7 to 8 for heavy iron elsewhere. Leave empty for 3 % as seacoal for iron, 1 % for copper alloys.", source="carbon_levels"),
    _pct("carbon_now_pct", "Level there now", usual=(0.0, 8.0), error=Error(absolute=0.3), error_note="± 0.3 points: one test at home", help="By the same gauge, method and temperature as the level.", source="loss_in_use"),
    Quantity(name="carbon_test_c", label="Temperature of the test", unit="°C", basis="for both figures, at least an hour", low=200.0, high=1200.0, usual=(450.0, 1000.0), digits=0, step=10.0, units=("°C", "°F"), help=f"Volatiles: {VOLATILES_C:g} °C. Loss on ignition: what the method says, often 900 to 980 °C (from memory).", source="loss_in_use"),
    _own("additive_volatiles_pct", "Volatiles of the additive", help="From its data sheet. If empty, the range of its kind.", source="coal_data"),
    _own("additive_loss_pct", "Loss on ignition of the additive", help="100 less its ash, from its data sheet. If empty, the range of its kind.", source="coal_data"),
    Quantity(name="carbon_wear", label="Carbon carrier lost per kilogram of iron", unit="", basis="that of so many kg of sand per kg of iron", low=0.0, high=20.0, usual=(0.5, 2.0), default=1.1, digits=2, step=0.1, error=Error(absolute=0.2, assumed=0.4), error_note="0.7 to 1.5 where assumed", help="Only for iron. Other metals go by the heat of the casting.", source="carbon_wear"),
    Quantity(name="additive_per_sand", label="Additive per kilogram of dry sand", unit="", basis="grams as bought, per kg of dry sand", low=0.0, high=1e6, digits=1, source="mass_balance", help="For a small batch."),
    _kg("cast_metal_kg", "Metal of one cast", "casting and gating together", low=0.001, high=5000.0, usual=(0.1, 50.0), digits=2, step=0.5, error=Error(relative=0.02), error_note="± 2 %", help="For iron: it decides how much carbon a cast takes.", source="mass_balance"),
    _kg("additive_to_add_kg", "Additive to add", help="For all of the sand."),
    _kg("first_additive_kg", "First half of the additive", help="Add half, mull, test, then add the rest.", source="own"),
    _kg("additive_burnt_kg", "Lost in one cast", digits=3, help="What the next cast needs, if its sand all comes back."),
    _kg("additive_season_kg", "Lost in all casts", help="What a season needs on top of the first dose."),
    _kg("co_kg", "Carbon monoxide of one cast, at most", "if all that is lost were carbon and became this gas", digits=3, source="co_bound", help="An upper limit: 2.33 g for each gram of carbon."),
    Quantity(name="co_l", label="The same in litres", unit="L", basis="carbon monoxide at 20 °C", low=0.0, high=1e9, digits=0, units=("L",), source="co_bound", help="An upper limit: 2.0 L for each gram of carbon."),
    Quantity(name="co_air_m3", label="Air that thins it to 35 ppm, m³", unit="", basis="evenly mixed", low=0.0, high=1e9, digits=0, source="co_limits", help="35 ppm is a limit for a working day. Air does not mix evenly near a mould: it only shows the size."),
    Rows(
        name="additive_ways", label="The same level by each additive", row_label="additive", most=9, needed=("additive", "said"), spoken=("additive", "said"), source="carbon_substitutes",
        each=(Text(name="additive", label="Additive"), Text(name="said", label="What it takes"), _kg("kg", "To add")),
        help="By the middle figure of each kind.",
    ),
)
