"""Burnt sand thrown away as crust, before it is mixed back: it takes the clay that died in it out of the heap.

In addition to its sum, the book keeps what the casts have burnt since sand was last mixed: the dry sand whose clay is dead, the clay that died in it,
and the variance of that clay. Of what is thrown away as crust, burnt sand counts first, as far as there is any; the rest counts as sand as it lies.
Burnt sand is the heap's own dry sand with its live clay dead and its water gone. Adding sand, clay or water and mulling it mixes back what was not
thrown away. Sand that leaves as it lies takes its share of the burnt sand (own choice).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from sandmix.book.events import typed
from sandmix.book.heap import BurntSand, HeapState, Outcome
from sandmix.materials.delta import UNCERTAIN, Delta
from sandmix.materials.sand import DRY_PARTS, PARTS, Masses, Sand
from sandmix.maths.statistics import TWO_SIGMA

MIXING = ("mixed", "added", "joined", "tempered")
"""The kinds of event by which burnt sand is mixed back; a test after which water was added is another."""
DEAD = "dead_clay_kg"
LEAST_SHOWN_KG = 0.0005


def mixes_back(kind: str, words: Mapping[str, Any]) -> bool:
    """Return whether an event of *kind* with *words* mixes burnt sand back."""
    added = typed("water_added_kg", words) if kind == "measured" else None
    return kind in MIXING or bool(added and added[0] > 0)


def left_by(killed_kg: float, variance: float, live_kg: float, dry_kg: float) -> BurntSand:
    """Return the burnt sand that a cast leaves where it kills *killed_kg* of the live clay: burnt sand held as much clay as the heap did."""
    sand_kg = killed_kg * dry_kg / live_kg if live_kg > 0 else 0.0
    return BurntSand(sand_kg=sand_kg, clay_kg=killed_kg, variance=variance)


def discarded(state: HeapState, wet_kg: float, half_width_kg: float) -> Outcome:
    """Return what throwing away *wet_kg* as crust does: burnt sand goes first, and sand as it lies for the rest.

    Its uncertainty: of what is weighed, *half_width_kg*; of what leaves as it lies, the heap's own; and how much of the burnt sand is left, unless it
    is certain that all of it is gone.
    """
    heap = _Parted(state)
    gone = heap.gone(wet_kg, heap.burnt_kg)
    weighings = [heap.gone(max(0.0, wet_kg + sign * half_width_kg), heap.burnt_kg) for sign in (-1, 1)]
    ends = [max(0.0, heap.burnt_kg - heap.half_kg), heap.burnt_kg + heap.half_kg]
    burnings = [heap.gone(wet_kg, burnt_kg) for burnt_kg in ends]
    variances = dict.fromkeys(UNCERTAIN, 0.0)
    for moved, counted in ((weighings, UNCERTAIN), (burnings, tuple(part for part in UNCERTAIN if part != DEAD))):
        for part in counted:
            variances[part] += (max(abs(getattr(one, part) - getattr(gone, part)) for one in moved) / TWO_SIGMA) ** 2
    here = state.burnt.variance
    left = [heap.clay * max(0.0, burnt_kg - wet_kg) for burnt_kg in ends]
    still = min(here, ((left[1] - left[0]) / 2 / TWO_SIGMA) ** 2)
    rest = heap.share_of_rest(wet_kg, heap.burnt_kg)
    for part in UNCERTAIN:
        square = state.total.variance(part)
        old = max(0.0, square - here) if part == DEAD else square
        variances[part] -= old * (1 - (1 - rest) ** 2)
    variances[DEAD] += still - here
    away_kg = min(wet_kg, heap.burnt_kg)
    return Outcome(
        delta=replace(gone, variances=variances),
        how="weighed",
        lines=_lines(heap, wet_kg, away_kg, (min(wet_kg, ends[1]) - min(wet_kg, ends[0])) / 2),
        burnt=BurntSand(sand_kg=-away_kg, clay_kg=-heap.clay * away_kg, variance=still - here),
    )


def _lines(heap: _Parted, wet_kg: float, away_kg: float, half_kg: float) -> tuple[str, ...]:
    if away_kg <= 0:
        return (
            "thrown away as crust; the book has no burnt sand since the heap was last mixed, so it counts as sand as it lay",
        )
    burnt = (
        f"thrown away as crust: {away_kg:.3f} kg of it is burnt sand, with {_grams(heap.clay * away_kg, heap.clay * half_kg)} of the "
        f"{_grams(heap.clay * heap.burnt_kg, heap.clay * heap.half_kg)} of clay that the casts have burnt since the heap was last mixed"
    )
    return (burnt, f"the other {wet_kg - away_kg:.3f} kg is sand as it lay") if wet_kg > away_kg else (burnt,)


def _grams(kg: float, half_kg: float) -> str:
    half = f" ± {1000 * half_kg:.0f}" if half_kg >= LEAST_SHOWN_KG else ""
    return f"{1000 * kg:.0f}{half} g"


class _Parted:
    """A heap divided into its burnt sand and the rest."""

    def __init__(self, state: HeapState) -> None:
        self.sand, burnt = state.sand, state.burnt
        clay_kg = min(burnt.clay_kg, self.sand.dead_clay_kg)
        others = {part: getattr(self.sand, part) for part in DRY_PARTS if part != "live_clay_kg"}
        others[DEAD] -= clay_kg
        there = sum(others.values())
        self.burnt_kg = min(burnt.sand_kg, clay_kg + there) if clay_kg > 0 else 0.0
        self.clay = clay_kg / self.burnt_kg if self.burnt_kg > 0 else 0.0
        self.others = {part: (1 - self.clay) * kg / there if there > 0 else 0.0 for part, kg in others.items()}
        self.half_kg = TWO_SIGMA * max(0.0, burnt.variance) ** 0.5 / self.clay if self.clay > 0 else 0.0

    def burnt(self, burnt_kg: float) -> Masses:
        """Return so much burnt sand."""
        parts = {part: share * burnt_kg for part, share in self.others.items()}
        return Masses(**parts | {DEAD: parts[DEAD] + self.clay * burnt_kg})

    def rest(self, burnt_kg: float) -> Sand:
        """Return the heap without so much burnt sand."""
        return self.sand.less(self.burnt(burnt_kg))

    def share_of_rest(self, wet_kg: float, burnt_kg: float) -> float:
        """Return the share of the rest that goes where *wet_kg* go, the burnt sand first."""
        there = self.rest(burnt_kg).wet_kg
        return min(1.0, max(0.0, wet_kg - burnt_kg) / there) if there > 0 else 0.0

    def gone(self, wet_kg: float, burnt_kg: float) -> Delta:
        """Return the change where *wet_kg* are thrown away and *burnt_kg* of burnt sand are there."""
        burnt, rest = self.burnt(min(wet_kg, burnt_kg)), self.rest(burnt_kg)
        share = self.share_of_rest(wet_kg, burnt_kg)
        return Delta.of({part: -getattr(burnt, part) - share * getattr(rest, part) for part in PARTS})
