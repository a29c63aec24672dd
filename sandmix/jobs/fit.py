"""The job *fit*: which flask for this pattern, what it clears, what it costs in sand, and the flask to make where none does."""

from __future__ import annotations

from .. import cutting, fit, flask, parting, walls
from ..cautions import DUST, LIFT, TURN
from ..fit import Judged
from ..forms.fit import TO_MAKE, Fit, settle
from ..job import Figures, Job, Lead, Needs, Next, Telling, Told
from ..metals import METALS, thermal
from ..vocabulary import WORDS
from ..wording import raised
from ..words import Quantity
from . import fit_says

_MOST_TAKEN = 0.999
"""Up to here what pattern and gating take of a flask is handed on: rounded there, it still leaves room for sand."""


def run(form: Fit) -> Figures:
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
        "others": fit_says.others(form, taken) or None,
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


def _of_the_heap(form: Fit, taken: Judged, make: float) -> Figures:
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


def _to_cut(form: Fit, taken: Judged) -> Figures:
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


def _ways(form: Fit) -> Figures:
    """The ways up compared, and the one to take; an open mould has but one."""
    if form.is_open:
        return {}
    return {
        "ways_up": [
            {
                "way": fit_says.named(way),
                "said": fit_says.way(way, form.rammed_density_kg_l),
                "sand_l": way.sand_l,
                "cope_mm": way.flask.cope_depth_mm,
                "draw_mm": way.draw_mm,
                "lift_kg": way.uplift_kg,
                "undercut_cm2": way.undercut_cm2,
            }
            for way in form.ways
        ],
        "suggested_way": fit_says.named(fit_says.suggestion(form.ways)),
    }


def needs(form: Fit, figures: Figures) -> Needs:
    """The heap's mass, a price and flasks on hand are each needed for what is told of them."""
    heap = dict.fromkeys(("surplus_kg", "filler_to_add_l", "filler_room_l", "mix_to_make_kg"), ("heap_kg",))
    cut = {"cuts": ("boards",)} if figures["flask_taken"] == TO_MAKE else {}
    return {**heap, "sand_cost": ("cost_per_kg",), "others": ("flasks",), **cut}


def tell(told: Told[Fit]) -> Telling:
    """Say which flask, how much sand it takes, and what else is to be known of it."""
    form = told.form
    taken = form.taken
    made = taken.name == TO_MAKE
    name = fit_says.sizes(taken.inside) if made else f"“{taken.name}”"
    if made:
        none = "None of the flasks on hand clears it. " if form.flasks and fit.smallest(form.judged) is None else ""
        headline = f"{none}Make one of {name} inside: it takes {told.text('make_kg')} of sand, spare included."
        state = ("make one", "care") if form.flasks else ("make one", "plain")
    elif taken.clears:
        headline, state = f"Take {name}: it takes {told.text('make_kg')} of sand, spare included.", ("fits", "go")
    else:
        headline = f"{raised(name)} is too small: {fit_says.lacking(taken.lacks)}."
        state = ("too small", "care")
    if told.has("surplus_kg") and told.number("surplus_kg") < 0 and taken.clears:
        headline += f" The heap is short by {told.text('mix_to_make_kg')}."
        state = ("short", "care")
    lead = Lead(
        word="make_kg",
        label="Sand for the one to make" if made else f"Sand for {taken.name}",
        text=told.text("make_kg"),
        then=told.within("make_kg"),
    )
    return Telling(
        headline=headline,
        state=state,
        lead=lead,
        remarks=tuple(fit_says.remarks(told)),
        cautions=(LIFT, TURN, DUST),
        working=tuple(fit_says.working(told)),
        checklist=tuple(fit_says.checklist(told)),
        drawings=fit_says.drawings(told),
        next=_next(told),
    )


