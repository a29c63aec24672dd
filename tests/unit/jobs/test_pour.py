"""The job *pour*, by hand arithmetic from the definitions of its words; its sentences are pinned under tests/messages."""

import json

import pytest

from sandmix.doors.facade import call

CASTING = {"casting_volume_cm3": 400, "gating_pct": 50, "melt_loss_pct": 4, "spare_pct": 20}
OVER = {"projected_area_cm2": 100, "head_mm": 200}


def remarks(answer):
    return " ".join(answer["remarks"])


def tones(answer):
    return [check["tone"] for check in answer["checklist"]]


def test_the_charge_uses_the_solid_density_and_the_crucible_the_liquid(ask):
    """400 * 1.5 * 2.7 g = 1.62 kg / 0.96 = 1.6875, * 1.2 = 2.025 kg; / 2.37 = 0.85443 L of 1 L."""
    result = ask("pour", **CASTING, crucible_l=1)["result"]
    assert result["charge_kg"] == pytest.approx(2.025)
    assert result["crucible_fill_pct"] == pytest.approx(85.443, abs=0.001)


def test_weights_are_the_uplift_times_the_factor_less_the_cope(ask):
    """0.01 m² * 0.2 m * 2370 = 4.74 kg; * 2 = 9.48; less a cope of 7: 2.48."""
    result = ask("pour", **OVER, uplift_factor=2, cope_kg=7)["result"]
    assert result["uplift_kg"] == pytest.approx(4.74)
    assert result["hold_down_kg"] == pytest.approx(9.48)
    assert result["weights_kg"] == pytest.approx(2.48)


def test_a_floating_core_adds_to_the_uplift(ask):
    """300 cm³ * (2370 - 1600) = 0.231 kg."""
    result = ask("pour", **OVER, core_volume_cm3=300)["result"]
    assert result["uplift_kg"] == pytest.approx(4.74 + 0.231)


def test_a_heavy_cope_needs_no_weights_and_never_less_than_none(ask):
    answer = ask("pour", **OVER, cope_kg=40)
    assert answer["result"]["weights_kg"] == 0
    assert answer["doubt"]["weights_kg"] == [0, 0]
    assert answer["result"]["put_on_kg"] == 0
    assert answer["lead"]["word"] == "put_on_kg"


class TestWeightsToPutOn:
    """The high end of the weights, rounded up to whole kilograms, and at least 5: DOOR's definition."""

    def test_the_high_end_is_rounded_up(self, ask):
        """0.03 m² * 0.13 m * 7700 = 30.03 kg, * 1.5 = 45.045; ± √(0.05² + (5/130)² + 0.03²) = 6.99 % of it and the cope's own ±."""
        answer = ask("pour", projected_area_cm2=300, head_mm=130, cope_kg="11 ± 0 kg", metal="yellow_brass")
        half = 45.045 * (0.05**2 + (5 / 130) ** 2 + 0.03**2) ** 0.5
        assert answer["doubt"]["weights_kg"][1] == pytest.approx(34.045 + half)
        assert answer["result"]["put_on_kg"] == 38

    def test_a_high_end_of_whole_kilograms_is_not_rounded_up_further(self, ask):
        """0.01 m² * 0.2 m * 2370 * 1.5 = 7.11 kg; a cope of 0.1 kg less than its high end leaves exactly that."""
        high = ask("pour", **OVER)["doubt"]["hold_down_kg"][1]
        answer = ask("pour", **OVER, cope_kg={"value": 7.11 - (6 - (high - 7.11)), "doubt": 0})
        assert answer["doubt"]["weights_kg"][1] == pytest.approx(6)
        assert answer["result"]["put_on_kg"] == 6

    def test_it_is_at_least_5_kg_wherever_weights_may_be_needed(self, ask):
        """7.11 ± some 0.5 kg under a cope of 7.4: none by the point value, a few hundred grams at most."""
        answer = ask("pour", **OVER, cope_kg="7.4 ± 0 kg")
        assert answer["result"]["weights_kg"] == 0 < answer["doubt"]["weights_kg"][1] < 1
        assert answer["result"]["put_on_kg"] == 5

    def test_it_is_the_same_without_ranges_in_the_answer(self, ask):
        inputs = {"metal": "grey_iron", "projected_area_cm2": 250, "head_mm": 120, "cope_kg": 9}
        bare = json.loads(call(json.dumps({"job": "pour", "inputs": inputs, "doubt": False})))
        assert bare["result"] == ask("pour", **inputs)["result"]
        assert "doubt" not in bare


