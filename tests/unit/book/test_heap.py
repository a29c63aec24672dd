"""The heap as the sum of its events."""

import math

import pytest

from sandmix.book.heap import HeapFold, HeapState, Outcome, age_days, fold
from sandmix.materials.delta import UNCERTAIN, Delta
from sandmix.materials.sand import PARTS

AT = "2026-05-02"


def event(name, kind="tempered", change=None, variance=None, **more):
    outcome = {"change": change or {}, "variance": variance or {}} | more.pop("outcome", {})
    return {"id": name, "kind": kind, "at": AT, "outcome": outcome, **more}


def undone(name, of):
    return event(name, "undone", of=of)


def test_a_book_without_events_has_no_sand():
    state = fold([])
    assert set(state.total.by_part().values()) == {0.0}
    assert (state.casts, state.own_losses, state.tested_at_s, state.metal) == (0, (), None, None)
    assert state.bands() == {}


def test_masses_and_variances_add_up():
    state = fold(
        [
            event("a", change={"grain_kg": 20, "water_kg": 1}, variance={"dry_kg": 0.04}),
            event("b", change={"grain_kg": -2, "live_clay_kg": 1.5}, variance={"dry_kg": -0.01, "water_kg": 0.25}),
        ]
    )
    assert state.total.by_part() == dict.fromkeys(PARTS, 0.0) | {"grain_kg": 18, "water_kg": 1, "live_clay_kg": 1.5}
    assert state.total.variances == dict.fromkeys(UNCERTAIN, 0.0) | {"dry_kg": pytest.approx(0.03), "water_kg": 0.25}


def test_a_fold_gives_the_state_after_each_event():
    total = HeapFold()
    total.add(event("a", change={"grain_kg": 20}))
    first = total.state()
    total.add(event("b", change={"grain_kg": 5}))
    assert (first.total.grain_kg, total.state().total.grain_kg) == (20, 25)


def test_casts_and_their_weighed_losses_are_counted():
    cast = [event(name, "poured", outcome={"mould_loss_share": 0.03}) for name in "ab"]
    state = fold([*cast, event("c", "poured")])
    assert (state.casts, state.own_losses) == (3, (0.03, 0.03))


def test_an_undone_cast_does_not_count():
    state = fold([event("a", "poured", outcome={"mould_loss_share": 0.03}), event("b", "poured"), undone("c", "a")])
    assert (state.casts, state.own_losses) == (1, ())


def test_a_corrected_cast_counts_once_with_its_correction():
    cast = event("a", "poured", outcome={"mould_loss_share": 0.03})
    state = fold([cast, event("b", "corrected", of="a", outcome={"mould_loss_share": 0.05})])
    assert (state.casts, state.own_losses) == (1, (0.05,))


def test_the_last_test_is_the_latest_one_that_is_not_undone():
    """Two days apart."""
    early, late = event("a", "measured"), event("b", "measured") | {"at": "2026-05-04"}
    assert fold([late, early]).tested_at_s == fold([late]).tested_at_s
    assert fold([early, late, undone("c", "b")]).tested_at_s == fold([early]).tested_at_s
    assert fold([early, undone("c", "a")]).tested_at_s is None


def test_the_metal_is_the_last_one_that_is_not_undone():
    poured = event("a", "poured", metal="aluminium")
    changed = event("b", "metal_changed", metal="tin_bronze")
    assert fold([poured]).metal == "aluminium"
    assert fold([poured, changed]).metal == "tin_bronze"
    assert fold([poured, changed, undone("c", "b")]).metal == "aluminium"
    assert fold([poured, changed, event("c", "corrected", of="b", metal="grey_iron")]).metal == "grey_iron"


def test_the_age_of_a_test_in_days():
    state = HeapState(tested_at_s=86400.0)
    assert age_days(state, 4.5 * 86400) == 3.5
    assert age_days(state, 0.0) == -1
    assert age_days(state, None) is None
    assert age_days(HeapState(), 0.0) is None


