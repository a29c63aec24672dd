"""Figures that are known elsewhere: each stands in its box with its origin, gives way to a person's own, and can be put back."""

from __future__ import annotations

import json
import time
from urllib.parse import urlencode

import pytest
from heap_books import MIXED, POURED, TESTED, book_of, heap_of, put
from playwright.sync_api import expect

STORED = "() => JSON.parse(localStorage['sandmix.job.temper'])"
KEEP = "([name, value]) => localStorage.setItem(`sandmix.${name}`, JSON.stringify(value))"
WEEK_MS = 7 * 86_400_000


@pytest.fixture
def begun():
    return book_of(MIXED, POURED, TESTED)


def field(hand, word):
    return hand.page.locator(f"[data-field={word}]")


def line(hand, word):
    return field(hand, word).locator("[data-carried-line]")


def origin(hand, word):
    return line(hand, word).locator("[data-slot=origin]")


def act(hand, word):
    return line(hand, word).locator("[data-carried-act]")


def mass_of(book):
    return f"{heap_of(book)['result']['heap_kg']:.4g}"[:4]


def test_a_form_opens_with_the_heap_and_an_own_figure_can_be_put_back(hand, begun):
    put(hand.page, hand.base, begun)
    hand.open("temper")
    box = hand.box("heap_kg")
    expect(origin(hand, "heap_kg")).to_have_text("From the heap, tested within the hour")
    carried = box.input_value()
    assert carried.startswith(mass_of(begun))
    box.fill("20")
    expect(origin(hand, "heap_kg")).to_have_text(f"Yours. From the heap, tested within the hour: {carried} kg")
    act(hand, "heap_kg").click()
    expect(box).to_have_value(carried)
    expect(act(hand, "heap_kg")).to_be_hidden()
    assert "heap_kg" not in hand.page.evaluate(STORED)["typed"]["texts"]


def test_a_carried_figure_is_never_kept_as_typed_so_the_next_visit_has_the_heap_of_that_day(hand, begun):
    put(hand.page, hand.base, begun)
    hand.open("temper").type({"sample_wet_g": "500", "sample_dry_g": "488"})
    hand.page.locator("[data-answer][data-whose=mine]").wait_for(state="attached")
    assert set(hand.page.evaluate(STORED)["typed"]["at"]) == {"sample_wet_g", "sample_dry_g"}
    later = book_of(MIXED, POURED, {**TESTED, "heap_kg": "41.2 kg"}, name="The hall")
    put(hand.page, hand.base, later)
    hand.open("temper")
    assert hand.box("sample_wet_g").input_value() == "500"
    expect(hand.box("heap_kg")).not_to_have_value("")
    assert hand.box("heap_kg").input_value().startswith(mass_of(later))


def test_an_emptied_box_stays_empty_and_offers_the_heap(hand, begun):
    put(hand.page, hand.base, begun)
    hand.open("temper")
    expect(hand.box("heap_kg")).not_to_have_value("")
    hand.box("heap_kg").fill("")
    hand.page.reload()
    hand.ready()
    expect(origin(hand, "heap_kg")).to_contain_text("Left empty. From the heap")
    assert hand.box("heap_kg").input_value() == ""


def leading(hand, job, at, **inputs):
    hand.page.goto(f"{hand.base}{job}/#{urlencode(inputs | {'from': 'temper', 'since': round(at * 1000)})}")
    hand.ready()


def test_a_link_leaves_what_was_typed_in_this_visit_and_offers_its_own_figure(hand):
    hand.open("rebond").type({"moisture_pct_wet": "3.0"})
    leading(hand, "rebond", time.time(), moisture_pct_wet="2.3 %", heap_kg="25 kg")
    expect(hand.box("heap_kg")).to_have_value("25")
    expect(origin(hand, "heap_kg")).to_have_text("From Test and temper")
    assert hand.box("moisture_pct_wet").input_value() == "3.0"
    expect(origin(hand, "moisture_pct_wet")).to_have_text("Yours. From Test and temper: 2.3 %")
    act(hand, "moisture_pct_wet").click()
    expect(hand.box("moisture_pct_wet")).to_have_value("2.3")
    expect(act(hand, "moisture_pct_wet")).to_have_text("Bring it back")
    act(hand, "moisture_pct_wet").click()
    expect(hand.box("moisture_pct_wet")).to_have_value("3.0")


def test_a_figure_of_an_earlier_visit_gives_way_to_a_link_and_can_be_brought_back(hand):
    hand.open("rebond").type({"moisture_pct_wet": "3.0"})
    kept = json.loads(hand.page.evaluate("() => localStorage['sandmix.job.rebond']"))
    kept["typed"]["at"]["moisture_pct_wet"] -= WEEK_MS
    hand.page.goto(hand.base)
    hand.page.evaluate(KEEP, ["job.rebond", kept])
    leading(hand, "rebond", time.time(), moisture_pct_wet="2.3 %")
    expect(hand.box("moisture_pct_wet")).to_have_value("2.3")
    expect(origin(hand, "moisture_pct_wet")).to_have_text("From Test and temper. You had 3.0 %")
    hand.page.reload()
    hand.ready()
    act(hand, "moisture_pct_wet").click()
    expect(hand.box("moisture_pct_wet")).to_have_value("3.0")


def test_a_shared_link_gives_its_answer_exactly_and_takes_nothing_from_the_heap(hand, begun, answer):
    put(hand.page, hand.base, begun)
    given = {"moisture_pct_wet": "2 %"}
    hand.page.goto(f"{hand.base}temper/#{urlencode(given)}")
    hand.ready()
    hand.reads(answer("temper", given))
    expect(origin(hand, "heap_kg")).to_contain_text("Left empty. From the heap")
    assert hand.box("heap_kg").input_value() == ""


def test_a_figure_typed_in_one_job_is_carried_into_the_next_with_its_origin(hand, answer):
    hand.open("temper").type({"heap_kg": "40"})
    hand.open("flask")
    expect(hand.box("heap_kg")).to_have_value("40")
    expect(origin(hand, "heap_kg")).to_have_text("Typed in Test and temper")


def test_more_says_how_many_figures_stand_under_it(hand, begun):
    put(hand.page, hand.base, begun)
    hand.open("pour")
    expect(hand.page.locator("[data-filled-in]")).to_have_text(", 1 filled in")
    expect(field(hand, "moisture_pct_wet")).to_be_hidden()


def test_a_heap_that_is_too_wet_stops_the_pour(hand, typed):
    put(hand.page, hand.base, book_of(MIXED, {"kind": "measured", "moisture_pct_wet": "7.5 %"}))
    hand.open("pour").type(typed["pour"])
    expect(hand.page.locator("[data-bar] [data-slot=state]")).to_have_text("stop")