@pytest.mark.parametrize("metal", ["tin_bronze", "yellow_brass", "silicon_brass", "grey_iron", "aluminium"])
def test_a_liquid_density_from_memory_says_so_and_has_a_range(ask, metal):
    """± 3 % of the uplift, own choice, in addition to ± 5 % of the area and 5 mm of 200."""
    answer = ask("pour", **OVER, metal=metal)
    low, high = answer["doubt"]["uplift_kg"]
    uplift = answer["result"]["uplift_kg"]
    assert (high - low) / 2 / uplift == pytest.approx((0.05**2 + (5 / 200) ** 2 + 0.03**2) ** 0.5)
    assert any("kg/m³ ± 3 %, from memory" in remark for remark in answer["remarks"])
    assert "Density of the liquid metal" in [one["label"] for one in answer["uncertainty"]["uplift_kg"]]


def test_the_liquid_density_is_not_mentioned_where_nothing_depends_on_it(ask):
    assert "liquid metal" not in remarks(ask("pour", **CASTING, metal="tin_bronze"))


@pytest.mark.parametrize(("spare", "unusual"), [(10, False), (5, False), (25, False), (40, True)])
def test_the_spare_that_this_job_takes_by_itself_is_usual(ask, spare, unusual):
    assert (
        any("Spare metal" in remark for remark in ask("pour", **(CASTING | {"spare_pct": spare}))["remarks"]) is unusual
    )


def test_a_surface_and_a_box_that_are_known_are_handed_on(ask):
    answer = ask("pour", **CASTING, casting_area_cm2=500, box_mm="200 x 100 x 20 mm", gating_section_mm=60)
    (link,) = answer["next"]
    assert link["inputs"]["gating_section_mm"] == "60 mm"
    assert link["inputs"]["casting_area_cm2"] == "500 cm²"
    assert link["inputs"]["box_mm"] == "200 x 100 x 20 mm"
    assert ask("burnout", **link["inputs"])["ok"]


def test_the_surface_that_a_pattern_knows_reaches_the_opening_time(ask):
    """A block of 100 × 60 × 30 mm: 2 (60 + 30 + 18) cm² = 216 cm²."""
    pattern = ask("pattern", box_mm="100 x 60 x 30 mm", measured="casting")
    onward = {link["job"]: link["inputs"] for link in pattern["next"]}
    (link,) = ask("pour", **onward["pour"])["next"]
    burnout = ask(link["job"], **link["inputs"])
    assert burnout["ok"]
    assert link["inputs"]["casting_area_cm2"] == "216 cm²"


def test_without_a_cope_the_whole_hold_down_is_answered(ask):
    """4.74 * 1.5 = 7.11."""
    answer = ask("pour", **OVER)
    assert answer["result"]["hold_down_kg"] == pytest.approx(7.11)
    assert answer["lead"]["word"] == "hold_down_kg"
    assert "weights_kg" not in answer["result"]
    assert "cope with its frame" in remarks(answer)


def test_vents_choke_and_hydrogen(ask):
    """100 cm² / 16 = 6.25: 7. 0.4 * 1.5 * 2.7 = 1.62 kg; √(2 g 0.2) = 1.98057; 1.62 / (2370 * 4 * 0.8 * 1.98057) = 107.85 mm²."""
    result = ask("pour", **CASTING, **OVER, fill_time_s=4, pour_temp_c=720)["result"]
    assert result["vents"] == 7
    assert result["choke_mm2"] == pytest.approx(107.85, abs=0.01)
    assert result["hydrogen_cm3_100g"] == pytest.approx(10 ** (2.72 - 2700 / 993.15))


