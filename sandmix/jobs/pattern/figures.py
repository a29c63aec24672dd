"""The figures of *pattern*."""

from __future__ import annotations

from dataclasses import dataclass

from sandmix.asking.job import Figures
from sandmix.jobs.pattern import hot_places, orientations
from sandmix.jobs.pattern.form import ResolvedPattern
from sandmix.materials.metals import METALS
from sandmix.mesh.solid import Solid
from sandmix.mould import body, pattern


@dataclass(frozen=True, slots=True, kw_only=True)
class _Measured:
    """What was measured, in cm and mm; None for what this way of measuring does not give."""

    volume_cm3: float | None = None
    area_cm2: float | None = None
    box_mm: tuple[float, float, float] | None = None
    projected_cm2: float | None = None
    space_above_cm3: float | None = None


def _measured(form: ResolvedPattern) -> _Measured:
    if form.mesh is not None:
        return _of_solid(form.mesh, form.mm)
    box = None if form.box_mm is None else (form.box_mm[0], form.box_mm[1], form.box_mm[2])
    if form.displaced_water_ml is not None:
        return _Measured(volume_cm3=form.displaced_water_ml, box_mm=box)
    if form.pattern_mass_g is not None and form.pattern_density_kg_l is not None:
        share = (
            pattern.solid_share((form.infill_pct or 0.0) / 100, (form.walls_pct or 0.0) / 100) if form.printed else 1.0
        )
        return _Measured(volume_cm3=form.pattern_mass_g / (form.pattern_density_kg_l * max(share, 0.01)), box_mm=box)
    return _Measured() if box is None else _of_sizes(form, box)


def _of_sizes(form: ResolvedPattern, box: tuple[float, float, float]) -> _Measured:
    measures = body.measures(form.body, *box, form.bore_mm or 0.0)
    return _Measured(
        volume_cm3=measures.volume_cm3,
        area_cm2=measures.area_cm2,
        box_mm=box,
        projected_cm2=measures.projected_cm2,
        space_above_cm3=measures.space_above_cm3,
    )


def _of_solid(solid: Solid, mm: float) -> _Measured:
    cm = mm / 10
    x, y, z = solid.box
    return _Measured(
        volume_cm3=None if solid.volume is None else solid.volume * cm**3,
        area_cm2=solid.area * cm**2,
        box_mm=(x * mm, y * mm, z * mm),
        projected_cm2=None if solid.projected is None else solid.projected.value * cm**2,
        space_above_cm3=None if solid.space_above is None else solid.space_above.value * cm**3,
    )


def run(form: ResolvedPattern) -> Figures:
    """Return the figures; without a closed shape no volume and nothing that needs it, without a surface no modulus."""
    measured, solid = _measured(form), form.mesh
    figures: Figures = {
        "volume_cm3": measured.volume_cm3,
        "area_cm2": measured.area_cm2,
        "box_mm": None if measured.box_mm is None else list(measured.box_mm),
        "projected_area_cm2": measured.projected_cm2,
        "column_cm3": measured.space_above_cm3,
    }
    if measured.space_above_cm3 is not None and measured.projected_cm2:
        figures["more_head_mm"] = 10 * measured.space_above_cm3 / measured.projected_cm2
    if solid is not None:
        figures |= {"closed": solid.topology.closed, "shells": solid.shells, "facets": solid.facets}
        if solid.centroid is not None:
            figures["centre_mm"] = [form.mm * value for value in solid.centroid]
    figures |= _casting(form, measured) | hot_places.figures(form)
    return figures | orientations.figures(form, figures)


def _casting(form: ResolvedPattern, measured: _Measured) -> Figures:
    """The casting, its pattern and the finished part, from what was measured."""
    volume, area = measured.volume_cm3, measured.area_cm2
    if volume is None:
        return {}
    area = area if area and not form.overlaps else None
    smaller = 1 / form.larger if form.measured == "pattern" else 1.0
    part: float | None = volume if form.measured == "part" else None
    volume, area = volume * smaller**3, area and area * smaller**2
    stock = form.machining_stock_mm
    if stock and measured.area_cm2 and measured.box_mm is not None:
        x, y, z = measured.box_mm
        box = (x * smaller, y * smaller, z * smaller)
        surface = measured.area_cm2 * smaller**2
        if form.measured == "part":
            volume, grown = pattern.with_stock(volume, surface, box, stock)
            area = area and grown
        else:
            part = max(0.0, volume - surface * stock / 10)
    density = METALS[form.metal].solid_kg_m3 * 1e-6
    return {
        "casting_volume_cm3": volume,
        "casting_area_cm2": area,
        "modulus_mm": 10 * volume / area if area else None,
        "casting_kg": volume * density,
        "part_kg": None if part is None or not stock else part * density,
        "pattern_volume_cm3": volume * form.larger**3,
    }


def known(form: ResolvedPattern) -> dict[str, tuple[float, float]]:
    """Return the parting as exact, since uncertainty does not change which one is suggested; and the thickest place with its ±."""
    at = run(form).get("parting_height_mm")
    return ({"parting_height_mm": (at, at)} if isinstance(at, float) else {}) | hot_places.known(form)
