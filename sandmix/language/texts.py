"""The words without a number: texts, times, documents; and the reading of JSON text that is not nested too deeply."""

from __future__ import annotations

import json
import sys
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from itertools import accumulate
from typing import Any, ClassVar

from sandmix.language import timestamps
from sandmix.language.errors import SandmixError
from sandmix.language.wording import shown_given
from sandmix.language.words import ReadValue, Word

DEEPEST = 32
LONGEST_TEXT = 20_000
"""The longest text, in characters, that is read as a table or a list."""
_AS_SQUARE = bytes.maketrans(b"{}", b"[]")
_NO_BRACKETS = bytes(set(range(256)) - set(b"[]{}"))
_OPENS = ord("[")
_MOST_BRACKETS = 500


def is_deeper(text: str, most: int = DEEPEST) -> bool:
    """Return whether the brackets of JSON are nested deeper than *most*: a parser that follows them could crash."""
    if text.count("[") + text.count("{") <= most:
        return False
    data = text.encode("utf-8", "surrogatepass").replace(b"\\\\", b"").replace(b'\\"', b"")
    outside_texts = b"".join(data.split(b'"')[::2])
    left = brackets = outside_texts.translate(_AS_SQUARE, _NO_BRACKETS)
    for _ in range(most):
        left = left.replace(b"[]", b"")
    return bool(left) and max(accumulate(1 if bracket == _OPENS else -1 for bracket in brackets)) > most


class RepeatedKeyError(ValueError):
    """An object of a JSON text has a key twice; its text says which."""


def parsed(text: str) -> Any:
    """Return the content of a JSON text; raises RepeatedKeyError, and ValueError for what is no JSON."""
    return json.loads(text, parse_constant=_no_constant, object_pairs_hook=_each_once)


def _each_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    whole = dict(pairs)
    if len(whole) < len(pairs):
        twice = next(key for key, count in Counter(key for key, _ in pairs).items() if count > 1)
        raise RepeatedKeyError(shown_given(twice))
    return whole


def of_text(given: object) -> object:
    """Return the content of a JSON text; anything else as it is."""
    if not isinstance(given, str) or len(given) > LONGEST_TEXT or not given.lstrip().startswith(("{", "[")):
        return given
    if given.count("[") + given.count("{") > _MOST_BRACKETS:
        return given
    try:
        return parsed(given)
    except (ValueError, RecursionError):
        return given


def is_finite(data: object) -> bool:
    """Return whether every number in plain data, at any depth, is one that can be computed with: a JSON text can hold larger ones.

    >>> is_finite({"a": [1, 2.5, "inf"]}), is_finite({"a": [parsed("1e999")]})
    (True, False)
    """
    left = [data]
    while left:
        part = left.pop()
        if isinstance(part, Mapping):
            left.extend(part.values())
        elif isinstance(part, (list, tuple)):
            left.extend(part)
        elif isinstance(part, (int, float)) and not abs(part) <= sys.float_info.max:
            return False
    return True


def _document(text: str) -> object:
    if is_deeper(text):
        raise ValueError("nested too deeply")
    return parsed(text)


def _no_constant(name: str) -> float:
    raise ValueError(name)


@dataclass(frozen=True, slots=True, kw_only=True)
class Text(Word):
    """A short text such as a name or a note; characters that can't be shown become spaces."""

    kind: ClassVar[str] = "text"
    longest: int = 200

    @property
    def allowed(self) -> str:
        """The allowed values in words."""
        return f"a text of at most {self.longest} characters"

    def read(self, given: object) -> ReadValue:
        if not isinstance(given, str):
            raise self.refuse(given, self.allowed, f"this isn't a text. Enter {self.allowed}.")
        shown = "".join(letter if letter.isprintable() else " " for letter in given).strip()
        if len(shown) > self.longest:
            raise self.refuse(given, self.allowed, f"{len(shown)} characters are too many. Enter {self.allowed}.")
        return ReadValue(value=shown.encode("utf-8", "replace").decode("utf-8"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Timestamp(Word):
    """A date and time: ISO 8601 text, or seconds from 1970; its value is the text."""

    kind: ClassVar[str] = "moment"

    @property
    def allowed(self) -> str:
        """The allowed values in words."""
        return "a date and time such as 2026-05-02T14:30Z"

    def read(self, given: object) -> ReadValue:
        if isinstance(given, str):
            try:
                timestamps.seconds_of(given)
            except SandmixError as error:
                raise self.refuse(given, self.allowed, str(error)) from None
            return ReadValue(value=given.strip())
        raise self.refuse(given, self.allowed, f"this isn't a date and time. Enter {self.allowed}.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Data(Word):
    """A whole document, such as a book: an object, a list, or its JSON text. The form that asks for it checks its content."""

    kind: ClassVar[str] = "data"

    @property
    def allowed(self) -> str:
        """The allowed values in words."""
        return "an object, or its JSON text"

    def read(self, given: object) -> ReadValue:
        if isinstance(given, str):
            try:
                given = _document(given)
            except RepeatedKeyError as error:
                said = f"it gives “{error}” twice in one place. The file was edited by hand or is damaged: leave one of them out."
                raise self.refuse(given, self.allowed, said) from None
            except ValueError:
                raise self.refuse(
                    given, self.allowed, "this isn't JSON. Give the whole file as it was saved."
                ) from None
        if not isinstance(given, (Mapping, list)):
            raise self.refuse(given, self.allowed, f"this isn't a document. Enter {self.allowed}.")
        return ReadValue(value=given)
