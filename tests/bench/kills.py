"""Kill the browser at random moments while events are written, and count what was shown as saved but is lost.

`site/.cache/venv/bin/python tests/bench/kills.py --kills 1000 --seed 1`, on a site that was built before. Each round opens a new browser on
the same profile, first reads the book back, then writes events one after the other; the page shows each as saved when its write has finished.
After a random time the browser and all its processes are killed without notice. A power cut is not tried here: the page requests strict
durability when it writes, and cannot do more.
"""

from __future__ import annotations

import argparse
import os
import random
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import BrowserType, Error, Page, sync_playwright

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / "site"))

from provision import bring_browser, this_machine  # noqa: E402
from serve import BUILT  # noqa: E402
from server import SiteServer  # noqa: E402

SHORTEST_S, LONGEST_S = 0.005, 0.6
START_S = 30.0
TRIES = 5
WORDS = (
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--no-first-run",
    "--disable-sync",
    "--remote-debugging-port=0",
)
READ = """async () => { const { books } = await import("/app/books.js");
    const shelf = await books(); if (!shelf.lasting) return null; const book = await shelf.inUse();
    return book ? (await shelf.events(book.key)).map(({ id }) => id) : []; }"""
WRITE = """async (filler) => { const { books } = await import("/app/books.js");
    const shelf = await books(); const book = (await shelf.inUse()) ?? (await shelf.begin("The heap"));
    for (let at = (await shelf.events(book.key)).length; ; at += 1)
      if (await shelf.append(book.key, at, { id: `e${at}`, kind: "poured", note: filler })) shown(`e${at}`); }"""
"""The page's own code to write an event; at `shown` a page would show it as saved."""


@dataclass(slots=True, kw_only=True)
class Tally:
    """The result of the kills: how many, what was shown as saved, what of it was lost, and books with a gap."""

    kills: int = 0
    shown: int = 0
    lost: list[str] = field(default_factory=list)
    gaps: int = 0
    interrupted: int = 0

    def __str__(self) -> str:
        return (
            f"{self.kills} kills, {self.interrupted} of them with an event written that was not shown yet; "
            f"{self.shown} events shown as saved, {len(self.lost)} of them lost; {self.gaps} books with a gap"
        )


@contextmanager
def browser_on(profile: Path, chromium: str, chromiums: BrowserType) -> Iterator[tuple[Page, subprocess.Popen[bytes]]]:
    """A new browser on the profile, in its own process group, with one page; killed at the end."""
    port = profile / "DevToolsActivePort"
    port.unlink(missing_ok=True)
    running = subprocess.Popen(
        [chromium, *WORDS, f"--user-data-dir={profile}", "about:blank"],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    try:
        end = time.monotonic() + START_S
        while not (port.is_file() and port.read_text().strip()):
            if time.monotonic() > end:
                raise TimeoutError("the browser did not start")
            time.sleep(0.02)
        browser = chromiums.connect_over_cdp(f"http://127.0.0.1:{port.read_text().split()[0]}")
        yield browser.contexts[0].new_page(), running
    finally:
        kill(running)


def kill(running: subprocess.Popen[bytes]) -> None:
    """Kill a browser and all its processes at once."""
    with suppress(ProcessLookupError):
        os.killpg(running.pid, signal.SIGKILL)
    running.wait()


def trial(
    address: str, profile: Path, chromium: str, chromiums: BrowserType, *, kills: int, seed: int, aloud: bool = False
) -> Tally:
    """Write and kill repeatedly on one profile; every entry shown must be there the next time, with no gap before it."""
    dice, tally = random.Random(seed), Tally()
    shown: list[str] = []
    for _ in range(kills):
        with browser_on(profile, chromium, chromiums) as (page, running):
            look(page, address, shown, tally)
            write_until_killed(page, running, dice, shown)
        tally.kills, tally.shown = tally.kills + 1, len(shown)
        if aloud and tally.kills % 10 == 0:
            print(tally, flush=True)
    with browser_on(profile, chromium, chromiums) as (page, _):
        look(page, address, shown, tally)
    tally.shown = len(shown)
    return tally


def look(page: Page, address: str, shown: list[str], tally: Tally) -> None:
    """Read the book back, and note which of the entries shown are missing.

    A browser that does not give its database in time is asked again: the page says so and works without it, and nothing is lost.
    """
    for _ in range(TRIES):
        page.goto(address)
        if (there := page.evaluate(READ)) is not None:
            break
    else:
        raise TimeoutError("the browser did not give its database")
    tally.lost += [name for name in shown if name not in set(there) and name not in tally.lost]
    tally.gaps += there != [f"e{at}" for at in range(len(there))]
    tally.interrupted += len(there) > len(shown)
    shown += there[len(shown) :]


def write_until_killed(page: Page, running: subprocess.Popen[bytes], dice: random.Random, shown: list[str]) -> None:
    """Let the page write without end, kill its browser after some time, and keep the list of entries shown by then."""
    page.expose_function("shown", lambda name: shown.append(name))
    first, filler = len(shown), "x" * dice.randrange(2000)
    wait_s = dice.uniform(SHORTEST_S, LONGEST_S)
    page.evaluate("(filler) => { (" + WRITE + ")(filler); }", filler)
    if dice.random() < 0.5:
        until = time.monotonic() + START_S
        while len(shown) == first and time.monotonic() < until:
            page.wait_for_timeout(1)
    killer = threading.Timer(wait_s, kill, [running])
    killer.start()
    with suppress(Error):
        while killer.is_alive():
            page.wait_for_timeout(20)
    killer.join()


def main() -> int:
    """The command; its exit status is 1 if anything was lost."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--kills", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    server = SiteServer(("127.0.0.1", 0), BUILT)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as folder, sync_playwright() as playwright:
        began = time.monotonic()
        tally = trial(
            f"http://127.0.0.1:{server.server_port}/",
            Path(folder),
            bring_browser(this_machine()),
            playwright.chromium,
            kills=options.kills,
            seed=options.seed,
            aloud=True,
        )
    print(f"{tally}; seed {options.seed}, {time.monotonic() - began:.0f} s")
    server.shutdown()
    return 1 if tally.lost or tally.gaps else 0


if __name__ == "__main__":
    sys.exit(main())
