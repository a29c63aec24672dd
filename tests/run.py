"""Set everything up, then run every test: `python3 tests/run.py`, on a machine that has only Python.

A folder of tests with a `test_*.py` is a suite for pytest, and one with a `run.py` is a suite that runs itself; there is
no list of them. The browsers' tests are a suite for each file, so that two of them can run at once. A suite whose files
mention SANDMIX_SITE gets the built site, and one that mentions SANDMIX_CHROMIUM gets a browser. As many suites run at
once as the machine has processors. The last line sums up all suites. With `--strict`, or with CI=true, nothing may be
left out, except Firefox and WebKitGTK where they are not installed; with `--long` they must be there too. A long run also
takes all steps in these two and all tests with the mark `full`, tries each property on sixteen times as many random examples,
uses the whole Chromium and not its part without a window, and measures the coverage of the library.
"""

from __future__ import annotations

import argparse
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterable, Sequence
from concurrent.futures import Future, ThreadPoolExecutor, as_completed
from dataclasses import dataclass, field, replace
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "site"))

from provision import ROOT, Fault, Machine, Venv, bring_browser, set_up, this_machine
from serve import build_site

TESTS = ROOT / "tests"
SITE = "SANDMIX_SITE"
BROWSER = "SANDMIX_CHROMIUM"
FIREFOX = "SANDMIX_FIREFOX"
WEBKIT = "SANDMIX_WEBKIT"
HANDED = {
    SITE: "built site",
    BROWSER: "Chromium or Chrome",
    FIREFOX: "Firefox",
    WEBKIT: "WebKitWebDriver with xvfb-run",
}
SPARE = {FIREFOX: (("firefox-esr",), ("firefox",)), WEBKIT: (("WebKitWebDriver", "xvfb-run"),)}
"""The browsers that only a long run must have, and the programs of each: all of one row are needed, the first is handed on."""
CHECKED = ("sandmix", "site", "tests")
COVERING = ("unit", "messages", "doors")
"""The suites that count for coverage; measuring the others too would cost minutes and reach no more lines."""
LONGEST_FIRST = (
    *("property", "browser/answers", "browser/pattern", "browser/book", "browser/offline", "browser/pour_day", "unit"),
    *("against", "inside", "browser/snapshot", "browser/accessible", "doors", "browser", "engines"),
)
"""Suites, or folders of them, in the order in which they begin."""
BY_FILE = ("browser", "engines")
"""The folders whose files are suites of their own."""
LONG = "SANDMIX_LONG"
AGAINST = "against"
"""The suite that records the list of checks."""
FAILED_OUTCOMES = ("failed", "error", "errors")
NO_TESTS_RAN = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Suite:
    """One suite: a command for the virtual environment's Python, and what it needs."""

    name: str
    command: tuple[str, ...]
    counts_itself: bool = True
    covers: bool = False
    needs: frozenset[str] = frozenset()


@dataclass(slots=True, kw_only=True)
class Tally:
    """The results of the suites."""

    passed: int = 0
    failed: int = 0
    skipped: int = 0
    trouble: list[str] = field(default_factory=list)
    left_out: list[str] = field(default_factory=list)
    spared: list[str] = field(default_factory=list)
    """What a usual run may do without."""

    def closing_line(self) -> str:
        line = f"{self.passed} passed, {self.failed} failed"
        return f"{line}, {self.skipped} skipped" if self.skipped else line


def all_suites() -> list[Suite]:
    """All suites: the checks of the source, the examples in docstrings, then one for each folder."""
    checks = [
        Suite(name="lint", command=("ruff", "check", *CHECKED), counts_itself=False),
        Suite(name="types", command=("mypy",), counts_itself=False),
        Suite(name="examples", command=("pytest", "--doctest-modules", "sandmix"), covers=True),
    ]
    return checks + [suite for folder in sorted(TESTS.iterdir()) for suite in _suites_of(folder)]


def _suites_of(folder: Path) -> Iterable[Suite]:
    needs = _needs(folder.rglob("*.py") if folder.is_dir() else ())
    if (folder / "run.py").exists():
        yield Suite(name=folder.name, command=(str(folder / "run.py"),), needs=needs)
    elif folder.name in BY_FILE:
        for file in sorted(folder.glob("test_*.py"), key=lambda file: -file.stat().st_size):
            name = f"{folder.name}/{file.stem.removeprefix('test_')}"
            own = _needs([file, *(other for other in folder.glob("*.py") if not other.name.startswith("test_"))])
            yield Suite(name=name, command=("pytest", str(file)), needs=own)
    elif any(folder.rglob("test_*.py")):
        yield Suite(name=folder.name, command=("pytest", str(folder)), covers=folder.name in COVERING, needs=needs)


def _needs(files: Iterable[Path]) -> frozenset[str]:
    sources = [file.read_text(encoding="utf-8") for file in files]
    return frozenset(name for name in HANDED if any(name in source for source in sources))


