"""The job *forecast*: by hand arithmetic, and its remarks."""

import pytest

HABIT = {"clay_pct_dry": 10, "clay_burnt_share": 0.1, "new_sand_share": 0.2, "burnt_kept_share": 0.5}


def remarks_of(answer):
    return " ".join(answer["remarks"])


def test_all_its_answers(ask):
    """0.8 × 0.5 × 0.1 × 10 = 0.4; 0.8 × 0.9 = 0.72; in the long run 0.4 / 0.2 = 2; make-up 10 × 0.28."""
    answer = ask("forecast", **HABIT, casts=2)
    assert answer["result"] == {
        "clay_pct_dry": [10, 10],
        "dead_clay_pct_dry": pytest.approx([0.4, 0.72]),
        "steady_clay_pct_dry": 10,
        "steady_dead_clay_pct_dry": pytest.approx(2),
        "make_up_pct": pytest.approx(2.8),
    }
    assert answer["state"]["tone"] == "go"
    assert answer["lead"]["word"] == "steady_dead_clay_pct_dry"


def test_a_single_cast_is_no_plural(ask):
    shown = {row["word"]: row["text"] for row in ask("forecast", **HABIT, casts=1)["shown"]}
    assert shown["clay_pct_dry"].endswith("over 1 cast")


def test_a_list_is_shown_by_its_ends(ask):
    shown = {row["word"]: row["text"] for row in ask("forecast", **HABIT, casts=2, make_up="no")["shown"]}
    assert shown["clay_pct_dry"] == "7.20 to 5.18 % over 2 casts"
    held = {row["word"]: row for row in ask("forecast", **HABIT, casts=2)["shown"]}
    assert held["clay_pct_dry"]["text"] == "10.00 % over 2 casts"
    assert held["clay_pct_dry"]["range"] == ""


def test_a_limit_within_the_casts_needs_care(ask):
    answer = ask("forecast", **HABIT, casts=3, dead_clay_limit_pct_dry=0.9)
    assert answer["result"]["casts_until_limit"] == 3
    assert answer["state"] == {"word": "at its limit", "tone": "care"}
    assert answer["lead"]["text"] == "3"


def test_a_remark_says_what_would_keep_the_limit(ask):
    """0.5 × 0.1 × 10 = 0.5: 0.5 / 1.5 = 33 % replaced; or clay of 1 × 0.2 / (0.8 × 0.05) = 5 %. Make-up 10 × (0.1 + 0.3333 × 0.9) = 4."""
    remarks = remarks_of(ask("forecast", **HABIT, dead_clay_limit_pct_dry=1))
    assert "Replacing 33 % of the heap" in remarks and "4.000 kg" in remarks
    assert "at most 5 %" in remarks


def test_within_its_limit_nothing_is_advised(ask):
    assert "Replacing" not in remarks_of(ask("forecast", **HABIT, dead_clay_limit_pct_dry=2.5))


def test_a_remark_gives_the_unfavourable_end_of_the_ranges(ask):
    """At 0.1 × 1.25 burnt, 0.18 replaced, 0.6 kept, 10.7 clay: 0.82 × 0.6 × 0.125 × 10.7 = 0.658 after one cast."""
    remarks = remarks_of(ask("forecast", **HABIT, dead_clay_limit_pct_dry=0.65))
    assert "reached after 1 cast." in remarks


def test_without_make_up_a_remark_gives_the_clay_to_add(ask):
    answer = ask("forecast", **HABIT, make_up="no")
    assert "make_up_pct" not in answer["result"]
    assert "add 2.800 kg of live clay per 100 kg" in remarks_of(answer)
    assert answer["headline"].startswith("Without make-up")


def test_casts_that_change_nothing_have_no_such_remark(ask):
    answer = ask("forecast", clay_pct_dry=8, clay_burnt_share=0, new_sand_share=0, make_up="no", casts=1)
    assert answer["result"]["clay_pct_dry"] == [8]
    assert "To keep" not in remarks_of(answer)
    assert "after 1 cast (" in answer["headline"]


def test_with_nothing_replaced_dead_clay_grows_without_limit(ask):
    answer = ask("forecast", clay_pct_dry=8, clay_burnt_share=0.02, new_sand_share=0)
    assert "steady_dead_clay_pct_dry" not in answer["result"]
    assert "grows without limit" in remarks_of(answer)
    assert "The heap grows by the difference" in remarks_of(answer)
    assert "as now" not in remarks_of(answer)


