"""What an event did to the heap, worked out once, when it is written."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from sandmix.asking.form import Filled, Form, fill, moved
from sandmix.book import burnt_sand
from sandmix.book.events import KINDS
from sandmix.book.heap import MUD_PCT, HeapState, Outcome, can_be_there
from sandmix.book.pouring import poured
from sandmix.book.test_update import measured
from sandmix.entries.cast_entries import MetalChanged
from sandmix.entries.reading_entries import Measured
from sandmix.entries.sand_entries import Discarded, Mixed
from sandmix.entries.water_entries import Opened, PutAway, RainedOn, Watered
from sandmix.language.errors import InputError, Problem
from sandmix.language.wording import plain
from sandmix.materials.delta import DRY, UNCERTAIN, Delta, added
from sandmix.materials.metals import METALS
from sandmix.materials.sand import PARTS, Masses
from sandmix.materials.sands_and_clays import CLAYS
from sandmix.maths.statistics import TWO_SIGMA
from sandmix.maths.uncertainty import half_width, propagate, wider_side
from sandmix.vocabulary.mass_words import SCALE

UNKNOWN_FINES = 0.01
RAIN_PCT = (1.0, 1.0)
"""Points of moisture that rain of unknown amount adds, and their ± (own rule)."""
HOTTER_C = 200.0
NOTHING_CHANGES = Outcome(lines=("nothing in the heap changes",))
Effect = Callable[[Filled[Any], HeapState], Outcome]
Change = Callable[[Any, HeapState], Masses]


def outcome_of(kind: str, words: Mapping[str, Any], state: HeapState) -> Outcome:
    """Return what an event of *kind* with *words* does to the heap as it stands; raises InputError with all that is wrong in its words.

    The uncertainty of its words goes into the variances. Sand that leaves the heap takes its share of the heap's uncertainty with it.
    """
    found = _EFFECTS[kind](fill(KINDS[kind].form, words, of="this kind of entry"), state)
    return replace(found, burnt=state.burnt.reversed()) if burnt_sand.mixes_back(kind, words) else found


def _of_change(filled: Filled[Any], state: HeapState, change: Change, how: str, line: str) -> Outcome:
    """The outcome of a change that is a function of the form; its variances come from moving each uncertain word to the ends of its band."""

    def figures(form: Any) -> dict[str, float]:
        masses = change(form, state)
        return masses.by_part() | {DRY: masses.dry_kg}

    here = figures(filled.form)
    bands = propagate(lambda values: figures(moved(filled.form, values)), filled.bands, here).bands
    variances = {part: (wider_side(bands[part], here[part]) / TWO_SIGMA) ** 2 for part in UNCERTAIN}
    return Outcome(delta=Delta.of({part: here[part] for part in PARTS}, variances), how=how, lines=(line,))


def _mixed(filled: Filled[Mixed], state: HeapState) -> Outcome:
    if filled.form.made is None:
        return _added(filled, state)
    made = _of_change(filled, state, lambda form, _: form.made, "given", "new sand, as it was planned")
    if filled.form.dead_fines_pct_dry is not None:
        return made
    unknown = (UNKNOWN_FINES * made.delta.dry_kg / TWO_SIGMA) ** 2
    return made.with_variances({**made.delta.variances, "other_fines_kg": unknown})


def _joined(filled: Filled[Any], state: HeapState) -> Outcome:
    return _of_change(filled, state, lambda form, _: form.joined, "given", "sand from elsewhere, as it lay")


def _added(filled: Filled[Any], state: HeapState) -> Outcome:
    if filled.form.clay_activity_pct is None:
        band = CLAYS[filled.form.clay].activity_band_pct
        filled = filled.resolved({"clay_activity_pct": band[1]}, bands={"clay_activity_pct": band})
    line = "materials as bought, with their water and the part of the clay that does not bond"
    return _of_change(filled, state, lambda form, _: form.bought, "given", line)


def _nothing_changes(filled: Filled[Any], state: HeapState) -> Outcome:
    return NOTHING_CHANGES


def _metal_changed(filled: Filled[MetalChanged], state: HeapState) -> Outcome:
    metal, before = METALS[filled.form.metal], METALS[state.metal or "aluminium"]
    target, stop = metal.target_moisture_pct_wet, metal.red_moisture_pct_wet
    lines = [
        f"for {metal.label} the target moisture is {target:g} %, and the stop limit is {stop:g} % (both of the wet mass)"
    ]
    lose = max(0.0, state.sand.water_kg - state.sand.water_at(target / 100))
    if lose > 0.005:
        lines.append(f"{plain(round(lose, 3))} kg of water must dry off")
    if metal.pour_temp_c > before.pour_temp_c + HOTTER_C:
        lines.append(
            "it is poured far hotter: use more vents and a firmer face, and expect a thicker burnt crust; a facing of new sand "
            "against the pattern, with this heap behind it, protects the rest of the heap (common practice, no source)"
        )
    return Outcome(lines=tuple(lines))


def _water_to(moisture_pct_wet: float, state: HeapState) -> Delta:
    """The change of the water that brings the heap to a moisture."""
    return Delta(water_kg=state.sand.water_at(moisture_pct_wet / 100) - state.sand.water_kg)


def _by_moisture(filled: Filled[Any], state: HeapState, line: str) -> Outcome:
    """The water that brings the heap to the moisture that was read; its uncertainty takes the place of the old one."""

    def change(form: Any, now: HeapState) -> Delta:
        return _water_to(form.moisture_pct_wet, now)

    found = _of_change(filled, state, change, "weighed", line)
    return found.with_variances({"water_kg": found.delta.variance("water_kg") - state.total.variance("water_kg")})


def _put_away(filled: Filled[PutAway], state: HeapState) -> Outcome:
    """Only the water changes, and only where the moisture is given."""
    return (
        NOTHING_CHANGES
        if filled.form.moisture_pct_wet is None
        else _by_moisture(filled, state, "put away at this moisture")
    )


def _taken(word: str, line: str) -> Effect:
    """Sand out of the heap as it lies: the same share of each part, and of its uncertainty; raises InputError for more than there can be."""

    def effect(filled: Filled[Any], state: HeapState) -> Outcome:
        can_be_there(filled.form, word, state)

        def change(form: Form, now: HeapState) -> Delta:
            return now.leaving(now.share_of(getattr(form, word))).delta

        outcome = _of_change(filled, state, change, "weighed", f"{line} as it lay: the same share of every part")
        leaving = state.leaving(state.share_of(getattr(filled.form, word)))
        weighed = {part: outcome.delta.variance(part) for part in (DRY, "water_kg")}
        return replace(
            outcome.with_variances(added(weighed, leaving.delta.variances, UNCERTAIN)),
            lines=(*outcome.lines, *_found(getattr(filled.form, word), state)),
            burnt=leaving.burnt,
        )

    return effect


def _found(wet_kg: float, state: HeapState) -> tuple[str, ...]:
    more = wet_kg - state.sand.wet_kg
    return (f"{more:.3g} kg more than the book had",) if more > burnt_sand.LEAST_SHOWN_KG else ()


def _discarded(filled: Filled[Discarded], state: HeapState) -> Outcome:
    form = filled.form
    if form.discarded_as != "crust":
        return _DISCARDED_AS_IT_LAY(filled, state)
    can_be_there(form, "discard_kg", state)
    half = half_width(filled.bands["discard_kg"]) if "discard_kg" in filled.bands else SCALE.half_width(form.discard_kg)
    outcome = burnt_sand.discarded(state, form.discard_kg, half)
    return replace(outcome, lines=(*outcome.lines, *_found(form.discard_kg, state)))


_DISCARDED_AS_IT_LAY = _taken("discard_kg", "thrown away")


def _watered(sign: float, line: str) -> Effect:
    """Water in or out: by its mass, else as much as brings the sand to the moisture that was read."""

    def effect(filled: Filled[Watered], state: HeapState) -> Outcome:
        moisture = filled.form.moisture_pct_wet
        if moisture is not None:
            if sign > 0 and _water_to(moisture, state).water_kg < 0:
                raise InputError([_no_drier(filled.form, state)])
            return _by_moisture(filled, state, line)

        def change(form: Watered, now: HeapState) -> Delta:
            return Delta(water_kg=max(-now.sand.water_kg, sign * (form.water_kg or 0.0)))

        return _of_change(filled, state, change, "given", line)

    return effect


def _rained(filled: Filled[RainedOn], state: HeapState) -> Outcome:
    """Water that came in; of an unknown amount, a wide range of it."""
    form = filled.form
    covered = state.covers and not max(state.covers, key=lambda cover: cover.at_s).open
    lines = ("by the book it lay under a lid: check how the water came in",) if covered else ()
    if form.water_kg is not None or form.moisture_pct_wet is not None:
        found = _watered(1.0, "water came in")(filled, state)
        return replace(found, lines=(*found.lines, *lines))
    more, half = RAIN_PCT
    sand = state.sand
    if sand.dry_kg <= 0:
        return Outcome(lines=("there is no sand in the book that could take up water",))
    wetter = [min(MUD_PCT, sand.moisture_pct_wet + points) for points in (more, more + half)]
    water, most = (_water_to(moisture, state).water_kg for moisture in wetter)
    said = f"water came in, and nobody knows how much: counted as {more - half:g} to {more + half:g} points (own rule); test it"
    delta = Delta(water_kg=max(0.0, water), variances={"water_kg": (max(0.0, most - water) / TWO_SIGMA) ** 2})
    return Outcome(delta=delta, how="guessed", lines=(said, *lines))


def _opened(filled: Filled[Opened], state: HeapState) -> Outcome:
    """Nothing that is recorded changes; from now on, or for some hours, the water moves faster."""
    form = filled.form
    until = "from now on" if form.open_h is None else f"for {plain(form.open_h)} h until now"
    how = (
        "its loss is computed from the air, give or take a factor of 2"
        if form.air_temp_c is not None
        else "its moisture becomes uncertain faster: test it before you pour"
    )
    return Outcome(lines=(f"the heap stood open {until}: {how}",))


def _tested(filled: Filled[Measured], state: HeapState) -> Outcome:
    """A test, and the water that was added or dried off because of it."""
    test = measured(filled, state)
    added_kg, dried_kg = filled.form.water_added_kg or 0.0, filled.form.water_dried_kg or 0.0
    if added_kg == dried_kg:
        return test

    def change(form: Measured, now: HeapState) -> Delta:
        return Delta(water_kg=max(-now.sand.water_kg, (form.water_added_kg or 0.0) - (form.water_dried_kg or 0.0)))

    line = "then water was added" if added_kg else "then water was dried off"
    watered = _of_change(filled, state.after(test), change, "measured", line)
    both = test.plus(watered, "measured")
    return replace(both, aged=test.aged, lines=(*test.lines, f"{line}: {abs(watered.delta.water_kg):.3f} kg"))


def _no_drier(form: Watered, state: HeapState) -> Problem:
    here = f"{state.sand.moisture_pct_wet:.3g} %"
    what_to_do = f"the book has {here} already, and water that comes in cannot make the sand drier. Record a moisture test instead."
    return form.wrong("moisture_pct_wet", f"at least {here}", what_to_do)


_EFFECTS: Mapping[str, Effect] = {
    "poured": poured,
    "tempered": _watered(1.0, "water added"),
    "measured": _tested,
    "added": _added,
    "mixed": _mixed,
    "discarded": _discarded,
    "riddled": _taken("lost_kg", "lost"),
    "spilled": _taken("lost_kg", "lost"),
    "dried": _watered(-1.0, "water evaporated"),
    "rained_on": _rained,
    "opened": _opened,
    "split": _taken("split_kg", "taken out"),
    "joined": _joined,
    "bought": _nothing_changes,
    "put_away": _put_away,
    "metal_changed": _metal_changed,
    "calibrated": _nothing_changes,
    "forgotten": _nothing_changes,
}
