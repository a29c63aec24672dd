"""The tin as a dosing tool: how many points of compactability one percent of water brings, learned from own tests, and the dose that follows.

Compactability C rises with moisture M about along a straight line within the working range: C = a + b M for one sand, one tin and one rammer.
Two kinds of test say how steep it is:

* a pair: moisture and compactability of one handful. Height and slope of the line follow from several pairs. The state of the sand differs from
  day to day (clay, mulling, rest), so a pair has a wider error than a reading against another of the same day.
* a step: two tin tests of one session with only water between them, weighed or tested in the oven. It says nothing about the height, but
  much about the slope, because both readings are of the same sand. The standard test of water sensitivity is such a step of 1 %.

Source: tjfs_109 for the step; tin_slope for the prior; icri_610 for the published line that it is compared with; the rest is own choice.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sandmix.bench import estimates
from sandmix.bench.water_tests import COMPACTABILITY
from sandmix.maths import straight_line
from sandmix.maths.slope_grid import Difference, LogNormal, Point
from sandmix.maths.statistics import MOST_READINGS, TWO_SIGMA
from sandmix.maths.straight_line import Line

SLOPE = LogNormal.of_range(10.0, 45.0)
"""Points of compactability per 1 % of water of one own sand, before any own test. Source: tin_slope."""
SPREAD = LogNormal(median=0.5, log_sd=0.7)
"""How far the moistures of a person's own tests are spread, in points, as a standard deviation (own choice: a factor of 4 each way)."""
READING_PCT = 3.0
"""95 % half-width of a tin reading against another of the same sand, day and tin (from memory)."""
DAY_PCT = 4.0
"""How far the compactability of one sand at one moisture differs from day to day, 95 %: with a reading of ± 3 it gives ± 5 (own choice)."""
WEIGHED_SHARE, WEIGHED_PCT = 0.10, 0.05
"""95 % half-width of a step by weighed water: a share of it for spray that missed and the mass of the heap, and points (own choice)."""
SAMPLE_SHARE, SAMPLE_PCT = 0.05, 0.05
"""The same of water that is weighed into a sample on a kitchen scale (own choice)."""
USUAL_MOISTURE = 0.035
LEAST_HALF = 1e-3
SESSION_S = 12 * 3600.0
"""Tin tests further apart are of two sessions: the sand dries and ages between them (own choice)."""
AGED_H = 24.0
"""Hours after mulling from which a reading no longer doses (own choice): compactability falls meanwhile. Source: compactability_ages."""
WORKING_PCT = (COMPACTABILITY.ratings[0].below, 50.0)
"""The compactability at which most moulding sand is worked, as the tin test rates it."""
USEFUL_PCT = 0.35
"""A dose counts where its range is no wider than that of an oven test at home: ± 0.35 points (own choice)."""
USUAL_STEP_PCT = 10.0
"""The step in compactability for which a line must be good: from the dry end of the working range to its middle."""
KNOWN_FROM = 3
"""Pairs from which on a moisture is read off the line (own choice)."""
MOST_TO_GO = 50


@dataclass(frozen=True, slots=True, kw_only=True)
class TinTest:
    """One tin test of a book: its time, the compactability with its 95 % half-width, and the moisture of the same handful where it was tested.

    *follows* says that only water came or went since the tin test before it; *water_pct* is that water in points of moisture, None where nobody
    weighed it.
    """

    at_s: float
    compactability_pct: float
    half_width: float
    moisture_pct: float | None = None
    moisture_half: float = 0.0
    follows: bool = False
    water_pct: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SampleStep:
    """A step on a sample: its sand, the water that was mulled in, and the compactability before and after, each with its 95 % half-width."""

    sand_g: float
    water_g: float
    before_pct: float
    after_pct: float
    before_half: float
    after_half: float

    @property
    def difference(self) -> Difference:
        """The step as evidence of the slope; the sand is taken to have had a usual moisture before."""
        moved = 100 * self.water_g * (1 - USUAL_MOISTURE) / (self.sand_g + self.water_g)
        return Difference(
            dx=moved,
            dy=self.after_pct - self.before_pct,
            dx_sd=math.hypot(SAMPLE_SHARE * moved, SAMPLE_PCT) / TWO_SIGMA,
            dy_sd=math.hypot(max(LEAST_HALF, self.before_half), self.after_half) / TWO_SIGMA,
        )


