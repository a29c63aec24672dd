"""Flasks on hand against one mould: which clears, which takes the least sand, and what the others cost more.

Source: geometry, with the clearances of `clearance`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from sandmix.mould.clearance import Gaps, Mould, room
from sandmix.mould.flask import Flask


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A flask on hand: its name, and its inside."""

    name: str
    inside: Flask


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """A flask held against a mould: its inside as it would be used, the room it leaves, and what it lacks where, in mm."""

    name: str
    inside: Flask
    room: Gaps
    lacks: Mapping[str, float]

    @property
    def clears(self) -> bool:
        """Whether it leaves enough sand on all sides."""
        return not self.lacks


@lru_cache(maxsize=256)
def judge(name: str, inside: Flask, mould: Mould) -> Judged:
    """Return how a flask suits *mould*, lengthways or turned, whichever suits better; its cope is left off an open mould."""
    used = replace(inside, cope_depth_mm=0.0) if mould.is_open else inside
    turned = replace(used, length_mm=used.width_mm, width_mm=used.length_mm)
    ways = [(room(way, mould), way) for way in (used, turned)]
    found, way = min(ways, key=lambda each: each[0].rank(mould.clearance, is_open=mould.is_open))
    return Judged(name=name, inside=way, room=found, lacks=found.lacks(mould.clearance, is_open=mould.is_open))


def smallest(judged: Sequence[Judged]) -> Judged | None:
    """Return the flask that holds least of those that clear; of two alike the one named first. None where none clears."""
    return min((each for each in judged if each.clears), key=lambda each: each.inside.volume_l, default=None)


def extra_kg(flask: Flask, taken: Flask, rammed_kg_l: float, spare: float) -> float:
    """Return the sand, in kg, that *flask* takes more than the one *taken* for the same pattern, spare included; below 0 it takes less.

    >>> large = Flask(length_mm=300, width_mm=300, drag_depth_mm=100)
    >>> small = Flask(length_mm=200, width_mm=300, drag_depth_mm=100)
    >>> round(extra_kg(large, small, 1.5, 0.2), 2)
    5.4
    """
    return (flask.volume_l - taken.volume_l) * rammed_kg_l * (1 + spare)
