"""The menu, and what of a new job it needs: its method page, and the README's table written again."""

from collections.abc import Iterator
from typing import Any

import menu
from sandmix.jobs import JOBS


def test_every_job_has_a_method_page() -> None:
    assert menu.missing_methods() == [], "write these pages"


def test_every_method_page_belongs_to_a_job() -> None:
    assert {page.stem for page in menu.METHODS.glob("*.md")} <= set(JOBS)


def test_the_readme_shows_the_jobs_as_their_rows_do() -> None:
    is_there = menu.readme_table() in menu.README.read_text("utf-8")
    assert is_there, "`python3 site/menu.py` writes the table again"


def test_the_menu_links_to_every_job_once() -> None:
    pages = [page for entry in menu.nav() for page in _pages(entry)]
    assert sorted(page for page in pages if page.removesuffix(".md") in JOBS) == sorted(f"{job}.md" for job in JOBS)


def test_the_menu_has_the_jobs_in_three_groups_above_the_reference() -> None:
    headings = [heading for entry in menu.nav() for heading in entry]
    groups = ["This casting", "The heap", "Tests and troubles"]
    assert headings == ["Today", "Settings", *groups, "Handbook", "Reference"]


def test_the_method_pages_fold_up_at_the_end_of_the_reference() -> None:
    reference = menu.nav()[-1]["Reference"]
    assert [*reference[-1]] == ["How it is worked out"]
    assert len(reference[-1]["How it is worked out"]) == len(JOBS)


def _pages(entry: dict[str, Any]) -> Iterator[str]:
    for value in entry.values():
        yield from [value] if isinstance(value, str) else [page for inner in value for page in _pages(inner)]
