"""The form of *fineness*: what the sieves hold, what was washed out first, and the sample."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sandmix.asking.form import Form, ask, rule
from sandmix.language.errors import Problem
from sandmix.materials import fineness


@dataclass(frozen=True, slots=True, kw_only=True)
class FinenessForm(Form):
    """What each sieve holds, what the wash took, the sample, and whether sieves that are not named were in the stack."""

    retained: Mapping[str, float] = ask("retained", first=True, required=True)
    clay_washed_g: float | None = ask("clay_washed_g", first=True)
    sample_g: float | None = ask(
        "sample_g",
        help="All of it, dry, before it was washed and sieved. It shows what was lost. The sieves must then be in grams.",
    )
    scale_step_g: float = ask(
        "scale_step_g", default=0.1, help="The scale that weighed what the sieves hold. It affects the ± of the loss."
    )
    unnamed_sieves: str | None = ask("unnamed_sieves")

    @rule
    def some_grain(self) -> Iterable[Problem]:
        if fineness.total(self.retained) < fineness.LEAST:
            yield self.wrong("retained", "some grain", "all sieves are empty. Enter what each of them holds, in grams.")

    @rule
    def the_sample_is_more_than_its_clay(self) -> Iterable[Problem]:
        washed, sample = self.clay_washed_g, self.sample_g
        if washed is not None and sample is not None and washed >= sample:
            yield self.wrong(
                "clay_washed_g",
                f"less than {sample:g} g",
                f"{washed:g} g is the whole {sample:g} g sample or more. Enter the dry weight of the sample before washing.",
            )
