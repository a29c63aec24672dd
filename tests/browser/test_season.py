"""The season of a heap in one picture: drawn on phone widths, read by a tap and by two buttons, and as a table beneath."""

from datetime import UTC, datetime, timedelta

import pytest
from heap_books import MIXED, POURED, book_of, heap_of, put
from playwright.sync_api import expect

UNFOLD = """() => document.querySelectorAll("[data-folded=charts], .chart-numbers").forEach((fold) => { fold.open = true; })"""
TESTED = {"kind": "measured", "heap_kg": "43.6 ± 0.4 kg", "moisture_pct_wet": "2.5 ± 0.3 %"}
SPACE = "\u00a0"


def ago(days):
    return (datetime.now(UTC) - timedelta(days=days)).isoformat(timespec="seconds")


@pytest.fixture(scope="module")
def book():
    return book_of({**MIXED, "at": ago(90)}, {**POURED, "at": ago(60)}, {**TESTED, "at": ago(30)})


@pytest.fixture
def season(page, address, book):
    """The figure of the picture on the page of the book."""
    put(page, address, book)
    page.evaluate(UNFOLD)
    figure = page.locator("[data-charts] > [data-chart]")
    figure.locator("svg[role=img]").wait_for()
    return figure


def test_each_panel_has_its_steps_its_band_and_its_tests(season, book):
    [chart] = heap_of(book)["charts"]
    panels = [chart, *chart["below"]]
    assert len(panels) == 4
    expect(season.locator("path.chart-steps:not(.chart-legend *)")).to_have_count(4)
    expect(season.locator("path.chart-band")).to_have_count(4)
    expect(season.locator("svg > path.chart-points")).to_have_count(2)
    expect(season.locator("svg > path.chart-marks")).to_have_count(1)
    assert "C" not in season.locator("svg > path.chart-steps").first.get_attribute("d")
    expect(season.locator(".chart-name")).to_have_text(
        [f"{panel['y']['label']}, {panel['y']['unit']}" for panel in panels]
    )
    expect(season.locator(".chart-legend text")).to_have_text(["the book", "tests", "casts"])


def test_a_tap_reads_the_nearest_entry_and_the_buttons_go_on_from_there(season):
    when = season.locator("[data-slot=when]")
    before, after = season.locator("[data-go='-1']"), season.locator("[data-go='1']")
    expect(after).to_be_disabled()
    drawn = season.locator("svg[role=img]").bounding_box()
    season.locator("[data-plot]").click(position={"x": drawn["width"] * 0.4, "y": drawn["height"] * 0.5})
    expect(when).to_contain_text("A cast was poured: coat hooks")
    after.click()
    expect(when).to_contain_text("The sand was tested")
    expect(season.locator("[data-list=figures] li").first).to_contain_text(
        "read " + SPACE.join(("43.60", "±", "0.40", "kg"))
    )
    before.click()
    before.click()
    expect(when).to_contain_text("New sand was mixed in")
    expect(before).to_be_disabled()


def test_the_table_has_each_entry_and_what_was_read(season):
    rows = season.locator("tbody th[colspan='4']")
    expect(rows).to_have_count(4)
    expect(rows.nth(2)).to_contain_text("The sand was tested")
    expect(season.locator("tbody tr").nth(5).locator("td").first).to_contain_text("read 43.60 ± 0.40")
    expect(season.locator("thead th")).to_have_count(4)


DRAWN_TO_SIZE = """() => { const svg = document.querySelector("[data-plot] svg");
    return svg && Math.abs(svg.viewBox.baseVal.width - svg.getBoundingClientRect().width) < 1; }"""


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_it_fits_the_screen_and_its_buttons_can_be_hit(page, season, width):
    page.set_viewport_size({"width": width, "height": 844})
    svg = season.locator("svg[role=img]")
    page.wait_for_function(DRAWN_TO_SIZE)
    frame = svg.bounding_box()
    for text in svg.locator("text").all():
        box = text.bounding_box()
        assert box["x"] >= frame["x"] - 1
        assert box["x"] + box["width"] <= frame["x"] + frame["width"] + 8
    for button in season.locator("[data-go]").all():
        box = button.bounding_box()
        assert min(box["width"], box["height"]) >= 44
    assert page.evaluate("document.documentElement.scrollWidth <= window.innerWidth")
