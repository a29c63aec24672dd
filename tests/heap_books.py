"""Books for the browser tests: made by the library's own `record`, put into the database of a page, and read by its `heap`."""

from __future__ import annotations

import json
from datetime import UTC, datetime

from playwright.sync_api import expect

from sandmix.book.book import VERSION
from sandmix.doors.facade import call

MIXED = {"kind": "mixed", "make_kg": "45 kg", "clay_pct_dry": "7.5 %", "moisture_pct_wet": "3.4 %"}
POURED = {
    "kind": "poured",
    "metal": "aluminium",
    "metal_kg": "1.5 kg",
    "pattern": "coat hooks",
    "sand_lost_kg": "0.4 kg",
}
TESTED = {"kind": "measured", "heap_kg": "43.6 kg", "moisture_pct_wet": "2.5 %"}
BOOKS = "const { books } = await import('/app/books.js'); const shelf = await books();"
PUT = (
    f"async (given) => {{ {BOOKS} await shelf.put(given); "
    "const all = await shelf.all(); await shelf.use(all.find((book) => book.name === given[0].name).key); }"
)
ALL = f"async () => {{ {BOOKS} return Promise.all((await shelf.all()).map((book) => shelf.whole(book))); }}"


def ask(request):
    return json.loads(call(json.dumps(request)))


def now():
    return datetime.now(UTC).isoformat(timespec="seconds")


def book_of(*events, name="The heap"):
    """A book with these events, each completed by the library."""
    book = {"format": "sandmix book", "version": VERSION, "name": name, "events": []}
    for event in events:
        answer = ask({"job": "record", "inputs": {"book": book, "event": {"at": now(), **event}}})
        assert answer["ok"], answer
        book["events"].append(answer["event"])
    return book


def heap_of(book):
    return ask({"job": "heap", "inputs": {"book": book, "now": now()}})


def text_of(book, word):
    return next(row["text"] for row in heap_of(book)["shown"] if row["word"] == word)


def put(page, address, *books):
    """Open the book's page with these books in it."""
    page.goto(f"{address}heap/")
    page.locator("html[data-engine=ready]").wait_for(state="attached")
    page.evaluate(PUT, [{"name": book["name"], "events": book["events"]} for book in books])
    says(page, books[0])


def says(page, book):
    """Wait until the page shows the heap of this book."""
    for word in ("heap_kg", "moisture_pct_wet", "clay_pct_dry"):
        figure = page.locator(f"[data-heap] [data-figure={word}] [data-slot=text]")
        expect(figure).to_have_text(text_of(book, word))
    expect(page.locator("[data-list=timeline] > li")).to_have_count(len(book["events"]))


def carried(page):
    """What a form has from elsewhere in boxes that count: each word with its figure and unit, once the heap's are there."""
    page.locator("[data-carried]").first.wait_for(state="attached")
    return page.evaluate(
        """() => Object.fromEntries(Array.from(document.querySelectorAll("[data-carried]"), (field) => {
            const { value, dataset } = field.querySelector("input[data-input]");
            return [field.dataset.field, `${value} ${dataset.unit ?? ""}`.trim()];
        }))"""
    )
