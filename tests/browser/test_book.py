"""The heap book: what is shown as saved is saved, all pages agree, a stray tap undoes nothing, and no file breaks it.

The library's own `record` writes the books that the tests start with, and its own `heap` gives the texts that a page must
show.
"""

from __future__ import annotations

import csv
import io
import json
import time
from datetime import datetime

import pytest
from heap_books import ALL, BOOKS, MIXED, POURED, TESTED, ask, book_of, carried, heap_of, now, put, says, text_of
from measures import FAINT_TEXTS, LOOKS, SMALL_TARGETS
from playwright.sync_api import expect

from sandmix.book.book import VERSION
from tests.bench import kills


def saved(page):
    expect(page.locator("[data-saved]")).to_contain_text("Saved.")


def recorded(page):
    expect(page.locator("[data-slot=recorded]").first).to_contain_text("Saved.")


def choose(page, name, data):
    body = data if isinstance(data, bytes) else data.encode()
    page.locator("[data-import]").set_input_files({"name": name, "mimeType": "application/json", "buffer": body})


def said(page):
    return page.locator("[data-file-said]")


@pytest.fixture
def begun():
    return book_of(MIXED, POURED, TESTED)


def test_the_books_worked_example_is_shown_without_javascript(new_context, address, jobs):
    page = new_context(java_script_enabled=False).new_page()
    page.goto(f"{address}heap/")
    native = ask({"job": "heap", "inputs": jobs["heap"]["example"]})
    expect(page.locator("h1")).to_have_text(jobs["heap"]["title"])
    rows = page.locator("[data-no-book] .rows tr")
    assert rows.locator("[data-slot=text]").all_text_contents() == [row["text"] for row in native["shown"]]


def test_a_new_book_starts_with_the_mass_of_the_heap(page, address):
    page.goto(f"{address}heap/")
    page.locator("[data-deed=begin]").click()
    page.locator(".kinds [data-record=measured]").click()
    page.locator("#field-heap_kg").fill("25,5")
    page.locator("#field-moisture_pct_wet").fill("3")
    page.locator("[data-form-place] [data-submit]").click()
    saved(page)
    (book,) = page.evaluate(ALL)
    event = dict(book["events"][0])
    assert event["kind"] == "measured"
    assert event["heap_kg"] == {"value": "25,5", "unit": "kg"}
    assert event["moisture_pct_wet"] == {"value": "3", "unit": "%"}
    says(page, book)


def test_recording_a_cast_like_the_last_takes_three_taps_from_home(page, address, begun):
    put(page, address, begun)
    page.goto(address)
    page.locator("[data-heap-way=cast]").click()
    again = page.locator("[data-deed=again]")
    expect(again).to_have_text("Again: coat hooks, 1.5 kg aluminium")
    again.click()
    page.locator("[data-deed=confirm]").click()
    saved(page)
    (book,) = page.evaluate(ALL)
    assert book["events"][:-1] == begun["events"]
    new = book["events"][-1]
    assert {word: new.get(word) for word in ("kind", "metal", "metal_kg", "pattern")} == {
        word: POURED[word] for word in ("kind", "metal", "metal_kg", "pattern")
    }
    assert "sand_lost_kg" not in new, "what was weighed at one cast is not carried to the next"
    assert abs(datetime.fromisoformat(new["at"]).timestamp() - time.time()) < 60
    says(page, book)


def test_one_tap_on_again_records_nothing(page, address, begun):
    put(page, address, begun)
    page.locator("[data-deed=again]").click()
    page.locator("[data-sure] [data-deed=leave]").click()
    expect(page.locator("[data-sure]")).to_be_hidden()
    assert page.evaluate(ALL) == [begun]


def test_the_home_page_shows_the_heap_of_the_book(page, address, begun):
    put(page, address, begun)
    page.goto(address)
    card = page.locator("[data-heap]")
    expect(page.locator("[data-first-timer]")).to_be_hidden()
    expect(card.locator("[data-heap-name]")).to_have_value("The heap")
    native = heap_of(begun)
    expect(card.locator("[data-slot=state]")).to_have_text(native["state"]["word"])
    rows = {row["word"]: row for row in native["shown"]}
    for word in ("heap_kg", "moisture_pct_wet", "clay_pct_dry"):
        row, figure = rows[word], card.locator(f"[data-figure={word}]")
        expect(figure.locator("[data-slot=text]")).to_have_text(row["text"])
        expect(figure.locator("[data-slot=range]")).to_have_text(row["range"])
    expect(card.locator("[data-slot=age]")).to_have_text("tested within the hour")


