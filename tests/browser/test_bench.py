"""Test the sand: a tile for each test, its card with steps and clocks, only its own readings, and its figure recorded with its ±."""

from __future__ import annotations

import json
import math
import re
from datetime import UTC, datetime

import pytest
from effort import only_long
from measures import FAINT_TEXTS, LOOKS, SMALL_TARGETS, TOO_WIDE, WEAR
from playwright.sync_api import expect

from sandmix.doors.facade import call
from tests.browser.test_book import ALL, MIXED, POURED, book_of, heap_of, put, saved

OWN = {"test": "tin_density", "tin_ml": "500 mL", "net_g": "790 g"}
SHAKEN_AT = datetime(2031, 3, 4, 9, 30, tzinfo=UTC)
TESTS = json.loads(call('{"job": "describe"}'))["tests"]
BY_KEY = {test["key"]: test for test in TESTS}


def tile(page, key):
    return page.locator(f"[data-field=test] [data-tile={key}]")


def card(page, key):
    return page.locator(f".test[data-only-for={key}]")


def shown_readings(page):
    return {
        field.get_attribute("data-field")
        for field in page.locator("[data-form] [data-only=test][data-field]").all()
        if field.evaluate("field => !field.hidden")
    }


@pytest.fixture
def begun():
    return book_of(MIXED, POURED)


@pytest.mark.parametrize("key", ["moisture", "tin_density", *only_long("methylene_blue", "squeeze")])
def test_choosing_a_test_shows_its_card_and_only_its_readings(key, still_hand):
    page = still_hand.open("bench").page
    tile(page, key).click()
    expect(card(page, key)).to_be_visible()
    expect(page.locator(".test:visible")).to_have_count(1)
    assert shown_readings(page) == set(BY_KEY[key]["readings"])


def test_every_test_has_a_tile_with_a_picture_and_its_own_card(still_hand):
    page = still_hand.open("bench", ready=False).page
    expect(page.locator("[data-field=test] [data-tile]")).to_have_count(len(TESTS))
    expect(page.locator(".test")).to_have_count(len(TESTS))
    for key, test in BY_KEY.items():
        assert tile(page, key).locator("svg[aria-hidden=true]").count() == 1
        own = card(page, key)
        assert own.locator("svg[role=img] > title").text_content() == f"Drawing: {test['label']}"
        for manner in ("home", "lab"):
            way = own.locator(f'[data-manner="{key}.{manner}"]')
            steps = test[manner]["steps"] if test[manner] else []
            assert way.locator("[data-slot=words]").all_text_contents() == [step["text"] for step in steps]
            assert way.locator("[data-wait]").count() == sum(bool(step["wait_s"]) for step in steps)


def test_without_javascript_every_card_is_open(new_context, address):
    page = new_context(java_script_enabled=False).new_page()
    page.goto(f"{address}bench/")
    expect(page.locator(".test:visible")).to_have_count(len(TESTS))
    expect(card(page, "wash").get_by_text(BY_KEY["wash"]["home"]["steps"][0]["text"])).to_be_visible()


def test_the_card_can_be_read_before_the_calculator_has_loaded(still_page, address):
    page = still_page
    page.goto(f"{address}bench/#test=wash")
    expect(card(page, "wash")).to_be_visible()
    expect(card(page, "moisture")).to_be_hidden()
    card(page, "wash").locator("[data-check]").first.check()


def test_ticks_survive_a_reload_separately_for_each_version_of_a_test(hand):
    page = hand.open("bench").page
    tile(page, "wash").click()
    home = page.locator('[data-manner="wash.home"]')
    steps = len(BY_KEY["wash"]["home"]["steps"])
    home.locator("[data-check]").nth(1).check()
    page.reload()
    hand.ready()
    expect(home.locator("[data-check]").nth(1)).to_be_checked()
    expect(home.locator("[data-checks-left]")).to_have_text(f"{steps - 1} of {steps} still to tick.")
    assert page.locator('[data-manner="wash.lab"] [data-check]:checked').count() == 0
    home.locator("[data-clear-ticks]").click()
    expect(home.locator("[data-check]:checked")).to_have_count(0)


def test_ticking_a_step_does_not_change_the_answer(hand, answer):
    typed = {"test": "compactability", "height_before_mm": "120", "height_after_mm": "68"}
    native = answer("bench", typed)
    page = hand.open("bench").type(typed).page
    hand.reads(native)
    page.evaluate("() => { window.asked = 0; new MutationObserver(() => { window.asked += 1; }).observe("
                  "document.querySelector('[data-list=shown]'), { childList: true, subtree: true, characterData: true }); }")  # fmt: skip
    card(page, "compactability").locator("[data-check]").first.check()
    page.wait_for_timeout(600)
    assert page.evaluate("() => window.asked") == 0
    hand.reads(native)


