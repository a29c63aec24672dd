"""The form of *forecast*: the clay now, what each cast does to it, how far to look, and the heap."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sandmix.asking import rules
from sandmix.asking.form import Filled, ask, rule
from sandmix.jobs.shared.bought import BoughtForm, resolve_activity
from sandmix.jobs.shared.from_book import BURNT, taken
from sandmix.language.errors import Problem
from sandmix.recipes.forecast import Habit


@dataclass(frozen=True, slots=True, kw_only=True)
class ForecastForm(BoughtForm):
    """The clay now, what each cast does to it, and how many casts; the heap only for what a season uses."""

    clay_pct_dry: float | None = ask("clay_pct_dry", first=True, label="Live clay now")
    clay_burnt_share: float | None = ask("clay_burnt_share", first=True)
    new_sand_share: float = ask("new_sand_share", first=True)
    burnt_kept_share: float = ask("burnt_kept_share")
    make_up: str = ask("make_up", first=True)
    casts: float = ask("casts", first=True, default=12.0)
    dead_clay_pct_dry: float = ask("dead_clay_pct_dry", label="Dead clay now", default=0.0)
    dead_clay_limit_pct_dry: float = ask("dead_clay_limit_pct_dry", exact=True)
    heap_kg: float | None = ask("heap_kg")
    target_moisture_pct_wet: float = ask(
        "target_moisture_pct_wet", exact=True, default=3.5, label="Moisture of the heap"
    )
    sand_bag_kg: float | None = ask("sand_bag_kg")
    sand_bag_price: float | None = ask("sand_bag_price")
    clay_bag_kg: float | None = ask("clay_bag_kg")
    clay_bag_price: float | None = ask("clay_bag_price")
    book: Mapping[str, object] | None = ask("book")

    @rule
    def the_clay_is_given(self) -> Iterable[Problem]:
        return rules.is_in_form_or_book(self, "clay_pct_dry", "the live clay now")

    @rule
    def the_share_burnt_is_given(self) -> Iterable[Problem]:
        return rules.is_in_form_or_book(self, "clay_burnt_share", "the share that a cast burns")

    @rule
    def a_whole_number_of_casts(self) -> Iterable[Problem]:
        return rules.whole_number(self, "casts", "casts")

    @rule
    def clay_is_no_more_than_all(self) -> Iterable[Problem]:
        if self.clay_pct_dry is None:
            return
        together = self.clay_pct_dry + self.dead_clay_pct_dry
        if together > 100:
            what_to_do = f"live and dead clay add up to {together:g} % of the dry sand. Together they can be at most 100 %. Check both."
            yield self.wrong("dead_clay_pct_dry", f"at most {100 - self.clay_pct_dry:g} %", what_to_do)


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedForecast(ForecastForm):
    """The same, with a live clay and a share burnt that are always there."""

    clay_pct_dry: float
    clay_burnt_share: float

    @property
    def habit(self) -> Habit:
        """What each cast does, as fractions."""
        return Habit(
            burnt=self.clay_burnt_share,
            replaced=self.new_sand_share,
            kept=self.burnt_kept_share,
            make_up=self.make_up == "yes",
        )


def resolve(filled: Filled[ForecastForm]) -> Filled[ResolvedForecast]:
    """Fill in the clay's activity, and take from the book, if there is one, what was not given: the heap as it is and what its casts burnt."""
    filled = resolve_activity(filled)
    form = filled.form
    if form.book is None:
        return filled.into(ResolvedForecast, {})
    given = {"heap_kg": form.heap_kg, "clay_pct_dry": form.clay_pct_dry}
    given |= {} if "dead_clay_pct_dry" in filled.assumed else {"dead_clay_pct_dry": form.dead_clay_pct_dry}
    missing = [word for word in ("heap_kg", "clay_pct_dry", "dead_clay_pct_dry") if given.get(word) is None]
    found = taken(form, form.book, missing, ("clay_pct_dry", BURNT))
    return filled.into(ResolvedForecast, found.values, bands=found.bands)
