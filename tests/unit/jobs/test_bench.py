"""The job *bench*: the figure of each test by hand arithmetic, its error, and its remarks."""

import math

import pytest

from sandmix.bench.catalogue import TESTS
from sandmix.jobs import JOBS

STEP = 1.96 / math.sqrt(12)
"""The half-width of a reading on a scale that shows grams: 1.96 · step/√12."""

WATER = {"test": "water_sensitivity", "moisture_first_pct_wet": 4, "moisture_second_pct_wet": 3}
BLUE = {"test": "methylene_blue", "sample_g": 5, "titre_ml": 40, "calibration_ml": 50, "calibration_clay_g": 0.5}
FLASK = {"flask_length_mm": 300, "flask_width_mm": 300, "drag_depth_mm": 100}
DRIED = {"test": "moisture", "sample_wet_g": 100, "sample_dry_g": 96}
TIN = {"test": "compactability", "height_before_mm": 120, "height_after_mm": 66}
STANDARD_TIN = {"rammer_kg": "14 lb", "rammer_fall_mm": "2 in", "tin_diameter_mm": "2 in"}
LIGHT_TIN = {"rammer_kg": 1, "rammer_fall_mm": 200, "tin_diameter_mm": 80}


def remarks(answer):
    return " ".join(answer["remarks"])


def half(answer, word):
    low, high = answer["doubt"][word]
    return (high - low) / 2


FIGURES = [
    ({"test": "moisture", "sample_wet_g": 500, "sample_dry_g": 482.5}, "moisture_pct_wet", 3.5),
    ({"test": "wash", "sample_g": 200, "clay_washed_g": 21}, "washed_pct_dry", 10.5),
    ({"test": "wash", "sample_g": 200, "left_g": 179}, "washed_pct_dry", 10.5),
    ({"test": "methylene_blue", "sample_g": 4, "titre_ml": 20, "calibration_ml": 32, "calibration_clay_g": 0.4}, "clay_pct_dry", 6.25),
    ({"test": "permeability", "pressure_cm": 5, "time_s": 30, "specimen": "metric"}, "permeability", 2000 * 5 / (6.25 * math.pi * 5 * 0.5)),
    ({"test": "compactability", "height_before_mm": 120, "height_after_mm": 66}, "compactability_pct", 45),
    (WATER | {"moisture_first_pct_wet": 4.2, "compactability_first_pct": 54, "compactability_second_pct": 38}, "water_sensitivity", 0.75),
    ({"test": "strength", "load_n": "10 kgf", "specimen": "metric"}, "strength_kpa", 980.665 / (6.25 * math.pi)),
    ({"test": "strength", "load_kg": 10, "specimen": "metric"}, "strength_kpa", 980.665 / (6.25 * math.pi)),
    ({"test": "strength", "strength_kpa": "14 psi"}, "strength_kpa", 96.5266),
    ({"test": "strength", "strength_kpa": "8 N/cm²"}, "strength_kpa", 80),
    ({"test": "strength", "strength_kpa": "8 N / cm²"}, "strength_kpa", 80),
    ({"test": "strength", "strength_kpa": "0,08 MPa"}, "strength_kpa", 80),
    ({"test": "strength", "strength_kpa": "0.08 N/mm²"}, "strength_kpa", 80),
    ({"test": "strength", "strength_kpa": "80 kN/m2"}, "strength_kpa", 80),
    ({"test": "strength", "strength_kpa": "8 N/cm^2"}, "strength_kpa", 80),
    ({"test": "strength", "strength_kpa": "0.8 bar"}, "strength_kpa", 80),
    ({"test": "strength", "strength_kpa": "0.8 kg/cm²"}, "strength_kpa", 78.4532),
    ({"test": "strength", "strength_kpa": "0.8 kgf/cm²"}, "strength_kpa", 78.4532),
    ({"test": "strength", "strength_kpa": "800 g/cm²"}, "strength_kpa", 78.4532),
    ({"test": "swell", "swell_ml": 28}, "swell_ml", 28),
    ({"test": "swell", "swell_ml": 14, "sample_g": 1}, "swell_ml", 28),
    ({"test": "tin_density", "tin_ml": 400, "net_g": 620}, "rammed_density_kg_l", 1.55),
    ({"test": "tin_density", "tin_diameter_mm": 100, "tin_height_mm": 100, "net_g": 1178.1}, "rammed_density_kg_l", 1.5),
    ({"test": "flask_density", "flask_net_kg": 14.4, "flask_inside_l": 9}, "rammed_density_kg_l", 1.6),
    ({"test": "flask_density", "flask_net_kg": 14.4, **FLASK}, "rammed_density_kg_l", 1.6),
    ({"test": "jar", "jar_sand_mm": 60, "jar_fines_mm": 20}, "jar_fines_pct", 25),
    ({"test": "shatter", "sample_g": 160, "left_g": 120}, "shatter_pct", 75),
    ({"test": "hardness", "hardness": 80, "hardness_scale": "ball"}, "hardness", 80),
    ({"test": "loss_on_ignition", "sample_g": 30, "left_g": 29.4}, "loss_on_ignition_pct_dry", 2),
    ({"test": "volatiles", "sample_g": 30, "left_g": 29.4, "volatiles_at": "900"}, "volatiles_pct_dry", 2),
    ({"test": "spray", "strokes": 50, "sprayed_g": 60}, "strokes_per_100ml", 250 / 3),
]  # fmt: skip


