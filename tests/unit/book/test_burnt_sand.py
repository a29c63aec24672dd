"""Burnt sand thrown away as crust, by hand.

The heap: 26 kg of grain, 2 of live clay, 0.5 of dead, 0.3 of other fines: 28.8 kg dry; and 1.2 of water. A cast kills 0.02 kg of the live clay, which
was in 0.02 · 28.8/2 = 0.288 kg of dry sand. Without that clay it is 0.268 kg, of grain, dead clay and other fines as 26 : 0.5 : 0.3, so 0.26, 0.005
and 0.003 kg. The rest of the heap is then 25.74, 1.98, 0.495, 0.297 and 1.2 of water: 29.712 kg.
"""

import math

import pytest

from sandmix.book import book, burnt_sand
from sandmix.book.event_effects import outcome_of
from sandmix.book.heap import BurntSand, HeapState, Outcome, fold
from sandmix.materials.delta import UNCERTAIN, Delta
from sandmix.materials.sand import PARTS

AT = "2026-05-02"
BURNT = {"grain_kg": 0.26, "live_clay_kg": 0.0, "dead_clay_kg": 0.025, "other_fines_kg": 0.003, "water_kg": 0.0}
REST = {"grain_kg": 25.74, "live_clay_kg": 1.98, "dead_clay_kg": 0.495, "other_fines_kg": 0.297, "water_kg": 1.2}
AFTER = {part: BURNT[part] + REST[part] for part in REST} | {"organics_kg": 0.0}


def heap(half_clay_kg=0.0, variances=None):
    burnt = BurntSand(sand_kg=0.288, clay_kg=0.02, variance=(half_clay_kg / 1.96) ** 2)
    whole = dict.fromkeys(UNCERTAIN, 0.0) | {"dead_clay_kg": burnt.variance} | (variances or {})
    return HeapState(total=Delta.of(AFTER, whole), burnt=burnt)


def away(state, kg):
    return outcome_of("discarded", {"discard_kg": kg, "discarded_as": "crust"}, state)


def test_a_cast_leaves_burnt_sand_that_held_clay_as_the_heap_did():
    assert burnt_sand.left_by(0.02, 0.0001, 2.0, 28.8) == BurntSand(
        sand_kg=pytest.approx(0.288), clay_kg=0.02, variance=0.0001
    )
    assert burnt_sand.left_by(0.0, 0.0, 0.0, 28.8).sand_kg == 0


def test_less_than_the_burnt_sand_takes_its_share_of_the_burnt_clay():
    """A third of it."""
    outcome = away(heap(), "0.096 ± 0 kg")
    for part, kg in BURNT.items():
        assert getattr(outcome.delta, part) == pytest.approx(-kg / 3)
    assert outcome.burnt.clay_kg == pytest.approx(-0.02 / 3)
    [line] = outcome.lines
    assert "0.096 kg" in line and "7 g of the 20 g" in line


def test_more_than_the_burnt_sand_takes_all_of_it_and_other_sand_as_it_lies():
    outcome = away(heap(), "0.5 ± 0 kg")
    share = (0.5 - 0.288) / 29.712
    for part in REST:
        assert getattr(outcome.delta, part) == pytest.approx(-BURNT[part] - share * REST[part])
    assert outcome.delta.wet_kg == pytest.approx(-0.5)
    assert "0.212 kg" in outcome.lines[1]


def test_all_of_the_heap_can_go():
    outcome = away(heap(), "30 ± 0 kg")
    assert {part: AFTER[part] + getattr(outcome.delta, part) for part in PARTS} == pytest.approx(
        dict.fromkeys(PARTS, 0.0)
    )


def test_a_little_more_than_the_book_has_is_accepted_and_much_more_is_refused():
    assert away(heap(), "31 ± 0 kg").lines[-1].startswith("1 kg more")
    with pytest.raises(Exception, match="is more than the 30 kg"):
        away(heap(), 40)


def test_without_a_cast_since_the_last_mixing_crust_counts_as_sand_as_it_lay():
    state = HeapState(total=Delta.of(AFTER))
    lying = outcome_of("discarded", {"discard_kg": "0.5 ± 0 kg"}, state)
    found = away(state, "0.5 ± 0 kg")
    assert found.delta.by_part() == pytest.approx(lying.delta.by_part())
    assert "no burnt sand" in found.lines[0]


def test_burnt_clay_is_at_most_the_dead_clay_of_the_heap():
    """A test since then measured less of it."""
    state = HeapState(total=Delta.of(AFTER | {"dead_clay_kg": 0.01}), burnt=BurntSand(sand_kg=0.288, clay_kg=0.02))
    assert away(state, "1 ± 0 kg").delta.dead_clay_kg == pytest.approx(-0.01)


