"""The job *bench*: the figure of each test by hand arithmetic, its error, and what is said beside it."""

import math

import pytest

from sandmix.bench.catalogue import TESTS
from sandmix.jobs import JOBS

STEP = 1.96 / math.sqrt(12)
"""The half-width of a reading on a scale of one gram: an even spread of step/√12."""

WATER = {"test": "water_sensitivity", "moisture_first_pct_wet": 4, "moisture_second_pct_wet": 3}
BLUE = {"test": "methylene_blue", "sample_g": 5, "titre_ml": 40, "calibration_ml": 50, "calibration_clay_g": 0.5}
FLASK = {"flask_length_mm": 300, "flask_width_mm": 300, "drag_depth_mm": 100}
DRIED = {"test": "moisture", "sample_wet_g": 100, "sample_dry_g": 96}
TIN = {"test": "compactability", "height_before_mm": 120, "height_after_mm": 66}


def said(answer):
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
    assert answer["remarks"][0].startswith("It says: ") or answer["remarks"][1].startswith("It says: ")


def test_a_squeeze_is_a_word_and_no_number(ask):
    answer = ask("bench", test="squeeze", squeeze="crumbles", history="1; 2; 3", wanted_error=1)
    assert answer["result"] == {"squeeze": "crumbles"}
    assert answer["state"]["tone"] == "care"
    assert answer["doubt"] == {}
    assert "left aside" in said(answer)
    plain = ask("bench", test="squeeze", squeeze="clean")
    assert plain["state"]["tone"] == "go"
    assert "left aside" not in said(plain)
    assert "left aside" in said(ask("bench", test="squeeze", squeeze="clean", history="1; 2; 3"))


class TestDoubt:
    def test_moisture_carries_scale_and_handful(self, ask):
        """M = 100 (1 - d/w): the wet reading moves it 100 d/w² · 0.566, the dry one 100/w · 0.566, the handful 0.3."""
        scale = math.hypot(100 * 96 / 100**2 * STEP, 100 / 100 * STEP)
        assert half(ask("bench", **DRIED), "moisture_pct_wet") == pytest.approx(math.hypot(scale, 0.3), rel=0.001)

    def test_a_finer_scale_leaves_the_handful(self, ask):
        assert half(ask("bench", **DRIED, scale_step_g=0.01), "moisture_pct_wet") == pytest.approx(0.3, abs=0.001)

    def test_a_margin_typed_at_a_weighing_is_kept(self, ask):
        answer = ask("bench", **DRIED | {"sample_dry_g": "96 ± 2"})
        assert half(answer, "moisture_pct_wet") == pytest.approx(
            math.sqrt(2**2 + (0.96 * STEP) ** 2 + 0.3**2), rel=0.001
        )

    def test_four_tests_halve_it(self, ask):
        once, often = (half(ask("bench", **DRIED, repeats=n), "moisture_pct_wet") for n in (1, 4))
        assert often == pytest.approx(once / 2, rel=0.01)

    def test_a_laboratory_scatters_less(self, ask):
        answer = ask("bench", **DRIED, scale_step_g=0.01, manner="lab")
        assert half(answer, "moisture_pct_wet") == pytest.approx(0.15, abs=0.001)
        assert "as a laboratory" not in said(answer)

    def test_a_test_that_a_laboratory_does_alike_says_so(self, ask):
        home, lab = (
            ask("bench", test="jar", jar_sand_mm=60, jar_fines_mm=20, manner=manner) for manner in ("home", "lab")
        )
        assert home["doubt"] == lab["doubt"]
        assert "its scatter is that of home" in said(lab)

    def test_compactability_carries_the_ruler_and_the_tin(self, ask):
        """C = 100 (1 - a/b): 1 mm moves it 100 · 66/120² = 0.458 before and 100/120 = 0.833 after; the tin 2.5."""
        wanted = math.sqrt(0.458**2 + 0.833**2 + 2.5**2)
        assert half(ask("bench", **TIN), "compactability_pct") == pytest.approx(wanted, abs=0.01)

    def test_a_fine_test_takes_a_fine_scale_where_none_is_named(self, ask):
        assert "taken as 0.01 g" in said(ask("bench", **BLUE))
        rough = ask("bench", **BLUE, scale_step_g=1)
        assert "taken as 0.01 g" not in said(rough)
        assert half(rough, "clay_pct_dry") > 5 * half(ask("bench", **BLUE), "clay_pct_dry")

    def test_swell_without_a_weighing_asks_no_scale(self, ask):
        assert "scale" not in said(ask("bench", test="swell", swell_ml=28))

    def test_sensitivity_has_no_scatter_but_that_of_its_readings(self, ask):
        """4 and 3, 50 and 40: 0.35 moves it 0.35 either way; 3 points move 10/10 to 10/7 or 10/13."""
        low, high = ask("bench", **WATER, compactability_first_pct=50, compactability_second_pct=40)["doubt"][
            "water_sensitivity"
        ]
        assert high - 1 == pytest.approx(math.sqrt(2 * 0.35**2 + 2 * (10 / 7 - 1) ** 2), rel=1e-6)
        assert 1 - low == pytest.approx(math.sqrt(2 * 0.35**2 + 2 * (1 - 10 / 13) ** 2), rel=1e-6)