@pytest.mark.parametrize(("asked", "word", "expected"), FIGURES)
def test_the_figure_of_each_test(ask, asked, word, expected):
    answer = ask("bench", **asked)
    assert answer["ok"], answer
    assert answer["result"][word] == pytest.approx(expected, rel=1e-5)
    assert answer["lead"]["word"] == word
    low, high = answer["doubt"][word]
    assert low < expected < high
    assert answer["checklist"]
    assert answer["next"]
    assert any(remark.startswith("It shows: ") for remark in answer["remarks"])


def test_a_squeeze_gives_a_word_and_not_a_number(ask):
    answer = ask("bench", test="squeeze", squeeze="crumbles", history="1; 2; 3", wanted_error=1)
    assert answer["result"] == {"squeeze": "crumbles"}
    assert answer["state"]["tone"] == "care"
    assert answer["doubt"] == {}
    assert "not used" in remarks(answer)
    plain = ask("bench", test="squeeze", squeeze="clean")
    assert plain["state"]["tone"] == "go"
    assert "not used" not in remarks(plain)
    assert "not used" in remarks(ask("bench", test="squeeze", squeeze="clean", history="1; 2; 3"))


class TestUncertainty:
    def test_moisture_includes_scale_and_handful(self, ask):
        """M = 100 (1 - d/w): the wet reading moves it by 100 d/w² · 0.566, the dry one by 100/w · 0.566, the handful by 0.3."""
        scale = math.hypot(100 * 96 / 100**2 * STEP, 100 / 100 * STEP)
        assert half(ask("bench", **DRIED), "moisture_pct_wet") == pytest.approx(math.hypot(scale, 0.3), rel=0.001)

    def test_with_a_fine_scale_only_the_handful_is_left(self, ask):
        assert half(ask("bench", **DRIED, scale_step_g=0.01), "moisture_pct_wet") == pytest.approx(0.3, abs=0.001)

    def test_a_range_typed_with_a_weighing_is_used(self, ask):
        answer = ask("bench", **DRIED | {"sample_dry_g": "96 ± 2"})
        assert half(answer, "moisture_pct_wet") == pytest.approx(
            math.sqrt(2**2 + (0.96 * STEP) ** 2 + 0.3**2), rel=0.001
        )

    def test_four_tests_halve_the_range(self, ask):
        once, often = (half(ask("bench", **DRIED, repeats=n), "moisture_pct_wet") for n in (1, 4))
        assert often == pytest.approx(once / 2, rel=0.01)

    def test_a_laboratory_is_more_exact(self, ask):
        answer = ask("bench", **DRIED, scale_step_g=0.01, manner="lab")
        assert half(answer, "moisture_pct_wet") == pytest.approx(0.15, abs=0.001)
        assert "at home" not in remarks(answer)

    def test_a_test_done_alike_in_a_laboratory_has_the_range_of_home(self, ask):
        home, lab = (
            ask("bench", test="jar", jar_sand_mm=60, jar_fines_mm=20, manner=manner) for manner in ("home", "lab")
        )
        assert home["doubt"] == lab["doubt"]
        assert "at home" in remarks(lab)

    def test_compactability_includes_ruler_and_tin(self, ask):
        """C = 100 (1 - a/b): 1 mm moves it by 100 · 66/120² = 0.458 before and by 100/120 = 0.833 after; the tin by 2.5."""
        wanted = math.sqrt(0.458**2 + 0.833**2 + 2.5**2)
        assert half(ask("bench", **TIN), "compactability_pct") == pytest.approx(wanted, abs=0.01)

    def test_a_fine_test_assumes_a_fine_scale_if_none_is_given(self, ask):
        assert "0.01 g" in remarks(ask("bench", **BLUE))
        rough = ask("bench", **BLUE, scale_step_g=1)
        assert "0.01 g" not in remarks(rough)
        assert half(rough, "clay_pct_dry") > 5 * half(ask("bench", **BLUE), "clay_pct_dry")

    def test_swell_without_a_weighing_needs_no_scale(self, ask):
        assert "scale" not in remarks(ask("bench", test="swell", swell_ml=28))

    def test_sensitivity_has_only_the_errors_of_its_readings(self, ask):
        """4 and 3, 50 and 40: 0.35 moves it by 0.35 either way; 3 points change 10/10 to 10/7 or 10/13."""
        low, high = ask("bench", **WATER, compactability_first_pct=50, compactability_second_pct=40)["doubt"][
            "water_sensitivity"
        ]
        assert high - 1 == pytest.approx(math.sqrt(2 * 0.35**2 + 2 * (10 / 7 - 1) ** 2), rel=1e-6)
        assert 1 - low == pytest.approx(math.sqrt(2 * 0.35**2 + 2 * (1 - 10 / 13) ** 2), rel=1e-6)