def test_an_outcome_is_read_back_as_it_was_stored():
    outcome = Outcome(
        delta=Delta.of({"grain_kg": 1.5}, {"dry_kg": 0.25}),
        how="weighed",
        by="0.0.1",
        lines=("a line",),
        loss_share=0.02,
        mould_loss_share=0.05,
    )
    assert Outcome.from_dict(outcome.to_dict()) == outcome


def test_a_reversed_outcome_cancels_the_outcome():
    outcome = Outcome(delta=Delta.of({"grain_kg": 1.5, "water_kg": -0.25}, {"dry_kg": 0.5}))
    state = HeapState().after(outcome).after(outcome.reversed())
    assert set(state.total.by_part().values()) | set(state.total.variances.values()) == {0.0}


@pytest.mark.parametrize(
    "stored",
    [
        {"change": {"gold_kg": 1}},
        {"change": {"grain_kg": "1"}},
        {"change": {"grain_kg": True}},
        {"change": {"grain_kg": math.nan}},
        {"change": {"grain_kg": math.inf}},
        {"change": {"grain_kg": 1e12}},
        {"change": {"grain_kg": 10**400}},
        {"change": {"dry_kg": 1}},
        {"change": [1]},
        {"variance": {"grain_kg": 1}},
        {"said": 5},
        {"loss_share": "much"},
        {"loss_share": math.nan},
        {"loss_share": 1.5},
        {"loss_share": -0.1},
        {"loss_share": 10**400},
        {"loss_share": True},
        {"mould_loss_share": 1.5},
    ],
)
def test_a_damaged_outcome_is_refused(stored):
    with pytest.raises((KeyError, TypeError, ValueError, AttributeError, OverflowError)):
        Outcome.from_dict(stored)


def test_bands_by_hand():
    """30 kg with 1.2 kg of water and 2.4 kg of live clay; dry mass ± 0.3, water ± 0.4, live clay ± 0.288.

    Mass ± √(0.3² + 0.4²) = 0.5. Moisture 4 % ± 100 √((0.96 · 0.4)² + (0.04 · 0.3)²)/30 = 1.2806. Clay 2.4/28.8 ± 0.288/28.8 = 1 point.
    """
    parts = dict.fromkeys(PARTS, 0.0) | {"grain_kg": 26.4, "live_clay_kg": 2.4, "water_kg": 1.2}
    halves = {"dry_kg": 0.3, "water_kg": 0.4, "live_clay_kg": 0.288}
    state = HeapState(
        total=Delta.of(
            parts,
            dict.fromkeys(UNCERTAIN, 0.0) | {part: (half / 1.96) ** 2 for part, half in halves.items()},
        )
    )
    bands = state.bands()
    assert bands["heap_kg"] == pytest.approx((29.5, 30.5))
    assert bands["moisture_pct_wet"] == pytest.approx((4 - 1.2806, 4 + 1.2806), abs=1e-4)
    assert bands["clay_pct_dry"] == pytest.approx((100 * 2.4 / 28.8 - 1, 100 * 2.4 / 28.8 + 1))
    assert bands["dead_clay_pct_dry"] == (0, 0)


def test_a_band_of_a_share_ends_at_100_percent():
    state = HeapState(
        total=Delta.of(
            dict.fromkeys(PARTS, 0.0) | {"live_clay_kg": 1.0, "water_kg": 9.0},
            dict.fromkeys(UNCERTAIN, 1.0),
        )
    )
    bands = state.bands()
    assert (bands["moisture_pct_wet"][1], bands["clay_pct_dry"][1]) == (100, 100)
    assert bands["heap_kg"][1] > 10


def test_a_band_ends_at_zero():
    state = HeapState(
        total=Delta.of(
            dict.fromkeys(PARTS, 0.0) | {"grain_kg": 10.0},
            dict.fromkeys(UNCERTAIN, 0.0) | {"dead_clay_kg": 1.0},
        )
    )
    assert state.bands()["dead_clay_pct_dry"][0] == 0


def test_a_part_below_zero_is_named():
    assert HeapState().missing_part() is None
    assert HeapState(total=Delta(water_kg=-0.01)).missing_part() == "water_kg"
    assert HeapState(total=Delta(water_kg=-1e-9)).sand.water_kg == 0
