"""A zip archive from an unknown source: its files by name, and never more bytes of a file than a limit.

Python's `zipfile` reads it. The bytes are not copied, and the limits hold whatever the archive says about itself. Source: zip_appnote.
"""

from __future__ import annotations

import re
import struct
import zipfile
import zlib
from collections.abc import Iterator

from sandmix.mesh.facets import SAVE_AGAIN, NotAMesh

MOST_FILES = 4096
_END, _LISTED = b"PK\x05\x06", re.compile(rb"PK\x01\x02")
_LONGEST_END = 65_557
_ENCRYPTED = 1
_PIECE = 1 << 16
_FAULTS = (zipfile.BadZipFile, zlib.error, struct.error, EOFError, OSError, RuntimeError, ValueError)


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
    """The files of an archive by name, in lower case with forward slashes; raises NotAMesh where they can't be listed."""

    def __init__(self, data: bytes | memoryview) -> None:
        if _END not in bytes(data[-_LONGEST_END:]):
            raise NotAMesh("the end of the archive is missing. Save or send it again.")
        damaged = NotAMesh(f"the archive's list of files can't be read. {SAVE_AGAIN}")
        if sum(1 for _ in _LISTED.finditer(data)) > MOST_FILES:
            raise damaged
        try:
            self._zip = zipfile.ZipFile(_InMemory(data))
        except _FAULTS:
            raise damaged from None
        self.files = {info.filename.replace("\\", "/").lstrip("/").lower(): info for info in self._zip.infolist()}

    def pieces(self, name: str, most: int) -> Iterator[bytes]:
        """Yield the bytes of one file piece by piece; raises NotAMesh where it is damaged, locked, or larger than *most*."""
        info = self.files[name]
        if info.flag_bits & _ENCRYPTED:
            raise NotAMesh("the archive is locked with a password. Save it without one.")
        if info.file_size > most:
            raise NotAMesh(
                f"unpacked it would have {info.file_size} bytes, and at most {most} are read. Save it with fewer facets."
            )
        if info.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            raise NotAMesh("it is compressed in a way that can't be read here. Save it as a plain 3MF, or as STL.")
        try:
            file = self._zip.open(info)
        except _FAULTS:
            raise NotAMesh(f"a file in the archive is not where the list says. {SAVE_AGAIN}") from None
        left = info.file_size
        try:
            while piece := file.read(_PIECE):
                left -= len(piece)
                yield piece
        except _FAULTS:
            raise NotAMesh(f"a file in the archive can't be unpacked. {SAVE_AGAIN}") from None
        if left:
            raise NotAMesh(
                f"a file in the archive does not have the {info.file_size} bytes that the list says. {SAVE_AGAIN}"
            )
