"""The form of *estimate*: what was tested of one sand, and which ways of telling its live clay that makes."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, fields

from sandmix.asking.form import Filled, Form, ask
from sandmix.bench import estimates
from sandmix.language.errors import InputError, Problem
from sandmix.language.units import convert
from sandmix.language.wording import lowered
from sandmix.maths.statistics import WeightedMean
from sandmix.maths.uncertainty import Key, propagate, wider_side


@dataclass(frozen=True, slots=True, kw_only=True)
class EstimateForm(Form):
    """What was tested of one sand, and what the book says of it."""

    clay_blue_pct_dry: float | None = ask("clay_blue_pct_dry", first=True)
    washed_pct_dry: float | None = ask("washed_pct_dry", first=True)
    dead_fines_pct_dry: float | None = ask(
        "dead_fines_pct_dry",
        first=True,
        label="Dead fines by the book",
        help="Burnt clay, silt and dust together. With the wash it tells the live clay.",
    )
    ash_pct_dry: float | None = ask("ash_pct_dry")
    clay_book_pct_dry: float | None = ask("clay_book_pct_dry", first=True)
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True, label="Moisture of the tested sand")
    compactability_read_pct: float | None = ask("compactability_read_pct", first=True)
    strength_kpa: float | None = ask("strength_kpa", first=True)

    def problems(self) -> Iterable[Problem]:
        washed = self.washed_pct_dry
        for word in ("dead_fines_pct_dry", "ash_pct_dry"):
            dead = getattr(self, word)
            if washed is not None and dead is not None and dead > washed:
                yield self.wrong(
                    word,
                    f"at most {washed:g} %",
                    f"{dead:g} % is more than the {washed:g} % that the wash took, and it is part of that. Look at both.",
                )
        if not any(self.has(*words) for words in _ANSWERED_BY):
            yield self._too_little()

    def has(self, *words: str) -> bool:
        """Whether all of *words* are given."""
        return all(getattr(self, word) is not None for word in words)

    @property
    def dead_pct_dry(self) -> float | None:
        """What of the wash is known to be dead: by the book, else ash."""
        return self.ash_pct_dry if self.dead_fines_pct_dry is None else self.dead_fines_pct_dry

    @property
    def strength_psi(self) -> float:
        """The green strength in the unit of the published equations."""
        assert self.strength_kpa is not None
        return convert(self.strength_kpa, "kPa", "psi")

    def _too_little(self) -> Problem:
        if self.washed_pct_dry is not None:
            return self.wrong(
                "dead_fines_pct_dry",
                "0 to 60 %",
                (
                    f"the wash took {self.washed_pct_dry:g} %, and dead clay counts in it. Alone it only says that no "
                    "more than that is live. Give what of it is dead, or a methylene blue figure."
                ),
            )
        return self.wrong(
            "clay_blue_pct_dry",
            "one way of telling it",
            (
                "nothing given here tells live clay or mulling. Give a methylene blue figure, or a wash with its dead fines, or moisture with "
                "compactability, or the book's figure."
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
    """The same, with the ways that hold: the half-width of each, what they come to together, and whether the bond equations are used."""

    half_widths: Mapping[str, float] = field(default_factory=dict)
    together: WeightedMean | None = None
    bond: bool = False


def ways_of(form: EstimateForm) -> dict[str, float]:
    """Return live clay by each way that the words of *form* allow, in percent of dry mass."""
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


def resolve(filled: Filled[EstimateForm]) -> Filled[EstimateForm]:
    """Weigh the ways against each other by their doubts, and leave out what lies beyond the published range, in words.

    Raises InputError where that leaves nothing to answer.
    """
    form, remarks = filled.form, []
    ways = ways_of(form)
    if "clay_mulled_pct_dry" in ways and not estimates.clay_holds(ways["clay_mulled_pct_dry"]):
        remarks.append(_beyond_clay(ways.pop("clay_mulled_pct_dry")))
    bond = form.strength_kpa is not None and (form.has("moisture_pct_wet") or form.has("compactability_read_pct"))
    if bond and (beyond := _beyond_bond(form)):
        bond = False
        remarks.append(beyond)
    if not ways and not bond:
        word = "moisture_pct_wet" if form.strength_kpa is None else "strength_kpa"
        what_to_do = " Give another test beside them, or look at both figures." if word == "moisture_pct_wet" else ""
        said = _sentence_inside(remarks) + what_to_do
        raise InputError([form.wrong(word, "what the published equations hold for", said)])
    halves = {key: _half_width(filled, key, value) for key, value in ways.items()}
    listed = [estimates.Estimate(key=key, value=value, half_width=halves[key]) for key, value in ways.items()]
    values = {part.name: getattr(form, part.name) for part in fields(form)}
    resolved = ResolvedEstimate(
        **values, half_widths=halves, together=estimates.union(listed) if listed else None, bond=bond
    )
    return Filled(form=resolved, bands=filled.bands, assumed=filled.assumed, remarks=(*filled.remarks, *remarks))


def _sentence_inside(remarks: list[str]) -> str:
    """Remarks as what stands behind a label."""
    return lowered(" ".join(remarks))


def _half_width(filled: Filled[EstimateForm], key: str, value: float) -> float:
    """The 95 % half-width of live clay by one way: what its readings leave, and what its assumption may be off by."""
    own = {"clay_mulled_pct_dry": estimates.MULLED_SCATTER}.get(key, 0.0)
    if key == "clay_washed_pct_dry" and filled.form.dead_fines_pct_dry is None:
        own = estimates.ASH_SCATTER
    band = propagate(lambda moved: ways_of(_moved(filled.form, moved)), filled.bands, {key: value})[key]
    return math.hypot(wider_side(band, value), own)


def _moved(form: EstimateForm, moved: Mapping[Key, float | str]) -> EstimateForm:
    return EstimateForm(**{part.name: moved.get(part.name, getattr(form, part.name)) for part in fields(EstimateForm)})


def _beyond_clay(clay_pct: float) -> str:
    low, high = estimates.CLAY_HOLDS_PCT
    return (
        f"By moisture and compactability it would hold {clay_pct:.1f} % of clay. The published equilibrium holds for "
        f"{low:g} to {high:g} %, so that way is left out."
    )


def _beyond_bond(form: EstimateForm) -> str:
    """Why the bond equations are not used, or nothing where they are."""
    compactability, moisture = form.compactability_read_pct, form.moisture_pct_wet
    if compactability is None:
        return ""
    if not estimates.bond_holds(compactability):
        low, high = estimates.BOND_HOLDS_PCT
        return (
            f"A compactability of {compactability:g} % is outside the {low:g} to {high:g} % in which strength tells bond "
            "and mulling, so those are left out. Bring the sand to its working dampness and test again."
        )
    if moisture is None:
        return ""
    working = estimates.working_bond_pct(form.strength_psi, compactability)
    available = estimates.available_bond_pct(form.strength_psi, moisture)
    if working > available:
        return (
            f"More clay would be at work ({working:.1f} %) than there is ({available:.1f} %), which the published "
            "equations do not hold for. Bond and mulling are left out: test moisture, strength and compactability of one handful again."
        )
    return ""
