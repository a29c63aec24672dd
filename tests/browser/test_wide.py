"""A wide screen is used: the answer beside the form, the heap beside the casting, the entries beside what is recorded."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

WIDE = {"width": 1280, "height": 844}
NARROWER = {"width": 1024, "height": 844}
LOW = {"width": 1280, "height": 480}
BOX = """name => { const part = document.querySelector(name), { left, right, top, bottom } = part.getBoundingClientRect();
    return { left, right, top, bottom, position: getComputedStyle(part).position }; }"""
HEADER = 56


def boxes(page, *names):
    return [page.evaluate(BOX, name) for name in names]


def is_left_of(one, other):
    """Whether a box stands to the left of another, at the same height."""
    return one["right"] < other["left"] and one["top"] < other["bottom"] and other["top"] < one["bottom"]


def test_the_answer_stands_beside_the_form_and_stays_in_view(still_hand):
    still_hand.page.set_viewport_size(WIDE)
    page = still_hand.open("rebond").page
    form, bar, answer = boxes(page, ".form", ".bar", ".answer")
    assert is_left_of(form, bar)
    assert is_left_of(form, answer)
    assert (bar["left"], bar["right"]) == (answer["left"], answer["right"])
    assert form["bottom"] > WIDE["height"]
    page.evaluate("() => scrollTo(0, document.querySelector('.form [data-submit]').getBoundingClientRect().top - 400)")
    page.locator("[data-example-fold] > summary").click()
    bar, example, answer = boxes(page, ".bar", "[data-example-fold] > summary", ".answer")
    assert HEADER <= bar["top"] < HEADER + 20
    assert bar["bottom"] <= example["top"] + 1
    assert answer["bottom"] <= WIDE["height"]
    page.locator(".answer [data-deed=print]").scroll_into_view_if_needed()
    assert boxes(page, ".bar")[0]["top"] == bar["top"]
    assert (
        page.locator(".answer [data-deed=print]").evaluate("part => part.getBoundingClientRect().bottom")
        <= answer["bottom"]
    )


@pytest.mark.parametrize("size", [NARROWER, LOW])
def test_on_a_narrower_or_a_low_screen_the_bar_stays_at_the_foot(size, still_hand):
    still_hand.page.set_viewport_size(size)
    page = still_hand.open("temper").page
    [bar] = boxes(page, ".bar")
    assert bar["position"] == "fixed"
    assert bar["bottom"] == size["height"]


def test_the_heap_stands_beside_the_casting_and_the_entries_beside_what_is_recorded(hand, address):
    page = hand.page
    page.set_viewport_size(WIDE)
    page.goto(address)
    casting, first, tools = boxes(page, ".start", ".first-timer", "[data-tools]")
    assert is_left_of(casting, first)
    assert tools["top"] >= max(casting["bottom"], first["bottom"])
    hand.open("heap")
    page.locator("[data-deed=begin]").click()
    expect(page.locator("#record > h2")).to_be_focused()
    page.locator("[data-else]").evaluate("other => { other.open = true; }")
    page.locator(".kinds [data-record=measured]").press("Enter")
    hand.box("heap_kg").fill("30")
    hand.box("moisture_pct_wet").fill("3")
    page.locator("[data-event] [data-submit]").click()
    expect(page.locator("[data-timeline] .event")).to_be_visible()
    now, record, entries, keep = boxes(page, "[data-heap]", ".record", "[data-timeline]", ".book-keep")
    assert is_left_of(now, entries)
    assert record["right"] < entries["left"]
    assert record["top"] >= now["bottom"]
    assert keep["top"] >= max(record["bottom"], entries["bottom"])


def test_lines_of_text_stay_short_and_tables_take_the_whole_width(still_page, address):
    page = still_page
    page.set_viewport_size({"width": 1600, "height": 900})
    page.goto(f"{address}method/temper/")
    page.locator(".md-typeset__table").first.wait_for()
    text, table, contents = boxes(page, "article > p:not(.formula)", "article table", ".md-nav--secondary")
    assert text["right"] - text["left"] <= 37 * 22
    assert table["right"] - table["left"] > text["right"] - text["left"]
    assert is_left_of(table, contents)