class TestReadings:
    def test_those_of_another_test_are_a_remark(self, ask):
        answer = ask("bench", **TIN, titre_ml=40, sample_g=5)
        assert answer["ok"]
        assert "Not asked by this test, so left aside: sample, dye taken by the sample." in answer["remarks"]

    def test_a_page_asks_them_beside_their_test(self):
        (only,) = JOBS["bench"].only_for
        assert only.choice == "test"
        assert only.words["titre_ml"] == ("methylene_blue",)
        assert only.words["specimen"] == ("permeability", "strength")
        assert all(word in TESTS[key].readings for word, keys in only.words.items() for key in keys)

    def test_what_is_said_two_ways_is_told(self, ask):
        answer = ask("bench", test="wash", sample_g=200, clay_washed_g=21, left_g=150)
        assert answer["result"]["washed_pct_dry"] == pytest.approx(10.5)
        assert "Said two ways, so left aside: what is left." in answer["remarks"]

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
    def test_those_that_are_missing_are_refused_by_name_all_at_once(self, ask, asked, words):
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
    def test_those_that_can_not_be_are_refused(self, ask, asked, word):
        answer = ask("bench", **asked)
        assert [problem["word"] for problem in answer["problems"]] == [word]

    def test_a_sand_that_hardly_sinks_is_told_and_not_refused(self, ask):
        answer = ask("bench", test="compactability", height_before_mm=120, height_after_mm=120)
        assert answer["result"]["compactability_pct"] == 0


class TestPlan:
    def test_the_least_work_that_reaches_it(self, ask):
        """0.788 on 100 g and 1 g: 500 g bring it to √(0.158² + 0.3²) = 0.339 in 6 + 5 min; 300 g leave 0.398."""
        answer = ask("bench", **DRIED, wanted_error=0.35)
        plan = {word: value for word, value in answer["result"].items() if word.startswith("plan_")}
        assert plan == {"plan_repeats": 1, "plan_sample_g": 500, "plan_step_g": 1, "plan_work_min": pytest.approx(11)}
        assert (
            "For ± 0.35 points: one test of 500 g on a scale that shows 1 g, 11 min of work in all. Two tests"
            in said(answer)
        )

    def test_what_is_out_of_reach_is_said_with_what_to_do(self, ask):
        answer = ask("bench", **DRIED, wanted_error=0.1)
        assert not [word for word in answer["result"] if word.startswith("plan_")]
        assert (
            "± 0.1 points is out of reach: even five tests of 2000 g on a scale that shows 0.1 g would leave ± 0.13"
            in said(answer)
        )
        assert "take it from five places, mix, and test it twice" in said(answer)

    def test_what_is_reached_already_is_said(self, ask):
        assert "± 2 points is reached already" in said(ask("bench", **DRIED, wanted_error=2))

    def test_a_test_that_is_not_weighed_is_repeated(self, ask):
        """√(2.5² + 0.951²) = 2.675, over √2 is 1.89: two."""
        answer = ask("bench", **TIN, wanted_error=2)
        assert answer["result"]["plan_repeats"] == 2
        assert "plan_sample_g" not in answer["result"]
        assert "For ± 2 points: two tests, 8 min of work in all." in answer["remarks"]

    def test_a_figure_without_a_unit_is_planned_without_one(self, ask):
        answer = ask("bench", test="permeability", pressure_cm=9.6, time_s=36, wanted_error=10)
        assert "For ± 10: two tests, 20 min of work in all." in answer["remarks"]


