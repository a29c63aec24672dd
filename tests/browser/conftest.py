"""What the browser tests share: one browser, a fresh context at phone size for each test, and the library's own answers.

Expected texts are not written here: they come from the library, called directly. Every test fails on a console error,
a page error or a request to another host, in addition to what it checks; a test that breaks something on purpose has
the mark `breaks`. The pages get their answers from the library beside the test (`tests/beside.py`), but from the
calculator in the browser where a test or its file has the mark `engine`, and where a profile keeps the page offline.
"""

from __future__ import annotations

import json
import os
import shutil
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import beside
import pytest
from effort import is_long
from pages import JOBS
from playwright.sync_api import Browser, BrowserContext, BrowserType, Page, expect, sync_playwright

import runtime
from sandmix.doors.facade import call
from server import SiteServer

PHONE = {"width": 390, "height": 844}
WITHOUT = (
    *("WebUIOmniboxPopup", "WebUIOmniboxAimPopup"),
    *("AvoidUnnecessaryBeforeUnloadCheckSync", "DestroyProfileOnBrowserClose", "HttpsUpgrades", "LensOverlay"),
    *(
        "MediaRouter",
        "NetworkTimeServiceQuerying",
        "OptimizationHints",
        "PaintHolding",
        "ThirdPartyStoragePartitioning",
    ),
)
"""What Chromium does without: two hidden pages that it would start for each profile, and, since only the last such list counts,
what Playwright turns off."""
BROWSER_WORDS = [
    *[
        "--no-sandbox",
        "--disable-gpu",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
    ],
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
    "--disable-features=" + ",".join(WITHOUT),
]
TYPED = {
    "mix": {"make_kg": "77 lb", "clay_pct_dry": "7,5", "moisture_pct_wet": "3,2"},
    "temper": {"heap_kg": "55 lb", "sample_wet_g": "500", "sample_dry_g": "488,5"},
    "fit": {
        "pattern_length_mm": "5-1/2 in",
        "pattern_width_mm": "82,5",
        "pattern_height_mm": "40",
        "flasks": '[{"name": "one", "flask_length_mm": "12 in", "flask_width_mm": 250, "drag_depth_mm": 90, "cope_depth_mm": "87,5"}]',
        "heap_kg": "30",
    },
    "gate": {"fill_volume_cm3": "26 in³", "head_mm": "4-3/4 in", "thinnest_mm": "6,5", "gate_ratio": "1:2,5:4"},
    "flask": {
        "flask_length_mm": "12 in",
        "flask_width_mm": "250",
        "drag_depth_mm": "87,5",
        "cope_depth_mm": "3-1/2 in",
        "heap_kg": "30",
    },
    "pour": {"casting_volume_cm3": "26 in³", "projected_area_cm2": "240,5", "head_mm": "4-3/4 in", "cope_kg": "20 lb"},
    "burnout": {"casting_volume_cm3": "420,5", "casting_area_cm2": "87 in²", "sand_kg": "62 lb"},
    "rebond": {
        "heap_kg": "88 lb",
        "moisture_pct_wet": "2,2",
        "clay_pct_dry": "5,5",
        "dead_fines_pct_dry": "3",
        "target_clay_pct_dry": "7",
    },
    "shopping": {"sand_kg": "120 lb", "sand_bag_kg": "20", "clay_kg": "4,77", "clay_bag_kg": "5"},
    "tin": {"height_before_mm": "12 cm", "height_after_mm": "74,5", "heap_kg": "99 lb", "since_mulling_h": "15 min"},
    "dry": {
        "heap_kg": "99 lb",
        "moisture_pct_wet": "5,6",
        "air_temp_c": "68 °F",
        "spread_m2": "32 ft²",
        "wind_m_s": "5 km/h",
    },
    "feel": {"feel": "prints", "heap_kg": "99 lb"},
    "forecast": {"clay_pct_dry": "7,5", "clay_burnt_share": "2,5 %", "new_sand_share": "0,03", "casts": "18"},
    "facing": {
        "casting_volume_cm3": "15,5 in³",
        "casting_area_cm2": "420",
        "flask_sand_kg": "53 lb",
        "heap_kg": "45,5",
    },
    "season": {"heap_kg": "99 lb", "clay_pct_dry": "7,5", "clay_burnt_share": "3 %", "casts": "30"},
    "feed": {"metal": "al_si7mg", "casting_volume_cm3": "15,5 in³", "casting_area_cm2": "260"},
    "carbon": {"metal": "grey_iron", "heap_kg": "99 lb", "carbon_target_pct": "3", "carbon_now_pct": "1,2"},
    "blend": {"lots": '[{"kg": "66 lb", "clay_pct_dry": "6,5"}, {"kg": 10}]', "target_clay_pct_dry": "7,5"},
    "fineness": {"retained": "50: 21,4; 70: 42; 100: 10,5; pan: 0,2", "clay_washed_g": "2,5"},
    "match": {
        "lots": '[{"kg": "66 lb", "retained": "50: 3; 70: 2"}, {"kg": 10, "retained": "100: 4; 140: 1"}]',
        "target_gfn": "60",
    },
    "bench": {"test": "compactability", "height_before_mm": "12 cm", "height_after_mm": "68,5"},
    "estimate": {"clay_blue_pct_dry": "7,6", "washed_pct_dry": "10,5", "moisture_pct_wet": "3,4"},
    "diagnose": {"symptoms": "dusty, pin_holes", "moisture_pct_wet": "2,2"},
    "plan": {
        "box_mm": "160 x 90 x 30",
        "casting_volume_cm3": "18 in3",
        "flasks": '[{"name": "small", "flask_length_mm": 290, "flask_width_mm": 200, "drag_depth_mm": 90, "cope_depth_mm": "87,5"}]',
        "heap_kg": "99 lb",
        "moisture_pct_wet": "2,3",
    },
    "choose": {"bag_label": "granules", "swell_ml": "26", "ground_kg": "4,4 lb", "passed_kg": "1,45"},
}
"""What a person types into each form: some values with a decimal comma or a unit, others as a plain number."""