def test_crust_of_a_heap_of_burnt_clay_is_burnt_clay():
    state = HeapState(total=Delta(dead_clay_kg=1.0), burnt=BurntSand(sand_kg=2.0, clay_kg=1.0))
    assert away(state, "0.4 ± 0 kg").delta.dead_clay_kg == pytest.approx(-0.4)
    assert away(state, "1 ± 0 kg").delta.dead_clay_kg == pytest.approx(-1.0)


def test_burnt_sand_that_is_certainly_gone_takes_its_uncertainty_with_it():
    """± 0.01 kg of clay are ± 0.144 kg of burnt sand: 0.5 kg take all of it in any case. Only the uncertainty of 0.212 kg as it lay stays."""
    outcome = away(heap(half_clay_kg=0.01), "0.5 ± 0 kg")
    left = outcome.delta.variances["dead_clay_kg"] + (0.01 / 1.96) ** 2
    assert left == pytest.approx(0, abs=1e-12)
    assert outcome.burnt.variance == pytest.approx(-((0.01 / 1.96) ** 2))


def test_the_uncertainty_of_the_burnt_clay_is_reported():
    """0.144 to 0.432 kg were burnt, of which 0.5 kg are all: 10 to 30 g. Of 0.1 kg it is known: 7 g."""
    assert "with 20 ± 10 g of the 20 ± 10 g of clay" in away(heap(half_clay_kg=0.01), "0.5 ± 0 kg").lines[0]
    assert "with 7 g of the 20 ± 10 g of clay" in away(heap(half_clay_kg=0.01), "0.1 ± 0 kg").lines[0]


def test_burnt_sand_that_is_certainly_not_all_gone_leaves_its_uncertainty():
    """0.1 kg of 0.288 ± 0.144: how much was taken is known, and how much is left as little as before."""
    outcome = away(heap(half_clay_kg=0.01), "0.1 ± 0 kg")
    assert outcome.delta.variances["dead_clay_kg"] == pytest.approx(0, abs=1e-12)


def test_in_between_the_half_width_is_half_of_what_may_be_left():
    """0.288 kg of 0.288 ± 0.144: nothing to 0.144 kg is left, with 0.02/0.288 of clay: 0 to 0.01 kg, ± 0.005."""
    outcome = away(heap(half_clay_kg=0.01), "0.288 ± 0 kg")
    assert outcome.delta.variances["dead_clay_kg"] + (0.01 / 1.96) ** 2 == pytest.approx((0.005 / 1.96) ** 2)


def test_the_scale_adds_its_uncertainty():
    """0.1 ± 0.02 kg of burnt sand: 0.02 · 0.025/0.288 of dead clay, and 0.02 of the dry mass."""
    outcome = away(heap(), "0.1 ± 0.02 kg")
    assert outcome.delta.variances["dead_clay_kg"] == pytest.approx((0.02 * 0.025 / 0.288 / 1.96) ** 2)
    assert outcome.delta.variances["dry_kg"] == pytest.approx((0.02 / 1.96) ** 2)
    assert outcome.delta.variances["water_kg"] == pytest.approx(0)


def test_the_rest_takes_its_share_of_the_uncertainty():
    """0.212 of 29.712 kg."""
    outcome = away(heap(variances={"live_clay_kg": 0.04}), "0.5 ± 0 kg")
    kept = 1 - 0.212 / 29.712
    assert outcome.delta.variances["live_clay_kg"] == pytest.approx(-0.04 * (1 - kept**2))


MIXED = {"kind": "mixed", "at": AT, "make_kg": 30, "clay_pct_dry": 7, "moisture_pct_wet": 3.5}
POURED = {
    "kind": "poured",
    "at": AT,
    "metal_kg": 1.2,
    "clay_burnt_kg": 0.02,
    "water_driven_kg": 0,
    "sand_lost_kg": "0 ± 0 kg",
}
CRUST_AWAY = {"kind": "discarded", "at": AT, "discard_kg": "2 ± 0 kg", "discarded_as": "crust"}
WATER = {"kind": "tempered", "at": AT, "water_kg": 0.2}
MIXINGS = [
    WATER,
    MIXED,
    {"kind": "added", "at": AT, "clay_kg": 0.1},
    {"kind": "joined", "at": AT, "joined_kg": 1, "clay_pct_dry": 5, "moisture_pct_wet": 3},
]
OTHERS = [
    {"kind": "dried", "at": AT, "water_kg": 0.1},
    {"kind": "measured", "at": AT, "gfn": 60},
    {"kind": "bought", "at": AT},
]


def written(*events):
    opened = book.read([])
    for event in events:
        opened = book.with_event(opened, event)
    return opened


def clay_there(*events):
    return fold(written(*events).events).burnt.clay_kg


def undo(of):
    return {"kind": "undone", "at": AT, "of": of}


