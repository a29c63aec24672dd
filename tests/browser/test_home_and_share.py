"""The home page: what is known about the heap, and a link to each job. And what can leave the phone: a link, a text, a printed card."""

from __future__ import annotations

import re
import time
from urllib.parse import urlencode

import pytest
from playwright.sync_api import expect

TEMPER = {"heap_kg": "25,5", "sample_wet_g": "500", "sample_dry_g": "488,5"}


def test_a_person_without_a_heap_is_shown_how_to_start_with_two_bags(page, address):
    page.goto(address)
    expect(page.locator("[data-first-timer] h2")).to_have_text("Start with two bags")
    expect(page.locator("[data-first-timer]")).to_be_visible()
    expect(page.locator("[data-heap]")).to_be_hidden()
    page.reload()
    expect(page.locator("[data-first-timer] + * ~ [data-start]")).to_be_visible()
    expect(page.locator("[data-first-timer]")).to_be_visible()


def test_a_browser_that_blocks_service_workers_is_shown_as_online_only(page, address):
    """The contexts of these tests block service workers: registering one gives nothing."""
    page.goto(address)
    expect(page.locator("[data-offline-words]").first).to_have_text("online only")
    expect(page.locator("[data-offline-why]").first).to_contain_text("This browser does not keep the site offline")


def test_after_a_temper_answer_the_heap_is_at_the_top(hand, answer):
    native = answer("temper", TEMPER)
    moisture = next(row for row in native["shown"] if row["word"] == "moisture_pct_wet")
    hand.open("temper").type(TEMPER).reads(native)
    page = hand.page
    page.goto(hand.base)
    card = page.locator("[data-heap]")
    expect(page.locator("[data-first-timer]")).to_be_hidden()
    expect(card.locator("[data-figure=heap_kg] [data-slot=text]")).to_have_text("25,5 kg")
    expect(card.locator("[data-figure=moisture_pct_wet] [data-slot=text]")).to_have_text(moisture["text"])
    expect(card.locator("[data-figure=moisture_pct_wet] [data-slot=range]")).to_have_text(moisture["range"])
    expect(card.locator("[data-slot=state]")).to_have_text(native["state"]["word"])
    expect(card.locator("[data-slot=age]")).to_have_text("tested within the hour")
    expect(page.locator("[data-door-state=temper]").first).to_have_text(native["state"]["word"])


def test_a_month_after_the_last_test_the_page_suggests_another(hand, answer):
    hand.open("temper").type(TEMPER).reads(answer("temper", TEMPER))
    hand.page.clock.set_fixed_time(time.time() + 30 * 86_400 + 60)
    hand.page.goto(hand.base)
    expect(hand.page.locator("[data-heap] [data-slot=state]")).to_have_text("test it")
    expect(hand.page.locator("[data-heap] [data-slot=age]")).to_have_text("tested 30 days ago")


def test_each_job_is_one_tap_away(page, address, jobs):
    """Where each link leads is read, and two are tapped; that there is a page at each is tested with all links."""
    page.goto(address)
    doors = {door.get_attribute("data-door"): door.get_attribute("href") for door in page.locator("a[data-door]").all()}
    assert doors.keys() == jobs.keys()
    assert all(href.strip("./") == name for name, href in doors.items())
    for name in ("temper", "heap"):
        page.goto(address)
        page.locator(f"a[data-door={name}]").first.click()
        expect(page.locator("h1")).to_have_text(jobs[name]["title"])


@pytest.mark.parametrize("job", ["mix", "temper", "flask"])
def test_a_link_carries_all_inputs_to_another_phone(job, new_context, hand_on, address, typed, answer):
    native = answer(job, typed[job])
    mine = new_context(permissions=["clipboard-read", "clipboard-write"])
    hand = hand_on(mine.new_page(), address).open(job).type(typed[job])
    hand.reads(native)
    hand.page.locator("[data-deed=link]").click()
    expect(hand.page.locator("[data-deed-said]")).to_have_text("Copied.")
    link = hand.page.evaluate("() => navigator.clipboard.readText()")
    assert link.startswith(f"{address}{job}/#")
    other = hand_on(new_context().new_page(), address)
    other.page.goto(link)
    other.ready().reads(native)


