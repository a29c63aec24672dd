"""A zip archive from an unknown source: its files by name, and never more bytes of one than a limit.

Python's `zipfile` reads it. The bytes are not copied, and the limits hold whatever the archive claims about itself. Source: zip_appnote.
"""

from __future__ import annotations

import re
import struct
import zipfile
import zlib
from collections.abc import Iterator

from sandmix.language.errors import SandmixError

MOST_FILES = 4096
_END, _LISTED = b"PK\x05\x06", re.compile(rb"PK\x01\x02")
_LONGEST_END = 65_557
_ENCRYPTED = 1
_PIECE = 1 << 16
_FAULTS = (zipfile.BadZipFile, zlib.error, struct.error, EOFError, OSError, RuntimeError, ValueError)


class NotAnArchive(SandmixError):
    """Why the bytes are no archive that can be opened."""


class _InMemory:
    """Bytes in memory as the file that `zipfile` reads, without a copy of them."""

    def __init__(self, data: bytes | memoryview) -> None:
        self._data, self._at = memoryview(data), 0

    def seekable(self) -> bool:
        """Whether it can be read from any place: it can."""
        return True

    def tell(self) -> int:
        """Return the place to read from next."""
        return self._at

    def seek(self, offset: int, whence: int = 0) -> int:
        """Go to a place counted from the start, from here or from the end."""
        at = offset + (0, self._at, len(self._data))[whence]
        if at < 0:
            raise ValueError("before the start")
        self._at = at
        return at

    def read(self, count: int = -1) -> bytes:
        """Return the next *count* bytes, or all that are left."""
        start, self._at = self._at, len(self._data) if count < 0 else min(self._at + count, len(self._data))
        return bytes(self._data[start : self._at])


class Archive:
    """The files of an archive by name, in lower case with forward slashes; raises NotAnArchive where they can't be listed."""

    def __init__(self, data: bytes | memoryview) -> None:
        if _END not in bytes(data[-_LONGEST_END:]):
            raise NotAnArchive("the archive has no end: it is cut short.")
        damaged = NotAnArchive("the archive's list of files is damaged.")
        if sum(1 for _ in _LISTED.finditer(data)) > MOST_FILES:
            raise damaged
        try:
            self._zip = zipfile.ZipFile(_InMemory(data))
        except _FAULTS:
            raise damaged from None
        self.files = {info.filename.replace("\\", "/").lstrip("/").lower(): info for info in self._zip.infolist()}

    def pieces(self, name: str, most: int) -> Iterator[bytes]:
        """Yield the bytes of one file piece by piece; raises NotAnArchive where it is damaged, locked, or larger than *most*."""
        info = self.files[name]
        if info.flag_bits & _ENCRYPTED:
            raise NotAnArchive("it is locked with a password.")
        if info.file_size > most:
            raise NotAnArchive(f"unpacked it would be {info.file_size} bytes, and {most} are the most.")
        if info.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            raise NotAnArchive("it is packed in a way that is not known here.")
        try:
            file = self._zip.open(info)
        except _FAULTS:
            raise NotAnArchive("a file in the archive is not where its list says.") from None
        left = info.file_size
        try:
            while piece := file.read(_PIECE):
                left -= len(piece)
                yield piece
        except _FAULTS:
            raise NotAnArchive("a file in the archive is damaged.") from None
        if left:
            raise NotAnArchive(
                f"a file in the archive is damaged: it is not the {info.file_size} bytes that its list says."
            )
