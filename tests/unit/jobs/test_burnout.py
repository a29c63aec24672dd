"""The job *burnout*: figures from one solution by the definitions of its words, timers, charts and section.

Its sentences are pinned under tests/messages.
"""

import itertools
import json
import math
import re
import xml.etree.ElementTree as ET

import pytest

from sandmix.cooling.cooling import cool
from sandmix.cooling.freezing import FINE, PERFECT
from sandmix.jobs.burnout import charts

PLATE = {"modulus_mm": 10, "shape": "plate", "casting_volume_cm3": 1000}
HEAP = {"sand_kg": 40, "flask_sand_kg": 25, "clay_pct_dry": 8}


def remarks(answer):
    return " ".join(answer["remarks"])


@pytest.fixture(scope="module")
def perfect(casting):
    return cool(casting(), FINE)


@pytest.fixture(scope="module")
def measured(casting):
    return cool(casting(contact_w_m2k=61.0), FINE)


class TestContactLeftOut:
    def test_times_are_those_of_the_lowest_measured_contact(self, ask, perfect, measured):
        result = ask("burnout", **PLATE)["result"]
        assert result["freeze_s"] == pytest.approx(measured.freeze_s)
        assert measured.freeze_s > perfect.freeze_s
        assert result["solid_after_min"] == pytest.approx(1.5 * measured.freeze_s / 60)
        assert result["casting_open_min"] == pytest.approx(measured.middle_below_s(330) / 60)
        assert result["handle_after_min"] == pytest.approx(measured.middle_below_s(60) / 60)

    def test_depths_and_masses_are_those_of_perfect_contact(self, ask, perfect):
        """Face 1000 cm³ / 1 cm = 0.1 m²; a plate: 1500 kg/m³ * 0.1 * depth."""
        result = ask("burnout", **PLATE, **HEAP)["result"]
        assert result["burnt_depth_mm"] == pytest.approx(perfect.depth_past_mm(638))
        assert result["burnt_sand_kg"] == pytest.approx(0.15 * result["burnt_depth_mm"])
        assert result["dry_depth_mm"] == pytest.approx(perfect.dry_depth_mm)
        assert result["water_driven_kg"] == pytest.approx(0.15 * result["dry_depth_mm"] * 3.5 / 96.5)

    def test_the_low_end_of_burnt_sand_is_at_measured_contact(self, ask):
        """At 61 W/m²K this plate's sand stays below 638 °C."""
        answer = ask("burnout", **PLATE, **HEAP)
        assert answer["result"]["burnt_sand_kg"] > 0
        assert answer["doubt"]["burnt_sand_kg"][0] == 0
        assert answer["doubt"]["clay_loss_pct"][0] == 0

    def test_the_low_end_of_the_times_is_perfect_contact_or_less(self, ask, perfect):
        assert ask("burnout", **PLATE)["doubt"]["freeze_s"][0] <= perfect.freeze_s * 1.01


def test_clay_burnt_is_the_live_clay_of_the_burnt_sand(ask):
    """8 % of the dry; the heap's 40 kg at 3.5 % are 38.6 dry kg."""
    result = ask("burnout", **PLATE, **HEAP)["result"]
    assert result["clay_burnt_kg"] == pytest.approx(0.08 * result["burnt_sand_kg"])
    assert result["clay_loss_pct"] == pytest.approx(100 * result["burnt_sand_kg"] / 38.6)
    assert result["clay_loss_pct"] == pytest.approx(100 * result["clay_burnt_kg"] / (0.08 * 38.6))
    assert result["burnt_sand_per_metal"] == pytest.approx(result["burnt_sand_kg"] / 2.7)


def test_a_given_contact_is_used(ask, casting):
    at_200 = cool(casting(contact_w_m2k=200.0), FINE)
    result = ask("burnout", **PLATE, contact_w_m2k=200)["result"]
    assert result["freeze_s"] == pytest.approx(at_200.freeze_s)
    assert result["burnt_depth_mm"] == pytest.approx(at_200.depth_past_mm(638))


def test_no_more_sand_burns_and_dries_than_the_flask_holds(ask):
    """2 kg at 3.5 %: 1.93 dry with 0.07 of water; the heap of 10 holds 9.65: 20 %."""
    result = ask("burnout", **PLATE, clay="calcium_bentonite", metal="grey_iron", flask_sand_kg=2, sand_kg=10)["result"]
    assert result["burnt_sand_kg"] == pytest.approx(1.93)
    assert result["water_driven_kg"] == pytest.approx(0.07)
    assert result["clay_loss_pct"] == pytest.approx(20)


