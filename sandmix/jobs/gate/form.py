"""The form of *gate*: what is filled, the sprue, the gates, the thinnest wall, and the way from the furnace."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking.form import Filled, Form, ask, rule
from sandmix.asking.rules import whole_number
from sandmix.gating import filling, heat_loss, misrun, pouring_time, ratio, speed, sprue
from sandmix.gating.filling import BOTTOM, PARTING, TOP, Cavity
from sandmix.language.errors import Problem
from sandmix.language.wording import to_figures
from sandmix.materials import pour_temperature
from sandmix.materials.liquid_metals import LIQUIDS, TENSION_SHARE
from sandmix.materials.metals import liquid_density_ends, thermal
from sandmix.maths.statistics import is_above
from sandmix.maths.uncertainty import Ends

_AGREE = 0.05
"""A gate and a time that differ by less than this agree (own choice)."""
_SAME_VOLUME = 0.15
"""A volume and a mass that differ by less than this agree (own choice)."""
_POT = ("pot_mm", "melt_kg", "carry_min")


@dataclass(frozen=True, slots=True, kw_only=True)
class GateForm(Form):
    """What is filled and from where, what sets the flow, the thinnest wall, and the way from the furnace."""

    metal: str = ask(
        "metal", first=True, help="Sets the usual ratio and time, the speed limit, and when the metal freezes."
    )
    fill_volume_cm3: float | None = ask("fill_volume_cm3", first=True)
    head_mm: float | None = ask(
        "head_mm",
        first=True,
        label="Head of metal over the gate",
        help="From the metal's surface in the pouring cup down to the gate. Leave empty for pouring cup plus sprue.",
    )
    gate_place: str = ask("gate_place", first=True)
    fill_height_mm: float | None = ask("fill_height_mm", first=True)
    thinnest_mm: float | None = ask("thinnest_mm", first=True)
    gate_ratio: str | None = ask("gate_ratio", first=True)
    gate_cm2: float | None = ask("gate_cm2")
    fill_time_s: float | None = ask(
        "fill_time_s",
        exact=True,
        help="Enter it to get the gates. Left empty with no gate and no sprue given, the usual time by mass and wall is taken.",
    )
    poured_kg: float | None = ask(
        "poured_kg", label="Metal to fill it", help="Instead of the volume: the mass of the liquid metal that fills it."
    )
    cope_height_mm: float | None = ask("cope_height_mm")
    discharge: float = ask("discharge")
    sprue_length_mm: float | None = ask("sprue_length_mm")
    basin_mm: float | None = ask("basin_mm")
    sprue_base_mm: float | None = ask("sprue_base_mm")
    sprue_top_mm: float | None = ask("sprue_top_mm")
    gates_count: float = ask("gates_count")
    gate_depth_mm: float | None = ask("gate_depth_mm", exact=True)
    runner_length_mm: float | None = ask("runner_length_mm")
    gate_length_mm: float | None = ask("gate_length_mm")
    pour_temp_c: float | None = ask("pour_temp_c")
    pot_mm: float | None = ask("pot_mm")
    melt_kg: float | None = ask("melt_kg")
    carry_min: float | None = ask("carry_min")
    emissivity: float | None = ask("emissivity")
    furnace_temp_c: float | None = ask("furnace_temp_c")

    @property
    def density_kg_m3(self) -> float:
        """The density of the liquid metal."""
        return thermal(self.metal).liquid_kg_m3

    @property
    def volume_cm3(self) -> float | None:
        """The volume to fill, as given or from its mass."""
        if self.fill_volume_cm3 is not None:
            return self.fill_volume_cm3
        return None if self.poured_kg is None else 1e6 * self.poured_kg / self.density_kg_m3

    @property
    def over_gate_mm(self) -> float | None:
        """The head over the gate: as given, or pouring cup plus sprue."""
        if self.head_mm is not None:
            return self.head_mm
        return None if self.sprue_length_mm is None else self.cup_mm + self.sprue_length_mm

    @property
    def cup_mm(self) -> float:
        """The metal in the pouring cup: as given; else 30 mm, or a quarter of a head that is less than 40 mm (own choice)."""
        if self.basin_mm is not None:
            return self.basin_mm
        return sprue.CUP_MM if self.head_mm is None else min(sprue.CUP_MM, 0.75 * self.head_mm)

    @property
    def length_mm(self) -> float | None:
        """The length of the sprue: as given, or the head less the pouring cup."""
        if self.sprue_length_mm is not None:
            return self.sprue_length_mm
        return None if self.head_mm is None or self.head_mm <= self.cup_mm else self.head_mm - self.cup_mm

    @property
    def areas(self) -> ratio.Ratio:
        """The ratio as given; all as wide as the gates where none is."""
        return (ratio.read(self.gate_ratio) if self.gate_ratio else None) or ratio.ONE

    @property
    def above_mm(self) -> float | None:
        """How far the cavity stands above the parting: as given, or half of its height."""
        if self.cope_height_mm is not None:
            return self.cope_height_mm
        return None if self.fill_height_mm is None else self.fill_height_mm / 2

    @property
    def cavity(self) -> Cavity | None:
        """What is filled, where all that is known that its time needs."""
        volume, height, above = self.volume_cm3, self.fill_height_mm, self.above_mm
        if volume is None:
            return None
        if self.gate_place == TOP or (self.gate_place == PARTING and above == 0):
            return Cavity(volume_cm3=volume, place=TOP)
        if height is None or (self.gate_place == PARTING and above is None):
            return None
        return Cavity(volume_cm3=volume, place=self.gate_place, height_mm=height, above_mm=above or 0.0)

    @property
    def deepest_mm(self) -> float | None:
        """The metal over the lowest point of the cavity; None where that is not known."""
        head, height = self.over_gate_mm, self.fill_height_mm
        if head is None or self.gate_place == BOTTOM:
            return head
        return None if height is None else head + height

    @property
    def base_mm(self) -> float | None:
        """The diameter of the sprue's base: as given, or from its top."""
        if self.sprue_base_mm is not None:
            return self.sprue_base_mm
        top, length = self.sprue_top_mm, self.length_mm
        return None if top is None or length is None else sprue.base_mm(top, self.cup_mm, length)

    @property
    def stream_mm(self) -> float | None:
        """The diameter of the metal at the sprue's base: that of the base, or less where the sprue narrows too little for its top."""
        base, top, length = self.base_mm, self.sprue_top_mm, self.length_mm
        if base is None or top is None or length is None:
            return base
        return min(base, sprue.base_mm(top, self.cup_mm, length))

    @property
    def pot_known(self) -> bool:
        """Whether crucible, metal and time are all given."""
        return all(getattr(self, word) is not None for word in _POT)

    @rule
    def something_can_be_computed(self) -> Iterable[Problem]:
        has_head = self.head_mm is not None or self.sprue_length_mm is not None
        if not has_head and not (self.pot_known or (self.thinnest_mm is not None)):
            yield self.wrong(
                "head_mm",
                "a head, or the length of the sprue",
                "nothing can be computed yet. Enter the height from the metal's surface in the pouring cup down to the gate.",
            )

    @rule
    def the_ratio_is_three_numbers(self) -> Iterable[Problem]:
        if self.gate_ratio and ratio.read(self.gate_ratio) is None:
            yield self.wrong(
                "gate_ratio",
                "three numbers such as 1:4:4",
                "this isn't a ratio. Enter three numbers from 0.01 to 100 for sprue base, runner and gates, such as 1:4:4.",
            )

    @rule
    def gates_are_whole(self) -> Iterable[Problem]:
        yield from whole_number(self, "gates_count", "gates")

    @rule
    def the_metal_fills_something(self) -> Iterable[Problem]:
        if self.poured_kg == 0 and self.fill_volume_cm3 is None:
            yield self.wrong("poured_kg", "above 0 kg", "0 kg fills no mould. Enter more, or the volume to fill.")

    @rule
    def volume_and_mass_agree(self) -> Iterable[Problem]:
        volume, mass = self.fill_volume_cm3, self.poured_kg
        if volume is None or mass is None:
            return
        by_mass = 1e6 * mass / self.density_kg_m3
        if abs(by_mass - volume) > _SAME_VOLUME * volume:
            yield self.wrong(
                "poured_kg",
                f"about {to_figures(volume * self.density_kg_m3 * 1e-6, 3)} kg",
                (
                    f"{mass:g} kg of this metal fills {to_figures(by_mass, 3)} cm³, and the volume given is {volume:g} cm³. "
                    "Check both, or leave one out."
                ),
            )

    @rule
    def the_sprue_ends_above_the_gate(self) -> Iterable[Problem]:
        head, length = self.head_mm, self.sprue_length_mm
        if head is not None and length is not None and head < length:
            yield self.wrong(
                "head_mm",
                f"at least {length:g} mm",
                (
                    f"a head of {head:g} mm is less than the sprue of {length:g} mm, so the gate would lie above its base. Enter the "
                    "height from the metal's surface in the pouring cup down to the gate, or a shorter sprue."
                ),
            )

    @rule
    def the_cup_is_above_the_gate(self) -> Iterable[Problem]:
        head, cup = self.head_mm, self.basin_mm
        if head is not None and cup is not None and cup > head:
            yield self.wrong(
                "basin_mm",
                f"at most {head:g} mm",
                f"{cup:g} mm of metal in the pouring cup is more than the whole head of {head:g} mm. Check both.",
            )

    @rule
    def the_head_reaches_the_top(self) -> Iterable[Problem]:
        head, height = self.over_gate_mm, self.fill_height_mm
        if self.gate_place == BOTTOM and head is not None and height is not None and is_above(height, head):
            yield self.wrong(
                "fill_height_mm",
                f"at most {head:g} mm",
                (
                    f"the mould never fills: the cavity stands {height:g} mm above its gate, and the metal in the pouring cup only "
                    f"{head:g} mm. Use a deeper cope, a higher pouring cup, or a higher gate."
                ),
            )

    @rule
    def the_head_reaches_the_top_of_the_cope(self) -> Iterable[Problem]:
        head, above = self.over_gate_mm, self.above_mm
        if self.gate_place == PARTING and head is not None and above is not None and is_above(above, head):
            word = "fill_height_mm" if self.cope_height_mm is None else "cope_height_mm"
            yield self.wrong(
                word,
                f"at most {head:g} mm above the parting",
                (
                    f"the mould never fills: the cavity stands {above:g} mm above the parting, and the metal in the pouring cup only "
                    f"{head:g} mm. Use a deeper cope or a higher pouring cup."
                ),
            )

    @rule
    def the_part_in_the_cope_is_part_of_it(self) -> Iterable[Problem]:
        above, height = self.cope_height_mm, self.fill_height_mm
        if above is not None and height is not None and is_above(above, height):
            yield self.wrong(
                "cope_height_mm",
                f"at most {height:g} mm",
                f"{above:g} mm above the parting is more than the whole height of {height:g} mm. Check both.",
            )

    @rule
    def gate_and_time_agree(self) -> Iterable[Problem]:
        gate, time, head, cavity = self.gate_cm2, self.fill_time_s, self.over_gate_mm, self.cavity
        if gate is None or time is None or head is None or cavity is None:
            return
        choke = gate * self.areas.choke / self.areas.gates
        fills_s = filling.fill_s(cavity, choke, head, self.discharge)
        if abs(fills_s - time) > _AGREE * time:
            yield self.wrong(
                "fill_time_s",
                f"about {to_figures(fills_s, 3)} s, or nothing",
                (
                    f"gates of {gate:g} cm² fill it in {to_figures(fills_s, 3)} s, not in {time:g} s. Leave one of the two out to have "
                    "it worked out."
                ),
            )

    @rule
    def the_wall_can_be_filled(self) -> Iterable[Problem]:
        wall, head = self.thinnest_mm, self.deepest_mm
        if wall is None or head is None:
            return
        least = speed.thinnest_mm(LIQUIDS[self.metal].tension_n_m, self.density_kg_m3, head)
        if wall < least:
            yield self.wrong(
                "thinnest_mm",
                f"at least {to_figures(least, 2)} mm",
                (
                    f"a wall of {wall:g} mm can't be filled: under {head:g} mm of metal, surface tension keeps it out of walls below "
                    f"{to_figures(least, 2)} mm. Check the unit, make the wall thicker, or use a higher head."
                ),
            )

    @rule
    def the_metal_is_liquid(self) -> Iterable[Problem]:
        return pour_temperature.too_cold(self)

    @rule
    def the_furnace_is_hotter(self) -> Iterable[Problem]:
        metal = thermal(self.metal)
        if self.furnace_temp_c is not None and self.furnace_temp_c < metal.liquidus_c:
            yield self.wrong(
                "furnace_temp_c",
                f"above {metal.liquidus_c:g} °C",
                (
                    f"{self.furnace_temp_c:g} °C is below {metal.liquidus_c:g} °C, where this metal is fully liquid. Check the metal and "
                    "the unit."
                ),
            )

    @rule
    def all_of_the_crucible(self) -> Iterable[Problem]:
        missing = [word for word in _POT if getattr(self, word) is None]
        given = len(missing) < len(_POT) or self.furnace_temp_c is not None
        for word in missing if given else ():
            yield self.wrong(
                word,
                "crucible, metal and time",
                "this is missing. For the temperature lost on the way, enter the crucible, the metal in it and the time.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedGate(GateForm):
    """The same, with what is usual for the metal where nothing is given, and the figures of the metal that are not certain."""

    pour_temp_c: float
    emissivity: float
    liquid_kg_m3: float
    tension_n_m: float
    rule_share: float
    gap_m2k_w: float
    solid_share: float
    wall_share: float

    @property
    def density_kg_m3(self) -> float:
        """The density of the liquid metal."""
        return self.liquid_kg_m3

    @property
    def pot(self) -> heat_loss.Pot | None:
        """What carries the metal, where it is known."""
        if self.pot_mm is None or self.melt_kg is None or self.carry_min is None:
            return None
        return heat_loss.Pot(
            diameter_mm=self.pot_mm,
            mass_kg=self.melt_kg,
            liquid_j_kgk=thermal(self.metal).liquid_j_kgk,
            emissivity=self.emissivity,
            wall_share=self.wall_share,
        )

    @property
    def rule_wall_mm(self) -> float:
        """The wall for the usual pouring time."""
        return pouring_time.USUAL_WALL_MM if self.thinnest_mm is None else self.thinnest_mm


def resolve(filled: Filled[GateForm]) -> Filled[ResolvedGate]:
    """Take what is usual for the metal where nothing is given, and its flow properties, with their bands."""
    form = filled.form
    metal, liquid = thermal(form.metal), LIQUIDS[form.metal]
    values: dict[str, float] = {
        "liquid_kg_m3": metal.liquid_kg_m3,
        "tension_n_m": liquid.tension_n_m,
        "rule_share": 1.0,
        "gap_m2k_w": 0.0,
        "solid_share": misrun.SOLID_SHARE,
        "wall_share": heat_loss.WALL_SHARE,
    }
    bands: dict[str, Ends] = {
        "liquid_kg_m3": liquid_density_ends(form.metal),
        "tension_n_m": (liquid.tension_n_m * (1 - TENSION_SHARE), liquid.tension_n_m * (1 + TENSION_SHARE)),
        "rule_share": pouring_time.SPREAD,
        "gap_m2k_w": (0.0, 1 / misrun.FILLING_W_M2K),
        "solid_share": misrun.SOLID_SHARES,
        "wall_share": heat_loss.WALL_SHARES,
    }
    if form.emissivity is None:
        values["emissivity"], bands["emissivity"] = liquid.emissivity, liquid.emissivities
    if form.pour_temp_c is None:
        values["pour_temp_c"], bands["pour_temp_c"] = pour_temperature.usual(form.metal)
    return filled.into(ResolvedGate, values, bands=bands, remarks=pour_temperature.odd(form))
