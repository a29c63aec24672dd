"""Entries of sand, clay and other materials that come into a heap or leave it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking import rules
from sandmix.asking.form import Form, as_far_as_right, ask, rule
from sandmix.language.errors import Problem
from sandmix.materials.sand import Sand


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined(Form):
    """Sand from elsewhere that was tipped in, as it lay."""

    joined_kg: float = ask("joined_kg", first=True, required=True)
    moisture_pct_wet: float = ask("moisture_pct_wet", first=True, required=True)
    clay_pct_dry: float = ask("clay_pct_dry", first=True, required=True)
    dead_fines_pct_dry: float | None = ask("dead_fines_pct_dry")

    @property
    def joined(self) -> Sand:
        """The sand that was tipped in."""
        return _lying(self.joined_kg, self.moisture_pct_wet, self.clay_pct_dry, self.dead_fines_pct_dry)

    @rule
    def clay_and_fines_are_no_more_than_all(self) -> Iterable[Problem]:
        return rules.clay_and_fines_fit(self, self.clay_pct_dry, self.dead_fines_pct_dry, wrong="clay_pct_dry")


@dataclass(frozen=True, slots=True, kw_only=True)
class Added(Form):
    """Materials put in as bought: sand, clay, water."""

    sand_kg: float | None = ask("sand_kg", first=True, label="Sand put in")
    clay_kg: float | None = ask("clay_kg", first=True, label="Clay put in")
    water_kg: float | None = ask("water_kg", first=True, label="Water put in")
    sand_moisture_pct_wet: float = ask("sand_moisture_pct_wet")
    clay: str = ask("clay")
    clay_activity_pct: float | None = ask("clay_activity_pct")
    clay_moisture_pct_wet: float = ask("clay_moisture_pct_wet")

    @property
    def bought(self) -> Sand:
        """What was put in: sand, clay and water as one sand; the share of live clay must be filled in."""
        sand_kg, clay_kg = self.sand_kg or 0.0, self.clay_kg or 0.0
        sand_dry = sand_kg * (1 - self.sand_moisture_pct_wet / 100)
        clay_dry = clay_kg * (1 - self.clay_moisture_pct_wet / 100)
        live = clay_dry * (self.clay_activity_pct or 0.0) / 100
        water = sand_kg - sand_dry + clay_kg - clay_dry + (self.water_kg or 0.0)
        return Sand(
            grain_kg=sand_dry, live_clay_kg=live, other_fines_kg=max(0.0, clay_dry - live), water_kg=max(0.0, water)
        )

    @rule
    def something_went_in(self) -> Iterable[Problem]:
        if not (self.sand_kg or self.clay_kg or self.water_kg):
            yield self.wrong("sand_kg", "some of it", "nothing was put in. Enter the sand, the clay or the water.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixed(Added):
    """New moulding sand that went into the heap: its planned figures, or what was weighed in."""

    make_kg: float | None = ask("make_kg", first=True, label="New sand put in")
    clay_pct_dry: float | None = ask("clay_pct_dry", first=True)
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True)
    dead_fines_pct_dry: float | None = ask("dead_fines_pct_dry", exact=True)

    @property
    def made(self) -> Sand | None:
        """The new sand by its planned figures; None where it is given by what was weighed in."""
        if self.make_kg is None or self.moisture_pct_wet is None or self.clay_pct_dry is None:
            return None
        return _lying(self.make_kg, self.moisture_pct_wet, self.clay_pct_dry, self.dead_fines_pct_dry)

    @rule
    def something_went_in(self) -> Iterable[Problem]:
        if self.make_kg is None and not (self.sand_kg or self.clay_kg):
            yield self.wrong(
                "make_kg",
                "how much, or what was weighed in",
                "nothing was put in. Enter the new sand with its live clay and moisture, or the sand, clay and water weighed in.",
            )

    @rule
    def the_plan_is_whole(self) -> Iterable[Problem]:
        for word in ("clay_pct_dry", "moisture_pct_wet"):
            yield from as_far_as_right(self._not_planned(word))

    @rule
    def clay_and_fines_are_no_more_than_all(self) -> Iterable[Problem]:
        return rules.clay_and_fines_fit(self, self.clay_pct_dry, self.dead_fines_pct_dry, wrong="clay_pct_dry")

    def _not_planned(self, word: str) -> Iterable[Problem]:
        if self.make_kg is not None and getattr(self, word) is None:
            yield self.wrong(word, "a share", "it is missing. Enter what the new sand was planned to have.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought(Form):
    """Materials that were bought and are not in the heap yet."""

    sand_kg: float | None = ask("sand_kg", first=True, label="Sand bought")
    clay_kg: float | None = ask("clay_kg", first=True, label="Clay bought")
    cost: float | None = ask("cost", first=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Discarded(Form):
    """Sand thrown away: as it lay, or as the crust that the casting burnt."""

    discard_kg: float = ask("discard_kg", first=True, required=True, label="Sand thrown away")
    discarded_as: str = ask("discarded_as", first=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lost(Form):
    """Sand that is gone: lumps from the riddle, a spill."""

    lost_kg: float = ask("lost_kg", first=True, required=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class SplitOff(Form):
    """Sand taken out to start another heap."""

    split_kg: float = ask("split_kg", first=True, required=True)


def _lying(wet_kg: float, moisture_pct: float, clay_pct: float, fines_pct: float | None) -> Sand:
    live = min(100.0, clay_pct)
    fines = min(100.0 - live, fines_pct or 0.0)
    return Sand.lying(wet_kg, moisture_pct_wet=moisture_pct, clay_pct_dry=live, other_fines_pct_dry=fines)
