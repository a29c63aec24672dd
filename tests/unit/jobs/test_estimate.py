"""The job *estimate*: live clay from each test and from all, dead fines, bond and mulling, and what is left out."""

import math

import pytest

CRUSHED = {"strength_kpa": "28 psi", "moisture_pct_wet": 3.2, "compactability_read_pct": 40}


def remarks(answer):
    return " ".join(answer["remarks"])


def half(answer, word):
    low, high = answer["doubt"][word]
    return (high - low) / 2


def blue_half(value):
    """± 9 % of it and 0.2 points."""
    return math.hypot(0.09 * value, 0.2)


class TestLiveClay:
    def test_methylene_blue_alone_stays_as_it_is(self, ask):
        answer = ask("estimate", clay_blue_pct_dry=8)
        assert answer["result"] == {"clay_pct_dry": 8}
        assert half(answer, "clay_pct_dry") == pytest.approx(blue_half(8))
        assert answer["state"] == {"word": "one way alone", "tone": "plain"}
        assert answer["headline"].endswith("from methylene blue.")

    def test_the_wash_less_the_books_dead_fines(self, ask):
        """11 - 3 = 8, ± √(1² + 1²) = 1.414; the dead fines stay as given, 3 ± 1."""
        answer = ask("estimate", washed_pct_dry=11, dead_fines_pct_dry=3)
        assert answer["result"]["clay_washed_pct_dry"] == pytest.approx(8)
        assert half(answer, "clay_washed_pct_dry") == pytest.approx(2**0.5)
        assert answer["result"]["dead_fines_pct_dry"] == pytest.approx(3)
        assert half(answer, "dead_fines_pct_dry") == pytest.approx(1)
        assert answer["cautions"]

    def test_the_error_of_dead_fines_where_live_clay_comes_partly_from_the_wash(self, ask):
        """The book's 8 ± 1 and the wash's 8 ± √2 have weights 2/3 and 1/3: dead = 2/3 (11 − 8) + 1/3 · 3, ± √((2/3)² 1 + (1/3)² 1 + (2/3)² 1) = 1."""
        answer = ask("estimate", washed_pct_dry=11, dead_fines_pct_dry=3, clay_book_pct_dry="8 ± 1 %")
        assert answer["result"]["dead_fines_pct_dry"] == pytest.approx(3)
        assert half(answer, "dead_fines_pct_dry") == pytest.approx(1)

    def test_the_wash_less_ash_has_a_wide_range_and_a_remark(self, ask):
        """12 - 3 = 9, ± √(1² + 0.5² + 2²) = 2.291."""
        answer = ask("estimate", washed_pct_dry=12, ash_pct_dry=3)
        assert answer["result"]["clay_pct_dry"] == pytest.approx(9)
        assert half(answer, "clay_pct_dry") == pytest.approx(2.291, abs=0.001)
        assert "as if none had burnt" in remarks(answer)

    def test_dead_fines_of_the_book_are_used_before_ash(self, ask):
        answer = ask("estimate", washed_pct_dry=12, ash_pct_dry=3, dead_fines_pct_dry=5)
        assert answer["result"]["clay_washed_pct_dry"] == pytest.approx(7)
        assert "as if none had burnt" not in remarks(answer)

    def test_moisture_and_compactability_by_the_equilibrium(self, ask):
        """4 · (2.583 - 0.01185 · 40) = 8.436; readings ± √((0.35 · 2.109 = 0.738)² + (5 · 4 · 0.01185 = 0.237)²) = 0.775.

        By hand it may be 40/65 of that, so 3.245 less: 8.436 − √(0.775² + 3.245²) = 5.100 to 8.436 + 0.775 = 9.211, the middle 7.156.
        """
        answer = ask("estimate", moisture_pct_wet=4, compactability_read_pct=40)
        assert answer["result"]["clay_mulled_pct_dry"] == pytest.approx(8.436)
        assert answer["doubt"]["clay_mulled_pct_dry"] == pytest.approx([5.100, 9.211], abs=0.001)
        assert answer["result"]["clay_pct_dry"] == pytest.approx(7.156, abs=0.001)
        assert answer["doubt"]["clay_pct_dry"] == pytest.approx([5.100, 9.211], abs=0.001)
        assert answer["headline"].startswith("5.1 to 9.2 % live clay in the dry sand")
        assert "gets too much clay" in remarks(answer)

    def test_a_tin_that_is_not_rammed_as_the_standard_is_left_out_where_there_is_another_test(self, ask):
        """1 kg through 200 mm in 80 mm: 1.17 of 4.68 kJ/m², and a fall of 800 mm would match."""
        tin = {
            "moisture_pct_wet": 4,
            "compactability_read_pct": 40,
            "rammer_kg": 1,
            "rammer_fall_mm": 200,
            "tin_diameter_mm": 80,
        }
        alone, both = ask("estimate", **tin), ask("estimate", **tin, clay_blue_pct_dry=8)
        assert both["result"]["clay_pct_dry"] == pytest.approx(8)
        assert "A fall of 800 mm would match them." in remarks(both) and "is left out." in remarks(both)
        assert alone["result"]["clay_mulled_pct_dry"] == pytest.approx(8.436)
        assert "is a rough guess." in remarks(alone)
        standard = ask("estimate", **tin | {"rammer_fall_mm": 800}, clay_blue_pct_dry=8)
        assert "clay_mulled_pct_dry" in standard["result"]

    def test_the_middle_of_a_one_sided_range_counts_in_the_mean(self, ask):
        """7.156 ± 2.056 of the test above and 8 ± 0.747 by methylene blue: (7.156/2.056² + 8/0.747²)/(1/2.056² + 1/0.747²) = 7.902."""
        answer = ask("estimate", moisture_pct_wet=4, compactability_read_pct=40, clay_blue_pct_dry=8)
        assert answer["result"]["clay_pct_dry"] == pytest.approx(7.902, abs=0.001)
        assert "methylene blue and moisture with compactability" in answer["headline"]

    def test_several_are_weighted_by_their_ranges(self, ask):
        """8 ± 0.7472 and 8.5 ± 1: weights 1.7911 and 1, so 8.1791 ± 0.5986."""
        answer = ask("estimate", clay_blue_pct_dry=8, clay_book_pct_dry=8.5)
        weight = 1 / blue_half(8) ** 2
        assert answer["result"]["clay_pct_dry"] == pytest.approx((weight * 8 + 8.5) / (weight + 1))
        assert half(answer, "clay_pct_dry") == pytest.approx(1 / math.sqrt(weight + 1))
        assert answer["result"]["agreement"] < 1
        assert "agreement" not in answer["doubt"]
        assert answer["headline"].endswith("from methylene blue and the book.")

    def test_a_range_typed_with_the_figure_of_the_book_counts(self, ask):
        near, far = (
            ask("estimate", clay_blue_pct_dry=8, clay_book_pct_dry=f"9 ± {half}")["result"]["clay_pct_dry"]
            for half in (0.3, 3)
        )
        assert near > 8.8
        assert far < 8.1

    def test_the_headline_lists_three_tests(self, ask):
        answer = ask("estimate", clay_blue_pct_dry=8, clay_book_pct_dry=8.5, washed_pct_dry=11, dead_fines_pct_dry=3)
        assert "from methylene blue, the wash less dead fines and the book." in answer["headline"]


