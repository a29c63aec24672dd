"""The figures of *fit*."""

from __future__ import annotations

from sandmix.asking.job import Figures, Needs
from sandmix.jobs.fit import remarks
from sandmix.jobs.fit.form import TO_MAKE, FitForm
from sandmix.materials.metals import METALS, thermal
from sandmix.mould import cutting, flask, parting, walls
from sandmix.mould.fit import Judged


def run(form: FitForm) -> Figures:
    """Return the figures of the flask that is taken, and how the others compare."""
    taken, mould, density, spare = form.taken, form.mould, form.rammed_density_kg_l, form.spare_pct / 100
    inside, room, least = taken.inside, taken.room, mould.least()
    rammed = max(0.0, inside.volume_l - form.taken_l) * density
    make = flask.make_kg(rammed, spare)
    metal, liquid = METALS[form.metal], thermal(form.metal).liquid_kg_m3
    casting = form.count * form.volume_cm3 * 1e-6 * metal.solid_kg_m3
    drag, cope = (depth * inside.area_l_per_mm * density for depth in (inside.drag_depth_mm, inside.cope_depth_mm))
    both = drag + cope + form.frame_kg
    push = walls.push(inside, form.wall_thickness_mm, liquid)
    facing = form.count * form.body.layer_cm3(form.facing_mm) / 1000
    figures: Figures = {
        "flask_taken": taken.name,
        "rammed_kg": rammed,
        "make_kg": make,
        "sand_cost": None if form.cost_per_kg is None else make * form.cost_per_kg,
        "above_mm": None if form.is_open else room.above_mm,
        "below_mm": room.below_mm,
        "ends_mm": room.ends_mm,
        "sides_mm": room.sides_mm,
        "beside_mm": mould.clearance.beside_mm,
        "others": remarks.others(form, taken) or None,
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
        "poured_kg": rammed + form.frame_kg + casting + form.gating_volume_cm3 * 1e-6 * metal.solid_kg_m3,
        "uplift_kg": None if form.is_open else parting.uplift_kg(mould, inside.cope_depth_mm, liquid),
        "wall_kpa": walls.hardest_kpa(inside, liquid),
        "wall_gives_mm": push.gives_mm,
        "wall_ties": walls.ties(inside, form.wall_thickness_mm, liquid),
        "clamps": walls.clamps(both),
        "cope_bars": walls.bars(inside),
    }
    return figures | _of_the_heap(form, taken, make) | _to_cut(form, taken) | _ways(form)


def _of_the_heap(form: FitForm, taken: Judged, make: float) -> Figures:
    """What the heap leaves over or lacks; the filler that makes up for it, and the room that there is for filler."""
    if form.heap_kg is None:
        return {}
    short = make - form.heap_kg
    lay = taken.room.layout
    cavity = (lay.length_mm, lay.width_mm, form.pattern_height_mm)
    return {
        "surplus_kg": -short,
        "filler_to_add_l": short / (form.rammed_density_kg_l * (1 + form.spare_pct / 100)),
        "filler_room_l": walls.filler_room_l(taken.inside, cavity),
        "mix_to_make_kg": short,
    }


def _to_cut(form: FitForm, taken: Judged) -> Figures:
    """What to cut from the boards for a flask to make."""
    plan = cutting.plan(taken.inside, form.stock) if taken.name == TO_MAKE else None
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


def _ways(form: FitForm) -> Figures:
    """The ways up compared, and the one to take; an open mould has but one."""
    if form.is_open:
        return {}
    return {
        "ways_up": [
            {
                "way": remarks.named(way),
                "said": remarks.way(way, form.rammed_density_kg_l),
                "sand_l": way.sand_l,
                "cope_mm": way.flask.cope_depth_mm,
                "draw_mm": way.draw_mm,
                "lift_kg": way.uplift_kg,
                "undercut_cm2": way.undercut_cm2,
            }
            for way in form.ways
        ],
        "suggested_way": remarks.named(remarks.suggestion(form.ways)),
    }


def needs(form: FitForm, figures: Figures) -> Needs:
    """The heap's mass, a price and flasks on hand are each needed for what is told of them."""
    heap = dict.fromkeys(("surplus_kg", "filler_to_add_l", "filler_room_l", "mix_to_make_kg"), ("heap_kg",))
    cut = {"cuts": ("boards",)} if figures["flask_taken"] == TO_MAKE else {}
    return {**heap, "sand_cost": ("cost_per_kg",), "others": ("flasks",), **cut}
