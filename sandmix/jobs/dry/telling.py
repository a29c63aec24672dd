"""The texts of *dry*: headline, what to do, remarks, cautions, working and clocks."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import BURNER, DRYING, DUST, HOT_SAND, Caution
from sandmix.asking.job import Computed, Lead, Next, Record, Telling, Timer, ToDo, WayOut
from sandmix.drying.evaporation import front
from sandmix.drying.moist_air import dew_point_c
from sandmix.jobs.dry import chart
from sandmix.jobs.dry.form import ResolvedDry
from sandmix.jobs.dry.resolving import LAYER_MM, OUTDOORS
from sandmix.jobs.shared import wet_sand
from sandmix.language.wording import true_minus
from sandmix.maths.uncertainty import Band
from sandmix.recipes.temper import GO_BAND
from sandmix.recipes.too_wet import STOP
from sandmix.vocabulary import quantity
from sandmix.vocabulary.drying_words import LONGEST_MIN, PLACES

WEIGH_FIRST = "Weigh the sand: it may be dry enough"
TURN_IT = "Turn the sand, and start this clock again"
MIX_AND_TEST = ToDo(text="Mix it, let it rest covered for an hour, and test it again before you mould")
DEEP_MM = 80.0
ODD_RATE = (0.25, 4.0)
"""Outside this a rate from a weighing is more likely a slip (own choice: twice the range of the prior)."""
LONG_MIN = 14 * 24 * 60.0
"""Above this, two weeks, the answer says that this air hardly dries the sand (own choice)."""
SOURCES = ("evaporation", "tetens_fao56", "moist_air", "lewis_number", "wind_film", "front_model", "critical_moisture")


def tell(computed: Computed[ResolvedDry]) -> Telling:
    """Say how to dry the sand."""
    form = computed.form
    wet = form.wetness(computed.doubt.get("moisture_pct_wet"))
    dries = computed.form.is_to_dry
    return Telling(
        headline=_headline(computed),
        state=wet_sand.state(wet, _state(form), "care" if dries else "go"),
        lead=_lead(computed),
        todo=tuple(_to_do(computed)),
        remarks=(*wet_sand.remarks(wet), *_remarks(computed)),
        cautions=tuple(_cautions(computed)),
        working=tuple(_working(computed)),
        charts=chart.weight(computed),
        timers=tuple(_timers(computed)),
        next=tuple(_next(computed)),
        records=tuple(_records(computed)),
        sources=SOURCES if computed.has("drying_min") else (),
    )


def _state(form: ResolvedDry) -> str:
    if not form.is_to_dry:
        return "not too wet"
    return "test it" if form.has_lost_enough else "dry"


def _headline(computed: Computed[ResolvedDry]) -> str:
    form = computed.form
    holds = (
        f"It {'held' if form.lost_so_far_kg else 'holds'} {computed.text('moisture_pct_wet')} water; the target is "
        f"{form.target_moisture_pct_wet:g} % (both of the wet mass)."
    )
    if form.wetness().target == STOP:
        return f"Stop: the target is too wet to pour on. {holds}"
    if not computed.form.is_to_dry:
        return f"There is nothing to dry. {holds}"
    if form.has_lost_enough:
        return f"Stop drying and test it: it has lost {_lost(form)}, and {computed.text('water_to_lose_kg')} had to go. {holds}"
    wet = form.wetness(computed.doubt.get("moisture_pct_wet"))
    if computed.has("left_min"):
        of_it = f"{_lost(form)} of {computed.text('water_to_lose_kg')}"
        return wet_sand.headline(wet, f"Dry it for {_about(computed, 'left_min')} more: it has lost {of_it}. {holds}")
    return wet_sand.headline(wet, f"Dry it{_how_much(computed)}{_how_long(computed)}. {holds}")


def _lost(form: ResolvedDry) -> str:
    return quantity("lost_so_far_kg").show(form.lost_so_far_kg)


def _about(computed: Computed[ResolvedDry], word: str) -> str:
    """A time with its range."""
    between = computed.range(word)
    return f"about {computed.text(word)}{f' ({between})' if between else ''}"


def _how_much(computed: Computed[ResolvedDry]) -> str:
    return f": {computed.text('water_to_lose_kg')} of water must go" if computed.has("water_to_lose_kg") else ""


def _how_long(computed: Computed[ResolvedDry]) -> str:
    """How long it dries, with its range, and where."""
    if not computed.has("drying_min"):
        return ""
    return f", which takes {_about(computed, 'drying_min')} {PLACES[computed.form.drying_place]}"


def _lead(computed: Computed[ResolvedDry]) -> Lead:
    until = "Dry enough when" if computed.form.has_lost_enough else "Dry it until"
    if computed.has("full_container_kg"):
        word, label, then = "full_container_kg", f"{until} the container shows", _lighter(computed)
    elif computed.has("dried_kg"):
        word, label, then = "dried_kg", f"{until} the sand weighs", _lighter(computed)
    elif computed.has("drying_min"):
        word, label, then = "drying_min", "Dry it for about", computed.within("drying_min")
    else:
        word, label, then = "moisture_pct_wet", "Moisture", computed.within("moisture_pct_wet")
    return Lead(word=word, label=label, text=computed.text(word), then=then)


def _lighter(computed: Computed[ResolvedDry]) -> str:
    between = computed.range("water_to_lose_kg")
    before = "at the start" if computed.form.lost_so_far_kg else "now"
    return f"{computed.text('water_to_lose_kg')} less than {before}{f', likely range {between}' if between else ''}"


def _to_do(computed: Computed[ResolvedDry]) -> Iterable[ToDo]:
    """What to do, in the order of the work."""
    form = computed.form
    if form.wetness().target == STOP:
        yield from wet_sand.to_do(form.wetness())
        return
    if not computed.form.is_to_dry:
        return
    if form.has_lost_enough:
        yield MIX_AND_TEST
        return
    if form.dries_in_air:
        yield from _spread(computed)
    elif computed.has("dry_out_kg"):
        yield ToDo(text="Dry out this part of it fully, in a thin layer, stirring", amount=computed.text("dry_out_kg"))
        yield ToDo(text="Let it cool until you can hold it, and mix it back into the rest")
    else:
        yield ToDo(text="Dry out a part of it fully, let it cool, and mix it back into the rest")
    if computed.has("full_container_kg"):
        yield ToDo(text="It is dry enough when sand and container weigh", amount=computed.text("full_container_kg"))
    elif computed.has("dried_kg"):
        yield ToDo(text="It is dry enough when the sand alone weighs", amount=computed.text("dried_kg"))
    yield MIX_AND_TEST


def _spread(computed: Computed[ResolvedDry]) -> Iterable[ToDo]:
    area = f" on {computed.text('spread_m2')}" if computed.has("spread_m2") else ""
    if computed.has("layer_mm") and not computed.has("left_min"):
        yield ToDo(text=f"Spread it{area} and rake it level: depth", amount=computed.text("layer_mm"))
    if computed.has("turn_every_min"):
        times = f"{computed.text('turns')} {'time' if computed.number('turns') == 1 else 'times'}"
        yield ToDo(text=f"Turn it {times}, about every", amount=computed.text("turn_every_min"))
    if computed.has("drying_min"):
        again = "Weigh it again after another" if computed.has("left_min") else "Weigh it for the first time after"
        yield ToDo(text=again, amount=_earliest(computed))


def _earliest(computed: Computed[ResolvedDry]) -> str:
    """The early end of the time that it still dries, as text."""
    low, _ = _ends_min(computed)
    return quantity("drying_min").show_to(low, low / 2)


def _ends_min(computed: Computed[ResolvedDry]) -> Band:
    """Both ends of the time that it still dries, in minutes; the early end is a quarter of the time or more."""
    word = "left_min" if computed.has("left_min") else "drying_min"
    expected = computed.number(word)
    low, high = computed.doubt.get(word, (expected, expected))
    return max(low, expected / 4), high


def _remarks(computed: Computed[ResolvedDry]) -> Iterable[str]:
    form = computed.form
    if not computed.form.is_to_dry:
        if form.wetness().target != STOP:
            yield "The moisture is not above the target by more than handfuls of one heap differ. Drying would not improve it."
        return
    low, _ = computed.doubt.get("moisture_pct_wet", (form.moisture_pct_wet, 0.0))
    if low <= form.target_moisture_pct_wet + GO_BAND:
        yield WayOut(
            f"The test is not exact enough: the sand may already be dry enough, from {low:.1f} % on. Test it again before you spread it."
        )
    if form.has_lost_enough:
        yield "By its weight it is dry enough, if the moisture at the start was right. Only a new test shows that."
        if computed.has("drying_rate"):
            yield _on_the_rate(computed)
        return
    if form.dries_in_air:
        yield from _on_the_air(computed)
    else:
        yield "The heat is for the water and the sand alone. An open burner needs two to three times as much (from memory)."
    if computed.is_above_zero("dry_mix_to_dilute_kg"):
        further = " further" if form.lost_so_far_kg else ""
        yield (
            f"Instead of drying it{further}, you can mix in {computed.text('dry_mix_to_dilute_kg')} of bone-dry sand and clay in the "
            "heap's own proportion."
        )


def _on_the_air(computed: Computed[ResolvedDry]) -> Iterable[str]:
    form = computed.form
    if form.depth_m is None:
        return
    if not computed.has("drying_min"):
        yield WayOut(_why_not(form))
    else:
        yield from _on_the_time(computed)
    yield from _on_the_mix(computed)


def _why_not(form: ResolvedDry) -> str:
    """Why this air does not bring the sand to its target, and what to do."""
    if form.air_temp_c < 0 and form.drying_place != "plate":
        return "Frozen sand hardly dries. Bring it indoors."
    if form.humidity_pct < 100 and form.law(form.depth_m or LAYER_MM / 1000).surface_kg_m2s > 0:
        return "It would take more than 90 days. Spread it in a thinner layer, or in warmer, drier or moving air."
    dew_c = dew_point_c(form.air.vapour_pa)
    below_c = form.air_temp_c if form.below_temp_c is None else form.below_temp_c
    if dew_c is not None and below_c < dew_c and form.humidity_pct < 100:
        return (
            f"The sand gets wetter: it is colder than {dew_c:.0f} °C, at which water condenses from this air (its dew point). Warm "
            "the sand or what it lies on, or let in drier air."
        )
    return "Air of 100 % humidity takes up no water. Wait for drier air, or dry it in a warm room or over a burner."


def _on_the_time(computed: Computed[ResolvedDry]) -> Iterable[str]:
    form = computed.form
    yield _on_the_rate(computed)
    if form.drying_place in OUTDOORS:
        yield "Count only hours of such air. Bring the sand in or cover it before rain, dew and night."
    if computed.doubt.get("drying_min", (0.0, 0.0))[1] >= LONGEST_MIN:
        yield WayOut(
            "The range reaches 90 days: in air so damp or a layer so deep the sand may hardly dry. Look for drier air."
        )
    elif computed.number("drying_min") > LONG_MIN:
        yield WayOut("This air hardly dries it. Spread it in a thinner layer, or in warmer, drier or moving air.")
    if computed.number("layer_mm") > DEEP_MM:
        yield WayOut(
            f"A layer of {computed.text('layer_mm')} dries slowly: half the depth takes about a quarter of the time. Use a larger area, "
            "or dry it in parts."
        )
    if form.spread_m2 is None and "layer_mm" in computed.filled.assumed:
        yield f"A layer of {LAYER_MM:g} mm is assumed. Enter the area that you have, or another layer."


def _on_the_rate(computed: Computed[ResolvedDry]) -> str:
    form = computed.form
    if computed.has("drying_rate"):
        if not ODD_RATE[0] <= form.drying_rate <= ODD_RATE[1]:
            return WayOut(
                f"Your sand would dry {computed.text('drying_rate')} times as fast as computed here, which is hardly possible. Check both "
                "weighings, the hours, the area and the air."
            )
        return (
            f"Your sand dries {computed.text('drying_rate')} times as fast as computed here ({computed.range('drying_rate')}); "
            f"{100 * form.prior_share:.0f} % of that is still the figure from before the weighing. Enter it the next time."
        )
    if form.lost_so_far_kg == 0:
        return "The scale shows no loss yet, so nothing is learned from it. Weigh it again later."
    if "drying_rate" in computed.filled.assumed:
        return (
            "The time is only known to a factor of 2 each way, so go by the weight. Weigh it on the way and enter the loss and the hours: "
            "the range gets much narrower."
        )
    return f"The time is for sand that dries {form.drying_rate:g} times as fast as computed here, as you entered. Go by the weight."


def _on_the_mix(computed: Computed[ResolvedDry]) -> Iterable[str]:
    form = computed.form
    if computed.has("dry_mix_in_time_kg") and form.ready_in_h is not None:
        mix, most = computed.number("dry_mix_in_time_kg"), computed.doubt["dry_mix_in_time_kg"][1]
        if mix == 0 and most == 0:
            yield f"It is ready in {form.ready_in_h:g} h without a dry mix, also at the slow end of the range."
        else:
            yield WayOut(
                f"To be ready in {form.ready_in_h:g} h, dry it for as long as you have and then mix in "
                f"{computed.text('dry_mix_in_time_kg')} of dry sand and clay ({computed.range('dry_mix_in_time_kg')}). Weigh the sand "
                "first: the weight shows how much it still needs."
            )
    if computed.has("mixed_min"):
        yield (
            f"With your {form.dry_mix_on_hand_kg:g} kg of dry mix it dries for about {computed.text('mixed_min')} "
            f"({computed.range('mixed_min')})."
        )


def _cautions(computed: Computed[ResolvedDry]) -> Iterable[Caution]:
    form = computed.form
    yield from wet_sand.cautions(form.wetness(computed.doubt.get("moisture_pct_wet")))
    if computed.form.is_to_dry:
        if form.dries_in_air:
            yield DRYING
        else:
            yield BURNER
            yield HOT_SAND
    yield DUST


def _working(computed: Computed[ResolvedDry]) -> Iterable[str]:
    form = computed.form
    m, t = form.moisture_pct_wet, form.target_moisture_pct_wet
    if not computed.form.is_to_dry:
        return
    if form.heap_kg is not None:
        yield (
            f"water to lose = {form.heap_kg:g} × ({m:g} − {t:g}) / (100 − {t:g}) = {computed.number('water_to_lose_kg'):.3f} kg"
        )
    depth_m = form.depth_m
    if not form.dries_in_air or depth_m is None:
        return
    bed, air = form.bed(depth_m), form.air
    dew_c = air.dew_point_c
    dew = "" if dew_c is None else f", dew point {dew_c:.1f} °C"
    yield f"air {air.temp_c:g} °C, {air.humidity_pct:g} %, {air.wind_m_s:g} m/s: wet bulb {air.wet_bulb_c:.1f} °C{dew}"
    for dry_m in (0.0, min(0.01, depth_m)):
        lost, temp_c = front(air, bed, dry_m)
        yield (
            f"under {1000 * dry_m:g} mm of dry sand: {true_minus(f'{3600 * form.drying_rate * lost:.3f}')} kg/m²h, the wet sand at {temp_c:.1f} °C"
        )


def _timers(computed: Computed[ResolvedDry]) -> Iterable[Timer]:
    """The clocks: when to turn it, and when to weigh it, which is the early end of the range."""
    if computed.form.has_lost_enough:
        return
    if computed.has("turn_every_min"):
        every_s = 60 * computed.number("turn_every_min")
        yield Timer(name="turn", label=TURN_IT, after_s=every_s, text=computed.text("turn_every_min"))
    if computed.has("drying_min"):
        low, high = _ends_min(computed)
        yield Timer(name="weigh", label=WEIGH_FIRST, after_s=60 * low, text=_earliest(computed), latest_s=60 * high)


def _records(computed: Computed[ResolvedDry]) -> Iterable[Record]:
    """The water that was dried off, as an entry of the book."""
    lost = {"water_dried_kg": f"{computed.form.lost_so_far_kg:g} kg"} if computed.form.has_lost_enough else {}
    if computed.is_above_zero("water_to_lose_kg"):
        test = computed.carried_as_sure(moisture_pct_wet="moisture_pct_wet")
        dried = _lost(computed.form) if lost else computed.text("water_to_lose_kg")
        label = f"Record the test and {dried} of water dried off in the book"
        yield Record(
            kind="measured", label=label, words=test | computed.carried(water_dried_kg="water_to_lose_kg") | lost
        )


def _next(computed: Computed[ResolvedDry]) -> Iterable[Next]:
    """The test of the dried sand; a dry mix to dilute it; where there is nothing to dry, the water that it needs."""
    form = computed.form
    if not computed.form.is_to_dry:
        inputs = computed.carried_as_sure(moisture_pct_wet="moisture_pct_wet") | {"metal": form.metal}
        heap = {} if form.heap_kg is None else {"heap_kg": f"{form.heap_kg:g} kg"}
        yield Next(job="temper", label="Is it ready to mould?", inputs=inputs | heap)
        return
    yield Next(job="bench", label="Test the dried sand", inputs={"test": "moisture"})
    word = "dry_mix_in_time_kg" if computed.is_above_zero("dry_mix_in_time_kg") else "dry_mix_to_dilute_kg"
    if computed.is_above_zero(word) and computed.carried_as_sure(make_kg=word):
        dry = computed.carried(make_kg=word) | {"moisture_pct_wet": "0 %"}
        yield Next(job="mix", label="Weigh in the dry mix to dilute it", inputs=dry)
