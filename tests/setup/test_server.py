"""The behaviour of the web server, tested over a real socket."""

from __future__ import annotations

import contextlib
import gzip
import http.client
import socket
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from server import SiteServer, headers_for, read_rules

PAGE = b"<!doctype html><title>sand</title>" + b"<p>sand, clay and water</p>" * 50
HEADERS = """\
# for every path
/*
  Content-Security-Policy: default-src 'none'
  X-Own: everywhere
/app/worker.js
  X-Own: worker
"""


@pytest.fixture(name="site")
def _site(tmp_path: Path) -> Path:
    root = tmp_path / "built"
    for name, body in {
        "index.html": PAGE,
        "404.html": b"<!doctype html><title>not here</title>",
        "temper/index.html": PAGE,
        "app/worker.js": b"postMessage(1);\n" * 100,
        "py/pyodide.mjs": b"export {};\n",
        "py/core.wasm": b"\0asm" + b"\0" * 2000,
        "py/library.bin": b"\0" * 2000,
        "app/sand.webmanifest": b"{}",
        "_headers": HEADERS.encode(),
        "empty/note.txt": b"a folder without a page",
    }.items():
        (root / name).parent.mkdir(parents=True, exist_ok=True)
        (root / name).write_bytes(body)
    (tmp_path / "outside.txt").write_text("not for the network")
    (root / "escape.txt").symlink_to(tmp_path / "outside.txt")
    return root


@pytest.fixture(name="visit")
def _visit(site: Path) -> Iterator[http.client.HTTPConnection]:
    with SiteServer(("127.0.0.1", 0), site) as server:
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
        thread.start()
        connection = http.client.HTTPConnection("127.0.0.1", server.server_port, timeout=10)
        yield connection
        connection.close()
        server.shutdown()
        thread.join()


def ask(
    visit: http.client.HTTPConnection, path: str, *, method: str = "GET", **headers: str
) -> tuple[http.client.HTTPResponse, bytes]:
    visit.request(method, path, headers={name.replace("_", "-"): value for name, value in headers.items()})
    answer = visit.getresponse()
    return answer, answer.read()


@pytest.mark.parametrize(
    ("path", "kind"),
    [
        ("/", "text/html; charset=utf-8"),
        ("/app/worker.js", "text/javascript; charset=utf-8"),
        ("/py/pyodide.mjs", "text/javascript; charset=utf-8"),
        ("/py/core.wasm", "application/wasm"),
        ("/app/sand.webmanifest", "application/manifest+json"),
        ("/py/library.bin", "application/octet-stream"),
    ],
)
def test_each_kind_of_file_has_its_type(visit: http.client.HTTPConnection, path: str, kind: str) -> None:
    answer, _ = ask(visit, path)
    assert (answer.status, answer.headers["Content-Type"]) == (200, kind)
    assert answer.headers["X-Content-Type-Options"] == "nosniff"


def test_text_is_gzipped_for_clients_that_accept_it(visit: http.client.HTTPConnection) -> None:
    answer, body = ask(visit, "/", Accept_Encoding="br, gzip;q=0.8")
    assert answer.headers["Content-Encoding"] == "gzip"
    assert answer.headers["Vary"] == "Accept-Encoding"
    assert len(body) < len(PAGE) / 4
    assert gzip.decompress(body) == PAGE


@pytest.mark.parametrize("accepted", ["", "br", "gzip;q=0", "gzip; q=0.0"])
def test_text_is_plain_for_clients_that_do_not_accept_gzip(visit: http.client.HTTPConnection, accepted: str) -> None:
    answer, body = ask(visit, "/", Accept_Encoding=accepted)
    assert answer.headers["Content-Encoding"] is None
    assert body == PAGE


@pytest.mark.parametrize("path", ["/py/library.bin", "/py/pyodide.mjs"])
def test_compressed_or_tiny_files_are_not_gzipped(visit: http.client.HTTPConnection, path: str) -> None:
    answer, _ = ask(visit, path, Accept_Encoding="gzip")
    assert answer.headers["Content-Encoding"] is None


@pytest.mark.parametrize("accepted", ["gzip", "identity"])
def test_a_file_that_the_browser_already_has_is_not_sent_again(
    visit: http.client.HTTPConnection, accepted: str
) -> None:
    first, _ = ask(visit, "/", Accept_Encoding=accepted)
    tag = first.headers["ETag"]
    for held in (tag, f'"other", W/{tag}', "*"):
        again, body = ask(visit, "/", Accept_Encoding=accepted, If_None_Match=held)
        assert (again.status, body, again.headers["ETag"]) == (304, b"", tag)
        assert again.headers["Content-Security-Policy"] == "default-src 'none'"
    assert ask(visit, "/", Accept_Encoding=accepted, If_None_Match='"other"')[0].status == 200