class TestDisagreement:
    def test_a_disagreement_is_remarked_and_widens_the_range(self, ask):
        answer = ask("estimate", clay_blue_pct_dry=5, clay_book_pct_dry=10)
        assert answer["state"] == {"word": "they disagree", "tone": "care"}
        assert answer["headline"].startswith("The tests disagree.")
        assert "methylene blue 5.0 ± 0.5 %, the book 10.0 ± 1.0 %" in remarks(answer)
        low, high = answer["doubt"]["clay_pct_dry"]
        assert low < 5 < 9 < high

    def test_live_clay_above_the_wash_leaves_no_dead_fines(self, ask):
        answer = ask("estimate", clay_blue_pct_dry=9, washed_pct_dry=7)
        assert answer["result"]["dead_fines_pct_dry"] == 0
        assert "Dead fines are shown as none" in remarks(answer)


class TestDeadFines:
    def test_dead_fines_are_the_wash_less_the_live_clay(self, ask):
        """11 - 8 = 3, ± √(1² + 0.7472²) = 1.248."""
        answer = ask("estimate", clay_blue_pct_dry=8, washed_pct_dry=11)
        assert answer["result"]["dead_fines_pct_dry"] == pytest.approx(3)
        assert half(answer, "dead_fines_pct_dry") == pytest.approx(math.hypot(1, blue_half(8)))
        assert "not used for anything else" in remarks(answer)
        assert answer["next"][0]["inputs"] == {"clay_pct_dry": "8 ± 0.75 %", "dead_fines_pct_dry": "3 ± 1.2 %"}

    def test_without_a_wash_dead_fines_are_left_out(self, ask):
        assert "Left out: dead fines" in remarks(ask("estimate", clay_blue_pct_dry=8))


