"""What *fit* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from sandmix.asking.cautions import DUST, LIFT, TURN
from sandmix.asking.job import Computed, Lead, Next, Telling
from sandmix.jobs.fit import remarks
from sandmix.jobs.fit.form import TO_MAKE, FitForm
from sandmix.language.wording import raised
from sandmix.language.words import Quantity
from sandmix.materials.metals import thermal
from sandmix.mould import fit
from sandmix.vocabulary import WORDS

_MOST_TAKEN = 0.999
"""Up to here what pattern and gating take of a flask is handed on: rounded there, it still leaves room for sand."""


def tell(computed: Computed[FitForm]) -> Telling:
    """Say which flask, how much sand it takes, and what else is to be known of it."""
    form = computed.form
    taken = form.taken
    made = taken.name == TO_MAKE
    name = remarks.sizes(taken.inside) if made else f"“{taken.name}”"
    if made:
        none = "None of the flasks on hand clears it. " if form.flasks and fit.smallest(form.judged) is None else ""
        headline = f"{none}Make one of {name} inside: it takes {computed.text('make_kg')} of sand, spare included."
        state = ("make one", "care") if form.flasks else ("make one", "plain")
    elif taken.clears:
        headline, state = f"Take {name}: it takes {computed.text('make_kg')} of sand, spare included.", ("fits", "go")
    else:
        headline = f"{raised(name)} is too small: {remarks.lacking(taken.lacks)}."
        state = ("too small", "care")
    if computed.has("surplus_kg") and computed.number("surplus_kg") < 0 and taken.clears:
        headline += f" The heap is short by {computed.text('mix_to_make_kg')}."
        state = ("short", "care")
    lead = Lead(
        word="make_kg",
        label="Sand for the one to make" if made else f"Sand for {taken.name}",
        text=computed.text("make_kg"),
        then=computed.within("make_kg"),
    )
    return Telling(
        headline=headline,
        state=state,
        lead=lead,
        remarks=tuple(remarks.remarks(computed)),
        cautions=(LIFT, TURN, DUST),
        working=tuple(remarks.working(computed)),
        checklist=tuple(remarks.checklist(computed)),
        drawings=remarks.drawings(computed),
        next=_next(computed),
    )


def _next(computed: Computed[FitForm]) -> tuple[Next, ...]:
    """The filling of this flask, and what holds its cope down, where their words can hold the figures."""
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
        outline_mm2 = form.count * form.body.in_cope(form.mould.in_drag_mm)[0]
        head_mm = computed.number("uplift_kg") / (thermal(form.metal).liquid_kg_m3 * outline_mm2 * 1e-9)
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
