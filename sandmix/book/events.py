"""What can happen to a heap: the kinds of event. Each has its own form, so its words are checked and get an uncertainty as in any job."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from sandmix.asking.form import Form, as_far_as_right, ask, rule
from sandmix.bench import measurements, water_tests
from sandmix.defects import scrap
from sandmix.language.errors import InputError, Problem
from sandmix.materials import pour_temperature
from sandmix.materials.sand import Sand
from sandmix.vocabulary import quantity

LOGGED = ("compactability_read_pct", "gfn", "permeability", "strength_kpa", "tin_g")
"""Test readings that are logged in the book and change nothing in the heap."""
OWN = ("rammed_density_kg_l", "strokes_per_100ml", "compactability_slope")
"""What a person measures of their own equipment, several times: the mean counts."""
OWN_TIN = water_tests.TIN
"""How a person's own tin is rammed: each is measured once, and the latest counts."""
FEEL = "feel"
"""The word for a handful, logged like a reading; next to a tested moisture it is a pair that the job *feel* learns from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joined(Form):
    """Sand from elsewhere that was tipped in, as it lay."""

    joined_kg: float = ask("joined_kg", first=True, required=True)
    moisture_pct_wet: float = ask("moisture_pct_wet", first=True, required=True)
    clay_pct_dry: float = ask("clay_pct_dry", first=True, required=True)
    dead_fines_pct_dry: float | None = ask("dead_fines_pct_dry")

    @property
    def joined(self) -> Sand:
        """The sand that was tipped in."""
        return _lying(self.joined_kg, self.moisture_pct_wet, self.clay_pct_dry, self.dead_fines_pct_dry)

    @rule
    def clay_and_fines_are_no_more_than_all(self) -> Iterable[Problem]:
        return _too_much_clay(self, self.clay_pct_dry, self.dead_fines_pct_dry or 0.0)


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
    def bought(self) -> Sand:
        """What was put in: sand, clay and water as one sand; the share of live clay must be filled in."""
        sand_kg, clay_kg = self.sand_kg or 0.0, self.clay_kg or 0.0
        sand_dry = sand_kg * (1 - self.sand_moisture_pct_wet / 100)
        clay_dry = clay_kg * (1 - self.clay_moisture_pct_wet / 100)
        live = clay_dry * (self.clay_activity_pct or 0.0) / 100
        water = sand_kg - sand_dry + clay_kg - clay_dry + (self.water_kg or 0.0)
        return Sand(
            grain_kg=sand_dry, live_clay_kg=live, other_fines_kg=max(0.0, clay_dry - live), water_kg=max(0.0, water)
        )

    @rule
    def something_went_in(self) -> Iterable[Problem]:
        if not (self.sand_kg or self.clay_kg or self.water_kg):
            yield self.wrong("sand_kg", "some of it", "nothing was put in. Enter the sand, the clay or the water.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixed(Added):
    """New moulding sand that went into the heap: its planned figures, or what was weighed in."""

    make_kg: float | None = ask("make_kg", first=True, label="New sand put in")
    clay_pct_dry: float | None = ask("clay_pct_dry", first=True)
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True)
    dead_fines_pct_dry: float | None = ask("dead_fines_pct_dry", exact=True)

    @property
    def made(self) -> Sand | None:
        """The new sand by its planned figures; None where it is given by what was weighed in."""
        if self.make_kg is None or self.moisture_pct_wet is None or self.clay_pct_dry is None:
            return None
        return _lying(self.make_kg, self.moisture_pct_wet, self.clay_pct_dry, self.dead_fines_pct_dry)

    @rule
    def something_went_in(self) -> Iterable[Problem]:
        if self.make_kg is None and not (self.sand_kg or self.clay_kg):
            yield self.wrong(
                "make_kg",
                "how much, or what was weighed in",
                "nothing was put in. Enter the new sand with its live clay and moisture, or the sand, clay and water weighed in.",
            )

    @rule
    def the_plan_is_whole(self) -> Iterable[Problem]:
        for word in ("clay_pct_dry", "moisture_pct_wet"):
            yield from as_far_as_right(self._not_planned(word))

    @rule
    def clay_and_fines_are_no_more_than_all(self) -> Iterable[Problem]:
        return _too_much_clay(self, self.clay_pct_dry or 0.0, self.dead_fines_pct_dry or 0.0)

    def _not_planned(self, word: str) -> Iterable[Problem]:
        if self.make_kg is not None and getattr(self, word) is None:
            yield self.wrong(word, "a share", "it is missing. Enter what the new sand was planned to have.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Bought(Form):
    """Materials that were bought and are not in the heap yet."""

    sand_kg: float | None = ask("sand_kg", first=True, label="Sand bought")
    clay_kg: float | None = ask("clay_kg", first=True, label="Clay bought")
    cost: float | None = ask("cost", first=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Poured(Form):
    """One cast: what was poured, and the sand that did not come back, if it was weighed."""

    metal: str = ask("metal", first=True)
    metal_kg: float = ask("metal_kg", first=True, required=True)
    pattern: str | None = ask("pattern", first=True)
    sand_lost_kg: float | None = ask("sand_lost_kg", first=True)
    flask_sand_kg: float | None = ask("flask_sand_kg")
    clay_burnt_kg: float | None = ask("clay_burnt_kg")
    water_driven_kg: float | None = ask("water_driven_kg")
    modulus_mm: float = ask("modulus_mm", default=8.0)
    pour_temp_c: float | None = ask("pour_temp_c")
    opened_after_min: float | None = ask("opened_after_min")
    castings_made: float | None = ask("castings_made")
    castings_scrapped: float | None = ask("castings_scrapped")
    scrap_cause: str | None = ask("scrap_cause")

    @rule
    def the_metal_is_liquid(self) -> Iterable[Problem]:
        return pour_temperature.too_cold(self)

    @rule
    def the_castings_can_be(self) -> Iterable[Problem]:
        return scrap.cannot_be(self)


@dataclass(frozen=True, slots=True, kw_only=True)
class Discarded(Form):
    """Sand thrown away: as it lay, or as the crust that the casting burnt."""

    discard_kg: float = ask("discard_kg", first=True, required=True, label="Sand thrown away")
    discarded_as: str = ask("discarded_as", first=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lost(Form):
    """Sand that is gone: lumps from the riddle, a spill."""

    lost_kg: float = ask("lost_kg", first=True, required=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Watered(Form):
    """Water that came or went: its mass, or the moisture of the sand afterwards."""

    water_kg: float | None = ask("water_kg", first=True, label="Water")
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True, label="Moisture afterwards")

    @rule
    def one_of_the_two(self) -> Iterable[Problem]:
        if (self.water_kg is None) == (self.moisture_pct_wet is None):
            yield self.wrong(
                "water_kg", "one of the two", "enter either the water or the moisture of the sand afterwards, not both."
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class RainedOn(Form):
    """Water that came in: its mass, or the moisture of the sand afterwards; with neither, nobody knows how much."""

    water_kg: float | None = ask("water_kg", first=True, label="Water, if you know it")
    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True, label="Moisture afterwards, if tested")

    @rule
    def not_both(self) -> Iterable[Problem]:
        if self.water_kg is not None and self.moisture_pct_wet is not None:
            what_to_do = "enter the water or the moisture of the sand afterwards, not both."
            yield self.wrong("water_kg", "one of the two, or neither", what_to_do)


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened(Form):
    """The heap stands open from now on, or stood open for some hours until now; perhaps in air that is known."""

    open_h: float | None = ask("open_h", first=True)
    air_temp_c: float | None = ask("air_temp_c", blank=True)
    humidity_pct: float | None = ask("humidity_pct", blank=True)
    wind_m_s: float | None = ask("wind_m_s", blank=True)
    heap_area_m2: float | None = ask("heap_area_m2")

    @rule
    def the_air_is_whole(self) -> Iterable[Problem]:
        words = ("air_temp_c", "humidity_pct", "heap_area_m2")
        missing = [word for word in words if getattr(self, word) is None]
        if missing and (len(missing) < len(words) or self.wind_m_s is not None):
            what_to_do = (
                "this is missing. The loss is computed from the temperature, the humidity and the open surface together. Enter "
                "all three, or none of them."
            )
            yield from (self.wrong(word, "all three, or none", what_to_do) for word in missing)


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
        return _too_much_clay(self, self.clay_pct_dry or 0.0, self.dead_fines_pct_dry or 0.0)

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
    """A person's own rammed density, spray bottle, tin with its rammer, or slope of one step: it counts from now on and moves no sand."""

    rammed_density_kg_l: float | None = ask("rammed_density_kg_l", first=True, blank=True)
    strokes_per_100ml: float | None = ask("strokes_per_100ml", first=True)
    rammer_kg: float | None = ask("rammer_kg", first=True)
    rammer_fall_mm: float | None = ask("rammer_fall_mm", first=True)
    tin_diameter_mm: float | None = ask("tin_diameter_mm", first=True)
    compactability_slope: float | None = ask("compactability_slope")

    @rule
    def something_was_measured(self) -> Iterable[Problem]:
        if all(getattr(self, word) is None for word in (*OWN, *OWN_TIN)):
            yield self.wrong(
                "rammed_density_kg_l",
                "at least one of these",
                "nothing was measured. Enter the rammed density, the strokes of your bottle, or your tin and its rammer.",
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class SplitOff(Form):
    """Sand taken out to start another heap."""

    split_kg: float = ask("split_kg", first=True, required=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class MetalChanged(Form):
    """From now on another metal is poured into this sand."""

    metal: str = ask("metal", first=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class PutAway(Form):
    """The heap is put away for a while, under a lid or in the open."""

    moisture_pct_wet: float | None = ask("moisture_pct_wet", first=True, label="Moisture when put away")
    cover: str = ask("cover", first=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class EventKind:
    """One kind of event: its form, its label, and a line of help; *quick* kinds are offered first."""

    key: str
    label: str
    help: str
    form: type[Form]
    quick: bool = False


KINDS: Mapping[str, EventKind] = {
    kind.key: kind
    for kind in (
        EventKind(key="poured", label="A cast was poured", help="Clay burns, water is driven off, some sand is lost.", form=Poured, quick=True),
        EventKind(key="tempered", label="Water was added", help="To bring the sand to its moisture.", form=Watered, quick=True),
        EventKind(key="measured", label="The sand was tested", help="Weighed, dried, washed or titrated.", form=Measured, quick=True),
        EventKind(key="added", label="Sand, clay or water was put back", help="As bought.", form=Added, quick=True),
        EventKind(key="mixed", label="New sand was mixed in", help="With its planned clay and moisture.", form=Mixed),
        EventKind(key="discarded", label="Sand was thrown away", help="Crust, burnt sand, or just some of it.", form=Discarded),
        EventKind(key="riddled", label="The sand was riddled", help="What stayed in the riddle and did not go back.", form=Lost),
        EventKind(key="spilled", label="Some sand was spilled", help="And not swept back in.", form=Lost),
        EventKind(key="dried", label="The sand dried", help="In the sun, or by standing.", form=Watered),
        EventKind(key="rained_on", label="The sand got wet", help="Rain, or a leaking roof. Leave both empty if you don't know.", form=RainedOn),
        EventKind(key="opened", label="The heap stood open", help="Without its lid, from now on or until now.", form=Opened),
        EventKind(key="split", label="Some sand was split off", help="To start another heap.", form=SplitOff),
        EventKind(key="joined", label="Other sand was tipped in", help="As it lay.", form=Joined),
        EventKind(key="bought", label="Materials were bought", help="Not in the heap yet.", form=Bought),
        EventKind(key="put_away", label="The heap was put away", help="Under a lid or in the open, until it is used again.", form=PutAway),
        EventKind(key="metal_changed", label="Another metal from now on", help="Other moisture limits apply.", form=MetalChanged),
        EventKind(key="calibrated", label="My own equipment was measured", help="A rammed flask, the spray bottle, or the tin.", form=Calibrated),
    )
}  # fmt: skip
UNDONE, CORRECTED = "undone", "corrected"
NOT_WORDS = ("id", "kind", "at", "note", "outcome", "of")


def words_of(event: Mapping[str, Any]) -> dict[str, Any]:
    """Return the words of an event that its form reads, without the keys that every event has."""
    return {word: value for word, value in event.items() if word not in NOT_WORDS}


def is_test(words: Mapping[str, Any]) -> bool:
    """Return whether an entry of the kind *measured* tests the heap: it has more than the feel of a handful, and what was done because of it."""
    return bool(words.keys() - {FEEL, "water_added_kg", "water_dried_kg", "scale_step_g"})


def typed(word: str, words: Mapping[str, Any]) -> tuple[float, float] | None:
    """Return a figure among the words of an event as it was typed, with its 95 % half-width; None where there is none, or none that can be read."""
    if words.get(word) is None:
        return None
    declared = quantity(word)
    try:
        taken = declared.read(words[word])
    except InputError:
        return None
    assert isinstance(taken.value, float)
    half = declared.half_width(taken.value, assumed=False) if taken.half_width is None else taken.half_width
    return taken.value, half


def _too_much_clay(form: Form, clay_pct: float, dead_pct: float) -> Iterable[Problem]:
    if clay_pct + dead_pct > 100:
        yield form.wrong(
            "clay_pct_dry",
            f"at most {100 - dead_pct:g} %",
            f"live clay and dead fines add up to {clay_pct + dead_pct:g} % of the dry sand. Together they can be at most 100 %. Check both.",
        )


def _lying(wet_kg: float, moisture_pct: float, clay_pct: float, fines_pct: float | None) -> Sand:
    live = min(100.0, clay_pct)
    fines = min(100.0 - live, fines_pct or 0.0)
    return Sand.lying(wet_kg, moisture_pct_wet=moisture_pct, clay_pct_dry=live, other_fines_pct_dry=fines)
