"""The orientation of a plain body in the mould and the place of its parting, compared by flask, sand, cope, draw and uplift.

Only the sizes are known: a box has three orientations, since it looks the same upside down. A body that is round underneath can be drawn out of
the sand only where it is parted at its middle. Source: geometry; which orientation is better is our own choice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from sandmix.mould.body import Body
from sandmix.mould.clearance import Clearance, Mould, Riser
from sandmix.mould.flask import Flask
from sandmix.mould.walls import CUP_MM

UP = ("height", "width", "length")
MUCH_LESS = 0.9
"""Another orientation is advised only where it needs a tenth less sand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyOrientation:
    """One way to mould a body: which of its sizes is upright, the mould, the smallest flask that clears it, and what follows.

    ``draw_mm`` is the deeper of the two draws, ``undercut_cm2`` what holds it in the sand, ``uplift_kg`` the uplift in the smallest flask.
    """

    up: str
    mould: Mould
    flask: Flask
    sand_l: float
    draw_mm: float
    undercut_cm2: float
    uplift_kg: float

    @property
    def place(self) -> str:
        """Where the parting is, in words."""
        low, high = self.mould.parting_mm, self.mould.body.height_mm
        return "on top" if low >= high else "underneath" if low <= 0 else "at the middle"


def uplift_kg(mould: Mould, cope_depth_mm: float, liquid_kg_m3: float) -> float:
    """Return the uplift on the cope over all cavities, as the kg of the same weight: ρ (A (cope + cup) − V), V the volume in the cope.

    A is the projected area of the part in the cope, without runners; the cup is 30 mm high. 0 for an open mould.
    Source: p = ρ g h over the roof.
    """
    if mould.is_open:
        return 0.0
    area, volume = mould.body.above(mould.in_drag_mm)
    head = cope_depth_mm + CUP_MM
    return mould.count * max(0.0, area * head - volume) * 1e-9 * liquid_kg_m3


@lru_cache(maxsize=64)
def orientations(
    body: Body,
    count: int,
    clearance: Clearance,
    sprue_mm: float,
    liquid_kg_m3: float,
    riser: Riser | None = None,
) -> tuple[BodyOrientation, ...]:
    """Return all ways to mould *body*: each side up, parted underneath, at the middle and on top, each in the smallest flask that clears it."""
    found = []
    for up in UP:
        turned = body.turned(up)
        for share in (0.0, 0.5, 1.0):
            mould = Mould(turned, count, share * turned.height_mm, clearance, sprue_mm, riser=riser)
            flask = mould.smallest_flask()
            found.append(
                BodyOrientation(
                    up=up,
                    mould=mould,
                    flask=flask,
                    sand_l=max(0.0, flask.volume_l - count * body.volume_cm3 / 1000),
                    draw_mm=max(mould.in_drag_mm, mould.in_cope_mm),
                    undercut_cm2=turned.undercut_cm2(mould.parting_mm),
                    uplift_kg=uplift_kg(mould, flask.cope_depth_mm, liquid_kg_m3),
                )
            )
    return tuple(found)


def best(found: Sequence[BodyOrientation], up: str = "") -> BodyOrientation:
    """Return the one that can be drawn and needs the least sand, with the side *up* where that is named; of two alike, the one with more in the drag.

    Two within a millilitre of sand are alike. The part in the drag is rammed on its board and never hangs.
    """
    drawn = [each for each in found if each.undercut_cm2 <= 0 and (not up or each.up == up)]
    return min(drawn, key=lambda each: (round(each.sand_l, 3), each.mould.in_cope_mm))


def suggested(found: Sequence[BodyOrientation]) -> BodyOrientation:
    """Return the orientation to use: the given one, unless another that can be drawn saves a tenth of the sand."""
    given, least = best(found, "height"), best(found)
    return least if least.sand_l < given.sand_l * MUCH_LESS else given
