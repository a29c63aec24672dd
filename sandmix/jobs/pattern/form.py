"""The form of *pattern*: a file of the shape, or sizes, or water, or the mass of the pattern; and what exactly was measured."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import Filled, Form, ask, rule
from sandmix.language.errors import InputError, Problem
from sandmix.language.units import convert
from sandmix.language.wording import to_figures
from sandmix.mesh import solid, threemf
from sandmix.mesh.facets import Facets, NotAMesh
from sandmix.mesh.solid import Solid
from sandmix.mould import pattern
from sandmix.thickness.hot_places import Thickness, thickness_of

SMALL_MM, LARGE_MM = 5.0, 1500.0
SIDE_OFF_MM = 0.5
WALLS_PCT = 30.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PatternForm(Form):
    """The shape in one of four ways, and how the casting follows from it."""

    mesh: Facets | Solid | None = ask("mesh", first=True)  # noqa: RUF009  a field like all of a form
    unit: str | None = ask("unit", first=True)
    box_mm: Sequence[float] | None = ask(
        "box_mm",
        first=True,
        label="Sizes",
        help="Length, width and height as it lies in the mould, for example 140 x 55 x 12.",
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
    def mm(self) -> float:
        """The mm in one unit of the file."""
        own = threemf.MM.get(self.mesh.unit) if self.mesh is not None else None
        return (own or convert(1.0, self.unit or "mm", "mm")) * self.scale

    @property
    def dipped_or_weighed(self) -> str | None:
        """The word that gives a volume without a shape; None for a file or sizes."""
        names = ("displaced_water_ml", "pattern_mass_g")
        return next((name for name in names if getattr(self, name) is not None), None)

    @property
    def given_by(self) -> list[str]:
        """The ways in which the size is given, other than by sizes."""
        return [name for name in ("mesh", "displaced_water_ml", "pattern_mass_g") if getattr(self, name) is not None]

    @property
    def is_given_once(self) -> bool:
        """Whether the size is given, and not twice."""
        given = bool(self.given_by) or self.box_mm is not None
        return given and len(self.given_by) <= 1 and (self.mesh is None or self.box_mm is None)

    @rule
    def the_size_is_given_one_way(self) -> Iterable[Problem]:
        given_by = self.given_by
        if not given_by and self.box_mm is None:
            yield self.wrong(
                "mesh",
                "a file, sizes, water or a mass",
                "nothing to measure is given yet. Send the file of the shape, or enter its sizes, the water that it displaces, or its mass.",
            )
        elif not self.is_given_once:
            other = "box_mm" if self.box_mm is not None and self.mesh is not None else given_by[1]
            yield self.wrong(
                other, "only one of them", "the size is given twice, and the two may differ. Keep only one of them."
            )

    @rule
    def the_bore_leaves_a_wall(self) -> Iterable[Problem]:
        if self.box_mm is None or self.given_by or self.body != "ring":
            return
        narrow = min(self.box_mm[0], self.box_mm[1])
        if self.bore_mm is None:
            yield self.wrong(
                "bore_mm", f"below {narrow:g} mm", "a ring has a hole. Enter its bore, or choose a cylinder."
            )
        elif self.bore_mm >= narrow:
            yield self.wrong(
                "bore_mm",
                f"below {narrow:g} mm",
                f"a bore of {self.bore_mm:g} mm leaves no wall in a ring of {narrow:g} mm. Check both.",
            )

    @rule
    def a_mass_needs_a_material(self) -> Iterable[Problem]:
        if self.pattern_mass_g is None or not self.is_given_once:
            return
        if self.pattern_material is None and self.pattern_density_kg_l is None:
            yield self.wrong(
                "pattern_material",
                ", ".join(pattern.MATERIALS),
                "a mass gives no volume without it. Choose what the pattern is made of, or enter its density.",
            )
        elif self.printed and self.infill_pct is None:
            yield self.wrong(
                "infill_pct",
                "0 to 100 %",
                "a print is hollow, and the infill says how much. Enter it, or dip the pattern in water instead.",
            )

    @rule
    def the_box_displaces_the_water(self) -> Iterable[Problem]:
        water_ml, box_mm = self.displaced_water_ml, self.box_mm
        if water_ml is None or box_mm is None or not self.is_given_once:
            return
        box_cm3 = math.prod(box_mm) / 1000
        if water_ml > 1.1 * box_cm3 + 10:
            yield self.wrong(
                "box_mm",
                f"at least {water_ml:g} cm³ in all",
                f"a box of {to_figures(box_cm3, 3)} cm³ can't displace {water_ml:g} mL of water. Check the sizes, the water and their units.",
            )

    @rule
    def stock_needs_a_surface(self) -> Iterable[Problem]:
        if self.machining_stock_mm > 0 and self.is_given_once and self.given_by and self.mesh is None:
            yield self.wrong(
                "machining_stock_mm",
                "0, or a file or sizes",
                "stock on every face needs the surface of the shape. Send the file, enter the sizes, or leave it at 0.",
            )

    @property
    def printed(self) -> bool:
        """Whether the pattern is a print."""
        return self.pattern_material is not None and pattern.MATERIALS[self.pattern_material].printed


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedPattern(PatternForm):
    """The same with the shape measured, and with what metal and material usually have."""

    mesh: Solid | None
    measured: str
    shrink_pct: float
    thickness: Thickness | None = None

    @property
    def larger(self) -> float:
        """How many times as long as the casting its pattern is."""
        return 1 + self.shrink_pct / 100

    @property
    def overlaps(self) -> bool:
        """Whether pieces of the file overlap."""
        return self.mesh is not None and self.mesh.trust == solid.OVERLAPS


def resolve(filled: Filled[PatternForm]) -> Filled[ResolvedPattern]:
    """Measure the shape, and fill in what metal and material usually have."""
    form = filled.form
    values: dict[str, object] = {}
    if form.measured is None:
        values["measured"] = "casting" if form.dipped_or_weighed is None else "pattern"
    bands: dict[str, Any] = {}
    if form.shrink_pct is None:
        values["shrink_pct"], bands["shrink_pct"] = _middle_and_ends(pattern.SHRINK_PCT[form.metal])
    if form.pattern_mass_g is not None and form.pattern_density_kg_l is None and form.pattern_material is not None:
        densities = pattern.MATERIALS[form.pattern_material].density_g_cm3
        values["pattern_density_kg_l"], bands["pattern_density_kg_l"] = _middle_and_ends(densities)
    if form.pattern_mass_g is not None and form.printed and form.walls_pct is None:
        low, high = pattern.WALLS_SHARE
        values["walls_pct"], bands["walls_pct"] = WALLS_PCT, (100 * low, 100 * high)
    remarks: list[str] = []
    if isinstance(form.mesh, Facets):
        values["mesh"] = measured = _measured(form, form.mesh)
        values["thickness"] = thickness_of(measured)
        bands["mesh"] = measured.at(-1.0), measured.at(1.0)
        remarks += _of_the_unit(form.mesh.unit, form.unit)
    elif form.box_mm is not None and form.dipped_or_weighed is None:
        bands["box_mm"] = tuple([max(0.1, side + off) for side in form.box_mm] for off in (-SIDE_OFF_MM, SIDE_OFF_MM))
    return filled.into(ResolvedPattern, values, bands=bands, remarks=remarks)


def _measured(form: PatternForm, facets: Facets) -> Solid:
    try:
        return solid.measure(facets, form.up, sides=form.ways == "yes")
    except NotAMesh as error:
        raise InputError([form.wrong("mesh", "a closed shape", str(error))]) from None


def _middle_and_ends(ends: tuple[float, float]) -> tuple[float, tuple[float, float]]:
    return (ends[0] + ends[1]) / 2, ends


def _of_the_unit(of_the_file: str, given: str | None) -> Iterable[str]:
    if of_the_file:
        if given is not None:
            yield f"The 3MF says that its unit is the {of_the_file}. The unit that you chose is not used."
    elif given is None:
        yield "An STL has no unit, so millimetres are assumed. Check the sizes; if they are wrong, choose the unit."
