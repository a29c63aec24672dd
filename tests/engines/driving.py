"""One small way to drive Chromium, Firefox and WebKitGTK: the commands of W3C WebDriver, over whatever wire each of them has.

WebKitGTK has a driver program that takes the commands by HTTP. Firefox takes the same commands, by the same names, from its own port
(Marionette), so it needs no other program. Chromium is driven by Playwright, as in the other tests.
"""

from __future__ import annotations

import contextlib
import json
import os
import socket
import subprocess
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Protocol
from urllib.request import Request, urlopen

from playwright.sync_api import Page, sync_playwright

STARTS_S = 120
WAITS_S = 240
"""How long a machine with other work may take over a start, and over a step."""
TAPS = 6
ELEMENT = "element-6066-11e4-a52e-4f735466cecf"
"""The key of an element in W3C WebDriver."""
PATHS = {
    "Navigate": ("POST", "/url"),
    "ExecuteScript": ("POST", "/execute/sync"),
    "ExecuteAsyncScript": ("POST", "/execute/async"),
    "SetTimeouts": ("POST", "/timeouts"),
    "FindElement": ("POST", "/element"),
    "ElementClick": ("POST", "/element/{id}/click"),
    "ElementClear": ("POST", "/element/{id}/clear"),
    "ElementSendKeys": ("POST", "/element/{id}/value"),
}
PROMISED = """const done = arguments[arguments.length - 1];
    Promise.resolve().then(() => (%s)(...Array.from(arguments).slice(0, -1))).then(
        (value) => done({ value }), (error) => done({ error: String(error) }));"""


class DriveError(Exception):
    """The browser refused a command."""


class NotInteractableError(DriveError):
    """A part was not where it was a moment ago."""


class Wire(Protocol):
    """Takes a command of WebDriver by its name and gives back its value."""

    def send(self, command: str, /, **values: Any) -> Any: ...


class HttpWire:
    """A driver program that listens on a port: WebKitWebDriver."""

    def __init__(self, port: int, wanted: dict[str, Any]) -> None:
        self._base = f"http://127.0.0.1:{port}/session"
        begun = self._ask("POST", "", {"capabilities": {"alwaysMatch": wanted}})
        self._base += f"/{begun['sessionId']}"

    def send(self, command: str, /, **values: Any) -> Any:
        method, path = PATHS[command]
        return self._ask(method, path.format(id=values.pop("id", "")), values)

    def close(self) -> None:
        self._ask("DELETE", "", None)

    def _ask(self, method: str, path: str, values: dict[str, Any] | None) -> Any:
        body = None if values is None else json.dumps(values).encode()
        request = Request(self._base + path, data=body, method=method, headers={"Content-Type": "application/json"})
        try:
            with urlopen(request, timeout=WAITS_S) as answer:
                return json.load(answer)["value"]
        except OSError as error:
            said = error.read().decode() if hasattr(error, "read") else ""
            refused = NotInteractableError if "not interactable" in said else DriveError
            raise refused(f"{path}: {error} {said}") from error


class MarionetteWire:
    """Firefox's own port: each message is JSON after its length, a command is [0, number, name, values]."""

    def __init__(self, port: int) -> None:
        self._plug = socket.create_connection(("127.0.0.1", port), timeout=WAITS_S)
        self._heard = self._plug.makefile("rb")
        self._number = 0
        self._next()
        self.send("NewSession", capabilities={})

    def send(self, command: str, /, **values: Any) -> Any:
        self._number += 1
        body = json.dumps([0, self._number, f"WebDriver:{command}", values]).encode()
        self._plug.sendall(b"%d:%s" % (len(body), body))
        _, number, error, value = self._next()
        assert number == self._number
        if error:
            raise DriveError(f"{command}: {error}")
        return value["value"] if isinstance(value, dict) and value.keys() == {"value"} else value

    def close(self) -> None:
        self._plug.close()

    def _next(self) -> Any:
        size = b""
        while not size.endswith(b":"):
            sign = self._heard.read(1)
            if not sign:
                raise DriveError("Firefox has closed its port.")
            size += sign
        return json.loads(self._heard.read(int(size[:-1])))


class PlaywrightWire:
    """A page of Playwright; an element's name is its selector."""

    def __init__(self, page: Page) -> None:
        self._page = page

    def send(self, command: str, /, **values: Any) -> Any:
        page, element = self._page, values.get("id", "")
        match command:
            case "Navigate":
                page.goto(values["url"])
            case "ExecuteScript":
                return page.evaluate(
                    f"(args) => (function () {{ {values['script']} }}).apply(null, args)", values["args"]
                )
            case "ExecuteAsyncScript":
                given = "(args) => new Promise((done) => (function () { %s }).apply(null, [...args, done]))"
                return page.evaluate(given % values["script"], values["args"])
            case "FindElement":
                return {ELEMENT: values["value"]}
            case "ElementClick":
                page.locator(element).first.click()
            case "ElementClear":
                page.locator(element).first.clear()
            case "ElementSendKeys" if page.locator(element).first.get_attribute("type") == "file":
                page.locator(element).first.set_input_files(values["text"])
            case "ElementSendKeys":
                page.locator(element).first.press_sequentially(values["text"])
        return None


