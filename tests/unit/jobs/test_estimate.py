"""The job *estimate*: live clay by each way and by all, dead fines, bond and mulling, and what is left out in words."""

import math

import pytest

CRUSHED = {"strength_kpa": "28 psi", "moisture_pct_wet": 3.2, "compactability_read_pct": 40}


def said(answer):
    return " ".join(answer["remarks"])


def half(answer, word):
    low, high = answer["doubt"][word]
    return (high - low) / 2


def blue_half(value):
    """± 9 % of it and 0.2 points."""
    return math.hypot(0.09 * value, 0.2)


class TestWays:
    def test_methylene_blue_alone_is_taken_as_it_is(self, ask):
        answer = ask("estimate", clay_blue_pct_dry=8)
        assert answer["result"] == {"clay_pct_dry": 8}
        assert half(answer, "clay_pct_dry") == pytest.approx(blue_half(8))
        assert answer["state"] == {"word": "one way alone", "tone": "plain"}
        assert answer["headline"].endswith("by methylene blue.")

    def test_the_wash_less_the_books_dead_fines(self, ask):
        """11 - 3 = 8, ± √(1² + 1²) = 1.414; what is dead is what was given, 3 ± 1, and no less sure than that."""
        answer = ask("estimate", washed_pct_dry=11, dead_fines_pct_dry=3)
        assert answer["result"]["clay_washed_pct_dry"] == pytest.approx(8)
        assert half(answer, "clay_washed_pct_dry") == pytest.approx(2**0.5)
        assert answer["result"]["dead_fines_pct_dry"] == pytest.approx(3)
        assert half(answer, "dead_fines_pct_dry") == pytest.approx(1)
        assert answer["cautions"]

    def test_dead_fines_are_the_surer_the_more_of_the_live_clay_comes_from_the_wash(self, ask):
        """The book's 8 ± 1 and the wash's 8 ± √2 weigh 2/3 and 1/3: dead = 2/3 (11 − 8) + 1/3 · 3, ± √((2/3)² 1 + (1/3)² 1 + (2/3)² 1) = 1."""
        answer = ask("estimate", washed_pct_dry=11, dead_fines_pct_dry=3, clay_book_pct_dry="8 ± 1 %")
        assert answer["result"]["dead_fines_pct_dry"] == pytest.approx(3)
        assert half(answer, "dead_fines_pct_dry") == pytest.approx(1)

    def test_the_wash_less_ash_has_a_wide_doubt_and_says_what_it_takes_for_granted(self, ask):
        """12 - 3 = 9, ± √(1² + 0.5² + 2²) = 2.291."""
        answer = ask("estimate", washed_pct_dry=12, ash_pct_dry=3)
        assert answer["result"]["clay_pct_dry"] == pytest.approx(9)
        assert half(answer, "clay_pct_dry") == pytest.approx(2.291, abs=0.001)
        assert "as if none had burnt" in said(answer)

    def test_the_books_dead_fines_go_before_ash(self, ask):
        answer = ask("estimate", washed_pct_dry=12, ash_pct_dry=3, dead_fines_pct_dry=5)
        assert answer["result"]["clay_washed_pct_dry"] == pytest.approx(7)
        assert "as if none had burnt" not in said(answer)

    def test_moisture_and_compactability_by_the_equilibrium(self, ask):
        """4 · (2.583 - 0.01185 · 40) = 8.436; 0.35 · 2.109 = 0.738 and 5 · 4 · 0.01185 = 0.237, beside 1.5."""
        answer = ask("estimate", moisture_pct_wet=4, compactability_read_pct=40)
        assert answer["result"]["clay_mulled_pct_dry"] == pytest.approx(8.436)
        assert half(answer, "clay_mulled_pct_dry") == pytest.approx(math.sqrt(0.738**2 + 0.237**2 + 1.5**2), abs=0.001)
        assert "reads too high in clay" in said(answer)

    def test_several_are_weighed_by_their_doubts(self, ask):
        """8 ± 0.7472 and 8.5 ± 1: weights 1.7911 and 1, so 8.1791 ± 0.5986."""
        answer = ask("estimate", clay_blue_pct_dry=8, clay_book_pct_dry=8.5)
        weight = 1 / blue_half(8) ** 2
        assert answer["result"]["clay_pct_dry"] == pytest.approx((weight * 8 + 8.5) / (weight + 1))
        assert half(answer, "clay_pct_dry") == pytest.approx(1 / math.sqrt(weight + 1))
        assert answer["result"]["agreement"] < 1
        assert "agreement" not in answer["doubt"]
        assert answer["headline"].endswith("by methylene blue and the book.")

    def test_a_margin_typed_beside_the_book_counts(self, ask):
        near, far = (
            ask("estimate", clay_blue_pct_dry=8, clay_book_pct_dry=f"9 ± {half}")["result"]["clay_pct_dry"]
            for half in (0.3, 3)
        )
        assert near > 8.8
        assert far < 8.1

    def test_three_ways_are_listed(self, ask):
        answer = ask("estimate", clay_blue_pct_dry=8, clay_book_pct_dry=8.5, washed_pct_dry=11, dead_fines_pct_dry=3)
        assert "by methylene blue, the wash less what is dead and the book." in answer["headline"]


