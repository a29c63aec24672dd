"""The form of *fit*: the pattern as it lies, the flasks and boards on hand, and the sand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import Filled, Form, ask, band_about, rule
from sandmix.feeding.modulus import HEIGHT_SHARES, TOP
from sandmix.language.errors import Problem
from sandmix.materials.metals import METALS, thermal
from sandmix.mould import body_orientation, clearance, cutting, walls
from sandmix.mould.body import Body
from sandmix.mould.clearance import Mould, Riser
from sandmix.mould.fit import CheckedFlask, check, smallest
from sandmix.mould.flask import Flask

Row = Mapping[str, Any]
TO_MAKE = "one to make"
FULLER = 1.02
"""A pattern's volume may be this much above that of its box: both are measured."""
MOST_RISER_MM = 1500.0
"""Half of the largest flask (own choice)."""
OF_FEED = "The page “The riser” works it out."
OF_GATE = "The page “Sprue and gates” works it out."
VOLUME_ERROR = 0.05
WOOD_ERROR = 0.15
"""How far plywood may be from 600 kg/m³ (from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FitForm(Form):
    """The pattern as it lies and how many, what is on hand to mould it in, and the sand for it."""

    pattern_length_mm: float = ask("pattern_length_mm", first=True, required=True, exact=True)
    pattern_width_mm: float = ask("pattern_width_mm", first=True, required=True, exact=True)
    pattern_height_mm: float = ask("pattern_height_mm", first=True, required=True, exact=True)
    flasks: Sequence[Row] | None = ask("flasks", first=True)
    heap_kg: float | None = ask("heap_kg", first=True)
    pattern_shape: str = ask("pattern_shape")
    pattern_volume_cm3: float = ask(
        "pattern_volume_cm3", help="Of one pattern, as it displaces water. 0: worked out from its sizes and shape."
    )
    patterns_count: float = ask("patterns_count")
    parting_height_mm: float | None = ask("parting_height_mm")
    open_top: str = ask("open_top")
    metal: str = ask("metal")
    clearance_rule: str = ask("clearance_rule")
    sprue_mm: float = ask("sprue_mm")
    sprue_base_mm: float | None = ask("sprue_base_mm", exact=True, help=f"For the drawing. {OF_GATE}")
    riser_kind: str = ask("riser_kind")
    riser_diameter_mm: float | None = ask(
        "riser_diameter_mm",
        exact=True,
        label="Riser of each casting, diameter",
        help=f"Leave empty, or 0, for none. {OF_FEED}",
    )
    riser_height_mm: float | None = ask(
        "riser_height_mm",
        exact=True,
        help="Leave empty for its diameter, or half of that on top of the casting.",
    )
    gating_volume_cm3: float = ask(
        "gating_volume_cm3", help="Sprue, runners and all risers. It counts towards the metal."
    )
    facing_mm: float = ask("facing_mm")
    flask_name: str | None = ask("flask_name")
    boards: Sequence[Row] | None = ask("boards")
    wall_thickness_mm: float = ask("wall_thickness_mm")
    frame_kg: float = ask("frame_kg", help="0: worked out, with walls and one bottom board of plywood.")
    rammed_density_kg_l: float = ask("rammed_density_kg_l")
    spare_pct: float = ask("spare_pct", exact=True)
    cost_per_kg: float | None = ask(
        "cost_per_kg", exact=True, label="Price of sand per kilogram", help="The page “What to buy” works it out."
    )
    burnt_depth_mm: float | None = ask(
        "burnt_depth_mm", help="For the drawing. The page “After the pour” works it out."
    )
    dry_depth_mm: float | None = ask("dry_depth_mm", help="For the drawing. The page “After the pour” works it out.")

    @property
    def body(self) -> Body:
        """The pattern as a plain body."""
        return Body(
            shape=self.pattern_shape,
            length_mm=self.pattern_length_mm,
            width_mm=self.pattern_width_mm,
            height_mm=self.pattern_height_mm,
        )

    @property
    def count(self) -> int:
        """How many patterns."""
        return round(self.patterns_count)

    @property
    def volume_cm3(self) -> float:
        """The volume of one pattern: as given, else from its sizes."""
        return self.pattern_volume_cm3 or self.body.volume_cm3

    @property
    def is_open(self) -> bool:
        """Whether there is no cope."""
        return self.open_top == "yes"

    @property
    def clearance(self) -> clearance.Clearance:
        """The sand that is needed around a casting."""
        kilograms = self.volume_cm3 * 1e-6 * METALS[self.metal].solid_kg_m3
        return clearance.required(kilograms, self.clearance_rule)

    @property
    def widest_sprue_mm(self) -> float:
        """The larger of the sprue's two diameters; 0 without a sprue."""
        return self.sprue_mm and max(self.sprue_mm, self.sprue_base_mm or 0.0)

    @property
    def riser(self) -> Riser | None:
        """The riser of each casting, if it has one."""
        diameter = self.riser_diameter_mm
        if not diameter:
            return None
        is_on_top = self.riser_kind == TOP
        height = self.riser_height_mm or diameter * HEIGHT_SHARES[self.riser_kind]
        return Riser(diameter_mm=diameter, height_mm=height, is_on_top=is_on_top)

    @property
    def orientations(self) -> tuple[body_orientation.BodyOrientation, ...]:
        """All orientations, in two halves."""
        liquid = thermal(self.metal).liquid_kg_m3
        return body_orientation.orientations(
            self.body, self.count, self.clearance, self.widest_sprue_mm, liquid, self.riser
        )

    @property
    def mould(self) -> Mould:
        """What to mould; the parting is the one given, else the best for the pattern as it lies."""
        sprue = 0.0 if self.is_open else self.widest_sprue_mm
        parting = self.parting_height_mm
        if parting is None:
            parting = body_orientation.best(self.orientations, "height").mould.parting_mm
        return Mould(self.body, self.count, parting, self.clearance, sprue, self.is_open, self.riser)

    @property
    def checked(self) -> tuple[CheckedFlask, ...]:
        """Each flask on hand, checked for the mould."""
        mould = self.mould
        return tuple(
            check(name, _inside(row), mould)
            for name, row in zip(names_of(self.flasks, "flask"), self.flasks or (), strict=True)
        )

    @property
    def taken(self) -> CheckedFlask:
        """The flask that the figures are for: the one named, else the smallest that clears, else one to make."""
        checked = self.checked
        chosen = next((each for each in checked if each.name == self.flask_name), None)
        if chosen is None and self.flask_name != TO_MAKE:
            chosen = smallest(checked)
        return chosen or check(TO_MAKE, self.mould.smallest_flask(), self.mould)

    @property
    def cutting_plan(self) -> cutting.CuttingPlan | None:
        """How a flask to make is cut from the boards; None for another flask, or without boards."""
        if self.taken.name != TO_MAKE:
            return None
        boards = [
            cutting.Board(
                name=name,
                thickness_mm=row["thickness_mm"],
                width_mm=row["width_mm"],
                length_mm=row["length_mm"],
                count=round(row["count"]),
            )
            for name, row in zip(names_of(self.boards, "board"), self.boards or (), strict=True)
        ]
        return cutting.plan(self.taken.inside, boards)

    @property
    def taken_l(self) -> float:
        """What patterns and gating take up, in litres."""
        return (self.count * self.volume_cm3 + self.gating_volume_cm3) / 1000

    @property
    def gating_kg(self) -> float:
        """The metal in the gating."""
        return self.gating_volume_cm3 * 1e-6 * METALS[self.metal].solid_kg_m3

    @rule
    def a_whole_number_of_patterns(self) -> Iterable[Problem]:
        if self.patterns_count != self.count:
            message = f"{self.patterns_count:g} is not a whole number of patterns. Enter a whole number."
            yield self.wrong("patterns_count", "a whole number", message)

    @rule
    def a_flask_can_hold_the_riser(self) -> Iterable[Problem]:
        for word in ("riser_diameter_mm", "riser_height_mm"):
            size = getattr(self, word)
            if size is not None and size > MOST_RISER_MM:
                message = f"{size:g} mm is more than any flask can hold. Check the unit, and enter at most {MOST_RISER_MM:g} mm."
                yield self.wrong(word, f"at most {MOST_RISER_MM:g} mm", message)

    @rule
    def the_parting_is_inside_the_pattern(self) -> Iterable[Problem]:
        height = self.pattern_height_mm
        if self.parting_height_mm is not None and self.parting_height_mm > height:
            message = (
                f"{self.parting_height_mm:g} mm is above the top of the pattern, which is {height:g} mm high. Enter 0 to "
                f"{height:g} mm."
            )
            yield self.wrong("parting_height_mm", f"0 to {height:g} mm", message)

    @rule
    def the_box_holds_the_volume(self) -> Iterable[Problem]:
        length, width, height = self.pattern_length_mm, self.pattern_width_mm, self.pattern_height_mm
        box = length * width * height / 1000
        if self.pattern_volume_cm3 > FULLER * box:
            message = (
                f"{self.pattern_volume_cm3:g} cm³ is more than a box of {length:g} × {width:g} × {height:g} mm can hold, "
                f"which is {box:.4g} cm³. Check the sizes and the volume."
            )
            yield self.wrong("pattern_volume_cm3", f"at most {box:.4g} cm³", message)

    @rule
    def each_flask_has_its_name(self) -> Iterable[Problem]:
        return self._same_names("flasks", names_of(self.flasks, "flask"))

    @rule
    def each_board_has_its_name(self) -> Iterable[Problem]:
        return self._same_names("boards", names_of(self.boards, "board"))

    def _same_names(self, word: str, names: Sequence[str]) -> Iterable[Problem]:
        for name, times in Counter(names).items():
            if times > 1:
                message = f"{times} of them are named “{name}”. Give each a different name."
                yield self.wrong(word, "different names", message)

    @rule
    def a_whole_number_of_boards(self) -> Iterable[Problem]:
        boards = names_of(self.boards, "board")
        for name, row in zip(boards, self.boards or (), strict=True):
            if row["count"] != round(row["count"]):
                message = f"{row['count']:g} of “{name}” is not a whole number of boards. Enter a whole number."
                yield self.wrong("boards", "a whole number", message)

    @rule
    def the_flask_is_on_hand(self) -> Iterable[Problem]:
        flasks = names_of(self.flasks, "flask")
        if self.flask_name is not None and self.flask_name not in (*flasks, TO_MAKE):
            allowed = ", ".join((*flasks, TO_MAKE))
            message = f"no flask on hand is named “{self.flask_name}”. Enter one of these: {allowed}."
            yield self.wrong("flask_name", allowed, message)


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedFit(FitForm):
    """The same with volume, parting, flask and wood settled, so that no uncertainty of a figure changes the choice."""

    parting_height_mm: float
    flask_name: str


