"""Set up, build and serve the site: `python3 site/serve.py`, on a machine that has only Python.

The set-up happens once and is quick from then on; provision.py says what it installs and where.
"""

from __future__ import annotations

import argparse
import hashlib
import html
import os
import ssl
import subprocess
import sys
import threading
import webbrowser
from collections.abc import Sequence
from pathlib import Path

import addresses
from hosting import underscore_headers
from provision import CACHE, ROOT, Fault, Venv, set_up, this_machine
from server import HEADERS_FILE, SiteServer, first_free, read_rules

BUILT = ROOT / "site" / "_build"
AUTHORITY = CACHE / "authority"
PORT = 8000
LAST_PORT = 65535
HERE = "127.0.0.1"
TRIES = 20
NO_COMMIT_EPOCH = "1735689600"
CERTIFICATE = "sandmix-authority.crt"

TRUST_ON_ANDROID = (
    "Open the address above; the certificate is downloaded.",
    "Settings, Security, Encryption & credentials, Install a certificate, CA certificate (or search for that).",
    f"Accept the warning and choose {CERTIFICATE} among the downloads.",
)
TRUST_ON_IPHONE = (
    "Open the address above in the phone's own browser and allow the profile.",
    "Settings, General, VPN & Device Management: choose the profile and install it.",
    "Settings, General, About, Certificate Trust Settings: switch the authority on.",
)
CAUTION = (
    "Caution: anyone with the key in site/.cache/authority can imitate any site on a phone that trusts it. "
    "Keep that folder to yourself, and remove the certificate from the phone when you no longer need it."
)


def build_site(venv: Venv, out: Path = BUILT, *, address: str = "") -> Path:
    """Build the site into `out`, dated by the last commit so that the same source gives the same bytes.

    *address* is where it will be, if not at the root of its host: only the page for a wrong address needs to know.
    Raises Fault if it fails; MkDocs prints the reason.
    """
    environment = venv.environment() | {
        "SOURCE_DATE_EPOCH": _last_commit_epoch(),
        "NO_MKDOCS_2_WARNING": "1",
        "SANDMIX_ADDRESS": address,
    }
    command = [str(venv.python), "-m", "mkdocs", "build", "--strict", "--quiet"]
    where = ["--config-file", str(ROOT / "site" / "mkdocs.yml"), "--site-dir", str(out)]
    if subprocess.run([*command, *where], cwd=ROOT, env=environment, check=False).returncode:
        raise Fault("The site was not built; see the reason above.")
    return out


def _last_commit_epoch() -> str:
    try:
        printed = subprocess.run(
            ["git", "-C", str(ROOT), "log", "-1", "--format=%ct"], capture_output=True, text=True, check=False
        ).stdout.strip()
    except FileNotFoundError:
        printed = ""
    return printed or NO_COMMIT_EPOCH


def start(root: Path, port: int | None, *, host: str = "", context: ssl.SSLContext | None = None) -> SiteServer:
    """A server for the folder on the given port, or else on the first free one from the usual port on; without a host for every network.

    Raises Fault if the port is taken or not allowed.
    """

    def listen(on: int) -> SiteServer:
        return SiteServer((host, on), root, context=context)

    try:
        return listen(port) if port is not None else first_free(PORT, TRIES, listen)
    except PermissionError as error:
        raise Fault(f"Port {port} is reserved for the system. Choose one above 1023 with --port.") from error
    except OSError as error:
        if port is None:
            raise Fault(f"Ports {PORT} to {PORT + TRIES - 1} are all taken. Choose a free one with --port.") from error
        raise Fault(f"Port {port} is taken by another program. Choose another with --port.") from error


def check_built(root: Path) -> Path:
    """The folder, if a site was built into it.

    Raises Fault if there is no site, or if its headers file cannot be read.
    """
    if not (root / "index.html").is_file():
        raise Fault("No site has been built yet. Run the command once without --no-build.")
    try:
        read_rules((root / HEADERS_FILE).read_text(encoding="utf-8") if (root / HEADERS_FILE).exists() else "")
    except ValueError as error:
        raise Fault(f"The built site's {error}") from error
    return root


def secure_context(venv: Venv, folder: Path = AUTHORITY) -> ssl.SSLContext:
    """A TLS context for all names of this machine, signed by the authority stored in the folder.

    Raises Fault if the stored authority cannot be read.
    """
    made = subprocess.run(
        [venv.python, ROOT / "site" / "tls.py", folder, *addresses.to_certify()],
        capture_output=True,
        text=True,
        check=False,
    )
    if made.returncode:
        reason = made.stderr.strip().splitlines()[-1:] or ["no reason given"]
        raise Fault(
            f"No certificate could be made ({reason[0]}). If the authority is damaged, delete the folder "
            "site/.cache/authority, run the command again and trust the new one on the phone."
        )
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    context.load_cert_chain(folder / "leaf.pem")
    return context