def _next(told: Told[Fit]) -> tuple[Next, ...]:
    """The filling of this flask, and what holds its cope down, where their words can hold the figures."""
    form, inside = told.form, told.form.taken.inside
    sizes = {
        "flask_length_mm": inside.length_mm,
        "flask_width_mm": inside.width_mm,
        "drag_depth_mm": inside.drag_depth_mm,
        "cope_depth_mm": inside.cope_depth_mm,
        "pattern_length_mm": form.pattern_length_mm,
        "pattern_width_mm": form.pattern_width_mm,
        "pattern_height_mm": form.pattern_height_mm,
        "rammed_density_kg_l": form.rammed_density_kg_l,
        "spare_pct": form.spare_pct,
        "frame_kg": form.frame_kg,
    }
    if form.taken_l < _MOST_TAKEN * inside.volume_l:
        sizes |= {"pattern_volume_cm3": form.count * form.volume_cm3, "gating_volume_cm3": form.gating_volume_cm3}
    heap = {} if form.heap_kg is None else {"heap_kg": f"{form.heap_kg:g} kg"}
    steps = [("flask", "Fill this flask", sizes, heap)]
    if told.has("uplift_kg") and told.number("uplift_kg") > 0:
        outline_mm2 = form.count * form.body.in_cope(form.mould.in_drag_mm)[0]
        head_mm = told.number("uplift_kg") / (thermal(form.metal).liquid_kg_m3 * outline_mm2 * 1e-9)
        pour = {
            "casting_volume_cm3": form.count * form.volume_cm3,
            "projected_area_cm2": outline_mm2 / 100,
            "head_mm": head_mm,
        }
        steps.append(("pour", "What holds it down?", pour, {"metal": form.metal}))
    return tuple(
        Next(job=job, label=label, inputs={word: _amount(word, value) for word, value in amounts.items()} | more)
        for job, label, amounts, more in steps
        if all(_can_be(word, value) for word, value in amounts.items())
    )


def _amount(word: str, value: float) -> str:
    return f"{value:.5g} {getattr(WORDS[word], 'unit', '')}"


def _can_be(word: str, value: float) -> bool:
    declared = WORDS[word]
    return isinstance(declared, Quantity) and declared.low <= value <= declared.high


JOB = Job(
    name="fit",
    short="Choose a flask",
    title="Which flask for this pattern?",
    form=Fit,
    settle=settle,
    run=run,
    tell=tell,
    answers=(
        "flask_taken",
        "make_kg",
        "rammed_kg",
        "surplus_kg",
        "sand_cost",
        "above_mm",
        "below_mm",
        "ends_mm",
        "sides_mm",
        "beside_mm",
        "others",
        "least_length_mm",
        "least_width_mm",
        "least_drag_mm",
        "least_cope_mm",
        "cuts",
        "boards_used",
        "boards_fewest",
        "cut_length_mm",
        "filler_to_add_l",
        "filler_room_l",
        "mix_to_make_kg",
        "facing_kg",
        "facing_l",
        "drag_kg",
        "cope_kg",
        "frame_kg",
        "both_kg",
        "casting_kg",
        "poured_kg",
        "uplift_kg",
        "cope_bars",
        "clamps",
        "wall_ties",
        "wall_gives_mm",
        "wall_kpa",
        "ways_up",
        "suggested_way",
    ),
    needs=needs,
    example={
        "pattern_length_mm": "150 mm",
        "pattern_width_mm": "100 mm",
        "pattern_height_mm": "40 mm",
        "flasks": (
            '[{"name": "square", "flask_length_mm": 300, "flask_width_mm": 300, "drag_depth_mm": 100, "cope_depth_mm": 100}, '
            '{"name": "small", "flask_length_mm": 220, "flask_width_mm": 170, "drag_depth_mm": 90, "cope_depth_mm": 70}, '
            '{"name": "long", "flask_length_mm": 280, "flask_width_mm": 180, "drag_depth_mm": 90, "cope_depth_mm": 70}]'
        ),
        "heap_kg": "28 kg",
        "pattern_volume_cm3": "420 cm3",
        "gating_volume_cm3": "90 cm3",
    },
    story="A bracket with a flat back, three plywood flasks on the shelf, and a tub of 28 kg of sand.",
)
