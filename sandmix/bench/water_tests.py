"""Tests of how damp the sand is and how it takes its water."""

from __future__ import annotations

import math

from sandmix.bench.test import Manner, Mark, Test, of, steps, wait
from sandmix.language.words import EXACT, Error

MOISTURE = Test(
    key="moisture",
    label="Moisture, by drying",
    measures="All that a sample loses at 105 °C, as a share of its wet mass.",
    says="How much water is in the heap, and so how much it wants or must lose.",
    says_not="Whether the clay can use that water. Burnt clay holds water and bonds nothing; what burns off in a hot pan reads as water too.",
    figure="moisture_pct_wet",
    needs=(of("sample_wet_g"), of("sample_dry_g")),
    also=("scale_step_g",),
    weighed="sample_wet_g",
    sizes_g=(50.0, 100.0, 200.0, 300.0, 500.0, 1000.0, 2000.0),
    work_min=6.0,
    work_100g_min=1.0,
    surer="Handfuls of one heap differ by 0.3 points, and the scale is not to blame: take it from five places, mix, and test it twice.",
    marks=(
        Mark(below=2.0, says="Dry: edges crumble when the pattern is drawn.", tone="care"),
        Mark(below=4.5, says="Where moulding sand usually is.", tone="go"),
        Mark(below=6.0, says="Wet: it gives much steam. Look at what the metal allows.", tone="care"),
        Mark(below=math.inf, says="Far too wet to pour on.", tone="stop"),
    ),
    home=Manner(
        takes=("a kitchen scale", "a pan or tray you never cook with", "an oven at 105 °C, or a burner outdoors"),
        steps=steps(
            "Take handfuls from three places, a hand deep, and mix them.",
            "Weigh the empty tray. Weigh in 500 g at once, before it dries.",
            wait("Spread it thin and dry it at 105 °C.", 60, "sample in the oven"),
            wait("Let it cool under a cover until you can hold the tray.", 10, "sample cooling"),
            "Weigh it, less the tray.",
            wait("Dry it again and weigh again. If it lost more, go on until two weighings agree.", 15, "dried again"),
        ),
        scatter=Error(absolute=0.3),
        error="± 0.3 points from handful to handful (from memory), and what the scale leaves",
    ),
    lab=Manner(
        takes=("a balance that shows 0.01 g", "a drying oven at 105 ± 5 °C", "a jar with a drying agent"),
        steps=steps(
            "Weigh 50 g at once.",
            wait("Dry it at 105 ± 5 °C.", 60, "sample in the oven"),
            wait("Let it cool in the jar.", 15, "sample cooling"),
            "Weigh it, and repeat until the mass stays.",
        ),
        scatter=Error(absolute=0.15),
        error="± 0.15 points from sample to sample (from memory)",
    ),
)

COMPACTABILITY = Test(
    key="compactability",
    label="Compactability, tin and rammer",
    measures="How far a column of riddled sand sinks under three rams, as a share of its height.",
    says="How wet the sand feels to the rammer, whatever its clay: 35 to 50 works, 43 to 47 is best.",
    says_not="How much water or clay is in it: wet sand with much clay and drier sand with little can read alike.",
    figure="compactability_pct",
    needs=(of("height_before_mm"), of("height_after_mm")),
    work_min=4.0,
    surer="Do it three times with fresh sand and the same fall, and take the mean: riddling and filling scatter more than the ruler.",
    marks=(
        Mark(below=35.0, says="On the dry side: edges are brittle.", tone="care"),
        Mark(below=43.0, says="Works, a little dry.", tone="go"),
        Mark(below=47.000001, says="Where it works best.", tone="go"),
        Mark(below=50.000001, says="Works, a little wet.", tone="go"),
        Mark(below=math.inf, says="On the wet side: it rams unevenly and gives steam.", tone="care"),
    ),
    home=Manner(
        takes=("a straight tin about 120 mm high", "a rammer that just fits", "a ruler", "a riddle of 3 to 6 mm"),
        steps=steps(
            "Riddle the sand loosely into the tin until it is heaped.",
            "Strike it off level. Do not tap or press.",
            "Measure the height of the sand.",
            "Let the rammer fall three times, each time from the same height.",
            "Measure the height again, in the middle.",
        ),
        scatter=Error(absolute=2.5),
        error="± 2 to 3 against your own last reading (from memory); ± 5 against a laboratory",
    ),
    lab=Manner(
        takes=(
            "the standard rammer: 14 lb that fall 2 in",
            "a tube 2 in wide and 120 mm deep",
            "a riddle of 6 mm above it",
        ),
        steps=steps(
            "Riddle the sand through the screen into the tube and strike it off.",
            "Ram it three times.",
            "Read the height lost.",
        ),
        scatter=Error(absolute=1.5),
        error="± 1.5 (from memory)",
    ),
)

