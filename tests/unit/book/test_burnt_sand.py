"""Crust thrown away, by hand.

The heap: 26 kg of grain, 2 of live clay, 0.5 of dead, 0.3 of other fines: 28.8 kg dry; and 1.2 of water. A cast kills 0.02 kg of the live clay, which
stood in 0.02 · 28.8/2 = 0.288 kg of dry sand. Beside the clay that is 0.268 kg, of grain, dead clay and other fines as 26 : 0.5 : 0.3, so 0.26, 0.005
and 0.003 kg. What is not burnt is then 25.74, 1.98, 0.495, 0.297 and 1.2 of water: 29.712 kg.
"""

import math

import pytest

from sandmix.book import book, burnt_sand
from sandmix.book.event_effects import outcome_of
from sandmix.book.heap import CRUST, DOUBTED, Outcome, State, fold
from sandmix.materials.sand import PARTS

AT = "2026-05-02"
BURNT = {"grain_kg": 0.26, "live_clay_kg": 0.0, "dead_clay_kg": 0.025, "other_fines_kg": 0.003, "water_kg": 0.0}
REST = {"grain_kg": 25.74, "live_clay_kg": 1.98, "dead_clay_kg": 0.495, "other_fines_kg": 0.297, "water_kg": 1.2}
AFTER = {part: BURNT[part] + REST[part] for part in REST} | {"organics_kg": 0.0}


def heap(half_clay_kg=0.0, variances=None, **others):
    told = {"sand_kg": 0.288, "clay_kg": 0.02, "variance": (half_clay_kg / 1.96) ** 2} | others
    whole = dict.fromkeys(DOUBTED, 0.0) | {"dead_clay_kg": told["variance"]} | (variances or {})
    return State(parts=AFTER, variances=whole, crust=told)


def away(state, kg):
    return outcome_of("discarded", {"discard_kg": kg, "discarded_as": "crust"}, state)


def test_a_cast_leaves_burnt_sand_that_held_clay_as_the_heap_did():
    assert burnt_sand.left_by(0.02, 0.0001, 2.0, 28.8) == {
        "sand_kg": pytest.approx(0.288),
        "clay_kg": 0.02,
        "variance": 0.0001,
    }
    assert burnt_sand.left_by(0.0, 0.0, 0.0, 28.8)["sand_kg"] == 0


def test_less_than_the_burnt_sand_takes_its_share_of_the_burnt_clay():
    """A third of it."""
    outcome = away(heap(), "0.096 ± 0 kg")
    for part, kg in BURNT.items():
        assert outcome.change[part] == pytest.approx(-kg / 3)
    assert outcome.crust["clay_kg"] == pytest.approx(-0.02 / 3)
    [said] = outcome.said
    assert said.startswith(
        "thrown away as crust: 0.096 kg of it burnt sand, with 7 g of the 20 g of clay that the casts have burnt"
    )


def test_more_than_the_burnt_sand_takes_all_of_it_and_the_rest_as_it_lies():
    outcome = away(heap(), "0.5 ± 0 kg")
    share = (0.5 - 0.288) / 29.712
    for part in REST:
        assert outcome.change[part] == pytest.approx(-BURNT[part] - share * REST[part])
    assert sum(outcome.change.values()) == pytest.approx(-0.5)
    assert outcome.said[1] == "the rest, 0.212 kg, as it lay"


def test_all_of_the_heap_can_go():
    outcome = away(heap(), "30 ± 0 kg")
    assert {part: AFTER[part] + outcome.change[part] for part in PARTS} == pytest.approx(dict.fromkeys(PARTS, 0.0))


def test_a_little_more_than_the_book_knows_is_found_and_far_more_refused():
    assert away(heap(), "31 ± 0 kg").said[-1].startswith("found: 1 kg more")
    with pytest.raises(Exception, match="is more than the 30 kg"):
        away(heap(), 40)


def test_without_a_cast_since_the_last_mixing_it_counts_as_it_lay():
    state = State(parts=AFTER)
    lying = outcome_of("discarded", {"discard_kg": "0.5 ± 0 kg"}, state)
    found = away(state, "0.5 ± 0 kg")
    assert dict(found.change) == pytest.approx(dict(lying.change))
    assert found.said[0].endswith("so it counts as it lay")


