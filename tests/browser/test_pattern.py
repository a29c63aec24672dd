"""A pattern's file in the page: chosen, dropped, read by the worker, cancelled, refused, kept and used again; it never leaves the page.

The texts that a page must show come from the library, called with the same bytes.
"""

from __future__ import annotations

import base64
import json
import math
import struct
import zipfile
from io import BytesIO

import numpy as np
import pytest
from effort import only_long
from playwright.sync_api import expect

from sandmix.doors.facade import call

CORNERS = [(x, y, z) for x in (0, 40) for y in (0, 30) for z in (0, 20)]
SIDES = [
    (0, 1, 3), (0, 3, 2), (4, 6, 7), (4, 7, 5), (0, 4, 5), (0, 5, 1), (2, 3, 7), (2, 7, 6), (0, 2, 6), (0, 6, 4), (1, 5, 7), (1, 7, 3),
]  # fmt: skip
SHELF = "const { openDatabase } = await import('/app/database.js'); const kept = await openDatabase();"


def stl(facets):
    body = b"".join(struct.pack("<12x9f2x", *(value for corner in facet for value in corner)) for facet in facets)
    return b"block".ljust(80) + struct.pack("<I", len(facets)) + body


def block():
    """A block of 40 × 30 × 20 mm: 24 cm³."""
    return stl([tuple(CORNERS[corner] for corner in side) for side in SIDES])


def ball(rings, radius=25.0):
    """A ball of 4 rings² facets, minus those at the poles."""
    around = 2 * rings
    tilts = [(math.sin(math.pi * at / rings), math.cos(math.pi * at / rings)) for at in range(rings + 1)]
    turns = [(math.cos(math.pi * at / rings), math.sin(math.pi * at / rings)) for at in range(around)]

    def at(ring, place):
        (flat, high), (x, y) = tilts[ring], turns[place % around]
        if ring in (0, rings):
            flat = 0.0
        return radius * flat * x, radius * flat * y, radius * high

    facets = []
    for ring in range(rings):
        for place in range(around):
            a, b, c, d = at(ring, place), at(ring, place + 1), at(ring + 1, place), at(ring + 1, place + 1)
            facets += [(a, c, b)] if ring else []
            facets += [(b, c, d)] if ring < rings - 1 else []
    return stl(facets)


def package():
    """The block in inches, as a 3MF."""
    vertices = "".join(f'<vertex x="{x / 25.4!r}" y="{y / 25.4!r}" z="{z / 25.4!r}"/>' for x, y, z in CORNERS)
    facets = "".join(f'<triangle v1="{a}" v2="{b}" v3="{c}"/>' for a, b, c in SIDES)
    text = (
        '<?xml version="1.0"?><model unit="inch" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">'
        f'<resources><object id="1" type="model"><mesh><vertices>{vertices}</vertices><triangles>{facets}</triangles></mesh>'
        '</object></resources><build><item objectid="1"/></build></model>'
    )
    held = BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("3D/3dmodel.model", text)
    return held.getvalue()


def bomb():
    """A 3MF that unpacks to a hundred megabytes of zeros."""
    held = BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("3D/3dmodel.model", b"<model>" + b" " * 100_000_000)
    return held.getvalue()


def native(data, **inputs):
    request = {"job": "pattern", "inputs": {"mesh": {"upload": "it"}, **inputs}}
    return json.loads(call(json.dumps(request), {"it": data}))


def pick(page, name, data):
    file = {"name": name, "mimeType": "application/octet-stream", "buffer": data}
    page.locator("[data-upload=mesh]").set_input_files(file)


def drop(page, name, data):
    """Drop a file on the page's title, as from a desktop."""
    page.evaluate(
        """([name, text]) => {
            const bytes = Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
            const held = new DataTransfer();
            held.items.add(new File([bytes], name));
            const words = { bubbles: true, cancelable: true, dataTransfer: held };
            const place = document.querySelector("h1");
            if (place.dispatchEvent(new DragEvent("dragover", words))) throw new Error("the browser would open the file");
            if (place.dispatchEvent(new DragEvent("drop", words))) throw new Error("the browser would open the file");
        }""",
        [name, base64.b64encode(data).decode()],
    )


BALLS = 15
FACET = np.dtype([("normal", "<f4", 3), ("corners", "<f4", (3, 3)), ("spare", "<u2")])


@pytest.fixture(scope="session")
def large(tmp_path_factory):
    """One large file for several tests: balls in a row, about 300 000 facets."""
    facets = np.tile(np.frombuffer(ball(71)[84:], FACET), (BALLS, 1))
    facets["corners"][..., 0] += 60 * np.arange(BALLS).reshape(-1, 1, 1)
    file = tmp_path_factory.mktemp("large") / "large.stl"
    file.write_bytes(b"balls".ljust(80) + struct.pack("<I", facets.size) + facets.tobytes())
    return file


