"""The words of the tin as a dosing tool: its readings, how steep compactability is in water, and how much of that is a person's own."""

from __future__ import annotations

from sandmix.bench.tin_dosing import READING_PCT, SLOPE
from sandmix.language.words import Error, Quantity, Word, quantities
from sandmix.vocabulary.share_words import WET

_OWN = Error(absolute=READING_PCT)
_OWN_NOTE = "± 3 compared with your own readings of the same day (from memory)"
_pct = quantities("%", "height lost under three rams, in your own tin", low=0.0, high=80.0, usual=(25.0, 65.0), digits=0, step=1.0, units=("%",), source="bcira_specimen")
_g = quantities("g", "as weighed", low=1.0, high=20000.0, digits=0, step=10.0, units=("g", "kg", "oz"), source="tjfs_109")
_count = quantities("", low=0.0, high=1e6, digits=0, source="own")

CHAPTER: tuple[Word, ...] = (
    _pct("compactability_now_pct", "Compactability now", error=_OWN, error_note=_OWN_NOTE, help="Of sand that was mulled today. Or enter the two heights."),
    _pct("compactability_again_pct", "Second reading", error=_OWN, error_note=_OWN_NOTE, help="From a fresh handful, minutes later. The mean of both counts."),
    _pct("target_compactability_pct", "Target compactability", low=20.0, high=70.0, usual=(35.0, 50.0), default=45.0, help="35 to 50 works for most sand; 43 to 47 is best. If you know what suits your sand, enter that.", source="icri_610"),
    Quantity(name="compactability_slope", label="Slope", unit="", basis="points of compactability per 1 % of water (of the wet mass)", low=0.5, high=200.0, usual=(10.0, 45.0), typical=round(SLOPE.median), digits=1, step=1.0,
             error=Error(relative=0.2), error_note="± a fifth, unless you write 20 ± 2", help="Leave it empty if a book has your own tests. Ten divided by the water sensitivity is the same figure.", source="tin_slope"),
    _g("step_sand_g", "Sand of the step", usual=(500.0, 5000.0), help="A step shows the slope of your sand in a quarter of an hour: a sample of the sand that was just read, with a little water."),
    _g("step_water_g", "Water of the step", usual=(5.0, 50.0), help="Weighed in, and mulled for ten minutes. 10 g to each kilogram is usual: the standard test adds 1 %."),
    _pct("compactability_wetter_pct", "Compactability after the step", error=_OWN, error_note=_OWN_NOTE, help="Of the sample with its water.", source="tjfs_109"),
    Quantity(name="since_mulling_h", label="Time since mulling", unit="h", low=0.0, high=10000.0, usual=(0.0, 24.0), digits=1, step=0.5, units=("h", "min", "day"), help="Compactability falls while the sand stands, even if it keeps its moisture.", source="compactability_ages"),
    Quantity(name="moisture_step_pct_wet", label="Change of moisture needed", unit="%", basis=f"in points, {WET}", low=-25.0, high=25.0, digits=2, units=("%",), help="By how much the moisture must rise to reach the target; below 0, it must fall.", source="tjfs_109"),
    _count("tin_pairs", "Own pairs", basis="tin tests with the moisture of the same handful", help="From the heap book; those of one session count as one."),
    _count("tin_steps", "Own steps", basis="two tin tests of one session with known water between them", help="From the heap book."),
    _count("pairs_to_go", "More pairs needed", basis="until ten points of compactability are known to ± 0.35 points of moisture", help="At the slope as it is known now, with tests of the usual errors."),
    Quantity(name="prior_share_pct", label="Share that is not your own", unit="%", basis="of what is known of the slope", low=0.0, high=100.0, digits=0, units=("%",), help="100 % before your first test: the slope is then a general one.", source="tin_slope"),
)
