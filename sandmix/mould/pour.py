"""What to melt and what holds the mould shut: charge, crucible, uplift, weights, choke, vents, gas.

Each function names its source. The head is measured from the top of the metal in the pouring cup.
"""

from __future__ import annotations

import math

from sandmix.language.units import GRAVITY_M_S2, KELVIN_AT_0_C

CORE_KG_M3 = 1600.0
CRUCIBLE_FULL_PCT = (75.0, 85.0)
"""How full a crucible can be carried and skimmed. Source: practice."""
DISCHARGE = 0.8
VENT_SPACING_MM = 40.0
VENT_ABOVE_PATTERN_MM = 12.0
FEWEST_VENTS = 4
SOLID_HOLDS = 19.0


def charge_kg(casting_cm3: float, gating: float, solid_kg_m3: float, loss: float, spare: float) -> float:
    """Return the metal to melt, in kg: V (1 + gating) ρ_solid / (1 − loss) · (1 + spare); gating, loss and spare are shares.

    The solid's density, since a fed casting takes its solid mass. Source: mass balance.

    >>> round(charge_kg(500.0, 0.5, 2700.0, 0.03, 0.1), 3)
    2.296
    """
    return casting_cm3 * 1e-6 * (1 + gating) * solid_kg_m3 / (1 - loss) * (1 + spare)


def crucible_fill_pct(charge_kg: float, liquid_kg_m3: float, crucible_l: float) -> float:
    """Return how full the molten charge makes a crucible, in % of its volume to the brim."""
    return 100 * charge_kg / (liquid_kg_m3 * crucible_l / 1000)


def uplift_kg(projected_cm2: float, head_mm: float, liquid_kg_m3: float, core_cm3: float = 0.0) -> float:
    """Return the uplift on the cope, as the kg of the same weight: ρ A h, and V (ρ − ρ_core) for a core that floats.

    A is the projected area of the cavity, runners under the cope included, never its curved surface. Holds for a flat top; where the
    top is lower the metal lifts more. Source: p = ρ g h.

    >>> round(uplift_kg(360.0, 130.0, 2400.0), 1)
    11.2
    """
    floating = core_cm3 * 1e-6 * max(0.0, liquid_kg_m3 - CORE_KG_M3)
    return liquid_kg_m3 * projected_cm2 * 1e-4 * head_mm / 1000 + floating


LEAST_WEIGHTS_KG = 5.0
"""Less than this is not worth putting on: weights or clamps that matter weigh more (own rule)."""


def put_on_kg(high_kg: float) -> float:
    """Return the weights to put on the cope, in kg: the high end of what is needed, rounded up to whole kilograms, at least 5; 0 for 0. Source: own.

    >>> put_on_kg(0.0), put_on_kg(0.3), put_on_kg(12.0), put_on_kg(12.1)
    (0.0, 5.0, 12.0, 13.0)
    """
    return float(max(LEAST_WEIGHTS_KG, math.ceil(high_kg - 1e-9))) if high_kg > 0 else 0.0


def hydrogen_cm3_100g(temperature_c: float) -> float:
    """Return the hydrogen that liquid aluminium can hold at one atmosphere, in cm³ per 100 g: log10 S = 2.72 − 2700/T.

    Measured for pure aluminium from 670 to 850 °C; alloys hold somewhat less or more. Source: talbot_1988.

    >>> round(hydrogen_cm3_100g(720), 3)
    1.003
    """
    return float(10 ** (2.72 - 2700 / (temperature_c + KELVIN_AT_0_C)))


def choke_mm2(charge_kg: float, liquid_kg_m3: float, fill_time_s: float, head_mm: float) -> float:
    """Return the least cross-section of the gating for a filling time of *fill_time_s*, in mm²: m / (ρ t c √(2 g h)), c = 0.8 (from memory).

    Holds for a constant head and a mould filled from the top; filling from below is slower. Source: Torricelli.
    """
    speed_m_s = math.sqrt(2 * GRAVITY_M_S2 * head_mm / 1000)
    return 1e6 * charge_kg / (liquid_kg_m3 * fill_time_s * DISCHARGE * speed_m_s)


def vents(projected_cm2: float) -> int:
    """Return how many vent holes the sand above a casting needs: one for every 40 × 40 mm, at least four. Source: common practice."""
    return max(FEWEST_VENTS, math.ceil(projected_cm2 * 100 / VENT_SPACING_MM**2 - 1e-9))
