"""Tests of rammed sand: how easily air passes through it, how strong, tough, hard and dense it is."""

from __future__ import annotations

import math

from sandmix.bench.test import Procedure, Rating, Test, either, needed, steps
from sandmix.language.words import Error

PERMEABILITY = Test(
    key="permeability",
    label="Permeability",
    measures="How easily air passes through a rammed specimen: the pressure and the time for 2000 cm³.",
    says="How well the sand vents. Finer grain, more fines, more water and harder ramming all lower it.",
    says_not="How well the mould vents: its vents, its thickness and its ramming matter too.",
    figure="permeability",
    needs=needed("pressure_cm", "time_s"),
    also=("specimen",),
    work_min=10.0,
    improve="Ram three specimens of the same mass and take the mean: ramming varies more than the watch.",
    ratings=(
        Rating(below=20.0, text="Very tight: vent it well, or use coarser sand.", tone="care"),
        Rating(below=50.0, text="Fine and tight: it gives a smooth face, but vent it with care.", tone="go"),
        Rating(below=150.0, text="Open enough for most work.", tone="go"),
        Rating(below=math.inf, text="Very open: it vents well, but the metal gets a rough face.", tone="care"),
    ),
    home=Procedure(
        takes=(
            "a tube 2 in wide inside, with a rammed specimen 2 in high that seals against its wall",
            "a drum of 2 L that sinks in water and pushes the air through",
            "a water gauge made of clear hose",
            "a watch",
        ),
        steps=steps(
            "Ram the specimen in the tube with three blows, to a height of 2 in.",
            "Seal the tube to the drum, and let the drum sink.",
            "Read the pressure on the water gauge while the drum sinks evenly.",
            "Time the flow of 2000 cm³.",
        ),
        scatter=Error(relative=0.15),
        error="± 15 % of the figure with a home-made drum (from memory)",
    ),
    lab=Procedure(
        takes=("the standard specimen, 2 × 2 in or 50 × 50 mm", "an air drum of 2000 cm³ with its gauge", "a watch"),
        steps=steps(
            "Ram the specimen with three blows.",
            "Seal it, and let 2000 cm³ of air through.",
            "Read pressure and time.",
        ),
        scatter=Error(relative=0.06),
        error="± 6 % of the figure (from memory)",
    ),
)

STRENGTH = Test(
    key="strength",
    label="Green strength, by crushing",
    measures="The load that breaks a rammed specimen, divided by its area.",
    says="How well the sand holds together now: clay, water, mulling and ramming together.",
    says_not="Which of these is at fault. Strong sand can be brittle, and weak sand does not always need water.",
    figure="strength_kpa",
    needs=needed(either("load_kg", "load_n", "strength_kpa")),
    also=("specimen",),
    work_min=8.0,
    improve="Crush three specimens of the same mass and take the mean.",
    ratings=(
        Rating(below=35.0, text="Weak: handle the mould with care, and check clay and mulling.", tone="care"),
        Rating(below=210.0, text="In the range that foundries mould with.", tone="go"),
        Rating(below=math.inf, text="Very strong: much clay. Check how it vents.", tone="care"),
    ),
    home=Procedure(
        takes=(
            "a tube 2 in wide inside, with a rammer that just fits",
            "two flat plates",
            "a bucket to fill with sand, and a scale",
        ),
        steps=steps(
            "Ram a specimen 2 in high with three blows, and push it out of the tube.",
            "Stand it between the plates with the bucket on top.",
            "Slowly fill sand into the bucket until the specimen breaks.",
            "Weigh bucket, sand and upper plate together: that is the load.",
        ),
        scatter=Error(relative=0.12),
        error="± 12 % of the figure from specimen to specimen (from memory)",
    ),
    lab=Procedure(
        takes=("the standard specimen", "a crushing machine"),
        steps=steps(
            "Ram the specimen with three blows and push it out.",
            "Crush it along its axis at an even rate.",
            "Read the load or the pressure.",
        ),
        scatter=Error(relative=0.06),
        error="± 6 % of the figure (from memory)",
    ),
)

SHATTER = Test(
    key="shatter",
    label="Shatter",
    measures="How much of a rammed specimen stays on a coarse riddle after a fall.",
    says="How tough the sand is: how well a mould survives knocks and the drawing of the pattern.",
    says_not="How strong it is: dry strong sand shatters, wet weak sand does not.",
    figure="shatter_pct",
    needs=needed("sample_g", "left_g"),
    also=("scale_step_g",),
    work_min=6.0,
    improve="Drop three specimens of the same mass and take the mean.",
    ratings=(
        Rating(below=50.0, text="Brittle: edges break when the pattern is drawn.", tone="care"),
        Rating(below=85.0, text="Tough enough to draw and handle.", tone="go"),
        Rating(below=math.inf, text="Very tough, like wet or clay-rich sand: riddle and vent it well.", tone="care"),
    ),
    home=Procedure(
        takes=("a rammed specimen, 2 × 2 in", "a hard plate in a riddle of 12 mm", "a scale"),
        steps=steps(
            "Weigh the specimen.",
            "Let it fall 1.83 m onto the plate.",
            "Weigh what stays on the riddle.",
        ),
        scatter=Error(absolute=6.0),
        error="± 6 points from specimen to specimen (from memory)",
    ),
    lab=Procedure(
        takes=("the standard specimen", "a shatter tester: a fall of 6 ft onto an anvil in a 1/2 in sieve"),
        steps=steps("Push the specimen out of its tube so that it falls.", "Weigh what stays on the sieve."),
        scatter=Error(absolute=4.0),
        error="± 4 points (from memory)",
    ),
)

