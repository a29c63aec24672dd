"""The local authority that signs this machine's certificates. It is stored, so that a phone has to trust it only once.

Run this inside the virtual environment with the folder and the names to certify:
`python site/tls.py FOLDER NAME...` makes the authority there if there is none, and always a new certificate.
The authority's own certificate is made here, because an iPhone only offers to trust one that has a common name.
"""

from __future__ import annotations

import os
import socket
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path

import trustme
from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat
from cryptography.x509.oid import NameOID

AUTHORITY = "authority.pem"
AUTHORITY_KEY = "authority.key"
LEAF = "leaf.pem"
OWNER = "sandmix on this machine"
NAME_LENGTH = 64
AUTHORITY_LIFE = timedelta(days=3650)
LEAF_LIFE = timedelta(days=365)


def authority(folder: Path, now: datetime) -> trustme.CA:
    """The authority stored in this folder. The first call makes it; it is valid for ten years."""
    certificate, key = folder / AUTHORITY, folder / AUTHORITY_KEY
    if not (certificate.exists() and key.exists()):
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        secret = ec.generate_private_key(ec.SECP256R1())
        _write_secret(key, secret.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption()))
        certificate.write_bytes(_self_signed(secret, now).public_bytes(Encoding.PEM))
    return trustme.CA.from_pem(certificate.read_bytes(), key.read_bytes())


def _self_signed(secret: ec.EllipticCurvePrivateKey, now: datetime) -> x509.Certificate:
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, f"sandmix on {socket.gethostname()}"[:NAME_LENGTH])])
    public = secret.public_key()
    uses = dict.fromkeys(
        ("content_commitment", "key_encipherment", "data_encipherment", "key_agreement", "encipher_only",
         "decipher_only", "digital_signature", "key_cert_sign", "crl_sign"),
        False,
    )  # fmt: skip
    return (
        x509.CertificateBuilder(subject_name=name, issuer_name=name, public_key=public)
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - timedelta(days=1))
        .not_valid_after(now + AUTHORITY_LIFE)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(x509.KeyUsage(**uses | {"key_cert_sign": True, "crl_sign": True}), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(public), critical=False)
        .sign(secret, SHA256())
    )


def certify(folder: Path, names: list[str], now: datetime) -> Path:
    """A file with a certificate for these names and its key, signed by the folder's authority.

    It is valid for one year, from one day before `now`: phones refuse longer ones even from an authority they trust.
    """
    leaf = authority(folder, now).issue_cert(
        *names,
        organization_name=OWNER,
        organization_unit_name="Local site",
        not_before=now - timedelta(days=1),
        not_after=now + LEAF_LIFE,
    )
    _write_secret(folder / LEAF, leaf.private_key_and_cert_chain_pem.bytes())
    return folder / LEAF


def _write_secret(file: Path, content: bytes) -> None:
    """Write a file that only its owner can read, even while it is being written."""
    file.unlink(missing_ok=True)
    with os.fdopen(os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "wb") as out:
        out.write(content)


if __name__ == "__main__":
    certify(Path(sys.argv[1]), sys.argv[2:], datetime.now(UTC))
