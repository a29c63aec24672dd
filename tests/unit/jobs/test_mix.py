"""The job *mix*, by hand arithmetic from the definitions of its words, and its remarks."""

import pytest

RECIPE = {"make_kg": 35, "clay_pct_dry": 7, "moisture_pct_wet": 3.5}


def remarks_of(answer):
    return " ".join(answer["remarks"])


@pytest.mark.parametrize(
    ("word", "value"), [("clay_pct_dry", 7.0), ("clay_pct_sand", 100 * 7 / 93), ("clay_pct_wet", 7 * 0.965)]
)
def test_three_bases_of_the_clay_give_the_same_mix(ask, word, value):
    """7 of dry: sand 93, so 7.527 per 100 of sand; of wet 7 * 0.965 = 6.755. Clay as bought 2.36425 / 0.9."""
    result = ask("mix", make_kg=35, moisture_pct_wet=3.5, **{word: value})["result"]
    assert result["clay_kg"] == pytest.approx(35 * 0.965 * 0.07 / 0.9)
    assert result["sand_kg"] == pytest.approx(35 * 0.965 * 0.93)


def test_parts_by_volume_give_the_same_mix(ask):
    """7 of 100 dry is 93/1.442 litres of sand to 7/0.8 of clay: 7.3708 parts to one."""
    parts = (93 / 1.442) / (7 / 0.8)
    answer = ask("mix", make_kg=35, moisture_pct_wet=3.5, parts_sand=parts, parts_clay=1)
    assert answer["result"]["clay_pct_dry"] == pytest.approx(7)
    assert ask("mix", **RECIPE)["result"]["parts_sand"] == pytest.approx(parts)


def test_a_little_sand_on_hand_makes_a_little_mix(ask):
    """0.02 kg of dry sand is 93 % of 0.021505 dry, 0.022285 wet."""
    result = ask("mix", sand_on_hand_kg=0.02, clay_pct_dry=7, moisture_pct_wet=3.5)["result"]
    assert result["make_kg"] == pytest.approx(0.02 / 0.93 / 0.965)


def test_parts_of_granules_use_800_kg_m3_unless_a_density_is_given(ask):
    """By definition: 1442 and 800 unless own bulk densities are given. 0.8 / (9 * 1.442 + 0.8)."""
    result = ask("mix", make_kg=35, moisture_pct_wet=3.5, parts_sand=9, parts_clay=1, clay="clay_granules")["result"]
    assert result["clay_pct_dry"] == pytest.approx(100 * 0.8 / (9 * 1.442 + 0.8))


def test_litres_and_buckets_include_bulking(ask):
    """2 % damp: dry sand 31.411 / 1.442 * 1.3 litres; clay 2.6269 / 0.8; bucket of 12."""
    result = ask("mix", **RECIPE, sand_moisture_pct_wet=2, bucket_l=12)["result"]
    assert result["sand_l"] == pytest.approx(35 * 0.965 * 0.93 / 1.442 * 1.3)
    assert result["clay_l"] == pytest.approx(35 * 0.965 * 0.07 / 0.9 / 0.8)
    assert result["sand_buckets"] == pytest.approx(result["sand_l"] / 12)


def test_dry_sand_does_not_bulk(ask):
    assert ask("mix", **RECIPE)["result"]["sand_l"] == pytest.approx(35 * 0.965 * 0.93 / 1.442)


def test_batches_are_equal(ask):
    answer = ask("mix", **RECIPE, mixer_kg=12)
    result = answer["result"]
    assert result["batches"] == 3
    for part in ("sand", "clay", "water"):
        assert result[f"batch_{part}_kg"] == pytest.approx(result[f"{part}_kg"] / 3)
    assert "clay balls" in remarks_of(answer)
    assert "clay balls" not in remarks_of(ask("mix", **RECIPE, mixer_kg=40))


