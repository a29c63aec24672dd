"""The season of a heap in one picture: steps at their dates, bands that widen, tests with their ±, and casts."""

import itertools
import math

import pytest

from sandmix.language.timestamps import DAY_S, seconds_of

NOW = "2026-05-20T12:00Z"
MIXED = {"kind": "mixed", "at": "2026-05-02", "make_kg": 30, "clay_pct_dry": 7, "moisture_pct_wet": 3.5}
RAIN = {"kind": "rained_on", "at": "2026-05-06", "water_kg": 1}
CAST = {"kind": "poured", "at": "2026-05-09", "metal": "aluminium", "metal_kg": 1.2, "pattern": "coat hooks"}


def read(day, **words):
    return {"kind": "measured", "at": f"2026-05-{day:02}", **words}


@pytest.fixture
def season(ask):
    """The picture of a book of these events."""

    def season(*events, now=NOW):
        answer = ask("heap", book=list(events), now=now)
        assert answer["ok"], answer
        [chart] = answer["charts"] or [None]
        return chart

    return season


def panels(chart):
    """Mass, water, live clay and dead fines."""
    return chart, *chart["below"]


def series(panel, label):
    return next((line for line in panel["series"] if line["label"] == label), None)


def day(date):
    return seconds_of(f"2026-05-{date:02}")


def values(line, at):
    return [value for x, value in line["points"] if x == at]


def test_the_axis_is_time_and_each_panel_is_a_figure(season):
    chart = season(MIXED, RAIN)
    assert chart["x"]["scale"] == "time"
    assert [panel["y"]["unit"] for panel in panels(chart)] == ["kg", "%", "%", "%"]
    ends = {(line["points"][0][0], line["points"][-1][0]) for panel in panels(chart) for line in panel["band"]}
    assert ends == {(day(2), seconds_of(NOW))}


def test_the_mass_steps_up_where_water_came_in(season):
    """30 kg, and 31 kg after one of rain."""
    mass = series(season(MIXED, RAIN), "the book")
    assert mass["shape"] == "steps"
    assert values(mass, day(2)) == [30]
    assert values(mass, day(6)) == [30, 31]
    assert mass["points"][-1] == [seconds_of(NOW), 31]
    assert [text for text in mass["texts"] if text] == ["New sand was mixed in", "The sand got wet"]


def test_the_band_of_the_water_widens_with_the_days_and_narrows_at_a_test(season):
    """Under a lid ± √(±₀² + 0.3² d) points (heap.md); a test on the 14th is combined with the book."""
    chart = season(MIXED, read(14, moisture_pct_wet="3.4 ± 0.2 %"))
    low, high = chart["below"][0]["band"]
    halves = [(x, (most - least) / 2) for (x, least), (_, most) in zip(low["points"], high["points"], strict=True)]
    first = halves[0][1]
    for at, half in halves:
        if at < day(14):
            assert half == pytest.approx(math.sqrt(first**2 + 0.09 * (at - day(2)) / DAY_S), rel=2e-3)
    before, after = (half for at, half in halves if at == day(14))
    assert after < 0.2 < 1 < before
    assert len([at for at, _ in halves if day(2) < at < day(14)]) == 2


def test_a_test_is_a_point_with_its_ends(season):
    chart = season(MIXED, read(14, heap_kg="29 ± 0.5 kg", moisture_pct_wet="3 ± 0.2 %", dead_fines_pct_dry="0.3 ± 1 %"))
    mass, water, clay, fines = panels(chart)
    assert series(mass, "tests")["points"] == [[day(14), 29]]
    assert series(mass, "tests")["ends"] == [[28.5, 29.5]]
    assert series(water, "tests")["ends"] == [[pytest.approx(2.8), pytest.approx(3.2)]]
    assert series(clay, "tests") is None
    assert series(fines, "tests")["ends"] == [[0, 1.3]]


def test_a_dried_sample_is_a_test_of_the_water(season):
    """500 g that dry to 485 g held 3 % of the wet mass."""
    water = season(MIXED, read(14, sample_wet_g=500, sample_dry_g=485))["below"][0]
    assert series(water, "tests")["points"] == [[day(14), pytest.approx(3)]]


