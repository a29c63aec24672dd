"""The casts of a heap and what each lost, as a share of the sand in its mould, also in books that stored it as a share of the heap."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import islice
from typing import Any

from sandmix.book.events import figure_set_back, typed, words_of
from sandmix.book.standing import Counted
from sandmix.maths.statistics import MOST_READINGS
from sandmix.recipes import sand_loss


def weighed_loss(outcome: Mapping[str, Any], words: Mapping[str, Any], heap_kg: float) -> float | None:
    """Return the loss that was weighed for a cast with *words*, as a share of the sand in its mould; None without a weighing.

    A book before version 3 has it as a share of the heap, which held *heap_kg* before the cast.
    """
    if "mould_loss_share" in outcome:
        return float(outcome["mould_loss_share"])
    if "loss_share" not in outcome:
        return None
    metal, flask = typed("metal_kg", words), typed("flask_sand_kg", words)
    if metal is None:
        return None
    mould_kg = sand_loss.sand_in_mould(metal[0], heap_kg, flask and flask[0]).kg
    return min(1.0, outcome["loss_share"] * heap_kg / mould_kg) if mould_kg > 0 else None


OWN_LOSS = "loss_a_cast_pct"
"""A loss that a person knows of their own casts: it counts like one weighed cast."""


class LossFold:
    """What the events of a book say of its casts and their losses, one after the other."""

    def __init__(self) -> None:
        self._poured: dict[str, dict[str, Any]] = {}
        self._weighed = Counted[float]()
        self._added = 0

    @property
    def casts(self) -> int:
        """How many casts there were, without those that were undone."""
        return len(self._poured)

    def weighed(self, name: str) -> float | None:
        """Return the loss that was weighed for the cast of that id, or that the entry gives; None without one."""
        return self._weighed.get(name)

    def last(self) -> tuple[float, ...]:
        """Return the last twenty losses, weighed or given by the person, since they were set back: shares of the sand in the mould."""
        return tuple(reversed([share for _, share in islice(self._weighed.lately(), MOST_READINGS)]))

    def add(self, event: Mapping[str, Any], of: str, heap_kg: float) -> None:
        """Note what an event says, or what a correction says of the event *of*; the heap held *heap_kg* before it."""
        self._added += 1
        if event["kind"] == "poured" or of in self._poured:
            words = self._poured[of] = self._poured.get(of, {}) | words_of(event)
            self._take(of, weighed_loss(event["outcome"], words, heap_kg))
        elif figure_set_back(event) == OWN_LOSS:
            self._weighed.set_back(of, self._added)
        elif OWN_LOSS in event and (own := typed(OWN_LOSS, event)):
            self._take(of, min(1.0, own[0] / 100))

    def undo(self, name: str) -> None:
        """Take back what an event said."""
        self._poured.pop(name, None)
        self._weighed.drop(name)

    def _take(self, name: str, share: float | None) -> None:
        if share is None:
            self._weighed.drop(name)
        else:
            self._weighed.put(name, self._added, share)
