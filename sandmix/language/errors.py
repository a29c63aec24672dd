"""What can be wrong with an input, in words: first what was given, then what is allowed, then what to do.

A fault of the program itself is never one of these errors.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


class SandmixError(Exception):
    """Something is wrong with what was given. Its text can be shown to a person as it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing that is wrong: the word that it belongs to (empty for the whole form), what was given, what is allowed, and the message."""

    word: str
    given: str
    allowed: str
    message: str


class InputError(SandmixError):
    """Everything that is wrong with one set of inputs."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(problem.message for problem in self.problems))
