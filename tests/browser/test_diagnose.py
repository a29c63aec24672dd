"""What went wrong: signs picked by their pictures, causes as cards with points, and the next test as a link to the bench."""

from __future__ import annotations

import re

import pytest
from measures import FAINT_TEXTS, LOOKS, SMALL_TARGETS, TOO_WIDE, WEAR
from playwright.sync_api import expect

from tests.browser.test_book import MIXED, POURED, TESTED, book_of, put

SEEN = {"symptoms": "dusty, crumbling_edges", "rested_h": "5"}


def tile(page, key):
    return page.locator(f"[data-field=symptoms] [data-tile={key}]")


def ticked(page):
    return set(page.locator("[data-field=symptoms] input:checked").evaluate_all("boxes => boxes.map(box => box.value)"))


def check_cards(page, native):
    cards = page.locator("[data-list=cards] > li")
    expect(cards).to_have_count(len(native["cards"]))
    for shown, told in zip(cards.all(), native["cards"], strict=True):
        expect(shown.locator("[data-slot=title]")).to_have_text(told["title"])
        expect(shown.locator("[data-slot=text]")).to_have_text(told["text"])
        assert float(shown.locator("[data-share]").get_attribute("width")) == pytest.approx(told["share_pct"], abs=0.01)
        points = shown.locator("[data-list=points] > .point")
        assert points.locator("[data-slot=name]").all_text_contents() == [side["name"] for side in told["points"]]
        for point, side in zip(points.all(), told["points"], strict=True):
            assert point.locator("[data-slot=words]").all_text_contents() == list(side["texts"])


def check_first(page, native):
    first = page.locator("[data-first-step]")
    expect(first.locator("[data-slot=first]")).to_have_text(native["first"]["text"])
    left = first.locator("[data-list=not-before] [data-slot=words]").all_text_contents()
    assert left == list(native["first"]["not_before"])


def test_every_sign_has_a_picture_and_is_in_one_group(still_hand, jobs):
    page = still_hand.open("diagnose", ready=False).page
    keys = page.locator("[data-field=symptoms] [data-tile]").evaluate_all(
        "tiles => tiles.map(tile => tile.dataset.tile)"
    )
    assert len(keys) == len(set(keys)) == 37
    assert page.locator("[data-field=symptoms] [data-tile] svg[aria-hidden=true]").count() == 37
    assert page.locator("[data-field=symptoms] .tile-group > summary").count() == 6


def test_causes_are_cards_with_points_and_bar_and_the_next_test_comes_first(hand, answer):
    native = answer("diagnose", SEEN)
    page = hand.open("diagnose").type(SEEN).page
    hand.reads(native)
    check_cards(page, native)
    check_first(page, native)
    boxes = [
        page.locator(place).bounding_box()["y"]
        for place in ("[data-first-step]", "[data-cards]", "[data-folded=figures]")
    ]
    assert boxes == sorted(boxes)


def test_the_cards_of_the_worked_example_are_shown_without_javascript(new_context, address, answer, jobs):
    page = new_context(java_script_enabled=False).new_page()
    page.goto(f"{address}diagnose/")
    native = answer("diagnose", jobs["diagnose"]["example"])
    check_cards(page, native)
    check_first(page, native)


def test_the_link_opens_the_bench_with_that_test_chosen(hand, answer):
    seen = {"symptoms": "weak_squeeze, crumbling_edges, ever_more_water", "moisture_pct_wet": "4.4"}
    native = answer("diagnose", seen)
    foremost = next(step for step in native["next"] if step.get("foremost"))
    assert foremost["job"] == "bench"
    page = hand.open("diagnose").type(seen).page
    hand.reads(native)
    door = page.locator("[data-first-door]")
    expect(door.locator("[data-slot=label]")).to_have_text(foremost["label"])
    expect(door.locator("svg.pic")).to_have_count(1)
    expect(page.locator("[data-list=next] a[data-next=bench]")).to_have_count(0)
    door.click()
    expect(page).to_have_url(re.compile("/bench/"))
    key = foremost["inputs"]["test"]
    expect(page.locator(f"[data-field=test] [data-tile={key}] input")).to_be_checked()
    expect(page.locator(f".test[data-only-for={key}]")).to_be_visible()


