"""The icons, drawn at build time without a library: a composition bar under a line of water, as PNG."""

from __future__ import annotations

import struct
import zlib
from pathlib import Path

Colour = tuple[int, int, int]

PAPER: Colour = (244, 237, 220)
INK: Colour = (31, 26, 20)
GRAIN: Colour = (214, 178, 104)
LIVE: Colour = (138, 62, 34)
DEAD: Colour = (122, 114, 102)
WATER: Colour = (38, 94, 132)


def write(out: Path) -> None:
    """Write the three icons that the manifest names."""
    for name, size, margin in (
        ("icon-192.png", 192, 0.14),
        ("icon-512.png", 512, 0.14),
        ("icon-maskable.png", 512, 0.24),
    ):
        (out / name).write_bytes(png(size, margin))


def png(size: int, margin: float) -> bytes:
    """A square icon; the margin is the share of the side that stays paper-coloured."""
    rows = b"".join(
        b"\0" + b"".join(bytes(pixel(x / size, y / size, margin)) for x in range(size)) for y in range(size)
    )
    head = struct.pack(">IIBBBBB", size, size, 8, 2, 0, 0, 0)
    return b"\x89PNG\r\n\x1a\n" + _chunk(b"IHDR", head) + _chunk(b"IDAT", zlib.compress(rows, 9)) + _chunk(b"IEND", b"")


def pixel(x: float, y: float, margin: float) -> Colour:
    """The colour at a point of the unit square: a bar of three parts under a line of water."""
    across, down = (x - margin) / (1 - 2 * margin), (y - margin) / (1 - 2 * margin)
    if not (0 <= across <= 1 and 0 <= down <= 1):
        return PAPER
    if down < 0.12:
        return WATER if across < 0.42 else PAPER
    if down < 0.24:
        return PAPER
    if _on_edge(across, (down - 0.24) / 0.76):
        return INK
    return _matter(across, down)


def _on_edge(across: float, down: float) -> bool:
    line = 0.035
    return (
        min(across, 1 - across) < line
        or min(down, 1 - down) < line * 1.3
        or abs(across - 0.62) < line / 2
        or abs(across - 0.86) < line / 2
    )


def _matter(across: float, down: float) -> Colour:
    """The parts of the bar: grain dotted, live clay hatched, dead clay plain."""
    if across < 0.62:
        u, v = (across * 8) % 1 - 0.5, (down * 8 + (0.5 if int(across * 8) % 2 else 0)) % 1 - 0.5
        return INK if u * u + v * v < 0.028 else GRAIN
    if across < 0.86:
        return PAPER if ((across + down) * 11) % 1 < 0.28 else LIVE
    return DEAD


def _chunk(kind: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