def test_a_flask_larger_than_its_heap_loses_at_most_all_clay(ask):
    result = ask("burnout", **PLATE, clay="calcium_bentonite", metal="grey_iron", flask_sand_kg=20, sand_kg=1)["result"]
    assert result["clay_loss_pct"] == 100


def test_dry_sand_loses_no_water(ask):
    result = ask("burnout", **PLATE, moisture_pct_wet=0)["result"]
    assert result["water_driven_kg"] == 0
    assert result["dry_depth_mm"] > 0


def spread_min(celsius):
    """850 (1.55 * 550 = 852.5) kg/m³ * 1130 * 0.05 / 10 * ln((T - 20) / 29)."""
    return 852.5 * 1130 * 0.05 / 10 * math.log((celsius - 20) / 29) / 60


def test_the_wait_for_the_bin_counts_the_hot_layer_where_the_mean_is_cool(ask):
    """The dried sand is at 200.8 °C when the plate may be opened, by the reference program; the mean of 400 kg is below 49 °C."""
    result = ask("burnout", **PLATE, sand_kg=400, contact_w_m2k=61)["result"]
    assert result["sand_mean_c"] < 49
    assert result["bin_after_min"] - result["open_after_min"] == pytest.approx(spread_min(200.776), rel=0.01)


def test_the_wait_for_the_bin_counts_the_mean_where_it_is_hotter(ask):
    """0.5 kg of sand: all of it dried, and the mean can't be hotter than the casting's middle, 330 °C."""
    result = ask("burnout", **PLATE, sand_kg=0.5, contact_w_m2k=61)["result"]
    assert result["sand_mean_c"] == pytest.approx(330)
    assert result["bin_after_min"] - result["open_after_min"] == pytest.approx(spread_min(330))


def test_a_wait_is_never_shown_shorter_than_it_is(ask):
    """54.7 min, known to tens of minutes, is an hour; its high end of 67.8 is 70."""
    answer = ask("burnout", modulus_mm=10, shape="plate", metal="al_si7mg")
    assert 51 < answer["result"]["open_after_min"] < 59
    assert answer["headline"].startswith("Leave the mould shut for 60 min.")
    shown = {row["word"]: row for row in answer["shown"]}
    assert shown["open_after_min"]["range"].endswith("70 min")
    assert answer["doubt"]["open_after_min"][1] < 70


def test_without_a_volume_only_times_and_depths_are_answered(ask):
    result = ask("burnout", modulus_mm=10, **HEAP)["result"]
    assert set(result) == {
        "open_after_min",
        "casting_open_min",
        "solid_after_min",
        "handle_after_min",
        "freeze_s",
        "dry_depth_mm",
        "burnt_depth_mm",
    }


def test_the_lead_is_when_to_open(ask):
    answer = ask("burnout", **PLATE, **HEAP)
    assert (answer["lead"]["word"], answer["lead"]["label"]) == ("open_after_min", "Open after")
    assert answer["state"] == {"word": "wait", "tone": "care"}


def test_an_opening_time_of_more_than_90_days_is_left_out(ask):
    """Iron of 500 mm: M² is 2500 times that of 10 mm."""
    answer = ask("burnout", modulus_mm=500, metal="grey_iron", shape="plate", contact_w_m2k=10, clay_limit_c=1000)
    assert "open_after_min" not in answer["result"]
    assert answer["lead"]["word"] in ("solid_after_min", "dry_depth_mm")
    assert answer["lead"]["text"]
    assert "90 days" in remarks(answer)


def test_times_after_the_end_of_the_solution_are_left_out(monkeypatch, ask, cooled):
    """Neither frozen nor cool: there are no times, and the lead is how deep the sand dried."""
    endless = cooled(freeze_s=None, middle_c=[700.0, 700.0, 700.0, 700.0])
    monkeypatch.setattr("sandmix.jobs.burnout.figures.cool", lambda *_: endless)
    answer = ask("burnout", modulus_mm=10, shape="plate", contact_w_m2k=100)
    assert answer["ok"], answer
    assert set(answer["result"]) == {"dry_depth_mm", "burnt_depth_mm"}
    assert answer["lead"]["word"] == "dry_depth_mm"
    assert "not frozen by the end of the solution" in " ".join(answer["working"])
    assert answer["timers"] == []


