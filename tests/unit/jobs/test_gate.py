"""The job *gate*, by hand arithmetic from the definitions of its words; its sentences are pinned under tests/messages."""

import math

import pytest

from sandmix.gating import ratio
from sandmix.jobs import JOBS
from sandmix.vocabulary import WORDS

TOP = {"fill_volume_cm3": 1000, "head_mm": 200, "gate_place": "top", "discharge": 0.8}
"""√(2 * 9.80665 * 0.2) = 1.980571 m/s; 1000 cm³ through 2 cm² in 3.155655 s."""
SPEED = 1.980571
POT = {"pot_mm": 120, "melt_kg": 3.2, "carry_min": 2}


def remarks(answer):
    return " ".join(answer["remarks"])


class TestWhatSetsTheFlow:
    def test_the_gates_give_the_time(self, ask):
        assert ask("gate", **TOP, gate_cm2=2)["result"]["fill_time_s"] == pytest.approx(3.155655, abs=2e-6)

    def test_the_time_gives_the_gates(self, ask):
        result = ask("gate", **TOP, fill_time_s=3.155655)["result"]
        assert result["gate_cm2"] == result["choke_cm2"] == pytest.approx(2, abs=1e-5)

    def test_the_base_of_the_sprue_gives_both(self, ask):
        """A circle of 20 mm has π cm²."""
        result = ask("gate", **TOP, sprue_base_mm=20)["result"]
        assert result["choke_cm2"] == pytest.approx(math.pi)
        assert result["fill_time_s"] == pytest.approx(2 * 3.155655 / math.pi, abs=1e-5)

    def test_the_top_of_the_sprue_gives_its_base_first(self, ask):
        """40 mm in the cup and 160 mm of sprue: the base has √(40/200) of the top's area."""
        result = ask("gate", **TOP, sprue_top_mm=30, basin_mm=40, sprue_length_mm=160)["result"]
        assert result["choke_cm2"] == pytest.approx(math.pi * 2.25 * math.sqrt(0.2))

    def test_a_straight_sprue_carries_only_the_stream_that_its_top_lets_in(self, ask):
        """30 mm in the cup and 90 mm of sprue: half of the area of 20 mm, π/2 cm²; filled to the base it would be π cm²."""
        straight = {**TOP, "head_mm": 120, "basin_mm": 30, "sprue_base_mm": 20, "sprue_top_mm": 20}
        answer = ask("gate", **straight)
        assert answer["result"]["choke_cm2"] == pytest.approx(math.pi / 2)
        assert any("The sprue narrows too little" in text for text in answer["ways_out"])
        tapered = ask("gate", **straight | {"sprue_base_mm": 14})
        assert tapered["result"]["choke_cm2"] == pytest.approx(0.49 * math.pi)
        assert not any("narrows too little" in text for text in tapered["ways_out"])

    def test_with_nothing_given_the_usual_time_counts(self, ask):
        """2.37 kg of light metal at 8 mm: √(2.37/0.45359237)/1.25."""
        answer = ask("gate", **TOP)
        usual = math.sqrt(2.37 / 0.45359237) / 1.25
        assert answer["result"]["fill_time_s"] == answer["result"]["rule_time_s"] == pytest.approx(usual)
        assert "the usual time" in answer["headline"]
        assert answer["doubt"]["fill_time_s"][0] < 0.65 * usual

    def test_without_a_wall_8_mm_are_taken(self, ask):
        """6.95 kg of iron: √(6.95/0.45359237) * (0.95 + 8/25.4/0.853)."""
        usual = math.sqrt(6.95 / 0.45359237) * (0.95 + 8 / 25.4 / 0.853)
        assert ask("gate", **TOP, metal="grey_iron")["result"]["rule_time_s"] == pytest.approx(usual)

    def test_gates_and_a_time_that_agree_are_taken_together(self, ask):
        answer = ask("gate", **TOP, gate_cm2=2, fill_time_s=3.2)
        assert answer["ok"]
        assert answer["result"]["fill_time_s"] == pytest.approx(3.155655, abs=2e-6)

    def test_a_mass_counts_as_the_liquid_that_fills(self, ask):
        """2.37 kg of liquid aluminium are 1000 cm³."""
        by_mass = ask("gate", **{**TOP, "fill_volume_cm3": ""}, poured_kg=2.37, gate_cm2=2)["result"]
        assert by_mass["fill_time_s"] == pytest.approx(3.155655, abs=2e-6)

    def test_a_mass_that_may_be_nothing_is_called_as_in_the_form(self, ask):
        """The same word is a load to lift in another job."""
        remarks = " ".join(ask("gate", head_mm=120, poured_kg="1 ± 2 kg")["remarks"])
        assert "with metal to fill it below 0 g there is no answer" in remarks