@pytest.fixture(scope="module")
def one_page(browser, address, hand_on, watched):
    """The page of the pattern with the calculator in the browser, which several tests use one after the other."""
    with watched(browser) as context:
        yield hand_on(context.new_page(), address).open("pattern")


@pytest.fixture
def real(one_page):
    """A person at that page, its form empty and its calculator ready."""
    one_page.way("size", "file")
    one_page.page.locator("[data-deed=clear]").dispatch_event("click")
    expect(one_page.page.locator("[data-bar] [data-slot=label]")).to_have_text("Enter first")
    return one_page.ready()


def test_a_chosen_file_gets_the_librarys_answer(real):
    hand = real
    pick(hand.page, "block.stl", block())
    hand.reads(native(block()))
    assert native(block())["result"]["volume_cm3"] == pytest.approx(24)
    expect(hand.page.locator("[data-file-name]")).to_have_text("block.stl")
    expect(hand.page.locator("[data-file-size]")).to_have_text("1 kB")
    views = hand.page.locator("[data-list=drawings] svg.draw")
    expect(views).to_have_count(1)
    assert views.locator("text").all_text_contents()[3:] == ["40 mm", "30 mm", "20 mm"]


def test_a_3mf_sets_its_own_unit_and_20_000_facets_are_quick(real):
    hand = real
    pick(hand.page, "block.3mf", package())
    hand.reads(native(package()))
    data = ball(71)
    pick(hand.page, "ball.stl", data)
    hand.reads(native(data))


def test_the_file_stays_while_other_fields_change_until_it_is_removed(hand):
    hand.open("pattern")
    pick(hand.page, "block.stl", block())
    hand.reads(native(block()))
    hand.type({"metal": "grey_iron", "scale": "2"}).reads(native(block(), metal="grey_iron", scale=2))
    hand.page.locator("[data-take-away]").click()
    expect(hand.page.locator("[data-chosen]")).to_be_hidden()
    expect(hand.page.locator("[data-answer]")).to_have_attribute("data-whose", "waiting")
    hand.way("size", "sizes")
    hand.type({"box_mm": "40 x 30 x 20"})
    figures = {"box_mm": "40 x 30 x 20 mm", "metal": "grey_iron", "scale": 2}
    hand.reads(json.loads(call(json.dumps({"job": "pattern", "inputs": figures}))))


def test_a_file_dropped_anywhere_is_used_and_the_page_stays(hand):
    hand.open("pattern")
    hand.way("size", "water")
    drop(hand.page, "block.stl", block())
    hand.reads(native(block()))
    expect(hand.page.locator("[data-upload=mesh]")).to_be_visible()


def test_the_keyboard_alone_can_choose_and_remove_a_file(hand):
    page = hand.open("pattern").page
    page.on("filechooser", lambda _: None)
    page.locator("[name=way-size]").first.focus()
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.dataset.upload") == "mesh"
    with page.expect_file_chooser() as waited:
        page.keyboard.press("Space")
    waited.value.set_files({"name": "block.stl", "mimeType": "", "buffer": block()})
    hand.reads(native(block()))
    page.keyboard.press("Shift+Tab")
    assert page.evaluate("'takeAway' in document.activeElement.dataset")
    page.keyboard.press("Enter")
    expect(page.locator("[data-chosen]")).to_be_hidden()
    assert page.evaluate("document.activeElement.dataset.upload") == "mesh", "the focus is not lost with the button"


def test_reading_a_large_file_can_be_cancelled_without_losing_input(real, large):
    hand, page = real, real.page
    hand.type({"scale": "1,5"})
    page.locator("[data-upload=mesh]").set_input_files(large)
    under_way = page.locator("[data-under-way]")
    expect(under_way).to_be_visible()
    expect(page.locator("[data-file-words]")).to_contain_text("large.stl: measuring")
    expect(page.locator("[data-file-words]")).to_contain_text("s so far")
    expect(page.locator("[data-bar] [data-slot=label]")).to_have_text("Measuring")
    page.locator("[data-cancel]").click()
    expect(under_way).to_be_hidden()
    expect(page.locator("[data-bar] [data-slot=label]")).to_have_text("Stopped")
    expect(hand.box("scale")).to_have_value("1,5")
    hand.ready()
    hand.type({"scale": "2"})
    expect(under_way).to_be_hidden()
    pick(page, "block.stl", block())
    hand.reads(native(block(), scale=2))


