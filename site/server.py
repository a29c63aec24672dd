"""The web server for the built site. It behaves like any static host, so that what works here works there.

Files are sent with fixed types, an ETag of their content, gzip if it helps, and the headers that the
site's own `_headers` file gives for each path. No folder is listed and nothing outside the site is read.
"""

from __future__ import annotations

import gzip
import hashlib
import re
import ssl
import sys
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any
from urllib.parse import quote, unquote

HEADERS_FILE = "_headers"
NOT_FOUND_PAGE = "404.html"
IDLE_S = 60
IN_A_QUERY = "=&+%;:@/?,!$'()*~"
TYPES = {
    ".css": "text/css; charset=utf-8",
    ".crt": "application/x-x509-ca-cert",
    ".html": "text/html; charset=utf-8",
    ".ico": "image/x-icon",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".map": "application/json",
    ".md": "text/markdown; charset=utf-8",
    ".mjs": "text/javascript; charset=utf-8",
    ".png": "image/png",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".wasm": "application/wasm",
    ".webmanifest": "application/manifest+json",
    ".xml": "application/xml",
}
COMPRESSED = ("text/", "application/javascript", "application/json", "application/manifest", "application/wasm",
              "application/xml", "image/svg")  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """The headers for every path that a pattern matches; `*` in a pattern stands for anything."""

    pattern: re.Pattern[str]
    headers: tuple[tuple[str, str], ...]


def read_rules(text: str) -> tuple[Rule, ...]:
    """The rules of a headers file: a line with a path pattern, then its indented `Name: value` lines."""
    blocks: list[tuple[str, list[tuple[str, str]]]] = []
    for line in text.splitlines():
        if not line.strip() or line.lstrip().startswith("#"):
            continue
        if not line[0].isspace():
            blocks.append((line.strip(), []))
            continue
        name, colon, value = line.strip().partition(":")
        if not blocks or not colon:
            raise ValueError(f"{HEADERS_FILE}: this line belongs to no path, or is not 'Name: value': {line.strip()}")
        blocks[-1][1].append((name.strip(), value.strip()))
    return tuple(
        Rule(pattern=re.compile(".*".join(map(re.escape, path.split("*"))), re.DOTALL), headers=tuple(headers))
        for path, headers in blocks
    )


