"""The form of *pour*: the casting, what is melted, and what lies over it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking.form import Filled, Form, ask
from sandmix.language.errors import Problem
from sandmix.materials import pour_temperature
from sandmix.materials.metals import SCRAPS


@dataclass(frozen=True, slots=True, kw_only=True)
class PourForm(Form):
    """The casting and its gating, the scrap and the crucible, and the cope that the metal lifts."""

    metal: str = ask("metal", first=True)
    casting_volume_cm3: float | None = ask("casting_volume_cm3", first=True)
    projected_area_cm2: float | None = ask("projected_area_cm2", first=True)
    head_mm: float | None = ask("head_mm", first=True)
    cope_kg: float | None = ask(
        "cope_kg",
        first=True,
        label="Cope with its frame",
        help="What lies on the metal: the sand of the cope and its wood. The page for the flask tells it.",
    )
    crucible_l: float | None = ask("crucible_l")
    gating_pct: float = ask("gating_pct")
    scrap: str = ask("scrap")
    melt_loss_pct: float | None = ask("melt_loss_pct")
    spare_pct: float = ask(
        "spare_pct",
        exact=True,
        default=10.0,
        label="Spare metal",
        help="More than the mould takes, so that it is never poured short.",
    )
    uplift_factor: float = ask("uplift_factor", exact=True)
    core_volume_cm3: float = ask("core_volume_cm3")
    pour_temp_c: float | None = ask("pour_temp_c")
    fill_time_s: float | None = ask("fill_time_s", exact=True)
    moisture_pct_wet: float | None = ask("moisture_pct_wet", label="Moisture of the sand, last test")

    @property
    def has_uplift(self) -> bool:
        """Whether the lift on the cope can be told."""
        return self.projected_area_cm2 is not None and self.head_mm is not None

    def problems(self) -> Iterable[Problem]:
        if self.casting_volume_cm3 is None and not self.has_uplift:
            yield self.wrong(
                "casting_volume_cm3",
                "a volume, or outline and head",
                (
                    "nothing can be answered yet. Give the casting's volume for the charge, or its outline and the "
                    "head of metal for the weights."
                ),
            )
        yield from pour_temperature.too_cold(self)
        if self.casting_volume_cm3 is not None and self.core_volume_cm3 > 20 * self.casting_volume_cm3:
            yield self.wrong(
                "core_volume_cm3",
                f"at most {20 * self.casting_volume_cm3:g} cm3",
                (
                    f"{self.core_volume_cm3:g} cm3 of core in a casting of {self.casting_volume_cm3:g} cm3 leaves "
                    "hardly a wall. Look at both volumes and their units."
                ),
            )


def resolve(filled: Filled[PourForm]) -> Filled[PourForm]:
    """Fill in the loss of the scrap, with its band, and the usual pour temperature of the metal."""
    form = filled.form
    values: dict[str, float] = {}
    bands: dict[str, tuple[float, float]] = {}
    if form.melt_loss_pct is None:
        low, high = SCRAPS[form.scrap].loss_pct
        values["melt_loss_pct"], bands["melt_loss_pct"] = (low + high) / 2, (low, high)
    if (usual := pour_temperature.assumed(form)) is not None:
        values["pour_temp_c"], bands["pour_temp_c"] = usual
    return filled.resolved(values, bands=bands, remarks=pour_temperature.odd(form))
