"""All problems at once (DOOR.md, 'Out'): a rule between fields is checked wherever its own fields are right, even where another is wrong.

Each case breaks one rule between fields and has one wrong value in a field that this rule does not need.
"""

import pytest

CASES = [
    ("temper", {"sample_wet_g": 500, "sample_dry_g": 520}, {"heap_kg": "lots"}, "sample_dry_g"),
    ("temper", {"sample_wet_g": 500}, {"heap_kg": -3}, "sample_dry_g"),
    ("mix", {"make_kg": 30, "clay_pct_dry": 7, "clay_pct_sand": 8}, {"mixer_kg": "big"}, "clay_pct_sand"),
    ("mix", {"make_kg": 30, "parts_sand": 9}, {"bucket_l": 0}, "parts_clay"),
    ("mix", {"make_kg": 30, "clay_pct_wet": 7}, {"mixer_kg": "big"}, "moisture_pct_wet"),
    (
        "rebond",
        {"heap_kg": 40, "moisture_pct_wet": 3, "clay_pct_dry": 60, "dead_fines_pct_dry": 50},
        {"target_clay_pct_dry": "much"},
        "dead_fines_pct_dry",
    ),
    ("rebond", {"target_kg": 50, "bin_kg": 40}, {"heap_kg": "lots"}, "target_kg"),
    (
        "blend",
        {"lots": [{"kg": 10, "clay_pct_dry": 60, "dead_fines_pct_dry": 60}]},
        {"make_kg": "some"},
        "lots",
    ),
    (
        "flask",
        {"flask_length_mm": 300, "flask_width_mm": 300, "drag_depth_mm": 100, "pattern_length_mm": 100},
        {"heap_kg": "lots"},
        "pattern_width_mm",
    ),
    (
        "flask",
        {"flask_length_mm": 300, "flask_width_mm": 300, "pattern_length_mm": 100},
        {"drag_depth_mm": "deep"},
        "pattern_width_mm",
    ),
    ("pour", {"casting_volume_cm3": 100, "core_volume_cm3": 9000}, {"head_mm": "high"}, "core_volume_cm3"),
    ("pour", {"casting_volume_cm3": 100, "pour_temp_c": 500}, {"cope_kg": "heavy"}, "pour_temp_c"),
    (
        "fit",
        {"pattern_length_mm": 100, "pattern_width_mm": 80, "pattern_height_mm": 30, "parting_height_mm": 40},
        {"heap_kg": "lots"},
        "parting_height_mm",
    ),
    ("feed", {"casting_volume_cm3": 100, "casting_area_cm2": 20}, {"feed_length_mm": "far"}, "casting_area_cm2"),
    ("feed", {"modulus_mm": 9, "feed_efficiency_pct": 5}, {"cope_depth_mm": "deep"}, "feed_efficiency_pct"),
    ("pattern", {"box_mm": [100, 80, 60], "body": "ring", "bore_mm": 90}, {"scale": -1}, "bore_mm"),
    ("burnout", {"casting_volume_cm3": 100, "box_mm": [10, 10, 10]}, {"modulus_mm": "thick"}, "box_mm"),
    ("burnout", {"modulus_mm": 5, "pour_temp_c": 500}, {"sand_kg": "lots"}, "pour_temp_c"),
    ("fineness", {"retained": {"50": 20}, "sample_g": 50, "clay_washed_g": 60}, {"sieves": 1}, "clay_washed_g"),
    ("estimate", {"washed_pct_dry": 8, "dead_fines_pct_dry": 9}, {"moisture_pct_wet": "wet"}, "dead_fines_pct_dry"),
    ("forecast", {"clay_pct_dry": 60, "dead_clay_pct_dry": 60}, {"casts": "many"}, "dead_clay_pct_dry"),
    (
        "facing",
        {"casting_volume_cm3": 250, "casting_area_cm2": 420, "flask_sand_kg": 24, "heap_kg": 10},
        {"casts": "many"},
        "heap_kg",
    ),
    (
        "season",
        {"heap_kg": 40, "clay_burnt_share": 0.02, "clay_pct_dry": 60, "dead_fines_pct_dry": 60},
        {"casts": "many"},
        "dead_fines_pct_dry",
    ),
    ("carbon", {"metal": "grey_iron", "carbon_gauge": "loss_on_ignition"}, {"heap_kg": "lots"}, "carbon_test_c"),
    ("choose", {"bag_label": "other", "ground_kg": 3, "passed_kg": 4}, {"swell_ml": "much"}, "passed_kg"),
    ("match", {"lots": [{"kg": 10, "retained": {"50": 5}}], "make_kg": 20}, {"target_gfn": "fine"}, "make_kg"),
    ("bench", {"test": "moisture", "sample_wet_g": 500, "sample_dry_g": 520}, {"repeats": "twice"}, "sample_dry_g"),
    ("tin", {"height_before_mm": 100, "height_after_mm": 120}, {"heap_kg": "lots"}, "height_after_mm"),
    ("tin", {"compactability_now_pct": 40, "net_g": 3000, "heap_kg": 2}, {"metal": "wood"}, "net_g"),
    ("diagnose", {"clay_pct_dry": 60, "dead_fines_pct_dry": 60}, {"moisture_pct_wet": "wet"}, "dead_fines_pct_dry"),
]


@pytest.mark.parametrize(("job", "inputs", "wrong", "word"), CASES)
def test_a_wrong_field_hides_no_rule_between_others(ask, job, inputs, wrong, word):
    words = [problem["word"] for problem in ask(job, **inputs, **wrong)["problems"]]
    assert {word, *wrong} <= set(words)


def test_the_case_of_the_scale_and_the_heap(ask):
    """Lots is no mass, and 500 g that dry to 520 g are swapped."""
    problems = ask("temper", heap_kg="lots", sample_wet_g=500, sample_dry_g=520)["problems"]
    assert [problem["word"] for problem in problems] == ["heap_kg", "sample_dry_g"]
    assert "520 g is more than the 500 g before drying" in problems[1]["message"]


def test_a_rule_is_not_applied_to_a_wrong_value(ask):
    """Without the dry weight nothing can be said of the loss, and the wet one is there."""
    problems = ask("temper", heap_kg=25, sample_wet_g=500, sample_dry_g="dry")["problems"]
    assert [problem["word"] for problem in problems] == ["sample_dry_g"]
