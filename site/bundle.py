"""Bundle the page's modules and styles with esbuild: few small files, of which each page loads those of its kind."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import runtime

HERE = Path(__file__).resolve().parent
SOURCES = HERE / "docs" / "app"
ENTRIES = (
    "main.js",
    "look.js",
    "early.js",
    "starting.js",
    "worker.js",
    "snapshot-worker.js",
    "search-worker.js",
    "books.js",
    "database.js",
    "site.css",
    "handbook.css",
)
"""The files that keep their names: those that a page or another script asks for, and two by which tests read a device's books."""
KINDS = {
    "data-today": "home.js",
    "data-job": "job-page.js",
    "data-book": "book-page.js",
    "data-settings": "settings-page.js",
}
"""What a page of each kind holds, and the module that `main.js` starts there."""
CALCULATES = ("data-job", "data-book")
"""The kinds of page that start the calculator at once."""
MARKUP_SETTER = re.compile(r"innerHTML|outerHTML|insertAdjacentHTML|document\.write")
PACKAGE = re.compile(r"node_modules/((?:@[^/]+/)?[^/]+)/")
"""The name of a package of npm in the path of one of its files."""

Files = Mapping[str, Mapping[str, Any]]


class NotBundled(Exception):
    """What was bundled differs from what this file expects: what is wrong."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bundle:
    """What was written: by the module that starts a page, the scripts that it needs at once; and what is from npm."""

    needs: Mapping[str, tuple[str, ...]]
    packages: tuple[str, ...]

    def scripts_of(self, html: str) -> list[str]:
        """The scripts that a page needs at once."""
        kinds = (start for part, start in KINDS.items() if holds(html, part))
        return list(dict.fromkeys(name for start in ("main.js", *kinds) for name in self.needs[start]))


def calculates(html: str) -> bool:
    """Whether a page starts the calculator at once."""
    return any(holds(html, part) for part in CALCULATES)


def holds(html: str, part: str) -> bool:
    """Whether an element of a page has this attribute."""
    return re.search(rf"\s{part}[\s=>]", html) is not None


def write(
    packages: Path, out: Path, sources: Path = SOURCES, entries: Iterable[str] = ENTRIES, *, python: str = "unbuilt"
) -> Bundle:
    """Write the scripts and the styles into `out`, where nothing else stays.

    `python` is the name of the folder from which the scripts load Python.
    """
    shutil.rmtree(out, ignore_errors=True)
    node, _ = runtime.node_tools()
    command = [*node, str(HERE / "bundle.mjs"), *map(str, (packages, sources, out)), python, *entries]
    told = json.loads(runtime.run(command, HERE, "The page's scripts could not be bundled"))
    files = {Path(path).name: facts for path, facts in told.items()}
    for script in sorted(out.glob("*.js")):
        if found := MARKUP_SETTER.search(script.read_text("utf-8")):
            raise NotBundled(
                f"{script.name} sets {found.group()}: a text could become elements. Review what it imports."
            )
    starts = {str(facts["entryPoint"]): needed(files, name) for name, facts in files.items() if "entryPoint" in facts}
    return Bundle(needs=starts, packages=packages_in(files))


def needed(files: Files, name: str) -> tuple[str, ...]:
    """A script and all that it imports before it runs."""
    found: dict[str, None] = {}

    def take(script: str) -> None:
        if script in found:
            return
        found[script] = None
        for each in files[script]["imports"]:
            if each["kind"] == "import-statement":
                take(Path(each["path"]).name)

    take(name)
    return tuple(found)


def packages_in(files: Files) -> tuple[str, ...]:
    """The packages of npm of which anything was bundled."""
    inputs = (path for facts in files.values() for path in facts["inputs"])
    return tuple(sorted({found[1] for path in inputs if (found := PACKAGE.search(path))}))
