"""Compare the time and the bytes until the first answer: this site, on a first and on a next visit, and stock Pyodide, in one run.

The stock page loads the same version unpruned, as the npm package ships it, and unpacks the sandmix wheel. The site is the built
one, on the page of one job. All come from the same server, which sends every file gzipped at level 9, except this site's two `.bin`
files, which already are gzip. A worker's first question is that job's own example, which is quick to answer; the time runs from
just before the worker is made to its answer, and also from the navigation. Each side has a fresh browser profile; a next visit is
that of a newly started browser with the profile of a first visit, after which the page has kept a snapshot. A driven WebKitGTK forgets
its profile when it ends, so its next visit is one in the same browser. The sides take turns.

    python tests/bench/readiness.py SITE [--pairs 7] [--engines chromium firefox webkit]
"""

from __future__ import annotations

import argparse
import contextlib
import gzip
import json
import shutil
import statistics
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "site"), str(ROOT), str(ROOT / "tests/engines")]

from driving import Tab, chromium, firefox, webkit  # noqa: E402

import offline  # noqa: E402  the site's rooms are found only once the path is set
import pack  # noqa: E402
import runtime  # noqa: E402

JOB = "temper"
STOCK_FILES = ("pyodide.mjs", "pyodide.asm.mjs", "pyodide.asm.wasm", "python_stdlib.zip", "pyodide-lock.json")
TYPES = {".js": "text/javascript", ".mjs": "text/javascript", ".wasm": "application/wasm", ".json": "application/json",
         ".css": "text/css", ".svg": "image/svg+xml", ".webmanifest": "application/manifest+json"}  # fmt: skip
ENGINES = {
    "chromium": (chromium, ("chromium", "google-chrome")),
    "firefox": (firefox, ("firefox-esr", "firefox")),
    "webkit": (webkit, ("WebKitWebDriver",)),
}
FORGETFUL = ("webkit",)
SETTLES_S = 1.5

MEASURE = """
const Plain = Worker;
globalThis.measured = new Promise((done) => {
  globalThis.Worker = class extends Plain {
    constructor(address, options) {
      const from = performance.now();
      super(address, options);
      if (String(address).includes("snapshot-worker")) return;
      this.addEventListener("message", ({ data }) => {
        if (data.trouble) done({ trouble: data.trouble });
        if (data.id === "bench") done({ ms: performance.now() - from, page: performance.now(), ok: JSON.parse(data.text).ok });
      });
      this.postMessage({ id: "bench", text: QUESTION });
    }
  };
});
"""
STOCK_PAGE = """<!doctype html><meta charset="utf-8"><title>stock</title><script src="measure.js"></script>
<script type="module" src="start.js"></script>"""
STOCK_START = 'new Worker("worker.js", { type: "module" });'
STOCK_WORKER = """
const RUNTIME = new URL("./py/", import.meta.url).href;
const engine = start();
engine.catch((error) => self.postMessage({ trouble: String(error) }));
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
Times = dict[str, list[float]]


def main() -> int:
    """Measure and print; fail only if a page gave no answer."""
    asked = argparse.ArgumentParser(description="Readiness and bytes of this site against stock Pyodide.")
    asked.add_argument("site", type=Path)
    asked.add_argument("--pairs", type=int, default=7)
    asked.add_argument("--engines", nargs="+", choices=ENGINES, default=["chromium"])
    options = asked.parse_args()
    measure = MEASURE.replace("QUESTION", json.dumps(json.dumps({"job": JOB, "inputs": example()})))
    with tempfile.TemporaryDirectory() as folder:
        sides = {
            "stock": stock_files(Path(folder), measure),
            "site": site_files(options.site, Path(folder), measure),
        }
    print_bytes(sides)
    server, address = serve(sides)
    try:
        for engine in options.engines:
            print(f"\n{engine}")
            print_times(visits(engine, address, f"{address}/site/{JOB}/", options.pairs))
    finally:
        server.shutdown()
    return 0


def example() -> dict[str, object]:
    """The inputs of the job's worked example."""
    from sandmix.doors.facade import call

    return next(job["example"] for job in json.loads(call('{"job": "describe"}'))["jobs"] if job["name"] == JOB)


def stock_files(folder: Path, measure: str) -> Files:
    """The files that npm ships, the wheel, and a bare page."""
    core = runtime.core_folder()
    files = {f"py/{name}": (core / name).read_bytes() for name in STOCK_FILES}
    files["py/sandmix.whl"] = pack.wheel(folder).read_bytes()
    texts = {"": STOCK_PAGE, "measure.js": measure, "start.js": STOCK_START, "worker.js": STOCK_WORKER}
    return files | {name: text.encode() for name, text in texts.items()}


