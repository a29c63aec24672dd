"""Walk one whole casting day in the real page, from nothing to restored sand, and count what a person has to do. Asserts nothing.

A first-timer has two bags, two frames of 320 × 280 × 90 mm and a bracket of 160 × 90 × 30 mm that weighs 1 kg. The walk taps and types
only what the page shows: it begins the casting, mixes, tests, ticks the list, pours, opens and restores. Counted are taps, figures typed
(each number, also several in one box), boxes filled, figures typed a second time, and changes of page. The time is 4 s a tap and 6 s a
figure, without reading.

    python tests/bench/casting_day.py SITE [--browser /usr/bin/chromium]
"""

from __future__ import annotations

import argparse
import sys
from dataclasses import dataclass, field
from pathlib import Path

from page import BROWSER_WORDS, PHONE, served
from playwright.sync_api import Locator, Page, sync_playwright

TAP_S, FIGURE_S = 4, 6
BOX_MM, WEIGHT_KG, FRAME_MM = ("160", "90", "30"), "1", ("320", "280", "90")
SAMPLE_G = {"sample_wet_g": "500", "sample_dry_g": "484"}
ON = "[data-casting-next]:visible, a.deed[data-casting-on]:visible"
"""The way on, at the foot of the sheet or of a step's page."""


@dataclass(slots=True)
class Person:
    """A person with one thumb, and what they had to do so far."""

    page: Page
    taps: int = 0
    boxes: int = 0
    typed: list[tuple[str, str]] = field(default_factory=list)
    visits: int = 0

    def tap(self, place: str | Locator) -> None:
        """Tap what is there, as soon as it can be tapped."""
        (self.page.locator(place) if isinstance(place, str) else place).click()
        self.taps += 1

    def type(self, box: Locator, word: str, *figures: str) -> None:
        """Type one or more figures into one box."""
        box.fill(" x ".join(figures))
        box.blur()
        self.boxes += 1
        self.typed += [(word, figure) for figure in figures]

    def go_on(self, words: str) -> None:
        """Tap the way on once it says so, and wait for the next page."""
        self.tap(self.page.locator(ON).filter(has_text=words).last)
        self.page.wait_for_load_state()

    def stands(self, what: str) -> None:
        """Print what it took so far."""
        seconds = TAP_S * self.taps + FIGURE_S * len(self.typed)
        again = len(self.typed) - len(set(self.typed))
        print(
            f"{what:32} {self.taps:3} taps  {len(self.typed):3} figures in {self.boxes} boxes, {again} typed twice  "
            f"{self.visits:3} pages  {seconds // 60}:{seconds % 60:02} min"
        )


def walk(page: Page, address: str) -> None:
    """The day, step by step."""
    person = Person(page)
    page.on("request", lambda request: _count(person, request.is_navigation_request()))
    page.goto(address)
    page.locator("[data-start] .form[data-live]").wait_for()
    person.type(page.locator("#field-box_mm"), "box_mm", *BOX_MM)
    person.tap(page.get_by_text("Weighed", exact=True))
    person.type(page.locator("#field-casting_kg"), "casting_kg", WEIGHT_KG)
    for part, size in zip(("flask_length_mm", "flask_width_mm", "drag_depth_mm"), FRAME_MM, strict=True):
        person.type(page.locator(f"[data-start] [data-part={part}]").first, part, size)
    person.tap("[data-start] [data-submit]")
    person.stands("the day is planned")
    person.go_on("Mix new sand")
    person.tap("[data-write=mixed] [data-record-now]")
    person.stands("the sand is mixed and recorded")
    person.go_on("Test and temper")
    for word, figure in SAMPLE_G.items():
        person.type(page.locator(f"#field-{word}"), word, figure)
    person.tap("[data-write=measured] [data-record-now]")
    person.stands("the test is recorded")
    person.go_on("Mould it")
    person.tap("[data-list=casting-steps] [data-hand-tick]")
    person.go_on("Pour")
    boxes = page.locator("[data-answer][data-whose=mine] [data-check]")
    boxes.first.wait_for()
    for box in boxes.all():
        person.tap(box)
    person.stands("the list is ticked")
    person.go_on("Record this cast")
    person.tap("[data-write=poured] [data-record-now]")
    person.stands("the cast is recorded")
    person.go_on("After the pour")
    person.tap(page.get_by_role("button", name="Metal is poured: start the clocks"))
    person.stands("the clocks run")
    person.go_on("Back to the casting")
    person.tap(page.locator("[data-list=casting-steps] a", has_text="Restore the sand"))
    person.tap(page.locator("[data-record-now]:visible").first)
    page.locator("[data-slot=recorded]:visible").first.wait_for()
    person.stands("the sand is restored")


def _count(person: Person, is_page: bool) -> None:
    person.visits += is_page


def main() -> int:
    """Walk and print."""
    asked = argparse.ArgumentParser(description="What one casting day takes, in taps and figures.")
    asked.add_argument("site", type=Path)
    asked.add_argument("--browser", default="/usr/bin/chromium")
    options = asked.parse_args()
    with served(options.site) as address, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=options.browser, args=BROWSER_WORDS.split())
        context = browser.new_context(viewport=PHONE, service_workers="block", has_touch=True)
        context.set_default_timeout(60_000)
        walk(context.new_page(), address)
        browser.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
