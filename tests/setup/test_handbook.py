"""The handbook: every page has its drawing, its cautions and its way on, and every figure on it is what the job answers.

A figure is compared with what the job answers to the figures in the page's own link, which is what a person sees who opens it.
"""

from __future__ import annotations

import json
import re
from functools import cache
from html import unescape
from itertools import pairwise
from pathlib import Path
from typing import Any
from urllib.parse import parse_qsl, urlsplit

import pytest

import draw_handbook
import draw_plates
import handbook_answers
import handbook_pages
import hooks
import menu
from handbook_answers import NotInHandbook, typed
from handbook_mistakes import MISTAKES
from sandmix.doors.facade import call
from sandmix.jobs import JOBS

FOLDER = Path(menu.__file__).parent / "docs/handbook"
NAMES = [page.name for page in handbook_pages.PAGES]
STEPS = [page.name for page in handbook_pages.STEPS]
SHOWN = re.compile(r'<b class="live" data-ask="(\w+)" data-word="(\w+)" data-part="(text|range)">([^<]*)</b>')
TOLD = re.compile(r'<(?:q|b) class="live" data-ask="(\w+)" data-(headline|state)>([^<]*)</(?:q|b)>')
GIVEN = re.compile(r'<span class="live-given" data-ask="(\w+)" data-given="(\w+)">([^<]*)</span>')
CASE = re.compile(r'<a (?:class="[^"]*" )?href="([^"]*)" data-case="(\w+)">')


@cache
def written(name: str) -> str:
    """The Markdown of a page."""
    return (FOLDER / f"{name}.md").read_text("utf-8")


@cache
def drawn(name: str) -> str:
    """A page with its markers replaced and its end, as the build puts it together."""
    return hooks.with_drawn(written(name)) + draw_handbook.end(name, written(name))


@cache
def answer(request: str) -> dict[str, Any]:
    """What a job answers."""
    found: dict[str, Any] = json.loads(call(request))
    return found


@cache
def answers_behind(name: str) -> dict[str, dict[str, Any]]:
    """What each job answers to the figures in a link of the page, by the name of the question. A link holds no book of a heap."""
    found: dict[str, dict[str, Any]] = {}
    for address, ask in CASE.findall(drawn(name)):
        parts = urlsplit(unescape(address))
        given = typed(ask) if "book" in typed(ask) else dict(parse_qsl(parts.fragment))
        request = {"job": parts.path.strip("./").split("/")[-1], "inputs": dict(given)}
        found[ask] = answer(json.dumps(request)) | {"inputs": request["inputs"]}
    return found


def test_every_page_is_written_and_every_file_is_a_page() -> None:
    assert sorted(path.stem for path in FOLDER.glob("*.md")) == sorted(["index", *NAMES])


def test_every_job_has_a_page_of_the_handbook_and_links_to_it() -> None:
    assert set(handbook_pages.ABOUT) == set(JOBS), "each job is in `about` of a page in site/handbook_pages.py"
    own = {"heap": (FOLDER.parent / "heap.md").read_text("utf-8")}
    for job in JOBS:
        assert f"[Read about it]({handbook_pages.about(job)})" in own.get(job, menu.page_of(job))


@pytest.mark.parametrize("name", NAMES)
def test_a_page_has_a_drawing_a_caution_and_a_way_on(name: str) -> None:
    page = drawn(name)
    assert "{{" not in page, "a marker is one word after another, with a space inside of each pair of braces"
    assert "data-plate=" in page
    assert "data-caution=" in page
    follows = NAMES[NAMES.index(name) + 1 :]
    way = f'href="../{follows[0]}/"' if follows else 'href="../"'
    assert f'<nav class="hand-next" aria-label="Next page"><a class="door" {way}>' in page


@pytest.mark.parametrize("name", NAMES)
def test_the_headings_of_a_page_begin_with_one_title_and_go_down_by_one(name: str) -> None:
    levels = [len(marks) for marks in re.findall(r"^(#+) ", written(name), re.MULTILINE)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))


@pytest.mark.parametrize("name", NAMES)
def test_every_figure_is_what_the_job_answers_to_the_figures_in_its_link(name: str) -> None:
    page, behind = drawn(name), answers_behind(name)
    shown = SHOWN.findall(page)
    told = TOLD.findall(page)
    assert shown or told
    for ask, word, part, text in shown:
        assert {row["word"]: row[part] for row in behind[ask]["shown"]}[word] == unescape(text)
    for ask, part, text in told:
        found = behind[ask]["headline"] if part == "headline" else behind[ask]["state"]["word"]
        assert found == unescape(text)
    for ask, word, text in GIVEN.findall(page):
        assert behind[ask]["inputs"][word] == unescape(text)


def test_every_question_is_shown_on_a_page() -> None:
    used = {ask for name in NAMES for ask in answers_behind(name)}
    assert used == set(handbook_answers.ASKS), "a question of site/handbook_asks.py (or of a walk) is shown on no page"


@pytest.mark.parametrize("key", MISTAKES)
def test_a_misunderstanding_has_a_number_or_a_word_of_a_job_and_stands_at_its_step(key: str) -> None:
    wrong, right = MISTAKES[key]
    assert wrong.endswith(".")
    assert re.search(r"\{\{ (?:figure|likely|headline|state) ", right) or re.search(r"\d.*\{\{ cite ", right)
    assert [name for name in STEPS if f'data-mistake="{key}"' in drawn(name)] != []
    assert f'data-mistake="{key}"' in drawn("misunderstandings")


@pytest.mark.parametrize("name", draw_plates.PLATES)
def test_every_drawing_is_on_a_page(name: str) -> None:
    assert any(f'data-plate="{name}"' in page for page in (_landing(), *map(drawn, NAMES)))


def test_the_landing_page_links_to_every_step() -> None:
    assert all(f'href="{name}/"' in _landing() for name in STEPS)


@pytest.mark.parametrize(
    ("marker", "words"),
    [
        ("figure", ("no_such", "sand_kg")),
        ("figure", ("first_heap", "no_such")),
        ("likely", ("first_heap", "make_kg")),
        ("caution", ("no_such",)),
        ("plate", ("no_such",)),
        ("cite", ("no_such",)),
        ("mistake", ("no_such",)),
    ],
)
def test_a_name_that_does_not_exist_stops_the_build(marker: str, words: tuple[str, ...]) -> None:
    with pytest.raises(NotInHandbook):
        draw_handbook.DRAWN[marker](*words)


def _landing() -> str:
    return hooks.with_drawn(written("index"))
