"""The job *fineness*: what it answers and says beside the figures."""

import pytest


def said(answer):
    return " ".join(answer["remarks"])


def test_all_it_answers(ask):
    """40 × 0.25 + 50 × 0.5 + 70 × 0.25 = 52.5; 13600 / 52.5 = 259.05; 2.5 of 42.5 washed."""
    result = ask("fineness", retained={"50": 10, "70": 20, "100": 10}, clay_washed_g=2.5)["result"]
    assert result["gfn"] == pytest.approx(52.5)
    assert result["mean_um"] == pytest.approx(259.0476, abs=1e-3)
    assert (result["screens"], result["gaps"]) == (["50", "70", "100"], [])
    assert result["passing"] == pytest.approx({"50": 75, "70": 25, "100": 0})
    assert result["washed_pct_dry"] == pytest.approx(100 * 2.5 / 42.5)


def test_what_the_wash_took_never_moves_the_number(ask):
    retained = {"50": 10, "70": 20}
    dry, washed = (ask("fineness", retained=retained, **more)["result"] for more in ({}, {"clay_washed_g": 9}))
    assert dry == {word: value for word, value in washed.items() if word != "washed_pct_dry"}


def test_a_number_is_told_with_one_place_and_names_as_a_list(ask):
    shown = {row["word"]: row["text"] for row in ask("fineness", retained={"50": 10, "70": 20, "100": 10})["shown"]}
    assert shown["gfn"] == "52.5"
    assert shown["screens"] == "50, 70, 100"
    assert shown["gaps"] == "none"
    assert shown["passing"] == "No. 50: 75 %, No. 70: 25 %, No. 100: 0 %"


def test_a_gap_is_said(ask):
    answer = ask("fineness", retained={"40": 50, "50": 2, "70": 48, "pan": 0})
    assert answer["result"]["gaps"] == ["50"]
    assert "there is a gap: No. 50" in said(answer)
    assert answer["state"]["tone"] == "care"


def test_grain_of_one_size_is_said(ask):
    answer = ask("fineness", retained={"70": 95, "100": 5, "pan": 0})
    assert "Nearly all of it lies on No. 70" in said(answer)
    assert "on one screen" in answer["headline"]


def test_three_screens_side_by_side_are_well_spread(ask):
    answer = ask("fineness", retained={"50": 25, "70": 40, "100": 25, "140": 10, "pan": 0})
    assert answer["state"] == {"word": "well spread", "tone": "go"}
    assert "gap" not in said(answer)


def test_a_sieve_that_is_missing_between_two_and_a_pan_that_is_not_named_are_said(ask):
    answer = ask("fineness", retained={"50": 25, "100": 75})
    assert "taken as empty: No. 70" in said(answer)
    assert "The pan is not named" in said(answer)
    assert "pan is not named" not in said(ask("fineness", retained={"50": 25, "100": 75, "pan": 0}))


def test_all_in_the_pan(ask):
    answer = ask("fineness", retained={"pan": 3})
    assert answer["result"]["gfn"] == pytest.approx(300)
    assert answer["result"]["screens"] == []
    assert "on no screen" in answer["headline"]
    assert answer["charts"] == []


def test_the_chart_holds_what_passes_and_what_is_held_by_the_opening(ask):
    chart = ask("fineness", retained={"50": 10, "70": 30, "pan": 0})["charts"][0]
    lines = {line["label"]: line["points"] for line in chart["series"]}
    assert lines == {"passing": [[0.212, 0], [0.3, 75]], "held": [[0.212, 75], [0.3, 25]]}
    assert chart["limits"][0]["at"] == 10


def test_sieves_that_are_named_and_empty_draw_no_line(ask):
    chart = ask("fineness", retained={"50": 0, "pan": 3})["charts"][0]
    assert [line["label"] for line in chart["series"]] == ["passing"]
