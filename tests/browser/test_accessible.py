"""Every page for every hand: no finding of axe-core in any look, and what a person needs who hears the page or has no mouse."""

from __future__ import annotations

import json
import os
from collections import defaultdict

import pytest
from measures import FINDINGS, LOOKS, WEAR, text_size
from pages import JOBS, OF_THE_BOOK
from playwright.sync_api import expect

from sandmix.doors.facade import call

PHONE = {"width": 390, "height": 844}
NARROW = {"width": 320, "height": 568}
WIDE = {"width": 1280, "height": 844}
ZOOMED = {"width": 320, "height": 256}
"""A window of 1280 × 1024 at a zoom of 400 %."""
KINDS = (
    *("", "heap", "plan", "temper", "burnout", "diagnose", "settings"),
    *("method/temper", "handbook/gating", "checks", "materials"),
)
"""One page of each kind; with `--long`, every page is seen in every way and all rules are asked."""
STRUCTURE = (
    *(
        "aria-allowed-role",
        "aria-required-children",
        "aria-valid-attr-value",
        "duplicate-id-aria",
        "empty-table-header",
    ),
    *("heading-order", "label", "label-content-name-mismatch", "landmark-unique", "list", "nested-interactive"),
    *("page-has-heading-one", "region", "scrollable-region-focusable", "skip-link"),
)
IS_LONG = "SANDMIX_LONG" in os.environ
SEEN = ("color-contrast", "link-in-text-block", "scrollable-region-focusable", "target-size")
"""The rules that depend on colours and on the width of the screen."""
RULES = {"open": () if IS_LONG else STRUCTURE, "forced colours": SEEN[1:]}
"""The rules of the other looks; none named means all. Forced colours are the system's own, and axe-core reads a fill colour that is not painted."""
OPEN_ALL = "() => { for (const more of document.querySelectorAll('details')) more.open = true; }"
SHOW_AT_ONCE = """() => { const sheet = new CSSStyleSheet();
    sheet.replaceSync("* { transition: none !important; } .entry { content-visibility: visible !important; }");
    document.adoptedStyleSheets.push(sheet); }"""
"""Colours change at once, also where nobody looks: a browser leaves the style of what is out of sight for later."""
SETTLED = "() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done))))"


@pytest.fixture(scope="module")
def barriers(browser, address, pages, axe):
    """What axe-core finds in each look. Every page is opened once, without its calculator."""
    context = browser.new_context(viewport=PHONE, service_workers="block")
    context.route("**/app/worker.js", lambda route: route.fulfill(content_type="text/javascript", body=""))
    page, found = context.new_page(), defaultdict(list)
    for name in pages:
        if not IS_LONG and name not in KINDS:
            continue
        page.goto(f"{address}{name}/" if name else address)
        page.evaluate(axe)
        for look in look_through(page, everywhere=IS_LONG):
            page.evaluate(SETTLED)
            rules = RULES.get(look, SEEN)
            found[look] += [(name, *one) for one in page.evaluate(FINDINGS, [rules, IS_LONG])]
    context.close()
    return found


WAYS = ("open", *((*LOOKS[1:], "forced colours", "320 px", "200 % text", "1280 px") if IS_LONG else ()))


def look_through(page, *, everywhere):
    """Open everything on the page, then bring it into one look after the other."""
    page.evaluate(OPEN_ALL)
    page.evaluate(SHOW_AT_ONCE)
    yield "open"
    if not everywhere:
        return
    for look in LOOKS[1:]:
        page.evaluate(WEAR, look)
        yield look
    page.evaluate(WEAR, LOOKS[0])
    page.emulate_media(forced_colors="active")
    yield "forced colours"
    page.emulate_media(forced_colors="none")
    page.set_viewport_size(NARROW)
    yield "320 px"
    text_size(page, 200)
    yield "200 % text"
    text_size(page, 100)
    page.set_viewport_size(WIDE)
    yield "1280 px"
    page.set_viewport_size(PHONE)


@pytest.mark.parametrize("look", WAYS)
def test_axe_finds_no_barrier(look, barriers):
    assert barriers[look] == []


def test_axe_would_find_a_barrier(still_page, address, axe):
    still_page.goto(f"{address}temper/")
    still_page.evaluate("() => document.querySelector('label[for=field-heap_kg]').remove()")
    still_page.evaluate(axe)
    assert "label" in {rule for rule, *_ in still_page.evaluate(FINDINGS, [[], False])}


