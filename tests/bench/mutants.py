"""Change the arithmetic in one place at a time, and count how many of these changes the tests notice. Prints figures and asserts nothing.

`site/.cache/venv/bin/python tests/bench/mutants.py --mutants 400 --seed 1`, after `tests/bench/judges.py` has noted once which tests enter
which function. Mutants are drawn evenly over all changes (`changes.py`) of all computing chapters. The judges of a mutant are the examples in the
docstrings of its file, then the tests that enter its function: those of its chapter first, the quickest first, up to a number of seconds. A module's
own number is judged by the tests of the functions that use it. A mutant is killed by the first test that fails, or that takes ten times as long as
it should. Each mutant has a process of its own, forked, so that nothing of it is left for the next. Control: the same file, which nobody changed and
that is put in place in the same way, has to pass the same tests up to the one that killed, or the mutant does not count. Changes at a tie (`<` for
`<=`) are counted by themselves.
"""

from __future__ import annotations

import argparse
import ast
import doctest
import functools
import gc
import importlib
import importlib.abc
import importlib.machinery
import importlib.util
import os
import random
import signal
import sys
import time
import types
from collections.abc import Iterator, Sequence
from itertools import islice
from pathlib import Path

import pytest
from changes import Mutant, computing, mutants, tree_of
from judges import ROOT, WORDS, Judges, drop_caches, steady

CHAPTERS = ("maths", "materials", "mesh", "mould", "cooling", "feeding", "gating", "drying", "recipes", "bench")
TESTS = ROOT / "tests"
EXAMPLES = "examples"
EXAMPLES_S = 10.0
SLOWER = 10
SPARE_S = 2.0
AT_LEAST = 3
"""This many tests judge, however long they take."""


