"""When a mould may be opened and its casting handled: the casting, the thickest round section of its gating, and the sand in the flask.

The rules are our own and have no source, apart from the physics behind them. See the method page.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace

from sandmix.cooling.freezing import Case, Cooling

SOLID_MARGIN = 1.5
LEAST_OPEN_S = 600.0
"""No mould is opened before 10 minutes (own rule)."""
HANDLE_C = 60.0
GATING_MM = 25.0
GATING_ENDS = (0.6, 1.6)
"""How thin and how thick the thickest section of a usual gating is, as a share of the default (own rule)."""

CASTING, GATING, LEAST = "casting", "gating", "least"


def gating_mm(metal_kg: float | None) -> float:
    """Return the diameter that the thickest round section of the gating is taken to have, in mm: 25 ∛kg of the casting, at least 25. Source: own.

    >>> gating_mm(0.2), gating_mm(8.0), gating_mm(None)
    (25.0, 50.0, 25.0)
    """
    return float(GATING_MM * max(1.0, metal_kg or 0.0) ** (1 / 3))


def bar_modulus_mm(diameter_mm: float) -> float:
    """Return the modulus of a long round bar, in mm: a quarter of its diameter."""
    return diameter_mm / 4


def ball_modulus_mm(volume_cm3: float) -> float:
    """Return the modulus of a ball, in mm: a third of its radius, M = (V/36π)^(1/3). Nothing else of that volume has so large a modulus.

    >>> round(ball_modulus_mm(36 * math.pi), 9)
    10.0
    """
    return float((1000 * volume_cm3 / (36 * math.pi)) ** (1 / 3))


def sand_depth_mm(volume_cm3: float, modulus_mm: float, shape_n: float, sand_cm3: float) -> float:
    """Return how deep *sand_cm3* lies around a casting, in mm, if it surrounds it evenly: the depth whose shell has that volume.

    A shell to a depth d has A a/(n + 1) ((1 + d/a)^(n + 1) − 1), with a the half thickness (n + 1) M and A = V/M.

    >>> round(sand_depth_mm(100.0, 10.0, 0.0, 500.0), 6), round(sand_depth_mm(36 * math.pi, 10.0, 2.0, 7 * 36 * math.pi), 6)
    (50.0, 30.0)
    """
    power = shape_n + 1
    return float(power * modulus_mm * ((1 + sand_cm3 / volume_cm3) ** (1 / power) - 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """How casting and gating cooled, and the times that follow from it, in s. A time is None where it is after the end of a solution."""

    casting: Cooling
    gating: Cooling

    @property
    def casting_s(self) -> float | None:
        """When the casting's middle has fallen to half its solidus in °C."""
        return cool_s(self.casting)

    @property
    def gating_s(self) -> float | None:
        """When the gating may be opened by itself: solid with a margin, and its middle at half its solidus in °C."""
        return latest((cool_s(self.gating), solid_s(self.gating)))

    @property
    def open_s(self) -> float | None:
        """When the mould may be opened: the latest of both, each solid with a margin and its middle at half its solidus, and 10 min."""
        return latest((self.casting_s, solid_s(self.casting), self.gating_s, LEAST_OPEN_S))

    @property
    def decided_by(self) -> str:
        """What decides the opening time: the casting, the gating, or the least time."""
        opened, gating = self.open_s, self.gating_s
        if opened is None or opened != LEAST_OPEN_S:
            return GATING if gating is not None and gating == opened else CASTING
        return LEAST

    def layer_c(self, burns: Cooling, time_s: float) -> float:
        """Return the mean temperature of the dried sand at *time_s*, in °C: the hottest of casting, gating, and what *burns* the most."""
        return max(cooling.at_s(cooling.dried_c, time_s) for cooling in (burns, self.casting, self.gating))


def cool_s(cooling: Cooling) -> float | None:
    """Return when the middle has fallen to half the solidus in °C, in s."""
    return cooling.middle_below_s(cooling.case.metal.solidus_c / 2)


def solid_s(cooling: Cooling) -> float | None:
    """Return when the metal is solid with a margin, in s: 1.5 times the freezing time."""
    return None if cooling.freeze_s is None else SOLID_MARGIN * cooling.freeze_s


def bar(case: Case, diameter_mm: float) -> Case:
    """Return the case of a long round bar, poured like *case* into sand that is deeper than the heat."""
    return replace(case, shape_n=1.0, modulus_mm=bar_modulus_mm(diameter_mm), wall_mm=None)


def ball(case: Case, volume_cm3: float, sand_cm3: float) -> Case:
    """Return the case of a ball of the same volume as the casting of *case*, in the middle of a ball of the flask's sand."""
    modulus_mm = ball_modulus_mm(volume_cm3)
    wall_mm = sand_depth_mm(volume_cm3, modulus_mm, 2.0, sand_cm3)
    return replace(case, shape_n=2.0, modulus_mm=modulus_mm, wall_mm=wall_mm)


def latest(times: Iterable[float | None]) -> float | None:
    """Return the latest of the times, or None where one of them is never reached."""
    found = 0.0
    for time_s in times:
        if time_s is None:
            return None
        found = max(found, time_s)
    return found


def earliest(times: Iterable[float | None]) -> float | None:
    """Return the earliest of the times that are reached, or None."""
    return min((time_s for time_s in times if time_s is not None), default=None)
