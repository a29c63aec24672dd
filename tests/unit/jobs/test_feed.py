"""The job *feed*, by hand from the definitions of its words; its sentences are pinned under tests/messages."""

import math

import pytest

from sandmix.materials.metals import METALS
from sandmix.materials.shrinkage import SHRINKAGES

PLATE = {"casting_volume_cm3": 600, "casting_area_cm2": 600}
"""M 10 mm."""
WIDE = {"casting_volume_cm3": 3200, "casting_area_cm2": 3520, "shrinkage_pct": 0}
"""400 × 400 × 20 mm."""
BALL = {"casting_volume_cm3": 1000, "casting_area_cm2": 600}
"""A cube of 100 mm: M 16.667 mm."""


def remarks(answer):
    return " ".join(answer["remarks"])


def test_freezing_decides_for_a_chunky_casting(ask):
    """1.2 × 16.667 = 20 mm, D = 6 × 20 = 120 mm; volume: 0.06 × 1000/0.08 = 750 cm³ is only 98.5 mm."""
    result = ask("feed", **BALL, shrinkage_pct=6)["result"]
    assert result["modulus_mm"] == pytest.approx(100 / 6)
    assert result["riser_modulus_mm"] == pytest.approx(20.0)
    assert result["riser_diameter_mm"] == pytest.approx(120.0)
    assert result["riser_height_mm"] == pytest.approx(120.0)
    assert result["riser_volume_cm3"] == pytest.approx(math.pi / 4 * 12**3)
    assert result["riser_kg"] == pytest.approx(math.pi / 4 * 12**3 * 2.7e-3)
    assert result["feed_needed_cm3"] == pytest.approx(750.0)
    assert result["volume_diameter_mm"] == pytest.approx(98.475, abs=0.001)
    assert result["decides"] == "freezing"


def test_volume_decides_for_a_thin_plate(ask):
    """600 × 0.07/0.07 = 600 cm³, D = (2400/π)^⅓ = 9.142 cm; freezing 6 × 12 = 72 mm."""
    result = ask("feed", **PLATE, shrinkage_pct=7)["result"]
    assert result["decides"] == "volume"
    assert result["riser_diameter_mm"] == pytest.approx(91.416, abs=0.001)
    assert result["riser_volume_cm3"] == pytest.approx(600.0)
    assert result["freezing_diameter_mm"] == pytest.approx(72.0)


def test_a_riser_on_top_is_half_as_high_and_keeps_its_base_warm(ask):
    """M = D/6 as well; π/8 × 7.2³ = 146.57 cm³."""
    result = ask("feed", **PLATE, riser_kind="top", shrinkage_pct=0)["result"]
    assert result["riser_diameter_mm"] == pytest.approx(72.0)
    assert result["riser_height_mm"] == pytest.approx(36.0)
    assert result["riser_volume_cm3"] == pytest.approx(146.574, abs=0.001)
    assert "neck_mm" not in result


def test_other_heights_and_ratios(ask):
    """Top, H = D: D/5, so 5 × 1.5 × 10; side, H = 1.5 D: 1.5/8 of D, so 1.2 × 10 × 8/1.5."""
    assert ask("feed", **PLATE, riser_kind="top", riser_height_share=1, riser_ratio=1.5, shrinkage_pct=0)["result"][
        "riser_diameter_mm"
    ] == pytest.approx(75.0)
    assert ask("feed", **PLATE, riser_height_share=1.5, shrinkage_pct=0)["result"][
        "riser_diameter_mm"
    ] == pytest.approx(64.0)


def test_no_shrinkage_leaves_freezing_alone(ask):
    result = ask("feed", **PLATE, shrinkage_pct=0)["result"]
    assert result["decides"] == "freezing"
    assert result["feed_needed_cm3"] == 0
    assert result["riser_diameter_mm"] == pytest.approx(72.0)


def test_the_modulus_of_a_part_goes_before_that_of_the_whole(ask):
    result = ask("feed", **PLATE, modulus_mm=15, shrinkage_pct=0)["result"]
    assert (result["modulus_mm"], result["riser_modulus_mm"]) == pytest.approx((15.0, 18.0))


