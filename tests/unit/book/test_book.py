"""Books: what is read, completed, migrated and refused, and how an event is recorded."""

import copy
import json
import sys

import pytest

from sandmix.book import book
from sandmix.book.heap import fold
from sandmix.book.logged_readings import readings
from sandmix.doors.facade import call
from sandmix.language.errors import InputError
from sandmix.materials.sand import PARTS
from sandmix.recipes import sand_loss
from sandmix.vocabulary import WORDS

AT = "2026-05-02"
MIXED = {"kind": "mixed", "at": AT, "make_kg": 30, "clay_pct_dry": 7, "moisture_pct_wet": 3.5}
POURED = {"kind": "poured", "at": "2026-05-09", "metal": "aluminium", "metal_kg": 1.2, "sand_lost_kg": 0.6}
WATER = {"kind": "tempered", "at": "2026-05-10", "water_kg": 0.2}


def written(*events):
    """A book in which these events were recorded one after the other."""
    opened = book.read([])
    for event in events:
        opened = book.with_event(opened, event)
    return opened


def undo(of):
    return {"kind": "undone", "at": AT, "of": of}


def correct(of, **words):
    return {"kind": "corrected", "at": AT, "of": of, **words}


def parts_of(opened):
    return fold(opened.events).total.by_part()


def refusal(work, *given):
    with pytest.raises(InputError) as refused:
        work(*given)
    return [problem.message for problem in refused.value.problems]


def test_what_is_saved_is_read_back_the_same():
    opened = written(MIXED, POURED, WATER)
    again = book.read(json.loads(json.dumps(opened.to_dict())))
    assert again == opened
    assert again.to_dict()["version"] == 4


def test_a_list_of_events_is_a_book_of_version_0_and_its_outcomes_are_worked_out():
    opened = book.read([MIXED, POURED, WATER])
    assert opened.events == written(MIXED, POURED, WATER).events
    assert opened.to_dict()["format"] == "sandmix book"


@pytest.mark.parametrize("whole", [{"events": [MIXED]}, {"format": "sandmix book", "version": 0, "events": [MIXED]}])
def test_a_book_of_version_0_becomes_one_of_this_version(whole):
    saved = book.read(whole).to_dict()
    assert (saved["version"], saved["name"]) == (4, "The heap")
    assert saved["events"][0]["outcome"]["change"]["water_kg"] == pytest.approx(1.05)


def test_reading_changes_nothing_in_what_is_read():
    given = {"events": [dict(MIXED), dict(POURED)]}
    kept = copy.deepcopy(given)
    book.read(given)
    assert given == kept


def test_a_newer_book_is_refused_and_left_as_it_is():
    given = {"format": "sandmix book", "version": 5, "events": [{"kind": "melted", "new": [1]}], "more": {"x": 1}}
    kept = copy.deepcopy(given)
    assert "format 5" in refusal(book.read, given)[0]
    assert given == kept


def test_ids_are_in_order_and_never_used_twice():
    assert [event["id"] for event in written(MIXED, WATER, WATER).events] == ["e1", "e2", "e3"]
    opened = book.Book(name="", events=({**written(MIXED).events[0], "id": "e2"},))
    assert book.record(opened, WATER)["id"] == "e3"


def test_an_event_stores_its_words_as_typed_and_its_note():
    event = written({**MIXED, "make_kg": "30 kg", "note": "in the yard"}).events[0]
    assert (event["make_kg"], event["note"], event["at"]) == ("30 kg", "in the yard", AT)


def test_an_id_or_an_outcome_that_comes_with_an_event_is_ignored():
    forged = {**MIXED, "id": "mine", "outcome": {"change": {"grain_kg": 500}}}
    assert written(forged) == written(MIXED)


def test_recording_does_not_change_the_book():
    opened = written(MIXED)
    kept = copy.deepcopy(opened)
    book.record(opened, POURED)
    assert opened == kept