def test_a_link_with_an_unknown_choice_or_word_is_refused_in_the_words_of_the_library(hand, typed, answer):
    """All in one page: `brass` is no metal and `metl` no input; a person chooses a metal, and leaves the other out."""
    page, given = hand.page, typed["pour"]
    bar = page.locator("[data-bar]")

    def follow(job, **inputs):
        page.goto(f"{hand.base}{job}/#{urlencode(inputs)}")
        hand.ready()
        return answer(job, inputs)

    def refused(native, word):
        (problem,) = native["problems"]
        assert problem["word"] == word
        expect(bar.locator("[data-slot=label]")).to_have_text("Not answered yet")
        return problem["message"]

    native = follow("pour", **given, metal="brass")
    message = refused(native, "metal")
    expect(page.locator("#problem-metal")).to_have_text(message)
    expect(page.locator("[data-field=metal] [data-strange-words]")).to_have_text("Given here: “brass”")
    assert page.locator("#field-metal").input_value() == ""
    page.reload()
    hand.ready()
    expect(page.locator("#problem-metal")).to_have_text(message)
    page.locator("#field-metal").select_option("yellow_brass")
    expect(page.locator("[data-strange-words]:visible")).to_have_count(0)
    hand.reads(answer("pour", given | {"metal": "yellow_brass"}))

    native = follow("pour", **given, metl="brass")
    expect(bar.locator("[data-slot=sentence]")).to_have_text(refused(native, "metl"))
    expect(page.locator("[data-others]")).to_contain_text("metl: brass")
    page.locator("[data-leave-out]").click()
    expect(page.locator("[data-others]")).to_be_hidden()
    hand.reads(answer("pour", given))

    native = follow("diagnose", symptoms="dusty, glitter")
    expect(page.locator("#problem-symptoms")).to_have_text(refused(native, "symptoms"))
    page.locator('[data-field=symptoms] label:has(input[value="dusty"])').click()
    hand.reads(answer("diagnose", {"symptoms": "dusty"}))


def test_after_a_link_a_persons_own_figures_can_be_restored(hand, answer):
    page = hand.open("temper").type(TEMPER).page
    hand.reads(answer("temper", TEMPER))
    page.goto(f"{hand.base}temper/#heap_kg=40+kg&moisture_pct_wet=3+%25")
    expect(hand.box("heap_kg")).to_have_value("40")
    page.get_by_role("button", name="Bring back what stood here").click()
    expect(hand.box("heap_kg")).to_have_value("25,5")
    hand.reads(answer("temper", TEMPER))


def test_a_copy_as_text_has_units_ranges_and_bases(new_context, hand_on, address, answer):
    native = answer("temper", TEMPER)
    context = new_context(permissions=["clipboard-read", "clipboard-write"])
    hand = hand_on(context.new_page(), address).open("temper").type(TEMPER)
    hand.reads(native)
    hand.page.locator("[data-deed=copy]").click()
    expect(hand.page.locator("[data-deed-said]")).to_have_text("Copied.")
    text = hand.page.evaluate("() => navigator.clipboard.readText()")
    for row in native["shown"]:
        line = next(line for line in text.splitlines() if line.strip().startswith(f"{row['label']}: {row['text']}"))
        assert (row["range"] or "") in line
        assert (row["basis"] or "") in line
    assert "25,5 kg" in text
    assert all(caution in text for caution in native["cautions"])


def test_the_links_to_next_jobs_carry_their_figures(hand, typed, answer):
    native = answer("mix", typed["mix"])
    step = native["next"][0]
    hand.open("mix").type(typed["mix"]).reads(native)
    hand.page.locator(f"[data-list=next] [data-next={step['job']}]").first.click()
    expect(hand.page.locator("[data-job]")).to_have_attribute("data-job", step["job"])
    hand.ready()
    native = answer(step["job"], step["inputs"])
    if native["ok"]:
        hand.reads(native)
    else:
        expect(hand.page.locator("[data-bar] [data-slot=label]")).to_have_text("Enter next")
    for word, text in step["inputs"].items():
        value = hand.box(word).input_value()
        assert value
        assert str(text).startswith(value)


def test_the_search_works_out_its_index_only_when_somebody_asks(page, address):
    workers = "performance.getEntriesByType('resource').filter(({ name }) => name.includes('/workers/')).length"
    page.goto(f"{address}words/")
    page.wait_for_load_state("networkidle")
    (search,) = [worker for worker in page.workers if "search-worker" in worker.url]
    assert search.evaluate(workers) == 0
    page.locator("[data-opens=search]").click()
    said = []
    page.on("console", lambda message: said.append(message.text))
    page.locator(".md-search__input").press_sequentially("live clay")
    expect(page.locator(".md-search-result__link").first).to_be_visible()
    assert search.evaluate(workers) == 1
    expect(page.get_by_role("status").filter(has_text="matching documents")).to_be_visible()
    page.keyboard.press("Tab")
    expect(page.locator(".md-search-result__link").first).to_be_focused()
    expect(page.locator(".md-search-result__link").first).to_have_accessible_name(re.compile("clay"))
    page.keyboard.press("Shift+Tab")
    expect(page.locator(".md-search__input")).to_be_focused()
    for words in ("riser", "sand 1.2", "moisture", "0.5 mm", "gates 1:4:4"):
        page.locator(".md-search__input").fill(words)
        expect(page.locator(".md-search-result__link mark").first).to_be_visible()
    assert [text for text in said if "Invalid query" in text] == []