class TestMulling:
    def test_mulling_is_answered_without_the_clay(self, ask):
        answer = ask("estimate", **CRUSHED)
        assert answer["result"]["mulling_efficiency_pct"] == pytest.approx(65.0, abs=0.1)
        assert answer["lead"]["word"] == "mulling_efficiency_pct"
        assert answer["headline"] == "Mulling efficiency: 65 %."
        assert [(link["job"], link["inputs"]) for link in answer["next"]] == [("bench", {"test": "methylene_blue"})]
        assert "as in a well run muller" in remarks(answer)

    def test_weaker_sand_of_the_same_moisture_is_badly_mulled(self, ask):
        assert "mull longer before you add clay" in remarks(ask("estimate", **CRUSHED | {"strength_kpa": "14 psi"}))

    @pytest.mark.parametrize(
        ("given", "answered"),
        [("moisture_pct_wet", {"available_bond_pct"}), ("compactability_read_pct", {"working_bond_pct"})],
    )
    def test_one_bond_is_answered_from_its_own_readings(self, ask, given, answered):
        answer = ask("estimate", strength_kpa="28 psi", **{given: CRUSHED[given]})
        assert set(answer["result"]) == answered
        assert "Left out: mulling efficiency" in remarks(answer)

    @pytest.mark.parametrize("compactability", [25, 65])
    def test_outside_the_working_range_mulling_is_left_out(self, ask, compactability):
        answer = ask("estimate", clay_blue_pct_dry=8, **CRUSHED | {"compactability_read_pct": compactability})
        assert "mulling_efficiency_pct" not in answer["result"]
        assert "outside the 30 to 60 %" in remarks(answer)

    def test_more_clay_bonding_than_could_bond_is_left_out(self, ask):
        """60 psi at 1.5 % and 50: working 15.29 · 60/82.1 = 11.2, available 6.3 + 1.974 = 8.3."""
        strong = {"strength_kpa": "60 psi", "moisture_pct_wet": 1.5, "compactability_read_pct": 50}
        answer = ask("estimate", clay_blue_pct_dry=8, **strong)
        assert "More clay would be bonding (11.2 %) than could bond (8.3 %)" in remarks(answer)
        refused = ask("estimate", **strong)
        assert [problem["word"] for problem in refused["problems"]] == ["strength_kpa"]

    def test_without_strength_and_water_there_is_no_mulling_efficiency(self, ask):
        answer = ask("estimate", strength_kpa=0, moisture_pct_wet=0, compactability_read_pct=40)
        assert answer["result"] == {"available_bond_pct": 0, "working_bond_pct": 0}


class TestEquilibrium:
    def test_more_water_than_at_equilibrium_is_remarked(self, ask):
        """8 / 2.109 = 3.793; 4.5 is 0.7 more."""
        answer = ask("estimate", clay_blue_pct_dry=8, moisture_pct_wet=4.5, compactability_read_pct=40)
        assert answer["result"]["equilibrium_moisture_pct_wet"] == pytest.approx(3.793, abs=0.001)
        assert "it has 0.7 points more" in remarks(answer)
        assert "points more" not in remarks(
            ask("estimate", clay_blue_pct_dry=8, moisture_pct_wet=3.8, compactability_read_pct=40)
        )

    def test_the_book_is_used_without_a_titration(self, ask):
        answer = ask("estimate", clay_book_pct_dry=8, compactability_read_pct=40)
        assert answer["result"]["equilibrium_moisture_pct_wet"] == pytest.approx(3.793, abs=0.001)

    @pytest.mark.parametrize("clay", [5, 13])
    def test_outside_7_to_11_percent_it_is_left_out(self, ask, clay):
        answer = ask("estimate", clay_blue_pct_dry=clay, compactability_read_pct=40)
        assert "equilibrium_moisture_pct_wet" not in answer["result"]
        assert "moisture of the fully mulled sand is left out" in remarks(answer)

    def test_clay_from_moisture_outside_that_range_is_left_out(self, ask):
        answer = ask("estimate", clay_blue_pct_dry=8, moisture_pct_wet=2, compactability_read_pct=40)
        assert "clay_mulled_pct_dry" not in answer["result"]
        assert "it would have 4.2 % clay" in remarks(answer)
        alone = ask("estimate", moisture_pct_wet=2, compactability_read_pct=40)
        assert [problem["word"] for problem in alone["problems"]] == ["moisture_pct_wet"]


@pytest.mark.parametrize(
    ("asked", "word"),
    [
        ({}, "clay_blue_pct_dry"),
        ({"strength_kpa": 100}, "clay_blue_pct_dry"),
        ({"washed_pct_dry": 12}, "dead_fines_pct_dry"),
        ({"washed_pct_dry": 5, "dead_fines_pct_dry": 8}, "dead_fines_pct_dry"),
        ({"washed_pct_dry": 5, "ash_pct_dry": 8}, "ash_pct_dry"),
    ],
)
def test_too_little_is_refused(ask, asked, word):
    answer = ask("estimate", **asked)
    assert [problem["word"] for problem in answer["problems"]] == [word]
