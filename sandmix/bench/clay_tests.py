"""Tests of what is in the sand beside its grain: clay live and dead, fines, what burns off."""

from __future__ import annotations

import math

from sandmix.bench.test import Manner, Mark, Test, of, steps, wait
from sandmix.language.words import Error

WASH = Test(
    key="wash",
    label="Wash",
    measures="All that stays afloat when the rest sinks 25 mm a minute: finer than about 20 µm.",
    says="How much live clay, dead clay and silt there is together. Less the live clay, it is the dead fines.",
    says_not="How much of it bonds. It counts dead clay and silt as if they were clay.",
    figure="washed_pct_dry",
    needs=(of("sample_g"), (("clay_washed_g",), ("left_g",))),
    also=("scale_step_g",),
    weighed="sample_g",
    sizes_g=(50.0, 100.0, 200.0, 300.0),
    work_min=25.0,
    work_100g_min=4.0,
    surer="One handful and one set of washings scatter more than the scale: take it from five places, and wash two samples.",
    marks=(
        Mark(below=12.0, says="Within what a heap can carry, as far as a wash can tell.", tone="go"),
        Mark(below=14.0, says="At the edge: find out how much of it is still live.", tone="care"),
        Mark(below=math.inf, says="Many fines: if they are dead, sand must go out.", tone="care"),
    ),
    home=Manner(
        takes=(
            "200 g of dried sand",
            "a tall jar marked 25 mm above its floor and 125 mm above that",
            "a hose for siphoning",
            "a pinch of washing soda",
            "a scale",
        ),
        steps=steps(
            "Dry the sand, weigh 200 g of it, and put it in the jar.",
            "Fill to the upper mark with water and the soda, and stir or shake hard for five minutes.",
            wait("Let it stand: grain sinks 25 mm a minute and more.", 5, "sand sinking"),
            "Siphon the water off down to the lower mark, and fill up again.",
            wait("Stir, and let it stand again. Repeat until the water is clear after the wait.", 5, "sand sinking"),
            wait("Dry what is left at 105 °C.", 60, "grain in the oven"),
            "Weigh it. What is gone was clay and fines.",
        ),
        scatter=Error(absolute=0.75),
        error="± 0.5 to 1 point on 200 g (from memory)",
    ),
    lab=Manner(
        takes=(
            "50 g of dried sand",
            "a wash jar and a stirrer",
            "a soda or phosphate solution",
            "a balance that shows 0.01 g",
        ),
        steps=steps(
            "Stir the dried sample in water with the solution for five minutes.",
            wait("Fill up and let it settle, the first time longer.", 10, "first settling"),
            wait("Siphon off, fill up, stir, and settle until the water is clear.", 5, "sand sinking"),
            "Dry and weigh what is left.",
        ),
        scatter=Error(absolute=0.4),
        error="± 0.4 points (from memory)",
    ),
)