def headers_for(path: str, rules: tuple[Rule, ...]) -> dict[str, str]:
    """All headers that the rules give this path; two values of one name are joined by a comma, as on static hosts."""
    found: dict[str, str] = {}
    for rule in rules:
        if rule.pattern.fullmatch(path):
            for name, value in rule.headers:
                found[name] = f"{found[name]}, {value}" if name in found else value
    return found


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """A file's bytes as they are sent: plain, and gzipped if that is smaller."""

    kind: str
    plain: bytes
    gzipped: bytes | None
    digest: str

    @classmethod
    def of(cls, body: bytes, suffix: str) -> Content:
        kind = TYPES.get(suffix.lower(), "application/octet-stream")
        gzipped = gzip.compress(body, 6, mtime=0) if kind.startswith(COMPRESSED) else None
        return cls(
            kind=kind,
            plain=body,
            gzipped=gzipped if gzipped is not None and len(gzipped) < len(body) else None,
            digest=hashlib.sha256(body).hexdigest()[:32],
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """The answer for a path: content, or another path to request."""

    status: HTTPStatus
    content: Content | None = None
    elsewhere: str = ""


@dataclass(slots=True, kw_only=True)
class Folder:
    """The built site on disk; bytes that were sent once stay in memory until their file changes."""

    root: Path
    _rules: tuple[Rule, ...] = ()
    _kept: dict[Path, tuple[tuple[int, int], Content]] = field(default_factory=dict)

    def answer(self, path: str) -> Answer:
        """The answer for a decoded, absolute URL path; one that the system can't read leads nowhere."""
        try:
            return self._answer(path)
        except (OSError, ValueError):
            return Answer(status=HTTPStatus.NOT_FOUND, content=Content.of(b"There is no such page.\n", ".txt"))

    def _answer(self, path: str) -> Answer:
        file = self._inside(path)
        if file is not None and file.is_dir():
            if not path.endswith("/"):
                return Answer(status=HTTPStatus.MOVED_PERMANENTLY, elsewhere=f"{path}/")
            file /= "index.html"
        elif path.endswith("/"):
            file = None
        if file is None or not file.is_file() or file == self.root / HEADERS_FILE:
            return Answer(status=HTTPStatus.NOT_FOUND, content=self._not_found())
        return Answer(status=HTTPStatus.OK, content=self._content(file))

    def rules(self) -> tuple[Rule, ...]:
        """The rules of the site's headers file, read each time; those from before while the site is being rebuilt without it."""
        with suppress(OSError, ValueError):
            self._rules = read_rules((self.root / HEADERS_FILE).read_text(encoding="utf-8"))
        return self._rules

    def _inside(self, path: str) -> Path | None:
        parts = [part for part in path.split("/") if part]
        if any(part in {".", ".."} or "\0" in part for part in parts):
            return None
        file = self.root.joinpath(*parts)
        return file if file.resolve().is_relative_to(self.root.resolve()) else None

    def _not_found(self) -> Content:
        page = self.root / NOT_FOUND_PAGE
        return self._content(page) if page.is_file() else Content.of(b"There is no such page.\n", ".txt")

    def _content(self, file: Path) -> Content:
        now = (file.stat().st_mtime_ns, file.stat().st_size)
        seen, content = self._kept.get(file, (None, None))
        if content is None or seen != now:
            content = Content.of(file.read_bytes(), file.suffix)
            self._kept[file] = (now, content)
        return content


class Handler(BaseHTTPRequestHandler):
    """Answers GET and HEAD from a Folder."""

    protocol_version = "HTTP/1.1"
    default_request_version = "HTTP/1.0"  # of a request that can't be read: a lower one would get no headers
    timeout = IDLE_S
    server: SiteServer

    def do_GET(self) -> None:
        answer = self.server.folder.answer(self._asked()[0])
        if answer.content is None:
            self._redirect(answer)
        else:
            self._send(answer.status, answer.content)

    def do_HEAD(self) -> None:
        self.do_GET()

    def version_string(self) -> str:
        """The server's name, without the Python it runs on."""
        return "sandmix"

    def log_message(self, format: str, *args: Any) -> None:
        """Print nothing: the terminal is for the addresses and for faults."""

    def send_error(self, code: int, *_: Any, **__: Any) -> None:
        """Refuse a request that can't be read or has another method, and end the connection: the rest of it was not read."""
        status = HTTPStatus.METHOD_NOT_ALLOWED if code == HTTPStatus.NOT_IMPLEMENTED else HTTPStatus(code)
        body = f"{status.value} {status.phrase}\n".encode("ascii")
        headers = {"Content-Type": TYPES[".txt"], "Content-Length": str(len(body)), "Connection": "close"}
        if status is HTTPStatus.METHOD_NOT_ALLOWED:
            headers["Allow"] = "GET, HEAD"
        self._head(status, headers)
        if self.command != "HEAD":
            self.wfile.write(body)

    def _asked(self) -> tuple[str, str]:
        """The decoded path and the query; an address with a host in it is one on this host."""
        target = re.sub(r"^[a-z]+://[^/?#]*", "", getattr(self, "path", "") or "/", flags=re.IGNORECASE)
        path, _, query = target.partition("#")[0].partition("?")
        return "/" + unquote(path, errors="replace").lstrip("/"), query

    def _redirect(self, answer: Answer) -> None:
        query = self._asked()[1]
        where = quote(answer.elsewhere) + (f"?{quote(query, safe=IN_A_QUERY)}" if query else "")
        self._head(answer.status, {"Location": where, "Content-Length": "0"})

    def _head(self, status: HTTPStatus, headers: dict[str, str]) -> None:
        """Send the status and the headers, with those of the site for this path, which every answer has."""
        always = {"X-Content-Type-Options": "nosniff", "Cache-Control": "no-cache"}
        self.send_response(status)
        for name, value in (always | headers | headers_for(self._asked()[0], self.server.folder.rules())).items():
            self.send_header(name, value)
        self.end_headers()

    def _send(self, status: HTTPStatus, content: Content) -> None:
        gzipped = content.gzipped if self._takes_gzip() else None
        body = content.plain if gzipped is None else gzipped
        tag = f'"{content.digest}"' if gzipped is None else f'"{content.digest}-gz"'
        unchanged = status is HTTPStatus.OK and self._has(tag)
        headers = {
            "Content-Type": content.kind,
            "Content-Length": str(len(body)),
            "ETag": tag,
            "Vary": "Accept-Encoding",
        }
        if gzipped is not None:
            headers["Content-Encoding"] = "gzip"
        if unchanged:
            for name in ("Content-Type", "Content-Length", "Content-Encoding"):
                headers.pop(name, None)
        self._head(HTTPStatus.NOT_MODIFIED if unchanged else status, headers)
        if not unchanged and self.command != "HEAD":
            self.wfile.write(body)

    def _takes_gzip(self) -> bool:
        offers = (offer.replace(" ", "").split(";") for offer in self.headers.get("Accept-Encoding", "").split(","))
        return any(name == "gzip" and not re.match(r"q=0(\.0*)?$", (rest or [""])[0]) for name, *rest in offers)

    def _has(self, tag: str) -> bool:
        held = {each.strip().removeprefix("W/") for each in self.headers.get("If-None-Match", "").split(",")}
        return tag in held or "*" in held


class SiteServer(ThreadingHTTPServer):
    """Serves one folder, over TLS if a context is given; port 0 takes any free port.

    The handshake happens in the connection's own thread, so that a silent client does not block the others.
    """

    daemon_threads = True

    def __init__(self, address: tuple[str, int], root: Path, *, context: ssl.SSLContext | None = None) -> None:
        self.folder = Folder(root=root)
        self.context = context
        super().__init__(address, Handler)

    def finish_request(self, request: Any, client_address: Any) -> None:
        if self.context is None:
            super().finish_request(request, client_address)
            return
        request.settimeout(IDLE_S)
        with self.context.wrap_socket(request, server_side=True) as secure:
            super().finish_request(secure, client_address)

    def handle_error(self, request: Any, client_address: Any) -> None:
        """Ignore a client that leaves, stays silent or does not trust the certificate: that is not a fault here."""
        if not isinstance(sys.exception(), ConnectionError | TimeoutError | ssl.SSLError):
            super().handle_error(request, client_address)


def first_free(port: int, tries: int, start: Callable[[int], SiteServer]) -> SiteServer:
    """The server on this port, or on the next free one within so many tries.

    Raises OSError if all are taken.
    """
    for candidate in range(port, port + tries - 1):
        try:
            return start(candidate)
        except OSError:
            continue
    return start(port + tries - 1)
