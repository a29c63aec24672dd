"""The events of a book as they are read or written, each found at once: what stands, what was undone, and the heap before any of them.

All steps take a time that does not grow with the book, or with its logarithm, so that a whole book is read in a time that grows with its events.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterable, Mapping
from typing import Any, TypeVar

from sandmix.book.burnt_sand import MIXING
from sandmix.book.events import CORRECTED, UNDONE, words_of
from sandmix.book.heap import CRUST, DOUBTED, Outcome, State, Sum, no_less
from sandmix.materials.sand import PARTS
from sandmix.maths.statistics import MOST_READINGS

Event = Mapping[str, Any]
T = TypeVar("T")
_FIELDS = (("change", tuple(PARTS)), ("variance", DOUBTED), ("crust", CRUST))


class Ledger:
    """Events with their outcomes, added one after the other."""

    def __init__(self, events: Iterable[Event] = ()) -> None:
        self._total = Sum()
        self._events: dict[str, Event] = {}
        self._places: dict[str, int] = {}
        self._undone: set[str] = set()
        self._anew: dict[str, tuple[Outcome, dict[str, Any]]] = {}
        self._before, self._not_yet = _Sums(), list[tuple[int, Mapping[str, Any]]]()
        self._weighed, self._shares = list[int](), dict[int, float]()
        self._with_metal, self._metals = list[int](), dict[int, str]()
        self._mixings: list[str] = []
        for event in events:
            self.add(event)

    def add(self, event: Event) -> None:
        """Add an event with its outcome."""
        name, kind, outcome = event["id"], event["kind"], event["outcome"]
        self._total.add(event)
        self._events[name] = event
        place = self._places[name] = len(self._places)
        meant = self._places[event["of"]] if kind in (UNDONE, CORRECTED) else place
        self._not_yet.append((meant, outcome))
        if kind == UNDONE:
            self._undone.add(event["of"])
            _forget(self._weighed, self._shares, meant)
            _forget(self._with_metal, self._metals, meant)
            return
        if kind == CORRECTED:
            self._anew[event["of"]] = self._corrected(event)
        if kind in MIXING:
            self._mixings.append(name)
        self._note(event, meant)

    def _corrected(self, event: Event) -> tuple[Outcome, dict[str, Any]]:
        of = event["of"]
        found = self.standing(of)
        return found.with_more(Outcome.heard(event["outcome"]), found.how), self.words(of) | words_of(event)

    def _note(self, event: Event, meant: int) -> None:
        """Keep the loss that a cast weighed and the metal that holds from there on, as the sum does."""
        kind, share = event["kind"], event["outcome"].get("loss_share")
        if self._is_cast(event):
            if share is None:
                _forget(self._weighed, self._shares, meant)
            else:
                _keep(self._weighed, self._shares, meant, share)
        if "metal" in event and (kind in ("poured", "metal_changed") or meant in self._metals):
            _keep(self._with_metal, self._metals, meant, event["metal"])

    def _is_cast(self, event: Event) -> bool:
        kind: str = event["kind"]
        if kind == CORRECTED and event["of"] not in self._undone:
            kind = self._events[event["of"]]["kind"]
        return kind == "poured"

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
        """Return the words of an event by now, after what was put right in it."""
        return dict(self._anew[name][1]) if name in self._anew else words_of(self._events[name])

    def standing(self, name: str) -> Outcome:
        """Return what an event counts for now: its outcome, and what corrections have added to it."""
        return self._anew[name][0] if name in self._anew else Outcome.heard(self._events[name]["outcome"])

    def mixed_since(self, name: str) -> bool:
        """Whether the heap was mixed after the event of that id, by one that stands."""
        while self._mixings and self._mixings[-1] in self._undone:
            self._mixings.pop()
        return bool(self._mixings) and self._places[self._mixings[-1]] > self._places[name]

    def state(self) -> State:
        """Return the heap as it stands."""
        return self._total.state()

    def stood(self, name: str) -> State:
        """Return the heap before an event, by what is known of it now: with what was undone and corrected since."""
        place = self._places[name]
        for meant, outcome in self._not_yet:
            self._before.add(meant, outcome)
        self._not_yet.clear()
        change, variance, crust = self._before.up_to(place)
        lately = self._weighed[: bisect_left(self._weighed, place)][-MOST_READINGS:]
        metals = bisect_left(self._with_metal, place)
        return State(
            parts=change,
            variances=variance,
            own_losses=tuple(self._shares[at] for at in lately),
            metal=self._metals[self._with_metal[metals - 1]] if metals else None,
            crust=no_less(crust),
        )


def _keep(places: list[int], kept: dict[int, T], place: int, value: T) -> None:
    if place not in kept:
        insort(places, place)
    kept[place] = value


def _forget(places: list[int], kept: dict[int, T], place: int) -> None:
    if kept.pop(place, None) is not None:
        del places[bisect_left(places, place)]


class _Sums:
    """Sums of outcomes over the events before any place, in steps that grow as the logarithm of their number: a tree of partial sums."""

    def __init__(self) -> None:
        self._nodes: list[list[float]] = []
        self._width = sum(len(names) for _, names in _FIELDS)

    def _append(self) -> None:
        """Make one more place at the end, with nothing in it yet."""
        at = len(self._nodes) + 1
        node = [0.0] * self._width
        child = at - 1
        while child > at - (at & -at):
            node = [one + other for one, other in zip(node, self._nodes[child - 1], strict=True)]
            child -= child & -child
        self._nodes.append(node)

    def add(self, place: int, outcome: Mapping[str, Any]) -> None:
        """Add an outcome at a place; as many places are made as that takes."""
        while len(self._nodes) <= place:
            self._append()
        flat = [outcome.get(field, {}).get(name, 0.0) for field, names in _FIELDS for name in names]
        at = place + 1
        while at <= len(self._nodes):
            self._nodes[at - 1] = [one + other for one, other in zip(self._nodes[at - 1], flat, strict=True)]
            at += at & -at

    def up_to(self, place: int) -> list[dict[str, float]]:
        """Return the sums of all places before *place*, a set of figures a field."""
        total = [0.0] * self._width
        at = min(place, len(self._nodes))
        while at > 0:
            total = [one + other for one, other in zip(total, self._nodes[at - 1], strict=True)]
            at -= at & -at
        figures = iter(total)
        return [{name: next(figures) for name in names} for _, names in _FIELDS]
