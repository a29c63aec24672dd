"""The best orientation of a shape from a file: its six sides up, each with its best parting, by undercut, parting, sand and uplift.

The shape goes into the flask as a box of its sizes. The order of the choice is our own: least undercut, in whole percents of the projected area
from above and below, the first of which counts as none; then a flat parting before a stepped one; then the least sand; then the least uplift.
Among the partings of one orientation the least undercut comes first, even if small, so that no parting moves off the widest place to save a few
grams. Source: geometry; clearances from memory.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sandmix.mesh.ray_partings import Hidden, Parting
from sandmix.mesh.undercut import COUNTS_AS_NONE, Side
from sandmix.mould.body import Body
from sandmix.mould.clearance import Clearance, Mould
from sandmix.mould.flask import Flask
from sandmix.mould.walls import CUP_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A shape to mould: what each axis shows in the file's unit, how many mm that unit is, its box in mm, its volume, and the sand and metal for it.

    ``mm`` and ``box_mm`` are those of the pattern.
    """

    sides: tuple[Side, ...]
    mm: float
    box_mm: tuple[float, float, float]
    volume_cm3: float
    clearance: Clearance
    sprue_mm: float
    liquid_kg_m3: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeOrientation:
    """One side up with one parting: the mould, the smallest flask that clears it, and what follows.

    ``up`` is an axis of the file with its sign. ``undercut_cm2`` and ``projected_cm2`` are projected areas, ``vertical_cm2`` is true surface.
    A stepped parting follows the shape up and down, and its height is that of the best flat one.
    """

    up: str
    stepped: bool
    mould: Mould
    flask: Flask
    sand_l: float
    undercut_cm2: float
    projected_cm2: float
    vertical_cm2: float
    least_draft_deg: float
    uplift_kg: float

    @property
    def draw_mm(self) -> float:
        """The deeper of the two draws."""
        return max(self.mould.in_drag_mm, self.mould.in_cope_mm)

    @property
    def undercut_pct(self) -> int:
        """The undercut in whole percents of the projected area from both ends, the first of which counts as none."""
        return max(0, math.ceil(self.undercut_cm2 / (COUNTS_AS_NONE * self.projected_cm2) - 1e-6) - 1)

    @property
    def rank(self) -> tuple[int, bool, float, float]:
        """How good it is, the lower the better: undercut, stepped or flat, sand to a millilitre and uplift to two figures."""
        return self.undercut_pct, self.stepped, round(self.sand_l, 3), float(f"{self.uplift_kg:.2g}")

    @property
    def rank_of_parting(self) -> tuple[float, ...]:
        """How good it is among the partings of one orientation: undercut counts to a ten-thousandth, and last comes what hangs in the cope.

        The part in the drag is rammed on its board and never hangs.
        """
        fine = round(self.undercut_cm2 / self.projected_cm2, 4)
        return (self.undercut_pct, self.stepped, fine, *self.rank[2:], self.mould.in_cope_mm)


def ranked(shape: Shape, preferred: str = "+z") -> tuple[ShapeOrientation, ...]:
    """Return the six orientations, each with its best parting, from best to worst; of two alike the *preferred* one first, then the one as drawn."""
    best = [
        min(_with_each_parting(shape, side, sign), key=lambda each: each.rank_of_parting)
        for side in shape.sides
        for sign in ("+", "-")
    ]
    return tuple(sorted(best, key=lambda each: (each.rank, each.up != preferred, each.up[0] == "-", each.up != "+z")))


def _with_each_parting(shape: Shape, side: Side, sign: str) -> Iterator[ShapeOrientation]:
    """One side up with all partings: the flat ones, and one that follows the shape."""
    for cut in side.partings:
        roof = (cut.roof, cut.roof_moment) if sign == "+" else (cut.floor, cut.floor_moment)
        yield _orientation(shape, side, sign, cut.height, cut.undercut, roof)
    if side.hidden is not None:
        best = min(side.partings, key=lambda cut: cut.undercut)
        roof = _open_roof(side, side.hidden, sign)
        yield _orientation(shape, side, sign, best.height, side.hidden.area, roof, stepped=True)


def _open_roof(side: Side, hidden: Hidden, sign: str) -> tuple[float, float]:
    """The roof under the cope of a stepped parting, and its moment: all that faces up and that nothing covers."""
    whole: Parting = side.partings[0] if sign == "+" else side.partings[-1]
    if sign == "+":
        return whole.roof - hidden.area, whole.roof_moment - hidden.up_moment
    return whole.floor - hidden.area, whole.floor_moment - hidden.down_moment


def _orientation(
    shape: Shape,
    side: Side,
    sign: str,
    parting: float,
    undercut: float,
    roof: tuple[float, float],
    *,
    stepped: bool = False,
) -> ShapeOrientation:
    """One side up with the parting at one height; *roof* is the area that the metal lifts, and its moment about the lowest point as drawn."""
    axis = "xyz".index(side.axis)
    length, width = sorted((size for at, size in enumerate(shape.box_mm) if at != axis), reverse=True)
    height, up = shape.box_mm[axis], sign == "+"
    parting_mm = parting * shape.mm
    body = Body(shape="box", length_mm=length, width_mm=width, height_mm=height)
    in_drag_mm = min(max(parting_mm if up else height - parting_mm, 0.0), height)
    mould = Mould(body, 1, in_drag_mm, shape.clearance, shape.sprue_mm)
    flask = mould.smallest_flask()
    area, moment = roof
    moment = moment if up else side.height * area - moment
    level = mould.parting_mm + flask.cope_depth_mm + CUP_MM
    lifted = area * shape.mm**2 * level - moment * shape.mm**3
    return ShapeOrientation(
        up=f"{sign}{side.axis}",
        stepped=stepped,
        mould=mould,
        flask=flask,
        sand_l=max(0.0, flask.volume_l - shape.volume_cm3 / 1000),
        undercut_cm2=undercut * shape.mm**2 / 100,
        projected_cm2=side.projected * shape.mm**2 / 100,
        vertical_cm2=side.vertical * shape.mm**2 / 100,
        least_draft_deg=side.least_draft_deg,
        uplift_kg=max(0.0, lifted) * 1e-9 * shape.liquid_kg_m3,
    )


CRITERIA = ("undercut", "parting", "sand", "uplift")


def deciding(one: ShapeOrientation, other: ShapeOrientation) -> str:
    """Return what decides between two orientations: the first of `CRITERIA` in which they differ, or nothing."""
    pairs = zip(CRITERIA, one.rank, other.rank, strict=True)
    return next((name for name, mine, theirs in pairs if mine != theirs), "")


def best_on_another_axis(found: Sequence[ShapeOrientation]) -> ShapeOrientation:
    """Return the best orientation with another axis upright than the best of all."""
    return next(each for each in found if each.up[1] != found[0].up[1])


def turned_over(found: Sequence[ShapeOrientation]) -> ShapeOrientation:
    """Return the best of all turned over: the same axis, the other way up."""
    return next(each for each in found[1:] if each.up[1] == found[0].up[1])