class Finder(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Gives one module from a changed tree, all others as they are."""

    def __init__(self, mutant: Mutant) -> None:
        self.name, self.mutant = module_name(mutant), mutant

    def find_spec(self, fullname: str, *_: object) -> importlib.machinery.ModuleSpec | None:
        """The changed module's spec."""
        here = str(self.mutant.file)
        return importlib.util.spec_from_file_location(fullname, here, loader=self) if fullname == self.name else None

    def exec_module(self, module: types.ModuleType) -> None:
        """Run the changed tree."""
        exec(compile(self.mutant.tree, str(self.mutant.file), "exec"), module.__dict__)


def module_name(mutant: Mutant) -> str:
    """The name of the module that a mutant changes."""
    return ".".join(mutant.file.relative_to(ROOT).with_suffix("").parts)


class Trials:
    """The mutants in turn, judged inside one session of pytest that has collected all tests once."""

    def __init__(self, judges: Judges, drawn: Sequence[tuple[Path, int]], seconds: float) -> None:
        self.judges, self.drawn, self.seconds = judges, drawn, seconds
        self.passed_control: dict[tuple[str, bool], int] = {}
        self.pipe = -1

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """In place of the tests."""
        self.items = {item.nodeid: item for item in session.items}
        tally = {chapter: [0, 0, 0, 0] for chapter in CHAPTERS}
        began = time.monotonic()
        gc.collect()
        gc.freeze()  # what the processes share is not touched again
        for at, (file, number) in enumerate(self.drawn, 1):
            mutant = next(islice(mutants(file), number, None))
            tests = self.tests_of(mutant)
            killer = self.killer(mutant, tests)
            if killer is not None and not self.control(mutant, tests, killer):
                print(f"not counted, the control failed with {[EXAMPLES, *tests][killer]}: {mutant}", flush=True)
                continue
            count = tally[file.parent.name]
            count[2 * mutant.tie] += 1
            count[2 * mutant.tie + 1] += killer is not None
            if killer is None:
                words = "survived at a tie" if mutant.tie else "survived"
                print(f"{words} {len(tests)} tests: {mutant}", flush=True)
            if at % 10 == 0 or at == len(self.drawn):
                print(summary(tally, time.monotonic() - began), flush=True)
        return True

    def tests_of(self, mutant: Mutant) -> list[str]:
        """The judges of a mutant, in turn."""
        tests = set(self.judges.by_function.get(mutant.key, ()))
        if not mutant.within:
            tests |= {
                test
                for key in users().get(mutant.name, ())
                if not mutant.name.startswith("_") or key.startswith(f"{mutant.file.relative_to(ROOT)}:")
                for test in self.judges.by_function.get(key, ())
            }
        if not tests or mutant.key in self.judges.loading:
            here = f"{mutant.file.relative_to(ROOT)}:"
            tests |= {
                test for key, others in self.judges.by_function.items() if key.startswith(here) for test in others
            }
        own = f"tests/unit/{mutant.file.parent.name}/"
        found = sorted(
            tests & self.items.keys(), key=lambda test: (not test.startswith(own), self.judges.times_s[test])
        )
        chosen, took_s = [], 0.0
        for test in found:
            took_s += self.judges.times_s[test]
            if took_s <= self.seconds or len(chosen) < AT_LEAST:
                chosen.append(test)
        return chosen

    def control(self, mutant: Mutant, tests: list[str], killer: int) -> bool:
        """Whether the unchanged file passes the same tests, up to the one that killed."""
        way = mutant.key, mutant.within
        if self.passed_control.get(way, -1) < killer:
            if self.killer(mutant.undone(), tests[:killer]) is not None:
                return False
            self.passed_control[way] = killer
        return True

    def killer(self, mutant: Mutant, tests: list[str]) -> int | None:
        """The number of the judge that notices the mutant, 0 for the examples; None where none does."""
        reading, self.pipe = os.pipe()
        sys.stdout.flush()
        child = os.fork()
        if not child:
            try:
                nowhere = os.open(os.devnull, os.O_WRONLY)
                os.dup2(nowhere, 1)
                os.dup2(nowhere, 2)
                self.judge(mutant, tests)
                os.write(self.pipe, b"survived\n")
            finally:
                os._exit(0)
        os.close(self.pipe)
        with os.fdopen(reading) as lines:
            said = lines.read().split()
        os.waitpid(child, 0)
        return None if said[-1:] == ["survived"] else int(said[-1])

    def start(self, number: int, limit_s: float) -> None:
        """A judge begins: if the process ends now, this one noticed."""
        os.write(self.pipe, f"{number}\n".encode())
        signal.setitimer(signal.ITIMER_PROF, limit_s)

    def judge(self, mutant: Mutant, tests: list[str]) -> None:
        """Put the mutant in place and run its judges; the process ends at the first failure."""
        self.start(0, EXAMPLES_S)
        exchanged = mutant.key not in self.judges.loading and exchange(mutant)
        if not exchanged:
            load_again(mutant)
        drop_caches()
        if doctest.testmod(importlib.import_module(module_name(mutant))).failed:
            os._exit(1)
        self.numbers = {test: number for number, test in enumerate(tests, 1)}
        if not exchanged:
            if tests and pytest.main([*WORDS, *tests], plugins=[Judge(self)]) != pytest.ExitCode.OK:
                os._exit(1)
            return
        items = [self.items[test] for test in tests]
        for number, item in enumerate(items, 1):
            following = items[number] if number < len(items) else None
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> None:
        """A test begins."""
        self.start(self.numbers[item.nodeid], SLOWER * self.judges.times_s[item.nodeid] + SPARE_S)

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """A test ended."""
        if report.failed:
            os._exit(1)


class Judge:
    """The same two hooks, for a session inside a forked process that loads everything again."""

    def __init__(self, trials: Trials) -> None:
        self.pytest_runtest_protocol = trials.pytest_runtest_protocol
        self.pytest_runtest_logreport = trials.pytest_runtest_logreport


@functools.cache
def users() -> dict[str, set[str]]:
    """The functions of the library that use a module's own number, by its name; also by way of another number."""
    found: dict[str, set[str]] = {}
    through: dict[str, set[str]] = {}
    for file in sorted((ROOT / "sandmix").rglob("*.py")):
        for name, part in computing(tree_of(file)):
            for used in names_in(part) - {name}:
                if isinstance(part, ast.FunctionDef):
                    found.setdefault(used, set()).add(f"{file.relative_to(ROOT)}:{name}")
                else:
                    through.setdefault(used, set()).add(name)
    for used, others in through.items():
        for other in others:
            found.setdefault(used, set()).update(found.get(other, ()))
    return found


def names_in(part: ast.AST) -> set[str]:
    """All names that a part of a tree uses."""
    nodes = list(ast.walk(part))
    plain = {node.id for node in nodes if isinstance(node, ast.Name)}
    return plain | {node.attr for node in nodes if isinstance(node, ast.Attribute)}


def exchange(mutant: Mutant) -> bool:
    """Whether the mutant is in a function whose code could be exchanged where it stands, so that nothing has to be loaded again."""
    if not mutant.within:
        return False
    held: object = sys.modules[module_name(mutant)]
    code = compile(mutant.tree, str(mutant.file), "exec")
    for part in mutant.name.split("."):
        held = vars(held).get(part)
        inner = {each.co_name: each for each in code.co_consts if isinstance(each, types.CodeType)}
        if part not in inner:
            return False
        code = inner[part]
    while not isinstance(held, types.FunctionType):
        ways = ("__func__", "fget", "__wrapped__", "func")
        held = next((getattr(held, way) for way in ways if hasattr(held, way)), None)
        if held is None:
            return False
    if code.co_freevars != held.__code__.co_freevars:
        return False
    held.__code__ = code
    return True


def load_again(mutant: Mutant) -> None:
    """Forget the library and the tests, so that they are loaded again, with the changed module."""
    for name, module in list(sys.modules.items()):
        path = Path(getattr(module, "__file__", None) or "/")
        if path.is_relative_to(ROOT / "sandmix") or (path.is_relative_to(TESTS) and path.parent != TESTS / "bench"):
            del sys.modules[name]
    sys.meta_path.insert(0, Finder(mutant))


def drawable(options: argparse.Namespace) -> Iterator[tuple[Path, int]]:
    """All mutants of the chapters, or those at the places that were named."""
    for chapter in options.only:
        for file in sorted((ROOT / "sandmix" / chapter).glob("*.py")):
            here = file.relative_to(ROOT)
            for number, mutant in enumerate(mutants(file)):
                if not options.at or {mutant.key, f"{here}:{mutant.line}", str(here)} & {*options.at}:
                    yield file, number


def summary(tally: dict[str, list[int]], took_s: float) -> str:
    """The counts so far, by chapter."""
    tried, killed, ties, noticed = (sum(count[part] for count in tally.values()) for part in range(4))
    by_chapter = ", ".join(f"{chapter} {count[1]}/{count[0]}" for chapter, count in tally.items() if count[0])
    share = f"{100 * killed / tried:.1f} %" if tried else "none"
    return f"killed {killed} of {tried} ({share}) in {took_s:.0f} s: {by_chapter}; at a tie {noticed} of {ties}"


def main() -> int:
    """Draw, judge and print."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--mutants", type=int, default=400)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--seconds", type=float, default=20, help="of tests for each mutant")
    parser.add_argument("--only", nargs="*", default=CHAPTERS, help="chapters")
    parser.add_argument("--at", nargs="*", help="only at sandmix/maths/roots.py, …roots.py:12 or …roots.py:root")
    options = parser.parse_args()
    sys.path[:0] = [str(ROOT), str(TESTS)]
    judges = Judges.kept()
    if not judges.files:
        parser.error("Run tests/bench/judges.py first.")
    each = list(drawable(options))
    drawn = random.Random(options.seed).sample(each, min(options.mutants, len(each)))
    print(f"{len(drawn)} of {len(each)} mutants, seed {options.seed}", flush=True)
    steady()
    computed = tuple(f"sandmix/{chapter}/" for chapter in options.only)
    files = {
        test.partition("::")[0] for test, keys in judges.enters.items() if any(key.startswith(computed) for key in keys)
    }
    pytest.main([*WORDS, *sorted(files)], plugins=[Trials(judges, drawn, options.seconds)])
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