def test_gzipped_and_plain_bytes_have_different_tags(visit: http.client.HTTPConnection) -> None:
    tags = {ask(visit, "/", Accept_Encoding=accepted)[0].headers["ETag"] for accepted in ("gzip", "identity")}
    assert len(tags) == 2


def test_a_changed_file_is_sent_with_another_tag(visit: http.client.HTTPConnection, site: Path) -> None:
    before, _ = ask(visit, "/")
    (site / "index.html").write_bytes(b"<title>rebuilt</title>")
    after, body = ask(visit, "/", If_None_Match=before.headers["ETag"])
    assert (after.status, body) == (200, b"<title>rebuilt</title>")


def test_the_browser_must_check_each_file_every_time(visit: http.client.HTTPConnection) -> None:
    assert ask(visit, "/app/worker.js")[0].headers["Cache-Control"] == "no-cache"


def test_headers_come_from_the_headers_file(visit: http.client.HTTPConnection) -> None:
    page, _ = ask(visit, "/temper/?heap=45")
    worker, _ = ask(visit, "/app/worker.js")
    assert (page.headers["X-Own"], worker.headers["X-Own"]) == ("everywhere", "everywhere, worker")
    assert ask(visit, "/nowhere")[0].headers["Content-Security-Policy"] == "default-src 'none'"


def test_a_pattern_matches_the_whole_path_and_only_its_star_is_special() -> None:
    rules = read_rules("/a.b/*\n  X: 1\n/exact\n  Y: 2\n")
    assert headers_for("/a.b/c/d", rules) == {"X": "1"}
    assert headers_for("/axb/c", rules) == {}
    assert headers_for("/exact/more", rules) == {}


@pytest.mark.parametrize("text", ["  X: a header before any path\n", "/a\n  no colon here\n"])
def test_a_headers_file_that_cannot_be_read_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match="_headers"):
        read_rules(text)


@pytest.mark.parametrize(
    "path",
    ["/../outside.txt", "/%2e%2e/outside.txt", "/temper/..%2f..%2foutside.txt", "/..%5coutside.txt", "/escape.txt",
     "//../outside.txt", "/%00", "/app/../../outside.txt"],
)  # fmt: skip
def test_nothing_outside_the_site_is_read(visit: http.client.HTTPConnection, path: str) -> None:
    answer, body = ask(visit, path)
    assert answer.status == 404
    assert b"not for the network" not in body


@pytest.mark.parametrize("path", ["/empty/", "/app/", "/_headers", "/app/../_headers", "/nowhere", "/index.html/"])
def test_folders_are_not_listed_and_missing_pages_get_the_sites_own_error_page(
    visit: http.client.HTTPConnection, path: str
) -> None:
    answer, body = ask(visit, path)
    assert (answer.status, body) == (404, b"<!doctype html><title>not here</title>")


@pytest.mark.parametrize("path", ["/temper?heap=45", "//temper?heap=45"])
def test_a_folder_without_its_slash_redirects_to_the_folder_on_this_host(
    visit: http.client.HTTPConnection, path: str
) -> None:
    answer, _ = ask(visit, path)
    assert (answer.status, answer.headers["Location"]) == (301, "/temper/?heap=45")


def test_head_returns_only_the_headers(visit: http.client.HTTPConnection) -> None:
    with contextlib.closing(socket.create_connection((visit.host, visit.port), timeout=10)) as visitor:
        visitor.sendall(b"HEAD / HTTP/1.1\r\nHost: here\r\nConnection: close\r\n\r\n")
        with visitor.makefile("rb") as said:
            head, _, body = said.read().partition(b"\r\n\r\n")
    assert head.startswith(b"HTTP/1.1 200 ")
    assert f"Content-Length: {len(PAGE)}".encode() in head.split(b"\r\n")
    assert body == b""


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "OPTIONS", "TRACE", "PATCH", "CONNECT", "SPLASH"])
def test_other_methods_are_refused_with_those_that_are_allowed(visit: http.client.HTTPConnection, method: str) -> None:
    answer, _ = ask(visit, "/", method=method)
    assert (answer.status, answer.headers["Allow"], answer.headers["Connection"]) == (405, "GET, HEAD", "close")


def raw(visit: http.client.HTTPConnection, request: bytes) -> bytes:
    """All that is answered to these bytes."""
    with contextlib.closing(socket.create_connection((visit.host, visit.port), timeout=10)) as visitor:
        visitor.sendall(request)
        visitor.shutdown(socket.SHUT_WR)
        with visitor.makefile("rb") as said:
            return said.read()


