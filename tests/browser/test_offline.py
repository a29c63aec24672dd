"""The page without a network: it is stored, changes only when a person agrees, and explains itself when it is damaged."""

from __future__ import annotations

import re
import shutil

import pytest
from effort import only_long
from playwright.sync_api import expect

import offline
from server import Folder

TEMPER = {"heap_kg": "55,5", "sample_wet_g": "500", "sample_dry_g": "488,5"}
FLASK = {"flask_length_mm": "12 in", "flask_width_mm": "250", "drag_depth_mm": "87,5", "heap_kg": "19"}


FILES = "async () => { const [name] = await caches.keys(); return (await (await caches.open(name)).keys()).length; }"
PAGES = {"", "temper", "heap"}
OLD, NEW = "Start with two bags", "Start with three bags"


def kept(page):
    page.locator("[data-offline-mark][data-offline=ready]").wait_for(state="attached", timeout=60_000)
    expect(page.locator("[data-offline-words]")).to_have_text("ready offline")


@pytest.fixture
def still_copy(built, tmp_path, serve_folder):
    """Three pages and the list of words in a folder that a test may change, without the calculator, so that they are kept at once."""
    folder = tmp_path / "site"
    skipped = {path.name for path in built.iterdir() if path.is_dir()} - PAGES - {"app", "assets", "search", "words"}
    shutil.copytree(built, folder, ignore=lambda where, names: skipped & set(names) if where == str(built) else [])
    (folder / "app" / "worker.js").write_text('self.postMessage({ trouble: "left out here." });', "utf-8")
    offline.write(folder)
    return folder, f"http://127.0.0.1:{serve_folder(folder).server_port}/"


def build_anew(folder):
    """Another version of the site, with other words on its first page."""
    home = folder / "index.html"
    home.write_text(home.read_text("utf-8").replace(OLD, NEW), "utf-8")
    offline.write(folder)


def bar(page):
    return page.locator("[data-new-version]")


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
    hand.page.locator("[data-opens=search]").click()
    hand.page.locator(".md-search__input").press_sequentially("riser")
    expect(hand.page.locator(".md-search-result__link mark").first).to_be_visible()


def test_a_new_version_waits_until_it_is_tapped(own_copy, new_context):
    folder, _, address = own_copy
    page = new_context(keeps=True).new_page()
    page.goto(address)
    kept(page)
    expect(bar(page)).to_be_hidden()
    build_anew(folder)
    heading = page.locator("[data-first-timer] h2")
    for _ in range(2):
        page.reload()
        expect(bar(page)).to_contain_text("A new version is ready.", timeout=60_000)
        expect(heading).to_have_text(OLD)
    bar(page).get_by_text("Use it now").click()
    expect(heading).to_have_text(NEW)
    expect(bar(page)).to_be_hidden()
    kept(page)


@pytest.mark.full
def test_an_update_taken_on_one_page_frees_the_others_and_nothing_half_typed_is_lost(still_copy, new_context, hand_on):
    folder, address = still_copy
    context = new_context(keeps=True)
    first = context.new_page()
    first.goto(address)
    kept(first)
    form = hand_on(context.new_page(), address).open("temper", ready=False).type({"heap_kg": "31,5"})
    book = hand_on(context.new_page(), address).open("heap", ready=False).page
    book.get_by_text("Start the book").click()
    book.locator(".kinds [data-record=tempered]").click()
    book.locator("[data-form-place] [data-input]").first.fill("12,5")
    build_anew(folder)
    first.reload()
    for page in (form.page, book):
        expect(bar(page)).to_contain_text("A new version is ready.", timeout=60_000)
    bar(first).get_by_text("Use it now").click()
    expect(first.locator("[data-first-timer] h2")).to_have_text(NEW, timeout=60_000)
    for page in (form.page, book):
        expect(bar(page)).to_contain_text("A new version is in use now.")
        bar(page).get_by_text("Load this page again").click()
        expect(bar(page)).to_be_hidden()
    expect(form.box("heap_kg")).to_have_value("31,5")
    expect(book.locator("[data-form-place] [data-input]").first).to_have_value("12,5")