class TestPlaces:
    def test_from_below(self, ask):
        """A_m = 1000 cm³ / 19 cm; (A_m/(0.8 * 2)) (2/√(2 g)) (√0.2 - √0.01)."""
        result = ask("gate", **{**TOP, "gate_place": "bottom"}, fill_height_mm=190, gate_cm2=2)["result"]
        seconds = (1000 / 19 / 1.6) * (2 / math.sqrt(2 * 9.80665)) * (math.sqrt(0.2) - 0.1)
        assert result["fill_time_s"] == pytest.approx(seconds)

    def test_at_the_parting_half_of_the_height_counts_as_above(self, ask):
        flat = {**TOP, "gate_place": "parting", "gate_cm2": 2, "fill_height_mm": 80}
        half = (500 / 4 / 1.6) * (2 / math.sqrt(2 * 9.80665)) * (math.sqrt(0.2) - math.sqrt(0.16))
        answer = ask("gate", **flat)
        assert answer["result"]["fill_time_s"] == pytest.approx(3.155655 / 2 + half)
        assert "Half of the cavity's height, 40 mm" in remarks(answer)
        assert ask("gate", **flat, cope_height_mm=40)["result"] == answer["result"]

    def test_a_cavity_in_the_drag_needs_no_height(self, ask):
        result = ask("gate", **{**TOP, "gate_place": "parting"}, cope_height_mm=0, gate_cm2=2)["result"]
        assert result["fill_time_s"] == pytest.approx(3.155655, abs=2e-6)

    def test_without_the_height_a_gate_below_leaves_the_time_out_and_says_so(self, ask):
        answer = ask("gate", **{**TOP, "gate_place": "bottom"}, gate_cm2=2)
        assert "fill_time_s" not in answer["result"]
        assert "To get it, enter height of the cavity." in remarks(answer)
        assert answer["result"]["gate_speed_m_s"] == pytest.approx(0.8 * SPEED, abs=1e-5)

    def test_an_open_mould_with_a_cut_channel(self, ask):
        """20 mm of metal over the end of the channel: √(2 g 0.02) = 0.626312 m/s; 300 cm³ through 0.8 * 3 cm²."""
        answer = ask("gate", fill_volume_cm3=300, head_mm=20, gate_place="top", gate_cm2=3)
        assert answer["result"]["fill_time_s"] == pytest.approx(300 / (0.8 * 3 * 62.6312), abs=1e-4)