def test_a_problem_is_shown_at_its_field_and_nothing_is_recorded(page, address, begun):
    put(page, address, begun)
    page.locator("[data-else] summary").click()
    page.locator(".kinds [data-record=poured]").click()
    page.locator("#field-metal_kg").fill("a lot")
    page.locator("[data-form-place] [data-submit]").click()
    native = ask({"job": "record", "inputs": {"book": begun, "event": {"kind": "poured", "at": now(), "metal_kg": "a lot"}}})  # fmt: skip
    expect(page.locator("#problem-metal_kg")).to_be_visible()
    expect(page.locator("[data-saved]")).to_contain_text("Not written.")
    assert native["problems"][0]["word"] == "metal_kg"
    assert page.evaluate(ALL) == [begun]
    page.locator("#field-metal_kg").fill("2 lb")
    page.locator("[data-form-place] [data-submit]").click()
    saved(page)
    assert page.evaluate(ALL)[0]["events"][-1]["metal_kg"] == {"value": "2 lb", "unit": "kg"}


def test_a_half_typed_entry_survives_a_reload_and_an_entry_from_another_page(page, address, begun):
    put(page, address, begun)
    drafts, water, clay = page.locator("[data-drafts]"), page.locator("#field-water_kg"), page.locator("#field-clay_kg")
    page.locator("[data-else] summary").click()
    page.locator(".kinds [data-record=added]").click()
    clay.fill("1,5")
    page.reload()
    expect(clay).to_have_value("1,5")
    page.goto(f"{address}offline/")
    page.goto(f"{address}heap/#kind=tempered&water_kg=400&unit-water_kg=g")
    for _ in range(2):
        expect(water).to_have_value("400")
        expect(drafts).to_contain_text("Clay put in: 1,5 kg")
        page.reload()
    assert page.evaluate(ALL) == [begun]
    page.locator("[data-form-place] [data-submit]").click()
    saved(page)
    assert [event["kind"] for event in page.evaluate(ALL)[0]["events"][3:]] == ["tempered"]
    drafts.locator("[data-go-on]").click()
    expect(clay).to_have_value("1,5")
    expect(drafts).to_be_hidden()
    page.locator("[data-form-place] [data-deed=leave]").click()
    expect(drafts).to_contain_text("Clay put in: 1,5 kg")
    for _ in range(2):
        drafts.locator("[data-drop]").click()
    expect(drafts).to_be_hidden()


def test_entries_are_written_one_after_the_other_and_each_once_even_over_a_reload(page, address, begun):
    put(page, address, begun)
    write_water = """() => { document.querySelector(".kinds [data-record=tempered]").click();
        document.querySelector("#field-water_kg").value = "0.1";
        document.querySelector("[data-form-place] [data-submit]").click(); }"""
    page.reload()
    expect(page.locator("[data-deed=again]")).to_be_visible()
    page.evaluate(write_water)
    page.locator("[data-deed=again]").click()
    page.locator("[data-deed=confirm]").click()
    timeline = page.locator("[data-list=timeline] > li")
    expect(timeline).to_have_count(5)
    expect(page.locator("[data-saved]")).to_contain_text("Saved.")
    expect(page.locator("[data-saved]")).not_to_contain_text("Writing")
    page.evaluate(f"() => {{ ({write_water})(); location.reload(); }}")
    expect(timeline).to_have_count(6)
    expect(page.locator("[data-form-place] form")).to_have_count(0)
    expect(page.locator("[data-drafts]")).to_be_hidden()
    (book,) = page.evaluate(ALL)
    assert [event["kind"] for event in book["events"][3:]] == ["tempered", "poured", "tempered"]


def test_undo_needs_a_second_tap_and_reverses_every_gram(page, address):
    before, whole = book_of(MIXED), book_of(MIXED, POURED)
    put(page, address, whole)
    undo = page.locator("[data-list=timeline] > li").first.locator("[data-undo]")
    undo.click()
    expect(undo).to_have_text("Tap again to undo")
    expect(page.get_by_role("status").filter(has_text="Tap again to undo")).to_have_count(1)
    assert page.evaluate(ALL) == [whole]
    undo.click()
    expect(page.locator("[data-undone-said]")).to_contain_text("Saved.")
    expect(page.locator("[data-list=timeline] > li")).to_have_count(3)
    expect(page.locator("[data-list=timeline] > li").nth(1).locator("[data-undone]")).to_be_visible()
    for word in ("heap_kg", "moisture_pct_wet", "clay_pct_dry"):
        figure = page.locator(f"[data-heap] [data-figure={word}] [data-slot=text]")
        expect(figure).to_have_text(text_of(before, word))
    (book,) = page.evaluate(ALL)
    assert book["events"][:2] == whole["events"], "what was written stays written"
    assert (book["events"][2]["kind"], book["events"][2]["of"]) == ("undone", whole["events"][1]["id"])


