"""Trade words open their line of the glossary in place: in a help text, in an answer, on a page of text; by tap and by key."""

from __future__ import annotations

import pytest
from measures import FINDINGS
from playwright.sync_api import expect

from draw_terms import meaning
from sandmix.vocabulary.glossary_words import TERMS

TYPED = {"heap_kg": "45", "sample_wet_g": "400", "sample_dry_g": "391"}
OPEN_ALL = "() => { for (const more of document.querySelectorAll('details')) more.open = true; }"
OPEN_LINE = ".term-line:popover-open"
RULES = (
    "aria-allowed-role",
    "aria-dialog-name",
    "aria-valid-attr-value",
    "color-contrast",
    "duplicate-id-aria",
    "link-name",
    "nested-interactive",
    "region",
    "target-size",
)
HEIGHTS = "() => Array.from(document.querySelectorAll('.term')).filter(t => t.checkVisibility()).map(t => t.getBoundingClientRect().height)"
WITHIN = """box => { const at = box.getBoundingClientRect();
    return at.left >= 0 && at.right <= innerWidth && at.top >= 0 && at.bottom <= innerHeight; }"""
GOES_ON_BEHIND = """term => document.activeElement.matches(".answer *")
    && Boolean(term.compareDocumentPosition(document.activeElement) & Node.DOCUMENT_POSITION_FOLLOWING)"""
LINES = "part => part.getBoundingClientRect().height"
UNMARK = "part => { for (const term of part.querySelectorAll('.term')) term.replaceWith(term.textContent); }"


def opens(page, term):
    """The line of this word, opened by a tap."""
    key = term.get_attribute("data-term")
    term.click()
    expect(page.locator(OPEN_LINE)).to_contain_text(meaning(TERMS[key]))
    expect(term).to_have_attribute("aria-expanded", "true")
    assert page.locator(OPEN_LINE).evaluate(WITHIN)
    return key


def test_a_word_of_an_answer_and_of_a_help_text_opens_its_line(hand, axe):
    page = hand.open("temper").page
    hand.type(TYPED)
    todo = page.locator("[data-list=todo]")
    term = todo.locator(".term[role=button]").first
    expect(term).to_be_visible()
    term.scroll_into_view_if_needed()
    opens(page, term)
    page.keyboard.press("Escape")
    expect(page.locator(OPEN_LINE)).to_have_count(0)
    expect(term).to_be_focused()
    expect(term).to_have_attribute("aria-expanded", "false")

    term.press("Enter")
    expect(page.locator(OPEN_LINE)).to_be_focused()
    page.keyboard.press("Tab")
    expect(page.locator(f"{OPEN_LINE} a")).to_be_focused()
    assert f"words/#term-{term.get_attribute('data-term')}" in page.locator(f"{OPEN_LINE} a").get_attribute("href")
    page.locator(f"{OPEN_LINE} button").click()
    expect(term).to_be_focused()

    term.press("Enter")
    expect(page.locator(OPEN_LINE)).to_be_focused()
    for _ in range(3):
        page.keyboard.press("Tab")
    expect(page.locator(OPEN_LINE)).to_have_count(0)
    assert term.evaluate(GOES_ON_BEHIND)
    page.keyboard.press("Shift+Tab")
    expect(term).to_be_focused()
    term.press("Enter")
    expect(page.locator(OPEN_LINE)).to_be_focused()
    page.keyboard.press("Shift+Tab")
    expect(page.locator(OPEN_LINE)).to_have_count(0)
    expect(term).to_be_focused()

    page.locator("[data-help=sample_wet_g]").click()
    term = page.locator("#hint-sample_wet_g .term")
    opens(page, term)
    page.evaluate(axe)
    assert page.evaluate(FINDINGS, [RULES, False]) == []
    term.click()
    expect(page.locator(OPEN_LINE)).to_have_count(0)
    opens(page, term)
    page.locator(".question h1").click()
    expect(page.locator(OPEN_LINE)).to_have_count(0)

    kept = todo.locator("li").first.element_handle()
    hand.type({"scale_step_g": "1"})
    expect(page.locator("[data-bar][data-busy]")).to_have_count(0)
    page.evaluate(OPEN_ALL)
    assert kept.evaluate("row => row.isConnected")
    for part in ("todo", "working", "remarks"):
        keys = page.locator(f"[data-list={part}] .term").evaluate_all("terms => terms.map(t => t.dataset.term)")
        assert len(keys) == len(set(keys))
    assert min(page.evaluate(HEIGHTS)) >= 24


def test_a_word_on_a_page_of_text_opens_and_moves_no_line(still_page, address):
    still_page.goto(f"{address}method/temper/")
    term = still_page.locator(".term[role=button]").first
    key = opens(still_page, term)
    still_page.keyboard.press("Escape")
    term.press(" ")
    expect(still_page.locator(OPEN_LINE)).to_have_count(1)
    still_page.locator(f"{OPEN_LINE} a").click()
    expect(still_page).to_have_url(f"{address}words/#term-{key}")
    still_page.go_back()
    text = still_page.locator("article")
    with_marks = text.evaluate(LINES)
    text.evaluate(UNMARK)
    assert text.evaluate(LINES) == pytest.approx(with_marks, abs=0.5)


def test_where_no_line_can_open_a_word_leads_to_the_glossary(new_context, address):
    page = new_context(java_script_enabled=False).new_page()
    page.goto(f"{address}method/temper/")
    term = page.locator(".term").first
    key = term.get_attribute("data-term")
    term.click()
    expect(page.locator(f"#term-{key}")).to_contain_text(meaning(TERMS[key]))
