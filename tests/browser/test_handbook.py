"""The handbook in the browser: a box of a walk opens its job filled in, and the book of the season is taken over as a file."""

from __future__ import annotations

from playwright.sync_api import expect

TYPED = """() => Object.fromEntries(Array.from(document.querySelectorAll("[data-walked=bags_mix] [data-typed]"),
    (row) => [row.dataset.typed, row.dataset.value]))"""


def test_a_box_of_the_walk_opens_its_job_with_what_was_typed(hand, answer):
    page = hand.page
    page.goto(f"{hand.base}handbook/two-bags/")
    typed = page.evaluate(TYPED)
    assert set(typed) == {"make_kg", "clay_pct_dry", "moisture_pct_wet", "clay_moisture_pct_wet"}
    page.locator("[data-case=bags_mix]").click()
    page.wait_for_url("**/mix/**")
    hand.reads(answer("mix", typed))


def test_the_book_of_the_season_is_taken_over_as_a_file(page, address, built):
    page.goto(f"{address}heap/")
    page.locator("[data-import]").set_input_files(built / "handbook/hall-season.json")
    expect(page.locator("[data-which] option")).to_contain_text(["The hall's season"])
    expect(page.locator("[data-file-said]")).to_contain_text("Taken over:")
