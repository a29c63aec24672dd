"""Readings that a book logs without an effect on the heap."""

import pytest

from sandmix.book import logged_readings

MEASURED = {"kind": "measured", "at": "2026-05-02"}


def numbered(*events):
    return [{"id": f"e{at}"} | event for at, event in enumerate(events, start=1)]


def test_a_reading_is_logged_with_its_time_its_event_and_its_half_width():
    """Compactability is ± 5 at home, unless another ± is given."""
    [plain] = logged_readings.readings(numbered({**MEASURED, "compactability_read_pct": "45 %"}))[
        "compactability_read_pct"
    ]
    assert (plain.value, plain.half_width, plain.event, plain.at, plain.band) == (45, 5, "e1", "2026-05-02", (40, 50))
    [own] = logged_readings.readings(numbered({**MEASURED, "compactability_read_pct": "45 ± 2 %"}))[
        "compactability_read_pct"
    ]
    assert own.half_width == 2


def test_the_last_reading_is_the_one_with_the_latest_time():
    events = numbered({**MEASURED, "at": "2026-05-09", "gfn": 62}, {**MEASURED, "gfn": 60})
    assert logged_readings.figures(logged_readings.readings(events)) == {"gfn": (62, (62, 62))}


def test_an_undone_reading_is_dropped_and_a_corrected_one_is_replaced():
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
def test_a_value_that_is_not_a_figure_is_skipped(value):
    assert logged_readings.readings(numbered({**MEASURED, "gfn": value})) == {}


def test_a_word_counts_only_in_its_own_kind_of_event():
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


def test_a_compactability_is_compared_with_the_earlier_ones():
    """43 to 47: mean 45, spread √2.5 = 1.5811, t of four degrees 2.776: 2.776 · 1.5811 · √1.2 = 4.808."""
    reads = [43, 44, 45, 46, 47]
    history = history_of(*reads, 49)
    assert (history.last, history.count, history.mean) == (49, 5, 45)
    assert history.within == pytest.approx(4.808, abs=5e-4)
    assert history.is_usual
    assert not history_of(*reads, 50).is_usual


def test_equal_readings_allow_three_points():
    assert history_of(45, 45, 45, 48).is_usual
    assert not history_of(45, 45, 45, 41.9).is_usual


@pytest.mark.parametrize("reads", [(), (45,), (44, 45, 46)])
def test_with_fewer_than_three_earlier_readings_nothing_is_unusual(reads):
    assert history_of(*reads) is None


def history_of(*reads):
    return logged_readings.compactability(
        logged_readings.readings(numbered(*({**MEASURED, "compactability_read_pct": read} for read in reads)))
    )


def test_a_tin_counts_by_its_latest_figures():
    events = numbered(
        {"kind": "calibrated", "at": "2026-05-02", "rammer_kg": 2, "rammer_fall_mm": 300, "tin_diameter_mm": 73},
        {"kind": "calibrated", "at": "2026-05-03", "rammer_fall_mm": 333},
    )
    figures = logged_readings.figures(logged_readings.readings(events))
    assert figures["rammer_fall_mm"][0] == 333
    assert figures["rammer_kg"][0] == 2
