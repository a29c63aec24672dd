"""The words of the pour: metal, crucible, what lifts the cope and what holds it down."""

from __future__ import annotations

from sandmix.language.words import Error, Quantity, Word, quantities
from sandmix.vocabulary.flask_words import cm3

_TEMPERATURES = ("°C", "°F")


_pct = quantities("%", low=0.0, high=100.0, digits=1, step=5.0, units=("%",))
_force = quantities("kg", low=0.0, high=1e6, digits=1, step=1.0, units=("kg", "lb"), source="geometry")
cm2 = quantities("cm2", low=0.1, high=100000.0, digits=0, step=10.0, units=("cm2", "mm2", "in2"), error=Error(relative=0.05), error_note="± 5 %", source="geometry")

CHAPTER: tuple[Word, ...] = (
    cm3("casting_volume_cm3", "Casting volume", low=0.1, usual=(10.0, 20000.0), default=None, help="The casting alone, without gating: what its pattern displaces in water, or mass over density."),
    _pct("gating_pct", "Gating", "of the casting's volume", high=400.0, usual=(20.0, 120.0), default=50.0, error=Error(absolute=10.0, assumed=25.0), error_note="± 25 points where assumed, ± 10 where measured",
         help="Sprue, runners and riser, as a share of the casting. 40 to 80 % is usual for small castings.", source="practice"),
    _pct("melt_loss_pct", "Melting loss", "of the charge", high=60.0, usual=(1.0, 30.0), step=1.0, error=Error(absolute=1.0), error_note="± 1 point where weighed, the band of the scrap where assumed",
         help="Skimmed off as dross. Left empty: by the kind of scrap.", source="memory"),
    Quantity(name="crucible_l", label="Crucible", unit="L", basis="to the brim", low=0.01, high=500.0, usual=(0.2, 20.0), digits=2, step=0.1, units=("L", "mL", "in3"), error=Error(relative=0.03), error_note="± 3 %",
             help="Fill it with water once and weigh that; then dry it thoroughly.", source="geometry"),
    cm2("projected_area_cm2", "Outline from above", basis="cavity and runners under the cope, seen from above", usual=(10.0, 5000.0),
        help="The shadow that the casting and the runners throw, never the curved area."),
    Quantity(name="head_mm", label="Head of metal", unit="mm", basis="top of the metal in the basin to the cavity's top", low=1.0, high=3000.0, usual=(40.0, 400.0), digits=0, step=5.0, units=("mm", "cm", "in"),
             error=Error(absolute=5.0), error_note="± 5 mm", help="Cope depth above the cavity, and the pouring cup that stands on it.", source="geometry"),
    Quantity(name="uplift_factor", label="Factor on the uplift", unit="", basis="times the uplift", low=1.0, high=5.0, usual=(1.3, 2.0), default=1.5, digits=2, step=0.1,
             help="1.3 to 1.5 has long been shop practice: metal that drops into the mould pushes harder than metal at rest.", source="shop_practice"),
    cm3("core_volume_cm3", "Core volume", help="Sand cores that the metal surrounds float in it. 0 for none."),
    Quantity(name="pour_temp_c", label="Pour temperature", unit="°C", basis="in the crucible, as it is poured", low=100.0, high=1700.0, usual=(450.0, 1450.0), digits=0, step=10.0, units=_TEMPERATURES,
             error=Error(absolute=10.0, assumed=25.0), error_note="± 25 where assumed, ± 10 with a probe", help="Left empty: the middle of what is usual for the metal.", source="pour_temperatures"),
    Quantity(name="fill_time_s", label="Time to fill", unit="s", basis="from first metal to full", low=0.5, high=300.0, usual=(2.0, 30.0), digits=0, step=1.0, units=("s",), error=Error(relative=0.2), error_note="± 20 %",
             help="For the choke: thin castings want a few seconds.", source="practice"),
    _force("charge_kg", "Charge to melt", "scrap as it goes in, clean and dry", digits=2, units=("kg", "g", "lb"), help="Casting and gating, what is skimmed off, and the spare.", source="mass_balance"),
    _pct("crucible_fill_pct", "Crucible filled to", "of what it holds to the brim", high=10000.0, digits=0, source="practice", help="75 to 85 % can be carried and skimmed."),
    _force("uplift_kg", "Uplift", "force on the cope, as the mass that weighs as much", help="What the metal lifts with."),
    _force("hold_down_kg", "To hold it down", "uplift times the factor", help="The cope counts towards it."),
    _force("weights_kg", "Weights to put on", "beside the cope itself", help="Put on just before pouring: early weights crush the mould. Clamps do as well."),
    Quantity(name="choke_mm2", label="Choke", unit="mm2", basis="least section of the gating", low=0.0, high=1e7, digits=0, units=("mm2", "in2"), source="torricelli", help="The narrowest place, usually the foot of the sprue."),
    Quantity(name="hydrogen_cm3_100g", label="Hydrogen it can hold", unit="", basis="cm³ per 100 g of liquid aluminium at one atmosphere", low=0.0, high=100.0, digits=2, source="talbot_1988",
             help="Solid aluminium holds about a nineteenth of what the melt does at its freezing point: the rest becomes pores."),
    Quantity(name="vents", label="Vent holes over the casting", unit="", basis="one each 40 mm", low=0, high=1e6, digits=0, source="practice", help="A 2 to 3 mm wire, to 12 mm above the pattern, and between riser and edge."),
)
