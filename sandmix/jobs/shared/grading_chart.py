"""A grading as a chart: bars of what each sieve holds, and the curve of what passes, over the opening on a log scale."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from sandmix.asking.job import Axis, Chart, Limit, Line
from sandmix.materials import fineness, partial_sieves


def named(sieve: str) -> str:
    """Return a sieve as it is spoken of: No. 50, or by its opening.

    >>> named("50"), named("0.8 mm")
    ('No. 50', '0.8 mm')
    """
    return f"No. {sieve}" if sieve in fineness.SIEVES and sieve != fineness.PAN else sieve


def listed(sieves: Iterable[str]) -> str:
    """Return sieves in a row, as they are spoken of."""
    return ", ".join(named(sieve) for sieve in sieves)


def grading_chart(retained: Mapping[str, float], more: str) -> Chart:
    """Return the chart of *retained*; *more* ends its sentence. The pan has no opening and stands in no bar."""
    of_series = partial_sieves.is_of_the_series(retained)
    passing = fineness.passing_pct(retained) if of_series else partial_sieves.passing_pct(retained)
    whole = fineness.total(retained)
    held = {sieve: 100 * part / whole for sieve, part in retained.items() if sieve != fineness.PAN and part > 0}
    lines = (Line(label="held", points=_points(held), shape="bars"), Line(label="passing", points=_points(passing)))
    return Chart(
        name="grading",
        title="What the sieves hold and let through",
        sentence=f"By the sieve's opening: what passes it, and what it holds. {more}",
        x=Axis(label="Opening of the sieve", unit="mm", scale="log"),
        y=Axis(label="Share of the grain", unit="%"),
        series=tuple(line for line in lines if line.points),
        limits=(Limit(axis="y", at=fineness.SCREEN_PCT, label="a screen"),) if of_series else (),
    )


def _points(shares: Mapping[str, float]) -> tuple[tuple[float, float], ...]:
    return tuple(sorted((partial_sieves.opening_mm(sieve), round(share, 4)) for sieve, share in shares.items()))
