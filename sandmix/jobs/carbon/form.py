"""The form of *carbon*: metal and sand, the additive, the level and what is there, and a casting for what it takes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking import rules
from sandmix.asking.form import Filled, Form, ask, rule
from sandmix.jobs.shared.heated import heat_values, impossible_surface
from sandmix.language.errors import Problem
from sandmix.materials import pour_temperature
from sandmix.maths.uncertainty import Ends
from sandmix.recipes.carbon import ADDITIVES, BY_LOSS, BY_SEACOAL, BY_VOLATILES, IRON, NEEDED_FOR, VOLATILES_C, strength

USUAL_TARGET = {IRON: 3.0}
OTHER_TARGET = 1.0
"""As seacoal, in percent of the dry sand. Source: carbon_levels for iron, carbon_metals for copper alloys."""
LEAST_LOSS_C = 650.0
NEAR_C = 30.0
"""How far from its usual temperature a test of volatiles may be (own choice), and below which a coal may not burn out (from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CarbonForm(Form):
    """The metal, the sand, the additive and its gauge, the level and what is there; the casting for what a cast takes."""

    metal: str = ask("metal", first=True)
    heap_kg: float | None = ask("heap_kg", first=True)
    carbon_additive: str = ask("carbon_additive", first=True)
    carbon_gauge: str = ask("carbon_gauge", first=True)
    carbon_target_pct: float | None = ask("carbon_target_pct", first=True, exact=True)
    carbon_now_pct: float | None = ask("carbon_now_pct", first=True)
    carbon_test_c: float | None = ask("carbon_test_c", exact=True)
    cast_metal_kg: float | None = ask("cast_metal_kg", first=True)
    casts: float = ask("casts", default=12.0)
    casting_volume_cm3: float | None = ask("casting_volume_cm3")
    casting_area_cm2: float | None = ask("casting_area_cm2")
    shape: str | None = ask("shape")
    pour_temp_c: float | None = ask("pour_temp_c")
    moisture_pct_wet: float = ask("moisture_pct_wet", default=3.1, label="Moisture of the sand")
    sand_heat: str = ask("sand_heat")
    carbon_wear: float = ask("carbon_wear")
    additive_volatiles_pct: float | None = ask("additive_volatiles_pct")
    additive_loss_pct: float | None = ask("additive_loss_pct")

    @property
    def is_needed(self) -> bool:
        """Whether the sand of this metal may need carbon."""
        return self.metal in NEEDED_FOR

    @rule
    def a_whole_number_of_casts(self) -> Iterable[Problem]:
        return rules.whole_number(self, "casts", "casts")

    @rule
    def the_metal_is_liquid(self) -> Iterable[Problem]:
        return pour_temperature.too_cold(self)

    @rule
    def the_surface_fits_the_volume(self) -> Iterable[Problem]:
        if self.casting_volume_cm3 is not None and self.casting_area_cm2 is not None:
            yield from impossible_surface(self, self.casting_volume_cm3, self.casting_area_cm2)

    @rule
    def a_test_has_its_figures(self) -> Iterable[Problem]:
        if not self.is_needed or self.carbon_gauge == BY_SEACOAL:
            return
        for word, what in (("carbon_target_pct", "the level"), ("carbon_now_pct", "what the test reads now")):
            if getattr(self, word) is None:
                yield self.wrong(word, "a figure", f"this test has no usual figure for every sand. Enter {what}.")

    @rule
    def a_test_has_its_temperature(self) -> Iterable[Problem]:
        if self.is_needed and self.carbon_gauge != BY_SEACOAL and self.carbon_test_c is None:
            what_to_do = "figures at different temperatures can't be compared. Enter the temperature of both tests."
            yield self.wrong("carbon_test_c", "a temperature", what_to_do)

    @rule
    def volatiles_are_tested_where_they_are_known(self) -> Iterable[Problem]:
        if self.carbon_gauge != BY_VOLATILES or self.carbon_test_c is None:
            return
        if abs(self.carbon_test_c - VOLATILES_C) > NEAR_C:
            low, high = VOLATILES_C - NEAR_C, VOLATILES_C + NEAR_C
            what_to_do = (
                f"volatiles are counted here at {VOLATILES_C:g} °C. At {self.carbon_test_c:g} °C the same sand gives another figure. Test at "
                f"{low:g} to {high:g} °C, or count by loss on ignition."
            )
            yield self.wrong("carbon_test_c", f"{low:g} to {high:g} °C", what_to_do)

    @rule
    def the_additive_reaches_the_level(self) -> Iterable[Problem]:
        target = self.carbon_target_pct
        if not self.is_needed or target is None:
            return
        most = 50 * strength(ADDITIVES[self.carbon_additive], self.carbon_gauge, *self.middle)
        if target > most:
            yield self.wrong(
                "carbon_target_pct",
                f"at most {most:.3g} %",
                f"{target:g} % is more than half of what the additive itself has. Enter at most {most:.3g} %.",
            )

    @property
    def middle(self) -> tuple[float, float]:
        """Volatiles and loss on ignition of the additive, as fractions: as given, else the middle figures of its kind."""
        kind, volatiles, loss = ADDITIVES[self.carbon_additive], self.additive_volatiles_pct, self.additive_loss_pct
        return (
            kind.volatiles if volatiles is None else volatiles / 100,
            kind.loss if loss is None else loss / 100,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedCarbon(CarbonForm):
    """The same, with a level, what is there, the figures of the additive and the heat of the metal that are always there."""

    carbon_target_pct: float
    carbon_now_pct: float
    additive_volatiles_pct: float
    additive_loss_pct: float
    pour_temp_c: float
    latent_j_kg: float
    liquid_j_kgk: float

    @property
    def strong(self) -> float:
        """The measure of the additive itself by the gauge, as a fraction."""
        return strength(
            ADDITIVES[self.carbon_additive],
            self.carbon_gauge,
            self.additive_volatiles_pct / 100,
            self.additive_loss_pct / 100,
        )


def resolve(filled: Filled[CarbonForm]) -> Filled[ResolvedCarbon]:
    """Take the usual level where none is given, none where nothing was tested, and the range of the additive's kind."""
    form = filled.form
    values, heat_bands = heat_values(filled, form.metal, form.pour_temp_c)
    bands: dict[str, Ends] = {**heat_bands}
    kind = ADDITIVES[form.carbon_additive]
    if form.carbon_target_pct is None:
        values["carbon_target_pct"] = USUAL_TARGET.get(form.metal, OTHER_TARGET)
    if form.carbon_now_pct is None:
        values["carbon_now_pct"] = 0.0
    if form.additive_volatiles_pct is None:
        values["additive_volatiles_pct"] = 100 * kind.volatiles
        low, high = kind.volatiles_band
        bands["additive_volatiles_pct"] = (100 * low, 100 * high)
    if form.additive_loss_pct is None:
        values["additive_loss_pct"] = 100 * kind.loss
        low, high = kind.loss_band
        bands["additive_loss_pct"] = (100 * low, 100 * high)
    return filled.into(ResolvedCarbon, values, bands=bands, remarks=(*pour_temperature.odd(form), *_cold(form)))


def _cold(form: CarbonForm) -> Iterable[str]:
    if form.carbon_gauge == BY_LOSS and form.carbon_test_c is not None and form.carbon_test_c < LEAST_LOSS_C:
        yield (
            f"Temperature of the test: at {form.carbon_test_c:g} °C coal may not burn out (from memory). Its own figure here is "
            "for complete burning, so the dose may be too small. Test hotter."
        )
