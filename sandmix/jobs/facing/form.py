"""The form of *facing*: the casting, its flask, the two sands, and how many casts to look ahead."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking import rules
from sandmix.asking.form import Filled, ask, rule
from sandmix.cooling.freezing import FINE, Cooling, Grid
from sandmix.jobs.shared.bought import BoughtForm, resolve_activity
from sandmix.jobs.shared.heated import clay_limit, cooled, heat_values, impossible_surface, share_within
from sandmix.language.errors import Problem
from sandmix.materials import pour_temperature
from sandmix.recipes.facing import Mould, TwoSands
from sandmix.recipes.sand_loss import DEFAULT_HALF_WIDTH, DEFAULT_SHARE

USUAL_MM = (20.0, 30.0)
"""Source: facing_notes."""
USUAL_PCT = (10.0, 15.0)
"""Of the sand in the mould. Source: facing_share."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FacingForm(BoughtForm):
    """The casting and its flask; the backing heap; how both sands are mixed and kept; the sand that is thrown away."""

    metal: str = ask("metal", first=True)
    casting_volume_cm3: float = ask("casting_volume_cm3", first=True, required=True)
    casting_area_cm2: float = ask("casting_area_cm2", first=True, required=True)
    flask_sand_kg: float = ask("flask_sand_kg", first=True, required=True)
    heap_kg: float | None = ask("heap_kg", first=True, label="Backing heap")
    facing_mm: float | None = ask(
        "facing_mm", first=True, blank=True, help="Leave empty to take what the pour dries, and at least 20 mm."
    )
    casts: float = ask("casts", first=True, default=12.0)
    clay_pct_dry: float = ask("clay_pct_dry", default=7.0, label="Live clay of the backing")
    dead_fines_pct_dry: float = ask(
        "dead_fines_pct_dry", exact=True, default=0.0, label="Dead fines of the backing now"
    )
    dead_fines_limit_pct_dry: float = ask("dead_fines_limit_pct_dry", exact=True)
    make_up: str = ask("make_up", label="Clay added to the backing")
    facing_clay_pct_dry: float = ask("facing_clay_pct_dry")
    facing_from_backing_pct_dry: float = ask("facing_from_backing_pct_dry", exact=True)
    sand_lost_kg: float | None = ask("sand_lost_kg", label="Facing thrown away")
    rammed_density_kg_l: float = ask("rammed_density_kg_l")
    heap_gfn: float | None = ask("heap_gfn", exact=True, label="Fineness number of the backing")
    facing_gfn: float | None = ask("facing_gfn", exact=True)
    shape: str | None = ask("shape")
    pour_temp_c: float | None = ask("pour_temp_c")
    moisture_pct_wet: float = ask("moisture_pct_wet", default=3.5, label="Moisture of both sands")
    sand_heat: str = ask("sand_heat")

    @rule
    def the_metal_is_liquid(self) -> Iterable[Problem]:
        return pour_temperature.too_cold(self)

    @rule
    def the_surface_fits_the_volume(self) -> Iterable[Problem]:
        return impossible_surface(self, self.casting_volume_cm3, self.casting_area_cm2)

    @rule
    def a_whole_number_of_casts(self) -> Iterable[Problem]:
        return rules.whole_number(self, "casts", "casts")

    @rule
    def clay_and_fines_are_no_more_than_all(self) -> Iterable[Problem]:
        return rules.clay_and_fines_fit(self, self.clay_pct_dry, self.dead_fines_pct_dry)

    @rule
    def the_clay_can_reach_the_facing(self) -> Iterable[Problem]:
        return self.out_of_reach("facing_clay_pct_dry")

    @rule
    def the_clay_can_reach_the_backing(self) -> Iterable[Problem]:
        return self.out_of_reach("clay_pct_dry")

    @rule
    def there_is_room_for_the_clay(self) -> Iterable[Problem]:
        most = 100 - 100 * self.facing_clay_pct_dry / self.activity_pct
        if self.facing_from_backing_pct_dry > most >= 0:
            what_to_do = (
                f"with {self.facing_from_backing_pct_dry:g} % of backing there is no room for the clay that brings the facing to "
                f"{self.facing_clay_pct_dry:g} %. Enter at most {most:.3g} %."
            )
            yield self.wrong("facing_from_backing_pct_dry", f"at most {most:.3g} %", what_to_do)

    @rule
    def the_heap_fills_the_flask(self) -> Iterable[Problem]:
        if self.heap_kg is not None and self.heap_kg < self.flask_sand_kg:
            what_to_do = (
                f"a heap of {self.heap_kg:g} kg doesn't fill a flask that holds {self.flask_sand_kg:g} kg of sand. Enter the whole backing "
                "heap, or leave it empty."
            )
            yield self.wrong("heap_kg", f"at least {self.flask_sand_kg:g} kg", what_to_do)


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedFacing(FacingForm):
    """The same, with a layer, a loss, a clay limit and the heat of the metal that are always there."""

    pour_temp_c: float
    latent_j_kg: float
    liquid_j_kgk: float
    facing_mm: float
    sand_lost_kg: float
    clay_limit_c: float

    def cooling(self, grid: Grid = FINE) -> Cooling:
        """Return the casting as it heats the sand."""
        return cooled(self, 10 * self.casting_volume_cm3 / self.casting_area_cm2, grid)

    @property
    def dry_share(self) -> float:
        """Dry mass as a fraction of the wet mass, of both sands."""
        return 1 - self.moisture_pct_wet / 100

    @property
    def backing_dry_kg(self) -> float:
        """The dry backing, in kg: the heap, or what the flask holds where no heap is given."""
        return (self.flask_sand_kg if self.heap_kg is None else max(self.heap_kg, self.flask_sand_kg)) * self.dry_share

    def facing_dry_kg(self, cooling: Cooling) -> float:
        """Return the dry facing in the mould, in kg: the layer around the casting, at most all the sand in the flask."""
        return min(self._shell_kg(cooling, self.facing_mm), self.flask_sand_kg) * self.dry_share

    def _shell_kg(self, cooling: Cooling, depth_mm: float) -> float:
        """The rammed sand from the casting's face to a depth, in kg: 1 m³ per m² is 0.1 L per cm²."""
        return self.casting_area_cm2 / 10 * cooling.shell_m3_m2(depth_mm) * self.rammed_density_kg_l

    def mould(self, cooling: Cooling) -> Mould:
        """Return what one cast does to both sands."""
        facing = self.facing_dry_kg(cooling)
        flask = self.flask_sand_kg * self.dry_share
        backing, layer = max(0.0, flask - facing), self.facing_mm

        def shares(depth_mm: float) -> tuple[float, float]:
            """The shares of facing and backing within a depth of the casting."""
            if facing <= 0:
                return 0.0, min(1.0, self._shell_kg(cooling, depth_mm) * self.dry_share / backing)
            beyond_kg = (self._shell_kg(cooling, depth_mm) - self._shell_kg(cooling, layer)) * self.dry_share
            return share_within(cooling, depth_mm, layer), min(
                1.0, max(0.0, beyond_kg) / backing
            ) if backing > 0 else 0.0

        burnt, dried = shares(cooling.depth_past_mm(self.clay_limit_c)), shares(cooling.dry_depth_mm)
        return Mould(
            facing_kg=facing,
            backing_kg=backing,
            lost_kg=min(self.sand_lost_kg * self.dry_share, facing),
            burnt_facing=burnt[0],
            burnt_backing=burnt[1],
            dried_facing=dried[0],
            dried_backing=dried[1],
        )

    @property
    def two_sands(self) -> TwoSands:
        """How both sands are kept."""
        return TwoSands(
            facing_clay=self.facing_clay_pct_dry / 100,
            backing_clay=self.clay_pct_dry / 100,
            from_backing=self.facing_from_backing_pct_dry / 100,
            moisture=self.moisture_pct_wet / 100,
            make_up=self.make_up == "yes",
            materials=self.as_bought(self.activity_pct),
        )


def resolve(filled: Filled[FacingForm]) -> Filled[ResolvedFacing]:
    """Take the layer that the pour dries, the usual loss and the clay's limit where none is given, and the bands of what is not known."""
    filled = resolve_activity(filled)
    form = filled.form
    values, bands = heat_values(filled, form.metal, form.pour_temp_c)
    values["clay_limit_c"], band = clay_limit(form.clay)
    bands |= {"clay_limit_c": band} if band else {}
    if form.sand_lost_kg is None:
        kg = form.flask_sand_kg
        values["sand_lost_kg"] = DEFAULT_SHARE * kg
        bands["sand_lost_kg"] = ((DEFAULT_SHARE - DEFAULT_HALF_WIDTH) * kg, (DEFAULT_SHARE + DEFAULT_HALF_WIDTH) * kg)
    with_layer = values | {"facing_mm": form.facing_mm or 0.0}
    if form.facing_mm is None:
        dry_mm = filled.into(ResolvedFacing, with_layer).form.cooling().dry_depth_mm
        with_layer["facing_mm"] = max(USUAL_MM[0], float(math.ceil(dry_mm - 1e-6)))
    return filled.into(ResolvedFacing, with_layer, bands=bands, remarks=pour_temperature.odd(form))
