"""The form of *bench*: which test, and its readings."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking.form import Filled, as_far_as_right, asks, band_about, rule
from sandmix.bench import measurements
from sandmix.bench.catalogue import Test
from sandmix.jobs.bench.formulas import figure_of
from sandmix.jobs.bench.readings import Readings
from sandmix.language.errors import Problem
from sandmix.language.wording import list_of, lowered, plain
from sandmix.language.words import EXACT, Quantity
from sandmix.maths.uncertainty import Ends, Key
from sandmix.vocabulary import WORDS

ALWAYS = ("test", "manner", "repeats", "wanted_error", "history", "scale_step_g")
FINE_TESTS = ("methylene_blue", "swell", "loss_on_ignition", "volatiles")
FINE_STEP_G = 0.01
_WEIGHED = (
    "sample_wet_g",
    "sample_dry_g",
    "sample_g",
    "left_g",
    "clay_washed_g",
    "calibration_clay_g",
    "net_g",
    "sprayed_g",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchForm(Readings):
    """A test of the sand with all the readings that it needs."""

    @rule
    def all_readings_are_there(self) -> Iterable[Problem]:
        for group in self.row.needs:
            yield from as_far_as_right(self._lacks(group))

    @rule
    def a_whole_number_of_tests(self) -> Iterable[Problem]:
        if self.repeats != int(self.repeats):
            yield self.wrong(
                "repeats", "a whole number", f"{self.repeats:g} is not a whole number of tests. Enter 1, 2, 3 …"
            )

    @rule
    def readings_agree(self) -> Iterable[Problem]:
        for whole, part in (("sample_wet_g", "sample_dry_g"), ("sample_g", "clay_washed_g"), ("sample_g", "left_g")):
            yield from as_far_as_right(self._is_part(whole, part))
        yield from as_far_as_right(self._sand_rises())
        yield from as_far_as_right(self._one_sand_twice())

    @rule
    def the_figure_is_possible(self) -> Iterable[Problem]:
        if not [*self.all_readings_are_there(), *self.readings_agree()]:
            yield from self._out_of_reach()

    def _lacks(self, group: tuple[tuple[str, ...], ...]) -> Iterable[Problem]:
        if not any(self.has(*way) for way in group):
            yield self._missing(group)

    def _missing(self, group: tuple[tuple[str, ...], ...]) -> Problem:
        asked = asks(type(self))
        begun = next((way for way in group if any(self.has(word) for word in way)), group[0])
        word = next(word for word in begun if not self.has(word))
        others = [" and ".join(lowered(asked[name].label) for name in way) for way in group if way is not begun]
        instead = f", or {' or '.join(others)} instead" if others else ""
        declared = asked[word].word
        allowed = (
            declared.allowed if isinstance(declared, Quantity) else list_of(tuple(getattr(declared, "choices", ())))
        )
        return self.wrong(word, allowed, f"the test “{self.row.label}” needs it{instead}. Enter {allowed}.")

    def _is_part(self, whole: str, part: str) -> Iterable[Problem]:
        uses = self.row.readings
        if whole in uses and part in uses and self.has(whole, part) and getattr(self, part) > getattr(self, whole):
            most, given = getattr(self, whole), getattr(self, part)
            yield self.wrong(
                part,
                f"at most {most:g} g",
                f"{given:g} g is more than the sample of {most:g} g. Check whether the two are swapped.",
            )

    def _sand_rises(self) -> Iterable[Problem]:
        if self.test == "compactability" and self.has("height_before_mm", "height_after_mm"):
            before, after = self.number("height_before_mm"), self.number("height_after_mm")
            if after > before:
                yield self.wrong(
                    "height_after_mm",
                    f"at most {before:g} mm",
                    f"sand cannot rise under the rammer, and {after:g} mm is more than {before:g} mm. Check whether the two are swapped.",
                )

    def _one_sand_twice(self) -> Iterable[Problem]:
        if self.test != "water_sensitivity" or list(self.all_readings_are_there()):
            return
        wetter, looser = self.moistures[0] - self.moistures[1], self.compactabilities[0] - self.compactabilities[1]
        if wetter == 0:
            yield self.wrong(
                "moisture_second_pct_wet",
                "another moisture",
                "both tests have the same moisture, so they show nothing. Test wetter or drier sand.",
            )
        if looser == 0:
            yield self.wrong(
                "compactability_second_pct",
                "another compactability",
                "both tests have the same compactability, so they show nothing. Test wetter or drier sand.",
            )
        if wetter * looser < 0:
            yield self.wrong(
                "compactability_second_pct",
                "the higher figure at the higher moisture",
                "the wetter sand has the lower compactability, which one sand cannot have. Check whether two figures are swapped.",
            )

    def _out_of_reach(self) -> Iterable[Problem]:
        """A figure that no sand can have: a reading or its unit is wrong."""
        declared, value = WORDS[self.row.figure], figure_of(self)
        if not isinstance(declared, Quantity) or not isinstance(value, float):
            return
        low = 0.0 if self.test == "compactability" else declared.low
        if not low <= value <= declared.high:
            last = next(word for word in reversed(self.row.readings) if self.has(word) and word in _numbers(self.row))
            yield self.wrong(
                last,
                f"{declared.label.lower()} of {plain(low)} to {plain(declared.high)} {declared.unit}".rstrip(),
                f"with these readings, {declared.label.lower()} would be {plain(value)} {declared.unit}".rstrip()
                + ", which no sand has. Check each reading and its unit.",
            )


def _numbers(row: Test) -> tuple[str, ...]:
    """The words of a test whose numbers go into its figure."""
    return tuple(
        word
        for word in row.readings
        if isinstance(WORDS[word], Quantity) and word not in ("scale_step_g", "dose_ml", *row.about)
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedBench(BenchForm):
    """The same with *deviation*: the error of the test itself in 95 % half-widths, which the uncertainty moves from -1 to 1.

    *direction* is 1 where the first of two compactabilities is the higher as read, -1 where the second is.
    """

    deviation: float = 0.0
    direction: float = 0.0

    @property
    def scatter(self) -> float:
        """The scatter of the mean of all repeats, without that of the readings, as a 95 % half-width in the figure's unit."""
        value = figure_of(self)
        return self.procedure.scatter.half_width(value) / math.sqrt(self.repeats) if isinstance(value, float) else 0.0


