"""The job *season*: by hand arithmetic, its states, and what it refuses."""

import pytest

HEAP = {"heap_kg": 100, "target_moisture_pct_wet": 4, "clay_pct_dry": 10, "clay_burnt_share": 0.1, "lost_share": 0}
SURE = HEAP | {"clay_activity_pct": 100, "clay_moisture_pct_wet": 0, "new_sand_share": 0.2}
BAGS = {"sand_bag_kg": 20, "sand_bag_price": 5, "clay_bag_kg": 10, "clay_bag_price": 12}


def remarks_of(answer):
    return " ".join(answer["remarks"])


def test_keep_then_the_least_by_hand(ask):
    """1 % dead fines a cast up to 2.5 %: two casts free, a sixth, then 1/3.5. Sum 1/6 + 2/7; clay 96 × 0.1 × (0.9 sum + 0.5)."""
    answer = ask("season", **SURE, casts=5, dead_fines_limit_pct_dry=2.5)
    result, whole = answer["result"], 1 / 6 + 4 / 7
    assert result["keep_casts"] == 2
    assert result["then_share_pct"] == pytest.approx(100 / 3.5)
    assert result["season_clay_kg"] == pytest.approx(96 * 0.1 * (0.9 * whole + 0.5))
    assert result["season_sand_kg"] == pytest.approx(96 * whole - result["season_clay_kg"])
    assert result["season_discard_kg"] == pytest.approx(100 * whole)


def test_the_cost_of_today_by_hand(ask):
    """Of 96 kg dry a fifth: 19.2; clay 96 × 0.028 × 10 = 2.688; sand 16.512 at 0.25, clay at 1.2, 20 kg to the tip at 0.1, water 0.8 at 0.01."""
    answer = ask("season", **SURE, **BAGS, casts=5, waste_price=0.1, water_price=0.01)
    by_hand = 16.512 * 0.25 + 2.688 * 1.2 + 20 * 0.1 + 0.8 * 0.01
    assert answer["result"]["habit_cost_per_cast"] == pytest.approx(by_hand)
    rows = answer["result"]["season_ways"]
    assert [row["each_cost"] for row in rows[:4]] == sorted(row["each_cost"] for row in rows[:4])


def test_the_equal_share_by_hand(ask):
    """s + s² = 1.5 of the growth: s = (√7 − 1)/2."""
    result = ask("season", **SURE, casts=2, dead_fines_limit_pct_dry=1.5)["result"]
    assert result["equal_share_pct"] == pytest.approx(100 * (1 - (7**0.5 - 1) / 2))
    assert result["equal_replace_kg"] == pytest.approx(result["equal_share_pct"])


def test_a_season_within_the_limit_is_kept(ask):
    answer = ask("season", **SURE, casts=5, dead_fines_limit_pct_dry=8)
    assert answer["result"]["keep_casts"] == 5
    assert answer["lead"]["word"] == "keep_casts"
    assert "stay within" in answer["headline"]


def test_ways_with_the_same_figures_share_one_line_of_the_chart(ask):
    """Within the limit all ways but today's habit keep the heap; above it they differ."""
    [kept] = ask("season", **SURE, casts=5, dead_fines_limit_pct_dry=8)["charts"]
    assert len(kept["series"]) == 2
    assert "share one line" in kept["sentence"]
    [other] = ask("season", **SURE, casts=5, dead_fines_limit_pct_dry=2.5)["charts"]
    assert len(other["series"]) == 4
    assert "share one line" not in other["sentence"]


def test_a_heap_above_its_limit_is_renewed_first(ask):
    """8 % down to 1 %: seven eighths."""
    answer = ask("season", **SURE, casts=2, dead_fines_pct_dry=8, dead_fines_limit_pct_dry=3)
    assert answer["result"]["now_share_pct"] == pytest.approx(87.5)
    assert answer["state"] == {"word": "above its limit", "tone": "care"}
    assert answer["next"][-1]["job"] == "rebond" and answer["next"][-1]["foremost"]


def test_a_habit_that_passes_the_limit_needs_care(ask):
    """0.98 × 1, then 0.98 × 1.98, …: above 3 % after the fourth cast and all that follow."""
    answer = ask("season", **SURE | {"new_sand_share": 0.02}, casts=10, dead_fines_limit_pct_dry=3)
    assert answer["state"]["tone"] == "care"
    assert answer["result"]["habit_casts_until_limit"] == 4
    assert "above the limit after 7 of 10 casts" in answer["ways_out"][-1]


def test_a_single_cast_is_no_plural(ask):
    """0.98 × 8 and more is above 3 % after the one cast."""
    given = SURE | {"new_sand_share": 0.02, "dead_fines_pct_dry": 8}
    answer = ask("season", **given, casts=1, dead_fines_limit_pct_dry=3)
    assert any("is above the limit after 1 of 1 cast." in remark for remark in answer["remarks"])


def test_a_dear_tip_makes_it_cheaper_to_dilute(ask):
    answer = ask("season", **SURE, **BAGS, casts=10, dead_fines_limit_pct_dry=3, waste_price=3)
    assert answer["result"]["season_ways"][0]["way"] == "dilute in one go"
    assert "to a heap of 333 kg" in remarks_of(answer)