def choose(suites: Sequence[Suite], only: Sequence[str]) -> list[Suite]:
    """The named suites, or all; the name of a folder stands for all its suites.

    Raises Fault for an unknown name.
    """
    known = {name for suite in suites for name in (suite.name, _folder(suite))}
    unknown = [name for name in only if name not in known]
    if unknown:
        raise Fault(f"There is no suite called {', '.join(unknown)}. There are: {', '.join(sorted(known))}.", status=2)
    return [suite for suite in suites if not only or {suite.name, _folder(suite)} & {*only}]


def _place(suite: Suite) -> int:
    """Where a suite stands in the order of the run."""
    named = suite.name if suite.name in LONGEST_FIRST else _folder(suite)
    return (*LONGEST_FIRST, named).index(named)


def _folder(suite: Suite) -> str:
    return suite.name.partition("/")[0]


def bring(suites: Sequence[Suite], venv: Venv, machine: Machine, tally: Tally, *, long: bool) -> dict[str, str]:
    """The site and the browser, if these suites need them; what is missing is noted in the tally."""
    needed = frozenset[str]().union(*(suite.needs for suite in suites))
    handed: dict[str, str] = {}
    if SITE in needed:
        print("Building the site.", flush=True)
        try:
            handed[SITE] = str(build_site(venv))
        except Fault as fault:
            tally.failed += 1
            tally.trouble.append(f"site: {fault}")
    if BROWSER in needed:
        try:
            handed[BROWSER] = bring_browser(machine, whole=long)
        except Fault as fault:
            print(fault, flush=True)
    for name in needed & SPARE.keys():
        for programs in SPARE[name]:
            paths = [machine.which(program) for program in programs]
            if paths[0] and all(paths):
                handed.setdefault(name, paths[0])
    return handed


def environment_of(venv: Venv, handed: dict[str, str]) -> dict[str, str]:
    """The environment of the suites: the venv's commands first, and only the site and browser given here.

    Playwright gets our Node.js, since its own needs a library (libatomic) that a bare Debian lacks.
    """
    seen = {name: value for name, value in venv.environment().items() if name not in HANDED}
    node = shutil.which("node", path=seen["PATH"])
    return seen | handed | ({"PLAYWRIGHT_NODEJS_PATH": node} if node else {})


def run_suite(suite: Suite, venv: Venv, environment: dict[str, str]) -> tuple[int, str, float]:
    """Run one suite; return its exit status, its output, and its time in s."""
    started = time.monotonic()
    done = subprocess.run(
        _command(suite, venv), cwd=ROOT, env=environment, stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace", check=False,
    )  # fmt: skip
    return done.returncode, done.stdout, time.monotonic() - started


def run_all(suites: Sequence[Suite], venv: Venv, environment: dict[str, str], tally: Tally) -> None:
    """Run the suites at the same time, the longest first, and print the output of each when it ends."""
    ready = [suite for suite in suites if not leave_out(suite, environment, tally)]
    ready.sort(key=_place)
    print(f"Running {', '.join(suite.name for suite in ready)}; the output of each is shown when it ends.", flush=True)
    with ThreadPoolExecutor(max_workers=os.cpu_count() or 1) as pool:
        running: dict[Future[tuple[int, str, float]], Suite] = {
            pool.submit(run_suite, suite, venv, environment): suite for suite in ready
        }
        for ended in as_completed(running):
            suite, (status, output, seconds) = running[ended], ended.result()
            print(f"\n=== {suite.name}\n{output.rstrip()}\n=== {suite.name}: {seconds:.1f} s", flush=True)
            note(suite, status, output, tally)


def leave_out(suite: Suite, environment: dict[str, str], tally: Tally) -> bool:
    """Whether something that this suite needs is missing; that is noted in the tally."""
    missing = suite.needs - environment.keys()
    if missing:
        why = f"{suite.name}: there is no {' and no '.join(HANDED[name] for name in sorted(missing))}"
        (tally.spared if missing <= SPARE.keys() and LONG not in environment else tally.left_out).append(why)
    return bool(missing)


def note(suite: Suite, status: int, output: str, tally: Tally) -> None:
    """Add the result of a suite to the tally."""
    outcomes = outcomes_in(output) if suite.counts_itself else Counter({"failed" if status else "passed": 1})
    failed = sum(outcomes[name] for name in FAILED_OUTCOMES)
    if status and not failed:
        failed = 1
    tally.passed += outcomes["passed"]
    tally.failed += failed
    tally.skipped += outcomes["skipped"]
    if status == NO_TESTS_RAN and suite.counts_itself:
        tally.trouble.append(f"{suite.name}: it has no test")
    elif status:
        tally.trouble.append(f"{suite.name}: {failed} failed (exit status {status})")
    elif not outcomes["passed"]:
        tally.left_out.append(f"{suite.name}: nothing in it passed or failed")
    if outcomes["skipped"]:
        tally.left_out.append(f"{suite.name}: {outcomes['skipped']} skipped, reasons above")


def outcomes_in(output: str) -> Counter[str]:
    """The counts in pytest's closing line: `3 failed, 12 passed, 1 skipped in 0.52s`."""
    closing = re.findall(r"^=* ?((?:\d+ [a-z]+(?:, )?)+) in [\d.]+s", output, flags=re.MULTILINE)
    pairs = re.findall(r"(\d+) ([a-z]+)", closing[-1]) if closing else []
    return Counter({word: int(count) for count, word in pairs})