class TestSprueAndRatio:
    def test_the_ratio_gives_runner_and_gates(self, ask):
        result = ask("gate", **TOP, fill_time_s=3.155655, gate_ratio="1:4:5")["result"]
        assert result["choke_cm2"] == pytest.approx(2, abs=1e-5)
        assert result["runner_cm2"] == pytest.approx(8, abs=1e-4)
        assert result["gate_cm2"] == pytest.approx(10, abs=1e-4)
        assert result["gate_speed_m_s"] == pytest.approx(0.8 * SPEED / 5, abs=1e-5)

    def test_pressurised_gates_are_the_choke(self, ask):
        result = ask("gate", **TOP, metal="grey_iron", gate_cm2=2, gate_ratio="3:2:1")["result"]
        assert result["choke_cm2"] == result["gate_cm2"] == 2
        assert result["runner_cm2"] == 4
        assert result["sprue_base_mm"] == pytest.approx(math.sqrt(400 * 6 / math.pi))

    def test_wide_gates_leave_the_sprue_as_the_choke(self, ask):
        """8 cm² of gates at 1:4:4 are 2 cm² of sprue."""
        result = ask("gate", **TOP, gate_cm2=8, gate_ratio="1:4:4")["result"]
        assert result["choke_cm2"] == 2
        assert result["fill_time_s"] == pytest.approx(3.155655, abs=2e-6)

    def test_the_head_is_cup_and_sprue_where_it_is_empty(self, ask):
        asked = {**TOP, "head_mm": "", "sprue_length_mm": 150, "basin_mm": 50, "gate_cm2": 2}
        assert ask("gate", **asked)["result"]["fill_time_s"] == pytest.approx(3.155655, abs=2e-6)

    def test_the_sprue_reaches_down_to_the_gate_where_its_length_is_empty(self, ask):
        """200 mm of head less 30 mm in the cup: √(30/200) of the area."""
        result = ask("gate", **TOP, sprue_base_mm=20)["result"]
        assert result["sprue_top_mm"] == pytest.approx(20 / math.sqrt(math.sqrt(30 / 200)))

    def test_a_head_of_less_than_a_cup_still_leaves_a_sprue(self, ask):
        """Three quarters of a low head are in the cup: √0.75 of the area."""
        result = ask("gate", **{**TOP, "head_mm": 20}, sprue_base_mm=20)["result"]
        assert result["sprue_top_mm"] == pytest.approx(20 / 0.75**0.25)

    def test_the_stick_is_the_next_larger_size_and_has_no_range(self, ask):
        answer = ask("gate", **TOP, sprue_base_mm=16.5, basin_mm=60, sprue_length_mm=140)
        assert answer["result"]["sprue_base_stick_mm"] == 18
        assert answer["result"]["sprue_top_stick_mm"] == 25, "16.5 / (60/200)^(1/4) = 22.3"
        assert not {word for word in answer["doubt"] if word.endswith("stick_mm")}

    def test_the_volume_of_the_gating_by_hand(self, ask):
        """A straight-sided check: sprue as a cut cone, runner 8 cm² * 200 mm, gates 8 cm² * 15 mm."""
        lengths = {"runner_length_mm": 200, "gate_length_mm": 15}
        result = ask("gate", **TOP, gate_cm2=8, gate_ratio="1:4:4", **lengths)["result"]
        top, base = result["sprue_top_mm"] / 20, result["sprue_base_mm"] / 20
        cone = math.pi * 17 * (top * top + top * base + base * base) / 3
        assert result["gating_volume_cm3"] == pytest.approx(cone + 160 + 12)

    def test_a_sprue_that_is_too_narrow_for_the_gates_is_named(self, ask):
        answer = ask("gate", **TOP, gate_cm2=2, sprue_base_mm=10)
        assert any("the sprue is the narrowest place" in text for text in answer["ways_out"])
        assert not any(
            "the sprue is the narrowest place" in text
            for text in ask("gate", **TOP, gate_cm2=2, sprue_base_mm=17)["ways_out"]
        )


class TestGates:
    def test_each_gate_is_four_times_as_wide_as_deep(self, ask):
        """8 cm² in two: 400 mm² each, 10 × 40 mm."""
        result = ask("gate", **TOP, gate_cm2=8, gates_count=2)["result"]
        assert (result["gate_depth_mm"], result["gate_width_mm"]) == pytest.approx((10, 40))

    def test_it_is_no_deeper_than_the_thinnest_wall(self, ask):
        result = ask("gate", **TOP, gate_cm2=8, gates_count=2, thinnest_mm=5)["result"]
        assert (result["gate_depth_mm"], result["gate_width_mm"]) == pytest.approx((5, 80))

    def test_a_given_depth_is_kept_and_one_deeper_than_the_wall_is_named(self, ask):
        answer = ask("gate", **TOP, gate_cm2=8, gate_depth_mm=8, thinnest_mm=6)
        assert answer["result"]["gate_width_mm"] == pytest.approx(100)
        assert any("deeper than the thinnest wall" in text for text in answer["ways_out"])

    def test_the_area_that_keeps_the_limit(self, ask):
        """The same flow at the limit: 0.8 * 198.06 * 2 cm³/s over 100 * the limit."""
        result = ask("gate", **TOP, gate_cm2=2)["result"]
        flow = 0.8 * 100 * SPEED * 2
        assert result["gate_for_speed_cm2"] * 100 * result["speed_limit_m_s"] == pytest.approx(flow, rel=1e-5)

    def test_more_gates_have_a_smaller_reynolds_number_each(self, ask):
        one, four = (ask("gate", **TOP, gate_cm2=2, gates_count=count)["result"]["reynolds"] for count in (1, 4))
        assert one == pytest.approx(2 * four)
        assert one == pytest.approx(2370 * 0.8 * SPEED * math.sqrt(4 * 2e-4 / math.pi) / 0.0011, rel=1e-5)


