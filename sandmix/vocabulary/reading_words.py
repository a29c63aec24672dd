"""The words of “Your own readings”: series of readings of one heap, and what was scrapped of a cast."""

from __future__ import annotations

from sandmix.defects.causes import CAUSES
from sandmix.language.tables import Picks, Table
from sandmix.language.words import Choice, Error, Quantity, Word, quantities

SERIES = {
    "moisture": "moisture test less the book",
    "compactability": "compactability",
    "tin": "sand in the tin",
    "scrap": "castings scrapped",
}
UNITS = {"moisture": "points", "compactability": "%", "tin": "g", "scrap": "%"}
BASIS = "points of the wet mass for moisture, % of the height for compactability, g for the tin, % of the castings for scrap"
_number = quantities("", low=0.0, high=1e6, digits=0, source="own")
_each = quantities("", BASIS, low=-1e6, high=1e6, digits=2, source="sas_individuals")
_pieces = quantities("", "whole castings", low=0.0, high=1000.0, digits=0, step=1.0, source="practice")

CHAPTER: tuple[Word, ...] = (
    Quantity(name="tin_g", label="Sand in your tin", unit="g", basis="rammed in your own way, with its water, without the tin", low=0.1, high=20000.0, usual=(50.0, 5000.0), digits=0, step=1.0,
             units=("g", "kg", "oz"), error=Error(relative=0.01, absolute=1.0), error_note="± 1 % and 1 g (own choice)", help="The same tin, filled and rammed the same way each time. Saved with the heap, to show a trend.", source="own"),
    _pieces("castings_made", "Castings poured", low=1.0, usual=(1, 50), help="In this cast, good and bad."),
    _pieces("castings_scrapped", "Castings scrapped", usual=(0, 10), help="Of those poured. Saved to show a trend; it changes nothing in the heap."),
    Choice(name="scrap_cause", label="Main cause of scrap", choices={cause.key: cause.label for cause in CAUSES.values()}, help="The one that spoiled most of them. If you don't know, ask What went wrong.", source="practice"),
    Table(name="readings_count", label="Readings", keys=SERIES, each=_number("series_count", "Readings", basis="points of the chart"), source="own", help="How many points each chart has."),
    Table(name="readings_mean", label="Mean", keys=SERIES, each=_each("series_mean", "Mean"), source="own", help="Of the readings that the limits are taken from.", shown_from=-1e6),
    Table(name="readings_low", label="Lower limit", keys=SERIES, each=_each("series_low", "Lower limit"), source="sas_individuals", help="Mean less 2.66 times the mean difference from one reading to the next.", shown_from=-1e6),
    Table(name="readings_high", label="Upper limit", keys=SERIES, each=_each("series_high", "Upper limit"), source="sas_individuals", help="Mean plus 2.66 times the mean difference from one reading to the next.", shown_from=-1e6),
    Picks(name="readings_outside", label="Last reading outside its limits", choices=SERIES, source="sas_individuals", help="By the limits of the readings before it."),
    Picks(name="readings_drifting", label="Slowly drifting", choices=SERIES, source="own", help="By a straight line through the last readings."),
    Table(name="scrap_causes", label="Castings scrapped, by main cause", keys={cause.key: cause.label for cause in CAUSES.values()} | {"unknown": "no cause given"}, each=_pieces("cause_scrapped", "Castings scrapped"), source="own",
          help="Of all casts in the book."),
)
