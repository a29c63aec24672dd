"""How much sand a pattern needs around it in a flask, whether a flask leaves that, and the smallest flask that does.

The trade rule goes by the mass of one casting, the home rule is common practice for small ones. Both are least figures.
Source: trade rule from memory, home rule common practice.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from sandmix.mould.body import Body
from sandmix.mould.flask import Flask

ROUND_UP_MM = 5.0
"""The sizes of a flask to make are rounded up to the next 5 mm."""
CLOSE_ENOUGH_MM = 0.01
MOST_PATTERNS = 24
SPRUE_MM = 20.0
"""Diameter of the sprue where none is given (common practice)."""
NECK_SHARE = 0.5
"""Length of the neck between a casting and the riser beside it, as a share of the riser's diameter (own choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Clearance:
    """Least sand around a casting, in mm: above it, below it, beside it to the wall, and between it and its neighbour."""

    above_mm: float
    below_mm: float
    beside_mm: float
    between_mm: float


CLEARANCE_ROWS = (
    (5.0, 40.0, 40.0, 30.0, 30.0),
    (10.0, 50.0, 50.0, 40.0, 40.0),
    (25.0, 60.0, 60.0, 40.0, 50.0),
)
"""A casting of up to so many kg; then mm above, below, beside, between (from memory, moderate)."""
HOME = Clearance(above_mm=40.0, below_mm=25.0, beside_mm=25.0, between_mm=25.0)
"""The low ends of 40 to 50 above, 25 to 40 below; 25 beside (common practice for small aluminium castings)."""
RULES = {
    "trade": "the trade rule, by the mass of the casting",
    "home": "the home rule, for small aluminium castings",
}


def required(casting_kg: float, rule: str = "trade") -> Clearance:
    """Return the least sand around one casting of *casting_kg* by *rule*; above the last row its figures stay. Source: memory, practice.

    >>> required(7.5).above_mm, required(7.5, "home").below_mm
    (50.0, 25.0)
    """
    if rule == "home":
        return HOME
    row = next((row for row in CLEARANCE_ROWS if casting_kg <= row[0]), CLEARANCE_ROWS[-1])
    return Clearance(above_mm=row[1], below_mm=row[2], beside_mm=row[3], between_mm=row[4])


@dataclass(frozen=True, slots=True, kw_only=True)
class Riser:
    """The riser of each casting, a cylinder: beside the casting on the parting, or on top of it."""

    diameter_mm: float
    height_mm: float
    is_on_top: bool

    @property
    def neck_mm(self) -> float:
        """How far it stands from its casting."""
        return 0.0 if self.is_on_top else NECK_SHARE * self.diameter_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """How patterns lie in a flask: columns along its length, rows across, and each pattern's size along and across, with the sprue at one end.

    A riser beside each pattern takes ``riser_mm`` more along, its neck included. Any riser is ``riser_across_mm`` across, and one on top of a
    narrower pattern stands over its sides by ``over_mm`` at each.
    """

    columns: int
    rows: int
    along_mm: float
    across_mm: float
    between_mm: float
    sprue_mm: float
    riser_mm: float = 0.0
    riser_across_mm: float = 0.0

    @property
    def over_mm(self) -> float:
        """How far a riser on top stands over each end of its pattern along the flask; 0 for one beside it."""
        return 0.0 if self.riser_mm else max(0.0, self.riser_across_mm - self.along_mm) / 2

    @property
    def step_mm(self) -> float:
        """From one pattern's face to the same face of the next along the flask."""
        return self.along_mm + 2 * self.over_mm + self.riser_mm + self.between_mm

    @property
    def length_mm(self) -> float:
        """From the first face to the last along the flask, sprue included."""
        patterns = self.columns * self.step_mm - self.between_mm
        return patterns + (self.between_mm + self.sprue_mm if self.sprue_mm else 0.0)

    @property
    def width_mm(self) -> float:
        """From the first face to the last across the flask."""
        return self.rows * max(self.across_mm, self.riser_across_mm) + (self.rows - 1) * self.between_mm


