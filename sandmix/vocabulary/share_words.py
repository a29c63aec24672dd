"""Shares: moisture of the wet mass, clay and fines of the dry mass, and the properties of bought materials."""

from __future__ import annotations

from sandmix.language.words import Error, Quantity, Word, quantities

WET = "share of the wet mass"
DRY = "share of the dry mass"


_pct = quantities("%", low=0.0, high=100.0, digits=2, step=0.5, units=("%",))

CHAPTER: tuple[Word, ...] = (
    _pct(
        "moisture_pct_wet", "Moisture", WET, high=25.0, usual=(2.0, 6.0), step=0.1,
        error=Error(absolute=0.35), error_note="± 0.35 points: 500 g dried on a 1 g scale, and the difference between handfuls",
        help="Water as a share of the wet mass, as in foundries. As a share of the dry mass it is a little more.", source="tjfs_201",
    ),
    _pct("target_moisture_pct_wet", "Target moisture", WET, low=0.5, high=10.0, usual=(2.5, 4.5), step=0.1,
         help="3.5 % suits aluminium and zinc, 3.1 % copper alloys and iron.", source="memory"),
    _pct("mould_moisture_pct_wet", "Moisture to pour by", WET, high=25.0,
         help="What the heap has now by its book, or what the last test read where that alone says stop.", source="own"),
    _pct("moisture_pct_dry", "Moisture of the dry mass", DRY, help="The same water per 100 of dry mix, as in soil laboratories.", source="mass_balance"),
    _pct("standing_moisture_pct_wet", "Moisture of the mix", WET, help="With all its water, also where the materials bring more than the target.", source="mass_balance"),
    _pct(
        "sand_moisture_pct_wet", "Moisture of the bought sand", WET, high=20.0, usual=(0.0, 6.0), default=0.0, step=0.5,
        error=Error(absolute=0.35, assumed=0.2), error_note="± 0.2 points where kiln-dried is assumed, ± 0.35 where tested",
        help="0 for kiln-dried sand. Play sand from the bag often has 3 to 5 %: weigh 500 g, dry it, and weigh it again.", source="memory",
    ),
    _pct(
        "clay_moisture_pct_wet", "Moisture of the bagged clay", WET, high=30.0, usual=(6.0, 15.0), default=10.0, step=1.0,
        error=Error(absolute=1.0, assumed=3.0), error_note="± 3 points where assumed, ± 1 where tested",
        help="Bagged clay that looks dry still holds 10 to 15 % water.", source="bentonite_data_sheets",
    ),
    _pct(
        "clay_pct_dry", "Live clay", DRY, high=60.0, usual=(4.0, 12.0), steps="casts",
        error=Error(absolute=0.7), error_note="± 0.7 points: a careful home test",
        help="Clay that still bonds, per 100 of dry mix. Burnt clay does not count.", source="mass_balance",
    ),
    _pct("clay_pct_sand", "Live clay per 100 of dry sand", "per 100 of dry sand", high=150.0, usual=(4.0, 14.0),
         help="As in most recipes: parts of clay to 100 parts of sand.", source="mass_balance"),
    _pct("clay_pct_wet", "Live clay in the wet mix", WET, high=60.0, usual=(4.0, 12.0),
         help="Clay per 100 of everything, water included.", source="mass_balance"),
    _pct("target_clay_pct_dry", "Target live clay", DRY, low=0.0, high=60.0, usual=(5.0, 10.0),
         help="7 % is a usual start for aluminium. More clay needs more water and vents worse.", source="practice"),
    _pct(
        "dead_fines_pct_dry", "Dead fines", DRY, high=60.0, usual=(0.0, 8.0),
        error=Error(absolute=1.0), error_note="± 1 point: a home wash test less the live clay",
        help="All that a wash takes out, less the live clay: clay that no longer bonds, silt, dust.", source="mass_balance",
    ),
    _pct("dead_fines_limit_pct_dry", "Limit for dead fines", DRY, high=60.0, usual=(2.0, 10.0), default=6.0,
         help="Above it the sand absorbs water and does not bond.", source="memory"),
    _pct("dead_fines_after_pct_dry", "Dead fines afterwards", DRY, source="mass_balance", help="In the sand after you follow the plan."),
    _pct(
        "clay_activity_pct", "Live share of the clay product", "share of the dry product", typical=85.0, low=1.0, high=100.0, step=5.0,
        error=Error(absolute=5.0, assumed=5.0), error_note="± 5 points (from memory)",
        help="100 for bagged foundry bentonite. Ground granules have 50 to 85, and only a test shows which: leave it empty to get the range.", source="memory",
    ),
    Quantity(name="parts_sand", label="Parts of sand", unit="", basis="by volume, loose and dry", low=0.1, high=1000.0, usual=(5.0, 20.0), digits=1, step=1.0,
             help="By bucket. Damp sand takes up more space, so buckets of damp sand make a mix with more clay.", source="bulk_density_table"),
    Quantity(name="parts_clay", label="Parts of clay", unit="", basis="by volume, loose powder", low=0.01, high=1000.0, usual=(0.5, 3.0), digits=1, step=1.0,
             help="For the parts of sand given.", source="bentonite_data_sheets"),
    Quantity(name="water_per_clay", label="Water per kilogram of live clay", unit="", basis="kg of water in all, per kg of live clay", low=0.1, high=2.0,
             usual=(0.3, 0.6), default=0.44, digits=2, step=0.05, error=Error(absolute=0.05, assumed=0.11), error_note="0.33 to 0.55 where assumed",
             help="Used if no moisture is given. The squeeze or tin test decides, not this ratio.", source="icri_610"),
)
