"""Books of older versions: they are read as they are, and give the same heap as before.

`version_1_book.json` was written by the last sandmix of version 1: its events bare, the same book with the outcomes that it stored, and the heap
that it made of them (*pinned*: masses and variances as that version gave them).
"""

import json
from pathlib import Path

import pytest

from sandmix.book import book
from sandmix.book.heap import fold
from sandmix.materials.delta import UNCERTAIN
from sandmix.materials.sand import PARTS

OLD = json.loads((Path(__file__).parent / "version_1_book.json").read_text("utf-8"))
AS_GOOD_AS = {"rel": 1e-12, "abs": 1e-12}


def sums(field, names):
    """What the stored outcomes add up to, without the library."""
    outcomes = [event["outcome"][field] for event in OLD["told"]["events"]]
    return {name: sum(outcome.get(name, 0.0) for outcome in outcomes) for name in names}


def test_an_older_book_gives_the_same_heap_as_before():
    state = fold(book.read(OLD["told"]).events)
    assert state.total.by_part() == pytest.approx(OLD["parts"], **AS_GOOD_AS)
    assert dict(state.total.variances) == pytest.approx(OLD["variances"], **AS_GOOD_AS)


def test_an_older_book_without_outcomes_is_worked_out_by_the_rules_of_today():
    """Bagged clay counts as all live today, where version 1 took 97.5 %: no fines come with it."""
    state = fold(book.read(OLD["bare"]).events)
    assert OLD["parts"]["other_fines_kg"] > 0
    assert state.total.other_fines_kg == pytest.approx(0, abs=1e-12)


def test_the_heap_of_an_older_book_is_the_sum_of_its_stored_outcomes():
    state = fold(book.read(OLD["told"]).events)
    assert state.total.by_part() == pytest.approx(sums("change", PARTS), **AS_GOOD_AS)
    assert dict(state.total.variances) == pytest.approx(sums("variance", UNCERTAIN), **AS_GOOD_AS)


def test_an_older_book_is_saved_as_one_of_this_version_with_the_same_events():
    saved = book.read(OLD["told"]).to_dict()
    assert saved["version"] == 4
    assert saved["events"] == OLD["told"]["events"]


def test_an_older_book_takes_new_events():
    opened = book.read(OLD["told"])
    own = book.record(opened, {"kind": "calibrated", "at": "2026-06-01", "strokes_per_100ml": 80})
    again = book.read(book.Book(name=opened.name, events=(*opened.events, own)).to_dict())
    assert fold(again.events).total == fold(opened.events).total
