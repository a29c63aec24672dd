"""The form of *burnout*: a casting, how it was poured, and the sand around it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from sandmix.asking.form import Filled, Form, ask, rule
from sandmix.cooling import burnout, opening
from sandmix.cooling.freezing import MEASURED_CONTACT_W_M2K, PERFECT, Case
from sandmix.jobs.shared.heated import SHAPE_N, clay_limit, heat_values, too_small_a_box
from sandmix.language.errors import Problem
from sandmix.language.wording import to_figures
from sandmix.materials import pour_temperature
from sandmix.materials.metals import METALS, thermal
from sandmix.materials.sands_and_clays import SANDS_FOR_HEAT
from sandmix.vocabulary import WORDS, Quantity

_SLACK = 1.01
_SAME = (0.8, 1.25)
"""Volume over surface and a modulus whose ratio is between these are the same (own choice)."""


def is_of_the_surface(modulus_mm: float, volume_cm3: float, area_cm2: float) -> bool:
    """Return whether a modulus is that of the volume and its whole surface, and not that of one part."""
    return _SAME[0] < 10 * volume_cm3 / area_cm2 / modulus_mm < _SAME[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class BurnoutForm(Form):
    """A casting by volume and surface or modulus, its shape, how it was poured, and the sand around it."""

    metal: str = ask("metal", first=True)
    casting_volume_cm3: float | None = ask("casting_volume_cm3", first=True)
    casting_area_cm2: float | None = ask("casting_area_cm2", first=True)
    modulus_mm: float | None = ask("modulus_mm", first=True)
    sand_kg: float | None = ask(
        "sand_kg", first=True, label="Sand in the whole heap", help="Weigh it as it lies, with its water."
    )
    shape: str | None = ask("shape")
    box_mm: Sequence[float] | None = ask("box_mm")
    pour_temp_c: float | None = ask("pour_temp_c")
    moisture_pct_wet: float = ask("moisture_pct_wet", default=3.5, label="Moisture of the sand")
    clay: str = ask("clay")
    clay_pct_dry: float | None = ask("clay_pct_dry")
    clay_limit_c: float | None = ask("clay_limit_c")
    flask_sand_kg: float | None = ask("flask_sand_kg")
    gating_section_mm: float | None = ask("gating_section_mm")
    wall_mm: float | None = ask("wall_mm")
    contact_w_m2k: float | None = ask("contact_w_m2k")
    sand_heat: str = ask("sand_heat")
    activation_kj_mol: float = ask("activation_kj_mol")

    @property
    def modulus(self) -> float:
        """The modulus in mm, as given or from volume and surface; not a number where neither is given, which is refused."""
        if self.modulus_mm is not None:
            return self.modulus_mm
        volume_cm3, area_cm2 = self.casting_volume_cm3, self.casting_area_cm2
        return math.nan if volume_cm3 is None or area_cm2 is None else 10 * volume_cm3 / area_cm2

    @rule
    def the_metal_is_liquid(self) -> Iterable[Problem]:
        return pour_temperature.too_cold(self)

    @rule
    def the_thickness_is_known(self) -> Iterable[Problem]:
        if math.isnan(self.modulus):
            missing = "casting_area_cm2" if self.casting_area_cm2 is None else "casting_volume_cm3"
            yield self.wrong(
                missing,
                "volume and surface, or a modulus",
                (
                    "the thickness of the casting is not known. Enter its volume and its total surface, or its modulus "
                    "(half the thickness of a plate)."
                ),
            )

    @rule
    def the_heap_is_not_empty(self) -> Iterable[Problem]:
        if self.sand_kg == 0:
            yield self.wrong(
                "sand_kg",
                "more than 0 kg",
                "an empty heap cannot lose a share of its clay. Enter what the heap weighs, or leave this empty.",
            )

    @property
    def _possible_modulus(self) -> bool:
        """Whether a casting can have this modulus; so can one of which it is not known."""
        word = WORDS["modulus_mm"]
        assert isinstance(word, Quantity)
        return math.isnan(self.modulus) or word.low <= self.modulus <= word.high

    @rule
    def a_casting_can_have_the_modulus(self) -> Iterable[Problem]:
        modulus, word = self.modulus, WORDS["modulus_mm"]
        if self.casting_volume_cm3 is not None and not self._possible_modulus and isinstance(word, Quantity):
            yield self.wrong(
                "casting_area_cm2",
                f"a modulus of {word.allowed}",
                (
                    f"volume over surface is {to_figures(modulus, 2)} mm, and castings have {word.allowed}. Check the volume, the "
                    "surface and their units."
                ),
            )

    @rule
    def the_volume_is_at_least_a_ball(self) -> Iterable[Problem]:
        volume_cm3, modulus = self.casting_volume_cm3, self.modulus
        if volume_cm3 is None or not self._possible_modulus:
            return
        least_cm3 = 36 * math.pi * modulus**3 / 1000
        if volume_cm3 * _SLACK < least_cm3:
            most_mm = opening.ball_modulus_mm(volume_cm3)
            given = "modulus_mm" if self.modulus_mm is not None else "casting_area_cm2"
            yield self.wrong(
                given,
                f"a modulus of at most {most_mm:.3g} mm for that volume",
                (
                    f"a casting of {volume_cm3:g} cm³ cannot have a modulus of {modulus:.3g} mm: even a ball of that "
                    f"volume has only {most_mm:.3g} mm. Check the volume, the surface and their units."
                ),
            )

    @rule
    def modulus_and_surface_agree(self) -> Iterable[Problem]:
        volume_cm3, modulus = self.casting_volume_cm3, self.modulus
        if volume_cm3 is not None and self.modulus_mm is not None and self.casting_area_cm2 is not None:
            from_area = 10 * volume_cm3 / self.casting_area_cm2
            if not is_of_the_surface(modulus, volume_cm3, self.casting_area_cm2):
                yield self.wrong(
                    "modulus_mm",
                    f"about {to_figures(from_area, 3)} mm",
                    (
                        f"volume over surface is {to_figures(from_area, 3)} mm, but the modulus given is {modulus:g} mm. Leave the "
                        "modulus or the surface empty."
                    ),
                )

    @rule
    def the_box_holds_the_casting(self) -> Iterable[Problem]:
        if self.casting_volume_cm3 is not None and self.box_mm is not None:
            yield from too_small_a_box(self, self.casting_volume_cm3, self.box_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedBurnout(BurnoutForm):
    """The same, with a pour temperature, a clay limit and a gating section that are always there, and two heat figures of the metal."""

    pour_temp_c: float
    clay_limit_c: float
    gating_section_mm: float
    latent_j_kg: float
    liquid_j_kgk: float

    @property
    def shape_n(self) -> float:
        """How the area grows outward: 0 plate, 1 bar, 2 ball; from the box where no shape is named."""
        if self.shape is not None:
            return SHAPE_N[self.shape]
        return burnout.shape_n(min(self.box_mm) / 2, self.modulus)[0] if self.box_mm else 0.0

    @property
    def is_hollow(self) -> bool:
        """Whether the box says that the casting is thin-walled, hollow or branched."""
        return self.shape is None and self.box_mm is not None and burnout.shape_n(min(self.box_mm) / 2, self.modulus)[1]

    @property
    def water(self) -> float:
        """Water in kg per kg of dry sand."""
        return self.moisture_pct_wet / (100 - self.moisture_pct_wet)

    @property
    def dry_kg(self) -> float:
        """The dry sand in the flask, in kg: what was rammed, else the whole heap; infinite where neither is given."""
        wet = self.flask_sand_kg if self.flask_sand_kg is not None else self.sand_kg
        return math.inf if wet is None else wet * (1 - self.moisture_pct_wet / 100)

    @property
    def sand_cm3(self) -> float | None:
        """The volume of the sand in the flask as it takes the heat, in cm³; None where it is not known, or the casting's volume is not."""
        if self.flask_sand_kg is None or self.casting_volume_cm3 is None:
            return None
        return self.dry_kg / SANDS_FOR_HEAT[self.sand_heat].density_kg_m3 * 1e6

    @property
    def depth_mm(self) -> float | None:
        """The sand from the casting to the wall, in mm: as given, or the flask's sand around the casting; None where it is deeper than heat goes."""
        if self.wall_mm is not None or self.casting_volume_cm3 is None or self.sand_cm3 is None:
            return self.wall_mm
        return opening.sand_depth_mm(self.casting_volume_cm3, self.modulus, self.shape_n, self.sand_cm3)

    @property
    def times_contact_w_m2k(self) -> float:
        """The contact that times are computed with, in W/m²K: as given, or the lowest that was measured."""
        return MEASURED_CONTACT_W_M2K if self.contact_w_m2k is None else self.contact_w_m2k

    def case(self, contact_w_m2k: float, wall_mm: float | None) -> Case:
        """Return what is to be solved, for one contact and one depth of the sand."""
        return Case(
            metal=replace(thermal(self.metal), latent_j_kg=self.latent_j_kg, liquid_j_kgk=self.liquid_j_kgk),
            pour_temp_c=max(self.pour_temp_c, METALS[self.metal].liquidus_c),
            sand=SANDS_FOR_HEAT[self.sand_heat],
            water=self.water,
            shape_n=self.shape_n,
            modulus_mm=self.modulus,
            contact_w_m2k=contact_w_m2k,
            wall_mm=wall_mm,
        )


