"""Word for word what is said to books that are none, and to events that can't be.

Each text begins with the label, says what was given, what is allowed and what to do, and with an event of a book its place. They are
*pinned*: judged by the three parts, then kept as the library says them.
"""

import json

import pytest

from sandmix.doors.facade import call

AT = "2026-05-02"
MIXED = {"kind": "mixed", "at": AT, "make_kg": 30, "clay_pct_dry": 7, "moisture_pct_wet": 3.5}
OUTCOME = {"change": {}, "variance": {}, "how": "given", "by": "0.1.0", "said": []}
KINDS = (
    "poured, tempered, measured, added, mixed, discarded, riddled, spilled, dried, rained_on, split, joined, bought, "
    "put_away, metal_changed, calibrated, undone, corrected"
)
THE_FILE = "Take the file as sandmix saved it."
OLDER = "Take an older copy of it."
DAMAGED = f"The file is damaged. {OLDER}"


def undo(of):
    return {"kind": "undone", "at": AT, "of": of}


def saved(**beside):
    return {"format": "sandmix book", "version": 1, "events": []} | beside


BOOKS = [
    (5, "The book: this isn't a document. Enter an object, or its JSON text."),
    ("", "The book: this is empty. Enter an object, or its JSON text."),
    ("[", "The book: this isn't JSON. Give the whole file as it was saved."),
    ("[" * 5000, "The book: this isn't JSON. Give the whole file as it was saved."),
    ({}, f"The book: it holds no list of events. {THE_FILE}"),
    (saved(events="e1"), f"The book: it holds no list of events. {THE_FILE}"),
    (
        saved(version=3, events=[{"kind": "melted"}]),
        (
            "The book: it was written by a newer sandmix (format 3, and this one reads up to 2). Nothing is changed: update, "
            "then open it again."
        ),
    ),
    (
        saved(events=[5] * 100_001),
        "The book: it holds 100001 events, and at most 100000 are read. Split it.",
    ),
    (
        [{**MIXED, "kind": "melted"}],
        f"The event: event 1: “melted” is no kind of event. Use {KINDS}.",
    ),
    ([{**MIXED, "kind": []}], f"The event: event 1: “[]” is no kind of event. Use {KINDS}."),
    (
        [MIXED, {**MIXED, "at": "yesterday"}],
        "The event: event 2: this isn't a date and time. Write it as 2026-05-02T14:30Z or 2026-05-02.",
    ),
    (
        [{**MIXED, "at": "2026-02-30"}],
        "The event: event 1: there is no such day between 1900 and 2200. Check the year, month and day.",
    ),
    (
        [{**MIXED, "at": "2026-02-03T25:00"}],
        "The event: event 1: there is no such time of day. Check the hours, minutes and seconds.",
    ),
    (
        [{**MIXED, "note": "x" * 501}],
        "The event: event 1: its note is no text of at most 500 characters. Shorten it.",
    ),
    (
        [MIXED, {**MIXED, "make_kg": "0"}],
        (
            "The book, event 2: New sand put in: 0 kg is too little. Enter 0.05 to 5000 kg. Check the number "
            "and its unit."
        ),
    ),
    (
        [{**MIXED, "metal": "lead", "colour": "red"}],
        (
            "The book, event 1: “colour” isn't an input of this kind of event. The inputs are sand_kg, clay_kg, water_kg, "
            "sand_moisture_pct_wet, clay, clay_activity_pct, clay_moisture_pct_wet, make_kg, clay_pct_dry, "
            "moisture_pct_wet, dead_fines_pct_dry."
        ),
    ),
    (
        [MIXED, undo("e7")],
        "The event: event 2: there is no earlier event “e7”. Name one by its id.",
    ),
    (
        [MIXED, undo("e1"), undo("e2")],
        "The event: event 3: what was undone or corrected is not undone itself. Record it anew.",
    ),
]


@pytest.mark.parametrize(("book", "message"), BOOKS, ids=lambda value: repr(value)[:40])
def test_what_is_said_to_a_book(messages, book, message):
    assert messages("heap", book=book) == [message]


