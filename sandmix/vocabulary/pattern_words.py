"""The words of the pattern: its file or its sizes, what was measured, and how big the casting is."""

from __future__ import annotations

from sandmix.language.tables import Sizes
from sandmix.language.uploads import Flag, Upload
from sandmix.language.words import Choice, Error, Quantity, Word, quantities
from sandmix.mesh.mesh_file import ENDINGS, opened
from sandmix.mould.body import BODIES
from sandmix.mould.pattern import DIRECTIONS, MATERIALS, MEASURED
from sandmix.vocabulary.fit_words import YES_NO
from sandmix.vocabulary.flask_words import cm3
from sandmix.vocabulary.metal_words import cm2

UNITS = {"mm": "millimetres", "cm": "centimetres", "m": "metres", "in": "inches"}


_kg = quantities("kg", low=0.0, high=1e6, digits=3, units=("kg", "g", "lb"), source="geometry")

_PLACE = Quantity(name="place_mm", label="Place", unit="mm", low=-1e9, high=1e9, source="geometry")

CHAPTER: tuple[Word, ...] = (
    Upload(name="mesh", label="File of the shape", opens=opened, endings=ENDINGS, text_begins=("solid",), help="STL, binary or text, or 3MF. It stays on this device.", source="divergence_theorem"),
    Choice(name="unit", label="Unit the file was drawn in", choices=UNITS, help="An STL has none: left empty, millimetres. A 3MF names its own, which counts.", source="stl_format"),
    Quantity(name="scale", label="Scale", unit="", basis="times the size in the file", low=0.001, high=1000.0, usual=(0.5, 2.0), default=1.0, digits=3, step=0.01, help="1 for as drawn. Not the shrink: that is asked apart.", source="own"),
    Choice(name="up", label="Which way is up in the mould", choices=DIRECTIONS, default="+z", help="The cope comes off this way. For the outline and what lies over it.", source="own"),
    Choice(name="ways", label="Compare the ways up", choices=YES_NO, default="no", help="For a file: its six ways up and where to part each, by undercut, sand and uplift. Takes about three times as long.", source="own"),
    Choice(name="body", label="Plain shape", choices=BODIES, default="block", help="With the three sizes, the last of them standing up.", source="geometry"),
    Quantity(name="bore_mm", label="Bore", unit="mm", basis="across", low=0.1, high=3000.0, usual=(5.0, 300.0), digits=0, step=1.0, units=("mm", "cm", "in"), error=Error(absolute=0.5), error_note="± 0.5 mm", help="The hole of a ring, right through.", source="geometry"),
    Quantity(name="displaced_water_ml", label="Water it pushes aside", unit="mL", basis="dipped right under", low=0.1, high=500000.0, usual=(10.0, 5000.0), digits=0, step=10.0, units=("mL", "L", "in3"), error=Error(absolute=5.0, relative=0.02), error_note="± 5 mL and 2 %",
             help="Fill to the brim, dip it right under, catch or weigh what runs over: 1 g is 1 mL. Varnish wood first.", source="archimedes"),
    Quantity(name="pattern_mass_g", label="Mass of the pattern", unit="g", basis="on the scale", low=0.1, high=500000.0, usual=(5.0, 5000.0), digits=0, step=10.0, units=("g", "kg", "oz", "lb"), error=Error(absolute=1.0), error_note="± 1 g", help="Without its handle and board.", source="mass_balance"),
    Choice(name="pattern_material", label="What the pattern is made of", choices={material.key: material.label for material in MATERIALS.values()}, help="Sets its density.", source="memory"),
    Quantity(name="pattern_density_kg_l", label="Density of the pattern", unit="kg/L", basis="of its solid", low=0.01, high=23.0, usual=(0.3, 9.0), digits=2, step=0.05, units=("kg/L", "kg/m3", "lb/ft3"), error=Error(relative=0.02), error_note="± 2 % where measured, the band of the material where assumed",
             help="Left empty: by what it is made of.", source="pattern_densities"),
    Quantity(name="infill_pct", label="Infill of the print", unit="%", basis="of the inside, as it was sliced", low=0.0, high=100.0, usual=(5.0, 60.0), digits=0, step=5.0, units=("%",), error=Error(absolute=1.0), error_note="± 1 point",
             help="A print is hollow. Its walls are reckoned with on top, and widely. Dipping it in water tells better.", source="own"),
    Quantity(name="walls_pct", label="Walls of the print", unit="%", basis="of what the infill leaves open", low=0.0, high=100.0, usual=(10.0, 50.0), digits=0, step=5.0, units=("%",), error=Error(absolute=5.0), error_note="10 to 50 where assumed, ± 5 points where known",
             help="What walls, floors and roofs fill. Left empty: 30.", source="own"),
    Choice(name="measured", label="What was measured", choices=MEASURED, help="A pattern is longer than its casting by the shrink, a finished part smaller by the stock. Left empty: the casting for a file or sizes, the pattern for water or a mass.", source="own"),
    Quantity(name="shrink_pct", label="Patternmaker's shrink", unit="%", basis="of the casting's length", low=0.0, high=5.0, usual=(0.7, 2.2), digits=2, step=0.1, units=("%",), error=Error(absolute=0.2), error_note="± 0.2 points where given, the band of the metal where assumed",
             help="Left empty: by the metal.", source="shrink_bands"),
    Quantity(name="machining_stock_mm", label="Machining stock", unit="mm", basis="on every face", low=0.0, high=50.0, usual=(0.5, 5.0), default=0.0, digits=1, step=0.5, units=("mm", "in"), error=Error(relative=0.2), error_note="± 20 %, edges counted", help="Added to a finished part; taken off a casting or a pattern to tell the part. 0 for none.", source="practice"),
    cm3("volume_cm3", "Volume of what was measured", high=1e12, default=None, digits=1, help="As it is, before shrink and stock.", source="divergence_theorem"),
    cm2("area_cm2", "Surface of what was measured", low=0.0, high=1e12, digits=1, help="All of it, hollows too."),
    Flag(name="closed", label="Closed all round", help="Only a closed shape has a volume.", source="divergence_theorem"),
    Quantity(name="shells", label="Shells", unit="", basis="separate skins", low=0, high=1e9, digits=0, help="One for a plain solid; one more for each hollow or loose piece.", source="divergence_theorem"),
    Quantity(name="facets", label="Facets", unit="", basis="in the file", low=0, high=1e9, digits=0, source="divergence_theorem"),
    Sizes(name="centre_mm", label="Centre of mass", each=_PLACE, count=3, between="/", help="In the file's own axes: where it balances.", source="divergence_theorem"),
    Quantity(name="column_cm3", label="Space over it, up to its top", unit="cm3", basis="from its upper side to the level of its highest point", low=0.0, high=1e12, digits=0, units=("cm3", "in3", "L"), source="ray_casting",
             help="Metal lifts the cope harder where the casting falls away from its top: by this much more metal's weight."),
    Quantity(name="more_head_mm", label="Add to the head for that", unit="mm", basis="column over outline", low=0.0, high=1e6, digits=1, units=("mm", "in"), source="ray_casting", help="The head of metal is reckoned down to the highest point. This brings it down to the mean."),
    _kg("casting_kg", "The casting weighs", "solid metal, without gating", help="Volume times the density of the solid metal; of several castings, all of them."),
    _kg("part_kg", "The finished part weighs", "machined", help="The casting less its stock."),
)
