"""What happened to a heap: its events in words, and its charts from event to event."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from .. import amounts
from ..book import Book, Event
from ..events import BESIDE, CORRECTED, KINDS, UNDONE
from ..heap import DOUBTED, SHARES, State, add
from ..job import Axis, Chart, Limit, Line
from ..sand import PARTS
from ..units import UNITS
from ..vocabulary import WORDS
from ..wording import lowered, shown_given
from ..words import Quantity

_LIMIT = WORDS["dead_clay_limit_pct_dry"]
assert isinstance(_LIMIT, Quantity) and _LIMIT.default is not None
DEAD_CLAY_LIMIT_PCT: float = _LIMIT.default
_POINTS = 50
BEYOND = 1e15
_LABELS = {UNDONE: "Undone", CORRECTED: "Corrected"}


def label_of(kind: str) -> str:
    """Return what a person calls an event of *kind*."""
    return KINDS[kind].label if kind in KINDS else _LABELS[kind]


def told_of(event: Event) -> str:
    """Return an event that was just written, in a sentence."""
    label = label_of(event["kind"])
    return f"In the book: {lowered(label)}."


def timeline(opened: Book) -> Iterable[Mapping[str, object]]:
    """Yield each event in words, with what it did to each part."""
    undone = opened.undone()
    by_name: dict[str, Event] = {event["id"]: event for event in opened.events}
    for event in opened.events:
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
    words = ((word, value) for word, value in event.items() if word not in BESIDE and word in WORDS)
    own = ", ".join(f"{WORDS[word].label.lower()} {_typed(word, value)}" for word, value in words)
    if event["kind"] not in (UNDONE, CORRECTED):
        return own
    of = by_name[event["of"]]
    return f"{label_of(of['kind'])}, {of['at']}" + (f": {own}" if own else "")


def _typed(word: str, value: object) -> str:
    unit = getattr(WORDS[word], "unit", "")
    if isinstance(value, Mapping):
        parts: Mapping[str, object] = value
        value, unit = parts.get("value", ""), str(parts.get("unit", unit))
        value = amounts.naming_unit(value, unit) if isinstance(value, str) and unit in UNITS else value
    if isinstance(value, (int, float)) and not isinstance(value, bool) and abs(value) < BEYOND:
        return f"{value:g} {unit}".strip()
    return shown_given(value)


def _lines(event: Event) -> Iterable[str]:
    outcome = event["outcome"]
    yield from outcome["said"]
    for part, name in PARTS.items():
        kg = outcome["change"].get(part, 0.0)
        if abs(kg) >= 0.0005:
            yield f"{name} {'+' if kg > 0 else '−'}{abs(kg):.3f} kg"


def charts(opened: Book) -> Iterable[Chart]:
    """Yield clay and dead clay, moisture, and mass from event to event, the last two with their doubt as a band."""
    kept = _kept(opened.events)
    if len(kept) < 2:
        return
    x = Axis(label="Event", unit="")
    yield Chart(
        name="clay",
        title="Live clay and dead clay",
        sentence="Live clay and dead clay by the book, after each event.",
        x=x,
        y=Axis(label="Of the dry mass", unit="%"),
        series=(_line("live clay", kept, "clay_pct_dry"), _line("dead clay", kept, "dead_clay_pct_dry")),
        limits=(Limit(axis="y", at=DEAD_CLAY_LIMIT_PCT, label="dead clay, at most"),),
    )
    for name, title, word, y in (
        ("moisture", "Moisture", "moisture_pct_wet", Axis(label="Of the wet mass", unit="%")),
        ("mass", "Mass of the heap", "heap_kg", Axis(label="As it lies", unit="kg")),
    ):
        low, high = (_edge(side, kept, word, end) for side, end in (("at least (95 %)", 0), ("at most (95 %)", 1)))
        yield Chart(
            name=name,
            title=title,
            sentence=f"{title} by the book, after each event, and how far it may be off.",
            x=x,
            y=y,
            series=(_line(title.lower(), kept, word),),
            band=(low, high),
        )


def _kept(events: Iterable[Event]) -> list[tuple[int, State]]:
    """At most some fifty states from event to event, the first with sand in it and the last among them."""
    every = tuple(events)
    each = max(1, len(every) // _POINTS)
    parts, variances = dict.fromkeys(PARTS, 0.0), dict.fromkeys(DOUBTED, 0.0)
    kept = []
    for at, event in enumerate(every, start=1):
        add(event["outcome"], parts, variances)
        if at % each == 0 or at == len(every):
            state = State(parts=dict(parts), variances=dict(variances))
            kept += [(at, state)] if state.sand.dry_kg > 0 else []
    return kept


def _line(label: str, kept: list[tuple[int, State]], word: str) -> Line:
    return Line(label=label, points=tuple((float(at), _to(_figure(state, word))) for at, state in kept))


def _edge(label: str, kept: list[tuple[int, State]], word: str, end: int) -> Line:
    return Line(label=label, points=tuple((float(at), _to(state.bands()[word][end])) for at, state in kept))


def _figure(state: State, word: str) -> float:
    sand = state.sand
    if word in SHARES:
        return 100 * sum(float(getattr(sand, part)) for part in SHARES[word]) / sand.dry_kg
    return sand.wet_kg if word == "heap_kg" else sand.moisture_pct_wet


def _to(value: float) -> float:
    return float(f"{value:.4g}")