def test_the_choke_is_left_out_without_a_head_or_a_time(ask):
    assert "choke_mm2" not in ask("pour", **CASTING, fill_time_s=4)["result"]
    assert "choke_mm2" not in ask("pour", **CASTING, **OVER)["result"]


def test_vents_need_only_a_projected_area(ask):
    """100 cm² / 16."""
    result = ask("pour", **CASTING, projected_area_cm2=100)["result"]
    assert result["vents"] == 7
    assert "uplift_kg" not in result


def test_hydrogen_is_computed_for_aluminium_only(ask):
    assert "hydrogen_cm3_100g" in ask("pour", **CASTING, metal="al_6061")["result"]
    assert "hydrogen_cm3_100g" not in ask("pour", **CASTING, metal="tin_bronze")["result"]


def test_the_uncertainty_of_the_charge_is_a_root_of_squares(ask):
    """Loss 4 ± 1 point, volume ± 5 %, gating 50 ± 10 points of 150, spare exact: the high side √(0.05² + 0.0667² + (0.96/0.95 - 1)²)."""
    answer = ask("pour", **CASTING)
    low, high = answer["doubt"]["charge_kg"]
    up = (0.05**2 + (10 / 150) ** 2 + (0.96 / 0.95 - 1) ** 2) ** 0.5
    down = (0.05**2 + (10 / 150) ** 2 + (1 - 0.96 / 0.97) ** 2) ** 0.5
    assert high == pytest.approx(2.025 * (1 + up))
    assert low == pytest.approx(2.025 * (1 - down))


class TestTheChecklist:
    def test_hard_stops_come_first(self, ask):
        for moisture in ({}, {"moisture_pct_wet": 3}, {"moisture_pct_wet": 7}):
            order = [tone for tone in tones(ask("pour", **CASTING, **moisture)) if tone != "go"]
            assert order == sorted(order, key=["stop", "care"].index)

    def test_untested_sand_is_a_stop(self, ask):
        assert tones(ask("pour", **CASTING))[0] == "stop"

    @pytest.mark.parametrize(("metal", "limit"), [("aluminium", 6), ("grey_iron", 5.25), ("zinc_al12", 6)])
    def test_the_moisture_limit_is_that_of_the_metal(self, ask, metal, limit):
        at, above = (ask("pour", **CASTING, metal=metal, moisture_pct_wet=f"{limit + more} ± 0 %") for more in (0, 0.1))
        assert at["checklist"][0]["tone"] == "care"
        assert above["checklist"][0]["tone"] == "stop"
        assert above["state"] == {"word": "stop", "tone": "stop"}
        assert at["state"]["tone"] == "care"

    def test_a_crucible_that_overflows_adds_a_stop(self, ask):
        """2.025 / 2.37 = 0.854 L into 0.8 and 0.9."""
        small, large = (tones(ask("pour", **CASTING, crucible_l=litres)).count("stop") for litres in (0.8, 0.9))
        assert small == large + 1

    def test_each_line_is_a_sentence_with_a_tone(self, ask):
        for check in ask("pour", **CASTING, **OVER)["checklist"]:
            assert set(check) == {"tone", "text"}
            assert check["tone"] in ("go", "care", "stop")
            assert check["text"].endswith(".")


@pytest.mark.parametrize(
    ("metal", "moisture", "steam", "zinc"),
    [
        ("aluminium", 4.5, False, False),
        ("aluminium", 4.6, True, False),
        ("yellow_brass", 4.1, True, True),
        ("zinc_al12", None, False, True),
        ("tin_bronze", 4.0, False, False),
    ],
)
def test_each_caution_appears_where_it_applies(ask, metal, moisture, steam, zinc):
    cautions = [
        text.split(":")[0] for text in ask("pour", **CASTING, metal=metal, moisture_pct_wet=moisture)["cautions"]
    ]
    assert ("Steam" in cautions) is steam
    assert ("Zinc fume" in cautions) is zinc
    assert {"Explosion", "Run-out", "Burns", "Furnace", "Lifting", "Flux fume", "Vent gas"} <= set(cautions)


