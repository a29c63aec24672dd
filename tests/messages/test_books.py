"""The exact messages for books and entries that are refused.

Each message begins with the label, then says what was given, what is allowed and what to do; for an entry of a book it names the entry. They are
*pinned*: checked for the three parts, then kept as the library gives them.
"""

import json

import pytest

from sandmix.doors.facade import call

AT = "2026-05-02"
MIXED = {"kind": "mixed", "at": AT, "make_kg": 30, "clay_pct_dry": 7, "moisture_pct_wet": 3.5}
OUTCOME = {"change": {}, "variance": {}, "how": "given", "by": "0.1.0", "said": []}
KINDS = (
    "poured, tempered, measured, added, mixed, discarded, riddled, spilled, dried, rained_on, opened, split, joined, bought, "
    "put_away, metal_changed, calibrated, forgotten, undone, corrected"
)
THE_FILE = "Use a file that sandmix saved."
OLDER = "Use an older copy."
DAMAGED = f"The file is damaged. {OLDER}"
UNIT = "Weigh the heap and record that first, or check the unit."


def undo(of):
    return {"kind": "undone", "at": AT, "of": of}


def saved(**more):
    return {"format": "sandmix book", "version": 1, "events": []} | more


BOOKS = [
    (5, "The book: this isn't a document. Enter an object, or its JSON text."),
    ("", "The book: this is empty. Enter an object, or its JSON text."),
    ("[", "The book: this isn't JSON. Give the whole file as it was saved."),
    ("[" * 5000, "The book: this isn't JSON. Give the whole file as it was saved."),
    ({}, f"The book: it has no list of entries. {THE_FILE}"),
    (saved(events="e1"), f"The book: it has no list of entries. {THE_FILE}"),
    (
        saved(version=5, events=[{"kind": "melted"}]),
        (
            "The book: a newer sandmix wrote it (format 5; this one reads up to 4). Nothing was changed. Update sandmix, then "
            "open the book again."
        ),
    ),
    (
        saved(events=[5] * 100_001),
        "The book: it has 100001 entries; at most 100000 can be read. Split it.",
    ),
    (
        [{**MIXED, "kind": "melted"}],
        f"Entry 1: “melted” isn't a kind of entry. Use {KINDS}.",
    ),
    ([{**MIXED, "kind": []}], f"Entry 1: “[]” isn't a kind of entry. Use {KINDS}."),
    (
        [MIXED, {**MIXED, "at": "yesterday"}],
        "Entry 2: this isn't a date and time. Write it as 2026-05-02T14:30Z or 2026-05-02.",
    ),
    (
        [{**MIXED, "at": "2026-02-30"}],
        "Entry 1: there is no such day between 1900 and 2200. Check the year, month and day.",
    ),
    (
        [{**MIXED, "at": "2026-02-03T25:00"}],
        "Entry 1: there is no such time of day. Check the hours, minutes and seconds.",
    ),
    (
        [{**MIXED, "note": "x" * 501}],
        "Entry 1: its note must be a text of at most 500 characters. Shorten it.",
    ),
    (
        [MIXED, {**MIXED, "make_kg": "0"}],
        (
            "The book, entry 2: New sand put in: 0 kg is too little. Enter 0.05 to 5000 kg. Check the number "
            "and its unit."
        ),
    ),
    (
        [{**MIXED, "metal": "lead", "colour": "red"}],
        (
            "The book, entry 1: “colour” isn't an input of this kind of entry. The inputs are sand_kg, clay_kg, water_kg, "
            "sand_moisture_pct_wet, clay, clay_activity_pct, clay_moisture_pct_wet, make_kg, clay_pct_dry, "
            "moisture_pct_wet, dead_fines_pct_dry."
        ),
    ),
    (
        [MIXED, undo("e7")],
        "Entry 2: there is no earlier entry “e7”. Enter the id of an earlier one.",
    ),
    (
        [MIXED, undo("e1"), undo("e2")],
        "Entry 3: an undoing or a correction cannot be undone. Record the entry again.",
    ),
]


@pytest.mark.parametrize(("book", "message"), BOOKS, ids=lambda value: repr(value)[:40])
def test_a_book_that_is_refused(messages, book, message):
    assert messages("heap", book=book) == [message]