class TestTimers:
    def test_timers_are_the_answers_in_seconds_with_their_latest_time(self, ask):
        answer = ask("burnout", **PLATE, **HEAP)
        timers = {timer["name"]: timer for timer in answer["timers"]}
        assert list(timers) == ["solid", "open", "bin", "handle"]
        for name, word in (("solid", "solid"), ("open", "open"), ("bin", "bin"), ("handle", "handle")):
            assert timers[name]["after_s"] == pytest.approx(60 * answer["result"][f"{word}_after_min"])
            assert timers[name]["latest_s"] == pytest.approx(60 * answer["doubt"][f"{word}_after_min"][1])
            assert timers[name]["label"] and timers[name]["text"]

    def test_what_is_left_out_has_no_timer(self, ask):
        assert [timer["name"] for timer in ask("burnout", modulus_mm=10)["timers"]] == ["solid", "open", "handle"]

    def test_the_text_of_a_timer_is_the_figure_shown(self, ask):
        answer = ask("burnout", modulus_mm=10)
        shown = {row["word"]: row["text"] for row in answer["shown"]}
        assert answer["timers"][1]["text"] == shown["open_after_min"]


class TestCharts:
    def test_the_chart_of_peaks_has_both_contacts_and_both_limits(self, ask, perfect, measured):
        peak, _ = ask("burnout", **PLATE)["charts"]
        assert [line["label"] for line in peak["series"]] == ["perfect contact", "contact 61 W/m²K"]
        for line, solution in zip(peak["series"], (perfect, measured), strict=True):
            depth, hottest = line["points"][0]
            assert depth == 0
            assert hottest == pytest.approx(solution.peaks_c[0], rel=1e-3)
            depths = [point[0] for point in line["points"]]
            assert depths == sorted(depths)
        assert [(limit["axis"], limit["at"]) for limit in peak["limits"]] == [("y", 638), ("y", 100)]
        assert (peak["x"]["unit"], peak["y"]["unit"]) == ("mm", "°C")

    def test_a_given_contact_has_one_line(self, ask):
        peak, fronts = ask("burnout", **PLATE, contact_w_m2k=250)["charts"]
        assert [line["label"] for line in peak["series"]] == ["contact 250 W/m²K"]
        assert "contact 250 W/m²K" in fronts["sentence"]

    def test_fronts_start_at_zero_and_end_frozen_through(self, ask, measured):
        _, fronts = ask("burnout", **PLATE)["charts"]
        frozen, dried = (line["points"] for line in fronts["series"])
        assert [line["label"] for line in fronts["series"]] == ["frozen metal", "dried sand"]
        assert frozen[0] == dried[0] == [0, 0]
        assert frozen[-1][1] == pytest.approx(10)
        assert frozen[-1][0] == pytest.approx(measured.middle_below_s(330) / 60, rel=0.05)
        assert fronts["x"]["unit"] == "min"

    def test_a_long_wait_is_charted_in_hours(self, ask):
        _, fronts = ask("burnout", modulus_mm=60, shape="plate")["charts"]
        assert fronts["x"]["unit"] == "h"
        assert fronts["series"][0]["points"][-1][0] < 100

    def test_points_are_evenly_spaced_in_time(self, ask):
        times = [point[0] for point in ask("burnout", **PLATE)["charts"][1]["series"][0]["points"]]
        assert times == sorted(times)
        assert 20 <= len(times) <= 60
        assert max(later - sooner for sooner, later in itertools.pairwise(times)) < times[-1] / 10

    def test_a_long_line_is_thinned_and_keeps_its_ends(self):
        """1000 points, thinned to about 48: every 21st, and the last."""
        thinned = charts._thinned([(float(at), 2.0 * at) for at in range(1000)])
        assert len(thinned) == 49
        assert (thinned[0], thinned[1], thinned[-1]) == ((0, 0), (21, 42), (999, 1998))
        assert charts._thinned([(0.0, 1.23456)]) == ((0, 1.235),)

    def test_a_line_of_95_points_is_thinned_to_about_50(self):
        assert len(charts._thinned([(float(at), 0.0) for at in range(95)])) <= 60

    def test_charts_are_drawn_for_a_wall_close_to_the_casting(self, ask):
        answer = ask("burnout", modulus_mm=20, wall_mm=5, shape="ball")
        for chart in answer["charts"]:
            assert all(line["points"] for line in chart["series"])

    def test_each_has_a_sentence_and_axes(self, ask):
        for chart in ask("burnout", **PLATE)["charts"]:
            assert set(chart) == {"name", "title", "sentence", "x", "y", "series", "limits", "band", "below"}
            assert chart["sentence"].endswith(".")
            assert chart["x"]["label"] and chart["y"]["label"]