METHYLENE_BLUE = Test(
    key="methylene_blue",
    label="Methylene blue",
    measures="How much blue dye the clay takes up, against a clay that you know.",
    says="How much clay is live, in equivalents of the clay you calibrated with.",
    says_not="How well that clay is mulled in, nor how much dead clay lies beside it: for that, wash too.",
    figure="clay_pct_dry",
    needs=(of("sample_g"), of("titre_ml"), of("calibration_ml"), of("calibration_clay_g")),
    also=("scale_step_g",),
    work_min=30.0,
    surer="Calibrate twice with your own clay, and titrate a second sample: the drop at which the ring shows is what scatters.",
    marks=(
        Mark(below=4.0, says="Little live clay: edges will not hold.", tone="care"),
        Mark(below=12.0, says="Where moulding sand usually is.", tone="go"),
        Mark(below=math.inf, says="Much live clay: it wants more water and vents worse.", tone="care"),
    ),
    home=Manner(
        takes=(
            "methylene blue, 3.74 g in a litre of distilled water",
            "filter paper or coffee filter",
            "a syringe with marks",
            "a scale that shows 0.01 g",
            "your own bentonite",
        ),
        steps=steps(
            "Dry the sand, and weigh 5 g of it into 50 mL of water.",
            wait("Boil it gently, or shake it hard with a little washing soda.", 10, "clay coming off the grain"),
            "Add 1 mL of dye, shake for a minute, and put a drop on the paper.",
            wait(
                "Go on until a pale blue ring stays around the dark spot; shake on and look again.",
                2,
                "does the ring stay?",
            ),
            "Write down the millilitres.",
            "Do the same with 0.5 g of your own dry bentonite and 4.5 g of clean sand: that is the calibration.",
        ),
        scatter=Error(relative=0.08),
        error="± 8 % of the figure from test to test (from memory), and ± 0.5 mL at each end point",
    ),
    lab=Manner(
        takes=(
            "methylene blue solution, 0.0100 mol/L",
            "a burette",
            "hard filter paper",
            "0.5 N sulphuric acid",
            "a balance that shows 0.001 g",
            "a stirrer",
        ),
        steps=steps(
            "Dry 250 g, and weigh 5 g of it into 50 mL of distilled water.",
            wait("Boil it gently, then cool it.", 10, "boiling"),
            "Add 1.5 mL of 0.5 N sulphuric acid and shake.",
            "Add dye by the millilitre, stirring, with a drop on the paper after each, until the ring stays.",
            "Compare with the millilitres that the reference clay takes.",
        ),
        scatter=Error(relative=0.05),
        error="± 5 % of the figure (from memory); laboratories differ more among each other",
    ),
)

SWELL = Test(
    key="swell",
    label="Swell of the clay",
    measures="The height of the gel that 2 g of clay make in 100 mL of water.",
    says="Which kind the clay is: the sodium kind swells to 24 to 36 mL, the calcium kind to about 8.",
    says_not="How well it bonds sand, nor how much of it is pure.",
    figure="swell_ml",
    needs=(of("swell_ml"),),
    also=("sample_g", "scale_step_g"),
    work_min=10.0,
    surer="Dry and grind the clay as fine as flour, and strew it a pinch at a time: lumps that stay dry inside read low.",
    marks=(
        Mark(below=4.0, says="It hardly swells: this is no bentonite, or it was heated.", tone="care"),
        Mark(below=15.0, says="The calcium kind, which dies from 316 °C.", tone="go"),
        Mark(below=24.0, says="Between the kinds: a blend, or a treated calcium clay.", tone="care"),
        Mark(below=36.000001, says="The sodium kind, which lasts to 638 °C.", tone="go"),
        Mark(below=math.inf, says="More than the usual: look at the mass that went in.", tone="care"),
    ),
    home=Manner(
        takes=(
            "2 g of the clay, dried and ground to flour",
            "a straight jar or cylinder with marks, 100 mL of distilled water",
        ),
        steps=steps(
            "Dry the clay at 105 °C, grind it, and weigh 2 g.",
            wait("Strew a pinch on the water and let it sink before the next.", 60, "clay sinking, pinch by pinch"),
            wait("Leave it standing, without a shake.", 16 * 60, "gel forming"),
            "Read where the gel ends.",
        ),
        scatter=Error(absolute=2.0),
        error="± 2 mL from test to test (from memory)",
    ),
    lab=Manner(
        takes=("2.00 g of clay, finer than 0.075 mm", "a 100 mL cylinder with distilled water"),
        steps=steps(
            wait("Strew the clay in portions of a tenth of a gram, each sunk before the next.", 60, "clay sinking"),
            wait("Leave it standing.", 16 * 60, "gel forming"),
            "Read the gel to half a millilitre.",
        ),
        scatter=Error(absolute=1.0),
        error="± 1 mL (from memory)",
    ),
)

JAR = Test(
    key="jar",
    label="Jar",
    measures="The height of fines over sand after a shake and a day's rest.",
    says="A trend: whether the fines of your own heap go up or down.",
    says_not="A share by mass. Clay that swells takes far more room than its mass, so it reads much too high.",
    figure="jar_fines_pct",
    needs=(of("jar_sand_mm"), of("jar_fines_mm")),
    work_min=5.0,
    surer="It stays a trend. For a share, wash and weigh.",
    home=Manner(
        takes=("a straight jar with a lid", "a spoon of washing soda", "a ruler"),
        steps=steps(
            "Fill a third with sand, then with water to a finger below the rim, and add the soda.",
            "Shake it for three minutes.",
            wait("After a minute mark how high the sand stands.", 1, "sand sinking"),
            wait("Let it stand for a day and mark how high the fines stand.", 24 * 60, "fines sinking"),
            "Measure both.",
        ),
        scatter=Error(relative=0.2),
        error="± a fifth of the figure against your own last jar (from memory)",
    ),
    lab=None,
)

