"""The words of what a pour does: shape and contact, depths, burnt clay, driven water, and when to open."""

from __future__ import annotations

import math

from sandmix.language.tables import Sizes
from sandmix.language.words import Error, Quantity, Word, quantities
from sandmix.vocabulary.metal_words import cm2

PERFECT = "perfect"


_depth = quantities("mm", "from the casting's face", low=0.0, high=1e5, digits=1, units=("mm", "in"), source="heat")
_kg = quantities("kg", low=0.0, high=1e6, digits=3, units=("kg", "g", "lb"), source="heat")
_wait = quantities("min", "after the pour", low=0.0, high=1e7, digits=0, units=("min", "h"), source="heat")

_SIDE = Quantity(name="side_mm", label="Side", unit="mm", low=1.0, high=3000.0, units=("mm", "cm", "in"), source="geometry")

CHAPTER: tuple[Word, ...] = (
    cm2("casting_area_cm2", "Casting's whole surface", basis="all of it that touches sand", low=0.5, usual=(20.0, 20000.0), help="With the volume it gives the modulus, volume over surface."),
    Quantity(name="modulus_mm", label="Modulus", unit="mm", basis="volume over cooling surface", low=0.2, high=500.0, usual=(1.0, 40.0), digits=1, step=0.5, units=("mm", "cm", "in"), error=Error(relative=0.05), error_note="± 5 %",
             help="Of a plate half its thickness, of a bar a quarter of its width, of a ball a third of its radius.", source="geometry"),
    Sizes(name="box_mm", label="Box around the casting", each=_SIDE, count=3, help="Its three sides, as 200 x 100 x 20. It tells a plate from a bar and a ball.", source="geometry"),
    Quantity(name="contact_w_m2k", label="Contact of metal and sand", unit="W/m²K", basis="conductance of the gap", low=10.0, high=100000.0, usual=(50.0, 3000.0), digits=0, step=50.0, units=("W/m²K",), names={PERFECT: math.inf},
             help="Left empty: perfect contact for what burns, 108 for the times. Measured beside aluminium in sand moulds: 61 to 132.", source="measured_contact"),
    Quantity(name="clay_limit_c", label="Temperature that kills the clay", unit="°C", basis="where its bond is lost", low=100.0, high=1000.0, usual=(300.0, 700.0), digits=0, step=10.0, units=("°C", "°F"), error=Error(absolute=15.0), error_note="± 15",
             help="638 for sodium bentonite, 316 for calcium bentonite. Left empty: by the clay.", source="vingas_zrimsek_1964"),
    Quantity(name="activation_kj_mol", label="Activation energy of the clay's death", unit="", basis="kJ/mol, first order", low=100.0, high=500.0, usual=(170.0, 300.0), default=230.0, digits=0, step=10.0,
             error=Error(absolute=20.0), error_note="170 to 300 where assumed", help="Only for the answer by rate. Published: about 300 for montmorillonite, 170 for related clays; 230 is our choice between them.", source="dehydroxylation"),
    Quantity(name="flask_sand_kg", label="Sand in the flask", unit="kg", basis="as it lies, with its water", low=0.05, high=5000.0, usual=(2.0, 200.0), digits=1, step=1.0, units=("kg", "g", "lb"), error=Error(relative=0.03), error_note="± 3 %",
             help="What was rammed for this casting. No more than that can burn or dry.", source="mass_balance"),
    Quantity(name="wall_mm", label="Sand to the flask wall", unit="mm", basis="from the casting, all round", low=5.0, high=3000.0, usual=(25.0, 200.0), digits=0, step=5.0, units=("mm", "cm", "in"), error=Error(absolute=3.0), error_note="± 3 mm",
             help="Left empty: deeper than the heat goes.", source="geometry"),
    Quantity(name="freeze_s", label="Frozen through", unit="s", basis="the middle passes the solidus", low=0.0, high=1e9, digits=0, units=("s", "min"), source="heat", help="From the moment the mould is full."),
    _wait("solid_after_min", "Solid, with a margin", help="One and a half times the freezing time.", source="own"),
    _wait("open_after_min", "Open the mould", help="The middle of the casting has fallen to half its solidus in °C.", source="own"),
    _wait("handle_after_min", "Cool enough to handle", help="The middle of the casting is below 60 °C, left in the closed mould. Out of the sand it is sooner.", source="own"),
    _wait("bin_after_min", "Sand cool enough for a plastic bin", help="Opened, mixed, spread 50 mm deep and turned until it is below 49 °C.", source="own"),
    _depth("burnt_depth_mm", "Clay dead to a depth of", digits=2, help="The sand that was ever hotter than the clay's limit."),
    _depth("dry_depth_mm", "Dried to a depth of", help="The sand whose water has boiled off."),
    _kg("burnt_sand_kg", "Sand with dead clay", "dry sand", help="The shell around the casting, its curvature counted."),
    _kg("clay_burnt_kg", "Live clay burnt", "dry", help="The live clay of that shell."),
    _kg("clay_burnt_by_rate_kg", "The same, by rate instead of limit", "dry", help="First-order kinetics: hot for long counts more than hot for a moment. Beside the limit, not in place of it.", source="dehydroxylation"),
    Quantity(name="clay_loss_pct", label="Of the heap's live clay", unit="%", basis="of the live clay in the whole heap", low=0.0, high=100.0, digits=2, units=("%",), source="heat", help="What one such cast costs the heap."),
    _kg("water_driven_kg", "Water driven off", "boiled out of the dried shell", help="To be put back when the sand is cold."),
    Quantity(name="burnt_sand_per_metal", label="Sand with dead clay, per kg of casting", unit="", basis="kg of dry sand per kg of casting", low=0.0, high=1e4, digits=3, source="heat", help="The trade's way of saying it. Iron is put at 0.25 to 0.40."),
    Quantity(name="sand_mean_c", label="Sand when shaken out", unit="°C", basis="mean of all the sand in the flask, when opened and mixed", low=0.0, high=2000.0, digits=0, units=("°C", "°F"), source="heat",
             help="From 49 to 71 °C sand mulls unevenly; above 71 °C foundries call it excessively hot."),
)
