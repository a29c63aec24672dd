"""Flasks on hand checked for one mould: which clears it, which needs the least sand, and how much more the others need.

Source: geometry, with the clearances of `clearance`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from sandmix.mould.clearance import Margins, Mould, margins
from sandmix.mould.flask import Flask, make_kg


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckedFlask:
    """A flask checked for a mould: its inside as it would be used, the sand that it leaves around, and what is missing where, in mm."""

    name: str
    inside: Flask
    margins: Margins
    lacks: Mapping[str, float]

    @property
    def clears(self) -> bool:
        """Whether it leaves enough sand on all sides."""
        return not self.lacks


@lru_cache(maxsize=256)
def check(name: str, inside: Flask, mould: Mould) -> CheckedFlask:
    """Return how a flask suits *mould*, lengthways or turned, whichever suits better; an open mould is checked without the cope."""
    used = replace(inside, cope_depth_mm=0.0) if mould.is_open else inside
    turned = replace(used, length_mm=used.width_mm, width_mm=used.length_mm)
    best, flask = min(
        ((margins(flask, mould), flask) for flask in (used, turned)),
        key=lambda each: each[0].rank(mould.clearance, is_open=mould.is_open),
    )
    lacks = best.lacks(mould.clearance, is_open=mould.is_open)
    return CheckedFlask(name=name, inside=flask, margins=best, lacks=lacks)


def smallest(checked: Sequence[CheckedFlask]) -> CheckedFlask | None:
    """Return the smallest flask that clears, the first of two alike; None where none clears."""
    return min((each for each in checked if each.clears), key=lambda each: each.inside.volume_l, default=None)


def extra_kg(flask: Flask, taken: Flask, rammed_kg_l: float, spare: float) -> float:
    """Return how much more sand *flask* needs than the one *taken* for the same pattern, in kg, spare included; negative if less.

    >>> large = Flask(length_mm=300, width_mm=300, drag_depth_mm=100)
    >>> small = Flask(length_mm=200, width_mm=300, drag_depth_mm=100)
    >>> round(extra_kg(large, small, 1.5, 0.2), 2)
    5.4
    """
    return make_kg((flask.volume_l - taken.volume_l) * rammed_kg_l, spare)