HELD = "() => document.activeElement.id || document.activeElement.className || document.activeElement.tagName"
IN_FORM = "() => document.activeElement.closest('[data-form]') !== null"
COVERED = """() => {
    const held = document.activeElement, box = held.getBoundingClientRect();
    const [bar, header] = [".bar:not([hidden])", ".md-header"].map((part) => document.querySelector(part));
    if (held === document.body || bar.contains(held) || header.contains(held) || held.matches(".skip")) return null;
    const top = getComputedStyle(header).position === "static" ? 0 : header.getBoundingClientRect().bottom;
    const bottom = bar.getBoundingClientRect().top;
    const room = Math.min(box.height, bottom - top);
    const seen = Math.min(box.bottom, bottom) - Math.max(box.top, top);
    return seen >= Math.min(room, 24) - 1 ? null : [held.id || held.className, box.top, box.bottom, top, bottom];
}"""
SPOKEN = """(box) => box.getAttribute("aria-describedby").split(" ").map((id) => document.getElementById(id).textContent)
    .filter(Boolean)"""
TIGHT = """() => {
    const paint = document.createElement("canvas").getContext("2d");
    const boxes = Array.from(document.querySelectorAll(".form .box input")).filter((box) => box.checkVisibility());
    return [boxes.length, boxes.flatMap((box) => {
        const { fontWeight, fontSize, fontFamily } = getComputedStyle(box);
        paint.font = `${fontWeight} ${fontSize} ${fontFamily}`;
        const needs = paint.measureText("1234.5").width;
        return box.clientWidth >= needs ? [] : [[box.id || box.dataset.part, box.clientWidth, Math.round(needs)]];
    })];
}"""
FREE = """() => {
    const [bar, header] = [".bar", ".md-header"].map((part) => document.querySelector(part));
    const top = getComputedStyle(header).position === "static" ? 0 : header.getBoundingClientRect().bottom;
    return (bar.getBoundingClientRect().top - top) / innerHeight;
}"""
GROUND = "(part) => getComputedStyle(part).backgroundColor"


@pytest.mark.parametrize("name", ["temper", "diagnose", "words", ""])
def test_the_first_tab_stop_skips_what_all_pages_share(name, still_page, address):
    still_page.goto(f"{address}{name}/" if name else address)
    still_page.keyboard.press("Tab")
    expect(still_page.locator(".skip")).to_be_focused()
    still_page.keyboard.press("Enter")
    expect(still_page.locator("#form" if name in ("temper", "diagnose") else "#begin")).to_be_focused()


@pytest.mark.parametrize("viewport", [PHONE, WIDE])
def test_few_tab_stops_lie_before_the_form(viewport, still_hand):
    still_hand.page.set_viewport_size(viewport)
    page = still_hand.open("temper").page
    stops = 0
    while not page.evaluate(IN_FORM):
        page.keyboard.press("Tab")
        stops += 1
        assert stops < 9, page.evaluate(HELD)


@pytest.mark.parametrize("viewport", [PHONE, NARROW, ZOOMED])
def test_what_has_the_focus_is_not_behind_the_bar(viewport, still_hand):
    still_hand.page.set_viewport_size(viewport)
    page = still_hand.open("temper").page
    page.evaluate(OPEN_ALL)
    covered = []
    for key in ["Tab"] * 45 + ["Shift+Tab"] * 30:
        page.keyboard.press(key)
        covered += [found] if (found := page.evaluate(COVERED)) else []
    assert covered == []


@pytest.mark.parametrize(("opens", "place"), [("drawer", "#all-pages"), ("search", ".md-search")])
def test_what_the_header_opens_says_so_and_closes_with_escape(opens, place, still_hand):
    page = still_hand.open("temper").page
    button = page.locator(f"[data-opens={opens}]")
    expect(button).to_have_attribute("aria-expanded", "false")
    button.press("Enter")
    expect(button).to_have_attribute("aria-expanded", "true")
    expect(page.locator(f"{place} :focus")).to_have_count(1)
    page.keyboard.press("Escape")
    expect(button).to_have_attribute("aria-expanded", "false")
    expect(button).to_be_focused()


def test_each_number_is_spoken_with_its_unit_and_its_basis(still_hand, jobs):
    page, words = still_hand.open("mix").page, json.loads(call('{"job": "describe"}'))["words"]
    for entry in jobs["mix"]["asks"]:
        if words[entry["word"]]["kind"] != "quantity":
            continue
        spoken = page.locator(f"#field-{entry['word']}").evaluate(SPOKEN)
        assert {words[entry["word"]]["unit"], words[entry["word"]]["basis"]} - {""} <= {*spoken}
        assert " ".join(spoken).count("Usual:") <= 1


def test_a_figure_in_another_unit_is_announced_and_an_emptied_form_keeps_the_focus(hand, answer):
    page = hand.open("temper").page
    given = {"heap_kg": "55", "sample_wet_g": "500", "sample_dry_g": "488.5"}
    hand.type(given)
    hand.reads(answer("temper", given))
    hand.unit("heap_kg", "lb")
    expect(hand.box("heap_kg")).not_to_have_value(given["heap_kg"])
    expect(page.locator("[data-form-said]")).to_have_text(f"Sand in the heap: {hand.box('heap_kg').input_value()} lb")
    assert "lb" in hand.box("heap_kg").evaluate(SPOKEN)
    page.locator("[data-deed=clear]").press("Enter")
    expect(page.locator("[data-notice]")).to_be_focused()
    page.locator("[data-notice] button").press("Enter")
    expect(page.locator("#form")).to_be_focused()


