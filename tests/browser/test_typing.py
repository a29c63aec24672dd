"""Problems are shown at their field, input is kept, units convert, steppers step, and the keyboard alone is enough."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

WRONG = [
    ("temper", "heap_kg", "a bucket"),
    ("temper", "heap_kg", "35000000"),
    ("mix", "make_kg", "🙂"),
    ("flask", "drag_depth_mm", "-3"),
    ("rebond", "clay_pct_dry", "130"),
    ("shopping", "sand_bag_kg", "5 gal"),
]
BUSY = """if (!sessionStorage.answers) globalThis.Worker = class extends EventTarget {
    constructor() { super(); queueMicrotask(() => this.dispatchEvent(new MessageEvent("message", { data: { ready: true } }))); }
    set onmessage(hear) { if (hear) this.addEventListener("message", hear); }
    postMessage() {}
    terminate() {} };"""
"""A script for a page: until the page may answer, its calculator starts and answers nothing."""
FORM_STATE = """() => Array.from(document.querySelectorAll("[data-form] input, [data-form] select, [data-form] details"),
    part => [part.id || part.name, part.type || "", part.type === "radio" || part.type === "checkbox" ? [part.value, part.checked]
        : part.value ?? part.open])"""


def problem(answer, job, word, typed):
    refused = answer(job, typed)
    assert not refused["ok"]
    return next(each["message"] for each in refused["problems"] if each["word"] == word)


@pytest.mark.parametrize(("job", "word", "text"), WRONG)
def test_a_problem_is_shown_at_its_field_in_the_librarys_own_sentence(job, word, text, hand, typed, answer):
    figures = typed[job] | {word: text}
    hand.open(job).type(figures)
    box = hand.box(word)
    place = hand.page.locator(f"#problem-{word}")
    expect(place).to_be_visible()
    expect(place).to_have_text(problem(answer, job, word, figures))
    assert f"problem-{word}" in box.get_attribute("aria-describedby").split()
    expect(box).to_have_attribute("aria-invalid", "true")
    expect(hand.page.locator("[data-summary]")).to_be_hidden()
    box.press("Enter")
    summary = hand.page.locator("[data-summary]")
    expect(summary).to_be_focused()
    expect(summary).to_contain_text(problem(answer, job, word, figures))
    expect(box).to_have_value(text)
    summary.get_by_text(problem(answer, job, word, figures)).click()
    expect(box).to_be_focused()


def test_correcting_a_figure_removes_its_message(hand, typed, answer):
    hand.open("temper").type(typed["temper"] | {"heap_kg": "a bucket"})
    expect(hand.page.locator("#problem-heap_kg")).to_be_visible()
    hand.type({"heap_kg": typed["temper"]["heap_kg"]}).reads(answer("temper", typed["temper"]))
    expect(hand.page.locator("#problem-heap_kg")).to_be_hidden()
    expect(hand.box("heap_kg")).not_to_have_attribute("aria-invalid", "true")


def test_a_reload_restores_texts_units_and_ways_and_answers_them(hand, answer):
    hand.open("temper")
    hand.unit("heap_kg", "lb")
    hand.way("moisture", "figure")
    hand.type({"heap_kg": "55,5", "moisture_pct_wet": "2,5"})
    hand.page.locator("[data-more] > summary").click()
    hand.type({"target_moisture_pct_wet": "3,4"})
    native = answer(
        "temper",
        {"heap_kg": "55.5 lb", "moisture_pct_wet": "2.5 %", "target_moisture_pct_wet": "3.4 %"},
    )
    hand.reads(native)
    before = hand.page.evaluate(FORM_STATE)
    hand.page.reload()
    hand.page.locator("[data-listens]").wait_for(state="attached")
    assert hand.page.evaluate(FORM_STATE) == before
    hand.ready().reads(native)


def test_figures_that_kept_the_calculator_busy_are_not_asked_again_until_a_person_says_so(hand, typed, answer):
    page = hand.page
    page.clock.install()
    page.add_init_script(BUSY)
    hand.open("temper").type({"heap_kg": "25"})
    page.clock.run_for(6_000)
    page.evaluate("sessionStorage.answers = 'yes'")
    page.reload()
    stopped = page.get_by_text("These figures stopped the calculator the last time.")
    expect(stopped).to_be_visible()
    hand.box("heap_kg").press("Enter")
    expect(stopped).to_be_hidden()
    page.reload()
    hand.ready().type(typed["temper"]).reads(answer("temper", typed["temper"]))
    expect(stopped).to_be_hidden()


def test_switching_a_unit_converts_and_switching_back_restores_the_text(hand, answer):
    hand.open("temper").type({"heap_kg": "25,4", "sample_wet_g": "500", "sample_dry_g": "490"})
    same = answer("temper", {"heap_kg": "25.4 kg", "sample_wet_g": "500", "sample_dry_g": "490"})
    hand.reads(same)
    hand.unit("heap_kg", "lb")
    expect(hand.box("heap_kg")).not_to_have_value("25,4")
    pounds = float(hand.box("heap_kg").input_value())
    assert pounds == pytest.approx(25.4 / 0.45359237, rel=1e-3)
    expect(hand.page.locator("[data-unit-shown=heap_kg]")).to_have_text("lb")
    assert hand.page.locator("[data-bar] [data-slot=text]").text_content() == same["lead"]["text"]
    hand.unit("heap_kg", "kg")
    expect(hand.box("heap_kg")).to_have_value("25,4")
    hand.reads(same)


def test_a_unit_typed_in_the_box_overrides_the_chip(hand, answer):
    hand.open("temper")
    hand.unit("heap_kg", "lb")
    figures = {"heap_kg": "12 kg", "sample_wet_g": "500", "sample_dry_g": "490"}
    hand.type(figures).reads(answer("temper", figures))


def test_an_exponent_keeps_the_unit_of_the_chip(hand, answer):
    hand.open("temper")
    hand.unit("heap_kg", "g")
    same = {"heap_kg": "0.5 kg", "sample_wet_g": "500", "sample_dry_g": "490"}
    hand.type(same | {"heap_kg": "5e2"}).reads(answer("temper", same))
    expect(hand.page.locator("[data-list=given]")).to_contain_text("5e2 g")
    hand.page.locator("[data-stepper=heap_kg][data-by='1']").click()
    expect(hand.box("heap_kg")).to_have_value("510")


def test_a_stepper_goes_to_the_next_whole_step_of_the_word_and_keeps_a_decimal_comma(hand):
    hand.open("temper")
    box = hand.box("heap_kg")
    step, start = (float(box.get_attribute(name)) for name in ("data-step", "data-start"))
    assert step == 1.0
    for text, first in [("25", 26.0), ("25,5", 26.0), ("", start)]:
        box.fill(text)
        hand.page.locator("[data-stepper=heap_kg][data-by='1']").click()
        expect(box).to_have_value(f"{first:g}")
        hand.page.locator("[data-stepper=heap_kg][data-by='-1']").click()
        expect(box).to_have_value(f"{first - step:g}")
    hand.way("moisture", "figure")
    hand.type({"moisture_pct_wet": "2,55"})
    box = hand.box("moisture_pct_wet")
    step = float(box.get_attribute("data-step"))
    hand.page.locator("[data-stepper=moisture_pct_wet][data-by='1']").click()
    expect(box).to_have_value(f"{2.5 + step:g}".replace(".", ","))


def tab_to(page, selector, limit=60):
    """Press Tab until the focused element matches, as a person would, with a limit on the presses."""
    for _ in range(limit):
        page.keyboard.press("Tab")
        if page.evaluate("selector => document.activeElement.matches(selector)", selector):
            return
    raise AssertionError(f"{selector} is not reached in {limit} presses of Tab")


def test_the_keyboard_alone_gets_from_the_top_to_an_answer_and_to_its_working(hand, answer):
    page = hand.open("temper").page
    native = answer("temper", {"heap_kg": "31", "moisture_pct_wet": "2.4"})
    tab_to(page, "#field-heap_kg")
    page.keyboard.type("31")
    tab_to(page, "[name=way-moisture]")
    page.keyboard.press("ArrowRight")
    tab_to(page, "#field-moisture_pct_wet")
    page.keyboard.type("2.4")
    page.keyboard.press("Enter")
    hand.reads(native)
    tab_to(page, "[data-open-answer]")
    page.keyboard.press("Enter")
    expect(page.locator("#todo-title")).to_be_focused()
    tab_to(page, "[data-folded=working] > summary")
    page.keyboard.press("Enter")
    expect(page.locator("[data-list=working]")).to_be_visible()
    assert page.locator("[data-list=working] > li").all_text_contents() == native["working"]


@pytest.mark.parametrize("job", ["temper", "mix"])
def test_the_focused_element_is_never_behind_the_bar(job, still_hand):
    page = still_hand.open(job).page
    page.evaluate("() => document.querySelectorAll('details').forEach(more => { more.open = true; })")
    bar = page.locator("[data-bar]").bounding_box()
    hidden = []
    for _ in range(60):
        page.keyboard.press("Tab")
        where = page.evaluate(
            """() => { const at = document.activeElement; const box = at.getBoundingClientRect();
            return [at.id || at.className || at.tagName, box.top, at.closest("[data-bar]") !== null] }"""
        )
        if where[1] >= bar["y"] and not where[2]:
            hidden.append(where)
    assert hidden == []
