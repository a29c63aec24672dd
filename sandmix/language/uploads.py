"""Words for an uploaded file and for a yes or no."""

from __future__ import annotations

import binascii
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import ClassVar, cast

from sandmix.language.errors import SandmixError
from sandmix.language.wording import shown_given
from sandmix.language.words import ReadValue, Value, Word

LONGEST_UPLOAD = 256_000_000
BYTES = (bytes, bytearray, memoryview)


@dataclass(frozen=True, slots=True, kw_only=True)
class Upload(Word):
    """A file: its bytes, or ``{"upload": name}`` for bytes that come with the request, or its text, or base64.

    ``opens`` turns the bytes into the value of the word, or raises a SandmixError that says why it can't. ``endings`` are the allowed
    endings of the file name. A text that begins with one of ``text_begins`` is the file itself, not base64.
    """

    kind: ClassVar[str] = "upload"
    opens: Callable[[bytes | memoryview], object]
    endings: tuple[str, ...]
    text_begins: tuple[str, ...] = ()

    @property
    def allowed(self) -> str:
        """The allowed values in words."""
        return f"a file, {' or '.join(self.endings)}"

    def read(self, given: object) -> ReadValue:
        data = self._bytes(given)
        try:
            return ReadValue(value=cast("Value", self.opens(data)))
        except SandmixError as error:
            raise self.refuse(f"{len(data)} bytes", self.allowed, str(error)) from None

    def show(self, value: Value) -> str:
        return "nothing" if value is None else "the file as sent"

    def _bytes(self, given: object) -> bytes | memoryview:
        if isinstance(given, Mapping) and set(given) == {"upload"}:
            name = shown_given(given["upload"])
            raise self.refuse(
                name, self.allowed, f"the request came without the file “{name}”. Send its bytes under that name."
            )
        if isinstance(given, BYTES):
            return memoryview(given).cast("B")
        if not isinstance(given, str):
            raise self.refuse(given, self.allowed, f"this isn't a file. Send {self.allowed}.")
        text = given.strip()
        if text.lower().startswith(self.text_begins) and len(text.split(None, 2)) > 1:
            return given.encode("utf-8", "replace")
        try:
            return binascii.a2b_base64(text.encode("ascii"), strict_mode=True)
        except (binascii.Error, UnicodeEncodeError):
            raise self.refuse(
                given, self.allowed, f"this text is neither a file nor the base64 of one. Send {self.allowed}."
            ) from None


@dataclass(frozen=True, slots=True, kw_only=True)
class Flag(Word):
    """A yes or no in an answer."""

    kind: ClassVar[str] = "flag"

    def show(self, value: Value) -> str:
        return "yes" if value else "no"
