"""How fast metal may come out of a gate before its skin breaks, and how turbulent it flows."""

from __future__ import annotations

import math

from sandmix.language.units import GRAVITY_M_S2


def limit_m_s(tension_n_m: float, density_kg_m3: float, gravity_m_s2: float = GRAVITY_M_S2) -> float:
    """Return the speed at which the surface of a stream breaks, in m/s: 2 (γ g/ρ)^(1/4).

    The push of the stream ρ v²/2 equals what the surface holds back, 2 γ/r, with the radius of a drop that lies flat, r = √(γ/(ρ g)).
    Holds for a clean surface; a thick skin holds more at first and does more harm when it breaks. Source: campbell_turbulence for the balance.

    >>> round(limit_m_s(0.914, 2385.0, 9.81), 3)
    0.495
    """
    return float(2 * (tension_n_m * gravity_m_s2 / density_kg_m3) ** 0.25)


def reynolds(speed_m_s: float, area_cm2: float, density_kg_m3: float, viscosity_mpa_s: float) -> float:
    """Return the Reynolds number ρ v d/µ in a round channel of *area_cm2*. A flat channel of the same area has a smaller one.

    Below 2000 metal flows in layers, above 20 000 it mixes severely. Source: reynolds_memory.

    >>> round(reynolds(0.5, 0.7854, 2370.0, 1.1), -2)
    10800.0
    """
    diameter_m = math.sqrt(4 * area_cm2 * 1e-4 / math.pi)
    return density_kg_m3 * speed_m_s * diameter_m / (viscosity_mpa_s / 1000)


def thinnest_mm(tension_n_m: float, density_kg_m3: float, head_mm: float, gravity_m_s2: float = GRAVITY_M_S2) -> float:
    """Return the thinnest wall that a head of metal can push into, in mm: 2 γ/(ρ g h).

    The curved front of the metal holds back as much as a head of 2 γ/(ρ g T) presses. Holds for sand that metal does not wet, and for a
    clean surface; a skin of oxide holds back more. Source: derived, from surface tension alone.

    >>> round(thinnest_mm(0.914, 2370.0, 100.0), 2)
    0.79
    """
    return 1e6 * 2 * tension_n_m / (density_kg_m3 * gravity_m_s2 * head_mm)
