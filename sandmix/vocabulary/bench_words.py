"""The words of the tests: which test, its readings, its figure, and how often it is done."""

from __future__ import annotations

from sandmix.bench.catalogue import TESTS
from sandmix.language.series import Series
from sandmix.language.words import Choice, Error, Quantity, Word, quantities
from sandmix.vocabulary.mass_words import AS_IT_LIES, SCALE, SCALE_NOTE
from sandmix.vocabulary.share_words import DRY, WET

SPECIMENS = {"us": "2 × 2 in", "metric": "50 × 50 mm"}
SCALES = {"ball": "blunt tip, the B scale", "cone": "pointed tip, the C scale"}
HEATS = {"482": "at 482 °C", "900": "at 900 °C, shut off from air"}
SQUEEZES = {
    "falls": "falls apart: far too dry",
    "crumbles": "holds, but the edges crumble: rather dry",
    "clean": "breaks clean with sharp edges: about right",
    "sticky": "wets the palm or sticks: too wet",
}
RULER = Error(absolute=1.0)
RULER_NOTE = "± 1 mm on a ruler"
_mm = quantities("mm", "on a ruler", low=1.0, high=1000.0, usual=(20.0, 300.0), digits=0, step=1.0, units=("mm", "cm", "in"), error=RULER, error_note=RULER_NOTE, source="geometry")
_g = quantities("g", low=0.0, high=20000.0, digits=2, step=1.0, units=("g", "oz"), source="mass_balance")
_ml = quantities("mL", low=0.0, high=10000.0, digits=1, step=1.0, units=("mL",))
_pct = quantities("%", low=0.0, high=100.0, digits=1, step=1.0, units=("%",))
_number = quantities("", low=0.0, high=1e6, digits=2, step=1.0, source="own")

_SAME_SAND = "of the same sand"
_ENDPOINT = "± 0.5 mL: the drop at which the ring shows (from memory)"

