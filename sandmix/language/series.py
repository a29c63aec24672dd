"""The word for several figures of one kind, such as earlier readings of a test."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from sandmix.language.tables import Sizes
from sandmix.language.wording import plain
from sandmix.language.words import ReadValue, Value

LONGEST_SERIES = 4000
_APART = re.compile(r"\s*[;\n]\s*|,\s+|\s+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Series(Sizes):
    """Several figures of one kind, from ``count`` to ``most`` of them: a list, or a text such as "44; 46; 43.5"."""

    most: int

    def read(self, given: object) -> ReadValue:
        parts = self._parts(given)
        if not self.count <= len(parts) <= self.most:
            raise self.refuse(
                f"{len(parts)} of them",
                self.allowed,
                f"there are {len(parts)} figures. Enter {self.count} to {self.most}, as 44; 46; 43.5.",
            )
        return self._read_each(parts)

    def show(self, value: Value) -> str:
        figures = value if isinstance(value, list) else [value]
        return "; ".join(plain(float(figure)) for figure in figures if isinstance(figure, (int, float)))

    @property
    def allowed(self) -> str:
        """The allowed values in words."""
        return f"{self.count} to {self.most} figures, each {self.each.allowed}"

    def _parts(self, given: object) -> list[object]:
        if isinstance(given, (list, tuple)):
            return list(given)
        if isinstance(given, Mapping) and set(given) <= {"value", "unit"} and "value" in given:
            return self._parts(given["value"])
        if not isinstance(given, str) or len(given) > LONGEST_SERIES:
            raise self.refuse(given, self.allowed, "these aren't figures. Write them as 44; 46; 43.5.")
        return [part for part in _APART.split(given.strip()) if part]