class TestDisagreement:
    def test_it_is_said_and_widened(self, ask):
        answer = ask("estimate", clay_blue_pct_dry=5, clay_book_pct_dry=10)
        assert answer["state"] == {"word": "they disagree", "tone": "care"}
        assert answer["headline"].startswith("The tests disagree.")
        assert "methylene blue 5.0 ± 0.5 %, the book 10.0 ± 1.0 %" in said(answer)
        low, high = answer["doubt"]["clay_pct_dry"]
        assert low < 5 < 9 < high

    def test_live_clay_above_the_wash_leaves_no_dead_fines(self, ask):
        answer = ask("estimate", clay_blue_pct_dry=9, washed_pct_dry=7)
        assert answer["result"]["dead_fines_pct_dry"] == 0
        assert "above all that the wash took" in said(answer)


class TestDeadFines:
    def test_they_are_the_wash_less_the_live_clay(self, ask):
        """11 - 8 = 3, ± √(1² + 0.7472²) = 1.248."""
        answer = ask("estimate", clay_blue_pct_dry=8, washed_pct_dry=11)
        assert answer["result"]["dead_fines_pct_dry"] == pytest.approx(3)
        assert half(answer, "dead_fines_pct_dry") == pytest.approx(math.hypot(1, blue_half(8)))
        assert "no other say here" in said(answer)
        assert answer["next"][0]["inputs"] == {"clay_pct_dry": "8 ± 0.75 %", "dead_fines_pct_dry": "3 ± 1.2 %"}

    def test_without_a_wash_they_are_left_out(self, ask):
        assert "Left out: dead clay and other fines" in said(ask("estimate", clay_blue_pct_dry=8))


class TestMulling:
    def test_it_stands_alone_where_the_clay_is_unknown(self, ask):
        answer = ask("estimate", **CRUSHED)
        assert answer["result"]["mulling_efficiency_pct"] == pytest.approx(65.0, abs=0.1)
        assert answer["lead"]["word"] == "mulling_efficiency_pct"
        assert answer["headline"] == "Mulling efficiency: 65 %."
        assert answer["next"] == []
        assert "as in a well run muller" in said(answer)

    def test_weak_sand_of_the_same_water_is_badly_mulled(self, ask):
        assert "mull longer before adding clay" in said(ask("estimate", **CRUSHED | {"strength_kpa": "14 psi"}))

    @pytest.mark.parametrize(
        ("given", "answered"),
        [("moisture_pct_wet", {"available_bond_pct"}), ("compactability_read_pct", {"working_bond_pct"})],
    )
    def test_half_of_it_is_answered_from_half_of_the_readings(self, ask, given, answered):
        answer = ask("estimate", strength_kpa="28 psi", **{given: CRUSHED[given]})
        assert set(answer["result"]) == answered
        assert "Left out: mulling efficiency" in said(answer)

    @pytest.mark.parametrize("compactability", [25, 65])
    def test_beyond_the_working_range_it_is_left_out_in_words(self, ask, compactability):
        answer = ask("estimate", clay_blue_pct_dry=8, **CRUSHED | {"compactability_read_pct": compactability})
        assert "mulling_efficiency_pct" not in answer["result"]
        assert "outside the 30 to 60 %" in said(answer)

    def test_more_at_work_than_there_is_is_left_out_in_words(self, ask):
        """60 psi at 1.5 % and 50: working 15.29 · 60/82.1 = 11.2, available 6.3 + 1.974 = 8.3."""
        strong = {"strength_kpa": "60 psi", "moisture_pct_wet": 1.5, "compactability_read_pct": 50}
        answer = ask("estimate", clay_blue_pct_dry=8, **strong)
        assert "More clay would be at work (11.2 %) than there is (8.3 %)" in said(answer)
        refused = ask("estimate", **strong)
        assert [problem["word"] for problem in refused["problems"]] == ["strength_kpa"]

    def test_no_strength_and_no_water_is_no_mulling(self, ask):
        answer = ask("estimate", strength_kpa=0, moisture_pct_wet=0, compactability_read_pct=40)
        assert answer["result"] == {"available_bond_pct": 0, "working_bond_pct": 0}


class TestEquilibrium:
    def test_water_above_it_is_said(self, ask):
        """8 / 2.109 = 3.793; 4.5 is 0.7 more."""
        answer = ask("estimate", clay_blue_pct_dry=8, moisture_pct_wet=4.5, compactability_read_pct=40)
        assert answer["result"]["equilibrium_moisture_pct_wet"] == pytest.approx(3.793, abs=0.001)
        assert "it holds 0.7 points more" in said(answer)
        assert "points more" not in said(
            ask("estimate", clay_blue_pct_dry=8, moisture_pct_wet=3.8, compactability_read_pct=40)
        )

    def test_the_book_serves_where_there_is_no_titration(self, ask):
        answer = ask("estimate", clay_book_pct_dry=8, compactability_read_pct=40)
        assert answer["result"]["equilibrium_moisture_pct_wet"] == pytest.approx(3.793, abs=0.001)

    @pytest.mark.parametrize("clay", [5, 13])
    def test_beyond_7_to_11_percent_it_is_left_out_in_words(self, ask, clay):
        answer = ask("estimate", clay_blue_pct_dry=clay, compactability_read_pct=40)
        assert "equilibrium_moisture_pct_wet" not in answer["result"]
        assert "Its moisture fully mulled is left out" in said(answer)

    def test_clay_that_it_would_put_beyond_that_is_left_out_in_words(self, ask):
        answer = ask("estimate", clay_blue_pct_dry=8, moisture_pct_wet=2, compactability_read_pct=40)
        assert "clay_mulled_pct_dry" not in answer["result"]
        assert "it would hold 4.2 % of clay" in said(answer)
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
def test_what_tells_nothing_is_refused(ask, asked, word):
    answer = ask("estimate", **asked)
    assert [problem["word"] for problem in answer["problems"]] == [word]