@pytest.mark.parametrize("metal", [metal for metal in METALS if metal != "grey_iron"])
def test_the_shrinkage_follows_the_metal(ask, metal):
    """β V/(e − β) with the β of the table."""
    beta = SHRINKAGES[metal].pct
    answer = ask("feed", metal=metal, **PLATE)
    assert answer["result"]["feed_needed_cm3"] == pytest.approx(beta * 600 / (14 - beta))
    assert f"Shrinkage assumed: {beta:g} %" in remarks(answer)
    low, high = answer["doubt"]["feed_needed_cm3"]
    assert low < answer["result"]["feed_needed_cm3"] < high


class TestGreyIron:
    """It expands as it freezes, so nothing asks for a riser; what is typed is computed all the same."""

    def test_left_empty_nothing_is_asked(self, ask):
        answer = ask("feed", metal="grey_iron", **PLATE)
        assert answer["result"]["decides"] == "none"
        assert answer["result"]["feed_needed_cm3"] == 0
        assert answer["state"] == {"word": "try without", "tone": "plain"}
        assert "2.7 %" in remarks(answer)

    def test_a_neck_that_lasts_is_not_for_iron(self, ask):
        """The neck has to freeze before the expansion ends, so none is sized as for metals that shrink."""
        for shrinkage in ({}, {"shrinkage_pct": 2}):
            answer = ask("feed", metal="grey_iron", **PLATE, **shrinkage)
            assert "neck_mm" not in answer["result"]
            assert not any("neck" in row["text"] for row in answer["todo"])

    def test_the_gating_goes_on_without_it(self, ask):
        """30 % of 600 cm³."""
        answer = ask("feed", metal="grey_iron", **PLATE)
        assert answer["next"][1]["inputs"]["gating_pct"] == "30 ± 18 %"
        assert answer["next"][2]["inputs"]["gating_volume_cm3"].startswith("180 ± ")

    def test_the_gating_with_a_riser_has_the_riser_in_it(self, ask):
        """72 mm becomes 75: 180 cm³ of gating + 331.34."""
        result = ask("feed", metal="grey_iron", **PLATE)["result"]
        assert result["gating_with_riser_cm3"] == pytest.approx(511.34, abs=0.01)
        assert result["gating_with_riser_pct"] == pytest.approx(85.223, abs=0.001)

    def test_the_working_has_no_riser_of_no_volume(self, ask):
        answer = ask("feed", metal="grey_iron", **PLATE)
        assert not any(line.startswith("riser's volume") for line in answer["working"])

    def test_a_shrinkage_that_is_typed_is_used(self, ask):
        assert ask("feed", metal="grey_iron", **PLATE, shrinkage_pct=0)["result"]["decides"] == "freezing"
        high = ask("feed", metal="grey_iron", **PLATE, shrinkage_pct=8)["result"]
        assert high["decides"] == "volume"
        assert high["feed_needed_cm3"] == pytest.approx(800.0)


def test_a_riser_that_covers_too_much_is_not_to_be_made(ask):
    """D (A − π D²/4) is at most 2 A/3 · √(4 A/(3 π)) = 1048.9 cm³ for A = 180 cm², and 6 × 1.2 × 150 = 1080 cm³ are asked for."""
    answer = ask("feed", casting_volume_cm3=150, casting_area_cm2=180, riser_kind="top", shrinkage_pct=0)
    assert answer["state"] == {"word": "covers too much", "tone": "care"}
    assert answer["headline"].startswith("A riser on top would cover too much of this casting")
    assert [row["text"].split(",")[0] for row in answer["todo"]] == ["Choose a riser beside the casting"]


def test_a_long_freezing_range_is_care(ask):
    answer = ask("feed", metal="tin_bronze", **PLATE)
    assert answer["state"] == {"word": "helps little", "tone": "care"}
    assert "120 K" in remarks(answer)


