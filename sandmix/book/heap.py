"""The heap: what its events add up to.

An event stores its outcome when it is written: the change of each of the six masses, the change of their variances, and how they were had. The
heap is the sum; the fold only adds, so that what was written does not change when the code does. A measurement is weighed against the book by their
errors, and what it found or missed is its outcome. Undoing is an event whose outcome is another's, turned round.
What is doubted is the dry mass, the water, and how much of the dry mass is live clay, dead clay and other fines; these are taken as independent.
Source: the weighted mean, with inverse variances for weights.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from itertools import islice
from typing import Any

from sandmix import __version__
from sandmix.book.events import CORRECTED, UNDONE
from sandmix.language.timestamps import DAY_S, seconds_of
from sandmix.materials.sand import PARTS, Sand
from sandmix.maths.statistics import MOST_READINGS, TWO_SIGMA
from sandmix.maths.uncertainty import Band

DRY = "dry_kg"
DRY_PARTS = tuple(part for part in PARTS if part != "water_kg")
DOUBTED = (DRY, "water_kg", "live_clay_kg", "dead_clay_kg", "other_fines_kg")
CRUST = ("sand_kg", "clay_kg", "variance")
"""What casts have burnt and nobody has mixed back: dry sand and the clay that died in it, in kg, and the variance of that clay in kg²."""
LEAST_KG = -1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What one event did: kilograms and variances (kg²) by part, how they were had, by which version, and in words."""

    change: Mapping[str, float] = field(default_factory=dict)
    variance: Mapping[str, float] = field(default_factory=dict)
    how: str = "given"
    by: str = __version__
    said: tuple[str, ...] = ()
    loss_share: float | None = None
    crust: Mapping[str, float] = field(default_factory=dict)

    def told(self) -> dict[str, Any]:
        """The outcome as an event stores it."""
        told: dict[str, Any] = {
            "change": {part: kg for part, kg in self.change.items() if kg},
            "variance": {part: square for part, square in self.variance.items() if square},
            "how": self.how,
            "by": self.by,
            "said": list(self.said),
        }
        if crust := {name: amount for name, amount in self.crust.items() if amount}:
            told["crust"] = crust
        return told if self.loss_share is None else told | {"loss_share": self.loss_share}

    @classmethod
    def heard(cls, stored: Mapping[str, Any]) -> Outcome:
        """The outcome that an event stores; raises KeyError, TypeError, ValueError or OverflowError where it is none."""
        loss = stored.get("loss_share")
        return cls(
            change=_parts(stored.get("change", {}), tuple(PARTS)),
            variance=_parts(stored.get("variance", {}), DOUBTED),
            how=str(stored.get("how", "given"))[:40],
            by=str(stored.get("by", ""))[:40],
            said=tuple(str(line)[:300] for line in stored.get("said", ())),
            loss_share=None if loss is None else _share(loss),
            crust=_parts(stored.get("crust", {}), CRUST),
        )

    def turned(self) -> Outcome:
        """The outcome that takes this one back."""
        return Outcome(
            change={part: -kg for part, kg in self.change.items()},
            variance={part: -square for part, square in self.variance.items()},
            how="undone",
            crust={name: -amount for name, amount in self.crust.items()},
        )

    def with_more(self, other: Outcome, how: str) -> Outcome:
        """Both outcomes together."""
        return Outcome(
            change=added(self.change, other.change, PARTS),
            variance=added(self.variance, other.variance, DOUBTED),
            how=how,
            said=other.said,
            loss_share=other.loss_share,
            crust=added(self.crust, other.crust, CRUST),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """A heap: kilograms and variances by part, its casts, the last losses weighed as shares, when it was last tested, its metal.

    And the crust: what was burnt and is not mixed back yet.
    """

    parts: Mapping[str, float] = field(default_factory=lambda: dict.fromkeys(PARTS, 0.0))
    variances: Mapping[str, float] = field(default_factory=lambda: dict.fromkeys(DOUBTED, 0.0))
    casts: int = 0
    own_losses: tuple[float, ...] = ()
    tested_at_s: float | None = None
    metal: str | None = None
    crust: Mapping[str, float] = field(default_factory=lambda: dict.fromkeys(CRUST, 0.0))

    @property
    def sand(self) -> Sand:
        """The heap as sand."""
        return Sand(**{part: max(0.0, kg) for part, kg in self.parts.items()})

    def after(self, outcome: Outcome) -> State:
        """The heap with one outcome added."""
        return State(
            parts=added(self.parts, outcome.change, PARTS),
            variances=added(self.variances, outcome.variance, DOUBTED),
            casts=self.casts,
            own_losses=self.own_losses,
            tested_at_s=self.tested_at_s,
            metal=self.metal,
            crust=no_less(added(self.crust, outcome.crust, CRUST)),
        )

    def short_of(self) -> str | None:
        """The part that there would be less than nothing of, or None."""
        return next((part for part, kg in self.parts.items() if kg < LEAST_KG), None)

    def half_width_kg(self, *doubted: str) -> float:
        """Return the 95 % half-width of the sum of what is *doubted*, in kg."""
        return TWO_SIGMA * math.sqrt(sum(max(0.0, self.variances[part]) for part in doubted))

    def bands(self) -> dict[str, Band]:
        """The 95 % bands of mass, moisture and shares."""
        sand = self.sand
        wet_kg, dry_kg = sand.wet_kg, sand.dry_kg
        if wet_kg <= 0 or dry_kg <= 0:
            return {}
        moisture = sand.water_kg / wet_kg
        dry_half, water_half = self.half_width_kg(DRY), self.half_width_kg("water_kg")
        halves = {
            "heap_kg": (wet_kg, math.hypot(dry_half, water_half)),
            "moisture_pct_wet": (
                100 * moisture,
                100 * math.hypot((1 - moisture) * water_half, moisture * dry_half) / wet_kg,
            ),
        }
        for word, parts in SHARES.items():
            share = sum(self.parts[part] for part in parts) / dry_kg
            halves[word] = (100 * share, 100 * self.half_width_kg(*parts) / dry_kg)
        most = {"heap_kg": math.inf}
        return {
            word: (max(0.0, value - half), min(most.get(word, 100.0), value + half))
            for word, (value, half) in halves.items()
        }


SHARES = {
    "clay_pct_dry": ("live_clay_kg",),
    "dead_clay_pct_dry": ("dead_clay_kg",),
    "other_fines_pct_dry": ("other_fines_kg",),
    "dead_fines_pct_dry": ("dead_clay_kg", "other_fines_kg"),
    "washed_pct_dry": ("live_clay_kg", "dead_clay_kg", "other_fines_kg"),
}


class Sum:
    """A heap as its events are added to it, one after the other."""

    def __init__(self) -> None:
        self._parts, self._variances = dict.fromkeys(PARTS, 0.0), dict.fromkeys(DOUBTED, 0.0)
        self._crust = dict.fromkeys(CRUST, 0.0)
        self._casts: dict[str, float | None] = {}
        self._weighed: dict[str, float] = {}
        self._tests: dict[str, float] = {}
        self._tested_at_s: float | None = None
        self._metals: dict[str, str] = {}

    def add(self, event: Mapping[str, Any]) -> None:
        """Add an event with its outcome."""
        outcome, kind, name = event["outcome"], event["kind"], event.get("id", "")
        add(outcome, self._parts, self._variances)
        for part, amount in outcome.get("crust", {}).items():
            self._crust[part] += amount
        if kind == UNDONE:
            for kept in (self._casts, self._weighed, self._metals):
                kept.pop(event["of"], None)
            if self._tests.pop(event["of"], None) == self._tested_at_s:
                self._tested_at_s = max(self._tests.values(), default=None)
            return
        if kind == "measured":
            at_s = self._tests[name] = seconds_of(event["at"])
            self._tested_at_s = at_s if self._tested_at_s is None else max(self._tested_at_s, at_s)
        of = event["of"] if kind == CORRECTED else name
        if kind == "poured" or of in self._casts:
            self._casts[of] = share = outcome.get("loss_share")
            if share is None:
                self._weighed.pop(of, None)
            else:
                self._weighed[of] = share
        if "metal" in event and (kind in ("poured", "metal_changed") or of in self._metals):
            self._metals[of] = event["metal"]

    def state(self) -> State:
        """The heap as it stands."""
        return State(
            parts=dict(self._parts),
            variances=dict(self._variances),
            casts=len(self._casts),
            own_losses=tuple(reversed([*islice(reversed(self._weighed.values()), MOST_READINGS)])),
            tested_at_s=self._tested_at_s,
            metal=next(reversed(self._metals.values()), None),
            crust=no_less(self._crust),
        )


def fold(events: Iterable[Mapping[str, Any]]) -> State:
    """Return the heap that *events*, each with its outcome, add up to; linear in their number."""
    total = Sum()
    for event in events:
        total.add(event)
    return total.state()


def add(outcome: Mapping[str, Any], parts: dict[str, float], variances: dict[str, float]) -> None:
    """Add a stored outcome to *parts* and *variances*."""
    for part, kg in outcome["change"].items():
        parts[part] += kg
    for part, square in outcome["variance"].items():
        variances[part] += square


def age_days(state: State, now_s: float | None) -> float | None:
    """Return how many days ago the heap was last tested; None where it never was or *now_s* is not known."""
    return None if now_s is None or state.tested_at_s is None else (now_s - state.tested_at_s) / DAY_S


def added(one: Mapping[str, float], other: Mapping[str, float], names: Iterable[str]) -> dict[str, float]:
    """Return the sum of two sets of figures by the *names* of both."""
    return {name: one.get(name, 0.0) + other.get(name, 0.0) for name in names}


def no_less(amounts: Mapping[str, float]) -> dict[str, float]:
    """Return amounts, each below nothing as none."""
    return {name: max(0.0, amount) for name, amount in amounts.items()}


def _share(stored: object) -> float:
    if isinstance(stored, bool) or not isinstance(stored, (int, float)) or not 0 <= stored <= 1:
        raise ValueError("loss_share")
    return float(stored)


def _parts(stored: Mapping[str, Any], names: tuple[str, ...]) -> dict[str, float]:
    """The figures of a stored outcome; raises KeyError or ValueError for what is none."""
    parts = {}
    for part, kg in stored.items():
        if part not in names:
            raise KeyError(part)
        if isinstance(kg, bool) or not isinstance(kg, (int, float)) or not math.isfinite(kg) or abs(kg) > 1e9:
            raise ValueError(part)
        parts[part] = float(kg)
    return parts
