"""The form of *pattern*: a file of the shape, or sizes, or water, or the mass of the pattern; and what of it all was measured."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sandmix.asking.form import Filled, Form, ask
from sandmix.language.errors import Problem
from sandmix.language.units import convert
from sandmix.mesh import solid, threemf
from sandmix.mesh.facets import Facets
from sandmix.mesh.solid import Solid
from sandmix.mould import pattern

SMALL_MM, LARGE_MM = 5.0, 1500.0
SIDE_OFF_MM = 0.5
WALLS_PCT = 30.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternForm(Form):
    """The shape one way or another, and how the casting follows from it."""

    mesh: Facets | Solid | None = ask("mesh", first=True)  # noqa: RUF009  a field like all of a form
    unit: str | None = ask("unit", first=True)
    box_mm: Sequence[float] | None = ask(
        "box_mm", first=True, label="Sizes", help="Length, width and height as it lies in the mould, as 120 x 80 x 25."
    )
    body: str = ask("body", first=True)
    bore_mm: float | None = ask("bore_mm", first=True)
    displaced_water_ml: float | None = ask("displaced_water_ml", first=True)
    pattern_mass_g: float | None = ask("pattern_mass_g", first=True)
    pattern_material: str | None = ask("pattern_material", first=True)
    infill_pct: float | None = ask("infill_pct", first=True)
    metal: str = ask("metal", first=True)
    measured: str | None = ask("measured")
    shrink_pct: float | None = ask("shrink_pct")
    machining_stock_mm: float = ask("machining_stock_mm")
    up: str = ask("up")
    ways: str = ask("ways")
    scale: float = ask("scale", exact=True)
    pattern_density_kg_l: float | None = ask("pattern_density_kg_l")
    walls_pct: float | None = ask("walls_pct")

    @property
    def solid(self) -> Solid | None:
        """What the file measures, in its own unit; None without a file. Only of a settled form."""
        return self.mesh if isinstance(self.mesh, Solid) else None

    @property
    def mm(self) -> float:
        """How long one unit of the file is, in mm."""
        own = threemf.MM.get(self.mesh.unit) if self.mesh is not None else None
        return (own or convert(1.0, self.unit or "mm", "mm")) * self.scale

    @property
    def dipped_or_weighed(self) -> str | None:
        """The word that a volume without a shape is told by; None for a file or sizes."""
        names = ("displaced_water_ml", "pattern_mass_g")
        return next((name for name in names if getattr(self, name) is not None), None)

    def problems(self) -> Iterable[Problem]:
        ways = [name for name in ("mesh", "displaced_water_ml", "pattern_mass_g") if getattr(self, name) is not None]
        if not ways and self.box_mm is None:
            yield self.wrong(
                "mesh",
                "a file, sizes, water or a mass",
                "there is nothing to measure yet. Send the file of the shape, or give its sizes, the water it pushes aside, or its mass.",
            )
            return
        if len(ways) > 1 or (self.mesh is not None and self.box_mm is not None):
            other = "box_mm" if self.box_mm is not None and self.mesh is not None else ways[1]
            yield self.wrong(
                other, "one way of saying it", "the size is said twice, and the two may differ. Keep one of them."
            )
            return
        if self.box_mm is not None and not ways:
            yield from self._against_the_bore()
        if self.pattern_mass_g is not None:
            yield from self._against_the_material()
        if self.displaced_water_ml is not None and self.box_mm is not None:
            yield from self._against_the_box(self.displaced_water_ml, self.box_mm)
        if self.machining_stock_mm > 0 and ways and self.mesh is None:
            yield self.wrong(
                "machining_stock_mm",
                "0, or a file or sizes",
                "what stands on every face needs the surface. Send the file, give the sizes, or leave it at 0.",
            )

    def _against_the_bore(self) -> Iterable[Problem]:
        assert self.box_mm is not None
        narrow = min(self.box_mm[0], self.box_mm[1])
        if self.body == "ring" and self.bore_mm is None:
            yield self.wrong("bore_mm", f"below {narrow:g} mm", "a ring has a hole. Give its bore, or take a cylinder.")
        if self.body == "ring" and self.bore_mm is not None and self.bore_mm >= narrow:
            yield self.wrong(
                "bore_mm",
                f"below {narrow:g} mm",
                f"a bore of {self.bore_mm:g} mm leaves no wall in a ring of {narrow:g} mm. Look at both.",
            )

    def _against_the_box(self, water_ml: float, box_mm: Sequence[float]) -> Iterable[Problem]:
        box_cm3 = math.prod(box_mm) / 1000
        if water_ml > 1.1 * box_cm3 + 10:
            yield self.wrong(
                "box_mm",
                f"at least {water_ml:g} cm3 in all",
                f"a box of {box_cm3:.3g} cm3 can't push {water_ml:g} mL of water aside. Look at the sizes, the water and their units.",
            )

    def _against_the_material(self) -> Iterable[Problem]:
        if self.pattern_material is None and self.pattern_density_kg_l is None:
            yield self.wrong(
                "pattern_material",
                ", ".join(pattern.MATERIALS),
                "a mass says nothing without it. Say what the pattern is made of, or give its density.",
            )
        elif self.printed and self.infill_pct is None:
            yield self.wrong(
                "infill_pct",
                "0 to 100 %",
                "a print is hollow inside, by its infill. Give that, or dip the pattern in water instead.",
            )

    @property
    def printed(self) -> bool:
        """Whether the pattern is a print."""
        return self.pattern_material is not None and pattern.MATERIALS[self.pattern_material].printed


def resolve(filled: Filled[PatternForm]) -> Filled[PatternForm]:
    """Measure the shape, and fill in what metal and material usually have."""
    form = filled.form
    values: dict[str, object] = {}
    if form.measured is None:
        values["measured"] = "casting" if form.dipped_or_weighed is None else "pattern"
    bands: dict[str, object] = {}
    if form.shrink_pct is None:
        low, high = pattern.SHRINK_PCT[form.metal]
        values["shrink_pct"], bands["shrink_pct"] = (low + high) / 2, (low, high)
    if form.pattern_mass_g is not None and form.pattern_density_kg_l is None:
        assert form.pattern_material is not None
        low, high = pattern.MATERIALS[form.pattern_material].density_g_cm3
        values["pattern_density_kg_l"], bands["pattern_density_kg_l"] = (low + high) / 2, (low, high)
    if form.pattern_mass_g is not None and form.printed and form.walls_pct is None:
        low, high = pattern.WALLS_SHARE
        values["walls_pct"], bands["walls_pct"] = WALLS_PCT, (100 * low, 100 * high)
    remarks: list[str] = []
    if isinstance(form.mesh, Facets):
        values["mesh"] = measured = solid.measure(form.mesh, form.up, sides=form.ways == "yes")
        bands["mesh"] = measured.at(-1.0), measured.at(1.0)
        remarks += _of_the_unit(form)
    elif form.box_mm is not None and form.dipped_or_weighed is None:
        bands["box_mm"] = tuple([max(0.1, side + off) for side in form.box_mm] for off in (-SIDE_OFF_MM, SIDE_OFF_MM))
    return filled.resolved(values, bands=bands, remarks=remarks)  # type: ignore[arg-type]  # a mesh and sizes have ends too


def _of_the_unit(form: PatternForm) -> Iterable[str]:
    assert form.mesh is not None
    if form.mesh.unit:
        if form.unit is not None:
            yield f"The 3MF says that its unit is the {form.mesh.unit}. That counts, not the unit given here."
    elif form.unit is None:
        yield "An STL holds no unit: it is taken in millimetres. Look at the sizes; if they are wrong, give the unit."