DRIED_OUT = [MIXED, {"kind": "dried", "at": AT, "water_kg": 5}]
EVENTS = [
    (
        None,
        'Request: the event isn\'t an object. Send one such as {"kind": "poured", "at": "2026-05-09"}, together with the book.',
    ),
    (
        {"kind": "discarded", "at": AT, "discard_kg": 50},
        (
            "Sand thrown away: 50 kg is more than the 30 kg that the book knows of. Record a weighing of the heap first, or "
            "look at the unit."
        ),
    ),
    (
        {"kind": "poured", "at": AT, "metal_kg": 1, "sand_lost_kg": 50},
        (
            "Sand that did not come back: 50 kg is more than the 30 kg that the book knows of. Record a weighing of the heap "
            "first, or look at the unit."
        ),
    ),
    (
        {"kind": "tempered", "at": AT},
        "Water: give the water, or the moisture that the sand has now, and not both.",
    ),
    (
        {"kind": "measured", "at": AT},
        "Sand in the heap: nothing was measured. Give the mass, the moisture or another test.",
    ),
    (
        {"kind": "added", "at": AT},
        "Sand put in: nothing was put in. Give the sand, the clay or the water.",
    ),
    (
        {"kind": "calibrated", "at": AT},
        "Rammed density: nothing was measured. Give the rammed density, or the strokes of your bottle.",
    ),
    (
        {"kind": "discarded", "at": AT, "discard_kg": 50, "discarded_as": "crust"},
        (
            "Sand thrown away: 50 kg is more than the 30 kg that the book knows of. Record a weighing of the heap first, or "
            "look at the unit."
        ),
    ),
    (
        {"kind": "discarded", "at": AT, "discard_kg": 1, "discarded_as": "dust"},
        "Thrown away as: “dust” isn't one of the choices. Choose as_it_lies or crust.",
    ),
    (
        {"kind": "measured", "at": AT, "heap_kg": 30, "sample_wet_g": 100},
        "Sample after drying: one weighing alone says nothing. Give the sample before and after drying.",
    ),
    (
        {"kind": "measured", "at": AT, "sample_wet_g": 97, "sample_dry_g": 100},
        "Sample after drying: 100 g of 97 g is no drying of moulding sand. Look whether the two are swapped.",
    ),
]


@pytest.mark.parametrize(("event", "message"), EVENTS, ids=lambda value: repr(value)[:60])
def test_what_is_said_to_an_event(event, message):
    answer = json.loads(call(json.dumps({"job": "record", "inputs": {"book": [MIXED], "event": event}})))
    assert [problem["message"] for problem in answer["problems"]] == [message]


def test_what_is_said_where_less_than_nothing_would_be_left():
    answer = json.loads(call(json.dumps({"job": "record", "inputs": {"book": DRIED_OUT, "event": undo("e1")}})))
    assert [problem["message"] for problem in answer["problems"]] == [
        (
            "The event: it would leave -1.05 kg of water in the heap. Undo what came after it first, or look at the amounts."
        )
    ]


DAMAGED_BOOKS = [
    (
        saved(version="1"),
        "The book: its version (“1”) is no number. The file is damaged, or not of sandmix. Take an older copy of it.",
    ),
    (
        {"format": "list", "version": 1},
        "The book: this is a file of another kind (“list”), and no heap book. Take the file as sandmix saved it.",
    ),
    (saved(name="x" * 61), "The book: its name is no text of at most 60 characters. Shorten it."),
    ([5], f"The book: event 1 is no object. {DAMAGED}"),
    ([{**MIXED, "outcome": 5}], f"The book: event 1: its outcome is no object. {DAMAGED}"),
    (
        [{**MIXED, "outcome": OUTCOME | {"change": {"gold_kg": 1}}}],
        f"The book: event 1: its outcome holds what is no mass of a part of sand. {DAMAGED}",
    ),
    (
        [{**MIXED, "outcome": OUTCOME | {"change": {"grain_kg": -1}}}],
        (
            "The book: event 1 would leave -1 kg of sand grains in the heap. The file is damaged, or was changed by hand. Take an older copy of it."
        ),
    ),
    (
        [{**MIXED, "id": "a"}, {**MIXED, "id": "a"}],
        f"The book: event 2 has an id that is missing, too long or there twice. {DAMAGED}",
    ),
    ([MIXED, undo("e1"), undo("e1")], "The event: event 3: “e1” is undone already. Name one that stands."),
]


@pytest.mark.parametrize(("book", "message"), DAMAGED_BOOKS, ids=lambda value: repr(value)[:40])
def test_what_is_said_to_a_damaged_book(messages, book, message):
    assert messages("heap", book=book) == [message]
