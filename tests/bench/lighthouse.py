"""Print what Lighthouse gives each page: the medians of its four scores and of its blocking time, and which audits fail.

    python tests/bench/lighthouse.py FOLDER [--site site/_build] [--times 3] [PAGE ...]

FOLDER is one in which `npm install lighthouse@12.2.3` was run. The preset is the mobile one. A score for speed depends on the machine and on
what else it does at the time.
"""

from __future__ import annotations

import argparse
import json
import os
import statistics
import subprocess
import sys
import tempfile
import threading
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "site"))

from provision import bring_browser, this_machine  # noqa: E402  found only once the path is set
from server import SiteServer  # noqa: E402

SCORES = ("performance", "accessibility", "best-practices", "seo")
PAGES = ("", "temper", "burnout", "diagnose", "heap", "words", "method/temper")
TRIES = 3
"""Now and then a run records no trace, and says so."""
FLAGS = "--headless=new --no-sandbox --disable-gpu --disable-background-networking --disable-component-update --disable-sync"


def report(folder: Path, address: str, browser: str) -> dict[str, Any]:
    """What Lighthouse says of one page, once."""
    with tempfile.TemporaryDirectory() as scratch:
        out = Path(scratch) / "report.json"
        command = ["node", str(folder / "node_modules/lighthouse/cli/index.js"), address, "--quiet", "--output=json"]
        command += [f"--output-path={out}", f"--chrome-flags={FLAGS}"]
        for _ in range(TRIES):
            ended = subprocess.run(command, env=os.environ | {"CHROME_PATH": browser}, capture_output=True, text=True)
            if ended.returncode == 0:
                told: dict[str, Any] = json.loads(out.read_text("utf-8"))
                return told
        raise SystemExit(f"{address}: {ended.stderr}")


def line(name: str, reports: list[dict[str, Any]]) -> str:
    """The medians of a page as one line."""
    scores = [round(100 * statistics.median(told["categories"][each]["score"] for told in reports)) for each in SCORES]
    blocked = statistics.median(told["audits"]["total-blocking-time"]["numericValue"] for told in reports)
    weighed = [
        each["id"] for part in SCORES[1:] for each in reports[-1]["categories"][part]["auditRefs"] if each["weight"]
    ]
    failing = [each for each in weighed if reports[-1]["audits"][each]["score"] == 0]
    told = " / ".join(f"{score:3}" for score in scores)
    return f"{name or 'home':16} {told}   blocked {blocked:5.0f} ms   {', '.join(failing)}".rstrip()


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--site", type=Path, default=ROOT / "site/_build")
    parser.add_argument("--times", type=int, default=3)
    parser.add_argument("pages", nargs="*", default=PAGES)
    options = parser.parse_args()
    server = SiteServer(("127.0.0.1", 0), options.site)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    browser = bring_browser(this_machine())
    print(f"{'page':16} {' / '.join(SCORES)}")
    for name in options.pages:
        address = f"http://127.0.0.1:{server.server_port}/{f'{name}/' if name else ''}"
        print(line(name, [report(options.folder, address, browser) for _ in range(options.times)]), flush=True)
    server.shutdown()


if __name__ == "__main__":
    main()
