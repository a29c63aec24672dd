"""Which way up a shape from a file lies best: its six ways up, each at its best parting, by undercut, parting, sand and uplift.

The shape goes into the flask as a box of its sizes. The order of the choice is our own: least undercut, in whole hundredths of all that is seen from
above and below, the first of which counts as none; then a flat parting before a stepped one; then the least sand; then the least uplift. Among the
partings of one way up the least undercut comes first, however little, so that none is moved off the widest place to spare a few grams.
Source: geometry; clearances from memory.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sandmix.mesh.gaps import PartingCut
from sandmix.mesh.undercut import COUNTS_AS_NONE, Side
from sandmix.mould.body import Body
from sandmix.mould.clearance import Clearance, Mould
from sandmix.mould.flask import Flask
from sandmix.mould.walls import CUP_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A shape to be moulded: what each axis shows in the file's unit, how many mm that is, its box in mm, its volume, and the sand and metal for it.

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
class Orientation:
    """One way up at one parting: the mould, the smallest flask that clears it, and what follows.

    ``up`` is an axis of the file with its sense. Undercut and ``seen_cm2`` are as seen straight up and down, ``straight_cm2`` is surface.
    Stepped, the parting runs up and down along the shape, and its height is that of the best flat one.
    """

    up: str
    stepped: bool
    mould: Mould
    flask: Flask
    sand_l: float
    undercut_cm2: float
    seen_cm2: float
    straight_cm2: float
    least_draft_deg: float
    uplift_kg: float

    @property
    def draw_mm(self) -> float:
        """The deeper of the two draws."""
        return max(self.mould.in_drag_mm, self.mould.in_cope_mm)

    @property
    def held_pct(self) -> int:
        """The undercut in whole hundredths of all that is seen, the first of which counts as none."""
        return max(0, math.ceil(self.undercut_cm2 / (COUNTS_AS_NONE * self.seen_cm2) - 1e-6) - 1)

    @property
    def rank(self) -> tuple[int, bool, float, float]:
        """How good it is, the lower the better: undercut, stepped or flat, sand to a millilitre and uplift to two figures."""
        return self.held_pct, self.stepped, round(self.sand_l, 3), float(f"{self.uplift_kg:.2g}")

    @property
    def rank_of_parting(self) -> tuple[float, ...]:
        """How good it is among the partings of one way up, where undercut counts to a ten-thousandth and the last word has the drag.

        What lies in the drag is rammed on its board and never hangs.
        """
        fine = round(self.undercut_cm2 / self.seen_cm2, 4)
        return (self.held_pct, self.stepped, fine, *self.rank[2:], self.mould.in_cope_mm)


def ways(shape: Shape, asked: str = "+z") -> tuple[Orientation, ...]:
    """Return the six ways up, each at its best parting, from the best to the worst; of two alike the one *asked* for, then the one as drawn."""
    best = [
        min(_lies(shape, side, sense), key=lambda lie: lie.rank_of_parting)
        for side in shape.sides
        for sense in ("+", "-")
    ]
    return tuple(sorted(best, key=lambda lie: (lie.rank, lie.up != asked, lie.up[0] == "-", lie.up != "+z")))


def _lies(shape: Shape, side: Side, sense: str) -> Iterator[Orientation]:
    """All partings of one way up: the flat ones, and one that follows the shape."""
    for cut in side.cuts:
        yield _lie(shape, side, sense, cut)
    if side.hidden is not None:
        yield _lie(shape, side, sense, min(side.cuts, key=lambda cut: cut.undercut), stepped=True)


def _lie(shape: Shape, side: Side, sense: str, cut: PartingCut, *, stepped: bool = False) -> Orientation:
    at = "xyz".index(side.axis)
    length, width = sorted((size for axis, size in enumerate(shape.box_mm) if axis != at), reverse=True)
    high, up = shape.box_mm[at], sense == "+"
    parting = cut.height * shape.mm
    body = Body(shape="box", length_mm=length, width_mm=width, height_mm=high)
    mould = Mould(body, 1, _within(parting if up else high - parting, high), shape.clearance, shape.sprue_mm)
    flask = mould.least()
    undercut = cut.undercut
    if stepped:
        assert side.hidden is not None
        undercut = side.hidden.area
    area, moment = _roof(side, cut, up=up, stepped=stepped)
    heights = moment if up else side.high * area - moment
    level = mould.parting_mm + flask.cope_depth_mm + CUP_MM
    pressed = area * shape.mm**2 * level - heights * shape.mm**3
    return Orientation(
        up=f"{sense}{side.axis}",
        stepped=stepped,
        mould=mould,
        flask=flask,
        sand_l=max(0.0, flask.volume_l - shape.volume_cm3 / 1000),
        undercut_cm2=undercut * shape.mm**2 / 100,
        seen_cm2=side.seen * shape.mm**2 / 100,
        straight_cm2=side.straight * shape.mm**2 / 100,
        least_draft_deg=side.least_deg,
        uplift_kg=max(0.0, pressed) * 1e-9 * shape.liquid_kg_m3,
    )


def _within(height_mm: float, high_mm: float) -> float:
    return min(max(height_mm, 0.0), high_mm)


def _roof(side: Side, cut: PartingCut, *, up: bool, stepped: bool) -> tuple[float, float]:
    """The area under the cope that metal lifts, and that times its height above the lowest point as drawn.

    Of a flat parting all that faces up on or above it; of a stepped one all that sees the sky.
    """
    if not stepped:
        return (cut.roof, cut.roof_moment) if up else (cut.floor, cut.floor_moment)
    hidden = side.hidden
    assert hidden is not None
    whole = side.cuts[0] if up else side.cuts[-1]
    if up:
        return whole.roof - hidden.area, whole.roof_moment - hidden.up_moment
    return whole.floor - hidden.area, whole.floor_moment - hidden.down_moment


DECIDES = ("undercut", "parting", "sand", "uplift")


def between(one: Orientation, other: Orientation) -> str:
    """Return what decides between two ways up: the first of `DECIDES` in which they differ, or nothing."""
    pairs = zip(DECIDES, one.rank, other.rank, strict=True)
    return next((name for name, mine, theirs in pairs if mine != theirs), "")


def next_side(found: Sequence[Orientation]) -> Orientation:
    """Return the best way with another axis upright than the best of all."""
    return next(lie for lie in found if lie.up[1] != found[0].up[1])


def turned_over(found: Sequence[Orientation]) -> Orientation:
    """Return the best of all turned over: the same axis, the other sense."""
    return next(lie for lie in found[1:] if lie.up[1] == found[0].up[1])
