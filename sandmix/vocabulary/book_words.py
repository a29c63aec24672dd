"""The words of the heap book: its events, and the heap that they lead to."""

from __future__ import annotations

from sandmix.language.texts import Data, Text, Timestamp
from sandmix.language.words import Error, Quantity, Word, quantities
from sandmix.vocabulary.mass_words import AS_IT_LIES, SCALE, SCALE_NOTE
from sandmix.vocabulary.share_words import DRY

_kg = quantities("kg", AS_IT_LIES, low=0.0, high=5000.0, digits=2, step=0.5, units=("kg", "g", "lb"), error=SCALE, error_note=SCALE_NOTE, source="mass_balance")
_pct = quantities("%", DRY, low=0.0, high=100.0, digits=2, step=0.5, units=("%",), source="mass_balance")

CHAPTER: tuple[Word, ...] = (
    Data(name="book", label="The book", help="All entries of one heap, as they were saved."),
    Data(name="casting", label="The casting", help="One casting as it was saved: its figures, and what was done for it."),
    Timestamp(name="now", label="Now", help="If it is left out: the time of the last entry in the book; in Python, with a book in a file, the clock of the computer."),
    _kg("metal_kg", "Metal poured", "casting and gating together", low=0.001, usual=(0.1, 50.0), help="Weigh the casting with its gating still on, or subtract what was left over from the charge."),
    Text(name="pattern", label="Pattern", longest=60, help="Your own name for it. The next cast of it then takes two taps."),
    _kg("sand_lost_kg", "Sand that did not come back", help="Crust, lumps, sand that stuck and spills, if you weighed them. Each weighed cast teaches the book what a cast of yours loses when you don't weigh. Weigh it with its water. If you weigh the crust separately, record it as thrown away and leave it out here."),
    _kg("water_added_kg", "Water then added", "after the test", help="What you sprayed in because of this test. One litre is one kilogram."),
    _kg("water_dried_kg", "Water then dried off", "after the test", help="By how much the sand got lighter because of this test."),
    _kg("lost_kg", "Sand lost", low=0.001),
    _kg("split_kg", "Sand taken out", low=0.001),
    _kg("joined_kg", "Sand added from elsewhere", low=0.001),
    Quantity(name="open_h", label="Open for", unit="h", basis="until now", low=0.1, high=10000.0, usual=(0.5, 200.0), digits=1, step=1.0, units=("h", "min", "day"), help="How long it stood without its lid. Leave empty if it stays open from now on.", source="own"),
    Quantity(name="heap_area_m2", label="Open surface of the heap", unit="m²", basis="seen from above", low=0.01, high=1000.0, usual=(0.1, 5.0), typical=0.3, digits=2, step=0.1, units=("m²", "cm²", "ft²"), error=Error(relative=0.1), error_note="± 10 %", help="Length times width of the chest, or of the pile.", source="geometry"),
    Quantity(name="opened_after_min", label="Opened after", unit="min", basis="after the pour", low=0.0, high=100000.0, usual=(10.0, 1000.0), digits=0, step=5.0, units=("min", "h"), help="The book compares it with the time at which the casting froze.", source="own"),
    Quantity(name="compactability_read_pct", label="Measured compactability", unit="%", basis="height lost under three rams", low=0, high=80, usual=(35, 55), digits=0, step=1.0, units=("%",),
             error=Error(absolute=5.0), error_note="± 5 at home", help="Saved with the heap, to show a trend.", source="bcira_specimen"),
    _pct("other_fines_pct_dry", "Other fines", help="Silt, dust, and the inactive part of new clay."),
    Quantity(name="last_test_age_days", label="Age of the last test", unit="", basis="days", low=-1e6, high=1e6, digits=0, source="mass_balance", help="Time since the heap was last weighed or tested."),
)
