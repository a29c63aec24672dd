"""The worked example without JavaScript, and answers to typed input: all the same as the library's own."""

from __future__ import annotations

import pytest
from measures import text_size
from pages import JOBS, OF_THE_BOOK
from playwright.sync_api import expect

PHONE_HEIGHT = 844


def test_every_job_has_a_page_that_is_tested_here(jobs):
    assert set(jobs) == {*JOBS, "heap", "pattern"}, "these two are tested in test_book.py and test_pattern.py"


def test_the_bar_of_an_empty_form_names_what_to_enter_first(opened, jobs, answer):
    empty_form_names(opened[0], opened[1].page, jobs, answer)


def test_without_the_calculator_it_does_so_too(still_hand, jobs, answer):
    empty_form_names("temper", still_hand.open("temper").page, jobs, answer)


def empty_form_names(job, page, jobs, answer):
    empty = answer(job, {})
    labels = {entry["word"]: entry["label"] for entry in jobs[job]["asks"]}
    bar = page.locator("[data-bar]")
    named = empty["lead"]["text"] if empty["ok"] else labels[empty["problems"][0]["word"]]
    expect(bar.locator("[data-slot=text]")).to_have_text(named)
    expect(bar).to_have_attribute("data-tone", "plain")
    expect(bar.locator("[data-slot=state]")).to_have_text("waiting")
    expect(page.locator("[data-body]")).to_be_hidden()
    bar.locator("[data-open-answer]").click()
    expect(page.locator("[data-body] [data-told]")).to_be_visible()


@pytest.fixture(scope="module")
def without_javascript(browser, watched):
    with watched(browser, java_script_enabled=False) as context:
        yield context.new_page()


@pytest.mark.parametrize("job", JOBS)
def test_the_worked_example_is_shown_without_javascript(job, jobs, answer, table, without_javascript, address, hand_on):
    page = without_javascript
    page.goto(f"{address}{job}/")
    native = answer(job, jobs[job]["example"])
    expect(page.locator("h1")).to_have_text(jobs[job]["title"])
    told = page.locator("[data-told]")
    expect(told).to_be_hidden()
    page.locator("[data-example-fold] > summary").click()
    expect(told).to_be_visible()
    for slot in ("label", "text", "then"):
        expect(told.locator(f"[data-slot={slot}]")).to_have_text(native["lead"].get(slot) or "")
    expect(told.locator("[data-slot=state]")).to_have_text(native["state"]["word"])
    assert hand_on(page, address).table() == table(native)
    assert page.locator("[data-list=cautions] [data-slot=name]").count() == len(native["cautions"])


def test_input_with_a_comma_or_a_unit_gets_the_librarys_answer(opened, typed, answer):
    job, hand = opened
    if job in OF_THE_BOOK:
        return
    native = answer(job, typed[job])
    assert native["ok"]
    hand.type(typed[job]).reads(native)


SEEN_ENDS = """parts => parts.filter(part => part.checkVisibility({ visibilityProperty: true }))
    .map(part => part.getBoundingClientRect()).filter(box => box.height > 0).map(box => box.bottom)"""


def test_at_least_three_fields_are_visible_above_the_bar(opened):
    job, page = opened[0], opened[1].page
    page.evaluate("() => scrollTo(0, 0)")
    bar = page.locator("[data-bar]").bounding_box()
    assert bar["height"] <= 0.25 * PHONE_HEIGHT
    fields = page.locator(
        "[data-form] .box, [data-form] :is(.way, .choice) > .chips, [data-form] select, [data-form] .tile"
    )
    ends = fields.evaluate_all(SEEN_ENDS)
    assert len([end for end in ends if end <= bar["y"]]) >= min(3, len(ends))
    assert ends or job in OF_THE_BOOK


def test_the_bar_leaves_space_for_the_form_with_text_at_200_percent(opened):
    page = opened[1].page
    text_size(page, 200)
    assert page.locator("[data-bar]").bounding_box()["height"] <= 0.3 * PHONE_HEIGHT
    text_size(page, 100)


@pytest.mark.engine
def test_input_typed_before_the_calculator_has_loaded_is_answered_afterwards(hand, typed, answer):
    hand.open("temper", ready=False).type(typed["temper"]).reads(answer("temper", typed["temper"]))


