"""The command line between a hostile terminal, a full disk and an impatient person: words, a status, and nothing lost."""

from __future__ import annotations

import fcntl
import json
import os
import pty
import resource
import signal
import subprocess
import sys
import termios
import time
from pathlib import Path

import pytest
from interrupts import heed_ctrl_c

import sandmix
from sandmix.book import book
from sandmix.doors import cli

ROOT = Path(sandmix.__file__).parent.parent
AROUND = {"PATH": os.environ.get("PATH", ""), "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"}
COMMAND = [sys.executable, "-m", "sandmix"]
RAIN = ("--record", "rained_on", "--at", "2026-05-02", "--water-kg", "0.1")
EVIL = "red \x1b[31m\x9b2J\x1b]0;title\x07‮ hook"


def run(*arguments, cwd, **how):
    how = {"stdin": subprocess.DEVNULL, "stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "env": AROUND} | how
    return subprocess.run([*COMMAND, *arguments], cwd=cwd, check=False, timeout=300, **how)


@pytest.fixture(name="heap")
def _heap(tmp_path):
    assert run("heap", "--book", "heap.json", *RAIN, cwd=tmp_path).returncode == 0
    return tmp_path / "heap.json"


@pytest.fixture(name="inside")
def _inside(tmp_path, monkeypatch, capsys):
    """Run a command in this process: its status, its output and its errors."""
    monkeypatch.chdir(tmp_path)

    def inside(*arguments):
        try:
            status = cli.main(arguments)
        except SystemExit as ended:
            status = ended.code
        return status, *capsys.readouterr()

    return inside


@pytest.mark.parametrize("as_json", [(), ("--json",)])
@pytest.mark.parametrize(
    "arguments",
    [
        ("heap", "--book", "evil.json"),
        ("plan", "--casting", "evil.json", "--book", "evil.json"),
        ("temper", "--heap", EVIL, "--metal", EVIL),
        ("pattern", "--mesh", "evil.stl"),
        ("pattern", "--mesh", f"{EVIL}.stl"),
        ("heap", "--book", f"{EVIL}.json"),
        ("heap", "--book", "evil.json", "--record", EVIL),
        (EVIL,),
        ("temper", f"--{EVIL}", "1"),
        ("temper", "--heap", "25", EVIL),
    ],
)
def test_nothing_printed_is_obeyed_by_a_terminal(tmp_path, inside, arguments, as_json):
    poured = {"kind": "poured", "at": "2026-05-02", "metal_kg": 1, "pattern": EVIL, "note": EVIL, "id": EVIL}
    mixed = {"kind": "mixed", "at": "2026-05-01", "make_kg": 30, "clay_pct_dry": 7, "moisture_pct_wet": 3.5}
    (tmp_path / "evil.json").write_text(json.dumps({"name": EVIL[:50], "events": [mixed, poured]}))
    (tmp_path / "evil.stl").write_bytes(b"solid x\nfacet " + EVIL.encode("latin-1", "replace") + b"\nvertex 1 2\n")
    status, out, err = inside(*arguments, *as_json)
    assert status in (0, 2)
    assert {letter for letter in out + err if not letter.isprintable() and letter != "\n"} == set()


@pytest.mark.parametrize("arguments", [("temper", "--moisture-pct-wet", "3"), ("describe",), ("temper", "--help")])
def test_a_full_output_gets_words_and_status_1(tmp_path, arguments):
    with Path("/dev/full").open("w") as full:
        ended = run(*arguments, cwd=tmp_path, stdout=full)
        assert ended.returncode == 1
        assert ended.stderr.decode().startswith("The answer can't be written: No space left on device.")
        assert len(ended.stderr.splitlines()) == 1
        assert run(*arguments, cwd=tmp_path, stdout=full, stderr=full).returncode == 1


def test_a_refusal_that_cannot_be_written_has_a_status(tmp_path):
    with Path("/dev/full").open("w") as full:
        assert run("temper", "--heap", "much", cwd=tmp_path, stderr=full).returncode == 1


def test_an_entry_is_in_the_book_though_its_answer_cannot_be_written(heap):
    with Path("/dev/full").open("w") as full:
        ended = run("heap", "--book", "heap.json", *RAIN, cwd=heap.parent, stdout=full)
    assert (ended.returncode, b"look in the book" in ended.stderr) == (1, True)
    assert len(book.read(json.loads(heap.read_text("utf-8"))).events) == 2


def test_a_full_disk_leaves_the_old_book(heap):
    before = heap.read_bytes()

    def fill():
        resource.setrlimit(resource.RLIMIT_FSIZE, (100, 100))

    ended = run("heap", "--book", "heap.json", *RAIN, cwd=heap.parent, preexec_fn=fill)
    assert ended.returncode == 2
    assert ended.stderr.decode().endswith("What was in it is unchanged.\n")
    assert heap.read_bytes() == before
    assert sorted(file.name for file in heap.parent.iterdir()) == ["heap.json", "heap.json.lock"]


@pytest.mark.parametrize(
    "arguments",
    [
        ("heap", "--book", "/dev/zero"),
        ("heap", "--book", "/dev/zero", *RAIN),
        ("heap", "--book", "fifo"),
        ("heap", "--book", "fifo", *RAIN),
        ("plan", "--casting", "fifo", "--heap", "45kg"),
        ("pattern", "--mesh", "/dev/zero"),
        ("pattern", "--mesh", "fifo"),
        ("blend", "--lots", '[{"kg": 20}]', "--into", "fifo"),
    ],
)
def test_a_device_or_a_pipe_is_refused_in_words(tmp_path, inside, arguments):
    os.mkfifo(tmp_path / "fifo")
    status, out, err = inside(*arguments)
    assert (status, out) == (2, "")
    assert "it isn't a file, but a folder, a device or a pipe" in err
    assert [file.name for file in tmp_path.iterdir()] == ["fifo"]


def test_call_reads_no_endless_input(tmp_path):
    with Path("/dev/zero").open("rb") as endless:
        ended = run("call", cwd=tmp_path, stdin=endless)
    assert ended.returncode == 2
    assert "the request is longer than" in json.loads(ended.stdout)["problems"][0]["message"]


@pytest.mark.parametrize(
    "said", [b'\xef\xbb\xbf{"job": "temper", "inputs": {"moisture_pct_wet": 3}}', b'{"job": "\xff"}']
)
def test_call_reads_utf_8_with_or_without_a_mark_in_any_locale(tmp_path, said):
    for spelled in ("ascii", "utf-8:strict"):
        ended = run("call", cwd=tmp_path, stdin=None, input=said, env=AROUND | {"PYTHONIOENCODING": spelled})
        assert (ended.returncode, ended.stderr) == (0 if b"temper" in said else 2, b"")
        assert json.loads(ended.stdout)["ok"] is (b"temper" in said)


def test_ctrl_c_gets_a_word_and_status_130_and_the_book_stays(heap):
    before = heap.read_bytes()
    with Path(f"{heap}.lock").open("r+") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        command = [*COMMAND, "heap", "--book", str(heap), *RAIN]
        listening = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, "preexec_fn": heed_ctrl_c}
        with subprocess.Popen(command, env=AROUND, **listening) as waiting:
            ends = time.monotonic() + 30
            while not has_open(waiting.pid, f"{heap}.lock") and time.monotonic() < ends:
                time.sleep(0.01)
            waiting.send_signal(signal.SIGINT)
            out, err = waiting.communicate(timeout=30)
    assert (waiting.returncode, out) == (130, b"")
    assert err.decode().strip() == "Stopped. A file that was being written is as it was, or has the whole entry."
    assert heap.read_bytes() == before


