"""Tests of how wet the sand is and how it takes up water."""

from __future__ import annotations

import math

from sandmix.bench.test import Procedure, Rating, Test, needed, steps, wait
from sandmix.language.words import EXACT, Error

MOISTURE = Test(
    key="moisture",
    label="Moisture, by drying",
    measures="All that a sample loses at 105 °C, in percent of its wet mass.",
    says="How much water is in the heap, and so how much it needs or must lose.",
    says_not="Whether the clay can use that water. Burnt clay holds water but bonds nothing. What burns off in a hot pan counts as water too.",
    figure="moisture_pct_wet",
    needs=needed("sample_wet_g", "sample_dry_g"),
    also=("scale_step_g",),
    weighed="sample_wet_g",
    sizes_g=(50.0, 100.0, 200.0, 300.0, 500.0, 1000.0, 2000.0),
    work_min=6.0,
    work_100g_min=1.0,
    improve="Handfuls of one heap differ by 0.3 points, whatever the scale. Take sand from five places, mix it, and test it twice.",
    ratings=(
        Rating(below=2.0, text="Dry: edges crumble when the pattern is drawn.", tone="care"),
        Rating(below=4.5, text="In the usual range of moulding sand.", tone="go"),
        Rating(below=6.0, text="Wet: it gives off much steam. Check the limit of your metal.", tone="care"),
        Rating(below=math.inf, text="Far too wet: do not pour.", tone="stop"),
    ),
    home=Procedure(
        takes=("a kitchen scale", "a pan or tray you never cook with", "an oven at 105 °C, or a burner outdoors"),
        steps=steps(
            "Take a handful from each of three places, a hand deep, and mix them.",
            "Weigh the empty tray. Weigh 500 g of sand into it at once, before it dries.",
            wait("Spread it thin and dry it at 105 °C.", 60, "sample in the oven"),
            wait("Let it cool under a cover until you can hold the tray.", 10, "sample cooling"),
            "Weigh it and subtract the tray.",
            wait("Dry and weigh it again. If it lost more, repeat until two weighings agree.", 15, "drying again"),
        ),
        scatter=Error(absolute=0.3),
        error="± 0.3 points from handful to handful (from memory), plus the error of the scale",
    ),
    lab=Procedure(
        takes=("a balance that shows 0.01 g", "a drying oven at 105 ± 5 °C", "a jar with a drying agent"),
        steps=steps(
            "Weigh 50 g at once.",
            wait("Dry it at 105 ± 5 °C.", 60, "sample in the oven"),
            wait("Let it cool in the jar.", 15, "sample cooling"),
            "Weigh it, and repeat until the mass no longer changes.",
        ),
        scatter=Error(absolute=0.15),
        error="± 0.15 points from sample to sample (from memory)",
    ),
)

TIN = ("rammer_kg", "rammer_fall_mm", "tin_diameter_mm")
"""What says how a tin is rammed: three blows of this rammer from this height in a tin of this width."""

COMPACTABILITY = Test(
    key="compactability",
    label="Compactability, tin and rammer",
    measures="How far a column of riddled sand sinks under three blows of the rammer, in percent of its height.",
    says="How wet the sand is for ramming, whatever its clay. 35 to 50 works; 43 to 47 is best.",
    says_not="How much water or clay is in it. Wet sand with much clay and drier sand with little clay can give the same figure.",
    figure="compactability_pct",
    needs=needed("height_before_mm", "height_after_mm"),
    about=TIN,
    work_min=4.0,
    improve="Do it three times with fresh sand and the same fall, and take the mean. Riddling and filling vary more than the ruler.",
    ratings=(
        Rating(below=35.0, text="On the dry side: edges are brittle.", tone="care"),
        Rating(below=43.0, text="It works, but is a little dry.", tone="go"),
        Rating(below=47.000001, text="In the best range.", tone="go"),
        Rating(below=50.000001, text="It works, but is a little wet.", tone="go"),
        Rating(below=math.inf, text="On the wet side: it rams unevenly and gives off steam.", tone="care"),
    ),
    home=Procedure(
        takes=("a straight tin about 120 mm high", "a rammer that just fits", "a ruler", "a riddle of 3 to 6 mm"),
        steps=steps(
            "Riddle the sand loosely into the tin until it is heaped.",
            "Strike it off level. Do not tap or press.",
            "Measure the height of the sand.",
            "Let the rammer fall three times, each time from the same height: the one that matches the standard blow, if you can.",
            "Measure the height again, in the middle.",
        ),
        scatter=Error(absolute=2.5),
        error="± 2 to 3 compared with your own last reading (from memory); ± 5 compared with a laboratory",
    ),
    lab=Procedure(
        takes=(
            "the standard rammer: 14 lb that fall 2 in",
            "a tube 2 in wide and 120 mm deep",
            "a riddle of 6 mm above it",
        ),
        steps=steps(
            "Riddle the sand into the tube and strike it off.",
            "Ram it with three blows.",
            "Read the height lost.",
        ),
        scatter=Error(absolute=1.5),
        error="± 1.5 (from memory)",
    ),
)

