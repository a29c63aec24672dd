"""Sand for a flask: how much it needs, what its halves weigh, and what to do when the heap is too small.

Symbols: V inside volume of both halves less pattern, gating and filler, ρ rammed density, s spare as a fraction, C compactability.
rammed = V ρ; make = rammed (1 + s); loose volume = make / (ρ (1 - C)), since three rams compress a column from 1 to 1 - C.
Source: geometry; compactability is defined by that ratio.
"""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Flask:
    """The inside of a flask, in mm; ``cope_depth_mm`` 0 is an open-top mould."""

    length_mm: float
    width_mm: float
    drag_depth_mm: float
    cope_depth_mm: float = 0.0

    @property
    def area_l_per_mm(self) -> float:
        """Litres for each millimetre of depth."""
        return self.length_mm * self.width_mm * 1e-6

    @property
    def volume_l(self) -> float:
        """Inside volume of both halves, in litres."""
        return self.area_l_per_mm * (self.drag_depth_mm + self.cope_depth_mm)

    @property
    def longest_mm(self) -> float:
        """The longer of length and width."""
        return max(self.length_mm, self.width_mm)


def make_kg(rammed_kg: float, spare: float) -> float:
    """Return the sand to have ready, in kg, for *rammed_kg* in the mould with *spare* (a fraction) for riddling, spills and strike-off."""
    return rammed_kg * (1 + spare)


def halves_kg(flask: Flask, rammed_kg_l: float) -> tuple[float, float]:
    """Return the rammed sand in a drag and in a cope that are full of it, in kg: the heaviest case of the load to lift."""
    per_mm = flask.area_l_per_mm
    return per_mm * flask.drag_depth_mm * rammed_kg_l, per_mm * flask.cope_depth_mm * rammed_kg_l


def loose_l(sand_kg: float, rammed_kg_l: float, compactability: float) -> float:
    """Return the volume, in litres, of riddled loose sand that rams to *rammed_kg_l*.

    >>> round(loose_l(10.0, 1.6, 0.5), 2)
    12.5
    """
    return sand_kg / (rammed_kg_l * (1 - compactability))


def filler_for_l(missing_kg: float, rammed_kg_l: float, spare: float) -> float:
    """Return the filler, in litres, that takes the place of *missing_kg* of sand, of which the spare is a part.

    >>> filler_for_l(7.5, 1.5, 0.25)
    4.0
    """
    return missing_kg / (rammed_kg_l * (1 + spare))


def length_that_fits_mm(flask: Flask, *, heap_kg: float, rammed_kg_l: float, spare: float, taken_l: float) -> float:
    """Return the inside length, in mm, of the largest flask of the same depths and proportions that *heap_kg* fills, spare included.

    *taken_l* is what pattern, gating and filler take up. Never longer than the flask itself.
    """
    volume = heap_kg / ((1 + spare) * rammed_kg_l) + taken_l
    return flask.length_mm * math.sqrt(min(1.0, volume / flask.volume_l))


def clears(
    length_mm: float, width_mm: float, pattern_length_mm: float, pattern_width_mm: float, beside_mm: float
) -> bool:
    """Whether a pattern fits into a flask with *beside_mm* of sand on all sides, either way round."""
    free = sorted((length_mm - 2 * beside_mm, width_mm - 2 * beside_mm))
    sizes = sorted((pattern_length_mm, pattern_width_mm))
    return sizes[0] <= free[0] and sizes[1] <= free[1]