def test_a_thin_wall_is_tried_without(ask):
    """V/A = 3 mm: a plate of 6 mm."""
    answer = ask("feed", casting_volume_cm3=60, casting_area_cm2=200)
    assert answer["state"]["word"] == "try without"
    assert answer["todo"][0]["text"].startswith("Cast one without a riser")


class TestThickness:
    """A plate has a modulus of half its thickness, a ball a sixth: no part has more, and none has less."""

    def test_too_thick_for_the_modulus(self, ask):
        """V/A = 10 mm, and a ball of 80 mm has 13.3 mm."""
        ways_out = ask("feed", **PLATE, section_mm=80)["ways_out"]
        assert any(
            text.startswith("The riser is sized for a modulus of 10 mm, but a part 80 mm thick has")
            for text in ways_out
        )

    def test_too_thin_for_the_modulus_is_not_a_thin_part(self, ask):
        answer = ask("feed", **PLATE, modulus_mm=10, section_mm=3)
        assert answer["state"]["word"] == "make it"
        assert any("but a part 3 mm thick has" in text for text in answer["ways_out"])

    @pytest.mark.parametrize("section_mm", [20, 40, 60])
    def test_a_plate_a_bar_and_a_ball_of_that_modulus_agree(self, ask, section_mm):
        answer = ask("feed", **PLATE, modulus_mm=10, section_mm=section_mm)
        assert not any("but a part" in text for text in answer["ways_out"])

    def test_the_modulus_of_a_whole_casting_may_hide_a_thicker_part(self, ask):
        def said(**inputs):
            return any("that of the whole casting" in text for text in ask("feed", **PLATE, **inputs)["ways_out"])

        assert said()
        assert not said(modulus_mm=12)
        assert not said(metal="grey_iron")


def test_the_gates_get_the_usual_ratio_of_the_metal(ask):
    assert ask("feed", **PLATE)["next"][0]["inputs"]["gate_ratio"] == "1:4:4"
    assert ask("feed", metal="tin_bronze", **PLATE)["next"][0]["inputs"]["gate_ratio"] == "1:2:4"


def test_what_a_riser_can_give_is_not_offered_as_a_measurement(ask):
    """Nobody can measure it at home: what is typed is as uncertain as what is assumed."""
    assumed, typed = ask("feed", **PLATE), ask("feed", **PLATE, feed_efficiency_pct=14)
    assert typed["doubt"]["feed_needed_cm3"] == assumed["doubt"]["feed_needed_cm3"]
    assert "metal that a riser can give" not in str(assumed.get("surer"))


class TestHalfKnown:
    """What is missing is named; what can be computed is."""

    def test_only_the_modulus(self, ask):
        answer = ask("feed", modulus_mm=10)
        assert answer["result"]["riser_modulus_mm"] == pytest.approx(12.0)
        assert answer["lead"]["word"] == "freezing_diameter_mm"
        assert "riser_diameter_mm" not in answer["result"]
        assert "Left out: " in remarks(answer)
        assert "enter casting volume" in remarks(answer)
        assert answer["next"][0]["job"] == "pattern"

    def test_only_the_modulus_and_no_shrinkage_is_all_that_freezing_needs(self, ask):
        result = ask("feed", modulus_mm=10, shrinkage_pct=0)["result"]
        assert result["riser_diameter_mm"] == pytest.approx(72.0)
        assert "riser_share_pct" not in result

    def test_only_the_volume(self, ask):
        answer = ask("feed", casting_volume_cm3=600, shrinkage_pct=7)
        assert answer["result"]["feed_needed_cm3"] == pytest.approx(600.0)
        assert answer["lead"]["word"] == "feed_needed_cm3"
        assert answer["state"] == {"word": "half known", "tone": "care"}

    def test_a_volume_with_a_shrinkage_of_none(self, ask):
        answer = ask("feed", casting_volume_cm3=600, shrinkage_pct=0)
        assert answer["ok"]
        assert answer["lead"]["word"] == "feed_needed_cm3"


