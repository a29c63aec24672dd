"""Sand, the one value that everything is: a bag, a heap, a mix, a mould.

Six masses in kg. `Masses` holds what a sand and a change of one share; `Sand` is never below zero; `Delta` (in `delta`) is a signed change.
Every method returns a new value.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from typing import Self

from sandmix.language.errors import SandmixError


def water_at(dry_kg: float, moisture: float) -> float:
    """Return the water, in kg, in *dry_kg* of dry sand at *moisture*, a fraction of the wet mass below 1: dry · m / (1 − m).

    >>> round(water_at(96.5, 0.035), 9)
    3.5
    """
    return dry_kg * moisture / (1 - moisture)


@dataclass(frozen=True, slots=True, kw_only=True)
class Masses:
    """The masses, in kg, of what a sand is made of, or of what changes in it.

    ``grain_kg`` sand grains; ``live_clay_kg`` clay that bonds, in equivalents of sound foundry bentonite; ``dead_clay_kg`` clay that
    heat has killed; ``other_fines_kg`` silt, dust and the part of a new clay that does not bond; ``organics_kg`` what burns; ``water_kg``.
    """

    grain_kg: float = 0.0
    live_clay_kg: float = 0.0
    dead_clay_kg: float = 0.0
    other_fines_kg: float = 0.0
    organics_kg: float = 0.0
    water_kg: float = 0.0

    def by_part(self) -> dict[str, float]:
        """Return the six masses by their names."""
        return {part: getattr(self, part) for part in PARTS}

    @property
    def dry_kg(self) -> float:
        """All but the water, in kg."""
        return self.grain_kg + self.live_clay_kg + self.dead_clay_kg + self.other_fines_kg + self.organics_kg

    @property
    def wet_kg(self) -> float:
        """The mass with its water, in kg."""
        return self.dry_kg + self.water_kg

    def water_at(self, moisture: float) -> float:
        """Return the water, in kg, that the dry mass holds at *moisture*, a fraction of the wet mass below 1."""
        return water_at(self.dry_kg, moisture)


PARTS = {
    "grain_kg": "sand grains",
    "live_clay_kg": "live clay",
    "dead_clay_kg": "dead clay",
    "other_fines_kg": "other fines",
    "organics_kg": "organics",
    "water_kg": "water",
}
DRY_PARTS = tuple(part for part in PARTS if part != "water_kg")
assert tuple(PARTS) == tuple(part.name for part in fields(Masses))


@dataclass(frozen=True, slots=True, kw_only=True)
class Sand(Masses):
    """A sand: six masses of 0 or more, in kg.

    >>> new = Sand(grain_kg=9, live_clay_kg=0.7, water_kg=0.3)
    >>> round(new.clay_pct_dry, 3), round(new.moisture_pct_wet, 3)
    (7.216, 3.0)
    """

    def __post_init__(self) -> None:
        masses = (
            self.grain_kg, self.live_clay_kg, self.dead_clay_kg, self.other_fines_kg, self.organics_kg, self.water_kg,
        )  # fmt: skip
        if min(masses) >= 0 and math.isfinite(sum(masses)):
            return
        for part in PARTS:
            mass = getattr(self, part)
            if not (math.isfinite(mass) and mass >= 0):
                raise SandmixError(f"A sand can't hold {mass} kg of {PARTS[part]}: a mass is 0 or more.")

    @classmethod
    def lying(
        cls,
        wet_kg: float,
        *,
        moisture_pct_wet: float,
        clay_pct_dry: float = 0.0,
        dead_clay_pct_dry: float = 0.0,
        other_fines_pct_dry: float = 0.0,
    ) -> Self:
        """Return *wet_kg* of sand as it lies, from its moisture (share of wet mass) and its clay and fines (shares of dry mass).

        Raises SandmixError where the shares come to more than the whole.
        """
        water = wet_kg * moisture_pct_wet / 100
        dry = wet_kg - water
        live, dead, fines = (dry * share / 100 for share in (clay_pct_dry, dead_clay_pct_dry, other_fines_pct_dry))
        if live + dead + fines > dry * (1 + 1e-12):
            raise SandmixError("The clay and the fines come to more than the dry sand that holds them.")
        return cls(
            grain_kg=max(0.0, dry - live - dead - fines),
            live_clay_kg=live,
            dead_clay_kg=dead,
            other_fines_kg=fines,
            water_kg=water,
        )

    @classmethod
    def clipped(cls, masses: Masses) -> Self:
        """Return the sand of these masses, each below zero as zero."""
        return cls(
            grain_kg=max(0.0, masses.grain_kg),
            live_clay_kg=max(0.0, masses.live_clay_kg),
            dead_clay_kg=max(0.0, masses.dead_clay_kg),
            other_fines_kg=max(0.0, masses.other_fines_kg),
            organics_kg=max(0.0, masses.organics_kg),
            water_kg=max(0.0, masses.water_kg),
        )

    @property
    def moisture_pct_wet(self) -> float:
        """Water as a share of the wet mass, in percent; 0 for no sand."""
        return _pct(self.water_kg, self.wet_kg)

    @property
    def clay_pct_dry(self) -> float:
        """Live clay as a share of the dry mass, in percent; 0 for no sand."""
        return _pct(self.live_clay_kg, self.dry_kg)

    @property
    def dead_clay_pct_dry(self) -> float:
        """Dead clay as a share of the dry mass, in percent; 0 for no sand."""
        return _pct(self.dead_clay_kg, self.dry_kg)

    @property
    def other_fines_pct_dry(self) -> float:
        """Other fines as a share of the dry mass, in percent; 0 for no sand."""
        return _pct(self.other_fines_kg, self.dry_kg)

    @property
    def dead_fines_pct_dry(self) -> float:
        """Dead clay and other fines as a share of the dry mass, in percent; 0 for no sand."""
        return _pct(self.dead_clay_kg + self.other_fines_kg, self.dry_kg)

    @property
    def washed_pct_dry(self) -> float:
        """What a wash takes (live clay, dead clay and other fines together) as a share of the dry mass, in percent; 0 for no sand."""
        return _pct(self.live_clay_kg + self.dead_clay_kg + self.other_fines_kg, self.dry_kg)

    def __add__(self, other: Sand) -> Sand:
        """Mix: every mass is the sum."""
        return Sand(
            grain_kg=self.grain_kg + other.grain_kg,
            live_clay_kg=self.live_clay_kg + other.live_clay_kg,
            dead_clay_kg=self.dead_clay_kg + other.dead_clay_kg,
            other_fines_kg=self.other_fines_kg + other.other_fines_kg,
            organics_kg=self.organics_kg + other.organics_kg,
            water_kg=self.water_kg + other.water_kg,
        )

    def scaled(self, share: float) -> Sand:
        """Return *share* (0 or more) of every mass."""
        return Sand(
            grain_kg=self.grain_kg * share,
            live_clay_kg=self.live_clay_kg * share,
            dead_clay_kg=self.dead_clay_kg * share,
            other_fines_kg=self.other_fines_kg * share,
            organics_kg=self.organics_kg * share,
            water_kg=self.water_kg * share,
        )

    def less(self, other: Masses) -> Sand:
        """Return what is left when *other* is taken out; a part of which there is too little is zero."""
        return Sand.clipped(
            Masses(
                grain_kg=self.grain_kg - other.grain_kg,
                live_clay_kg=self.live_clay_kg - other.live_clay_kg,
                dead_clay_kg=self.dead_clay_kg - other.dead_clay_kg,
                other_fines_kg=self.other_fines_kg - other.other_fines_kg,
                organics_kg=self.organics_kg - other.organics_kg,
                water_kg=self.water_kg - other.water_kg,
            )
        )

    def wet(self, water_kg: float) -> Sand:
        """Return the sand with so much more water, or less of it below 0; raises SandmixError where that is more than there is."""
        left = self.water_kg + water_kg
        if left < -1e-12 * self.water_kg:
            raise SandmixError(f"{-water_kg} kg of water can't be taken: there are {self.water_kg} kg.")
        return self._with_water(max(0.0, left))

    def at_moisture(self, moisture: float) -> Sand:
        """Return the same dry sand at *moisture*, a fraction of the wet mass below 1."""
        return self._with_water(self.water_at(moisture))

    def _with_water(self, water_kg: float) -> Sand:
        return Sand(
            grain_kg=self.grain_kg,
            live_clay_kg=self.live_clay_kg,
            dead_clay_kg=self.dead_clay_kg,
            other_fines_kg=self.other_fines_kg,
            organics_kg=self.organics_kg,
            water_kg=water_kg,
        )


def _pct(part: float, whole: float) -> float:
    return 100 * part / whole if whole > 0 else 0.0
