"""The charts of *burnout* and its section: how hot the sand gets, how freezing and drying proceed, what is burnt and dried."""

from __future__ import annotations

from collections.abc import Sequence

from sandmix.asking.job import Axis, Chart, Computed, Limit, Line
from sandmix.cooling.freezing import PERFECT, Cooling
from sandmix.drawings import thermal_section
from sandmix.jobs.burnout.form import ResolvedBurnout
from sandmix.language.wording import to_figures

_POINTS = 48


def peaks(computed: Computed[ResolvedBurnout], coolings: Sequence[Cooling]) -> Chart:
    """Return the chart of the highest temperature of the sand by its depth, with the limits."""
    limit = computed.form.clay_limit_c
    deepest = max(
        2.5 * coolings[0].depth_past_mm(150.0), 4 * coolings[0].depth_past_mm(limit), 0.5 * coolings[0].case.modulus_mm
    )
    lines = tuple(
        Line(
            label=contact_of(cooling),
            points=_thinned(
                [pair for pair in zip(cooling.depths_mm, cooling.peaks_c, strict=True) if pair[0] <= deepest]
            ),
        )
        for cooling in coolings
    )
    return Chart(
        name="peak",
        title="Highest temperature of the sand",
        sentence=(
            f"The sand next to the casting passes {limit:g} °C, where its clay burns, to a depth of "
            f"{to_figures(computed.number('burnt_depth_mm'), 2)} mm. At 100 °C it dries."
        ),
        x=Axis(label="Depth from the casting", unit="mm"),
        y=Axis(label="Highest temperature", unit="°C"),
        series=lines,
        limits=(Limit(axis="y", at=limit, label="the clay burns"), Limit(axis="y", at=100.0, label="water boils")),
    )


def fronts(cooling: Cooling) -> Chart:
    """Return the chart of frozen metal and dried sand over time, until the middle is at half its solidus."""
    ends = cooling.middle_below_s(cooling.case.metal.solidus_c / 2) or cooling.times_s[-1]
    rows = [row for row in zip(cooling.times_s, cooling.frozen_mm, cooling.dry_mm, strict=True) if row[0] <= ends]
    unit, per = ("h", 3600.0) if ends > 10800 else ("min", 60.0)
    even = _evenly(rows, ends)
    return Chart(
        name="fronts",
        title="Freezing inward, drying outward",
        sentence=(
            f"From the face of the casting the metal freezes inward and the sand dries outward: {contact_of(cooling)}."
        ),
        x=Axis(label="Time after the pour", unit=unit),
        y=Axis(label="Distance from the face", unit="mm"),
        series=(
            Line(label="frozen metal", points=tuple((_to(row[0] / per), _to(row[1])) for row in even)),
            Line(label="dried sand", points=tuple((_to(row[0] / per), _to(row[2])) for row in even)),
        ),
    )


def contact_of(cooling: Cooling) -> str:
    """Return the contact of a solution as text."""
    contact = cooling.case.contact_w_m2k
    return "perfect contact" if contact == PERFECT else f"contact {contact:g} W/m²K"


Row = tuple[float, float, float]


def _evenly(rows: Sequence[Row], ends: float) -> list[Row]:
    """Rows about evenly spaced in time, as the steps are not."""
    kept, due = [(0.0, 0.0, 0.0)], ends / _POINTS
    for row in rows:
        if row[0] >= due:
            kept.append(row)
            due = row[0] + ends / _POINTS
    return kept if kept[-1] == rows[-1] else [*kept, rows[-1]]


def _thinned(points: Sequence[tuple[float, float]]) -> tuple[tuple[float, float], ...]:
    """At most about 50 of the points, with the first and the last."""
    each = max(1, -(-len(points) // _POINTS))
    kept = [*points[::each]]
    if kept[-1] != points[-1]:
        kept.append(points[-1])
    return tuple((_to(x), _to(y)) for x, y in kept)


def _to(value: float) -> float:
    return float(f"{value:.4g}")


def section(computed: Computed[ResolvedBurnout], hot: Cooling) -> str:
    """Return the section of the casting and the shells of sand around it, as SVG."""
    section = thermal_section.ThermalSection(
        half_mm=hot.half_thickness_mm,
        burnt_mm=computed.number("burnt_depth_mm"),
        dry_mm=computed.number("dry_depth_mm"),
        flat=hot.case.shape_n < 1,
    )
    return thermal_section.draw(
        section, "burnout-shell", "The casting, the sand whose clay has burnt, and the dried sand"
    )
