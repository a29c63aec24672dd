"""The page without a network: it is stored, changes only when a person agrees, and explains itself when it is damaged."""

from __future__ import annotations

import pytest
from playwright.sync_api import expect

import offline
from server import Folder

TEMPER = {"heap_kg": "55,5", "sample_wet_g": "500", "sample_dry_g": "488,5"}
FLASK = {"flask_length_mm": "12 in", "flask_width_mm": "250", "drag_depth_mm": "87,5", "heap_kg": "19"}


def kept(page):
    page.locator("[data-offline-mark][data-offline=ready]").wait_for(state="attached", timeout=60_000)
    expect(page.locator("[data-offline-words]")).to_have_text("ready offline")


def test_a_new_answer_is_computed_without_network_and_server(own_copy, new_context, hand_on, answer, tmp_path):
    _, server, address = own_copy
    context = new_context(keeps=True)
    hand = hand_on(context.new_page(), address).open("temper")
    kept(hand.page)
    hand.type({"heap_kg": "20", "sample_wet_g": "500", "sample_dry_g": "490"})
    server.folder = Folder(root=tmp_path / "nothing")
    server.shutdown()
    server.server_close()
    context.set_offline(True)
    hand.page.reload()
    hand.ready()
    kept(hand.page)
    expect(hand.box("heap_kg")).to_have_value("20")
    hand.type(TEMPER).reads(answer("temper", TEMPER))
    hand.open("flask").type(FLASK).reads(answer("flask", FLASK))
    hand.page.goto(f"{address}method/temper/")
    expect(hand.page.locator("h1")).to_be_visible()


def test_a_new_version_waits_until_it_is_tapped(own_copy, new_context):
    folder, _, address = own_copy
    page = new_context(keeps=True).new_page()
    page.goto(address)
    kept(page)
    notice = page.locator("[data-new-version]")
    expect(notice).to_be_hidden()
    home = folder / "index.html"
    home.write_text(home.read_text("utf-8").replace("Start with two bags", "Start with three bags"), "utf-8")
    offline.write(folder)
    heading = page.locator("[data-first-timer] h2")
    for _ in range(2):
        page.reload()
        expect(notice).to_be_visible()
        expect(heading).to_have_text("Start with two bags")
    page.locator("[data-take-new]").click()
    expect(heading).to_have_text("Start with three bags")
    expect(notice).to_be_hidden()
    kept(page)


@pytest.mark.breaks
@pytest.mark.parametrize("file", ["py/*/library.bin", "py/*/interpreter.bin", "app/worker.js"])
def test_a_damaged_or_missing_file_gives_a_message_and_keeps_the_input(file, own_copy, new_context, hand_on):
    folder, _, address = own_copy
    (damaged,) = folder.glob(file)
    if file.endswith(".js"):
        damaged.unlink()
    else:
        damaged.write_bytes(damaged.read_bytes()[:-1000])
    page = new_context(keeps=True).new_page()
    hand = hand_on(page, address).open("temper", ready=False).type(TEMPER)
    words = page.locator("[data-engine-words]")
    expect(words).to_be_visible(timeout=70_000)
    expect(words).to_contain_text("The calculator did not start here: ")
    expect(words).to_contain_text("What you type is saved.")
    page.locator("html[data-engine=failed]").wait_for(state="attached")
    page.locator("[data-offline-mark][data-offline=broken]").wait_for(state="attached", timeout=60_000)
    page.reload()
    for word, text in TEMPER.items():
        expect(hand.box(word)).to_have_value(text)


def test_a_worker_that_dies_is_replaced_and_the_request_repeated(new_context, hand_on, address, answer):
    context = new_context()
    context.add_init_script(
        """const Plain = Worker; globalThis.made = [];
        globalThis.Worker = class extends Plain { constructor(...words) { super(...words); made.push(this); } };"""
    )
    hand = hand_on(context.new_page(), address).open("temper").type(TEMPER)
    hand.reads(answer("temper", TEMPER))
    hand.page.evaluate("() => made[0].dispatchEvent(new ErrorEvent('error', { message: 'killed' }))")
    hand.ready()
    more = TEMPER | {"heap_kg": "31 kg"}
    hand.type(more).reads(answer("temper", more))
    assert hand.page.evaluate("() => made.length") == 2
