"""The heap book's file with several writers and with SIGKILL, and random books (by `tests/bench/books.py`)."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from pathlib import Path

import pytest
from effort import is_long

import sandmix
from sandmix.book import book
from sandmix.casting import casting
from sandmix.doors import document_file
from sandmix.language.errors import SandmixError

ROOT = Path(sandmix.__file__).parent.parent
BENCH = ROOT / "tests" / "bench" / "books.py"
AROUND = {"PATH": os.environ.get("PATH", ""), "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"}
AT = "2026-05-02"


def append(path, note, **how):
    words = ["--record", "rained_on", "--at", AT, "--water-kg", "0.01", "--note", note]
    command = [sys.executable, "-m", "sandmix", "heap", "--book", str(path), *words]
    return subprocess.Popen(command, env=AROUND, stdout=subprocess.DEVNULL, **({"stderr": subprocess.DEVNULL} | how))


def notes(path):
    return [event["note"] for event in book.read(json.loads(path.read_text("utf-8"))).events]


def test_several_writers_at_once_lose_nothing(tmp_path):
    path = tmp_path / "heap.json"
    running = [append(path, f"n{at}", stderr=subprocess.PIPE) for at in range(6)]
    results = [writer.communicate(timeout=60)[1] for writer in running]
    assert [(writer.returncode, words) for writer, words in zip(running, results, strict=True)] == [(0, b"")] * 6
    assert sorted(notes(path)) == [f"n{at}" for at in range(6)]


def test_several_writers_of_one_casting_lose_no_figure(tmp_path):
    path = tmp_path / "hooks.json"
    figures = {"heap": "45kg", "crucible": "1.2 L", "box": "160 x 90 x 30 mm", "sand-bag": "25kg", "clay-bag": "10kg"}
    running = [
        subprocess.Popen(
            [sys.executable, "-m", "sandmix", "plan", "--casting", str(path), f"--{option}", text],
            env=AROUND,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        for option, text in figures.items()
    ]
    assert {writer.wait(60) for writer in running} <= {0, 2}
    assert sorted(casting.read(json.loads(path.read_text("utf-8"))).figures.values()) == sorted(figures.values())


def test_a_reader_always_sees_a_complete_book_while_others_write(tmp_path):
    path = tmp_path / "heap.json"
    assert append(path, "first").wait(60) == 0
    running, seen = [append(path, f"n{at}") for at in range(3)], set()
    while any(writer.poll() is None for writer in running):
        seen.add(len(notes(path)))
        time.sleep(0.001)
    for writer in running:
        writer.communicate()
    assert seen <= {1, 2, 3, 4}
    assert len(notes(path)) == 4


def test_a_writer_that_waits_too_long_is_refused_and_changes_nothing(tmp_path, monkeypatch):
    pytest.importorskip("fcntl")
    path = str(tmp_path / "heap.json")
    old = book.read([]).to_dict()
    document_file.change(path, lambda _: old)
    monkeypatch.setattr(document_file, "WAIT_S", 0.2)

    def while_another_writes(data):
        with pytest.raises(SandmixError, match="Another program is writing"):
            document_file.change(path, lambda _: {**old, "events": ["lost"]})
        return data

    document_file.change(path, while_another_writes)
    assert document_file.read(path) == old


def test_a_killed_writer_releases_its_lock(tmp_path):
    path = tmp_path / "heap.json"
    held = (
        "import sys, time; from sandmix.doors import document_file\n"
        "def hold(_):\n    print('held', flush=True); time.sleep(60)\n"
        "document_file.change(sys.argv[1], hold)"
    )
    with subprocess.Popen([sys.executable, "-c", held, str(path)], env=AROUND, stdout=subprocess.PIPE) as holder:
        assert holder.stdout is not None and holder.stdout.readline() == b"held\n"
        holder.kill()
    assert append(path, "after").wait(60) == 0
    assert notes(path) == ["after"]


def test_random_books_account_for_every_gram_and_a_kill_leaves_the_old_book_or_the_new():
    books, kills = ("1000", "10") if is_long() else ("200", "3")
    command = [sys.executable, str(BENCH), "--no-folds", "--books", books, "--kills", kills, "--seed", "7"]
    run = subprocess.run(command, env=AROUND, capture_output=True, text=True, timeout=300, check=False)
    assert run.returncode == 0, run.stdout + run.stderr
    assert "0 with mass not accounted for" in run.stdout
    assert "0 files not whole, 0 acknowledged events lost" in run.stdout


def test_a_blend_is_recorded_in_a_new_book_and_never_in_a_heap(tmp_path):
    path = tmp_path / "heap.json"
    lots = '[{"kg": 20, "clay_pct_dry": 6}, {"kg": 10}]'
    command = [
        sys.executable,
        "-m",
        "sandmix",
        "blend",
        "--lots",
        lots,
        "--target-clay-pct-dry",
        "7",
        "--into",
        str(path),
    ]
    first = subprocess.run(command, env=AROUND, capture_output=True, text=True, timeout=60, check=False)
    assert (first.returncode, first.stderr) == (0, "")
    kinds = [event["kind"] for event in book.read(json.loads(path.read_text("utf-8"))).events]
    assert kinds == ["joined", "joined", "added"]
    before = path.read_bytes()
    again = subprocess.run(command, env=AROUND, capture_output=True, text=True, timeout=60, check=False)
    assert again.returncode == 2
    assert "into an empty heap" in again.stderr
    assert path.read_bytes() == before