class TestMade:
    """The riser to make, in steps of 5 mm, and what it means for cope, charge and gating."""

    def test_rounded_up(self, ask):
        """72 mm becomes 75: π/4 × 7.5³ × 2.7 g = 0.8946 kg; 180 cm³ of gating + 331.34."""
        result = ask("feed", **PLATE, shrinkage_pct=0)["result"]
        assert (result["riser_made_mm"], result["riser_made_height_mm"]) == (75.0, 75.0)
        assert result["riser_made_kg"] == pytest.approx(0.89462, abs=0.00001)
        assert result["gating_with_riser_cm3"] == pytest.approx(511.34, abs=0.01)
        assert result["gating_with_riser_pct"] == pytest.approx(85.223, abs=0.001)

    def test_own_gating_in_place_of_the_assumed(self, ask):
        answer = ask("feed", **PLATE, shrinkage_pct=0, gating_volume_cm3="100 ± 10 cm³")
        assert answer["result"]["gating_with_riser_cm3"] == pytest.approx(431.34, abs=0.01)
        assert answer["next"][2]["inputs"]["gating_volume_cm3"] == "431.3 ± 10 cm³"
        assert "your figure" in remarks(answer)

    def test_the_cope_of_a_riser_on_top_holds_the_casting_too(self, ask):
        """D 72 becomes 75, H 37.5 mm, above 20 mm of casting."""
        result = ask("feed", **PLATE, modulus_mm=10, riser_kind="top", shrinkage_pct=0, cope_height_mm=20)["result"]
        assert result["cope_needed_mm"] == pytest.approx(57.5)

    def test_a_side_riser_stands_on_the_parting_line(self, ask):
        assert ask("feed", **PLATE, shrinkage_pct=0, cope_height_mm=20)["result"]["cope_needed_mm"] == pytest.approx(
            75.0
        )
        assert ask("feed", **PLATE, shrinkage_pct=0, cope_height_mm=90)["result"]["cope_needed_mm"] == pytest.approx(
            90.0
        )

    def test_a_cope_that_is_too_shallow_has_a_way_out(self, ask):
        """At 60 mm: 4 × 60 × 12/(60 − 24) = 80 mm across has the same modulus."""
        answer = ask("feed", **PLATE, shrinkage_pct=0, cope_depth_mm=60)
        assert answer["state"] == {"word": "too tall", "tone": "care"}
        assert "80 mm across and 60 mm high" in answer["ways_out"][0]
        assert answer["headline"].endswith("take a deeper one, or set a ring of sand on it.")

    def test_a_flatter_riser_on_top_counts_the_face_it_covers(self, ask):
        """The casting under it has 12.95 mm, so 4 × 35 × 15.54/(35 − 15.54) = 111.8 mm: 115."""
        answer = ask("feed", **PLATE, riser_kind="top", shrinkage_pct=0, cope_depth_mm=35)
        covered = 1.2 * answer["result"]["covered_modulus_mm"]
        across = 4 * 35 * covered / (35 - covered)
        assert f"{5 * math.ceil(across / 5)} mm across and 35 mm high" in answer["ways_out"][0]

    def test_no_flatter_riser_in_a_very_shallow_cope(self, ask):
        """A layer of 24 mm has at most 12 mm."""
        answer = ask("feed", **PLATE, shrinkage_pct=0, cope_depth_mm=24)
        assert "No flatter riser is large enough" in answer["ways_out"][0]

    def test_an_open_top_mould_has_no_cope_to_fit_into(self, ask):
        answer = ask("feed", **PLATE, shrinkage_pct=0, cope_depth_mm=0)
        assert answer["state"]["word"] == "make it"
        assert not any("cope" in row["text"] for row in answer["todo"])


def test_a_casting_taller_than_its_side_riser_is_not_fed(ask):
    assert "does not run uphill" in " ".join(ask("feed", **PLATE, shrinkage_pct=0, cope_height_mm=80)["ways_out"])


