"""What a person's own readings teach, on the page: one card for each figure of the book in use, and one tap to set a figure back."""

import pytest
from heap_books import MIXED, ask, book_of, put
from playwright.sync_api import expect

RAMMED = {"kind": "calibrated", "rammed_density_kg_l": "1.65 ± 0.03 kg/L"}


@pytest.fixture
def learned(page, address):
    """The page with a book in use, and the library's own answer to that book."""
    book = book_of(MIXED, RAMMED)
    put(page, address, book)
    page.goto(f"{address}learned/")
    page.locator("html[data-engine=ready]").wait_for(state="attached")
    return page, ask({"job": "learned", "inputs": {"book": book}})


def test_each_figure_of_the_book_in_use_is_a_card_whose_bar_is_what_is_your_own(learned):
    page, native = learned
    cards = page.locator("[data-list=cards] > li")
    expect(cards).to_have_count(len(native["cards"]))
    expect(cards.locator("[data-slot=title]")).to_have_text([card["title"] for card in native["cards"]])
    expect(page.locator("[data-slot=cards-title]")).to_have_text(native["cards_titles"][0])
    expect(cards.first.locator("[data-slot=text]")).to_have_text(native["cards"][0]["text"])
    share = float(cards.first.locator("[data-share]").get_attribute("width"))
    assert share == pytest.approx(native["cards"][0]["share_pct"], abs=0.01)


def test_a_figure_is_set_back_in_one_tap_and_the_flask_begins_with_the_general_one_again(learned):
    page, native = learned
    row = page.locator("[data-write=forgotten]")
    expect(row).to_have_count(len(native["records"]))
    row.locator("[data-record-now]").click()
    undo = row.locator("[data-undo-record]")
    undo.wait_for()
    page.goto(page.url.replace("learned/", "flask/"))
    page.locator("html[data-engine=ready]").wait_for(state="attached")
    expect(page.locator("[data-field=rammed_density_kg_l] input[data-input]")).to_have_value("")


def test_the_flask_begins_with_the_learned_density_and_says_that_it_is_your_own(learned):
    page, _ = learned
    page.goto(page.url.replace("learned/", "flask/"))
    field = page.locator("[data-field=rammed_density_kg_l]")
    expect(field.locator("[data-slot=origin]")).to_contain_text("your own, 1 reading", ignore_case=True)
    assert field.locator("input[data-input]").input_value().startswith("1.64")