def test_a_stored_outcome_is_used_and_not_worked_out_again(monkeypatch):
    saved = written(MIXED, {**POURED, "sand_lost_kg": None}).to_dict()
    before = parts_of(book.read(saved))
    monkeypatch.setattr(sand_loss, "DEFAULT_SHARE", 0.5)
    assert parts_of(book.read(saved)) == before
    saved["events"][1]["outcome"]["change"] = {"grain_kg": -1.0}
    assert parts_of(book.read(saved))["grain_kg"] == pytest.approx(26.9235 - 1)


def test_a_new_event_uses_the_changed_default(monkeypatch):
    opened = written(MIXED)
    monkeypatch.setattr(sand_loss, "DEFAULT_SHARE", 0.5)
    after = book.record(opened, {**POURED, "sand_lost_kg": None})
    assert after["outcome"]["change"]["grain_kg"] == pytest.approx(-0.5 * 18 / 30 * 26.9235, rel=0.01)


def test_a_fourth_cast_loses_the_share_that_three_weighed_casts_taught():
    """Each loses 1 kg of 15 · 1.2 = 18 kg, 5.556 %. The fourth is not weighed, in a flask of 9 kg.

    In logarithms: spread 0.13386 √(4/6) = 0.10930, of the mean 0.06310; K = 0.35365²/(0.35365² + 0.06310²) = 0.96915; so
    −3.91202 + 0.96915 · 1.02165 = −2.92189: 5.383 %.
    """
    casts = [{**POURED, "sand_lost_kg": 1}] * 3
    opened = written(MIXED, *casts)
    assert [event["outcome"]["mould_loss_share"] for event in opened.events[1:]] == [pytest.approx(1 / 18)] * 3
    before = sum(parts_of(opened).values())
    fourth = book.record(opened, {**POURED, "sand_lost_kg": None, "flask_sand_kg": 9})["outcome"]
    assert fourth["how"] == "computed, learned"
    grain = parts_of(opened)["grain_kg"]
    assert -fourth["change"]["grain_kg"] == pytest.approx(9 * 0.05383 * grain / before, rel=0.005)


def test_the_shares_of_the_heap_in_an_older_book_count_as_shares_of_the_mould():
    """0.6 kg of a heap of 29.4 kg, weighed by version 2 for a cast of 1.2 kg: a thirtieth of 18 kg, or a twentieth of a flask of 12 kg."""
    for flask, share in (({}, 0.6 / 18), ({"flask_sand_kg": "12 kg"}, 0.6 / 12)):
        mixed, poured = written(MIXED, {**POURED, **flask}).to_dict()["events"]
        outcome = {name: part for name, part in poured["outcome"].items() if name != "mould_loss_share"}
        heap_kg = sum(mixed["outcome"]["change"].values())
        older = {**poured, "outcome": outcome | {"loss_share": 0.6 / heap_kg}}
        saved = {"format": "sandmix book", "version": 2, "name": "The heap", "events": [mixed, older]}
        opened = book.read(saved)
        assert opened.events[1] == older
        assert fold(opened.events).own_losses == (pytest.approx(share),)
        again = book.with_event(opened, correct("e2", sand_lost_kg=0.9))
        assert fold(again.events).own_losses == (pytest.approx(1.5 * share),)


def test_a_share_of_the_heap_whose_cast_can_not_be_read_is_not_learned_from():
    mixed, poured = written(MIXED, POURED).to_dict()["events"]
    outcome = {name: part for name, part in poured["outcome"].items() if name != "mould_loss_share"}
    older = {**poured, "metal_kg": "some", "outcome": outcome | {"loss_share": 0.02}}
    assert fold(book.read([mixed, older]).events).own_losses == ()


def test_an_undone_cast_does_not_count_for_the_mean_loss():
    opened = written(MIXED, {**POURED, "sand_lost_kg": 1})
    assert book.record(opened, {**POURED, "sand_lost_kg": None})["outcome"]["how"] == "computed, learned"
    opened = book.with_event(opened, undo("e2"))
    assert book.record(opened, {**POURED, "sand_lost_kg": None})["outcome"]["how"] == "computed, default"