class TestTheSection:
    @pytest.mark.parametrize(
        ("shape", "begins"), [("plate", "A plate 20 mm thick."), ("ball", "A casting about 60 mm across.")]
    )
    def test_its_description_starts_with_the_thickness(self, ask, shape, begins):
        """M 10: a plate 2 M, a ball 6 M."""
        (drawing,) = ask("burnout", modulus_mm=10, shape=shape)["drawings"].values()
        ET.fromstring(drawing)
        assert f">{begins} Clay" in drawing

    def test_a_plate_is_drawn_as_a_slab_and_a_bar_as_a_ring(self, ask):
        assert "<circle" in ask("burnout", modulus_mm=10, shape="bar")["drawings"]["shell"]
        assert "<circle" not in ask("burnout", modulus_mm=10, shape="plate")["drawings"]["shell"]


class TestRemarksAndCautions:
    def test_where_no_clay_burns_no_wear_is_compared(self, ask):
        """A limit of 1000 °C, and aluminium is poured at 720 °C."""
        answer = ask("burnout", **PLATE, clay_limit_c=1000)
        assert answer["result"]["burnt_sand_per_metal"] == 0
        assert "loses its clay" not in " ".join(answer["remarks"])

    def test_hot_sand_gets_a_caution(self, ask):
        hot = [text.split(":")[0] for text in ask("burnout", **PLATE, sand_kg=12)["cautions"]]
        cold = [text.split(":")[0] for text in ask("burnout", **PLATE, sand_kg=400)["cautions"]]
        assert hot == ["Hot", "Vent gas", "Hot sand", "Dust"]
        assert cold == ["Hot", "Vent gas", "Dust"]

    def test_a_much_larger_loss_by_rate_gets_a_remark(self, ask):
        """Below the limit everywhere: none by limit, some by rate."""
        result = ask("burnout", **PLATE, **HEAP, contact_w_m2k=108)["result"]
        assert result["clay_burnt_kg"] == 0 < result["clay_burnt_by_rate_kg"]
        assert "By rate instead of a limit" in remarks(ask("burnout", **PLATE, **HEAP, contact_w_m2k=108))

    def test_granules_with_a_given_limit_get_no_remark(self, ask):
        assert "the clay of granules is lost" in remarks(ask("burnout", **PLATE, clay="clay_granules"))
        assert "the clay of granules is lost" not in remarks(
            ask("burnout", **PLATE, clay="clay_granules", clay_limit_c=638)
        )

    def test_a_box_that_fits_a_shape_gets_no_remark(self, ask):
        found = remarks(ask("burnout", modulus_mm=10, box_mm=[200, 200, 20]))
        assert "taken as a plate" not in found
        assert "the shape is used" not in found

    def test_a_distant_wall_gets_no_remark(self, ask):
        assert "to the wall" not in remarks(ask("burnout", **PLATE, wall_mm=300))

    def test_the_working_has_the_modulus_the_water_and_the_energy_balance(self, ask):
        working = ask("burnout", **PLATE, **HEAP)["working"]
        assert working[0].startswith(
            "modulus 10 mm, area proportional to r^0; poured at 720 °C, solidus 660 °C; sand A, 3.5 %"
        )
        assert "0.0363 kg of water per kg of dry sand" in working[0]
        assert [line.split(":")[0] for line in working[1:5]] == [
            "perfect contact",
            "contact 61 W/m²K",
            "gating",
            "handling",
        ]
        assert all(re.search(r"energy balance within \de-\d\d of the heat poured", line) for line in working[1:3])
        assert working[5].startswith("burnt sand = 1500 kg/m³ × the shell to ")
        assert working[6].startswith("water = 0.0363 × the dried shell = ")


def test_the_next_step_restores_the_heap(ask):
    (link,) = ask("burnout", **PLATE, sand_kg=28)["next"]
    assert (link["job"], link["inputs"]) == ("rebond", {"heap_kg": "28 kg"})
    assert [(link["job"], link["inputs"]) for link in ask("burnout", **PLATE)["next"]] == [("rebond", {})]


def test_sand_b_and_c_bound_the_freezing_time_of_sand_a(ask):
    """Against A they move freezing by -36 and +3 %."""
    a, b, c = (
        ask("burnout", modulus_mm=10, shape="plate", contact_w_m2k="perfect", moisture_pct_wet=0, sand_heat=sand)[
            "result"
        ]
        for sand in "abc"
    )
    assert b["freeze_s"] / a["freeze_s"] - 1 == pytest.approx(-0.36, abs=0.01)
    assert c["freeze_s"] / a["freeze_s"] - 1 == pytest.approx(0.03, abs=0.01)


