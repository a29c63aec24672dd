"""The bibliography: where each figure is from, and how sure that is.

``how_sure`` is *read* (seen in the source), *memory* (from the trade, not confirmed), *derived* (arithmetic on stated inputs),
*practice* (common practice of the trade, which has no source) or *own* (a rule or choice of this library).
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """One place that figures come from."""

    key: str
    author: str
    title: str
    year: str
    where: str
    how_sure: str

    @property
    def citation(self) -> str:
        """The source in one line, with how sure it is."""
        parts = [part for part in (self.author, self.title, self.where, self.year) if part]
        return f"{', '.join(parts)} ({HOW_SURE[self.how_sure]})"


HOW_SURE = {
    "read": "read in the source",
    "memory": "from memory, unsourced",
    "derived": "derived",
    "practice": "common practice, no source",
    "own": "own choice",
}

_ROWS = (
    (
        "tjfs_201",
        "Japan Foundry Society",
        "Testing standard TJFS-201: moisture of foundry sand",
        "",
        "dried at 105 ± 5 °C to constant mass",
        "read",
    ),
    (
        "icri_610",
        "Heine, R. W., and Green, R. A., in Iron Casting Research Institute",
        "Report 610",
        "2003",
        "p. 16",
        "read",
    ),
    (
        "vingas_zrimsek_1964",
        "Vingas, G. J., and Zrimsek, A. H.",
        "Thermal stability of bentonites in foundry molding sands",
        "1964",
        "Clays and Clay Minerals 13",
        "read",
    ),
    ("bcira_specimen", "BCIRA", "Broadsheet on the standard rammed specimen: 155 to 160 g in 2 × 2 in", "", "", "read"),
    ("quartz_handbook", "", "Handbook value for quartz, 2650 kg/m³", "", "", "read"),
    ("bulk_density_table", "", "Table of bulk densities: dry sand loose 1442, packed 1682 kg/m³", "", "", "read"),
    (
        "bentonite_data_sheets",
        "",
        "Data sheets for bagged bentonite: loose 590 to 960 kg/m³, moisture 8 to 15 %",
        "",
        "",
        "read",
    ),
    ("granules_data_sheet", "", "Data sheet for clay granules: 900 to 1100 kg/m³, moisture 9 to 12 %", "", "", "read"),
    ("hot_sand", "", "Foundry texts on hot sand: mulls badly above 49 °C, not at all above 71 °C", "", "", "read"),
    ("alloy_data_sheets", "", "Alloy data sheets", "", "", "read"),
    (
        "osha_silica",
        "Occupational Safety and Health Administration",
        "29 CFR 1926.1153 and 1910.1053, respirable crystalline silica",
        "",
        "limit 50 µg/m³ and action level 25, as 8 h means",
        "read",
    ),
    (
        "hse_lifting",
        "Health and Safety Executive",
        "Manual handling, guideline figures of about 25 kg for men and 16 kg for women close to the body",
        "",
        "",
        "read",
    ),
    (
        "flemings",
        "Flemings, M. C.",
        "Solidification Processing: sand of 1500 kg/m³, 1130 J/kgK, 0.61 W/mK",
        "1974",
        "",
        "memory",
    ),
    (
        "ghosh_mallik",
        "Ghosh, A., and Mallik, A. K.",
        "Manufacturing Science: sand of 1600 kg/m³, 1170 J/kgK, 0.8655 W/mK",
        "",
        "sample problem 2.5",
        "read",
    ),
    ("measured_contact", "", "Measured contact of aluminium plates with sand, 61 to 108 W/m²K", "", "", "read"),
    (
        "talbot_1988",
        "Talbot, D. E. J., and Anyalebechi, P. N.",
        "Solubility of hydrogen in liquid aluminium",
        "1988",
        "Materials Science and Technology 4, p. 1",
        "read",
    ),
    ("shop_practice", "", "Shop Practice, volume 1, moulding, part 3: 150 lb on a lift of 104.8 lb", "", "", "read"),
    (
        "pour_temperatures",
        "",
        "Foundry texts: aluminium 680 to 750 °C, defects rise above; copper alloys and iron from memory",
        "",
        "",
        "read",
    ),
    ("torricelli", "", "Flow from a height, v = √(2 g h)", "", "", "derived"),
    ("heat", "", "Conduction of heat from the casting into damp sand, see the method page", "", "", "derived"),
    (
        "dehydroxylation",
        "Jelínek, P., et al.; Derkowski, A., and Kuligiewicz, A.",
        "Dehydroxylation of montmorillonite: 300 to 900 °C, fastest near 600; 170 to 300 kJ/mol",
        "2014",
        "China Foundry 11(3); review",
        "read",
    ),
    (
        "wear_factor",
        "",
        "Foundry lexicon, wear factor of bentonite: clay lost as in 0.25 to 0.40 kg of sand per kg of iron",
        "",
        "",
        "read",
    ),
    (
        "scale_rounding",
        "",
        "A reading is rounded to the scale's step: even spread of step/√12, two readings, 95 %",
        "",
        "",
        "derived",
    ),
    (
        "bland_1977",
        "Bland, R. G.",
        "New finite pivoting rules for the simplex method",
        "1977",
        "Mathematics of Operations Research 2",
        "memory",
    ),
    (
        "iso_3310_1",
        "ISO 3310-1 and ASTM E11",
        "Test sieves: nominal openings, neighbours in the ratio √2",
        "",
        "numbers and openings from 3.35 mm (No. 6) to 0.053 mm (No. 270)",
        "read",
    ),
    (
        "swell_test",
        "ASTM D5890",
        "Swell index of clay: 2 g, dry and ground to pass 0.15 mm, into 100 mL a pinch at a time, read after 16 to 24 h",
        "2019",
        "its scope; the steps as a page about the test has them",
        "read",
    ),
    (
        "swell_volumes",
        "",
        "Swollen volume of 2 g in 100 mL: sodium bentonite 24 to 36 mL, calcium bentonite about 8",
        "",
        "",
        "memory",
    ),
    (
        "sieve_numbers",
        "ASTM E11",
        "Openings of the sieves that the fineness number has no multiplier for, No. 4 to No. 400",
        "",
        "",
        "memory",
    ),
    (
        "astm_c136",
        "ASTM C136",
        "Sieve analysis of aggregates: after sieving the mass agrees with that before to within 0.3 %",
        "2014",
        "read in a laboratory's check sheet of it; made for aggregates, not for moulding sand",
        "read",
    ),
    (
        "afs_gfn",
        "American Foundry Society",
        "Grain fineness number: multipliers by sieve, clay excluded from the divisor, screens of 10 % or more",
        "",
        "",
        "read",
    ),
    ("tjfs_109", "Japan Foundry Society", "Testing standard TJFS-109: water sensitivity", "", "", "read"),
    (
        "permeability_lecture",
        "",
        "Lecture example for the standard permeability test: 2000 cm³ through 5.08 cm and 20.268 cm²",
        "",
        "",
        "read",
    ),
    (
        "bcira_methylene_blue",
        "BCIRA",
        "Broadsheet 16-1, methylene blue test for active clay in green sand",
        "",
        "5 g of dried sand, boiled 10 min",
        "read",
    ),
    ("stokes", "", "Stokes' law: quartz of 20 µm sinks some 22 mm a minute in water", "", "", "derived"),
    (
        "birge_1932",
        "Birge, R. T.",
        "The calculation of errors by the method of least squares",
        "1932",
        "Physical Review 40, p. 207",
        "memory",
    ),
    (
        "mechanical_processes",
        "",
        "Mechanical Processes, section 258, flasks for green and dry sand moulds: no bar within about 3/4 inch of the pattern",
        "",
        "",
        "read",
    ),
    (
        "plywood_stiffness",
        "",
        "Stiffness of plywood in bending, five makes: 6861 to 8979 N/mm²",
        "2025",
        "Journal of the Korean Wood Science and Technology 53(4), p. 429, table 3",
        "read",
    ),
    ("beam", "", "Bending of a beam that rests at both ends: 5 q L⁴/(384 E I) and F L³/(48 E I)", "", "", "derived"),
    (
        "steiner",
        "Steiner, J., and Minkowski, H.",
        "Volume of all that is within a distance of a convex body",
        "",
        "encyclopaedia article and its proof for smooth bodies",
        "read",
    ),
    (
        "jaky",
        "Jaky, J.",
        "Pressure of sand at rest sideways: 1 − sin of its angle of friction, for 25 to 35°",
        "1944",
        "formula as collected for ground engineering",
        "read",
    ),
    (
        "divergence_theorem",
        "",
        "Volume of a closed surface as a sum over its facets, a tetrahedron each, by the divergence theorem",
        "",
        "",
        "derived",
    ),
    (
        "schwartz_zippel",
        "Schwartz, J. T., and Zippel, R.",
        "A polynomial that is not nought is seldom nought at random places",
        "1980",
        "Journal of the ACM 27, p. 701; EUROSAM 1979",
        "memory",
    ),
    ("ray_casting", "", "Parallel rays in square cells, what they miss bounded by where they jump", "", "", "derived"),
    (
        "stl_format",
        "",
        "The STL file: 80 bytes, a count, and 50 bytes a facet; or text between solid and endsolid; no unit",
        "",
        "",
        "memory",
    ),
    (
        "threemf_core",
        "3MF Consortium",
        "3D Manufacturing Format, core specification: units, transforms, components, build",
        "",
        "",
        "memory",
    ),
    ("zip_appnote", "", "The ZIP file: list of files at its end, stored or deflated (RFC 1951)", "", "", "memory"),
    ("archimedes", "", "A body dipped right under pushes its own volume of water aside", "", "", "derived"),
    (
        "dooley",
        "Dooley, W. H.",
        "Applied Science for Metal Workers: shrink per foot, iron 3/32, bronze 5/32, brass 3/16, aluminium and yellow brass 7/32 in",
        "",
        "chapter XXXI; the rest from memory",
        "read",
    ),
    (
        "print_densities",
        "",
        "Table of print materials: PLA 1.22 to 1.26, PETG 1.25 to 1.29 g/cm³; ABS, woods and wax from memory",
        "",
        "",
        "read",
    ),
    ("mass_balance", "", "Mass balance and the definitions of the two moisture and clay bases", "", "", "derived"),
    ("geometry", "", "Geometry", "", "", "derived"),
    ("memory", "", "Trade knowledge", "", "", "memory"),
    (
        "casting_defect_lists",
        "",
        "Teaching lists of casting defects: blows from wet, fine, hard rammed or unvented sand; pin holes from gas in the metal or wet sand",
        "",
        "",
        "read",
    ),
    (
        "friable_sand",
        "",
        "Teaching note on sand short of water: moulds break, sand washes into the metal, faces come out rough",
        "",
        "",
        "read",
    ),
    ("practice", "", "Shop habit", "", "", "practice"),
    ("own", "", "Rule or choice of this library", "", "", "own"),
)

SOURCES = {
    row[0]: Source(key=row[0], author=row[1], title=row[2], year=row[3], where=row[4], how_sure=row[5]) for row in _ROWS
}
