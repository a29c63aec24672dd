"""The heap book from the command line, called from inside."""

import json
import os
from pathlib import Path

import pytest

from sandmix.book import book
from sandmix.doors import cli, facade

MIX = ("--record", "mixed", "--make-kg", "30", "--clay-pct-dry", "7", "--moisture-pct-wet", "3.5", "--at", "2026-05-02")
WATER = ("--record", "tempered", "--water", "200 g", "--at", "2026-05-03")


@pytest.fixture
def heap(capsys, tmp_path):
    """Run `heap` on a book in a file and return its exit status, its output and its errors."""
    path = tmp_path / "heap.json"

    def heap(*arguments):
        status = cli.main(["heap", "--book", str(path), *arguments])
        printed = capsys.readouterr()
        return status, printed.out, printed.err

    heap.path = path
    return heap


def events(path):
    return book.read(json.loads(Path(path).read_text("utf-8"))).events


def test_the_first_entry_creates_the_file(heap):
    status, out, err = heap(*MIX, "--now", "2026-05-02")
    assert (status, err) == (0, "")
    assert out.startswith("30.00 kg at 3.5 % water")
    assert [event["kind"] for event in events(heap.path)] == ["mixed"]


def test_entries_are_appended_and_the_old_ones_stay_exactly_the_same(heap):
    heap(*MIX)
    [first] = events(heap.path)
    heap(*WATER)
    assert events(heap.path)[0] == first
    assert events(heap.path)[1]["outcome"]["change"] == {"water_kg": 0.2}


def test_undoing_and_correcting_are_events(heap):
    heap(*MIX)
    heap(*WATER)
    assert heap("--record", "corrected", "--of", "e2", "--water", "300 g")[0] == 0
    assert heap("--record", "undone", "--of", "e2")[0] == 0
    assert [event["kind"] for event in events(heap.path)] == ["mixed", "tempered", "corrected", "undone"]
    assert json.loads(heap("--json")[1])["result"]["heap_kg"] == pytest.approx(30)


def test_an_entry_without_a_time_gets_the_time_now(heap):
    heap(*MIX, "--now", "2026-05-20")
    heap("--record", "tempered", "--water", "1", "--now", "2026-06-01T10:00Z")
    assert [event["at"] for event in events(heap.path)] == ["2026-05-02", "2026-06-01T10:00Z"]


REFUSED = [
    (("--record", "pored"), "“pored” isn't a kind of entry. Did you mean poured? Nothing was recorded."),
    (("--record", "melted"), "isn't a kind of entry"),
    (("--record", "tempered"), "either the water or the moisture"),
    (("--record", "tempered", "--water", "much"), "“much” isn't a number"),
    (("--record", "tempered", "--water", "1", "--at", "then"), "isn't a date and time"),
    (("--record", "discarded", "--discard", "100"), "more than the 30 kg"),
    (("--record", "undone", "--of", "e9"), "no earlier entry “e9”"),
    (("--record", "undone"), "no earlier entry"),
    (("--water", "1"), "Name its kind with --record."),
]


@pytest.mark.parametrize(("arguments", "text"), REFUSED)
def test_a_refused_entry_is_not_in_the_book(heap, arguments, text):
    heap(*MIX)
    before = heap.path.read_bytes()
    status, out, err = heap(*arguments)
    assert (status, out) == (2, "")
    assert text in err
    assert heap.path.read_bytes() == before


def test_a_refused_entry_creates_no_file(heap):
    assert heap("--record", "tempered")[0] == 2
    assert not heap.path.exists()


@pytest.mark.parametrize(
    "content",
    [
        '{"format": "sandmix book", "version": 5, "events": []}',
        '{"format": "shopping list", "version": 1}',
        "[",
        "{}",
        '[{"kind": [], "at": "2026-05-02"}]',
    ],
)
def test_a_file_that_is_not_a_book_is_unchanged(heap, content):
    heap.path.write_text(content)
    for arguments in (WATER, ()):
        status, out, err = heap(*arguments)
        assert (status, out) == (2, "")
        assert err.strip().endswith(".")
        assert "fault" not in err
    assert heap.path.read_text() == content


