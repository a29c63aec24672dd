"""The chart of *tin*: own pairs, the line through them with its likely range, and the target."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Axis, Chart, Computed, Limit, Line
from sandmix.jobs.tin.form import ResolvedTin

_POINTS = 9
_ASIDE = 0.3
"""How far the line goes beyond the pairs, in points of moisture."""


def charts(computed: Computed[ResolvedTin]) -> Iterable[Chart]:
    """Yield the chart, if there is a pair of moisture and compactability."""
    form, line = computed.form, computed.form.line
    if not line.points:
        return
    pairs = sorted((round(point.x, 3), round(point.y, 1)) for point in line.points)
    low, high = max(0.0, pairs[0][0] - _ASIDE), pairs[-1][0] + _ASIDE
    along = [low + (high - low) * step / (_POINTS - 1) for step in range(_POINTS)]
    found = [(round(x, 3), *line.y_at(x)) for x in along]
    yield Chart(
        name="line",
        title="Compactability against moisture",
        sentence=f"Your {len(pairs)} own {'pair' if len(pairs) == 1 else 'pairs'} and the line of {line.slope:.0f} points per 1 % of water.",
        x=Axis(label="Moisture, of the wet mass", unit="%"),
        y=Axis(label="Compactability", unit="%"),
        series=(
            Line(label="own pairs", points=tuple(pairs), shape="points"),
            Line(label="own line", points=tuple((x, round(y, 2)) for x, y, _ in found)),
        ),
        limits=(Limit(axis="y", at=form.target_compactability_pct, label="target"),),
        band=(
            Line(label="low end", points=tuple((x, round(y - half, 2)) for x, y, half in found)),
            Line(label="high end", points=tuple((x, round(y + half, 2)) for x, y, half in found)),
        ),
    )
