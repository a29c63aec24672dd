"""The job *fineness*: its answers and its remarks."""

import pytest


def remarks(answer):
    return " ".join(answer["remarks"])


def test_every_answer(ask):
    """40 × 0.25 + 50 × 0.5 + 70 × 0.25 = 52.5; 13600 / 52.5 = 259.05; 2.5 of 42.5 washed."""
    result = ask("fineness", retained={"50": 10, "70": 20, "100": 10}, clay_washed_g=2.5)["result"]
    assert result["gfn"] == pytest.approx(52.5)
    assert result["mean_um"] == pytest.approx(259.0476, abs=1e-3)
    assert (result["screens"], result["gaps"]) == (["50", "70", "100"], [])
    assert result["passing"] == pytest.approx({"50": 75, "70": 25, "100": 0})
    assert result["washed_pct_dry"] == pytest.approx(100 * 2.5 / 42.5)


def test_what_the_wash_took_never_changes_the_number(ask):
    retained = {"50": 10, "70": 20}
    dry, washed = (ask("fineness", retained=retained, **more)["result"] for more in ({}, {"clay_washed_g": 9}))
    assert dry == {word: value for word, value in washed.items() if word != "washed_pct_dry"}


def test_the_number_is_shown_with_one_decimal_and_names_as_a_list(ask):
    shown = {row["word"]: row["text"] for row in ask("fineness", retained={"50": 10, "70": 20, "100": 10})["shown"]}
    assert shown["gfn"] == "52.5"
    assert shown["screens"] == "50, 70, 100"
    assert shown["gaps"] == "none"
    assert shown["passing"] == "No. 50: 75 %, No. 70: 25 %, No. 100: 0 %"


def test_a_gap_is_remarked(ask):
    answer = ask("fineness", retained={"40": 50, "50": 2, "70": 48, "pan": 0})
    assert answer["result"]["gaps"] == ["50"]
    assert "less than a tenth on No. 50" in remarks(answer)
    assert answer["state"]["tone"] == "care"


def test_grain_of_one_size_is_remarked(ask):
    answer = ask("fineness", retained={"70": 95, "100": 5, "pan": 0})
    assert "Nearly all of it is on No. 70" in remarks(answer)
    assert "on one screen" in answer["headline"]


def test_three_neighbouring_screens_are_well_spread(ask):
    answer = ask("fineness", retained={"50": 25, "70": 40, "100": 25, "140": 10, "pan": 0})
    assert answer["state"] == {"word": "well spread", "tone": "go"}
    assert "gap" not in remarks(answer)


def test_an_unnamed_sieve_and_an_unnamed_pan_are_remarked(ask):
    answer = ask("fineness", retained={"50": 25, "100": 75})
    assert "counted as empty: No. 70" in remarks(answer)
    assert "did not name the pan" in remarks(answer)
    assert "did not name the pan" not in remarks(ask("fineness", retained={"50": 25, "100": 75, "pan": 0}))


def test_all_grain_in_the_pan(ask):
    answer = ask("fineness", retained={"pan": 3})
    assert answer["result"]["gfn"] == pytest.approx(300)
    assert answer["result"]["screens"] == []
    assert "on no screen" in answer["headline"]
    assert answer["charts"] == []


def test_the_chart_shows_what_passes_and_what_is_held_by_the_opening(ask):
    chart = ask("fineness", retained={"50": 10, "70": 30, "pan": 0})["charts"][0]
    lines = {line["label"]: line["points"] for line in chart["series"]}
    assert lines == {"passing": [[0.212, 0], [0.3, 75]], "held": [[0.212, 75], [0.3, 25]]}
    assert chart["limits"][0]["at"] == 10


def test_empty_sieves_have_no_bars(ask):
    chart = ask("fineness", retained={"50": 0, "pan": 3})["charts"][0]
    assert [line["label"] for line in chart["series"]] == ["passing"]


FEW = {"40": 20, "70": 50, "140": 25, "pan": 5}


def test_missing_sieves_give_a_range_and_a_best_guess(ask):
    """By hand in test_partial_sieves: 50.5 to 71.0, best guess 61.50, No. 100 helps most. Mean 13600/71 × 0.95 to 13600/50.5 × 1.05."""
    answer = ask("fineness", retained=FEW)
    assert answer["result"]["gfn"] == pytest.approx(71)
    assert answer["doubt"]["gfn"] == pytest.approx([50.5, 71])
    assert answer["result"]["gfn_estimate"] == pytest.approx(61.50, abs=0.005)
    assert answer["doubt"]["mean_um"] == pytest.approx([181.97, 282.77], abs=0.01)
    assert "from 50 to 71 all give these readings; the best guess is 62. A No. 100 sieve would help most" in remarks(
        answer
    )
    assert answer["state"] == {"word": "too few sieves", "tone": "care"}
    assert answer["lead"]["then"] == "50 to 70"


def test_sieves_that_were_empty_leave_no_range(ask):
    answer = ask("fineness", retained=FEW, unnamed_sieves="empty")
    assert "gfn_estimate" not in answer["result"]
    assert answer["doubt"]["gfn"] == pytest.approx([71, 71])
    assert "counted as empty" not in remarks(answer)


def test_absent_includes_the_coarser_sieves(ask):
    assert ask("fineness", retained=FEW, unnamed_sieves="absent")["doubt"]["gfn"] == pytest.approx([45.1, 71])


