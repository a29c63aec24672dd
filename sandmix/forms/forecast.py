"""The form of *forecast*: the clay as it is, the habit, how far to look, and the heap it is all about."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from ..errors import Problem
from ..forecast import Habit
from ..form import ask
from .bought import Bought


@dataclass(frozen=True, slots=True, kw_only=True)
class Forecast(Bought):
    """The clay as it is, what every cast does to it, and how many casts; the heap only for what a season takes."""

    clay_pct_dry: float | None = ask("clay_pct_dry", first=True, required=True, label="Live clay now")
    clay_burnt_share: float | None = ask("clay_burnt_share", first=True, required=True)
    new_sand_share: float = ask("new_sand_share", first=True)
    burnt_kept_share: float = ask("burnt_kept_share")
    make_up: str = ask("make_up", first=True)
    casts: float = ask("casts", first=True, default=12.0)
    dead_clay_pct_dry: float = ask("dead_clay_pct_dry", label="Dead clay now", default=0.0)
    dead_clay_limit_pct_dry: float = ask("dead_clay_limit_pct_dry", exact=True)
    heap_kg: float | None = ask("heap_kg")
    target_moisture_pct_wet: float | None = ask(
        "target_moisture_pct_wet", exact=True, default=3.5, label="Moisture the heap is kept at"
    )
    sand_bag_kg: float | None = ask("sand_bag_kg")
    sand_bag_price: float | None = ask("sand_bag_price")
    clay_bag_kg: float | None = ask("clay_bag_kg")
    clay_bag_price: float | None = ask("clay_bag_price")

    def problems(self) -> Iterable[Problem]:
        assert self.clay_pct_dry is not None
        if self.casts != int(self.casts):
            yield self.wrong("casts", "a whole number", f"{self.casts:g} is no whole number of casts. Write one.")
        if self.clay_pct_dry + self.dead_clay_pct_dry > 100:
            yield self.wrong(
                "dead_clay_pct_dry",
                f"at most {100 - self.clay_pct_dry:g} %",
                (
                    f"live and dead clay come to {self.clay_pct_dry + self.dead_clay_pct_dry:g} % of the dry sand. "
                    "Together they are at most 100."
                ),
            )

    @property
    def habit(self) -> Habit:
        """What each cast does, as fractions."""
        assert self.clay_burnt_share is not None
        return Habit(
            burnt=self.clay_burnt_share,
            replaced=self.new_sand_share,
            kept=self.burnt_kept_share,
            make_up=self.make_up == "yes",
        )
