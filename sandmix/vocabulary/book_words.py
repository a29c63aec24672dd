"""The words of the heap book: events, and what the heap is by them."""

from __future__ import annotations

from sandmix.language.texts import Data, Text, Timestamp
from sandmix.language.words import Error, Quantity, Word, quantities
from sandmix.vocabulary.mass_words import AS_IT_LIES, SCALE, SCALE_NOTE
from sandmix.vocabulary.share_words import DRY

_kg = quantities("kg", AS_IT_LIES, low=0.0, high=5000.0, digits=2, step=0.5, units=("kg", "g", "lb"), error=SCALE, error_note=SCALE_NOTE, source="mass_balance")
_pct = quantities("%", DRY, low=0.0, high=100.0, digits=2, step=0.5, units=("%",), source="mass_balance")

CHAPTER: tuple[Word, ...] = (
    Data(name="book", label="The book", help="All events of one heap, as they were saved."),
    Timestamp(name="now", label="Now", help="The clock of whoever asks: this library has none."),
    _kg("metal_kg", "Metal poured", "casting and gating together", low=0.001, usual=(0.1, 50.0), help="Weigh the casting with its gating on, or take the charge less what was left over."),
    Text(name="pattern", label="Pattern", longest=60, help="Your own name for it: the next cast of it is two taps."),
    _kg("sand_lost_kg", "Sand that did not come back", help="Crust, lumps, what stuck and what was spilled, if you weighed it. After three weighed casts your own figure is used where you do not. It counts as it lay: crust that you weigh apart, write down as thrown away, and not here too."),
    _kg("lost_kg", "Sand lost", low=0.001, help="As it lay, with its water."),
    _kg("split_kg", "Sand taken out", low=0.001),
    _kg("joined_kg", "Sand tipped in", low=0.001),
    Quantity(name="opened_after_min", label="Opened after", unit="min", basis="after the pour", low=0.0, high=100000.0, usual=(10.0, 1000.0), digits=0, step=5.0, units=("min", "h"), help="Kept with the cast.", source="own"),
    Quantity(name="compactability_read_pct", label="Compactability, as read", unit="%", basis="height lost under three rams", low=0, high=80, usual=(35, 55), digits=0, step=1.0, units=("%",),
             error=Error(absolute=5.0), error_note="± 5 at home", help="Kept with the heap, as a trend.", source="bcira_specimen"),
    _pct("other_fines_pct_dry", "Other fines", help="Silt, dust, and what a new clay brings as inactive."),
    Quantity(name="last_test_age_days", label="Age of the last test", unit="", basis="days", low=-1e6, high=1e6, digits=0, source="mass_balance", help="Since the heap was last weighed or tested."),
)
