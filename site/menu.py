"""The menu, the pages of the jobs and the table in the README, drawn from the jobs' own rows.

A new job needs only a method page. As a command, this file writes the README's table again: `python3 site/menu.py`.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import checkout
import draw
import handbook_pages

README = checkout.ROOT / "README.md"
METHODS = Path(__file__).resolve().parent / "docs/method"
OTHER_PAGES = [
    {"Materials": "materials.md"},
    {"Words": "words.md"},
    {"Sources": "sources.md"},
    {"Checks": "checks.md"},
    {"Python": "python.md"},
    {"Command line": "command-line.md"},
    {"The JSON door": "door.md"},
    {"Offline and your data": "offline.md"},
    {"Put it on a host": "hosting.md"},
    {"Changes": "changes.md"},
    {"Licences": "licences.md"},
]
_TABLE = re.compile(r"\| job \| question \|.*?\n\n", re.DOTALL)

Jobs = list[Mapping[str, Any]]


def jobs() -> Jobs:
    """The jobs in the order of the menu."""
    return list(draw.description()["jobs"])


def groups() -> dict[str, Jobs]:
    """The jobs of each group of the menu, by its heading."""
    found = {group["label"]: group["group"] for group in draw.description()["groups"]}
    return {label: [job for job in jobs() if job["group"] == group] for label, group in found.items()}


def nav() -> list[dict[str, Any]]:
    """The menu as MkDocs takes it: the jobs in their groups, and below them what to look up."""
    methods: list[dict[str, Any]] = [{job["short"]: f"method/{job['name']}.md"} for job in jobs()]
    return [
        {"Today": "index.md"},
        {"Settings": "settings.md"},
        *({label: [{job["short"]: f"{job['page']}.md"} for job in members]} for label, members in groups().items()),
        {"Handbook": handbook_menu()},
        {"Reference": [*OTHER_PAGES, {"How it is worked out": methods}]},
    ]


def handbook_menu() -> list[dict[str, Any]]:
    """The pages of the handbook: the steps of the sand's life fold up, the others stand below them."""
    files = {page.short: f"{handbook_pages.FOLDER}{page.name}.md" for page in handbook_pages.PAGES}
    steps: list[dict[str, Any]] = [{page.short: files[page.short]} for page in handbook_pages.STEPS]
    others = [{short: file} for short, file in files.items() if {short: file} not in steps]
    return [{"Begin here": f"{handbook_pages.FOLDER}index.md"}, {"Step by step": steps}, *others]


def page_of(name: str) -> str:
    """The Markdown of a job's page: only the links below the form and the answer, which are drawn."""
    links = f"[Read about it]({handbook_pages.about(name)})\n\n[How this is worked out](method/{name}.md)\n"
    return f"---\njob: {name}\n---\n{links}"


def method_title(name: str) -> str:
    """The title of a job's method page."""
    return f"{draw.job_named(name)['short']}: how it is worked out"


def missing_methods() -> list[str]:
    """The method pages that are still missing."""
    return [f"site/docs/method/{job['name']}.md" for job in jobs() if not (METHODS / f"{job['name']}.md").exists()]


def readme_table() -> str:
    """The README's table of jobs, group by group."""
    rows = []
    for label, members in groups().items():
        rows.append(f"| **{label}** | | |")
        rows += [f"| {job['name']} | {job['title']} | {job['answered_with']} |" for job in members]
    return "\n".join(["| job | question | answered with |", "|---|---|---|", *rows, "", ""])


def with_table(readme: str) -> str:
    """The README with its table written again."""
    return _TABLE.sub(lambda _: readme_table(), readme, count=1)


if __name__ == "__main__":
    README.write_text(with_table(README.read_text("utf-8")), encoding="utf-8")