WALL = {**TOP, "gate_ratio": "1:4:4"}


class TestWhatIsMissing:
    def test_gates_without_a_head_leave_speed_and_sprue_top_out(self, ask):
        answer = ask("gate", fill_volume_cm3=500, gate_cm2=2, thinnest_mm=6)
        assert answer["result"]["choke_cm2"] == 2
        assert not {"gate_speed_m_s", "sprue_top_mm", "fill_time_s", "gating_volume_cm3"} & answer["result"].keys()
        assert "enter head of metal over the gate" in remarks(answer)

    def test_a_time_without_a_volume_still_sizes_the_sprue(self, ask):
        asked = {"fill_time_s": 3, "sprue_base_mm": 15, "sprue_length_mm": 90, "basin_mm": 30, "runner_length_mm": 100}
        answer = ask("gate", **asked)
        assert answer["result"]["sprue_top_mm"] == pytest.approx(15 * math.sqrt(2))
        assert "gating_volume_cm3" not in answer["result"], "the runner's area is not known"

    def test_a_volume_and_a_mass_that_agree_are_taken_together(self, ask):
        """2.4 kg are 1013 cm³; the volume counts."""
        result = ask("gate", **TOP, poured_kg=2.4, gate_cm2=2)["result"]
        assert result["fill_time_s"] == pytest.approx(3.155655, abs=2e-6)


class TestVerdict:
    def test_a_quick_fill_of_a_thick_wall_fills(self, ask):
        answer = ask("gate", **WALL, fill_time_s=2, thinnest_mm=12)
        assert answer["state"] == {"word": "fills", "tone": "go"}
        assert answer["result"]["freeze_first"] is False

    def test_too_fast_in_the_gates_is_named_but_not_for_iron(self, ask):
        fast = ask("gate", **TOP, fill_time_s=2, thinnest_mm=12)
        assert fast["state"] == {"word": "fills, but too fast", "tone": "care"}
        iron = ask("gate", **TOP, fill_time_s=2, thinnest_mm=12, metal="grey_iron")
        assert iron["state"] == {"word": "fills", "tone": "go"}

    def test_a_slow_fill_of_a_thin_wall_freezes_first(self, ask):
        answer = ask("gate", **WALL, fill_time_s=60, thinnest_mm=4)
        assert answer["state"] == {"word": "freezes first", "tone": "stop"}
        assert answer["result"]["freeze_first"] is True
        assert answer["headline"].startswith("Do not pour it like this")
        assert [step["job"] for step in answer["next"]] == ["pattern"]

    @pytest.mark.parametrize("seconds", [4, 8, 12])
    def test_in_between_it_may_not_fill(self, ask, seconds):
        answer = ask("gate", **WALL, fill_time_s=seconds, thinnest_mm=5)
        assert answer["state"] == {"word": "may not fill", "tone": "care"}

    def test_the_flag_compares_the_time_with_the_freezing_in_perfect_contact(self, ask):
        frozen = ask("gate", **WALL, fill_time_s=2, thinnest_mm=5)["result"]["wall_freeze_s"]
        flags = [
            ask("gate", **WALL, fill_time_s=frozen * share, thinnest_mm=5)["result"]["freeze_first"]
            for share in (0.99, 1.01)
        ]
        assert flags == [False, True]

    def test_without_a_wall_there_is_no_verdict(self, ask):
        answer = ask("gate", **TOP, fill_time_s=2)
        assert answer["state"] == {"word": "size it", "tone": "plain"}
        assert "freeze_first" not in answer["result"]

    def test_a_cavity_as_high_as_the_head_is_named(self, ask):
        high = ask("gate", **{**TOP, "gate_place": "bottom"}, fill_height_mm=160, gate_cm2=2)
        assert any("the last of it fills slowly" in text for text in high["ways_out"])


