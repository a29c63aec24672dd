"""The words of several lots of sand that are blended into one."""

from __future__ import annotations

from dataclasses import replace

from sandmix.language.tables import Rows
from sandmix.language.texts import Text
from sandmix.language.words import Quantity, Word
from sandmix.vocabulary.mass_words import AS_IT_LIES, SCALE, SCALE_NOTE
from sandmix.vocabulary.share_words import CHAPTER as SHARES
from sandmix.vocabulary.sieve_words import RETAINED

MOST_LOTS = 6
_SHARES = {word.name: word for word in SHARES if isinstance(word, Quantity)}


def _of_lot(name: str) -> Quantity:
    return replace(_SHARES[name], default=0.0, usual=None)


CHAPTER: tuple[Word, ...] = (
    Rows(
        name="lots", label="Lots of sand", row_label="lot", fewest=1, most=MOST_LOTS, needed=("kg",), source="mass_balance",
        each=(
            Quantity(name="kg", label="Mass", unit="kg", basis=AS_IT_LIES, low=0.01, high=5000.0, digits=2, step=1.0, units=("kg", "g", "lb"), error=SCALE, error_note=SCALE_NOTE, source="mass_balance", help="With its water."),
            _of_lot("moisture_pct_wet"), _of_lot("clay_pct_dry"), _of_lot("dead_fines_pct_dry"), RETAINED,
        ),
        help="Each with its mass, and its moisture, clay, dead fines and sieves as far as known. What is left empty counts as none.",
    ),
    Quantity(name="plain_sand_kg", label="Plain sand to dilute it", unit="kg", basis="dry, without clay", low=0.0, high=1e9, digits=2, units=("kg", "g", "lb"), source="mass_balance", help="Brings the clay of the blend down to the target."),
    Quantity(name="lots_share_pct", label="Used of every lot", unit="%", basis="share of the lot", low=0.0, high=1e9, digits=1, units=("%",), source="mass_balance", help="The same share of each lot. Above 100 % there is not enough sand."),
    Quantity(name="target_gfn", label="Target fineness number", unit="", basis="of the grain, without clay", low=3.0, high=300.0, usual=(40.0, 160.0), digits=1, step=5.0, source="practice", help="Coarser sand vents better, finer sand shows more detail. 60 to 120 is usual for small castings."),
    Quantity(name="gfn_leeway", label="Allowed difference", unit="", basis="points of the fineness number", low=0.0, high=100.0, usual=(0.0, 15.0), default=0.0, digits=1, step=1.0, source="own", help="Within this difference, the blend with the widest spread over the sieves is chosen."),
    Quantity(name="gfn_off", label="Difference from the target", unit="", basis="points of the fineness number", low=0.0, high=300.0, digits=1, source="mass_balance", help="Between the number of the blend and the target."),
    Quantity(name="fullest_pct", label="On the fullest sieve", unit="%", basis="share of the grain", low=0.0, high=100.0, digits=1, units=("%",), source="mass_balance", help="The smaller it is, the wider the grain is spread."),
    Rows(
        name="take", label="What to take", row_label="lot", needed=("name", "kg", "grain_pct"), spoken=("name", "kg"), source="mass_balance",
        each=(
            Text(name="name", label="Lot", longest=40),
            Quantity(name="kg", label="To weigh", unit="kg", basis=AS_IT_LIES, low=0.0, high=1e6, digits=2, step=1.0, units=("kg", "g", "lb"), source="mass_balance"),
            Quantity(name="grain_pct", label="Share of the grain", unit="%", basis="of the blend's dry grain", low=0.0, high=100.0, digits=1, units=("%",), source="mass_balance"),
        ),
        help="Of each lot that goes in. Lots that are not listed stay out.",
    ),
)