def test_a_correction_is_a_separate_event(page, address, begun):
    put(page, address, begun)
    page.locator("[data-list=timeline] > li").nth(1).locator("[data-right]").click()
    expect(page.locator("#field-pattern")).to_have_value("coat hooks")
    page.locator("#field-metal_kg").fill("1.4")
    page.locator("#field-sand_lost_kg").fill("")
    page.locator("[data-form-place] [data-submit]").click()
    saved(page)
    (book,) = page.evaluate(ALL)
    assert book["events"][:3] == begun["events"]
    new = book["events"][3]
    assert (new["kind"], new["of"], new["metal_kg"]) == (
        "corrected",
        begun["events"][1]["id"],
        {"value": "1.4", "unit": "kg"},
    )
    assert new["sand_lost_kg"] == "", "what was emptied counts no longer"
    expect(page.locator("[data-deed=again]")).to_have_text("Again: coat hooks, 1.4 kg aluminium")


def test_the_timeline_is_newest_first_and_can_be_narrowed(page, address, begun):
    put(page, address, begun)
    labels = [entry["label"] for entry in heap_of(begun)["timeline"]]
    shown = page.locator("[data-list=timeline] [data-slot=label]")
    expect(shown).to_have_text(labels[::-1])
    page.locator("[data-filter] .chip:has(input[value=poured])").click()
    expect(shown).to_have_text([labels[1]])
    page.locator("[data-filter] .chip").first.click()
    expect(shown).to_have_text(labels[::-1])


def test_two_open_pages_agree_and_keep_both_their_events(new_context, address, begun):
    context = new_context()
    one, two = context.new_page(), context.new_page()
    put(one, address, begun)
    two.goto(f"{address}heap/")
    says(two, begun)
    for page in (one, two):
        page.locator("[data-deed=again]").click()
    for page in (one, two):
        page.evaluate("() => document.querySelector('[data-deed=confirm]').click()")
    for page in (one, two):
        saved(page)
    (book,) = one.evaluate(ALL)
    assert [event["kind"] for event in book["events"]] == ["mixed", "poured", "measured", "poured", "poured"]
    assert len({event["id"] for event in book["events"]}) == 5
    for page in (one, two):
        says(page, book)


def test_an_event_does_not_overwrite_one_from_another_page(page, address, begun):
    put(page, address, begun)
    told = page.evaluate(
        f"""async (event) => {{ {BOOKS} const {{ key }} = await shelf.inUse();
        return [await shelf.append(key, 2, event), await shelf.append(key, 4, event), await shelf.events(key)]; }}""",
        {"id": "x"},
    )
    assert told == [False, False, begun["events"]]


def test_heaps_can_be_added_renamed_and_switched(page, address, begun):
    put(page, address, begun)
    page.locator("[data-heaps] summary").click()
    page.locator("#name-rename").fill("Old sand")
    page.locator("[data-deed=rename]").click()
    expect(page.locator("[data-which] option:checked")).to_have_text("Old sand")
    says(page, begun | {"name": "Old sand"})
    page.locator("#name-rename").fill("Facing sand")
    page.locator("[data-deed=another]").click()
    expect(page.locator("[data-which] option:checked")).to_have_text("Facing sand")
    expect(page.locator("[data-timeline]")).to_be_hidden()
    page.locator("[data-which]").select_option(label="Old sand")
    says(page, begun)
    assert [(book["name"], len(book["events"])) for book in page.evaluate(ALL)] == [("Facing sand", 0), ("Old sand", 3)]


def test_an_exported_book_is_the_same_after_import_on_another_phone(page, new_context, address, begun, tmp_path):
    second = book_of(MIXED, name="Facing, “fine”")
    put(page, address, begun, second)
    with page.expect_download() as waited:
        page.locator("[data-deed=export]").click()
    file = tmp_path / "books.json"
    waited.value.save_as(file)
    assert waited.value.suggested_filename == f"sandmix-books-{datetime.now().astimezone():%Y-%m-%d}.json"
    expect(page.locator("[data-export-words]")).to_have_text("Last exported today; nothing new since.")
    other = new_context().new_page()
    other.goto(f"{address}heap/")
    choose(other, file.name, file.read_bytes())
    expect(said(other)).to_contain_text("Taken over:")
    assert other.evaluate(ALL) == page.evaluate(ALL)
    choose(other, file.name, file.read_bytes())
    expect(said(other)).to_have_text("Everything in the file is here already.")
    assert other.evaluate(ALL) == page.evaluate(ALL)


@pytest.mark.parametrize("version", [0, 1])
def test_a_file_of_an_older_version_is_stored_in_the_current_version(version, page, address):
    old = [{"at": "2026-05-02", **MIXED}, {"at": "2026-05-03", **TESTED}]
    page.goto(f"{address}heap/")
    page.locator("html[data-engine=ready]").wait_for(state="attached")
    choose(
        page,
        "old.json",
        json.dumps([old, {"format": "sandmix book", "version": 1, "name": "Old", "events": old}][version]),
    )
    expect(said(page)).to_contain_text("Taken over:")
    native = ask({"job": "read_book", "inputs": {"book": old}})["book"]["events"]
    (book,) = page.evaluate(ALL)
    assert book["version"] == VERSION
    assert [event["outcome"]["change"] for event in book["events"]] == [event["outcome"]["change"] for event in native]
    assert [event["id"] for event in book["events"]] == ["e1", "e2"]


