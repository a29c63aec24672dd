"""Measure how soon the page can be read, how fast it answers, and its size without Python. Prints figures and asserts nothing.

First paint: a fresh browser profile for each visit, 390 px wide, from navigation to the first contentful paint, and
whether the worked example was in the bar by then. Live answer: from the input event in the box until the page has shown
the library's answer to that input, even if its rounded text stays the same. Every change is a different number; jobs
whose first input is a table or a file are left out. For the times without likely ranges, the same page's requests get
`"doubt": false` on their way to the worker.

    python tests/bench/page.py SITE [--browser /usr/bin/chromium] [--visits 7] [--changes 200]
"""

from __future__ import annotations

import argparse
import gzip
import itertools
import json
import re
import statistics
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "site"), str(ROOT)]

from sandmix.doors.facade import call  # noqa: E402
from server import SiteServer  # noqa: E402  the site's rooms are found only once the path is set

PHONE = {"width": 390, "height": 844}
BROWSER_WORDS = "--no-sandbox --disable-gpu --disable-background-networking --disable-component-update --disable-sync"
CHANGED = {
    "mix": {"make_kg": 20},
    "temper": {"heap_kg": 20},
    "flask": {"heap_kg": 20},
    "rebond": {"heap_kg": 20},
    "shopping": {"sand_kg": 20},
    "pour": {"casting_volume_cm3": 300},
    "burnout": {"sand_kg": 20, "pour_temp_c": 700},
    "diagnose": {"moisture_pct_wet": 3},
    "estimate": {"washed_pct_dry": 12},
    "fit": {"heap_kg": 20},
    "plan": {"heap_kg": 20},
    "tin": {"heap_kg": 20},
    "dry": {"heap_kg": 20},
    "season": {"heap_kg": 20},
    "facing": {"heap_kg": 20},
    "carbon": {"heap_kg": 20},
}
NEW_HEAT = ("pour_temp_c",)
NEW_HEAT_CHANGES = 12
PAINT = """() => new Promise(done => new PerformanceObserver(list => {
    const paint = list.getEntriesByName("first-contentful-paint")[0];
    if (paint) done([paint.startTime, document.querySelector("[data-bar] [data-slot=text]").textContent,
        document.documentElement.dataset.engine || "not started"]);
}).observe({ type: "paint", buffered: true }))"""
WATCH = """const Plain = Worker; globalThis.sent = 0; globalThis.withDoubt = true; globalThis.heard = () => {};
globalThis.Worker = class extends Plain {
    constructor(...words) { super(...words); this.addEventListener("message", ({ data }) => { if (data.text !== undefined) heard(data.id); }); }
    postMessage(message) { const request = JSON.parse(message.text); sent = message.id;
        super.postMessage({ ...message, text: JSON.stringify(withDoubt ? request : { ...request, doubt: false }) }); } };"""
CHANGE = """async ([word, texts]) => {
    const box = document.querySelector(`#field-${word}`); const taken = [];
    for (const text of texts) taken.push(await new Promise(done => {
        const began = performance.now(); box.value = text;
        const after = new MessageChannel(); after.port1.onmessage = () => done(performance.now() - began);
        heard = id => { if (id === sent) after.port2.postMessage(0); };
        box.dispatchEvent(new InputEvent("input", { bubbles: true })); }));
    return taken; }"""


def main() -> int:
    """Measure and print."""
    asked = argparse.ArgumentParser(description="First paint, live answers and own bytes of the built site.")
    asked.add_argument("site", type=Path)
    asked.add_argument("--browser", default="/usr/bin/chromium")
    asked.add_argument("--visits", type=int, default=7)
    asked.add_argument("--changes", type=int, default=200)
    options = asked.parse_args()
    with served(options.site) as address, sync_playwright() as playwright:

        def launch() -> Browser:
            return playwright.chromium.launch(executable_path=options.browser, args=BROWSER_WORDS.split())

        first_paint(launch, address, options.visits)
        browser = launch()
        for job in json.loads(call('{"job": "describe"}'))["jobs"]:
            if job["name"] in CHANGED:
                live_answers(browser, address, job, options.changes)
        browser.close()
    own_bytes(options.site)
    return 0


