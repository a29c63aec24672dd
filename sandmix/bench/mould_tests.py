"""Tests of rammed sand: how it lets air through, how strong, tough, hard and dense it is."""

from __future__ import annotations

import math

from sandmix.bench.test import Manner, Mark, Test, of, steps
from sandmix.language.words import Error

PERMEABILITY = Test(
    key="permeability",
    label="Permeability",
    measures="How easily air goes through a rammed specimen: 2000 cm³ of it, by its pressure and time.",
    says="How well the sand vents. Finer grain, more fines, more water and harder ramming all bring it down.",
    says_not="How well the mould vents: vent wires, thickness and ramming there decide too.",
    figure="permeability",
    needs=(of("pressure_cm"), of("time_s")),
    also=("specimen",),
    work_min=10.0,
    surer="Ram three specimens of the same mass and take the mean: ramming scatters more than the watch.",
    marks=(
        Mark(below=20.0, says="Very close: wants venting well, or coarser sand.", tone="care"),
        Mark(below=50.0, says="Fine and close: a smooth face, to be vented with care.", tone="go"),
        Mark(below=150.0, says="Open enough for most work.", tone="go"),
        Mark(below=math.inf, says="Very open: vents well, and metal runs into a rough face.", tone="care"),
    ),
    home=Manner(
        takes=(
            "a tube 2 in inside with a rammed specimen 2 in high, sealed at its wall",
            "a drum of 2 L that sinks in water and pushes the air through",
            "a water gauge made of clear hose",
            "a watch",
        ),
        steps=steps(
            "Ram the specimen in the tube with three blows, to 2 in of height.",
            "Seal the tube to the drum, and let the drum go.",
            "Read the pressure on the water gauge while it sinks evenly.",
            "Take the time for 2000 cm³.",
        ),
        scatter=Error(relative=0.15),
        error="± 15 % of the figure with a home-made drum (from memory)",
    ),
    lab=Manner(
        takes=("the standard specimen, 2 × 2 in or 50 × 50 mm", "an air drum of 2000 cm³ with its gauge", "a watch"),
        steps=steps(
            "Ram the specimen with three blows.",
            "Seal it, and let 2000 cm³ through.",
            "Read pressure and time.",
        ),
        scatter=Error(relative=0.06),
        error="± 6 % of the figure (from memory)",
    ),
)