def test_cautions_remarks_and_working_are_the_librarys(hand, typed, answer):
    native = answer("temper", typed["temper"])
    hand.open("temper").type(typed["temper"]).reads(native)
    lines = {
        name: hand.page.locator(f"[data-answer] [data-list={name}] > li").all_text_contents()
        for name in ("ways-out", "remarks", "working")
    }
    assert lines["working"] == native["working"]
    assert lines["ways-out"] == native["ways_out"]
    assert sorted(lines["ways-out"] + lines["remarks"]) == sorted(native["remarks"])
    rows = hand.page.locator("[data-list=todo] > li").all()
    assert [[row.locator(f"[data-slot={slot}]").text_content() for slot in ("text", "amount")] for row in rows] == [
        [row["text"], row["amount"]] for row in native["todo"]
    ]
    cautions = hand.page.locator("[data-body] [data-list=cautions] > li").all()
    said = [
        [caution.locator(f"[data-slot={slot}]").text_content() for slot in ("name", "words")] for caution in cautions
    ]
    assert said == [[part.strip() for part in line.split(":", 1)] for line in native["cautions"]]


def test_fields_of_a_way_that_is_not_chosen_are_not_sent(hand, typed, answer):
    hand.open("temper").type(typed["temper"])
    hand.way("moisture", "figure")
    figures = {"heap_kg": "55 lb", "moisture_pct_wet": "3,1"}
    hand.type({"moisture_pct_wet": "3,1"}).reads(answer("temper", figures))


def test_an_answer_is_announced_politely_after_a_pause(hand, typed, answer):
    native = answer("temper", typed["temper"])
    hand.open("temper").type(typed["temper"]).reads(native)
    announced = hand.page.locator("[data-announce][role=status]")
    expect(announced).to_contain_text(native["lead"]["text"])


WET = {"heap_kg": "25 kg", "moisture_pct_wet": "9 %"}


def test_a_stop_covers_the_answer_until_the_person_confirms_it(hand, answer):
    native = answer("temper", WET)
    assert native["state"]["tone"] == "stop"
    hand.open("temper")
    hand.way("moisture", "figure")
    hand.type(WET)
    page = hand.page
    cover = page.locator("[data-cover]")
    expect(cover).to_be_visible()
    expect(page.locator("[data-body]")).to_be_hidden()
    expect(page.locator("[data-bar] [data-slot=text]")).to_be_hidden()
    expect(page.locator("[data-bar] [data-slot=state]")).to_have_text(native["state"]["word"])
    assert cover.locator("[data-list=cover] > li").count() == len(native["cautions"])
    page.locator("[data-read]").click()
    expect(cover).to_be_hidden()
    expect(page.locator("[data-bar] [data-slot=text]")).to_be_visible()
    hand.reads(native)


def test_the_cautions_of_a_wet_heap_come_before_its_figures(hand, answer):
    hand.open("temper")
    hand.way("moisture", "figure")
    hand.type(WET)
    hand.page.locator("[data-read]").click()
    hand.reads(answer("temper", WET))
    caution = hand.page.locator("[data-body] .caution").last.bounding_box()
    expect(hand.page.locator("[data-body] .caution [data-slot=words]").last).to_be_visible()
    figures = hand.page.locator("[data-body] [data-folded=figures]").bounding_box()
    assert caution["y"] + caution["height"] <= figures["y"]


def test_a_caution_is_one_line_until_it_is_opened_and_stays_open(hand, typed, answer):
    hand.open("temper").type(typed["temper"]).reads(answer("temper", typed["temper"]))
    first = hand.page.locator("[data-body] .caution").first
    expect(first.locator("[data-slot=words]")).to_be_hidden()
    first.locator("summary").click()
    expect(first.locator("[data-slot=words]")).to_be_visible()
    more = typed["temper"] | {"heap_kg": "60 lb"}
    hand.type({"heap_kg": "60 lb"}).reads(answer("temper", more))
    expect(first.locator("[data-slot=words]")).to_be_visible()


def test_the_full_answer_begins_with_what_to_do(hand, typed, answer):
    hand.open("temper").type(typed["temper"]).reads(answer("temper", typed["temper"]))
    hand.page.locator("[data-open-answer]").click()
    expect(hand.page.locator("#todo-title")).to_be_in_viewport()
    expect(hand.page.locator("#todo-title")).to_be_focused()


def test_more_says_how_many_figures_stand_in_it_and_stays_closed(hand, jobs):
    """The example of the pour gives the crucible and the moisture under *More*."""
    more = [entry["word"] for entry in jobs["pour"]["asks"] if entry["place"] == "more"]
    count = len([word for word in jobs["pour"]["example"] if word in more])
    hash_ = "&".join(f"{word}={value}" for word, value in jobs["pour"]["example"].items())
    hand.page.goto(f"{hand.base}pour/#{hash_}")
    expect(hand.page.locator("[data-filled-in]")).to_have_text(f", {count} filled in")
    assert hand.page.locator("[data-more]").get_attribute("open") is None
