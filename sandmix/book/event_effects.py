"""What an event did to the heap, worked out once, when it is written."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

from sandmix.asking.form import Filled, Form, fill, moved
from sandmix.book import burnt_sand
from sandmix.book.events import (
    KINDS,
    Added,
    Bought,
    Calibrated,
    Discarded,
    Joined,
    Lost,
    Measured,
    MetalChanged,
    Mixed,
    Poured,
    PutAway,
    SplitOff,
    Watered,
)
from sandmix.book.heap import DOUBTED, DRY, DRY_PARTS, Outcome, State, added
from sandmix.book.test_update import measured
from sandmix.cooling.burnout import HeatedMould
from sandmix.cooling.cooling import cool
from sandmix.cooling.freezing import MEASURED_CONTACT_W_M2K, PERFECT, ROUGH, Case
from sandmix.language.errors import InputError, Problem
from sandmix.language.wording import plain
from sandmix.materials.metals import METALS, thermal
from sandmix.materials.sand import PARTS, Sand
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
Change = dict[str, float]


def outcome_of(kind: str, words: Mapping[str, Any], state: State) -> Outcome:
    """Return what an event of *kind* with *words* does to the heap as it stands; raises InputError with all that is wrong in its words.

    The doubt of its words goes into the variances; a share that is taken out of the heap takes its doubt along.
    """
    filled = fill(KINDS[kind].form, words, of="this kind of event")
    work_out: Callable[[Filled[Any], State], Outcome] = _WATER.get(kind) or _OUTCOMES[type(filled.form)]
    found = work_out(filled, state)
    return burnt_sand.with_crust(found, burnt_sand.mixed_back(state.crust)) if kind in burnt_sand.MIXING else found


def _of_change(
    filled: Filled[Any], state: State, change: Callable[[Any, State], Change], how: str, said: str = ""
) -> Outcome:
    """The outcome of a change that is a function of the form: its variances by moving each doubtful word to the ends of its band."""

    def figures(form: Any) -> dict[str, float]:
        parts = change(form, state)
        return parts | {DRY: sum(parts.get(part, 0.0) for part in DRY_PARTS)}

    told = figures(filled.form)
    bands = propagate(lambda values: figures(moved(filled.form, values)), filled.bands, told)
    halves = {part: wider_side(band, told[part]) for part, band in bands.items() if part in DOUBTED}
    return Outcome(
        change={part: kg for part, kg in told.items() if part != DRY},
        variance={part: (half / TWO_SIGMA) ** 2 for part, half in halves.items()},
        how=how,
        said=(said,) if said else (),
    )


def _sand_in(sand: Sand) -> Change:
    return {part: getattr(sand, part) for part in PARTS}


def _mixed(filled: Filled[Mixed], state: State) -> Outcome:
    def change(form: Mixed, _: State) -> Change:
        return _lying(form.make_kg, form.moisture_pct_wet, form.clay_pct_dry, form.dead_fines_pct_dry)

    if filled.form.is_weighed_in:
        return _added(filled, state)
    made = _of_change(filled, state, change, "given", "new sand as it was made to be")
    if filled.form.dead_fines_pct_dry is not None:
        return made
    dry_kg = sum(made.change[part] for part in DRY_PARTS)
    unknown = (UNKNOWN_FINES * dry_kg / TWO_SIGMA) ** 2
    return replace(made, variance={**made.variance, "other_fines_kg": unknown})


def _joined(filled: Filled[Joined], state: State) -> Outcome:
    def change(form: Joined, _: State) -> Change:
        return _lying(form.joined_kg, form.moisture_pct_wet, form.clay_pct_dry, form.dead_fines_pct_dry)

    return _of_change(filled, state, change, "given", "sand from elsewhere, as it lay")


def _lying(wet_kg: float | None, moisture: float | None, clay: float | None, dead: float | None) -> Change:
    assert wet_kg is not None and moisture is not None and clay is not None
    live = min(100.0, clay)
    fines = min(100.0 - live, dead or 0.0)
    return _sand_in(Sand.lying(wet_kg, moisture_pct_wet=moisture, clay_pct_dry=live, other_fines_pct_dry=fines))


def _added(filled: Filled[Any], state: State) -> Outcome:
    def change(form: Added, _: State) -> Change:
        sand_dry = (form.sand_kg or 0.0) * (1 - form.sand_moisture_pct_wet / 100)
        clay_dry = (form.clay_kg or 0.0) * (1 - form.clay_moisture_pct_wet / 100)
        live = clay_dry * form.activity_pct / 100
        water = (form.sand_kg or 0.0) - sand_dry + (form.clay_kg or 0.0) - clay_dry + (form.water_kg or 0.0)
        return _sand_in(
            Sand(
                grain_kg=sand_dry, live_clay_kg=live, other_fines_kg=max(0.0, clay_dry - live), water_kg=max(0.0, water)
            )
        )

    if filled.form.clay_activity_pct is None:
        low, high = CLAYS[filled.form.clay].activity_band_pct
        filled = filled.resolved({"clay_activity_pct": (low + high) / 2}, bands={"clay_activity_pct": (low, high)})
    return _of_change(filled, state, change, "given", "as bought, with the water and the idle part that it brings")


def _nothing_moves(filled: Filled[Any], state: State) -> Outcome:
    return Outcome(how="given", said=("nothing in the heap changes",))


def _metal_changed(filled: Filled[MetalChanged], state: State) -> Outcome:
    metal, before = METALS[filled.form.metal], METALS[state.metal or "aluminium"]
    wanted = metal.target_moisture_pct_wet / 100
    sand = state.sand
    lose = max(0.0, sand.water_kg - sand.dry_kg * wanted / (1 - wanted))
    said = [
        f"for {metal.label} it is to hold {metal.target_moisture_pct_wet:g} %, and never more than {metal.red_moisture_pct_wet:g} %"
    ]
    if lose > 0.005:
        said.append(f"it must lose {plain(round(lose, 3))} kg of water")
    if metal.pour_temp_c > before.pour_temp_c + HOTTER_C:
        said.append(
            "it is poured far hotter: more vents, a firmer face, a thicker burnt crust; new sand as a facing "
            "against the pattern, with this heap behind "
            "it, keeps the rest of it alive (common practice, no source)"
        )
    return Outcome(how="given", said=tuple(said))


def _put_away(filled: Filled[PutAway], state: State) -> Outcome:
    """Nothing changes but the water, where the moisture is told."""
    if filled.form.moisture_pct_wet is None:
        return Outcome(how="given", said=("nothing in the heap changes",))

    def change(form: PutAway, now: State) -> Change:
        assert form.moisture_pct_wet is not None
        wanted = form.moisture_pct_wet / 100
        return {"water_kg": now.sand.dry_kg * wanted / (1 - wanted) - max(0.0, now.parts["water_kg"])}

    found = _of_change(filled, state, change, "weighed", "put away with this moisture")
    return replace(found, variance={"water_kg": found.variance["water_kg"] - state.variances["water_kg"]})


def _taken(filled: Filled[Any], state: State, word: str, said: str) -> Outcome:
    """Sand out of the heap as it lies: the same share of each part, and of its doubt; raises InputError beyond what there can be."""
    _can_be_there(filled.form, word, state)

    def change(form: Form, now: State) -> Change:
        share = _share_out(getattr(form, word), now)
        return {part: -share * max(0.0, kg) for part, kg in now.parts.items()}

    outcome = _of_change(filled, state, change, "weighed", said)
    outcome = replace(outcome, said=(*outcome.said, *_found(getattr(filled.form, word), state)))
    weighed = {part: outcome.variance.get(part, 0.0) for part in (DRY, "water_kg")}
    share = _share_out(getattr(filled.form, word), state)
    return replace(
        outcome,
        variance=added(weighed, _thinned(share, state), DOUBTED),
        crust=burnt_sand.taken(state.crust, share),
    )


def _found(wet_kg: float, state: State) -> tuple[str, ...]:
    more = wet_kg - state.sand.wet_kg
    return (
        (f"found: {more:.3g} kg more than the book knew of, and gone too",) if more > burnt_sand.LEAST_TOLD_KG else ()
    )


def _can_be_there(form: Form, word: str, state: State) -> None:
    """Raise InputError where more is taken than a book that is somewhat off may hold."""
    wanted, most = getattr(form, word), state.sand.wet_kg * MORE_THAN_THE_BOOK
    if wanted is not None and wanted > most:
        problem = form.wrong(
            word,
            f"at most {most:.3g} kg",
            (
                f"{wanted:g} kg is more than the {state.sand.wet_kg:.3g} kg that the book knows of. Record a "
                "weighing of the "
                "heap first, or look at the unit."
            ),
        )
        raise InputError([problem])


def _thinned(share: float, state: State) -> Change:
    """What the variances lose where *share* of the whole heap goes."""
    return {part: -square * (1 - (1 - share) ** 2) for part, square in state.variances.items()}


def _share_out(wet_kg: float, state: State) -> float:
    heap_kg = state.sand.wet_kg
    return 0.0 if heap_kg <= 0 else min(1.0, wet_kg / heap_kg)


def _discarded(filled: Filled[Discarded], state: State) -> Outcome:
    form = filled.form
    if form.discarded_as == "crust":
        _can_be_there(form, "discard_kg", state)
        assert form.discard_kg is not None
        half = (
            half_width(filled.bands["discard_kg"])
            if "discard_kg" in filled.bands
            else SCALE.half_width(form.discard_kg)
        )
        found = burnt_sand.discarded(state, form.discard_kg, half)
        return replace(found, said=(*found.said, *_found(form.discard_kg, state)))
    return _taken(filled, state, "discard_kg", "thrown away as it lay, the same share of each part")


def _lost(filled: Filled[Lost], state: State) -> Outcome:
    return _taken(filled, state, "lost_kg", "gone as it lay, the same share of each part")


def _split(filled: Filled[SplitOff], state: State) -> Outcome:
    return _taken(filled, state, "split_kg", "taken out as it lay, the same share of each part")


def _watered(sign: float, said: str) -> Callable[[Filled[Watered], State], Outcome]:
    """Water in or out: by its mass, else so much as brings the sand to the moisture that was read."""

    def outcome(filled: Filled[Watered], state: State) -> Outcome:
        def change(form: Watered, now: State) -> Change:
            there = max(0.0, now.parts["water_kg"])
            if form.water_kg is not None:
                return {"water_kg": max(-there, sign * form.water_kg)}
            assert form.moisture_pct_wet is not None
            wanted = form.moisture_pct_wet / 100
            return {"water_kg": now.sand.dry_kg * wanted / (1 - wanted) - there}

        if sign > 0 and filled.form.water_kg is None and change(filled.form, state)["water_kg"] < 0:
            raise InputError([_no_drier(filled.form, state)])
        found = _of_change(filled, state, change, "given" if filled.form.water_kg is not None else "weighed", said)
        if filled.form.water_kg is None:
            return replace(found, variance={"water_kg": found.variance["water_kg"] - state.variances["water_kg"]})
        return found

    return outcome


def _no_drier(form: Watered, state: State) -> Problem:
    return form.wrong(
        "moisture_pct_wet",
        f"at least {state.sand.moisture_pct_wet:.3g} %",
        (
            f"the book holds {state.sand.moisture_pct_wet:.3g} % already, and water that came in makes no sand "
            "drier. Record a test of its "
            "moisture instead."
        ),
    )


def _poured(filled: Filled[Poured], state: State) -> Outcome:
    """A cast: clay burnt and water driven off, between the measured and perfect contact; then what of the sand does not come back."""
    form = filled.form
    dry_kg = state.sand.dry_kg
    if dry_kg <= 0:
        return Outcome(how="computed", said=("there is no sand in the book yet: nothing was taken off",))
    _can_be_there(form, "sand_lost_kg", state)
    burnt_share, burnt_half, water_kg, water_half = _by_heat(form, state)
    live, water = max(0.0, state.parts["live_clay_kg"]), max(0.0, state.parts["water_kg"])
    killed, killed_half = live * burnt_share, live * burnt_half
    driven, driven_half = min(water, water_kg), min(water, water_half)
    if form.clay_burnt_kg is not None:
        killed, killed_half = min(live, form.clay_burnt_kg), KNOWN_HEAT * min(live, form.clay_burnt_kg)
    if form.water_driven_kg is not None:
        driven, driven_half = min(water, form.water_driven_kg), KNOWN_HEAT * min(water, form.water_driven_kg)
    halves = {"live_clay_kg": killed_half, "dead_clay_kg": killed_half, "water_kg": driven_half}
    heat = Outcome(
        change={"live_clay_kg": -killed, "dead_clay_kg": killed, "water_kg": -driven},
        variance={part: (half / TWO_SIGMA) ** 2 for part, half in halves.items()},
        crust=burnt_sand.left_by(killed, (killed_half / TWO_SIGMA) ** 2, live, dry_kg),
    )
    left = state.after(heat)
    loss = _loss(form, filled, left)
    lost = {part: -loss.share * max(0.0, kg) for part, kg in left.parts.items()}
    one = loss.half_width / TWO_SIGMA
    doubt = {DRY: (one * left.sand.dry_kg) ** 2, "water_kg": (one * left.sand.water_kg) ** 2}
    said = (
        f"{1000 * killed:.0f} g of live clay burnt, {1000 * driven:.0f} g of water driven off (computed)",
        f"{-sum(lost.values()):.2f} kg of sand lost ({_HOW[loss.how]})",
    )
    return heat.with_more(
        Outcome(
            change=lost,
            variance=added(doubt, _thinned(loss.share, left), DOUBTED),
            said=said,
            loss_share=loss.share if loss.how == sand_loss.WEIGHED else None,
            crust=burnt_sand.taken(left.crust, loss.share),
        ),
        f"computed, {loss.how}",
    )


_HOW = {
    sand_loss.WEIGHED: "weighed",
    sand_loss.LEARNED: "from your own weighed casts",
    sand_loss.DEFAULT: "not weighed: 1 to 3 % is usual",
}


def _by_heat(form: Poured, state: State) -> tuple[float, float, float, float]:
    """The share of the live clay burnt and the water driven off, each with its half-width: the middle and half the span of both contacts."""
    assert form.metal_kg is not None
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


def _loss(form: Poured, filled: Filled[Poured], state: State) -> sand_loss.Loss:
    if form.sand_lost_kg is None:
        return sand_loss.loss_a_cast(state.own_losses)
    share = _share_out(form.sand_lost_kg, state)
    half = half_width(filled.bands["sand_lost_kg"])
    return sand_loss.Loss(share=share, half_width=_share_out(half, state), how=sand_loss.WEIGHED)


_OUTCOMES: dict[type[Form], Callable[[Filled[Any], State], Outcome]] = {
    Mixed: _mixed,
    Joined: _joined,
    Added: _added,
    Bought: _nothing_moves,
    Poured: _poured,
    Discarded: _discarded,
    Lost: _lost,
    SplitOff: _split,
    Measured: measured,
    MetalChanged: _metal_changed,
    PutAway: _put_away,
    Calibrated: _nothing_moves,
}
_WATER = {
    "tempered": _watered(1.0, "water put in"),
    "rained_on": _watered(1.0, "water that came in"),
    "dried": _watered(-1.0, "water that went off"),
}