@dataclass(frozen=True)
class Mould:
    """What to mould: the body, how many, how high the parting is above its underside, the sand around it, the sprue, open top or not, the riser.

    An open mould needs no riser.
    """

    body: Body
    count: int
    parting_mm: float
    clearance: Clearance
    sprue_mm: float = 0.0
    is_open: bool = False
    riser: Riser | None = None

    @property
    def in_drag_mm(self) -> float:
        """How deep the pattern lies in the drag; all of it in an open mould."""
        return self.body.height_mm if self.is_open else self.parting_mm

    @property
    def in_cope_mm(self) -> float:
        """How high the pattern reaches into the cope."""
        return self.body.height_mm - self.in_drag_mm

    @property
    def riser_top_mm(self) -> float:
        """How high the riser reaches above the parting; 0 without one."""
        if self.riser is None or self.is_open:
            return 0.0
        return self.riser.height_mm + (self.in_cope_mm if self.riser.is_on_top else 0.0)

    @cached_property
    def layouts(self) -> tuple[Layout, ...]:
        """All rows and columns in which the patterns can lie, each way round."""
        return tuple(self._layouts())

    def _layouts(self) -> Iterator[Layout]:
        sizes = dict.fromkeys(itertools.permutations((self.body.length_mm, self.body.width_mm)))
        riser = None if self.is_open else self.riser
        beside = riser if riser and not riser.is_on_top else None
        for columns, (along, across) in itertools.product(range(1, self.count + 1), sizes):
            yield Layout(
                columns=columns,
                rows=math.ceil(self.count / columns),
                along_mm=along,
                across_mm=across,
                between_mm=self.clearance.between_mm,
                sprue_mm=self.sprue_mm,
                riser_mm=beside.diameter_mm + beside.neck_mm if beside else 0.0,
                riser_across_mm=riser.diameter_mm if riser else 0.0,
            )

    def smallest_flask(self) -> Flask:
        """Return the inside of the flask with the least sand that clears it, to the next 5 mm; of two alike, the squarer."""
        beside = 2 * self.clearance.beside_mm
        sizes = ((_up(lay.length_mm + beside), _up(lay.width_mm + beside)) for lay in self.layouts)
        length, width = min(sizes, key=lambda size: (size[0] * size[1], max(size)))
        return Flask(
            length_mm=length,
            width_mm=width,
            drag_depth_mm=_up(self.in_drag_mm + self.clearance.below_mm),
            cope_depth_mm=0.0
            if self.is_open
            else _up(max(self.in_cope_mm + self.clearance.above_mm, self.riser_top_mm)),
        )


def _up(size_mm: float) -> float:
    return ROUND_UP_MM * math.ceil(size_mm / ROUND_UP_MM - 1e-9)


@dataclass(frozen=True, slots=True, kw_only=True)
class Margins:
    """The sand that a flask leaves around a mould in one layout, in mm: above, below, at each end and side; negative where it does not fit.

    ``riser_mm`` is how far the cope reaches above the riser; an open riser needs no more than 0.
    """

    layout: Layout
    above_mm: float
    below_mm: float
    ends_mm: float
    sides_mm: float
    riser_mm: float = 0.0

    def lacks(self, clearance: Clearance, *, is_open: bool = False) -> dict[str, float]:
        """Return what is missing where, in mm; nothing where it clears."""
        missing = {
            "above": 0.0 if is_open else clearance.above_mm - self.above_mm,
            "below": clearance.below_mm - self.below_mm,
            "at the ends": clearance.beside_mm - self.ends_mm,
            "at the sides": clearance.beside_mm - self.sides_mm,
            "of cope for the riser": -self.riser_mm,
        }
        return {where: mm for where, mm in missing.items() if mm > CLOSE_ENOUGH_MM}

    def rank(self, clearance: Clearance, *, is_open: bool = False) -> tuple[float, float]:
        """Return how good it is, the lower the better: what is missing in all, then the sand beside."""
        return sum(self.lacks(clearance, is_open=is_open).values()), -min(self.ends_mm, self.sides_mm)


def margins(flask: Flask, mould: Mould) -> Margins:
    """Return the sand that *flask* leaves around *mould*: in the layout that lacks the least, and of several that clear, with the most beside."""
    found = [
        Margins(
            layout=lay,
            above_mm=flask.cope_depth_mm - mould.in_cope_mm,
            below_mm=flask.drag_depth_mm - mould.in_drag_mm,
            ends_mm=(flask.length_mm - lay.length_mm) / 2,
            sides_mm=(flask.width_mm - lay.width_mm) / 2,
            riser_mm=flask.cope_depth_mm - mould.riser_top_mm,
        )
        for lay in mould.layouts
    ]
    return min(found, key=lambda each: each.rank(mould.clearance, is_open=mould.is_open))