def of_slope(slope: float, half_width: float) -> Difference:
    """Return a slope that a step gave earlier as evidence again."""
    return Difference(dx=1.0, dy=slope, dx_sd=0.0, dy_sd=max(LEAST_HALF, half_width) / TWO_SIGMA)


def slope_of(step: Difference) -> tuple[float, float]:
    """Return the slope of one step alone, and its 95 % half-width."""
    slope = step.dy / step.dx
    return slope, TWO_SIGMA * math.sqrt(step.variance(slope)) / abs(step.dx)


def learned(tests: Iterable[TinTest], more: Iterable[Difference] = ()) -> Line:
    """Return the line of a person's own sand and tin: the prior, the last twenty pairs, the last twenty steps, and *more* steps.

    Sessions in which only the tin was read teach nothing.
    """
    points: list[Point] = []
    steps: list[Difference] = list(more)
    for session in _sessions(sorted(tests, key=lambda test: test.at_s)):
        points += _pair(session)
        steps += _steps(session)
    return straight_line.fit(points[-MOST_READINGS:], steps[-MOST_READINGS:], SLOPE, SPREAD)


def _sessions(tests: Sequence[TinTest]) -> Iterable[Sequence[TinTest]]:
    session: list[TinTest] = []
    for test in tests:
        if session and not (test.follows and test.at_s - session[-1].at_s <= SESSION_S):
            yield session
            session = []
        session.append(test)
    if session:
        yield session


def _pair(session: Sequence[TinTest]) -> Iterable[Point]:
    """The mean of the tests of a session whose moisture is known, as one pair: they share the state of the sand of that day."""
    both = [(test, test.moisture_pct) for test in session if test.moisture_pct is not None]
    if not both:
        return
    count = len(both)
    reading = math.sqrt(sum(_reading_half(test) ** 2 for test, _ in both)) / count
    yield Point(
        x=sum(moisture for _, moisture in both) / count,
        y=sum(test.compactability_pct for test, _ in both) / count,
        x_sd=math.sqrt(sum(test.moisture_half**2 for test, _ in both)) / count / TWO_SIGMA,
        y_sd=math.hypot(reading, DAY_PCT) / TWO_SIGMA,
    )


def _reading_half(test: TinTest) -> float:
    """The error of a reading against another of its session."""
    return max(LEAST_HALF, min(READING_PCT, test.half_width))


def _steps(session: Sequence[TinTest]) -> Iterable[Difference]:
    """Each test of a session against the mean of those before it, where the moisture changed by more than its own ±.

    Such contrasts share no error as long as all readings are alike. The step is known from weighed water, or from oven tests, by the smaller error.
    """
    offsets = list(itertools.accumulate((test.water_pct or 0.0 for test in session[1:]), initial=0.0))
    for at in range(1, len(session)):
        before, test = session[:at], session[at]
        known: list[tuple[float, float]] = []
        if all(each.water_pct is not None for each in session[1 : at + 1]):
            moved = offsets[at] - sum(offsets[:at]) / at
            known.append((math.hypot(WEIGHED_SHARE * moved, WEIGHED_PCT), moved))
        moistures = [each.moisture_pct for each in (*before, test) if each.moisture_pct is not None]
        if len(moistures) == at + 1:
            halves = [each.moisture_half for each in before]
            half = math.hypot(test.moisture_half, math.sqrt(sum(one**2 for one in halves)) / at)
            known.append((half, moistures[-1] - sum(moistures[:-1]) / at))
        if not known:
            continue
        half, moved = min(known)
        if abs(moved) > half:
            reading = math.sqrt(_reading_half(test) ** 2 + sum(_reading_half(each) ** 2 for each in before) / at**2)
            yield Difference(
                dx=moved,
                dy=test.compactability_pct - sum(each.compactability_pct for each in before) / at,
                dx_sd=half / TWO_SIGMA,
                dy_sd=reading / TWO_SIGMA,
            )