def test_a_limit_that_is_never_met_without_a_long_run_leads_with_dead_clay(ask):
    """Of 8 % clay 1e-9 burns a cast: 8e-9 a cast, and 8e-3 in a million."""
    answer = ask("forecast", clay_pct_dry=8, clay_burnt_share=1e-9, new_sand_share=0)
    assert answer["lead"]["word"] == "dead_clay_pct_dry"
    assert "casts_until_limit" not in answer["result"]


def test_the_materials_of_a_season(ask):
    """100 kg at 4 %: 96 dry, 10 casts: 960. Live 2.8 %: 26.88, at 80 % live 33.6 dry, at 10 % moisture 37.333; 192 − 33.6 of sand."""
    heap = {
        "heap_kg": 100,
        "target_moisture_pct_wet": 4,
        "clay_activity_pct": 80,
        "clay_moisture_pct_wet": 10,
        "casts": 10,
    }
    bags = {"sand_bag_kg": 20, "sand_bag_price": 5, "clay_bag_kg": 10, "clay_bag_price": 12}
    answer = ask("forecast", **HABIT, **heap, **bags)
    assert answer["result"]["clay_kg"] == pytest.approx(37.3333, abs=1e-4)
    assert answer["result"]["sand_kg"] == pytest.approx(158.4)
    assert answer["result"]["cost"] == pytest.approx(158.4 / 20 * 5 + 37.33333 / 10 * 12, abs=1e-4)
    assert answer["next"][0]["inputs"] == {"sand_kg": "158.4 kg", "clay_kg": "37.33 kg"}


def test_without_make_up_a_season_needs_sand_only(ask):
    answer = ask("forecast", **HABIT, heap_kg=100, target_moisture_pct_wet=4, casts=10, make_up="no", sand_bag_kg=20, sand_bag_price=5)  # fmt: skip
    assert (answer["result"]["sand_kg"], answer["result"]["clay_kg"]) == (pytest.approx(192), 0)
    assert answer["result"]["cost"] == pytest.approx(48)


def test_without_a_heap_no_season_and_no_shopping(ask):
    answer = ask("forecast", **HABIT)
    assert not {"sand_kg", "clay_kg", "cost"} & answer["result"].keys()
    assert [(link["job"], link["inputs"]) for link in answer["next"]] == [("rebond", {"clay_pct_dry": "10 %"})]
    assert "enter sand in the heap" in remarks_of(answer)


def test_a_season_too_large_to_buy_for_offers_no_shopping(ask):
    assert [link["job"] for link in ask("forecast", **HABIT, heap_kg=5000, casts=1000)["next"]] == ["rebond"]


def test_granules_have_a_remark(ask):
    assert "not known" in remarks_of(ask("forecast", **HABIT, heap_kg=40, clay="clay_granules"))


def test_the_chart_starts_at_the_sand_now_and_ends_at_the_last_cast(ask):
    chart = ask("forecast", **HABIT, casts=120, dead_clay_pct_dry=1)["charts"][0]
    live, dead = (line["points"] for line in chart["series"])
    assert (live[0], dead[0]) == ([0, 10], [0, 1])
    assert live[-1][0] == dead[-1][0] == 120
    assert len(live) <= 62
    assert chart["limits"] == [{"axis": "y", "at": 3, "label": "limit for dead clay"}]


@pytest.mark.parametrize("make_up", ["no", False, "No"])
def test_no_can_be_written_in_several_ways(ask, make_up):
    assert ask("forecast", **HABIT, make_up=make_up)["result"]["steady_clay_pct_dry"] == 0


def test_a_share_can_be_written_in_percent(ask):
    said_so, meant = (ask("forecast", **(HABIT | {"clay_burnt_share": share})) for share in ("10 %", 0.1))
    assert said_so["result"] == meant["result"]


def test_a_share_in_percent_uses_its_own_error(ask):
    """2 / (2 ± 0): the band of the make-up is that of b alone: 10 × 0.8 × 0.01 about 2.8."""
    inputs = HABIT | {"clay_burnt_share": "10 ± 1 %", "new_sand_share": "20 ± 0 %", "clay_pct_dry": "10 ± 0"}
    assert ask("forecast", **inputs)["doubt"]["make_up_pct"] == pytest.approx([2.72, 2.88])


def test_a_book_that_was_only_begun_takes_nothing_from_a_form_that_is_filled_in(ask):
    """A person starts a book and then types the figures; without one of them, the book must have sand."""
    typed = {"clay_pct_dry": 7.5, "clay_burnt_share": 0.03}
    assert ask("forecast", book=[], **typed)["result"] == ask("forecast", **typed)["result"]
    refused = ask("forecast", book=[], **{word: value for word, value in typed.items() if word != "clay_pct_dry"})
    assert [problem["word"] for problem in refused["problems"]] == ["book"]
