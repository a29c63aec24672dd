"""Entries of water that comes into a heap or leaves it, and of how the heap is kept."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking.form import Form, ask, rule
from sandmix.language.errors import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class Watered(Form):
    """Water that came or went: its mass, or the moisture of the sand afterwards."""

    water_kg: float | None = ask("water_kg", first=True, label="Water")
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True, label="Moisture afterwards")

    @rule
    def one_of_the_two(self) -> Iterable[Problem]:
        if (self.water_kg is None) == (self.moisture_pct_wet is None):
            yield self.wrong(
                "water_kg", "one of the two", "enter either the water or the moisture of the sand afterwards, not both."
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class RainedOn(Form):
    """Water that came in: its mass, or the moisture of the sand afterwards; with neither, nobody knows how much."""

    water_kg: float | None = ask("water_kg", first=True, label="Water, if you know it")
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True, label="Moisture afterwards, if tested")

    @rule
    def not_both(self) -> Iterable[Problem]:
        if self.water_kg is not None and self.moisture_pct_wet is not None:
            what_to_do = "enter the water or the moisture of the sand afterwards, not both."
            yield self.wrong("water_kg", "one of the two, or neither", what_to_do)


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened(Form):
    """The heap stands open from now on, or stood open for some hours until now; perhaps in air that is known."""

    open_h: float | None = ask("open_h", first=True)
    air_temp_c: float | None = ask("air_temp_c", blank=True)
    humidity_pct: float | None = ask("humidity_pct", blank=True)
    wind_m_s: float | None = ask("wind_m_s", blank=True)
    heap_area_m2: float | None = ask("heap_area_m2")

    @rule
    def the_air_is_whole(self) -> Iterable[Problem]:
        words = ("air_temp_c", "humidity_pct", "heap_area_m2")
        missing = [word for word in words if getattr(self, word) is None]
        if missing and (len(missing) < len(words) or self.wind_m_s is not None):
            what_to_do = (
                "this is missing. The loss is computed from the temperature, the humidity and the open surface together. Enter "
                "all three, or none of them."
            )
            yield from (self.wrong(word, "all three, or none", what_to_do) for word in missing)


@dataclass(frozen=True, slots=True, kw_only=True)
class PutAway(Form):
    """The heap is put away for a while, under a lid or in the open."""

    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True, label="Moisture when put away")
    cover: str = ask("cover", first=True)
