"""The entries of a book that count, in the order in which they happened."""

from sandmix.book.standing import entries

MIXED = {"id": "a", "kind": "mixed", "at": "2026-05-02", "make_kg": 30, "outcome": {}}
RAIN = {"id": "b", "kind": "rained_on", "at": "2026-05-06", "water_kg": 1, "outcome": {}}


def test_they_are_in_order_of_time_and_of_one_time_as_written():
    same = {**RAIN, "id": "c"}
    early = {**RAIN, "id": "d", "at": "2026-04-30"}
    assert [entry.event["id"] for entry in entries([MIXED, RAIN, same, early])] == ["d", "a", "b", "c"]


def test_what_was_undone_is_gone_with_its_corrections():
    corrected = {"id": "c", "kind": "corrected", "at": "2026-05-07", "of": "b", "water_kg": 2, "outcome": {}}
    undone = {"id": "u", "kind": "undone", "at": "2026-05-08", "of": "b", "outcome": {}}
    assert [entry.kind for entry in entries([MIXED, RAIN, corrected, undone])] == ["mixed"]


def test_a_correction_changes_the_words_and_not_the_time():
    corrected = {"id": "c", "kind": "corrected", "at": "2026-05-07", "of": "b", "water_kg": 2, "outcome": {}}
    [entry] = [entry for entry in entries([MIXED, RAIN, corrected]) if entry.kind == "rained_on"]
    assert entry.words == {"water_kg": 2}
    assert entry.at_s == entries([RAIN])[0].at_s
    assert entry.corrections == (corrected,)
