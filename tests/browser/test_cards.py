"""The printed card: one sheet of A6 with large figures, boxes and blanks, and a code that another program reads."""

from __future__ import annotations

import json
import re
from urllib.parse import parse_qsl, urlencode

import numpy as np
import pytest
import zxingcpp
from playwright.sync_api import expect

A6_JOBS = ("mix", "temper", "flask", "pour", "rebond", "plan")
A6_PT, A5_PT = (297.6, 419.5), (419.5, 595.3)
"""105 × 148 mm and 148 × 210 mm (ISO 216), at 72 points to 25.4 mm."""
LEAST_PT = 8
NOT_PRINTED = "window.print = () => { globalThis.printed = true; };"
PIXELS = """async (svg) => {
    const image = new Image();
    const copy = svg.cloneNode(true);
    copy.setAttribute("width", "600");
    copy.setAttribute("height", "600");
    image.src = "data:image/svg+xml," + encodeURIComponent(new XMLSerializer().serializeToString(copy));
    await image.decode();
    const canvas = Object.assign(document.createElement("canvas"), { width: 600, height: 600 });
    const paint = canvas.getContext("2d");
    paint.fillStyle = "white";
    paint.fillRect(0, 0, 600, 600);
    paint.drawImage(image, 0, 0);
    return Array.from(paint.getImageData(0, 0, 600, 600).data.filter((_, at) => at % 4 === 0)); }"""
SMALL_TEXTS = """(card, least) => Array.from(card.querySelectorAll("*"))
    .filter((part) => part.checkVisibility() && Array.from(part.childNodes).some((node) => node.nodeType === 3 && node.data.trim()))
    .map((part) => [part.textContent.slice(0, 30), parseFloat(getComputedStyle(part).fontSize) * 0.75])
    .filter(([, points]) => points < least - 0.01)"""
PRINT_UNTIL_SAID = """() => {
  document.querySelector("[data-deed=print]").click();
  return document.querySelector("[data-deed-said]").textContent;
}"""
"""Taps the button again while the page's modules are still loading."""


def opened(hand, job, inputs):
    """A page that shows the answer to these inputs, where printing only leaves a mark."""
    hand.page.add_init_script(NOT_PRINTED)
    hand.page.goto(f"{hand.base}{job}/#{urlencode(inputs)}")
    hand.ready()
    hand.page.locator("[data-answer][data-whose=mine]").wait_for(state="attached")
    return hand.page


def card_of(page):
    """The card, as it is when the browser would print it."""
    page.locator("[data-deed=print]").dispatch_event("click")
    page.wait_for_function("() => globalThis.printed")
    return page.locator("[data-paper]")


