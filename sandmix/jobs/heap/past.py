"""What happened to a heap: its entries in words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from sandmix.book.book import Book, Event
from sandmix.book.events import CORRECTED, KINDS, NOT_WORDS, UNDONE
from sandmix.language.amounts import naming_unit
from sandmix.language.errors import printable
from sandmix.language.units import UNITS
from sandmix.language.wording import lowered, shown_given, true_minus
from sandmix.materials.sand import PARTS
from sandmix.vocabulary import WORDS, default_of

DEAD_CLAY_LIMIT_PCT = default_of("dead_clay_limit_pct_dry")
_LONGEST_NUMBER = 1e15
_LABELS = {UNDONE: "Undone", CORRECTED: "Corrected"}


def label_of(kind: str) -> str:
    """Return what a person calls an event of *kind*."""
    return KINDS[kind].label if kind in KINDS else _LABELS[kind]


def confirmation(event: Event) -> str:
    """Return the sentence that confirms an event that was just recorded."""
    return f"In the book: {lowered(label_of(event['kind']))}."


def timeline(book: Book) -> Iterable[Mapping[str, object]]:
    """Yield each event in words, with what it did to each part."""
    undone = book.undone()
    by_name: dict[str, Event] = {event["id"]: event for event in book.events}
    for event in book.events:
        kind = event["kind"]
        yield {
            "id": event["id"],
            "at": event["at"],
            "kind": kind,
            "label": label_of(kind),
            "text": _text(event, by_name),
            "note": printable(event.get("note", "")),
            "lines": list(_lines(event)),
            "undone": event["id"] in undone,
            "can_undo": kind in KINDS and event["id"] not in undone,
        }


def _text(event: Event, by_name: Mapping[str, Event]) -> str:
    """The event's own words, each as it was typed and with its unit; what undoes or corrects names the other event by its time to the minute."""
    words = ((word, value) for word, value in event.items() if word not in NOT_WORDS and word in WORDS)
    own = ", ".join(f"{WORDS[word].label.lower()} {_typed(word, value)}" for word, value in words)
    if event["kind"] not in (UNDONE, CORRECTED):
        return own
    of = by_name[event["of"]]
    return f"{label_of(of['kind'])}, {of['at'][:16].replace('T', ' ')}" + (f": {own}" if own else "")


def _typed(word: str, value: object) -> str:
    unit, labels = getattr(WORDS[word], "unit", ""), getattr(WORDS[word], "choices", {})
    if isinstance(value, str) and value in labels:
        return str(labels[value])
    if isinstance(value, Mapping):
        parts: Mapping[str, object] = value
        value, unit = parts.get("value", ""), str(parts.get("unit", unit))
    if isinstance(value, str) and unit and unit in UNITS:
        value = naming_unit(value, unit)
    if isinstance(value, (int, float)) and not isinstance(value, bool) and abs(value) < _LONGEST_NUMBER:
        return true_minus(f"{value:g} {unit}".strip())
    return shown_given(value)


def _lines(event: Event) -> Iterable[str]:
    outcome = event["outcome"]
    yield from outcome["said"]
    for part, name in PARTS.items():
        kg = outcome["change"].get(part, 0.0)
        if abs(kg) >= 0.0005:
            yield f"{name} {'+' if kg > 0 else '−'}{abs(kg):.3f} kg"
