"""The figures of *pattern*."""

from __future__ import annotations

from dataclasses import dataclass

from sandmix.asking.job import Figures
from sandmix.jobs.pattern import orientations
from sandmix.jobs.pattern.form import PatternForm
from sandmix.materials.metals import METALS
from sandmix.mesh import solid
from sandmix.mould import body, pattern


@dataclass(frozen=True, slots=True, kw_only=True)
class _Given:
    """What was measured, in cm and mm; None for what the way of measuring doesn't tell."""

    volume_cm3: float | None = None
    area_cm2: float | None = None
    box_mm: tuple[float, float, float] | None = None
    outline_cm2: float | None = None
    column_cm3: float | None = None


def _given(form: PatternForm) -> _Given:
    if form.solid is not None:
        return _of_solid(form.solid, form.mm)
    box = None if form.box_mm is None else (form.box_mm[0], form.box_mm[1], form.box_mm[2])
    if form.displaced_water_ml is not None:
        return _Given(volume_cm3=form.displaced_water_ml, box_mm=box)
    if form.pattern_mass_g is not None:
        assert form.pattern_density_kg_l is not None
        share = (
            pattern.solid_share((form.infill_pct or 0.0) / 100, (form.walls_pct or 0.0) / 100) if form.printed else 1.0
        )
        return _Given(volume_cm3=form.pattern_mass_g / (form.pattern_density_kg_l * max(share, 0.01)), box_mm=box)
    assert box is not None
    measured = body.measures(form.body, *box, form.bore_mm or 0.0)
    return _Given(
        volume_cm3=measured.volume_cm3,
        area_cm2=measured.area_cm2,
        box_mm=box,
        outline_cm2=measured.outline_cm2,
        column_cm3=measured.column_cm3,
    )


def _of_solid(computed: solid.Solid, mm: float) -> _Given:
    cm = mm / 10
    x, y, z = computed.box
    return _Given(
        volume_cm3=None if computed.volume is None else computed.volume * cm**3,
        area_cm2=computed.area * cm**2,
        box_mm=(x * mm, y * mm, z * mm),
        outline_cm2=None if computed.shadow is None else computed.shadow.value * cm**2,
        column_cm3=None if computed.column is None else computed.column.value * cm**3,
    )


def run(form: PatternForm) -> Figures:
    """Return the figures; without a closed shape no volume and what follows from it, without a surface no modulus."""
    given, computed = _given(form), form.solid
    figures: Figures = {
        "volume_cm3": given.volume_cm3,
        "area_cm2": given.area_cm2,
        "box_mm": None if given.box_mm is None else list(given.box_mm),
        "projected_area_cm2": given.outline_cm2,
        "column_cm3": given.column_cm3,
    }
    if given.column_cm3 is not None and given.outline_cm2:
        figures["more_head_mm"] = 10 * given.column_cm3 / given.outline_cm2
    if computed is not None:
        figures |= {"closed": computed.seams.closed, "shells": computed.shells, "facets": computed.facets}
        if computed.middle is not None:
            figures["centre_mm"] = [form.mm * value for value in computed.middle]
    figures |= _casting(form, given)
    return figures | orientations.figures(form, figures)


def _casting(form: PatternForm, given: _Given) -> Figures:
    """The casting, its pattern and the part, of what was measured."""
    assert form.shrink_pct is not None
    volume, area, larger = given.volume_cm3, given.area_cm2, 1 + form.shrink_pct / 100
    if volume is None:
        return {}
    area = area if area and not _overlaps(form) else None
    smaller = 1 / larger if form.measured == "pattern" else 1.0
    part: float | None = volume if form.measured == "part" else None
    volume, area = volume * smaller**3, area and area * smaller**2
    stock = form.machining_stock_mm
    if stock and given.area_cm2 and given.box_mm is not None:
        x, y, z = given.box_mm
        box = (x * smaller, y * smaller, z * smaller)
        surface = given.area_cm2 * smaller**2
        if form.measured == "part":
            grown = pattern.with_stock(volume, surface, box, stock)
            volume, area = grown.volume_cm3, area and grown.area_cm2
        else:
            part = max(0.0, volume - surface * stock / 10)
    density = METALS[form.metal].solid_kg_m3 * 1e-6
    return {
        "casting_volume_cm3": volume,
        "casting_area_cm2": area,
        "modulus_mm": 10 * volume / area if area else None,
        "casting_kg": volume * density,
        "part_kg": None if part is None or not stock else part * density,
        "pattern_volume_cm3": volume * larger**3,
    }


def _overlaps(form: PatternForm) -> bool:
    return form.solid is not None and form.solid.trust == solid.OVERLAPS


def known(form: PatternForm) -> dict[str, tuple[float, float]]:
    """Return the parting as exact: which one is suggested is not moved by doubt."""
    at = run(form).get("parting_height_mm")
    return {"parting_height_mm": (at, at)} if isinstance(at, float) else {}
