"""Conduction of heat in a row of cells whose heat content is known: implicit finite volumes that conserve energy to rounding.

Each cell holds H joules per cubic metre. Its temperature T(H) consists of three straight pieces: before, during and after a change of state.
H is the unknown, so latent heat needs no extra equation, and the heat that leaves one cell enters the next. A step is a second-order backward
difference (BDF2), longer than the step before by a fixed factor. Within a step each cell's straight piece is chosen again until no choice
changes; then the step is solved exactly.
Holds for: constant properties on each piece, and T that never falls when H rises. The error comes only from the width of cells and steps: the
tests compare it with analytic solutions.
Source: the usual enthalpy method, e.g. Voller, Int. J. Heat Mass Transfer 24, 1981 (from memory).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from operator import mul

MOST_PASSES = 60
COLD_C = 1e-6
"""A cell is still cold where its temperature has left the start by less than this."""


@dataclass(slots=True, kw_only=True)
class Cells:
    """A row of cells; areas are in rⁿ, without the factor of the shape.

    ``volume`` in m³, ``conductance`` between neighbours in W/K and from the last cell to the outside at ``outside_c``. T(H) is
    ``t_low + (H − h_low) · slope`` with ``before`` below ``h_low``, ``during`` up to ``h_high`` (at ``t_high``), and ``after`` above.
    Each cell stands on one of its pieces, T = intercept + slope · H, which holds from ``least`` to ``most``; `choose` finds it for the H of
    now, and must be called for a cell whose pieces were changed.
    """

    volume: list[float]
    conductance: list[float]
    h: list[float]
    h_low: list[float]
    t_low: list[float]
    h_high: list[float]
    t_high: list[float]
    before: list[float]
    during: list[float]
    after: list[float]
    outside_c: float
    slope: list[float] = field(init=False)
    intercept: list[float] = field(init=False)
    least: list[float] = field(init=False)
    most: list[float] = field(init=False)

    def __post_init__(self) -> None:
        count = len(self.h)
        self.slope, self.intercept, self.least, self.most = ([0.0] * count for _ in range(4))
        for at in range(count):
            self.choose(at)

    def choose(self, at: int) -> None:
        """Put the cell *at* on the straight piece that its H is on."""
        h, low, high = self.h[at], self.h_low[at], self.h_high[at]
        if h < low:
            slope, intercept = self.before[at], self.t_low[at] - self.before[at] * low
            self.least[at], self.most[at] = -math.inf, low
        elif h <= high:
            slope, intercept = self.during[at], self.t_low[at] - self.during[at] * low
            self.least[at], self.most[at] = low, high
        else:
            slope, intercept = self.after[at], self.t_high[at] - self.after[at] * high
            self.least[at], self.most[at] = high, math.inf
        self.slope[at], self.intercept[at] = slope, intercept

    def choose_again(self, heats: Sequence[float]) -> bool:
        """Put those of the first cells whose H in *heats* has left their piece on the piece of that H; return whether there was one."""
        moved = [
            at
            for at, (h, least, most) in enumerate(zip(heats, self.least, self.most, strict=False))
            if not least <= h <= most
        ]
        for at in moved:
            self.h[at] = heats[at]
            self.choose(at)
        return bool(moved)

    def heat_j(self, start: int, stop: int) -> float:
        """Return the heat in the cells *start* to *stop*, in J."""
        return float(sum(map(mul, self.volume[start:stop], self.h[start:stop])))


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeStep:
    """The end of one step: the time in s, the temperatures in °C of the cells that heat has reached, and the heat lost outside in J."""

    time_s: float
    temperatures_c: list[float]
    gone_j: float


def march(
    cells: Cells,
    *,
    first_step_s: float,
    growth: float,
    reached: int,
    start_c: float,
    longest_s: float,
    after_step: Callable[[TimeStep], float],
) -> None:
    """Advance the *cells* in time until *after_step* allows no further step or *longest_s* has passed.

    *reached* is the number of cells that are warm at the start; a cell joins when its neighbour's temperature has left *start_c*. A step begins
    on the pieces that the heat would be on if it went on as before. After each step *after_step* may change the pieces, as it does for sand
    that has dried. It returns how long the next step may be, in s.
    """
    count, active = len(cells.h), reached
    before_last: list[float] = []
    time_s, step_s, last_step_s, gone_j, gone_before_j = 0.0, first_step_s, 0.0, 0.0, 0.0
    while time_s < longest_s:
        last = cells.h[:active]
        if before_last:
            ratio = step_s / last_step_s
            now, was, were = (1 + 2 * ratio) / (1 + ratio), 1 + ratio, ratio * ratio / (1 + ratio)
            was, were = was / now, were / now
            history = [was * h - were * g for h, g in zip(last, before_last, strict=True)]
            cells.choose_again([h + ratio * (h - g) for h, g in zip(last, before_last, strict=True)])
            gone_history = was * gone_j - were * gone_before_j
        else:
            now, history, gone_history = 1.0, last, gone_j
        temperatures = _step(cells, history, step_s / now)
        outflow_w = cells.conductance[-1] * (temperatures[-1] - cells.outside_c) if active == count else 0.0
        gone_before_j, gone_j = gone_j, gone_history + step_s / now * outflow_w
        before_last = last
        time_s += step_s
        while active < count and abs(temperatures[-1] - start_c) > COLD_C:
            before_last.append(cells.h[active])
            temperatures.append(start_c)
            active += 1
        allowed_s = after_step(TimeStep(time_s=time_s, temperatures_c=temperatures, gone_j=gone_j))
        if allowed_s <= 0:
            return
        last_step_s, step_s = step_s, min(step_s * growth, allowed_s)


def _step(cells: Cells, history: Sequence[float], weighed_s: float) -> list[float]:
    """Solve V (H − history) / weighed_s = heat in, for the cells that have a history; return their temperatures.

    Seen from the next cell outward, all cells inside it act as one: at its temperature T they give it ``fixed − taken · T`` watts.
    """
    active = len(history)
    slopes, intercepts = cells.slope, cells.intercept
    conductance = cells.conductance[:active]
    if active < len(cells.volume):
        conductance[-1] = 0.0
    holding = [volume / weighed_s for volume in cells.volume[:active]]
    temperatures: list[float] = []
    for _ in range(MOST_PASSES):
        # outward: each balance, holds · (H − history) = fixed − taken · T + G · (T_next − T), becomes H = own + share · T_next
        own: list[float] = []
        shares: list[float] = []
        fixed = taken = 0.0
        for holds, slope, intercept, past, g in zip(holding, slopes, intercepts, history, conductance, strict=False):
            given = holds * past + fixed
            leaves = taken + g
            pivot = holds + leaves * slope
            share = g / pivot
            own.append((given - leaves * intercept) / pivot)
            shares.append(share)
            fixed = share * (holds * intercept + slope * given)
            taken = share * (holds + taken * slope)
        # and inward, the temperatures
        following = cells.outside_c
        heats: list[float] = []
        temperatures = []
        for part, share, slope, intercept in zip(
            reversed(own), reversed(shares), slopes[active - 1 :: -1], intercepts[active - 1 :: -1], strict=True
        ):
            h = part + share * following
            following = intercept + slope * h
            heats.append(h)
            temperatures.append(following)
        heats.reverse()
        temperatures.reverse()
        cells.h[:active] = heats
        if not cells.choose_again(heats):
            break
    return temperatures