def test_a_page_of_an_old_version_that_nobody_sees_or_typed_on_loads_itself_again(still_copy, new_context):
    folder, address = still_copy
    context = new_context(keeps=True)
    other, first = context.new_page(), context.new_page()
    for page in (other, first):
        page.goto(address)
        kept(page)
    other.evaluate("() => Object.defineProperty(document, 'visibilityState', { value: 'hidden' })")
    build_anew(folder)
    first.reload()
    expect(bar(other)).to_be_visible(timeout=60_000)
    with other.expect_navigation():
        bar(first).get_by_text("Use it now").click()
    expect(other.locator("[data-first-timer] h2")).to_have_text(NEW)
    expect(bar(other)).to_be_hidden()


@pytest.mark.breaks
def test_a_cache_that_was_emptied_or_lost_files_mends_itself_with_a_network_and_says_so_without(
    still_copy, new_context
):
    _, address = still_copy
    context = new_context(keeps=True)
    page = context.new_page()
    page.goto(address)
    kept(page)
    whole = page.evaluate(FILES)
    page.evaluate("async () => { for (const name of await caches.keys()) await caches.delete(name); }")
    page.reload()
    kept(page)
    page.wait_for_function(f"async () => await ({FILES})() === {whole}")
    page.evaluate(
        """async () => { const [name] = await caches.keys(); const cache = await caches.open(name);
        for (const { url } of await cache.keys()) if (/card-print|sandmix.webmanifest/.test(url)) await cache.delete(url); }"""
    )
    context.set_offline(True)
    page.reload()
    expect(page.locator("[data-offline-words]")).to_have_text("not kept")
    expect(page.locator("[data-offline-why]")).to_contain_text(f"{whole - 2} of {whole} files are kept on this device.")
    context.set_offline(False)
    kept(page)
    context.set_offline(True)
    page.reload()
    kept(page)


@pytest.mark.breaks
def test_a_page_that_lost_a_script_says_so_and_mends_it(still_copy, new_context):
    _, address = still_copy
    context = new_context(keeps=True)
    page = context.new_page()
    page.goto(f"{address}temper/")
    kept(page)
    page.evaluate(
        """async () => { const [name] = await caches.keys(); const cache = await caches.open(name);
        const { url } = (await cache.keys()).find(({ url }) => url.includes("job-page"));
        await cache.put(url, new Response("broken {", { headers: { "Content-Type": "text/javascript" } })); }"""
    )
    page.reload()
    notice = page.locator("[data-not-started]")
    expect(notice).to_be_visible()
    notice.get_by_text("Load this page again").click()
    page.locator("[data-job][data-listens]").wait_for(state="attached")
    expect(notice).to_be_hidden()


def test_an_installation_that_breaks_off_goes_on_with_what_is_missing(still_copy, new_context):
    folder, address = still_copy
    (missing,) = folder.glob("app/card-print-*.js")
    text = missing.read_text("utf-8")
    missing.unlink()
    context = new_context(keeps=True)
    page = context.new_page()
    page.goto(address)
    words = page.locator("[data-offline-words]")
    expect(words).to_have_text("not kept")
    expect(page.locator("[data-offline-why]")).to_contain_text(
        re.compile(r"\d+ of \d+ files are kept on this device\.")
    )
    missing.write_text(text, "utf-8")
    asked = []
    context.on("request", lambda request: request.service_worker and asked.append(request.url.removeprefix(address)))
    page.evaluate("() => dispatchEvent(new Event('online'))")
    kept(page)
    assert [url for url in asked if url != "sw.js"] == [f"app/{missing.name}"]