expect.set_options(timeout=30_000)
LOADS_MS = 90_000
SETTLES_S = 30
"""How long a page may take on a busy machine: only a test that fails anyway waits so long."""


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line("markers", "breaks: breaks something on purpose, so the console may complain")
    config.addinivalue_line("markers", "engine: the calculator in the browser answers, not the library beside the test")


def ask(request: dict[str, Any]) -> dict[str, Any]:
    return json.loads(call(json.dumps(request)))


def handed(name: str) -> str:
    if not os.environ.get(name):
        pytest.skip(f"{name} is not set: run this by tests/run.py")
    return os.environ[name]


@pytest.fixture(scope="session")
def built() -> Path:
    """The folder of the built site."""
    return Path(handed("SANDMIX_SITE"))


@pytest.fixture(scope="session")
def axe() -> str:
    """The source of axe-core."""
    packages = runtime.npm_packages(Path(__file__).parent, runtime.CACHE / "axe")
    return (packages / "axe-core/axe.min.js").read_text("utf-8")


@pytest.fixture(scope="session")
def jobs() -> dict[str, dict[str, Any]]:
    """Each job as the library describes it."""
    return {job["name"]: job for job in ask({"job": "describe"})["jobs"]}


@pytest.fixture(scope="session")
def answer() -> Callable[..., dict[str, Any]]:
    """The library's own answer to a job with these inputs."""
    return lambda job, inputs: ask({"job": job, "inputs": inputs})


@pytest.fixture(scope="session")
def chromium_path() -> str:
    """The path of the browser's program."""
    return handed("SANDMIX_CHROMIUM")


@pytest.fixture(scope="session")
def chromiums() -> Iterator[BrowserType]:
    """What starts a browser, or connects to one that was started elsewhere."""
    with sync_playwright() as playwright:
        yield playwright.chromium


@pytest.fixture(scope="session")
def browser(chromiums: BrowserType, chromium_path: str) -> Iterator[Browser]:
    chromium = chromiums.launch(executable_path=chromium_path, args=BROWSER_WORDS)
    yield chromium
    chromium.close()


@pytest.fixture(scope="session")
def serve_folder() -> Iterator[Callable[[Path], SiteServer]]:
    """Serve a folder until all tests are over, or until a test shuts the server down."""
    servers = []

    def start(folder: Path) -> SiteServer:
        server = beside.serving(folder)
        threading.Thread(target=server.serve_forever, daemon=True).start()
        servers.append(server)
        return server

    yield start
    for server in servers:
        server.shutdown()
        server.server_close()


@pytest.fixture(scope="session")
def address(built: Path, serve_folder: Callable[[Path], SiteServer]) -> str:
    """The address of the built site, with a slash at its end."""
    return address_of(serve_folder(built))


def address_of(server: SiteServer) -> str:
    return f"http://127.0.0.1:{server.server_port}/"


@pytest.fixture
def own_copy(built: Path, tmp_path: Path, serve_folder: Callable[[Path], SiteServer]) -> tuple[Path, SiteServer, str]:
    """The built site in a folder that this test may change: the folder, its server and its address."""
    folder = tmp_path / "site"
    shutil.copytree(built, folder)
    server = serve_folder(folder)
    return folder, server, address_of(server)


