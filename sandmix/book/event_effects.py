"""What an event did to the heap, worked out once, when it is written."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from sandmix.asking.form import Filled, Form, fill, moved
from sandmix.book import burnt_sand
from sandmix.book.events import KINDS, Discarded, MetalChanged, Mixed, Poured, PutAway, Watered
from sandmix.book.heap import HeapState, Outcome
from sandmix.book.test_update import measured
from sandmix.cooling.burnout import HeatedMould
from sandmix.cooling.cooling import cool
from sandmix.cooling.freezing import MEASURED_CONTACT_W_M2K, PERFECT, ROUGH, Case
from sandmix.language.errors import InputError, Problem
from sandmix.language.wording import plain
from sandmix.materials.delta import DRY, UNCERTAIN, Delta, added
from sandmix.materials.metals import METALS, thermal
from sandmix.materials.sand import PARTS, Masses
from sandmix.materials.sands_and_clays import CLAYS, SANDS_FOR_HEAT
from sandmix.maths.statistics import TWO_SIGMA
from sandmix.maths.uncertainty import half_width, propagate, wider_side
from sandmix.recipes import sand_loss
from sandmix.vocabulary.mass_words import SCALE

UNKNOWN_FINES = 0.01
MORE_THAN_THE_BOOK = 1.2
KNOWN_HEAT = 0.2
HOTTER_C = 200.0
SODIUM = CLAYS["sodium_bentonite"]
NOTHING_CHANGES = Outcome(lines=("nothing in the heap changes",))
Effect = Callable[[Filled[Any], HeapState], Outcome]
Change = Callable[[Any, HeapState], Masses]


def outcome_of(kind: str, words: Mapping[str, Any], state: HeapState) -> Outcome:
    """Return what an event of *kind* with *words* does to the heap as it stands; raises InputError with all that is wrong in its words.

    The uncertainty of its words goes into the variances. Sand that leaves the heap takes its share of the heap's uncertainty with it.
    """
    found = _EFFECTS[kind](fill(KINDS[kind].form, words, of="this kind of entry"), state)
    return replace(found, burnt=state.burnt.reversed()) if kind in burnt_sand.MIXING else found


def _of_change(filled: Filled[Any], state: HeapState, change: Change, how: str, line: str) -> Outcome:
    """The outcome of a change that is a function of the form; its variances come from moving each uncertain word to the ends of its band."""

    def figures(form: Any) -> dict[str, float]:
        masses = change(form, state)
        return masses.by_part() | {DRY: masses.dry_kg}

    here = figures(filled.form)
    bands = propagate(lambda values: figures(moved(filled.form, values)), filled.bands, here).bands
    variances = {part: (wider_side(bands[part], here[part]) / TWO_SIGMA) ** 2 for part in UNCERTAIN}
    return Outcome(delta=Delta.of({part: here[part] for part in PARTS}, variances), how=how, lines=(line,))


def _with_variances(outcome: Outcome, variances: Mapping[str, float]) -> Outcome:
    return replace(outcome, delta=replace(outcome.delta, variances=variances))


def _mixed(filled: Filled[Mixed], state: HeapState) -> Outcome:
    if filled.form.made is None:
        return _added(filled, state)
    made = _of_change(filled, state, lambda form, _: form.made, "given", "new sand, as it was planned")
    if filled.form.dead_fines_pct_dry is not None:
        return made
    unknown = (UNKNOWN_FINES * made.delta.dry_kg / TWO_SIGMA) ** 2
    return _with_variances(made, {**made.delta.variances, "other_fines_kg": unknown})


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
    return _with_variances(found, {"water_kg": found.delta.variance("water_kg") - state.total.variance("water_kg")})


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
        _can_be_there(filled.form, word, state)

        def change(form: Form, now: HeapState) -> Delta:
            return now.leaving(_share_of(getattr(form, word), now)).delta

        outcome = _of_change(filled, state, change, "weighed", f"{line} as it lay: the same share of every part")
        leaving = state.leaving(_share_of(getattr(filled.form, word), state))
        weighed = {part: outcome.delta.variance(part) for part in (DRY, "water_kg")}
        return replace(
            _with_variances(outcome, added(weighed, leaving.delta.variances, UNCERTAIN)),
            lines=(*outcome.lines, *_found(getattr(filled.form, word), state)),
            burnt=leaving.burnt,
        )

    return effect


def _found(wet_kg: float, state: HeapState) -> tuple[str, ...]:
    more = wet_kg - state.sand.wet_kg
    return (f"{more:.3g} kg more than the book had",) if more > burnt_sand.LEAST_SHOWN_KG else ()


def _can_be_there(form: Form, word: str, state: HeapState) -> None:
    """Raise InputError where more is taken than can be there, even if the book is somewhat off."""
    taken, most = getattr(form, word), state.sand.wet_kg * MORE_THAN_THE_BOOK
    if taken is not None and taken > most:
        what_to_do = (
            f"{taken:g} kg is more than the {state.sand.wet_kg:.3g} kg in the book. Weigh the heap and record that first, or "
            "check the unit."
        )
        raise InputError([form.wrong(word, f"at most {most:.3g} kg", what_to_do)])


def _share_of(wet_kg: float, state: HeapState) -> float:
    heap_kg = state.sand.wet_kg
    return 0.0 if heap_kg <= 0 else min(1.0, wet_kg / heap_kg)


def _discarded(filled: Filled[Discarded], state: HeapState) -> Outcome:
    form = filled.form
    if form.discarded_as != "crust":
        return _DISCARDED_AS_IT_LAY(filled, state)
    _can_be_there(form, "discard_kg", state)
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


def _no_drier(form: Watered, state: HeapState) -> Problem:
    here = f"{state.sand.moisture_pct_wet:.3g} %"
    what_to_do = f"the book has {here} already, and water that comes in cannot make the sand drier. Record a moisture test instead."
    return form.wrong("moisture_pct_wet", f"at least {here}", what_to_do)


def _poured(filled: Filled[Poured], state: HeapState) -> Outcome:
    """A cast: clay burnt and water driven off, between the measured and perfect contact; then what of the sand does not come back."""
    form = filled.form
    dry_kg = state.sand.dry_kg
    if dry_kg <= 0:
        return Outcome(how="computed", lines=("there is no sand in the book yet, so nothing changes",))
    _can_be_there(form, "sand_lost_kg", state)
    burnt_share, burnt_half, water_kg, water_half = _by_heat(form, state)
    live, water = state.sand.live_clay_kg, state.sand.water_kg
    killed, killed_half = live * burnt_share, live * burnt_half
    driven, driven_half = min(water, water_kg), min(water, water_half)
    if form.clay_burnt_kg is not None:
        killed, killed_half = min(live, form.clay_burnt_kg), KNOWN_HEAT * min(live, form.clay_burnt_kg)
    if form.water_driven_kg is not None:
        driven, driven_half = min(water, form.water_driven_kg), KNOWN_HEAT * min(water, form.water_driven_kg)
    halves = {"live_clay_kg": killed_half, "dead_clay_kg": killed_half, "water_kg": driven_half}
    variances = {part: (half / TWO_SIGMA) ** 2 for part, half in halves.items()}
    heat = Outcome(
        delta=Delta(live_clay_kg=-killed, dead_clay_kg=killed, water_kg=-driven, variances=variances),
        burnt=burnt_sand.left_by(killed, variances["dead_clay_kg"], live, dry_kg),
    )
    lost = _lost(filled, state.after(heat))
    lines = (
        f"{1000 * killed:.0f} g of live clay burnt, {1000 * driven:.0f} g of water driven off (computed)",
        *lost.lines,
    )
    return heat.plus(replace(lost, lines=lines), f"computed, {lost.how}")


def _lost(filled: Filled[Poured], left: HeapState) -> Outcome:
    """The sand that does not come back from the mould: weighed, or a share of the sand in the mould."""
    form = filled.form
    half = half_width(filled.bands["flask_sand_kg"]) if "flask_sand_kg" in filled.bands else 0.0
    mould = sand_loss.sand_in_mould(form.metal_kg, left.sand.wet_kg, form.flask_sand_kg, half)
    loss = sand_loss.loss_a_cast(left.own_losses)
    lost_kg, half_kg = mould.lost_kg(loss)
    how, weighed_share = loss.how, None
    if form.sand_lost_kg is not None:
        lost_kg, half_kg, how = form.sand_lost_kg, half_width(filled.bands["sand_lost_kg"]), sand_loss.WEIGHED
        weighed_share = min(1.0, lost_kg / mould.kg) if mould.kg > 0 else None
    lost = left.leaving(_share_of(lost_kg, left))
    one = _share_of(half_kg, left) / TWO_SIGMA
    own = {DRY: (one * left.sand.dry_kg) ** 2, "water_kg": (one * left.sand.water_kg) ** 2}
    return replace(
        _with_variances(lost, added(own, lost.delta.variances, UNCERTAIN)),
        how=how,
        lines=(f"{-lost.delta.wet_kg:.2f} kg of sand lost ({_of_mould(how, loss, mould)})",),
        mould_loss_share=weighed_share,
    )


def _of_mould(how: str, loss: sand_loss.Loss, mould: sand_loss.MouldSand) -> str:
    """Where a loss comes from, in words."""
    if how == sand_loss.WEIGHED:
        return "weighed"
    of = f"of the {mould.kg:.3g} kg of sand in the mould{', estimated from the metal' if mould.estimated else ''}"
    if how == sand_loss.LEARNED:
        return f"by your own weighed casts {100 * loss.share:.1f} % {of}"
    return f"not weighed: usually 1 to 3 % {of}"


def _by_heat(form: Poured, state: HeapState) -> tuple[float, float, float, float]:
    """The share of the live clay burnt and the water driven off, each with its half-width: the middle and half the span of both contacts."""
    metal, sand = METALS[form.metal], state.sand
    water = min(0.25, sand.water_kg / sand.dry_kg)
    volume_m3 = form.metal_kg / metal.solid_kg_m3
    in_flask = (
        sand.dry_kg
        if form.flask_sand_kg is None
        else min(sand.dry_kg, form.flask_sand_kg * (1 - sand.moisture_pct_wet / 100))
    )
    burnt, driven = [], []
    for contact in (PERFECT, MEASURED_CONTACT_W_M2K):
        case = Case(
            metal=thermal(form.metal),
            pour_temp_c=metal.pour_temp_c if form.pour_temp_c is None else form.pour_temp_c,
            sand=SANDS_FOR_HEAT["a"],
            water=water,
            shape_n=0.0,
            modulus_mm=form.modulus_mm,
            contact_w_m2k=contact,
        )
        mould = HeatedMould(cooling=cool(case, ROUGH), area_m2=volume_m3 / (form.modulus_mm / 1000), dry_kg=in_flask)
        assert SODIUM.limit_c is not None
        burnt.append(mould.shell_kg(mould.cooling.depth_past_mm(SODIUM.limit_c)) / sand.dry_kg)
        burnt.append(mould.burnt_by_rate_kg() / sand.dry_kg)
        driven.append(mould.water_driven_kg)
    middle, half = (max(burnt) + min(burnt)) / 2, (max(burnt) - min(burnt)) / 2
    return middle, half, sum(driven) / 2, max(0.15 * max(driven), abs(driven[0] - driven[1]) / 2)


_EFFECTS: Mapping[str, Effect] = {
    "poured": _poured,
    "tempered": _watered(1.0, "water added"),
    "measured": measured,
    "added": _added,
    "mixed": _mixed,
    "discarded": _discarded,
    "riddled": _taken("lost_kg", "lost"),
    "spilled": _taken("lost_kg", "lost"),
    "dried": _watered(-1.0, "water evaporated"),
    "rained_on": _watered(1.0, "water came in"),
    "split": _taken("split_kg", "taken out"),
    "joined": _joined,
    "bought": _nothing_changes,
    "put_away": _put_away,
    "metal_changed": _metal_changed,
    "calibrated": _nothing_changes,
}