@pytest.mark.parametrize(
    ("metal", "named", "others"),
    [
        ("aluminium", {"Magnesium"}, {"Lead", "Glare"}),
        ("zinc_al12", {"Magnesium"}, {"Lead", "Glare"}),
        ("tin_bronze", {"Lead", "Glare"}, {"Magnesium"}),
        ("yellow_brass", {"Lead", "Glare"}, {"Magnesium"}),
        ("grey_iron", {"Glare"}, {"Magnesium", "Lead"}),
    ],
)
def test_the_metal_decides_on_magnesium_lead_and_the_dark_lens(ask, metal, named, others):
    cautions = {text.split(":")[0] for text in ask("pour", **CASTING, metal=metal)["cautions"]}
    assert named <= cautions
    assert not others & cautions


def test_loose_sand_is_never_blown_out(ask):
    """One rule at both places: the checklist before pouring, and the caution on dust."""
    checks = [check["text"] for check in ask("pour", **CASTING)["checklist"]]
    assert any(
        "brushed or tipped out of sprue and pouring cup before closing, never blown out" in text for text in checks
    )
    (dust,) = (
        text
        for text in ask("flask", flask_length_mm=300, flask_width_mm=300, drag_depth_mm=100)["cautions"]
        if text.startswith("Dust")
    )
    assert "never sweep it dry or blow it off, from a mould either" in dust


def test_a_small_core_gets_no_remark(ask):
    """100 cm³ * 0.77 = 77 g."""
    assert "floats" not in remarks(ask("pour", **CASTING, core_volume_cm3=100))
    assert "floats" in remarks(ask("pour", **CASTING, core_volume_cm3=150))


def test_a_well_filled_crucible_gets_no_remark(ask):
    """2.025 kg are 0.854 L: of 1.1 L 78 %, of 3.4 L 25.1 %, of 3.5 L 24.4."""
    for litres in (1.1, 3.4):
        assert "crucible" not in remarks(ask("pour", **CASTING, **OVER, cope_kg=9, crucible_l=litres))
    assert "only 24 % full" in remarks(ask("pour", **CASTING, crucible_l=3.5))


def test_the_working_can_be_followed(ask):
    working = ask("pour", **CASTING, **OVER, cope_kg=2, crucible_l=1, fill_time_s=4, core_volume_cm3=300)["working"]
    assert working[0] == "charge = 400 cm³ × (1 + 50/100) × 2.7 g/cm³ / (1 − 4/100) × (1 + 20/100) = 2.025 kg"
    assert working[1] == "crucible = 2.025 kg / (2.37 kg/L × 1 L) = 85 %"
    assert working[2] == ("uplift = 100 cm² × 200 mm × 2370 kg/m³ and the floating core = 4.97 kg; × 1.5 = 7.46 kg")
    assert working[3].startswith("weights = 7.46 − 2 kg of cope = 5.46 kg; at most ")
    assert working[4].startswith("choke = m / (ρ t c √(2 g h)), c = 0.8 (from memory) = 108 mm²")


def test_the_next_step_is_what_comes_after_the_pour(ask):
    (link,) = ask("pour", **CASTING, metal="tin_bronze")["next"]
    assert (link["job"], link["inputs"]) == ("burnout", {"metal": "tin_bronze", "casting_volume_cm3": "400 cm³"})
    (bare,) = ask("pour", **OVER)["next"]
    assert bare["inputs"] == {"metal": "aluminium"}


def test_it_has_no_timers_and_no_charts(ask):
    answer = ask("pour", **CASTING)
    assert answer["timers"] == answer["charts"] == []


@pytest.mark.parametrize("crucible_l", [1.0, 1.15, 8.0])
def test_remarks_on_the_crucible_use_the_figure_that_is_shown(ask, crucible_l):
    answer = ask("pour", casting_volume_cm3=600, crucible_l=crucible_l)
    shown = next(row["text"] for row in answer["shown"] if row["word"] == "crucible_fill_pct")
    assert any(f" {shown}" in remark and "crucible" in remark for remark in answer["remarks"])


WANTED = {"casting_volume_cm3": 400, "gating_pct": 50, "spare_pct": 20}
LOTS = ({"name": "old hooks", "kg": 2, "melt_loss_pct": 2}, {"scrap": "turnings", "kg": 0.5, "melt_loss_pct": 12})


