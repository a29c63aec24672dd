"""A long book is read in steps that do not grow with it: how many times something is worked out, not how long it takes."""

import itertools

import pytest

from sandmix.book import book
from sandmix.book.heap import Outcome, fold
from sandmix.book.standing import Counted, Latest
from sandmix.drying import evaporation
from sandmix.language.errors import InputError
from sandmix.materials.delta import Delta

MIXED = {"kind": "mixed", "at": "2026-05-01T09:00Z", "make_kg": 45, "clay_pct_dry": 7.5, "moisture_pct_wet": 3.4}
AIR = {"air_temp_c": 18, "humidity_pct": 60, "wind_m_s": 1, "heap_area_m2": 0.8}


def test_the_drying_of_an_opened_heap_is_solved_once_for_the_same_sand_and_air():
    opened = {"kind": "opened", "open_h": 5, **AIR}
    days = [{**opened, "at": f"2026-05-{day:02}T10:00Z"} for day in range(2, 30)]
    evaporation._lost_through.cache_clear()
    book.read([MIXED, *days])
    assert evaporation._lost_through.cache_info().misses <= 7


def test_the_latest_time_is_found_without_going_through_all_that_were_taken_back():
    latest = Latest()
    for at, name in enumerate(("a", "b", "c")):
        latest.note(name, float(at))
    latest.note("late but early", 0.5)
    assert latest.last == (2.0, "c")
    latest.drop("c")
    assert latest.last == (1.0, "b")
    latest.note("b", 0.25)
    assert latest.last == (0.5, "late but early")


def test_of_two_at_one_time_the_one_that_was_noted_later_is_the_latest():
    latest = Latest()
    latest.note("first", 1.0)
    latest.note("second", 1.0)
    assert latest.last == (1.0, "second")
    latest.note("first", 1.0)
    assert latest.last == (1.0, "first")


def test_values_before_they_were_set_back_are_not_gone_through():
    counted = Counted[str]()
    for at in range(1000):
        counted.put(f"e{at}", at, "before")
    counted.set_back("forgotten", 1000)
    counted.put("e1001", 1001, "since")
    assert [*counted.lately()] == [(1001, "since")]
    counted.drop("forgotten")
    assert [value for _, value in itertools.islice(counted.lately(), 2)] == ["since", "before"]


def test_undoing_that_a_loss_was_set_back_counts_it_again():
    poured = {"kind": "poured", "at": "2026-05-02", "metal_kg": 1, "modulus_mm": 8, "sand_lost_kg": 0.3}
    heat = {"clay_burnt_kg": 0.01, "water_driven_kg": 0.1}
    forgotten = {"kind": "forgotten", "at": "2026-05-03", "learned_figure": "loss_a_cast_pct"}
    events = [MIXED, poured | heat, forgotten]
    assert fold(book.read(events).events).own_losses == ()
    undone = {"kind": "undone", "at": "2026-05-04", "of": "e3"}
    assert len(fold(book.read([*events, undone]).events).own_losses) == 1


@pytest.mark.parametrize("name", ["", "  ", "a\x1b[31m", "two\nlines", "\x9b2J"])
def test_a_heap_whose_name_cannot_be_shown_is_refused_in_words(name):
    with pytest.raises(InputError, match="Give it another one"):
        book.read({"format": "sandmix book", "version": 4, "name": name, "events": []})


def test_a_name_in_any_script_is_read():
    assert (
        book.read({"format": "sandmix book", "version": 4, "name": "砂山 👩‍🏭 №1", "events": []}).name == "砂山 👩‍🏭 №1"
    )


def test_what_a_stored_entry_says_cannot_move_a_terminals_cursor():
    outcome = {"change": {}, "variance": {}, "how": "given\x1b[2J", "by": "\x9b", "said": ["water\x1b[31m added"]}
    read = book.read([{"kind": "bought", "at": "2026-05-01", "sand_kg": 25, "outcome": outcome}])
    assert read.events[0]["outcome"]["said"] == ["water [31m added"]
    assert "\x1b" not in str(read.events[0]["outcome"]["how"])


def test_a_stored_outcome_is_checked_as_it_would_be_read_and_written_again():
    stored = Outcome(delta=Delta(water_kg=0.2), lines=("water added",), aged=True, mould_loss_share=0.02).to_dict()
    assert Outcome.checked(stored | {"more": 1}) == stored == Outcome.from_dict(stored).to_dict()
