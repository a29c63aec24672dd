"""The words of the pour: metal, crucible, uplift, and what holds the cope down."""

from __future__ import annotations

from sandmix.language.words import Error, Quantity, Word, quantities
from sandmix.vocabulary.flask_words import cm3

_TEMPERATURES = ("°C", "°F")


_pct = quantities("%", low=0.0, high=100.0, digits=1, step=5.0, units=("%",))
_force = quantities("kg", low=0.0, high=1e6, digits=1, step=1.0, units=("kg", "lb"), source="geometry")
cm2 = quantities("cm²", low=0.1, high=100000.0, digits=0, step=10.0, units=("cm²", "mm²", "in²"), error=Error(relative=0.05), error_note="± 5 %", source="geometry")

CHAPTER: tuple[Word, ...] = (
    cm3("casting_volume_cm3", "Casting volume", low=0.1, usual=(10.0, 20000.0), default=None, help="The casting alone, without gating: the water that its pattern displaces, or mass divided by density."),
    _pct("gating_pct", "Gating", "of the casting's volume", high=10_000.0, usual=(20.0, 120.0), default=50.0, error=Error(absolute=10.0, assumed=25.0), error_note="± 25 points where assumed, ± 10 where measured",
         help="Sprue, runners and riser. 40 to 80 % is usual for small castings.", source="practice"),
    _pct("melt_loss_pct", "Melting loss", "of the charge", high=60.0, usual=(1.0, 30.0), step=1.0, error=Error(absolute=1.0), error_note="± 1 point where weighed, the range of the scrap where assumed",
         help="Skimmed off as dross. Leave empty to go by the kind of scrap.", source="memory"),
    Quantity(name="crucible_l", label="Crucible", unit="L", basis="to the brim", low=0.01, high=500.0, usual=(0.2, 20.0), digits=2, step=0.1, units=("L", "mL", "in³"), error=Error(relative=0.03), error_note="± 3 %",
             help="Fill it with water once and weigh the water. Then dry the crucible thoroughly.", source="geometry"),
    cm2("projected_area_cm2", "Projected area", basis="cavity and runners under the cope, seen from above", usual=(10.0, 5000.0),
        help="The area of the outline of casting and runners, seen from above. Not the curved surface."),
    Quantity(name="head_mm", label="Head of metal", unit="mm", basis="from the metal's surface in the pouring cup", low=1.0, high=3000.0, usual=(40.0, 400.0), digits=0, step=5.0, units=("mm", "cm", "in"),
             error=Error(absolute=5.0), error_note="± 5 mm", help="Down to the top of the cavity: cope depth above it, plus the pouring cup on top.", source="geometry"),
    Quantity(name="uplift_factor", label="Uplift factor", unit="", basis="times the uplift", low=1.0, high=5.0, usual=(1.3, 2.0), default=1.5, digits=2, step=0.1,
             help="1.3 to 1.5 is long-standing practice: metal that falls into the mould pushes harder than metal at rest.", source="shop_practice"),
    cm3("core_volume_cm3", "Core volume", help="Sand cores inside the metal float up. 0 for none."),
    Quantity(name="pour_temp_c", label="Pouring temperature", unit="°C", basis="in the crucible, when you pour", low=100.0, high=1700.0, usual=(450.0, 1450.0), digits=0, step=10.0, units=_TEMPERATURES,
             error=Error(absolute=10.0, assumed=25.0), error_note="± 25 where assumed, ± 10 with a probe", help="Leave empty for the middle of the usual range of the metal.", source="pour_temperatures"),
    Quantity(name="fill_time_s", label="Filling time", unit="s", basis="from first metal to full", low=0.1, high=300.0, usual=(1.0, 30.0), digits=1, step=1.0, units=("s",), error=Error(relative=0.2), error_note="± 20 %",
             help="Needed for the choke. Thin castings need a few seconds.", source="practice"),
    _force("charge_kg", "Charge to melt", "clean, dry scrap", digits=2, units=("kg", "g", "lb"), help="Casting and gating, melting loss, and the spare.", source="mass_balance"),
    _pct("crucible_fill_pct", "Crucible filled to", "of its volume to the brim", high=10000.0, digits=0, source="practice", help="75 to 85 % can still be carried and skimmed."),
    _force("uplift_kg", "Uplift", "upward force on the cope, shown as the mass of the same weight", help="How hard the metal lifts the cope."),
    _force("hold_down_kg", "Hold-down needed", "uplift times the factor", help="The weight of the cope counts towards it."),
    _force("weights_kg", "Weights needed", "in addition to the cope's own weight", help="What the figures give. The weights to put on are its high end, rounded up."),
    _force("put_on_kg", "Put on the cope", "in addition to the cope's own weight", digits=0, help="The high end of the weights, rounded up to whole kilograms, and at least 5 kg (own rule). Put them on just before you pour: earlier they crush the mould. Clamps work too.", source="own"),
    Quantity(name="choke_mm2", label="Choke", unit="mm²", basis="smallest cross-section of the gating", low=0.0, high=1e7, digits=0, units=("mm²", "in²"), source="torricelli", help="The narrowest place, usually the bottom of the sprue."),
    Quantity(name="hydrogen_cm3_100g", label="Hydrogen that the melt can hold", unit="", basis="cm³ per 100 g of liquid aluminium at one atmosphere", low=0.0, high=100.0, digits=2, source="talbot_1988",
             help="Solid aluminium holds about a nineteenth of what the melt holds at its freezing point. The rest becomes pores."),
    Quantity(name="vents", label="Vent holes over the casting", unit="", basis="one every 40 mm", low=0, high=1e6, digits=0, source="practice", help="Use a wire of 2 to 3 mm, to 12 mm above the pattern, and between riser and edge."),
)