STRENGTH = Test(
    key="strength",
    label="Green strength, by crushing",
    measures="The load under which a rammed specimen breaks, over its area.",
    says="How well the sand holds together now: clay, water, mulling and ramming together.",
    says_not="Which of them is at fault. Strong sand can still be brittle, and weak sand is not always thirsty.",
    figure="strength_kpa",
    needs=((("load_kg",), ("load_n",), ("strength_kpa",)),),
    also=("specimen",),
    work_min=8.0,
    surer="Crush three specimens of the same mass and take the mean.",
    marks=(
        Mark(below=35.0, says="Weak: handle the mould with care, and look at clay and mulling.", tone="care"),
        Mark(below=210.0, says="Within what shops mould with.", tone="go"),
        Mark(below=math.inf, says="Very strong: much clay. Look at how it vents.", tone="care"),
    ),
    home=Manner(
        takes=(
            "a tube 2 in inside with a rammer that just fits",
            "two flat plates",
            "a bucket to be filled with sand, and a scale",
        ),
        steps=steps(
            "Ram a specimen 2 in high with three blows, and push it out of the tube.",
            "Stand it between the plates with the bucket on top.",
            "Fill sand into the bucket slowly until the specimen breaks.",
            "Weigh bucket, sand and upper plate: that is the load.",
        ),
        scatter=Error(relative=0.12),
        error="± 12 % of the figure from specimen to specimen (from memory)",
    ),
    lab=Manner(
        takes=("the standard specimen", "a crushing machine"),
        steps=steps(
            "Ram the specimen with three blows and strip it.",
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
    says="How tough the sand is: what a mould stands when it is knocked or the pattern is drawn.",
    says_not="How strong it is: dry strong sand shatters, wet weak sand does not.",
    figure="shatter_pct",
    needs=(of("sample_g"), of("left_g")),
    also=("scale_step_g",),
    work_min=6.0,
    surer="Drop three specimens of the same mass and take the mean.",
    marks=(
        Mark(below=50.0, says="Brittle: edges break as the pattern is drawn.", tone="care"),
        Mark(below=85.0, says="Tough enough to draw and to handle.", tone="go"),
        Mark(below=math.inf, says="Very tough, as wet or clayey sand is: riddle and vent well.", tone="care"),
    ),
    home=Manner(
        takes=("a rammed specimen, 2 × 2 in", "a hard plate in a riddle of 12 mm", "a scale"),
        steps=steps(
            "Weigh the specimen.",
            "Let it fall 1.83 m on the plate.",
            "Weigh what the riddle keeps.",
        ),
        scatter=Error(absolute=6.0),
        error="± 6 points from specimen to specimen (from memory)",
    ),
    lab=Manner(
        takes=("the standard specimen", "a shatter tester: 6 ft of fall on an anvil in a sieve of 1/2 in"),
        steps=steps("Push the specimen out of its tube so that it falls.", "Weigh what the sieve keeps."),
        scatter=Error(absolute=4.0),
        error="± 4 points (from memory)",
    ),
)

HARDNESS = Test(
    key="hardness",
    label="Mould hardness",
    measures="How far a spring-loaded tip sinks into the mould's face, from 0 to 100.",
    says="How evenly the mould is rammed: compare its places with each other.",
    says_not="Anything beside its own scale. Two scales are in use, and one figure on both is not one hardness.",
    figure="hardness",
    needs=(of("hardness"), of("hardness_scale")),
    work_min=2.0,
    surer="Read five places of the face, away from edges, and take the mean.",
    marks=(
        Mark(below=50.0, says="Soft: metal will swell the mould.", tone="care"),
        Mark(below=90.0, says="Rammed as most moulds are.", tone="go"),
        Mark(below=math.inf, says="Very hard: see that it vents.", tone="care"),
    ),
    home=Manner(
        takes=("a hand gauge with its scale named on it",),
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
    measures="What a tin of rammed sand weighs, by its inside volume.",
    says="The kilograms of a full flask, from your own sand and your own ramming.",
    says_not="The density in a flask where you ram harder or softer than in the tin.",
    figure="rammed_density_kg_l",
    needs=((("tin_ml",), ("tin_diameter_mm", "tin_height_mm")), of("net_g")),
    also=("scale_step_g",),
    work_min=6.0,
    surer="Fill the tin with water and weigh that, instead of measuring it: its volume is what the ruler leaves in doubt.",
    marks=(
        Mark(below=1.4, says="Loose: rammed softly, or very damp and open.", tone="care"),
        Mark(below=1.75, says="Where rammed moulding sand usually is.", tone="go"),
        Mark(below=math.inf, says="Dense: rammed hard, or a heavy sand.", tone="care"),
    ),
    home=Manner(
        takes=("a straight tin, its volume known from its sizes or from the water it holds", "a rammer", "a scale"),
        steps=steps(
            "Weigh the empty tin.",
            "Ram it full in layers, as you ram a mould, and strike it off.",
            "Weigh it, less the tin.",
        ),
        scatter=Error(absolute=0.03),
        error="± 0.03 kg/L from one filling to the next (from memory)",
    ),
    lab=Manner(
        takes=("the standard tube, 2 in wide", "a balance"),
        steps=steps(
            "Find the mass that three blows bring to 2 in of height: 155 to 160 g as a rule.",
            "Divide it by 102.96 cm³.",
        ),
        scatter=Error(absolute=0.015),
        error="± 0.015 kg/L (from memory)",
    ),
)

FLASK_DENSITY = Test(
    key="flask_density",
    label="Rammed density, from your own flask",
    measures="What a full flask of rammed sand weighs, by its inside volume.",
    says="The figure to use for your flasks from now on, in place of a general one.",
    says_not="The density of another sand, or of a mould that somebody else rams.",
    figure="rammed_density_kg_l",
    needs=(of("flask_net_kg"), (("flask_inside_l",), ("flask_length_mm", "flask_width_mm", "drag_depth_mm"))),
    work_min=10.0,
    surer="Weigh the flask full three times, at three mouldings, and take the mean.",
    marks=TIN_DENSITY.marks,
    home=Manner(
        takes=("a flask with its boards", "a luggage scale", "a ruler"),
        steps=steps(
            "Weigh the empty flask with its board.",
            "Ram it full without a pattern, as always, and strike it off.",
            "Weigh it again, less the flask. Lift with two where it is heavy.",
            "Measure the inside: length, width and depth.",
        ),
        scatter=Error(absolute=0.03),
        error="± 0.03 kg/L from one ramming to the next (from memory)",
    ),
    lab=None,
)

ROWS = (PERMEABILITY, STRENGTH, SHATTER, HARDNESS, TIN_DENSITY, FLASK_DENSITY)
