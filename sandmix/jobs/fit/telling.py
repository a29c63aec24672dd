"""What *fit* answers in words: headline, lead and what to do next."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import DUST, LIFT, TURN
from sandmix.asking.job import Computed, Lead, Next, Telling, ToDo
from sandmix.jobs.fit.comparisons import lacking, sizes
from sandmix.jobs.fit.form import TO_MAKE, ResolvedFit
from sandmix.jobs.fit.remarks import remarks
from sandmix.jobs.fit.working import checklist, drawings, working
from sandmix.jobs.shared import flasks
from sandmix.jobs.shared.flasks import CLOSE, SHORT
from sandmix.language.words import Quantity
from sandmix.materials.metals import thermal
from sandmix.mould import fit
from sandmix.mould.flask import Flask
from sandmix.vocabulary import WORDS

MAKE_ONE = "make one"
_MOST_TAKEN = 0.999
"""Up to this share of the flask, pattern and gating are passed on: rounded, they still leave space for sand."""


def tell(computed: Computed[ResolvedFit]) -> Telling:
    """Say which flask, how much sand it needs, and what else to know about it."""
    form = computed.form
    taken, make = form.taken, f"needs {computed.text('make_kg')} of sand, spare included"
    to_make = taken.name == TO_MAKE
    if to_make:
        headline = f"{_make(form)} one of {sizes(taken.inside)} inside: it {make}."
        state = (MAKE_ONE, "care" if form.flasks else "plain")
    elif taken.clears:
        headline, state = f"Take “{taken.name}”: it {make}.", ("fits", "go")
    else:
        headline, state = f"“{taken.name}” is too small: {lacking(taken.lacks)}.", ("too small", "care")
    if computed.has("surplus_kg") and taken.clears:
        low, high = computed.doubt["surplus_kg"]
        if low < 0 < high:
            headline += " Whether the heap is enough is close."
            state = (CLOSE, "care")
        elif computed.number("surplus_kg") < 0:
            headline += f" The heap is {computed.text('mix_to_make_kg')} short."
            state = (SHORT, "care")
    return Telling(
        headline=headline,
        state=state,
        lead=Lead(
            word="make_kg",
            label="Sand for the flask to make" if to_make else f"Sand for “{taken.name}”",
            text=computed.text("make_kg"),
            then=computed.within("make_kg"),
        ),
        todo=tuple(_to_do(computed)),
        remarks=tuple(remarks(computed)),
        cautions=(LIFT, TURN, DUST),
        sources=flasks.LIFTING_SOURCES,
        working=tuple(working(computed)),
        checklist=tuple(checklist(computed)),
        drawings=drawings(computed),
        next=_next(computed),
    )


def _make(form: ResolvedFit) -> str:
    """Why no flask on hand can be taken, if there are any, up to “make”. Most often the depth of a cope was not entered."""
    if not form.flasks or fit.smallest(form.checked):
        return "Make"
    if not form.is_open and not any(each.inside.cope_depth_mm for each in form.checked):
        return "No flask on hand has a cope: enter the depth of its upper half, or make"
    return "None of the flasks on hand is large enough. Make"


def _to_do(computed: Computed[ResolvedFit]) -> Iterable[ToDo]:
    """The flask to take or to make, what holds its sand, and the sand to have ready; only the flask where it is too small."""
    form, taken = computed.form, computed.form.taken
    if taken.name != TO_MAKE and not taken.clears:
        smallest = fit.smallest(form.checked)
        yield (
            ToDo(text=f"Take “{smallest.name}” instead", amount=inside_mm(smallest.inside))
            if smallest
            else ToDo(text="Make a larger flask, inside", amount=inside_mm(form.mould.smallest_flask()))
        )
        return
    what = "Make a flask, inside" if taken.name == TO_MAKE else f"Take “{taken.name}”, inside"
    yield ToDo(text=what, amount=inside_mm(taken.inside))
    if form.cutting_plan and form.cutting_plan.cuts:
        yield ToDo(text="Cut the boards by the list below", amount=computed.text("boards_used"))
    if computed.is_above_zero("wall_ties"):
        yield ToDo(text="Hold the long walls with cleats or clamps", amount=computed.text("wall_ties"))
    if computed.is_above_zero("cope_bars"):
        yield ToDo(text=f"Put bars across the cope, {flasks.BARS}", amount=computed.text("cope_bars"))
    yield ToDo(text="Have sand ready, spare included", amount=computed.text("make_kg"))
    if computed.is_above_zero("mix_to_make_kg"):
        yield ToDo(text="Mix the missing sand, or see the other ways below", amount=computed.text("mix_to_make_kg"))


def inside_mm(inside: Flask) -> str:
    """The length and width of a flask, inside, as text."""
    return f"{inside.length_mm:g} × {inside.width_mm:g} mm"


def _next(computed: Computed[ResolvedFit]) -> tuple[Next, ...]:
    """The jobs that fill this flask and that weigh down its cope, where their words allow the figures."""
    form, inside = computed.form, computed.form.taken.inside
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
    if computed.is_above_zero("uplift_kg"):
        area_mm2 = form.count * form.body.above(form.mould.in_drag_mm)[0]
        head_mm = computed.number("uplift_kg") / (thermal(form.metal).liquid_kg_m3 * area_mm2 * 1e-9)
        pour = {
            "casting_volume_cm3": form.count * form.volume_cm3,
            "projected_area_cm2": area_mm2 / 100,
            "head_mm": head_mm,
        }
        steps.append(("pour", "Metal and weights", pour, {"metal": form.metal}))
    links = tuple(
        Next(job=job, label=label, inputs={word: _amount(word, value) for word, value in amounts.items()} | more)
        for job, label, amounts, more in steps
        if all(_is_allowed(word, value) for word, value in amounts.items())
    )
    return links or (Next(job="pattern", label="Check the size of the casting", inputs={"metal": form.metal}),)


def _amount(word: str, value: float) -> str:
    return f"{value:.5g} {getattr(WORDS[word], 'unit', '')}"


def _is_allowed(word: str, value: float) -> bool:
    declared = WORDS[word]
    return isinstance(declared, Quantity) and declared.low <= value <= declared.high
