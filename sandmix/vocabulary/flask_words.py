"""The words of the flask: its sizes, its density, what it holds and weighs, and what is missing."""

from __future__ import annotations

from sandmix.language.words import Error, Quantity, Word, quantities
from sandmix.materials.sands_and_clays import RAMMED_KG_L
from sandmix.vocabulary.mass_words import AS_IT_LIES

INSIDE = "inside"


mm = quantities("mm", INSIDE, low=10.0, high=3000.0, usual=(80.0, 800.0), digits=0, step=5.0, units=("mm", "cm", "in"), error=Error(absolute=2.0), error_note="± 2 mm", source="geometry")
cm3 = quantities("cm³", low=0.0, high=500000.0, digits=0, step=50.0, units=("cm³", "in³", "L"), default=0.0, error=Error(relative=0.05), error_note="± 5 %", source="geometry")
kg = quantities("kg", "rammed", low=0.0, high=20000.0, digits=1, step=1.0, units=("kg", "g", "lb"), source="geometry")
litres = quantities("L", low=0.0, high=20000.0, digits=1, step=0.5, units=("L", "US gal", "imp gal"), source="geometry")

CHAPTER: tuple[Word, ...] = (
    mm("flask_length_mm", "Flask length", help="Inside the walls, the longer side."),
    mm("flask_width_mm", "Flask width", help="Inside the walls."),
    mm("drag_depth_mm", "Drag depth", "lower half, inside", usual=(40.0, 300.0), help="The lower half."),
    mm("cope_depth_mm", "Cope depth", "upper half, inside", low=0.0, usual=(0.0, 300.0), help="The upper half. 0 for an open-top mould."),
    cm3("pattern_volume_cm3", "Pattern volume", typical=400.0, help="The volume of water that it displaces."),
    cm3("gating_volume_cm3", "Gating volume", error=Error(relative=0.2), error_note="± 20 %", typical=100.0, help="The space in the sand for sprue, runners and riser."),
    litres("filler_l", "Filler blocks", "solid volume", default=0.0, help="Dry wood or brick in place of sand, at least 50 mm from the cavity.", error=Error(relative=0.05), error_note="± 5 %"),
    Quantity(name="rammed_density_kg_l", label="Rammed density", unit="kg/L", basis="rammed moulding sand, with its water", low=0.8, high=2.4, usual=(1.4, 1.75), default=RAMMED_KG_L, digits=2, step=0.01,
             units=("kg/L", "lb/ft³"), error=Error(absolute=0.03, assumed=0.10), error_note="± 0.10 where assumed, ± 0.03 where you weighed a full flask",
             help="Weigh one rammed flask, subtract the empty flask, and divide by its litres.", source="bcira_specimen"),
    Quantity(name="compactability_pct", label="Compactability", unit="%", basis="height lost under three rams", low=5, high=80, usual=(35, 55), default=45.0, digits=0, step=1.0,
             units=("%",), error=Error(absolute=3.0, assumed=5.0), error_note="± 5 where assumed", help="How far a column of riddled sand sinks under three rams.", source="bcira_specimen"),
    Quantity(name="spare_pct", label="Spare", unit="%", basis="on top of the rammed sand", low=0, high=200, usual=(15, 40), default=25.0, digits=0, step=5.0, units=("%",),
             help="For riddling, spills, facing and striking off: 20 to 30 %.", source="practice"),
    kg("frame_kg", "Empty flask", "both halves and their boards", default=0.0, error=Error(absolute=0.1), error_note="± 0.1 kg", typical=4.0, help="Added to the load of both halves. Left empty, that load is sand only."),
    mm("pattern_length_mm", "Pattern length", "outside", low=1.0, usual=(10.0, 600.0), help="The longer side, seen from above."),
    mm("pattern_width_mm", "Pattern width", "outside", low=1.0, usual=(10.0, 600.0), help="The other side, seen from above."),
    litres("flask_l", "Volume of the flask", "inside, both halves", digits=1),
    kg("rammed_kg", "Sand rammed in the mould", help="The volume of the flask less pattern, gating and filler, times the rammed density."),
    litres("loose_l", "Loose riddled sand", "before ramming", help="Spare included: what the bin must hold before ramming."),
    kg("surplus_kg", "Sand left over (negative: too little)", AS_IT_LIES, low=-20000.0, help="The heap less what the flask needs, spare included."),
    kg("drag_kg", "Load to lift: drag, sand only", help="The whole inside of the drag full of rammed sand: the heaviest case.", source="geometry"),
    kg("cope_kg", "Load to lift: cope, sand only", help="The whole inside of the cope full of rammed sand: the heaviest case.", source="geometry"),
    kg("both_kg", "Load to lift: both halves", "with the empty flask where its mass is known, nothing taken out", help="What you turn over. Without the mass of the empty flask it is sand only.", source="geometry"),
    mm("fits_length_mm", "Longest flask the heap fills", INSIDE, help="With the same depths and proportions, spare included."),
    litres("filler_to_add_l", "Filler blocks in place of the missing sand", "solid volume", help="Dry blocks, at least 50 mm from the cavity, in addition to filler already entered."),
    kg("mix_to_make_kg", "New sand to mix", AS_IT_LIES, help="What is missing, spare included."),
    mm("beside_mm", "Sand beside the casting, at least", "by the mass of the casting", source="memory", help="Between the casting and the wall."),
)
