"""The working of *fit*, its list of pieces to cut, and its section."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from sandmix.asking.job import Check, Computed
from sandmix.drawings import flask_drawing, flask_section
from sandmix.jobs.fit.comparisons import described, named, sizes
from sandmix.jobs.fit.form import ResolvedFit
from sandmix.language.wording import plain
from sandmix.materials.metals import METALS, thermal
from sandmix.mould import walls
from sandmix.mould.body import SHAPES


def working(computed: Computed[ResolvedFit]) -> Iterable[str]:
    """Yield the arithmetic."""
    form = computed.form
    taken, mould, body = form.taken, form.mould, form.body
    inside, need, lay = taken.inside, form.clearance, taken.margins.layout
    one_kg = computed.number("casting_kg") / form.count
    yield (
        f"one casting = {form.volume_cm3:.4g} cm³ × {METALS[form.metal].solid_kg_m3:g} kg/m³ = {one_kg:.3g} kg, so it needs "
        f"{need.above_mm:g} mm of sand above, {need.below_mm:g} below, {need.beside_mm:g} beside, {need.between_mm:g} between"
    )
    yield (
        f"{form.count} in {lay.columns} × {lay.rows}, with the sprue {lay.length_mm:.4g} × {lay.width_mm:.4g} mm, in "
        f"{inside.length_mm:g} × {inside.width_mm:g} mm: {computed.number('ends_mm'):.4g} mm at each end, "
        f"{computed.number('sides_mm'):.4g} at each side"
    )
    yield (
        f"{mould.in_drag_mm:.4g} mm of the height in the drag, {mould.in_cope_mm:.4g} in the cope: {taken.margins.below_mm:.4g} mm below"
        + ("" if form.is_open else f", {taken.margins.above_mm:.4g} above")
    )
    yield (
        f"rammed = ({inside.volume_l:.2f} − {form.taken_l:.2f}) L × {form.rammed_density_kg_l:g} kg/L = "
        f"{computed.number('rammed_kg'):.2f} kg, with {form.spare_pct:g} % spare {computed.number('make_kg'):.2f} kg"
    )
    if form.facing_mm:
        t = form.facing_mm
        yield (
            f"facing = A t + M t² + 4/3 π t³ = {body.area_mm2 / 100:.4g} cm² × {t:g} mm + {body.curvature_mm:.4g} mm × ({t:g} mm)² + "
            f"4/3 π ({t:g} mm)³ = {body.layer_cm3(t):.4g} cm³ around each, {SHAPES[form.pattern_shape]}"
        )
    for way in () if form.is_open else form.orientations:
        yield f"{named(way)}: {described(way, form.rammed_density_kg_l)}"
    load = walls.wall_load(inside, form.wall_thickness_mm, thermal(form.metal).liquid_kg_m3)
    yield (
        f"wall: {load.metal_kpa:.2f} kPa of metal bends it by {load.metal_mm:.3g} mm, a sideways blow of {load.blow_n:g} N by "
        f"{load.blow_mm:.3g} mm, as a beam of {form.wall_thickness_mm:g} mm plywood of {walls.PLYWOOD_N_MM2:g} N/mm² that "
        "rests at its corners"
    )
    yield (
        f"poured = {computed.number('rammed_kg'):.2f} kg sand + {form.frame_kg:.2f} kg wood + {computed.number('casting_kg'):.2f} kg castings + "
        f"{form.gating_kg:.2f} kg gating = {computed.number('poured_kg'):.2f} kg"
    )


def checklist(computed: Computed[ResolvedFit]) -> Iterable[Check]:
    """Yield the pieces to cut, equal ones from one board together."""
    plan = computed.form.cutting_plan
    counted = Counter((cut.board, cut.piece) for cut in plan.cuts) if plan else {}
    for (board, piece), count in counted.items():
        times = f"{count} × " if count > 1 else ""
        yield Check(
            tone="plain",
            text=f"Cut {times}{piece.name} {plain(piece.length_mm)} × {plain(piece.width_mm)} mm from {board}.",
        )


def drawings(computed: Computed[ResolvedFit]) -> dict[str, str]:
    """Return the section of the flask that is taken."""
    form = computed.form
    drawn = flask_section.of_mould(
        form.taken.inside,
        form.mould,
        form.taken.margins,
        wall_mm=form.wall_thickness_mm,
        bars=int(computed.number("cope_bars")),
        burnt_mm=form.burnt_depth_mm or 0.0,
        dry_mm=form.dry_depth_mm or 0.0,
        filler_l=max(0.0, computed.number("filler_to_add_l")) if computed.has("filler_to_add_l") else 0.0,
        sprue_base_mm=form.sprue_base_mm,
    )
    if drawn is None:
        return {}
    return {"section": flask_drawing.draw(drawn, "fit-section", f"Section of {sizes(form.taken.inside)}, to scale")}