@pytest.mark.breaks
def test_a_device_without_room_says_so_keeps_nothing_and_has_the_site_once_there_is_room(still_copy, new_context):
    _, address = still_copy
    context = new_context(keeps=True)
    page = context.new_page()
    origin = address.rstrip("/")
    quota = context.new_cdp_session(page)
    quota.send("Storage.overrideQuotaForOrigin", {"origin": origin, "quotaSize": 300_000})
    page.goto(address)
    expect(page.locator("[data-offline-why]")).to_contain_text("This device has no room for the site.", timeout=60_000)
    expect(page.locator("[data-offline-words]")).to_have_text("not kept")
    assert page.evaluate("() => caches.keys()") == []
    quota.send("Storage.overrideQuotaForOrigin", {"origin": origin})
    page.reload()
    kept(page)


@pytest.mark.breaks
@pytest.mark.parametrize(
    ("file", "how"),
    [
        pytest.param("main.js", "lost", marks=pytest.mark.full),
        ("job-page-*.js", "cut off"),
        pytest.param("main.js", "cut off", marks=pytest.mark.full),
        pytest.param("job-page-*.js", "lost", marks=pytest.mark.full),
    ],
)
def test_a_script_that_does_not_arrive_whole_is_reported_at_the_form(file, how, still_context, address, built):
    context = still_context()
    (whole,) = built.glob(f"app/{file}")
    half = whole.read_text("utf-8")[:-20]
    context.route(
        f"**/app/{file}",
        lambda route: route.abort() if how == "lost" else route.fulfill(content_type="text/javascript", body=half),
    )
    page = context.new_page()
    page.goto(f"{address}temper/")
    notice = page.locator("[data-not-started]")
    expect(notice).to_be_visible()
    expect(notice).to_contain_text("What you typed is kept.")
    assert notice.bounding_box()["y"] < page.locator("[data-form]").bounding_box()["y"]
    context.unroute(f"**/app/{file}")
    notice.get_by_text("Load this page again").click()
    page.locator("[data-job][data-listens]").wait_for(state="attached")
    expect(notice).to_be_hidden()


def test_a_form_whose_script_never_comes_says_so_after_a_while(still_context, address):
    context = still_context()
    context.route(re.compile(r"/app/(starting|main)\.js$"), lambda _: None)
    page = context.new_page()
    page.goto(f"{address}temper/", wait_until="commit")
    page.locator("[data-form]").wait_for(state="attached")
    notice = page.locator("[data-not-started]")
    expect(notice).to_be_hidden()
    page.evaluate("() => document.getAnimations().forEach((each) => each.finish())")
    expect(notice).to_be_visible()
    expect(notice).to_contain_text("its script has not arrived")