class Tab:
    """One page and what a person does with it."""

    def __init__(self, wire: Wire) -> None:
        self._wire = wire
        wire.send("SetTimeouts", script=WAITS_S * 1000, pageLoad=WAITS_S * 1000)

    def go(self, address: str) -> None:
        self._wire.send("Navigate", url=address)

    def come_back(self) -> None:
        """Open the page once more by its address. (Firefox's own command to reload goes past the service worker.)"""
        script = "return location.origin + location.pathname"
        self.go(self._wire.send("ExecuteScript", script=script, args=[]))

    def run(self, function: str, *values: Any) -> Any:
        """What a JavaScript function gives, after its promise is kept."""
        told = self._wire.send("ExecuteAsyncScript", script=PROMISED % function, args=list(values))
        if "error" in told:
            raise DriveError(told["error"])
        return told.get("value")

    def wait(self, function: str, *values: Any) -> Any:
        """What a JavaScript function gives as soon as that is true."""
        until = time.monotonic() + WAITS_S
        while not (
            value := self._wire.send("ExecuteScript", script=f"return ({function})(...arguments)", args=list(values))
        ):
            if time.monotonic() > until:
                page = self.run("() => [location.href, document.readyState, { ...document.documentElement.dataset }]")
                raise DriveError(f"never true: {function} {values}\n{page}\n{self.text('main')[:3000]}")
            time.sleep(0.1)
        return value

    def text(self, selector: str) -> str:
        """The text of the first part that fits, with single spaces."""
        return str(
            self.run("(at) => (document.querySelector(at)?.textContent ?? '').replace(/\\s+/g, ' ').trim()", selector)
        )

    def tap(self, selector: str) -> None:
        """Tap a part; again, as a person would, where the page was still moving under the finger."""
        for _ in range(TAPS):
            with contextlib.suppress(NotInteractableError):
                self._wire.send("ElementClick", id=self._part(selector))
                return
            time.sleep(0.5)
        self._wire.send("ElementClick", id=self._part(selector))

    def type(self, selector: str, text: str) -> None:
        part = self._part(selector)
        self._wire.send("ElementClear", id=part)
        self._wire.send("ElementSendKeys", id=part, text=text)

    def choose(self, selector: str, file: Path) -> None:
        self._wire.send("ElementSendKeys", id=self._part(selector), text=str(file))

    def _part(self, selector: str) -> str:
        """A part of the page, unfolded and in the middle of the screen, where no bar is over it."""
        self.wait("(at) => document.querySelector(at)", selector)
        self.run(
            """(at) => { const part = document.querySelector(at);
            for (let fold = part; (fold = fold.parentElement?.closest("details")); ) fold.open = true;
            part.scrollIntoView({ block: "center", behavior: "instant" }); }""",
            selector,
        )
        found = self._wire.send("FindElement", using="css selector", value=selector)
        return str(found[ELEMENT])


@contextlib.contextmanager
def chromium(program: str, profile: Path) -> Iterator[Tab]:
    """Chromium by Playwright, as in the other tests, with a profile that keeps its files."""
    with sync_playwright() as playwright:
        words = {
            "executable_path": program,
            "args": ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
        }
        context = playwright.chromium.launch_persistent_context(
            profile, **words, viewport={"width": 390, "height": 844}
        )
        context.set_default_timeout(WAITS_S * 1000)
        yield Tab(PlaywrightWire(context.pages[0]))
        context.close()


@contextlib.contextmanager
def firefox(program: str, profile: Path) -> Iterator[Tab]:
    """Firefox by its own port."""
    port = free_port()
    prefs = {
        "marionette.port": port, "app.update.auto": False, "browser.shell.checkDefaultBrowser": False,
        "datareporting.policy.dataSubmissionEnabled": False, "app.normandy.enabled": False, "network.captive-portal-service.enabled": False,
        "network.connectivity-service.enabled": False, "browser.safebrowsing.downloads.remote.enabled": False,
    }  # fmt: skip
    lines = [f'user_pref("{name}", {json.dumps(value)});' for name, value in prefs.items()]
    profile.mkdir(parents=True, exist_ok=True)
    (profile / "user.js").write_text("\n".join(lines), encoding="utf-8")
    with running(
        [
            program,
            "--headless",
            "--marionette",
            "--remote-allow-system-access",
            "--no-remote",
            "--profile",
            str(profile),
        ],
        port,
    ):
        wire = MarionetteWire(port)
        yield Tab(wire)
        wire.close()


@contextlib.contextmanager
def webkit(program: str, profile: Path) -> Iterator[Tab]:
    """WebKitGTK by its driver, on a screen that nobody sees."""
    port, home = free_port(), {f"XDG_{name}_HOME": str(profile / name) for name in ("DATA", "CACHE", "CONFIG")}
    with running(["xvfb-run", "--auto-servernum", program, f"--port={port}"], port, home | {"GIO_USE_VFS": "local"}):
        wire = HttpWire(port, {})
        yield Tab(wire)
        wire.close()


@contextlib.contextmanager
def running(command: list[str], port: int, more: dict[str, str] | None = None) -> Iterator[None]:
    """A program that listens on this port, and is ended with all that it started."""
    words = os.environ | {"MOZ_DISABLE_CONTENT_SANDBOX": "1", "WEBKIT_DISABLE_COMPOSITING_MODE": "1"} | (more or {})
    with subprocess.Popen(
        command, env=words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, start_new_session=True
    ) as program:
        try:
            wait_for(port, program)
            yield
        finally:
            with contextlib.suppress(ProcessLookupError):
                os.killpg(program.pid, 15)


def wait_for(port: int, program: subprocess.Popen[bytes]) -> None:
    """Wait until a program listens."""
    until = time.monotonic() + STARTS_S
    while True:
        try:
            socket.create_connection(("127.0.0.1", port), timeout=5).close()
        except OSError:
            if time.monotonic() > until or program.poll() is not None:
                raise DriveError(f"{program.args!r} does not listen on port {port}.") from None
            time.sleep(0.2)
        else:
            return


def free_port() -> int:
    with socket.socket() as plug:
        plug.bind(("127.0.0.1", 0))
        return int(plug.getsockname()[1])
