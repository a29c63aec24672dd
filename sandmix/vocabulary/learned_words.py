"""The words of what a person's own readings teach: the learned figures that no other chapter has, and how many readings there are."""

from __future__ import annotations

from sandmix.language.words import Choice, Error, Quantity, Word, quantities
from sandmix.vocabulary.share_words import DRY, WET

FIGURES = {
    "rammed_density_kg_l": "rammed density",
    "strokes_per_100ml": "strokes of the spray bottle",
    "loss_a_cast_pct": "sand lost at a cast",
    "lid_loss_pct_day": "moisture lost a day under a lid",
    "open_loss_pct_day": "moisture lost a day in the open",
    "clay_activity_pct": "live share of the clay granules",
    "compactability_slope": "slope of compactability against water",
    "dead_fines_a_cast_pct_dry": "dead fines gained at a cast",
}
"""The figures that readings teach, by their words: each can be set back."""
LOSS, LID_LOSS, OPEN_LOSS = "loss_a_cast_pct", "lid_loss_pct_day", "open_loss_pct_day"
TAUGHT = tuple(word for word in FIGURES if word != "strokes_per_100ml")
"""Those that begin with a general figure."""

_pct = quantities("%", DRY, low=0.0, high=100.0, digits=2, step=0.1, units=("%",), source="own")
_a_day = quantities("", f"points a day, {WET}", low=-20.0, high=20.0, digits=2, step=0.05, source="own")

CHAPTER: tuple[Word, ...] = (
    Choice(name="learned_figure", label="Set back", choices=FIGURES, default="rammed_density_kg_l", help="Your readings of it before this entry no longer count. It begins again from the general figure.", source="own"),
    _pct("loss_a_cast_pct", "Sand lost at a cast", basis="of the sand in the mould", digits=1, usual=(0.5, 6.0), error=Error(relative=0.3), error_note="± 30 %, as of one weighed cast",
         help="Crust, lumps, sand on the casting and spills, in addition to what burns. An own figure counts like one weighed cast.", source="memory"),
    _a_day("lid_loss_pct_day", "Moisture lost a day under a lid", usual=(0.0, 0.1), help="From your own tests of the moisture, as the heap book counts it. Below 0 the sand draws damp."),
    _a_day("open_loss_pct_day", "Moisture lost a day in the open", usual=(0.0, 1.0), help="From your own tests of the moisture, as the heap book counts it. Below 0 the sand draws damp."),
    _pct("dead_fines_a_cast_pct_dry", "Dead fines gained at a cast", basis=f"in points, {DRY}", low=-50.0, high=50.0, usual=(0.0, 1.0), step=0.05, error=Error(absolute=0.1), error_note="± 0.1 points",
         help="Clay that a cast kills, and dust, as they add up between your tests of dead fines."),
    Quantity(name="own_readings", label="Own readings", unit="", basis="of all figures together", low=0.0, high=1e6, digits=0, help="Readings in the book that teach a figure here.", source="own"),
)