@pytest.mark.breaks
@pytest.mark.parametrize(
    "file", ["py/*/library.bin", pytest.param("py/*/interpreter.bin", marks=pytest.mark.full), "app/worker.js"]
)
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
        globalThis.Worker = class extends Plain { constructor(...words) {
            super(...words); if (String(words[0]).endsWith("/app/worker.js")) made.push(this); } };"""
    )
    hand = hand_on(context.new_page(), address).open("temper").type(TEMPER)
    hand.reads(answer("temper", TEMPER))
    hand.page.evaluate("() => made[0].dispatchEvent(new ErrorEvent('error', { message: 'killed' }))")
    hand.ready()
    more = TEMPER | {"heap_kg": "31 kg"}
    hand.type(more).reads(answer("temper", more))
    assert hand.page.evaluate("() => made.length") == 2


DAMAGED = """() => { for (const [name, value] of Object.entries({
    "job.temper": { typed: 5 }, "last.temper": 3, words: { heap_kg: null }, heap: [1], "answer.temper": "x", "ticks.temper": 7,
    "clock.temper": { timers: 3 }, "draft.a": { write: "a" }, "draft.b": { write: "b", kind: "unheard_of", at: 1, words: "" },
    start: "x", "casting.k1": { format: "sandmix casting", name: 5 }, "casting-in-use": "k1", "sheet.k1": { at: 1 }, look: 9,
  })) localStorage.setItem(`sandmix.${name}`, JSON.stringify(value));
  localStorage.setItem("sandmix.tried", "{half"); }"""
DAMAGED_BOOKS = """() => new Promise((done) => { const asked = indexedDB.open("sandmix.books", 2);
  asked.onsuccess = () => { const db = asked.result;
    const all = db.transaction(["books", "events", "facts", "patterns"], "readwrite");
    all.objectStore("books").put({ key: "k1" });
    all.objectStore("events").put(null, ["k1", 0]);
    all.objectStore("facts").put("k1", "in use");
    all.objectStore("facts").put({ key: "k1", events: 1, at: Date.now(), answer: { lead: 5 } }, "answer");
    for (const name of ["exported", "since", "promised", "replaced"]) all.objectStore("facts").put("damaged", name);
    all.objectStore("patterns").put({ name: "hook" });
    all.oncomplete = () => { db.close(); done(); }; }; })"""


def test_damaged_entries_of_the_page_s_own_storage_are_set_aside_and_the_page_says_so(still_context, address):
    page = still_context().new_page()
    page.goto(f"{address}heap/")
    for name, live, again in (
        ("", "[data-start] [data-live]", "[data-start] [data-live]"),
        ("temper/", "[data-listens]", "[data-listens]"),
        ("heap/", "[data-no-book]", "[data-open-book]:not([hidden])"),
    ):
        page.evaluate(DAMAGED)
        page.goto(address + name)
        page.locator(live).first.wait_for(state="attached")
        if name == "heap/":
            page.get_by_text("Start the book").click()
        expect(page.locator("[data-not-started]")).to_be_hidden()
        expect(page.locator("[data-storage-notice]")).to_contain_text(
            "What this page had kept was damaged, and was set aside: "
        )
        page.reload()
        page.locator(again).first.wait_for(state="attached")
        expect(page.locator("[data-storage-notice]")).to_be_hidden()


def test_damaged_rows_of_the_database_break_no_page(still_context, address):
    page = still_context().new_page()
    page.goto(f"{address}heap/")
    page.locator("[data-no-book]:not([data-waiting])").wait_for()
    page.evaluate(DAMAGED_BOOKS)
    page.goto(address)
    expect(page.locator("[data-heap-name]")).to_have_value("The heap")
    page.goto(f"{address}heap/")
    expect(page.locator("[data-which] option")).to_have_text("The heap")
    expect(page.locator("[data-kept-words]")).not_to_be_empty()
    page.goto(f"{address}flask/")
    page.locator("[data-listens]").wait_for(state="attached")
    page.wait_for_timeout(500)


@pytest.mark.breaks
def test_a_browser_that_refuses_its_storage_says_so_at_the_top_and_the_page_works(still_context, hand_on, address):
    context = still_context()
    context.add_init_script(
        """for (const name of ["localStorage", "sessionStorage", "indexedDB"]) Object.defineProperty(globalThis, name, {
          get() { throw new DOMException("The operation is insecure.", "SecurityError"); } });"""
    )
    hand = hand_on(context.new_page(), address).open("temper", ready=False).type({"heap_kg": "25"})
    notice = hand.page.locator("[data-storage-notice]")
    expect(notice).to_contain_text("This browser does not store what you type")
    expect(notice).to_contain_text("This browser refuses to keep heap books and patterns.")
    expect(hand.box("heap_kg")).to_have_value("25")
    hand.open("heap", ready=False)
    expect(notice).to_contain_text("This browser refuses to keep heap books and patterns.")
    expect(hand.page.get_by_text("Start the book")).to_be_visible()


def test_a_database_that_never_answers_is_told_and_waited_for_no_longer(still_context, address):
    context = still_context()
    context.add_init_script(
        """const open = IDBFactory.prototype.open; globalThis.late = [];
        IDBFactory.prototype.open = function (...words) {
          const asked = open.apply(this, words);
          const listen = asked.addEventListener.bind(asked);
          asked.addEventListener = (kind, heard) =>
            listen(kind, kind === "success" ? (event) => late.push(() => heard.call(asked, event)) : heard);
          return asked; };"""
    )
    page = context.new_page()
    page.clock.install()
    page.goto(f"{address}heap/")
    page.wait_for_function("() => late.length")
    notice = page.locator("[data-storage-notice]")
    page.clock.run_for(3_100)
    expect(notice).to_contain_text("The storage of this browser has not answered yet.")
    page.clock.run_for(7_000)
    expect(notice).to_contain_text("The storage of this browser does not answer")
    expect(page.get_by_text("Start the book")).to_be_visible()
    page.evaluate("() => late.forEach((happen) => happen())")
    expect(notice).to_contain_text("The storage of this browser answers now.")
    expect(notice.get_by_text("Load this page again")).to_be_visible()


def test_a_page_whose_database_a_newer_version_took_over_says_so_and_keeps_the_entry(still_context, hand_on, address):
    page = hand_on(still_context().new_page(), address).open("heap", ready=False).page
    page.get_by_text("Start the book").click()
    page.locator(".kinds [data-record=tempered]").click()
    page.locator("[data-form-place] [data-input]").first.fill("12,5")
    newer = "() => new Promise((done) => { indexedDB.open('sandmix.books', 3).onsuccess = ({ target }) => done(target.result.close()); })"
    page.evaluate(newer)
    notice = page.locator("[data-storage-notice]")
    expect(notice).to_contain_text("A newer version of this site has taken over the heap books.")
    notice.get_by_text("Load this page again").click()
    expect(notice).to_contain_text("The heap books here are of a newer version of this site.")


def test_a_page_over_plain_http_works_online_and_says_that_it_is_not_kept(
    chromiums, chromium_path, address, hand_on, answer
):
    words = ["--no-sandbox", "--disable-gpu", "--host-resolver-rules=MAP * 127.0.0.1"]
    browser = chromiums.launch(executable_path=chromium_path, args=words)
    page = browser.new_page()
    page.set_default_timeout(60_000)
    hand = hand_on(page, address.replace("127.0.0.1", "sand.test")).open("temper").type(TEMPER)
    assert not page.evaluate("isSecureContext")
    hand.reads(answer("temper", TEMPER))
    expect(page.locator("[data-offline-words]")).to_have_text("online only")
    expect(page.locator("[data-offline-why]")).to_contain_text("This page came over plain http.")
    browser.close()


KEPT_BY_A_WRONG_CLOCK = """(years) => { const at = Date.now() + years * 366 * 864e5;
  const typed = { texts: { heap_kg: "25" }, units: { heap_kg: "kg" }, ways: {}, at: { heap_kg: at } };
  for (const [name, value] of Object.entries({
    heap: { figures: { heap_kg: { text: "25 kg", range: "" } }, tested: at, state: { word: "go", tone: "go" } },
    "clock.temper": { start: at, timers: [{ name: "a", label: "Open it", after_s: 60, latest_s: null, text: "" }] },
    "job.temper": { typed, since: at },
  })) localStorage.setItem(`sandmix.${name}`, JSON.stringify(value)); }"""


@pytest.mark.parametrize("years", [1, *only_long(-1)])
def test_what_a_clock_wrong_by_a_year_kept_is_never_taken_for_fresh(years, still_context, address):
    context = still_context()
    page = context.new_page()
    page.goto(f"{address}heap/")
    page.evaluate(KEPT_BY_A_WRONG_CLOCK, years)
    page.goto(address)
    expect(page.locator("[data-heap] [data-slot=state]").first).to_have_text("test it")
    expect(page.locator("[data-door-state=temper]")).to_be_hidden()
    page.goto(f"{address}temper/")
    expect(page.locator("#field-heap_kg")).to_have_value("25")