@pytest.mark.parametrize(
    ("target", "status"),
    [
        (b"/", 200),
        (b"/temper", 301),
        (b"/nowhere", 404),
        (b"/%0a", 404),
        (b"/%0d%0aX-Evil:%201", 404),
        (b"/\xff\xfe", 404),
        (b"/" + b"a" * 5000, 404),
        (b"/" + b"a/" * 5000, 404),
        (b"http://[/", 200),
        (b"//[::1", 404),
        (b"http://elsewhere.example/temper", 301),
        (b"*", 404),
        (b"/temper?a=%0d%0aX-Evil:1", 301),
        (b'/temper?a=\xe9"<>', 301),
        (b"/#part", 200),
        (b"/_headers", 404),
        (b"/" + b"a" * 70000, 414),
    ],
)
@pytest.mark.parametrize("method", [b"GET", b"HEAD"])
def test_every_answer_has_the_security_headers(
    visit: http.client.HTTPConnection, capfd: pytest.CaptureFixture[str], method: bytes, target: bytes, status: int
) -> None:
    head, _, body = raw(
        visit, method + b" " + target + b" HTTP/1.1\r\nHost: here\r\nConnection: close\r\n\r\n"
    ).partition(b"\r\n\r\n")
    lines = head.split(b"\r\n")
    assert lines[0].split()[1] == str(status).encode()
    assert lines.count(b"Content-Security-Policy: default-src 'none'") == 1
    assert lines.count(b"X-Content-Type-Options: nosniff") == 1
    assert not any(line.startswith(b"X-Evil") for line in lines)
    assert not [line for line in lines if line.startswith(b"Location: ") and not line.startswith(b"Location: /temper/")]
    assert method == b"GET" or status == 414 or body == b""
    assert capfd.readouterr() == ("", "")


@pytest.mark.parametrize(
    ("request_", "status"),
    [
        (b"nonsense\r\n\r\n", 400),
        (b"POST /\r\n\r\n", 400),
        (b"POST / HTTP/1.1\r\nHost: here\r\nContent-Length: 5\r\n\r\nhello", 405),
        (b"GET / HTTP/9.9\r\n\r\n", 505),
        (b"GET / HTTP/one\r\n\r\n", 400),
        (b"GET / HTTP/1.1\r\n" + b"X: 1\r\n" * 200 + b"\r\n", 431),
        (b"GET / HTTP/1.1\r\nX: " + b"1" * 70000 + b"\r\n\r\n", 431),
    ],
)
def test_a_request_that_cannot_be_read_is_refused_with_them_too(
    visit: http.client.HTTPConnection, capfd: pytest.CaptureFixture[str], request_: bytes, status: int
) -> None:
    head, _, body = raw(visit, request_).partition(b"\r\n\r\n")
    lines = head.split(b"\r\n")
    assert lines[0].split()[1] == str(status).encode()
    assert lines.count(b"Content-Security-Policy: default-src 'none'") == 1
    assert b"Connection: close" in lines
    assert b"<" not in body
    assert capfd.readouterr() == ("", "")


def test_while_a_site_is_rebuilt_its_pages_keep_their_headers(visit: http.client.HTTPConnection, site: Path) -> None:
    ask(visit, "/")
    (site / "_headers").unlink()
    assert ask(visit, "/")[0].headers["Content-Security-Policy"] == "default-src 'none'"
    (site / "_headers").write_text("  no path above\n")
    assert ask(visit, "/")[0].headers["Content-Security-Policy"] == "default-src 'none'"


def test_a_file_that_cannot_be_read_is_not_there(
    visit: http.client.HTTPConnection, monkeypatch: pytest.MonkeyPatch
) -> None:
    def denied(_: Path) -> bytes:
        raise PermissionError

    monkeypatch.setattr(Path, "read_bytes", denied)
    answer, body = ask(visit, "/app/worker.js")
    assert (answer.status, body) == (404, b"There is no such page.\n")


def test_a_client_that_disconnects_prints_nothing(site: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (site / "big.bin").write_bytes(b"\0" * 20_000_000)
    with SiteServer(("127.0.0.1", 0), site) as server:
        left = threading.Event()
        shut_down = server.shutdown_request

        def note_the_end(request: socket.socket) -> None:
            shut_down(request)
            left.set()

        server.shutdown_request = note_the_end  # type: ignore[assignment,method-assign]
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
        thread.start()
        with contextlib.closing(socket.create_connection(("127.0.0.1", server.server_port), timeout=10)) as visitor:
            visitor.sendall(b"GET /big.bin HTTP/1.1\r\nHost: here\r\n\r\n")
            visitor.recv(1000)
        assert left.wait(timeout=10)
        server.shutdown()
        thread.join()
    assert capsys.readouterr() == ("", "")
