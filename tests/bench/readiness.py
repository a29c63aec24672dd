"""Compare the time and the bytes until the first answer: this site and stock Pyodide, in one run.

The stock page loads the same version unpruned, as the npm package ships it, and unpacks the sandmix wheel. Both pages
use this site's `engine.js`, get the same question under the same content policy, and come from the same server, which
sends every file gzipped at level 9, except this site's two `.bin` files, which already are gzip. Each visit is the first
of a fresh browser profile; the time runs from just before the worker is made to the first answer. The two sides take
turns.

    python tests/bench/readiness.py [--pairs 7] [--browser /usr/bin/chromium]
"""

from __future__ import annotations

import argparse
import gzip
import json
import statistics
import sys
import tempfile
import threading
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "site"), str(ROOT)]

import pack  # noqa: E402  the site's rooms are found only once the path is set
import runtime  # noqa: E402

STOCK_FILES = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip", "pyodide-lock.json")
POLICY = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; connect-src 'self'; worker-src 'self'"
TYPES = {".js": "text/javascript", ".mjs": "text/javascript", ".wasm": "application/wasm", ".json": "application/json"}
BROWSER_WORDS = "--no-sandbox --disable-gpu --disable-background-networking --disable-component-update --disable-sync"

PAGE = '<!doctype html><meta charset="utf-8"><title>readiness</title><script type="module" src="ready.js"></script>'
READY = """
import { Engine } from "./app/engine.js";
const engine = new Engine(new URL("./app/worker.js", import.meta.url));
const before = performance.now();
globalThis.measured = engine.ask(QUESTION).then(
  (answer) => ({ ms: performance.now() - before, ok: answer.ok }),
  (error) => ({ trouble: error.message }),
);
"""
STOCK_WORKER = """
const RUNTIME = new URL("../py/", import.meta.url).href;
const engine = start();
engine.then(() => self.postMessage({ ready: true }), (error) => self.postMessage({ trouble: String(error) }));
self.addEventListener("message", async ({ data: { id, text } }) => {
  const call = await engine;
  self.postMessage({ id, text: call(text) });
});
async function start() {
  const wheel = fetch(RUNTIME + "sandmix.whl").then((response) => response.arrayBuffer());
  const { loadPyodide } = await import(`${RUNTIME}pyodide.mjs`);
  const pyodide = await loadPyodide({ indexURL: RUNTIME });
  pyodide.unpackArchive(await wheel, "wheel");
  return pyodide.pyimport("sandmix.facade").call;
}
"""

Files = dict[str, bytes]


def main() -> int:
    """Measure and print; fail only if a page gave no answer."""
    asked = argparse.ArgumentParser(description="Readiness and bytes of this site against stock Pyodide.")
    asked.add_argument("--pairs", type=int, default=7)
    asked.add_argument("--browser", default="/usr/bin/chromium")
    options = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        sides = {"stock": stock_files(Path(folder)), "site": site_files(Path(folder))}
    print_bytes(sides)
    server, address = serve(sides)
    try:
        times = visits(address, options.pairs, options.browser)
    finally:
        server.shutdown()
    print_times(times)
    return 0


def stock_files(folder: Path) -> Files:
    """The files that npm ships, and the wheel."""
    core = runtime.core_folder()
    files = {f"py/{name}": (core / name).read_bytes() for name in STOCK_FILES}
    files["py/sandmix.whl"] = pack.wheel(folder).read_bytes()
    return files | page_files(STOCK_WORKER)


def site_files(folder: Path) -> Files:
    """The files that this site's build writes."""
    out = folder / "py"
    names = runtime.build(out).files
    files = {f"py/{name}": (out / name).read_bytes() for name in names}
    return files | page_files((ROOT / "site/docs/app/worker.js").read_text("utf-8"))


def page_files(worker: str) -> Files:
    """The page around a worker; the question is the first job's own example."""
    client = (ROOT / "site/docs/app/engine.js").read_text("utf-8")
    ready = READY.replace("QUESTION", json.dumps(question()))
    texts = {"": PAGE, "ready.js": ready, "app/engine.js": client, "app/worker.js": worker}
    return {name: text.encode() for name, text in texts.items()}


