"""Measure how tall each job's page is on a phone, in screens of 390 × 844 px: its answer, and everything from its title to the end of the answer.

Each job's example is typed into its form as a person would, in a fresh browser profile. Prints figures and asserts nothing. Jobs that
need a file or the heap book are opened by the link of their example instead.

    python tests/bench/heights.py SITE [--browser /usr/bin/chromium]
"""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from urllib.parse import quote, urlencode

from page import BROWSER_WORDS, PHONE, call, served
from playwright.sync_api import Browser, sync_playwright

BY_LINK = ("pattern", "learned", "readings", "choose", "bench", "diagnose")
SETTLES_MS = 2500
TYPE = """example => { for (const [word, text] of Object.entries(example)) {
    const radio = document.querySelector(`input[type=radio][name="${word}"][value="${CSS.escape(text)}"]`);
    if (radio) { radio.click(); continue; }
    const box = document.querySelector(`#field-${word}`);
    if (!box) continue;
    box.value = text;
    for (const kind of ["input", "change"]) box.dispatchEvent(new Event(kind, { bubbles: true }));
} }"""
MEASURE = """() => { const box = of => document.querySelector(of).getBoundingClientRect();
    return [document.querySelector("[data-answer]").dataset.whose, box("[data-answer]").height,
        box("[data-answer]").bottom - box("h1").top]; }"""


def measure(browser: Browser, address: str, job: dict) -> tuple[str, float, float]:
    """Whose answer is shown, its height, and that of all from the title on, in screens."""
    context = browser.new_context(viewport=PHONE, service_workers="block")
    page = context.new_page()
    by_link = job["name"] in BY_LINK
    page.goto(f"{address}{job['name']}/" + (f"#{urlencode(job['example'], quote_via=quote)}" if by_link else ""))
    page.locator("html[data-engine=ready]").wait_for(state="attached", timeout=60_000)
    if not by_link:
        page.evaluate(TYPE, job["example"])
    page.wait_for_timeout(SETTLES_MS)
    whose, answer, whole = page.evaluate(MEASURE)
    context.close()
    return whose, answer / PHONE["height"], whole / PHONE["height"]


def main() -> int:
    """Measure each job and print."""
    asked = argparse.ArgumentParser(description="How many screens of a phone each job's page takes.")
    asked.add_argument("site", type=Path)
    asked.add_argument("--browser", default="/usr/bin/chromium")
    options = asked.parse_args()
    with served(options.site) as address, sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=options.browser, args=BROWSER_WORDS.split())
        for job in json.loads(call('{"job": "describe"}'))["jobs"]:
            if job["name"] != "heap":
                whose, answer, whole = measure(browser, address, job)
                print(
                    f"{job['name']:10} {whose:8} answer {answer:4.2f}  from the title {whole:4.2f} screens", flush=True
                )
        browser.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