def step_pct(compactability_pct: float, target_pct: float, slope: float) -> float:
    """Return the change of moisture, in points of the wet mass, that brings a compactability to its target; below 0, water must go.

    >>> step_pct(35.0, 45.0, 20.0)
    0.5
    """
    return (target_pct - compactability_pct) / slope


def decides(low_pct: float, high_pct: float) -> bool:
    """Return whether a range of the change of moisture is good for a dose: one sign throughout, and ± 0.35 points or less.

    >>> decides(0.2, 0.8), decides(-0.1, 0.3), decides(0.2, 1.1)
    (True, False, False)
    """
    return (low_pct > 0 or high_pct < 0) and (high_pct - low_pct) / 2 <= USEFUL_PCT + 1e-9


def dose_half_pct(line: Line, log_sd: float | None = None) -> float:
    """Return half the 95 % range, in points, of the change of moisture for a step of ten points of compactability from one reading.

    *log_sd* is that of the slope, else the line's own.
    """
    side = TWO_SIGMA * (line.grid.log_sd if log_sd is None else log_sd)
    step = USUAL_STEP_PCT / line.slope
    return step * math.hypot(math.sinh(side), READING_PCT / USUAL_STEP_PCT)


def pairs_to_go(line: Line, each: float | None = None) -> int | None:
    """Return how many more pairs make the dose of a usual step exact to ± 0.35 points; None where no number of them does.

    Each is expected to add the information of a pair with the usual errors and the usual spread of moistures, at the slope as it is now; the
    first of all pairs only sets the height. *each* is that information where it is another, such as that of a step.
    """
    reading = READING_PCT / line.slope
    if reading >= USEFUL_PCT:
        return None
    information = line.grid.log_sd**-2
    gain = pair_information(line.slope) if each is None else each
    free = 1 if each is None and not line.points else 0
    for count in range(MOST_TO_GO + 1):
        log_sd = (information + gain * max(0, count - free)) ** -0.5
        if dose_half_pct(line, log_sd) <= USEFUL_PCT:
            return count
    return None


def pair_information(slope: float) -> float:
    """Return what one more pair of the usual errors tells about the logarithm of the slope, as an inverse variance."""
    error = 0.35 / TWO_SIGMA
    kept = SPREAD.median**2 / (SPREAD.median**2 + error**2)
    variance = (math.hypot(READING_PCT, DAY_PCT) / TWO_SIGMA) ** 2 + slope**2 * kept * error**2
    return slope**2 * kept * SPREAD.median**2 / variance


def step_information(slope: float, step: float = 1.0) -> float:
    """Return the same of one step of *step* points of moisture by weighed water."""
    half = math.hypot(WEIGHED_SHARE * step, WEIGHED_PCT)
    variance = (2 * READING_PCT**2 + (slope * half) ** 2) / TWO_SIGMA**2
    return (slope * step) ** 2 / variance


def equilibrium_slope(clay_pct_dry: float, compactability_pct: float) -> float:
    """Return the points of compactability per 1 % of water of the published line of fully mulled sands, at that compactability.

    From M = clay/k(C): dC/dM = k²/(−k′ clay). It joins many sands and is not the line of one. Holds for: 7 to 11 % clay. Source: icri_610.

    >>> round(equilibrium_slope(8.0, 40.0), 1), round(equilibrium_slope(8.0, 50.0), 1)
    (46.9, 18.8)
    """
    _, falls = estimates.line_at(compactability_pct)
    return estimates.clay_per_moisture(compactability_pct) ** 2 / (falls * clay_pct_dry)