@contextmanager
def served(folder: Path) -> Iterator[str]:
    """Serve a folder with the site's own server, at the address yielded."""
    with SiteServer(("127.0.0.1", 0), folder) as server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        yield f"http://127.0.0.1:{server.server_port}/"
        server.shutdown()


def first_paint(launch, address: str, visits: int) -> None:
    """Milliseconds from navigation to the first contentful paint of a job's page, with a new browser for each visit."""
    times = []
    for _ in range(visits):
        browser = launch()
        page = browser.new_page(viewport=PHONE)
        page.goto(f"{address}temper/", wait_until="commit")
        ms, text, engine = page.evaluate(PAINT)
        times.append(ms)
        browser.close()
    print(
        f"first contentful paint, cold, 390 px: median {statistics.median(times):.0f} ms of {sorted(map(round, times))}"
    )
    print(f"  in the bar at that moment: {text!r}; calculator {engine}\n")


def live_answers(browser: Browser, address: str, job: dict, changes: int) -> None:
    """Milliseconds from an input event to the answer shown, for that many different numbers in one box."""
    context = browser.new_context(viewport=PHONE, service_workers="block")
    context.add_init_script(WATCH)
    page = context.new_page()
    page.goto(f"{address}{job['name']}/")
    page.locator("html[data-engine=ready]").wait_for(state="attached")
    example = job["example"]
    for word, text in example.items():
        box = page.locator(f"input#field-{word}")
        if box.count():
            page.evaluate("([word, text]) => { document.querySelector(`#field-${word}`).value = text; }", [word, text])
    for (word, start), doubt in itertools.product(CHANGED[job["name"]].items(), (True, False)):
        page.evaluate("doubt => { withDoubt = doubt; }", doubt)
        warm_up, count = (2, NEW_HEAT_CHANGES) if word in NEW_HEAT else (20, changes)
        page.evaluate(CHANGE, [word, [f"{start + 10 + at / 7:.3f}" for at in range(warm_up)]])
        taken = sorted(page.evaluate(CHANGE, [word, [f"{start + doubt / 19 + at / 9:.3f}" for at in range(count)]]))
        shown = page.locator("[data-answer]").get_attribute("data-whose")
        p95 = taken[min(len(taken) - 1, round(0.95 * len(taken)))]
        print(
            f"{job['name']:9} {'with doubt' if doubt else 'without   '}  p50 {statistics.median(taken):6.1f} ms"
            f"  p95 {p95:6.1f} ms  ({len(taken)} changes of {word}; shown: {shown})"
        )
    context.close()


def own_bytes(site: Path) -> None:
    """The size of a page without Python: gzip bytes of one job's page and everything that a first visit to it loads."""
    first = named_in(site, site / "temper/index.html")
    own = [file for file in first if file.parent.name == "app"]
    groups = {
        "own scripts and styles of a job's page": own,
        "the same with its charts": [*own, *site.glob("app/chart-drawing-*.js")],
        "the theme's scripts and styles there": [file for file in first if file not in own],
        "own scripts and styles of all pages": [*site.glob("app/*.js"), *site.glob("app/*.css")],
        "theme (assets)": [file for file in site.glob("assets/**/*") if file.is_file()],
        "one job's page (temper)": [site / "temper/index.html"],
        "all pages": sorted(site.rglob("*.html")),
    }
    print()
    for name, files in groups.items():
        print(f"{name:42} {sum(len(gzip.compress(file.read_bytes(), 9, mtime=0)) for file in files):>9,} bytes gzipped")


def named_in(site: Path, page: Path) -> list[Path]:
    """The scripts and styles that a page names, and the worker that it starts."""
    names = re.findall(r'(?:src|href)="\.\./([^"]+\.(?:js|css))"', page.read_text("utf-8"))
    return [site / name for name in dict.fromkeys([*names, "app/worker.js"])]


if __name__ == "__main__":
    raise SystemExit(main())
