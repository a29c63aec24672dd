"""The words of estimates from several tests together: live clay, dead fines, bond and mulling."""

from __future__ import annotations

from sandmix.language.words import Error, Quantity, Word, quantities
from sandmix.vocabulary.share_words import DRY, WET

_pct = quantities("%", DRY, low=0.0, high=100.0, digits=2, step=0.5, units=("%",), source="icri_610")

CHAPTER: tuple[Word, ...] = (
    _pct("clay_blue_pct_dry", "Live clay by methylene blue", high=60.0, usual=(4.0, 12.0), error=Error(relative=0.09, absolute=0.2), error_note="± 9 % of it and 0.2 points: one titration (from memory)", source="bcira_methylene_blue", help="From “Test the sand”: the dye it took, compared with a clay that you know."),
    _pct("clay_book_pct_dry", "Live clay by the book", high=60.0, usual=(4.0, 12.0), error=Error(absolute=1.0), error_note="± 1 point, unless the book says better: write 7.5 ± 0.6", source="mass_balance", help="The clay that was mixed in, less what the casts have burnt."),
    _pct("ash_pct_dry", "Known ash and dust", high=60.0, usual=(0.0, 6.0), error=Error(absolute=0.5), error_note="± half a point", source="practice", help="What a wash removes but was never clay: ash of coal dust or wood, silt of the bought sand. The dead fines from the book are better."),
    _pct("clay_washed_pct_dry", "Live clay by the wash", source="mass_balance", help="The wash, less the fines known to be dead."),
    _pct("clay_mulled_pct_dry", "Live clay by moisture and compactability", help="For sand that is mulled as well as in a foundry."),
    _pct("equilibrium_moisture_pct_wet", "Moisture of the same sand, fully mulled", WET, help="At the same compactability. If your moisture is higher, the water is not worked in yet, or fines absorb it."),
    _pct("available_bond_pct", "Available bond", "share of the sand, as clay", help="Clay that could bond, from strength and moisture."),
    _pct("working_bond_pct", "Working bond", "share of the sand, as clay", help="Clay that does bond, from strength and compactability."),
    _pct("mulling_efficiency_pct", "Mulling efficiency", "working bond divided by available bond", digits=0, help="How much of the clay is worked in."),
    Quantity(name="agreement", label="How well the tests agree", unit="", basis="Birge ratio: 1 or less means that they agree", low=0.0, high=1e6, digits=1, source="birge_1932", help="Their spread, divided by what their uncertainties allow."),
)
