"""Moist air: vapour pressure, vapour density, humidity ratio, dew point, wet bulb and density.

Symbols: t the temperature in °C, p_s the saturation pressure over water, p_v the pressure of the vapour in the air, P that of the air, W the mass
of vapour for each mass of dry air. Saturation: p_s = 610.8 exp(17.27 t/(t + 237.3)) Pa. Of the short formulas compared on the method page
it is the nearest to the steam tables from 0 to 60 °C, within 0.12 %. Below 0 °C it is over water, not ice.
Sources: tetens_fao56 for saturation, moist_air for the rest.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

SEA_LEVEL_PA = 101_325.0
VAPOUR_J_KGK = 461.5
DRY_AIR_J_KGK = 287.05
MASS_RATIO = 0.62198
"""Molar mass of water over that of dry air."""
ZERO_C_K = 273.15
_P0_PA, _A, _B_C = 610.8, 17.27, 237.3
_WET_BULB_STEPS, _COLDEST_C = 60, -60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Air:
    """The air over the sand: temperature in °C (0 to 60), relative humidity in % (0 to 100), wind in m/s, pressure in Pa."""

    temp_c: float
    humidity_pct: float
    wind_m_s: float = 0.0
    pressure_pa: float = SEA_LEVEL_PA

    @property
    def vapour_pa(self) -> float:
        """The pressure of the vapour in the air, in Pa."""
        return self.humidity_pct / 100 * saturation_pa(self.temp_c)

    @property
    def vapour_kg_m3(self) -> float:
        """The vapour in a cubic metre of the air, in kg."""
        return vapour_kg_m3(self.vapour_pa, self.temp_c)

    @property
    def humidity_ratio(self) -> float:
        """The vapour for each kg of dry air, in kg."""
        return humidity_ratio(self.vapour_pa, self.pressure_pa)

    @property
    def density_kg_m3(self) -> float:
        """The density of the moist air, in kg/m³: that of the dry air in it and that of the vapour.

        >>> round(Air(temp_c=25.0, humidity_pct=50.0).density_kg_m3, 2)
        1.18
        """
        dry_pa = self.pressure_pa - self.vapour_pa
        return dry_pa / (DRY_AIR_J_KGK * (self.temp_c + ZERO_C_K)) + self.vapour_kg_m3

    @property
    def dew_point_c(self) -> float | None:
        """The temperature at which the air is saturated when it cools, in °C; None for air without vapour."""
        return dew_point_c(self.vapour_pa)

    @property
    def wet_bulb_c(self) -> float:
        """The psychrometric wet-bulb temperature, in °C; see `wet_bulb_c`."""
        return wet_bulb_c(self)


def saturation_pa(temp_c: float) -> float:
    """Return the saturation pressure of water vapour over water at *temp_c*, in Pa. Source: tetens_fao56.

    >>> round((saturation_pa(25.1) + saturation_pa(19.1)) / 2000, 4)
    2.6989
    """
    return _P0_PA * math.exp(_A * temp_c / (temp_c + _B_C))


def saturation_kg_m3(temp_c: float) -> float:
    """Return the vapour in a cubic metre of saturated air at *temp_c*, in kg."""
    return vapour_kg_m3(saturation_pa(temp_c), temp_c)


def saturation_growth_per_k(temp_c: float) -> float:
    """Return by which share the vapour density of saturated air grows with each K, per K.

    >>> round(saturation_growth_per_k(20.0), 3)
    0.058
    """
    return _A * _B_C / (temp_c + _B_C) ** 2 - 1 / (temp_c + ZERO_C_K)


def vapour_kg_m3(vapour_pa: float, temp_c: float) -> float:
    """Return the density of vapour of *vapour_pa* at *temp_c*, in kg/m³, as an ideal gas."""
    return vapour_pa / (VAPOUR_J_KGK * (temp_c + ZERO_C_K))


def humidity_ratio(vapour_pa: float, pressure_pa: float = SEA_LEVEL_PA) -> float:
    """Return the vapour for each kg of dry air, in kg; *vapour_pa* is below *pressure_pa*."""
    return MASS_RATIO * vapour_pa / (pressure_pa - vapour_pa)


def dew_point_c(vapour_pa: float) -> float | None:
    """Return the temperature at which vapour of *vapour_pa* is saturated, in °C; None where there is no vapour.

    >>> round(dew_point_c(0.5 * saturation_pa(25.0)), 1), dew_point_c(0.0)
    (13.9, None)
    """
    if vapour_pa <= 0:
        return None
    logarithm = math.log(vapour_pa / _P0_PA)
    return _B_C * logarithm / (_A - logarithm)


def latent_heat_j_kg(temp_c: float) -> float:
    """Return the heat that evaporates a kg of water at *temp_c*, in J."""
    return 2.501e6 - 2361.0 * temp_c


def wet_bulb_c(air: Air) -> float:
    """Return the psychrometric wet-bulb temperature of *air*, in °C, by bisection between its temperature and −60 °C.

    W = ((2501 − 2.326 t*) W_s(t*) − 1.006 (t − t*))/(2501 + 1.86 t − 4.186 t*), for a wet bulb t* above 0 °C. Source: moist_air.

    >>> round(wet_bulb_c(Air(temp_c=25.0, humidity_pct=50.0)), 1)
    17.9
    """
    low, high = _COLDEST_C, air.temp_c
    for _ in range(_WET_BULB_STEPS):
        middle = (low + high) / 2
        if _ratio_at_wet_bulb(air, middle) > air.humidity_ratio:
            high = middle
        else:
            low = middle
    return high


def _ratio_at_wet_bulb(air: Air, bulb_c: float) -> float:
    saturated = humidity_ratio(saturation_pa(bulb_c), air.pressure_pa)
    heat = (2501 - 2.326 * bulb_c) * saturated - 1.006 * (air.temp_c - bulb_c)
    return heat / (2501 + 1.86 * air.temp_c - 4.186 * bulb_c)