class TestReadings:
    def test_readings_of_another_test_give_a_remark(self, ask):
        answer = ask("bench", **TIN, titre_ml=40, sample_g=5)
        assert answer["ok"]
        assert "so not used: sample, dye taken by the sample." in remarks(answer)

    def test_a_page_shows_a_reading_only_for_its_tests(self):
        (only,) = JOBS["bench"].only_for
        assert only.choice == "test"
        assert only.words["titre_ml"] == ("methylene_blue",)
        assert only.words["specimen"] == ("permeability", "strength")
        assert all(word in TESTS[key].readings for word, keys in only.words.items() for key in keys)

    def test_what_is_given_in_two_ways_is_remarked(self, ask):
        answer = ask("bench", test="wash", sample_g=200, clay_washed_g=21, left_g=150)
        assert answer["result"]["washed_pct_dry"] == pytest.approx(10.5)
        assert "so not used: mass left." in remarks(answer)

    @pytest.mark.parametrize(
        ("asked", "words"),
        [
            ({"test": "moisture"}, ["sample_wet_g", "sample_dry_g"]),
            ({"test": "wash"}, ["sample_g", "clay_washed_g"]),
            ({"test": "methylene_blue", "titre_ml": 4}, ["sample_g", "calibration_ml", "calibration_clay_g"]),
            ({"test": "permeability"}, ["pressure_cm", "time_s"]),
            ({"test": "strength"}, ["load_kg"]),
            ({"test": "tin_density", "tin_height_mm": 50}, ["tin_diameter_mm", "net_g"]),
            ({"test": "flask_density", "flask_net_kg": 10, "flask_width_mm": 300}, ["flask_length_mm"]),
            ({"test": "hardness", "hardness": 80}, ["hardness_scale"]),
            ({"test": "volatiles", "sample_g": 30, "left_g": 29}, ["volatiles_at"]),
        ],
    )
    def test_all_missing_readings_are_named_at_once(self, ask, asked, words):
        answer = ask("bench", **asked)
        assert [problem["word"] for problem in answer["problems"]] == words

    @pytest.mark.parametrize(
        ("asked", "word"),
        [
            ({"test": "moisture", "sample_wet_g": 96, "sample_dry_g": 100}, "sample_dry_g"),
            ({"test": "wash", "sample_g": 50, "left_g": 60}, "left_g"),
            ({"test": "wash", "sample_g": 50, "clay_washed_g": 60}, "clay_washed_g"),
            ({"test": "compactability", "height_before_mm": 66, "height_after_mm": 120}, "height_after_mm"),
            (WATER | {"compactability_first_pct": 40, "compactability_second_pct": 40}, "compactability_second_pct"),
            (WATER | {"compactability_first_pct": 40, "compactability_second_pct": 50}, "compactability_second_pct"),
            (
                WATER | {"moisture_second_pct_wet": 4, "compactability_first_pct": 40, "compactability_second_pct": 50},
                "moisture_second_pct_wet",
            ),
            ({"test": "tin_density", "tin_ml": 100, "net_g": 1600}, "net_g"),
            ({"test": "moisture", "sample_wet_g": 100, "sample_dry_g": 60}, "sample_dry_g"),
            (BLUE | {"titre_ml": 400}, "calibration_clay_g"),
            (TIN | {"repeats": 1.5}, "repeats"),
        ],
    )
    def test_impossible_readings_are_refused(self, ask, asked, word):
        answer = ask("bench", **asked)
        assert [problem["word"] for problem in answer["problems"]] == [word]

    def test_sand_that_does_not_sink_is_answered(self, ask):
        answer = ask("bench", test="compactability", height_before_mm=120, height_after_mm=120)
        assert answer["result"]["compactability_pct"] == 0


