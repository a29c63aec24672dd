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

from collections.abc import Callable, Sequence
from dataclasses import dataclass

MOST_PASSES = 60


@dataclass(slots=True, kw_only=True)
class Cells:
    """A row of cells; areas are in rⁿ, without the factor of the shape.

    ``volume`` in m³, ``conductance`` between neighbours in W/K and from the last cell to the outside at ``outside_c``. T(H) is
    ``t_low + (H − h_low) · slope`` with ``before`` below ``h_low``, ``during`` up to ``h_high`` (at ``t_high``), and ``after`` above.
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

    def heat_j(self, start: int, stop: int) -> float:
        """Return the heat in the cells *start* to *stop*, in J."""
        return sum(volume * h for volume, h in zip(self.volume[start:stop], self.h[start:stop], strict=True))

    def pieces(self, active: int) -> tuple[list[float], list[float]]:
        """Return slope and intercept of the straight piece of each of the first *active* cells: T = intercept + slope · H."""
        slopes, intercepts = [], []
        for h, low, high, t_low, t_high, before, during, after in zip(
            self.h[:active],
            self.h_low,
            self.h_high,
            self.t_low,
            self.t_high,
            self.before,
            self.during,
            self.after,
            strict=False,
        ):
            if h < low:
                slopes.append(before)
                intercepts.append(t_low - before * low)
            elif h <= high:
                slopes.append(during)
                intercepts.append(t_low - during * low)
            else:
                slopes.append(after)
                intercepts.append(t_high - after * high)
        return slopes, intercepts


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

    *reached* is the number of cells that are warm at the start; a cell joins when its neighbour's temperature has left *start_c*. After each
    step *after_step* may change the straight pieces, as it does for sand that has dried. It returns how long the next step may be, in s.
    """
    count, active = len(cells.h), reached
    before_last: list[float] = []
    time_s, step_s, last_step_s, gone_j, gone_before_j = 0.0, first_step_s, 0.0, 0.0, 0.0
    while time_s < longest_s:
        last = cells.h[:]
        if before_last:
            ratio = step_s / last_step_s
            now, was, were = (1 + 2 * ratio) / (1 + ratio), 1 + ratio, ratio * ratio / (1 + ratio)
            history = [was * h - were * g for h, g in zip(last, before_last, strict=True)]
            gone_history = was * gone_j - were * gone_before_j
        else:
            now, history, gone_history = 1.0, last, gone_j
        temperatures = _step(cells, active, now, history, step_s)
        outflow_w = cells.conductance[-1] * (temperatures[-1] - cells.outside_c) if active == count else 0.0
        gone_before_j, gone_j = gone_j, (gone_history + step_s * outflow_w) / now
        before_last = last
        time_s += step_s
        while active < count and abs(temperatures[-1] - start_c) > 1e-9:
            active += 1
            temperatures.append(start_c)
        allowed_s = after_step(TimeStep(time_s=time_s, temperatures_c=temperatures, gone_j=gone_j))
        if allowed_s <= 0:
            return
        last_step_s, step_s = step_s, min(step_s * growth, allowed_s)


def _step(cells: Cells, active: int, now: float, history: Sequence[float], step_s: float) -> list[float]:
    """Solve one step for H of the first *active* cells, and return their temperatures."""
    volume, conductance = cells.volume, cells.conductance
    open_end = active == len(volume)
    slopes, intercepts = cells.pieces(active)
    for _ in range(MOST_PASSES):
        # forward elimination of: V·now/Δt·H_i − ΣG·(T_j − T_i) = V·history/Δt, with T = intercept + slope·H
        over: list[float] = []
        right: list[float] = []
        g_left = slope_left = over_left = right_left = intercept_left = 0.0
        last = active - 1
        for i in range(active):
            mass = volume[i] / step_s
            slope, intercept = slopes[i], intercepts[i]
            if i < last:
                g_right, slope_right, intercept_right = conductance[i], slopes[i + 1], intercepts[i + 1]
            else:
                g_right, slope_right, intercept_right = (conductance[i] if open_end else 0.0), 0.0, cells.outside_c
            lower = -g_left * slope_left
            pivot = mass * now + (g_left + g_right) * slope - lower * over_left
            over_left = -g_right * slope_right / pivot
            right_left = (
                mass * history[i]
                + g_left * (intercept_left - intercept)
                + g_right * (intercept_right - intercept)
                - lower * right_left
            ) / pivot
            over.append(over_left)
            right.append(right_left)
            g_left, slope_left, intercept_left = g_right, slope, intercept
        h = right[last]
        cells.h[last] = h
        for i in range(last - 1, -1, -1):
            h = right[i] - over[i] * h
            cells.h[i] = h
        new_slopes, new_intercepts = cells.pieces(active)
        resolved = new_intercepts == intercepts
        if resolved:
            break
        slopes, intercepts = new_slopes, new_intercepts
    return [intercept + slope * h for intercept, slope, h in zip(intercepts, slopes, cells.h[:active], strict=True)]
