"""The clay that is added, as the forms of *mix* and *rebond* both ask for it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeVar

from ..form import Filled, Form, ask
from ..materials import CLAYS


@dataclass(frozen=True, slots=True, kw_only=True)
class AddedClay(Form):
    """A clay as it is bought."""

    clay: str = ask("clay")
    clay_activity_pct: float | None = ask("clay_activity_pct")
    clay_moisture_pct_wet: float = ask("clay_moisture_pct_wet")

    @property
    def activity_pct(self) -> float:
        """The live share of the dry product, in percent: as given, else what a mix with the clay named starts from."""
        return self.clay_activity_pct if self.clay_activity_pct is not None else CLAYS[self.clay].activity_band_pct[1]


C = TypeVar("C", bound=AddedClay)


def settle_activity(filled: Filled[C]) -> Filled[C]:
    """Fill in the live share, with its band, where none is given."""
    form = filled.form
    if form.clay_activity_pct is not None:
        return filled
    return filled.settled(
        {"clay_activity_pct": form.activity_pct}, bands={"clay_activity_pct": CLAYS[form.clay].activity_band_pct}
    )


def is_untested(filled: Filled[C]) -> bool:
    """Whether the clay is of a kind that only a test can tell, and none was given."""
    return CLAYS[filled.form.clay].tested_only and "clay_activity_pct" in filled.assumed