def test_a_full_stack_leaves_no_range(ask):
    answer = ask("fineness", retained={"50": 10, "70": 20, "100": 10, "pan": 0})
    assert "gfn_estimate" not in answer["result"]
    assert answer["doubt"]["gfn"] == pytest.approx([52.5, 52.5])


def test_kitchen_sieves_give_a_wide_range(ask):
    """96 of 100 are below a window screen of 1.3 mm: anything from 9.7 to 288."""
    answer = ask("fineness", retained={"1.3 mm": 4, "pan": 96})
    assert answer["doubt"]["gfn"] == pytest.approx([9.72, 288.4])
    assert answer["result"]["gfn"] == answer["result"]["gfn_estimate"]
    assert answer["result"]["passing"] == pytest.approx({"1.3 mm": 96})
    assert "screens" not in answer["result"] and "gaps" not in answer["result"]
    assert "do not belong to the series" in remarks(answer)
    assert answer["state"]["word"] == "too few sieves"
    assert "estimated between the openings" in answer["headline"]
    assert any("log scale" in line for line in answer["working"])
    assert answer["charts"][0]["limits"] == []


def test_a_sieve_outside_the_series_can_still_give_a_narrow_range(ask):
    """The series was in the stack, with half of the grain on No. 50 and half on No. 70: 45."""
    answer = ask("fineness", retained={"50": 50, "70": 50, "100": 0, "0.09 mm": 0, "pan": 0}, unnamed_sieves="empty")
    assert answer["result"]["gfn"] == pytest.approx(45)
    assert answer["state"] == {"word": "read off", "tone": "plain"}


def test_a_loss_in_the_sieves_has_the_range_of_the_scale(ask):
    """100 - 2 - 97.5 = 0.5 of 100; five readings of ± 1.96/√12 × 0.1 g: ± 0.127."""
    answer = ask("fineness", retained={"50": 57.5, "70": 40, "pan": 0}, clay_washed_g=2, sample_g=100)
    assert answer["result"]["sieve_loss_pct"] == pytest.approx(0.5)
    assert answer["doubt"]["sieve_loss_pct"] == pytest.approx([0.373, 0.627], abs=0.001)
    assert (
        "After sieving, 0.5 % of the sample is missing (± 0.1 from the scale). For aggregates 0.3 % is allowed"
        in remarks(answer)
    )


def test_a_larger_loss_is_remarked(ask):
    assert "Sieving lost 3.0 % of the sample" in remarks(ask("fineness", retained={"50": 97, "pan": 0}, sample_g=100))


def test_a_coarse_scale_cannot_show_a_loss(ask):
    """Three readings of ± 0.566 g on 20 g: ± 4.9 %."""
    answer = ask("fineness", retained={"50": 19.4, "pan": 0}, sample_g=20, scale_step_g=1)
    assert "3.0 % of the sample is missing (± 4.9 from the scale)" in remarks(answer)


def test_sieves_that_hold_more_than_the_sample(ask):
    answer = ask("fineness", retained={"50": 103, "pan": 0}, sample_g=100)
    assert answer["result"]["sieve_loss_pct"] == pytest.approx(-3)
    assert "hold 3.0 % more than the sample" in remarks(answer)


def test_a_sample_weighed_after_the_wash_is_recognised(ask):
    answer = ask("fineness", retained={"50": 89.9, "pan": 0}, clay_washed_g=10, sample_g=90)
    assert "weighed after the wash" in remarks(answer)


def test_percents_are_not_grams(ask):
    answer = ask("fineness", retained={"50": 60, "70": 40, "pan": 0}, sample_g=25)
    assert "sieve_loss_pct" not in answer["result"]
    assert "The sieves hold 100 and the sample is 25 g, so the loss is left out" in remarks(answer)


def test_the_chart_has_bars_for_what_is_held_and_a_log_scale(ask):
    chart = ask("fineness", retained={"50": 10, "70": 30, "pan": 0})["charts"][0]
    assert {line["label"]: line["shape"] for line in chart["series"]} == {"held": "bars", "passing": "line"}
    assert (chart["x"]["scale"], chart["y"]["scale"]) == ("log", "linear")


def test_a_gap_at_an_unnamed_sieve_may_not_be_real(ask):
    assert "The gap at No. 70 may not be real" in remarks(ask("fineness", retained={"50": 50, "100": 50, "pan": 0}))
    empty = ask("fineness", retained={"50": 50, "100": 50, "pan": 0}, unnamed_sieves="empty")
    assert "less than a tenth on No. 70" in remarks(empty)


def test_a_narrow_range_gets_a_short_remark(ask):
    """Below No. 140 the 0.2 g of the pan may count 140, just through it, to 300: 0.2 × (300 − 140) / 98.6 = 0.32."""
    answer = ask("fineness", retained="50: 21.4; 70: 42; 100: 30; 140: 5; pan: 0.2")
    assert "The missing sieves change the number by at most 0.3." in remarks(answer)
    assert "all give these readings" not in remarks(answer)


def test_a_size_is_never_rounded_to_zero(ask):
    """All in the pan: 13 600 / 300 = 45.3 µm, and up to 13 600 / 3 where nothing else is known: to tens."""
    answer = ask("fineness", retained={"pan": 100})
    assert "about 50 µm" in answer["headline"]
    assert "the range would then be less than 1 wide" in remarks(answer)
