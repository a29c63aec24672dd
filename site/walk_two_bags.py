"""The questions of the walk from two bags to a casting: each takes over what the one before answered."""

from __future__ import annotations

from collections.abc import Mapping

from handbook_question import Ask, Book, From, Total

HOOKS = {"metal": "aluminium", "casting_volume_cm3": "190 cm³"}
"""Two coat hooks on one board, 140 by 130 mm."""
SAND = (From(ask="bags_mix", word="sand_kg"), From(ask="bags_mix", word="clay_kg"))
DAMPED = (*SAND, From(ask="bags_mix", word="first_water_kg"))
"""The mix with its first dose of water."""
READY = (*DAMPED, From(ask="bags_temper", word="first_water_kg"))
"""The mix with both doses."""
TIN = {
    "test": "compactability",
    "rammer_kg": "2.5 kg",
    "rammer_fall_mm": "250 mm",
    "tin_diameter_mm": "72 mm",
    "height_before_mm": "120 mm",
}

ASKS: Mapping[str, Ask] = {
    "bags_sand": Ask(
        job="choose",
        inputs={"bag_label": "washed_silica", "vinegar": "no"},
        story="The bag of sand: washed silica. A spoonful in vinegar stays quiet.",
    ),
    "bags_clay": Ask(
        job="choose",
        inputs={"bag_label": "sodium_bentonite", "swell_ml": "27 mL"},
        story="The bag of clay: sodium bentonite. 2 g of it swell to 27 mL in a day.",
    ),
    "bags_flask": Ask(
        job="flask",
        inputs={
            "flask_length_mm": "260 mm",
            "flask_width_mm": "200 mm",
            "drag_depth_mm": "80 mm",
            "cope_depth_mm": "75 mm",
            "pattern_volume_cm3": "190 cm³",
            "pattern_length_mm": "140 mm",
            "pattern_width_mm": "130 mm",
        },
        story="The two frames called short, and two coat hooks on one board.",
    ),
    "bags_mix": Ask(
        job="mix",
        inputs={
            "make_kg": From(ask="bags_flask", word="make_kg"),
            "clay_pct_dry": "7.5 %",
            "moisture_pct_wet": "3.4 %",
            "clay_moisture_pct_wet": "10 %",
        },
        story="New moulding sand for these frames, with something to spare.",
    ),
    "bags_shopping": Ask(
        job="shopping",
        inputs={
            "sand_kg": From(ask="bags_mix", word="sand_kg"),
            "sand_bag_kg": "25 kg",
            "clay_kg": From(ask="bags_mix", word="clay_kg"),
            "clay_bag_kg": "10 kg",
            "sand_bag_price": "7.20",
            "clay_bag_price": "16",
            "make_kg": From(ask="bags_mix", word="make_kg"),
        },
        story="What to buy for it.",
    ),
    "bags_temper": Ask(
        job="temper",
        inputs={
            "heap_kg": Total(of=DAMPED),
            "sample_wet_g": "400 g",
            "sample_dry_g": "389 g",
            "scale_step_g": "1 g",
            "target_moisture_pct_wet": "3.4 %",
        },
        story="The mix after its first dose of water and a night of rest.",
    ),
    "bags_tin": Ask(
        job="bench",
        inputs={**TIN, "height_after_mm": "66 mm"},
        story="A tin of the sand, after the second dose.",
    ),
    "bags_feed": Ask(
        job="feed",
        inputs={
            **HOOKS,
            "casting_area_cm2": "640 cm²",
            "riser_kind": "side",
            "cope_depth_mm": "75 mm",
            "box_mm": "140 x 130 x 25 mm",
        },
        story="Do two coat hooks need a riser?",
    ),
    "bags_gate": Ask(
        job="gate",
        inputs={
            "metal": "aluminium",
            "fill_volume_cm3": "190 cm³",
            "head_mm": "105 mm",
            "gate_place": "parting",
            "fill_height_mm": "25 mm",
            "cope_height_mm": "10 mm",
            "thinnest_mm": "5 mm",
            "gate_ratio": "1:4:4",
            "fill_time_s": "2 s",
            "gates_count": "2",
            "gate_depth_mm": "4 mm",
        },
        story="Sprue, runner and two gates for two hooks.",
    ),
    "bags_pour": Ask(
        job="pour",
        inputs={
            **HOOKS,
            "projected_area_cm2": "150 cm²",
            "head_mm": "105 mm",
            "cope_kg": From(ask="bags_flask", word="cope_kg"),
            "crucible_l": "1.2 L",
            "moisture_pct_wet": "3.4 %",
        },
        story="The metal for two hooks, and what holds the cope down.",
    ),
    "bags_open": Ask(
        job="burnout",
        inputs={
            **HOOKS,
            "casting_area_cm2": "640 cm²",
            "box_mm": "140 x 130 x 25 mm",
            "sand_kg": Total(of=READY),
            "flask_sand_kg": From(ask="bags_flask", word="rammed_kg"),
            "moisture_pct_wet": "3.4 %",
            "clay_pct_dry": "7.5 %",
        },
        story="How long the mould stays shut, and what the heat did.",
    ),
    "bags_heap": Ask(
        job="heap",
        inputs={
            "book": Book(
                entries=(
                    {
                        "kind": "mixed",
                        "at": "2027-03-06",
                        "sand_kg": SAND[0],
                        "clay_kg": SAND[1],
                        "water_kg": DAMPED[2],
                    },
                    {"kind": "tempered", "at": "2027-03-07", "water_kg": READY[3]},
                    {
                        "kind": "poured",
                        "at": "2027-03-13",
                        "metal": "aluminium",
                        "metal_kg": From(ask="bags_open", word="metal_kg"),
                        "pattern": "coat hooks",
                        "flask_sand_kg": From(ask="bags_flask", word="rammed_kg"),
                        "water_driven_kg": From(ask="bags_open", word="water_driven_kg"),
                        "sand_lost_kg": "0 kg",
                    },
                    {"kind": "discarded", "at": "2027-03-13", "discard_kg": "300 g", "discarded_as": "crust"},
                )
            ),
            "now": "2027-03-14T09:00Z",
        },
        story="The book after the first cast: four entries.",
    ),
    "bags_rebond": Ask(
        job="rebond",
        inputs={
            "heap_kg": From(ask="bags_heap", word="heap_kg"),
            "moisture_pct_wet": From(ask="bags_heap", word="moisture_pct_wet"),
            "clay_pct_dry": From(ask="bags_heap", word="clay_pct_dry"),
            "target_clay_pct_dry": "7.5 %",
            "target_moisture_pct_wet": "3.4 %",
            "target_kg": From(ask="bags_mix", word="make_kg"),
        },
        story="What goes back in before the next cast.",
    ),
}
