"""Entries of a cast, and of the metal that is cast."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking.form import Form, ask, rule
from sandmix.defects import scrap
from sandmix.language.errors import Problem
from sandmix.materials import pour_temperature


@dataclass(frozen=True, slots=True, kw_only=True)
class Poured(Form):
    """One cast: what was poured, and the sand that did not come back, if it was weighed."""

    metal: str = ask("metal", first=True)
    metal_kg: float = ask("metal_kg", first=True, required=True)
    pattern: str | None = ask("pattern", first=True)
    sand_lost_kg: float | None = ask("sand_lost_kg", first=True)
    flask_sand_kg: float | None = ask("flask_sand_kg")
    clay_burnt_kg: float | None = ask("clay_burnt_kg")
    water_driven_kg: float | None = ask("water_driven_kg")
    modulus_mm: float = ask("modulus_mm", default=8.0)
    pour_temp_c: float | None = ask("pour_temp_c")
    opened_after_min: float | None = ask("opened_after_min")
    castings_made: float | None = ask("castings_made")
    castings_scrapped: float | None = ask("castings_scrapped")
    scrap_cause: str | None = ask("scrap_cause")

    @rule
    def the_metal_is_liquid(self) -> Iterable[Problem]:
        return pour_temperature.too_cold(self)

    @rule
    def the_castings_can_be(self) -> Iterable[Problem]:
        return scrap.cannot_be(self)


@dataclass(frozen=True, slots=True, kw_only=True)
class MetalChanged(Form):
    """From now on another metal is poured into this sand."""

    metal: str = ask("metal", first=True)
