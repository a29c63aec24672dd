"""The words of “After the pour”: shape and contact, depths, burnt clay, evaporated water, and when to open."""

from __future__ import annotations

import math

from sandmix.cooling.freezing import CONTACTS_W_M2K, MEASURED_CONTACT_W_M2K
from sandmix.cooling.opening import LEAST_OPEN_S
from sandmix.language.tables import Sizes
from sandmix.language.words import Error, Quantity, Word, quantities
from sandmix.vocabulary.mass_words import AS_IT_LIES
from sandmix.vocabulary.metal_words import cm2

PERFECT = "perfect"


_depth = quantities("mm", "from the casting's face", low=0.0, high=1e5, digits=1, units=("mm", "in"), source="heat")
_kg = quantities("kg", low=0.0, high=1e6, digits=3, units=("kg", "g", "lb"), source="heat")
_wait = quantities("min", "after the pour", low=0.0, high=1e7, digits=0, units=("min", "h"), rounds_up=True, source="heat")

_SIDE = Quantity(name="side_mm", label="Side", unit="mm", low=1.0, high=3000.0, units=("mm", "cm", "in"), source="geometry")

CHAPTER: tuple[Word, ...] = (
    cm2("casting_area_cm2", "Total surface of the casting", "all of it that touches sand", low=0.5, usual=(20.0, 20000.0), help="Together with the volume it gives the modulus, volume divided by surface."),
    Quantity(name="modulus_mm", label="Modulus", unit="mm", basis="volume divided by cooling surface", low=0.2, high=500.0, usual=(1.0, 40.0), digits=1, step=0.5, units=("mm", "cm", "in"), error=Error(relative=0.05), error_note="± 5 %",
             help="Half the thickness of a plate, a quarter of the width of a square bar, a third of the radius of a ball.", source="geometry"),
    Sizes(name="box_mm", label="Box around the casting", each=_SIDE, count=3, basis="length x width x height", help="Its three sides, as 200 x 100 x 20. They show whether it is more like a plate, a bar or a ball.", source="geometry"),
    Quantity(name="contact_w_m2k", label="Contact between metal and sand", unit="W/m²K", basis="conductance of the gap", low=10.0, high=100000.0, usual=(50.0, 3000.0), digits=0, step=50.0, units=("W/m²K",), names={PERFECT: math.inf},
             help=f"Leave empty to cover the range: perfect contact for what burns, {MEASURED_CONTACT_W_M2K:g} for the times. Measured next to aluminium in sand moulds: {CONTACTS_W_M2K[0]:g} to {CONTACTS_W_M2K[1]:g}.", source="measured_contact"),
    Quantity(name="clay_limit_c", label="Temperature that kills the clay", unit="°C", basis="where it stops bonding", low=100.0, high=1000.0, usual=(300.0, 700.0), digits=0, step=10.0, units=("°C", "°F"), error=Error(absolute=15.0), error_note="± 15",
             help="638 for sodium bentonite, 316 for calcium bentonite. Leave empty to go by the clay.", source="vingas_zrimsek_1964"),
    Quantity(name="activation_kj_mol", label="Activation energy of losing the clay", unit="", basis="kJ/mol, first order", low=100.0, high=500.0, usual=(170.0, 300.0), default=230.0, digits=0, step=10.0,
             error=Error(absolute=20.0), error_note="170 to 300 where assumed", help="Only for the clay burnt by rate. Published: about 300 for montmorillonite, 170 for related clays; 230 is our choice between them.", source="dehydroxylation"),
    Quantity(name="flask_sand_kg", label="Sand in the flask", unit="kg", basis=AS_IT_LIES, low=0.05, high=5000.0, usual=(2.0, 200.0), digits=1, step=1.0, units=("kg", "g", "lb"), error=Error(relative=0.03), error_note="± 3 %",
             help="The sand rammed for this casting. It takes the heat, and no more than that can burn or dry.", source="mass_balance"),
    Quantity(name="gating_section_mm", label="Thickest round section of the gating", unit="mm", basis="diameter of sprue, riser or cup, whichever is thickest", low=2.0, high=1000.0, usual=(8.0, 120.0), digits=0, step=1.0, units=("mm", "cm", "in"), error=Error(absolute=1.0, assumed=15.0), error_note="± 1 mm where measured, from 0.6 to 1.6 times where assumed",
             help="It is often the last to freeze. Leave empty for 25 mm, and for castings above 1 kg 25 mm times the cube root of their mass in kg (own rule).", source="own"),
    Quantity(name="wall_mm", label="Sand to the flask wall", unit="mm", basis="from the casting, all around", low=5.0, high=3000.0, usual=(25.0, 200.0), digits=0, step=5.0, units=("mm", "cm", "in"), error=Error(absolute=3.0), error_note="± 3 mm",
             help="Leave empty if the sand is deeper than the heat goes.", source="geometry"),
    Quantity(name="freeze_s", label="Frozen through", unit="s", basis="the middle passes the solidus", low=0.0, high=1e9, digits=0, units=("s", "min"), source="heat", help="Counted from the moment the mould is full."),
    _wait("solid_after_min", "Casting solid, with a margin", help="One and a half times the freezing time of the casting. Its gating can still be liquid.", source="own"),
    _wait("casting_open_min", "Casting cool enough to open", help="The middle of the casting has cooled to half its solidus in °C. Its gating can still be liquid.", source="own"),
    _wait("open_after_min", "Open the mould", low=LEAST_OPEN_S / 60, help="The latest of: the middles of casting and gating at half their solidus in °C, both solid with a margin, and 10 min.", source="own"),
    _wait("handle_after_min", "Middle below 60 °C (still wear gloves)", help="The casting, if it stays in the closed mould. Out of the sand it cools sooner. Bare metal of 60 °C burns skin within seconds.", source="iso_13732"),
    _wait("bin_after_min", "Sand cool enough for a plastic bin", help="After opening: the hot layer mixed in, all of it spread 50 mm deep and turned, until neither its mean nor the hot layer by itself is above 49 °C.", source="own"),
    _depth("burnt_depth_mm", "Clay burnt to a depth of", digits=2, help="The sand that was hotter than the temperature limit of the clay at any time."),
    _depth("dry_depth_mm", "Dried to a depth of", help="The sand whose water has boiled off."),
    _kg("burnt_sand_kg", "Sand whose clay has burnt", "dry sand", help="The shell around the casting, with its curvature."),
    _kg("clay_burnt_kg", "Live clay burnt", "dry", help="The live clay of that shell."),
    _kg("clay_burnt_by_rate_kg", "Live clay burnt by rate", "dry", help="First-order kinetics: sand that stays hot for long loses more than sand that is hot for a moment. Shown for comparison with the limit.", source="dehydroxylation"),
    Quantity(name="clay_loss_pct", label="Live clay lost, share of the heap", unit="%", basis="of the live clay in the whole heap", low=0.0, high=100.0, digits=2, units=("%",), source="heat", help="What one such cast costs the heap."),
    _kg("water_driven_kg", "Water boiled off", "from the dried shell", help="Add it again when the sand is cold."),
    Quantity(name="burnt_sand_per_metal", label="Sand whose clay has burnt per kg of casting", unit="", basis="kg of dry sand per kg of casting", low=0.0, high=1e4, digits=3, source="heat", help="The form used in the trade, which gives 0.25 to 0.40 for iron."),
    Quantity(name="sand_mean_c", label="Sand temperature at shakeout", unit="°C", basis="mean of all the sand in the flask, when opened and mixed", low=0.0, high=2000.0, digits=0, units=("°C", "°F"), source="heat",
             help="From 49 to 71 °C sand mulls unevenly; above 71 °C foundries call it excessively hot."),
)
