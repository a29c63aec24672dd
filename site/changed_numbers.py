"""Which figures of the jobs' worked examples differ from those of the version published last.

A person who trusts a figure must be told when it changes. So the changelog has a heading for it, and a test compares: what differs from
`published_numbers.json` must be named there. As a command, this file writes that list again; run it once for each version, right after it
was published: `python3 site/changed_numbers.py`.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

import draw

HERE = Path(__file__).resolve().parent
PUBLISHED = HERE / "published_numbers.json"
CHANGELOG = HERE / "docs/changes.md"
HEADING = "### Changed numbers"
SAME = 1e-5
"""Two figures that differ by less than this share are the same: other machines and versions of Python round differently."""
DIGITS = 7

Figures = Mapping[str, Any]


class Changed(NamedTuple):
    """A figure of a job's example, before and now; a figure that came or went has none on that side."""

    job: str
    word: str
    was: float | None
    now: float | None


def today() -> dict[str, Figures]:
    """Each job's example with its figures."""
    return {job["name"]: {"inputs": job["example"], "figures": _figures(job)} for job in draw.description()["jobs"]}


def _figures(job: Mapping[str, Any]) -> dict[str, float]:
    result = draw.ask({"job": job["name"], "inputs": job["example"]})["result"]
    numbers = {word: value for word, value in result.items() if _is_number(value)}
    return {word: float(f"{value:.{DIGITS}g}") for word, value in sorted(numbers.items())}


def _is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def changes(before: Mapping[str, Figures], now: Mapping[str, Figures]) -> Iterator[Changed]:
    """The figures that differ, of jobs whose example has the same inputs in both."""
    for job in before:
        if job in now and before[job]["inputs"] == now[job]["inputs"]:
            was, are = before[job]["figures"], now[job]["figures"]
            for word in sorted({*was, *are}):
                if not _same(was.get(word), are.get(word)):
                    yield Changed(job, word, was.get(word), are.get(word))


def _same(was: float | None, now: float | None) -> bool:
    if was is None or now is None:
        return was is now
    return math.isclose(was, now, rel_tol=SAME, abs_tol=1e-12)


def not_named(changed: Iterator[Changed], changelog: str) -> list[str]:
    """Lines for the changelog that its newest version lacks: under *Changed numbers* it must name the job and the word of each."""
    named = newest(changelog).partition(HEADING)[2].partition("\n### ")[0].splitlines()
    return [
        f"- `{each.job}`, `{each.word}`: {each.was} before, {each.now} now, because …"
        for each in changed
        if not any(f"`{each.job}`" in line and f"`{each.word}`" in line for line in named)
    ]


def newest(changelog: str) -> str:
    """The part of the changelog about its newest version, from its heading on."""
    parts = changelog.split("\n## ")
    return parts[1] if len(parts) > 1 else ""


def published() -> dict[str, Figures]:
    """The figures of the version published last."""
    figures: dict[str, Figures] = json.loads(PUBLISHED.read_text("utf-8"))
    return figures


if __name__ == "__main__":
    PUBLISHED.write_text(json.dumps(today(), indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