@pytest.mark.parametrize("last", [POURED, WATER, {"kind": "discarded", "at": AT, "discard_kg": 3}])
def test_undoing_the_last_event_restores_the_heap(last):
    before = written(MIXED, POURED)
    after = written(MIXED, POURED, last, undo("e3"))
    assert parts_of(after) == pytest.approx(parts_of(before), abs=1e-12)
    assert fold(after.events).total.variances == pytest.approx(fold(before.events).total.variances, abs=1e-12)
    assert fold(after.events).casts == 1


def test_undoing_everything_leaves_nothing():
    opened = written(MIXED, POURED, WATER, undo("e3"), undo("e2"), undo("e1"))
    assert all(abs(kg) < 1e-12 for kg in parts_of(opened).values())
    assert fold(opened.events).sand.wet_kg == pytest.approx(0, abs=1e-12)


def test_undoing_an_early_event_takes_back_only_its_own_effect():
    """A kilogram of water that was never put in."""
    opened = written(MIXED, {**WATER, "water_kg": 1}, {"kind": "rained_on", "at": AT, "water_kg": 2}, undo("e2"))
    assert parts_of(opened)["water_kg"] == pytest.approx(1.05 + 2)


def test_an_event_that_would_leave_less_than_nothing_is_refused():
    """All the water dried off: the mixing that brought it can't be taken back any more."""
    opened = written(MIXED, {"kind": "dried", "at": AT, "water_kg": 5})
    [message] = refusal(book.record, opened, undo("e1"))
    assert "-1.05 kg of water" in message


def test_a_corrected_event_counts_as_if_recorded_that_way():
    corrected = written(MIXED, WATER, correct("e1", make_kg=40))
    assert parts_of(corrected) == pytest.approx(parts_of(written({**MIXED, "make_kg": 40}, WATER)))


def test_a_second_correction_does_not_cancel_the_first():
    corrected = written(MIXED, correct("e1", make_kg=40), correct("e1", clay_pct_dry=10))
    assert parts_of(corrected) == pytest.approx(parts_of(written({**MIXED, "make_kg": 40, "clay_pct_dry": 10})))


def test_a_correction_uses_the_heap_with_earlier_corrections():
    """Three kilograms were a slip for thirty, so five can have been thrown away."""
    away = {"kind": "discarded", "at": AT, "discard_kg": 2}
    opened = written({**MIXED, "make_kg": 3}, away, correct("e1", make_kg=30), correct("e2", discard_kg=5))
    assert sum(parts_of(opened).values()) == pytest.approx(25)
    assert parts_of(opened) == pytest.approx(parts_of(written(MIXED, {**away, "discard_kg": 5})))


def test_a_word_that_is_not_an_input_of_its_kind_is_stored_but_not_counted():
    more, plain = (book.record(written(MIXED), event) for event in ({**WATER, "heap_kg": 20}, WATER))
    assert more["heap_kg"] == 20
    assert more["outcome"]["change"] == plain["outcome"]["change"]
    assert "not counted: sand in the heap" in more["outcome"]["said"][-1]


@pytest.mark.parametrize("damaged", [{"a": 1}, [1], 3, None])
def test_an_entry_that_sets_back_what_is_no_figure_changes_nothing(damaged):
    plain = written(MIXED, WATER).to_dict()
    outcome = {"change": {}, "variance": {}, "how": "given", "by": "0.1.0", "said": []}
    set_back = {"id": "e3", "kind": "forgotten", "at": AT, "learned_figure": damaged, "outcome": outcome}
    opened = book.read(plain | {"events": [*plain["events"], set_back]})
    assert parts_of(opened) == parts_of(book.read(plain))
    assert readings(opened.events) == readings(book.read(plain).events)


def numbers(part, path=()):
    """The path to each number of plain data."""
    if isinstance(part, (dict, list)):
        for name, inner in part.items() if isinstance(part, dict) else enumerate(part):
            yield from numbers(inner, (*path, name))
    elif isinstance(part, (int, float)):
        yield path


