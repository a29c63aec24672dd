"""The form of *match*: the sands on hand, the target fineness, and how much to make."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sandmix.asking.form import Form, ask, rule
from sandmix.jobs.blend.form import Lot, grading_of, number_of, sand_of, wrong_lots
from sandmix.language.errors import Problem
from sandmix.materials import grading_match

_NOISE = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class MatchForm(Form):
    """The lots, the target fineness number with its leeway, and how much sand to make."""

    lots: Sequence[Lot] = ask(
        "lots",
        first=True,
        required=True,
        help="Two to six sands, each with its mass and its sieve result, and clay and moisture where it has some.",
    )
    target_gfn: float = ask("target_gfn", first=True, required=True, exact=True)
    make_kg: float | None = ask(
        "make_kg",
        first=True,
        exact=True,
        label="Sand to make of them",
        help="With the water of the lots. Leave empty to make as much as the lots allow.",
    )
    gfn_leeway: float = ask("gfn_leeway", exact=True)

    @rule
    def each_lot_has_grain(self) -> Iterable[Problem]:
        wrong = list(wrong_lots(self, self.lots))
        yield from wrong
        for at, lot in enumerate(self.lots, start=1):
            if lot.get("retained") is None:
                yield self.wrong(
                    "lots", "a sieve result", f"lot {at}: enter what its sieves hold. Sieve a sample of it."
                )
            elif not wrong and sand_of(lot).grain_kg <= _NOISE * sand_of(lot).wet_kg:
                yield self.wrong(
                    "lots", "some grain", f"lot {at}: it is all clay and fines and has no grain. Leave the lot out."
                )

    @rule
    def the_lots_are_enough(self) -> Iterable[Problem]:
        whole = sum(number_of(lot, "kg") for lot in self.lots)
        if self.make_kg is not None and self.make_kg > whole * (1 + _NOISE):
            yield self.wrong(
                "make_kg",
                f"at most {whole:g} kg",
                f"{self.make_kg:g} kg is more than all lots together, {whole:g} kg. Enter less, or leave it empty.",
            )


def lots_of(form: MatchForm) -> list[grading_match.Lot]:
    """Return the lots for the blend."""
    lots = []
    for lot in form.lots:
        sand, grading = sand_of(lot), grading_of(lot)
        assert grading is not None
        lots.append(grading_match.Lot(kg=sand.wet_kg, grain=sand.grain_kg / sand.wet_kg, retained=grading))
    return lots


def match_of(form: MatchForm) -> grading_match.NearestBlend:
    """Return the blend that comes nearest to what the form asks."""
    lots = lots_of(form)
    make_kg = None if form.make_kg is None else min(form.make_kg, sum(lot.kg for lot in lots))
    return grading_match.nearest_blend(lots, form.target_gfn, leeway=form.gfn_leeway, make_kg=make_kg)
