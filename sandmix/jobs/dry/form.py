"""The form of *dry*: sand that is too wet, the air and the place it dries in, and how it is spread."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking.form import Form, ask, rule
from sandmix.drying import drying_plan
from sandmix.drying.evaporation import BELOW_W_M2K, Bed, DryingLaw, drying_law
from sandmix.drying.moist_air import Air
from sandmix.language.errors import Problem
from sandmix.materials.metals import METALS
from sandmix.maths.uncertainty import Band
from sandmix.recipes import temper
from sandmix.recipes.too_wet import STOP, Wetness

SUN_W_M2 = 150.0
"""What sun and sky bring on balance while it shines (own choice)."""
PLATE_W_M2K = 40.0
"""How well heat gets from a plate into the layer (own choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DryForm(Form):
    """Sand that is too wet, its target, the air and the place, and how it is spread and weighed."""

    heap_kg: float | None = ask("heap_kg", first=True, label="Sand to dry")
    moisture_pct_wet: float = ask("moisture_pct_wet", first=True, required=True, label="Moisture now")
    metal: str = ask("metal", first=True)
    drying_place: str = ask("drying_place", first=True)
    air_temp_c: float = ask("air_temp_c", first=True)
    humidity_pct: float = ask("humidity_pct", first=True)
    container_kg: float | None = ask("container_kg", first=True)
    spread_m2: float | None = ask("spread_m2", first=True)
    layer_mm: float | None = ask("layer_mm")
    target_moisture_pct_wet: float | None = ask("target_moisture_pct_wet", exact=True)
    sand_kind: str = ask("sand_kind")
    wind_m_s: float | None = ask("wind_m_s")
    below_temp_c: float | None = ask("below_temp_c")
    spread_density_kg_l: float = ask("spread_density_kg_l")
    drying_rate: float = ask("drying_rate")
    dried_for_h: float | None = ask("dried_for_h", exact=True)
    lost_so_far_kg: float | None = ask("lost_so_far_kg", exact=True)
    ready_in_h: float | None = ask("ready_in_h", exact=True)
    dry_mix_on_hand_kg: float | None = ask("dry_mix_on_hand_kg", exact=True)

    @rule
    def the_area_or_the_layer(self) -> Iterable[Problem]:
        if self.spread_m2 is not None and self.layer_mm is not None:
            yield self.wrong(
                "layer_mm",
                "the area or the layer",
                "the area and the layer are both given, and the mass of the sand fixes one from the other. Leave one empty.",
            )

    @rule
    def a_loss_has_its_time(self) -> Iterable[Problem]:
        if (self.dried_for_h is None) != (self.lost_so_far_kg is None):
            missing = "lost_so_far_kg" if self.lost_so_far_kg is None else "dried_for_h"
            yield self.wrong(
                missing,
                "both, or neither",
                "a loss and the time that it took belong together. Enter both, or leave both empty.",
            )

    @rule
    def no_more_is_lost_than_the_water(self) -> Iterable[Problem]:
        lost, heap = self.lost_so_far_kg, self.heap_kg
        if lost is None:
            return
        if heap is None:
            yield self.wrong(
                "heap_kg", "a mass", "a loss says nothing without the sand that lost it. Enter its mass at the start."
            )
        elif lost > heap * self.moisture_pct_wet / 100:
            most = heap * self.moisture_pct_wet / 100
            yield self.wrong(
                "lost_so_far_kg",
                f"at most {most:.3g} kg",
                (
                    f"{heap:g} kg at {self.moisture_pct_wet:g} % hold only {most:.3g} kg of water. Check the weighings, and enter mass "
                    "and moisture as they were at the start."
                ),
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedDry(DryForm):
    """The same, with a target, a wind and a layer or an area that are always there, how often the layer is turned, and what is learned.

    ``prior_share`` is the share of the drying rate that is no weighing of this sand; 1 without one.
    """

    target_moisture_pct_wet: float
    wind_m_s: float
    turns: int = 0
    prior_share: float = 1.0

    @property
    def moisture(self) -> float:
        """The moisture as a fraction of the wet mass."""
        return self.moisture_pct_wet / 100

    @property
    def target(self) -> float:
        """The target as a fraction of the wet mass."""
        return self.target_moisture_pct_wet / 100

    @property
    def dries_in_air(self) -> bool:
        """Whether it is spread to dry; over a burner it is not."""
        return self.drying_place != "burner"

    @property
    def is_to_dry(self) -> bool:
        """Whether the sand is too wet, and its target is one on which metal can be poured."""
        wet = self.wetness()
        verdict = temper.verdict(self.moisture_pct_wet, self.target_moisture_pct_wet, wet.red_pct_wet)
        return verdict in ("dry", "stop") and wet.target != STOP

    @property
    def lose_kg(self) -> float | None:
        """The water to lose from the start, in kg; None without a mass."""
        if self.heap_kg is None:
            return None
        return drying_plan.water_to_lose_kg(self.heap_kg, self.moisture, self.target)

    @property
    def has_lost_enough(self) -> bool:
        """Whether the loss so far brings it to the target."""
        return self.lost_so_far_kg is not None and self.lose_kg is not None and self.lost_so_far_kg >= self.lose_kg

    @property
    def air(self) -> Air:
        """The air over the sand."""
        return Air(temp_c=self.air_temp_c, humidity_pct=self.humidity_pct, wind_m_s=self.wind_m_s)

    @property
    def dry_kg_m3(self) -> float:
        """The dry mass in a m³ of the spread layer."""
        return 1000 * self.spread_density_kg_l * (1 - self.moisture)

    @property
    def depth_m(self) -> float | None:
        """The depth of the layer, in m; None where there is an area but no mass."""
        if self.layer_mm is not None:
            return self.layer_mm / 1000
        if self.heap_kg is None or self.spread_m2 is None:
            return None
        return drying_plan.layer_m(self.heap_kg, self.moisture, self.spread_m2, self.dry_kg_m3)

    def area_m2(self, depth_m: float) -> float:
        """The area that the sand covers *depth_m* deep, in m²; 0 without a mass."""
        if self.spread_m2 is not None:
            return self.spread_m2
        return drying_plan.area_m2(self.heap_kg or 0.0, self.moisture, depth_m, self.dry_kg_m3)

    def bed(self, depth_m: float) -> Bed:
        """The layer, *depth_m* deep, where it lies."""
        return Bed(
            depth_m=depth_m,
            moisture=self.moisture,
            dry_kg_m3=self.dry_kg_m3,
            below_c=self.below_temp_c,
            below_w_m2k=PLATE_W_M2K if self.drying_place == "plate" else BELOW_W_M2K,
            radiation_w_m2=SUN_W_M2 if self.drying_place == "sun" else 0.0,
        )

    def law(self, depth_m: float) -> DryingLaw:
        """How fast a layer of *depth_m* dries there, at the rate of this sand; frozen sand does not dry."""
        if self.air_temp_c < 0 and self.drying_place != "plate":
            return DryingLaw(surface_kg_m2s=0.0, slowness=())
        return drying_law(self.air, self.bed(depth_m)).times(self.drying_rate)

    def wetness(self, band: Band | None = None) -> Wetness:
        """How wet sand and target are for the metal; *band* is that of the moisture."""
        return Wetness(
            metal=METALS[self.metal],
            sand_pct_wet=self.moisture_pct_wet,
            sand_band=band,
            target_pct_wet=self.target_moisture_pct_wet,
            sand_kind=self.sand_kind,
        )