MEASURED = {"kind": "measured", "at": "2026-05-11", "moisture_pct_wet": 3, "heap_gfn": 60}
FULL = {"events": [MIXED, POURED, WATER, MEASURED, correct("e2", metal_kg=1.3), undo("e3")]}
SAVED = book.read(FULL).to_dict()


@pytest.mark.parametrize("path", [*numbers(FULL), ("events", 4, "heap_gfn"), ("events", 5, "heap_gfn")], ids=repr)
@pytest.mark.parametrize("whole", [FULL, SAVED], ids=["bare", "saved"])
def test_a_number_that_is_not_finite_is_refused_in_words_wherever_it_stands(whole, path):
    """1e999 is valid JSON, and no number that could be written into a file again."""
    changed = copy.deepcopy(whole)
    inner = changed
    for name in path[:-1]:
        inner = inner[name]
    inner[path[-1]] = json.loads("1e999")
    for job in ("read_book", "heap", "plan"):
        more = {"box_mm": [160, 90, 30]} if job == "plan" else {}
        answer = json.loads(
            call(json.dumps({"job": job, "inputs": {"book": changed, **more}}).replace("Infinity", "1e999"))
        )
        assert not answer["ok"]
        assert "fault" not in answer
        assert "too large" in answer["problems"][0]["message"]


@pytest.mark.parametrize("path", [*numbers(SAVED["events"][0]["outcome"])], ids=repr)
def test_a_stored_outcome_that_is_not_finite_is_refused_in_words(path):
    changed = copy.deepcopy(SAVED)
    inner = changed["events"][0]["outcome"]
    for name in path[:-1]:
        inner = inner[name]
    inner[path[-1]] = json.loads("1e999")
    assert "something other than masses of sand" in refusal(book.read, changed)[0]


def test_a_new_entry_with_a_number_that_is_not_finite_names_it():
    inputs = {"book": written(MIXED).to_dict(), "event": {**MEASURED, "heap_gfn": "INFINITE"}}
    answer = json.loads(call(json.dumps({"job": "record", "inputs": inputs}).replace('"INFINITE"', "1e999")))
    assert [problem["word"] for problem in answer["problems"]] == ["heap_gfn"]
    assert (
        answer["problems"][0]["message"]
        == f"Entry 2: “{WORDS['heap_gfn'].label}” has a number that is far too large. Correct it."
    )


def test_the_last_of_two_corrections_of_a_word_counts():
    corrected = written(MIXED, correct("e1", make_kg=40), correct("e1", make_kg=50))
    assert parts_of(corrected) == pytest.approx(parts_of(written({**MIXED, "make_kg": 50})))


def test_undoing_a_corrected_event_takes_both_back():
    opened = written(MIXED, WATER, correct("e2", water_kg=0.9), undo("e2"))
    assert parts_of(opened) == pytest.approx(parts_of(written(MIXED)), abs=1e-12)


def test_a_corrected_cast_counts_with_its_correction():
    opened = written(MIXED, POURED, correct("e2", sand_lost_kg=1.5))
    assert parts_of(opened) == pytest.approx(parts_of(written(MIXED, {**POURED, "sand_lost_kg": 1.5})))
    assert (
        fold(opened.events).own_losses[0]
        == written(MIXED, {**POURED, "sand_lost_kg": 1.5}).events[1]["outcome"]["mould_loss_share"]
    )


