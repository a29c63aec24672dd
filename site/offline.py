"""The list of all built files with their hashes, from which the service worker stores the whole site, or nothing."""

from __future__ import annotations

import json
from hashlib import sha256
from pathlib import Path

import sbom

HERE = Path(__file__).resolve().parent
LEFT_OUT = {"sw.js", "_headers", "404.html", sbom.NAME}
"""What only hosts and programs ask for."""
FOLDERS_LEFT_OUT = ("library/",)
"""What only people who write programs read, with a network: the functions of the library, chapter by chapter."""


def write(out: Path) -> None:
    """Write `sw.js`: the list of files, their common hash with the worker's own text, and that text."""
    kept = listed(out)
    worker = (HERE / "sw.js").read_text(encoding="utf-8")
    name = sha256(f"{json.dumps(kept)}{worker}".encode()).hexdigest()[:16]
    facts = {"name": name, "files": kept}
    (out / "sw.js").write_text(f"const BUILT = {json.dumps(facts, indent=0)};\n{worker}", encoding="utf-8")


def listed(out: Path) -> list[list[str]]:
    """Each built file as the address a browser requests, relative to the site, with the hash of its content."""
    files = {path.relative_to(out).as_posix(): path for path in sorted(out.rglob("*")) if path.is_file()}
    return [
        [address(name), sha256(path.read_bytes()).hexdigest()[:16]]
        for name, path in files.items()
        if name not in LEFT_OUT and not name.startswith(FOLDERS_LEFT_OUT)
    ]


def address(path: str) -> str:
    """A page is requested by its folder, any other file by its name."""
    if path == "index.html":
        return "./"
    return path.removesuffix("index.html") if path.endswith("/index.html") else path
