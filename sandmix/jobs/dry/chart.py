"""The chart of *dry*: what the scale shows while the sand dries, with its likely range, the weight to stop at, and the weighing on the way."""

from __future__ import annotations

from sandmix.asking.job import Axis, Chart, Computed, Limit, Line
from sandmix.drying import drying_plan
from sandmix.jobs.dry.form import ResolvedDry
from sandmix.vocabulary import quantity

_POINTS = 16
_LEAST = 1e-3
"""The fast end is at least this share of the time, also where the sand may be dry enough already."""
_HOURS = 180.0
"""From so many minutes on the time is shown in hours."""


def weight(computed: Computed[ResolvedDry]) -> tuple[Chart, ...]:
    """Return the chart, or none where there is no mass or no time; the range is that of the time."""
    form, depth_m = computed.form, computed.form.depth_m
    if form.heap_kg is None or depth_m is None or not computed.is_above_zero("drying_min"):
        return ()
    expected = computed.number("drying_min")
    low, high = computed.doubt.get("drying_min", (expected, expected))
    low = max(low, _LEAST * expected)
    unit, per = ("h", 60.0) if high >= _HOURS else ("min", 1.0)
    moments = [high * at / _POINTS for at in range(_POINTS + 1)]
    now_kg = form.heap_kg + (form.container_kg or 0.0)

    law, bed, area_m2 = form.law(depth_m), form.bed(depth_m), form.area_m2(depth_m)

    def line(label: str, times_as_fast: float) -> Line:
        lost = (
            drying_plan.lost_by_then_kg_m2(law, bed, form.target, form.turns, 60 * minutes * times_as_fast)
            for minutes in moments
        )
        points = zip(moments, lost, strict=True)
        return Line(label=label, points=tuple((round(x / per, 3), round(now_kg - area_m2 * kg, 3)) for x, kg in points))

    stop_kg = now_kg - computed.number("water_to_lose_kg")
    shown = "Sand and container" if form.container_kg is not None else "Sand"
    return (
        Chart(
            name="weight",
            title="Weight while it dries",
            sentence=f"The weight falls from {now_kg:.2f} to {stop_kg:.2f} kg, fast at first and then ever more slowly.",
            x=Axis(label="Time in such air", unit=unit),
            y=Axis(label=shown, unit="kg"),
            series=(line("expected", 1.0), *_weighing(form, now_kg, per)),
            limits=(Limit(axis="y", at=round(stop_kg, 3), label="dry enough"),),
            band=(line("fast end", expected / low), line("slow end", expected / high)),
        ),
    )


def _weighing(form: ResolvedDry, now_kg: float, per: float) -> tuple[Line, ...]:
    """The weighing on the way as a point with its ±."""
    if form.lost_so_far_kg is None or form.dried_for_h is None:
        return ()
    kg, half = now_kg - form.lost_so_far_kg, quantity("lost_so_far_kg").half_width(form.lost_so_far_kg, assumed=False)
    point = (round(60 * form.dried_for_h / per, 3), round(kg, 3))
    return (Line(label="your weighing", points=(point,), shape="points", ends=((kg - half, kg + half),)),)