def test_without_prices_the_cost_is_left_out_and_the_shares_are_the_same(ask):
    bare, priced = (ask("season", **SURE, **bags, casts=5, dead_fines_limit_pct_dry=2.5) for bags in ({}, BAGS))
    assert "keep_cost_per_cast" not in bare["result"]
    assert bare["result"]["then_share_pct"] == priced["result"]["then_share_pct"]
    assert bare["result"]["season_sand_kg"] == priced["result"]["season_sand_kg"]


def test_a_clay_that_is_mostly_idle_is_out_of_reach(ask):
    """10 % live with as much idle: 10 % dead fines in new sand, limit 6 %."""
    answer = ask("season", **HEAP, clay="clay_granules", clay_activity_pct=50)
    assert answer["state"] == {"word": "out of reach", "tone": "care"}
    assert answer["result"] == {}


def test_winter_is_spoken_of_without_a_figure_that_nobody_published(ask):
    answer = ask("season", **SURE, casts=5)
    assert "not published" in remarks_of(answer)
    assert any("After frost" in row["text"] for row in answer["todo"])


REFUSED = [
    ({"casts": 2.5}, "casts"),
    ({"clay_pct_dry": 60, "dead_fines_pct_dry": 60}, "dead_fines_pct_dry"),
    ({"lost_share": 0.3, "new_sand_share": 0.1}, "lost_share"),
    ({"clay_activity_pct": 5}, "clay_pct_dry"),
    ({"heap_kg": None}, "heap_kg"),
    ({"clay_burnt_share": None}, "clay_burnt_share"),
]


@pytest.mark.parametrize(("inputs", "word"), REFUSED)
def test_what_cannot_be_is_refused_in_words(ask, inputs, word):
    assert word in [problem["word"] for problem in ask("season", **HEAP | inputs)["problems"]]


@pytest.mark.parametrize("inputs", [
    {"clay_burnt_share": 0}, {"clay_burnt_share": 1}, {"clay_pct_dry": 0}, {"new_sand_share": 0}, {"new_sand_share": 1, "lost_share": 1},
    {"casts": 1}, {"casts": 1000}, {"dead_fines_limit_pct_dry": 0}, {"dead_fines_pct_dry": 50}, {"burnt_kept_share": 0},
])  # fmt: skip
def test_the_ends_of_what_is_allowed_have_an_answer(ask, inputs):
    assert ask("season", **HEAP | inputs)["ok"]


BOOK = [
    {"kind": "mixed", "at": "2026-05-01", "make_kg": "40 kg", "clay_pct_dry": "8 %", "moisture_pct_wet": "3.5 %"},
    {"kind": "poured", "at": "2026-05-02", "metal": "aluminium", "metal_kg": "2 kg", "clay_burnt_kg": "0.1 kg"},
]


def test_a_book_gives_the_same_heap_and_share_burnt_as_to_look_ahead(ask):
    """Where nothing is replaced, *forecast* gains b c of dead clay at a cast: the b and c that the working multiplies here."""
    ahead = ask("forecast", book=BOOK, casts=1, new_sand_share=0, burnt_kept_share=1, dead_clay_pct_dry=0)["result"]
    answer = ask("season", book=BOOK, casts=5, lost_share=0, burnt_kept_share=1)
    burnt, clay = (float(part.strip()) for part in answer["working"][0].removeprefix("a cast brings ").split("×")[:2])
    assert clay == pytest.approx(ahead["clay_pct_dry"][0], rel=1e-5)
    assert burnt * clay == pytest.approx(ahead["dead_clay_pct_dry"][0], rel=1e-5)
    typed = ask("season", book=BOOK, casts=5, clay_pct_dry=6, lost_share=0)
    assert "× 6 ×" in typed["working"][0]
    assert ask("season", book=BOOK[:1], clay_burnt_share=0.02)["ok"]


def test_a_book_without_sand_or_without_a_cast_is_refused(ask):
    assert [problem["word"] for problem in ask("season", book=[])["problems"]] == ["book"]
    assert [problem["word"] for problem in ask("season", book=BOOK[:1])["problems"]] == ["clay_burnt_share"]


def test_granules_of_unknown_live_share_are_remarked(ask):
    assert "not known" in remarks_of(ask("season", **HEAP | {"clay_pct_dry": 5}, clay="clay_granules", casts=3))


def test_a_season_that_needs_nothing_bought_leads_to_the_heap(ask):
    answer = ask("season", **SURE | {"clay_burnt_share": 0, "new_sand_share": 0}, casts=3)
    assert [step["job"] for step in answer["next"]] == ["rebond"]


def test_a_book_that_was_only_begun_takes_nothing_from_a_form_that_is_filled_in(ask):
    """A person starts a book and then types the figures; without one of them, the book must have sand."""
    typed = {"heap_kg": 45, "clay_pct_dry": 7.5, "clay_burnt_share": 0.03}
    assert ask("season", book=[], **typed)["result"] == ask("season", **typed)["result"]
    refused = ask("season", book=[], **{word: value for word, value in typed.items() if word != "clay_pct_dry"})
    assert [problem["word"] for problem in refused["problems"]] == ["book"]
