"""Tests of what is in the sand besides its grain: live and dead clay, fines, and what burns off."""

from __future__ import annotations

import math

from sandmix.bench.test import Procedure, Rating, Test, either, needed, steps, wait
from sandmix.language.words import Error
from sandmix.materials.choosing import SWELL_SCALE, USABLE

WASH = Test(
    key="wash",
    label="Wash",
    measures="All that settles more slowly than 25 mm a minute: finer than about 20 µm.",
    says="Live clay, dead clay and silt together. Subtract the live clay, and the dead fines are left.",
    says_not="How much of it bonds. Dead clay and silt count as if they were clay.",
    figure="washed_pct_dry",
    needs=needed("sample_g", either("clay_washed_g", "left_g")),
    also=("scale_step_g",),
    weighed="sample_g",
    sizes_g=(50.0, 100.0, 200.0, 300.0),
    work_min=25.0,
    work_100g_min=4.0,
    improve="One handful and one wash vary more than the scale. Take sand from five places, and wash two samples.",
    ratings=(
        Rating(below=12.0, text="As far as a wash can show, a heap can carry this much.", tone="go"),
        Rating(below=14.0, text="At the limit: find out how much of it is still live.", tone="care"),
        Rating(below=math.inf, text="Many fines: if they are dead, replace a part of the sand.", tone="care"),
    ),
    home=Procedure(
        takes=(
            "200 g of dried sand",
            "a tall jar with a mark 25 mm above its floor and another 125 mm above that",
            "a hose to siphon with",
            "a pinch of washing soda",
            "a scale",
        ),
        steps=steps(
            "Dry the sand, weigh 200 g of it, and put it in the jar.",
            "Fill to the upper mark with water and the soda, and stir or shake hard for five minutes.",
            wait("Let it stand: grain sinks 25 mm a minute or faster.", 5, "sand sinking"),
            "Siphon the water off down to the lower mark, and fill up again.",
            wait("Stir, and let it stand again. Repeat until the water is clear after the wait.", 5, "sand sinking"),
            wait("Dry what is left at 105 °C.", 60, "grain in the oven"),
            "Weigh it. What is missing was clay and fines.",
        ),
        scatter=Error(absolute=0.75),
        error="± 0.5 to 1 point on 200 g (from memory)",
    ),
    lab=Procedure(
        takes=(
            "50 g of dried sand",
            "a wash jar and a stirrer",
            "a soda or phosphate solution",
            "a balance that shows 0.01 g",
        ),
        steps=steps(
            "Stir the dried sample in water with the solution for five minutes.",
            wait("Fill up and let it settle, longer the first time.", 10, "first settling"),
            wait("Siphon off, fill up, stir, and let it settle until the water is clear.", 5, "sand sinking"),
            "Dry and weigh what is left.",
        ),
        scatter=Error(absolute=0.4),
        error="± 0.4 points (from memory)",
    ),
)

METHYLENE_BLUE = Test(
    key="methylene_blue",
    label="Methylene blue",
    measures="How much blue dye the clay takes up, compared with a clay that you know.",
    says="How much clay is live, in equivalents of the clay you calibrated with.",
    says_not="How well that clay is mulled in, or how much dead clay there is: for that, do the wash too.",
    figure="clay_pct_dry",
    needs=needed("sample_g", "titre_ml", "calibration_ml", "calibration_clay_g"),
    also=("scale_step_g",),
    work_min=30.0,
    improve="Calibrate twice with your own clay, and titrate a second sample: the drop at which the ring appears varies most.",
    ratings=(
        Rating(below=4.0, text="Little live clay: edges will not hold.", tone="care"),
        Rating(below=12.0, text="In the usual range of moulding sand.", tone="go"),
        Rating(below=math.inf, text="Much live clay: it needs more water and vents worse.", tone="care"),
    ),
    home=Procedure(
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
                "Repeat until a pale blue ring stays around the dark spot. Shake once more and check that it stays.",
                2,
                "does the ring stay?",
            ),
            "Write down the millilitres.",
            "Do the same with 0.5 g of your own dry bentonite and 4.5 g of clean sand: this is the calibration.",
        ),
        scatter=Error(relative=0.08),
        error="± 8 % of the figure from test to test (from memory), and ± 0.5 mL at each end point",
    ),
    lab=Procedure(
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
            "Stir and add dye, one millilitre at a time. After each, put a drop on the paper, until the ring stays.",
            "Compare with the millilitres that the reference clay takes.",
        ),
        scatter=Error(relative=0.05),
        error="± 5 % of the figure (from memory); laboratories differ more from each other",
    ),
)