def test_more_burnt_clay_than_there_is_dead_clay_counts_to_what_there_is():
    """A test has since found less of it."""
    state = State(parts=AFTER | {"dead_clay_kg": 0.01}, crust=dict(zip(CRUST, (0.288, 0.02, 0.0), strict=True)))
    assert away(state, "1 ± 0 kg").change["dead_clay_kg"] == pytest.approx(-0.01)


def test_a_heap_that_is_all_burnt_clay_goes_as_that():
    state = State(
        parts=dict.fromkeys(PARTS, 0.0) | {"dead_clay_kg": 1.0}, crust=dict(zip(CRUST, (2.0, 1.0, 0.0), strict=True))
    )
    assert away(state, "0.4 ± 0 kg").change["dead_clay_kg"] == pytest.approx(-0.4)
    assert away(state, "1 ± 0 kg").change["dead_clay_kg"] == pytest.approx(-1.0)


def test_what_is_surely_all_gone_takes_its_doubt_along():
    """± 0.01 kg of clay are ± 0.144 kg of burnt sand: 0.5 kg take it all, whatever it was. What stays is the doubt of 0.212 kg as it lay."""
    outcome = away(heap(half_clay_kg=0.01), "0.5 ± 0 kg")
    left = outcome.variance["dead_clay_kg"] + (0.01 / 1.96) ** 2
    assert left == pytest.approx(0, abs=1e-12)
    assert outcome.crust["variance"] == pytest.approx(-((0.01 / 1.96) ** 2))


def test_the_doubt_of_the_burnt_clay_is_told():
    """0.144 to 0.432 kg were burnt, of which 0.5 kg are all: 10 to 30 g. Of 0.1 kg it is known: 7 g."""
    assert "with 20 ± 10 g of the 20 ± 10 g of clay" in away(heap(half_clay_kg=0.01), "0.5 ± 0 kg").said[0]
    assert "with 7 g of the 20 ± 10 g of clay" in away(heap(half_clay_kg=0.01), "0.1 ± 0 kg").said[0]


def test_what_is_surely_not_all_gone_leaves_its_doubt():
    """0.1 kg of 0.288 ± 0.144: how much was taken is known, and how much is left as little as before."""
    outcome = away(heap(half_clay_kg=0.01), "0.1 ± 0 kg")
    assert outcome.variance["dead_clay_kg"] == pytest.approx(0, abs=1e-12)


def test_between_the_two_half_of_what_may_be_left_is_the_doubt():
    """0.288 kg of 0.288 ± 0.144: nothing to 0.144 kg is left, with 0.02/0.288 of clay: 0 to 0.01 kg, ± 0.005."""
    outcome = away(heap(half_clay_kg=0.01), "0.288 ± 0 kg")
    assert outcome.variance["dead_clay_kg"] + (0.01 / 1.96) ** 2 == pytest.approx((0.005 / 1.96) ** 2)


def test_the_scale_adds_its_doubt():
    """0.1 ± 0.02 kg of burnt sand: 0.02 · 0.025/0.288 of dead clay, and 0.02 of the dry mass."""
    outcome = away(heap(), "0.1 ± 0.02 kg")
    assert outcome.variance["dead_clay_kg"] == pytest.approx((0.02 * 0.025 / 0.288 / 1.96) ** 2)
    assert outcome.variance["dry_kg"] == pytest.approx((0.02 / 1.96) ** 2)
    assert outcome.variance["water_kg"] == pytest.approx(0)


def test_the_rest_takes_its_share_of_the_doubt():
    """0.212 of 29.712 kg."""
    outcome = away(heap(variances={"live_clay_kg": 0.04}), "0.5 ± 0 kg")
    kept = 1 - 0.212 / 29.712
    assert outcome.variance["live_clay_kg"] == pytest.approx(-0.04 * (1 - kept**2))


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
        opened = book.Book(name="", events=(*opened.events, book.record(opened, event)))
    return opened


def clay_there(*events):
    return fold(written(*events).events).crust["clay_kg"]


def undo(of):
    return {"kind": "undone", "at": AT, "of": of}


def test_a_cast_is_written_with_its_crust():
    """2.0265 kg of live clay in 28.95 dry."""
    there = fold(written(MIXED, POURED).events).crust
    assert there["clay_kg"] == pytest.approx(0.02)
    assert there["sand_kg"] == pytest.approx(0.02 * 28.95 / 2.0265)
    assert math.sqrt(there["variance"]) * 1.96 == pytest.approx(0.2 * 0.02)


