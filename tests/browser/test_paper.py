"""A whole page on paper: nothing to tap, no words of the program, letters of at least 8 points, and the heap on one sheet."""

from __future__ import annotations

import re
from datetime import UTC, datetime, timedelta
from urllib.parse import urlencode

import pytest
from heap_books import MIXED, POURED, TESTED, book_of, put
from playwright.sync_api import expect

LEAST_PT = 8
A4_PT = (594.96, 841.92)
"""210 × 297 mm (ISO 216) in points, as a browser rounds it."""
PHONE = {"width": 390, "height": 844}
INSIDE_PX = {"width": 718, "height": 1046}
"""What the margins of 10 mm leave of the sheet, at 96 px to 25.4 mm."""
SHOWN = {
    "temper": "boxes for times, drawings with their key",
    "tin": "a book in the address, a chart",
    "diagnose": "a large link, several answers as cards",
    "burnout": "a list to tick, charts",
    "plan": "the steps of a day, a casting to keep",
}
"""Jobs that have between them every part of an answer, each with its own."""
ON_PAPER = """(least) => {
    const seen = (part) => part.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true })
        && part.getClientRects().length > 0 && part.getBoundingClientRect().width > 1.5;
    const own = (part) => Array.from(part.childNodes).filter((node) => node.nodeType === 3).map((node) => node.data).join(" ").trim();
    const points = (part) => {
        const { a, d } = part.closest("svg") ? part.getScreenCTM() : { a: 1, d: 1 };
        return parseFloat(getComputedStyle(part).fontSize) * 0.75 * Math.min(a, d); };
    const parts = Array.from(document.body.querySelectorAll("*")).filter(seen);
    const written = parts.filter(own);
    return {
        small: written.map((part) => [own(part).slice(0, 40), points(part)]).filter(([, size]) => size < least - 0.01),
        tools: parts.filter((part) => part.matches(
            "button, textarea, :is(input, select):not(.heap-name, .check input), a:not(.sheet > li > a, .term), .door > .sign, .cover, [data-go]")
            || (part.matches(".term") && getComputedStyle(part).textDecorationLine !== "none"))
            .map((part) => part.outerHTML.slice(0, 120)),
        edges: parts.filter((part) => part.matches(".door, .heap-name") && parseFloat(getComputedStyle(part).borderBottomWidth) > 0)
            .map((part) => part.outerHTML.slice(0, 120)),
        boxes: parts.filter((part) => part.matches("[type=checkbox]")).length,
        text: written.map(own).join(" | "),
        sentences: document.body.innerText.replace(/\\s+/g, " "),
    }; }"""
TWO_FRAMES = "() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))"
"""The page hears of a medium that is only tried out in the next frame; before a print it hears of it at once."""
PROGRAM_WORD = re.compile(r"\b[a-z]+(?:_[a-z0-9]+)+\b")


def sheets(page):
    """The size in points of every page of the print."""
    page.emulate_media(media="null")
    pdf = page.pdf(prefer_css_page_size=True, format="A4")
    return [tuple(map(float, box)) for box in re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", pdf)]


def clean(page):
    """What stands on paper, with nothing on it that belongs to the screen."""
    page.emulate_media(media="print")
    page.set_viewport_size(INSIDE_PX)
    page.evaluate(TWO_FRAMES)
    found = page.evaluate(ON_PAPER, LEAST_PT)
    assert found["small"] == []
    assert found["tools"] == []
    assert found["edges"] == []
    assert PROGRAM_WORD.findall(found["text"]) == []
    return found


def asked(hand, job, inputs):
    hand.page.emulate_media(media="screen")
    hand.page.set_viewport_size(PHONE)
    hand.page.goto("about:blank")
    hand.page.goto(f"{hand.base}{job}/#{urlencode(inputs)}")
    hand.page.locator("[data-answer][data-whose=mine]").wait_for(state="attached")


def test_an_answer_on_paper_has_nothing_to_tap_and_no_small_letters(hand, jobs, answer):
    for job in SHOWN:
        native = answer(job, jobs[job]["example"])
        asked(hand, job, jobs[job]["example"])
        for plot in hand.page.locator("[data-answer] [data-plot]").all():
            plot.evaluate("plot => plot.closest('details')?.setAttribute('open', '')")
            plot.locator("svg").wait_for()
        paper = clean(hand.page)
        assert native["lead"]["text"] in paper["text"]
        assert paper["boxes"] == sum(point["tone"] != "go" for point in native["checklist"])
        for caution in native["cautions"]:
            assert caution.partition(":")[0] in paper["text"]


def test_a_stop_covers_nothing_on_paper(hand, answer):
    inputs = {"heap_kg": "25 kg", "moisture_pct_wet": "7 %"}
    native = answer("temper", inputs)
    asked(hand, "temper", inputs)
    expect(hand.page.locator("[data-cover]")).to_be_visible()
    paper = clean(hand.page)
    assert native["state"]["word"] == "stop"
    assert native["lead"]["text"] in paper["text"]
    for row in native["todo"]:
        assert row["text"] in paper["sentences"]


def hours_apart(*events):
    """Events whose last was an hour ago: a season of no length has no picture."""
    ends = datetime.now(UTC)
    return [event | {"at": (ends - timedelta(hours=len(events) - at)).isoformat()} for at, event in enumerate(events)]


@pytest.mark.parametrize(("casts", "printed"), [(1, 3), (9, 6)])
def test_the_heap_is_one_sheet(casts, printed, page, address):
    put(page, address, book_of(*hours_apart(MIXED, *(POURED, TESTED) * casts)))
    page.locator("[data-plot] svg").first.wait_for()
    clean(page)
    expect(page.locator("[data-list=timeline] > li").filter(visible=True)).to_have_count(printed)
    ((width, height),) = sheets(page)
    assert (width, height) == pytest.approx(A4_PT, abs=1.5)


def test_the_sheet_of_a_casting_is_one_list(hand):
    hand.page.goto(hand.base)
    hand.page.locator("#field-box_mm").fill("160 x 90 x 30")
    hand.page.locator("[data-start] [data-submit]").click()
    expect(hand.page.locator("[data-list=casting-steps] > li").first).to_be_visible()
    assert "Fill the flask" in clean(hand.page)["text"]
    assert len(sheets(hand.page)) == 1
