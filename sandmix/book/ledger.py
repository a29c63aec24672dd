"""The events of a book as they are read or written: which ones stand, which were undone, and the heap before any of them.

Each step takes the same time however long the book is, or grows with the logarithm of its length, so the time to read a book grows with the number of
its events.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterable, Iterator, Mapping
from itertools import islice
from typing import Any, Generic, TypeVar

from sandmix.book.burnt_sand import mixes_back
from sandmix.book.events import CORRECTED, UNDONE, figure_set_back, words_of
from sandmix.book.heap import CRUST, NO_BURNT_SAND, BurntSand, HeapFold, HeapState, Outcome
from sandmix.book.known_water import DAY_LOSSES, EACH_MOVED, latest_moves, moved_under
from sandmix.book.weighed_losses import OWN_LOSS
from sandmix.drying.heap_water import Cover, Move
from sandmix.materials.delta import UNCERTAIN, Delta
from sandmix.materials.sand import PARTS
from sandmix.maths.statistics import MOST_READINGS

Event = Mapping[str, Any]
T = TypeVar("T")
_FIELDS = (("change", tuple(PARTS)), ("variance", UNCERTAIN), ("crust", CRUST))


class Ledger:
    """Events with their outcomes, added one after the other."""

    def __init__(self, events: Iterable[Event] = ()) -> None:
        self._heap = HeapFold()
        self._events: dict[str, Event] = {}
        self._places: dict[str, int] = {}
        self._undone: set[str] = set()
        self._corrections: dict[str, tuple[Outcome, dict[str, Any]]] = {}
        self._before, self._not_yet = _Sums(), list[tuple[int, Mapping[str, Any]]]()
        self._losses, self._metals = _Placed[float](), _Placed[str]()
        self._waters, self._covers = _Placed[float](), _Placed[tuple[Cover, ...]]()
        self._moves = {covers: _Placed[Move]() for covers in EACH_MOVED}
        self._all_placed: tuple[_Placed[Any], ...] = (
            *(self._losses, self._metals, self._waters, self._covers),
            *self._moves.values(),
        )
        self._mixings: list[str] = []
        for event in events:
            self.add(event)

    def add(self, event: Event) -> None:
        """Add an event with its outcome."""
        name, kind, outcome = event["id"], event["kind"], event["outcome"]
        self._heap.add(event)
        self._events[name] = event
        place = self._places[name] = len(self._places)
        target = self._places[event["of"]] if kind in (UNDONE, CORRECTED) else place
        self._not_yet.append((target, outcome))
        if kind == UNDONE:
            self._undone.add(event["of"])
            for placed in self._all_placed:
                placed.drop(target)
            return
        if kind == CORRECTED:
            self._corrections[event["of"]] = self._corrected(event)
        if mixes_back(kind, event):
            self._mixings.append(name)
        self._note(event, target)

    def _corrected(self, event: Event) -> tuple[Outcome, dict[str, Any]]:
        of = event["of"]
        found = self.standing(of)
        return found.plus(Outcome.from_dict(event["outcome"]), found.how), self.words(of) | words_of(event)

    def _note(self, event: Event, target: int) -> None:
        """Store the loss of a cast that was weighed or given, when the water was known, and cover and metal from that event on, as the fold does."""
        kind = event["kind"]
        of = event["of"] if kind == CORRECTED else event["id"]
        self._losses.set(target, self._heap.losses.weighed(of))
        figure = figure_set_back(event)
        if figure == OWN_LOSS:
            self._losses.set_back(target)
        if cover := DAY_LOSSES.get(figure):
            for covers, moves in self._moves.items():
                if cover in covers:
                    moves.set_back(target)
        self._waters.set(target, self._heap.water.known_from(of))
        self._covers.set(target, self._heap.water.covers_from(of))
        if move := self._heap.water.move_to(of):
            self._moves[moved_under(move)].put(target, move)
        if "metal" in event and (kind in ("poured", "metal_changed") or target in self._metals):
            self._metals.put(target, event["metal"])

    def __contains__(self, name: str) -> bool:
        return name in self._events

    def __len__(self) -> int:
        return len(self._events)

    def find(self, name: str) -> Event:
        """Return the event of that id; it must be there."""
        return self._events[name]

    def is_undone(self, name: str) -> bool:
        """Whether the event of that id was undone."""
        return name in self._undone

    def words(self, name: str) -> dict[str, Any]:
        """Return the words of an event with all corrections."""
        return dict(self._corrections[name][1]) if name in self._corrections else words_of(self._events[name])

    def standing(self, name: str) -> Outcome:
        """Return the outcome of an event with all corrections."""
        return (
            self._corrections[name][0]
            if name in self._corrections
            else Outcome.from_dict(self._events[name]["outcome"])
        )

    def mixed_since(self, name: str) -> bool:
        """Whether the heap was mixed after the event of that id, by an event that was not undone."""
        while self._mixings and self._mixings[-1] in self._undone:
            self._mixings.pop()
        return bool(self._mixings) and self._places[self._mixings[-1]] > self._places[name]

    def kg(self, part: str) -> float:
        """Return the mass of a part as it stands, in kg."""
        return self._heap.kg(part)

    def state(self) -> HeapState:
        """Return the heap as it stands."""
        return self._heap.state()

    def state_before(self, name: str) -> HeapState:
        """Return the heap before an event, with everything that was undone or corrected since."""
        place = self._places[name]
        for target, outcome in self._not_yet:
            self._before.add(target, outcome)
        self._not_yet.clear()
        parts, variances, burnt = self._before.up_to(place)
        return HeapState(
            total=Delta.of(parts, variances),
            own_losses=self._losses.last_before(place, MOST_READINGS),
            metal=next(iter(self._metals.last_before(place, 1)), None),
            burnt=BurntSand(**burnt).at_least(NO_BURNT_SAND),
            water_known_s=max(self._waters.last_before(place, MOST_READINGS), default=None),
            covers=tuple(cover for several in self._covers.last_before(place, MOST_READINGS) for cover in several),
            moves=latest_moves(moves.before(place) for moves in self._moves.values()),
        )


class _Placed(Generic[T]):
    """Values at places of the book, in the order of their places, and the places where those before were set back."""

    def __init__(self) -> None:
        self._places: list[int] = []
        self._values: dict[int, T] = {}
        self._set_back: list[int] = []

    def __contains__(self, place: int) -> bool:
        return place in self._values

    def set(self, place: int, value: T | None) -> None:
        """Set the value at a place, or remove it where there is none."""
        if value is not None:
            self.put(place, value)
        elif place in self._values:
            self.drop(place)

    def put(self, place: int, value: T) -> None:
        """Set the value at a place."""
        if place not in self._values:
            insort(self._places, place)
        self._values[place] = value

    def set_back(self, place: int) -> None:
        """Count none of the values before a place after it."""
        self._set_back.append(place)

    def drop(self, place: int) -> None:
        """Remove the value at a place, if there is one, and that values were set back there."""
        if self._values.pop(place, None) is not None:
            del self._places[bisect_left(self._places, place)]
        at = bisect_left(self._set_back, place)
        if self._set_back[at : at + 1] == [place]:
            del self._set_back[at]

    def before(self, place: int) -> Iterator[tuple[int, T]]:
        """Yield the values before a place that count there, with their own places, the last one first."""
        set_back = bisect_left(self._set_back, place)
        since = self._set_back[set_back - 1] if set_back else 0
        for index in range(bisect_left(self._places, place) - 1, bisect_left(self._places, since) - 1, -1):
            yield self._places[index], self._values[self._places[index]]

    def last_before(self, place: int, most: int) -> tuple[T, ...]:
        """Return the last values before a place that count there, at most so many."""
        return tuple(reversed([value for _, value in islice(self.before(place), most)]))


class _Sums:
    """Sums of outcomes over the events before any place: a tree of partial sums, so a step takes the logarithm of their number."""

    def __init__(self) -> None:
        self._nodes: list[list[float]] = []
        self._width = sum(len(names) for _, names in _FIELDS)

    def _append(self) -> None:
        """Make one more empty place at the end."""
        at = len(self._nodes) + 1
        node = [0.0] * self._width
        child = at - 1
        while child > at - (at & -at):
            node = [one + other for one, other in zip(node, self._nodes[child - 1], strict=True)]
            child -= child & -child
        self._nodes.append(node)

    def add(self, place: int, outcome: Mapping[str, Any]) -> None:
        """Add an outcome at a place; makes places up to it."""
        while len(self._nodes) <= place:
            self._append()
        flat = [outcome.get(field, {}).get(name, 0.0) for field, names in _FIELDS for name in names]
        at = place + 1
        while at <= len(self._nodes):
            self._nodes[at - 1] = [one + other for one, other in zip(self._nodes[at - 1], flat, strict=True)]
            at += at & -at

    def up_to(self, place: int) -> list[dict[str, float]]:
        """Return the sums of all places before *place*, one set of figures per field."""
        total = [0.0] * self._width
        at = min(place, len(self._nodes))
        while at > 0:
            total = [one + other for one, other in zip(total, self._nodes[at - 1], strict=True)]
            at -= at & -at
        figures = iter(total)
        return [{name: next(figures) for name in names} for _, names in _FIELDS]
