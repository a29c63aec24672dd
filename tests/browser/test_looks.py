"""Measurable properties of the look: no sideways scrolling, buttons large enough for gloves, enough contrast in all three looks."""

from __future__ import annotations

from collections import defaultdict
from urllib.parse import urlsplit

import beside
import pytest
from effort import is_long
from measures import FAINT_TEXTS, LOOKS, SMALL_TARGETS, TOO_WIDE, WEAR, text_size
from pages import JOBS
from playwright.sync_api import expect

PHONE_WIDTH, PHONE_HEIGHT = 390, 844
METHODS = ("method/temper", "method/burnout", "method/heap")
HANDBOOK = ("handbook/tempering", "handbook/gating")
WIDTHS = (320, PHONE_WIDTH, 1280)
ROOT_PX = "() => parseFloat(getComputedStyle(document.documentElement).fontSize)"
OPEN_ALL = """() => { for (const more of document.querySelectorAll("details")) more.open = true;
    for (const folded of document.querySelectorAll("[data-option], [data-units]")) folded.hidden = false; }"""
UNCOVER = "() => { for (const part of document.querySelectorAll('[data-cover], [data-heap]')) part.hidden = false; }"


@pytest.fixture(scope="module")
def found(browser, address, pages):
    """What is wrong with the look of any page: each is opened once, without its calculator, and seen in all ways.

    Only a long run has every job and not every second one, all pages about the methods, all of the handbook, and the pages of the library.
    """
    context = browser.new_context(viewport={"width": PHONE_WIDTH, "height": PHONE_HEIGHT}, service_workers="block")
    context.add_init_script(beside.NEVER)
    page, found = context.new_page(), defaultdict(list)
    context.on("request", lambda request: found["hosts"].append(urlsplit(request.url).hostname or ""))
    for name in pages:
        if name in JOBS[1::2] and not is_long():
            continue
        if name.startswith(("method/", "handbook/", "library/")) and name not in METHODS + HANDBOOK and not is_long():
            continue
        assert page.goto(f"{address}{name}/" if name else address).ok
        look_at(page, name, found)
    context.close()
    return found


def look_at(page, name, found):
    for width in WIDTHS:
        too_wide(page, width, name, found["sideways"])
    page.evaluate(OPEN_ALL)
    page.evaluate(UNCOVER)
    for look in LOOKS:
        page.evaluate(WEAR, look)
        found[look] += [(name, *faint) for faint in page.evaluate(FAINT_TEXTS)]
    for width in (320, PHONE_WIDTH) if name in JOBS else ():
        page.set_viewport_size({"width": width, "height": PHONE_HEIGHT})
        found["small"] += [(name, width, *small) for small in page.evaluate(SMALL_TARGETS)]
    text_size(page, 200)
    assert page.evaluate(ROOT_PX) == 40
    for width in (320, PHONE_WIDTH):
        too_wide(page, width, name, found["sideways at 200 %"])
    text_size(page, 100)
    page.set_viewport_size({"width": PHONE_WIDTH, "height": PHONE_HEIGHT})


def too_wide(page, width, name, found):
    page.set_viewport_size({"width": width, "height": PHONE_HEIGHT})
    needs, has = page.evaluate(TOO_WIDE)
    if needs > has:
        found.append((name, width, needs))


def test_no_page_contacts_another_host(found):
    assert set(found["hosts"]) <= {"127.0.0.1", ""}


@pytest.mark.parametrize("text", ["sideways", "sideways at 200 %"])
def test_no_page_scrolls_sideways(text, found):
    assert found[text] == []


def test_buttons_are_large_enough_for_gloves(found):
    assert found["small"] == []


@pytest.mark.parametrize("look", LOOKS)
def test_text_has_a_contrast_of_seven_to_one(look, found):
    assert found[look] == []


def test_the_measures_see_faint_text_a_small_button_and_a_wide_part(still_page, address):
    page = still_page
    page.goto(f"{address}temper/")
    page.evaluate("""() => { document.querySelector('h1').style.color = '#888';
        document.querySelector('#field-heap_kg').style = 'min-height: 0; height: 20px';
        document.querySelector('h1').style.width = '2000px'; }""")
    assert any(words.startswith("Is the sand") for _, _, words in page.evaluate(FAINT_TEXTS))
    assert page.evaluate(SMALL_TARGETS) != []
    wide = []
    too_wide(page, PHONE_WIDTH, "temper", wide)
    assert wide != []


@pytest.mark.parametrize("look", LOOKS)
def test_the_look_that_a_person_chose_is_worn_from_the_start(look, still_context, address):
    context = still_context()
    context.add_init_script(f"if (location.origin !== 'null') localStorage.setItem('sandmix.look', '{look}');")
    page = context.new_page()
    page.goto(address)
    expect(page.locator("html")).to_have_attribute("data-look", look)


def test_help_is_folded_on_a_phone_and_open_without_javascript(still_page, new_context, address):
    still_page.goto(f"{address}temper/")
    expect(still_page.locator("#hint-heap_kg")).to_be_hidden()
    still_page.locator("[data-help=heap_kg]").click()
    expect(still_page.locator("#hint-heap_kg")).to_be_visible()
    plain = new_context(java_script_enabled=False).new_page()
    plain.goto(f"{address}temper/")
    expect(plain.locator("#hint-heap_kg")).to_be_visible()
    expect(plain.locator("[data-help=heap_kg]")).to_be_hidden()