class TestPlan:
    def test_the_plan_is_the_least_work_for_the_target_range(self, ask):
        """0.788 on 100 g and 1 g: with 500 g √(0.158² + 0.3²) = 0.339 in 6 + 5 min; with 300 g 0.398."""
        answer = ask("bench", **DRIED, wanted_error=0.35)
        plan = {word: value for word, value in answer["result"].items() if word.startswith("plan_")}
        assert plan == {"plan_repeats": 1, "plan_sample_g": 500, "plan_step_g": 1, "plan_work_min": pytest.approx(11)}
        assert (
            "For ± 0.35 points: one test of 500 g on a scale that shows 1 g, 11 min of work in all. Two tests"
            in remarks(answer)
        )

    def test_a_range_out_of_reach_has_no_plan_and_says_what_to_do(self, ask):
        answer = ask("bench", **DRIED, wanted_error=0.1)
        assert not [word for word in answer["result"] if word.startswith("plan_")]
        assert (
            "± 0.1 points is out of reach: even five tests of 2000 g on a scale that shows 0.1 g would leave ± 0.13"
            in remarks(answer)
        )
        assert TESTS["moisture"].improve in remarks(answer)

    def test_a_range_reached_already_is_remarked(self, ask):
        assert "± 2 points is reached already" in remarks(ask("bench", **DRIED, wanted_error=2))

    def test_a_test_without_weighing_is_repeated(self, ask):
        """√(2.5² + 0.951²) = 2.675; divided by √2 it is 1.89: two tests."""
        answer = ask("bench", **TIN, wanted_error=2)
        assert answer["result"]["plan_repeats"] == 2
        assert "plan_sample_g" not in answer["result"]
        assert "For ± 2 points: two tests, 8 min of work in all." in answer["remarks"]

    def test_the_plan_of_a_figure_without_a_unit_has_none(self, ask):
        answer = ask("bench", test="permeability", pressure_cm=9.6, time_s=36, wanted_error=10)
        assert "For ± 10: two tests, 20 min of work in all." in answer["remarks"]


