"""The form of *estimate*: the tests of one sand, and the estimates of live clay that follow from them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from sandmix.asking.form import Filled, Form, as_far_as_right, ask, moved, rule
from sandmix.bench import estimates
from sandmix.jobs.shared.tin import Tin, tin_of
from sandmix.language.errors import InputError, Problem
from sandmix.language.units import convert
from sandmix.language.wording import lowered
from sandmix.maths.statistics import WeightedMean
from sandmix.maths.uncertainty import propagate, wider_side


@dataclass(frozen=True, slots=True, kw_only=True)
class EstimateForm(Form):
    """The tests of one sand, and the figures of the book."""

    clay_blue_pct_dry: float | None = ask("clay_blue_pct_dry", first=True)
    washed_pct_dry: float | None = ask("washed_pct_dry", first=True)
    dead_fines_pct_dry: float | None = ask(
        "dead_fines_pct_dry",
        first=True,
        label="Dead fines by the book",
        help="Burnt clay, silt and dust together. The wash less these is the live clay.",
    )
    ash_pct_dry: float | None = ask("ash_pct_dry")
    clay_book_pct_dry: float | None = ask("clay_book_pct_dry", first=True)
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True, label="Moisture of the tested sand")
    compactability_read_pct: float | None = ask("compactability_read_pct", first=True)
    strength_kpa: float | None = ask("strength_kpa", first=True)
    rammer_kg: float | None = ask("rammer_kg")
    rammer_fall_mm: float | None = ask("rammer_fall_mm")
    tin_diameter_mm: float | None = ask("tin_diameter_mm")

    @rule
    def the_dead_part_was_washed_out(self) -> Iterable[Problem]:
        for word in ("dead_fines_pct_dry", "ash_pct_dry"):
            yield from as_far_as_right(self._is_more_than_the_wash(word))

    @rule
    def a_test_shows_live_clay(self) -> Iterable[Problem]:
        if not any(self.has(*words) for words in _ANSWERED_BY):
            yield self._too_little()

    def _is_more_than_the_wash(self, word: str) -> Iterable[Problem]:
        washed, dead = self.washed_pct_dry, getattr(self, word)
        if washed is not None and dead is not None and dead > washed:
            yield self.wrong(
                word,
                f"at most {washed:g} %",
                f"{dead:g} % is more than the {washed:g} % that the wash took, and it is a part of that. Check both.",
            )

    def has(self, *words: str) -> bool:
        """Whether all of *words* are given."""
        return all(getattr(self, word) is not None for word in words)

    @property
    def dead_pct_dry(self) -> float | None:
        """The part of the wash that is known to be dead: from the book, else ash."""
        return self.ash_pct_dry if self.dead_fines_pct_dry is None else self.dead_fines_pct_dry

    @property
    def tin(self) -> Tin | None:
        """The tin and its rammer, where they are known."""
        return tin_of(self.rammer_kg, self.rammer_fall_mm, self.tin_diameter_mm)

    def _too_little(self) -> Problem:
        if self.washed_pct_dry is not None:
            return self.wrong(
                "dead_fines_pct_dry",
                "0 to 60 %",
                (
                    f"the wash took {self.washed_pct_dry:g} %, and that includes dead clay. Alone it only shows that no "
                    "more than that is live. Enter how much of it is dead, or a methylene blue figure."
                ),
            )
        return self.wrong(
            "clay_blue_pct_dry",
            "a test that shows live clay or mulling",
            (
                "nothing given here shows live clay or mulling. Enter a methylene blue figure, or a wash with its dead fines, or moisture with "
                "compactability, or the figure of the book."
            ),
        )


_ANSWERED_BY = (
    ("clay_blue_pct_dry",),
    ("clay_book_pct_dry",),
    ("washed_pct_dry", "dead_fines_pct_dry"),
    ("washed_pct_dry", "ash_pct_dry"),
    ("moisture_pct_wet", "compactability_read_pct"),
    ("strength_kpa", "moisture_pct_wet"),
    ("strength_kpa", "compactability_read_pct"),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedEstimate(EstimateForm):
    """The same, with the half-width of each usable estimate, their weighted mean, and whether the bond equations are used.

    ``shifts`` are from a figure to the middle of its range, where its error has one side only.
    """

    half_widths: Mapping[str, float] = field(default_factory=dict)
    shifts: Mapping[str, float] = field(default_factory=dict)
    together: WeightedMean | None = None
    bond: bool = False

    @property
    def strength_psi(self) -> float | None:
        """The green strength in the unit of the bond equations, where they are used."""
        return convert(self.strength_kpa, "kPa", "psi") if self.bond and self.strength_kpa is not None else None


def middles(form: ResolvedEstimate) -> dict[str, float]:
    """Return the middle of the range of live clay from each test that is used, in percent of dry mass."""
    found = clay_by_test(form)
    return {key: found[key] + form.shifts.get(key, 0.0) for key in form.half_widths}


def clay_by_test(form: EstimateForm) -> dict[str, float]:
    """Return live clay from each test that *form* has, in percent of dry mass."""
    found: dict[str, float] = {}
    if form.clay_blue_pct_dry is not None:
        found["clay_blue_pct_dry"] = form.clay_blue_pct_dry
    if form.washed_pct_dry is not None and form.dead_pct_dry is not None:
        found["clay_washed_pct_dry"] = form.washed_pct_dry - form.dead_pct_dry
    if form.clay_book_pct_dry is not None:
        found["clay_book_pct_dry"] = form.clay_book_pct_dry
    if form.moisture_pct_wet is not None and form.compactability_read_pct is not None:
        found["clay_mulled_pct_dry"] = estimates.mulled_clay_pct_dry(
            form.moisture_pct_wet, form.compactability_read_pct
        )
    return found


def resolve(filled: Filled[EstimateForm]) -> Filled[ResolvedEstimate]:
    """Combine the estimates by their uncertainty. A remark names each one that is outside the published range and left out.

    Raises InputError where nothing is left to answer.
    """
    form, remarks = filled.form, []
    found = clay_by_test(form)
    if "clay_mulled_pct_dry" in found and not estimates.clay_holds(found["clay_mulled_pct_dry"]):
        remarks.append(_beyond_clay(found.pop("clay_mulled_pct_dry")))
    if "clay_mulled_pct_dry" in found and form.tin and not form.tin.is_standard:
        trend = (
            f"{form.tin.sentences} The equations are for the standard, so what follows from moisture and compactability"
        )
        if len(found) > 1:
            found.pop("clay_mulled_pct_dry")
            remarks.append(f"{trend} is left out.")
        else:
            remarks.append(f"{trend} is a rough guess.")
    bond = form.strength_kpa is not None and (form.has("moisture_pct_wet") or form.has("compactability_read_pct"))
    if form.strength_kpa is not None and bond and (beyond := _beyond_bond(form, form.strength_kpa)):
        bond = False
        remarks.append(beyond)
    if not found and not bond:
        word = "moisture_pct_wet" if form.strength_kpa is None else "strength_kpa"
        what_to_do = " Enter another test as well, or check both figures." if word == "moisture_pct_wet" else ""
        message = lowered(" ".join(remarks)) + what_to_do
        raise InputError([form.wrong(word, "the range of the published equations", message)])
    ranges = {key: _range(filled, key, value) for key, value in found.items()}
    halves = {key: (high - low) / 2 for key, (low, high) in ranges.items()}
    shifts = {key: sum(ranges[key]) / 2 - value for key, value in found.items() if key == "clay_mulled_pct_dry"}
    listed = [
        estimates.Estimate(key=key, value=value + shifts.get(key, 0.0), half_width=halves[key])
        for key, value in found.items()
    ]
    together = estimates.combine(listed) if listed else None
    values = {"half_widths": halves, "shifts": shifts, "together": together, "bond": bond}
    return filled.into(ResolvedEstimate, values, remarks=remarks)


def _range(filled: Filled[EstimateForm], key: str, value: float) -> tuple[float, float]:
    """The likely range of live clay from one test: the errors of its readings, and that of its assumption, which may have one side only."""
    band = propagate(lambda values: clay_by_test(moved(filled.form, values)), filled.bands, {key: value}).bands[key]
    readings = wider_side(band, value)
    if key == "clay_mulled_pct_dry":
        short = value - estimates.mulled_clay_low_pct_dry(value)
        return value - math.hypot(readings, short), value + readings
    ash = key == "clay_washed_pct_dry" and filled.form.dead_fines_pct_dry is None
    half = math.hypot(readings, estimates.ASH_SCATTER if ash else 0.0)
    return value - half, value + half


def _beyond_clay(clay_pct: float) -> str:
    low, high = estimates.CLAY_HOLDS_PCT
    return (
        f"From moisture and compactability it would have {clay_pct:.1f} % clay. The published equilibrium holds for "
        f"{low:g} to {high:g} %, so this estimate is left out."
    )


def _beyond_bond(form: EstimateForm, strength_kpa: float) -> str:
    """Return why the bond equations are not used, or nothing where they are."""
    compactability, moisture = form.compactability_read_pct, form.moisture_pct_wet
    if compactability is None:
        return ""
    if not estimates.bond_holds(compactability):
        low, high = estimates.BOND_HOLDS_PCT
        return (
            f"A compactability of {compactability:g} % is outside the {low:g} to {high:g} % in which strength shows bond "
            "and mulling, so these are left out. Bring the sand to its working moisture and test again."
        )
    if moisture is None:
        return ""
    strength_psi = convert(strength_kpa, "kPa", "psi")
    working = estimates.working_bond_pct(strength_psi, compactability)
    available = estimates.available_bond_pct(strength_psi, moisture)
    if working > available:
        return (
            f"More clay would be bonding ({working:.1f} %) than could bond ({available:.1f} %), so the published equations "
            "do not hold here. Bond and mulling are left out. Test moisture, strength and compactability of one handful again."
        )
    return ""