def resolve(filled: Filled[BenchForm]) -> Filled[ResolvedBench]:
    """Give each reading the error of its scale, ruler or watch, add the test's own scatter, and say which inputs were not used."""
    form = filled.form
    used = _used(form)
    remarks = list(_remarks(filled, used))
    step_g = form.scale_step_g
    if form.test in FINE_TESTS and "scale_step_g" in filled.assumed and any(word in _WEIGHED for word in used):
        step_g = FINE_STEP_G
        remarks.append(f"You gave no scale resolution. This test needs {FINE_STEP_G:g} g, so that is used.")
    bands: dict[Key, Ends] = {}
    for word in (*used, *(word for word in form.row.about if form.has(word))):
        band: Ends | None = filled.bands.get(word)
        if band is None and word in _WEIGHED:
            band = band_about(word, getattr(form, word), measurements.reading_error_g(step_g))
        if band is not None:
            bands[word] = _narrowed(band, getattr(form, word), form.repeats)
    if form.procedure.scatter != EXACT:
        bands["deviation"] = (-1.0, 1.0)
    values = {"scale_step_g": step_g, "direction": _direction(form)}
    return filled.into(ResolvedBench, values, bands=bands, without=filled.bands, remarks=remarks)


def _direction(form: BenchForm) -> float:
    if form.test != "water_sensitivity":
        return 0.0
    first, second = form.compactabilities
    return math.copysign(1.0, first - second)


def _narrowed(band: Ends, value: float, repeats: float) -> Ends:
    low, high = band
    assert isinstance(low, float) and isinstance(high, float)
    root = math.sqrt(repeats)
    return value + (low - value) / root, value + (high - value) / root


def _used(form: BenchForm) -> tuple[str, ...]:
    """The number words that go into the figure: for each need the first way whose readings are all given."""
    ways = [next(way for way in group if form.has(*way)) for group in form.row.needs]
    words = [word for way in ways for word in way] + [word for word in form.row.also if form.has(word)]
    return tuple(word for word in words if word in _numbers(form.row))


def _remarks(filled: Filled[BenchForm], used: tuple[str, ...]) -> Iterable[str]:
    form, asked = filled.form, asks(type(filled.form))
    given = [name for name in asked if name not in filled.assumed and name not in ALWAYS]
    unused = [asked[name].label for name in given if name not in form.row.readings]
    if unused:
        yield f"Not an input of this test, so not used: {', '.join(lowered(label) for label in unused)}."
    twice = [asked[name].label for name in given if name in _numbers(form.row) and name not in used]
    if twice:
        yield f"Given in two ways, so not used: {', '.join(lowered(label) for label in twice)}."
    if form.manner == "lab" and form.row.lab is None:
        yield "A laboratory does this test in the same way, so its ± is that of the test at home."