class TestOwnCalibration:
    def test_todays_tin_is_among_the_earlier_ones(self, ask):
        """44, 46, 43, 45: mean 44.5, spread 1.291, Student's t of three degrees 3.182: 3.182 · 1.291 · √1.25 = 4.593."""
        answer = ask("bench", **TIN, history="44; 46; 43; 45")
        assert answer["result"]["history_mean"] == pytest.approx(44.5)
        assert answer["result"]["history_within"] == pytest.approx(4.593, abs=0.001)
        assert answer["result"]["ordinary"] == "yes"
        assert "Your 4 earlier figures have a mean of 44.5; the next one lies within ± 4.6" in remarks(answer)
        assert "history_mean" not in answer["doubt"]

    def test_a_figure_outside_the_earlier_ones_is_unusual(self, ask):
        answer = ask("bench", **TIN | {"height_after_mm": 50}, history=[44, 46, 43, 45])
        assert answer["result"]["ordinary"] == "no"
        assert answer["state"] == {"word": "out of the ordinary", "tone": "care"}
        assert "repeat the test first" in remarks(answer)

    def test_two_earlier_figures_are_too_few(self, ask):
        answer = ask("bench", **TIN, history="44; 46")
        assert "ordinary" not in answer["result"]
        assert "2 are too few" in remarks(answer)

    def test_only_the_last_twenty_count(self, ask):
        """Ten each of 44 and 46 after thirty of 80: mean 45."""
        answer = ask("bench", **TIN, history=[80] * 30 + [44, 46] * 10)
        assert answer["result"]["history_mean"] == pytest.approx(45)

    def test_a_dose_is_counted_in_strokes(self, ask):
        """50 strokes for 60 g: 1.2 mL each, so 300 mL need 250."""
        answer = ask("bench", test="spray", strokes=50, sprayed_g=60, dose_ml=300)
        assert answer["result"]["stroke_ml"] == pytest.approx(1.2)
        assert answer["result"]["dose_strokes"] == pytest.approx(250)
        assert half(answer, "dose_strokes") / 250 == pytest.approx(math.hypot(0.07, STEP / 60), rel=0.01)
        assert answer["headline"].startswith("Strokes for 100 mL: 83. 250 for the dose. ")
        assert "Left out: strokes for the dose" in remarks(ask("bench", test="spray", strokes=50, sprayed_g=60))

    def test_the_density_of_a_flask_goes_on_to_the_job_flask_with_its_range(self, ask):
        """14.4 kg ± √(0.05² + 0.072²) on 9 L ± 2 %, and 0.03 of the test: √(0.0097² + 0.0327² + 0.03²) = 0.045 on the wider side."""
        link = ask("bench", test="flask_density", flask_net_kg=14.4, flask_inside_l=9)["next"][0]
        assert (link["job"], link["inputs"]) == ("flask", {"rammed_density_kg_l": "1.6 ± 0.045 kg/L"})