def names_of(rows: Sequence[Row] | None, kind: str) -> tuple[str, ...]:
    """Return the name of each row, or else its kind and number."""
    return tuple(str(row.get("name") or f"{kind} {at}") for at, row in enumerate(rows or (), start=1))


def _inside(row: Row) -> Flask:
    return Flask(
        length_mm=row["flask_length_mm"],
        width_mm=row["flask_width_mm"],
        drag_depth_mm=row["drag_depth_mm"],
        cope_depth_mm=row["cope_depth_mm"],
    )


def resolve(filled: Filled[FitForm]) -> Filled[ResolvedFit]:
    """Choose volume, parting, flask and wood where they are not given."""
    form = filled.form
    taken = form.taken
    values: dict[str, float | str] = {"flask_name": taken.name, "parting_height_mm": form.mould.parting_mm}
    bands: dict[str, tuple[float, float]] = {}
    remarks = []
    if not form.pattern_volume_cm3:
        volume = form.body.volume_cm3
        values["pattern_volume_cm3"] = volume
        bands["pattern_volume_cm3"] = band_about("pattern_volume_cm3", volume, VOLUME_ERROR * volume)
        remarks.append(
            f"The pattern's volume is worked out from its sizes: {volume:.4g} cm³. A hollow or thin pattern has less."
        )
    if not form.frame_kg:
        wood = walls.wood_kg(taken.inside, form.wall_thickness_mm)
        values["frame_kg"], bands["frame_kg"] = wood, band_about("frame_kg", wood, WOOD_ERROR * wood)
    if form.body.is_out_of_round:
        remarks.append(
            "The pattern should be round, but its sizes differ. It is taken as "
            f"{form.body.across_mm:.4g} mm across, the mean of its sizes."
        )
    if form.is_open and form.parting_height_mm is not None:
        remarks.append("In an open mould the whole pattern lies in the drag: the parting that you gave is not used.")
    return filled.into(ResolvedFit, values, bands=bands, remarks=remarks)
