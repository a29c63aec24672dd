"""The words of “Look ahead”: what each cast burns, what is replaced, and where that leads."""

from __future__ import annotations

from sandmix.language.words import Error, Quantity, Word, quantities
from sandmix.vocabulary.share_words import DRY

_share = quantities("", low=0.0, high=1.0, digits=4, step=0.01, is_share=True)
_pct = quantities("%", DRY, low=0.0, high=1e9, digits=2, step=0.5, units=("%",), source="mass_balance")

CHAPTER: tuple[Word, ...] = (
    _share("clay_burnt_share", "Live clay burnt per cast", "share of the heap's live clay", usual=(0.001, 0.15), error=Error(relative=0.25), error_note="± a quarter: calculated, not weighed",
           help="Write 0.02 or 2 %. The page “After the pour” works it out: clay burnt, divided by all the live clay in the heap.", source="heat"),
    _share("new_sand_share", "Heap replaced per cast", "share of the heap, added clay included", usual=(0.005, 0.2), default=0.03, error=Error(relative=0.1, assumed=0.02), error_note="± 0.02 where assumed, ± a tenth where weighed",
           help="Lumps, crust, dust and spills that you replace with new sand. At home 1 to 3 %, or 0.01 to 0.03.", source="memory"),
    _share("burnt_kept_share", "Burnt clay that stays", "share of the burnt clay", default=1.0, error=Error(absolute=0.1, assumed=0.2), error_note="down to 0.8 where assumed, ± 0.1 where given",
           help="1 if all is mixed back. Less if you riddle out or scrape off the burnt crust.", source="own"),
    Quantity(name="casts", label="Casts", unit="", basis="whole casts", low=1, high=1000, usual=(3, 200), digits=0, step=1.0, help="For a heap, the casts so far without those undone. For “Look ahead”, how many casts to look at, such as a season.", source="own"),
    _pct("dead_clay_pct_dry", "Dead clay", high=60.0, usual=(0.0, 6.0), steps="casts", help="Clay that heat has killed and that is still in the sand. 2 to 4 % is often given as the limit (from memory).", error=Error(absolute=1.0, assumed=0.0), error_note="± 1 point where given: a wash test less the live clay"),
    _pct("dead_clay_limit_pct_dry", "Limit for dead clay", low=0.1, high=60.0, usual=(2.0, 4.0), default=3.0, help="Often 2 to 4 % (from memory). Above it the sand absorbs water and does not bond.", source="memory"),
    _pct("steady_clay_pct_dry", "Live clay in the long run", help="The level that this habit leads to."),
    _pct("steady_dead_clay_pct_dry", "Dead clay in the long run", help="The level that this habit leads to."),
    _pct("make_up_pct", "Live clay to add per cast", "per 100 of the dry heap", digits=3, help="Keeps the live clay at its level."),
    Quantity(name="casts_until_limit", label="Casts until dead clay reaches its limit", unit="", basis="whole casts", low=0, high=1e7, digits=0, source="mass_balance", help="Counted from the sand as it is now."),
)
