"""What the plan knows of one casting: its volume, surface and sizes, as given or as those of a block."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from sandmix.asking.form import Filled
from sandmix.casting.layers import YOURS
from sandmix.jobs.plan.form import PlanForm
from sandmix.jobs.plan.steps import Carried, Inputs, amount
from sandmix.materials.metals import METALS
from sandmix.maths.uncertainty import wider_side

SIDE_ERROR = 0.01
"""How far each measured side of a block may be off, as a share of it (own rule)."""
COMPACT_ERROR = 0.2
"""How far the surface of a compact body is off from that of a block of its volume: a ball has 19 % less than a cube."""
BLOCK_SAID = "Only the sizes of the casting are known: it is taken as a block."
COMPACT = "taken as a compact block"
COMPACT_SAID = (
    "The surface of the casting is not known, so it is taken as a compact block of its volume: the times to wait are rather too long. "
    "Enter its surface to get shorter ones."
)
OF_MASS = "from the mass of the casting"
OF_SIZES = "from the sizes of the casting"


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrier:
    """The inputs of a plan, as inputs of the jobs of its steps, each with its origin."""

    filled: Filled[PlanForm]
    origins: Mapping[str, str] = field(default_factory=dict)
    """Where the figures of a casting are from, by word; any other figure is the person's own."""

    def given(self, word: str, onward: str = "", times: float = 1.0) -> Inputs:
        """Return a word that was given as the input *onward* of a job, multiplied; nothing where it was not given."""
        value = getattr(self.filled.form, word)
        if value is None or word in self.filled.assumed:
            return {}
        origin = self.origins.get(word, YOURS)
        if not isinstance(value, (int, float)):
            return {onward or word: Carried(given=value, origin=origin)}
        band = self.filled.bands.get(word)
        half_width = None if band is None or isinstance(band[0], str) else times * wider_side(band, value)
        return amount(onward or word, times * value, half_width, origin=origin)

    def several(self, *words: str) -> Inputs:
        """Return words that were given under their own names."""
        return {name: value for word in words for name, value in self.given(word).items()}

    @property
    def is_block(self) -> bool:
        """Whether only the sizes are known, so that the casting is taken as a block."""
        form = self.filled.form
        return form.casting_volume_cm3 is None and form.casting_kg is None

    def volume(self, onward: str = "casting_volume_cm3", times: float = 1.0) -> Inputs:
        """Return the volume of *times* castings: as given, from the mass, or that of a block."""
        form = self.filled.form
        if form.casting_volume_cm3 is not None:
            return self.given("casting_volume_cm3", onward, times)
        if form.casting_kg is not None:
            of_mass = self.given("casting_kg", onward, times * 1e6 / METALS[form.metal].solid_kg_m3)
            return {word: replace(carried, origin=OF_MASS) for word, carried in of_mass.items()}
        assert form.box_mm is not None, "the form refuses a casting of unknown size"
        block_cm3 = math.prod(form.box_mm) / 1000
        return amount(onward, times * block_cm3, times * math.sqrt(3) * SIDE_ERROR * block_cm3, origin=OF_SIZES)

    def surface(self) -> Inputs:
        """Return the surface of one casting, its modulus, or both, as given; else the surface of a compact body of its volume and sizes.

        A block of the same proportions is that body, since it freezes late: the times to wait are then rather too long.
        """
        form, known = self.filled.form, self.several("casting_area_cm2", "modulus_mm")
        if known or form.box_mm is None:
            return known
        a, b, c = form.box_mm
        block_cm2, block_cm3 = 2 * (a * b + b * c + c * a) / 100, a * b * c / 1000
        if self.is_block:
            return amount("casting_area_cm2", block_cm2, 2 * SIDE_ERROR * block_cm2, origin=OF_SIZES)
        area_cm2 = block_cm2 * (self.cm3() / block_cm3) ** (2 / 3)
        return amount("casting_area_cm2", area_cm2, COMPACT_ERROR * area_cm2, origin=COMPACT)

    def whole_surface(self, times: float) -> Inputs:
        """Return the surface of *times* castings: as given, from the modulus, or that of a compact body; nothing where it is not known."""
        surface = self.surface()
        if "casting_area_cm2" in surface:
            carried = surface["casting_area_cm2"]
            assert isinstance(carried.given, dict)
            cm2, half_width = carried.given["value"], carried.given.get("doubt")
        elif "modulus_mm" in surface:
            carried = surface["modulus_mm"]
            assert isinstance(carried.given, dict)
            cm2, half_width = 10 * self.cm3() / carried.given["value"], None
        else:
            return {}
        wide = None if half_width is None else times * half_width
        return amount("casting_area_cm2", times * cm2, wide, origin=carried.origin)

    def cm3(self, times: float = 1.0) -> float:
        """Return the volume of *times* castings, in cm³."""
        [carried] = self.volume(times=times).values()
        assert isinstance(carried.given, dict)
        return float(carried.given["value"])

    def from_above(self, times: float) -> Inputs:
        """Return the area of *times* castings as seen from above: as given, or length times width, which is never too small."""
        form = self.filled.form
        if form.projected_area_cm2 is not None:
            return self.given("projected_area_cm2", times=times)
        if form.box_mm is None:
            return {}
        area_cm2 = form.box_mm[0] * form.box_mm[1] / 100
        return amount(
            "projected_area_cm2", times * area_cm2, times * math.sqrt(2) * SIDE_ERROR * area_cm2, origin=OF_SIZES
        )

    def flasks(self) -> Inputs:
        """Return the flasks on hand, as plain data."""
        rows = [dict(row) for row in self.filled.form.flasks or ()]
        return {name: replace(carried, given=rows) for name, carried in self.given("flasks").items()} if rows else {}

    def sizes(self) -> Inputs:
        """Return the three sizes of one casting as they were given."""
        sides = list(self.filled.form.box_mm or ())
        return {name: replace(carried, given=sides) for name, carried in self.given("box_mm").items()}

    def sides(self) -> Inputs:
        """Return length, width and height of one pattern as it lies; nothing where the sizes are not known."""
        names = ("pattern_length_mm", "pattern_width_mm", "pattern_height_mm")
        return {
            name: Carried(given={"value": side, "unit": "mm"}, origin=OF_SIZES)
            for name, side in zip(names, self.filled.form.box_mm or (), strict=False)
        }