def test_a_link_to_a_test_opens_that_test_where_another_was_chosen_before(hand, answer):
    hand.open("bench").type({"test": "swell"})
    typed = {"heap_kg": "25", "sample_wet_g": "500", "sample_dry_g": "490"}
    page = hand.open("temper").type(typed).page
    hand.reads(answer("temper", typed))
    page.locator("[data-list=next] a[data-next=bench]").click()
    expect(page).to_have_url(re.compile("/bench/"))
    expect(page.locator("[data-field=test] input[value=moisture]")).to_be_checked()


def test_a_next_test_without_a_page_is_text_without_a_link(hand, answer):
    seen = {"symptoms": "run_out", "moisture_pct_wet": "3.4", "compactability_read_pct": "45"}
    native = answer("diagnose", seen)
    assert native["first"]
    assert not any(step.get("foremost") for step in native["next"])
    page = hand.open("diagnose").type(seen).page
    hand.reads(native)
    check_first(page, native)
    expect(page.locator("[data-first-door]")).to_be_hidden()


def test_picked_signs_survive_a_reload_and_a_link(new_context, hand_on, address, answer):
    native = answer("diagnose", SEEN)
    hand = hand_on(new_context(permissions=["clipboard-read", "clipboard-write"]).new_page(), address)
    page = hand.open("diagnose").type(SEEN).page
    hand.reads(native)
    page.reload()
    hand.ready().reads(native)
    assert ticked(page) == {"dusty", "crumbling_edges"}
    page.locator("[data-deed=link]").click()
    expect(page.locator("[data-deed-said]")).to_have_text("Copied.")
    other = hand_on(new_context().new_page(), address)
    other.page.goto(page.evaluate("() => navigator.clipboard.readText()"))
    other.ready().reads(native)
    assert ticked(other.page) == {"dusty", "crumbling_edges"}


def test_the_keyboard_alone_can_pick_and_unpick_signs(still_hand):
    page = still_hand.open("diagnose").page
    box = tile(page, "dusty").locator("input")
    box.focus()
    page.keyboard.press("Space")
    expect(box).to_be_checked()
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    assert len(ticked(page)) == 2
    page.keyboard.press("Space")
    assert ticked(page) == {"dusty"}


def test_the_heaps_figures_are_taken_with_their_dates(hand):
    put(hand.page, hand.base, book_of(MIXED, POURED, TESTED | {"compactability_read_pct": "41 ± 3 %"}))
    page = hand.open("diagnose").page
    page.locator("[data-take-heap]").click()
    expect(page.locator("#field-compactability_read_pct")).to_have_value("41.0 ± 3.0")
    expect(page.locator("#field-moisture_pct_wet")).not_to_have_value("")
    when = page.locator("[data-taken-when]")
    expect(when).to_contain_text("Measured compactability: of today.")
    expect(when).to_contain_text("The rest as the book has it now, tested within the hour.")


def test_tiles_and_cards_fit_a_narrow_phone_and_gloved_fingers_in_every_look(still_context, address):
    context = still_context(viewport={"width": 320, "height": 640})
    page = context.new_page()
    page.goto(f"{address}diagnose/")
    page.evaluate("() => document.querySelectorAll('details').forEach(folded => { folded.open = true; })")
    tile(page, "pin_holes").click()
    expect(tile(page, "pin_holes").locator("input")).to_be_checked()
    needs, has = page.evaluate(TOO_WIDE)
    assert needs <= has
    assert page.evaluate(SMALL_TARGETS) == []
    for look in LOOKS:
        page.evaluate(WEAR, look)
        assert page.evaluate(FAINT_TEXTS) == [], look