def has_open(pid, path):
    folder = Path(f"/proc/{pid}/fd")
    return any(os.path.realpath(handle) == path for handle in folder.iterdir())


def test_a_read_only_casting_gets_no_half_of_an_entry(tmp_path):
    """The entry would be in the book, and the casting would offer it again."""
    plan = ("plan", "--casting", "a.json", "--book", "heap.json")
    strap = ("--box", "160 x 90 x 30 mm", "--casting-volume", "300 cm³", "--flasks", "290 x 200 x 90 + 90 mm")
    at = ("--at", "2026-05-01", "--now", "2026-05-01")
    mixed = ("--record", "mixed", "--make-kg", "45", "--clay-pct-dry", "7", "--moisture-pct-wet", "3.5")
    assert run("heap", "--book", "heap.json", *mixed, *at, cwd=tmp_path).returncode == 0
    tested = ("--record", "measured", "--moisture-pct-wet", "3.4")
    assert run("heap", "--book", "heap.json", *tested, *at, cwd=tmp_path).returncode == 0
    assert run(*plan, *strap, cwd=tmp_path).returncode == 0
    (tmp_path / "a.json").chmod(0o444)
    before = (tmp_path / "heap.json").read_bytes()
    ended = run(*plan, "--record", "poured", "--now", "2026-05-01", cwd=tmp_path)
    assert (ended.returncode, b"a.json is read-only. Nothing was changed." in ended.stderr) == (2, True)
    assert (tmp_path / "heap.json").read_bytes() == before


def test_the_width_is_that_of_the_terminal(tmp_path):
    ours, theirs = pty.openpty()
    termios.tcsetwinsize(theirs, (24, 50))
    command = [*COMMAND, "temper", "--moisture-pct-wet", "3"]
    with subprocess.Popen(command, env=AROUND, cwd=tmp_path, stdout=theirs, stderr=theirs, stdin=theirs) as shown:
        os.close(theirs)
        said = b""
        try:
            while part := os.read(ours, 4096):
                said += part
        except OSError:  # the other end is closed
            pass
    os.close(ours)
    lines = said.decode().splitlines()
    assert (shown.returncode, len(lines) > 20) == (0, True)
    assert max(map(len, lines)) <= 50
