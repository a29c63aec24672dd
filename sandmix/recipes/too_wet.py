"""Too wet to pour: the one rule of all jobs, over the sand as it lies and the target.

Above the red limit of the metal the word is *stop*. A likely range that crosses that limit, or a moisture above the amber limit, is *care*.
The point value decides between *stop* and *care*. All limits are shares of the wet mass and from memory (`materials.metals`). They are
for washed sand with bentonite: for sand of another kind none is known, so it is *care* whatever its moisture.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from sandmix.materials.metals import METALS, Metal
from sandmix.maths.statistics import is_above
from sandmix.maths.uncertainty import Band

GO, CARE, STOP = "go", "care", "stop"
WASHED = "washed"
NATURAL = "natural"
LABELS_OF = {NATURAL: "natural_sand", "used": "used_sand"}
"""The label under which *choose* knows each kind of sand whose limits are not known."""
NATURAL_WORKS_PCT = (6.0, 8.0)
"""The moisture at which natural moulding sand usually works, in % of the wet mass (from memory): no stop limit."""
LIMITS = METALS["aluminium"]
"""The metal whose limits apply where none is named: no other metal allows more."""
STRICTEST = METALS["tin_bronze"]
"""A metal with the lowest limits."""


def usual_target_pct_wet(metal: str, sand_kind: str = WASHED) -> float:
    """Return the moisture to aim at where none is given, in % of the wet mass: that of the metal, by its key, or of natural sand."""
    return sum(NATURAL_WORKS_PCT) / 2 if sand_kind == NATURAL else METALS[metal].target_moisture_pct_wet


@dataclass(frozen=True, slots=True, kw_only=True)
class Wetness:
    """How wet the sand as it lies and the target are, in % of the wet mass, against the limits of a metal (None: not known which).

    ``sand_band`` is the 95 % band of the sand's moisture, ``sand_kind`` the kind of sand. What is None is not judged.
    """

    metal: Metal | None = None
    sand_pct_wet: float | None = None
    sand_band: Band | None = None
    target_pct_wet: float | None = None
    sand_kind: str = WASHED

    @property
    def has_limits(self) -> bool:
        """Whether limits are known for this kind of sand."""
        return self.sand_kind == WASHED

    @property
    def limits(self) -> Metal:
        """The metal whose limits apply."""
        return self.metal or LIMITS

    @property
    def sand(self) -> str:
        """The word for the sand as it lies: stop, care or go."""
        if not self.has_limits:
            return CARE
        if self.sand_pct_wet is None:
            return GO
        tone = self._tone(self.sand_pct_wet)
        return CARE if tone == GO and self.may_be_above else tone

    @property
    def may_be_above(self) -> bool:
        """Whether the likely range of the sand's moisture reaches above the red limit."""
        return (
            self.has_limits
            and self.sand_band is not None
            and is_above(self.sand_band[1], self.limits.red_moisture_pct_wet)
        )

    @property
    def target(self) -> str:
        """The word for the target: stop, care or go."""
        return GO if self.target_pct_wet is None or not self.has_limits else self._tone(self.target_pct_wet)

    @property
    def red_pct_wet(self) -> float:
        """The red limit, infinite where none is known."""
        return self.limits.red_moisture_pct_wet if self.has_limits else math.inf

    @property
    def tone(self) -> str:
        """The graver of both words."""
        return max(self.sand, self.target, key=(GO, CARE, STOP).index)

    def _tone(self, moisture_pct_wet: float) -> str:
        if is_above(moisture_pct_wet, self.limits.red_moisture_pct_wet):
            return STOP
        return CARE if is_above(moisture_pct_wet, self.limits.amber_moisture_pct_wet) else GO
