"""Which way up, and where the halves meet: ways to mould one plain body, compared by flask, sand, cope, draw and uplift.

What it goes by are sizes: six ways up of a box are three, since it has no other side. A body that is round underneath comes out of the sand only
where it is parted at its middle. Source: geometry; what to prefer is a choice of our own.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from sandmix.mould.body import Body
from sandmix.mould.clearance import Clearance, Mould
from sandmix.mould.flask import Flask
from sandmix.mould.walls import CUP_MM

UP = ("height", "width", "length")
MUCH_LESS = 0.9
"""Another way up is advised only where it takes a tenth less sand."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WayUp:
    """One way to mould a body: which of its sizes stands up, the mould, the smallest flask that clears it, and what follows.

    ``draw_mm`` is the deeper of the two draws, ``undercut_cm2`` what holds it in the sand, ``uplift_kg`` the lift in the smallest flask.
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
        """Where the parting lies, in words."""
        low, high = self.mould.parting_mm, self.mould.body.height_mm
        return "on top" if low >= high else "underneath" if low <= 0 else "at the middle"


def uplift_kg(mould: Mould, cope_depth_mm: float, liquid_kg_m3: float) -> float:
    """Return the force that lifts the cope off all cavities, as the kg that weigh as much: ρ (A (cope + cup) − V), V what stands in the cope.

    A is the outline of the part in the cope, runners not counted; the cup is 30 mm high. Nothing for an open mould. Source: p = ρ g h over the roof.
    """
    if mould.is_open:
        return 0.0
    outline, volume = mould.body.in_cope(mould.in_drag_mm)
    head = cope_depth_mm + CUP_MM
    return mould.count * max(0.0, outline * head - volume) * 1e-9 * liquid_kg_m3


@lru_cache(maxsize=64)
def ways(body: Body, count: int, clearance: Clearance, sprue_mm: float, liquid_kg_m3: float) -> tuple[WayUp, ...]:
    """Return all ways of moulding *body*: each side up, parted underneath, at the middle and on top, each in the smallest flask that clears it."""
    found = []
    for up in UP:
        turned = body.turned(up)
        for share in (0.0, 0.5, 1.0):
            mould = Mould(turned, count, share * turned.height_mm, clearance, sprue_mm)
            flask = mould.least()
            found.append(
                WayUp(
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


def best(found: Sequence[WayUp], up: str = "") -> WayUp:
    """Return the way that can be drawn and takes the least sand, of one side *up* where that is named; of two alike, the one with more in the drag.

    Of two within a millilitre the part in the drag decides, since it is rammed on its board and never hangs.
    """
    drawn = [way for way in found if way.undercut_cm2 <= 0 and (not up or way.up == up)]
    return min(drawn, key=lambda way: (round(way.sand_l, 3), way.mould.in_cope_mm))