@dataclass(slots=True)
class Watch:
    """All errors in any page of a test, and every host that was contacted."""

    troubles: list[str] = field(default_factory=list)
    hosts: set[str] = field(default_factory=set)

    def over(self, context: BrowserContext) -> BrowserContext:
        context.on("request", lambda request: self.hosts.add(urlsplit(request.url).hostname or ""))
        context.on("console", lambda said: said.type == "error" and self.troubles.append(said.text))
        context.on("weberror", lambda error: self.troubles.append(str(error.error)))
        return context


@pytest.fixture
def watch() -> Watch:
    return Watch()


@pytest.fixture(autouse=True)
def nothing_amiss(watch: Watch, request: pytest.FixtureRequest) -> Iterator[None]:
    """The check that runs with every test here."""
    yield
    assert watch.hosts <= {"127.0.0.1", ""}
    if not request.node.get_closest_marker("breaks"):
        assert watch.troubles == []


NO_SNAPSHOT = """if (navigator.storage)
    navigator.storage.estimate = () => Promise.resolve({ quota: 100e6, usage: 40e6 });"""
"""A script for a page: its device has too little room for a snapshot, which would start the calculator once more."""


@pytest.fixture
def new_context(
    browser: Browser, watch: Watch, request: pytest.FixtureRequest
) -> Iterator[Callable[..., BrowserContext]]:
    """A fresh, watched browser profile, without a service worker unless *keeps* is set."""
    contexts = []
    own = request.node.get_closest_marker("engine") is not None

    def make(*, keeps: bool = False, **options: Any) -> BrowserContext:
        words = {"viewport": PHONE, "service_workers": "allow" if keeps else "block"} | options
        context = watch.over(browser.new_context(**words))
        context.set_default_timeout(LOADS_MS)
        context.add_init_script(NO_SNAPSHOT if own or keeps else beside.INSTEAD)
        contexts.append(context)
        return context

    yield make
    for context in contexts:
        context.close()


@pytest.fixture
def page(new_context: Callable[..., BrowserContext]) -> Page:
    return new_context().new_page()


@pytest.fixture
def still_context(new_context: Callable[..., BrowserContext]) -> Callable[..., BrowserContext]:
    """A fresh profile whose calculator never starts: enough, and much faster, for what is seen without it."""

    def make(**options: Any) -> BrowserContext:
        context = new_context(**options)
        context.add_init_script(beside.NEVER)
        return context

    return make


@pytest.fixture
def still_page(still_context: Callable[..., BrowserContext]) -> Page:
    return still_context().new_page()


LISTENS = "[data-job][data-listens], [data-book]"
"""A page of a job whose modules have loaded, so that no tap is lost; or that of the book."""


@dataclass(frozen=True, slots=True)
class Hand:
    """A person using one page: opens, types, reads."""

    page: Page
    base: str
    still: bool = False
    """The calculator of this page never starts."""

    def open(self, job: str, *, ready: bool = True) -> Hand:
        self.page.goto(f"{self.base}{job}/")
        self.page.locator(LISTENS).wait_for(state="attached")
        return self.ready() if ready and not self.still else self

    def ready(self) -> Hand:
        self.page.locator("html[data-engine=ready]").wait_for(state="attached")
        return self

    def box(self, word: str) -> Any:
        return self.page.locator(f"#field-{word}")

    def type(self, texts: dict[str, str]) -> Hand:
        for word, text in texts.items():
            field = self.page.locator(f"[data-field={word}]")
            field.evaluate("field => field.closest('details')?.setAttribute('open', '')")
            if field.get_attribute("data-kind") in ("choice", "picks"):
                self.pick(field, text)
                continue
            group = self.page.locator(f"[data-parts={word}]")
            if not group.count():
                self.box(word).fill(text)
            elif text.startswith("["):
                self.rows(word, json.loads(text))
            else:
                self.parts(group.locator("[data-table]"), dict(pair.split(": ") for pair in text.split("; ")))
        return self

    def pick(self, field: Any, text: str) -> None:
        """Choose by value: in a list, or by tapping a chip or tile."""
        if field.locator("select").count():
            field.locator("select").select_option(text)
            return
        for key in text.split(", "):
            tile = field.locator(f'label:has(input[value="{key}"])')
            tile.evaluate("tile => tile.closest('details')?.setAttribute('open', '')")
            tile.click()

    def rows(self, word: str, rows: list[dict[str, Any]]) -> Hand:
        """Fill in one card for each row, adding cards if there are too few."""
        group = self.page.locator(f"[data-parts={word}]")
        cards = group.locator("[data-row]")
        for at, row in enumerate(rows):
            if at == cards.count():
                group.locator("[data-add]").click()
            self.parts(cards.nth(at), row)
        return self

    def parts(self, root: Any, figures: dict[str, Any]) -> None:
        root.evaluate("root => root.closest('[data-row]')?.removeAttribute('data-row-folded')")
        for name, figure in figures.items():
            table = root.locator(f"[data-table={json.dumps(name)}]")
            if table.count():
                table.evaluate("table => table.closest('details')?.setAttribute('open', '')")
                self.parts(table, dict(pair.split(": ") for pair in figure.split("; ")))
                continue
            box = root.locator(f"[data-part={json.dumps(name)}]")
            if box.evaluate("box => box.tagName") == "SELECT":
                box.select_option(str(figure))
            else:
                box.fill(str(figure))

    def way(self, way: str, option: str) -> None:
        self.page.locator(f'[data-way={way}] .chip:has(input[value="{option}"])').click()

    def unit(self, word: str, unit: str) -> None:
        chip = self.page.locator(f'[data-units={word}] .chip:has(input[value="{unit}"])')
        if not chip.is_visible():
            self.page.locator(f"[data-unit-open={word}]").click()
        chip.click()

    def reads(self, answer: dict[str, Any]) -> None:
        """Wait until bar and table show this answer; if they never do, fail with both texts."""
        self.page.locator("[data-answer][data-whose=mine]").wait_for(state="attached")
        for slot in ("label", "text", "then", "sentence"):
            expect(self.page.locator(f"[data-bar] [data-slot={slot}]")).to_have_text(answer["lead"].get(slot) or "")
        expect(self.page.locator("[data-bar] [data-slot=state]")).to_have_text(answer["state"]["word"])
        told = table_of(answer)
        until = time.monotonic() + SETTLES_S
        while self.table() != told and time.monotonic() < until:
            self.page.wait_for_timeout(50)
        assert self.table() == told

    def link(self) -> str:
        """The address that “Copy a link” gives."""
        self.page.evaluate(CATCH_LINK)
        self.page.locator("[data-deed=link]").dispatch_event("click")
        return str(self.page.evaluate("() => globalThis.link"))

    def table(self) -> list[tuple[str, ...]]:
        return [tuple(row) for row in self.page.locator("[data-list=shown]").evaluate(READ_ROWS)]


