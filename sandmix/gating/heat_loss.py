"""How much temperature the metal loses in crucible and ladle, between furnace and mould.

The open surface radiates and warms the air above it. The wall takes about as much again, and nothing better is known, so that its share has a
wide range. The stream and the gating cool the metal further; that is not part of it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from sandmix.language.units import GRAVITY_M_S2, KELVIN_AT_0_C
from sandmix.materials.sands_and_clays import HEAT_START_C

STEFAN_BOLTZMANN = 5.670374e-8
WALL_SHARE = 1.0
WALL_SHARES = (0.5, 2.0)
"""The loss through the wall as a share of that from the surface, and its range (own choice)."""
_STEPS = 60
_WALK_STEPS = 400
_HOTTEST_C = 3000.0
"""Backwards in time a small pot would become endlessly hot: no metal here is hotter than this."""
_PRANDTL = 0.70
_NUSSELT = 0.15
"""Turbulent free convection above a level surface, Nu = 0.15 Ra^(1/3). Source: convection_memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pot:
    """Metal in a crucible or ladle: its inside diameter at the surface, the metal's mass and specific heat, emissivity, and the wall's share."""

    diameter_mm: float
    mass_kg: float
    liquid_j_kgk: float
    emissivity: float
    wall_share: float = WALL_SHARE

    def loss_c_s(self, metal_c: float) -> float:
        """Return how fast the metal cools at *metal_c*, in K/s: A (radiation + convection) (1 + wall share)/(m c)."""
        area_m2 = math.pi * (self.diameter_mm / 1000) ** 2 / 4
        lost_w = area_m2 * (radiation_w_m2(metal_c, self.emissivity) + convection_w_m2(metal_c))
        return lost_w * (1 + self.wall_share) / (self.mass_kg * self.liquid_j_kgk)

    def after(self, metal_c: float, minutes: float) -> float:
        """Return the temperature after *minutes*, in °C; never below that of the air.

        >>> pot = Pot(diameter_mm=120.0, mass_kg=3.2, liquid_j_kgk=1180.0, emissivity=0.3)
        >>> round(pot.after(750.0, 2.0))
        732
        """
        found = self._walked(metal_c, HEAT_START_C, minutes)
        return HEAT_START_C if found is None else found

    def before(self, metal_c: float, minutes: float) -> float | None:
        """Return how hot the metal must have been *minutes* ago, in °C; None where that is above 3000 °C.

        >>> pot = Pot(diameter_mm=120.0, mass_kg=3.2, liquid_j_kgk=1180.0, emissivity=0.3)
        >>> round(pot.before(pot.after(750.0, 2.0), 2.0), 1)
        750.0
        """
        return self._walked(metal_c, _HOTTEST_C, minutes)

    def _walked(self, from_c: float, to_c: float, minutes: float) -> float | None:
        """The temperature that is *minutes* away from *from_c* on the way to *to_c*, in equal steps of temperature; None where it is beyond."""
        step, left_s = (to_c - from_c) / _WALK_STEPS, 60 * minutes
        for at in range(_WALK_STEPS):
            rate = self.loss_c_s(from_c + (at + 0.5) * step)
            if rate * left_s <= abs(step):
                return from_c + step * (at + rate * left_s / abs(step)) if step else from_c
            left_s -= abs(step) / rate
        return None

    def minutes_until(self, metal_c: float, least_c: float) -> float:
        """Return how many minutes the metal takes from *metal_c* to *least_c*; 0 where it is not hotter than that.

        Each of 60 equal steps of temperature takes its time at its middle.
        """
        step = max(0.0, metal_c - least_c) / _STEPS
        if not step:
            return 0.0
        return sum(step / self.loss_c_s(metal_c - (at + 0.5) * step) for at in range(_STEPS)) / 60


def radiation_w_m2(metal_c: float, emissivity: float) -> float:
    """Return what a surface radiates, less what it gets back from a room of 20 °C, in W/m²: ε σ (T⁴ − T₀⁴). Source: stefan_boltzmann.

    >>> round(radiation_w_m2(750.0, 0.3) / 1000, 1)
    18.5
    """
    hot, cold = metal_c + KELVIN_AT_0_C, HEAT_START_C + KELVIN_AT_0_C
    return float(emissivity * STEFAN_BOLTZMANN * (hot**4 - cold**4))


def convection_w_m2(metal_c: float) -> float:
    """Return what still air takes from a level hot surface, in W/m²: Nu = 0.15 Ra^(1/3), at any size. Source: convection_memory.

    The air has the properties of the mean temperature of surface and room: viscosity after Sutherland, specific heat on the straight line through
    1030 J/kgK at 500 K and 1141 J/kgK at 1000 K, and a Prandtl number of 0.70.

    >>> round(convection_w_m2(750.0) / 1000, 1)
    6.9
    """
    warmer = max(0.0, metal_c - HEAT_START_C)
    film = (metal_c + HEAT_START_C) / 2 + KELVIN_AT_0_C
    viscosity = 1.458e-6 * film**1.5 / (film + 110.4)
    kinematic = viscosity / (353.0 / film)
    conductivity = viscosity * (919.0 + 0.222 * film) / _PRANDTL
    film_w_m2k = _NUSSELT * conductivity * (GRAVITY_M_S2 * warmer / film * _PRANDTL / kinematic**2) ** (1 / 3)
    return float(film_w_m2k * warmer)
