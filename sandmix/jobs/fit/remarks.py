"""The remarks of *fit*: on the flask, the pattern, the heap, the walls, the load to lift and the orientation."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Computed, WayOut
from sandmix.jobs.fit.comparisons import lacking, sizes
from sandmix.jobs.fit.form import TO_MAKE, ResolvedFit
from sandmix.jobs.shared import flasks
from sandmix.jobs.shared.orientations import TAPER
from sandmix.language.wording import list_of, plain, raised, to_figures
from sandmix.mould import body_orientation, fit, flask, walls
from sandmix.mould.cutting import CuttingPlan

CLOSE_MM = 2.0
HOME_UP_TO_KG = 5.0


def remarks(computed: Computed[ResolvedFit]) -> Iterable[str]:
    """Yield all remarks."""
    form = computed.form
    yield from _of_the_pattern(computed)
    yield from _of_the_flask(form)
    yield from _of_the_others(computed)
    yield from _of_the_heap(computed)
    yield from _of_the_walls(computed)
    yield from flasks.of_the_load(computed, wood=True)
    if not form.is_open:
        yield from _of_the_orientation(form)
    yield from flasks.of_the_cope(form.taken.inside)


def _of_the_pattern(computed: Computed[ResolvedFit]) -> Iterable[str]:
    form = computed.form
    undercut = form.body.undercut_cm2(form.mould.in_drag_mm)
    if undercut:
        yield WayOut(
            f"With this parting the pattern can't be drawn: {to_figures(undercut, 2)} cm² of it is undercut, as seen "
            f"from above and below. Put the parting {to_figures(form.pattern_height_mm / 2, 3)} mm above its underside."
        )
    one_kg = computed.number("casting_kg") / form.count
    if form.clearance_rule == "home" and one_kg > HOME_UP_TO_KG:
        yield (
            f"The home rule is for small castings, and this one weighs {to_figures(one_kg, 2)} kg. The trade rule leaves "
            "more sand."
        )
    if form.pattern_shape == "box" and not form.is_open:
        yield (f"Upright sides need draft: {TAPER}. Without it the sand tears when you draw the pattern.")


def _of_the_flask(form: ResolvedFit) -> Iterable[str]:
    taken = form.taken
    if taken.name == TO_MAKE:
        return
    if not taken.clears:
        smallest = fit.smallest(form.checked)
        instead = f"“{smallest.name}”" if smallest else f"one of {sizes(form.mould.smallest_flask())}"
        yield WayOut(
            f"This flask leaves too little sand: {lacking(taken.lacks)}. {raised(instead)} would be large enough."
        )
        return
    need, left = form.clearance, taken.margins
    spare = [left.below_mm - need.below_mm, left.ends_mm - need.beside_mm, left.sides_mm - need.beside_mm]
    if min(spare if form.is_open else [*spare, left.above_mm - need.above_mm]) < CLOSE_MM:
        yield WayOut(f"It clears by less than {CLOSE_MM:g} mm. Measure the flask and the pattern again before you ram.")


def _of_the_others(computed: Computed[ResolvedFit]) -> Iterable[str]:
    form = computed.form
    without_cope = [each.name for each in form.checked if not each.clears and not each.inside.cope_depth_mm]
    if without_cope and not form.is_open:
        names = list_of([f"“{name}”" for name in without_cope], "and")
        yield WayOut(
            f"No cope depth was entered for {names}. Without a cope a flask suits an open-top mould only. If there is one, enter its depth."
        )
    rows = computed.figures.get("others")
    for row in rows if isinstance(rows, list) else ():
        yield f"“{row['name']}”: {row['said']}."


def _of_the_heap(computed: Computed[ResolvedFit]) -> Iterable[str]:
    form = computed.form
    if form.heap_kg is None or computed.number("surplus_kg") >= 0:
        return
    yield from flasks.of_the_spare(computed, form.heap_kg)
    least = form.mould.smallest_flask()
    rammed = max(0.0, least.volume_l - form.taken_l) * form.rammed_density_kg_l
    make = flask.make_kg(rammed, form.spare_pct / 100)
    if form.taken.name != TO_MAKE and make <= form.heap_kg:
        yield WayOut(
            f"The heap is enough for a smaller flask that you would have to make: {sizes(least)} inside needs "
            f"{to_figures(make, 3)} kg, spare included."
        )
    filler, space = computed.text("filler_to_add_l"), computed.text("filler_room_l")
    if computed.number("filler_to_add_l") <= computed.number("filler_room_l"):
        yield WayOut(
            f"{filler} of dry filler blocks would replace the missing sand. There is space for {space} {flasks.FILLER}."
        )
    else:
        yield WayOut(
            f"Filler blocks alone can't replace the missing sand: it would take {filler}, and there is space for only "
            f"{space} {flasks.FILLER}."
        )
    yield WayOut(f"Or mix {computed.text('mix_to_make_kg')} of new sand.")


def _of_the_walls(computed: Computed[ResolvedFit]) -> Iterable[str]:
    form, ties, bars = computed.form, int(computed.number("wall_ties")), int(computed.number("cope_bars"))
    if ties:
        yield (
            f"In {form.wall_thickness_mm:g} mm plywood the long walls need {_ties(ties)} across the flask; thicker wood "
            "needs fewer. This uses the highest push that could occur."
        )
    if bars:
        over = form.taken.inside.cope_depth_mm - form.mould.in_cope_mm - walls.BAR_FROM_PATTERN_MM
        deep = f" and at most {to_figures(over, 3)} mm deep above the pattern" if over > 0 else ""
        yield f"The cope needs {bars} bar{'' if bars == 1 else 's'} across its width, {flasks.BARS}{deep}."
    plan = form.cutting_plan
    if plan:
        yield from _of_the_boards(plan, form.wall_thickness_mm)


def _ties(count: int) -> str:
    if count >= walls.MOST_TIES:
        return f"{count} or more cleats or clamps"
    return "1 cleat or clamp" if count == 1 else f"{count} cleats or clamps"


def _of_the_boards(plan: CuttingPlan, wall_mm: float) -> Iterable[str]:
    if plan.missing:
        pieces = dict.fromkeys(
            f"{piece.name} {plain(piece.length_mm)} × {plain(piece.width_mm)} mm" for piece in plan.missing
        )
        yield WayOut(
            f"The boards are not enough. These pieces can't be cut from them: {list_of(tuple(pieces), 'and')}."
        )
    elif plan.boards <= plan.fewest:
        yield f"Boards used: {plan.boards}. No plan needs fewer."
    else:
        yield (
            f"Boards used: {plan.boards}. By their area alone {plan.fewest} could be enough: look for a better plan before "
            "you saw."
        )
    if plan.thickness_mm != wall_mm:
        yield f"The boards are {plan.thickness_mm:g} mm thick, and the walls are calculated as {wall_mm:g} mm."


def _of_the_orientation(form: ResolvedFit) -> Iterable[str]:
    """Which orientation is suggested, where it is not the one that was given."""
    given, better = body_orientation.best(form.orientations, "height"), body_orientation.suggested(form.orientations)
    if better.up == "height":
        return
    saved = 100 * (1 - better.sand_l / given.sand_l)
    draw = "deeper" if better.draw_mm > given.draw_mm else "no deeper"
    yield (
        f"With its {better.up} upright, parted {better.place}, the pattern needs {saved:.0f} % less sand than as given. "
        f"The cope is then {better.flask.cope_depth_mm:g} mm, and the draw is {draw}: {to_figures(better.draw_mm, 3)} mm."
    )