def test_the_clock_of_a_wait_survives_a_reload_and_announces_its_end(hand):
    page = hand.page
    page.clock.install(time=SHAKEN_AT)
    hand.open("bench", ready=False)
    tile(page, "wash").click()
    step = next(step for step in BY_KEY["wash"]["home"]["steps"] if step["wait_s"])
    wait = page.locator('[data-manner="wash.home"] [data-wait]').first
    wait.locator("[data-clock-begin]").click()
    expect(wait.locator("[data-clock-begin]")).to_be_hidden()
    expect(wait.locator("[data-slot=label]")).to_have_text(f"Wait over: {step['wait_label']}")
    page.reload()
    expect(wait.locator("[data-slot=left]")).to_have_text(re.compile("^in "))
    page.clock.fast_forward(int(step["wait_s"] * 1000) + 1500)
    expect(wait.locator("[data-slot=left]")).to_have_text(f"now: wait over: {step['wait_label']}")
    expect(page.locator("[data-clock-stop]:visible")).to_have_count(1)
    wait.locator("[data-clock-stop]").click()
    expect(wait.locator("[data-clock-stop]")).to_have_text("Tap again to stop the clock")
    wait.locator("[data-clock-stop]").click()
    expect(wait.locator("[data-clock-begin]")).to_be_visible()


def test_the_chosen_test_survives_a_reload_and_a_link_and_is_cleared_with_the_form(
    new_context, hand_on, address, answer
):
    typed = {"test": "wash", "sample_g": "200", "clay_washed_g": "21"}
    native = answer("bench", typed)
    hand = hand_on(new_context(permissions=["clipboard-read", "clipboard-write"]).new_page(), address)
    hand.open("bench").type(typed).reads(native)
    page = hand.page
    page.reload()
    hand.ready()
    expect(tile(page, "wash").locator("input")).to_be_checked()
    hand.reads(native)
    page.locator("[data-deed=link]").click()
    expect(page.locator("[data-deed-said]")).to_have_text("Copied.")
    link = page.evaluate("() => navigator.clipboard.readText()")
    other = hand_on(new_context().new_page(), address)
    other.page.goto(link)
    other.ready().reads(native)
    expect(card(other.page, "wash")).to_be_visible()
    page.locator("[data-deed=clear]").click()
    expect(page.locator("[data-field=test] input:checked")).to_have_count(0)
    expect(page.locator(".test:visible")).to_have_count(0)


def test_the_keyboard_alone_can_choose_a_test_and_reach_its_steps_and_readings(still_hand):
    page = still_hand.open("bench").page
    page.locator("[data-field=test] input").first.focus()
    page.keyboard.press("Space")
    expect(card(page, TESTS[0]["key"])).to_be_visible()
    page.keyboard.press("ArrowRight")
    second = TESTS[1]["key"]
    expect(tile(page, second).locator("input")).to_be_focused()
    expect(card(page, second)).to_be_visible()
    expect(page.locator(".test:visible")).to_have_count(1)
    page.keyboard.press("Tab")
    expect(card(page, second).locator(f'[data-go-to="{BY_KEY[second]["readings"][0]}"]')).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.locator(f"#field-{BY_KEY[second]['readings'][0]}")).to_be_focused()


def test_a_test_is_recorded_with_its_uncertainty_and_shown_in_the_timeline(hand, begun, answer):
    typed = {"test": "compactability", "height_before_mm": "120", "height_after_mm": "68"}
    native = answer("bench", typed)
    put(hand.page, hand.base, begun)
    page = hand.open("bench").type(typed).page
    hand.reads(native)
    page.locator("[data-write=measured] [data-change]").click()
    box = page.locator("#field-compactability_read_pct")
    expect(box).not_to_have_value("")
    value, half = (float(part) for part in box.input_value().split(" ± "))
    low, high = native["doubt"]["compactability_pct"]
    assert value == pytest.approx(native["result"]["compactability_pct"], abs=half / 10)
    assert half == pytest.approx((high - low) / 2, rel=0.06)
    hand.ready()
    page.locator("[data-form-place] [data-submit]").click()
    saved(page)
    (book,) = page.evaluate(ALL)
    written = book["events"][-1]
    assert written["kind"] == "measured"
    assert written["compactability_read_pct"] == {"value": box_text(value, half), "unit": "%"}
    kept = next(row for row in heap_of(book)["kept"] if row["word"] == "compactability_read_pct")
    assert kept["doubt"] == pytest.approx([value - half, value + half], abs=0.06)
    expect(page.locator("[data-list=timeline] > li").first).to_contain_text("compactability", ignore_case=True)
    expect(page.locator("[data-list=timeline] > li").first).to_contain_text(f"± {half:g}")