@pytest.mark.parametrize("mixing", MIXINGS, ids=lambda event: event["kind"])
def test_what_is_mixed_in_mixes_it_back(mixing):
    assert clay_there(MIXED, POURED, mixing) == 0


@pytest.mark.parametrize("other", OTHERS, ids=lambda event: event["kind"])
def test_nothing_else_does(other):
    assert clay_there(MIXED, POURED, other) == pytest.approx(0.02)


@pytest.mark.parametrize("kind", [("discarded", "discard_kg"), ("riddled", "lost_kg"), ("spilled", "lost_kg"), ("split", "split_kg")])  # fmt: skip
def test_what_leaves_as_it_lies_takes_its_share(kind):
    """A tenth of 30 kg."""
    assert clay_there(MIXED, POURED, {"kind": kind[0], "at": AT, kind[1]: 3}) == pytest.approx(0.018)


def test_a_cast_that_loses_sand_loses_its_share_of_the_crust():
    """3 of 30 kg, weighed; what is weighed there counts as it lay."""
    assert clay_there(MIXED, {**POURED, "sand_lost_kg": 3}) == pytest.approx(0.018)


def test_crust_taken_away_leaves_no_burnt_clay_of_that_cast():
    with_it, without = (fold(written(MIXED, POURED, *more).events) for more in ((), (CRUST_AWAY,)))
    assert with_it.parts["dead_clay_kg"] == pytest.approx(0.02)
    assert without.parts["dead_clay_kg"] == pytest.approx(0, abs=1e-12)
    assert sum(without.parts.values()) == pytest.approx(28)
    assert fold(written(MIXED, POURED, CRUST_AWAY, CRUST_AWAY).events).parts["dead_clay_kg"] == pytest.approx(
        0, abs=1e-12
    )


def test_undoing_brings_the_crust_back():
    assert clay_there(MIXED, POURED, CRUST_AWAY, undo("e3")) == pytest.approx(0.02)
    assert clay_there(MIXED, POURED, WATER, undo("e3")) == pytest.approx(0.02)
    assert clay_there(MIXED, POURED, undo("e2")) == 0


def test_undoing_what_was_mixed_over_since_brings_none_back():
    assert clay_there(MIXED, POURED, WATER, undo("e2")) == 0
    assert clay_there(MIXED, POURED, CRUST_AWAY, WATER, undo("e3")) == 0
    assert clay_there(MIXED, POURED, WATER, WATER, undo("e3")) == 0


def test_a_cast_after_an_undone_one_counts_whole():
    assert clay_there(MIXED, POURED, WATER, undo("e2"), POURED) == pytest.approx(0.02)


def test_undoing_one_of_two_casts_leaves_the_crust_of_the_other():
    """Of 0.04 kg a tenth was split off; 0.02 of the 0.036 are taken back."""
    assert clay_there(MIXED, POURED, POURED, {"kind": "split", "at": AT, "split_kg": 3}, undo("e2")) == pytest.approx(
        0.016
    )


def test_a_corrected_cast_counts_as_corrected():
    assert clay_there(
        MIXED, POURED, {"kind": "corrected", "at": AT, "of": "e2", "clay_burnt_kg": 0.05}
    ) == pytest.approx(0.05)


def test_a_crust_is_stored_and_read_back():
    outcome = Outcome(crust={"sand_kg": 0.288, "clay_kg": 0.02, "variance": 1e-6})
    assert Outcome.heard(outcome.told()) == outcome
    assert "crust" not in Outcome().told()
    with pytest.raises(KeyError):
        Outcome.heard({"crust": {"gold_kg": 1}})


def test_an_older_book_has_no_crust():
    told = written(MIXED, POURED).told()
    for event in told["events"]:
        event["outcome"].pop("crust", None)
    assert fold(book.read(told).events).crust == dict.fromkeys(CRUST, 0.0)


def test_crust_of_which_no_doubt_is_written_is_doubted_by_the_scale():
    """0.1 kg on a luggage scale: ± hypot(0.05, 0.0005)."""
    outcome = outcome_of("discarded", {"discard_kg": 0.1, "discarded_as": "crust"}, heap())
    assert outcome.variance["dry_kg"] == pytest.approx((0.05**2 + 0.0005**2) / 1.96**2)
