"""A book that is watched: answered again after each change, also where the file is replaced or damaged, until Ctrl+C."""

from __future__ import annotations

import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from threading import Thread

import pytest
from interrupts import heed_ctrl_c

import sandmix
from sandmix.doors import cli, document_file, watch

ROOT = Path(sandmix.__file__).parents[1]
MIXED = {
    "kind": "mixed",
    "at": "2027-03-06T10:00:00Z",
    "make_kg": "45 kg",
    "clay_pct_dry": 7.5,
    "moisture_pct_wet": 3.4,
}
LOST = {"kind": "spilled", "at": "2027-03-07T10:00:00Z", "lost_kg": "5 kg"}
NOW = ("--now", "2027-03-08T10:00:00Z")
TIMEOUT_S = 30


def book(*events):
    return json.dumps({"format": "sandmix book", "version": 2, "name": "The hall", "events": [*events]})


class Watching:
    """A command that watches, and what it has printed so far."""

    def __init__(self, *arguments, cwd):
        self.process = subprocess.Popen(
            [sys.executable, "-m", "sandmix", *arguments],
            cwd=cwd,
            env=os.environ | {"PYTHONPATH": str(ROOT)},
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            preexec_fn=heed_ctrl_c,
        )
        self.out, self.err = [], []
        streams = ((self.process.stdout, self.out), (self.process.stderr, self.err))
        self.readers = [Thread(target=self.read, args=each) for each in streams]
        for reader in self.readers:
            reader.start()

    @staticmethod
    def read(stream, lines):
        with stream:
            lines.extend(stream)

    def waits_for(self, lines, text):
        """Wait until one of the lines has the text, then forget them."""
        ends = time.monotonic() + TIMEOUT_S
        while time.monotonic() < ends:
            if any(text in line for line in lines):
                lines.clear()
                return True
            time.sleep(0.05)
        return False

    def stops(self):
        self.process.send_signal(signal.SIGINT)
        return self.process.wait(TIMEOUT_S)


@pytest.fixture
def watching(tmp_path):
    started = []

    def start(*arguments):
        started.append(Watching(*arguments, cwd=tmp_path))
        return started[0]

    yield start
    for one in started:
        one.process.kill()
        one.process.wait()
        for reader in one.readers:
            reader.join()


def test_a_heap_is_answered_again_each_time_its_book_changes(watching, tmp_path):
    path = tmp_path / "heap.json"
    path.write_text(book(MIXED), "utf-8")
    heap = watching("heap", "--book", "heap.json", "--watch", "--json", *NOW)
    assert heap.waits_for(heap.out, '"heap_kg": 45.0')

    path.write_text(book(MIXED, LOST), "utf-8")
    assert heap.waits_for(heap.out, '"heap_kg": 40.0')

    path.write_text('{"format": "sandmix book", "eve', "utf-8")
    assert heap.waits_for(heap.err, "heap.json isn't JSON: it is damaged")

    (tmp_path / "new.json").write_text(book(MIXED), "utf-8")
    (tmp_path / "new.json").replace(path)
    assert heap.waits_for(heap.out, '"heap_kg": 45.0')

    path.unlink()
    assert heap.waits_for(heap.err, "There is no file heap.json")
    assert heap.process.poll() is None
    assert heap.stops() == 130
    assert heap.waits_for(heap.err, "Stopped.")


def test_a_change_is_answered_once_the_file_was_left_alone(tmp_path):
    path = tmp_path / "heap.json"
    path.write_text("1")
    writes = iter(["", "22", "333", "", "", "", "4444", ""])

    def pause():
        if text := next(writes):
            path.write_text(text)

    seen = watch.changes([str(path)], pause)
    for content in ("1", "333", "4444"):
        next(seen)
        assert path.read_text() == content


def test_a_change_while_the_answer_was_worked_out_is_answered_too(tmp_path):
    path = tmp_path / "heap.json"
    path.write_text("1")
    seen = watch.changes([str(path)], lambda: None)
    next(seen)
    path.write_text("22")
    next(seen)


def test_a_file_of_the_same_size_and_time_in_its_place_counts_as_changed(tmp_path):
    old, new = tmp_path / "old.json", tmp_path / "new.json"
    for path in (old, new):
        path.write_text("1")
        os.utime(path, ns=(10**18, 10**18))
    before = document_file.stamp(str(old))
    new.replace(old)
    assert document_file.stamp(str(old)) != before
    assert document_file.stamp(str(tmp_path / "none.json")) is None


def test_the_page_says_which_file_changed_and_when(tmp_path, monkeypatch, capsys):
    path = tmp_path / "heap.json"
    path.write_text(book(MIXED), "utf-8")
    monkeypatch.setattr(watch, "changes", lambda _: iter([None, None]))
    monkeypatch.setattr(document_file, "now_text", lambda: "2027-03-08T10:00:00Z")
    assert cli.main(["learned", "--book", str(path), "--watch"]) == 0
    out = capsys.readouterr().out
    assert out.count(f"--- {path} changed, 2027-03-08T10:00:00Z\n") == 1


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ("heap --book []", "the file of a book is watched. Name it with --book FILE."),
        ("tin", "the file of a book is watched. Name it with --book FILE."),
        ("heap --book heap.json --record poured", "a command that writes can't be repeated."),
        ("plan --book heap.json --casting hook.json --box 9x9x9cm", "the figures would be written into hook.json each time."),
    ],
)  # fmt: skip
def test_what_can_not_be_watched_is_refused_before_anything_is_written(arguments, said, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    assert cli.main([*arguments.split(), "--watch"]) == 2
    assert capsys.readouterr().err.startswith(f"--watch: {said}")
    assert [*tmp_path.iterdir()] == []
