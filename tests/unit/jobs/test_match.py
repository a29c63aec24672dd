"""The job *match*: its answers and its remarks. A sand all on No. 50 has number 40, one all on No. 100 has 70."""

import json

import pytest

COARSE, FINE = {"kg": 10, "retained": {"50": 3}}, {"kg": 10, "retained": {"100": 8}}


def remarks(answer):
    return " ".join(answer["remarks"])


def test_every_answer(ask):
    """50 from 40 and 70: a third is fine; of 6 kg, 4 and 2."""
    answer = ask("match", lots=[COARSE, FINE], target_gfn=50, make_kg=6)
    result = answer["result"]
    assert [(row["name"], row["kg"]) for row in result["take"]] == [
        ("lot 1", pytest.approx(4)),
        ("lot 2", pytest.approx(2)),
    ]
    assert [row["grain_pct"] for row in result["take"]] == pytest.approx([200 / 3, 100 / 3])
    assert result["retained"] == pytest.approx({"50": 200 / 3, "100": 100 / 3})
    assert (result["gfn"], result["gfn_off"]) == (pytest.approx(50), 0)
    assert (result["make_kg"], result["fullest_pct"]) == (pytest.approx(6), pytest.approx(200 / 3))
    assert (result["screens"], result["gaps"]) == (["50", "100"], ["70"])
    assert answer["state"] == {"word": "there", "tone": "go"}
    assert (
        answer["headline"] == "Take 4.00 kg of lot 1, 2.00 kg of lot 2: fineness number 50.0, exactly the 50 you want."
    )
    assert "less than a tenth on No. 70" in remarks(answer)
    assert "No. 50 holds the most, 66.7 %" in remarks(answer)


def test_a_lot_counts_by_its_grain(ask):
    """Half of the coarse lot is clay: 2 kg of it hold 1 kg of grain."""
    lots = [COARSE | {"clay_pct_dry": 30, "dead_fines_pct_dry": 20}, FINE]
    assert [row["kg"] for row in ask("match", lots=lots, target_gfn=55, make_kg=3)["result"]["take"]] == pytest.approx(
        [2, 1]
    )


def test_within_the_allowed_difference_the_target_is_reached(ask):
    answer = ask("match", lots=[COARSE, FINE], target_gfn=50, gfn_leeway=5)
    assert answer["result"]["gfn"] == pytest.approx(55)
    assert answer["state"]["tone"] == "go"
    assert "5.0 finer than the 50 you want" in answer["headline"]
    assert "a few points of fineness" not in remarks(answer)


def test_why_no_nearer_all_coarser(ask):
    answer = ask("match", lots=[COARSE, FINE], target_gfn=90)
    assert "all lots are coarser than 90. The finest, lot 2, has 70.0. Look for a finer sand." in remarks(answer)
    assert "Take nothing of lot 1." in remarks(answer)
    assert answer["state"] == {"word": "no nearer", "tone": "care"}
    assert "20.0 coarser than the 90 you want" in answer["lead"]["then"]


def test_why_no_nearer_all_finer(ask):
    answer = ask("match", lots=[COARSE, FINE], target_gfn=30)
    assert "all lots are finer than 30. The coarsest, lot 1, has 40.0. Look for a coarser sand." in remarks(answer)


def test_why_no_nearer_not_enough(ask):
    answer = ask("match", lots=[COARSE, FINE | {"kg": 1}], target_gfn=60, make_kg=3)
    assert "there is not enough of lot 2." in remarks(answer)


def test_one_lot_is_not_a_blend(ask):
    assert "One lot alone is not a blend" in remarks(ask("match", lots=[COARSE], target_gfn=40))


def test_a_lot_sieved_with_other_openings_is_a_best_guess(ask):
    """From 0.3 down to 0.25 mm: all of it on No. 70, which counts 50."""
    answer = ask("match", lots=[{"kg": 1, "retained": {"50": 0, "0.25 mm": 3}}], target_gfn=50)
    assert answer["result"]["gfn"] == pytest.approx(50)
    assert "best guess between the openings" in remarks(answer)


def test_the_next_jobs_get_the_grading_and_the_lots(ask):
    links = {
        link["job"]: link["inputs"] for link in ask("match", lots=[COARSE, FINE], target_gfn=50, make_kg=6)["next"]
    }
    assert ask("fineness", **links["fineness"])["result"]["gfn"] == pytest.approx(50, abs=0.01)
    assert [lot["kg"] for lot in json.loads(links["blend"]["lots"])] == [4, 2]
    assert ask("blend", **links["blend"])["result"]["gfn"] == pytest.approx(50, abs=0.01)


def test_a_pinch_of_a_lot_goes_on_as_the_least_that_the_next_job_accepts(ask):
    """40 + 30 x = 40.01: 1/3000 of the fine one, 3 g to 10 kg, and the next form accepts 10 g or more."""
    links = {link["job"]: link["inputs"] for link in ask("match", lots=[COARSE, FINE], target_gfn=40.01)["next"]}
    assert [lot["kg"] for lot in json.loads(links["blend"]["lots"])] == [10, 0.01]
    assert ask("blend", **links["blend"])["ok"]


def test_all_grain_in_the_pan_has_no_chart(ask):
    answer = ask("match", lots=[{"kg": 1, "retained": {"pan": 1}}], target_gfn=50)
    assert answer["charts"] == []
    assert answer["result"]["screens"] == []


def test_the_blend_is_drawn_as_bars(ask):
    chart = ask("match", lots=[COARSE, FINE], target_gfn=50)["charts"][0]
    assert chart["series"][0]["shape"] == "bars"
    assert chart["sentence"].endswith("Screens of the blend: No. 50, No. 100.")


@pytest.mark.parametrize(
    ("change", "word"),
    [
        ({"lots": [COARSE, {"kg": 1}]}, "lots"),
        ({"lots": [COARSE, FINE | {"clay_pct_dry": 100}]}, "lots"),
        ({"make_kg": 21}, "make_kg"),
    ],
)
def test_impossible_blends_are_refused(ask, change, word):
    answer = ask("match", **({"lots": [COARSE, FINE], "target_gfn": 50} | change))
    assert [problem["word"] for problem in answer["problems"]] == [word]
