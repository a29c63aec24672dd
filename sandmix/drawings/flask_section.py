"""The parts of a section along the middle of a flask, in mm from the left inside wall and downwards from the top of the flask.

Cup and runner are drawn as they are usually cut, and so is the taper of a sprue whose base is not known; the rest is drawn as given.
Source: geometry.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from sandmix.mould.clearance import Margins, Mould
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
    """A flask in section: inside, walls, cavities (round or square in this view), sprue, cup, runner, risers, burnt and dry sand, filler, bars.

    The box of the sprue is as wide as its base. ``sprue_top_mm`` is its diameter at the top, None if only one diameter is known.
    """

    inside: Flask
    wall_mm: float
    cavities: tuple[Box, ...]
    is_round: bool
    between_mm: float
    sprue: Box | None
    sprue_top_mm: float | None
    runner: Box | None
    risers: tuple[Box, ...]
    necks: tuple[Box, ...]
    burnt_mm: float
    dry_mm: float
    fillers: tuple[Box, ...]
    bars: tuple[Box, ...]

    @property
    def deep_mm(self) -> float:
        """The depth of both halves."""
        return self.inside.cope_depth_mm + self.inside.drag_depth_mm

    @property
    def cup_mm(self) -> float:
        """The height of the cup on the cope."""
        return CUP_MM if self.sprue else 0.0

    @property
    def describe(self) -> str:
        """The section in words."""
        flask, first = self.inside, self.cavities[0]
        halves = f"drag {millimetres(flask.drag_depth_mm)}" + (
            f", cope {millimetres(flask.cope_depth_mm)}" if flask.cope_depth_mm else ""
        )
        many = f"{len(self.cavities)} cavities, each" if len(self.cavities) > 1 else "The cavity is"
        sentences = [
            f"A flask {millimetres(flask.length_mm)} long inside, {halves}.",
            f"{many} {millimetres(first.wide_mm)} long and {millimetres(first.high_mm)} high, {millimetres(first.x_mm)} from the left wall, "
            + (f"{millimetres(first.y_mm)} below the top of the cope, " if flask.cope_depth_mm else "")
            + f"{millimetres(self.deep_mm - first.foot_mm)} above the bottom board.",
        ]
        if self.sprue:
            across = (
                f"{millimetres(self.sprue_top_mm)} across at the top and {millimetres(self.sprue.wide_mm)} at the base, "
                if self.sprue_top_mm
                else ""
            )
            sentences.append(
                f"The sprue is {millimetres(self.sprue.x_mm - self.cavities[-1].right_mm)} beside it, {across}with a cup on the cope."
            )
        if self.risers:
            riser = self.risers[0]
            place = "beside" if riser.x_mm >= first.right_mm else "on top of"
            each = "each cavity" if len(self.cavities) > 1 else "it"
            sentences.append(
                f"A riser stands {place} {each}, {millimetres(riser.wide_mm)} across and {millimetres(riser.high_mm)} high."
            )
        if self.burnt_mm:
            sentences.append(f"Clay is burnt to {self.burnt_mm:.3g} mm from the casting.")
        if self.dry_mm:
            sentences.append(f"The sand is dry to {self.dry_mm:.3g} mm from the casting.")
        if self.fillers:
            sentences.append(f"Filler blocks {millimetres(self.fillers[0].wide_mm)} thick are at both ends.")
        if self.bars:
            sentences.append(
                f"{len(self.bars)} bars cross the cope." if len(self.bars) > 1 else "A bar crosses the cope."
            )
        return " ".join(sentences)


def millimetres(size: float) -> str:
    """Return a size as it is read off a ruler: whole millimetres, below 10 mm with one decimal.

    >>> millimetres(86.264), millimetres(8.736), millimetres(40.0)
    ('86 mm', '8.7 mm', '40 mm')
    """
    return f"{round(size, 0 if size >= 10 else 1):g} mm"


def of_mould(
    inside: Flask,
    mould: Mould,
    margins: Margins,
    *,
    wall_mm: float,
    bars: int = 0,
    burnt_mm: float = 0.0,
    dry_mm: float = 0.0,
    filler_l: float = 0.0,
    sprue_base_mm: float | None = None,
) -> FlaskSection | None:
    """Return the section of *mould* along the flask *inside*; None where pattern and riser do not fit into the flask at all.

    Without *sprue_base_mm* the sprue of the mould is its base, and its top is wider by the usual taper.
    """
    above = (0.0,) if mould.is_open else (margins.above_mm, margins.riser_mm)
    if min(margins.ends_mm, margins.sides_mm, margins.below_mm, *above) < 0:
        return None
    lay, cope = margins.layout, inside.cope_depth_mm
    top = cope - mould.in_cope_mm
    cavities = tuple(
        Box(
            x_mm=margins.ends_mm + lay.over_mm + at * lay.step_mm,
            y_mm=top,
            wide_mm=lay.along_mm,
            high_mm=mould.body.height_mm,
        )
        for at in range(lay.columns)
    )
    sprue = None
    if lay.sprue_mm and cope:
        base = lay.sprue_mm if sprue_base_mm is None else sprue_base_mm
        x = cavities[-1].right_mm + lay.over_mm + lay.riser_mm + lay.between_mm + (lay.sprue_mm - base) / 2
        sprue = Box(x_mm=x, y_mm=0.0, wide_mm=base, high_mm=cope)
    risers = tuple(_risers(cavities, mould, cope))
    across_the_flask = mould.body.shape == "lying" and lay.along_mm != mould.body.length_mm
    return FlaskSection(
        inside=inside,
        wall_mm=wall_mm,
        cavities=cavities,
        is_round=mould.body.shape == "ball" or across_the_flask,
        between_mm=lay.between_mm,
        sprue=sprue,
        sprue_top_mm=None if sprue_base_mm is None else lay.sprue_mm,
        risers=risers,
        necks=() if sprue else tuple(_necks(cavities, risers)),
        runner=None if sprue is None else _runner(cavities, sprue, mould),
        burnt_mm=burnt_mm,
        dry_mm=dry_mm,
        fillers=tuple(_fillers(inside, margins, filler_l)),
        bars=tuple(_bars(inside, cavities, sprue, bars)),
    )


def _risers(cavities: tuple[Box, ...], mould: Mould, cope_mm: float) -> Iterator[Box]:
    """The riser of each cavity, open at the top of the cavity or standing on the parting."""
    riser = mould.riser
    if riser is None or not cope_mm:
        return
    for cavity in cavities:
        middle = cavity.x_mm + cavity.wide_mm / 2
        x = middle - riser.diameter_mm / 2 if riser.is_on_top else cavity.right_mm + riser.neck_mm
        foot = cavity.y_mm if riser.is_on_top else cope_mm
        yield Box(x_mm=x, y_mm=foot - riser.height_mm, wide_mm=riser.diameter_mm, high_mm=riser.height_mm)


def _necks(cavities: tuple[Box, ...], risers: tuple[Box, ...]) -> Iterator[Box]:
    """What joins each cavity with the riser beside it; where there is a sprue, the runner does. A neck in the drag reaches under its riser."""
    for cavity, riser in zip(cavities, risers, strict=False):
        wide = riser.x_mm - cavity.right_mm
        if wide > 0:
            high = min(wide, cavity.foot_mm - cavity.y_mm)
            is_in_drag = cavity.foot_mm > riser.foot_mm
            yield Box(
                x_mm=cavity.right_mm,
                y_mm=riser.foot_mm if is_in_drag else riser.foot_mm - high,
                wide_mm=wide + (riser.wide_mm / 2 if is_in_drag else 0.0),
                high_mm=high,
            )


def _runner(cavities: tuple[Box, ...], sprue: Box, mould: Mould) -> Box:
    """The runner from the middle of the first cavity to the sprue, at the parting: in the drag if the pattern reaches into it, else in the cope."""
    deep = min(sprue.wide_mm / 2, max(mould.in_drag_mm, mould.in_cope_mm))
    start = cavities[0].x_mm + cavities[0].wide_mm / 2
    top = sprue.foot_mm if mould.in_drag_mm else sprue.foot_mm - deep
    return Box(x_mm=start, y_mm=top, wide_mm=sprue.right_mm - start, high_mm=deep)


def _fillers(inside: Flask, margins: Margins, filler_l: float) -> Iterator[Box]:
    """Two blocks across the flask at its ends, of as many litres as needed, but never less than 50 mm from a cavity."""
    deep = inside.drag_depth_mm + inside.cope_depth_mm
    thick = min(margins.ends_mm - FILLER_FROM_CAVITY_MM, filler_l * 1e6 / (2 * inside.width_mm * deep))
    if thick > 0:
        for x in (0.0, inside.length_mm - thick):
            yield Box(x_mm=x, y_mm=0.0, wide_mm=thick, high_mm=deep)


def _bars(inside: Flask, cavities: tuple[Box, ...], sprue: Box | None, count: int) -> Iterator[Box]:
    """Bars in equal bays, moved away from the sprue, down to 19 mm above the parting or the pattern below them."""
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
