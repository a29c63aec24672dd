"""What *flask* answers in words: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import DUST, LIFT, TURN
from sandmix.asking.job import Computed, Lead, Next, Telling, ToDo, WayOut
from sandmix.drawings import flask_drawing, flask_section
from sandmix.jobs.flask.form import FlaskForm, mould
from sandmix.jobs.shared import flasks
from sandmix.jobs.shared.flasks import CLOSE, SHORT
from sandmix.language.wording import plain, to_figures
from sandmix.mould import flask, walls
from sandmix.mould.clearance import margins
from sandmix.vocabulary import WORDS, quantity


def tell(computed: Computed[FlaskForm]) -> Telling:
    """Say whether the sand is enough, and what to do if not."""
    form = computed.form
    headline, state, (word, label) = _sand(computed)
    cope = f"cope {computed.text('cope_kg')}, both " if form.cope_depth_mm else ""
    what = "sand and empty flask" if form.frame_kg else "sand only"
    return Telling(
        headline=f"{headline} To lift: {cope}{computed.text('both_kg')} {'with the empty flask' if form.frame_kg else 'of sand'}.",
        state=state,
        lead=Lead(word=word, label=label, text=computed.text(word), then=computed.within(word)),
        todo=tuple(_to_do(computed)),
        labels={"both_kg": f"{WORDS['both_kg'].label}, {what}"},
        remarks=tuple(_remarks(computed)),
        cautions=(LIFT, TURN, DUST),
        sources=flasks.LIFTING_SOURCES,
        working=tuple(_working(computed)),
        drawings=_section(form),
        next=(*_next(computed), *_smaller(form)),
    )


def lacks_spare_only(computed: Computed[FlaskForm]) -> bool:
    """Whether it is close, and the heap fills the flask: only a part of the spare is missing."""
    heap_kg = computed.form.heap_kg
    if heap_kg is None or computed.number("rammed_kg") > heap_kg:
        return False
    return computed.number("surplus_kg") < 0 < computed.doubt["surplus_kg"][1]


def _sand(computed: Computed[FlaskForm]) -> tuple[str, tuple[str, str], tuple[str, str]]:
    """Whether the sand is enough: the sentence, the state, and the word and label of the lead. Enough needs a range that is all above 0."""
    make = computed.text("make_kg")
    if computed.form.heap_kg is None:
        return (
            f"This flask needs {make} of sand, spare included.",
            ("size it", "plain"),
            ("make_kg", "Sand to have ready"),
        )
    heap = f"{plain(round(computed.form.heap_kg, 2))} kg"
    low, high = computed.doubt["surplus_kg"]
    is_short = computed.number("surplus_kg") < 0
    if low < 0 < high:
        sentence = f"Close: this flask needs {make}, spare included, and the heap has {heap}."
        if lacks_spare_only(computed):
            sentence += " It fills the flask; only a part of the spare is missing."
            return sentence, (CLOSE, "care"), ("mix_to_make_kg", "Missing of the spare")
        lead = ("mix_to_make_kg", "Missing sand") if is_short else ("surplus_kg", "Sand left over")
        return sentence, (CLOSE, "care"), lead
    if is_short:
        sentence = f"Not enough sand: this flask needs {make}, spare included, and the heap has only {heap}."
        return sentence, (SHORT, "care"), ("mix_to_make_kg", "Missing sand")
    sentence = f"Enough: {make} of the {heap}, spare included."
    return sentence, ("enough", "go"), ("surplus_kg", "Sand left over")


def _to_do(computed: Computed[FlaskForm]) -> Iterable[ToDo]:
    """The sand to have ready, what is missing of it, and what to lift."""
    yield ToDo(text="Have sand ready, spare included", amount=computed.text("make_kg"))
    if computed.is_above_zero("mix_to_make_kg"):
        missing = "Mix the missing sand, or take a smaller flask or filler blocks"
        spare = "Ram it, and spill little: of the spare there is missing"
        yield ToDo(text=spare if lacks_spare_only(computed) else missing, amount=computed.text("mix_to_make_kg"))
    frame = " and its frame" if computed.form.frame_kg else ""
    if computed.form.cope_depth_mm:
        yield ToDo(text="Lift the cope: its sand alone", amount=computed.text("cope_kg"))
        yield ToDo(text=f"Turn over both halves: sand{frame}", amount=computed.text("both_kg"))
    else:
        yield ToDo(text=f"Carry the flask: sand{frame}", amount=computed.text("both_kg"))


def _section(form: FlaskForm) -> dict[str, str]:
    """The pattern as a block in this flask, where it fits in."""
    if form.block is None:
        return {}
    inside, laid = form.inside, mould(form, form.block)
    drawn = flask_section.of_mould(inside, laid, margins(inside, laid), wall_mm=walls.WALL_MM, bars=walls.bars(inside))
    if drawn is None:
        return {}
    return {"section": flask_drawing.draw(drawn, "flask-section", "Section of the flask, to scale")}


def _next(computed: Computed[FlaskForm]) -> tuple[Next, ...]:
    if computed.form.heap_kg is None:
        return (Next(job="mix", label="Mix this much sand", inputs=computed.carried(make_kg="make_kg")),)
    if computed.number("surplus_kg") < 0 and not lacks_spare_only(computed):
        return (Next(job="mix", label="Mix the missing sand", inputs=computed.carried(make_kg="mix_to_make_kg")),)
    return (Next(job="pour", label="Metal and weights", inputs=_to_pour(computed)),)


def _to_pour(computed: Computed[FlaskForm]) -> dict[str, str]:
    """What “Pour” takes over. Seen from above, a pattern is never larger than its length times its width."""
    form = computed.form
    figures: dict[str, float] = {}
    if form.pattern_volume_cm3 > 0:
        figures["casting_volume_cm3"] = form.pattern_volume_cm3
        if form.gating_volume_cm3 > 0:
            figures["gating_pct"] = 100 * form.gating_volume_cm3 / form.pattern_volume_cm3
    if form.pattern_mm is not None:
        figures["projected_area_cm2"] = form.pattern_mm[0] * form.pattern_mm[1] / 100
    if form.cope_depth_mm > 0:
        figures["head_mm"] = form.cope_depth_mm + walls.CUP_MM
    inputs = {word: f"{value:.4g} {quantity(word).unit}" for word, value in figures.items() if _is_allowed(word, value)}
    return {"metal": form.metal} | inputs | _cope_to_pour(computed)


def _cope_to_pour(computed: Computed[FlaskForm]) -> dict[str, str]:
    """What lies on the metal: the cope less all that may be in it, and its half of the frame; nothing where no sand is left of it."""
    form = computed.form
    sand_kg = computed.number("cope_kg") - form.taken_l * form.rammed_density_kg_l
    on_it_kg = sand_kg + form.frame_kg / 2
    if sand_kg <= 0 or not _is_allowed("cope_kg", on_it_kg):
        return {}
    return {"cope_kg": f"{to_figures(on_it_kg, 4)} ± {to_figures(computed.half_width('cope_kg'), 2)} kg"}


def _is_allowed(word: str, value: float) -> bool:
    declared = quantity(word)
    return declared.low <= value <= declared.high


def _smaller(form: FlaskForm) -> tuple[Next, ...]:
    """Where the pattern's sizes are known, the job that looks for a flask that needs less sand."""
    if form.block is None:
        return ()
    sizes = {"length": form.block.length_mm, "width": form.block.width_mm, "height": form.block.height_mm}
    if not all(1 <= size <= 3000 for size in sizes.values()):
        return ()
    inputs = {f"pattern_{name}_mm": f"{size:.4g} mm" for name, size in sizes.items()}
    return (Next(job="fit", label="Would a smaller flask be enough?", inputs=inputs),)


