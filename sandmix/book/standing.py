"""The entries of a book that count, in the order in which they happened: without what was undone, and each with its corrections."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from heapq import heappop, heappush
from typing import Any, Generic, TypeVar

from sandmix.book.events import CORRECTED, UNDONE, figure_set_back, words_of
from sandmix.language.timestamps import seconds_of

Event = Mapping[str, Any]
T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One entry that counts, its time in s from 1970, the corrections of it in the order in which they were written, and its words with them."""

    at_s: float
    event: Event
    corrections: tuple[Event, ...]
    words: dict[str, Any]

    @property
    def kind(self) -> str:
        """The kind of event."""
        return str(self.event["kind"])

    @property
    def sets_back(self) -> str:
        """The figure that it sets back; empty where it sets back none."""
        return figure_set_back({"kind": self.kind, **self.words})


def entries(events: Iterable[Event]) -> list[Entry]:
    """Return the entries of a book that count by their time; of two at one time, the one that was written first comes first."""
    there: dict[str, list[Event]] = {}
    for event in events:
        kind = event["kind"]
        if kind == UNDONE:
            there.pop(event["of"], None)
        elif kind != CORRECTED:
            there[event["id"]] = [event]
        elif event["of"] in there:
            there[event["of"]].append(event)
    found = [_entry(first, corrections) for first, *corrections in there.values()]
    return sorted(found, key=lambda entry: entry.at_s)


def _entry(first: Event, corrections: list[Event]) -> Entry:
    words = words_of(first)
    for correction in corrections:
        words |= words_of(correction)
    return Entry(at_s=seconds_of(first["at"]), event=first, corrections=tuple(corrections), words=words)


class Latest:
    """The latest of some times, each by its entry; of two at one time, the one that was noted later. A step takes the logarithm of their number."""

    def __init__(self) -> None:
        self._noted: dict[str, tuple[float, int]] = {}
        self._order: list[tuple[float, int, str]] = []
        self._count = 0

    def note(self, name: str, at_s: float) -> None:
        """Note the time of an entry, in place of what was noted of it before."""
        self._count += 1
        self._noted[name] = (at_s, self._count)
        heappush(self._order, (-at_s, -self._count, name))

    def drop(self, name: str) -> None:
        """Forget the time of an entry, if there is one."""
        self._noted.pop(name, None)

    def get(self, name: str) -> float | None:
        """Return the time of an entry; None where there is none."""
        return self._noted[name][0] if name in self._noted else None

    @property
    def last(self) -> tuple[float, str] | None:
        """The latest time, and its entry."""
        while self._order:
            before, count, name = self._order[0]
            if self._noted.get(name) == (-before, -count):
                return -before, name
            heappop(self._order)
        return None


class Counted(Generic[T]):
    """Values by their entries, in the order in which they came. Those that were there when they were set back do not count."""

    def __init__(self) -> None:
        self._values: dict[str, tuple[int, T]] = {}
        self._set_back: dict[str, int] = {}

    def get(self, name: str) -> T | None:
        """Return the value of an entry, whether it counts or not; None where there is none."""
        return self._values[name][1] if name in self._values else None

    def put(self, name: str, at: int, value: T) -> None:
        """Note the value of an entry; *at* is its place in the order, if it has none yet."""
        self._values[name] = (self._values[name][0] if name in self._values else at, value)

    def set_back(self, name: str, at: int) -> None:
        """Count none of the values so far; *name* is the entry that says so."""
        self._set_back[name] = at

    def drop(self, name: str) -> None:
        """Forget the value of an entry, or that it set the values back."""
        self._values.pop(name, None)
        self._set_back.pop(name, None)

    def lately(self) -> Iterator[tuple[int, T]]:
        """Yield the values that count with their places, the last one first."""
        since = next(reversed(self._set_back.values()), -1)
        for at, value in reversed(self._values.values()):
            if at < since:
                return
            yield at, value