WATER_SENSITIVITY = Test(
    key="water_sensitivity",
    label="Water sensitivity",
    measures="How many points of moisture change the compactability by ten points.",
    says="Whether a little water changes the sand a lot. A small figure means sensitive sand: add its water in small doses.",
    says_not="Whether the sand is right now. It only compares one sand at two moistures.",
    figure="water_sensitivity",
    needs=needed(
        "moisture_first_pct_wet", "moisture_second_pct_wet", "compactability_first_pct", "compactability_second_pct"
    ),
    work_min=30.0,
    improve="Test at moistures further apart, with compactabilities of 35 and 55: the same errors then count half as much.",
    home=Procedure(
        takes=("everything for the moisture test", "everything for the tin test", "a spray bottle"),
        steps=steps(
            "Test moisture and compactability of the sand as it is.",
            wait("Spray a little water on two kilograms of it, mull it, and cover it.", 60, "water spreading"),
            "Test moisture and compactability again.",
        ),
        scatter=EXACT,
        error="the errors of the two pairs of readings; there is little else",
    ),
    lab=Procedure(
        takes=("a small muller", "the moisture and compactability tests of a laboratory"),
        steps=steps(
            "Mull the sand for ten minutes as it is, and do both tests.",
            "Add water, mull for ten minutes more, and do both tests again.",
        ),
        scatter=EXACT,
        error="the errors of the two pairs of readings",
    ),
)

SQUEEZE = Test(
    key="squeeze",
    label="Squeeze in the hand",
    measures="Nothing in numbers: how a squeezed handful holds, breaks and feels, in four steps from too dry to too wet.",
    says="Roughly where the sand is between too dry and too wet, in ten seconds.",
    says_not="The moisture. The steps have an order but no size: two people judge differently, and badly mulled sand can pass.",
    figure="squeeze",
    needs=needed("squeeze"),
    work_min=0.5,
    improve="Repeating does not make it a number. Where it matters, dry a sample or use the tin.",
    home=Procedure(
        takes=("a bare clean hand",),
        steps=steps(
            "Take a handful of riddled sand and squeeze it once, firmly.",
            "Open the hand: does the sand hold, with the marks of the fingers?",
            "Break it in the middle: are the edges sharp or do they crumble?",
            "Look at your palm: is it clean, or wet and sticky?",
        ),
        scatter=EXACT,
        error="an order, not a size: it may be one step off either way",
    ),
    lab=None,
)

SPRAY = Test(
    key="spray",
    label="Strokes of your spray bottle",
    measures="How many strokes of your own bottle give 100 mL.",
    says="How many strokes make a dose of water, so that you can spray it evenly without weighing.",
    says_not="The strokes of another bottle, another nozzle or a half-closed one. Where it matters, weigh the bottle.",
    figure="strokes_per_100ml",
    needs=needed("strokes", "sprayed_g"),
    also=("scale_step_g", "dose_ml"),
    work_min=4.0,
    improve="Count 100 strokes instead of 20: the scale resolution then counts a fifth as much.",
    home=Procedure(
        takes=("your spray bottle", "a kitchen scale"),
        steps=steps(
            "Fill the bottle, spray until no more air comes, and weigh it.",
            "Spray 50 full strokes into a bucket and count them.",
            "Weigh the bottle again: each gram lost is a millilitre.",
        ),
        scatter=Error(relative=0.07),
        error="± 7 % from one set of strokes to the next (from memory), plus the error of the scale",
    ),
    lab=None,
)

ROWS = (MOISTURE, COMPACTABILITY, WATER_SENSITIVITY, SQUEEZE, SPRAY)
