"""The job *carbon*: doses by hand, metals that need none, gauges that are not mixed, and what it refuses."""

import pytest

IRON = {"metal": "grey_iron", "heap_kg": 50, "moisture_pct_wet": 4}
SEACOAL = IRON | {"carbon_target_pct": 3, "carbon_now_pct": 1}


def remarks_of(answer):
    return " ".join(answer["remarks"])


def test_the_dose_by_hand(ask):
    """(3 − 1)/(100 − 3) per kg of dry sand, at 5 % water /0.95; 48 kg dry. Half of it first."""
    result = ask("carbon", **SEACOAL)["result"]
    assert result["additive_per_sand"] == pytest.approx(1000 * 2 / 97 / 0.95)
    assert result["additive_to_add_kg"] == pytest.approx(48 * 2 / 97 / 0.95)
    assert result["first_additive_kg"] == pytest.approx(24 * 2 / 97 / 0.95)


def test_a_third_of_gilsonite_has_the_same_level(ask):
    """(3 − 1)/(300 − 3)."""
    result = ask("carbon", **SEACOAL, carbon_additive="gilsonite")["result"]
    assert result["additive_per_sand"] == pytest.approx(1000 * 2 / 297)


def test_by_loss_on_ignition_the_additive_counts_with_its_own(ask):
    """(4.5 − 3.6)/(90 − 4.5)/0.95 at 10 % of ash."""
    tests = {"carbon_gauge": "loss_on_ignition", "carbon_target_pct": 4.5, "carbon_now_pct": 3.6, "carbon_test_c": 950}
    answer = ask("carbon", **IRON | tests, additive_loss_pct=90)
    assert answer["result"]["additive_per_sand"] == pytest.approx(1000 * 0.9 / 85.5 / 0.95)
    assert "loss on ignition at 950 °C" in remarks_of(answer)


@pytest.mark.parametrize("metal", ["aluminium", "al_si12", "zinc_al12"])
def test_light_metals_need_none(ask, metal):
    answer = ask("carbon", metal=metal, heap_kg=50)
    assert answer["state"] == {"word": "none needed", "tone": "go"}
    assert (answer["result"], answer["todo"]) == ({}, [])
    assert answer["headline"].startswith("None needed")


def test_what_is_there_is_enough(ask):
    answer = ask("carbon", **IRON, carbon_target_pct=3, carbon_now_pct=4)
    assert answer["result"]["additive_per_sand"] == 0
    assert answer["state"]["tone"] == "go"
    assert answer["todo"] == []
    assert answer["headline"] == "No more is needed: the sand has 3 % as seacoal of the dry mass or more already."


def test_a_range_that_cannot_decide_says_test_it(ask):
    """3 % against 2.9 ± 0.3."""
    answer = ask("carbon", **IRON, carbon_target_pct=3, carbon_now_pct=2.9)
    assert answer["state"] == {"word": "test it", "tone": "care"}
    assert answer["headline"].startswith("Test it again")
    assert [row["amount"] for row in answer["todo"]] == [""]


def test_what_a_cast_of_iron_takes_and_its_gas(ask):
    """4 kg × 1.1 × 3 % = 132 g dry; 89 % of it at most carbon; 2.332 g and 2.003 L each."""
    result = ask("carbon", **SEACOAL, cast_metal_kg=4, casts=10)["result"]
    assert result["additive_burnt_kg"] == pytest.approx(0.132 / 0.95)
    assert result["additive_season_kg"] == pytest.approx(1.32 / 0.95)
    assert result["co_kg"] == pytest.approx(0.132 * 0.89 * 28.010 / 12.011)
    assert result["co_l"] == pytest.approx(132 * 0.89 * 24.06 / 12.011)
    assert result["co_air_m3"] == pytest.approx(result["co_l"] / 1000 / 35e-6)


