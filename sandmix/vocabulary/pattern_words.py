"""The words of the pattern: its file or its sizes, what was measured, and the size of the casting."""

from __future__ import annotations

from sandmix.language.tables import Rows, Sizes
from sandmix.language.texts import Text
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


def _place(name: str, label: str) -> Quantity:
    return Quantity(name=name, label=label, unit="mm", basis="in the axes of the file", low=-1e9, high=1e9, digits=1, source="geometry")


def _thick(name: str, label: str, basis: str, *, help: str = "") -> Quantity:
    return Quantity(name=name, label=label, unit="mm", basis=basis, low=0.0, high=1e6, digits=1, units=("mm", "in"), source="local_modulus" if "modulus" in name else "distance_transform", help=help)


CHAPTER: tuple[Word, ...] = (
    Upload(name="mesh", label="File of the shape", opens=opened, endings=ENDINGS, text_begins=("solid",), help="STL (binary or text) or 3MF. It stays on this device.", source="divergence_theorem"),
    Choice(name="unit", label="Unit the file was drawn in", choices=UNITS, help="An STL file doesn't name its unit; if left empty, millimetres are used. A 3MF file names its own unit, which is used.", source="stl_format"),
    Quantity(name="scale", label="Scale", unit="", basis="times the size in the file", low=0.001, high=1000.0, usual=(0.5, 2.0), default=1.0, digits=3, step=0.01, help="1 for the size as drawn. Don't include the shrink: it has its own box.", source="own"),
    Choice(name="up", label="Which way is up in the mould", choices=DIRECTIONS, default="+z", help="The cope is lifted off in this direction. Needed for the projected area and the volume above the casting.", source="own"),
    Choice(name="ways", label="Compare orientations", choices=YES_NO, default="no", help="For a file: compares six orientations and where to part each, by undercut, sand and uplift. Takes about three times as long.", source="own"),
    Choice(name="body", label="Plain shape", choices=BODIES, default="block", help="Given by its three sizes; the last one is its height.", source="geometry"),
    Quantity(name="bore_mm", label="Bore", unit="mm", basis="across", low=0.1, high=3000.0, usual=(5.0, 300.0), digits=0, step=1.0, units=("mm", "cm", "in"), error=Error(absolute=0.5), error_note="± 0.5 mm", help="The hole through a ring.", source="geometry"),
    Quantity(name="displaced_water_ml", label="Water displaced", unit="mL", basis="fully submerged", low=0.1, high=500000.0, usual=(10.0, 5000.0), digits=0, step=10.0, units=("mL", "L", "in³"), error=Error(absolute=5.0, relative=0.02), error_note="± 5 mL and 2 %",
             help="Fill a vessel to the brim, push the pattern fully under, and catch or weigh what runs over: 1 g is 1 mL. Varnish wood first.", source="archimedes"),
    Quantity(name="pattern_mass_g", label="Mass of the pattern", unit="g", basis="on the scale", low=0.1, high=500000.0, usual=(5.0, 5000.0), digits=0, step=10.0, units=("g", "kg", "oz", "lb"), error=Error(absolute=1.0), error_note="± 1 g", help="Without its handle and board.", source="mass_balance"),
    Choice(name="pattern_material", label="Pattern material", choices={material.key: material.label for material in MATERIALS.values()}, help="Sets its density.", source="memory"),
    Quantity(name="pattern_density_kg_l", label="Density of the pattern", unit="kg/L", basis="of its solid", low=0.01, high=23.0, usual=(0.3, 9.0), digits=2, step=0.05, units=("kg/L", "kg/m³", "lb/ft³"), error=Error(relative=0.02), error_note="± 2 % where measured, the range of the material where assumed",
             help="Leave empty to go by the material.", source="pattern_densities"),
    Quantity(name="infill_pct", label="Infill of the print", unit="%", basis="of the inside, as set for printing", low=0.0, high=100.0, usual=(5.0, 60.0), digits=0, step=5.0, units=("%",), error=Error(absolute=1.0), error_note="± 1 point",
             help="A print is hollow. Its walls are added separately, with a wide margin. Dipping it in water is more exact.", source="own"),
    Quantity(name="walls_pct", label="Walls of the print", unit="%", basis="of what the infill leaves open", low=0.0, high=100.0, usual=(10.0, 50.0), digits=0, step=5.0, units=("%",), error=Error(absolute=5.0), error_note="10 to 50 where assumed, ± 5 points where known",
             help="The share filled by walls, floors and roofs. If left empty, 30.", source="own"),
    Choice(name="measured", label="What was measured", choices=MEASURED, help="A pattern is longer than its casting by the shrink; a finished part is smaller by the machining stock. If left empty: the casting for a file or sizes, the pattern for water or a mass.", source="own"),
    Quantity(name="shrink_pct", label="Patternmaker's shrink", unit="%", basis="of the casting's length", low=0.0, high=5.0, usual=(0.7, 2.2), digits=2, step=0.1, units=("%",), error=Error(absolute=0.2), error_note="± 0.2 points where given, the range of the metal where assumed",
             help="Leave empty to go by the metal.", source="shrink_bands"),
    Quantity(name="machining_stock_mm", label="Machining stock", unit="mm", basis="on every face", low=0.0, high=50.0, usual=(0.5, 5.0), default=0.0, digits=1, step=0.5, units=("mm", "in"), error=Error(relative=0.2), error_note="± 20 %, edges counted", help="Added to a finished part; subtracted from a casting or a pattern to find the part. 0 for none.", source="practice"),
    cm3("volume_cm3", "Volume of what was measured", high=1e12, default=None, digits=1, help="As measured, before shrink and stock.", source="divergence_theorem"),
    cm2("area_cm2", "Surface of what was measured", low=0.0, high=1e12, digits=1, help="All of it, with hollows."),
    Flag(name="closed", label="Closed on all sides", help="Only a closed shape has a volume.", source="divergence_theorem"),
    Quantity(name="shells", label="Shells", unit="", basis="separate surfaces", low=0, high=1e9, digits=0, help="One for a plain solid, and one more for each hollow or loose piece.", source="divergence_theorem"),
    Quantity(name="facets", label="Facets", unit="", basis="in the file", low=0, high=1e9, digits=0, source="divergence_theorem"),
    Sizes(name="centre_mm", label="Centre of mass", each=_PLACE, count=3, between="/", help="The point where it balances, in the axes of the file.", source="divergence_theorem"),
    Quantity(name="column_cm3", label="Volume above the casting, up to its highest point", unit="cm³", basis="from its upper side to the level of its highest point", low=0.0, high=1e12, digits=0, units=("cm³", "in³", "L"), source="ray_casting",
             help="Where the casting is lower than its highest point, the metal lifts the cope harder: by the weight of this much metal."),
    Quantity(name="more_head_mm", label="Addition to the head of metal", unit="mm", basis="volume above it divided by projected area", low=0.0, high=1e6, digits=1, units=("mm", "in"), source="ray_casting", help="The head of metal is measured to the highest point. This corrects it to the mean height."),
    _thick("thickest_mm", "Thickest place", "of the casting, the largest ball that fits", help="Diameter of the largest ball inside. Where it is much more than the walls around it, the casting freezes last and may shrink there."),
    Rows(
        name="hot_places", label="Places that freeze last", row_label="place", most=9, needed=("said",), source="local_modulus",
        each=(Text(name="said", label="What it is"), _place("x_mm", "x"), _place("y_mm", "y"), _place("z_mm", "z"), _thick("thickness_mm", "Thickness", "largest ball that fits"),
              _thick("modulus_mm", "Modulus of the place", "volume over surface within its reach"), _thick("least_modulus_mm", "Least possible modulus", "if it were a ball"), _thick("most_modulus_mm", "Most possible modulus", "if it were a wide plate")),
        help="Each thick section with thinner metal around it, the one that freezes last first. The thickness is no modulus: a plate of the same thickness freezes later than a bar, and a bar later than a ball.",
    ),
    _kg("casting_kg", "Mass of the casting", "solid metal, without gating", help="Volume times the density of the solid metal. For several castings, all of them together."),
    _kg("part_kg", "Mass of the finished part", "machined", help="The casting less its machining stock."),
)