def _command(suite: Suite, venv: Venv) -> list[str]:
    tool, *rest = suite.command
    if tool.endswith(".py"):
        return [str(venv.python), tool, *rest]
    watched = ("-m", "coverage", "run", "--parallel-mode") if suite.covers else ()
    terse = ("-q", "-ra") if tool == "pytest" else ()
    return [str(venv.python), *watched, "-m", tool, *rest, *terse]


def _run_aloud(command: Sequence[str], environment: dict[str, str]) -> tuple[int, str]:
    lines = []
    with subprocess.Popen(
        command, cwd=ROOT, env=environment, stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, errors="replace",
    ) as running:  # fmt: skip
        for line in running.stdout or ():
            print(line, end="", flush=True)
            lines.append(line)
    return running.returncode, "".join(lines)


def set_up_for(suites: Sequence[Suite], machine: Machine) -> Venv:
    """The virtual environment; while the tests' packages are installed, the Python of the pages is made, which takes as long."""
    venv = set_up(machine)
    if not any(SITE in suite.needs for suite in suites):
        return set_up(machine, tests=True)
    with tempfile.TemporaryDirectory(prefix="sandmix-python-") as folder:
        command = [str(venv.python), str(ROOT / "site/runtime.py"), folder]
        nowhere = subprocess.DEVNULL
        with subprocess.Popen(command, cwd=ROOT, env=venv.environment(), stdin=nowhere, stdout=nowhere, stderr=nowhere):
            return set_up(machine, tests=True)


def report_coverage(venv: Venv, environment: dict[str, str], tally: Tally) -> None:
    """Show which lines and branches of sandmix no test reached; the floor is set in pyproject.toml."""
    print("\n=== coverage of sandmix", flush=True)
    coverage = [str(venv.python), "-m", "coverage"]
    _run_aloud([*coverage, "combine", "--quiet"], environment)
    status, _ = _run_aloud([*coverage, "report"], environment)
    tally.passed += not status
    tally.failed += bool(status)
    if status:
        tally.trouble.append("coverage: below the floor that pyproject.toml sets, or not measured")


def run(options: argparse.Namespace) -> int:
    """Set up, run the chosen suites and sum up; return the exit status."""
    started = time.monotonic()
    suites = choose(all_suites(), options.only)
    if not options.long:
        suites = [replace(suite, covers=False) for suite in suites]
    machine, tally = this_machine(), Tally()
    venv = set_up_for(suites, machine)
    with tempfile.TemporaryDirectory(prefix="sandmix-tests-") as scratch:
        handed = bring(suites, venv, machine, tally, long=options.long)
        environment = environment_of(venv, handed) | {"COVERAGE_FILE": str(Path(scratch) / "coverage")}
        environment |= {LONG: "1"} if options.long else {}
        if options.write_checks:
            suites = [replace(suite, command=(*suite.command, "--write-checks")) for suite in suites]
        run_all(suites, venv, environment, tally)
        if options.long and not options.only:
            report_coverage(venv, environment, tally)
    print(f"\nAll took {time.monotonic() - started:.0f} s.")
    return sum_up(tally, strict=options.strict)


def sum_up(tally: Tally, *, strict: bool) -> int:
    """Print what failed, what was left out and the closing line; return the exit status."""
    print("\n=== summary", flush=True)
    for line in tally.trouble:
        print(f"FAILED    {line}")
    for line in tally.left_out + tally.spared:
        print(f"NOT RUN   {line}")
    if tally.left_out and strict:
        print("Nothing may be left out here (--strict, or CI=true), so suites that did not run count as failed.")
        tally.failed += len(tally.left_out)
    print(tally.closing_line(), flush=True)
    return 1 if tally.failed or tally.trouble else 0


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the command; return its exit status."""
    parser = argparse.ArgumentParser(prog="tests/run.py", description="Set everything up and run every test.")
    parser.add_argument("--only", action="append", default=[], metavar="NAME", help="only this suite (may be repeated)")
    parser.add_argument("--list", action="store_true", help="list the suites and stop")
    parser.add_argument("--strict", action="store_true", default=os.environ.get("CI") == "true",
                        help="suites that cannot run count as failed (also with CI=true)")  # fmt: skip
    parser.add_argument(
        "--long",
        action="store_true",
        help="run also the tests with the mark full, try more random examples, and measure the coverage",
    )
    parser.add_argument(
        "--write-checks", action="store_true", help="run the suite against, and write the list of its checks again"
    )
    options = parser.parse_args(arguments)
    if options.write_checks:
        options.only = [AGAINST]
    if options.list:
        print("\n".join(suite.name for suite in all_suites()))
        return 0
    try:
        return run(options)
    except Fault as fault:
        print(fault, file=sys.stderr)
        return fault.status
    except KeyboardInterrupt:
        print("\nStopped.")
        return 130


if __name__ == "__main__":
    sys.exit(main())
