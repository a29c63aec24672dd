"""Serving over TLS with this machine's own certificate authority."""

from __future__ import annotations

import http.client
import ipaddress
import socket
import ssl
import stat
import threading
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.x509.oid import NameOID

import addresses
import serve
import tls
from server import SiteServer

NOW = datetime(2030, 1, 15, tzinfo=UTC)
PHONES_ACCEPT = timedelta(days=825)


@pytest.fixture(name="folder", scope="module")
def _folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("site") / "authority"


@pytest.fixture(name="secure_port")
def _secure_port(folder: Path, tmp_path: Path) -> Iterator[int]:
    (tmp_path / "index.html").write_text("<title>sand</title>")
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(tls.certify(folder, ["localhost", "127.0.0.1"], datetime.now(UTC)))
    with SiteServer(("127.0.0.1", 0), tmp_path, context=context) as server:
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
        thread.start()
        yield server.server_port
        server.shutdown()
        thread.join()


def get(port: int, context: ssl.SSLContext) -> int:
    connection = http.client.HTTPSConnection("127.0.0.1", port, context=context, timeout=10)
    try:
        connection.request("GET", "/")
        return connection.getresponse().status
    finally:
        connection.close()


def test_a_client_that_trusts_the_authority_is_served(secure_port: int, folder: Path) -> None:
    assert get(secure_port, ssl.create_default_context(cafile=folder / tls.AUTHORITY)) == 200


def test_a_client_that_does_not_trust_it_leaves_and_nothing_is_printed(
    secure_port: int, folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(ssl.SSLCertVerificationError):
        get(secure_port, ssl.create_default_context())
    assert get(secure_port, ssl.create_default_context(cafile=folder / tls.AUTHORITY)) == 200
    assert capsys.readouterr() == ("", "")


def test_a_silent_client_does_not_block_others(secure_port: int, folder: Path) -> None:
    silent = http.client.HTTPConnection("127.0.0.1", secure_port, timeout=10)
    silent.connect()
    try:
        assert get(secure_port, ssl.create_default_context(cafile=folder / tls.AUTHORITY)) == 200
    finally:
        silent.close()


def test_the_authority_is_stored_and_the_certificate_is_made_each_time(tmp_path: Path) -> None:
    first_leaf = tls.certify(tmp_path, ["localhost"], NOW).read_bytes()
    first = (tmp_path / tls.AUTHORITY).read_bytes()
    assert tls.certify(tmp_path, ["localhost"], NOW).read_bytes() != first_leaf
    assert (tmp_path / tls.AUTHORITY).read_bytes() == first


@pytest.mark.parametrize("name", [tls.AUTHORITY_KEY, tls.LEAF])
def test_only_the_owner_can_read_a_key(tmp_path: Path, name: str) -> None:
    for _ in range(2):
        tls.certify(tmp_path, ["localhost"], NOW)
        assert stat.S_IMODE((tmp_path / name).stat().st_mode) == 0o600


def test_the_certificate_holds_all_names_and_expires_within_the_time_that_phones_accept(tmp_path: Path) -> None:
    names = ["localhost", "127.0.0.1", "::1", "192.168.1.20", "hall.local"]
    leaf = x509.load_pem_x509_certificates(tls.certify(tmp_path, names, NOW).read_bytes())[0]
    alternatives = leaf.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    assert alternatives.get_values_for_type(x509.DNSName) == ["localhost", "hall.local"]
    assert alternatives.get_values_for_type(x509.IPAddress) == [
        ipaddress.ip_address(name) for name in names if name not in {"localhost", "hall.local"}
    ]
    assert leaf.not_valid_before_utc < NOW < leaf.not_valid_after_utc
    assert leaf.not_valid_after_utc - leaf.not_valid_before_utc <= PHONES_ACCEPT


def test_the_authority_is_valid_for_ten_years(tmp_path: Path) -> None:
    made = x509.load_pem_x509_certificate(tls.authority(tmp_path, NOW).cert_pem.bytes())
    assert made.not_valid_before_utc < NOW
    assert made.not_valid_after_utc >= NOW + timedelta(days=3650)


def test_the_authority_has_the_common_name_that_an_iphone_needs(tmp_path: Path) -> None:
    made = x509.load_pem_x509_certificate(tls.authority(tmp_path, NOW).cert_pem.bytes())
    assert [str(part.value) for part in made.subject] == [f"sandmix on {socket.gethostname()}"[:64]]
    assert made.subject.get_attributes_for_oid(NameOID.COMMON_NAME)


def test_the_files_served_over_plain_http_hold_the_certificate_and_no_key(tmp_path: Path) -> None:
    made = tls.authority(tmp_path, NOW)
    public = serve.publish_authority(tmp_path)
    assert sorted(file.name for file in public.iterdir()) == ["_headers", "index.html", serve.CERTIFICATE]
    published = x509.load_der_x509_certificate((public / serve.CERTIFICATE).read_bytes())
    assert published == x509.load_pem_x509_certificate(made.cert_pem.bytes())


def test_the_certificate_covers_this_machines_names_and_addresses() -> None:
    names = addresses.to_certify()
    assert names[:3] == ["localhost", "127.0.0.1", "::1"]
    assert all(address in names for address in addresses.on_the_network())
