"""The words of the charge: the lots of scrap that are melted, and the metal that is left over."""

from __future__ import annotations

from sandmix.language.tables import Rows
from sandmix.language.texts import Text
from sandmix.language.words import Choice, Error, Quantity, Word, quantities
from sandmix.materials.metals import METALS, SCRAPS

MOST_LOTS = 12
_AS_IT_IS = "as it goes into the crucible"
_kg = quantities("kg", low=0.0, high=1e6, digits=2, step=1.0, units=("kg", "g", "lb"), source="mass_balance")

CHAPTER: tuple[Word, ...] = (
    Rows(
        name="scrap_lots", label="Scrap on hand", row_label="lot of scrap", most=MOST_LOTS, needed=("kg",), source="mass_balance",
        each=(
            Text(name="name", label="Name", longest=40, help="What you call it. If empty, what it is."),
            Choice(name="scrap", label="What it is", default="ingot", choices={key: scrap.label for key, scrap in SCRAPS.items()}),
            Quantity(name="kg", label="Mass", unit="kg", basis="clean and dry", low=0.001, high=5000.0, usual=(0.1, 50.0), digits=2, step=0.5, units=("kg", "g", "lb"), error=Error(relative=0.01), error_note="± 1 %", source="mass_balance"),
            Choice(name="alloy", label="Alloy", choices={key: metal.label for key, metal in METALS.items()}, help="If empty, the metal of the casting."),
            Quantity(name="melt_loss_pct", label="Melting loss", unit="%", basis="of this lot", low=0.0, high=60.0, digits=1, step=1.0, units=("%",), error=Error(absolute=1.0), error_note="± 1 point where weighed, the range of the scrap where assumed",
                     help="If empty, the loss above, or that of what it is.", source="memory"),
            Quantity(name="remelts_count", label="Melted before", unit="", basis="times", low=0, high=50, usual=(0, 5), default=0, digits=0, step=1, source="practice", help="How often you melted it already. New scrap and bought ingots count as 0."),
        ),
        help="Instead of one kind of scrap. The same share of each lot is melted.",
    ),
    _kg("scrap_kg", "Scrap on hand, together", _AS_IT_IS),
    _kg("scrap_short_kg", "Scrap that is missing", _AS_IT_IS, help="More of the same mixture."),
    _kg("scrap_left_kg", "Scrap that stays on the shelf", _AS_IT_IS),
    Rows(
        name="scrap_take", label="Scrap to weigh", row_label="lot of scrap", needed=("name", "kg"), spoken=("name", "kg"), source="mass_balance",
        each=(Text(name="name", label="Lot", longest=60), _kg("kg", "To weigh", _AS_IT_IS, digits=3)),
        help="The same share of each lot; what is missing of the charge is not in it.",
    ),
    _kg("ingot_kg", "Metal left over", "after the mould is full", help="The spare, as metal. Pour it into a dry, warm ingot mould, never back into the mould or onto the floor."),
    Quantity(name="ingot_cm3", label="Ingot mould for it", unit="cm³", basis="to the brim, liquid metal", low=0.0, high=1e9, digits=0, step=10.0, units=("cm³", "L", "in³"), source="mass_balance", help="At least this volume, so that nothing has to stay in the crucible."),
)
