"""The heap: what its events add up to.

An event stores its outcome when it is written: the change of each of the six masses, the change of their variances, and where these come from.
The heap is the sum. Folding only adds, so a stored event keeps its effect when the code changes. A measurement is combined with the book by the
errors of both; its outcome is the difference that it found. Undoing is an event whose outcome is the reverse of another one.
Source: the weighted mean, with inverse variances for weights.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from sandmix import __version__
from sandmix.asking.form import Form
from sandmix.book.events import CORRECTED, UNDONE, is_test, words_of
from sandmix.book.known_water import Before, MoistureTest, WaterFold
from sandmix.book.standing import Latest
from sandmix.book.weighed_losses import LossFold
from sandmix.drying.heap_water import Cover, Move, expected, exposure
from sandmix.language.errors import InputError, printable
from sandmix.language.timestamps import DAY_S, seconds_of
from sandmix.materials.delta import DRY, UNCERTAIN, Delta, added, figures_of, not_zero
from sandmix.materials.sand import PARTS, Sand
from sandmix.maths.statistics import TWO_SIGMA
from sandmix.maths.uncertainty import Band

LEAST_KG = -1e-6
MUD_PCT = 50.0
"""Wetter sand counts as this where a change of its water is worked out."""
LEAST_HEAP_KG = 1e-6
MORE_THAN_THE_BOOK = 1.2
STARTED_BY = ("mixed", "added", "joined")
"""The kinds of event whose sand an empty heap starts with."""
CRUST = ("sand_kg", "clay_kg", "variance")
LOSSES = ("loss_share", "mould_loss_share")
LONGEST_NAME, LONGEST_LINE = 40, 300


@dataclass(frozen=True, slots=True, kw_only=True)
class BurntSand:
    """Sand that casts have burnt and nobody has mixed back yet, or a change of it.

    Its dry mass in kg, the clay in it that died in these casts in kg, and the variance of that clay in kg². An event stores it as *crust*.
    """

    sand_kg: float = 0.0
    clay_kg: float = 0.0
    variance: float = 0.0

    def by_name(self) -> dict[str, float]:
        """Return the three figures by their names."""
        return {name: getattr(self, name) for name in CRUST}

    def plus(self, other: BurntSand) -> BurntSand:
        """Return both together."""
        return BurntSand(**added(self.by_name(), other.by_name(), CRUST))

    def reversed(self) -> BurntSand:
        """Return the change that takes this one back."""
        return BurntSand(**{name: -amount for name, amount in self.by_name().items()})

    def at_least(self, least: BurntSand) -> BurntSand:
        """Return the larger of each figure of both."""
        return BurntSand(**{name: max(amount, getattr(least, name)) for name, amount in self.by_name().items()})


NO_CHANGE, NO_BURNT_SAND = Delta(), BurntSand()


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What one event did: the change of the heap and of its burnt sand, where the figures come from, by which version, and in words.

    *aged* says that its variance of the water counts the days up to it. A cast whose loss was weighed has it as a share of the sand in its
    mould; before version 3 of the book it was a share of the heap.
    """

    delta: Delta = NO_CHANGE
    how: str = "given"
    by: str = __version__
    lines: tuple[str, ...] = ()
    loss_share: float | None = None
    mould_loss_share: float | None = None
    aged: bool = False
    burnt: BurntSand = NO_BURNT_SAND

    def to_dict(self) -> dict[str, Any]:
        """Return the outcome as an event stores it."""
        stored = {**self.delta.to_dict(), "how": self.how, "by": self.by, "said": list(self.lines)}
        if self.burnt != NO_BURNT_SAND:
            stored["crust"] = not_zero(self.burnt.by_name())
        if self.aged:
            stored["aged"] = True
        shares = {name: getattr(self, name) for name in LOSSES}
        return stored | {name: share for name, share in shares.items() if share is not None}

    @staticmethod
    def checked(stored: Mapping[str, Any]) -> dict[str, Any]:
        """Return what an event stores without what is not an outcome; raises what `from_dict` raises."""
        change, variance = (
            figures_of(stored.get("change", {}), PARTS),
            figures_of(stored.get("variance", {}), UNCERTAIN),
        )
        checked: dict[str, Any] = {
            "change": not_zero(change),
            "variance": not_zero(variance),
            "how": printable(str(stored.get("how", "given"))[:LONGEST_NAME]),
            "by": printable(str(stored.get("by", ""))[:LONGEST_NAME]),
            "said": [printable(str(line)[:LONGEST_LINE]) for line in stored.get("said", ())],
        }
        if "crust" in stored and (crust := not_zero(figures_of(stored["crust"], CRUST))):
            checked["crust"] = crust
        if stored.get("aged") is True:
            checked["aged"] = True
        return checked | {name: _share(stored[name]) for name in LOSSES if stored.get(name) is not None}

    @classmethod
    def from_dict(cls, stored: Mapping[str, Any]) -> Outcome:
        """Return the outcome that an event stores; raises KeyError, TypeError, ValueError or OverflowError where it is none."""
        checked = cls.checked(stored)
        return cls(
            delta=Delta.of(checked["change"], checked["variance"]),
            how=checked["how"],
            by=checked["by"],
            lines=tuple(checked["said"]),
            **{name: checked.get(name) for name in LOSSES},
            aged="aged" in checked,
            burnt=BurntSand(**checked.get("crust", {})),
        )

    def with_variances(self, variances: Mapping[str, float]) -> Outcome:
        """Return the same with these changes of the variances."""
        return replace(self, delta=replace(self.delta, variances=variances))

    def reversed(self) -> Outcome:
        """Return the outcome that takes this one back."""
        return Outcome(delta=self.delta.reversed(), how="undone", burnt=self.burnt.reversed())

    def plus(self, other: Outcome, how: str) -> Outcome:
        """Return both outcomes together, with the words, the loss and the days of the *other* one."""
        return Outcome(
            delta=self.delta.plus(other.delta),
            how=how,
            lines=other.lines,
            loss_share=other.loss_share,
            mould_loss_share=other.mould_loss_share,
            aged=other.aged,
            burnt=self.burnt.plus(other.burnt),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class HeapState:
    """A heap: its total of masses and variances, its casts, the time of its last test, and its metal.

    The last weighed losses of casts are shares of the sand in their moulds. *water_known_s* is when the water was known last, *covers* how the
    heap was kept, *moves* what its tests show of the days, and *as_of_s* the time of the last entry. At a time, *aging_pct2* is what the days add
    to the square of the half-width of the moisture, and *last_lost_pct* the points that it has probably lost since, unrecorded.

    And its burnt sand that is not mixed back yet.
    """

    total: Delta = NO_CHANGE
    casts: int = 0
    own_losses: tuple[float, ...] = ()
    tested_at_s: float | None = None
    metal: str | None = None
    burnt: BurntSand = NO_BURNT_SAND
    moisture_test: MoistureTest | None = None
    water_known_s: float | None = None
    covers: tuple[Cover, ...] = ()
    as_of_s: float | None = None
    moves: tuple[Move, ...] = ()
    aging_pct2: float = 0.0
    last_lost_pct: float = 0.0

    def at(self, now_s: float | None = None) -> HeapState:
        """Return the heap at a time, when its water is known less well than before; without a time, at that of its last entry.

        Its masses are those of the book; `settled` counts the water that has probably gone since.
        """
        then_s = self.as_of_s if now_s is None else now_s
        if then_s is None:
            return self
        days = expected(self.moves, exposure(self.water_known_s, self.covers, then_s, self.sand))
        return replace(self, aging_pct2=TWO_SIGMA**2 * days.variance_pct2, last_lost_pct=days.lost_pct)

    def unrecorded(self) -> Delta:
        """Return the change of the water that nobody recorded, as it probably was; the dry sand stays."""
        sand = self.sand
        if not self.last_lost_pct or sand.dry_kg <= 0:
            return NO_CHANGE
        moisture_pct = min(MUD_PCT, max(0.0, sand.moisture_pct_wet - self.last_lost_pct))
        return Delta(water_kg=sand.water_at(moisture_pct / 100) - sand.water_kg)

    def settled(self) -> HeapState:
        """Return the heap with that change counted in its masses."""
        return replace(self, total=self.total.plus(self.unrecorded()))

    @property
    def sand(self) -> Sand:
        """The heap as sand."""
        return Sand.clipped(self.total)

    def after(self, outcome: Outcome) -> HeapState:
        """Return the heap with one outcome added."""
        return replace(
            self, total=self.total.plus(outcome.delta), burnt=self.burnt.plus(outcome.burnt).at_least(NO_BURNT_SAND)
        )

    def share_of(self, wet_kg: float) -> float:
        """Return *wet_kg* as a share of the heap, at most all of it; 0 of no heap."""
        return 0.0 if self.sand.wet_kg <= 0 else min(1.0, wet_kg / self.sand.wet_kg)

    def missing_part(self) -> str | None:
        """Return the part of which there would be less than nothing, or None."""
        return next((part for part, kg in self.total.by_part().items() if kg < LEAST_KG), None)

    def leaving(self, share: float) -> Outcome:
        """Return what goes where *share* of the heap leaves as it lies: the same share of each part, its uncertainty and the burnt sand."""
        squares = 1 - (1 - share) ** 2
        return Outcome(
            delta=Delta.of(
                {part: -share * kg for part, kg in self.sand.by_part().items()},
                {part: -square * squares for part, square in self.total.variances.items()},
            ),
            burnt=BurntSand(
                sand_kg=-share * self.burnt.sand_kg,
                clay_kg=-share * self.burnt.clay_kg,
                variance=-squares * self.burnt.variance,
            ),
        )

    def aged_variance(self, part: str) -> float:
        """Return the variance of a part in kg², with what the days add to that of the water."""
        square = max(0.0, self.total.variance(part))
        return square + (self._aged_kg() / TWO_SIGMA) ** 2 if part == "water_kg" else square

    def _aged_kg(self) -> float:
        """What the days add to the half-width of the water, in kg: dW = W dm / (1 − m) for a dry mass that stays."""
        sand = self.sand
        return math.sqrt(self.aging_pct2) / 100 * sand.wet_kg**2 / sand.dry_kg if sand.dry_kg > 0 else 0.0

    def half_width_kg(self, *parts: str) -> float:
        """Return the 95 % half-width of the sum of these parts, in kg."""
        return TWO_SIGMA * math.sqrt(sum(max(0.0, self.total.variance(part)) for part in parts))

    def moisture(self) -> tuple[float, float] | None:
        """Return the moisture in % of the wet mass and its variance, without a heap None."""
        sand = self.sand
        if sand.wet_kg <= 0 or sand.dry_kg <= 0:
            return None
        share = sand.water_kg / sand.wet_kg
        square = (1 - share) ** 2 * self.aged_variance("water_kg") + share**2 * max(0.0, self.total.variance(DRY))
        return 100 * share, square * (100 / sand.wet_kg) ** 2

    def bands(self) -> dict[str, Band]:
        """Return the 95 % bands of mass, moisture and shares; none where there is no sand."""
        moisture = self.moisture()
        if moisture is None:
            return {}
        sand, parts = self.sand, self.total.by_part()
        dry_kg = sand.dry_kg
        squares = max(0.0, self.total.variance(DRY)) + self.aged_variance("water_kg")
        halves = {
            "heap_kg": (sand.wet_kg, TWO_SIGMA * math.sqrt(squares)),
            "moisture_pct_wet": (moisture[0], TWO_SIGMA * math.sqrt(moisture[1])),
        }
        for word, summed in SHARES.items():
            share = sum(parts[part] for part in summed) / dry_kg
            halves[word] = (100 * share, 100 * self.half_width_kg(*summed) / dry_kg)
        most = {"heap_kg": math.inf}
        return {
            word: (max(0.0, value - half), min(most.get(word, 100.0), value + half))
            for word, (value, half) in halves.items()
        }


LIVE = ("live_clay_kg",)
FINES = ("dead_clay_kg", "other_fines_kg")
WASHED = (*LIVE, *FINES)
SHARES = {
    "clay_pct_dry": LIVE,
    "dead_clay_pct_dry": ("dead_clay_kg",),
    "other_fines_pct_dry": ("other_fines_kg",),
    "dead_fines_pct_dry": FINES,
    "washed_pct_dry": WASHED,
}
"""The parts that each share of the dry mass counts."""


def figure(sand: Sand, word: str) -> float:
    """Return the mass, the moisture or a share of a sand, by its word."""
    return sand.wet_kg if word == "heap_kg" else float(getattr(sand, word))


class HeapFold:
    """A heap as its events are added to it, one after the other."""

    def __init__(self) -> None:
        self._parts, self._variances = dict.fromkeys(PARTS, 0.0), dict.fromkeys(UNCERTAIN, 0.0)
        self._burnt = dict.fromkeys(CRUST, 0.0)
        self.losses = LossFold()
        self._tests = Latest()
        self._metals: dict[str, str] = {}
        self.water = WaterFold()
        self._last_at: str | None = None

    def add(self, event: Mapping[str, Any]) -> None:
        """Add an event with its stored outcome."""
        outcome, kind, name = event["outcome"], event["kind"], event.get("id", "")
        heap_kg, self._last_at = sum(self._parts.values()), event["at"]
        before = self._before(event)
        for part, kg in outcome["change"].items():
            self._parts[part] += kg
        for part, square in outcome["variance"].items():
            self._variances[part] += square
        for part, amount in outcome.get("crust", {}).items():
            self._burnt[part] += amount
        if kind == UNDONE:
            self._metals.pop(event["of"], None)
            self.losses.undo(event["of"])
            self.water.undo(event["of"])
            self._tests.drop(event["of"])
            return
        if kind == "measured" and is_test(words_of(event)):
            self._tests.note(name, seconds_of(event["at"]))
        of = event["of"] if kind == CORRECTED else name
        self.losses.add(event, of, heap_kg)
        if "metal" in event and (kind in ("poured", "metal_changed") or of in self._metals):
            self._metals[of] = event["metal"]
        self.water.add(event, of, starts=kind in STARTED_BY and heap_kg < LEAST_HEAP_KG, before=before)

    def _before(self, event: Mapping[str, Any]) -> Before | None:
        """What the book has of the moisture before an event that tests it, where days have gone by."""
        if not self.water.tests_water(event):
            return None
        here = HeapState(total=self.total())
        days, moisture = self.water.days_before(event, here.sand), here.moisture()
        if days is None:
            return None
        return moisture and Before(moisture_pct=moisture[0], variance_pct2=moisture[1], exposure=days)

    def kg(self, part: str) -> float:
        """Return the mass of a part so far, in kg."""
        return self._parts[part]

    def total(self) -> Delta:
        """Return the masses and variances of all events so far."""
        return Delta.of(self._parts, dict(self._variances))

    def state(self) -> HeapState:
        """Return the heap as it stands."""
        return HeapState(
            total=self.total(),
            casts=self.losses.casts,
            own_losses=self.losses.last(),
            tested_at_s=self._tests.last and self._tests.last[0],
            metal=next(reversed(self._metals.values()), None),
            burnt=BurntSand(**self._burnt).at_least(NO_BURNT_SAND),
            moisture_test=self.water.last_test,
            water_known_s=self.water.known_s,
            covers=self.water.last_covers(),
            moves=self.water.last_moves(),
            as_of_s=None if self._last_at is None else seconds_of(self._last_at),
        )


def can_be_there(form: Form, word: str, state: HeapState) -> None:
    """Raise InputError where the mass *word* of a form is more than can be in the heap, even if the book is somewhat off."""
    taken, most = getattr(form, word), state.sand.wet_kg * MORE_THAN_THE_BOOK
    if taken is not None and taken > most:
        what_to_do = (
            f"{taken:g} kg is more than the {state.sand.wet_kg:.3g} kg in the book. Weigh the heap and record that first, or "
            "check the unit."
        )
        raise InputError([form.wrong(word, f"at most {most:.3g} kg", what_to_do)])


def fold(events: Iterable[Mapping[str, Any]]) -> HeapState:
    """Return the heap that *events*, each with its outcome, add up to; linear in their number."""
    heap = HeapFold()
    for event in events:
        heap.add(event)
    return heap.state()


def age_days(state: HeapState, now_s: float | None) -> float | None:
    """Return how many days ago the heap was last tested; None where it never was or *now_s* is not known."""
    return None if now_s is None or state.tested_at_s is None else (now_s - state.tested_at_s) / DAY_S


def _share(stored: object) -> float:
    if isinstance(stored, bool) or not isinstance(stored, (int, float)) or not 0 <= stored <= 1:
        raise ValueError("loss_share")
    return float(stored)
