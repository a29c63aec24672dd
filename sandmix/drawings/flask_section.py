"""What a section along the middle of a flask holds, in mm: from the left inside wall, and downwards from the top of the flask.

Sprue, cup and runner are drawn as they are usually cut; the rest stands as it was given. Source: geometry.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sandmix.mould.clearance import Gaps, Mould
from sandmix.mould.flask import Flask
from sandmix.mould.walls import BAR_FROM_PATTERN_MM, CUP_MM, FILLER_FROM_CAVITY_MM

BAR_MM = 12.0
CUP_TO_SPRUE = 3.0
SPRUE_TAPER = 1.3


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """A rectangle in the section, in mm: its left upper corner and its size."""

    x_mm: float
    y_mm: float
    wide_mm: float
    high_mm: float

    @property
    def right_mm(self) -> float:
        """Where it ends."""
        return self.x_mm + self.wide_mm

    @property
    def foot_mm(self) -> float:
        """Where it ends below."""
        return self.y_mm + self.high_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class FlaskSection:
    """A flask in section: its inside and wood, the cavities (round or square in this view), sprue with cup and runner, shells, filler, bars."""

    inside: Flask
    wall_mm: float
    cavities: tuple[Box, ...]
    is_round: bool
    between_mm: float
    sprue: Box | None
    runner: Box | None
    burnt_mm: float
    dry_mm: float
    fillers: tuple[Box, ...]
    bars: tuple[Box, ...]

    @property
    def deep_mm(self) -> float:
        """Both halves."""
        return self.inside.cope_depth_mm + self.inside.drag_depth_mm

    @property
    def cup_mm(self) -> float:
        """How high the cup stands on the cope."""
        return CUP_MM if self.sprue else 0.0

    @property
    def cup_half_mm(self) -> float:
        """Half the width of the cup at its top, no wider than to the outside of the flask."""
        assert self.sprue is not None
        middle = self.sprue.x_mm + self.sprue.wide_mm / 2
        room = min(middle, self.inside.length_mm - middle) + self.wall_mm
        return min(CUP_TO_SPRUE * self.sprue.wide_mm / 2, room)

    @property
    def describe(self) -> str:
        """The section in words."""
        flask, first = self.inside, self.cavities[0]
        halves = f"drag {_mm(flask.drag_depth_mm)}" + (
            f", cope {_mm(flask.cope_depth_mm)}" if flask.cope_depth_mm else ""
        )
        many = f"{len(self.cavities)} cavities, each" if len(self.cavities) > 1 else "The cavity is"
        said = [
            f"A flask {_mm(flask.length_mm)} long inside, {halves}.",
            f"{many} {_mm(first.wide_mm)} long and {_mm(first.high_mm)} high, {_mm(first.x_mm)} from the left wall, "
            + (f"{_mm(first.y_mm)} below the top of the cope, " if flask.cope_depth_mm else "")
            + f"{_mm(self.deep_mm - first.foot_mm)} above the bottom board.",
        ]
        if self.sprue:
            said.append(
                f"The sprue stands {_mm(self.sprue.x_mm - self.cavities[-1].right_mm)} beside it, with a cup on the cope."
            )
        if self.burnt_mm:
            said.append(f"Clay is dead to {self.burnt_mm:.3g} mm from the casting.")
        if self.dry_mm:
            said.append(f"The sand is dried to {self.dry_mm:.3g} mm from it.")
        if self.fillers:
            said.append(f"Filler blocks {_mm(self.fillers[0].wide_mm)} thick stand at both ends.")
        if self.bars:
            said.append(f"{len(self.bars)} bars cross the cope." if len(self.bars) > 1 else "A bar crosses the cope.")
        return " ".join(said)


def _mm(size: float) -> str:
    return f"{size:.4g} mm"


def of_mould(
    inside: Flask,
    mould: Mould,
    room: Gaps,
    *,
    wall_mm: float,
    bars: int = 0,
    burnt_mm: float = 0.0,
    dry_mm: float = 0.0,
    filler_l: float = 0.0,
) -> FlaskSection | None:
    """Return the section along the flask of *mould* as it lies in *inside*; None where the pattern does not go into the flask at all."""
    if min(room.ends_mm, room.sides_mm, room.below_mm, 0.0 if mould.is_open else room.above_mm) < 0:
        return None
    lay, cope = room.layout, inside.cope_depth_mm
    top = cope - mould.in_cope_mm
    cavities = tuple(
        Box(
            x_mm=room.ends_mm + at * (lay.along_mm + lay.between_mm),
            y_mm=top,
            wide_mm=lay.along_mm,
            high_mm=mould.body.height_mm,
        )
        for at in range(lay.columns)
    )
    sprue = None
    if lay.sprue_mm and cope:
        sprue = Box(x_mm=cavities[-1].right_mm + lay.between_mm, y_mm=0.0, wide_mm=lay.sprue_mm, high_mm=cope)
    seen_from_the_end = mould.body.shape == "lying" and lay.along_mm != mould.body.length_mm
    return FlaskSection(
        inside=inside,
        wall_mm=wall_mm,
        cavities=cavities,
        is_round=mould.body.shape == "ball" or seen_from_the_end,
        between_mm=lay.between_mm,
        sprue=sprue,
        runner=None if sprue is None else _runner(cavities, sprue, mould),
        burnt_mm=burnt_mm,
        dry_mm=dry_mm,
        fillers=tuple(_fillers(inside, room, filler_l)),
        bars=tuple(_bars(inside, cavities, sprue, bars)),
    )


def _runner(cavities: tuple[Box, ...], sprue: Box, mould: Mould) -> Box:
    """From the middle of the first cavity to the sprue, at the parting: in the drag where the pattern reaches into it, else in the cope."""
    deep = min(sprue.wide_mm / 2, max(mould.in_drag_mm, mould.in_cope_mm))
    start = cavities[0].x_mm + cavities[0].wide_mm / 2
    top = sprue.foot_mm if mould.in_drag_mm else sprue.foot_mm - deep
    return Box(x_mm=start, y_mm=top, wide_mm=sprue.right_mm - start, high_mm=deep)


def _fillers(inside: Flask, room: Gaps, filler_l: float) -> Iterator[Box]:
    """Two blocks across the flask at its ends, as thick as the litres asked for make them, but never within 50 mm of a cavity."""
    deep = inside.drag_depth_mm + inside.cope_depth_mm
    thick = min(room.ends_mm - FILLER_FROM_CAVITY_MM, filler_l * 1e6 / (2 * inside.width_mm * deep))
    if thick > 0:
        for x in (0.0, inside.length_mm - thick):
            yield Box(x_mm=x, y_mm=0.0, wide_mm=thick, high_mm=deep)


def _bars(inside: Flask, cavities: tuple[Box, ...], sprue: Box | None, count: int) -> Iterator[Box]:
    """Bars in equal bays, moved aside from the sprue, down to 19 mm above the parting or the pattern below them."""
    if inside.width_mm > inside.length_mm:
        return
    for at in range(1, count + 1):
        x = inside.length_mm * at / (count + 1) - BAR_MM / 2
        if sprue and sprue.x_mm - BAR_FROM_PATTERN_MM - BAR_MM < x < sprue.right_mm + BAR_FROM_PATTERN_MM:
            x = max(0.0, sprue.x_mm - BAR_FROM_PATTERN_MM - BAR_MM)
        under = [
            cavity.y_mm
            for cavity in cavities
            if cavity.x_mm - BAR_FROM_PATTERN_MM < x + BAR_MM and x < cavity.right_mm + BAR_FROM_PATTERN_MM
        ]
        foot = min([inside.cope_depth_mm, *under]) - BAR_FROM_PATTERN_MM
        if foot > 0:
            yield Box(x_mm=x, y_mm=0.0, wide_mm=BAR_MM, high_mm=foot)
