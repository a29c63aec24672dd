"""Entries of a test of the heap, and of what a person measures of their own equipment."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sandmix.asking import rules
from sandmix.asking.form import Form, ask, rule
from sandmix.bench import measurements, water_tests
from sandmix.language.errors import Problem

LOGGED = ("compactability_read_pct", "gfn", "permeability", "strength_kpa", "tin_g")
"""Test readings that are logged in the book and change nothing in the heap."""
OWN = ("rammed_density_kg_l", "strokes_per_100ml", "compactability_slope")
"""What a person measures of their own equipment, several times: the mean counts."""
TAUGHT = ("loss_a_cast_pct", "clay_activity_pct", "dead_fines_a_cast_pct_dry")
"""Figures that the heap's own entries teach, where a person gives one of their own."""
OWN_TIN = water_tests.TIN
"""How a person's own tin is rammed: each is measured once, and the latest counts."""
FEEL = "feel"
"""The word for a handful, logged like a reading; next to a tested moisture it is a pair that the job *feel* learns from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured(Form):
    """A test of the heap: its mass, moisture, live clay, dead fines, what a wash takes, and readings that are only logged.

    With it goes the water that was added or dried off because of it.
    """

    heap_kg: float | None = ask("heap_kg", first=True)
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True)
    sample_wet_g: float | None = ask("sample_wet_g")
    sample_dry_g: float | None = ask("sample_dry_g")
    scale_step_g: float = ask("scale_step_g")
    water_added_kg: float | None = ask("water_added_kg")
    water_dried_kg: float | None = ask("water_dried_kg")
    clay_pct_dry: float | None = ask("clay_pct_dry")
    dead_fines_pct_dry: float | None = ask("dead_fines_pct_dry")
    washed_pct_dry: float | None = ask(
        "washed_pct_dry",
        help="Live clay, dead clay and silt together. Enter this or the dead fines that you worked out from it, not both.",
    )
    compactability_read_pct: float | None = ask("compactability_read_pct")
    gfn: float | None = ask("gfn")
    permeability: float | None = ask("permeability")
    strength_kpa: float | None = ask("strength_kpa")
    tin_g: float | None = ask("tin_g")
    feel: str | None = ask(
        "feel", help="Of the same sand as the moisture test in this entry. Judge it before you know the moisture."
    )

    @property
    def moisture_read_pct(self) -> float | None:
        """The moisture, as given or from a dried sample."""
        if self.sample_wet_g is not None and self.sample_dry_g is not None:
            return measurements.moisture_pct_wet(self.sample_wet_g, self.sample_dry_g)
        return self.moisture_pct_wet

    @rule
    def the_sample_lost_some_water(self) -> Iterable[Problem]:
        wet, dry = self.sample_wet_g, self.sample_dry_g
        if (wet is None) != (dry is None):
            yield self.wrong(
                "sample_dry_g" if dry is None else "sample_wet_g",
                "the other weighing",
                "one weighing alone gives no moisture. Enter the sample before and after drying.",
            )
        elif wet is not None and dry is not None and not 0.75 * wet <= dry <= wet:
            yield self.wrong(
                "sample_dry_g",
                f"{0.75 * wet:g} to {wet:g} g",
                f"moulding sand does not dry from {wet:g} g to {dry:g} g. Check whether the two are swapped.",
            )

    @rule
    def something_was_measured(self) -> Iterable[Problem]:
        wet, dry = self.sample_wet_g, self.sample_dry_g
        weighed = ("heap_kg", "moisture_pct_wet", "clay_pct_dry", "dead_fines_pct_dry", "washed_pct_dry")
        if all(getattr(self, part) is None for part in (*weighed, *LOGGED, FEEL)) and (wet is None or dry is None):
            yield self.wrong(
                "heap_kg", "at least one test", "nothing was measured. Enter the mass, the moisture or another test."
            )

    @rule
    def clay_and_fines_are_no_more_than_all(self) -> Iterable[Problem]:
        return rules.clay_and_fines_fit(self, self.clay_pct_dry, self.dead_fines_pct_dry, wrong="clay_pct_dry")

    @rule
    def water_went_one_way(self) -> Iterable[Problem]:
        if self.water_added_kg and self.water_dried_kg:
            yield self.wrong(
                "water_dried_kg",
                "one of the two",
                "water was added and dried off. Enter only what came of both together.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Calibrated(Form):
    """A person's own figures: rammed density, spray bottle, tin with its rammer, slope of one step, and what the heap's entries teach.

    They count from now on and move no sand.
    """

    rammed_density_kg_l: float | None = ask("rammed_density_kg_l", first=True, blank=True)
    strokes_per_100ml: float | None = ask("strokes_per_100ml", first=True)
    rammer_kg: float | None = ask("rammer_kg", first=True)
    rammer_fall_mm: float | None = ask("rammer_fall_mm", first=True)
    tin_diameter_mm: float | None = ask("tin_diameter_mm", first=True)
    compactability_slope: float | None = ask("compactability_slope")
    loss_a_cast_pct: float | None = ask("loss_a_cast_pct")
    clay_activity_pct: float | None = ask(
        "clay_activity_pct", label="Live share of my clay granules", help="From a test of the granules themselves."
    )
    dead_fines_a_cast_pct_dry: float | None = ask("dead_fines_a_cast_pct_dry")

    @rule
    def something_was_measured(self) -> Iterable[Problem]:
        if all(getattr(self, word) is None for word in (*OWN, *OWN_TIN, *TAUGHT)):
            yield self.wrong(
                "rammed_density_kg_l",
                "at least one of these",
                "nothing was measured. Enter the rammed density, the strokes of your bottle, or your tin and its rammer.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Forgotten(Form):
    """A learned figure is set back: readings of it before this entry no longer count."""

    learned_figure: str = ask("learned_figure", first=True)