def _remarks(computed: Computed[FlaskForm]) -> Iterable[str]:
    form, inside, beside_mm = computed.form, computed.form.inside, computed.number("beside_mm")
    if form.heap_kg is not None:
        if computed.number("surplus_kg") < 0:
            yield from _options(computed, form.heap_kg)
        low, high = computed.doubt["surplus_kg"]
        if low < 0 < high:
            yield WayOut(
                f"It is close: between {to_figures(-low, 2)} kg too little and {to_figures(high, 2)} kg to spare (19 times in 20). Weigh one "
                "rammed flask to find your own rammed density, and have more sand ready than the figure says."
            )
    if form.pattern_mm is None:
        yield (
            "The space around the pattern is not checked, because no pattern sizes are given. Leave at least "
            f"{beside_mm:.0f} mm of sand beside it."
        )
    elif not flask.clears(inside.length_mm, inside.width_mm, *form.pattern_mm, beside_mm):
        yield WayOut(
            f"This flask leaves less than {beside_mm:.0f} mm of sand beside the pattern. The sand may break when the "
            "mould is turned over or poured."
        )
    yield from _too_shallow(form)
    yield from flasks.of_the_cope(inside)
    if walls.bars(inside):
        yield f"A flask longer than {walls.BARS_ABOVE_MM:g} mm needs bars across the cope, {flasks.BARS}."
    yield from flasks.of_the_load(computed, wood=form.frame_kg > 0)


def _too_shallow(form: FlaskForm) -> Iterable[str]:
    """What a pattern of that height leaves above and below it, where that is too little; an open-top mould needs sand only below."""
    if form.pattern_height_mm is None:
        return
    left_mm = form.drag_depth_mm + form.cope_depth_mm - form.pattern_height_mm
    needed_mm = form.clearance.below_mm + (form.clearance.above_mm if form.cope_depth_mm else 0.0)
    if left_mm < needed_mm:
        where = "above and below" if form.cope_depth_mm else "below"
        yield WayOut(
            f"This flask is too shallow: it leaves {left_mm:.0f} mm of sand {where} the pattern, and {needed_mm:.0f} mm is needed. Use a "
            "deeper flask."
        )


def _options(computed: Computed[FlaskForm], heap_kg: float) -> Iterable[str]:
    """What to do about a heap that is too small."""
    inside = computed.form.inside
    yield from flasks.of_the_spare(computed, heap_kg)
    if computed.has("fits_length_mm"):
        length = computed.number("fits_length_mm")
        yield WayOut(
            f"First option: a smaller flask with the same depths, {length:.0f} × "
            f"{length * inside.width_mm / inside.length_mm:.0f} mm inside. Never use a shallower cope."
        )
    else:
        yield WayOut(
            "A smaller flask does not help: the one that the heap can fill leaves less than "
            f"{computed.number('beside_mm'):.0f} mm beside the pattern."
        )
    yield WayOut(
        f"Second option: {computed.text('filler_to_add_l')} of dry filler blocks in the corners, {flasks.FILLER}."
    )
    yield WayOut(f"Third option: mix {computed.text('mix_to_make_kg')} of new sand.")


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