def test_another_file_does_not_wait_for_the_previous_one(real, large):
    hand, page = real, real.page
    page.locator("[data-upload=mesh]").set_input_files(large)
    expect(page.locator("[data-under-way]")).to_be_visible()
    pick(page, "block.stl", block())
    hand.reads(native(block()))
    expect(page.locator("[data-under-way]")).to_be_hidden()


@pytest.mark.full
def test_another_way_and_a_cleared_form_do_not_wait_for_a_file(real, large):
    hand, page = real, real.page
    hand.way("size", "sizes")
    hand.type({"box_mm": "40 x 30 x 20"})
    hand.way("size", "file")
    page.locator("[data-upload=mesh]").set_input_files(large)
    expect(page.locator("[data-under-way]")).to_be_visible()
    hand.way("size", "sizes")
    hand.reads(json.loads(call('{"job": "pattern", "inputs": {"box_mm": "40 x 30 x 20 mm"}}')))
    hand.ready().way("size", "file")
    expect(page.locator("[data-under-way]")).to_be_visible()
    page.locator("[data-deed=clear]").click()
    expect(page.locator("[data-bar] [data-slot=label]")).to_have_text("Enter first")
    hand.ready()
    expect(page.locator("[data-under-way]")).to_be_hidden()
    pick(page, "block.stl", block())
    hand.reads(native(block()))


HOSTILE = {
    "empty.stl": b"",
    "cut.stl": block()[:-20],
    "noise.stl": bytes(range(256)) * 40,
    "text.stl": b"solid thing\nfacet normal 0 0 0\nouter loop\nvertex 1 2 nan\n",
    "no.3mf": b"PK\x03\x04" + b"\0" * 500,
    "bomb.3mf": bomb(),
    "<img src=x onerror=alert(1)>.stl": b"<script>alert(1)</script>",
}


def test_a_hostile_file_gives_a_message_and_the_page_keeps_working(real):
    hand, page = real, real.page
    for name, data in HOSTILE.items():
        pick(page, name, data)
        problem = native(data)["problems"][0]["message"]
        expect(page.locator("#problem-mesh"), name).to_have_text(problem)
        expect(page.locator("[data-upload=mesh]")).to_have_attribute("aria-invalid", "true")
    pick(page, "__proto__", block())
    hand.reads(native(block()))
    assert page.locator("html").get_attribute("data-engine") == "ready"


def test_a_file_above_256_mb_is_not_read(hand):
    page = hand.open("pattern").page
    pick(page, "block.stl", block())
    hand.reads(native(block()))
    page.evaluate(
        """() => { const held = new DataTransfer(); held.items.add(new File([new Uint8Array(256_000_001)], "big.stl"));
        const input = document.querySelector("[data-upload]"); input.files = held.files; input.dispatchEvent(new Event("change")); }"""
    )
    expect(page.locator("#problem-mesh")).to_contain_text("“big.stl” has 256.0 MB, and at most 256.0 MB are read.")
    expect(page.locator("[data-file-name]")).to_have_text("block.stl")


def test_a_file_that_can_no_longer_be_read_is_reported(real, tmp_path):
    hand, page = real, real.page
    file = tmp_path / "gone.stl"
    file.write_bytes(block())
    page.locator("[data-upload=mesh]").set_input_files(file)
    hand.reads(native(block()))
    file.unlink()
    hand.type({"scale": "2"})
    expect(page.locator("#problem-mesh")).to_contain_text("it can't be read any more")


def test_after_a_reload_the_answer_is_shown_and_the_file_has_to_be_chosen_again(hand):
    page = hand.open("pattern").page
    pick(page, "block.stl", block())
    hand.reads(native(block()))
    page.reload()
    hand.ready().reads(native(block()))
    expect(page.locator("[data-file-lost]")).to_be_visible()
    expect(page.locator("[data-file-name]")).to_have_text("block.stl")
    hand.type({"scale": "2"})
    expect(page.locator("#problem-mesh")).to_contain_text("“block.stl” is not here any more")
    pick(page, "block.stl", block())
    hand.reads(native(block(), scale=2))
    expect(page.locator("[data-file-lost]")).to_be_hidden()


def test_a_kept_pattern_fills_in_the_jobs_that_use_it(hand):
    page = hand.open("pattern").page
    pick(page, "My block.stl", block())
    answer = native(block())
    hand.reads(answer)
    expect(page.locator("#pattern-name")).to_have_value("My block")
    page.locator("[data-keep]").click()
    expect(page.locator("[data-keep-said]")).to_have_text("Kept: My block.")
    (kept,) = page.evaluate(f"async () => {{ {SHELF} return kept.patterns(); }}")
    assert kept["figures"] == {word: answer["result"][word] for word in kept["figures"]}
    assert {"volume_cm3", "area_cm2", "box_mm", "modulus_mm", "projected_area_cm2", "casting_kg"} <= set(
        kept["figures"]
    )
    for link in answer["next"]:
        hand.open(link["job"])
        page.locator("[data-takes] summary").click()
        page.locator("[data-take]").click()
        expect(page.locator("[data-take-said]")).to_have_text("Taken: My block.")
        for word, text in link["inputs"].items():
            if word not in ("metal", "gate_place"):
                value, _, _ = text.rpartition(" ")
                expect(hand.box(word)).to_have_value(value or text)


