"""The form of *fit*: the pattern as it lies, the flasks and boards on hand, and the sand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from sandmix.asking.form import Filled, Form, ask, band_about
from sandmix.language.errors import Problem
from sandmix.materials.metals import METALS, thermal
from sandmix.mould import clearance, parting, walls
from sandmix.mould.body import Body
from sandmix.mould.clearance import Mould
from sandmix.mould.cutting import Board
from sandmix.mould.fit import Held, Judged, judge, smallest
from sandmix.mould.flask import Flask

Row = Mapping[str, object]
TO_MAKE = "one to make"
FULLER = 1.02
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
        "pattern_volume_cm3", help="Of one, in water. Left at 0: from its sizes and its shape."
    )
    patterns_count: float = ask("patterns_count")
    parting_height_mm: float | None = ask("parting_height_mm")
    open_top: str = ask("open_top")
    metal: str = ask("metal")
    clearance_rule: str = ask("clearance_rule")
    sprue_mm: float = ask("sprue_mm")
    gating_volume_cm3: float = ask("gating_volume_cm3")
    facing_mm: float = ask("facing_mm")
    flask_name: str | None = ask("flask_name")
    boards: Sequence[Row] | None = ask("boards")
    wall_thickness_mm: float = ask("wall_thickness_mm")
    frame_kg: float = ask("frame_kg", help="Left at 0: plywood walls and one bottom board of that thickness.")
    rammed_density_kg_l: float = ask("rammed_density_kg_l")
    spare_pct: float = ask("spare_pct", exact=True)
    cost_per_kg: float | None = ask(
        "cost_per_kg", exact=True, label="Price of sand, a kilogram", help="The page for buying tells it."
    )
    burnt_depth_mm: float | None = ask("burnt_depth_mm", help="For the drawing. The page for after the pour tells it.")
    dry_depth_mm: float | None = ask("dry_depth_mm", help="For the drawing. The page for after the pour tells it.")

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
        """The volume of one pattern: as given, else by its sizes."""
        return self.pattern_volume_cm3 or self.body.volume_cm3

    @property
    def is_open(self) -> bool:
        """Whether there is no cope."""
        return self.open_top == "yes"

    @property
    def clearance(self) -> clearance.Clearance:
        """The sand that is wanted about a casting."""
        kilograms = self.volume_cm3 * 1e-6 * METALS[self.metal].solid_kg_m3
        return clearance.wanted(kilograms, self.clearance_rule)

    @property
    def ways(self) -> tuple[parting.WayUp, ...]:
        """All ways up, in two halves."""
        return parting.ways(self.body, self.count, self.clearance, self.sprue_mm, thermal(self.metal).liquid_kg_m3)

    @property
    def mould(self) -> Mould:
        """What is to be moulded; the parting is the one given, else the best for the pattern as it lies."""
        sprue = 0.0 if self.is_open else self.sprue_mm
        parted = self.parting_height_mm
        if parted is None:
            parted = parting.best(self.ways, "height").mould.parting_mm
        return Mould(self.body, self.count, parted, self.clearance, sprue, self.is_open)

    @property
    def held(self) -> tuple[Held, ...]:
        """The flasks on hand, each with its name or its number."""
        return tuple(
            Held(name=name, inside=_inside(row))
            for name, row in zip(named(self.flasks, "flask"), self.flasks or (), strict=True)
        )

    @property
    def judged(self) -> tuple[Judged, ...]:
        """Each flask on hand against the mould."""
        mould = self.mould
        return tuple(judge(held.name, held.inside, mould) for held in self.held)

    @property
    def taken(self) -> Judged:
        """The flask that the figures are of: the one named, else the smallest that clears, else one to make."""
        judged = self.judged
        chosen = next((each for each in judged if each.name == self.flask_name), None)
        if chosen is None and self.flask_name != TO_MAKE:
            chosen = smallest(judged)
        return chosen or judge(TO_MAKE, self.mould.least(), self.mould)

    @property
    def stock(self) -> tuple[Board, ...]:
        """The boards on hand."""
        return tuple(
            Board(
                name=name,
                thickness_mm=_number(row["thickness_mm"]),
                width_mm=_number(row["width_mm"]),
                length_mm=_number(row["length_mm"]),
                count=round(_number(row["count"])),
            )
            for name, row in zip(named(self.boards, "board"), self.boards or (), strict=True)
        )

    @property
    def taken_l(self) -> float:
        """What patterns and gating take of the flask, in litres."""
        return (self.count * self.volume_cm3 + self.gating_volume_cm3) / 1000

    def problems(self) -> Iterable[Problem]:
        if self.patterns_count != self.count:
            said = f"{self.patterns_count:g} is no whole number of patterns. Write one."
            yield self.wrong("patterns_count", "a whole number", said)
        high = self.pattern_height_mm
        if self.parting_height_mm is not None and self.parting_height_mm > high:
            said = (
                f"{self.parting_height_mm:g} mm is above the top of a pattern {high:g} mm high. Give 0 to {high:g} mm."
            )
            yield self.wrong("parting_height_mm", f"0 to {high:g} mm", said)
        box = self.pattern_length_mm * self.pattern_width_mm * high / 1000
        if self.pattern_volume_cm3 > FULLER * box:
            said = (
                f"{self.pattern_volume_cm3:g} cm3 do not go into a box of {self.pattern_length_mm:g} × "
                f"{self.pattern_width_mm:g} × {high:g} mm, which holds {box:.4g}. Look at sizes and volume."
            )
            yield self.wrong("pattern_volume_cm3", f"at most {box:.4g} cm3", said)
        for word, called in (("flasks", named(self.flasks, "flask")), ("boards", named(self.boards, "board"))):
            for name, times in Counter(called).items():
                if times > 1:
                    said = f"{times} of them are called “{name}”. Give each a name of its own."
                    yield self.wrong(word, "names of their own", said)
        for name, row in zip(named(self.boards, "board"), self.boards or (), strict=True):
            if _number(row["count"]) != round(_number(row["count"])):
                said = f"{row['count']:g} of “{name}” is no whole number of boards. Write one."
                yield self.wrong("boards", "a whole number", said)
        yield from self._unknown_flask()

    def _unknown_flask(self) -> Iterable[Problem]:
        names = [held.name for held in self.held]
        if self.flask_name is not None and self.flask_name not in (*names, TO_MAKE):
            allowed = ", ".join((*names, TO_MAKE))
            said = f"no flask on hand is called “{self.flask_name}”. Name one of these: {allowed}."
            yield self.wrong("flask_name", allowed, said)


def named(rows: Sequence[Row] | None, kind: str) -> tuple[str, ...]:
    """Return what each row is called: its name, else its kind and number."""
    return tuple(str(row.get("name") or f"{kind} {at}") for at, row in enumerate(rows or (), start=1))


def _number(value: object) -> float:
    assert isinstance(value, (int, float))
    return float(value)


def _inside(row: Row) -> Flask:
    sizes = (_number(row[word]) for word in ("flask_length_mm", "flask_width_mm", "drag_depth_mm", "cope_depth_mm"))
    length, width, drag, cope = sizes
    return Flask(length_mm=length, width_mm=width, drag_depth_mm=drag, cope_depth_mm=cope)


def resolve(filled: Filled[FitForm]) -> Filled[FitForm]:
    """Settle the volume, the parting, the flask and its wood, so that no doubt of a figure changes the choice."""
    form = filled.form
    taken = form.taken
    values: dict[str, float | str] = {"flask_name": taken.name, "parting_height_mm": form.mould.parting_mm}
    bands: dict[str, tuple[float, float]] = {}
    remarks = []
    if not form.pattern_volume_cm3:
        volume = form.body.volume_cm3
        values["pattern_volume_cm3"] = volume
        bands["pattern_volume_cm3"] = band_about("pattern_volume_cm3", volume, VOLUME_ERROR * volume)
        remarks.append(f"The pattern's volume is taken from its sizes: {volume:.4g} cm3. A hollow or thin one is less.")
    if not form.frame_kg:
        wood = walls.wood_kg(taken.inside, form.wall_thickness_mm)
        values["frame_kg"], bands["frame_kg"] = wood, band_about("frame_kg", wood, WOOD_ERROR * wood)
    if form.body.is_out_of_round:
        remarks.append(
            f"What should be round is not: it is taken as {form.body.across_mm:.4g} mm across, the mean of its sizes."
        )
    if form.is_open and form.parting_height_mm is not None:
        remarks.append("In an open mould all of the pattern lies in the drag: the parting that was given is not used.")
    return filled.resolved(values, bands=bands, remarks=remarks)
