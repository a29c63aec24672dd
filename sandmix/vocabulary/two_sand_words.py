"""The words of “Facing and backing”: the layer, how the two sands flow into each other, and where both end."""

from __future__ import annotations

from sandmix.language.words import Choice, Error, Quantity, Word, quantities
from sandmix.vocabulary.fit_words import YES_NO
from sandmix.vocabulary.mass_words import AS_BOUGHT, AS_IT_LIES
from sandmix.vocabulary.share_words import DRY
from sandmix.vocabulary.stock_words import GFN_BASIS

IN_THE_LONG_RUN = "of the dry mass, in the long run"

_pct = quantities("%", DRY, low=0.0, high=100.0, digits=2, step=0.5, units=("%",), source="mass_balance")
_kg = quantities("kg", AS_IT_LIES, low=0.0, high=1e6, digits=2, step=0.5, units=("kg", "g", "lb"), source="mass_balance")
_season = quantities("kg", AS_BOUGHT, low=0.0, high=1e9, digits=1, units=("kg", "lb"), source="mass_balance")

CHAPTER: tuple[Word, ...] = (
    Choice(name="two_sands", label="Facing as a heap of its own", choices=YES_NO, default="no", help="If yes, the heap of the plan is the backing, and the plan works out the facing.", source="practice"),
    _pct("facing_clay_pct_dry", "Live clay of the facing", high=60.0, usual=(5.0, 12.0), default=8.0, error=Error(absolute=0.7, assumed=0.7), error_note="± 0.7 points: a careful home test",
         help="As you mix it. Facing often has a little more clay than backing.", source="practice"),
    _pct("facing_from_backing_pct_dry", "Share of the facing taken from the backing", "of the dry facing", usual=(0.0, 80.0), default=0.0, step=5.0,
         help="0 where facing is all new sand and clay. The rest of it is new.", source="own"),
    Quantity(name="facing_gfn", label="Fineness number of the new facing sand", unit="", basis=GFN_BASIS, low=3.0, high=300.0, usual=(40.0, 160.0), digits=1, step=5.0, source="mass_balance", help="With that of the backing, it shows how the backing's grain changes."),
    Quantity(name="facing_layer_mm", label="Facing layer", unit="mm", basis="from the pattern's face", low=0.0, high=1e5, digits=0, units=("mm", "in"), rounds_up=True, source="own", help="At least as deep as the pour dries the sand, and at least 20 mm."),
    _kg("facing_rammed_kg", "Facing for this mould", "rammed, with its water", help="The layer around the casting, with its curvature."),
    _kg("backing_kg", "Backing for this mould", "rammed, with its water", help="The rest of the sand in the flask."),
    _pct("facing_share_pct", "Facing, share of the sand in the flask", "of the sand in the flask", digits=0, help="10 to 15 % is usual (from memory)."),
    _kg("facing_joins_kg", "Facing that ends in the backing", "after the pour, with the water left in it", help="What is not thrown away with the crust."),
    _kg("facing_lost_kg", "Facing thrown away", "after the pour, with the water left in it", help="Crust, lumps and what sticks to the casting."),
    _pct("facing_end_clay_pct_dry", "Facing: live clay", IN_THE_LONG_RUN, help="As it is mixed, before the pour."),
    _pct("facing_end_dead_fines_pct_dry", "Facing: dead fines", IN_THE_LONG_RUN, help="As it is mixed, before the pour."),
    _pct("backing_end_clay_pct_dry", "Backing: live clay", IN_THE_LONG_RUN, help="Before each cast."),
    _pct("backing_end_dead_fines_pct_dry", "Backing: dead fines", IN_THE_LONG_RUN, help="Before each cast. What one more cast brings then leaves with the sand thrown away."),
    _pct("new_grain_pct", "Backing: grain that came as facing", "of the grain, after all these casts", digits=0, help="In the long run all of it: the backing takes on the grain of the facing."),
    Quantity(name="backing_gfn_after", label="Backing: fineness number after all these casts", unit="", basis=GFN_BASIS, low=0.0, high=300.0, digits=1, source="mass_balance", help="The mean of both numbers, by mass of grain."),
    _season("facing_sand_kg", "Facing: sand for all casts", help="At the rates of the long run."),
    _season("facing_clay_kg", "Facing: clay for all casts", help="At the rates of the long run."),
    _season("facing_water_kg", "Facing: water for all casts", "to add", help="At the rates of the long run, without what dries between casts."),
    _season("backing_sand_kg", "Backing: sand for all casts", help="Only where more leaves the backing than the facing brings."),
    _season("backing_clay_kg", "Backing: clay for all casts", help="Keeps its live clay, on top of what the facing brings."),
    _season("backing_water_kg", "Backing: water for all casts", "to add", help="Replaces what the pour drives off. Without what dries between casts."),
    _season("backing_discard_kg", "Backing to discard in all casts", AS_IT_LIES, help="The facing that joins it makes the heap grow by this much."),
)