def test_the_csv_holds_every_event_and_every_kilogram(page, address, tmp_path):
    whole = book_of(MIXED, POURED | {"note": '=1+1, "and" more'})
    put(page, address, whole)
    with page.expect_download() as waited:
        page.locator("[data-deed=csv]").click()
    file = tmp_path / "events.csv"
    waited.value.save_as(file)
    rows = list(csv.DictReader(io.StringIO(file.read_text("utf-8-sig"), newline="")))
    assert [row["at"] for row in rows] == [event["at"] for event in whole["events"]]
    assert rows[1]["metal_kg"] == "1.5 kg"
    assert rows[1]["note"] == "'" + whole["events"][1]["note"], "no cell is a formula"
    for part in ("grain_kg", "water_kg", "live_clay_kg"):
        kept = [event["outcome"]["change"].get(part, 0) for event in whole["events"]]
        assert [float(row[f"outcome.change.{part}"] or 0) for row in rows] == pytest.approx(kept, abs=1e-12)


def refused_files():
    good = book_of(MIXED, POURED)
    text = json.dumps(good)
    minus = json.loads(text)
    minus["events"][0]["outcome"]["change"]["grain_kg"] = -99
    cut = json.loads(text)
    cut["events"][1]["outcome"] = {"change": {"<img src=x onerror=alert(1)>": 1}}
    mixed = {"format": "sandmix books", "version": 1, "books": [good | {"name": "New"}, minus]}
    return {
        "empty": b"",
        "with an empty list": "[]",
        "with no entry": json.dumps(book_of(name="New")),
        "damaged": text[: len(text) // 2],
        "no JSON": "<html><script>alert(1)</script></html>",
        "not text": b"\x00\xff\xfe\x01" * 100,
        "foreign": json.dumps({"type": "FeatureCollection", "features": []}),
        "of another format": json.dumps(good | {"format": "another book"}),
        "of a later version": json.dumps(good | {"version": 99}),
        "of a later version, whole": json.dumps({"format": "sandmix books", "version": 99, "books": [good]}),
        "with nothing in it": json.dumps({"format": "sandmix books", "version": 1, "books": []}),
        "with less than nothing": json.dumps(minus),
        "with a foreign part": json.dumps(cut),
        "one good and one bad": json.dumps(mixed),
        "nested without end": "[" * 100_000,
        "with a prototype": '{"__proto__": {"events": []}, "format": "sandmix book", "version": 1, "events": [{"__proto__": 1}]}',
        "a number": "7",
    }


def test_a_file_that_is_not_a_book_is_refused_and_changes_nothing(page, address, begun):
    put(page, address, begun)
    for what, data in refused_files().items():
        page.evaluate("() => { document.querySelector('[data-file-said]').textContent = ''; }")
        choose(page, "some.json", data)
        expect(said(page), what).to_contain_text("Nothing was taken over. ")
        assert len(said(page).text_content().removeprefix("Nothing was taken over. ")) > 20, what
        assert page.evaluate(ALL) == [begun], what
    says(page, begun)


def test_a_file_above_20_mb_is_not_read(page, address, begun):
    put(page, address, begun)
    page.evaluate("() => { File.prototype.text = () => { throw new Error('read'); }; }")
    page.evaluate(
        """() => { const held = new DataTransfer(); held.items.add(new File([new Uint8Array(20_000_001)], "some.json"));
        const input = document.querySelector("[data-import]"); input.files = held.files; input.dispatchEvent(new Event("change")); }"""
    )
    expect(said(page)).to_contain_text("at most 20 MB are read")
    assert page.evaluate(ALL) == [begun]


def test_importing_a_book_with_an_existing_name_asks_what_to_do_and_keeps_what_it_replaces(page, address, begun):
    other = book_of(MIXED | {"make_kg": "12 kg"})
    put(page, address, begun)
    asking, kept = page.locator("[data-asking]"), page.locator("[data-replaced]")

    def choose_and(wish, button, told):
        choose(page, "other.json", json.dumps(other))
        expect(asking).to_contain_text("“The heap” is here already")
        expect(asking).to_contain_text("Here: 3 entries, the newest from ")
        expect(asking).to_contain_text("In the file: 1 entry, the newest from ")
        assert page.evaluate(ALL) == [begun]
        if wish == "replace":
            asking.locator(".chip:has(input[value=replace])").click()
        asking.get_by_role("button", name=button).click()
        expect(said(page)).to_contain_text(told)
        expect(asking).to_be_hidden()

    choose_and("leave", "Leave it", "Nothing was taken over.")
    assert page.evaluate(ALL) == [begun]
    expect(kept).to_be_hidden()
    choose_and("replace", "Take them over", "Taken over:")
    assert page.evaluate(ALL) == [other]
    expect(kept).to_contain_text("Kept: what “The heap” held before (3 entries, the newest from ")
    kept.locator("[data-bring-back]").click()
    expect(kept).to_contain_text("Kept: what “The heap” held before (1 entry, the newest from ")
    assert page.evaluate(ALL) == [begun]
    says(page, begun)
    kept.locator("[data-drop]").click()
    kept.locator("[data-drop]").click()
    expect(kept).to_be_hidden()
    choose_and("both", "Take them over", "Taken over:")
    assert page.evaluate(ALL) == [begun, other | {"name": "The heap (2)"}]
    expect(kept).to_be_hidden()


@pytest.mark.full
def test_ten_entries_without_an_export_bring_a_reminder(page, address):
    water = {"kind": "tempered", "water_kg": "0.1 kg"}
    put(page, address, book_of(MIXED, *[water] * 8))
    reminder = page.locator("[data-reminder]")
    expect(page.locator("[data-export-words]")).to_have_text("Not exported yet.")
    expect(reminder).to_be_hidden()
    page.locator("[data-else] summary").click()
    page.locator(".kinds [data-record=tempered]").click()
    page.locator("#field-water_kg").fill("0.1")
    page.locator("[data-form-place] [data-submit]").click()
    saved(page)
    expect(reminder).to_contain_text("10 entries are in no exported file yet.")
    expect(page.locator("[data-list=timeline] > li")).to_have_count(10)
    undo = page.locator("[data-undo]").first
    undo.click()
    undo.click()
    expect(reminder).to_contain_text("11 entries are in no exported file yet.")
    expect(page.locator("[data-list=timeline] > li")).to_have_count(11)
    expect(page.locator("[data-undone-said]")).to_contain_text("Saved.")
    with page.expect_download():
        reminder.get_by_role("button", name="Export now").click()
    expect(reminder).to_be_hidden()


def test_an_answer_between_the_two_taps_of_an_undo_changes_nothing(page, address, begun):
    put(page, address, begun)
    page.goto(f"{address}heap/")
    undo = page.locator("[data-undo]").first
    undo.click()
    page.evaluate("() => new BroadcastChannel('sandmix.books').postMessage('changed')")
    page.wait_for_timeout(500)
    expect(undo).to_have_text("Tap again to undo")
    undo.click()
    expect(page.locator("[data-undone-said]")).to_contain_text("Saved.")


def test_a_month_without_an_export_brings_a_reminder(page, address, begun):
    put(page, address, begun)
    page.locator("[data-deed=again]").click()
    page.locator("[data-deed=confirm]").click()
    saved(page)
    expect(page.locator("[data-reminder]")).to_be_hidden()
    page.clock.set_fixed_time(time.time() + 30 * 86_400 + 60)
    page.reload()
    expect(page.locator("[data-reminder]")).to_contain_text("4 entries are in no exported file yet.")


def test_without_a_database_the_page_says_so_and_the_book_works_until_it_is_closed(new_context, address):
    context = new_context()
    context.add_init_script(
        "IDBFactory.prototype.open = () => { throw new DOMException('refused', 'SecurityError'); };"
    )
    page = context.new_page()
    page.goto(f"{address}heap/")
    expect(page.locator("[data-kept-words]")).to_contain_text("The books can't be kept now")
    page.locator("[data-deed=begin]").click()
    page.locator(".kinds [data-record=measured]").click()
    page.locator("#field-heap_kg").fill("25")
    page.locator("[data-form-place] [data-submit]").click()
    expect(page.locator("[data-saved]")).to_contain_text("Held until this page is closed.")
    expect(page.locator("[data-saved]")).not_to_contain_text("Saved")
    expect(page.locator("[data-list=timeline] > li")).to_have_count(1)


def test_an_entry_that_could_not_be_written_is_not_shown_as_saved(new_context, address, begun):
    context = new_context()
    context.add_init_script(
        """const plain = IDBObjectStore.prototype.add; globalThis.full = false;
        IDBObjectStore.prototype.add = function (...words) {
            const asked = plain.apply(this, words); if (globalThis.full) this.transaction.abort(); return asked; };"""
    )
    page = context.new_page()
    put(page, address, begun)
    page.evaluate("() => { globalThis.full = true; }")
    page.locator("[data-deed=again]").click()
    page.locator("[data-deed=confirm]").click()
    expect(page.locator("[data-saved]")).to_contain_text("Not written")
    assert page.evaluate(ALL) == [begun]


@pytest.mark.parametrize(("promised", "words"), [(True, "has promised"), (False, "has not promised")])
def test_only_the_first_saved_event_asks_the_browser_to_protect_the_books_and_waits_for_no_reply(
    promised, words, new_context, address
):
    context = new_context()
    context.add_init_script(
        """globalThis.asked = 0; const reply = new Promise((resolve) => { globalThis.reply = resolve; });
        if (globalThis.StorageManager) StorageManager.prototype.persisted = async () => false;
        if (globalThis.StorageManager) StorageManager.prototype.persist = () => { globalThis.asked += 1; return reply; };"""
    )
    page = context.new_page()
    put(page, address, book_of(MIXED, POURED))
    assert page.evaluate("() => asked") == 0
    for count in (3, 4):
        page.locator("[data-deed=again]").click()
        page.locator("[data-deed=confirm]").click()
        saved(page)
        expect(page.locator("[data-list=timeline] > li")).to_have_count(count)
    expect(page.locator("[data-kept-words]")).to_have_text("The books are kept in this browser, on this device.")
    page.evaluate("(promised) => reply(promised)", promised)
    expect(page.locator("[data-kept-words]")).to_contain_text(words)
    assert page.evaluate("() => asked") == 1


def test_a_job_opens_with_the_heaps_figures_and_their_uncertainty(hand, begun):
    put(hand.page, hand.base, begun)
    hand.open("rebond")
    hand.box("target_clay_pct_dry").fill("8")
    native = heap_of(begun)
    for word in ("heap_kg", "moisture_pct_wet", "clay_pct_dry", "dead_fines_pct_dry"):
        expect(hand.box(word)).not_to_have_value("")
        value, half = (float(part) for part in hand.box(word).input_value().split(" ± "))
        low, high = native["doubt"][word]
        assert value == pytest.approx(native["result"][word], abs=half / 10)
        assert half == pytest.approx(max(high - native["result"][word], native["result"][word] - low), rel=0.06)
    assert hand.box("target_clay_pct_dry").input_value() == "8"
    hand.page.locator("[data-answer][data-whose=mine]").wait_for(state="attached")


@pytest.mark.parametrize("job", ["shopping", "mix"])
def test_a_job_about_new_sand_takes_no_figures_from_the_heap(job, hand, begun):
    put(hand.page, hand.base, begun)
    hand.open(job)
    hand.page.locator(".book-tools").first.wait_for(state="attached")
    expect(hand.page.locator("[data-take-heap], [data-carried-line]:visible")).to_have_count(0)


def test_without_a_book_a_job_offers_nothing_from_one(hand):
    hand.open("temper")
    expect(hand.page.locator("[data-take-heap], [data-write]")).to_have_count(0)


def test_the_test_of_temper_and_its_water_are_recorded_in_the_book_as_one_entry(hand, begun, answer):
    put(hand.page, hand.base, begun)
    typed = {"heap_kg": "43.6", "moisture_pct_wet": "2"}
    hand.open("temper").way("moisture", "figure")
    hand.type(typed)
    native = answer("temper", typed)
    hand.reads(native)
    [record] = native["records"]
    button = hand.page.locator("[data-record-now]:visible")
    expect(button).to_have_text(record["label"])
    button.dblclick()
    recorded(hand.page)
    (book,) = hand.page.evaluate(ALL)
    written = book["events"][-1]
    assert (written["kind"], len(book["events"])) == ("measured", len(begun["events"]) + 1)
    assert {word: written[word] for word in record["words"]} == record["words"]


def test_what_was_recorded_is_the_heaps_until_it_is_undone(hand, begun, answer):
    put(hand.page, hand.base, begun)
    typed = {"sample_wet_g": "500", "sample_dry_g": "488"}
    hand.open("temper").type(typed)
    hand.reads(answer("temper", typed | carried(hand.page)))
    hand.page.locator("[data-record-now]").click()
    recorded(hand.page)
    expect(hand.page.locator("[data-field=sample_wet_g] [data-slot=origin]")).to_have_text("In the heap book now")
    hand.page.locator("[data-undo-record]").click()
    expect(hand.page.locator("[data-record-now]")).to_be_visible()
    assert hand.page.evaluate(ALL)[0]["events"][-1]["kind"] == "undone"
    hand.page.reload()
    hand.ready()
    assert hand.box("sample_wet_g").input_value() == "500"
    expect(hand.page.locator("[data-record-now]")).to_contain_text("Record the test")
    hand.page.locator("[data-record-now]").click()
    recorded(hand.page)
    kinds = [event["kind"] for event in hand.page.evaluate(ALL)[0]["events"]]
    assert kinds[-3:] == ["measured", "undone", "measured"]
    hand.page.reload()
    hand.ready()
    assert hand.box("sample_wet_g").input_value() == ""


def test_an_entry_that_was_sent_when_the_page_was_closed_is_written_once(hand, begun):
    put(hand.page, hand.base, begun)
    hand.open("temper").type({"sample_wet_g": "500", "sample_dry_g": "488"})
    button = hand.page.locator("[data-record-now]")
    expect(button).to_contain_text("the test")
    hand.page.evaluate(f"async () => {{ {BOOKS} shelf.record = () => new Promise(() => {{}}); }}")
    button.click()
    expect(hand.page.locator("[data-slot=recorded]")).to_have_text("Writing…")
    hand.page.goto(f"{hand.base}heap/")
    saved(hand.page)
    assert len(hand.page.evaluate(ALL)[0]["events"]) == len(begun["events"]) + 1
    hand.open("temper")
    expect(hand.page.locator("[data-slot=recorded]")).to_have_text("The book has this entry already.")


def test_an_entry_that_the_book_has_already_is_not_offered_as_a_new_one(hand, begun, typed, answer):
    put(hand.page, hand.base, begun)
    hand.open("burnout").type(typed["burnout"])
    hand.page.locator("[data-record-now]").click()
    recorded(hand.page)
    hand.page.reload()
    hand.ready()
    hand.page.locator("[data-record-row]").wait_for(state="attached")
    expect(hand.page.locator("[data-slot=recorded]")).to_have_text("The book has this entry already.")
    expect(hand.page.locator("[data-record-now]")).to_have_text("Record it once more")


def test_the_heaps_own_moisture_is_no_test_that_could_be_recorded(hand, begun):
    put(hand.page, hand.base, begun)
    hand.open("temper").way("moisture", "figure")
    expect(hand.page.locator("[data-not-written]")).to_be_visible()
    expect(hand.page.locator("[data-record-row]")).to_have_count(0)


def test_mixing_the_first_sand_starts_the_book(hand, typed):
    hand.open("mix").type(typed["mix"])
    button = hand.page.locator("[data-record-now]")
    expect(button).to_have_text("Mixed: record the new sand")
    button.click()
    recorded(hand.page)
    (book,) = hand.page.evaluate(ALL)
    assert [event["kind"] for event in book["events"]] == ["mixed"]


@pytest.mark.parametrize(
    ("events", "way"),
    [((MIXED,), "test"), ((MIXED, TESTED), "test"), ((MIXED, {**TESTED, "moisture_pct_wet": "3.4 %"}), "cast")],
)
def test_the_main_button_of_home_leads_to_what_the_heap_needs(events, way, page, address):
    put(page, address, book_of(*events))
    page.goto(address)
    expect(page.locator("[data-heap-way]:not(.quiet)")).to_have_attribute("data-heap-way", way)


def test_again_shows_exactly_what_it_writes(page, address):
    last = {**POURED, "sand_lost_kg": "2.5 kg", "flask_sand_kg": "20 kg", "opened_after_min": "40 min"}
    put(page, address, book_of(MIXED, last))
    page.locator("[data-deed=again]").click()
    shown = page.locator("[data-sure] [data-list=again-words] li")
    expect(shown).to_have_text(
        [
            "Metal: aluminium, pure or scrap",
            "Metal poured: 1.5 kg",
            "Pattern: coat hooks",
            "Sand in the flask: 20 kg",
        ]
    )
    page.locator("[data-deed=confirm]").click()
    saved(page)
    (book,) = page.evaluate(ALL)
    words = {word: book["events"][-1][word] for word in ("metal", "metal_kg", "pattern", "flask_sand_kg")}
    assert words == {"metal": "aluminium", "metal_kg": "1.5 kg", "pattern": "coat hooks", "flask_sand_kg": "20 kg"}
    assert not {"sand_lost_kg", "opened_after_min"} & set(book["events"][-1])


@pytest.mark.parametrize(
    ("job", "more", "kinds"),
    [("mix", {}, {"mixed"}), ("rebond", {"bin_kg": "40"}, {"added", "discarded"}), ("burnout", {}, {"poured"})],
)
def test_an_answer_opens_the_form_of_its_event_with_its_figures(job, more, kinds, hand, begun, typed, answer):
    put(hand.page, hand.base, begun)
    hand.open(job)
    expect(hand.page.locator("[data-write]:visible")).to_have_count(0)
    given = typed[job] | more
    hand.type(given)
    hand.reads(answer(job, given | carried(hand.page) if job == "burnout" else given))
    doors = hand.page.locator("[data-write]:visible")
    expect(doors).to_have_count(len(kinds))
    assert {door.get_attribute("data-write") for door in doors.all()} == kinds
    doors.first.locator("[data-change]").click()
    expect(hand.page.locator("[data-form-place] form")).to_have_attribute("data-event", sorted(kinds)[0])
    assert "#" not in hand.page.url


def test_the_metal_of_a_cast_is_filled_in_from_its_volume(hand, begun, typed, answer):
    put(hand.page, hand.base, begun)
    hand.open("burnout").type(typed["burnout"])
    native = answer("burnout", typed["burnout"] | carried(hand.page))
    hand.reads(native)
    hand.page.locator("[data-write=poured] [data-change]").click()
    metal = next(row["text"] for row in native["shown"] if row["word"] == "metal_kg")
    box = hand.page.locator("#field-metal_kg")
    expect(box).not_to_have_value("")
    assert metal.startswith(box.input_value())


@pytest.mark.full
def test_a_blend_is_recorded_lot_by_lot(hand, begun, answer):
    put(hand.page, hand.base, begun)
    lots = [{"kg": "30", "moisture_pct_wet": "2.5", "clay_pct_dry": "6"}, {"kg": "10"}]
    typed = {"lots": json.dumps(lots), "target_clay_pct_dry": "8", "target_moisture_pct_wet": "3.5"}
    native = answer("blend", typed)
    hand.open("blend")
    expect(hand.page.locator("[data-write]")).to_have_count(0)
    hand.type(typed)
    expect(hand.page.locator("[data-record-now]")).to_have_text([record["label"] for record in native["records"]])
    hand.page.locator("[data-change]").nth(1).click()
    expect(hand.page.locator("[data-form-place] form")).to_have_attribute("data-event", "joined")
    told = native["records"][1]["words"]["joined_kg"]
    box = hand.page.locator("#field-joined_kg")
    expect(box).not_to_have_value("")
    assert told.startswith(box.input_value())
    hand.ready()
    hand.page.locator("[data-form-place] [data-submit]").click()
    saved(hand.page)
    (book,) = hand.page.evaluate(ALL)
    figure, _, unit = told.rpartition(" ")
    assert (book["events"][-1]["kind"], book["events"][-1]["joined_kg"]) == (
        "joined",
        {"value": figure, "unit": unit},
    )


def test_an_event_can_be_recorded_without_network_and_server(own_copy, new_context, begun):
    _, server, address = own_copy
    context = new_context(keeps=True)
    page = context.new_page()
    put(page, address, begun)
    page.locator("[data-offline-mark][data-offline=ready]").wait_for(state="attached", timeout=60_000)
    server.shutdown()
    server.server_close()
    context.set_offline(True)
    page.reload()
    says(page, begun)
    page.locator("[data-deed=again]").click()
    page.locator("[data-deed=confirm]").click()
    saved(page)
    says(page, page.evaluate(ALL)[0])


def test_a_full_book_fits_every_screen_and_gloved_fingers_with_enough_contrast(page, address, begun):
    page.emulate_media(reduced_motion="reduce")
    put(page, address, begun)
    page.locator("[data-deed=again]").click()
    page.evaluate("() => { for (const more of document.querySelectorAll('details')) more.open = true; }")
    for width in (320, 390, 1280):
        page.set_viewport_size({"width": width, "height": 844})
        assert page.evaluate("() => document.documentElement.scrollWidth - innerWidth") <= 0, width
        if width < 1280:
            assert page.evaluate(SMALL_TARGETS) == [], width
    for look in LOOKS:
        page.evaluate("(look) => { document.documentElement.dataset.look = look; }", look)
        assert page.evaluate(FAINT_TEXTS) == [], look


def test_a_full_book_does_not_scroll_sideways_with_text_at_200_percent(page, address, begun):
    page.set_viewport_size({"width": 320, "height": 844})
    session = page.context.new_cdp_session(page)
    session.send("Page.enable")
    session.send("Page.setFontSizes", {"fontSizes": {"standard": 32, "fixed": 32}})
    put(page, address, begun)
    page.locator("[data-deed=again]").click()
    page.evaluate("() => { for (const more of document.querySelectorAll('details')) more.open = true; }")
    assert page.evaluate("() => parseFloat(getComputedStyle(document.documentElement).fontSize)") == 40
    assert page.evaluate("() => document.documentElement.scrollWidth - innerWidth") <= 0


def test_an_entry_shown_as_saved_survives_an_immediate_kill(address, tmp_path, chromiums, chromium_path):
    with kills.browser_on(tmp_path, chromium_path, chromiums) as (page, running):
        put(page, address, book_of(MIXED, POURED))
        page.locator("[data-deed=again]").click()
        page.locator("[data-deed=confirm]").click()
        saved(page)
        kills.kill(running)
    with kills.browser_on(tmp_path, chromium_path, chromiums) as (page, _):
        page.goto(f"{address}heap/")
        (book,) = page.evaluate(ALL)
        assert [event["kind"] for event in book["events"]] == ["mixed", "poured", "poured"]


@pytest.mark.full
def test_kills_at_random_moments_lose_no_entry_shown_as_saved(address, tmp_path, chromiums, chromium_path):
    outcome = kills.trial(address, tmp_path, chromium_path, chromiums, kills=10, seed=20260502)
    assert outcome.kills == 10
    assert outcome.shown > 10
    assert (outcome.lost, outcome.gaps) == ([], 0), str(outcome)