def test_replacing_or_deleting_a_kept_pattern_needs_a_second_tap(hand):
    page = hand.open("pattern").page
    pick(page, "block.stl", block())
    hand.reads(native(block()))
    keep = page.locator("[data-keep]")
    keep.click()
    expect(page.locator("[data-keep-said]")).to_have_text("Kept: block.")
    hand.type({"scale": "2"}).reads(native(block(), scale=2))
    keep.click()
    expect(keep).to_have_text("Tap again to replace the one with that name")
    keep.click()
    expect(page.locator("[data-keep-said]")).to_have_text("Kept: block.")
    (kept,) = page.evaluate(f"async () => {{ {SHELF} return kept.patterns(); }}")
    assert kept["figures"]["volume_cm3"] == pytest.approx(192)
    hand.open("flask")
    page.locator("[data-takes] summary").click()
    page.locator("[data-forget]").click()
    page.locator("[data-forget]").click()
    expect(page.locator("[data-takes]")).to_be_hidden()


def test_books_of_an_older_database_survive_the_upgrade_for_patterns(page, address):
    """A database as version 1 made it, with a book in it, opened by the present page."""
    page.goto(f"{address}offline/")
    page.evaluate(
        """() => new Promise((done, fail) => {
            const asked = indexedDB.open("sandmix.books", 1);
            asked.onupgradeneeded = () => {
                asked.result.createObjectStore("books", { keyPath: "key" });
                asked.result.createObjectStore("events");
                asked.result.createObjectStore("facts");
            };
            asked.onsuccess = () => {
                const writing = asked.result.transaction(["books", "events", "facts"], "readwrite");
                writing.objectStore("books").put({ key: "k", name: "Old" });
                writing.objectStore("events").put({ kind: "mixed" }, ["k", 0]);
                writing.objectStore("facts").put("k", "in use");
                writing.oncomplete = () => { asked.result.close(); done(); };
            };
            asked.onerror = fail;
        })"""
    )
    told = page.evaluate(
        f"async () => {{ {SHELF} "
        "return [kept.lasting, await kept.books(), await kept.events('k'), await kept.fact('in use'), await kept.patterns()]; }"
    )
    assert told == [True, [{"key": "k", "name": "Old"}], [{"kind": "mixed"}], "k", []]


def test_a_file_is_measured_without_a_network(new_context, hand_on, address):
    context = new_context(keeps=True)
    page = context.new_page()
    page.goto(address)
    page.locator("[data-offline-mark][data-offline=ready]").first.wait_for(state="attached", timeout=60_000)
    context.set_offline(True)
    hand = hand_on(page, address).open("pattern")
    pick(page, "block.stl", block())
    hand.reads(native(block()))


@pytest.mark.parametrize("width", [320, *only_long(390)])
def test_no_sideways_scroll_and_every_button_large_enough_for_a_thumb(width, new_context, hand_on, address):
    page = new_context(viewport={"width": width, "height": 700}).new_page()
    hand = hand_on(page, address).open("pattern")
    narrow = "document.documentElement.scrollWidth <= innerWidth"
    waits = "**/app/asked"
    page.route(waits, lambda _: None)
    pick(page, "a_name_without_any_space_that_is_far_longer_than_the_screen_is_wide.stl", block())
    expect(page.locator("[data-under-way]")).to_be_visible()
    assert page.evaluate(narrow)
    assert page.locator("[data-cancel]").bounding_box()["height"] >= 48
    page.unroute(waits)
    pick(page, "a_name_without_any_space_that_is_far_longer_than_the_screen_is_wide.stl", block())
    hand.reads(native(block()))
    assert page.evaluate(narrow)
    for button in (".drop .pick", "[data-take-away]", "[data-keep]"):
        assert page.locator(button).bounding_box()["height"] >= 48
    page.locator("[data-keep]").click()
    expect(page.locator("[data-keep-said]")).not_to_be_empty()
    hand.open("flask")
    page.locator("[data-takes] summary").click()
    assert page.evaluate(narrow)
    for button in ("[data-take]", "[data-forget]"):
        box = page.locator(button).bounding_box()
        assert box["height"] >= 48
        assert box["x"] + box["width"] <= width
