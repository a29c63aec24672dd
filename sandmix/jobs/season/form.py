"""The form of *season*: the heap, what each cast does to it, today's habit, and prices."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from sandmix.asking import rules
from sandmix.asking.form import Filled, ask, rule
from sandmix.jobs.shared.bought import BoughtForm, resolve_activity
from sandmix.jobs.shared.from_book import BURNT, taken
from sandmix.language.errors import Problem
from sandmix.maths.uncertainty import Ends
from sandmix.recipes.season import Heap, most_burnt

USUAL_LOSS = 0.01
"""The share of the heap that a cast loses in any case, where it is not given (from memory: 1 to 3 % of the sand in the mould)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SeasonForm(BoughtForm):
    """The heap as it is, what a cast burns and loses, what is replaced today, and what things cost."""

    heap_kg: float | None = ask("heap_kg", first=True)
    clay_pct_dry: float | None = ask("clay_pct_dry", first=True, label="Live clay that you keep")
    clay_burnt_share: float | None = ask("clay_burnt_share", first=True)
    new_sand_share: float = ask("new_sand_share", first=True, label="Heap replaced per cast today")
    casts: float = ask("casts", first=True, default=12.0)
    dead_fines_pct_dry: float | None = ask("dead_fines_pct_dry", first=True, label="Dead fines now")
    dead_fines_limit_pct_dry: float = ask("dead_fines_limit_pct_dry", exact=True)
    burnt_kept_share: float = ask("burnt_kept_share")
    lost_share: float | None = ask("lost_share")
    target_moisture_pct_wet: float = ask(
        "target_moisture_pct_wet", exact=True, default=3.5, label="Moisture of the heap"
    )
    sand_bag_kg: float | None = ask("sand_bag_kg")
    sand_bag_price: float | None = ask("sand_bag_price")
    clay_bag_kg: float | None = ask("clay_bag_kg")
    clay_bag_price: float | None = ask("clay_bag_price")
    waste_price: float = ask("waste_price")
    water_price: float = ask("water_price")
    book: Mapping[str, object] | None = ask("book")

    @rule
    def the_heap_is_given(self) -> Iterable[Problem]:
        return rules.is_in_form_or_book(self, "heap_kg", "what the heap weighs")

    @rule
    def the_clay_is_given(self) -> Iterable[Problem]:
        return rules.is_in_form_or_book(self, "clay_pct_dry", "the live clay")

    @rule
    def the_share_burnt_is_given(self) -> Iterable[Problem]:
        return rules.is_in_form_or_book(self, "clay_burnt_share", "the share that a cast burns")

    @rule
    def a_whole_number_of_casts(self) -> Iterable[Problem]:
        return rules.whole_number(self, "casts", "casts")

    @rule
    def clay_and_fines_are_no_more_than_all(self) -> Iterable[Problem]:
        return rules.clay_and_fines_fit(self, self.clay_pct_dry, self.dead_fines_pct_dry)

    @rule
    def new_sand_holds_the_clay(self) -> Iterable[Problem]:
        return self.out_of_reach("clay_pct_dry")

    @rule
    def not_all_is_lost(self) -> Iterable[Problem]:
        if self.lost_share is not None and self.lost_share > self.new_sand_share:
            what_to_do = f"more is lost ({100 * self.lost_share:g} %) than you replace today ({100 * self.new_sand_share:g} %). Check both."
            yield self.wrong("lost_share", f"at most {self.new_sand_share:g}", what_to_do)


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedSeason(SeasonForm):
    """The same, with a heap, its clay and fines, and a share burnt that are always there."""

    heap_kg: float
    clay_pct_dry: float
    clay_burnt_share: float
    dead_fines_pct_dry: float
    lost_share: float

    @property
    def limit(self) -> float:
        """The limit on dead fines, as a fraction of the dry mass."""
        return self.dead_fines_limit_pct_dry / 100

    @property
    def heap(self) -> Heap:
        """The heap, and what a cast does to it."""
        return Heap(
            dry_kg=self.heap_kg * (1 - self.target_moisture_pct_wet / 100),
            clay=self.clay_pct_dry / 100,
            dead=self.dead_fines_pct_dry / 100,
            burnt=self.clay_burnt_share,
            kept=self.burnt_kept_share,
            lost=self.lost_share,
            moisture=self.target_moisture_pct_wet / 100,
            materials=self.as_bought(self.activity_pct),
        )


def resolve(filled: Filled[SeasonForm]) -> Filled[ResolvedSeason]:
    """Fill in the clay's activity, and take from the book, if there is one, what was not given."""
    filled = resolve_activity(filled)
    form = filled.form
    values: dict[str, float] = {}
    bands: dict[str, Ends] = {}
    if form.lost_share is None:
        values["lost_share"] = min(USUAL_LOSS, form.new_sand_share)
        bands["lost_share"] = (0.0, min(2 * USUAL_LOSS, form.new_sand_share))
    if form.dead_fines_pct_dry is None:
        values["dead_fines_pct_dry"] = 0.0
    if form.book is None:
        return _with_turns(filled.into(ResolvedSeason, values, bands=bands))
    missing = [word for word in ("heap_kg", "clay_pct_dry", "dead_fines_pct_dry") if getattr(form, word) is None]
    found = taken(form, form.book, missing, ("heap_kg", "clay_pct_dry", BURNT))
    return _with_turns(filled.into(ResolvedSeason, {**values, **found.values}, bands={**bands, **found.bands}))


def _with_turns(filled: Filled[ResolvedSeason]) -> Filled[ResolvedSeason]:
    """Name the share burnt from which on more than the losses must be replaced: there the sand of a season turns from less to more."""
    turn = most_burnt(filled.form.heap, filled.form.limit, int(filled.form.casts))
    return filled if turn is None else replace(filled, turns={"clay_burnt_share": turn})