_SWELL_ENDS = (*(least for least, *_ in reversed(SWELL_SCALE[:-1])), math.inf)
SWELL = Test(
    key="swell",
    label="Swell of the clay",
    measures="The volume of gel that 2 g of clay form in 100 mL of water.",
    says="Which kind the clay is: sodium bentonite swells to 24 to 36 mL, calcium bentonite to about 8.",
    says_not="How well it bonds sand, or how pure it is.",
    figure="swell_ml",
    needs=needed("swell_ml"),
    also=("sample_g", "scale_step_g"),
    work_min=10.0,
    improve="Dry the clay, grind it as fine as flour, and sprinkle it a pinch at a time. Lumps that stay dry inside give too low a figure.",
    ratings=tuple(
        Rating(below=below, text=why, tone="go" if usability == USABLE else "care")
        for below, (_, usability, _, why) in zip(_SWELL_ENDS, reversed(SWELL_SCALE), strict=True)
    ),
    home=Procedure(
        takes=(
            "2 g of the clay, dried and ground to flour",
            "a straight jar or cylinder with marks, and 100 mL of distilled water",
        ),
        steps=steps(
            "Dry the clay at 105 °C, grind it, and weigh 2 g.",
            wait("Sprinkle a pinch on the water and let it sink before the next.", 60, "clay sinking, pinch by pinch"),
            wait("Leave it standing. Do not shake it.", 16 * 60, "gel forming"),
            "Read where the gel ends.",
        ),
        scatter=Error(absolute=2.0),
        error="± 2 mL from test to test (from memory)",
    ),
    lab=Procedure(
        takes=("2.00 g of dry clay, ground to pass a 0.15 mm sieve", "a 100 mL cylinder with distilled water"),
        steps=steps(
            wait(
                "Sprinkle the clay in portions of a tenth of a gram. Let each sink before the next.", 60, "clay sinking"
            ),
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
    measures="The height of the fines above the sand, after a shake and a day's rest.",
    says="A trend: whether the fines of your own heap go up or down.",
    says_not="A percent by mass. Clay that swells fills much more of the jar than its mass, so the figure is much too high.",
    figure="jar_fines_pct",
    needs=needed("jar_sand_mm", "jar_fines_mm"),
    work_min=5.0,
    improve="It only shows a trend. For a percent by mass, wash and weigh.",
    home=Procedure(
        takes=("a straight jar with a lid", "a spoon of washing soda", "a ruler"),
        steps=steps(
            "Fill a third with sand, then add water to a finger below the rim, and add the soda.",
            "Shake it for three minutes.",
            wait("After a minute, mark how high the sand stands.", 1, "sand sinking"),
            wait("Let it stand for a day, and mark how high the fines stand.", 24 * 60, "fines sinking"),
            "Measure both.",
        ),
        scatter=Error(relative=0.2),
        error="± a fifth of the figure compared with your own last jar (from memory)",
    ),
    lab=None,
)

LOSS_ON_IGNITION = Test(
    key="loss_on_ignition",
    label="Loss on ignition",
    measures="All that a dry sample loses in two hours at 982 °C.",
    says="How much of it burns or is driven off: coal dust, wood, oil, and the water bound in the clay.",
    says_not="The volatiles, which are another test at another temperature. Never compare the two.",
    figure="loss_on_ignition_pct_dry",
    needs=needed("sample_g", "left_g"),
    also=("scale_step_g",),
    weighed="sample_g",
    sizes_g=(5.0, 10.0, 20.0, 30.0, 50.0),
    work_min=20.0,
    improve="Take the sample from five places, dry it to constant mass first, and fire two samples.",
    ratings=(
        Rating(below=1.5, text="Little: a clean sand.", tone="go"),
        Rating(below=3.0, text="At the limit for aluminium.", tone="care"),
        Rating(below=math.inf, text="Much: it smokes and gives off gas.", tone="care"),
    ),
    home=Procedure(
        takes=(
            "a scale that shows 0.01 g",
            "a small crucible without a lid",
            "a furnace that reaches 982 °C, outdoors",
        ),
        steps=steps(
            "Dry the sand at 105 °C until two weighings agree, and weigh 30 g into the crucible.",
            wait(
                "Heat it to 982 °C, between bright cherry red and orange, and hold it there.",
                120,
                "crucible in the furnace",
            ),
            wait("Let it cool without touching it.", 60, "crucible cooling"),
            "Weigh what is left.",
        ),
        scatter=Error(absolute=0.3),
        error="± 0.3 points (from memory); more if you do not know the temperature",
    ),
    lab=Procedure(
        takes=("a muffle furnace at 982 °C", "a balance that shows 0.001 g"),
        steps=steps(
            "Weigh the dried sample into an open crucible.",
            wait("Fire it at 982 °C.", 120, "crucible in the furnace"),
            wait("Let it cool in the drying jar.", 30, "crucible cooling"),
            "Weigh it.",
        ),
        scatter=Error(absolute=0.15),
        error="± 0.15 points (from memory)",
    ),
)

VOLATILES = Test(
    key="volatiles",
    label="Volatiles",
    measures="What a dry sample loses at 482 °C, or at 900 °C without air. These are two tests: say which one you did.",
    says="How much gas the additives can give off early.",
    says_not="The loss on ignition, or the volatiles at the other temperature. Never compare them.",
    figure="volatiles_pct_dry",
    needs=needed("sample_g", "left_g", "volatiles_at"),
    also=("scale_step_g",),
    weighed="sample_g",
    sizes_g=(5.0, 10.0, 20.0, 30.0, 50.0),
    work_min=20.0,
    improve="Take the sample from five places, dry it to constant mass first, and heat two samples.",
    home=Procedure(
        takes=("a scale that shows 0.01 g", "a crucible", "a furnace or oven that shows its temperature, outdoors"),
        steps=steps(
            "Dry the sand at 105 °C until two weighings agree, and weigh 30 g.",
            wait("Hold it at the temperature that you choose.", 60, "crucible in the furnace"),
            wait("Let it cool without touching it.", 60, "crucible cooling"),
            "Weigh what is left.",
        ),
        scatter=Error(absolute=0.3),
        error="± 0.3 points (from memory)",
    ),
    lab=Procedure(
        takes=("a muffle furnace at the chosen temperature", "a balance that shows 0.001 g"),
        steps=steps(
            "Weigh the dried sample.",
            wait("Heat it at that temperature until the mass no longer changes.", 60, "crucible in the furnace"),
            "Let it cool and weigh it.",
        ),
        scatter=Error(absolute=0.15),
        error="± 0.15 points (from memory)",
    ),
)

ROWS = (WASH, METHYLENE_BLUE, SWELL, JAR, LOSS_ON_IGNITION, VOLATILES)
