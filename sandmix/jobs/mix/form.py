"""The form of *mix*: how much, how much clay in one of four bases, how wet, and the properties of the bought materials."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking.form import Filled, ask, band_about, rule
from sandmix.jobs.shared.bought import BoughtForm, resolve_activity
from sandmix.language.errors import Problem
from sandmix.materials.sands_and_clays import BENTONITE_LOOSE_KG_M3, CLAYS
from sandmix.recipes import mix
from sandmix.vocabulary import quantity

CLAY_BASES = ("clay_pct_dry", "clay_pct_sand", "clay_pct_wet", "parts_sand")
DAMP_FROM_PCT = 0.5
LEAST_CLAY = 1e-4
ASSUMED_BULK_ERROR_KG_L = 0.15


@dataclass(frozen=True, slots=True, kw_only=True)
class MixForm(BoughtForm):
    """How much to make or what is on hand; how much clay, in one of four bases; how wet; and the properties of the bought materials."""

    make_kg: float | None = ask("make_kg", first=True)
    sand_on_hand_kg: float | None = ask("sand_on_hand_kg", first=True)
    clay_on_hand_kg: float | None = ask("clay_on_hand_kg", first=True)
    clay_pct_dry: float | None = ask(
        "clay_pct_dry",
        first=True,
        exact=True,
        label="Target live clay",
        help=quantity("target_clay_pct_dry").help,
    )
    clay_pct_sand: float | None = ask(
        "clay_pct_sand", first=True, exact=True, label="Target live clay, per 100 of dry sand"
    )
    clay_pct_wet: float | None = ask(
        "clay_pct_wet", first=True, exact=True, label="Target live clay, of the whole wet mix"
    )
    parts_sand: float | None = ask("parts_sand", first=True, exact=True)
    parts_clay: float | None = ask("parts_clay", first=True, exact=True)
    moisture_pct_wet: float | None = ask(
        "moisture_pct_wet",
        first=True,
        exact=True,
        label="Target moisture",
        help="Leave empty to calculate a range from the live clay.",
    )
    metal: str = ask("metal", help="Sets how wet the sand may be.")
    water_per_clay: float = ask("water_per_clay")
    mixer_kg: float | None = ask("mixer_kg")
    bucket_l: float = ask("bucket_l")
    sand_bulk_kg_l: float = ask("sand_bulk_kg_l")
    clay_bulk_kg_l: float | None = ask("clay_bulk_kg_l")
    bulking_pct: float = ask("bulking_pct")

    @property
    def bases(self) -> list[str]:
        """The bases in which the clay is given."""
        return [base for base in CLAY_BASES if getattr(self, base) is not None]

    @property
    def has_one_basis(self) -> bool:
        """Whether the clay is given in one basis, with all that it needs."""
        both = (self.parts_sand is None) == (self.parts_clay is None)
        based = self.clay_pct_wet is None or self.moisture_pct_wet is not None
        return len(self.bases) == 1 and both and based

    @rule
    def the_amount_is_given(self) -> Iterable[Problem]:
        if self.make_kg is None and self.sand_on_hand_kg is None and self.clay_on_hand_kg is None:
            yield self.wrong(
                "make_kg", "a mass", "the amount is missing. Enter the sand to make, or the sand or the clay on hand."
            )

    @rule
    def the_clay_is_given(self) -> Iterable[Problem]:
        if not self.bases and self.parts_clay is None:
            yield self.wrong(
                "clay_pct_dry",
                "one of four bases",
                (
                    "the clay content is missing. Enter the live clay as % of dry mix, per 100 of dry sand or as % of "
                    "wet mix, or enter parts by volume."
                ),
            )

    @rule
    def the_clay_is_given_once(self) -> Iterable[Problem]:
        if len(self.bases) > 1:
            yield self.wrong(
                self.bases[1],
                "one basis only",
                f"the clay is given in {len(self.bases)} bases, which may not agree. Keep one and clear the others.",
            )

    @rule
    def both_parts(self) -> Iterable[Problem]:
        if (self.parts_sand is None) != (self.parts_clay is None):
            missing = "parts_clay" if self.parts_clay is None else "parts_sand"
            yield self.wrong(
                missing,
                "a number of parts",
                "a recipe by volume needs both parts. Enter the parts of sand and of clay.",
            )

    @rule
    def a_wet_share_needs_the_moisture(self) -> Iterable[Problem]:
        if self.clay_pct_wet is not None and self.moisture_pct_wet is None:
            yield self.wrong(
                "moisture_pct_wet",
                "a percent of wet mass",
                "clay as a share of the wet mix needs the moisture. Enter it, or give the clay as % of dry mix.",
            )

    @rule
    def the_clay_is_possible(self) -> Iterable[Problem]:
        if self.has_one_basis:
            yield from self._too_rich(self.bases[0])

    @rule
    def the_clay_on_hand_decides(self) -> Iterable[Problem]:
        if self.has_one_basis:
            yield from self._no_clay(self.bases[0])

    def _too_rich(self, base: str) -> Iterable[Problem]:
        product = self.activity_pct
        clay = 100 * self.clay_fraction
        if clay > min(60.0, 0.9 * product):
            limit = min(60.0, 0.9 * product)
            yield self.wrong(
                base,
                f"at most {limit:g} % of the dry mix",
                (
                    f"that is {clay:.1f} % live clay of the dry mix. With a clay that is {product:g} % live, at most "
                    f"{limit:g} % is possible. Enter less."
                ),
            )

    def _no_clay(self, base: str) -> Iterable[Problem]:
        by_clay_alone = self.clay_on_hand_kg is not None and self.make_kg is None and self.sand_on_hand_kg is None
        if by_clay_alone and self.clay_fraction < LEAST_CLAY:
            yield self.wrong(
                base,
                f"above {100 * LEAST_CLAY:g} %",
                "the amount of a mix without clay cannot follow from the clay on hand. Enter the sand on hand, or the "
                "sand to make.",
            )

    @property
    def parts_bulk_kg_l(self) -> float:
        """The clay's loose bulk density for a recipe in parts, in kg/L: as given, else that of sound bentonite powder."""
        return BENTONITE_LOOSE_KG_M3 / 1000 if self.clay_bulk_kg_l is None else self.clay_bulk_kg_l

    @property
    def bulk_kg_l(self) -> float:
        """The clay's loose bulk density, in kg/L: as given, else that of its kind."""
        return CLAYS[self.clay].loose_kg_m3 / 1000 if self.clay_bulk_kg_l is None else self.clay_bulk_kg_l

    @property
    def clay_fraction(self) -> float:
        """Live clay as a fraction of the dry mix, from the basis in which it is given; 0 where none is given."""
        if self.clay_pct_sand is not None:
            return mix.clay_from_sand_basis(self.clay_pct_sand / 100, self.activity_pct / 100)
        if self.clay_pct_wet is not None and self.moisture_pct_wet is not None:
            return self.clay_pct_wet / (100 - self.moisture_pct_wet)
        if self.parts_sand is not None and self.parts_clay is not None:
            return mix.clay_from_parts(self.parts_sand, self.parts_clay, self.sand_bulk_kg_l, self.parts_bulk_kg_l)
        return (self.clay_pct_dry or 0.0) / 100


def resolve(filled: Filled[MixForm]) -> Filled[MixForm]:
    """Fill in the clay's own activity and bulk density, turn parts into a share, and drop the bands of words that are not used.

    A recipe by volume is a target like the others: it is converted once, with the bulk densities as given, and their uncertainty does not
    change it.
    """
    filled = resolve_activity(filled)
    if filled.form.parts_sand is not None:
        filled = filled.resolved(
            {"clay_pct_dry": 100 * filled.form.clay_fraction, "parts_sand": None, "parts_clay": None}
        )
    form = filled.form
    idle: tuple[str, ...] = ("water_per_clay",) if form.moisture_pct_wet is not None else ()
    if form.sand_moisture_pct_wet < DAMP_FROM_PCT:
        idle = (*idle, "bulking_pct")
    if form.clay_bulk_kg_l is not None:
        return filled.resolved({}, without=idle)
    band = band_about("clay_bulk_kg_l", form.bulk_kg_l, ASSUMED_BULK_ERROR_KG_L)
    return filled.resolved({}, bands={"clay_bulk_kg_l": band}, without=idle)