class TestOwnCalibration:
    def test_todays_tin_is_one_of_those_before(self, ask):
        """44, 46, 43, 45: mean 44.5, spread 1.291, Student's t of three degrees 3.182: 3.182 · 1.291 · √1.25 = 4.593."""
        answer = ask("bench", **TIN, history="44; 46; 43; 45")
        assert answer["result"]["history_mean"] == pytest.approx(44.5)
        assert answer["result"]["history_within"] == pytest.approx(4.593, abs=0.001)
        assert answer["result"]["ordinary"] == "yes"
        assert "Your 4 earlier figures have a mean of 44.5, and one more falls within ± 4.6" in said(answer)
        assert "history_mean" not in answer["doubt"]

    def test_one_that_lies_apart_is_out_of_the_ordinary(self, ask):
        answer = ask("bench", **TIN | {"height_after_mm": 50}, history=[44, 46, 43, 45])
        assert answer["result"]["ordinary"] == "no"
        assert answer["state"] == {"word": "out of the ordinary", "tone": "care"}
        assert "repeat the test first" in said(answer)

    def test_two_are_too_few_to_judge_by(self, ask):
        answer = ask("bench", **TIN, history="44; 46")
        assert "ordinary" not in answer["result"]
        assert "2 are too few" in said(answer)

    def test_only_the_last_twenty_count(self, ask):
        """Twenty of 44 and 46 in turn after thirty of 80: mean 45."""
        answer = ask("bench", **TIN, history=[80] * 30 + [44, 46] * 10)
        assert answer["result"]["history_mean"] == pytest.approx(45)

    def test_strokes_for_a_dose(self, ask):
        """50 strokes for 60 g: 1.2 mL each, so 300 mL take 250."""
        answer = ask("bench", test="spray", strokes=50, sprayed_g=60, dose_ml=300)
        assert answer["result"]["stroke_ml"] == pytest.approx(1.2)
        assert answer["result"]["dose_strokes"] == pytest.approx(250)
        assert half(answer, "dose_strokes") / 250 == pytest.approx(math.hypot(0.07, STEP / 60), rel=0.01)
        assert answer["headline"].startswith("Strokes for 100 mL: 83. 250 for the dose. ")
        assert "Left out: strokes for the dose" in said(ask("bench", test="spray", strokes=50, sprayed_g=60))

    def test_a_flasks_density_goes_on_to_the_flask_with_its_doubt(self, ask):
        """14.4 kg ± √(0.05² + 0.072²) on 9 L ± 2 %, beside 0.03: √(0.0097² + 0.0327² + 0.03²) = 0.045 on the wider side."""
        link = ask("bench", test="flask_density", flask_net_kg=14.4, flask_inside_l=9)["next"][0]
        assert (link["job"], link["inputs"]) == ("flask", {"rammed_density_kg_l": "1.6 ± 0.045 kg/L"})


