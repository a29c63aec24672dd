"""Copy pinned builds from npm: `app/d3.min.js`, the parts of the chart library, and modules of one file each, for the database and QR codes."""

from __future__ import annotations

import re
from collections.abc import Iterable
from pathlib import Path

WANTED = ("d3-selection", "d3-array", "d3-scale", "d3-shape", "d3-axis")
NEEDS = re.compile(r'require\("([\w-]+)"\)')
MARKUP_SETTER, TEXT_SETTER = "innerHTML", "textContent"
HEAD = "Builds of npm's {names}, one after the other; where they parsed text as elements, they set it as text instead."
MODULES = {"idb": "build/index.js", "lean-qr": "index.mjs"}
"""The packages that are one module, each with the file of its build."""


class NotVendored(Exception):
    """A build differs from what this file expects: what is missing."""


def write(packages: Path, out: Path) -> Path:
    """Write the chart library into `out` from the folder of npm's packages, and return its path."""
    builds = in_order(packages)
    texts = "\n".join(text.strip() for text in builds.values()).replace(MARKUP_SETTER, TEXT_SETTER)
    head = "\n\n".join([HEAD.format(names=", ".join(builds)), *licences(packages, builds)])
    script = out / "d3.min.js"
    out.mkdir(parents=True, exist_ok=True)
    script.write_text(f"/*!\n{head}\n*/\n{texts}\n", encoding="utf-8")
    return script


def write_module(packages: Path, out: Path, name: str) -> Path:
    """Write the one module of a package into `out` under its licence, and return its path."""
    build = packages / name / MODULES[name]
    if not build.is_file():
        raise NotVendored(f"The package {name} has no {MODULES[name]}: see site/package.json.")
    text = build.read_text(encoding="utf-8")
    if MARKUP_SETTER in text or "import " in text:
        raise NotVendored(f"The package {name} is no longer a single file that does not touch elements: review it.")
    head = "\n\n".join([f"The build of npm's {name}.", *licences(packages, [name])])
    module = out / f"{name}.js"
    out.mkdir(parents=True, exist_ok=True)
    module.write_text(f"/*!\n{head}\n*/\n{text.strip()}\n", encoding="utf-8")
    return module


def in_order(packages: Path) -> dict[str, str]:
    """Every build by its name, each after the builds that it requires."""
    builds: dict[str, str] = {}

    def take(name: str) -> None:
        if name in builds:
            return
        text = build_of(packages, name)
        for other in NEEDS.findall(text):
            take(other)
        builds[name] = text

    for name in WANTED:
        take(name)
    return builds


def build_of(packages: Path, name: str) -> str:
    """The text of one package's build for a plain script element."""
    path = packages / name / "dist" / f"{name}.min.js"
    if not path.is_file():
        raise NotVendored(f"The package {name} has no dist/{name}.min.js: see site/package.json.")
    return path.read_text(encoding="utf-8")


def licences(packages: Path, names: Iterable[str]) -> list[str]:
    """Each different licence text once."""
    texts = (next((packages / name).glob("LICENSE*")).read_text(encoding="utf-8").strip() for name in names)
    return list(dict.fromkeys(texts))
