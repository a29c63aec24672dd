"""What can be wrong with what a person gave, said in words.

Three parts in this order: what was given, what is allowed, what to do. A fault of the program itself is never one of these.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


class SandmixError(Exception):
    """Anything that is wrong with what was given; its text can be shown to a person as it stands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One thing that is wrong: the word it belongs to (empty for the whole form), what was given, what is allowed."""

    word: str
    given: str
    allowed: str
    message: str


class InputError(SandmixError):
    """All that is wrong with one set of inputs, at once."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(problem.message for problem in self.problems))
