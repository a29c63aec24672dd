"""Evaporation from a layer of damp sand: a surface that cools itself, and a dry layer on top that grows.

Symbols: J the water lost for each m² and second, ρ_v the vapour in a m³ of air, h and h_m the transfer of heat and vapour between surface
and air, z the depth of the dry layer, D_eff the diffusivity of vapour through it, k its conductivity, U the heat that comes from below for each
K, R the net radiation, L the heat of evaporation, T_f the temperature of the wet front.

Vapour: J = (ρ_s(T_f) − ρ_v)/(1/h_m + z/D_eff + 1/leak), with h/h_m = ρ c_p Le^(2/3) and h = 5.7 + 3.8 v.
Heat: (T_air + R/h − T_f)/(1/h + z/k) + U (T_below − T_f) = L J: the sun warms the surface. Both together give T_f and J, by Newton's method.
The front moves by w dz/dt = J, where w is the water that a m³ of sand gives up, so t = w ∫ dz/J. Where nothing cools, 1/J is a straight line
in z, 1/J = r0 + r1 z, and t = w (r0 z + r1 z²/2): a quadratic equation in both directions. With cooling it bends a little, so it is solved at a
few depths (``DEPTHS_M``) and taken as straight between them: the time is then within 4 % of the whole integral, and within 12 % in the sun in
cold, damp air.
Sand wetter than ``CRITICAL`` first loses the water above it at the rate of a wet surface, from at most ``CAPILLARY_M`` deep. Moulding sand is
drier, so it starts with the front.
The rate is known only to a factor of 2 each way, 19 times in 20 (``RATE_FACTOR``).
Sources: evaporation, lewis_number, front_model, wind_film, critical_moisture.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

from sandmix.drying.moist_air import (
    ZERO_C_K,
    Air,
    latent_heat_j_kg,
    saturation_growth_per_k,
    saturation_kg_m3,
)
from sandmix.materials.sands_and_clays import QUARTZ_KG_M3

RATE_FACTOR = 2.0
"""The true rate is between this share of the computed rate and so many times it, 19 times in 20 (own choice)."""
LEWIS = 0.86
AIR_J_KGK = 1006.0
MOST_WIND_M_S = 5.0
"""The formula of h is for winds up to this; a stronger wind counts as this."""
CRITICAL = 0.05
"""The water, for each kg of dry sand, above which the surface stays wet."""
CAPILLARY_M = 0.05
"""So deep, a wet surface is fed by the sand below it."""
AIR_DRY = 0.005
"""The water, for each kg of dry sand, that the clay keeps in air (own choice)."""
DRY_W_MK = 0.3
"""Conductivity of dry sand."""
LID_LEAK_M_H = 0.05
"""Air that passes a closed lid, in m³ an hour for each m² of sand (own choice)."""
CLOTH_LEAK_M_H = 1.0
"""The same of sacks, boards or a loose sheet laid on top (own choice)."""
BELOW_W_M2K = 5.0
"""How well heat gets into the layer from what it lies on (own choice: between none and a tray that hangs free)."""
SPREAD_KG_M3 = 1100.0
"""Dry mass of a m³ of damp sand, shovelled and raked out (own choice: between riddled loose and poured dry)."""
DEPTHS_M = (0.003, 0.01, 0.03, 0.1, 0.3)
"""Dry layers at which the rate is solved, on top of a wet surface and the whole layer."""
_NEAR = 0.6
"""A depth of ``DEPTHS_M`` that is nearer to the bottom than this share of it brings nothing."""
_STEPS, _CLOSE_K = 30, 1e-4
_SLOWEST = 1e-3
_HOUR_S = 3600.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Bed:
    """A layer of damp sand: depth in m, moisture as a fraction of the wet mass, dry mass in kg/m³.

    ``below_c`` is the temperature under it (None: that of the air) and ``below_w_m2k`` how much heat comes from there. ``radiation_w_m2`` is
    the net gain from sun and sky. ``leak_m_h`` is what air passes a cover, above 0 (None: open); below a cover there is no wind. Two-sided is a layer
    on a mesh: both faces dry.
    """

    depth_m: float
    moisture: float
    dry_kg_m3: float = SPREAD_KG_M3
    below_c: float | None = None
    below_w_m2k: float = BELOW_W_M2K
    radiation_w_m2: float = 0.0
    leak_m_h: float | None = None
    two_sided: bool = False

    @property
    def porosity(self) -> float:
        """Share of the dry layer that is air."""
        return 1 - self.dry_kg_m3 / QUARTZ_KG_M3

    @property
    def faces(self) -> int:
        """How many faces dry."""
        return 2 if self.two_sided else 1

    @property
    def face_depth_m(self) -> float:
        """The depth that one face dries, in m."""
        return self.depth_m / self.faces

    @property
    def water(self) -> float:
        """The water for each kg of dry sand, in kg."""
        return self.moisture / (1 - self.moisture)

    @property
    def first_kg_m2(self) -> float:
        """What one face loses while it stays wet, in kg/m²: the water above ``CRITICAL``."""
        return self.dry_kg_m3 * max(0.0, self.water - CRITICAL) * min(self.face_depth_m, CAPILLARY_M)

    @property
    def front_kg_m3(self) -> float:
        """The water that a m³ gives up as the front passes, in kg."""
        return self.dry_kg_m3 * max(0.0, min(self.water, CRITICAL) - AIR_DRY)


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingLaw:
    """How fast one face dries: J of the wet surface, in kg/m²s, and ``slowness``: dry layers in m, from 0 up, each with its 1/J in m²s/kg.

    J is 0 or less where the air takes up no water; then ``slowness`` is empty, nothing dries, and below 0 water condenses.
    """

    surface_kg_m2s: float
    slowness: tuple[tuple[float, float], ...]

    def seconds(self, front_kg_m3: float, dry_layer_m: float) -> float:
        """Return the seconds until the dry layer is *dry_layer_m* deep, in sand that gives up *front_kg_m3*; J is above 0.

        >>> law = DryingLaw(surface_kg_m2s=1e-5, slowness=((0.0, 1e5), (0.02, 5e5)))
        >>> round(law.seconds(50.0, 0.01)), round(law.dry_layer_m(50.0, 100_000.0), 9)
        (100000, 0.01)
        """
        total = 0.0
        for (upper, slow), (lower, slower) in pairwise(self.slowness):
            deep = min(lower, dry_layer_m) - upper
            if deep <= 0:
                break
            total += front_kg_m3 * deep * (slow + (slower - slow) * deep / (lower - upper) / 2)
        return total

    def dry_layer_m(self, front_kg_m3: float, seconds: float) -> float:
        """Return how deep the dry layer is after *seconds*, in m: the inverse of `seconds`, at most the depth of the layer."""
        wait = seconds / front_kg_m3
        for (upper, slow), (lower, slower) in pairwise(self.slowness):
            through = (lower - upper) * (slow + slower) / 2
            if wait < through:
                added = (slower - slow) / (lower - upper)
                return upper + 2 * wait / (slow + math.sqrt(slow**2 + 2 * added * wait))
            wait -= through
        return self.slowness[-1][0]

    def times(self, rate: float) -> DryingLaw:
        """Return the law of sand that dries *rate* times as fast."""
        slowness = tuple((depth_m, slow / rate) for depth_m, slow in self.slowness)
        return DryingLaw(surface_kg_m2s=rate * self.surface_kg_m2s, slowness=slowness)

    def lost_kg_m2(self, seconds: float, bed: Bed) -> float:
        """Return what all faces of *bed* have lost after *seconds*, in kg for each m² of floor; below 0 it has gained."""
        if self.surface_kg_m2s <= 0:
            return bed.faces * self.surface_kg_m2s * seconds
        wet = min(bed.first_kg_m2, self.surface_kg_m2s * seconds)
        left_s = seconds - bed.first_kg_m2 / self.surface_kg_m2s
        if left_s <= 0 or bed.front_kg_m3 <= 0:
            return bed.faces * wet
        return bed.faces * (wet + bed.front_kg_m3 * self.dry_layer_m(bed.front_kg_m3, left_s))

    def seconds_to_lose(self, lost_kg_m2: float, bed: Bed) -> float | None:
        """Return the seconds in which *bed* loses *lost_kg_m2* for each m² of floor; None where it never does."""
        face = lost_kg_m2 / bed.faces
        if face <= 0:
            return 0.0
        if self.surface_kg_m2s <= 0 or face > most_kg_m2(bed) / bed.faces * (1 + 1e-12):
            return None
        wet = min(face, bed.first_kg_m2)
        front_m = (face - wet) / bed.front_kg_m3 if face > wet else 0.0
        return wet / self.surface_kg_m2s + self.seconds(bed.front_kg_m3, front_m)


def most_kg_m2(bed: Bed) -> float:
    """Return the most that *bed* can lose to air, in kg for each m² of floor: down to ``AIR_DRY``."""
    return bed.faces * (bed.first_kg_m2 + bed.front_kg_m3 * bed.face_depth_m)


def lost_kg_m2(hours: float, air: Air, bed: Bed) -> float:
    """Return the water that *bed* loses in *hours* of *air*, in kg for each m² of floor, never more than it has.

    Air at 100 % over sand of its own temperature takes nothing. Below 0, water condenses on sand that is colder than the dew point. The true
    value is within a factor of `RATE_FACTOR`. Range: air of 0 to 60 °C, still or up to 5 m/s. Source: evaporation, front_model.

    >>> day = Air(temp_c=20.0, humidity_pct=60.0, wind_m_s=1.0)
    >>> layer = Bed(depth_m=0.03, moisture=0.05)
    >>> round(lost_kg_m2(hours_to_lose(0.5, day, layer), day, layer), 6)
    0.5
    >>> lost_kg_m2(24.0, Air(temp_c=20.0, humidity_pct=100.0), Bed(depth_m=0.03, moisture=0.05))
    0.0
    """
    return drying_law(air, bed).lost_kg_m2(max(0.0, hours) * _HOUR_S, bed)


def hours_to_lose(lost_kg_m2: float, air: Air, bed: Bed) -> float | None:
    """Return the hours in which *bed* loses *lost_kg_m2* for each m² of floor: the inverse of `lost_kg_m2`; None where it never does."""
    seconds = drying_law(air, bed).seconds_to_lose(lost_kg_m2, bed)
    return None if seconds is None else seconds / _HOUR_S


def drying_law(air: Air, bed: Bed) -> DryingLaw:
    """Return how fast one face of *bed* dries in *air*."""
    face = replace(bed, depth_m=0.0, moisture=0.0)
    wet = _lost_through(air, face, 0.0)
    if wet <= 0:
        return DryingLaw(surface_kg_m2s=wet, slowness=())
    slowness = [(0.0, 1 / wet)]
    bottom_m = bed.face_depth_m
    for depth_m in (*(depth for depth in DEPTHS_M if depth < _NEAR * bottom_m), bottom_m):
        lost = _lost_through(air, face, depth_m)
        slowness.append((depth_m, 1 / max(lost, wet * _SLOWEST)))
    return DryingLaw(surface_kg_m2s=wet, slowness=tuple(slowness))


@lru_cache(maxsize=256)
def _lost_through(air: Air, face: Bed, dry_layer_m: float) -> float:
    """The water lost, in kg/m²s, under a dry layer: the same for every depth and moisture of the bed, so a *face* has neither."""
    return front(air, face, dry_layer_m)[0]


def front(air: Air, bed: Bed, dry_layer_m: float) -> tuple[float, float]:
    """Return the water lost, in kg/m²s, and the temperature of the wet front, in °C, under a dry layer of *dry_layer_m*.

    >>> lost, temp_c = front(Air(temp_c=20.0, humidity_pct=60.0, wind_m_s=1.0), Bed(depth_m=0.03, moisture=0.05, below_w_m2k=0.0), 0.0)
    >>> round(86400 * lost, 1), round(temp_c, 1)
    (1.7, 14.8)
    """
    resistance = vapour_resistance_s_m(air, bed, dry_layer_m)
    film = film_w_m2k(air, bed)
    through = 1 / (1 / film + dry_layer_m / DRY_W_MK)
    below = 0.0 if bed.two_sided else bed.below_w_m2k
    below_c = air.temp_c if bed.below_c is None else bed.below_c
    outside = air.vapour_kg_m3
    given = through * (air.temp_c + bed.radiation_w_m2 / film) + below * below_c
    temp_c = max(air.temp_c, given / (through + below))
    for _ in range(_STEPS):
        saturated, cooling = saturation_kg_m3(temp_c), latent_heat_j_kg(temp_c) / resistance
        surplus = given - (through + below) * temp_c - cooling * (saturated - outside)
        step = surplus / (through + below + cooling * saturated * saturation_growth_per_k(temp_c))
        temp_c += step
        if abs(step) < _CLOSE_K:
            break
    lost = (saturation_kg_m3(temp_c) - outside) / resistance
    return (0.0 if abs(lost) <= 1e-9 * outside / resistance else lost), temp_c


def film_w_m2k(air: Air, bed: Bed) -> float:
    """Return the transfer of heat between surface and air, in W/m²K; under a cover there is no wind. Source: wind_film."""
    wind = min(MOST_WIND_M_S, air.wind_m_s) if bed.leak_m_h is None else 0.0
    return 5.7 + 3.8 * wind


def vapour_resistance_s_m(air: Air, bed: Bed, dry_layer_m: float) -> float:
    """Return the resistance to vapour between the wet front and the open air, in s/m: film, dry layer and cover in series."""
    film = film_w_m2k(air, bed) / (air.density_kg_m3 * AIR_J_KGK * math.pow(LEWIS, 2 / 3))
    cover = 0.0 if bed.leak_m_h is None else _HOUR_S / bed.leak_m_h
    return 1 / film + dry_layer_m / through_sand_m2_s(air.temp_c, bed.porosity) + cover


def through_sand_m2_s(temp_c: float, porosity: float) -> float:
    """Return the diffusivity of vapour through dry sand, in m²/s: 0.66 times its porosity times that in air. Source: front_model.

    >>> round(through_sand_m2_s(20.0, 1 / 0.66) * 1e4, 4)
    0.2453
    """
    return 0.66 * porosity * 2.16e-5 * math.pow((temp_c + ZERO_C_K) / ZERO_C_K, 1.8)
