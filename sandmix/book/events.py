"""What can happen to a heap: the kinds of event, each a form of its own, so that it is checked and doubted as any other."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import Form, ask
from sandmix.bench import measurements
from sandmix.language.errors import Problem
from sandmix.materials import pour_temperature
from sandmix.materials.sands_and_clays import CLAYS

READ = ("compactability_read_pct", "gfn", "permeability", "strength_kpa")
"""What a test reads that is kept beside the book."""
OWN = ("rammed_density_kg_l", "strokes_per_100ml")
"""What a person measures once of their own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined(Form):
    """Sand from elsewhere that was tipped in, as it lay."""

    joined_kg: float | None = ask("joined_kg", first=True, required=True)
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True, required=True)
    clay_pct_dry: float | None = ask("clay_pct_dry", first=True, required=True)
    dead_fines_pct_dry: float | None = ask("dead_fines_pct_dry")

    def problems(self) -> Iterable[Problem]:
        return _too_much_clay(self, self.clay_pct_dry or 0.0, self.dead_fines_pct_dry or 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Added(Form):
    """Materials put in as bought: sand, clay, water."""

    sand_kg: float | None = ask("sand_kg", first=True, label="Sand put in")
    clay_kg: float | None = ask("clay_kg", first=True, label="Clay put in")
    water_kg: float | None = ask("water_kg", first=True, label="Water put in")
    sand_moisture_pct_wet: float = ask("sand_moisture_pct_wet")
    clay: str = ask("clay")
    clay_activity_pct: float | None = ask("clay_activity_pct")
    clay_moisture_pct_wet: float = ask("clay_moisture_pct_wet")

    @property
    def activity_pct(self) -> float:
        """The live share of the dry clay product, in percent; the middle of its band where none is given."""
        return (
            self.clay_activity_pct
            if self.clay_activity_pct is not None
            else sum(CLAYS[self.clay].activity_band_pct) / 2
        )

    def problems(self) -> Iterable[Problem]:
        if not (self.sand_kg or self.clay_kg or self.water_kg):
            yield self.wrong("sand_kg", "some of it", "nothing was put in. Give the sand, the clay or the water.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixed(Added):
    """New moulding sand that went into the heap, by what it was made to be, or by what was weighed in."""

    make_kg: float | None = ask("make_kg", first=True, label="New sand put in")
    clay_pct_dry: float | None = ask("clay_pct_dry", first=True)
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True)
    dead_fines_pct_dry: float | None = ask("dead_fines_pct_dry", exact=True)

    @property
    def is_weighed_in(self) -> bool:
        """Whether it is told by what was weighed in."""
        return self.make_kg is None

    def problems(self) -> Iterable[Problem]:
        if self.is_weighed_in and not (self.sand_kg or self.clay_kg):
            yield self.wrong(
                "make_kg",
                "how much, or what was weighed in",
                (
                    "nothing was put in. Give the new sand, its live clay and its moisture; or the sand, clay and water that "
                    "were weighed in."
                ),
            )
        elif not self.is_weighed_in:
            for word in ("clay_pct_dry", "moisture_pct_wet"):
                if getattr(self, word) is None:
                    yield self.wrong(
                        word, "a share", "what the new sand was made to be is needed here. Give it beside the mass."
                    )
        yield from _too_much_clay(self, self.clay_pct_dry or 0.0, self.dead_fines_pct_dry or 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought(Form):
    """Materials that came into the shed and not yet into the heap."""

    sand_kg: float | None = ask("sand_kg", first=True, label="Sand bought")
    clay_kg: float | None = ask("clay_kg", first=True, label="Clay bought")
    cost: float | None = ask("cost", first=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Poured(Form):
    """One cast: what was poured, and what of the sand did not come back, if it was weighed."""

    metal: str = ask("metal", first=True)
    metal_kg: float | None = ask("metal_kg", first=True, required=True)
    pattern: str | None = ask("pattern", first=True)
    sand_lost_kg: float | None = ask("sand_lost_kg", first=True)
    flask_sand_kg: float | None = ask("flask_sand_kg")
    clay_burnt_kg: float | None = ask("clay_burnt_kg")
    water_driven_kg: float | None = ask("water_driven_kg")
    modulus_mm: float = ask("modulus_mm", default=8.0)
    pour_temp_c: float | None = ask("pour_temp_c")
    opened_after_min: float | None = ask("opened_after_min")

    def problems(self) -> Iterable[Problem]:
        return pour_temperature.too_cold(self)


@dataclass(frozen=True, slots=True, kw_only=True)
class Discarded(Form):
    """Sand thrown away: as it lay, or as the crust that was burnt beside the casting."""

    discard_kg: float | None = ask("discard_kg", first=True, required=True, label="Sand thrown away")
    discarded_as: str = ask("discarded_as", first=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lost(Form):
    """Sand that is gone: lumps from the riddle, a spill."""

    lost_kg: float | None = ask("lost_kg", first=True, required=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Watered(Form):
    """Water that came or went, by its mass or by the moisture that stands now."""

    water_kg: float | None = ask("water_kg", first=True, label="Water")
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True, label="Moisture afterwards")

    def problems(self) -> Iterable[Problem]:
        if (self.water_kg is None) == (self.moisture_pct_wet is None):
            yield self.wrong(
                "water_kg", "one of the two", "give the water, or the moisture that the sand has now, and not both."
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured(Form):
    """A test of the heap: its mass, its moisture, its live clay, its dead fines, what a wash takes; and what is kept beside it."""

    heap_kg: float | None = ask("heap_kg", first=True)
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True)
    sample_wet_g: float | None = ask("sample_wet_g")
    sample_dry_g: float | None = ask("sample_dry_g")
    scale_step_g: float = ask("scale_step_g")
    clay_pct_dry: float | None = ask("clay_pct_dry")
    dead_fines_pct_dry: float | None = ask("dead_fines_pct_dry")
    washed_pct_dry: float | None = ask(
        "washed_pct_dry",
        help="Live clay, dead clay and silt together. Give this, or the dead fines that you worked out of it, and not both.",
    )
    compactability_read_pct: float | None = ask("compactability_read_pct")
    gfn: float | None = ask("gfn")
    permeability: float | None = ask("permeability")
    strength_kpa: float | None = ask("strength_kpa")

    @property
    def moisture_read_pct(self) -> float | None:
        """The moisture, as given or from a dried sample."""
        if self.sample_wet_g is not None and self.sample_dry_g is not None:
            return measurements.moisture_pct_wet(self.sample_wet_g, self.sample_dry_g)
        return self.moisture_pct_wet

    def problems(self) -> Iterable[Problem]:
        wet, dry = self.sample_wet_g, self.sample_dry_g
        if (wet is None) != (dry is None):
            yield self.wrong(
                "sample_dry_g" if dry is None else "sample_wet_g",
                "the other weighing",
                "one weighing alone says nothing. Give the sample before and after drying.",
            )
        elif wet is not None and dry is not None and not 0.75 * wet <= dry <= wet:
            yield self.wrong(
                "sample_dry_g",
                f"{0.75 * wet:g} to {wet:g} g",
                f"{dry:g} g of {wet:g} g is no drying of moulding sand. Look whether the two are swapped.",
            )
        weighed = ("heap_kg", "moisture_pct_wet", "clay_pct_dry", "dead_fines_pct_dry", "washed_pct_dry")
        if all(getattr(self, part) is None for part in (*weighed, *READ)) and (wet is None or dry is None):
            yield self.wrong(
                "heap_kg", "one test at least", "nothing was measured. Give the mass, the moisture or another test."
            )
        yield from _too_much_clay(self, self.clay_pct_dry or 0.0, self.dead_fines_pct_dry or 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Calibrated(Form):
    """Something of a person's own that was measured: it holds from now on, and moves no sand."""

    rammed_density_kg_l: float | None = ask("rammed_density_kg_l", first=True, blank=True)
    strokes_per_100ml: float | None = ask("strokes_per_100ml", first=True)

    def problems(self) -> Iterable[Problem]:
        if all(getattr(self, word) is None for word in OWN):
            yield self.wrong(
                "rammed_density_kg_l",
                "one of the two at least",
                "nothing was measured. Give the rammed density, or the strokes of your bottle.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class SplitOff(Form):
    """Sand taken out to be a heap of its own."""

    split_kg: float | None = ask("split_kg", first=True, required=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class MetalChanged(Form):
    """From now on another metal is poured into this sand."""

    metal: str = ask("metal", first=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class PutAway(Form):
    """The heap is put away for a while, as for the winter."""

    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True, label="Moisture it is put away with")


@dataclass(frozen=True, slots=True, kw_only=True)
class EventKind:
    """One kind of event: its form, what a person calls it, and what it says in a line (with the event's own words)."""

    key: str
    label: str
    help: str
    form: type[Form]
    quick: bool = False


KINDS: Mapping[str, EventKind] = {
    kind.key: kind
    for kind in (
        EventKind(key="poured", label="A cast was poured", help="Clay burns, water goes off, some sand is lost.", form=Poured, quick=True),
        EventKind(key="tempered", label="Water was added", help="To bring it to its moisture.", form=Watered, quick=True),
        EventKind(key="measured", label="It was tested", help="Weighed, dried, washed or titrated.", form=Measured, quick=True),
        EventKind(key="added", label="Sand, clay or water was put back", help="As bought.", form=Added, quick=True),
        EventKind(key="mixed", label="New sand was mixed in", help="By what it was made to be.", form=Mixed),
        EventKind(key="discarded", label="Sand was thrown away", help="Crust, burnt sand, or just some of it.", form=Discarded),
        EventKind(key="riddled", label="It was riddled", help="What stayed in the riddle and did not go back.", form=Lost),
        EventKind(key="spilled", label="Some was spilled", help="And not swept back in.", form=Lost),
        EventKind(key="dried", label="It dried", help="In the sun, or by standing.", form=Watered),
        EventKind(key="rained_on", label="It got wet", help="Rain, a leaking roof.", form=Watered),
        EventKind(key="split", label="Some was split off", help="Into a heap of its own.", form=SplitOff),
        EventKind(key="joined", label="Other sand was tipped in", help="As it lay.", form=Joined),
        EventKind(key="bought", label="Materials were bought", help="Into the shed, not yet into the heap.", form=Bought),
        EventKind(key="put_away", label="It was put away for a while", help="For the winter: it keeps best dry and covered.", form=PutAway),
        EventKind(key="metal_changed", label="Another metal from now on", help="Other limits hold.", form=MetalChanged),
        EventKind(key="calibrated", label="Something of my own was measured", help="A rammed flask, the spray bottle.", form=Calibrated),
    )
}  # fmt: skip
UNDONE, CORRECTED = "undone", "corrected"
BESIDE = ("id", "kind", "at", "note", "outcome", "of")


def words_of(event: Mapping[str, Any]) -> dict[str, Any]:
    """Return the words of an event, without what every event has."""
    return {word: value for word, value in event.items() if word not in BESIDE}


def _too_much_clay(form: Form, clay_pct: float, dead_pct: float) -> Iterable[Problem]:
    if clay_pct + dead_pct > 100:
        yield form.wrong(
            "clay_pct_dry",
            f"at most {100 - dead_pct:g} %",
            f"live clay and dead fines come to {clay_pct + dead_pct:g} % of the dry sand. Together they are at "
            "most 100.",
        )
