"""The form of *plan*: one casting, what is on hand for it, and the sand."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from sandmix.asking.form import Form, ask, asks, rule
from sandmix.casting import casting
from sandmix.casting.casting import DOCUMENTS
from sandmix.casting.layers import is_empty
from sandmix.jobs.plan.steps import Step
from sandmix.language.errors import Problem
from sandmix.vocabulary import WORDS


def unfold(inputs: Mapping[str, object]) -> Mapping[str, object]:
    """Return the inputs with those that a casting among them holds; raises InputError with what is wrong with the casting.

    Figures that are given directly are own figures of the casting too, so they come first.
    """
    if is_empty(inputs.get("casting")):
        return inputs
    given = {word: value for word, value in inputs.items() if word not in DOCUMENTS and not is_empty(value)}
    whole = casting.read(WORDS["casting"].read(inputs["casting"]).value, asks(PlanForm)).with_figures(given)
    held = {word: known.given for word, known in whole.known().items()}
    return {**inputs, **held, "casting": whole.to_dict()}


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanForm(Form):
    """One casting by its size, how many of it go into a mould, the flasks and bags on hand, and the heap as it is or its book."""

    metal: str = ask("metal", first=True)
    box_mm: Sequence[float] | None = ask(
        "box_mm", first=True, help="Length, width and height as it lies in the mould. Of one casting."
    )
    casting_volume_cm3: float | None = ask("casting_volume_cm3", first=True, help="Of one casting, without gating.")
    casting_kg: float | None = ask(
        "casting_kg", label="Mass of one casting", help="Of solid metal, without gating. Its volume is worked out."
    )
    casting_area_cm2: float | None = ask("casting_area_cm2", help="Of one casting: all of it that touches sand.")
    projected_area_cm2: float | None = ask("projected_area_cm2", help="Of one casting, seen from above.")
    modulus_mm: float | None = ask("modulus_mm")
    patterns_count: float = ask("patterns_count")
    thinnest_mm: float | None = ask("thinnest_mm")
    gating_volume_cm3: float | None = ask("gating_volume_cm3", blank=True)
    with_riser: str = ask("with_riser")
    flasks: Sequence[Mapping[str, Any]] | None = ask("flasks", first=True)
    frame_kg: float | None = ask("frame_kg", blank=True, help="The empty flask, both halves.")
    heap_kg: float | None = ask("heap_kg", first=True)
    sample_wet_g: float | None = ask("sample_wet_g")
    sample_dry_g: float | None = ask("sample_dry_g")
    scale_step_g: float = ask("scale_step_g")
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True)
    clay_pct_dry: float | None = ask("clay_pct_dry")
    dead_fines_pct_dry: float | None = ask("dead_fines_pct_dry")
    casting: Mapping[str, object] | None = ask("casting")
    book: Mapping[str, object] | None = ask("book")
    now: str | None = ask("now")
    clay: str = ask("clay")
    target_clay_pct_dry: float = ask("target_clay_pct_dry", exact=True, default=7.0)
    target_moisture_pct_wet: float | None = ask("target_moisture_pct_wet", exact=True, blank=True)
    two_sands: str = ask("two_sands")
    crucible_l: float | None = ask("crucible_l")
    pour_temp_c: float | None = ask("pour_temp_c")
    sand_bag_kg: float | None = ask("sand_bag_kg")
    clay_bag_kg: float | None = ask("clay_bag_kg")
    sand_bag_price: float | None = ask("sand_bag_price")
    clay_bag_price: float | None = ask("clay_bag_price")
    sand_yield_pct: float = ask("sand_yield_pct", exact=True)

    @property
    def count(self) -> int:
        """How many castings go into one mould."""
        return round(self.patterns_count)

    @rule
    def some_size_is_known(self) -> Iterable[Problem]:
        if self.box_mm is None and self.casting_volume_cm3 is None and self.casting_kg is None:
            yield self.wrong(
                "box_mm",
                "three sizes, a volume or a mass",
                "nothing is known of the size of the casting. Enter its sizes, its volume or its mass.",
            )

    @rule
    def a_whole_number_of_patterns(self) -> Iterable[Problem]:
        if self.patterns_count != self.count:
            message = f"{self.patterns_count:g} is not a whole number of patterns. Enter a whole number."
            yield self.wrong("patterns_count", "a whole number", message)


@dataclass(frozen=True, slots=True, kw_only=True)
class ResolvedPlan(PlanForm):
    """The same, with the steps of the day, each answered by its own job as far as that can be."""

    steps: tuple[Step, ...] = ()
    cast: Mapping[str, object] = field(default_factory=dict)
    """The words of the book's entry for this cast; none where the book would not take it."""
    poured_ago_min: float | None = None
    """How long ago the metal was poured, by the book; None while it is not."""
    worked_since: bool = False
    """Whether the book has entries after the pour: then the sand is out of the mould."""
    assumes: tuple[str, ...] = ()
    """The words that are only assumed, because the casting has no figure for them."""

    @property
    def is_poured(self) -> bool:
        """Whether the book has the cast."""
        return self.poured_ago_min is not None
