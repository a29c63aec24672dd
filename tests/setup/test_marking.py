"""Trade words on the pages: which are found in a text, where a page is left clean, and what the glossary holds."""

from __future__ import annotations

import json
import re
from collections import Counter
from pathlib import Path

import pytest

import draw
import draw_terms
import marking
from sandmix.vocabulary import WORDS
from sandmix.vocabulary.glossary_words import TERMS, Term

CASES = json.loads((Path(__file__).parents[1] / "marking_cases.json").read_text("utf-8"))
"""What the page's script is tested with too."""
ASKED = ("live clay", "dead fines", "modulus", "head", "mull", "riddle", "choke", "cope", "drag")
"""Words that must open, as the people who asked for the glossary named them."""


def keys_in(html: str) -> list[str]:
    """The words marked in a page, in its order."""
    return re.findall(r'class="term" data-term="([\w-]+)"', html)


@pytest.mark.parametrize("case", CASES, ids=[case["why"] for case in CASES])
def test_a_text_is_cut_at_its_trade_words_and_stays_the_same(case: dict[str, object]) -> None:
    text = str(case["text"])
    found = list(marking.pieces(text, set()))
    assert [key for _, key in found if key] == case["marked"]
    assert "".join(piece for piece, _ in found) == text


def test_a_word_that_the_part_has_already_is_not_marked_again() -> None:
    assert [key for _, key in marking.pieces("heap and cope", {"heap"}) if key] == ["cope"]


CLEAN = (
    "<h2>The heap</h2>",
    '<p><a href="x">the heap</a></p>',
    "<p><code>heap</code></p>",
    "<p><button>heap</button></p>",
    "<p><label>heap</label></p>",
    "<details><summary>heap</summary></details>",
    "<table><tr><td>heap</td></tr></table>",
    '<p class="formula">heap</p>',
    "<ul><li><svg><title>heap</title></svg></li></ul>",
    "<div>heap</div>",
)


@pytest.mark.parametrize("html", CLEAN)
def test_headings_links_buttons_labels_tables_and_formulas_stay_as_they_are(html: str) -> None:
    page = marking.page_of_text(f"{html}<p>A heap.</p>", "../")
    assert page.startswith(html)
    assert keys_in(page) == ["heap"]


def test_a_page_of_text_marks_a_word_once_and_leaves_the_rest_to_the_byte() -> None:
    html = '<p>Two &lt; three &amp; a&nbsp;<em>heap</em>.<br>\n<img src="a.png"/></p><!-- heap --><p>The heap &#8722; again.</p>'
    page = marking.page_of_text(html, "../../")
    link = '<a class="term" data-term="heap" href="../../words/#term-heap">heap</a>'
    assert page == html.replace("<em>heap</em>", f"<em>{link}</em>")


def test_each_form_and_each_list_of_an_answer_is_a_part_of_its_own() -> None:
    part = '<label>heap</label><p id="hint-a">The heap.</p><p id="hint-b">The heap, the cope.</p><p>The drag.</p>'
    lists = '<ol data-list="todo"><li>The heap.</li></ol><ul data-list="shown"><li>The heap.</li></ul>'
    page = marking.drawn_page(f"<form>{part}</form><template>{part}</template>{lists}", "")
    assert keys_in(page) == ["heap", "cope", "heap", "cope", "heap"]
    assert page.count("<label>heap</label>") == 2


def test_the_words_that_were_asked_for_are_there_and_each_has_one_meaning() -> None:
    assert {term.replace(" ", "-") for term in ASKED} <= TERMS.keys()
    assert [key for key, term in TERMS.items() if bool(term.says) == bool(term.meant_by)] == []
    assert [key for key, term in TERMS.items() if not draw_terms.meaning(term).endswith(".")] == []
    assert {term.meant_by for term in TERMS.values() if term.meant_by} <= WORDS.keys()


def test_no_two_trade_words_share_a_form() -> None:
    forms = Counter(form.lower() for term in TERMS.values() for form in term.written)
    assert [form for form, count in forms.items() if count > 1] == []


def test_a_meaning_is_not_written_a_second_time_where_the_help_of_a_quantity_has_it() -> None:
    helps = {word.help for word in WORDS.values()}
    assert [key for key, term in TERMS.items() if term.says and term.says in helps] == []
    assert draw_terms.meaning(Term(name="x", meant_by="clay_pct_dry")) == WORDS["clay_pct_dry"].help


def test_each_trade_word_has_the_quantities_whose_label_has_it() -> None:
    found = draw_terms.quantities_of()
    assert {"cope_depth_mm", "cope_kg", "cope_bars"} <= set(found["cope"])
    assert "dead_clay_pct_dry" not in found["live-clay"]
    page = draw_terms.glossary()
    assert re.findall(r'id="term-([\w-]+)"', page) == [
        key for _, key in sorted((t.name, t.key) for t in TERMS.values())
    ]
    assert set(re.findall(r'href="#(\w+)"', page)) <= set(draw.description()["words"])
