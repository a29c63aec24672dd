"""Bought sand and clay: the inputs that several forms share."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TypeVar

from sandmix.asking.form import Filled, Form, ask
from sandmix.asking.job import Next
from sandmix.language.errors import Problem
from sandmix.materials.sands_and_clays import CLAYS
from sandmix.recipes.mix import BoughtMaterials
from sandmix.vocabulary import quantity

UNTESTED = (
    "The live share of the granules is not known. They count as 85 % live here; the likely range goes down to 50 %."
)


def to_buy(sand_kg: float, clay_kg: float) -> Next | None:
    """Return the way to the bags for sand and clay as bought; None where nothing is bought, or more than *shopping* takes."""
    if not 0 < max(sand_kg, clay_kg) <= quantity("sand_kg").high:
        return None
    bought = {word: f"{max(0.0, kg):.4g} kg" for word, kg in (("sand_kg", sand_kg), ("clay_kg", clay_kg))}
    return Next(job="shopping", label="How many bags is that?", inputs=bought)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoughtClayForm(Form):
    """One clay as it comes from the bag."""

    clay: str = ask("clay")
    clay_activity_pct: float | None = ask("clay_activity_pct")
    clay_moisture_pct_wet: float = ask("clay_moisture_pct_wet")

    @property
    def activity_pct(self) -> float:
        """The live share of the dry clay product, in percent: as given, else the share that a mix with this clay starts from."""
        return self.clay_activity_pct if self.clay_activity_pct is not None else CLAYS[self.clay].activity_band_pct[1]

    def clay_problems(self, target_pct: float | None) -> Iterable[Problem]:
        """Yield the problem of a target for live clay, in percent of the dry mass, that this clay cannot reach."""
        most = 0.9 * self.activity_pct
        if target_pct is not None and target_pct > most:
            what_to_do = (
                f"a clay that is {self.activity_pct:g} % live cannot bring sand to {target_pct:g} %. Enter a lower target, or use a "
                "better clay."
            )
            yield self.wrong("target_clay_pct_dry", f"at most {most:g} %", what_to_do)

    def out_of_reach(self, word: str) -> Iterable[Problem]:
        """Yield the problem of a live clay that the sand has or is to have, in percent of the dry mass, and that this clay cannot reach."""
        most, target = 0.9 * self.activity_pct, getattr(self, word)
        if target is not None and target > most:
            what_to_do = f"a clay that is {self.activity_pct:g} % live cannot bring sand to {target:g} %. Enter at most {most:g} %."
            yield self.wrong(word, f"at most {most:g} %", what_to_do)

    def as_bought(self, activity_pct: float) -> BoughtMaterials:
        """Return the clay as fractions, with *activity_pct* of the dry product live; sand is dry."""
        return BoughtMaterials(clay_moisture=self.clay_moisture_pct_wet / 100, clay_activity=activity_pct / 100)


@dataclass(frozen=True, slots=True, kw_only=True)
class BoughtForm(BoughtClayForm):
    """One sand and one clay as they come from the bag."""

    sand_moisture_pct_wet: float = ask("sand_moisture_pct_wet")

    def as_bought(self, activity_pct: float) -> BoughtMaterials:
        """Return both as fractions, with *activity_pct* of the dry clay product live."""
        clay = BoughtClayForm.as_bought(self, activity_pct)
        return replace(clay, sand_moisture=self.sand_moisture_pct_wet / 100)


B = TypeVar("B", bound=BoughtClayForm)


def resolve_activity(filled: Filled[B]) -> Filled[B]:
    """Fill in the live share, with its band, where none is given."""
    form = filled.form
    if form.clay_activity_pct is not None:
        return filled
    return filled.resolved(
        {"clay_activity_pct": form.activity_pct}, bands={"clay_activity_pct": CLAYS[form.clay].activity_band_pct}
    )


def is_untested(filled: Filled[B]) -> bool:
    """Whether the live share of the clay is unknown: no figure was given, and for this kind only a test can show it."""
    return CLAYS[filled.form.clay].tested_only and "clay_activity_pct" in filled.assumed
