"""Crust: sand burnt beside the casting that is thrown away before it is mixed back, and takes the clay that died in it along.

The book keeps, beside its sum, what the casts have burnt since sand was last mixed: the dry sand whose clay is dead, the clay that died in it,
and the variance of that. Sand that is thrown away as crust is burnt sand first, as far as there is any, and for the rest sand as it lies. Burnt sand
is the heap's own dry sand with its live clay dead and its water gone. New sand, clay or water that goes in and is mulled mixes what
was not thrown away back, and sand that leaves as it lies takes its share of it (own choice).
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from sandmix.book.heap import CRUST, DOUBTED, DRY, DRY_PARTS, Outcome, State, added
from sandmix.materials.sand import PARTS
from sandmix.maths.statistics import TWO_SIGMA

MIXING = ("mixed", "added", "joined", "tempered")
"""The kinds of event by which burnt sand is mixed back."""
Change = dict[str, float]
DEAD = "dead_clay_kg"
LEAST_TOLD_KG = 0.0005


def left_by(killed_kg: float, variance: float, live_kg: float, dry_kg: float) -> Change:
    """Return what a cast leaves of crust that kills *killed_kg* of the live clay, of that *variance*: burnt sand holds clay as the heap did."""
    sand_kg = killed_kg * dry_kg / live_kg if live_kg > 0 else 0.0
    return dict(zip(CRUST, (sand_kg, killed_kg, variance), strict=True))


def taken(crust: Mapping[str, float], share: float) -> Change:
    """Return what a crust loses where *share* of the whole heap leaves as it lies."""
    sand, clay, variance = (crust[name] for name in CRUST)
    return dict(zip(CRUST, (-share * sand, -share * clay, -(1 - (1 - share) ** 2) * variance), strict=True))


def mixed_back(crust: Mapping[str, float]) -> Change:
    """Return what a crust loses where the heap is mixed: all of it."""
    return {name: -amount for name, amount in crust.items()}


def discarded(state: State, wet_kg: float, half_width_kg: float) -> Outcome:
    """Return what throwing away *wet_kg* as crust does: burnt sand first, and sand as it lies for the rest.

    Its doubt: of what is weighed, *half_width_kg*; of what leaves as it lies, its own; and how much of the burnt sand is left, where that is
    not surely all gone.
    """
    whole = _Heap(state)
    told = whole.less(wet_kg, whole.sand_kg)
    burnt_kg = min(wet_kg, whole.sand_kg)
    variance = dict.fromkeys(DOUBTED, 0.0)
    weighings = [whole.less(max(0.0, wet_kg + sign * half_width_kg), whole.sand_kg) for sign in (-1, 1)]
    ends = [max(0.0, whole.sand_kg - whole.half_kg), whole.sand_kg + whole.half_kg]
    burnings = [whole.less(wet_kg, sand_kg) for sand_kg in ends]
    for moved, counted in ((weighings, DOUBTED), (burnings, tuple(part for part in DOUBTED if part != DEAD))):
        for part in counted:
            variance[part] += (max(abs(_of(one, part) - _of(told, part)) for one in moved) / TWO_SIGMA) ** 2
    here = state.crust["variance"]
    left = [whole.clay * max(0.0, sand_kg - wet_kg) for sand_kg in ends]
    still = min(here, ((left[1] - left[0]) / 2 / TWO_SIGMA) ** 2)
    rest = whole.share_of_rest(wet_kg, whole.sand_kg)
    for part, square in state.variances.items():
        old = max(0.0, square - here) if part == DEAD else square
        variance[part] -= old * (1 - (1 - rest) ** 2)
    variance[DEAD] += still - here
    gone_kg = whole.clay * burnt_kg
    return Outcome(
        change=told,
        variance=variance,
        how="weighed",
        said=tuple(_said(whole, wet_kg, burnt_kg, (min(wet_kg, ends[1]) - min(wet_kg, ends[0])) / 2)),
        crust=dict(zip(CRUST, (-burnt_kg, -gone_kg, still - here), strict=True)),
    )


def _said(whole: _Heap, wet_kg: float, burnt_kg: float, half_kg: float) -> list[str]:
    if burnt_kg <= 0:
        return ["thrown away as crust; the book knows of no sand burnt since it was last mixed, so it counts as it lay"]
    burnt = (
        f"thrown away as crust: {burnt_kg:.3f} kg of it burnt sand, with {_grams(whole.clay * burnt_kg, whole.clay * half_kg)} of the "
        f"{_grams(whole.clay * whole.sand_kg, whole.clay * whole.half_kg)} of clay that the casts have burnt since sand was last mixed"
    )
    return [burnt, f"the rest, {wet_kg - burnt_kg:.3f} kg, as it lay"] if wet_kg > burnt_kg else [burnt]


def _grams(kg: float, half_kg: float) -> str:
    half = f" ± {1000 * half_kg:.0f}" if half_kg >= LEAST_TOLD_KG else ""
    return f"{1000 * kg:.0f}{half} g"


def _of(change: Change, part: str) -> float:
    return sum(change[name] for name in DRY_PARTS) if part == DRY else change[part]


class _Heap:
    """A heap parted into its burnt sand and the rest."""

    def __init__(self, state: State) -> None:
        self.parts = {part: max(0.0, kg) for part, kg in state.parts.items()}
        sand_kg, clay_kg = state.crust["sand_kg"], min(state.crust["clay_kg"], self.parts[DEAD])
        others = {part: self.parts[part] for part in DRY_PARTS if part != "live_clay_kg"}
        others[DEAD] -= clay_kg
        there = sum(others.values())
        self.sand_kg = min(sand_kg, clay_kg + there) if clay_kg > 0 else 0.0
        self.clay = clay_kg / self.sand_kg if self.sand_kg > 0 else 0.0
        self.others = {part: (1 - self.clay) * kg / there if there > 0 else 0.0 for part, kg in others.items()}
        self.half_kg = TWO_SIGMA * max(0.0, state.crust["variance"]) ** 0.5 / self.clay if self.clay > 0 else 0.0

    def burnt(self, sand_kg: float) -> Change:
        """The parts of so much burnt sand."""
        parts = dict.fromkeys(PARTS, 0.0) | {part: share * sand_kg for part, share in self.others.items()}
        return parts | {DEAD: parts[DEAD] + self.clay * sand_kg}

    def rest(self, sand_kg: float) -> Change:
        """The heap without so much burnt sand."""
        burnt = self.burnt(sand_kg)
        return {part: max(0.0, kg - burnt[part]) for part, kg in self.parts.items()}

    def share_of_rest(self, wet_kg: float, sand_kg: float) -> float:
        """The share of the rest that goes where *wet_kg* go, of them *sand_kg* burnt as far as they reach."""
        there = sum(self.rest(sand_kg).values())
        return min(1.0, max(0.0, wet_kg - sand_kg) / there) if there > 0 else 0.0

    def less(self, wet_kg: float, sand_kg: float) -> Change:
        """What goes of each part, below nothing, where *wet_kg* are thrown away and *sand_kg* of burnt sand are there."""
        burnt, share = self.burnt(min(wet_kg, sand_kg)), self.share_of_rest(wet_kg, sand_kg)
        return {part: -burnt[part] - share * kg for part, kg in self.rest(sand_kg).items()}


def with_crust(outcome: Outcome, crust: Mapping[str, float]) -> Outcome:
    """Return the outcome with what it does to the crust added."""
    return replace(outcome, crust=added(outcome.crust, crust, CRUST))
