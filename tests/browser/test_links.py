"""Every link and every file that a built page names is there: pages, places in pages, scripts and pictures."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import parse_qsl, unquote, urljoin, urlsplit

import pytest

HOST = "https://host.example/"
NAMES_A_FILE = ("href", "src", "data-page", "poster")
REFERS = ("for", "aria-controls", "aria-labelledby", "aria-describedby", "popovertarget")
ACTIONS = {"alone"}
"""Links that a module of the page turns into an action, such as going on without a casting."""
OF_THE_THEME = {"__toc"}
"""What the theme labels for its own menu, which this site replaces."""


@dataclass
class Page(HTMLParser):
    """The links of one page, and the places in it that a link may name."""

    path: str
    links: list[str] = field(default_factory=list)
    refers: list[str] = field(default_factory=list)
    places: set[str] = field(default_factory=set)

    def __post_init__(self) -> None:
        super().__init__()

    def handle_starttag(self, _tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = {name: value or "" for name, value in attrs}
        self.places |= {given[name] for name in ("id", "name") if given.get(name)}
        self.links += [given[name] for name in NAMES_A_FILE if name in given]
        self.refers += [each for name in REFERS for each in given.get(name, "").split()]


def path_of(file: Path, built: Path) -> str:
    return f"/{file.relative_to(built).as_posix().removesuffix('index.html')}"


@pytest.fixture(scope="module")
def pages(built: Path) -> dict[str, Page]:
    """Each page by its path."""
    found = {}
    for file in sorted(built.rglob("*.html")):
        page = Page(path_of(file, built))
        page.feed(file.read_text("utf-8"))
        found[page.path] = page
    return found


def targets(pages: dict[str, Page]) -> Iterator[tuple[Page, str, str, str]]:
    """Each link to a place of this site: its page, itself, the path it leads to, and what stands behind its #."""
    for page in pages.values():
        for link in page.links:
            whole = urlsplit(urljoin(urljoin(HOST, page.path), link))
            if f"{whole.scheme}://{whole.netloc}/" == HOST:
                yield page, link, unquote(whole.path), whole.fragment


def test_every_link_leads_to_a_file_of_the_site(pages, built):
    files = {path_of(file, built) for file in built.rglob("*") if file.is_file()}
    checked = [(page.path, link, path) for page, link, path, _ in targets(pages)]
    assert len(checked) > 1000
    assert [each for each in checked if each[2] not in files] == []


def test_every_link_to_a_place_in_a_page_finds_it(pages):
    missing = []
    for page, link, path, place in targets(pages):
        known = pages[path].places if path in pages else set()
        if place and "=" not in place and unquote(place) not in known | ACTIONS:
            missing.append((page.path, link))
    assert missing == []


def test_every_link_that_fills_a_form_names_words_of_that_job(pages, jobs):
    """Such a link has the words of the job and their values behind its #."""
    words = {name: {ask["word"] for ask in job["asks"]} for name, job in jobs.items()}
    fills = [(page.path, path.strip("/"), parse_qsl(place)) for page, _, path, place in targets(pages) if "=" in place]
    assert len(fills) > 10
    assert [(page, job) for page, job, _ in fills if job not in words] == []
    unknown = [(page, job, word) for page, job, pairs in fills for word, _ in pairs if word not in words[job]]
    assert unknown == []


def test_whatever_belongs_to_another_element_finds_it(pages):
    missing = [
        (page.path, each) for page in pages.values() for each in page.refers if each not in page.places | OF_THE_THEME
    ]
    assert missing == []


def test_no_page_leads_to_another_host(pages):
    assert [
        (page.path, link)
        for page in pages.values()
        for link in page.links
        if not urljoin(HOST, link).startswith((HOST, "data:"))
    ] == []


def test_the_pages_of_the_library_are_there_and_are_not_kept_on_a_phone(pages, built):
    library = {path for path in pages if path.startswith("/library/")}
    assert len(library) == 9
    worker = (built / "sw.js").read_text("utf-8")
    assert '"python/"' in worker
    assert '"library/' not in worker
    recipes = (built / "library/recipes/index.html").read_text("utf-8")
    assert 'id="sandmix.recipes.temper.water_to_add_kg"' in recipes
    assert "(fractions of wet mass)" in recipes
    assert "Source: mass_balance" in recipes
    assert "mkdocstrings.css" not in recipes
    assert not (built / "assets/_mkdocstrings.css").exists()
