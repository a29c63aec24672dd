"""What stands beside the sum of a book."""

import pytest

from sandmix.book import logged_readings

MEASURED = {"kind": "measured", "at": "2026-05-02"}


def numbered(*events):
    return [{"id": f"e{at}"} | event for at, event in enumerate(events, start=1)]


def test_a_reading_is_kept_with_its_moment_its_event_and_its_doubt():
    """Compactability is ± 5 at home; what stands beside it goes before that."""
    [plain] = logged_readings.readings(numbered({**MEASURED, "compactability_read_pct": "45 %"}))[
        "compactability_read_pct"
    ]
    assert (plain.value, plain.half_width, plain.event, plain.at, plain.band) == (45, 5, "e1", "2026-05-02", (40, 50))
    [own] = logged_readings.readings(numbered({**MEASURED, "compactability_read_pct": "45 ± 2 %"}))[
        "compactability_read_pct"
    ]
    assert own.half_width == 2


def test_the_last_is_the_one_of_the_latest_moment():
    events = numbered({**MEASURED, "at": "2026-05-09", "gfn": 62}, {**MEASURED, "gfn": 60})
    assert logged_readings.figures(logged_readings.readings(events)) == {"gfn": (62, (62, 62))}


def test_what_was_undone_is_not_kept_and_what_was_corrected_is_as_corrected():
    events = numbered(
        {**MEASURED, "gfn": 62},
        {**MEASURED, "gfn": 64, "permeability": 100},
        {"kind": "undone", "at": "2026-05-03", "of": "e1"},
        {"kind": "corrected", "at": "2026-05-03", "of": "e2", "gfn": 66, "permeability": ""},
        {"kind": "corrected", "at": "2026-05-03", "of": "e9", "gfn": 1},
    )
    found = logged_readings.readings(events)
    assert [reading.value for reading in found["gfn"]] == [66]
    assert "permeability" not in found


@pytest.mark.parametrize("value", [None, "", "much", {"a": []}, [1], 10**400, -5])
def test_what_is_no_figure_is_passed_over(value):
    assert logged_readings.readings(numbered({**MEASURED, "gfn": value})) == {}


def test_a_word_counts_in_its_own_kind_alone():
    assert logged_readings.readings(numbered({**MEASURED, "rammed_density_kg_l": 1.6})) == {}


def test_own_figures_are_the_weighted_mean():
    """1.60 ± 0.03 and 1.63 ± 0.06: (1.60 · 4 + 1.63)/5 = 1.606, ± 0.03 · √(4/5)."""
    events = numbered(
        {"kind": "calibrated", "at": "2026-05-02", "rammed_density_kg_l": 1.60},
        {"kind": "calibrated", "at": "2026-05-03", "rammed_density_kg_l": "1.63 ± 0.06"},
    )
    value, (low, high) = logged_readings.figures(logged_readings.readings(events))["rammed_density_kg_l"]
    assert value == pytest.approx(1.606)
    assert (high - low) / 2 == pytest.approx(0.03 * 0.8**0.5)


def test_a_tin_against_its_own_history():
    """43 to 47: mean 45, spread √2.5 = 1.5811, t of four degrees 2.776: 2.776 · 1.5811 · √1.2 = 4.808."""
    reads = [43, 44, 45, 46, 47]
    history = told(*reads, 49)
    assert (history.last, history.count, history.mean) == (49, 5, 45)
    assert history.within == pytest.approx(4.808, abs=5e-4)
    assert history.is_ordinary
    assert not told(*reads, 50).is_ordinary


def test_readings_that_are_all_alike_leave_three_points():
    assert told(45, 45, 45, 48).is_ordinary
    assert not told(45, 45, 45, 41.9).is_ordinary


@pytest.mark.parametrize("reads", [(), (45,), (44, 45, 46)])
def test_below_three_earlier_readings_nothing_is_out_of_the_ordinary(reads):
    assert told(*reads) is None


def told(*reads):
    return logged_readings.compactability(
        logged_readings.readings(numbered(*({**MEASURED, "compactability_read_pct": read} for read in reads)))
    )
