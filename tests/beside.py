"""The site's server with two more addresses, by which a page gets its answers from the library that runs beside the test.

A calculator in the browser takes longer to start than most tests need for all the rest. So a page gets another worker
(`browser/beside.js`) unless its test has the mark `engine`; that worker asks here. That the calculator in the browser gives the same
answers is tested with every job's example (`tests/inside`, `browser/test_snapshot.py`), and with what a person types
(`browser/test_answers.py`: two jobs, and all of them in a long run).
"""

from __future__ import annotations

import json
from http import HTTPStatus
from pathlib import Path

from sandmix.doors.facade import call
from server import Handler, SiteServer

BESIDE = Path(__file__).parent / "browser/beside.js"
WORKER = "/app/beside.js"
ASKED = "/app/asked"
INSTEAD = f"""globalThis.Worker = class extends Worker {{
    constructor(address, words) {{
        super(String(address).endsWith("/app/worker.js") ? new URL("{WORKER}", location.origin) : address, words);
    }} }};"""
"""A script for a page: it starts the worker that asks here."""
NEVER = "globalThis.Worker = class extends EventTarget { postMessage() {} terminate() {} };"
"""A script for a page: its calculator never starts."""


class BesideHandler(Handler):
    """Answers what the worker asks, and everything else as the site's server does."""

    def do_GET(self) -> None:  # noqa: N802  the base's name
        if self.path == WORKER:
            self._give(BESIDE.read_bytes(), "text/javascript")
        else:
            super().do_GET()

    def do_POST(self) -> None:  # noqa: N802  the base's name
        if self.path != ASKED:
            self.send_error(HTTPStatus.NOT_FOUND)
            return
        first, _, rest = self.rfile.read(int(self.headers["Content-Length"])).partition(b"\n")
        question = json.loads(first)
        files, at = {}, 0
        for name, size in question["sizes"]:
            files[name] = rest[at : at + size]
            at += size
        self._give(call(question["text"], files).encode(), "application/json")

    def _give(self, body: bytes, kind: str) -> None:
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)


def serving(folder: Path) -> SiteServer:
    """A server of this folder on a free port, not running yet."""
    server = SiteServer(("127.0.0.1", 0), folder)
    server.RequestHandlerClass = BesideHandler
    return server
