"""Whether the metal gets everywhere before it stops: the thinnest wall as a plate that loses its heat to damp sand.

Two times count. *Flow stops* when so much of the metal is solid that the rest no longer moves. *Frozen* is when all of it is solid. Both are
from the same solution of the heat as in *After the pour*, but with the contact of filling: liquid metal lies close to the sand, so that the
contact is 600 W/m²K or better, up to perfect. The much lower contacts that were measured later, beside metal that shrank away, do not count.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from sandmix.cooling.cooling import cool
from sandmix.cooling.freezing import ROUGH, Case, between
from sandmix.materials.metals import Thermal
from sandmix.materials.sands_and_clays import HEAT_START_C, SANDS_FOR_HEAT

FILLING_W_M2K = 600.0
"""The least contact while the mould fills. Source: fluidity_memory."""
SOLID_SHARE = 0.35
SOLID_SHARES = (0.2, 0.5)
"""The share of solid at which metal stops flowing, and its range. Source: fluidity_memory."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stops:
    """When the metal in the thinnest wall stops flowing, and when it is frozen through, in s after it got there."""

    flow_s: float
    frozen_s: float


def stops(
    metal: Thermal,
    pour_temp_c: float,
    wall_mm: float,
    moisture_pct_wet: float,
    *,
    gap_m2k_w: float = 0.0,
    solid_share: float = SOLID_SHARE,
) -> Stops:
    """Return when metal in a wall of *wall_mm* stops flowing and when it is frozen through.

    *gap_m2k_w* is the resistance between metal and sand, 0 for perfect contact and 1/600 for the least contact while filling. The flow stops
    when the metal has lost its superheat and *solid_share* of its latent heat. Holds for a plate with sand on both sides that is full at once; in
    truth fresh hot metal follows and warms the sand, which helps. Source: heat, and fluidity_memory for the share.
    """
    modulus_mm = wall_mm / 2
    water = moisture_pct_wet / (100 - moisture_pct_wet)
    case = Case(
        metal=metal,
        pour_temp_c=max(pour_temp_c, metal.liquidus_c),
        sand=SANDS_FOR_HEAT["a"],
        water=water,
        shape_n=0.0,
        modulus_mm=modulus_mm,
        contact_w_m2k=1 / gap_m2k_w if gap_m2k_w > 0 else math.inf,
    )
    cooling = cool(case, ROUGH)
    kg_m2, poured_j_kg = metal.solid_kg_m3 * modulus_mm / 1000, metal.poured_j_kg(case.pour_temp_c)
    lost_j_kg = metal.liquid_j_kgk * (case.pour_temp_c - metal.liquidus_c) + solid_share * metal.latent_j_kg
    left_j_m2 = kg_m2 * (poured_j_kg - lost_j_kg)
    frozen_s = cooling.times_s[-1] if cooling.freeze_s is None else cooling.freeze_s
    times_s, metal_j_m2 = cooling.times_s, cooling.metal_j_m2
    at = max(1, next(at for at, metal_j in enumerate(metal_j_m2) if metal_j <= left_j_m2))
    flow_s = between(left_j_m2, metal_j_m2[at - 1], metal_j_m2[at], times_s[at - 1], times_s[at])
    return Stops(flow_s=min(max(flow_s, 0.0), frozen_s), frozen_s=frozen_s)


def flow_length_m(
    metal: Thermal, density_kg_m3: float, pour_temp_c: float, wall_mm: float, speed_m_s: float, solid_share: float
) -> float:
    """Return how far metal flows into a thin wall, in m: v ρ M (k L + c ΔT)/(h (T_m − T_0)), M = T/2, h = 600 W/m²K.

    It leaves out how the sand warms up, and so it is only compared with the other figures. Source: fluidity_memory.

    >>> from sandmix.materials.metals import thermal
    >>> round(flow_length_m(thermal("aluminium"), 2370.0, 720.0, 5.0, 0.5, 0.3), 2)
    1.47
    """
    heat_j_kg = solid_share * metal.latent_j_kg + metal.liquid_j_kgk * max(0.0, pour_temp_c - metal.liquidus_c)
    return speed_m_s * density_kg_m3 * wall_mm / 2000 * heat_j_kg / (FILLING_W_M2K * (metal.liquidus_c - HEAT_START_C))
