"""The list of checks, and the formulas of the method pages that name its topics."""

from __future__ import annotations

import re

import draw_checks
import menu
from check_list import CHECKS, WRITE, checks, of_topic, own_sources, read, sources, written
from check_topics import TOPICS
from checkout import ROOT
from sandmix.language.sources import HOW_SURE, SOURCES

FORMULAS = [
    (page.stem, found[1])
    for page in sorted(menu.METHODS.glob("*.md"))
    for found in re.finditer(r'class="formula"(?: data-checks="([^"]*)")?', page.read_text("utf-8"))
]
MARKED = re.compile(r'data-checks="([^"]*)"|\{\{ checked (\w+) \}\}')


def named() -> set[str]:
    """The topics that a method page names, at a formula or in its text."""
    pages = "".join(page.read_text("utf-8") for page in menu.METHODS.glob("*.md"))
    return {topic for found in MARKED.findall(pages) for topic in " ".join(found).split()}


def test_each_formula_names_topics_or_says_that_none_checks_it() -> None:
    unmarked = [page for page, topics in FORMULAS if not topics]
    assert unmarked == [], f"a formula lacks data-checks: the topics that check it, or {draw_checks.NONE}"
    named_here = {topic for _, topics in FORMULAS for topic in topics.split()}
    assert named_here <= {*TOPICS, draw_checks.NONE}


def test_every_topic_is_named_by_a_method_page() -> None:
    assert named() - {draw_checks.NONE} == set(TOPICS), (
        "name each topic of site/check_topics.py on a method page, in data-checks or as {{ checked topic }}, and no other"
    )


def test_every_topic_has_a_check() -> None:
    assert [topic for topic in TOPICS if not of_topic(topic)] == [], f"once their tests are there, `{WRITE}` lists them"


def test_every_check_names_a_topic_and_a_source_and_a_file_of_tests() -> None:
    for check in checks():
        assert check.topic in TOPICS
        assert check.source in sources()
        assert (CHECKS.parent / f"{check.test}.py").exists(), check.test


def test_the_sources_of_tests_have_the_form_of_the_library_s_own_and_no_key_of_theirs() -> None:
    assert not own_sources().keys() & SOURCES.keys()
    assert {source.how_sure for source in own_sources().values()} <= set(HOW_SURE)
    compared = {check.source for check in checks()}
    assert sorted(own_sources().keys() - compared) == [], "a source that only tests use is used by one"


def test_a_source_of_the_library_is_named_by_its_code_or_by_a_check() -> None:
    files = (path for path in (ROOT / "sandmix").rglob("*.py") if path.name != "sources.py")
    named_there = set(re.findall(r"\w+", " ".join(path.read_text("utf-8") for path in files)))
    unused = SOURCES.keys() - named_there - {check.source for check in checks()}
    assert sorted(unused) == [], "name each of these sources where its figure stands in sandmix/, or in a check"


def test_the_file_is_sorted_and_reads_back_as_it_is() -> None:
    text = CHECKS.read_text("utf-8")
    assert written(read(text)) == text


def test_a_formula_says_how_many_figures_check_it() -> None:
    drawn = draw_checks.with_links('<p class="formula" data-checks="permeability">P = 1</p>')
    assert f"{len(of_topic('permeability'))} checks</a>" in drawn
    assert "/checks/#permeability" in drawn
    assert "Not checked" in draw_checks.with_links('<p class="formula" data-checks="none">a = b</p>')
