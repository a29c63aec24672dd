"""Measurable properties of the look: no sideways scrolling, buttons large enough for gloves, enough contrast in all three looks."""

from __future__ import annotations

from pathlib import Path

import pytest
from pages import JOBS
from playwright.sync_api import expect

WIDTHS = (320, 390, 1280)
PHONE_HEIGHT = 844
TOO_WIDE = """() => [Math.max(document.documentElement.scrollWidth, document.body.scrollWidth), innerWidth]"""
OPEN_ALL = """() => { for (const more of document.querySelectorAll("details")) more.open = true;
    for (const folded of document.querySelectorAll("[data-option], [data-units]")) folded.hidden = false; }"""
UNCOVER = "() => { for (const part of document.querySelectorAll('[data-cover], [data-heap]')) part.hidden = false; }"
MEASURE = (Path(__file__).parent / "measure.js").read_text("utf-8").rstrip().rstrip(";")
SMALL_TARGETS = f"{MEASURE}.smallTargets()"
FAINT_TEXTS = f"{MEASURE}.faintTexts(7)"


def bigger_text(page, percent):
    """Set the browser's own text size, as a person does: the base of 1 rem, 16 px by default."""
    session = page.context.new_cdp_session(page)
    size = 16 * percent // 100
    session.send("Page.enable")
    session.send("Page.setFontSizes", {"fontSizes": {"standard": size, "fixed": size}})


def test_no_page_scrolls_sideways_at_any_width(page, address, pages):
    wide = []
    for name in pages:
        page.goto(f"{address}{name}/" if name else address)
        for width in WIDTHS:
            page.set_viewport_size({"width": width, "height": 844})
            needs, has = page.evaluate(TOO_WIDE)
            if needs > has:
                wide.append((name, width, needs))
    assert wide == []


@pytest.mark.parametrize("width", [390, 320])
def test_no_page_scrolls_sideways_with_text_at_200_percent(width, page, address):
    page.set_viewport_size({"width": width, "height": 844})
    bigger_text(page, 200)
    wide = []
    for name in ("", *(f"{job}/" for job in JOBS)):
        page.goto(address + name)
        assert page.evaluate("() => parseFloat(getComputedStyle(document.documentElement).fontSize)") == 40
        page.evaluate(OPEN_ALL)
        needs, has = page.evaluate(TOO_WIDE)
        if needs > has:
            wide.append((name, needs))
    assert wide == []


@pytest.mark.parametrize("job", JOBS)
def test_at_least_three_fields_are_visible_above_the_bar(job, hand):
    page = hand.open(job).page
    bar = page.locator("[data-bar]").bounding_box()
    assert bar["height"] <= 0.25 * PHONE_HEIGHT
    fields = page.locator(
        "[data-form] .box, [data-form] :is(.way, .choice) > .chips, [data-form] select, [data-form] .tile"
    )
    ends = [box["y"] + box["height"] for box in (part.bounding_box() for part in fields.all() if part.is_visible())]
    assert len([end for end in ends if end <= bar["y"]]) >= min(3, len(ends)) > 0


def test_the_bar_leaves_space_for_the_form_with_text_at_200_percent(hand):
    bigger_text(hand.page, 200)
    heights = {job: hand.open(job).page.locator("[data-bar]").bounding_box()["height"] for job in JOBS}
    assert {job: height for job, height in heights.items() if height > 0.3 * PHONE_HEIGHT} == {}


def test_help_is_folded_on_a_phone_and_open_without_javascript(hand, new_context):
    page = hand.open("temper").page
    expect(page.locator("#hint-heap_kg")).to_be_hidden()
    page.locator("[data-help=heap_kg]").click()
    expect(page.locator("#hint-heap_kg")).to_be_visible()
    plain = new_context(java_script_enabled=False).new_page()
    plain.goto(f"{hand.base}temper/")
    expect(plain.locator("#hint-heap_kg")).to_be_visible()
    expect(plain.locator("[data-help=heap_kg]")).to_be_hidden()


@pytest.mark.parametrize("job", JOBS)
def test_buttons_are_large_enough_for_gloves(job, page, address):
    page.goto(f"{address}{job}/")
    page.evaluate(OPEN_ALL)
    assert page.evaluate(SMALL_TARGETS) == []
    page.set_viewport_size({"width": 320, "height": 640})
    assert page.evaluate(SMALL_TARGETS) == []


@pytest.mark.parametrize("look", ["paper", "night", "contrast"])
def test_text_has_a_contrast_of_seven_to_one(look, new_context, address, pages):
    context = new_context()
    context.add_init_script(f"if (location.origin !== 'null') localStorage.setItem('sandmix.look', '{look}');")
    page = context.new_page()
    faint = []
    for name in pages:
        page.goto(f"{address}{name}/" if name else address)
        expect(page.locator("html")).to_have_attribute("data-look", look)
        page.evaluate(OPEN_ALL)
        page.evaluate(
            "() => { for (const part of document.querySelectorAll('[data-cover], [data-heap]')) part.hidden = false; }"
        )
        faint += [(name, *found) for found in page.evaluate(FAINT_TEXTS)]
    assert faint == []


def test_the_contrast_check_sees_faint_text(page, address):
    page.goto(f"{address}temper/")
    page.evaluate("() => { document.querySelector('h1').style.color = '#888'; }")
    assert any(words.startswith("Is the sand") for _, _, words in page.evaluate(FAINT_TEXTS))
