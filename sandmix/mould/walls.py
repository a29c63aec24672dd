"""The load on the wall of a flask, how far the wall bends, and what holds it: ties, clamps, bars.

Each wall is taken as a simply supported beam of plywood from corner to corner, with nothing else to hold it. A real wall is screwed at the
corners and rests on its board, and bends much less. So all figures here err on the high side.
Source: beam theory; the pressures are our own upper limits, see each function.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from sandmix.language.units import GRAVITY_M_S2
from sandmix.mould.flask import Flask

PLYWOOD_N_MM2 = 7000.0
"""Bending stiffness of plywood: 6861 to 8979 measured on five kinds in one laboratory (plywood_stiffness); a low figure bends more."""
PLYWOOD_KG_M3 = 600.0
WALL_MM = 18.0
"""Thickness of the walls where none is given (common practice)."""
CUP_MM = 30.0
"""Height of the pouring cup on the cope (own choice)."""
BLOW_N = 500.0
"""A hard blow with a hand rammer, as a steady force (own choice)."""
AT_REST = 0.5
"""Share of a pressure in sand that acts sideways: 1 − sin 30° (jaky)."""
DEFLECTION_LIMIT = 1 / 360
"""Of the span, usual for formwork for concrete (from memory)."""
MOST_TIES = 20
BARS_ABOVE_MM = 350.0
"""A cope longer than this needs bars (common practice)."""
BAY_MM = 180.0
"""The most between two bars (own choice)."""
BAR_FROM_PATTERN_MM = 19.0
"""The least from a bar to the pattern: 3/4 inch, read for bars of the cheek (mechanical_processes) and used for the cope too (own choice)."""
FILLER_FROM_CAVITY_MM = 50.0
FOUR_CLAMPS_KG = 25.0


@dataclass(frozen=True, slots=True, kw_only=True)
class WallLoad:
    """The load on one wall: pressure of the metal in kPa, a blow of the rammer in N, and how far the wall bends under each, in mm."""

    metal_kpa: float
    blow_n: float
    metal_mm: float
    blow_mm: float

    @property
    def deflection_mm(self) -> float:
        """The larger of the two, since ramming is over when the metal comes."""
        return max(self.metal_mm, self.blow_mm)


def metal_kpa(depth_mm: float, liquid_kg_m3: float) -> float:
    """Return the pressure of liquid metal *depth_mm* below its top, in kPa: ρ g h. Source: p = ρ g h.

    It is taken as if the sand passed all of it on to the wall; rammed sand passes on less.

    >>> round(metal_kpa(200.0, 2400.0), 2)
    4.71
    """
    return liquid_kg_m3 * GRAVITY_M_S2 * depth_mm / 1e6


def deflection_mm(span_mm: float, height_mm: float, thick_mm: float, *, kpa: float = 0.0, blow_n: float = 0.0) -> float:
    """Return how far a plywood wall bends at its middle, in mm: 5 q L⁴/(384 E I) under a pressure, F L³/(48 E I) under a force there.

    I = height × thick³/12, q = pressure × height; simply supported. Holds for small deflections. Source: beam.

    >>> round(deflection_mm(300.0, 100.0, 18.0, kpa=4.71), 3)
    0.146
    """
    stiffness = PLYWOOD_N_MM2 * height_mm * thick_mm**3 / 12
    return (5 * kpa / 1000 * height_mm * span_mm**4 / 384 + blow_n * span_mm**3 / 48) / stiffness


def wall_load(flask: Flask, thick_mm: float, liquid_kg_m3: float, ties: int = 0) -> WallLoad:
    """Return the load on the long wall of the half that bends most, with *ties* spread along it.

    The metal stands in a cup 30 mm above the cope; its pressure is taken at the middle of the half. Source: own, with the formulas named above.
    """
    span = flask.longest_mm / (ties + 1)
    loads = []
    for depth, head in _halves(flask):
        pressure = metal_kpa(head, liquid_kg_m3)
        loads.append(
            WallLoad(
                metal_kpa=pressure,
                blow_n=AT_REST * BLOW_N,
                metal_mm=deflection_mm(span, depth, thick_mm, kpa=pressure),
                blow_mm=deflection_mm(span, depth, thick_mm, blow_n=AT_REST * BLOW_N),
            )
        )
    return max(loads, key=lambda each: each.deflection_mm)


def _halves(flask: Flask) -> list[tuple[float, float]]:
    """The depth of each half, and the head of metal at its middle; on a cope stands a cup."""
    cup = CUP_MM if flask.cope_depth_mm else 0.0
    halves = [(flask.drag_depth_mm, cup + flask.cope_depth_mm + flask.drag_depth_mm / 2)]
    return [*halves, (flask.cope_depth_mm, cup + flask.cope_depth_mm / 2)] if flask.cope_depth_mm else halves


def highest_kpa(flask: Flask, liquid_kg_m3: float) -> float:
    """Return the higher pressure of the metal at the middle of a half, in kPa; that half need not be the one that bends most.

    >>> round(highest_kpa(Flask(length_mm=450, width_mm=330, drag_depth_mm=140, cope_depth_mm=60), 2370.0), 2)
    3.72
    """
    return max(metal_kpa(head, liquid_kg_m3) for _, head in _halves(flask))


def ties(flask: Flask, thick_mm: float, liquid_kg_m3: float) -> int:
    """Return how many cleats or clamps across the flask keep the deflection of its long wall to 1/360 of the free span; 20 at most.

    Source: memory (the limit), own (the load).
    """
    for count in range(MOST_TIES):
        if (
            wall_load(flask, thick_mm, liquid_kg_m3, count).deflection_mm
            <= flask.longest_mm / (count + 1) * DEFLECTION_LIMIT
        ):
            return count
    return MOST_TIES


def clamps(both_kg: float) -> int:
    """Return how many clamps hold the halves and boards when they are turned over: two, four above 25 kg. Source: own."""
    return 4 if both_kg > FOUR_CLAMPS_KG else 2


def bars(flask: Flask) -> int:
    """Return how many bars the cope needs across its width: none up to 350 mm, else one every 180 mm or closer. Source: practice, own."""
    if not flask.cope_depth_mm or flask.longest_mm <= BARS_ABOVE_MM:
        return 0
    return math.ceil(flask.longest_mm / BAY_MM - 1e-9) - 1


def wood_kg(flask: Flask, thick_mm: float) -> float:
    """Return the mass of the walls and one bottom board of plywood, in kg, at 600 kg/m³ (from memory).

    >>> inside = Flask(length_mm=300, width_mm=300, drag_depth_mm=100, cope_depth_mm=100)
    >>> round(wood_kg(inside, 18.0), 2)
    3.97
    """
    around = 2 * (flask.length_mm + 2 * thick_mm) + 2 * flask.width_mm
    board = (flask.length_mm + 2 * thick_mm) * (flask.width_mm + 2 * thick_mm)
    volume = thick_mm * (around * (flask.drag_depth_mm + flask.cope_depth_mm) + board)
    return volume * 1e-9 * PLYWOOD_KG_M3


def filler_room_l(flask: Flask, cavity_mm: tuple[float, float, float]) -> float:
    """Return the most that filler blocks can take up, in litres: all that is at least 50 mm from the cavities, taken together as a box.

    *cavity_mm* is that box: length, width and height. Source: practice (50 mm).
    """
    depth = flask.drag_depth_mm + flask.cope_depth_mm
    kept = 1.0
    for inside, cavity in zip((flask.length_mm, flask.width_mm, depth), cavity_mm, strict=True):
        kept *= min(inside, cavity + 2 * FILLER_FROM_CAVITY_MM)
    return max(0.0, flask.volume_l - kept * 1e-6)