def test_a_copper_alloy_goes_by_the_heat_of_its_casting(ask):
    """The sand past 482 °C by *burnout* with that limit for the clay, times 1 %."""
    casting = {"metal": "tin_bronze", "casting_volume_cm3": 200, "casting_area_cm2": 300, "moisture_pct_wet": 3.1}
    hot = ask("burnout", **casting, clay_limit_c=482)["result"]["burnt_sand_kg"]
    answer = ask("carbon", **casting)
    assert answer["result"]["additive_burnt_kg"] * 0.95 == pytest.approx(0.01 * hot, rel=1e-6)
    assert "an upper limit" in remarks_of(answer)
    assert "additive_burnt_kg" not in ask("carbon", metal="tin_bronze")["result"]


def test_nothing_tested_is_said(ask):
    assert "taken as none" in " ".join(ask("carbon", **IRON)["ways_out"])


def test_it_is_for_outdoors(ask):
    cautions = " ".join(ask("carbon", **SEACOAL)["cautions"])
    assert "outdoors" in cautions
    assert "explode" in cautions


LOSS = {"carbon_gauge": "loss_on_ignition"}
VOLATILES = {"carbon_gauge": "volatiles", "carbon_target_pct": 2, "carbon_now_pct": 1}
REFUSED = [
    (LOSS | {"carbon_target_pct": 4, "carbon_now_pct": 3}, "carbon_test_c"),
    (LOSS | {"carbon_target_pct": 4, "carbon_test_c": 900}, "carbon_now_pct"),
    (LOSS | {"carbon_now_pct": 4, "carbon_test_c": 900}, "carbon_target_pct"),
    (VOLATILES | {"carbon_test_c": 900}, "carbon_test_c"),
    (VOLATILES | {"carbon_test_c": 482, "carbon_target_pct": 20}, "carbon_target_pct"),
    ({"casts": 1.5}, "casts"),
    ({"casting_volume_cm3": 100, "casting_area_cm2": 1}, "casting_area_cm2"),
    ({"pour_temp_c": 700}, "pour_temp_c"),
]


@pytest.mark.parametrize(("inputs", "word"), REFUSED)
def test_what_cannot_be_is_refused_in_words(ask, inputs, word):
    assert word in [problem["word"] for problem in ask("carbon", **IRON | inputs)["problems"]]


def test_a_cold_test_of_loss_is_remarked(ask):
    tests = LOSS | {"carbon_target_pct": 4, "carbon_now_pct": 3, "carbon_test_c": 500}
    assert "may not burn out" in remarks_of(ask("carbon", **IRON | tests))


def test_volatiles_and_cellulose_have_their_remarks(ask):
    said = remarks_of(ask("carbon", **IRON | VOLATILES, carbon_test_c=482, carbon_additive="cellulose"))
    assert "Volatiles and loss on ignition differ" in said
    assert "hardly any of the film" in said


def test_iron_compares_its_wear_with_the_heat(ask):
    said = remarks_of(ask("carbon", **SEACOAL, cast_metal_kg=4, casting_volume_cm3=250, casting_area_cm2=330))
    assert "By the heat" in said


def test_an_additive_that_cannot_reach_the_level_is_left_out_of_the_table(ask):
    """Seacoal has 24 % of volatiles; gilsonite of 72 % can bring 30 %."""
    tests = VOLATILES | {"carbon_test_c": 482, "carbon_target_pct": 30}
    rows = ask("carbon", **IRON | tests, carbon_additive="gilsonite")["result"]["additive_ways"]
    assert len(rows) == 3


def test_large_amounts_are_written_out(ask):
    """3/97/0.95 of 4800 kg of dry sand is 156 kg; at 25 %, 25/75/0.95 is 351 g per kg."""
    rows = ask("carbon", **IRON | {"heap_kg": 5000}, carbon_target_pct=3, carbon_now_pct=0)["result"]["additive_ways"]
    assert rows[0]["said"] == "33 g per kg of dry sand, 160 kg in all"
    strong = ask("carbon", **IRON, carbon_target_pct=25, carbon_now_pct=0)["result"]["additive_ways"]
    assert strong[0]["said"].startswith("350 g per kg")
