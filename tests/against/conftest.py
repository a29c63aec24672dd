"""What the checks against sources share: asking a job as any door does, and the list of what was compared."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from against import published
from effort import is_long

from check_list import CHECKS, WRITE, read, written
from sandmix.doors.facade import call

STALE: list[str] = []
"""What is to be said at the end about a list that is not as the tests recorded it."""
UNWRITTEN: list[str] = []
"""What is to be said at the end where the list was to be written, and was not."""


@pytest.fixture(scope="session")
def ask() -> Callable[..., dict[str, Any]]:
    """Ask a job by name, its inputs as keywords, and return the whole answer."""

    def ask(job: str, **inputs: object) -> dict[str, Any]:
        return json.loads(call(json.dumps({"job": job, "inputs": inputs})))

    return ask


@pytest.fixture(scope="session")
def result(ask: Callable[..., dict[str, Any]]) -> Callable[..., dict[str, Any]]:
    """Ask a job that must answer, and return its figures."""

    def result(job: str, **inputs: object) -> dict[str, Any]:
        answer = ask(job, **inputs)
        assert answer["ok"], answer
        return answer["result"]

    return result


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--write-checks", action="store_true", help="write the list of checks again from these tests")


@pytest.hookimpl(wrapper=True)
def pytest_runtest_protocol(item: pytest.Item) -> Iterator[None]:
    published.NOW[:] = [item]
    return (yield)


def pytest_sessionfinish(session: pytest.Session, exitstatus: int) -> None:
    """Compare the list with what the tests recorded, for each file that ran whole; or write it."""
    ran = published.whole_files(session.config, session.items)
    writes = session.config.getoption("--write-checks", default=False)
    if exitstatus != pytest.ExitCode.OK or not ran:
        UNWRITTEN[:] = [f"{CHECKS.name} is left as it was: files of tests must run whole, and pass"] if writes else []
        return
    text = CHECKS.read_text(encoding="utf-8")
    now = written(published.after(read(text), published.recorded(), ran, long=is_long()))
    if writes:
        CHECKS.write_text(now, encoding="utf-8")
    elif now != text:
        old, new = set(text.splitlines()), set(now.splitlines())
        STALE[:] = [f"- {line}" for line in sorted(old - new)] + [f"+ {line}" for line in sorted(new - old)]
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Say what is not as recorded. It counts as an error, so that the closing line doesn't tell of passed tests alone."""
    for line in UNWRITTEN:
        terminalreporter.section(line)
    if STALE:
        title, said = f"{CHECKS.name} is not what these tests record", "write the list again"
        terminalreporter.section(title)
        for line in STALE[:40]:
            terminalreporter.line(line)
        terminalreporter.line(f"If that is right, write it: `{WRITE}`, or `pytest --write-checks` with these files.")
        error = pytest.TestReport(title, (CHECKS.name, None, ""), {}, "failed", said, "teardown")
        terminalreporter.stats.setdefault("error", []).append(error)
