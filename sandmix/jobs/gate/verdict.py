"""Whether the thinnest wall fills: the likely range of the filling time against those of the two times at which the metal stops."""

from __future__ import annotations

from sandmix.asking.job import Computed
from sandmix.gating.pouring_time import IRON
from sandmix.jobs.gate.form import ResolvedGate
from sandmix.materials.metals import METALS

FILLS = ("fills", "go")
TOO_FAST = ("fills, but too fast", "care")
MAY_NOT = ("may not fill", "care")
FREEZES = ("freezes first", "stop")
NOT_KNOWN = ("size it", "plain")


def verdict(computed: Computed[ResolvedGate]) -> tuple[str, str]:
    """Return the state and its tone.

    *freezes first*: even the shortest filling takes longer than the longest freezing, or the metal arrives partly frozen. *fills*: even the
    longest filling is shorter than the time for which the metal flows in perfect contact with the sand, which is the harshest. In between it may
    not fill. Where it fills, metal that leaves the gates faster than its skin holds is named, except for iron.
    """
    if arrives_frozen(computed):
        return FREEZES
    if not computed.has("fill_time_s") or not computed.has("flow_stops_s"):
        return NOT_KNOWN
    fill, frozen = _ends(computed, "fill_time_s"), _ends(computed, "wall_freeze_s")
    if fill[0] > frozen[1]:
        return FREEZES
    if fill[1] > computed.number("flow_stops_s"):
        return MAY_NOT
    return TOO_FAST if is_too_fast(computed) else FILLS


def arrives_frozen(computed: Computed[ResolvedGate]) -> bool:
    """Return whether the metal is below its liquidus when it reaches the mould."""
    return computed.has("pour_temp_c") and computed.number("pour_temp_c") < METALS[computed.form.metal].liquidus_c


def is_too_fast(computed: Computed[ResolvedGate]) -> bool:
    """Return whether the metal leaves the gates faster than its skin holds; never for iron."""
    if computed.form.metal in IRON or not computed.has("gate_speed_m_s"):
        return False
    return computed.number("gate_speed_m_s") > computed.number("speed_limit_m_s")


def _ends(computed: Computed[ResolvedGate], word: str) -> tuple[float, float]:
    value = computed.number(word)
    return computed.doubt.get(word, (value, value))
