"""The form of *flask*: the inside of the flask, what takes up space in it, and the heap."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking.form import Form, ask, rule
from sandmix.language.errors import Problem
from sandmix.language.wording import to_figures
from sandmix.materials.metals import METALS
from sandmix.mould import clearance, flask
from sandmix.mould.body import Body


@dataclass(frozen=True, slots=True, kw_only=True)
class FlaskForm(Form):
    """The inside of the flask, what takes up space in it, how densely it is rammed, and the heap."""

    flask_length_mm: float = ask("flask_length_mm", first=True, required=True)
    flask_width_mm: float = ask("flask_width_mm", first=True, required=True)
    drag_depth_mm: float = ask("drag_depth_mm", first=True, required=True)
    cope_depth_mm: float = ask("cope_depth_mm", first=True, default=0.0)
    heap_kg: float | None = ask("heap_kg", first=True)
    pattern_volume_cm3: float = ask("pattern_volume_cm3")
    gating_volume_cm3: float = ask("gating_volume_cm3")
    filler_l: float = ask("filler_l")
    pattern_length_mm: float | None = ask("pattern_length_mm")
    pattern_width_mm: float | None = ask("pattern_width_mm")
    pattern_height_mm: float | None = ask(
        "pattern_height_mm",
        help="For the drawing and the depth of the flask. Left empty: as a block of the pattern's volume.",
    )
    rammed_density_kg_l: float = ask("rammed_density_kg_l")
    compactability_pct: float = ask("compactability_pct")
    spare_pct: float = ask("spare_pct", exact=True)
    frame_kg: float = ask("frame_kg")
    metal: str = ask("metal")

    @property
    def inside(self) -> flask.Flask:
        """The inside of the flask."""
        return flask.Flask(
            length_mm=self.flask_length_mm,
            width_mm=self.flask_width_mm,
            drag_depth_mm=self.drag_depth_mm,
            cope_depth_mm=self.cope_depth_mm,
        )

    @property
    def taken_l(self) -> float:
        """What pattern, gating and filler take up, in litres."""
        return (self.pattern_volume_cm3 + self.gating_volume_cm3) / 1000 + self.filler_l

    @property
    def clearance(self) -> clearance.Clearance:
        """The least sand around the casting, by the mass of the pattern's volume in the metal."""
        return clearance.required(self.pattern_volume_cm3 * 1e-6 * METALS[self.metal].solid_kg_m3)

    @property
    def pattern_mm(self) -> tuple[float, float] | None:
        """Length and width of the pattern, where both are given."""
        length, width = self.pattern_length_mm, self.pattern_width_mm
        return None if length is None or width is None else (length, width)

    @property
    def block(self) -> Body | None:
        """The pattern as a block, where length and width are given, and the height or the volume."""
        if self.pattern_mm is None or not (self.pattern_height_mm or self.pattern_volume_cm3):
            return None
        length, width = self.pattern_mm
        height = self.pattern_height_mm or 1000 * self.pattern_volume_cm3 / (length * width)
        return Body(shape="box", length_mm=length, width_mm=width, height_mm=height)

    @rule
    def what_is_inside_leaves_sand(self) -> Iterable[Problem]:
        inside = self.inside
        if self.taken_l >= inside.volume_l:
            name = "filler_l" if self.filler_l >= inside.volume_l else "pattern_volume_cm3"
            yield self.wrong(
                name,
                f"below {to_figures(inside.volume_l, 3)} L in all",
                (
                    f"pattern, gating and filler take up {to_figures(self.taken_l, 3)} L, and the flask holds only "
                    f"{to_figures(inside.volume_l, 3)} L. Check the volumes and their units, or use a larger flask."
                ),
            )

    @rule
    def the_pattern_fits(self) -> Iterable[Problem]:
        inside = self.inside
        if self.pattern_mm and not flask.clears(inside.length_mm, inside.width_mm, *self.pattern_mm, 0.0):
            yield self.wrong(
                "pattern_length_mm",
                f"inside {inside.length_mm:g} × {inside.width_mm:g} mm",
                (
                    f"a pattern of {self.pattern_mm[0]:g} × {self.pattern_mm[1]:g} mm does not fit into a flask of "
                    f"{inside.length_mm:g} × {inside.width_mm:g} mm. Use a larger flask."
                ),
            )

    @rule
    def the_pattern_is_no_higher_than_the_flask(self) -> Iterable[Problem]:
        inside, height = self.inside, self.pattern_height_mm
        deep_mm = inside.drag_depth_mm + inside.cope_depth_mm
        if height is not None and height >= deep_mm:
            yield self.wrong(
                "pattern_height_mm",
                f"below {deep_mm:g} mm",
                f"a pattern {height:g} mm high leaves no sand in a flask that is {deep_mm:g} mm deep. Use a deeper flask.",
            )

    @rule
    def both_sizes_of_the_pattern(self) -> Iterable[Problem]:
        if (self.pattern_length_mm is None) != (self.pattern_width_mm is None):
            missing = "pattern_width_mm" if self.pattern_width_mm is None else "pattern_length_mm"
            yield self.wrong(
                missing, "the other size", "one size of the pattern alone can't be checked. Enter both or neither."
            )


def mould(form: FlaskForm, block: Body) -> clearance.Mould:
    """Return the block in the sand: as much of it in the drag as leaves enough sand below, the rest in the cope."""
    free_mm = form.inside.drag_depth_mm - form.clearance.below_mm
    in_drag_mm = min(block.height_mm, max(0.0, free_mm))
    return clearance.Mould(block, 1, in_drag_mm, form.clearance, is_open=form.cope_depth_mm == 0)