def test_a_link_in_the_summary_leaves_the_way_that_a_person_chose(still_hand):
    page = still_hand.open("temper").page
    still_hand.way("moisture", "figure")
    page.evaluate("""() => { const link = Object.assign(document.createElement("a"), { href: "#", textContent: "wrong" });
        link.dataset.goTo = "sample_wet_g"; document.querySelector("[data-form]").prepend(link); }""")
    page.locator("[data-go-to=sample_wet_g]").press("Enter")
    expect(page.locator("[data-way=moisture] input[value=figure]")).to_be_checked()
    expect(page.locator("[data-way=moisture] input[value=figure]")).to_be_focused()


def test_the_focus_stays_near_what_was_taken_away(still_hand):
    page = still_hand.open("temper").page
    box = still_hand.box("heap_kg")
    box.focus()
    box.evaluate("box => box.remove()")
    expect(page.locator("#form")).to_be_focused()


def test_chosen_chips_and_tiles_differ_in_forced_colours(still_hand):
    page = still_hand.open("diagnose").page
    page.emulate_media(forced_colors="active")
    tile = page.locator(".tile").first
    before = tile.evaluate(GROUND)
    tile.click()
    assert tile.evaluate(GROUND) != before
    page = still_hand.open("temper").page
    chips = page.locator("[data-way=moisture] .chip")
    assert chips.nth(0).locator("span").evaluate(GROUND) != chips.nth(1).locator("span").evaluate(GROUND)


def test_numbers_can_be_read_at_twice_the_text_on_a_narrow_phone(still_hand):
    still_hand.page.set_viewport_size(NARROW)
    text_size(still_hand.page, 200)
    for job in JOBS if IS_LONG else ("temper", "mix", "blend", "fineness", "plan"):
        page = still_hand.open(job).page
        page.evaluate(OPEN_ALL)
        boxes, tight = page.evaluate(TIGHT)
        assert boxes or job in OF_THE_BOOK
        assert tight == [], job


BROKEN = """() => { const names = Array.from(document.querySelectorAll(".next > .day [data-slot=label]")).filter(name => name.offsetParent);
    const lines = name => { const range = document.createRange(); range.selectNodeContents(name);
        return new Set(Array.from(range.getClientRects(), line => Math.round(line.top))).size; };
    return [names.length, names.filter(name => lines(name) > name.textContent.split(" ").length).map(name => name.textContent)]; }"""


def test_the_name_of_a_step_breaks_only_between_words_on_a_narrow_phone(still_hand):
    page = still_hand.open("plan").page
    page.set_viewport_size(NARROW)
    page.evaluate(OPEN_ALL)
    names, broken = page.evaluate(BROKEN)
    assert names
    assert broken == []


def test_the_bar_leaves_half_of_a_window_at_four_times_the_size(still_hand):
    still_hand.page.set_viewport_size(ZOOMED)
    for job in ("temper", "plan", "burnout"):
        assert still_hand.open(job).page.evaluate(FREE) >= 0.5, job


def begin(page):
    """Start a book by the keyboard, once the page shows that there is none. The focus goes to where its entries are recorded."""
    start = page.locator("[data-deed=begin]")
    expect(start).to_be_visible()
    start.press("Enter")
    expect(page.locator("#record > h2")).to_be_focused()
    expect(page.locator("[data-which] option")).to_have_count(1)


def record(page):
    """Open the form for what a test of the heap gave, by the keyboard."""
    page.evaluate(OPEN_ALL)
    page.locator(".kinds [data-record=measured]").press("Enter")


def test_the_focus_goes_to_where_the_work_in_the_book_goes_on(still_hand):
    page = still_hand.open("heap").page
    begin(page)
    record(page)
    expect(page.locator("[data-event] > h3")).to_be_focused()
    expect(page.locator("[data-event] .term").first).to_have_role("button")
    page.locator("[data-event] [data-deed=leave]").press("Enter")
    expect(page.locator("[data-event-form] :focus")).to_have_count(1)


def test_the_focus_is_on_what_the_book_says_of_an_entry_that_is_saved(hand):
    page = hand.open("heap").page
    begin(page)
    record(page)
    page.locator("#field-heap_kg").fill("30")
    page.locator("#field-moisture_pct_wet").fill("3")
    page.locator("[data-event] [data-submit]").press("Enter")
    expect(page.locator("[data-saved]")).to_be_focused()
    expect(page.locator("[data-saved]")).to_contain_text("Saved.")
