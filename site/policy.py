"""What a page may load in a browser: only files of this site. Inline scripts move to their own files."""

from __future__ import annotations

import re
from hashlib import sha256
from pathlib import Path

RULES = {
    "default-src": "'none'",
    "script-src": "'self' 'wasm-unsafe-eval'",
    "style-src": "'self'",
    "img-src": "'self' data:",
    "connect-src": "'self' blob:",
    "font-src": "'self'",
    "manifest-src": "'self'",
    "worker-src": "'self'",
    "base-uri": "'none'",
    "form-action": "'none'",
}
HEADERS_ONLY = {"frame-ancestors": "'none'"}
OTHER_HEADERS = {
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
}
INLINE = re.compile(r"<script(?![^>]*\bsrc=)(?![^>]*application/json)[^>]*>(.*?)</script>", re.DOTALL)


def meta() -> str:
    """The policy as an element of the page, for hosts that send no headers."""
    return f'<meta http-equiv="Content-Security-Policy" content="{_written(RULES)}">'


def headers() -> dict[str, str]:
    """What a host sends with every file."""
    return {"Content-Security-Policy": _written(RULES | HEADERS_ONLY)} | OTHER_HEADERS


def move_inline_scripts(html: str, scripts: Path, base: str) -> str:
    """The page with each inline script moved to a file named by its content and loaded in the same place."""

    def moved(found: re.Match[str]) -> str:
        body = found.group(1).strip()
        name = f"inline-{sha256(body.encode()).hexdigest()[:12]}.js"
        scripts.mkdir(parents=True, exist_ok=True)
        (scripts / name).write_text(body + "\n", encoding="utf-8")
        return f'<script src="{base}app/{name}"></script>'

    return INLINE.sub(moved, html)


def _written(rules: dict[str, str]) -> str:
    return "; ".join(f"{name} {value}" for name, value in rules.items())