def sheets(page):
    """The size in points of every page of the print."""
    pdf = page.pdf(prefer_css_page_size=True)
    return [tuple(map(float, box)) for box in re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", pdf)]


def decoded(card):
    """What the code says, read by ZXing from the drawing, white around it."""
    pixels = card.locator("[data-code] svg").evaluate(PIXELS)
    picture = np.array(pixels, dtype=np.uint8).reshape(600, 600)
    (code,) = zxingcpp.read_barcodes(picture, formats=zxingcpp.BarcodeFormat.QRCode)
    return code.text


def inputs_of(link):
    """The inputs in an address. A code leaves out the units that the boxes have anyway, and spaces between rows."""
    page, _, fragment = link.partition("#")
    pairs = dict(pair for pair in parse_qsl(fragment) if not pair[0].startswith("unit-"))
    return page, {word: json.loads(text) if text.startswith("[") else text for word, text in pairs.items()}


@pytest.mark.parametrize(
    "job", [job if job in ("temper", "plan") else pytest.param(job, marks=pytest.mark.full) for job in A6_JOBS]
)
def test_a_card_is_one_small_sheet_with_all_that_is_to_be_done(job, hand, jobs, answer):
    example = jobs[job]["example"]
    native = answer(job, example)
    page = opened(hand, job, example)
    link = hand.link()
    card = card_of(page)
    words = card.inner_text()
    assert native["lead"]["text"] in words
    boxes = card.locator("[data-list=paper-lines] > li").all_text_contents()
    for one in native["todo"] if not native["steps"] else ():
        assert any(one["text"] in box and one["amount"] in box for box in boxes)
    for line in [check["text"] for check in native["checklist"]] + [step["line"] for step in native["steps"]]:
        assert any(line in box for box in boxes)
    for caution in native["cautions"]:
        assert caution.split(":")[0] in words
    for name in ("Date", "By"):
        assert name in words
    assert not re.search(r"\w_\w|https?:|%\d|\b(Copy|Print|Clear|Answer)\b", words.replace("“Copy a link”", ""))
    assert card.locator("button, a, input").count() == 0
    assert card.evaluate(SMALL_TEXTS, LEAST_PT) == []
    assert inputs_of(decoded(card)) == inputs_of(link)
    ((width, height),) = sheets(page)
    assert (width, height) == pytest.approx(A6_PT, abs=1.5)


def test_the_code_opens_the_same_answer_on_another_phone(hand, jobs, answer, new_context, hand_on, address):
    """A heap in pounds: their unit is not the one that the box has at first."""
    inputs = jobs["plan"]["example"] | {"heap_kg": "99 lb"}
    card = card_of(opened(hand, "plan", inputs))
    other = hand_on(new_context().new_page(), address)
    other.page.goto(decoded(card))
    other.ready().reads(answer("plan", inputs))


def test_waits_have_a_blank_for_the_time(hand, jobs, answer):
    native = answer("temper", jobs["temper"]["example"])
    card = card_of(opened(hand, "temper", jobs["temper"]["example"]))
    expect(card.locator("[data-timed]")).to_have_text(
        [re.compile(f"{re.escape(timer['label'])}.*after {timer['text']}at") for timer in native["timers"]]
    )


def test_inputs_that_are_too_long_for_a_code_are_said_to_be(hand, jobs, answer):
    flasks = [
        {"name": f"oak flask {at}", "flask_length_mm": 300 + at, "flask_width_mm": 250, "drag_depth_mm": 90}
        | {"cope_depth_mm": 80}
        for at in range(12)
    ]
    card = card_of(opened(hand, "fit", jobs["fit"]["example"] | {"flasks": str(flasks).replace("'", '"')}))
    expect(card.locator("[data-code]")).to_contain_text("too long for a code")
    assert card.locator("svg[viewBox^='0 0'][shape-rendering]").count() == 0


@pytest.mark.breaks
def test_without_the_library_of_the_code_the_card_is_printed_and_says_so(hand, jobs):
    hand.page.route("**/lean-qr-*.js", lambda route: route.abort())
    card = card_of(opened(hand, "temper", jobs["temper"]["example"]))
    expect(card.locator("[data-code]")).to_contain_text("could not be loaded")


def test_the_library_of_the_code_is_loaded_only_to_print(hand, jobs):
    asked = []
    hand.page.on("request", lambda request: asked.append(request.url))
    page = opened(hand, "temper", jobs["temper"]["example"])
    assert not any("lean-qr" in url or "card-print" in url for url in asked)
    card_of(page)
    assert sum("lean-qr" in url for url in asked) == 1


def test_a_card_is_printed_without_a_network(new_context, hand_on, address, jobs):
    hand = hand_on(new_context(keeps=True).new_page(), address)
    page = opened(hand, "temper", jobs["temper"]["example"])
    page.locator("[data-offline-mark][data-offline=ready]").wait_for(state="attached", timeout=60_000)
    page.context.set_offline(True)
    assert decoded(card_of(page)).startswith(f"{address}temper/#")


def test_an_example_is_not_printed_and_a_card_is_gone_when_it_is_printed(still_hand, hand, jobs):
    page = still_hand.open("temper").page
    page.wait_for_function(PRINT_UNTIL_SAID)
    expect(page.locator("[data-deed-said]")).to_have_text("There is no answer of yours to print yet.")
    page = opened(hand, "temper", jobs["temper"]["example"])
    expect(card_of(page)).to_have_count(1)
    page.evaluate("() => dispatchEvent(new Event('afterprint'))")
    expect(page.locator("[data-paper]")).to_have_count(0)
    assert page.locator("html[data-print]").count() == 0


def test_a_stop_is_on_its_card(hand, answer):
    inputs = {"heap_kg": "25 kg", "moisture_pct_wet": "7 %"}
    native = answer("temper", inputs)
    words = card_of(opened(hand, "temper", inputs)).inner_text()
    assert native["state"]["word"] == "stop"
    assert "stop" in words
    assert native["lead"]["text"] in words