class TestTelling:
    def test_waits_are_timers(self, ask):
        timers = ask("bench", **DRIED)["timers"]
        assert [(timer["label"], timer["after_s"], timer["text"]) for timer in timers] == [
            ("sample in the oven", 3600, "60 min"),
            ("sample cooling", 600, "10 min"),
            ("drying again", 900, "15 min"),
        ]
        assert ask("bench", test="jar", jar_sand_mm=60, jar_fines_mm=20)["timers"][-1]["text"] == "24 h"

    def test_the_headline_names_the_hardness_scale_and_the_temperature_of_volatiles(self, ask):
        ball, cone = (ask("bench", test="hardness", hardness=40, hardness_scale=scale) for scale in ("ball", "cone"))
        assert "the B scale. Soft" in ball["headline"]
        assert "the C scale. Compare" in cone["headline"]
        assert cone["state"]["tone"] == "plain"
        heat = ask("bench", test="volatiles", sample_g=30, left_g=29.4, volatiles_at="482")
        assert "at 482 °C" in heat["headline"]

    def test_far_too_wet_is_a_stop_with_a_caution_about_steam(self, ask):
        answer = ask("bench", test="moisture", sample_wet_g=500, sample_dry_g=460)
        assert answer["state"] == {"word": "stop", "tone": "stop"}
        assert answer["cautions"][0].startswith("Steam: ")

    def test_methylene_blue_has_a_caution_about_acid_and_dye(self, ask):
        assert ask("bench", **BLUE)["cautions"][0].startswith("Acid and dye: ")

    def test_a_sample_that_lost_nothing_is_remarked(self, ask):
        assert "lost nothing" in remarks(ask("bench", test="moisture", sample_wet_g=100, sample_dry_g=100))
        assert "lost nothing" not in remarks(ask("bench", **DRIED))

    def test_compactabilities_close_together_are_remarked(self, ask):
        near = ask("bench", **WATER, compactability_first_pct=45, compactability_second_pct=40)
        far = ask("bench", **WATER, compactability_first_pct=55, compactability_second_pct=40)
        assert "only 5 apart" in remarks(near)
        assert "apart" not in remarks(far)

    def test_a_swell_with_another_mass_is_remarked(self, ask):
        assert "scaled to 2 g" in remarks(ask("bench", test="swell", swell_ml=14, sample_g=1))
        assert "scaled to" not in remarks(ask("bench", test="swell", swell_ml=14, sample_g=2))

    def test_the_next_job_gets_the_figure_with_its_range(self, ask):
        """√(0.543² + 0.566² + 0.3²) = 0.84; √(0.1² + 0.081² + 0.091² + 0.009² + 0.64²) = 0.66; √(0.253² + 0.283² + 0.75²) = 0.84."""
        washed = {"test": "wash", "sample_g": 200, "left_g": 179}
        assert ask("bench", **DRIED)["next"][0]["inputs"] == {"moisture_pct_wet": "4 ± 0.84 %"}
        assert ask("bench", **BLUE)["next"][0]["inputs"] == {"clay_blue_pct_dry": "8 ± 0.66 %"}
        assert ask("bench", **washed)["next"][0]["inputs"] == {"washed_pct_dry": "10.5 ± 0.84 %"}

    def test_a_tin_reading_goes_on_with_how_it_was_rammed(self, ask):
        """√((66/144)² + (1/1.2)² + 2.5²) = 2.68."""
        link = ask("bench", **TIN)["next"][0]
        assert (link["job"], link["inputs"]) == (
            "diagnose",
            {"compactability_read_pct": "45 ± 2.7 %", "tin_rammed": "own"},
        )
        assert ask("bench", **TIN, **STANDARD_TIN)["next"][0]["inputs"]["tin_rammed"] == "standard"

    def test_a_swell_goes_on_to_the_job_choose(self, ask):
        """± 2 mL from test to test; more than 24 mL is sodium bentonite, so only the missing label is left against it."""
        link = ask("bench", test="swell", swell_ml=28)["next"][0]
        assert link["job"] == "choose"
        assert link["inputs"] == {"swell_ml": "28 ± 2 mL", "stuff": "clay"}
        assert (
            ask("choose", **link["inputs"])["result"]["usability"]
            == ask("choose", stuff="clay", swell_ml=28)["result"]["usability"]
        )

    def test_temper_has_the_same_range_as_the_bench(self, ask):
        onward = ask("temper", **ask("bench", **DRIED)["next"][0]["inputs"])
        assert half(onward, "moisture_pct_wet") == pytest.approx(0.84)

    def test_the_energy_of_the_blows_and_the_fall_that_matches_the_standard(self, ask):
        """3 · 6.35029 kg · 9.80665 · 0.0508 m = 9.4907 J on π/4 · 0.0508² = 2.02683e-3 m²: 4.6825 kJ/m². 1 kg, 200 mm, 80 mm: 5.884 J on

        5.02655e-3 m²: 1.1706 kJ/m², which takes a fall of 200 · 4.6825/1.1706 = 800 mm.
        """
        standard, light = (ask("bench", **TIN, **tin)["result"] for tin in (STANDARD_TIN, LIGHT_TIN))
        assert standard["ram_energy_kj_m2"] == pytest.approx(4.6825, abs=5e-4)
        assert standard["matching_fall_mm"] == pytest.approx(50.8)
        assert standard["tin_rammed"] == "standard"
        assert light["ram_energy_kj_m2"] == pytest.approx(1.1706, abs=5e-4)
        assert light["matching_fall_mm"] == pytest.approx(800, abs=0.5)
        assert light["tin_rammed"] == "own"
        matched = ask("bench", **TIN, **LIGHT_TIN | {"rammer_fall_mm": light["matching_fall_mm"]})["result"]
        assert matched["tin_rammed"] == "standard"

    def test_a_tin_that_is_not_rammed_as_the_standard_shows_a_trend(self, ask):
        for tin in ({}, LIGHT_TIN):
            answer = ask("bench", **TIN, **tin)
            assert answer["state"] == {"word": "read", "tone": "plain"}
            assert "A trend: compare it with your own readings" in answer["headline"]
        assert "A fall of 800 mm would match it. A heavier rammer or a narrower tin is easier." in " ".join(
            answer["remarks"]
        )
        bare = ask("bench", **TIN)
        assert "enter mass of the rammer, fall of the rammer and inside diameter of the tin" in " ".join(
            bare["remarks"]
        )
        for same in (STANDARD_TIN, {"manner": "lab"}):
            assert ask("bench", **TIN, **same)["state"] == {"word": "as it should be", "tone": "go"}
        assert ask("bench", **TIN, **LIGHT_TIN, manner="lab")["result"]["tin_rammed"] == "own"

    def test_rammer_and_tin_do_not_change_the_reading(self, ask):
        plain, rammed = ask("bench", **TIN), ask("bench", **TIN, **LIGHT_TIN)
        assert plain["result"]["compactability_pct"] == rammed["result"]["compactability_pct"]
        assert plain["doubt"]["compactability_pct"] == rammed["doubt"]["compactability_pct"]

    def test_the_working_shows_the_formula(self, ask):
        assert ask("bench", **TIN)["working"][0] == "100 × (120 − 66) / 120 = 45 %"
        assert (
            "three falls of 14 lb through 2 in give 9.49 J, on 20.27 cm² 4.68 kJ/m²" in ask("bench", **TIN)["working"]
        )
        assert any(line.startswith("yours: 3 × 1 kg") for line in ask("bench", **TIN, **LIGHT_TIN)["working"])


