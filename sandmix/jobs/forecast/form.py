"""The form of *forecast*: the clay as it is, the habit, how far to look, and the heap it is all about."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sandmix.asking.form import Filled, ask, band_about
from sandmix.book.book import Book, read
from sandmix.book.heap import HeapFold, HeapState
from sandmix.jobs.shared.bought import BoughtForm, resolve_activity
from sandmix.language.errors import InputError, Problem
from sandmix.recipes.forecast import Habit


@dataclass(frozen=True, slots=True, kw_only=True)
class ForecastForm(BoughtForm):
    """The clay as it is, what every cast does to it, and how many casts; the heap only for what a season takes."""

    clay_pct_dry: float | None = ask("clay_pct_dry", first=True, label="Live clay now")
    clay_burnt_share: float | None = ask("clay_burnt_share", first=True)
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
    book: Mapping[str, object] | None = ask("book")

    def problems(self) -> Iterable[Problem]:
        if self.book is None:
            for word, what in (("clay_pct_dry", "the live clay now"), ("clay_burnt_share", "what a cast burns of it")):
                if getattr(self, word) is None:
                    yield self.wrong(
                        word, "a figure, or a book", f"it is needed here. Give {what}, or the heap's book."
                    )
            if self.clay_pct_dry is None:
                return
        elif self.clay_pct_dry is None:
            return
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


def resolve(filled: Filled[ForecastForm]) -> Filled[ForecastForm]:
    """Fill in the clay's activity, and from the book, where there is one, what was not given: the heap as it is, and what its casts burnt."""
    filled = resolve_activity(filled)
    form = filled.form
    if form.book is None:
        return filled
    opened = read(form.book)
    state, burnt = _past(opened)
    bands = state.bands()
    if not bands:
        raise InputError(
            [
                form.wrong(
                    "book",
                    "a book with sand in it",
                    "no sand is in it yet, so nothing can be foretold. Record what the heap is.",
                )
            ]
        )
    if form.clay_burnt_share is None and burnt is None:
        raise InputError(
            [
                form.wrong(
                    "clay_burnt_share", "a share", "no cast is in the book yet. Give what a cast burns, or record one."
                )
            ]
        )
    known = {"heap_kg": form.heap_kg, "clay_pct_dry": form.clay_pct_dry}
    known |= {} if "dead_clay_pct_dry" in filled.assumed else {"dead_clay_pct_dry": form.dead_clay_pct_dry}
    taken = {word: bands[word] for word in ("heap_kg", "clay_pct_dry", "dead_clay_pct_dry") if known.get(word) is None}
    values = {word: (low + high) / 2 for word, (low, high) in taken.items()}
    if form.clay_burnt_share is None and burnt is not None:
        values["clay_burnt_share"] = burnt
        taken["clay_burnt_share"] = band_about("clay_burnt_share", burnt, burnt / 2)
    return filled.resolved(values, bands=taken)


def _past(opened: Book) -> tuple[HeapState, float | None]:
    """The heap as it is, and the mean share of its live clay that its casts have burnt; None where there was none."""
    heap, shares = HeapFold(), []
    for event in opened.events:
        live_kg = heap.kg("live_clay_kg") if event["kind"] == "poured" else 0.0
        if live_kg > 0:
            shares.append(max(0.0, event["outcome"]["change"].get("dead_clay_kg", 0.0)) / live_kg)
        heap.add(event)
    return heap.state(), sum(shares) / len(shares) if shares else None
