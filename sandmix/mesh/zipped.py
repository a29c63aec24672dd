"""A zip archive that someone else made: one named file of it, and never more bytes than it may have.

Only what a 3MF package needs: stored or deflated files, by the list at the archive's end. Source: zip_appnote.
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Iterator

from sandmix.language.errors import SandmixError

MOST_FILES = 4096
_END = struct.Struct("<4s4H2IH")
_ENTRY = struct.Struct("<4s6H3I5H2I")
_LOCAL = struct.Struct("<4s5H3I2H")
_LONGEST_COMMENT = 65_535
_ENCRYPTED = 1
_STORED, _DEFLATED = 0, 8
_PIECE = 1 << 16


class NotAnArchive(SandmixError):
    """Why the bytes are no archive that can be opened."""


def names(data: bytes | memoryview) -> dict[str, tuple[int, int, int, int, int]]:
    """Return what the archive holds: by name its flags, method, packed and whole size, and where it stands; raises NotAnArchive."""
    tail = bytes(data[-(_LONGEST_COMMENT + _END.size) :])
    at = tail.rfind(b"PK\x05\x06")
    if at < 0 or len(tail) - at < _END.size:
        raise NotAnArchive("the archive has no end: it is cut short.")
    _, _, _, _, count, size, start, _ = _END.unpack_from(tail, at)
    if count > MOST_FILES or start + size > len(data):
        raise NotAnArchive("the archive's list of files is damaged.")
    found: dict[str, tuple[int, int, int, int, int]] = {}
    place = start
    for _ in range(count):
        if place + _ENTRY.size > len(data):
            raise NotAnArchive("the archive's list of files is damaged.")
        entry = _ENTRY.unpack_from(data, place)
        if entry[0] != b"PK\x01\x02":
            raise NotAnArchive("the archive's list of files is damaged.")
        flags, method, packed, whole, long, extra, comment, where = (
            entry[3], entry[4], entry[8], entry[9], entry[10], entry[11], entry[12], entry[16],
        )  # fmt: skip
        name = bytes(data[place + _ENTRY.size : place + _ENTRY.size + long]).decode("utf-8", "replace")
        found[name.replace("\\", "/").lstrip("/").lower()] = (flags, method, packed, whole, where)
        place += _ENTRY.size + long + extra + comment
    return found


def pieces(data: bytes | memoryview, entry: tuple[int, int, int, int, int], most: int) -> Iterator[bytes]:
    """Yield the bytes of one *entry* piece by piece.

    Raises NotAnArchive where it is damaged, locked, or larger than *most*, whatever it says of itself.
    """
    flags, method, packed, whole, where = entry
    if flags & _ENCRYPTED:
        raise NotAnArchive("it is locked with a password.")
    if whole > most:
        raise NotAnArchive(f"unpacked it would be {whole} bytes, and {most} are the most.")
    if where + _LOCAL.size > len(data) or bytes(data[where : where + 4]) != b"PK\x03\x04":
        raise NotAnArchive("a file in the archive is not where its list says.")
    local = _LOCAL.unpack_from(data, where)
    start = where + _LOCAL.size + local[9] + local[10]
    body = memoryview(data)[start : start + packed]
    if method not in (_STORED, _DEFLATED):
        raise NotAnArchive("it is packed in a way that is not known here.")
    came = 0
    for piece in _inflated(body) if method == _DEFLATED else _cut(body):
        came += len(piece)
        if came > whole:
            break
        yield piece
    if came != whole:
        raise NotAnArchive(f"a file in the archive is damaged: it is not the {whole} bytes that its list says.")


def _cut(body: memoryview) -> Iterator[bytes]:
    for at in range(0, len(body), _PIECE):
        yield bytes(body[at : at + _PIECE])


def _inflated(body: memoryview) -> Iterator[bytes]:
    unpacking = zlib.decompressobj(-zlib.MAX_WBITS)
    try:
        for packed in _cut(body):
            while packed:
                yield unpacking.decompress(packed, _PIECE)
                packed = unpacking.unconsumed_tail
        yield unpacking.flush()
    except zlib.error:
        raise NotAnArchive("a file in the archive is damaged.") from None