CATCH_LINK = """() => {
    navigator.clipboard.writeText = (text) => { globalThis.link = text; return Promise.resolve(); }; }"""
READ_ROWS = """body => Array.from(body.rows, row => ["label", "basis", "text", "range"].map(
    slot => row.querySelector(`[data-slot=${slot}]`).textContent))"""


def table_of(answer: dict[str, Any]) -> list[tuple[str, ...]]:
    return [tuple(row.get(slot) or "" for slot in ("label", "basis", "text", "range")) for row in answer["shown"]]


@pytest.fixture(scope="session")
def table() -> Callable[[dict[str, Any]], list[tuple[str, ...]]]:
    """The rows that a page must show for an answer."""
    return table_of


@pytest.fixture
def hand(page: Page, address: str) -> Hand:
    return Hand(page, address)


@pytest.fixture
def still_hand(still_page: Page, address: str) -> Hand:
    """A person using a page whose calculator never starts."""
    return Hand(still_page, address, still=True)


OF_THE_ENGINE = JOBS if is_long() else ("temper", "plan")
"""The jobs that the calculator in the browser answers to what a person types; `tests/inside` has all of them in every run."""


@pytest.fixture(scope="session", params=JOBS)
def opened(request: pytest.FixtureRequest, browser: Browser, address: str) -> Iterator[tuple[str, Hand]]:
    """Each job in turn and a person at its page, which is opened once for all tests that ask for it."""
    with watched_context(browser) as context:
        if request.param not in OF_THE_ENGINE:
            context.add_init_script(beside.INSTEAD)
        yield request.param, Hand(context.new_page(), address).open(request.param)


@contextmanager
def watched_context(browser: Browser, **options: Any) -> Iterator[BrowserContext]:
    """A profile with the calculator in the browser, for several tests: whatever goes wrong in its pages is said at its end."""
    watch = Watch()
    context = watch.over(browser.new_context(viewport=PHONE, service_workers="block", **options))
    context.set_default_timeout(LOADS_MS)
    yield context
    context.close()
    assert watch.hosts <= {"127.0.0.1", ""}
    assert watch.troubles == []


@pytest.fixture(scope="session")
def watched() -> Callable[..., AbstractContextManager[BrowserContext]]:
    return watched_context


@pytest.fixture(scope="session")
def hand_on() -> Callable[[Page, str], Hand]:
    """A person using another page than the test's first one."""
    return Hand


@pytest.fixture(scope="session")
def typed() -> dict[str, dict[str, str]]:
    return TYPED


@pytest.fixture(scope="session")
def pages(built: Path) -> list[str]:
    """The address of every page, relative to the site."""
    return sorted(file.parent.relative_to(built).as_posix().strip(".") for file in built.rglob("index.html"))
