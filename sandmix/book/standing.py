"""The entries of a book that count, in the order in which they happened: without what was undone, and each with its corrections."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from sandmix.book.events import CORRECTED, UNDONE, words_of
from sandmix.language.timestamps import seconds_of

Event = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One entry that counts, its time in s from 1970, and the corrections of it in the order in which they were written."""

    at_s: float
    event: Event
    corrections: tuple[Event, ...] = ()

    @property
    def kind(self) -> str:
        """The kind of event."""
        return str(self.event["kind"])

    @property
    def words(self) -> dict[str, Any]:
        """The entry's words with all corrections."""
        words = words_of(self.event)
        for correction in self.corrections:
            words |= words_of(correction)
        return words


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
    found = [
        Entry(at_s=seconds_of(first["at"]), event=first, corrections=tuple(corrections))
        for first, *corrections in there.values()
    ]
    return sorted(found, key=lambda entry: entry.at_s)