class TestDistance:
    """The rule of steel: 4.5 T for a plate, 30 √T for a bar."""

    def test_a_plate_of_the_modulus(self, ask):
        """T = 2 M = 20 mm."""
        assert ask("feed", **PLATE)["result"]["feeding_distance_mm"] == pytest.approx(90.0)

    def test_a_bar_of_the_modulus(self, ask):
        """T = 4 M = 40 mm."""
        assert ask("feed", **PLATE, shape="bar")["result"]["feeding_distance_mm"] == pytest.approx(30 * math.sqrt(40))

    def test_a_thickness_that_is_given(self, ask):
        assert ask("feed", **PLATE, section_mm=30)["result"]["feeding_distance_mm"] == pytest.approx(135.0)

    def test_a_lump_is_fed_as_a_whole(self, ask):
        assert "feeding_distance_mm" not in ask("feed", **PLATE, shape="ball")["result"]

    def test_beyond_it_a_way_out(self, ask):
        answer = ask("feed", **PLATE, feed_length_mm=91)
        assert answer["state"] == {"word": "too far", "tone": "care"}
        assert "another riser" in " ".join(answer["ways_out"])
        assert ask("feed", **PLATE, feed_length_mm=90)["state"]["word"] == "make it"


def test_the_neck_is_between_casting_and_riser(ask):
    """4 M, 4.4 M and 4.8 M as a round bar."""
    result = ask("feed", **PLATE)["result"]
    assert (result["neck_least_mm"], result["neck_mm"], result["neck_most_mm"]) == pytest.approx((40.0, 44.0, 48.0))


def test_a_neck_thicker_than_the_part_is_wide_instead(ask):
    """44 mm on a plate of 20 mm, and on a bar of 4 × 10 = 40 mm; 44 mm on a part of 60 mm is round."""
    plate, bar, thick = (ask("feed", **PLATE, **more)["todo"] for more in ({}, {"shape": "bar"}, {"section_mm": 60}))
    assert [any("and this wide" in row["text"] for row in rows) for rows in (plate, bar, thick)] == [True, True, False]
    assert any("about this thick" in row["text"] for row in thick)


class TestCovered:
    """A riser on top takes a cooling face; the defined words leave that out."""

    def test_both_figures_are_shown(self, ask):
        """600 cm³, 600 cm²: D (60 000 − 0.7854 D²) = 6 × 1.2 × 600 000 has its root at 77.72 mm."""
        result = ask("feed", **PLATE, riser_kind="top", shrinkage_pct=0)["result"]
        assert result["riser_modulus_mm"] == pytest.approx(12.0)
        assert result["riser_diameter_mm"] == pytest.approx(72.0)
        diameter = result["covered_diameter_mm"]
        assert diameter * (60000 - math.pi / 4 * diameter**2) == pytest.approx(4.32e6)
        assert result["covered_modulus_mm"] == pytest.approx(diameter / 6 / 1.2)
        assert result["riser_made_mm"] == 80
        assert result["cope_needed_mm"] == 40

    def test_a_riser_that_must_hold_more_covers_more(self, ask):
        """Volume asks for 115.2 mm: 104.2 cm² are covered, so the casting has 6000/495.8 = 12.10 mm."""
        result = ask("feed", **PLATE, riser_kind="top", shrinkage_pct=7)["result"]
        assert result["covered_diameter_mm"] == pytest.approx(115.18, abs=0.01)
        assert result["covered_modulus_mm"] == pytest.approx(12.102, abs=0.001)

    def test_where_none_is_large_enough_the_answer_says_so(self, ask):
        answer = ask("feed", **BALL, riser_kind="top", shrinkage_pct=0)
        assert answer["state"] == {"word": "covers too much", "tone": "care"}
        assert "covered_modulus_mm" not in answer["result"]
        assert "no size is large enough" in " ".join(answer["ways_out"])

    def test_a_volume_that_covers_too_much_is_no_answer_either(self, ask):
        """At 9.5 % from 10 % the volume asks for 11 400 cm³ on a casting of 600: its base would cover all of it."""
        answer = ask("feed", **PLATE, riser_kind="top", shrinkage_pct=9.5, feed_efficiency_pct=10)
        assert "covered_modulus_mm" not in answer["result"]

    def test_with_a_modulus_of_a_part_the_surface_is_not_known(self, ask):
        answer = ask("feed", **PLATE, modulus_mm=12, riser_kind="top")
        assert "covered_modulus_mm" not in answer["result"]
        assert "Enter volume and surface without a modulus" in remarks(answer)