def test_a_cast_is_a_mark_with_its_pattern(season):
    marks = series(season(MIXED, CAST, RAIN), "casts")
    assert (marks["shape"], [x for x, _ in marks["points"]]) == ("marks", [day(9)])
    assert marks["texts"] == ["A cast was poured: coat hooks"]


def test_what_was_undone_leaves_no_step(season):
    undone = {"kind": "undone", "at": "2026-05-18", "of": "e2"}
    chart, without = season(MIXED, CAST, RAIN, undone), season(MIXED, RAIN)
    assert [panel["series"] for panel in panels(chart)] == [panel["series"] for panel in panels(without)]


def test_a_correction_counts_from_the_time_of_what_it_corrects(season):
    corrected = {"kind": "corrected", "at": "2026-05-18", "of": "e2", "water_kg": 2}
    mass = series(season(MIXED, RAIN, corrected), "the book")
    assert values(mass, day(6)) == [30, 32]
    assert day(18) not in [x for x, _ in mass["points"]]


def test_an_entry_that_was_written_late_stands_at_its_own_time(season):
    mass = series(season(MIXED, {**RAIN, "at": "2026-05-12"}, RAIN), "the book")
    assert values(mass, day(6)) == [30, 31]
    assert values(mass, day(12)) == [31, 32]


def test_the_last_point_is_the_heap_of_the_answer(ask):
    answer = ask("heap", book=[MIXED, CAST, RAIN, read(14, moisture_pct_wet=3), {**CAST, "at": "2026-05-16"}], now=NOW)
    words = ("heap_kg", "moisture_pct_wet", "clay_pct_dry", "dead_fines_pct_dry")
    for word, panel in zip(words, panels(answer["charts"][0]), strict=True):
        assert panel["series"][0]["points"][-1][1] == pytest.approx(answer["result"][word], rel=1e-3)
        for end, line in enumerate(panel["band"]):
            assert line["points"][-1][1] == pytest.approx(answer["doubt"][word][end], rel=1e-3, abs=1e-6)


def test_the_limit_of_dead_fines_is_drawn_only_near_it(season):
    """6 % is the default of its word; it is drawn once the range reaches half of it."""
    assert season(MIXED, RAIN)["below"][2]["limits"] == []
    much = season({**MIXED, "dead_fines_pct_dry": 4}, RAIN)["below"][2]["limits"]
    assert [limit["at"] for limit in much] == [6]


def test_one_moment_makes_no_picture(season):
    assert season(MIXED, now=None) is None
    assert season(now=None) is None


def test_a_picture_begins_when_there_is_sand(season):
    bought = {"kind": "bought", "at": "2026-05-01", "sand_kg": 25}
    assert season(bought, MIXED, RAIN)["series"][0]["points"][0] == [day(2), 30]


def test_many_entries_make_some_fifty_steps_and_the_sentence_says_so(season):
    rain = [
        {"kind": "rained_on", "at": f"2026-05-{3 + at // 20:02}T{at % 20:02}:00Z", "water_kg": 0.01}
        for at in range(330)
    ]
    chart = season(MIXED, *rain)
    mass = series(chart, "the book")["points"]
    steps = [x for before, (x, _) in itertools.pairwise(mass) if x == before[0]]
    assert 40 <= len(steps) <= 60
    assert "Of 331 entries, every 6th makes a step." in chart["sentence"]
    assert mass[-1][1] == pytest.approx(33.3)


def test_of_many_tests_and_casts_the_last_are_drawn(season):
    casts = [{**CAST, "at": f"2026-05-03T{at // 60:02}:{at % 60:02}Z", "metal_kg": 0.01} for at in range(120)]
    tests = [
        read(4 + at // 20, at=f"2026-05-{4 + at // 20:02}T{at % 20:02}:00Z", gfn=60, moisture_pct_wet=3)
        for at in range(70)
    ]
    chart = season(MIXED, *casts, *tests)
    assert len(series(chart, "casts")["points"]) == 100
    assert len(series(chart["below"][0], "tests")["points"]) == 50