HARDNESS = Test(
    key="hardness",
    label="Mould hardness",
    measures="How far a spring-loaded tip sinks into the mould's face, from 0 to 100.",
    says="How evenly the mould is rammed: compare several places with each other.",
    says_not="Anything on another scale. Two scales are in use, and the same figure on both is not the same hardness.",
    figure="hardness",
    needs=needed("hardness", "hardness_scale"),
    work_min=2.0,
    improve="Read five places of the face, away from edges, and take the mean.",
    ratings=(
        Rating(below=50.0, text="Soft: metal will swell the mould.", tone="care"),
        Rating(below=90.0, text="Rammed like most moulds.", tone="go"),
        Rating(below=math.inf, text="Very hard: make sure that it vents.", tone="care"),
    ),
    home=Procedure(
        takes=("a hand gauge that names its scale",),
        steps=steps(
            "Hold the gauge flat on the mould's face, away from edges.",
            "Press until its ring touches, and read it.",
            "Read five places.",
        ),
        scatter=Error(absolute=5.0),
        error="± 5 from place to place (from memory)",
    ),
    lab=None,
)

TIN_DENSITY = Test(
    key="tin_density",
    label="Rammed density, in a tin",
    measures="What a tin of rammed sand weighs, divided by its inside volume.",
    says="How many kilograms a full flask takes, with your own sand and your own ramming.",
    says_not="The density in a flask that you ram harder or softer than the tin.",
    figure="rammed_density_kg_l",
    needs=needed(either("tin_ml", ("tin_diameter_mm", "tin_height_mm")), "net_g"),
    also=("scale_step_g",),
    work_min=6.0,
    improve="Do not measure the tin: fill it with water and weigh that. The ruler is the largest source of error.",
    ratings=(
        Rating(below=1.4, text="Loose: rammed softly, or very damp and open.", tone="care"),
        Rating(below=1.75, text="In the usual range of rammed moulding sand.", tone="go"),
        Rating(below=math.inf, text="Dense: rammed hard, or a heavy sand.", tone="care"),
    ),
    home=Procedure(
        takes=(
            "a straight tin whose volume you know, from its sizes or from the water it holds",
            "a rammer",
            "a scale",
        ),
        steps=steps(
            "Weigh the empty tin.",
            "Ram it full in layers, as you ram a mould, and strike it off.",
            "Weigh it and subtract the tin.",
        ),
        scatter=Error(absolute=0.03),
        error="± 0.03 kg/L from one filling to the next (from memory)",
    ),
    lab=Procedure(
        takes=("the standard tube, 2 in wide", "a balance"),
        steps=steps(
            "Find the mass that three blows ram to a height of 2 in: usually 155 to 160 g.",
            "Divide it by 102.96 cm³.",
        ),
        scatter=Error(absolute=0.015),
        error="± 0.015 kg/L (from memory)",
    ),
)

FLASK_DENSITY = Test(
    key="flask_density",
    label="Rammed density, from your own flask",
    measures="What a full flask of rammed sand weighs, divided by its inside volume.",
    says="The figure to use for your flasks from now on, in place of a general one.",
    says_not="The density of another sand, or of a mould that somebody else rams.",
    figure="rammed_density_kg_l",
    needs=needed("flask_net_kg", either("flask_inside_l", ("flask_length_mm", "flask_width_mm", "drag_depth_mm"))),
    work_min=10.0,
    improve="Weigh the full flask each time you mould, three times in all, and take the mean.",
    ratings=TIN_DENSITY.ratings,
    home=Procedure(
        takes=("a flask with its boards", "a luggage scale", "a ruler"),
        steps=steps(
            "Weigh the empty flask with its board.",
            "Ram it full without a pattern, as you always ram, and strike it off.",
            "Weigh it again and subtract the flask. If it is heavy, lift it with two people.",
            "Measure the inside: length, width and depth.",
        ),
        scatter=Error(absolute=0.03),
        error="± 0.03 kg/L from one ramming to the next (from memory)",
    ),
    lab=None,
)

ROWS = (PERMEABILITY, STRENGTH, SHATTER, HARDNESS, TIN_DENSITY, FLASK_DENSITY)
