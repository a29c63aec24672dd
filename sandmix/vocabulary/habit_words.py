"""The words of a habit: what each cast burns, what is replaced, and where that leads."""

from __future__ import annotations

from sandmix.language.words import Error, Quantity, Word, quantities
from sandmix.vocabulary.share_words import DRY

_share = quantities("", low=0.0, high=1.0, digits=4, step=0.01, is_share=True)
_pct = quantities("%", DRY, low=0.0, high=1e9, digits=2, step=0.5, units=("%",), source="mass_balance")

CHAPTER: tuple[Word, ...] = (
    _share("clay_burnt_share", "Live clay that a cast burns", "share of the heap's live clay", usual=(0.001, 0.15), error=Error(relative=0.25), error_note="± a quarter: reckoned, not weighed",
           help="0.02, or 2 %. After the pour tells it: clay burnt over the live clay of the whole heap.", source="heat"),
    _share("new_sand_share", "Heap replaced each cast", "share of the heap, made-up clay counted in it", usual=(0.005, 0.2), default=0.03, error=Error(relative=0.1, assumed=0.02), error_note="± 0.02 where assumed, ± a tenth where weighed",
           help="Lumps, crust, dust and spills that new sand takes the place of: at home 1 to 3 %, or 0.01 to 0.03.", source="memory"),
    _share("burnt_kept_share", "Burnt clay that stays", "share of what burnt", default=1.0, error=Error(absolute=0.1, assumed=0.2), error_note="down to 0.8 where assumed, ± 0.1 where given",
           help="1 where all is mixed back. Less where the burnt crust is riddled out or scraped off.", source="own"),
    Quantity(name="casts", label="Casts", unit="", basis="whole casts", low=1, high=1000, usual=(3, 200), digits=0, step=1.0, help="Of a heap, those poured so far and not undone; looking ahead, how many alike, such as a season.", source="own"),
    _pct("dead_clay_pct_dry", "Dead clay", high=60.0, usual=(0.0, 6.0), steps="casts", help="Clay that heat has killed and that stayed in the sand. 2 to 4 % is often called the most (from memory).", error=Error(absolute=1.0, assumed=0.0), error_note="± 1 point where given: a wash test less the live clay"),
    _pct("dead_clay_limit_pct_dry", "Most dead clay allowed", low=0.1, high=60.0, usual=(2.0, 4.0), default=3.0, help="2 to 4 % from trade memory. Above it sand drinks water and does not bond.", source="memory"),
    _pct("steady_clay_pct_dry", "Live clay in the long run", help="Where the habit ends."),
    _pct("steady_dead_clay_pct_dry", "Dead clay in the long run", help="Where the habit ends."),
    _pct("make_up_pct", "Live clay to make up each cast", "per 100 of the dry heap", digits=3, help="Keeps the live clay where it is."),
    Quantity(name="casts_until_limit", label="Casts until dead clay is at its limit", unit="", basis="whole casts", low=0, high=1e7, digits=0, source="mass_balance", help="From the sand as it is now."),
)
