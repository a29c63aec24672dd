"""The form of *fineness*: what the sieves hold, and what was washed out before."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from .. import fineness
from ..errors import Problem
from ..form import Form, ask


@dataclass(frozen=True, slots=True, kw_only=True)
class Fineness(Form):
    """What each sieve holds, by its number, and what the wash took before."""

    retained: Mapping[str, float] | None = ask("retained", first=True, required=True)
    clay_washed_g: float | None = ask("clay_washed_g", first=True)

    def problems(self) -> Iterable[Problem]:
        assert self.retained is not None
        if fineness.total(self.retained) < fineness.LEAST:
            yield self.wrong(
                "retained", "some grain", "the sieves hold nothing at all. Give what each of them holds, in grams."
            )