LOSS_ON_IGNITION = Test(
    key="loss_on_ignition",
    label="Loss on ignition",
    measures="All that a dry sample loses at 982 °C in two hours.",
    says="How much of it burns or is driven off: coal dust, wood, oil, and the water bound in the clay.",
    says_not="The volatiles, which are another test at another heat. Never compare the two.",
    figure="loss_on_ignition_pct_dry",
    needs=(of("sample_g"), of("left_g")),
    also=("scale_step_g",),
    weighed="sample_g",
    sizes_g=(5.0, 10.0, 20.0, 30.0, 50.0),
    work_min=20.0,
    surer="Take the sample from five places, dry it to constant mass first, and fire two.",
    marks=(
        Mark(below=1.5, says="Little: a clean sand.", tone="go"),
        Mark(below=3.0, says="At the edge for aluminium.", tone="care"),
        Mark(below=math.inf, says="Much: it smokes and gives gas.", tone="care"),
    ),
    home=Manner(
        takes=(
            "a scale that shows 0.01 g",
            "a small crucible without a lid",
            "a furnace that reaches 982 °C, outdoors",
        ),
        steps=steps(
            "Dry the sand at 105 °C until two weighings agree, and weigh 30 g into the crucible.",
            wait(
                "Heat it to 982 °C, a bright cherry red going on orange, and hold it there.",
                120,
                "crucible in the heat",
            ),
            wait("Let it cool without touching it.", 60, "crucible cooling"),
            "Weigh what is left.",
        ),
        scatter=Error(absolute=0.3),
        error="± 0.3 points (from memory); more if your heat is not known",
    ),
    lab=Manner(
        takes=("a muffle at 982 °C", "a balance that shows 0.001 g"),
        steps=steps(
            "Weigh the dried sample into an open crucible.",
            wait("Fire it at 982 °C.", 120, "crucible in the muffle"),
            wait("Cool it in the drying jar.", 30, "crucible cooling"),
            "Weigh it.",
        ),
        scatter=Error(absolute=0.15),
        error="± 0.15 points (from memory)",
    ),
)

VOLATILES = Test(
    key="volatiles",
    label="Volatiles",
    measures="What a dry sample loses at 482 °C, or at 900 °C shut off from air: two tests, so say which.",
    says="How much gas the additives can give off early.",
    says_not="The loss on ignition, nor the volatiles at the other heat. Never compare them.",
    figure="volatiles_pct_dry",
    needs=(of("sample_g"), of("left_g"), of("volatiles_at")),
    also=("scale_step_g",),
    weighed="sample_g",
    sizes_g=(5.0, 10.0, 20.0, 30.0, 50.0),
    work_min=20.0,
    surer="Take the sample from five places, dry it to constant mass first, and heat two.",
    home=Manner(
        takes=("a scale that shows 0.01 g", "a crucible", "a furnace or oven whose heat you can read, outdoors"),
        steps=steps(
            "Dry the sand at 105 °C until two weighings agree, and weigh 30 g.",
            wait("Hold it at the heat that you name.", 60, "crucible in the heat"),
            wait("Let it cool without touching it.", 60, "crucible cooling"),
            "Weigh what is left.",
        ),
        scatter=Error(absolute=0.3),
        error="± 0.3 points (from memory)",
    ),
    lab=Manner(
        takes=("a muffle at the named heat", "a balance that shows 0.001 g"),
        steps=steps(
            "Weigh the dried sample.",
            wait("Heat it at the named heat until the mass stays.", 60, "crucible in the muffle"),
            "Cool and weigh it.",
        ),
        scatter=Error(absolute=0.15),
        error="± 0.15 points (from memory)",
    ),
)

ROWS = (WASH, METHYLENE_BLUE, SWELL, JAR, LOSS_ON_IGNITION, VOLATILES)
