"""Note which tests enter which function of the library, and what each test takes: the judges of `mutants.py`.

`site/.cache/venv/bin/python tests/bench/judges.py unit against` runs these folders or files once and keeps what it saw in `site/.cache/judges.json`;
only the files of tests that changed since then run again, and `--afresh` runs all. The library is loaded with a mark at the start of each function
and method, and whatever it has cached is dropped before each test, so that a test counts for a function also where another one came there first.
The times are those of the processor.
"""

from __future__ import annotations

import argparse
import ast
import functools
import hashlib
import importlib.abc
import importlib.machinery
import importlib.util
import json
import sys
import time
import types
from collections.abc import Generator, Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

ROOT = Path(__file__).resolve().parents[2]
KEPT = ROOT / "site/.cache/judges.json"
FOLDERS = ("unit", "against", "messages", "doors", "property")
WORDS = ("-q", "-s", "--assert=plain", "-p", "no:cacheprovider", f"--rootdir={ROOT}")
LEFT_OUT = ("test_architecture.py", "test_streams.py", "test_readme.py")
"""They read the source, or ask the library in another process, where no change can be seen."""


def steady() -> None:
    """Draw the same random examples each time, and keep none."""
    settings.register_profile("steady", database=None, derandomize=True, suppress_health_check=list(HealthCheck))
    settings.load_profile("steady")


@dataclass(kw_only=True)
class Judges:
    """The tests by name, each with its time, and the functions with the tests that enter them."""

    times_s: dict[str, float] = field(default_factory=dict)
    enters: dict[str, list[str]] = field(default_factory=dict)
    """The functions by test, each as `sandmix/maths/roots.py:root` or `…:Class.method`."""
    files: dict[str, str] = field(default_factory=dict)
    """The files of tests, each with the hash of its bytes."""
    loading: list[str] = field(default_factory=list)
    """The functions that are entered while the library is loaded."""

    @classmethod
    def kept(cls, path: Path = KEPT) -> Judges:
        """What was kept, or nothing yet."""
        return cls(**json.loads(path.read_text(encoding="utf-8"))) if path.exists() else cls()

    def keep(self, path: Path = KEPT) -> None:
        """Write it down."""
        path.parent.mkdir(exist_ok=True)
        path.write_text(json.dumps(vars(self)), encoding="utf-8")

    def drop(self, file: str) -> None:
        """Forget the tests of a file."""
        for test in [test for test in self.times_s if test.partition("::")[0] == file]:
            del self.times_s[test], self.enters[test]

    @functools.cached_property
    def by_function(self) -> dict[str, list[str]]:
        """The tests of each function, the quickest first."""
        tests: dict[str, list[str]] = {}
        for test in sorted(self.times_s, key=self.times_s.__getitem__):
            for function in self.enters[test]:
                tests.setdefault(function, []).append(test)
        return tests


def functions(tree: ast.Module | ast.ClassDef, within: str = "") -> Iterator[tuple[str, ast.FunctionDef]]:
    """The functions and methods of a tree, each with its name; what is inside a function belongs to it."""
    for node in tree.body:
        if isinstance(node, ast.FunctionDef):
            yield within + node.name, node
        elif isinstance(node, ast.ClassDef):
            yield from functions(node, f"{within}{node.name}.")


class Marks(importlib.abc.MetaPathFinder, importlib.abc.Loader):
    """Loads the modules of the library with a mark at the start of each function."""

    def __init__(self) -> None:
        self.names: list[str] = []
        self.entered = bytearray()

    def find_spec(self, fullname: str, *_: object) -> importlib.machinery.ModuleSpec | None:
        """The spec of a module of the library."""
        path = ROOT / (fullname.replace(".", "/") + ".py")
        if fullname.partition(".")[0] != "sandmix" or not path.exists():
            return None
        return importlib.util.spec_from_file_location(fullname, path, loader=self)

    def exec_module(self, module: types.ModuleType) -> None:
        """Run the marked source."""
        path = Path(module.__file__ or "")
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for name, function in functions(tree):
            mark = ast.parse(f"__entered__[{len(self.names)}] = 1").body[0]
            ast.increment_lineno(mark, function.body[0].lineno - 1)
            function.body.insert(int(ast.get_docstring(function) is not None), mark)
            self.names.append(f"{path.relative_to(ROOT)}:{name}")
            self.entered.append(0)
        module.__dict__["__entered__"] = self.entered
        exec(compile(tree, str(path), "exec"), module.__dict__)

    def seen(self) -> list[str]:
        """The functions that were entered, and no mark any more."""
        names = [name for name, mark in zip(self.names, self.entered, strict=True) if mark]
        self.entered[:] = bytes(len(self.entered))
        return names


def drop_caches() -> None:
    """Drop what the functions of the library have cached."""
    for name, module in list(sys.modules.items()):
        if name.startswith("sandmix"):
            for held in list(vars(module).values()):
                if hasattr(held, "cache_clear"):
                    held.cache_clear()


class Watch:
    """Notes the functions and the time of each test."""

    def __init__(self, judges: Judges, marks: Marks) -> None:
        self.judges, self.marks = judges, marks
        self.failed: set[str] = set()

    def pytest_collection_finish(self) -> None:
        """The library and a file of tests are loaded now."""
        self.judges.loading = sorted({*self.judges.loading, *self.marks.seen()})

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Generator[None, object, object]:
        """Around each test."""
        drop_caches()
        self.marks.seen()
        began = time.process_time()
        done = yield
        self.judges.times_s[item.nodeid] = round(time.process_time() - began, 4)
        self.judges.enters[item.nodeid] = self.marks.seen()
        return done

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """A test that fails as things stand is no judge, and one that is left out neither."""
        if not report.passed:
            self.failed.add(report.nodeid)


def all_files(folders: Iterable[str]) -> list[Path]:
    """The files of tests that can be judges."""
    places = [ROOT / "tests" / folder for folder in folders]
    found = [path for place in places for path in ([place] if place.is_file() else sorted(place.rglob("test_*.py")))]
    return [path for path in found if path.name not in LEFT_OUT]


def main() -> int:
    """Run what changed, and keep what was seen."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folders", nargs="*", default=FOLDERS)
    parser.add_argument("--afresh", action="store_true")
    options = parser.parse_args()
    sys.path[:0] = [str(ROOT), str(ROOT / "tests")]
    judges = Judges() if options.afresh else Judges.kept()
    hashes = {
        str(path.relative_to(ROOT)): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in all_files(options.folders)
    }
    changed = [path for path, digest in hashes.items() if judges.files.get(path) != digest]
    if not changed:
        return 0
    marks = Marks()
    watch = Watch(judges, marks)
    sys.meta_path.insert(0, marks)
    steady()
    for path in changed:
        judges.drop(path)
        pytest.main([*WORDS, path], plugins=[watch])
        for test in watch.failed:
            judges.times_s.pop(test, None)
            judges.enters.pop(test, None)
        judges.files[path] = hashes[path]
        judges.keep()
    print(
        f"{len(judges.times_s)} tests, {sum(judges.times_s.values()):.0f} s; failed or left out: {sorted(watch.failed)}"
    )
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