CHAPTER: tuple[Word, ...] = (
    Choice(name="test", label="Test", choices={test.key: test.label for test in TESTS.values()}, help="The test that you did.", source="practice"),
    Choice(name="manner", label="How it was done", choices={"home": "at home", "lab": "as a laboratory does it"}, default="home", help="Sets how much two such tests of the same sand differ.", source="memory"),
    _number("repeats", "Number of tests", basis="whole tests; the readings are their means", low=1, high=50, usual=(1, 6), default=1, digits=0, help="Each from a fresh handful. Enter the means of the readings.", source="own"),
    _number("wanted_error", "Target ±", typical=0.3, basis="in the unit of the figure, 19 times in 20", low=1e-4, high=1e4, step=0.1, help="Leave empty if you plan no more tests. For moisture, 0.3 means ± 0.3 points."),
    Series(name="history", label="Earlier figures", each=_number("earlier", "Earlier figure", basis="in the unit of the figure", high=1e5), count=1, most=200,
           help="From the same test on the same heap, in the same unit: 44; 46; 43. They show whether today's figure is unusual.", source="own"),
    _g("left_g", "Mass left", basis=_SAME_SAND, help="After washing, firing or dropping, weighed dry."),
    _ml("titre_ml", "Dye taken by the sample", basis="always of the same solution", high=1000.0, usual=(5.0, 100.0), error=Error(absolute=0.5), error_note=_ENDPOINT, help="Up to the drop where the pale ring stays.", source="bcira_methylene_blue"),
    _ml("calibration_ml", "Dye taken by the known clay", basis="of the same solution", low=0.5, high=1000.0, usual=(10.0, 100.0), error=Error(absolute=0.5), error_note=_ENDPOINT, help="Of the clay that you calibrate with, best your own bentonite.", source="bcira_methylene_blue"),
    _g("calibration_clay_g", "Known clay", basis="dry", low=0.001, high=100.0, usual=(0.1, 2.0), digits=3, step=0.1, help="The amount that took that dye.", source="bcira_methylene_blue"),
    Quantity(name="pressure_cm", label="Pressure", unit="cm", basis="of water", low=0.1, high=200.0, usual=(0.5, 20.0), digits=1, step=0.1, units=("cm", "mm", "in"), error=Error(absolute=0.1), error_note="± 1 mm of water", help="On the water gauge, while the air flows evenly.", source="permeability_lecture"),
    Quantity(name="time_s", label="Time", unit="s", basis="for 2000 cm³ of air", low=0.5, high=36000.0, usual=(5.0, 600.0), digits=1, step=1.0, units=("s", "min"), error=Error(absolute=0.5), error_note="± 0.5 s by hand", help="Read on a watch.", source="permeability_lecture"),
    Choice(name="specimen", label="Specimen", choices=SPECIMENS, default="us", help="Height and width of the rammed specimen.", source="bcira_specimen"),
    _mm("height_before_mm", "Height before ramming", low=5.0, usual=(60.0, 200.0), help="Of loose riddled sand, struck off level.", source="bcira_specimen"),
    _mm("height_after_mm", "Height after three rams", usual=(30.0, 150.0), help="From the bottom of the tin to the rammed face.", source="bcira_specimen"),
    Quantity(name="rammer_kg", label="Mass of the rammer", unit="kg", basis="all that falls", low=0.02, high=100.0, usual=(0.5, 10.0), digits=2, step=0.1, units=("kg", "g", "lb"), error=Error(relative=0.02), error_note="± 2 %", help="Weigh it once. With its fall and the width of the tin it shows whether the blow is that of the standard.", source="bcira_specimen"),
    _mm("rammer_fall_mm", "Fall of the rammer", "from its lowest point to the sand", high=3000.0, usual=(20.0, 500.0), step=5.0, error=Error(absolute=3.0), error_note="± 3 mm", help="The same for all three blows.", source="bcira_specimen"),
    _pct("moisture_first_pct_wet", "Moisture of the first test", WET, high=25.0, usual=(1.5, 7.0), digits=2, step=0.1, error=Error(absolute=0.35), error_note="± 0.35 points: 500 g on a 1 g scale", source="tjfs_109", help="Of the sand as it was."),
    _pct("moisture_second_pct_wet", "Moisture of the second test", WET, high=25.0, usual=(1.5, 7.0), digits=2, step=0.1, error=Error(absolute=0.35), error_note="± 0.35 points: 500 g on a 1 g scale", source="tjfs_109", help="Of the same sand, damper or drier."),
    _pct("compactability_first_pct", "Compactability of the first test", "height lost under three rams", high=80.0, usual=(20.0, 65.0), error=Error(absolute=3.0), error_note="± 3 compared with your own last reading", source="tjfs_109", help="At the first moisture."),
    _pct("compactability_second_pct", "Compactability of the second test", "height lost under three rams", high=80.0, usual=(20.0, 65.0), error=Error(absolute=3.0), error_note="± 3 compared with your own last reading", source="tjfs_109", help="At the second moisture."),
    Quantity(name="load_kg", label="Breaking load", unit="kg", basis="weighed, on the end of the specimen", low=0.0, high=2000.0, usual=(2.0, 80.0), digits=2, step=1.0, units=("kg", "g", "lb"), error=Error(relative=0.02, absolute=0.1), error_note="± 2 % and 0.1 kg", help="Bucket, sand and upper plate together. Or enter it as a force.", source="geometry"),
    Quantity(name="load_n", label="Breaking force", unit="N", basis="on the end of the specimen", low=0.0, high=20000.0, usual=(20.0, 800.0), digits=0, step=10.0, units=("N", "kgf", "lbf"), error=Error(relative=0.02, absolute=1.0), error_note="± 2 % and 1 N", help="As the machine shows it.", source="geometry"),
    Quantity(name="strength_kpa", label="Green strength", unit="kPa", basis="load over the specimen's area", low=0.0, high=2000.0, usual=(30.0, 250.0), digits=0, step=5.0, units=("kPa", "N/cm²", "MPa", "bar", "kg/cm²", "g/cm²", "psi"), error=Error(relative=0.06), error_note="± 6 % (from memory)", help="Of a fresh specimen, crushed along its axis. Or enter the load.", source="geometry"),
    _ml("tin_ml", "Volume of the tin", units=("mL", "L", "cm³", "in³"), basis="struck off level", low=1.0, usual=(50.0, 3000.0), error=Error(relative=0.01), error_note="± 1 %: by weighing the water that it holds", help="Weigh the water that it holds: a gram is a millilitre. Or enter its diameter and height.", source="geometry"),
    _mm("tin_diameter_mm", "Inside diameter of the tin", low=5.0, usual=(30.0, 200.0), basis="inside", help="The width, not the circumference."),
    _mm("tin_height_mm", "Inside height of the tin", low=5.0, usual=(30.0, 200.0), basis="inside"),
    _g("net_g", "Sand in the tin", basis="rammed, with its water, without the tin", low=0.1, usual=(50.0, 5000.0)),
    Quantity(name="flask_net_kg", label="Sand in the full flask", unit="kg", basis=AS_IT_LIES, low=0.05, high=5000.0, usual=(2.0, 80.0), digits=2, step=0.5, units=("kg", "g", "lb"), error=SCALE, error_note=SCALE_NOTE, help="Of a flask rammed full without a pattern. Subtract the empty flask and its board.", source="mass_balance"),
    Quantity(name="flask_inside_l", label="Volume of that flask", unit="L", basis="inside", low=0.05, high=5000.0, usual=(1.0, 60.0), digits=2, step=0.5, units=("L", "US gal", "imp gal"), error=Error(relative=0.02), error_note="± 2 % by ruler", help="Or enter its length, width and depth.", source="geometry"),
    _mm("jar_sand_mm", "Sand in the jar", basis="from the bottom up", low=1.0, usual=(10.0, 150.0), help="A minute after shaking."),
    _mm("jar_fines_mm", "Fines in the jar", basis="above the sand", low=0.0, usual=(0.0, 60.0), help="After a day."),
    Choice(name="squeeze", label="Squeezed handful", choices=SQUEEZES, help="Squeeze once, open the hand, break it.", source="practice"),
    _number("hardness", "Mould hardness", basis="on the scale of the gauge", high=100.0, usual=(40.0, 95.0), digits=0, error=Error(absolute=2.0), error_note="± 2 on the dial", help="The mean of five places.", source="memory"),
    Choice(name="hardness_scale", label="Scale of the gauge", choices=SCALES, help="Printed on the gauge. The two scales can't be compared.", source="memory"),
    Choice(name="volatiles_at", label="Test temperature", choices=HEATS, help="There are two such tests. Which one did you do?", source="memory"),
    _number("strokes", "Strokes counted", basis="full strokes", low=1, high=100000, usual=(10, 500), digits=0, step=10.0, help="Count fifty or more."),
    _g("sprayed_g", "Water sprayed", basis="mass that the bottle lost", low=0.1, usual=(5.0, 1000.0), help="Weigh the bottle before and after."),
    _ml("dose_ml", "Dose to give", basis="water to add", units=("mL", "L"), low=1.0, high=1e6, usual=(20.0, 3000.0), step=10.0, help="Shows how many strokes that is.", source="own"),
    _number("permeability", "Permeability", typical=100.0, basis="cm⁴/(g·min); foundries give it without a unit", high=5000.0, digits=0, source="permeability_lecture", help="The larger it is, the better the sand vents."),
    Quantity(name="ram_energy_kj_m2", label="Energy of the three blows", unit="kJ/m²", basis="over the area of the tin; the standard has 4.68", low=0.0, high=1e9, digits=2, source="bcira_specimen", help="Two tins with the same energy per area give about the same reading."),
    _mm("matching_fall_mm", "Fall that matches the standard", "of your rammer, in this tin", low=0.0, high=1e9, source="bcira_specimen", help="From this height three blows of your rammer give the energy per area of the standard rammer."),
    _number("water_sensitivity", "Water sensitivity", basis="points of moisture per 10 points of compactability", high=50.0, source="tjfs_109", help="The smaller it is, the more a little water changes the sand."),
    _pct("shatter_pct", "Shatter index", "share of the specimen that stays on the riddle", digits=0, source="memory", help="The larger it is, the tougher the sand."),
    _pct("jar_fines_pct", "Fines in the jar by height", "percent of the height, not of the mass", digits=0, source="practice", help="Good for a trend only: swelling clay makes it read too high."),
    _pct("loss_on_ignition_pct_dry", "Loss on ignition", DRY, digits=2, step=0.1, source="practice", help="At 982 °C for two hours. Not the same as the volatiles."),
    _pct("volatiles_pct_dry", "Volatiles", DRY, digits=2, step=0.1, source="practice", help="At the test temperature. Not the same as the loss on ignition."),
    _number("strokes_per_100ml", "Strokes for 100 mL", typical=100.0, basis="of your own bottle", digits=0, source="mass_balance"),
    _ml("stroke_ml", "Water per stroke", basis="of your own bottle", digits=2, source="mass_balance"),
    _number("dose_strokes", "Strokes for the dose", basis="of your own bottle", high=1e9, digits=0, source="mass_balance"),
    _number("history_mean", "Mean of your earlier figures", basis="in the unit of the figure", high=1e6, digits=2),
    _number("history_within", "Usual spread of your figures (±)", basis="in the unit of the figure: the next one falls within it 19 times in 20", high=1e6, digits=2),
    Choice(name="ordinary", label="Is today's figure usual?", choices={"yes": "yes: within your usual spread", "no": "no: outside your usual spread"}, help="Today's figure compared with your earlier ones.", source="own"),
    _number("plan_repeats", "Tests to do", basis="each from a fresh handful", digits=0, help="The least work that reaches the target ±."),
    _g("plan_sample_g", "Sample for each test", basis="as the test needs it", source="own", help="The least work that reaches the target ±."),
    _g("plan_step_g", "Scale resolution to use", basis="smallest change that it shows", digits=3, source="own", help="The least work that reaches the target ±."),
    Quantity(name="plan_work_min", label="Work", unit="min", basis="hands-on time, without waiting", low=0.0, high=1e6, digits=0, units=("min", "h"), source="own", help="Our own estimate for each step."),
)
