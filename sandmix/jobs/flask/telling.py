"""What *flask* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import DUST, LIFT, TURN
from sandmix.asking.job import Computed, Lead, Next, Telling
from sandmix.drawings import flask_drawing, flask_section
from sandmix.jobs.flask.form import FlaskForm, mould
from sandmix.mould import flask, walls
from sandmix.mould.clearance import room

WALL_MM = 18.0
"""Wood of the walls in the section."""


def tell(computed: Computed[FlaskForm]) -> Telling:
    """Say whether the sand suffices, and what to do if not."""
    form = computed.form
    lifts = (
        f"cope {computed.text('cope_kg')}, both halves {computed.text('both_kg')}"
        if form.cope_depth_mm
        else f"{computed.text('both_kg')}"
    )
    if form.heap_kg is None:
        headline, state = (
            f"It takes {computed.text('make_kg')} of sand, spare included. Lift: {lifts}.",
            ("size it", "plain"),
        )
        lead = Lead(word="make_kg", label="Have ready", text=computed.text("make_kg"), then=computed.within("make_kg"))
    elif computed.number("surplus_kg") >= 0:
        headline, state = (
            f"Enough: {computed.text('make_kg')} of the {form.heap_kg:g} kg, spare included. Lift: {lifts}.",
            ("enough", "go"),
        )
        lead = Lead(
            word="surplus_kg",
            label="Enough, left over",
            text=computed.text("surplus_kg"),
            then=computed.within("surplus_kg"),
        )
    else:
        headline, state = (
            f"Short: it takes {computed.text('make_kg')} with spare, the heap holds {form.heap_kg:g} kg. Lift: {lifts}.",
            ("short", "care"),
        )
        lead = Lead(
            word="mix_to_make_kg",
            label="Short by",
            text=computed.text("mix_to_make_kg"),
            then=computed.within("mix_to_make_kg"),
        )
    return Telling(
        headline=headline,
        state=state,
        lead=lead,
        remarks=tuple(_remarks(computed)),
        cautions=(LIFT, TURN, DUST),
        working=tuple(_working(computed)),
        drawings=_section(form),
        next=(*_next(computed), *_smaller(form)),
    )


def _section(form: FlaskForm) -> dict[str, str]:
    """The pattern as a block in this flask, where it goes in."""
    if form.block is None:
        return {}
    inside, laid = form.inside, mould(form, form.block)
    drawn = flask_section.of_mould(inside, laid, room(inside, laid), wall_mm=WALL_MM, bars=walls.bars(inside))
    return (
        {}
        if drawn is None
        else {"section": flask_drawing.draw(drawn, "flask-section", "Section of the flask, to scale")}
    )


def _next(computed: Computed[FlaskForm]) -> tuple[Next, ...]:
    if computed.form.heap_kg is None:
        return (Next(job="mix", label="Mix that much", inputs=computed.carried(make_kg="make_kg")),)
    if computed.number("surplus_kg") < 0:
        return (Next(job="mix", label="Mix what is short", inputs=computed.carried(make_kg="mix_to_make_kg")),)
    return ()


def _smaller(form: FlaskForm) -> tuple[Next, ...]:
    """Where the pattern's sizes are known, the flask that would do with less sand."""
    if form.block is None:
        return ()
    sizes = {"length": form.block.length_mm, "width": form.block.width_mm, "height": form.block.height_mm}
    if not all(1 <= size <= 3000 for size in sizes.values()):
        return ()
    inputs = {f"pattern_{name}_mm": f"{size:.4g} mm" for name, size in sizes.items()}
    return (Next(job="fit", label="Would a smaller flask do?", inputs=inputs),)


def _remarks(computed: Computed[FlaskForm]) -> Iterable[str]:
    form, inside = computed.form, computed.form.inside
    if form.heap_kg is not None:
        yield from _ways_out(computed)
        low, high = computed.doubt["surplus_kg"]
        if low < 0 < high:
            yield (
                f"It is a close thing: between {abs(low):.1f} kg short and {high:.1f} kg over (95 %). Weigh one "
                "rammed flask to know your own rammed density."
            )
    if form.pattern_mm is None:
        yield (
            "Whether the flask clears the pattern is unchecked: no pattern sizes are given. Leave at least "
            f"{computed.number('beside_mm'):.0f} mm beside it."
        )
    elif not flask.clears(inside.length_mm, inside.width_mm, *form.pattern_mm, computed.number("beside_mm")):
        yield (
            f"Less than {computed.number('beside_mm'):.0f} mm of sand would stand beside the pattern in this flask: it "
            "may break through when it is turned or poured."
        )
    if form.cope_depth_mm == 0:
        yield "Cope depth 0 is taken as an open-top mould: the top of the casting stays rough."
    elif form.cope_depth_mm < 40:
        yield "A cope of less than 40 mm is shallow: it breaks out over the casting."
    if max(inside.length_mm, inside.width_mm) > 350:
        yield "A flask this wide wants bars across the cope, no nearer than 19 mm to the pattern."
    if computed.number("both_kg") > 16:
        yield f"{computed.text('both_kg')} is to be turned over: two people, or ram it where it will be poured."


def _ways_out(computed: Computed[FlaskForm]) -> Iterable[str]:
    form, inside = computed.form, computed.form.inside
    if computed.number("surplus_kg") >= 0 or form.heap_kg is None:
        return
    if form.heap_kg >= computed.number("rammed_kg"):
        yield (
            f"The heap covers the {computed.text('rammed_kg')} that are rammed in, but not the spare: every spill would "
            "be missed."
        )
    if computed.has("fits_length_mm"):
        length = computed.number("fits_length_mm")
        yield (
            f"First way out: a smaller flask of the same depths, {length:.0f} × "
            f"{length * inside.width_mm / inside.length_mm:.0f} mm inside. Never a shallower cope."
        )
    else:
        yield (
            "A smaller flask is no way out: what the heap fills would leave less than "
            f"{computed.number('beside_mm'):.0f} mm beside the pattern."
        )
    yield f"Second: {computed.text('filler_to_add_l')} of dry filler blocks in the corners, at least 50 mm from the cavity."
    yield f"Third: mix {computed.text('mix_to_make_kg')} of new sand."


def _working(computed: Computed[FlaskForm]) -> Iterable[str]:
    form, inside = computed.form, computed.form.inside
    yield (
        f"inside = {inside.length_mm:g} × {inside.width_mm:g} × ({inside.drag_depth_mm:g} + "
        f"{inside.cope_depth_mm:g}) mm = {inside.volume_l:.2f} L"
    )
    yield (
        f"rammed = ({inside.volume_l:.2f} − {form.taken_l:.2f}) L × {form.rammed_density_kg_l:g} kg/L = "
        f"{computed.number('rammed_kg'):.2f} kg"
    )
    yield f"with {form.spare_pct:g} % spare = {computed.number('make_kg'):.2f} kg"
    yield (
        f"loose = {computed.number('make_kg'):.2f} / ({form.rammed_density_kg_l:g} × (1 − "
        f"{form.compactability_pct / 100:g})) = {computed.number('loose_l'):.1f} L"
    )
