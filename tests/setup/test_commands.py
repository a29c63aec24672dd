"""The texts of the two commands, and how a test run is summed up."""

from __future__ import annotations

import contextlib
import socket
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import serve
from provision import ROOT, Fault
from tests.run import BROWSER, FIREFOX, LONG, SITE, Suite, Tally, all_suites, choose, leave_out, outcomes_in, sum_up


@pytest.fixture(name="taken")
def _taken() -> Iterator[int]:
    with contextlib.closing(socket.create_server(("", 0))) as other:
        yield other.getsockname()[1]


def test_a_chosen_port_that_is_taken_is_refused_with_a_message(tmp_path: Path, taken: int) -> None:
    with pytest.raises(Fault, match=rf"^Port {taken} is taken by another program\. Choose another with --port\.$"):
        serve.start(tmp_path, taken)


def test_the_default_port_moves_on_to_the_next_free_one(
    tmp_path: Path, taken: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(serve, "PORT", taken)
    with serve.start(tmp_path, None) as server:
        assert taken < server.server_port < taken + serve.TRIES


def test_a_site_for_this_machine_only_listens_on_no_network(tmp_path: Path) -> None:
    with serve.start(tmp_path, None, host=serve.HERE) as server:
        assert server.server_address[0] == "127.0.0.1"
    words = serve.only_here_words(8000)
    assert "On this machine: http://localhost:8000/" in words
    assert "No other machine can open it." in words
    assert "phone on the same network" not in words


def test_the_command_passes_on_that_it_is_for_this_machine_only(monkeypatch: pytest.MonkeyPatch) -> None:
    given: list[bool] = []
    monkeypatch.setattr(serve, "serve", lambda options: given.append(options.only_here))
    assert (serve.main(["--only-here"]), serve.main([])) == (0, 0)
    assert given == [True, False]


def test_a_site_that_was_never_built_is_refused_with_a_message(tmp_path: Path) -> None:
    with pytest.raises(Fault, match=r"^No site has been built yet\. Run the command once without --no-build\.$"):
        serve.check_built(tmp_path)


def test_a_headers_file_that_cannot_be_read_stops_the_server(tmp_path: Path) -> None:
    (tmp_path / "index.html").touch()
    (tmp_path / "_headers").write_text("  X: nowhere\n")
    with pytest.raises(Fault, match="_headers"):
        serve.check_built(tmp_path)


@pytest.mark.parametrize("port", ["0", "65536", "-1", "eighty", "8000.5"])
def test_an_impossible_port_is_refused(port: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as caught:
        serve.main([f"--port={port}"])
    assert caught.value.code == 2
    assert "a port is a whole number from 1 to 65535" in capsys.readouterr().err


def test_the_text_for_plain_http_says_what_does_not_work_on_a_phone() -> None:
    words = serve.plain_words(8000, ["192.168.1.20"])
    assert "On this machine: http://localhost:8000/" in words
    assert "On a phone on the same network: http://192.168.1.20:8000/" in words
    assert "cannot store it" in words
    assert "--https" in words


def test_the_text_for_https_says_how_to_trust_the_certificate_and_to_remove_it() -> None:
    words = serve.secure_words(8000, 8001, ["192.168.1.20"], "AA:BB")
    assert "On a phone on the same network: https://192.168.1.20:8000/" in words
    assert f"http://192.168.1.20:8001/{serve.CERTIFICATE}" in words
    assert all(step in words for step in (*serve.TRUST_ON_ANDROID, *serve.TRUST_ON_IPHONE))
    assert "AA:BB" in words
    assert words.endswith("remove the certificate from the phone when you no longer need it.")


def test_without_a_network_the_text_promises_nothing_for_phones() -> None:
    assert "no network that a phone could share" in serve.plain_words(8000, [])


@pytest.mark.parametrize(
    ("closing", "counts"),
    [
        ("....\n12 passed in 0.52s\n", {"passed": 12}),
        ("=== 3 failed, 12 passed, 1 skipped, 2 warnings in 65.32s (0:01:05) ===\n",
         {"failed": 3, "passed": 12, "skipped": 1, "warnings": 2}),
        ("1 error in 0.10s\n", {"error": 1}),
        ("2 passed in 0.10s\nthen\n5 passed in 1.00s\n", {"passed": 5}),
        ("no tests ran in 0.01s\n", {}),
        ("12 passed, 3 failed\n", {}),
    ],
)  # fmt: skip
def test_a_suite_is_counted_by_its_closing_line(closing: str, counts: dict[str, int]) -> None:
    assert outcomes_in(closing) == counts


@pytest.mark.parametrize(
    ("tally", "strict", "status", "closing"),
    [
        (Tally(passed=5), False, 0, "5 passed, 0 failed"),
        (Tally(passed=5, skipped=2), False, 0, "5 passed, 0 failed, 2 skipped"),
        (Tally(passed=5, failed=1, trouble=["unit: 1 failed"]), False, 1, "5 passed, 1 failed"),
        (Tally(passed=5, left_out=["browser: none"]), False, 0, "5 passed, 0 failed"),
        (Tally(passed=5, left_out=["browser: none"]), True, 1, "5 passed, 1 failed"),
        (Tally(passed=5, spared=["engines: none"]), True, 0, "5 passed, 0 failed"),
    ],
)
def test_the_last_line_sums_up_and_agrees_with_the_exit_status(
    tally: Tally, strict: bool, status: int, closing: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert sum_up(tally, strict=strict) == status
    lines = capsys.readouterr().out.splitlines()
    assert lines[-1] == closing
    assert all(f"NOT RUN   {reason}" in lines for reason in tally.left_out + tally.spared)
    assert all(f"FAILED    {reason}" in lines for reason in tally.trouble)


def test_every_folder_with_tests_is_a_suite() -> None:
    folders = {file.parent.name for file in (ROOT / "tests").glob("*/test_*.py")}
    assert folders <= {suite.name.partition("/")[0] for suite in all_suites()}
    assert "setup" in folders


@pytest.mark.parametrize(
    ("environment", "outcome"),
    [({SITE: "here", FIREFOX: "here"}, "runs"), ({SITE: "here"}, "spared"), ({SITE: "here", LONG: "1"}, "left out"), ({}, "left out")],
)  # fmt: skip
def test_only_a_long_run_must_have_the_other_browsers(environment: dict[str, str], outcome: str) -> None:
    tally = Tally()
    left = leave_out(Suite(name="engines/firefox", command=(), needs=frozenset({SITE, FIREFOX})), environment, tally)
    assert {"runs": not left, "spared": bool(tally.spared), "left out": bool(tally.left_out)}[outcome]
    assert len(tally.spared) + len(tally.left_out) == left


def test_each_browser_is_asked_for_by_its_own_tests_only() -> None:
    needs = {suite.name: suite.needs for suite in all_suites()}
    assert needs["engines/firefox"] == {SITE, FIREFOX}
    assert needs["browser/offline"] == {SITE, BROWSER}


def test_an_unknown_suite_is_refused_with_a_list_of_the_known_ones() -> None:
    suites = [Suite(name="unit", command=()), Suite(name="browser", command=())]
    with pytest.raises(Fault, match=r"^There is no suite called brwser\. There are: browser, unit\.$"):
        choose(suites, ["unit", "brwser"])
    assert [suite.name for suite in choose(suites, ["unit"])] == ["unit"]


@pytest.mark.parametrize("command", ["site/serve.py", "tests/run.py"])
def test_each_command_shows_its_help_from_any_folder(command: str, tmp_path: Path) -> None:
    shown = subprocess.run(
        [sys.executable, ROOT / command, "--help"], cwd=tmp_path, capture_output=True, text=True, check=False
    )
    assert shown.returncode == 0
    assert shown.stdout.startswith(f"usage: {command}")
