"""Take the two pictures of the README again: the sheet of one casting on a phone, and a test with its answer on a wide screen.

python tests/bench/pictures.py SITE [--browser /usr/bin/chromium]
"""

from __future__ import annotations

import argparse
import json
import sys
import threading
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "site"), str(ROOT)]

from server import SiteServer  # noqa: E402  the site's modules are found only once the path is set

OUT = ROOT / ".github" / "pictures"
PHONE = {"width": 390, "height": 760}
WIDE = {"width": 1280, "height": 760}
SETTLES_MS = 2000
BROWSER_WORDS = "--no-sandbox --disable-gpu --disable-background-networking --disable-component-update --disable-sync"
CASTING = {
    "format": "sandmix casting",
    "version": 1,
    "name": "Coat hooks",
    "begun": "2027-03-13",
    "figures": {
        "metal": "aluminium",
        "box_mm": "290 x 150 x 20 mm",
        "casting_volume_cm3": "380 cm³",
        "heap_kg": "45 kg",
        "moisture_pct_wet": "3.4 %",
        "clay_pct_dry": "7.4 %",
        "flasks": json.dumps(
            [{"name": "wide", "flask_length_mm": 380, "flask_width_mm": 260, "drag_depth_mm": 95, "cope_depth_mm": 90}]
        ),
    },
    "own": {},
    "pattern": {"name": "", "figures": {}},
    "ticks": [],
    "clocks": [],
    "recorded": [],
}
PUT = """whole => {
  localStorage.setItem("sandmix.look", JSON.stringify("paper"));
  localStorage.setItem("sandmix.casting.hooks", JSON.stringify(whole));
  localStorage.setItem("sandmix.casting-in-use", JSON.stringify("hooks"));
}"""
SHEET = "[data-list=casting-steps] > li"
TEMPER = {"heap_kg": "45", "sample_wet_g": "400", "sample_dry_g": "391", "scale_step_g": "1"}


def take(page: Page, address: str) -> None:
    """A picture of the casting's sheet on a phone, and one of a test and its answer on a wide screen."""
    page.goto(f"{address}offline/")
    page.evaluate(PUT, CASTING)
    page.goto(address)
    page.locator(SHEET).first.wait_for(timeout=60_000)
    page.wait_for_timeout(SETTLES_MS)
    page.screenshot(path=OUT / "casting.png")
    page.evaluate("() => localStorage.removeItem('sandmix.casting-in-use')")
    page.set_viewport_size(WIDE)
    page.goto(f"{address}temper/")
    for word, text in TEMPER.items():
        page.locator(f"#field-{word}").fill(text)
    page.locator("[data-submit]").click()
    page.wait_for_timeout(SETTLES_MS)
    page.evaluate("() => scrollTo(0, 0)")
    page.screenshot(path=OUT / "temper.png")


def main() -> int:
    """Take both pictures."""
    asked = argparse.ArgumentParser(description="The pictures of the README.")
    asked.add_argument("site", type=Path)
    asked.add_argument("--browser", default="/usr/bin/chromium")
    given = asked.parse_args()
    OUT.mkdir(parents=True, exist_ok=True)
    server = SiteServer(("127.0.0.1", 0), given.site)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=given.browser, args=BROWSER_WORDS.split())
        page = browser.new_page(viewport=PHONE, device_scale_factor=1)
        take(page, f"http://127.0.0.1:{server.server_port}/")
        browser.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
