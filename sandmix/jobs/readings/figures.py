"""The figures of *readings*."""

from __future__ import annotations

from sandmix.asking.job import Figures
from sandmix.jobs.readings.form import ResolvedReadings


def run(form: ResolvedReadings) -> Figures:
    """Return the counts, means and limits by series, the series whose last reading is outside or that drift, and the scrap by cause."""
    there = {key: chart for key, chart in form.charts.items() if chart.points}
    limits = {key: chart.limits for key, chart in there.items() if chart.limits}
    return {
        "readings_count": {key: float(len(chart.points)) for key, chart in there.items()} or None,
        "readings_mean": {key: one.mean for key, one in limits.items()} or None,
        "readings_low": {key: cut(key, one.low) for key, one in limits.items()} or None,
        "readings_high": {key: cut(key, one.high) for key, one in limits.items()} or None,
        "readings_outside": [key for key, chart in there.items() if chart.is_outside or chart.is_jump]
        if limits
        else None,
        "readings_drifting": [key for key, chart in there.items() if chart.is_drifting] if limits else None,
        "scrap_causes": dict(form.found.scrapped) or None,
    }


def cut(key: str, limit: float) -> float:
    """Return a limit, cut where the series cannot go: only the moisture less the book can be below 0, and a share of castings is at most 100 %."""
    if key == "moisture":
        return limit
    return min(max(0.0, limit), 100.0) if key in ("scrap", "compactability") else max(0.0, limit)
