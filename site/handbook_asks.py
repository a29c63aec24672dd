"""The questions that the handbook puts to the jobs, by name: each figure on its pages is an answer to one of them.

All of them are about the hall workshop.
"""

from __future__ import annotations

from collections.abc import Mapping

from handbook_question import Ask

HEAP = "45 kg"
RECIPE = {"clay_pct_dry": "7.5 %", "moisture_pct_wet": "3.4 %", "clay_moisture_pct_wet": "10 %"}
HOOKS = {"metal": "aluminium", "casting_volume_cm3": "380 cm³"}
HOOKS_POURED = HOOKS | {
    "projected_area_cm2": "300 cm²",
    "head_mm": "130 mm",
    "cope_kg": "11 kg",
    "crucible_l": "1.2 L",
    "moisture_pct_wet": "3.3 %",
}
WIDE = {"flask_length_mm": "380 mm", "flask_width_mm": "260 mm", "drag_depth_mm": "95 mm", "cope_depth_mm": "90 mm"}
LIFE = {"clay_pct_dry": "7.5 %", "clay_burnt_share": "0.015", "new_sand_share": "0.025", "casts": "30"}

ASKS: Mapping[str, Ask] = {
    # choosing
    "washed_sand": Ask(
        job="choose",
        inputs={"bag_label": "washed_silica", "vinegar": "no"},
        story="A bag of washed silica sand. A spoonful in vinegar stays quiet.",
    ),
    "mortar_mix": Ask(job="choose", inputs={"bag_label": "sand_mix"}, story="A bag sold as sand mix or mortar mix."),
    "pond_clay": Ask(
        job="choose",
        inputs={
            "bag_label": "pond_bentonite",
            "swell_ml": "27 mL",
            "bought_kg": "25 kg",
            "ground_kg": "3 kg",
            "passed_kg": "2.6 kg",
            "wanted_kg": "3.6 kg",
        },
        story="Pond-liner bentonite that has gone lumpy. 3 kg were broken up, and 2.6 kg passed the sieve.",
    ),
    "calcium_clay": Ask(
        job="choose",
        inputs={"bag_label": "calcium_bentonite", "swell_ml": "8 mL"},
        story="A bag of calcium bentonite that swells to 8 mL.",
    ),
    "hall_grain": Ask(
        job="fineness",
        inputs={"retained": "50: 21.4; 70: 42; 100: 30; 140: 6; pan: 0.6"},
        story="100 g of the hall's sand on its sieves, by sieve number.",
    ),
    "fine_grain": Ask(
        job="fineness",
        inputs={"retained": "100: 25; 140: 45; 200: 25; 270: 4; pan: 1"},
        story="100 g of a finer sand on the same sieves.",
    ),
    # mixing
    "first_heap": Ask(
        job="mix",
        inputs={"make_kg": HEAP, **RECIPE, "mixer_kg": "15 kg"},
        story="The hall's first heap of 45 kg, from dried silica sand, in a mixer that takes 15 kg.",
    ),
    "damp_bag": Ask(
        job="mix",
        inputs={"make_kg": HEAP, **RECIPE, "sand_moisture_pct_wet": "4 %"},
        story="The same heap from play sand that holds 4 % water.",
    ),
    "usual_clay": Ask(
        job="mix",
        inputs={"make_kg": HEAP, "clay_pct_dry": "7.5 %"},
        story="45 kg with 7.5 % of clay; the job suggests the moisture.",
    ),
    "much_clay": Ask(
        job="mix",
        inputs={"make_kg": HEAP, "clay_pct_dry": "12 %"},
        story="The same with 12 % of clay.",
    ),
    "by_buckets": Ask(
        job="mix",
        inputs={"make_kg": HEAP, "parts_sand": "9", "parts_clay": "1", "moisture_pct_wet": "3.4 %"},
        story="A recipe by the bucket: nine of dry sand to one of clay.",
    ),
    # tempering
    "dry_chest": Ask(
        job="temper",
        inputs={"heap_kg": HEAP, "sample_wet_g": "400 g", "sample_dry_g": "391 g", "scale_step_g": "1 g"},
        story="The chest of 45 kg stood through a dry March. 400 g of it loses 9 g in the oven.",
    ),
    "wet_chest": Ask(
        job="temper",
        inputs={"heap_kg": HEAP, "moisture_pct_wet": "6.5 %"},
        story="The same chest after a leak in the roof: 6.5 % water.",
    ),
    "small_sample": Ask(
        job="temper",
        inputs={"heap_kg": HEAP, "sample_wet_g": "100 g", "sample_dry_g": "97 g", "scale_step_g": "1 g"},
        story="A sample of 100 g on a kitchen scale that shows 1 g.",
    ),
    "large_sample": Ask(
        job="temper",
        inputs={"heap_kg": HEAP, "sample_wet_g": "500 g", "sample_dry_g": "485 g", "scale_step_g": "1 g"},
        story="A sample of 500 g on the same scale.",
    ),
    "handful": Ask(
        job="feel",
        inputs={"feel": "prints", "heap_kg": HEAP},
        story="A squeezed handful holds and shows finger prints. No test of this heap is known yet.",
    ),
    "tin": Ask(
        job="bench",
        inputs={
            "test": "compactability",
            "height_before_mm": "120 mm",
            "height_after_mm": "68 mm",
            "rammer_kg": "2.5 kg",
            "rammer_fall_mm": "250 mm",
            "tin_diameter_mm": "72 mm",
        },
        story="A tin of loose sand, 120 mm high, is 68 mm high after three blows.",
    ),
    # ramming
    "wide_flask": Ask(
        job="flask",
        inputs={
            **WIDE,
            "heap_kg": HEAP,
            "pattern_volume_cm3": "380 cm³",
            "pattern_length_mm": "290 mm",
            "pattern_width_mm": "150 mm",
        },
        story="Four coat hooks on one board in the wide flask, with 45 kg in the chest.",
    ),
    # venting, pouring
    "hooks_poured": Ask(
        job="pour", inputs=HOOKS_POURED, story="Four coat hooks, cast flat under a cope of 11 kg, in aluminium."
    ),
    # gating and feeding
    "hooks_gated": Ask(
        job="gate",
        inputs={
            "metal": "aluminium",
            "fill_volume_cm3": "380 cm³",
            "head_mm": "120 mm",
            "gate_place": "parting",
            "fill_height_mm": "25 mm",
            "cope_height_mm": "10 mm",
            "thinnest_mm": "5 mm",
            "gate_ratio": "1:4:4",
            "fill_time_s": "2 s",
            "gates_count": "4",
            "gate_depth_mm": "4 mm",
        },
        story="Four coat hooks, filled from the parting in 2 seconds.",
    ),
    "narrow_gates": Ask(
        job="gate",
        inputs={
            "metal": "aluminium",
            "fill_volume_cm3": "380 cm³",
            "head_mm": "120 mm",
            "gate_place": "parting",
            "fill_height_mm": "25 mm",
            "cope_height_mm": "10 mm",
            "thinnest_mm": "5 mm",
            "gate_ratio": "1:1:1",
            "fill_time_s": "2 s",
        },
        story="The same hooks with gates no larger than the sprue.",
    ),
    "plate_fed": Ask(
        job="feed",
        inputs={
            "metal": "tin_bronze",
            "casting_volume_cm3": "88 cm³",
            "casting_area_cm2": "200 cm²",
            "riser_kind": "side",
            "cope_depth_mm": "90 mm",
            "box_mm": "140 x 55 x 12 mm",
        },
        story="The back plate of the door pull, 12 mm thick, in tin bronze.",
    ),
    # opening
    "hooks_opened": Ask(
        job="burnout",
        inputs={
            **HOOKS,
            "casting_area_cm2": "1280 cm²",
            "sand_kg": HEAP,
            "flask_sand_kg": "28 kg",
            "box_mm": "290 x 150 x 25 mm",
        },
        story="Four coat hooks in aluminium, in 28 kg of the heap's 45 kg of sand.",
    ),
    "bar_opened": Ask(
        job="burnout",
        inputs={
            "metal": "grey_iron",
            "casting_volume_cm3": "250 cm³",
            "casting_area_cm2": "330 cm²",
            "sand_kg": HEAP,
            "box_mm": "320 x 40 x 20 mm",
            "clay_pct_dry": "7.5 %",
            "flask_sand_kg": "24 kg",
        },
        story="The grate bar in grey iron, in 24 kg of the heap's 45 kg of sand.",
    ),
    # riddling, restoring
    "crust_out": Ask(
        job="forecast",
        inputs={**LIFE, "make_up": "yes", "burnt_kept_share": "0.2"},
        story="Thirty casts, clay put back after each, and most of the crust picked out.",
    ),
    "crust_in": Ask(
        job="forecast",
        inputs={**LIFE, "make_up": "yes", "burnt_kept_share": "1"},
        story="Thirty casts, clay put back after each, and all of the crust mixed back.",
    ),
    "water_alone": Ask(
        job="forecast",
        inputs={**LIFE, "make_up": "no"},
        story="Thirty casts with new sand for what is lost, and no clay: only water is put back.",
    ),
    "after_a_dozen": Ask(
        job="rebond",
        inputs={
            "heap_kg": "43 kg",
            "moisture_pct_wet": "2.3 %",
            "clay_pct_dry": "6.1 %",
            "dead_fines_pct_dry": "3.1 %",
            "target_clay_pct_dry": "7.5 %",
            "target_kg": HEAP,
        },
        story="The hall's heap after a dozen casts.",
    ),
    # storing
    "dried_out": Ask(
        job="dry",
        inputs={"heap_kg": HEAP, "moisture_pct_wet": "6.5 %"},
        story="The chest of 45 kg after a leak in the roof, spread out to dry.",
    ),
    "dried_up": Ask(
        job="temper",
        inputs={"heap_kg": "44 kg", "moisture_pct_wet": "1 %"},
        story="The same chest after a winter without its lid: 44 kg with 1 % water.",
    ),
}