def test_a_given_sand_narrows_the_range(ask):
    common = {"modulus_mm": 10, "shape": "plate", "contact_w_m2k": 108}
    left_out, given = (ask("burnout", **common, **more)["doubt"]["freeze_s"] for more in ({}, {"sand_heat": "a"}))
    assert left_out[0] < given[0]
    assert left_out[1] >= given[1]


@pytest.mark.parametrize("metal", ["grey_iron", "tin_bronze", "yellow_brass", "zinc_al12", "al_si7mg"])
def test_each_metal_freezes_before_it_is_opened(ask, metal):
    result = ask("burnout", **PLATE, metal=metal)["result"]
    assert result["freeze_s"] / 60 < result["open_after_min"] < result["handle_after_min"]


def test_perfect_is_infinite_and_never_printed(ask):
    assert math.isinf(PERFECT)
    text = json.dumps(ask("burnout", **PLATE, contact_w_m2k="perfect"))
    assert "Infinity" not in text
    assert not re.search(r"\binf\b", text)


def test_an_empty_heap_is_no_fault(ask):
    assert "fault" not in ask("burnout", **PLATE, sand_kg=0, flask_sand_kg=5)


def test_a_modulus_from_volume_and_surface_has_the_bounds_of_a_given_one(ask):
    assert "fault" not in ask("burnout", casting_volume_cm3=0.1, casting_area_cm2=100_000)


def test_a_tiny_heap_is_passed_on_as_one_that_is_accepted(ask):
    (link,) = ask("burnout", **PLATE, sand_kg=0.03)["next"]
    problems = ask(link["job"], **link["inputs"])["problems"]
    assert "heap_kg" not in [problem["word"] for problem in problems]


def test_the_range_of_the_clay_loss_ends_at_all_clay(ask):
    answer = ask(
        "burnout",
        casting_volume_cm3=34143.4,
        modulus_mm=39.78,
        sand_kg=6.9647,
        moisture_pct_wet=0.7358,
        wall_mm=5,
        shape="ball",
    )
    assert answer["doubt"]["clay_loss_pct"][1] <= 100


def test_a_limit_just_above_the_face_has_a_range(ask):
    """The limit is ± 15 °C: at its low end clay burns, as it does for limits a tenth of a degree higher and lower."""
    near = {"modulus_mm": 10, "contact_w_m2k": 200, "shape": "bar"}
    highs = [
        ask("burnout", **near, clay_limit_c=limit)["doubt"]["burnt_depth_mm"][1] for limit in (518.25, 518.39, 518.5)
    ]
    assert min(highs) > 0.1


HOOKS = {"metal": "aluminium", "casting_volume_cm3": 380, "casting_area_cm2": 560}


def test_the_mass_of_metal_is_that_of_the_casting(ask):
    """380 cm³ of 2700 kg/m³."""
    answer = ask("burnout", **HOOKS)
    assert answer["result"]["metal_kg"] == pytest.approx(1.026)
    assert any("add the gating" in remark for remark in answer["remarks"])


def test_without_a_volume_there_is_no_mass_of_metal(ask):
    answer = ask("burnout", metal="aluminium", modulus_mm=8)
    assert "metal_kg" not in answer["result"]
    assert not any("add the gating" in remark for remark in answer["remarks"])
    assert any("metal poured" in remark for remark in answer["remarks"] if remark.startswith("Left out"))


def test_the_published_figure_for_iron_is_among_the_sources_where_it_is_shown(ask):
    assert "Wear factor" in ask("burnout", **HOOKS)["sources"]["wear_factor"]
    assert "wear_factor" not in ask("burnout", metal="aluminium", modulus_mm=8)["sources"]


def test_a_long_wait_in_endless_sand_gets_a_remark(ask):
    """A plate of 600 cm³ and 500 cm² in endless sand, with 75 mm to the wall, and in a box of 150 × 100 × 40 mm, which loses heat all round."""
    plate = {"casting_volume_cm3": 600, "casting_area_cm2": 500}
    endless, walled = ask("burnout", **plate), ask("burnout", **plate, wall_mm=75)
    assert any("counts as endless" in remark for remark in endless["remarks"])
    assert not any("counts as endless" in remark for remark in walled["remarks"])
    assert walled["result"]["handle_after_min"] < endless["doubt"]["handle_after_min"][0]
    assert not any("endless" in remark for remark in ask("burnout", **plate, box_mm="150 x 100 x 40")["remarks"])
