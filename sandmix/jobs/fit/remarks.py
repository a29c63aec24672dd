"""What *fit* says beside its figures: the other flasks, the ways up, remarks, working, and the section."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from sandmix.asking.job import Check, Computed
from sandmix.drawings import flask_drawing, flask_section
from sandmix.jobs.fit.form import TO_MAKE, FitForm
from sandmix.language.wording import list_of, plain, raised, to_figures
from sandmix.materials.metals import METALS, thermal
from sandmix.mould import cutting, fit, flask, parting, walls
from sandmix.mould.body import SHAPES
from sandmix.mould.fit import Judged
from sandmix.mould.flask import Flask

ONE_LIFTS_KG, STRONG_LIFTS_KG = 16.0, 25.0
CLOSE_MM = 2.0
SHALLOW_COPE_MM = 40.0
HOME_UP_TO_KG = 5.0


def sizes(inside: Flask) -> str:
    """Return the inside of a flask in words.

    >>> sizes(Flask(length_mm=300, width_mm=200, drag_depth_mm=90, cope_depth_mm=0))
    '300 × 200 mm, drag 90'
    """
    cope = f", cope {inside.cope_depth_mm:g}" if inside.cope_depth_mm else ""
    return f"{inside.length_mm:g} × {inside.width_mm:g} mm, drag {inside.drag_depth_mm:g}{cope}"


def lacking(lacks: Mapping[str, float]) -> str:
    """Return what is missing where.

    >>> lacking({"above": 12.0, "at the ends": 4.5})
    '12 mm short above, 4.5 mm short at the ends'
    """
    return ", ".join(f"{to_figures(mm, 3)} mm short {where}" for where, mm in lacks.items())


def others(form: FitForm, taken: Judged) -> list[dict[str, object]]:
    """Return a row for each flask on hand that is not taken: what it costs more, or what it lacks."""
    rows: list[dict[str, object]] = []
    for each in form.judged:
        if each.name == taken.name:
            continue
        if not each.clears:
            rows.append({"name": each.name, "said": f"it does not clear, {lacking(each.lacks)}"})
            continue
        extra = fit.extra_kg(each.inside, taken.inside, form.rammed_density_kg_l, form.spare_pct / 100)
        row: dict[str, object] = {
            "name": each.name,
            "said": f"it takes {to_figures(abs(extra), 3)} kg of sand {'more' if extra >= 0 else 'less'}",
        }
        if extra >= 0:
            row["extra_kg"] = extra
            if form.cost_per_kg is not None:
                row["extra_cost"] = extra * form.cost_per_kg
                row["said"] = f"{row['said']}, and costs {extra * form.cost_per_kg:.2f} more"
        rows.append(row)
    return rows


def way(found: parting.WayUp, density: float) -> str:
    """Return one way up in words: sand and cope of the smallest flask, draw, uplift, and what is against it."""
    against = f", but {to_figures(found.undercut_cm2, 2)} cm2 of it would tear the sand" if found.undercut_cm2 else ""
    return (
        f"{to_figures(found.sand_l * density, 3)} kg of sand, cope {found.flask.cope_depth_mm:g}, draw "
        f"{to_figures(found.draw_mm, 3)} mm, uplift {to_figures(found.uplift_kg, 2)} kg{against}"
    )


def suggestion(found: Sequence[parting.WayUp]) -> parting.WayUp:
    """Return the way up to take: as it lies, unless another that can be drawn saves a tenth of the sand."""
    here, least = parting.best(found, "height"), parting.best(found)
    return least if least.sand_l < here.sand_l * parting.MUCH_LESS else here


def named(way: parting.WayUp) -> str:
    """Return which way up, in words."""
    return f"{way.up} up, parted {way.place}"


def _of_the_way(form: FitForm) -> Iterable[str]:
    """Why the way up that is suggested, where it is not how the pattern lies."""
    here, taken = parting.best(form.ways, "height"), suggestion(form.ways)
    if taken.up == "height":
        return
    saved = 100 * (1 - taken.sand_l / here.sand_l)
    draw = "deeper" if taken.draw_mm > here.draw_mm else "no deeper"
    yield (
        f"With its {taken.up} up, parted {taken.place}, it would take {saved:.0f} % less sand than as it lies; cope "
        f"{taken.flask.cope_depth_mm:g} mm, and the draw is {draw}, {to_figures(taken.draw_mm, 3)} mm."
    )


def remarks(computed: Computed[FitForm]) -> Iterable[str]:
    """Yield what is to be known of the flask, the sand, the walls and the lift."""
    form = computed.form
    taken, mould = form.taken, form.mould
    yield from _of_the_pattern(computed)
    if not taken.clears and taken.name != TO_MAKE:
        smallest = fit.smallest(form.judged)
        instead = f"“{smallest.name}” clears it" if smallest else f"one of {sizes(mould.least())} would clear it"
        yield f"This flask leaves too little sand: {lacking(taken.lacks)}. {raised(instead)}."
    elif taken.name != TO_MAKE and _least_spare(taken, form) < CLOSE_MM:
        yield "It clears with less than 2 mm to spare: measure flask and pattern again before you ram."
    yield from _of_the_others(computed)
    yield from _of_the_heap(computed)
    yield from _of_the_wood(computed)
    yield from _of_the_lift(computed)
    if not form.is_open:
        yield from _of_the_way(form)
    if form.is_open:
        yield "An open top: no cope, no weights, and the upper face of the casting stays rough."
    elif taken.inside.cope_depth_mm < SHALLOW_COPE_MM:
        yield "A cope of less than 40 mm is shallow: it breaks out over the casting."


def _of_the_others(computed: Computed[FitForm]) -> Iterable[str]:
    rows = computed.figures.get("others")
    for row in rows if isinstance(rows, list) else ():
        yield f"“{row['name']}”: {row['said']}."


def _least_spare(taken: Judged, form: FitForm) -> float:
    clear, room = form.clearance, taken.room
    spare = [room.below_mm - clear.below_mm, room.ends_mm - clear.beside_mm, room.sides_mm - clear.beside_mm]
    return min(spare if form.is_open else [*spare, room.above_mm - clear.above_mm])


def _of_the_pattern(computed: Computed[FitForm]) -> Iterable[str]:
    form, mould = computed.form, computed.form.mould
    undercut = form.body.undercut_cm2(mould.in_drag_mm)
    if undercut:
        yield (
            f"Parted there it can't be drawn: seen straight up and down, {to_figures(undercut, 2)} cm2 of it hold it in the "
            f"sand. Part it {to_figures(form.pattern_height_mm / 2, 3)} mm above its underside."
        )
    one_kg = computed.number("casting_kg") / form.count
    if form.clearance_rule == "home" and one_kg > HOME_UP_TO_KG:
        yield f"The home rule is for small castings, and this one weighs {to_figures(one_kg, 2)} kg: the trade's rule asks for more sand."
    if form.pattern_shape == "box" and not form.is_open:
        yield "Upright sides want draft, 1 to 2 mm of taper in 100 mm, or the sand tears as the pattern is drawn."


def _of_the_heap(computed: Computed[FitForm]) -> Iterable[str]:
    if not computed.has("surplus_kg") or computed.number("surplus_kg") >= 0:
        return
    form = computed.form
    if form.heap_kg is not None and form.heap_kg >= computed.number("rammed_kg"):
        yield f"The heap covers the {computed.text('rammed_kg')} that are rammed in, but not the spare: every spill would be missed."
    yield from _of_the_least(computed)
    wanted, room = computed.number("filler_to_add_l"), computed.number("filler_room_l")
    if wanted <= room:
        yield (
            f"{computed.text('filler_to_add_l')} of dry filler blocks would make up for the missing sand, of {computed.text('filler_room_l')} that "
            "have room at least 50 mm from the cavity."
        )
    else:
        yield (
            f"Filler blocks alone can't make up for it: it would take {computed.text('filler_to_add_l')}, and only "
            f"{computed.text('filler_room_l')} have room at least 50 mm from the cavity."
        )
    yield f"Or mix {computed.text('mix_to_make_kg')} of new sand."


def _of_the_least(computed: Computed[FitForm]) -> Iterable[str]:
    """The smallest flask that clears the pattern, where the heap fills that and not the one on hand."""
    form = computed.form
    least = form.mould.least()
    assert form.heap_kg is not None
    kg = flask.make_kg(max(0.0, least.volume_l - form.taken_l) * form.rammed_density_kg_l, form.spare_pct / 100)
    if form.taken.name != TO_MAKE and kg <= form.heap_kg:
        yield f"The heap would fill a smaller one, to be made: {sizes(least)} inside takes {to_figures(kg, 3)} kg, spare included."


def _of_the_wood(computed: Computed[FitForm]) -> Iterable[str]:
    form, inside = computed.form, computed.form.taken.inside
    ties = computed.number("wall_ties")
    if ties:
        yield (
            f"The long walls want {list_of_ties(int(ties))} across the flask in {form.wall_thickness_mm:g} mm plywood, or thicker wood. "
            "That is by an upper limit of the push."
        )
    if computed.number("cope_bars"):
        over = inside.cope_depth_mm - form.mould.in_cope_mm - walls.BAR_FROM_PATTERN_MM
        bars = int(computed.number("cope_bars"))
        deep = f", at most {to_figures(over, 3)} mm deep over the pattern" if over > 0 else ""
        yield (
            f"The cope wants {bars} {'bar' if bars == 1 else 'bars'} across its width, no nearer than 19 mm to the pattern{deep}."
        )
    if form.taken.name == TO_MAKE and form.stock:
        yield from _of_the_boards(computed)


def list_of_ties(count: int) -> str:
    """Return how many ties, in words.

    >>> list_of_ties(1), list_of_ties(3), list_of_ties(20)
    ('1 cleat or clamp', '3 cleats or clamps', '20 or more cleats or clamps')
    """
    if count >= walls.MOST_TIES:
        return f"{count} or more cleats or clamps"
    return "1 cleat or clamp" if count == 1 else f"{count} cleats or clamps"


def _of_the_boards(computed: Computed[FitForm]) -> Iterable[str]:
    form = computed.form
    plan = cutting.plan(form.taken.inside, form.stock)
    assert plan is not None
    if plan.missing:
        lacks = list_of(
            tuple(
                dict.fromkeys(
                    f"{piece.name} {plain(piece.length_mm)} × {plain(piece.width_mm)} mm" for piece in plan.missing
                )
            )
        )
        yield f"The boards do not suffice, nothing is left to cut these from: {lacks.replace(' or ', ' and ')}."
    elif plan.boards <= plan.fewest:
        yield f"{plan.boards} of the boards are begun, and no plan needs fewer."
    else:
        yield (
            f"{plan.boards} of the boards are begun, by a greedy plan. By area alone {plan.fewest} might do: look at it "
            "again before you saw."
        )
    if plan.thickness_mm != form.wall_thickness_mm:
        yield f"The boards are {plan.thickness_mm:g} mm thick, the walls were reckoned as {form.wall_thickness_mm:g} mm."


def _of_the_lift(computed: Computed[FitForm]) -> Iterable[str]:
    both, cope = computed.number("both_kg"), computed.number("cope_kg")
    if both > ONE_LIFTS_KG:
        above = (
            "above both guideline figures, about 16 and 25 kg"
            if both > STRONG_LIFTS_KG
            else "above the lower guideline figure, about 16 kg"
        )
        yield f"Both halves come to {computed.text('both_kg')}, {above}: two people, or ram it where it is poured."
    if cope > ONE_LIFTS_KG:
        yield f"The cope alone is {computed.text('cope_kg')} of sand: it is lifted at arm's length, so lift it with two."


def working(computed: Computed[FitForm]) -> Iterable[str]:
    """Yield the arithmetic."""
    form = computed.form
    taken, mould, body = form.taken, form.mould, form.body
    inside, clear, lay = taken.inside, form.clearance, taken.room.layout
    one_kg = computed.number("casting_kg") / form.count
    yield (
        f"one casting = {form.volume_cm3:.4g} cm3 × {METALS[form.metal].solid_kg_m3:g} kg/m3 = {one_kg:.3g} kg, so it wants "
        f"{clear.above_mm:g} mm above, {clear.below_mm:g} below, {clear.beside_mm:g} beside, {clear.between_mm:g} between"
    )
    yield (
        f"{form.count} in {lay.columns} × {lay.rows}, with the sprue {lay.length_mm:.4g} × {lay.width_mm:.4g} mm, in "
        f"{inside.length_mm:g} × {inside.width_mm:g} mm: {computed.number('ends_mm'):.4g} mm at each end, "
        f"{computed.number('sides_mm'):.4g} at each side"
    )
    yield (
        f"{mould.in_drag_mm:.4g} mm of the height in the drag, {mould.in_cope_mm:.4g} in the cope: {taken.room.below_mm:.4g} mm below"
        + ("" if form.is_open else f", {taken.room.above_mm:.4g} above")
    )
    yield (
        f"rammed = ({inside.volume_l:.2f} − {form.taken_l:.2f}) L × {form.rammed_density_kg_l:g} kg/L = "
        f"{computed.number('rammed_kg'):.2f} kg, with {form.spare_pct:g} % spare {computed.number('make_kg'):.2f} kg"
    )
    if form.facing_mm:
        t = form.facing_mm
        yield (
            f"facing = A t + M t² + 4/3 π t³ = {body.area_mm2 / 100:.4g} cm2 × {t:g} mm + {body.curvature_mm:.4g} mm × ({t:g} mm)² + "
            f"4/3 π ({t:g} mm)³ = {body.layer_cm3(t):.4g} cm3 about each, {SHAPES[form.pattern_shape]}"
        )
    for found in () if form.is_open else form.ways:
        yield f"{named(found)}: {way(found, form.rammed_density_kg_l)}"
    push = walls.push(inside, form.wall_thickness_mm, thermal(form.metal).liquid_kg_m3)
    yield (
        f"wall = {push.metal_kpa:.2f} kPa of metal gives {push.metal_mm:.3g} mm, a blow of {push.blow_n:g} N "
        f"sideways {push.blow_mm:.3g} mm, as a beam of "
        f"{form.wall_thickness_mm:g} mm plywood of {walls.PLYWOOD_N_MM2:g} N/mm2 that rests at its corners"
    )
    yield (
        f"poured = {computed.number('rammed_kg'):.2f} kg sand + {form.frame_kg:.2f} kg wood + {computed.number('casting_kg'):.2f} kg castings + "
        f"{form.gating_volume_cm3 * 1e-6 * METALS[form.metal].solid_kg_m3:.2f} kg gating = "
        f"{computed.number('poured_kg'):.2f} kg"
    )


def checklist(computed: Computed[FitForm]) -> Iterable[Check]:
    """Yield the pieces to cut, alike ones of one board together."""
    form = computed.form
    plan = cutting.plan(form.taken.inside, form.stock) if computed.has("cuts") else None
    counted = Counter((cut.board, cut.piece) for cut in plan.cuts) if plan else {}
    for (board, piece), count in counted.items():
        alike = f"{count} × " if count > 1 else ""
        yield Check(
            tone="plain",
            text=f"Cut {alike}{piece.name} {plain(piece.length_mm)} × {plain(piece.width_mm)} mm from {board}.",
        )


def drawings(computed: Computed[FitForm]) -> dict[str, str]:
    """Return the section of the flask that is taken."""
    form = computed.form
    taken, mould = form.taken, form.mould
    drawn = flask_section.of_mould(
        taken.inside,
        mould,
        taken.room,
        wall_mm=form.wall_thickness_mm,
        bars=int(computed.number("cope_bars")),
        burnt_mm=form.burnt_depth_mm or 0.0,
        dry_mm=form.dry_depth_mm or 0.0,
        filler_l=max(0.0, computed.number("filler_to_add_l")) if computed.has("filler_to_add_l") else 0.0,
    )
    if drawn is None:
        return {}
    return {"section": flask_drawing.draw(drawn, "fit-section", f"Section of {sizes(taken.inside)}, to scale")}
