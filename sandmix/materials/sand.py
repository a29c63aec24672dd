"""Sand, the one value that everything is: a bag, a heap, a mix, a mould, and what falls through the riddle.

Six masses in kg. Every verb returns new values and accounts for every gram: what went in is what came out and what was lost.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from typing import Self

from sandmix.language.errors import SandmixError


@dataclass(frozen=True, slots=True, kw_only=True)
class Sand:
    """Masses, in kg, of what a sand is made of.

    ``grain_kg`` sand grains; ``live_clay_kg`` clay that bonds, in equivalents of sound foundry bentonite; ``dead_clay_kg`` clay that
    heat has killed; ``other_fines_kg`` silt, dust and what a new clay brings as inactive; ``organics_kg`` what burns; ``water_kg``.

    >>> new = Sand(grain_kg=9, live_clay_kg=0.7, water_kg=0.3)
    >>> round(new.clay_pct_dry, 3), round(new.moisture_pct_wet, 3)
    (7.216, 3.0)
    """

    grain_kg: float = 0.0
    live_clay_kg: float = 0.0
    dead_clay_kg: float = 0.0
    other_fines_kg: float = 0.0
    organics_kg: float = 0.0
    water_kg: float = 0.0

    def __post_init__(self) -> None:
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

    @property
    def dry_kg(self) -> float:
        """All but the water, in kg."""
        return self.grain_kg + self.live_clay_kg + self.dead_clay_kg + self.other_fines_kg + self.organics_kg

    @property
    def wet_kg(self) -> float:
        """The mass as it lies, in kg."""
        return self.dry_kg + self.water_kg

    @property
    def moisture_pct_wet(self) -> float:
        """Water as a share of the wet mass, in percent; 0 for no sand."""
        return _pct(self.water_kg, self.wet_kg)

    @property
    def clay_pct_dry(self) -> float:
        """Live clay as a share of the dry mass, in percent; 0 for no sand."""
        return _pct(self.live_clay_kg, self.dry_kg)

    @property
    def dead_fines_pct_dry(self) -> float:
        """Dead clay and other fines as a share of the dry mass, in percent; 0 for no sand."""
        return _pct(self.dead_clay_kg + self.other_fines_kg, self.dry_kg)

    @property
    def washed_pct_dry(self) -> float:
        """What a wash takes, live clay, dead clay and other fines together, as a share of the dry mass in percent; 0 for no sand."""
        return _pct(self.live_clay_kg + self.dead_clay_kg + self.other_fines_kg, self.dry_kg)

    def __add__(self, other: Sand) -> Sand:
        """Mix: every mass is the sum."""
        return Sand(**{part: getattr(self, part) + getattr(other, part) for part in PARTS})

    def scaled(self, share: float) -> Sand:
        """Return *share* (0 or more) of every mass."""
        return Sand(**{part: getattr(self, part) * share for part in PARTS})

    def take(self, wet_kg: float) -> tuple[Sand, Sand]:
        """Return what is taken and what is left when *wet_kg* is shovelled off as it lies; raises SandmixError beyond what is there."""
        self._has(wet_kg, self.wet_kg, "sand")
        share = wet_kg / self.wet_kg if wet_kg else 0.0
        taken = self.scaled(min(1.0, share))
        return taken, self._less(taken)

    discard = take

    def wet(self, water_kg: float) -> Sand:
        """Add water."""
        return self + Sand(water_kg=water_kg)

    def dry(self, water_kg: float) -> tuple[Sand, Sand]:
        """Return the sand when *water_kg* has gone off, and that water; raises SandmixError beyond what is there."""
        self._has(water_kg, self.water_kg, "water")
        vapour = Sand(water_kg=min(water_kg, self.water_kg))
        return self._less(vapour), vapour

    def burn(self, live_share: float, organics_share: float = 0.0) -> tuple[Sand, Sand]:
        """Return the sand when heat has killed *live_share* of its live clay and burnt *organics_share*, and the gas that left.

        Killed clay stays as dead clay of the same mass: its bound water, some 5 % of it, is not counted as lost.
        """
        for share in (live_share, organics_share):
            if not 0 <= share <= 1:
                raise SandmixError(f"A share of {share} can't burn: it is 0 to 1.")
        killed = self.live_clay_kg * live_share
        gas = Sand(organics_kg=self.organics_kg * organics_share)
        burnt = Sand(
            grain_kg=self.grain_kg,
            live_clay_kg=self.live_clay_kg - killed,
            dead_clay_kg=self.dead_clay_kg + killed,
            other_fines_kg=self.other_fines_kg,
            organics_kg=self.organics_kg - gas.organics_kg,
            water_kg=self.water_kg,
        )
        return burnt, gas

    def riddle(self, lumps_share: float, dust_share: float = 0.0) -> tuple[Sand, Sand]:
        """Return what falls through the riddle and what does not come back: lumps of the whole, and dust of the fines alone."""
        for share in (lumps_share, dust_share):
            if not 0 <= share <= 1:
                raise SandmixError(f"A share of {share} can't be riddled out: it is 0 to 1.")
        lumps = self.scaled(lumps_share)
        rest = self._less(lumps)
        dust = Sand(
            live_clay_kg=rest.live_clay_kg * dust_share,
            dead_clay_kg=rest.dead_clay_kg * dust_share,
            other_fines_kg=rest.other_fines_kg * dust_share,
        )
        return rest._less(dust), lumps + dust

    def _less(self, other: Sand) -> Sand:
        return Sand(**{part: max(0.0, getattr(self, part) - getattr(other, part)) for part in PARTS})

    @staticmethod
    def _has(wanted_kg: float, there_kg: float, what: str) -> None:
        if not 0 <= wanted_kg <= there_kg * (1 + 1e-12):
            raise SandmixError(f"{wanted_kg} kg of {what} can't be taken: there are {there_kg} kg.")


PARTS = {
    "grain_kg": "sand grains",
    "live_clay_kg": "live clay",
    "dead_clay_kg": "dead clay",
    "other_fines_kg": "other fines",
    "organics_kg": "organics",
    "water_kg": "water",
}
assert tuple(PARTS) == tuple(part.name for part in fields(Sand))


def _pct(part: float, whole: float) -> float:
    return 100 * part / whole if whole > 0 else 0.0