class TestSaid:
    def test_waits_are_timers(self, ask):
        timers = ask("bench", **DRIED)["timers"]
        assert [(timer["label"], timer["after_s"], timer["text"]) for timer in timers] == [
            ("sample in the oven", 3600, "60 min"),
            ("sample cooling", 600, "10 min"),
            ("dried again", 900, "15 min"),
        ]
        assert ask("bench", test="jar", jar_sand_mm=60, jar_fines_mm=20)["timers"][-1]["text"] == "24 h"

    def test_the_scale_of_hardness_and_the_heat_of_volatiles_are_named(self, ask):
        ball, cone = (ask("bench", test="hardness", hardness=40, hardness_scale=scale) for scale in ("ball", "cone"))
        assert "the B scale. Soft" in ball["headline"]
        assert "the C scale. Compare" in cone["headline"]
        assert cone["state"]["tone"] == "plain"
        heat = ask("bench", test="volatiles", sample_g=30, left_g=29.4, volatiles_at="482")
        assert "at 482 °C" in heat["headline"]

    def test_far_too_wet_is_a_stop_and_steam_is_cautioned(self, ask):
        answer = ask("bench", test="moisture", sample_wet_g=500, sample_dry_g=460)
        assert answer["state"] == {"word": "stop", "tone": "stop"}
        assert answer["cautions"][0].startswith("Steam: ")

    def test_acid_and_dye_are_cautioned(self, ask):
        assert ask("bench", **BLUE)["cautions"][0].startswith("Acid and dye: ")

    def test_a_sample_that_lost_nothing_is_questioned(self, ask):
        assert "lost nothing" in said(ask("bench", test="moisture", sample_wet_g=100, sample_dry_g=100))
        assert "lost nothing" not in said(ask("bench", **DRIED))

    def test_compactabilities_close_together_are_questioned(self, ask):
        near = ask("bench", **WATER, compactability_first_pct=45, compactability_second_pct=40)
        far = ask("bench", **WATER, compactability_first_pct=55, compactability_second_pct=40)
        assert "only 5 apart" in said(near)
        assert "apart, close to" not in said(far)

    def test_a_swell_on_another_mass_is_remarked(self, ask):
        assert "by proportion" in said(ask("bench", test="swell", swell_ml=14, sample_g=1))
        assert "by proportion" not in said(ask("bench", test="swell", swell_ml=14, sample_g=2))

    def test_where_it_goes_on_with_its_doubt(self, ask):
        """√(0.543² + 0.566² + 0.3²) = 0.84; √(0.1² + 0.081² + 0.091² + 0.009² + 0.64²) = 0.66; √(0.253² + 0.283² + 0.75²) = 0.84."""
        washed = {"test": "wash", "sample_g": 200, "left_g": 179}
        assert ask("bench", **DRIED)["next"][0]["inputs"] == {"moisture_pct_wet": "4 ± 0.84 %"}
        assert ask("bench", **BLUE)["next"][0]["inputs"] == {"clay_blue_pct_dry": "8 ± 0.66 %"}
        assert ask("bench", **washed)["next"][0]["inputs"] == {"washed_pct_dry": "10.5 ± 0.84 %"}
        assert ask("bench", **TIN)["next"] == []

    def test_a_swell_goes_on_to_whether_the_clay_is_usable(self, ask):
        """± 2 mL from test to test; more than 24 mL is the sodium kind, so nothing speaks against it but the missing label."""
        link = ask("bench", test="swell", swell_ml=28)["next"][0]
        assert link["job"] == "choose"
        assert link["inputs"] == {"swell_ml": "28 ± 2 mL", "stuff": "clay"}
        assert (
            ask("choose", **link["inputs"])["result"]["usability"]
            == ask("choose", stuff="clay", swell_ml=28)["result"]["usability"]
        )

    def test_temper_is_as_sure_of_it_as_the_bench(self, ask):
        onward = ask("temper", **ask("bench", **DRIED)["next"][0]["inputs"])
        assert half(onward, "moisture_pct_wet") == pytest.approx(0.84)

    def test_the_formula_stands_in_the_working(self, ask):
        assert ask("bench", **TIN)["working"][0] == "100 × (120 − 66) / 120 = 45 %"
        assert "three falls of 14 lb through 2 in bring 9.5 J" in ask("bench", **TIN)["working"]


def test_a_figure_below_its_own_doubt_is_said_to_be_worth_little(ask):
    """1 g on a scale of 1 g: each reading may be off by 0.57 g, so 0.01 g lost says nothing; 0.1 g scales and 30 g leave a few tenths of 2 %."""
    burnt = {"test": "loss_on_ignition", "sample_g": 1, "left_g": 0.99, "scale_step_g": 1}
    assert "larger than the figure itself" in said(ask("bench", **burnt))
    assert "larger than the figure itself" not in said(
        ask("bench", test="loss_on_ignition", sample_g=30, left_g=29.4, scale_step_g=0.1)
    )
