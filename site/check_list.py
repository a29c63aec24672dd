"""The checks of this project as a list: `tests/against` writes it as `checks.csv`, and the site draws it.

Only the standard library is needed to read it.
"""

from __future__ import annotations

import csv
import sys
from collections.abc import Iterable, Mapping
from dataclasses import astuple, dataclass, fields
from functools import cache
from io import StringIO

from check_topics import TOPICS
from checkout import ROOT

if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

from sandmix.language.sources import SOURCES, Source

FOLDER = ROOT / "tests" / "against"
CHECKS, OWN_SOURCES = FOLDER / "checks.csv", FOLDER / "sources.csv"
WRITE = "python3 tests/run.py --write-checks"
"""The command that writes the list again."""

HOW_SURE = {
    "read": "figure read in the source",
    "inputs": "worked out from inputs that were read",
    "memory": "from memory",
    "derived": "worked out by hand",
    "library": "general-purpose library",
    "separate": "own separate solution",
    "drawn": "random draws of the answer's own assumptions",
    "practice": "common practice, no source",
}
"""How sure a figure is, the key as the tests write it."""

CLAIMS = {
    "digit": "half the last printed digit",
    "source": "as the source states it",
    "arithmetic": "exact arithmetic",
    "project": "set by this project",
}
"""Who claims that the figure is right within this much."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One figure from outside, and what sandmix gives; all as text, so that the file is the same on each machine."""

    topic: str
    what: str
    figure: str
    unit: str
    gives: str
    within: str
    claimed: str
    how_sure: str
    source: str
    cases: int
    differs: str
    """Why it disagrees; empty where it agrees."""
    run: str
    """``usual``, or ``long`` where only a long run tries it."""
    test: str
    """The file, without its ending."""


COLUMNS = tuple(field.name for field in fields(Check))


def written(checks: Iterable[Check]) -> str:
    """The list as the text of the file: by topic and test, and in each test as it compares; what only a long run tries comes last."""
    out = StringIO()
    rows = csv.writer(out, lineterminator="\n")
    rows.writerow(COLUMNS)
    ordered = sorted(checks, key=lambda check: (check.topic, check.test, check.run == "long"))
    rows.writerows(astuple(check) for check in ordered)
    return out.getvalue()


def read(text: str) -> list[Check]:
    """The checks that a file lists."""
    rows = csv.DictReader(StringIO(text))
    return [Check(**{**row, "cases": int(row["cases"])}) for row in rows]  # type: ignore[arg-type]


@cache
def checks() -> tuple[Check, ...]:
    """All checks, topic by topic as the page has them."""
    order = list(TOPICS)
    listed = read(CHECKS.read_text(encoding="utf-8"))
    return tuple(sorted(listed, key=lambda check: order.index(check.topic)))


@cache
def own_sources() -> Mapping[str, Source]:
    """The sources that only tests use."""
    with OWN_SOURCES.open(encoding="utf-8", newline="") as sheet:
        return {row["key"]: Source(**row) for row in csv.DictReader(sheet)}


def sources() -> dict[str, Source]:
    """The sources of the library and those that only tests use."""
    return {**SOURCES, **own_sources()}


def of_topic(*topics: str) -> list[Check]:
    """The checks of one topic or several."""
    return [check for check in checks() if check.topic in topics]


def of_source(key: str) -> list[Check]:
    """The checks whose figure is from one source."""
    return [check for check in checks() if check.source == key]
