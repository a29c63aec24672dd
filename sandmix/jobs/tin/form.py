"""The form of *tin*: a tin test, its target, the heap, the own tin, and the book with the tests that the slope is learned from."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sandmix.asking.form import Filled, Form, ask, band_about, rule
from sandmix.bench import measurements, tin_dosing
from sandmix.bench.water_tests import COMPACTABILITY
from sandmix.book.book import read
from sandmix.book.heap import HeapState
from sandmix.entries.reading_entries import OWN_TIN
from sandmix.jobs.shared.from_book import heap_at
from sandmix.jobs.shared.tin import Tin, tin_of
from sandmix.language import timestamps
from sandmix.language.errors import Problem
from sandmix.lessons.tin_past import tin_past
from sandmix.materials.metals import METALS
from sandmix.maths.slope_grid import Difference
from sandmix.maths.statistics import TWO_SIGMA
from sandmix.maths.straight_line import Line
from sandmix.maths.uncertainty import Band, half_width

HEIGHTS = ("height_before_mm", "height_after_mm")
STEP = ("step_sand_g", "step_water_g", "compactability_wetter_pct")
MOST_STEP = 0.1
MOST_PCT = 80.0
RAMMED_KG_L = (1.0, 2.2)
"""What rammed sand can weigh; beyond that, a height, a width or a mass is wrong (own choice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TinForm(Form):
    """A tin test and its target, the heap, the own tin, and the book."""

    height_before_mm: float | None = ask("height_before_mm", first=True)
    height_after_mm: float | None = ask("height_after_mm", first=True)
    compactability_now_pct: float | None = ask("compactability_now_pct", first=True)
    compactability_again_pct: float | None = ask("compactability_again_pct", first=True)
    heap_kg: float | None = ask("heap_kg", first=True)
    target_compactability_pct: float = ask("target_compactability_pct", first=True, exact=True)
    since_mulling_h: float | None = ask("since_mulling_h", first=True, exact=True)
    metal: str = ask("metal")
    sand_kind: str = ask("sand_kind")
    compactability_slope: float | None = ask("compactability_slope")
    step_sand_g: float | None = ask("step_sand_g", exact=True)
    step_water_g: float | None = ask("step_water_g", exact=True)
    compactability_wetter_pct: float | None = ask("compactability_wetter_pct")
    rammer_kg: float | None = ask("rammer_kg")
    rammer_fall_mm: float | None = ask("rammer_fall_mm")
    tin_diameter_mm: float | None = ask("tin_diameter_mm")
    net_g: float | None = ask(
        "net_g", exact=True, help="With the tin's width, it shows whether the heights can be right."
    )
    book: Mapping[str, object] | None = ask("book")
    now: str | None = ask("now")

    @rule
    def the_sand_sinks(self) -> Iterable[Problem]:
        before, after = self.height_before_mm, self.height_after_mm
        if before is None or after is None:
            return
        if after > before:
            what_to_do = f"sand cannot rise under the rammer, and {after:g} mm is more than {before:g} mm. Check whether the two are swapped."
            yield self.wrong("height_after_mm", f"at most {before:g} mm", what_to_do)
        elif measurements.compactability_pct(before, after) > MOST_PCT:
            what_to_do = f"sand does not sink from {before:g} mm to {after:g} mm. Measure both heights from the bottom of the tin."
            yield self.wrong("height_after_mm", f"at least {before * (1 - MOST_PCT / 100):g} mm", what_to_do)

    @rule
    def both_heights(self) -> Iterable[Problem]:
        if (self.height_before_mm is None) != (self.height_after_mm is None):
            missing = HEIGHTS[0] if self.height_before_mm is None else HEIGHTS[1]
            yield self.wrong(
                missing, "the other height", "one height is not enough. Enter the height before and after ramming."
            )

    @rule
    def the_tin_was_read(self) -> Iterable[Problem]:
        if self.compactability_now_pct is None and self.height_before_mm is None and self.height_after_mm is None:
            what_to_do = "the tin test is missing. Enter both heights, or a compactability."
            yield self.wrong("compactability_now_pct", "a figure, or two heights", what_to_do)

    @rule
    def the_step_is_whole(self) -> Iterable[Problem]:
        missing = [word for word in STEP if getattr(self, word) is None]
        if 0 < len(missing) < len(STEP):
            what_to_do = "a step needs its sand, its water and the compactability afterwards. Enter all three, or none."
            yield self.wrong(missing[0], "all three figures of the step", what_to_do)

    @rule
    def the_step_is_a_step(self) -> Iterable[Problem]:
        sand, water = self.step_sand_g, self.step_water_g
        if sand is not None and water is not None and water > sand * MOST_STEP:
            what_to_do = f"{water:g} g of water in {sand:g} g of sand makes mud. A step is about 10 g to each kilogram. Check both."
            yield self.wrong("step_water_g", f"at most {sand * MOST_STEP:g} g", what_to_do)

    @rule
    def the_test_is_lighter_than_the_heap(self) -> Iterable[Problem]:
        if self.net_g is not None and self.heap_kg is not None and self.net_g / 1000 > self.heap_kg:
            what_to_do = f"{self.net_g:g} g in the tin is more than the {self.heap_kg:g} kg of the heap. Check both, and their units."
            yield self.wrong("net_g", f"at most {1000 * self.heap_kg:g} g", what_to_do)

    @rule
    def the_tin_can_hold_it(self) -> Iterable[Problem]:
        if self.net_g is None or self.tin_diameter_mm is None or self.height_after_mm is None:
            return
        kg_l = self.net_g / measurements.round_tin_ml(self.tin_diameter_mm, self.height_after_mm)
        if not RAMMED_KG_L[0] <= kg_l <= RAMMED_KG_L[1]:
            low, high = RAMMED_KG_L
            what_to_do = f"with this width and height it would weigh {kg_l:.2g} kg/L, and rammed sand weighs {low:g} to {high:g}. Check all three."
            yield self.wrong("net_g", "a mass that fits the tin", what_to_do)


@dataclass(frozen=True, slots=True, kw_only=True)
class Past:
    """What a book says for a tin test: its heap, its own tin, whether that is another one than was typed, and how many tests lie in the future."""

    state: HeapState
    tin: Tin | None
    other_tin: bool = False
    ahead: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedTin(TinForm):
    """The same, with one reading, a slope, the line of the own tests, and what the book says.

    *moisture_band* is the 95 % range of the moisture that is read off the line, where that has enough own pairs; the state of the day counts in
    it. *reading_half* is the 95 % half-width of the reading, *apart* how far two readings are from each other, as a share of what their errors allow
    19 times in 20, *own_slope* whether the slope was typed.
    """

    compactability_now_pct: float
    compactability_slope: float
    line: Line
    tin: Tin | None
    past: Past | None
    reading_half: float
    step: Difference | None
    moisture_band: Band | None = None
    apart: float = 0.0
    own_slope: bool = False

    @property
    def knows_moisture(self) -> bool:
        """Whether the line has enough own pairs to read a moisture off it."""
        return self.moisture_band is not None

    def moisture_at(self, compactability_pct: float) -> float:
        """Return the moisture where the line has a compactability, in % of the wet mass and not below 0."""
        height, _ = self.line.y_at(self.line.grid.centre)
        return max(0.0, self.line.grid.centre + (compactability_pct - height) / self.line.slope)

    @property
    def is_aged(self) -> bool:
        """Whether the sand has stood too long for a dose by the tin."""
        return self.since_mulling_h is not None and self.since_mulling_h > tin_dosing.AGED_H


def resolve(filled: Filled[TinForm]) -> Filled[ResolvedTin]:
    """Turn the readings into one with its ±, learn the line from the book, and take from the book what was not given."""
    form, remarks = filled.form, []
    reading, half, apart, origins = _reading(filled)
    if form.height_before_mm is not None and form.compactability_now_pct is not None:
        remarks.append(
            f"You gave two heights ({reading:.0f} %) and a reading ({form.compactability_now_pct:g} %). The heights are used."
        )
    tin = tin_of(*(getattr(form, word) for word in OWN_TIN))
    step = _step(filled, reading, half)
    past, line = _past(form, tin, step)
    values: dict[str, object] = {"line": line, "past": past, "apart": apart, "step": step}
    values["tin"] = tin or (past.tin if past else None)
    if len(line.points) >= tin_dosing.KNOWN_FROM:
        y_sd = math.hypot(half, tin_dosing.DAY_PCT) / TWO_SIGMA
        _, low, high = line.x_from(reading, y_sd)
        values["moisture_band"] = max(0.0, low), max(0.0, high)
    bands: dict[str, Band] = {}
    if form.compactability_slope is None:
        values["compactability_slope"], bands["compactability_slope"] = line.slope, line.slope_band
    else:
        values["own_slope"] = True
        if step is not None:
            remarks.append("You gave a slope and a step. The slope is used as you gave it.")
    if past is not None:
        if form.heap_kg is None and (mass := past.state.bands().get("heap_kg")):
            values["heap_kg"], bands["heap_kg"] = past.state.sand.wet_kg, mass
        if "metal" in filled.assumed and past.state.metal in METALS:
            values["metal"] = past.state.metal
    values |= {"compactability_now_pct": reading, "reading_half": half}
    bands["compactability_now_pct"] = band_about("compactability_now_pct", reading, half)
    return filled.into(
        ResolvedTin,
        values,
        bands=bands,
        without=(*HEIGHTS, "compactability_again_pct", "compactability_wetter_pct"),
        remarks=remarks,
        origins={"compactability_now_pct": origins} if origins else None,
    )


def _reading(filled: Filled[TinForm]) -> tuple[float, float, float, Mapping[str, float]]:
    """The mean of the readings, its 95 % half-width, how far apart they are for their errors, and where the half-width is from."""
    form, origins = filled.form, {}
    if form.height_before_mm is not None and form.height_after_mm is not None:
        before, after = form.height_before_mm, form.height_after_mm
        value = measurements.compactability_pct(before, after)
        ruler = {word: half_width(filled.bands[word]) for word in HEIGHTS}
        origins = {
            HEIGHTS[0]: 100 * after / before**2 * ruler[HEIGHTS[0]],
            HEIGHTS[1]: 100 / before * ruler[HEIGHTS[1]],
            "deviation": COMPACTABILITY.home.scatter.absolute,
        }
        half = math.hypot(*origins.values())
    else:
        assert form.compactability_now_pct is not None
        value, half = form.compactability_now_pct, half_width(filled.bands["compactability_now_pct"])
    if form.compactability_again_pct is None:
        return value, half, 0.0, origins
    again, other = form.compactability_again_pct, half_width(filled.bands["compactability_again_pct"])
    both = math.hypot(half, other)
    apart = abs(value - again) / both if both else 0.0
    return (value + again) / 2, both / 2 * max(1.0, apart), apart, {}


def _step(filled: Filled[TinForm], reading: float, half: float) -> Difference | None:
    """The step that was done on a sample of the sand as it was read, if there is one."""
    form = filled.form
    if form.step_sand_g is None or form.step_water_g is None or form.compactability_wetter_pct is None:
        return None
    after = half_width(filled.bands["compactability_wetter_pct"])
    return tin_dosing.SampleStep(
        sand_g=form.step_sand_g,
        water_g=form.step_water_g,
        before_pct=reading,
        after_pct=form.compactability_wetter_pct,
        before_half=half,
        after_half=after,
    ).difference


def _past(form: TinForm, typed: Tin | None, step: Difference | None) -> tuple[Past | None, Line]:
    """What the book says, and the line of its tests up to now and of the step."""
    more = [step] if step else []
    if form.book is None:
        return None, tin_dosing.learned([], more)
    book = read(form.book)
    now_s = None if form.now is None else timestamps.seconds_of(form.now)
    until_s = math.inf if now_s is None else now_s + timestamps.DAY_S
    learned = tin_past(book.events, until_s, more)
    known = tin_of(*(learned.tin.get(word) for word in OWN_TIN))
    other = typed is not None and known is not None and not typed.is_like(known)
    past = Past(state=heap_at(book.events, form.now), tin=known, other_tin=other, ahead=learned.ahead)
    return past, tin_dosing.learned([], more) if other else learned.line
