"""The bibliography: where each figure comes from, and how sure that is.

``how_sure`` is *read* (seen in the source, or in the copy or abstract that the row names), *memory* (from the trade, not confirmed),
*derived* (arithmetic on stated inputs), *practice* (common practice of the trade, without a source) or *own* (a rule or choice of this library).
A figure that is partly read and partly from memory has two keys.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """One source of figures; ``where`` is the place in it, and what it says there."""

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

# fmt: off
_ROWS = (
    # key, how sure, author or issuer, title, year, where in it
    # sand and clay
    ("quartz_density", "read", "Encyclopaedia Britannica", "Silica minerals", "", "table of properties: quartz 2.65"),
    ("bulk_density_table", "read", "Civil Today", "Bulk density of sand", "", "loose sand 1442, dry 1602, packed 1682 kg/m³, three separate rows"),
    ("bentonite_data_sheets", "read", "several suppliers", "Data sheets of bagged bentonite", "",
     "loose 590 to 960 kg/m³, moisture 10 to 15 %; e.g. Clearoff Minerals, calcium bentonite powder: 800 to 900, at most 14"),
    ("granules_data_sheet", "read", "Askangel", "Bentonite for cat litter", "2017", "0.9 to 1.1 g/cm³, moisture 9 to 12 %"),
    ("swell_volumes", "memory", "", "2 g of sodium bentonite swell to 24 to 36 mL, of calcium bentonite to about 8", "", ""),
    ("swell_test", "read", "ASTM D5890-19", "Swell index of clay mineral component of geosynthetic clay liners", "2019",
     "scope: ground until all passes 0.15 mm and 65 % passes 0.075 mm, dried; steps as a page about the test has them"),
    ("vingas_zrimsek_1964", "read", "Vingas, G. J., and Zrimsek, A. H.", "Thermal stability of bentonites in foundry molding sands", "1964",
     "Clays and Clay Minerals 13: bond lost at 1180 °F (sodium) and 600 °F (calcium)"),
    ("dehydroxylation", "read", "Derkowski, A., and Kuligiewicz, A.",
     "Thermal analysis and thermal reactions of smectites: a review of methodology, mechanisms, and kinetics", "2023",
     "Clays and Clay Minerals, abstract: 300 to 900 °C; about 300 kJ/mol in Mg-rich montmorillonite, above 170 in beidellite and nontronite"),
    ("jelinek_2014", "read", "Jelínek, P., Dobosz, S. M., Beňo, J., and Major-Gabryś, K.", "Thermostability of montmorillonitic clays", "2014",
     "China Foundry 11(3), abstract: fastest near 600 °C, or near 550 and 850 °C"),
    ("wear_factor", "derived", "Foundry lexicon (Giesserei-Lexikon)", "Entry “Wear factor”", "",
     "0.25 to 0.40 %, taken as kg of sand per kg of iron that loses its clay: so its example of “approx. 11 kg” comes to 10.7 kg"),
    # tests of sand
    ("tjfs_201", "read", "Japan Foundry Society", "TJFS-201, green sand moisture content test method", "", "dried at 105 ± 5 °C to constant mass"),
    ("tjfs_109", "read", "Japan Foundry Society", "TJFS-109, green sand water sensitivity test method", "", ""),
    ("tin_slope", "memory", "", "One percent of water moves the compactability of one sand by about 20 points, 10 to 45", "",
     "the same as a water sensitivity of 0.2 to 1.0"),
    ("compactability_ages", "read", "Ductile Iron Society", "Research project 40", "2007",
     "sealed samples keep their moisture while their compactability falls, as water moves into the clay"),
    ("icri_610", "read", "Heine, R. W., and Green, R. A., quoted by the Iron Casting Research Institute", "Report 610", "2003", "p. 16"),
    ("bcira_specimen", "read", "BCIRA", "Broadsheet 16-1, routine test procedures on moulding sand: preparation of standard test pieces", "",
     "14 lb dropped three times through 2 in; 155 to 160 g in 2 × 2 in"),
    ("bcira_methylene_blue", "read", "BCIRA", "Broadsheet on the methylene blue test for active clay", "", "5 g of dried sand, boiled 10 min"),
    ("permeability_lecture", "read", "", "Foundry shop, experiment 3: permeability number of green sand (teaching sheet)", "",
     "2000 cm³ through 5.08 cm and 20.268 cm²: 30072/(p t), which is 87 for 9.6 cm and 36 s"),
    ("afs_gfn", "read", "American Foundry Society", "Grain fineness number, as teaching texts give the procedure", "",
     "multipliers by sieve, clay excluded from the divisor, screens of 10 % or more"),
    ("iso_3310_1", "read", "ISO 3310-1 and ASTM E11", "Test sieves: nominal openings, neighbours in the ratio √2", "",
     "numbers and openings from 3.35 mm (No. 6) to 0.053 mm (No. 270)"),
    ("sieve_numbers", "memory", "ASTM E11", "Openings of the sieves without a multiplier for the fineness number, No. 4 to No. 400", "", ""),
    ("astm_c136", "read", "ASTM C136", "Sieve analysis of aggregates", "2014",
     "a laboratory's check sheet: masses before and after sieving agree within 0.3 %; for aggregates, not for moulding sand"),
    ("hot_sand", "read", "Foundry Management & Technology", "Solving hot-sand problems: a guide, and a solution", "2004",
     "120 to 160 °F (49 to 71 °C) mixes inconsistently; 160 °F and above is “excessively hot”"),
    ("scale_rounding", "derived", "", "Rounding to the scale's resolution: even spread of step/√12, two readings, 19 times in 20", "", ""),
    ("stokes", "derived", "", "Stokes' law: quartz of 20 µm sinks some 22 mm a minute in water", "", ""),
    ("feel_words", "memory", "", "What the words for a squeezed handful usually mean, for sand with 6 to 9 % clay, in % of the wet mass", "",
     "crumbles up to 2.3, weak to 3.0, holds with prints to 4.2, shiny or sticky to 5.5, leaves water above; each ± 1.2, a person ± 1.0"),
    ("feel_classes", "read", "USDA Natural Resources Conservation Service", "Soil moisture by feel and appearance, in a copy of the guideline", "",
     "classes a quarter of the available water wide; for loamy sand that is 0.9 to 1.7 points of moisture (worked out here)"),
    ("feel_temper", "read", "Foundry lexicon (Giesserei-Lexikon)", "Entry “Squeeze test”", "",
     "sands that feel equally moist may hold different amounts of water"),
    ("sas_individuals", "read", "SAS Institute", "SAS/QC user's guide, charts of individual readings and moving ranges", "",
     "E2 = k/d2, D4 = 1 + k d3/d2; example 9.4, 30 tires"),
    ("nelson_1982", "read", "Nelson, L. S., quoted by SAS Institute", "Control charts for individual measurements", "1982",
     "SAS/QC user's guide: moving ranges above 3.5 times their mean are left out"),
    ("montgomery_runger", "read", "Montgomery, D. C., and Runger, G. C.", "Applied statistics and probability for engineers", "",
     "p. 617 and table 16-3: limits of 20 single values; 43.9 points on average to find a shift of one sigma"),
    ("mccullagh_1980", "memory", "McCullagh, P.", "Regression models for ordinal data", "1980",
     "Journal of the Royal Statistical Society B 42, p. 109"),
    ("pratt_1981", "memory", "Pratt, J. W.", "Concavity of the log likelihood", "1981",
     "Journal of the American Statistical Association 76, p. 103"),
    ("mackay_1992", "memory", "MacKay, D. J. C.", "The evidence framework applied to classification networks", "1992",
     "Neural Computation 4, p. 720: the mean of a logistic curve over a normal variable"),
    # metal and pour
    ("alloy_356", "read", "SubsTech", "Cast aluminum alloy 356.0", "2012", "2680 kg/m³, 557 to 613 °C, 389 kJ/kg, 963 J/kgK, 167 W/mK"),
    ("alloy_heat_ends", "memory", "", "Al-Si alloys: latent heat to 500 kJ/kg, liquid specific heat to 1180 J/kgK as of pure aluminium", "", ""),
    ("alloy_lm6", "read", "several foundries", "Data sheets of LM6 (Al-Si12) to BS 1490:1988", "", "2.65 g/cm³, freezing range 575 to 565 °C"),
    ("alloy_za12", "read", "MakeItFrom.com", "Zinc-Aluminum 12 (ZA-12, Z35631)", "", "6.0 g/cm³, 380 to 430 °C, 120 kJ/kg, 450 J/kgK, shrink 1.3 %"),
    ("pour_temperatures", "memory", "", "Usual pour temperatures of aluminium, zinc, copper alloys and iron", "", ""),
    ("raji_2005", "read", "Raji, A.", "Effect of pouring temperature on the properties of Al-8%Si alloy sand cast components", "2005",
     "Global Journal of Engineering Research 4, abstract: poured at 650 to 850 °C; density and strength fall as it is hotter"),
    ("talbot_1988", "read", "Talbot, D. E. J., and Anyalebechi, P. N.", "Solubility of hydrogen in liquid aluminium", "1988",
     "Materials Science and Technology 4, p. 1, abstract: measured from 670 to 850 °C"),
    ("shop_practice", "read", "", "Shop Practice, volume 1, moulding, part 3", "", "150 lb on a lift of 104.8 lb"),
    ("torricelli", "derived", "", "Speed of a liquid that falls from a height, v = √(2 g h)", "", ""),
    ("dooley", "read", "Dooley, W. H.", "Applied Science for Metal Workers", "1919",
     "chapter XXXI: shrink per foot, iron 3/32, bronze 5/32, brass 3/16, aluminium and yellow brass 7/32 in"),
    ("shrink_bands", "memory", "", "Patternmaker's shrink: the other alloys, and how far each band reaches around the figures of dooley", "", ""),
    ("print_densities", "read", "additive.tools", "Materials: PLA; PETG", "", "printed: PLA 1.22 to 1.26, PETG 1.25 to 1.29 g/cm³"),
    ("pattern_densities", "memory", "", "Densities of the other pattern materials: ABS, woods, wax, plaster, metals", "", ""),
    # heat
    ("heat", "derived", "", "Conduction of heat from the casting into damp sand, see the method page", "", ""),
    ("flemings", "memory", "Flemings, M. C.", "Solidification Processing", "1974", "sand of 1500 kg/m³, 1130 J/kgK, 0.61 W/mK"),
    ("ghosh_mallik", "read", "Ghosh, A., and Mallik, A. K.", "Manufacturing Science", "", "sample problem 2.5: 1600 kg/m³, 1170 J/kgK, 0.8655 W/mK"),
    ("measured_contact", "read", "ZHY Casting", "In-depth study on interfacial heat transfer coefficients in sand casting", "",
     "plate of Al-Si7Mg, 150 × 150 × 50 mm, in resin-bonded sand: 61 to 108 W/m²K"),
    ("green_sand_contact", "read", "Godfrey, M., and others",
     "Heat transfer coefficient experimental modelling of aluminium 6061 shape casting in green-sand mould", "2026",
     "Int. J. of Latest Technology in Engineering, Management & Applied Science 14(12), abstract: square bar 73.7, round bar 98, plate 131.6 W/m²K"),
    # drying
    ("tetens_fao56", "read", "Allen, R. G., and others (FAO)", "Irrigation and drainage paper 56: saturation pressure after Tetens", "1998",
     "610.8 exp(17.27 t/(t + 237.3)) Pa, as the R package sirad and an NCAR function page have it"),
    ("moist_air", "read", "ASHRAE", "Equations of moist air, as the library psychrolib has them", "", "humidity ratio 0.621945, wet bulb above 0 °C"),
    ("evaporation", "derived", "", "Balance of heat and vapour at a wet surface that cools itself, see the method page", "", ""),
    ("lewis_number", "read", "Hokoi, S., in a notebook on building physics", "Ace environmental engineering II", "",
     "Lewis number 0.86, air 1006 J/kgK"),
    ("wind_film", "memory", "Jürges, W., and McAdams, W. H.", "Heat transfer of a surface in wind: 5.7 + 3.8 v W/m²K, up to 5 m/s", "", ""),
    ("front_model", "read", "OpenGeoSys", "Vapour diffusion in porous media after Penman, Millington and Quirk", "",
     "2.16e-5 (T/273.15)^1.8 m²/s in air; 0.66 times the porosity times the square of the air's share through soil"),
    ("normal_update", "derived", "", "A normal prior and a normal reading, weighted by their inverse variances; of a rate, its logarithm", "", ""),
    ("heat_to_dry", "derived", "", "Heat that warms water from 20 °C and boils it off, 2.6 MJ/kg, and warms sand, 1130 J/kgK", "", ""),
    ("critical_moisture", "memory", "Perry's Chemical Engineers' Handbook", "Critical moisture of beds of sand: 3 to 6 % of the dry mass", "", ""),
    # mould
    ("mechanical_processes", "read", "", "Mechanical Processes", "", "section 258: no bar of the cheek within about 3/4 inch of the pattern"),
    ("plywood_stiffness", "read", "Journal of the Korean Wood Science and Technology", "53(4), p. 429, table 3", "2025",
     "stiffness in bending of five kinds of plywood of one laboratory: 6861 to 8979 N/mm²"),
    ("beam", "derived", "", "Bending of a beam that rests at both ends: 5 q L⁴/(384 E I) and F L³/(48 E I)", "", ""),
    ("jaky", "read", "Jaky, J.", "Sideways pressure of sand at rest: 1 − sin of its angle of friction, for 25 to 35°", "1944",
     "as a collection of formulas for ground engineering quotes it"),
    ("steiner", "read", "Steiner, J., and Minkowski, H.", "Volume of everything within a distance of a convex body", "",
     "encyclopaedia article and its proof for smooth bodies"),
    ("facing_notes", "read", "", "Lecture notes on facing sand", "2025", "a layer of 20 to 30 mm; a weak source"),
    ("facing_share", "memory", "", "Facing is 10 to 15 % of the sand in a mould", "", ""),
    # carbon
    ("carbon_metals", "memory", "", "Aluminium and zinc need no carbon in the sand; copper alloys need little, 1 % as seacoal", "", ""),
    ("carbon_levels", "read", "", "Trade pages and a handbook excerpt on seacoal in green sand, and RMRC", "",
     "1.0 to 3.0 % and 0.1 to 0.8 % new per cycle; 2 to 3 % for light and 7 to 8 % for heavy work; about 5 %"),
    ("coal_data", "read", "", "Two trade pages on foundry coal", "",
     "volatiles 23 to 25 %, ash 10 to 11 % in low-ash coal, moisture 5 %; another: volatiles 27 %, ash 12 %, fixed carbon 58 %"),
    ("coal_at_482", "memory", "", "A data sheet gives volatiles at about 900 °C; at 482 °C coal gives less", "", ""),
    ("carbon_substitutes", "read", "", "Trade report on substitutes of seacoal", "",
     "gilsonite or asphalt at a third of the seacoal: the same volatiles at 482 °C, less than half the loss on ignition"),
    ("additive_losses", "memory", "", "Loss on ignition of gilsonite and asphalt; both figures of cellulose", "", ""),
    ("loss_in_use", "read", "", "Trade page on loss on ignition of green sand", "",
     "4.0 to 5.5, 2.5 to 4.5, 4.4 to 4.6 %; 3.7 with volatiles of 3.06; 2.0 to 2.2 with 1.4"),
    ("carbon_wear", "derived", "Foundry lexicon (Giesserei-Lexikon)", "Entry “Wear factor”", "",
     "carbon carriers 0.7 to 1.5 %, taken like its figure for bentonite: kg of sand per kg of iron that loses what it holds"),
    ("co_bound", "derived", "", "1 g of carbon becomes at most 28.01/12.011 g of carbon monoxide, 2.0 L at 20 °C", "", ""),
    ("co_foundries", "read", "", "Carbon monoxide in iron foundries, Scand. J. Work Environ. Health 2, suppl. 1, p. 37", "1976",
     "67 foundries: 26 % of non-smokers and 71 % of smokers above 6 % carboxyhaemoglobin"),
    ("mocek_2014", "read", "Mocek, J.", "Archives of Foundry Engineering 14(1)", "2014",
     "carbon monoxide forms also in sand without carbon, from the iron"),
    ("co_limits", "read", "", "Limits of carbon monoxide, as a page quotes OSHA and NIOSH", "",
     "50 ppm over 8 hours (OSHA); 35 ppm and a ceiling of 200 (NIOSH); 1200 at once dangerous"),
    ("coal_dust", "read", "", "Trade page on foundry coal", "", "coal dust: store it dry; risk of fire and explosion"),
    # storage
    ("covered_sand", "read", "", "Pages of two small home foundries on tempered sand", "",
     "under sacks, black plastic or a tarp it keeps its condition for several days"),
    ("mould_growth", "read", "", "General page on mould fungi and water activity", "",
     "little below 75 to 80 % humidity, none below a water activity of 0.65; a weak source"),
    ("frozen_clay", "read", "Al-Mahbashi and others; a study of bentonite barriers; Vadose Zone Journal", "Frost and bentonite", "2022",
     "abstracts: sand with bentonite unchanged in one study, a clay and sand liner changed strongly over 15 frosts in another"),
    ("baked_clay", "read", "", "A study of Rokle clay, abstract", "", "bentonite heated at 220 and 300 °C takes up less water than at 115 °C"),
    # shapes and numbers
    ("divergence_theorem", "derived", "", "Volume of a closed surface as a sum over its facets, a tetrahedron each", "", ""),
    ("schwartz_zippel", "memory", "Schwartz, J. T., and Zippel, R.", "A polynomial that is not zero is seldom zero at random points", "1980",
     "Journal of the ACM 27, p. 701; EUROSAM 1979"),
    ("ray_casting", "derived", "", "Parallel rays in square cells; what they miss is bounded by where they jump", "", ""),
    ("stl_format", "memory", "", "The STL file: 80 bytes, a count, and 50 bytes a facet; or text between solid and endsolid; no unit", "", ""),
    ("threemf_core", "memory", "3MF Consortium", "3D Manufacturing Format, core specification: units, transforms, components, build", "", ""),
    ("zip_appnote", "memory", "", "The ZIP file: list of files at its end, stored or deflated (RFC 1951)", "", ""),
    ("archimedes", "derived", "", "A body under water displaces its own volume", "", ""),
    ("bland_1977", "memory", "Bland, R. G.", "New finite pivoting rules for the simplex method", "1977", "Mathematics of Operations Research 2"),
    ("errors_in_variables", "memory", "Gull, S. F.", "Bayesian data analysis: straight-line fitting", "1989",
     "a straight line through readings with errors in both; taking the true x as spread anywhere makes the slope wrong"),
    ("birge_1932", "memory", "Birge, R. T.", "The calculation of errors by the method of least squares", "1932", "Physical Review 40, p. 207"),
    ("kalman", "memory", "Kalman, R. E.", "A new approach to linear filtering and prediction problems", "1960", "Journal of Basic Engineering 82"),
    ("mass_balance", "derived", "", "Mass balance, and the definitions of the two bases of moisture and clay", "", ""),
    ("geometry", "derived", "", "Geometry", "", ""),
    # defects
    ("casting_defect_lists", "read", "ExpertsMind; MechBasic", "Blow hole and pin hole porosity; What are the casting defects and its remedies", "",
     "blows from wet, fine, hard rammed or unvented sand; pin holes from gas in the metal or wet sand; misruns from cold metal"),
    ("friable_sand", "read", "", "Green sand should be flowable (teaching note)", "",
     "sand short of water: moulds break, sand washes into the metal, faces come out rough"),
    ("west_shrink_holes", "read", "West, T. D.", "Metallurgy of cast iron, with his lecture on shrink holes and blow holes", "1900",
     "shrink holes are in what freezes last: the upper part of solid castings and thick parts with thin ones beside; blow holes are smoother"),
    ("gas_pore_walls", "read", "Foseco", "Glossary, gas porosity", "",
     "gas: nearly round pores with smooth walls, evenly spread over large sections, unlike the rough walls of a void"),
    ("mould_shift", "read", "Groover, M. P.", "Principles of modern manufacturing, slides of the 4th edition", "2010",
     "a step at the parting from halves that moved sideways; a hollow or hole in what freezes last; very fluid metal runs between the grains"),
    ("defect_glossary", "read", "Engineering Hut", "Casting defects", "2010",
     "sand wash: rough lumps near the gates; hot tear: ragged, as the metal has just set"),
    ("defect_remedies", "read", "Mechanical Engineering", "Probable causes and suggested remedies of various casting defects", "2017",
     "pores: poured too hot, gas in the charge; hot tears: hard ramming, sand or core that does not give; shrinkage: gates and risers"),
    ("hot_tear_atlas", "read", "Investment Casting Institute", "Atlas of casting defects, entry “Hot tear”", "",
     "a jagged crack, mostly with an oxidised face, where shrinking is held, often where thick meets thin"),
    ("oxide_films", "read", "Foundry lexicon (Giesserei-Lexikon)", "Entry “Oxide film”", "",
     "films form while metal is melted, ladled and poured, above all with aluminium; avoid turbulence, and skim before the pour"),
    ("melt_time_hydrogen", "read", "ASM International", "Metals handbook, desk edition", "1998",
     "molten aluminium takes up hydrogen and oxidises more, the longer it is held; hydrogen widens the pores of shrinkage"),
    # work
    ("osha_silica", "read", "Occupational Safety and Health Administration", "29 CFR 1926.1153 and 1910.1053, respirable crystalline silica", "2016",
     "limit 50 µg/m³ and action level 25, as 8-hour means"),
    ("equipment_handbook", "read", "US Department of Defense", "Military handbook, general guidelines for electronic equipment", "",
     "guideline 4.3, as a page that quotes it has it: at 25 °C, controls at most 49 °C, other parts that people can touch at most 60 °C"),
    ("iso_13732", "memory", "ISO 13732-1", "Burn thresholds of hot surfaces", "2006",
     "bare metal: within a minute from about 51 °C, within seconds from about 60 °C"),
    ("hse_lifting", "read", "Health and Safety Executive", "Manual handling at work: a brief guide, INDG143", "2012",
     "guideline figures of about 25 kg for men and 16 kg for women between knuckle and waist height, close to the body; from the floor much less"),
    ("hse_lifting_filter", "read", "Health and Safety Executive", "Simple manual handling risk filters", "",
     "less with arms extended and at high or low levels; where the hands pass several zones, the smallest figure counts"),
    ("lifting_from_floor", "memory", "", "Guideline figures from the floor: about 10 kg for men and 7 kg for women, close to the body", "", ""),
    ("icsc_magnesium", "read", "ILO and WHO", "International Chemical Safety Card 0289, magnesium powder", "2019",
     "catches fire; gives off flammable gas with water; dry sand or special powder, no water"),
    ("osha_lead_brass", "read", "Occupational Safety and Health Administration", "News release 13-1902-MON, a company that handles brass", "2013",
     "workers overexposed to lead; respirators, clothing, no food or drink near it"),
    ("osha_eyes", "read", "Occupational Safety and Health Administration", "29 CFR 1926.102, table E-1, and 1910.133", "",
     "furnace work and molten metal: glare, heat, splash; filter lenses of a shade that suits the work, tinted lenses with molten metal"),
    ("niosh_carbon_monoxide", "read", "Nat. Institute for Occupational Safety and Health", "Preventing carbon monoxide poisoning, 96-118a", "1996",
     "no colour, no smell; open doors and fans do not prevent it; within minutes (of engines used indoors)"),
    ("foundry_gases", "read", "Int. Agency for Research on Cancer", "Monographs 100F, exposures during iron and steel founding", "2012",
     "substantial exposure to carbon monoxide and silica; more from carbon that was added to the sand as it breaks down in the heat"),
    ("degassing_tablets", "read", "Seldén, A.", "Occupational hexachloroethane exposure, in aluminium degassing, abstract of a thesis", "",
     "degassing with hexachloroethane gives off chlorobenzenes and other chlorine compounds, still found in workers years later"),
    # no source
    ("memory", "memory", "", "Trade knowledge", "", ""),
    ("practice", "practice", "", "Shop habit", "", ""),
    ("mull_and_rest", "practice", "", "Ten minutes of mulling for each batch, then an hour to a night of rest", "", ""),
    ("own", "own", "", "Rule or choice of this library", "", ""),
)
# fmt: on
SOURCES = {
    key: Source(key=key, author=author, title=title, year=year, where=where, how_sure=how_sure)
    for key, how_sure, author, title, year, where in _ROWS
}
