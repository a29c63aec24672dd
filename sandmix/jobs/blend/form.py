"""The form of *blend*: the lots, how much to make, and the targets for clay and water."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from sandmix.asking.form import Form, ask, rule
from sandmix.jobs.shared.bought import BoughtClayForm
from sandmix.language.errors import Problem
from sandmix.materials import fineness, partial_sieves
from sandmix.materials.sand import Sand
from sandmix.recipes import blend

Lot = Mapping[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class BlendForm(BoughtClayForm):
    """Several lots of sand, the targets, and the clay that is added."""

    lots: Sequence[Lot] = ask("lots", first=True, required=True)
    make_kg: float | None = ask(
        "make_kg", first=True, exact=True, help="Finished sand. Leave empty to use all of every lot."
    )
    target_clay_pct_dry: float | None = ask("target_clay_pct_dry", first=True, exact=True)
    target_moisture_pct_wet: float | None = ask("target_moisture_pct_wet", first=True, exact=True)

    @rule
    def lots_are_possible(self) -> Iterable[Problem]:
        return wrong_lots(self, self.lots)

    @rule
    def the_clay_reaches_the_target(self) -> Iterable[Problem]:
        return self.clay_problems(self.target_clay_pct_dry)


def wrong_lots(form: Form, lots: Sequence[Lot]) -> Iterable[Problem]:
    """Yield what is wrong in each lot: more fines than sand, or empty sieves."""
    for at, lot in enumerate(lots, start=1):
        clay, dead = number_of(lot, "clay_pct_dry"), number_of(lot, "dead_fines_pct_dry")
        if clay + dead > 100:
            yield form.wrong(
                "lots",
                "at most 100 % together",
                f"lot {at}: live clay and dead fines add up to {clay + dead:g} % of its dry sand. Check both.",
            )
        grading = lot.get("retained")
        if isinstance(grading, Mapping) and fineness.total(grading) < fineness.LEAST:
            yield form.wrong(
                "lots",
                "some grain",
                f"lot {at}: all its sieves are empty. Enter what they hold, or leave the sieves out.",
            )


def sand_of(lot: Lot) -> Sand:
    """Return a lot as it lies. Dead fines count as other fines, because no figure separates them; with live clay they are at most 100 %."""
    clay = number_of(lot, "clay_pct_dry")
    return Sand.lying(
        number_of(lot, "kg"),
        moisture_pct_wet=number_of(lot, "moisture_pct_wet"),
        clay_pct_dry=clay,
        other_fines_pct_dry=min(100 - clay, number_of(lot, "dead_fines_pct_dry")),
    )


def grading_of(lot: Lot) -> Mapping[str, float] | None:
    """Return a lot's sieve results on the standard series (estimated where other sieves were used), or None where it was not sieved."""
    retained = lot.get("retained")
    return partial_sieves.series_of(retained) if isinstance(retained, Mapping) else None


def blended_grading(form: BlendForm) -> dict[str, float] | None:
    """Return the grading of all lots together, by their dry grain; None where a lot with grain was not sieved, or none has grain."""
    parts = []
    for lot in form.lots:
        grading, grain_kg = grading_of(lot), sand_of(lot).grain_kg
        if grain_kg > 0:
            if grading is None:
                return None
            parts.append((grading, grain_kg))
    return fineness.blended(parts) if parts else None


def blend_of(form: BlendForm) -> blend.BlendResult:
    """Return the blend for the form's figures."""
    clay, moisture = form.target_clay_pct_dry, form.target_moisture_pct_wet
    return blend.blend(
        (sand_of(lot) for lot in form.lots),
        form.as_bought(form.activity_pct),
        clay=None if clay is None else clay / 100,
        moisture=None if moisture is None else moisture / 100,
        make_kg=form.make_kg,
    )


def number_of(lot: Lot, word: str) -> float:
    """Return a figure of a lot; 0 where it is empty."""
    value = lot.get(word)
    return float(value) if isinstance(value, (int, float)) else 0.0