def test_a_cast_is_recorded_with_its_burnt_sand():
    """2.0265 kg of live clay in 28.95 dry."""
    there = fold(written(MIXED, POURED).events).burnt
    assert there.clay_kg == pytest.approx(0.02)
    assert there.sand_kg == pytest.approx(0.02 * 28.95 / 2.0265)
    assert math.sqrt(there.variance) * 1.96 == pytest.approx(0.2 * 0.02)


@pytest.mark.parametrize("mixing", MIXINGS, ids=lambda event: event["kind"])
def test_adding_material_mixes_the_burnt_sand_back(mixing):
    assert clay_there(MIXED, POURED, mixing) == 0


@pytest.mark.parametrize("other", OTHERS, ids=lambda event: event["kind"])
def test_other_events_do_not_mix_the_burnt_sand_back(other):
    assert clay_there(MIXED, POURED, other) == pytest.approx(0.02)


@pytest.mark.parametrize("kind", [("discarded", "discard_kg"), ("riddled", "lost_kg"), ("spilled", "lost_kg"), ("split", "split_kg")])  # fmt: skip
def test_sand_that_leaves_as_it_lies_takes_its_share_of_the_burnt_sand(kind):
    """A tenth of 30 kg."""
    assert clay_there(MIXED, POURED, {"kind": kind[0], "at": AT, kind[1]: 3}) == pytest.approx(0.018)


def test_a_cast_that_loses_sand_loses_its_share_of_the_burnt_sand():
    """3 of 30 kg, weighed; it counts as sand as it lay."""
    assert clay_there(MIXED, {**POURED, "sand_lost_kg": 3}) == pytest.approx(0.018)


def test_throwing_the_crust_away_leaves_no_burnt_clay_of_that_cast():
    with_it, without = (fold(written(MIXED, POURED, *more).events) for more in ((), (CRUST_AWAY,)))
    assert with_it.total.dead_clay_kg == pytest.approx(0.02)
    assert without.total.dead_clay_kg == pytest.approx(0, abs=1e-12)
    assert without.total.wet_kg == pytest.approx(28)
    assert fold(written(MIXED, POURED, CRUST_AWAY, CRUST_AWAY).events).total.dead_clay_kg == pytest.approx(0, abs=1e-12)


def test_undoing_restores_the_burnt_sand():
    assert clay_there(MIXED, POURED, CRUST_AWAY, undo("e3")) == pytest.approx(0.02)
    assert clay_there(MIXED, POURED, WATER, undo("e3")) == pytest.approx(0.02)
    assert clay_there(MIXED, POURED, undo("e2")) == 0


def test_undoing_after_a_later_mixing_restores_no_burnt_sand():
    assert clay_there(MIXED, POURED, WATER, undo("e2")) == 0
    assert clay_there(MIXED, POURED, CRUST_AWAY, WATER, undo("e3")) == 0
    assert clay_there(MIXED, POURED, WATER, WATER, undo("e3")) == 0


def test_a_cast_after_an_undone_one_counts_fully():
    assert clay_there(MIXED, POURED, WATER, undo("e2"), POURED) == pytest.approx(0.02)


def test_undoing_one_of_two_casts_leaves_the_burnt_sand_of_the_other():
    """Of 0.04 kg a tenth was split off; 0.02 of the 0.036 are taken back."""
    assert clay_there(MIXED, POURED, POURED, {"kind": "split", "at": AT, "split_kg": 3}, undo("e2")) == pytest.approx(
        0.016
    )


def test_a_corrected_cast_counts_as_corrected():
    assert clay_there(
        MIXED, POURED, {"kind": "corrected", "at": AT, "of": "e2", "clay_burnt_kg": 0.05}
    ) == pytest.approx(0.05)


def test_burnt_sand_is_stored_as_crust_and_read_back():
    outcome = Outcome(burnt=BurntSand(sand_kg=0.288, clay_kg=0.02, variance=1e-6))
    assert Outcome.from_dict(outcome.to_dict()) == outcome
    assert "crust" not in Outcome().to_dict()
    with pytest.raises(KeyError):
        Outcome.from_dict({"crust": {"gold_kg": 1}})


def test_an_older_book_has_no_burnt_sand():
    saved = written(MIXED, POURED).to_dict()
    for event in saved["events"]:
        event["outcome"].pop("crust", None)
    assert fold(book.read(saved).events).burnt == BurntSand()


def test_crust_without_a_given_error_has_the_error_of_the_scale():
    """0.1 kg on a luggage scale: ± hypot(0.05, 0.0005)."""
    outcome = outcome_of("discarded", {"discard_kg": 0.1, "discarded_as": "crust"}, heap())
    assert outcome.delta.variances["dry_kg"] == pytest.approx((0.05**2 + 0.0005**2) / 1.96**2)
