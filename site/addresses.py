"""The addresses at which this machine itself, or a phone on the same network, reaches the site."""

from __future__ import annotations

import fcntl
import socket
import struct

READ_ADDRESS = 0x8915
BRIDGES = ("br-", "docker", "veth", "virbr")
NOWHERE = ("192.0.2.1", 9)


def on_the_network() -> list[str]:
    """The IPv4 addresses of this machine on its networks, the most likely one for a phone first.

    Nothing is sent: the kernel says which route it would take, and the address of each interface.
    """
    found = [_on_the_way_out(), *(_of_interface(name) for _, name in socket.if_nameindex() if not _is_bridge(name))]
    return list(dict.fromkeys(each for each in found if each and not each.startswith("127.")))


def to_certify() -> list[str]:
    """Every name by which a browser may reach this machine."""
    host = socket.gethostname().removesuffix(".local")
    names = ["localhost", "127.0.0.1", "::1", *on_the_network()]
    return [*names, host, f"{host}.local"] if _can_be_certified(host) else names


def _is_bridge(interface: str) -> bool:
    return interface.startswith(BRIDGES)


def _on_the_way_out() -> str | None:
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(NOWHERE)
        except OSError:
            return None
        return str(probe.getsockname()[0])


def _of_interface(name: str) -> str | None:
    """The interface's first address, on systems that report it as Linux does."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asker:
        try:
            answer = fcntl.ioctl(asker.fileno(), READ_ADDRESS, struct.pack("256s", name.encode()[:15]))
        except OSError:
            return None
        return socket.inet_ntoa(answer[20:24])


def _can_be_certified(host: str) -> bool:
    parts = host.split(".")
    return host.isascii() and host != "localhost" and all(part.replace("-", "").isalnum() for part in parts)
