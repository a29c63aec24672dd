"""What happened to a heap: its entries in words, and its charts from entry to entry."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from sandmix.asking.job import Axis, Chart, Limit, Line
from sandmix.book.book import Book, Event
from sandmix.book.events import CORRECTED, KINDS, NOT_WORDS, UNDONE
from sandmix.book.heap import HeapFold, HeapState, figure
from sandmix.language.amounts import naming_unit
from sandmix.language.units import UNITS
from sandmix.language.wording import lowered, shown_given
from sandmix.materials.sand import PARTS
from sandmix.vocabulary import WORDS, default_of

DEAD_CLAY_LIMIT_PCT = default_of("dead_clay_limit_pct_dry")
_POINTS = 50
_LONGEST_NUMBER = 1e15
_LABELS = {UNDONE: "Undone", CORRECTED: "Corrected"}
States = list[tuple[int, HeapState]]


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
            "note": event.get("note", ""),
            "lines": list(_lines(event)),
            "undone": event["id"] in undone,
            "can_undo": kind in KINDS and event["id"] not in undone,
        }


def _text(event: Event, by_name: Mapping[str, Event]) -> str:
    """The event's own words, each as it was typed."""
    words = ((word, value) for word, value in event.items() if word not in NOT_WORDS and word in WORDS)
    own = ", ".join(f"{WORDS[word].label.lower()} {_typed(word, value)}" for word, value in words)
    if event["kind"] not in (UNDONE, CORRECTED):
        return own
    of = by_name[event["of"]]
    return f"{label_of(of['kind'])}, {of['at']}" + (f": {own}" if own else "")


def _typed(word: str, value: object) -> str:
    unit, labels = getattr(WORDS[word], "unit", ""), getattr(WORDS[word], "choices", {})
    if isinstance(value, str) and value in labels:
        return str(labels[value])
    if isinstance(value, Mapping):
        parts: Mapping[str, object] = value
        value, unit = parts.get("value", ""), str(parts.get("unit", unit))
        value = naming_unit(value, unit) if isinstance(value, str) and unit in UNITS else value
    if isinstance(value, (int, float)) and not isinstance(value, bool) and abs(value) < _LONGEST_NUMBER:
        return f"{value:g} {unit}".strip()
    return shown_given(value)


def _lines(event: Event) -> Iterable[str]:
    outcome = event["outcome"]
    yield from outcome["said"]
    for part, name in PARTS.items():
        kg = outcome["change"].get(part, 0.0)
        if abs(kg) >= 0.0005:
            yield f"{name} {'+' if kg > 0 else '−'}{abs(kg):.3f} kg"


def charts(book: Book) -> Iterable[Chart]:
    """Yield clay and dead clay, moisture, and mass from entry to entry, the last two with their likely range as a band."""
    states = _states(book.events)
    if len(states) < 2:
        return
    x = Axis(label="Entry", unit="")
    yield Chart(
        name="clay",
        title="Live clay and dead clay",
        sentence="Live clay and dead clay after each entry.",
        x=x,
        y=Axis(label="Share of the dry mass", unit="%"),
        series=(_line("live clay", states, "clay_pct_dry"), _line("dead clay", states, "dead_clay_pct_dry")),
        limits=(Limit(axis="y", at=DEAD_CLAY_LIMIT_PCT, label="limit for dead clay"),),
    )
    for name, title, word, y in (
        ("moisture", "Moisture", "moisture_pct_wet", Axis(label="Share of the wet mass", unit="%")),
        ("mass", "Mass of the heap", "heap_kg", Axis(label="Mass with its water", unit="kg")),
    ):
        yield Chart(
            name=name,
            title=title,
            sentence=f"{title} after each entry, with its likely range.",
            x=x,
            y=y,
            series=(_line(title.lower(), states, word),),
            band=(_edge("low end", states, word, 0), _edge("high end", states, word, 1)),
        )


def _states(events: Iterable[Event]) -> States:
    """At most some fifty states from entry to entry, the first with sand in it and the last among them."""
    every, heap = tuple(events), HeapFold()
    each = max(1, len(every) // _POINTS)
    states: States = []
    for at, event in enumerate(every, start=1):
        heap.add(event)
        if at % each == 0 or at == len(every):
            state = heap.state().at()
            states += [(at, state)] if state.sand.dry_kg > 0 else []
    return states


def _line(label: str, states: States, word: str) -> Line:
    return Line(label=label, points=tuple((float(at), _rounded(figure(state.sand, word))) for at, state in states))


def _edge(label: str, states: States, word: str, end: int) -> Line:
    return Line(label=label, points=tuple((float(at), _rounded(state.bands()[word][end])) for at, state in states))


def _rounded(value: float) -> float:
    return float(f"{value:.4g}")
