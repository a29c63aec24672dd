"""A grading as a chart: bars of what stays on each sieve, and the curve of what passes, over the opening on a log scale."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from sandmix.asking.job import Axis, Chart, Limit, Line
from sandmix.materials import fineness, partial_sieves


def named(sieve: str) -> str:
    """Return a sieve's name as a sentence uses it: No. 50, or its opening.

    >>> named("50"), named("0.8 mm")
    ('No. 50', '0.8 mm')
    """
    return f"No. {sieve}" if sieve in fineness.SIEVES and sieve != fineness.PAN else sieve


def listed(sieves: Iterable[str]) -> str:
    """Return the names of *sieves* as a list for a sentence."""
    return ", ".join(named(sieve) for sieve in sieves)


def grading_chart(retained: Mapping[str, float], more: str) -> Chart:
    """Return the chart of *retained*; *more* ends its sentence. The pan has no opening, so it has no bar."""
    of_series = partial_sieves.is_of_the_series(retained)
    passing = fineness.passing_pct(retained) if of_series else partial_sieves.passing_pct(retained)
    whole = fineness.total(retained)
    held = {sieve: 100 * part / whole for sieve, part in retained.items() if sieve != fineness.PAN and part > 0}
    lines = (Line(label="held", points=_points(held), shape="bars"), Line(label="passing", points=_points(passing)))
    return Chart(
        name="grading",
        title="What stays on each sieve and what passes",
        sentence=f"For each sieve opening: the share of the grain that passes, and the share that stays. {more}",
        x=Axis(label="Opening of the sieve", unit="mm", scale="log"),
        y=Axis(label="Share of the grain", unit="%"),
        series=tuple(line for line in lines if line.points),
        limits=(Limit(axis="y", at=fineness.SCREEN_PCT, label="a screen"),) if of_series else (),
    )


def _points(shares: Mapping[str, float]) -> tuple[tuple[float, float], ...]:
    return tuple(sorted((partial_sieves.opening_mm(sieve), round(share, 4)) for sieve, share in shares.items()))
