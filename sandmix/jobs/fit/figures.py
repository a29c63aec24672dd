"""The figures of *fit*."""

from __future__ import annotations

from sandmix.asking.job import Figures, Needs
from sandmix.jobs.fit import comparisons
from sandmix.jobs.fit.form import TO_MAKE, ResolvedFit
from sandmix.materials.metals import METALS, thermal
from sandmix.mould import body_orientation, flask, walls
from sandmix.mould.fit import CheckedFlask


def run(form: ResolvedFit) -> Figures:
    """Return the figures of the flask that is taken, and how the others compare."""
    others = comparisons.others(form, form.taken) or None
    return run_in_numbers(form) | {"others": others} | _of_the_orientations(form)


def run_in_numbers(form: ResolvedFit) -> Figures:
    """Return the figures of the flask that is taken, without those in words: only they have a likely range."""
    taken, mould, density, spare = form.taken, form.mould, form.rammed_density_kg_l, form.spare_pct / 100
    inside, margins, least = taken.inside, taken.margins, mould.smallest_flask()
    rammed = max(0.0, inside.volume_l - form.taken_l) * density
    make = flask.make_kg(rammed, spare)
    liquid = thermal(form.metal).liquid_kg_m3
    casting = form.count * form.volume_cm3 * 1e-6 * METALS[form.metal].solid_kg_m3
    drag, cope = flask.halves_kg(inside, density)
    both = drag + cope + form.frame_kg
    facing = form.count * form.body.layer_cm3(form.facing_mm) / 1000
    figures: Figures = {
        "flask_taken": taken.name,
        "rammed_kg": rammed,
        "make_kg": make,
        "sand_cost": None if form.cost_per_kg is None else make * form.cost_per_kg,
        "above_mm": None if form.is_open else margins.above_mm,
        "below_mm": margins.below_mm,
        "ends_mm": margins.ends_mm,
        "sides_mm": margins.sides_mm,
        "beside_mm": mould.clearance.beside_mm,
        "least_length_mm": least.length_mm,
        "least_width_mm": least.width_mm,
        "least_drag_mm": least.drag_depth_mm,
        "least_cope_mm": least.cope_depth_mm,
        "facing_l": facing,
        "facing_kg": facing * density,
        "drag_kg": drag,
        "cope_kg": cope,
        "frame_kg": form.frame_kg,
        "both_kg": both,
        "casting_kg": casting,
        "poured_kg": rammed + form.frame_kg + casting + form.gating_kg,
        "uplift_kg": None if form.is_open else body_orientation.uplift_kg(mould, inside.cope_depth_mm, liquid),
        "wall_kpa": walls.highest_kpa(inside, liquid),
        "wall_gives_mm": walls.wall_load(inside, form.wall_thickness_mm, liquid).deflection_mm,
        "wall_ties": walls.ties(inside, form.wall_thickness_mm, liquid),
        "clamps": walls.clamps(both),
        "cope_bars": walls.bars(inside),
    }
    return figures | _of_the_heap(form, taken, make) | (_to_cut(form) if taken.name == TO_MAKE else {})


def _of_the_heap(form: ResolvedFit, taken: CheckedFlask, make: float) -> Figures:
    """What is left over or missing, the filler that replaces it, and the space for filler."""
    if form.heap_kg is None:
        return {}
    missing, lay = make - form.heap_kg, taken.margins.layout
    cavity = (lay.length_mm, lay.width_mm, form.pattern_height_mm)
    return {
        "surplus_kg": -missing,
        "filler_to_add_l": flask.filler_for_l(missing, form.rammed_density_kg_l, form.spare_pct / 100),
        "filler_room_l": walls.filler_room_l(taken.inside, cavity),
        "mix_to_make_kg": missing,
    }


def _to_cut(form: ResolvedFit) -> Figures:
    """What to cut from the boards for a flask to make."""
    plan = form.cutting_plan
    if plan is None:
        return {}
    return {
        "cuts": [
            {
                "piece": cut.piece.name,
                "length_mm": cut.piece.length_mm,
                "width_mm": cut.piece.width_mm,
                "board": cut.board,
            }
            for cut in plan.cuts
        ],
        "boards_used": plan.boards,
        "boards_fewest": plan.fewest,
        "cut_length_mm": plan.length_mm,
    }


def _of_the_orientations(form: ResolvedFit) -> Figures:
    """The orientations compared, and the one to use; an open mould has only one."""
    if form.is_open:
        return {}
    suggested = body_orientation.suggested(form.orientations)
    return {"ways_up": comparisons.orientation_rows(form), "suggested_way": comparisons.named(suggested)}


def needs(form: ResolvedFit, figures: Figures) -> Needs:
    """Return what the answers need: the mass of the heap, a price, flasks and boards on hand."""
    heap = dict.fromkeys(("surplus_kg", "filler_to_add_l", "filler_room_l", "mix_to_make_kg"), ("heap_kg",))
    cut = {"cuts": ("boards",)} if figures["flask_taken"] == TO_MAKE else {}
    return {**heap, "sand_cost": ("cost_per_kg",), "others": ("flasks",), **cut}
