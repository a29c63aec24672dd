"""The working of *gate*, line by line."""

from __future__ import annotations

from collections.abc import Iterator

from sandmix.asking.job import Computed
from sandmix.gating import filling, torricelli
from sandmix.gating.filling import Cavity
from sandmix.jobs.gate.form import ResolvedGate
from sandmix.language.wording import to_figures


def working(computed: Computed[ResolvedGate]) -> Iterator[str]:
    """Yield the arithmetic with its figures."""
    form, head = computed.form, computed.form.over_gate_mm
    if head is not None:
        speed = torricelli.speed_m_s(head)
        yield f"speed = √(2 × 9.80665 m/s² × {head / 1000:g} m) = {speed:.3f} m/s at the gate's level, without losses"
    cavity = form.cavity
    if cavity is not None and head is not None and computed.has("choke_cm2"):
        yield from _time(computed, cavity, head)
    if form.gate_ratio and computed.has("choke_cm2"):
        yield (
            f"ratio {form.areas.text}: runner {computed.number('runner_cm2'):.3f} cm², gates {computed.number('gate_cm2'):.3f} cm² for a choke "
            f"of {computed.number('choke_cm2'):.3f} cm²"
        )
    length = form.length_mm
    if length is not None and computed.has("sprue_top_mm"):
        yield (
            f"sprue: A_base/A_top = √({form.cup_mm:g} / {form.cup_mm + length:g}), so {computed.number('sprue_top_mm'):.2f} mm at the top for "
            f"{computed.number('sprue_base_mm'):.2f} mm at the base"
        )
    if computed.has("gate_speed_m_s"):
        yield (
            f"in the gates: {form.discharge:g} × {torricelli.speed_m_s(head or 0.0):.3f} m/s × choke / gates = "
            f"{computed.number('gate_speed_m_s'):.3f} m/s; Re {computed.number('reynolds'):.0f}"
        )
    yield (
        f"speed limit = 2 × ({form.tension_n_m:g} N/m × 9.80665 m/s² / {form.liquid_kg_m3:g} kg/m³)^(1/4) = "
        f"{computed.number('speed_limit_m_s'):.3f} m/s"
    )


def _time(computed: Computed[ResolvedGate], cavity: Cavity, head: float) -> Iterator[str]:
    """The time through the choke, from above and where the metal rises over the gate."""
    form, choke = computed.form, computed.number("choke_cm2")
    if cavity.rising_share:
        mean = filling.mean_head_mm(head, cavity.rising_mm)
        trade = filling.trade_mean_head_mm(head, cavity.rising_mm)
        yield (
            f"mean head for the {100 * cavity.rising_share:.0f} % that fills from below = ((√{head:g} + √{head - cavity.rising_mm:g}) / 2)² = "
            f"{to_figures(mean, 4)} mm (h − h_m/2 would be {to_figures(trade, 4)} mm)"
        )
    yield (
        f"time = {to_figures(cavity.volume_cm3, 4)} cm³ / ({form.discharge:g} × {choke:.3f} cm² × speed)"
        f"{', longer by the mean head' if cavity.rising_share else ''} = {computed.number('fill_time_s'):.2f} s"
    )
