"""The figures of *gate*."""

from __future__ import annotations

import math
from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures, Needs
from sandmix.gating import filling, misrun, pouring_time, speed, sprue, torricelli
from sandmix.jobs.gate.form import ResolvedGate
from sandmix.materials.liquid_metals import LIQUIDS
from sandmix.materials.metals import METALS, thermal
from sandmix.maths.uncertainty import Band

GATE_WIDE = 4.0
"""A gate is so many times as wide as deep, where its depth is not given; but no deeper than the thinnest wall (own choice)."""
_MM2 = 100.0


def run(form: ResolvedGate) -> Figures:
    """Return the figures: the flow needs a head, the time a volume, freezing a wall, and the loss of temperature a crucible."""
    figures: Figures = {"speed_limit_m_s": speed.limit_m_s(form.tension_n_m, form.liquid_kg_m3)}
    figures |= _heat(form)
    choke = _flow(form, figures)
    if choke is not None:
        figures |= _areas(form, choke)
    figures |= _sprue(form, choke)
    if form.thinnest_mm is not None:
        figures |= _wall(form, form.thinnest_mm, poured_c(form, figures), figures)
    return figures


def finish(filled: Filled[ResolvedGate], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return the sticks for both ends of the sprue: the next larger sizes."""
    ends = {f"{end}_stick_mm": figures.get(f"{end}_mm") for end in ("sprue_base", "sprue_top")}
    return {word: sprue.stick_mm(size) for word, size in ends.items() if isinstance(size, float)}


def poured_c(form: ResolvedGate, figures: Figures) -> float:
    """Return the temperature at the mould: as given, or what is left of that in the furnace."""
    worked_out = figures.get("pour_temp_c")
    return worked_out if isinstance(worked_out, float) else form.pour_temp_c


def _heat(form: ResolvedGate) -> Figures:
    """What is lost between furnace and mould, forwards from the furnace where that is known, else backwards from the mould."""
    pot = form.pot
    if pot is None or form.carry_min is None:
        return {}
    if form.furnace_temp_c is not None:
        furnace, mould = form.furnace_temp_c, pot.after(form.furnace_temp_c, form.carry_min)
    else:
        hotter = pot.before(form.pour_temp_c, form.carry_min)
        if hotter is None:
            return {}
        furnace, mould = hotter, form.pour_temp_c
    return {
        "furnace_temp_c": furnace,
        "pour_temp_c": mould,
        "heat_loss_c": furnace - mould,
        "loss_per_min": 60 * pot.loss_c_s(furnace),
        "pour_within_min": pot.minutes_until(furnace, METALS[form.metal].pour_c[0]),
    }


def _flow(form: ResolvedGate, figures: Figures) -> float | None:
    """Set the times, and return the narrowest area, in cm²: from the gates, the time, the sprue, or else the usual time."""
    head, cavity, areas = form.over_gate_mm, form.cavity, form.areas
    if form.volume_cm3 is not None:
        mass_kg = form.volume_cm3 * 1e-6 * form.liquid_kg_m3
        usual_s = pouring_time.usual_s(form.metal, mass_kg, form.rule_wall_mm, form.gate_place)
        figures["rule_time_s"] = form.rule_share * usual_s
    choke = None
    if form.gate_cm2 is not None:
        choke = form.gate_cm2 * areas.choke / areas.gates
    elif form.fill_time_s is None and form.stream_mm is not None:
        choke = sprue.round_cm2(form.stream_mm) * areas.choke / areas.sprue
    if choke is not None:
        if cavity is not None and head is not None:
            figures["fill_time_s"] = filling.fill_s(cavity, choke, head, form.discharge)
        return choke
    time_s = form.fill_time_s if form.fill_time_s is not None else figures.get("rule_time_s")
    if not isinstance(time_s, float):
        return None
    figures["fill_time_s"] = time_s
    return None if cavity is None or head is None else filling.area_cm2(cavity, time_s, head, form.discharge)


def _areas(form: ResolvedGate, choke: float) -> Figures:
    """Runner and gates by the ratio, and how the metal flows in the gates."""
    areas, head = form.areas, form.over_gate_mm
    gates = choke * areas.gates / areas.choke
    one_mm2 = _MM2 * gates / form.gates_count
    depth = form.gate_depth_mm
    if depth is None:
        depth = min(math.sqrt(one_mm2 / GATE_WIDE), form.thinnest_mm or math.inf)
    figures: Figures = {
        "choke_cm2": choke,
        "gate_cm2": gates,
        "gate_depth_mm": depth,
        "gate_width_mm": one_mm2 / depth,
    }
    if form.gate_ratio:
        figures["runner_cm2"] = choke * areas.runner / areas.choke
    if head is not None:
        in_gates = torricelli.speed_m_s(head, form.discharge) * areas.choke / areas.gates
        limit = speed.limit_m_s(form.tension_n_m, form.liquid_kg_m3)
        viscosity = LIQUIDS[form.metal].viscosity_mpa_s
        figures["gate_speed_m_s"] = in_gates
        figures["reynolds"] = speed.reynolds(in_gates, gates / form.gates_count, form.liquid_kg_m3, viscosity)
        figures["gate_for_speed_cm2"] = gates * in_gates / limit
    return figures


def _sprue(form: ResolvedGate, choke: float | None) -> Figures:
    """Both ends of the sprue, and the volume of what is known of the gating."""
    areas, length = form.areas, form.length_mm
    base = form.base_mm
    if base is None and choke is not None:
        base = sprue.diameter_mm(choke * areas.sprue / areas.choke)
    if base is None:
        return {}
    figures: Figures = {"sprue_base_mm": base}
    top = form.sprue_top_mm
    if top is None and length is not None:
        top = sprue.top_mm(base, form.cup_mm, length)
    if top is not None:
        figures["sprue_top_mm"] = top
    if top is not None and length is not None and choke is not None:
        figures["gating_volume_cm3"] = sprue.volume_cm3(top, base, length) + _channels_cm3(form, choke)
    return figures


def _channels_cm3(form: ResolvedGate, choke: float) -> float:
    """What runner and gates hold, where their lengths are known."""
    unit = choke / form.areas.choke
    runner = unit * form.areas.runner * (form.runner_length_mm or 0.0)
    gates = unit * form.areas.gates * (form.gate_length_mm or 0.0)
    return (runner + gates) / 10


def _wall(form: ResolvedGate, wall_mm: float, poured: float, figures: Figures) -> Figures:
    """When the thinnest wall stops and freezes, and whether that is before the mould is full."""
    metal = thermal(form.metal)
    moisture = METALS[form.metal].target_moisture_pct_wet
    stopped = misrun.stops(metal, poured, wall_mm, moisture, gap_m2k_w=form.gap_m2k_w, solid_share=form.solid_share)
    cold = poured < metal.liquidus_c
    found: Figures = {"flow_stops_s": 0.0 if cold else stopped.flow_s, "wall_freeze_s": stopped.frozen_s}
    time_s, in_gates = figures.get("fill_time_s"), figures.get("gate_speed_m_s")
    if isinstance(time_s, float):
        found["freeze_first"] = cold or time_s >= stopped.frozen_s
    if isinstance(in_gates, float):
        found["flow_length_m"] = misrun.flow_length_m(
            metal, form.liquid_kg_m3, poured, wall_mm, in_gates, form.solid_share
        )
    return found


_HEAD, _VOLUME, _WALL = "head_mm", "fill_volume_cm3", "thinnest_mm"
_POT = ("pot_mm", "melt_kg", "carry_min")


def needs(form: ResolvedGate, figures: Figures) -> Needs:
    """Return the inputs that each answer needs."""
    flow: tuple[str, ...] = (_HEAD,) if form.over_gate_mm is None else ()
    if form.gate_cm2 is None and form.base_mm is None and form.volume_cm3 is None:
        flow = (_VOLUME, *flow)
    height = ("fill_height_mm",) if form.cavity is None and form.volume_cm3 is not None else ()
    time = (*((_VOLUME,) if form.volume_cm3 is None else ()), *flow, *height)
    sized = tuple(dict.fromkeys((*flow, *(height if form.gate_cm2 is None and form.base_mm is None else ()))))
    return {
        "fill_time_s": tuple(dict.fromkeys(time)),
        "gate_cm2": sized,
        "choke_cm2": sized,
        "gate_speed_m_s": sized,
        "reynolds": sized,
        "sprue_base_mm": sized,
        "sprue_top_mm": sized,
        "runner_cm2": ("gate_ratio", *sized),
        "wall_freeze_s": (_WALL,),
        "freeze_first": (_WALL,),
        "heat_loss_c": _POT,
    }