def site_files(site: Path, folder: Path, measure: str) -> Files:
    """The built site, whose page of the job measures itself."""
    copy = folder / "site"
    shutil.copytree(site, copy)
    (copy / "measure.js").write_text(measure, "utf-8")
    page = copy / JOB / "index.html"
    page.write_text(
        page.read_text("utf-8").replace("<head>", '<head><script src="../measure.js"></script>', 1), "utf-8"
    )
    offline.write(copy)
    paths = (path for path in copy.rglob("*") if path.is_file())
    return {offline.address(path.relative_to(copy).as_posix()).removeprefix("./"): path.read_bytes() for path in paths}


def print_bytes(sides: dict[str, Files]) -> None:
    """The size of each runtime file of both sides as it is sent, and the sums."""
    sums = {}
    for side, files in sides.items():
        sizes = {name: len(travelling(name, data)[0]) for name, data in files.items() if name.startswith("py/")}
        sums[side] = sum(sizes.values())
        print(f"{side}: bytes that travel")
        for name, size in sizes.items():
            print(f"  {name:40} {size:>10,}")
        print(f"  {'sum':40} {sums[side]:>10,}")
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
            path = self.path.partition("?")[0]
            body, squeezed = held.get(path, (b"", False))
            self.send_response(200 if path in held else 404)
            self.send_header("Content-Type", content_type(path))
            self.send_header("Content-Length", str(len(body)))
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


def visits(engine: str, address: str, job: str, pairs: int) -> dict[str, Times]:
    """Milliseconds to the first answer, from the worker and from the navigation: on a stock page, a first and a next visit."""
    times: dict[str, Times] = {side: {"ms": [], "page": []} for side in ("stock", "first", "next")}
    for _ in range(pairs):
        with tempfile.TemporaryDirectory() as folder:
            other, own = Path(folder) / "other", Path(folder) / "own"
            with opened(engine, other) as tab:
                visit(tab, f"{address}/stock/", times["stock"])
            with opened(engine, own) as tab:
                visit(tab, job, times["first"])
                tab.wait("() => document.querySelector('html[data-snapshot=kept]')")
                tab.wait("() => document.querySelector('[data-offline=ready]')")
                if engine in FORGETFUL:
                    next_visit(tab, job, times["next"])
            if engine not in FORGETFUL:
                with opened(engine, own) as tab:
                    next_visit(tab, job, times["next"])
    return times


@contextlib.contextmanager
def opened(engine: str, profile: Path) -> Iterator[Tab]:
    """A browser that was just started, left alone for a moment."""
    drive, programs = ENGINES[engine]
    program = next(filter(None, map(shutil.which, programs)), None)
    if not program:
        raise SystemExit(f"{engine} is not installed here: no {' or '.join(programs)}.")
    with drive(program, profile) as tab:
        time.sleep(SETTLES_S)
        yield tab


def visit(tab: Tab, address: str, taken: Times) -> None:
    """One visit, measured by the page itself."""
    tab.go(address)
    measured = tab.run("() => globalThis.measured")
    if not measured.get("ok"):
        raise SystemExit(f"{address} gave no answer: {measured}")
    for part, times in taken.items():
        times.append(float(measured[part]))


def next_visit(tab: Tab, address: str, taken: Times) -> None:
    """A visit that has to start from the snapshot."""
    visit(tab, address, taken)
    tab.wait("() => document.querySelector('html[data-snapshot=used]')")


def print_times(times: dict[str, Times]) -> None:
    """Print every round, the medians, and their ratios to the stock page's first visit."""
    for stock, first, after in zip(*(times[side]["ms"] for side in times), strict=True):
        print(
            f"  stock {stock:6.0f} ms   first {first:6.0f} ms ({first / stock:.3f})   next {after:6.0f} ms ({after / stock:.3f})"
        )
    stock = statistics.median(times["stock"]["ms"])
    for side, taken in times.items():
        made, whole = statistics.median(taken["ms"]), statistics.median(taken["page"])
        print(
            f"{side:6} median {made:.0f} ms from the worker, {whole:.0f} ms from the navigation; to stock {made / stock:.3f}"
        )
    for side in ("first", "next"):
        pairs = [own / other for own, other in zip(times[side]["ms"], times["stock"]["ms"], strict=True)]
        print(
            f"{side}, to stock: median of the rounds {statistics.median(pairs):.3f}, {min(pairs):.3f} to {max(pairs):.3f}"
        )


if __name__ == "__main__":
    raise SystemExit(main())