WATER_SENSITIVITY = Test(
    key="water_sensitivity",
    label="Water sensitivity",
    measures="How many points of moisture it takes to move the compactability by ten points.",
    says="Whether a little water changes the sand a lot. A small figure is touchy sand: dose its water finely.",
    says_not="Whether the sand is right now. It compares two dampnesses of one sand and nothing else.",
    figure="water_sensitivity",
    needs=(
        of("moisture_first_pct_wet"),
        of("moisture_second_pct_wet"),
        of("compactability_first_pct"),
        of("compactability_second_pct"),
    ),
    work_min=30.0,
    surer="Take the two dampnesses further apart, 35 and 55 of compactability: the same errors then weigh half as much.",
    home=Manner(
        takes=("all that the moisture test takes", "all that the tin test takes", "a spray bottle"),
        steps=steps(
            "Test moisture and compactability of the sand as it is.",
            wait("Spray a little water on two kilograms of it, mull it, and cover it.", 60, "water spreading"),
            "Test moisture and compactability again.",
        ),
        scatter=EXACT,
        error="what the two pairs of readings leave; they are most of it",
    ),
    lab=Manner(
        takes=("a small muller", "the moisture and compactability tests of a laboratory"),
        steps=steps(
            "Mull the sand for ten minutes at its dampness and test both.",
            "Add water, mull for ten minutes more, and test both again.",
        ),
        scatter=EXACT,
        error="what the two pairs of readings leave",
    ),
)

SQUEEZE = Test(
    key="squeeze",
    label="Squeeze in the hand",
    measures="Nothing in numbers: how a squeezed handful holds, breaks and feels, in four steps from too dry to too wet.",
    says="Roughly where the sand is between too dry and too wet, in ten seconds.",
    says_not="A moisture. It has an order and no size: two hands differ, and badly mulled sand passes it.",
    figure="squeeze",
    needs=(of("squeeze"),),
    work_min=0.5,
    surer="No repeating makes it a number. Where it matters, dry a sample or use the tin.",
    home=Manner(
        takes=("a bare clean hand",),
        steps=steps(
            "Take a handful of riddled sand and squeeze it once, firmly.",
            "Open the hand: does it hold, with the marks of the fingers?",
            "Break it in the middle: are the edges sharp or do they crumble?",
            "Look at your palm: is it clean, or wet and sticky?",
        ),
        scatter=EXACT,
        error="an order, not a size: next to one step either way",
    ),
    lab=None,
)

SPRAY = Test(
    key="spray",
    label="Strokes of your spray bottle",
    measures="How many strokes of your own bottle give 100 mL.",
    says="How many strokes a dose of water is, so that it can be given evenly without weighing.",
    says_not="The same for another bottle, another nozzle or a half-closed one. Weigh the bottle where it matters.",
    figure="strokes_per_100ml",
    needs=(of("strokes"), of("sprayed_g")),
    also=("scale_step_g", "dose_ml"),
    work_min=4.0,
    surer="Count 100 strokes instead of 20: the scale's step then weighs a fifth.",
    home=Manner(
        takes=("your spray bottle", "a kitchen scale"),
        steps=steps(
            "Fill the bottle, spray until it runs without air, and weigh it.",
            "Give 50 full strokes into a bucket, counting.",
            "Weigh the bottle again: a gram lost is a millilitre.",
        ),
        scatter=Error(relative=0.07),
        error="± 7 % from one set of strokes to the next (from memory), and what the scale leaves",
    ),
    lab=None,
)

ROWS = (MOISTURE, COMPACTABILITY, WATER_SENSITIVITY, SQUEEZE, SPRAY)