def publish_authority(folder: Path = AUTHORITY) -> Path:
    """A folder to serve over plain http: the authority's certificate and the steps to trust it, without any key."""
    public = folder / "public"
    public.mkdir(exist_ok=True)
    (public / HEADERS_FILE).write_text(underscore_headers(), encoding="utf-8")
    (public / CERTIFICATE).write_bytes(_authority_bytes(folder))
    lists = "".join(
        f"<h2>{title}</h2><ol>{''.join(f'<li>{html.escape(step)}</li>' for step in steps)}</ol>"
        for title, steps in (("Android", TRUST_ON_ANDROID), ("iPhone", TRUST_ON_IPHONE))
    ).replace("the address above", f'<a href="{CERTIFICATE}">{CERTIFICATE}</a>')
    (public / "index.html").write_text(
        '<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">'
        f"<title>Trust this machine</title><h1>Trust this machine</h1>{lists}<p>{html.escape(CAUTION)}</p></html>\n",
        encoding="utf-8",
    )
    return public


def _authority_bytes(folder: Path) -> bytes:
    return ssl.PEM_cert_to_DER_cert((folder / "authority.pem").read_text(encoding="ascii"))


def _fingerprint(folder: Path) -> str:
    return hashlib.sha256(_authority_bytes(folder)).digest().hex(":").upper()


def only_here_words(port: int) -> str:
    """The address to open where no other machine can reach the site."""
    return "\n".join(
        (*_where("http", port, ())[:2], "No other machine can open it. For a phone, run it without --only-here.")
    )


def plain_words(port: int, phones: Sequence[str]) -> str:
    """The addresses to open over plain http, and what does not work on a phone that way."""
    return "\n".join(
        (
            *_where("http", port, phones),
            "",
            "Over plain http the page works on the phone, but the phone cannot store it for use without a network:",
            "browsers allow that only over https. For that, stop this and run it again with --https.",
        )
    )


def secure_words(port: int, plain_port: int, phones: Sequence[str], fingerprint: str) -> str:
    """The addresses to open over https, and how to make a phone trust them."""
    host = phones[0] if phones else "localhost"
    return "\n".join(
        (
            *_where("https", port, phones),
            "",
            "A phone trusts this machine once you have installed its certificate there:",
            f"    http://{host}:{plain_port}/{CERTIFICATE}",
            f"(the steps are also shown at http://{host}:{plain_port}/)",
            "On Android:",
            *(f"    {number}. {step}" for number, step in enumerate(TRUST_ON_ANDROID, 1)),
            "On an iPhone:",
            *(f"    {number}. {step}" for number, step in enumerate(TRUST_ON_IPHONE, 1)),
            "The phone shows this SHA-256 fingerprint in the certificate's details:",
            f"    {fingerprint}",
            CAUTION,
        )
    )


def _where(scheme: str, port: int, phones: Sequence[str]) -> list[str]:
    lines = ["The site is up until you press Ctrl+C.", f"On this machine: {scheme}://localhost:{port}/"]
    if not phones:
        return [*lines, "On a phone: this machine has no network that a phone could share."]
    return [*lines, *(f"On a phone on the same network: {scheme}://{each}:{port}/" for each in phones)]


def serve(options: argparse.Namespace) -> None:
    """Do the command's work until it is interrupted."""
    venv = set_up(this_machine())
    root = check_built(BUILT if options.no_build else build_site(venv))
    phones = addresses.on_the_network()
    if options.https:
        site = start(root, options.port, context=secure_context(venv))
        plain = first_free(site.server_port + 1, TRIES, lambda on: SiteServer(("", on), publish_authority()))
        threading.Thread(target=plain.serve_forever, daemon=True).start()
        words = secure_words(site.server_port, plain.server_port, phones, _fingerprint(AUTHORITY))
    else:
        site = start(root, options.port, host=HERE if options.only_here else "")
        words = only_here_words(site.server_port) if options.only_here else plain_words(site.server_port, phones)
    print(words, flush=True)
    if not options.no_browser and _has_display():
        address = f"{'https' if options.https else 'http'}://localhost:{site.server_port}/"
        threading.Thread(target=webbrowser.open, args=(address,), daemon=True).start()
    with site:
        site.serve_forever()


def _has_display() -> bool:
    return sys.platform == "darwin" or any(os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY"))


def _port(text: str) -> int:
    if not text.isdecimal() or not 1 <= int(text) <= LAST_PORT:
        raise argparse.ArgumentTypeError(f"a port is a whole number from 1 to {LAST_PORT}, not {text!r}")
    return int(text)


def main(arguments: Sequence[str] | None = None) -> int:
    """The command; returns its exit status."""
    parser = argparse.ArgumentParser(prog="site/serve.py", description="Set up, build and serve the site.")
    reach = parser.add_mutually_exclusive_group()
    reach.add_argument(
        "--https", action="store_true", help="serve over TLS, with this machine's own certificate authority"
    )
    reach.add_argument("--only-here", action="store_true", help="let no other machine open it, such as a phone")
    parser.add_argument("--port", type=_port, help=f"the port (default: {PORT}, or the next free one)")
    parser.add_argument("--no-browser", action="store_true", help="do not open a browser here")
    parser.add_argument("--no-build", action="store_true", help="serve the site as built before")
    try:
        serve(parser.parse_args(arguments))
    except Fault as fault:
        print(fault, file=sys.stderr)
        return fault.status
    except KeyboardInterrupt:
        print("\nStopped.")
    return 0


if __name__ == "__main__":
    sys.exit(main())
