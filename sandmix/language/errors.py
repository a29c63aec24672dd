"""What can be wrong with an input, in words: first what was given, then what is allowed, then what to do.

A fault of the program itself is never one of these errors.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

_UNSHOWN = dict.fromkeys(
    [*range(0x20), *range(0x7F, 0xA0), *range(0x202A, 0x202F), *range(0x2066, 0x206A), 0x2028, 0x2029], " "
)
"""Characters that move a terminal's cursor, break a line or turn the direction of writing."""


def printable(text: str) -> str:
    r"""Return a text that can be shown anywhere: characters that control how others are shown become spaces, and half a character becomes ?.

    >>> printable("\x1b[31mred\x9b2J")
    ' [31mred 2J'
    """
    return text.translate(_UNSHOWN).encode("utf-8", "replace").decode("utf-8")


class SandmixError(Exception):
    """Something is wrong with what was given. Its text can be shown to a person as it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing that is wrong: the word that it belongs to (empty for the whole form), what was given, what is allowed, and the message."""

    word: str
    given: str
    allowed: str
    message: str

    def __post_init__(self) -> None:
        for name in ("word", "given", "message"):
            object.__setattr__(self, name, printable(getattr(self, name)))


class InputError(SandmixError):
    """Everything that is wrong with one set of inputs."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(problem.message for problem in self.problems))