def test_an_entry_that_would_make_the_book_too_long_is_refused(heap, monkeypatch):
    heap(*MIX)
    before = heap.path.read_bytes()
    monkeypatch.setattr(facade, "LONGEST_TEXT", len(before))
    assert heap(*WATER)[0] == 2
    assert heap.path.read_bytes() == before


def test_an_entry_needs_a_file(capsys):
    assert cli.main(["heap", "--book", "[]", *MIX]) == 2
    assert "recorded in a file" in capsys.readouterr().err


def test_a_book_typed_in_is_answered(capsys):
    assert cli.main(["heap", "--book", "[]"]) == 0
    assert "The book is empty" in capsys.readouterr().out


def test_bytes_in_a_note_that_are_not_text_become_question_marks(heap):
    heap(*MIX, "--note", os.fsdecode(b"wet \xff"))
    assert events(heap.path)[0]["note"] == "wet ?"


def test_every_word_of_an_entry_has_an_option(capsys):
    with pytest.raises(SystemExit):
        cli.main(["heap", "--help"])
    text = capsys.readouterr().out
    for option in ("--record", "--at", "--note", "--of", "--metal", "--pattern", "--sand-lost", "--discard"):
        assert option in text


LOTS = '[{"kg": "20 kg", "clay_pct_dry": 6}, {"kg": "10 kg"}]'


def blend(capsys, path, *arguments):
    status = cli.main(["blend", "--lots", LOTS, "--target-clay-pct-dry", "7", "--into", str(path), *arguments])
    return status, *capsys.readouterr()


def test_a_blend_is_recorded_in_the_book_of_a_new_heap(capsys, tmp_path):
    path = tmp_path / "heap.json"
    assert blend(capsys, path)[0] == 0
    assert [event["kind"] for event in events(path)] == ["joined", "joined", "added"]


def test_a_blend_is_not_recorded_in_a_heap_with_sand(capsys, heap):
    heap(*MIX)
    status, out, err = blend(capsys, heap.path)
    assert (status, out) == (2, "")
    assert "already holds 30 kg of sand" in err
    assert len(events(heap.path)) == 1


def test_a_blend_with_too_little_sand_is_not_recorded(capsys, tmp_path):
    status, _, err = blend(capsys, tmp_path / "heap.json", "--make-kg", "40", "--json")
    assert status == 2
    assert "the lots are not enough" in err
    assert not (tmp_path / "heap.json").exists()


def test_a_blend_that_is_refused_writes_nothing(capsys, tmp_path):
    assert blend(capsys, tmp_path / "heap.json", "--make-kg", "much")[0] == 2
    assert not (tmp_path / "heap.json").exists()


def test_the_last_entry_is_printed_with_the_command_that_undoes_it(heap):
    """200 g of water went in; its id is what undoing asks for."""
    heap(*MIX)
    _, out, _ = heap(*WATER)
    flat = " ".join(out.split())
    assert (
        "Last entry in the book - e2, 2026-05-03: water was added: water 200 g - water added - water +0.200 kg" in flat
    )
    assert "--record undone --of e2 undoes it." in flat
    _, out, _ = heap("--record", "undone", "--of", "e2")
    assert "undoes it" not in out
    assert "In the book" not in heap("--json")[1]


def test_a_missing_shape_is_refused_without_a_system_error_code(capsys):
    assert cli.main(["pattern", "--mesh", "no such.stl"]) == 2
    assert (
        capsys.readouterr().err == "no such.stl can't be read: there is no such file. Check its name and its folder.\n"
    )
    assert cli.main(["pattern", "--mesh", os.curdir]) == 2
    assert "Errno" not in capsys.readouterr().err