class TestJoint:
    """The circle where walls meet, and what it says about the modulus."""

    def test_its_circle_and_its_bounds(self, ask):
        """T of 10 mm with a fillet of 5: 15 mm."""
        result = ask("feed", **PLATE, joint="t", section_mm=10, fillet_mm=5)["result"]
        assert result["joint_circle_mm"] == pytest.approx(15.0)
        assert (result["joint_least_modulus_mm"], result["joint_most_modulus_mm"]) == pytest.approx((3.75, 7.5))

    def test_a_modulus_below_it_is_named(self, ask):
        answer = ask("feed", casting_volume_cm3=100, modulus_mm=3, joint="t", section_mm=10, fillet_mm=5)
        assert "the joint freezes last" in remarks(answer)

    def test_without_a_thickness_it_is_left_out(self, ask):
        answer = ask("feed", **PLATE, joint="t")
        assert "Left out: largest circle in the joint" in remarks(answer)


def test_a_modulus_below_the_mean_is_remarked(ask):
    assert "less than the 10 mm of the casting as a whole" in remarks(ask("feed", **PLATE, modulus_mm=8))


def test_other_rules_are_for_comparison_only(ask):
    """Shape factor of 100 × 80 × 10 is 18: 35 % of 80 cm³."""
    answer = ask("feed", casting_volume_cm3=80, casting_area_cm2=196, box_mm=[100, 80, 10])
    assert answer["result"]["naval_riser_cm3"] == pytest.approx(28.0)
    assert "For comparison only: Caine’s rule" in remarks(answer)
    assert "caine_diameter_mm" not in ask("feed", metal="tin_bronze", **PLATE)["result"]


def test_a_riser_heavier_than_its_casting_has_a_way_out(ask):
    """π/4 × 12³ = 1357 cm³ on 1000."""
    assert "136 % of the casting's volume" in " ".join(ask("feed", **BALL, shrinkage_pct=6)["ways_out"])


@pytest.mark.parametrize("kind", ["side", "top"])
def test_it_is_drawn(ask, kind):
    drawing = ask("feed", **PLATE, riser_kind=kind)["drawings"]["section"]
    assert "A part 20 mm thick." in drawing
    assert ask("feed", modulus_mm=10)["drawings"] == {}


def test_the_next_steps_carry_the_casting(ask):
    gate, pour, flask = ask("feed", **PLATE, shrinkage_pct=0, box_mm=[320, 100, 20], cope_depth_mm=90)["next"]
    assert (gate["job"], pour["job"], flask["job"]) == ("gate", "pour", "flask")
    assert gate["inputs"] == {
        "metal": "aluminium",
        "fill_volume_cm3": "931.3 cm³",
        "gate_ratio": "1:4:4",
    }, "600 + 331.34"
    assert pour["inputs"] == {
        "metal": "aluminium",
        "casting_volume_cm3": "600 cm³",
        "casting_area_cm2": "600 cm²",
        "box_mm": "320 x 100 x 20 mm",
        "gating_section_mm": "75 mm",
        "gating_pct": "85.22 ± 18 %",
    }
    assert flask["inputs"]["cope_depth_mm"] == "90 mm"


def test_a_gating_beyond_what_the_pour_takes_is_left_to_it(ask):
    """500 000 cm³ of gating on 1 cm³ is more than the 10 000 % that the pour takes."""
    _, pour, flask = ask("feed", casting_volume_cm3=1, casting_area_cm2=6, gating_volume_cm3=400000)["next"]
    assert "gating_pct" not in pour["inputs"]
    assert flask["inputs"]["gating_volume_cm3"].startswith("400000")


def test_without_a_riser_the_next_steps_do_not_wait_for_it(ask):
    gate, pour, _ = ask("feed", metal="grey_iron", **PLATE)["next"]
    assert gate["inputs"]["fill_volume_cm3"] == "600 cm³"
    assert "gating_section_mm" not in pour["inputs"]