def box_text(value, half):
    places = 1 if half >= 1 else 2
    return f"{value:.{places}f} ± {half:.{places}f}"


def test_a_persons_own_figure_is_recorded_as_their_own(hand, begun, answer):
    native = answer("bench", OWN)
    put(hand.page, hand.base, begun)
    page = hand.open("bench").type(OWN).page
    hand.reads(native)
    expect(page.locator("[data-write=measured]")).to_be_hidden()
    page.locator("[data-write=calibrated] [data-change]").click()
    expect(page.locator("#field-rammed_density_kg_l")).to_have_value(re.compile(r"^1\.58\d* ± "))
    hand.ready()
    page.locator("[data-form-place] [data-submit]").click()
    saved(page)
    (book,) = page.evaluate(ALL)
    assert heap_of(book)["result"]["rammed_density_kg_l"] == pytest.approx(790 / 500, abs=0.005)


def test_a_figure_from_the_book_is_not_recorded_again(hand, begun):
    put(hand.page, hand.base, begun)
    page = hand.open("estimate").type({"clay_blue_pct_dry": "7,6", "moisture_pct_wet": "3,4"}).page
    expect(page.locator("[data-write=measured]")).to_be_visible()
    page.locator("[data-take-heap]").click()
    expect(page.locator("#field-clay_book_pct_dry")).not_to_have_value("")
    expect(page.locator("[data-write=measured]")).to_be_hidden()
    expect(page.locator("[data-not-written]")).to_contain_text("count itself twice")


UNFOLD = """() => document.querySelectorAll("[data-example-fold], [data-folded=charts]").forEach(
    folded => { folded.open = true; })"""
"""Opens the charts of an answer, and the worked example if they are its."""


def test_bars_are_at_the_sieve_openings_with_equal_widths_and_correct_heights(hand, answer, jobs):
    example = jobs["fineness"]["example"]
    chart = answer("fineness", example)["charts"][0]
    (held,) = (line["points"] for line in chart["series"] if line["shape"] == "bars")
    page = hand.open("fineness").page
    page.evaluate(UNFOLD)
    bars = page.locator(".chart-drawing > path.chart-bars")
    expect(bars).to_have_count(1)
    parts = re.findall(r"M([\d.]+),([\d.]+)V([\d.]+)H([\d.]+)", bars.get_attribute("d"))
    boxes = [[float(part) for part in bar] for bar in parts]
    assert len(boxes) == len(held)
    widths = [right - left for left, _, _, right in boxes]
    assert max(widths) - min(widths) < 0.01
    tallest = max(base - top for _, base, top, _ in boxes)
    most = max(value for _, value in held)
    for (_, base, top, _), (_, value) in zip(boxes, held, strict=True):
        assert (base - top) / tallest == pytest.approx(value / most, abs=0.002)
    middles = [(left + right) / 2 for left, _, _, right in boxes]
    ratio = (held[-1][0] / held[0][0], held[1][0] / held[0][0])
    assert (middles[1] - middles[0]) / (middles[-1] - middles[0]) == pytest.approx(
        math.log(ratio[1]) / math.log(ratio[0]), abs=0.002
    )


def test_a_single_sieve_is_one_bar_within_the_drawing(hand, answer):
    typed = {"retained": "50: 21,4"}
    page = hand.open("fineness").type(typed).page
    hand.reads(answer("fineness", typed))
    page.evaluate(UNFOLD)
    expect(page.locator(".chart-drawing > path.chart-bars")).to_have_count(1)
    (bar,) = re.findall(
        r"M([\d.]+),([\d.]+)V([\d.]+)H([\d.]+)", page.locator(".chart-drawing > path.chart-bars").get_attribute("d")
    )
    left, _, _, right = (float(part) for part in bar)
    wide = float(page.locator(".chart-drawing").get_attribute("viewBox").split()[2])
    assert 0 < left < right < wide


def test_an_open_card_fits_a_narrow_phone_and_gloved_fingers_in_every_look(still_context, address):
    context = still_context(viewport={"width": 320, "height": 640})
    page = context.new_page()
    page.goto(f"{address}bench/#test=methylene_blue")
    expect(card(page, "methylene_blue")).to_be_visible()
    needs, has = page.evaluate(TOO_WIDE)
    assert needs <= has
    assert page.evaluate(SMALL_TARGETS) == []
    for look in LOOKS:
        page.evaluate(WEAR, look)
        assert page.evaluate(FAINT_TEXTS) == [], look