GROWING = {
    "plain": lambda count: [MIXED, *[WATER] * (count - 1)],
    "undone": lambda count: [MIXED, *(each for at in range(2, count, 2) for each in (WATER, undo(f"e{at}")))],
    "corrected": lambda count: [
        MIXED, *(each for at in range(2, count, 2) for each in (WATER, correct(f"e{at}", water_kg=0.1)))
    ],
    "corrected at the end": lambda count: [
        MIXED, *[WATER] * (count // 2), *(correct(f"e{at}", water_kg=0.1) for at in range(2, count // 2))
    ],
    "tested and undone": lambda count: [
        MIXED,
        *(each for at in range(2, count, 2) for each in ({"kind": "measured", "at": AT, "heap_kg": 30}, undo(f"e{at}"))),
    ],
}  # fmt: skip


@pytest.mark.parametrize("how", GROWING)
def test_bare_events_are_read_in_time_that_grows_with_their_number(how):
    """Four times as many take four times as many steps, or five with a logarithm, and not sixteen: by calls of functions, and not by a clock."""
    calls = [steps(GROWING[how](count)) for count in (200, 800)]
    assert calls[1] < 5 * calls[0]


def steps(events):
    """How many calls of functions, those of the language itself counted, are needed to read them."""
    made = 0

    def counted(frame, what, _):
        nonlocal made
        made += what in ("call", "c_call")

    before = sys.getprofile()
    sys.setprofile(counted)
    try:
        book.read(events)
    finally:
        sys.setprofile(before)
    return made


STORED = {"change": {"grain_kg": 1.0}, "variance": {}, "how": "given", "by": "0.1.0", "said": []}
HOSTILE = [
    None,
    5,
    "text",
    True,
    {},
    [5],
    [[]],
    [None],
    {"format": "sandmix book", "version": 1},
    {"format": "sandmix book", "version": 1, "events": "abc"},
    {"format": "sandmix book", "version": 1, "events": {"a": 1}},
    {"format": "sandmix book", "version": True, "events": []},
    {"format": "sandmix book", "version": "1", "events": []},
    {"format": "sandmix book", "version": -1, "events": []},
    {"format": "sandmix book", "version": 10**400, "events": []},
    {"format": "sandmix book", "events": []},
    {"format": [], "version": 1, "events": []},
    {"version": 1, "events": []},
    {"name": 5, "events": []},
    {"name": "x" * 61, "events": []},
    [{**MIXED, "kind": "melted"}],
    [{**MIXED, "kind": []}],
    [{**MIXED, "kind": {}}],
    [{**MIXED, "kind": None}],
    [{**MIXED, "at": "then"}],
    [{**MIXED, "at": 5}],
    [{**MIXED, "note": 5}],
    [{**MIXED, "note": "x" * 501}],
    [{**MIXED, "id": ""}],
    [{**MIXED, "id": 5}],
    [{**MIXED, "id": "x" * 61}],
    [{**MIXED, "id": "a"}, {**MIXED, "id": "a"}],
    [{**MIXED, "make_kg": 10**400}],
    [{**MIXED, "make_kg": -1}],
    [{**MIXED, "colour": "red"}],
    [{"kind": "mixed", "at": AT}],
    [MIXED, undo("e2")],
    [MIXED, undo([])],
    [MIXED, undo(None)],
    [MIXED, undo("e1"), undo("e1")],
    [MIXED, undo("e1"), undo("e2")],
    [MIXED, undo("e1"), correct("e1", make_kg=1)],
    [undo("e1")],
    [MIXED, {"kind": "discarded", "at": AT, "discard_kg": 100}],
    [{**MIXED, "outcome": None}],
    [{**MIXED, "outcome": []}],
    [{**MIXED, "outcome": STORED | {"change": {"grain_kg": -1}}}],
    [{**MIXED, "outcome": STORED | {"change": {"grain_kg": 10**400}}}],
    [{**MIXED, "outcome": STORED | {"change": {"gold_kg": 1}}}],
    [{**MIXED, "outcome": STORED | {"variance": {"dry_kg": "1"}}}],
    [{**MIXED, "outcome": STORED | {"loss_share": "inf"}}],
    [{**MIXED, "outcome": STORED | {"loss_share": 10**400}}],
    [{**MIXED, "outcome": STORED | {"mould_loss_share": 1.5}}],
]


@pytest.mark.parametrize("data", HOSTILE, ids=lambda data: repr(data)[:60])
def test_data_that_is_not_a_book_is_refused_with_a_message(data):
    for message in refusal(book.read, data):
        assert message.endswith((".", "?")) and len(message) > 30


ALLOWED_BUT_ODD = [
    [{**MIXED, "outcome": STORED, "make_kg": 10**400}],
    [{**MIXED, "outcome": STORED, "make_kg": [{}]}],
    [{**MIXED, "outcome": STORED, "make_kg": {"value": {"a": []}, "unit": [1]}}],
    [{**MIXED, "outcome": STORED, "unheard_of": {"a": [1]}}],
    [{**MIXED, "outcome": STORED, "metal": "unobtainium"}],
    [
        {"kind": "poured", "at": AT, "metal": "unobtainium", "outcome": STORED},
        {"kind": "measured", "at": AT, "outcome": STORED},
    ],
    [{"kind": "poured", "at": AT, "metal": [], "outcome": STORED}, {"kind": "measured", "at": AT, "outcome": STORED}],
    [{**MIXED, "note": "\ud800"}],
    [{**MIXED, "id": "\udfff"}],
    [{**MIXED, "outcome": STORED | {"said": ["\ud800", 5, {}]}}],
    {"name": "\ud800", "events": [MIXED]},
]


@pytest.mark.parametrize("data", [*HOSTILE, *ALLOWED_BUT_ODD], ids=lambda data: repr(data)[:60])
def test_no_book_causes_a_fault(data):
    text = call(json.dumps({"job": "heap", "inputs": {"book": data, "now": AT}}))
    text.encode("utf-8")
    assert "fault" not in json.loads(text)


@pytest.mark.parametrize("text", ["[" * 100_000, '{"events":' * 50_000, "", "[", "nonsense", '[{"kind": "mixed"'])
def test_no_text_of_a_book_causes_a_fault(text):
    answer = json.loads(call(json.dumps({"job": "heap", "inputs": {"book": text}})))
    assert not answer["ok"]
    assert "fault" not in answer


def test_a_book_cut_off_at_any_character_is_refused():
    text = json.dumps(written(MIXED, POURED).to_dict())
    for end in range(1, len(text)):
        answer = json.loads(call(json.dumps({"job": "heap", "inputs": {"book": text[:end]}})))
        assert not answer["ok"]
        assert "fault" not in answer


def test_too_many_events_are_refused_before_any_is_read():
    [message] = refusal(book.read, [5] * 100_001)
    assert "100001" in message and "100000" in message


def test_a_problem_in_an_event_of_a_book_names_the_entry():
    [message] = refusal(book.read, [MIXED, WATER, {**MIXED, "make_kg": "7:1"}])
    assert message.startswith("The book, entry 3: New sand put in: “7:1”")


def test_a_problem_in_a_new_event_names_its_word():
    with pytest.raises(InputError) as refused:
        book.record(written(MIXED), {"kind": "joined", "at": AT, "joined_kg": "7:1"})
    assert [problem.word for problem in refused.value.problems] == ["joined_kg", "moisture_pct_wet", "clay_pct_dry"]
    assert refused.value.problems[0].message.startswith("Sand added from elsewhere: ")


def test_undone_events_are_listed():
    assert written(MIXED, WATER, undo("e2")).undone() == {"e2"}


def test_all_parts_are_counted():
    assert set(parts_of(written(MIXED))) == set(PARTS)


def test_a_book_that_was_just_read_is_kept_and_one_that_differs_in_kind_alone_is_not_taken_for_it():
    """In Python true equals 1, but a version that is true is refused."""
    first = {"format": book.FORMAT, "version": 1, "events": [MIXED]}
    assert book.read(first) is book.read(copy.deepcopy(first))
    with pytest.raises(InputError, match="not a number"):
        book.read(first | {"version": True})


def test_a_book_that_was_changed_in_place_is_read_anew():
    given = [MIXED]
    assert len(book.read(given).events) == 1
    given.append(POURED)
    assert [event["kind"] for event in book.read(given).events] == ["mixed", "poured"]