def test_a_range_larger_than_the_figure_is_remarked(ask):
    """1 g on a scale of 1 g: each reading has an error of 0.57 g, so a loss of 0.01 g shows nothing; 30 g on a 0.1 g scale do."""
    burnt = {"test": "loss_on_ignition", "sample_g": 1, "left_g": 0.99, "scale_step_g": 1}
    assert "larger than the figure itself" in remarks(ask("bench", **burnt))
    assert "larger than the figure itself" not in remarks(
        ask("bench", test="loss_on_ignition", sample_g=30, left_g=29.4, scale_step_g=0.1)
    )


def test_a_tin_reading_and_a_water_sensitivity_lead_to_the_dose_by_the_tin(ask):
    """120 to 66 mm is 45 %; 1 point of moisture for 20 of compactability is a slope of 20."""
    tin = ask("bench", test="compactability", height_before_mm=120, height_after_mm=66)["next"][1]
    assert (tin["job"], tin["inputs"]["compactability_now_pct"].split()[0]) == ("tin", "45")
    pair = {"moisture_first_pct_wet": "3 ± 0", "moisture_second_pct_wet": "4 ± 0"}
    reads = {"compactability_first_pct": "35 ± 1", "compactability_second_pct": "55 ± 1"}
    tin = ask("bench", test="water_sensitivity", **pair, **reads)["next"][1]
    assert (tin["job"], tin["inputs"]["compactability_slope"].split()[0]) == ("tin", "20")
