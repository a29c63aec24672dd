"""The form of *fineness*: what the sieves hold, what was washed out before, and what went in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sandmix.asking.form import Form, ask
from sandmix.language.errors import Problem
from sandmix.materials import fineness


@dataclass(frozen=True, slots=True, kw_only=True)
class FinenessForm(Form):
    """What each sieve holds, what the wash took before, the sample, and where the sieves are that are not named."""

    retained: Mapping[str, float] | None = ask("retained", first=True, required=True)
    clay_washed_g: float | None = ask("clay_washed_g", first=True)
    sample_g: float | None = ask(
        "sample_g",
        help="All of it, dry, before it was washed and sieved. It tells what was lost; the sieves must then be in grams.",
    )
    scale_step_g: float = ask(
        "scale_step_g", default=0.1, help="Of the scale that weighed what the sieves hold. It bears on what was lost."
    )
    unnamed_sieves: str | None = ask("unnamed_sieves")

    def problems(self) -> Iterable[Problem]:
        assert self.retained is not None
        if fineness.total(self.retained) < fineness.LEAST:
            yield self.wrong(
                "retained", "some grain", "the sieves hold nothing at all. Give what each of them holds, in grams."
            )
        washed, sample = self.clay_washed_g, self.sample_g
        if washed is not None and sample is not None and washed >= sample:
            yield self.wrong(
                "clay_washed_g",
                f"less than {sample:g} g",
                f"{washed:g} g is all of the {sample:g} g sample or more. Weigh the sample before it is washed.",
            )
