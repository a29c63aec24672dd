"""The tin tests of a book: the moisture of the same handful, and the water between two of them."""

import pytest

from sandmix.book import book, standing
from sandmix.lessons import tin_past

START = {"kind": "mixed", "at": "2026-05-01", "make_kg": 40, "clay_pct_dry": 8, "moisture_pct_wet": 3.5}


def tins_in(*events):
    opened = book.read([START, *events]).events
    return tin_past.tin_tests(opened, standing.entries(opened))


def tin(hour, read, **others):
    return {"kind": "measured", "at": f"2026-05-02T{hour:02}:00Z", "compactability_read_pct": read, **others}


def test_a_tin_test_takes_the_moisture_of_its_own_entry():
    """485 of 500 g is 3 %; each weighing ± 0.566 g of rounding, 0.16 points together, and 0.3 between handfuls: 0.34."""
    (dried,) = tins_in(tin(9, 40, sample_wet_g=500, sample_dry_g=485))
    assert dried.moisture_pct == pytest.approx(3)
    assert dried.moisture_half == pytest.approx(0.34, abs=0.005)
    assert (dried.compactability_pct, dried.half_width) == (40, 5)
    assert tins_in(tin(9, "40 ± 2 %"))[0].half_width == 2
    assert tins_in(tin(9, 40))[0].moisture_pct is None


def test_water_between_two_tin_tests_is_counted_in_points():
    """38.6 kg dry, 40 kg and 0.2 kg of water: 100 × 0.2 × 38.6/(40 × 40.2) = 0.48010."""
    first, second = tins_in(tin(9, 36, water_added_kg=0.2), tin(11, 46))
    assert not first.follows
    assert second.follows
    assert second.water_pct == pytest.approx(0.4801, abs=1e-4)
    sprayed = {"kind": "tempered", "at": "2026-05-02T10:00Z", "water_kg": 0.2}
    assert tins_in(tin(9, 36), sprayed, tin(11, 46))[1].water_pct == pytest.approx(0.4801, abs=1e-4)
    none = tins_in(tin(9, 36), tin(11, 36))[1]
    assert none.follows and none.water_pct == 0


@pytest.mark.parametrize(
    ("between", "follows"),
    [
        ({"kind": "tempered", "moisture_pct_wet": 4.5}, True),
        ({"kind": "discarded", "discard_kg": 2}, True),
        ({"kind": "dried", "water_kg": 0.1}, False),
        ({"kind": "poured", "metal_kg": 1}, False),
        ({"kind": "added", "sand_kg": 2}, False),
    ],
)
def test_what_comes_between_decides_whether_a_test_follows_the_one_before(between, follows):
    second = tins_in(tin(9, 36), {"at": "2026-05-02T10:00Z", **between}, tin(11, 46))[1]
    assert second.follows is follows
    assert second.water_pct == (0 if between["kind"] == "discarded" else None)