DRIED_OUT = [MIXED, {"kind": "dried", "at": AT, "water_kg": 5}]
EVENTS = [
    (
        None,
        'Request: the event isn\'t an object. Send one such as {"kind": "poured", "at": "2026-05-09"}, together with the book.',
    ),
    (
        {"kind": "discarded", "at": AT, "discard_kg": 50},
        f"Sand thrown away: 50 kg is more than the 30 kg in the book. {UNIT}",
    ),
    (
        {"kind": "poured", "at": AT, "metal_kg": 1, "sand_lost_kg": 50},
        f"Sand that did not come back: 50 kg is more than the 30 kg in the book. {UNIT}",
    ),
    (
        {"kind": "tempered", "at": AT},
        "Water: enter either the water or the moisture of the sand afterwards, not both.",
    ),
    (
        {"kind": "measured", "at": AT},
        "Sand in the heap: nothing was measured. Enter the mass, the moisture or another test.",
    ),
    (
        {"kind": "added", "at": AT},
        "Sand put in: nothing was put in. Enter the sand, the clay or the water.",
    ),
    (
        {"kind": "calibrated", "at": AT},
        "Rammed density: nothing was measured. Enter the rammed density, the strokes of your bottle, or your tin and its rammer.",
    ),
    (
        {"kind": "discarded", "at": AT, "discard_kg": 50, "discarded_as": "crust"},
        f"Sand thrown away: 50 kg is more than the 30 kg in the book. {UNIT}",
    ),
    (
        {"kind": "discarded", "at": AT, "discard_kg": 1, "discarded_as": "dust"},
        "Thrown away as: “dust” isn't one of the choices. Choose as_it_lies or crust.",
    ),
    (
        {"kind": "measured", "at": AT, "moisture_pct_wet": 3, "water_added_kg": 1, "water_dried_kg": 1},
        "Water then dried off: water was added and dried off. Enter only what came of both together.",
    ),
    (
        {"kind": "measured", "at": AT, "heap_kg": 30, "sample_wet_g": 100},
        "Sample after drying: one weighing alone gives no moisture. Enter the sample before and after drying.",
    ),
    (
        {"kind": "measured", "at": AT, "sample_wet_g": 97, "sample_dry_g": 100},
        "Sample after drying: moulding sand does not dry from 97 g to 100 g. Check whether the two are swapped.",
    ),
]


@pytest.mark.parametrize(("event", "message"), EVENTS, ids=lambda value: repr(value)[:60])
def test_an_entry_that_is_refused(event, message):
    answer = json.loads(call(json.dumps({"job": "record", "inputs": {"book": [MIXED], "event": event}})))
    assert [problem["message"] for problem in answer["problems"]] == [message]


def test_an_entry_that_would_leave_less_than_nothing():
    answer = json.loads(call(json.dumps({"job": "record", "inputs": {"book": DRIED_OUT, "event": undo("e1")}})))
    assert [problem["message"] for problem in answer["problems"]] == [
        ("Entry 3: it would leave -1.05 kg of water in the heap. Undo later entries first, or check the amounts.")
    ]


DAMAGED_BOOKS = [
    (
        saved(version="1"),
        "The book: its version (“1”) is not a number. The file is damaged, or not from sandmix. Use an older copy.",
    ),
    (
        {"format": "list", "version": 1},
        f"The book: this is another kind of file (“list”), not a heap book. {THE_FILE}",
    ),
    (saved(name="x" * 61), "The book: its name must be a text of 1 to 60 characters. Give it another one."),
    ([5], f"The book: entry 1 is not an object. {DAMAGED}"),
    ([{**MIXED, "outcome": 5}], f"The book: entry 1: its outcome is not an object. {DAMAGED}"),
    (
        [{**MIXED, "outcome": OUTCOME | {"change": {"gold_kg": 1}}}],
        f"The book: entry 1: its outcome has something other than masses of sand. {DAMAGED}",
    ),
    (
        [{**MIXED, "outcome": OUTCOME | {"change": {"grain_kg": -1}}}],
        (
            "The book: entry 1 would leave -1 kg of sand grains in the heap. The file is damaged, or was edited by hand. Use an older copy."
        ),
    ),
    (
        [{**MIXED, "id": "a"}, {**MIXED, "id": "a"}],
        f"The book: entry 2 has an id that is missing, too long or used twice. {DAMAGED}",
    ),
    ([MIXED, undo("e1"), undo("e1")], "Entry 3: “e1” is already undone. Choose one that still counts."),
]


@pytest.mark.parametrize(("book", "message"), DAMAGED_BOOKS, ids=lambda value: repr(value)[:40])
def test_a_damaged_book_is_refused(messages, book, message):
    assert messages("heap", book=book) == [message]