class TestFlat:
    """Beside a wide plate the rule of the modulus says too little; the box of 400 × 400 × 20 has M 9.09 mm and n = 10/9.09 − 1 = 0.1."""

    def test_by_its_box(self, ask):
        assert "Enter 1.5 there" in remarks(ask("feed", **WIDE, box_mm=[400, 400, 20]))

    def test_not_by_the_box_of_a_lump(self, ask):
        """A cube of 100 mm: 50/16.67 − 1 = 2."""
        assert "Enter 1.5 there" not in remarks(ask("feed", **BALL, shrinkage_pct=0, box_mm=[100, 100, 100]))

    def test_by_its_shape(self, ask):
        assert "Enter 1.5 there" in remarks(ask("feed", **PLATE, shrinkage_pct=0, shape="plate"))
        assert "Enter 1.5 there" not in remarks(
            ask("feed", **PLATE, shrinkage_pct=0, shape="bar", box_mm=[400, 400, 20])
        )
        assert "Enter 1.5 there" not in remarks(ask("feed", **PLATE, shrinkage_pct=0))

    def test_not_where_the_volume_decides_or_the_ratio_is_that(self, ask):
        assert "Enter 1.5 there" not in remarks(ask("feed", **PLATE, shrinkage_pct=7, shape="plate"))
        assert "Enter 1.5 there" not in remarks(ask("feed", **PLATE, shrinkage_pct=0, shape="plate", riser_ratio=1.5))


BOSS = {"casting_volume_cm3": 290, "part": "boss", "part_thickness_mm": 40, "part_width_mm": 35}


class TestThickestPart:
    """A boss of 40 × 35 mm on a casting of 290 cm³: 40 × 35 / (4 × 35 + 40) = 7.778 mm."""

    def test_its_modulus_comes_from_its_sizes(self, ask):
        result = ask("feed", **BOSS)["result"]
        assert result["modulus_mm"] == pytest.approx(7.7778, abs=1e-4)
        assert result["riser_modulus_mm"] == pytest.approx(1.2 * 7.7778, abs=1e-4)

    def test_it_goes_before_the_casting_as_a_whole_and_after_a_modulus(self, ask):
        whole = BOSS | {"casting_area_cm2": 530}
        assert ask("feed", **whole)["result"]["modulus_mm"] == pytest.approx(7.7778, abs=1e-4)
        assert ask("feed", **whole, modulus_mm=8.5)["result"]["modulus_mm"] == 8.5

    def test_its_sizes_are_uncertain(self, ask):
        """± 5 % of both sizes is about ± 3.9 % and ± 1.1 % of the modulus: (4 × 35)/180 and 40/180 of 5 %."""
        low, high = ask("feed", **BOSS)["doubt"]["modulus_mm"]
        half = 7.7778 * 0.05 * ((140 / 180) ** 2 + (40 / 180) ** 2) ** 0.5
        assert (high - low) / 2 == pytest.approx(half, rel=0.02)

    def test_a_thick_part_is_not_thin_and_its_working_says_where_the_modulus_is_from(self, ask):
        answer = ask("feed", **BOSS)
        assert answer["state"]["word"] != "try without"
        assert any("a boss: a round stub on a wall, from its sizes = 7.78 mm" in line for line in answer["working"])

    def test_missing_sizes_and_sizes_of_nothing_are_refused(self, ask):
        lacking = BOSS | {"part": "block"}
        assert [problem["word"] for problem in ask("feed", **lacking)["problems"]] == ["part_length_mm"]
        bare = {word: value for word, value in BOSS.items() if word != "part"}
        assert [problem["word"] for problem in ask("feed", **bare)["problems"]] == ["part"]

    def test_a_part_larger_than_the_casting_is_refused(self, ask):
        [problem] = ask("feed", casting_volume_cm3=50, part="plate", part_thickness_mm=60)["problems"]
        assert problem["word"] == "part_thickness_mm"
        assert "even a ball of that volume" in problem["message"]
