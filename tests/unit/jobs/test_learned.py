"""What a person's own readings teach, as an answer."""

import pytest

MIXED = {"kind": "mixed", "at": "2027-03-01", "make_kg": 40, "clay_pct_dry": 7.5, "moisture_pct_wet": "3.5 %"}
RAMMED = {"kind": "calibrated", "at": "2027-03-02", "rammed_density_kg_l": "1.65 ± 0.03"}
CAST = {"kind": "poured", "at": "2027-03-03", "metal_kg": 1, "flask_sand_kg": "20 kg", "sand_lost_kg": "0.6 kg"}


@pytest.fixture
def learned(ask):
    def learned(*events):
        answer = ask("learned", book=list(events))
        assert answer["ok"], answer
        return answer

    return learned


def card(answer, title):
    return next(each for each in answer["cards"] if each["title"] == title)


def point(one, name):
    return next(side["texts"] for side in one["points"] if side["name"].startswith(name))


def test_a_book_without_readings_has_general_figures_and_says_what_teaches_them(learned):
    answer = learned(MIXED)
    assert (
        answer["headline"] == "Your book has no reading yet that teaches one of these figures: all of them are general."
    )
    assert answer["state"] == {"word": "general", "tone": "plain"}
    assert answer["result"]["own_readings"] == 0
    assert [one["share_pct"] for one in answer["cards"]] == [0] * 7
    assert answer["records"] == []
    assert len(answer["todo"]) == 2


def test_an_empty_book_is_answered(learned):
    assert learned()["state"]["word"] == "general"


def test_a_card_has_the_figure_at_first_and_now_with_what_is_still_general(learned):
    """See test_learned of the lessons: 1.641743, 91.74 % of it own."""
    one = card(learned(MIXED, RAMMED), "Rammed density")
    assert one["share_pct"] == pytest.approx(91.74, abs=0.01)
    assert one["text"] == "1.64 kg/L, 92 % your own"
    assert point(one, "At first")[0].startswith("1.55 kg/L, likely range 1.45 to 1.65 kg/L: ")
    assert point(one, "Now: your own, 1 reading") == [
        "1.64 kg/L, likely range 1.61 to 1.67 kg/L.",
        "8 % of it is still the general figure.",
    ]


def test_the_figures_come_with_their_likely_range(learned):
    answer = learned(MIXED, RAMMED)
    assert answer["doubt"]["rammed_density_kg_l"] == pytest.approx([1.613008, 1.670478], abs=1e-6)
    assert answer["result"]["own_readings"] == 1


def test_the_headline_names_what_is_mostly_your_own(learned):
    answer = learned(MIXED, RAMMED, CAST)
    assert answer["headline"] == "Mostly your own by now: rammed density and sand lost at a cast."
    assert answer["state"] == {"word": "learning", "tone": "go"}
    weak = {"kind": "calibrated", "at": "2027-03-02", "rammed_density_kg_l": "1.6 ± 0.5"}
    assert learned(MIXED, weak)["headline"].startswith("Your readings have begun to teach")


def test_each_figure_with_readings_can_be_set_back_in_one_entry_that_the_book_takes(learned, ask):
    answer = learned(MIXED, RAMMED, CAST)
    assert [record["words"]["learned_figure"] for record in answer["records"]] == [
        "rammed_density_kg_l",
        "loss_a_cast_pct",
    ]
    for record in answer["records"]:
        assert record["words"]["note"].startswith("It was ")
        event = {"kind": record["kind"], "at": "2027-03-10", **record["words"]}
        assert ask("record", book=[MIXED, RAMMED, CAST], event=event)["ok"]
    back = {"kind": "forgotten", "at": "2027-03-10", "learned_figure": "rammed_density_kg_l"}
    assert learned(MIXED, RAMMED, CAST, back)["result"]["rammed_density_kg_l"] == pytest.approx(1.55)


def test_what_would_teach_most_is_what_to_do(learned):
    texts = [row["text"] for row in learned(MIXED, RAMMED)["todo"]]
    assert len(texts) == 2
    assert not any("Ram a flask" in text for text in texts)


def test_a_figure_beyond_what_is_usual_has_a_remark(learned):
    far = {"kind": "calibrated", "at": "2027-03-02", "rammed_density_kg_l": "1.90 ± 0.02"}
    assert any("outside what is usual, 1.45 to 1.65 kg/L" in remark for remark in learned(MIXED, far)["remarks"])
    assert not any(
        "outside what is usual" in remark
        for remark in learned(MIXED, {**RAMMED, "rammed_density_kg_l": "1.6"})["remarks"]
    )


def test_the_next_flask_begins_with_the_learned_density(learned, ask):
    link = next(step for step in learned(MIXED, RAMMED)["next"] if step["job"] == "flask")
    assert link["inputs"] == {"rammed_density_kg_l": "1.642 ± 0.029 kg/L"}
    sizes = {"flask_length_mm": 300, "flask_width_mm": 250, "drag_depth_mm": 90, "cope_depth_mm": 90}
    assert ask("flask", **sizes, **link["inputs"])["ok"]


def test_without_a_book_it_asks_for_one(ask):
    answer = ask("learned")
    assert not answer["ok"]
    assert answer["problems"][0]["word"] == "book"


@pytest.mark.parametrize("density", ["0.81 ± 0.5", "2.39 ± 0.5", "1.6 ± 0"])
def test_odd_readings_give_finite_figures_within_their_bounds(learned, density):
    answer = learned(MIXED, {**RAMMED, "rammed_density_kg_l": density})
    low, high = answer["doubt"]["rammed_density_kg_l"]
    assert 0.8 <= low <= answer["result"]["rammed_density_kg_l"] <= high <= 2.4


def test_the_working_has_a_true_minus(learned):
    fewer = {"kind": "calibrated", "at": "2027-03-04", "dead_fines_a_cast_pct_dry": "-2 ± 0.1"}
    working = " ".join(learned(MIXED, fewer)["working"])
    assert "−" in working
    assert "-" not in working