def resolve(filled: Filled[BurnoutForm]) -> Filled[ResolvedBurnout]:
    """Take what is usual for metal, clay and gating where nothing is given, and the ends of what is not known: contact, sand, limit, heat figures."""
    form = filled.form
    values, bands = heat_values(filled, form.metal, form.pour_temp_c)
    if "activation_kj_mol" in filled.assumed:
        bands["activation_kj_mol"] = (170.0, 300.0)
    if form.gating_section_mm is None:
        volume_cm3 = form.casting_volume_cm3
        gating_mm = opening.gating_mm(
            None if volume_cm3 is None else volume_cm3 * 1e-6 * thermal(form.metal).solid_kg_m3
        )
        low, high = opening.GATING_ENDS
        values["gating_section_mm"], bands["gating_section_mm"] = gating_mm, (low * gating_mm, high * gating_mm)
    if form.clay_limit_c is None:
        limit, band = clay_limit(form.clay)
        values["clay_limit_c"] = limit
        bands |= {"clay_limit_c": band} if band else {}
    if form.contact_w_m2k is None:
        bands["contact_w_m2k"] = (MEASURED_CONTACT_W_M2K, PERFECT)
    return filled.into(ResolvedBurnout, values, bands=bands, remarks=pour_temperature.odd(form))