class TestTheWayFromTheFurnace:
    def test_the_furnace_temperature_is_worked_out_backwards(self, ask):
        answer = ask("gate", **TOP, gate_cm2=2, pour_temp_c=720, **POT)
        result = answer["result"]
        assert result["pour_temp_c"] == 720
        assert result["heat_loss_c"] == pytest.approx(result["furnace_temp_c"] - 720)
        forwards = ask("gate", **TOP, gate_cm2=2, furnace_temp_c=result["furnace_temp_c"], **POT)["result"]
        assert forwards["pour_temp_c"] == pytest.approx(720, abs=0.1)

    def test_a_brighter_surface_loses_less(self, ask):
        dull, bright = (ask("gate", **POT, emissivity=share)["result"]["heat_loss_c"] for share in (0.6, 0.1))
        assert bright < dull
        assert ask("gate", **POT, emissivity=0.3)["result"] == ask("gate", **POT)["result"], (
            "0.3 is what is taken for aluminium"
        )

    def test_metal_that_arrives_partly_frozen_stops(self, ask):
        answer = ask("gate", **TOP, gate_cm2=2, thinnest_mm=10, furnace_temp_c=680, **{**POT, "carry_min": 5})
        assert "long enough" not in " ".join(answer["remarks"])
        assert answer["result"]["pour_temp_c"] < 660
        assert answer["state"]["tone"] == "stop"
        assert answer["result"]["freeze_first"] is True
        assert answer["result"]["flow_stops_s"] == 0

    def test_it_stops_too_where_no_wall_and_no_mould_is_known(self, ask):
        """Aluminium at its liquidus in the furnace: whatever it loses on the way, it arrives below it."""
        answer = ask("gate", pot_mm=40, melt_kg=1, carry_min=1, furnace_temp_c=660)
        assert answer["state"] == {"word": "freezes first", "tone": "stop"}
        assert answer["lead"]["sentence"].startswith(
            "Do not pour it like this: the metal would reach the mould partly frozen."
        )
        [line] = answer["todo"]
        assert float(line["amount"].removesuffix(" °C")) < 660
        assert "pour" not in {way["job"] for way in answer["next"]}

    def test_a_furnace_that_must_be_too_hot_is_named(self, ask):
        hot, usual = (ask("gate", pour_temp_c=720, **{**POT, "carry_min": minutes}) for minutes in (8, 1))
        assert any("hotter than the usual 750 °C at most" in text for text in hot["ways_out"])
        assert not any("hotter than the usual" in text for text in usual["ways_out"])

    def test_metal_that_arrives_cold_is_named(self, ask):
        answer = ask("gate", **TOP, gate_cm2=2, furnace_temp_c=690, **POT)
        assert 660 < answer["result"]["pour_temp_c"] < 680
        assert any("colder than the usual 680 °C" in text for text in answer["ways_out"])

    def test_a_melt_too_small_to_carry_is_named(self, ask):
        answer = ask("gate", **TOP, gate_cm2=2, pot_mm=500, melt_kg=0.05, carry_min=10)
        assert any("can't be carried for that long" in text for text in answer["ways_out"])
        assert "heat_loss_c" not in answer["result"]

    def test_the_crucible_alone_is_enough(self, ask):
        answer = ask("gate", **POT)
        assert answer["lead"]["word"] == "furnace_temp_c"
        assert "loses" in answer["headline"]

    def test_the_thinnest_wall_alone_is_enough(self, ask):
        answer = ask("gate", thinnest_mm=5)
        assert answer["lead"]["word"] == "flow_stops_s"

    @pytest.mark.parametrize("metal", ["yellow_brass", "aluminium"])
    def test_carrying_hot_metal_shows_its_cautions(self, ask, metal):
        words = [text.split(":")[0] for text in ask("gate", metal=metal, **POT)["cautions"]]
        assert words == (["Zinc fume", "Burns"] if metal == "yellow_brass" else ["Burns"])