def question() -> dict[str, object]:
    """A request for a job with the inputs of its worked example."""
    from sandmix.doors.facade import call

    job = json.loads(call('{"job": "describe"}'))["jobs"][0]
    return {"job": job["name"], "inputs": job["example"]}


def print_bytes(sides: dict[str, Files]) -> None:
    """The size of each runtime file of both sides as it is sent, and the sums."""
    sums = {}
    for side, files in sides.items():
        sizes = {name: len(travelling(name, data)[0]) for name, data in files.items() if name.startswith("py/")}
        sums[side] = sum(sizes.values())
        print(f"{side}: bytes that travel")
        for name, size in sizes.items():
            print(f"  {name:24} {size:>10,}")
        print(f"  {'sum':24} {sums[side]:>10,}")
    print(f"bytes, site to stock: {sums['site'] / sums['stock']:.3f}\n")


def travelling(name: str, data: bytes) -> tuple[bytes, bool]:
    """The bytes as they are sent, and whether the server gzipped them."""
    return (data, False) if name.endswith(".bin") else (gzip.compress(data, 9, mtime=0), True)


def serve(sides: dict[str, Files]) -> tuple[ThreadingHTTPServer, str]:
    """A server of files in memory, compressed beforehand."""
    held = {f"/{side}/{name}": travelling(name, data) for side, files in sides.items() for name, data in files.items()}

    class Handler(BaseHTTPRequestHandler):
        protocol_version = "HTTP/1.1"

        def do_GET(self) -> None:
            body, squeezed = held.get(self.path, (b"", False))
            self.send_response(200 if self.path in held else 404)
            self.send_header("Content-Type", content_type(self.path))
            self.send_header("Content-Length", str(len(body)))
            self.send_header("Content-Security-Policy", POLICY)
            if squeezed:
                self.send_header("Content-Encoding", "gzip")
            self.end_headers()
            self.wfile.write(body)

        def log_message(self, *words: object) -> None:
            pass

    server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    return server, f"http://127.0.0.1:{server.server_port}"


def content_type(path: str) -> str:
    """The type of a file: a page for a folder, else by the end of its name."""
    return "text/html" if path.endswith("/") else TYPES.get(Path(path).suffix, "application/octet-stream")


def visits(address: str, pairs: int, browser: str) -> dict[str, list[float]]:
    """Milliseconds to the first answer, for both sides."""
    times: dict[str, list[float]] = {"stock": [], "site": []}
    with sync_playwright() as playwright:
        for _ in range(pairs):
            for side, taken in times.items():
                chromium = playwright.chromium.launch(executable_path=browser, args=BROWSER_WORDS.split())
                taken.append(visit(chromium, f"{address}/{side}/"))
                chromium.close()
    return times


def visit(browser: Browser, address: str) -> float:
    """One first visit."""
    page = browser.new_page()
    page.goto(address)
    measured = page.evaluate("globalThis.measured")
    if not measured.get("ok"):
        raise SystemExit(f"{address} gave no answer: {measured}")
    return float(measured["ms"])


def print_times(times: dict[str, list[float]]) -> None:
    """Print every pair, the medians, and their ratio."""
    ratios = [site / stock for stock, site in zip(times["stock"], times["site"], strict=True)]
    for stock, site, ratio in zip(times["stock"], times["site"], ratios, strict=True):
        print(f"  stock {stock:6.0f} ms   site {site:6.0f} ms   ratio {ratio:.3f}")
    medians = {side: statistics.median(taken) for side, taken in times.items()}
    print(f"medians: stock {medians['stock']:.0f} ms, site {medians['site']:.0f} ms")
    fastest = {side: min(taken) for side, taken in times.items()}
    print(f"fastest: stock {fastest['stock']:.0f} ms, site {fastest['site']:.0f} ms")
    pairs = statistics.median(ratios)
    print(f"readiness, site to stock: {medians['site'] / medians['stock']:.3f}; median of the pairs {pairs:.3f}")


if __name__ == "__main__":
    raise SystemExit(main())
