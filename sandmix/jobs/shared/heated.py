"""A casting whose heat is computed: what is usual where nothing is given, what is refused, and how deep the heat goes."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Protocol

from sandmix.asking.form import F, Filled, Form
from sandmix.cooling import opening
from sandmix.cooling.cooling import cool
from sandmix.cooling.freezing import Case, Cooling, Grid
from sandmix.language.errors import Problem
from sandmix.language.wording import to_figures
from sandmix.materials import pour_temperature
from sandmix.materials.metals import HEAT_ENDS, METALS, thermal
from sandmix.materials.sands_and_clays import CLAYS, SANDS_FOR_HEAT
from sandmix.maths.uncertainty import Band, Ends
from sandmix.vocabulary import quantity

SHAPE_N = {"plate": 0.0, "bar": 1.0, "ball": 2.0}
OTHER_SANDS = ("b", "c")
"""The sets of heat properties that bound the default one."""
GRANULES_C = (316.0, 638.0)
"""Between these, granules of an unknown clay lose their bond: the limits of calcium and of sodium bentonite."""
_SLACK = 1.01


class Heated(Protocol):
    """A form with all that decides how deep the heat of a casting goes, but its size."""

    @property
    def metal(self) -> str:
        """The metal's key."""

    @property
    def pour_temp_c(self) -> float:
        """Its pour temperature, in °C."""

    @property
    def latent_j_kg(self) -> float:
        """Its latent heat, in J/kg."""

    @property
    def liquid_j_kgk(self) -> float:
        """Its specific heat as a liquid, in J/kgK."""

    @property
    def shape(self) -> str | None:
        """The nearest shape; a plate where none is given."""

    @property
    def sand_heat(self) -> str:
        """The key of the sand's heat properties."""

    @property
    def moisture_pct_wet(self) -> float:
        """The moisture of the sand, in percent of the wet mass."""


def too_small_a_box(form: Form, volume_cm3: float, box_mm: Sequence[float]) -> Iterable[Problem]:
    """Yield the problem of a box that cannot hold a casting of that volume."""
    box_cm3 = math.prod(box_mm) / 1000
    if box_cm3 * _SLACK < volume_cm3:
        yield form.wrong(
            "box_mm",
            f"at least {volume_cm3:g} cm³ in all",
            (
                f"a box of {to_figures(box_cm3, 3)} cm³ cannot hold a casting of {volume_cm3:g} cm³. Check the sizes, the volume and their "
                "units."
            ),
        )


def impossible_surface(form: Form, volume_cm3: float, area_cm2: float) -> Iterable[Problem]:
    """Yield the problem of a surface that no casting of that volume can have."""
    modulus_mm, word = 10 * volume_cm3 / area_cm2, quantity("modulus_mm")
    ball_mm = opening.ball_modulus_mm(volume_cm3)
    if modulus_mm > _SLACK * ball_mm:
        least = f"at least {to_figures(10 * volume_cm3 / ball_mm, 3)} cm²"
        what_to_do = f"a casting of {volume_cm3:g} cm³ has {least}, even if it is a ball. Check the volume, the surface and their units."
        yield form.wrong("casting_area_cm2", least, what_to_do)
    elif not word.low <= modulus_mm <= word.high:
        what_to_do = (
            f"volume over surface is {to_figures(modulus_mm, 2)} mm, and castings have {word.allowed}. Check the volume, the surface "
            "and their units."
        )
        yield form.wrong("casting_area_cm2", f"a modulus of {word.allowed}", what_to_do)


def heat_values(filled: Filled[F], metal: str, pour_temp_c: float | None) -> tuple[dict[str, float], dict[str, Ends]]:
    """Return what is usual for *metal* where nothing is given, and the bands of what is not known: pour temperature, heat figures, sand."""
    values = {"latent_j_kg": thermal(metal).latent_j_kg, "liquid_j_kgk": thermal(metal).liquid_j_kgk}
    bands: dict[str, Ends] = {**HEAT_ENDS.get(metal, {})}
    if pour_temp_c is None:
        values["pour_temp_c"], bands["pour_temp_c"] = pour_temperature.usual(metal)
    if "sand_heat" in filled.assumed:
        bands["sand_heat"] = OTHER_SANDS
    return values, bands


def clay_limit(clay: str) -> tuple[float, Band | None]:
    """Return the temperature above which a clay, by its key, no longer bonds, in °C, and its band where the kind of clay is not known."""
    limit = CLAYS[clay].limit_c
    return (GRANULES_C[0], GRANULES_C) if limit is None else (limit, None)


def cooled(form: Heated, modulus_mm: float, grid: Grid) -> Cooling:
    """Return how the casting cools in perfect contact with sand that is deeper than the heat goes: the most that can dry or burn."""
    return cool(
        Case(
            metal=replace(thermal(form.metal), latent_j_kg=form.latent_j_kg, liquid_j_kgk=form.liquid_j_kgk),
            pour_temp_c=max(form.pour_temp_c, METALS[form.metal].liquidus_c),
            sand=SANDS_FOR_HEAT[form.sand_heat],
            water=form.moisture_pct_wet / (100 - form.moisture_pct_wet),
            shape_n=SHAPE_N[form.shape or "plate"],
            modulus_mm=modulus_mm,
        ),
        grid,
    )


def share_within(cooling: Cooling, depth_mm: float, layer_mm: float) -> float:
    """Return the share of a layer of *layer_mm* around the casting that lies within *depth_mm*, by volume; 0 where there is no layer."""
    layer = cooling.shell_m3_m2(layer_mm)
    return min(1.0, cooling.shell_m3_m2(depth_mm) / layer) if layer > 0 else 0.0