def test_a_sprue_that_is_there_is_not_cut_again(ask):
    texts = [row["text"] for row in ask("gate", **TOP, sprue_base_mm=14, sprue_top_mm=25)["todo"]]
    assert [text.split(",")[0] for text in texts] == ["Cut one gate", "Keep the pouring cup full"]
    assert "together" not in texts[0]


def test_the_next_step_carries_volume_time_and_gating(ask):
    steps = {step["job"]: step["inputs"] for step in ask("gate", **JOBS["gate"].example)["next"]}
    assert steps["pour"]["casting_volume_cm3"] == steps["flask"]["pattern_volume_cm3"] == "380 cm³"
    assert steps["pour"]["fill_time_s"] == "2 s"
    assert float(steps["flask"]["gating_volume_cm3"].split()[0]) == pytest.approx(
        3.8 * float(steps["pour"]["gating_pct"].split()[0]), rel=1e-3
    )


def test_the_only_sprue_answers_without_a_volume(ask):
    answer = ask("gate", sprue_length_mm=180, basin_mm=60, sprue_top_mm=20)
    assert answer["result"]["sprue_base_mm"] == pytest.approx(20 / math.sqrt(2))
    assert answer["lead"]["word"] == "choke_cm2"


@pytest.mark.parametrize("metal", ["tin_bronze", "silicon_brass", "zinc_al12", "grey_iron", "al_6061"])
def test_every_metal_answers_and_names_its_usual_ratio(ask, metal):
    answer = ask("gate", **TOP, metal=metal, thinnest_mm=8)
    assert answer["ok"]
    assert "Usual for" in remarks(answer)
    assert ("K ∛W" in remarks(answer)) is (metal in ("tin_bronze", "silicon_brass"))


def test_the_help_of_the_ratio_names_the_usual_one_of_each_metal():
    """Whoever leaves it empty gets gates that are the narrowest place, which suits few metals."""
    said = WORDS["gate_ratio"].help
    assert all(usual.ratio.text in said for usual in ratio.USUAL.values())


def test_large_sizes_are_cut_to_whole_millimetres(ask):
    """25.3 cm² over 12 mm is 210.8 mm wide; 1.3 cm² over 12 mm is 10.83 mm."""
    wide = ask("gate", head_mm=100, gate_cm2=25.3, gate_depth_mm=12)["todo"]
    assert any("12 mm deep and 211 mm wide" in row["text"] for row in wide)
    narrow = ask("gate", head_mm=100, gate_cm2=1.3, gate_depth_mm=12)["todo"]
    assert any("12 mm deep and 11 mm wide" in row["text"] for row in narrow)
    between = ask("gate", head_mm=100, gate_cm2=1.27, gate_depth_mm=12)["todo"]
    assert any("12 mm deep and 11 mm wide" in row["text"] for row in between), "10.58 mm"
    half = ask("gate", head_mm=100, gate_cm2=1.24, gate_depth_mm=12)["todo"]
    assert any("12 mm deep and 10.5 mm wide" in row["text"] for row in half), "10.33 mm"


def test_a_very_wide_gate_is_divided(ask):
    """25 cm² over 10 mm is 250 mm wide, 25 times as wide as deep: four gates of 62.5 mm; 8 cm² over 10 mm is 8 times, and stays one."""
    assert "use 4 gates instead" in remarks(ask("gate", head_mm=100, gate_cm2=25, gate_depth_mm=10))
    assert "gates instead" not in remarks(ask("gate", head_mm=100, gate_cm2=8, gate_depth_mm=10))
    assert "use 6 gates instead" in remarks(ask("gate", head_mm=100, gate_cm2=36, gate_depth_mm=10, gates_count=2))