class TestScrapOnHand:
    """A casting that takes 400 cm³ * 1.5 * 2.7 g = 1.62 kg of metal, with a fifth to spare."""

    def test_each_lot_loses_its_own_share(self, ask):
        """40 + 60 g of 2.5 kg are lost, 4 %: 1.62 / 0.96 * 1.2 = 2.025 kg, 81 % of each lot."""
        result = ask("pour", **WANTED, scrap_lots=list(LOTS))["result"]
        assert result["charge_kg"] == pytest.approx(2.025)
        assert result["scrap_kg"] == pytest.approx(2.5)
        assert result["scrap_left_kg"] == pytest.approx(0.475)
        assert result["scrap_short_kg"] == 0
        assert [(row["name"], round(row["kg"], 6)) for row in result["scrap_take"]] == [
            ("old hooks", 1.62),
            ("turnings and swarf", 0.405),
        ]

    def test_a_lot_without_its_own_loss_takes_the_one_for_all(self, ask):
        """2 kg * 2 % + 0.5 kg * 6 % = 70 g of 2.5 kg: 2.8 %."""
        lots = [LOTS[0], {"kg": 0.5}]
        result = ask("pour", **WANTED, melt_loss_pct=6, scrap_lots=lots)["result"]
        assert result["charge_kg"] == pytest.approx(1.62 / 0.972 * 1.2)

    def test_a_lot_of_which_only_the_kind_is_known_loses_the_middle_of_its_range(self, ask):
        """Turnings lose 8 to 15 %: 11.5 %. The ± of the charge is at least what these ends make of it."""
        answer = ask("pour", **WANTED, scrap_lots=[{"kg": 5, "scrap": "turnings"}])
        middle, low, high = (1.62 * 1.2 / (1 - loss) for loss in (0.115, 0.08, 0.15))
        assert answer["result"]["charge_kg"] == pytest.approx(middle)
        band = answer["doubt"]["charge_kg"]
        assert band[0] < low and band[1] > high

    def test_what_is_missing_is_said(self, ask):
        answer = ask("pour", **WANTED, scrap_lots=[{"kg": 1, "melt_loss_pct": 4}])
        assert answer["result"]["scrap_short_kg"] == pytest.approx(1.025)
        assert answer["result"]["scrap_left_kg"] == 0
        assert "The scrap on hand is not enough" in remarks(answer)

    def test_the_spare_goes_to_an_ingot_mould_of_its_liquid_volume(self, ask):
        """A fifth of 1.62 kg is 0.324 kg, at 2.37 g/cm³ 136.7 cm³."""
        answer = ask("pour", **CASTING)
        assert answer["result"]["ingot_kg"] == pytest.approx(0.324)
        assert answer["result"]["ingot_cm3"] == pytest.approx(136.71, abs=0.01)
        assert any("ingot mould" in check["text"] and "137 cm³" in check["text"] for check in answer["checklist"])

    def test_other_alloys_and_often_melted_scrap_bring_a_remark(self, ask):
        lots = [{"name": "rims", "kg": 2, "alloy": "al_6061", "remelts_count": 2}, {"kg": 1, "remelts_count": 1}]
        said = remarks(ask("pour", **WANTED, scrap_lots=lots))
        assert "The charge also holds aluminium 6061 scrap" in said
        assert "“rims” was melted before, 2 times or more." in said

    def test_plain_scrap_of_the_metal_brings_no_such_remark(self, ask):
        said = remarks(ask("pour", **WANTED, scrap_lots=[{"kg": 3, "remelts_count": 1}]))
        assert "also holds" not in said and "melted before" not in said

    def test_another_metal_is_refused_with_the_way_out(self):
        given = {"job": "pour", "inputs": {**WANTED, "scrap_lots": [{"kg": 1}, {"kg": 1, "alloy": "yellow_brass"}]}}
        answer = json.loads(call(json.dumps(given)))
        [problem] = answer["problems"]
        assert problem["word"] == "scrap_lots"
        assert "lot 2 is yellow brass, which does not belong in an aluminium alloy" in problem["message"]
