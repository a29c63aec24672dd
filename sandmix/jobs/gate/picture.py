"""The drawing of *gate*: the section of its gating, where all of its sizes are known."""

from __future__ import annotations

import math

from sandmix.asking.job import Computed
from sandmix.drawings import gating_section
from sandmix.drawings.gating_section import GatingSection
from sandmix.gating.filling import BOTTOM, PARTING
from sandmix.jobs.gate.form import ResolvedGate

_SIZES = ("sprue_base_mm", "sprue_top_mm", "gate_depth_mm", "gate_cm2")


def drawings(computed: Computed[ResolvedGate]) -> dict[str, str]:
    """Return the section by name; nothing where a size is missing, or where the gate would be too deep to draw."""
    section = section_of(computed)
    if section is None:
        return {}
    return {"section": gating_section.draw(section, "gating-section", "Section of the gating")}


def section_of(computed: Computed[ResolvedGate]) -> GatingSection | None:
    """Return what is drawn; None where a size is missing."""
    form = computed.form
    head, length, height = form.over_gate_mm, form.length_mm, form.fill_height_mm
    if head is None or length is None or height is None or not all(computed.has(word) for word in _SIZES):
        return None
    above = {BOTTOM: height, PARTING: form.above_mm or 0.0}.get(form.gate_place, 0.0)
    runner_cm2 = computed.number("runner_cm2") if computed.has("runner_cm2") else computed.number("gate_cm2")
    return GatingSection(
        cup_mm=form.cup_mm,
        head_mm=head,
        sprue_mm=length,
        top_mm=computed.number("sprue_top_mm"),
        base_mm=computed.number("sprue_base_mm"),
        runner_mm=math.sqrt(100 * runner_cm2),
        gate_mm=computed.number("gate_depth_mm"),
        over_gate_mm=above,
        under_gate_mm=height - above,
    )