def test_what_runs_out_first_decides_the_amount(ask):
    """1 kg of clay, 0.9 dry, is 7 % of 12.857 dry; 50 kg of sand is enough for 53.8."""
    answer = ask("mix", sand_on_hand_kg=50, clay_on_hand_kg=1, clay_pct_dry=7, moisture_pct_wet=3.5)
    assert answer["result"]["clay_kg"] == pytest.approx(1)
    assert answer["result"]["make_kg"] == pytest.approx(0.9 / 0.07 / 0.965)
    assert "The clay on hand runs out first" in remarks_of(answer)


def test_too_little_on_hand_is_remarked(ask):
    answer = ask("mix", **RECIPE, sand_on_hand_kg=10)
    assert answer["result"]["sand_kg"] == pytest.approx(10)
    assert "of the 35 kg" in remarks_of(answer)
    assert ask("mix", **RECIPE, sand_on_hand_kg=100)["result"]["make_kg"] == pytest.approx(35)


def test_without_a_target_moisture_the_water_follows_from_the_clay(ask):
    answer = ask("mix", make_kg=35, clay_pct_dry=7)
    share = answer["result"]["moisture_pct_wet"]
    assert share / (100 - share) == pytest.approx(0.07 * 0.44)
    assert "No moisture is given" in remarks_of(answer)


def test_sand_without_clay_is_remarked_as_not_bonding(ask):
    answer = ask("mix", make_kg=35, clay_pct_dry=0, moisture_pct_wet=3.5)
    assert answer["result"]["clay_kg"] == 0
    assert "does not bond" in remarks_of(answer)
    assert "clay" not in answer["drawings"]


def test_clay_on_hand_alone_is_refused_for_a_mix_without_clay(ask):
    answer = ask("mix", clay_on_hand_kg=5, clay_pct_dry=0, moisture_pct_wet=3)
    assert "fault" not in answer
    assert answer["ok"] is False


def test_a_first_dose_that_may_be_too_much_is_remarked(ask):
    assert "may already be enough" in remarks_of(ask("mix", **RECIPE, sand_moisture_pct_wet=2.5))


def test_cautions_are_dust_and_cement_and_drying_if_the_sand_is_too_wet(ask):
    words = [caution.split(":")[0] for caution in ask("mix", **RECIPE, sand_moisture_pct_wet=6)["cautions"]]
    assert words == ["Steam", "Dust", "Cement", "Drying"]


@pytest.mark.parametrize("clay", [1e-4, 4e-166, 2.2e-311])
@pytest.mark.parametrize("amount", ["make_kg", "sand_on_hand_kg", "clay_on_hand_kg"])
def test_a_trace_of_clay_is_never_a_fault(ask, amount, clay):
    assert "fault" not in ask("mix", **{amount: 2}, clay_pct_dry=clay)


def test_the_clay_step_of_granules_is_never_negative(ask):
    """All the clay on hand goes in at the start, so nothing is left to add."""
    inputs = {"clay": "clay_granules", "clay_on_hand_kg": 1.0, "clay_pct_wet": 4.0, "moisture_pct_wet": 2.0}
    assert ask("mix", **inputs)["result"]["clay_step_kg"] >= 0


def test_granules_that_cannot_hold_so_much_clay_at_the_low_end_of_their_range_are_said(ask):
    answer = ask("mix", clay="clay_granules", make_kg=2, clay_pct_dry=51)
    assert "clay_most_kg" not in answer["result"]
    assert any("At 50 % not even the granules alone hold this much clay" in remark for remark in answer["remarks"])


def test_the_headline_of_sand_without_clay_says_no_clay(ask):
    answer = ask("mix", make_kg=25, clay_pct_dry=0, moisture_pct_wet=0)
    assert answer["headline"] == "25.00 kg sand and no clay, as bought, make 25 kg of moulding sand."
    assert (answer["lead"]["text"], answer["lead"]["then"]) == ("none", "")


def test_a_moisture_test_of_the_sand_is_only_advised_with_a_target_moisture(ask):
    remarks = remarks_of(ask("mix", make_kg=25, clay_pct_dry=8))
    assert "only known as a range" in remarks
    assert "Dry 500 g" not in remarks
