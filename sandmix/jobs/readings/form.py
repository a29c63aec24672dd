"""The form of *readings*: a book; and what the chart of each of its series shows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import Filled, Form, ask
from sandmix.book.book import Book, read
from sandmix.jobs.readings.series import Readings, readings
from sandmix.maths import control_chart
from sandmix.maths.control_chart import Drift, Limits

LEAST_POINTS = 8
"""From so many readings on there are limits; before that, one odd reading moves them too much (own choice)."""
MOST_DRIFT = 20
"""A drift is looked for in at most so many readings, the last ones (own choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChartOf:
    """The chart of one series: its points, its limits and its drift if there are enough, and whether the last point is as usual.

    The limits are those of the points before the last one where these are enough; else of all, and the last one is not judged.
    """

    points: tuple[float, ...]
    limits: Limits | None = None
    drift: Drift | None = None
    is_judged: bool = False

    @property
    def is_outside(self) -> bool:
        """Whether the last point is outside the limits of those before it."""
        return self.is_judged and self.limits is not None and not self.limits.holds(self.points[-1])

    @property
    def is_jump(self) -> bool:
        """Whether the last point is further from the one before it than the limit of the moving range."""
        if not self.is_judged or self.limits is None:
            return False
        return abs(self.points[-1] - self.points[-2]) > self.limits.range_high + 1e-9 * abs(self.points[-1])

    @property
    def is_drifting(self) -> bool:
        """Whether the last points drift."""
        return self.drift is not None and self.drift.is_sure


def chart_of(points: tuple[float, ...]) -> ChartOf:
    """Return the chart of *points* in their order of time."""
    if len(points) < LEAST_POINTS:
        return ChartOf(points=points)
    judged = len(points) > LEAST_POINTS
    return ChartOf(
        points=points,
        limits=control_chart.limits(points[:-1] if judged else points),
        drift=control_chart.drift(points[-MOST_DRIFT:]),
        is_judged=judged,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingsForm(Form):
    """A book with readings in it."""

    book: Any = ask("book", first=True, required=True)  # noqa: RUF009  a book is a document, and the field's default is None


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedReadings(ReadingsForm):
    """The same with the book read, its series, and the chart of each."""

    book: Book
    found: Readings
    charts: Mapping[str, ChartOf]


def resolve(filled: Filled[ReadingsForm]) -> Filled[ResolvedReadings]:
    """Read the book and its series; raises InputError with what is wrong with it."""
    book = read(filled.form.book)
    found = readings(book.events)
    charts = {key: chart_of(series.points) for key, series in found.series.items()}
    return filled.into(ResolvedReadings, {"book": book, "found": found, "charts": charts})
