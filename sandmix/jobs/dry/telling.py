"""The texts of *dry*: headline, what to do, remarks, cautions, working and clocks."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import BURNER, DRYING, DUST, HOT_SAND, Caution
from sandmix.asking.job import Computed, Lead, Next, Record, Telling, Timer, ToDo
from sandmix.drying.evaporation import front
from sandmix.jobs.dry import chart
from sandmix.jobs.dry.form import ResolvedDry
from sandmix.jobs.dry.remarks import remarks, stays_wet
from sandmix.jobs.shared import wet_sand
from sandmix.language.wording import true_minus
from sandmix.maths.uncertainty import Band
from sandmix.recipes import temper
from sandmix.recipes.too_wet import STOP
from sandmix.vocabulary import quantity
from sandmix.vocabulary.drying_words import PLACES

WEIGH_FIRST = "Weigh the sand: it may be dry enough"
TURN_IT = "Turn the sand, and start this clock again"
MIX_AND_TEST = ToDo(text="Mix it, let it rest covered for an hour, and test it again before you mould")
SOURCES = ("evaporation", "tetens_fao56", "moist_air", "lewis_number", "wind_film", "front_model", "critical_moisture")


def tell(computed: Computed[ResolvedDry]) -> Telling:
    """Say how to dry the sand."""
    form = computed.form
    wet = form.wetness(computed.doubt.get("moisture_pct_wet"))
    dries = computed.form.is_to_dry
    return Telling(
        headline=_headline(computed),
        state=wet_sand.state(wet, _state(computed), "care" if dries else "go"),
        lead=_lead(computed),
        todo=tuple(_to_do(computed)),
        remarks=(*wet_sand.remarks(wet), *remarks(computed)),
        cautions=tuple(_cautions(computed)),
        working=tuple(_working(computed)),
        charts=chart.weight(computed),
        timers=tuple(_timers(computed)),
        next=tuple(_next(computed)),
        records=tuple(_records(computed)),
        sources=SOURCES if computed.has("drying_min") else (),
    )


def _state(computed: Computed[ResolvedDry]) -> str:
    form = computed.form
    if not form.is_to_dry:
        return "not too wet"
    return "test it" if form.has_lost_enough or not _is_known(computed) else "dry"


def _is_known(computed: Computed[ResolvedDry]) -> bool:
    """Whether the moisture is known well enough to say that the sand must dry; sand that was weighed while it dried counts as known."""
    form = computed.form
    return bool(form.lost_so_far_kg) or temper.decides(
        form.moisture_pct_wet,
        computed.half_width("moisture_pct_wet"),
        form.target_moisture_pct_wet,
        form.wetness().red_pct_wet,
    )


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
    if not _is_known(computed):
        between = computed.range("moisture_pct_wet")
        return wet_sand.headline(
            wet, f"Test it first: it holds {between} water, which does not show how much must go. {holds}"
        )
    if computed.has("left_min"):
        of_it = f"{_lost(form)} of {computed.text('water_to_lose_kg')}"
        return wet_sand.headline(wet, f"Dry it for {_about(computed, 'left_min')} more: it has lost {of_it}.")
    return wet_sand.headline(wet, f"Dry it{_how_much(computed)}{_how_long(computed)}.")


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
    return f", in {_about(computed, 'drying_min')} {PLACES[computed.form.drying_place]}"


def _lead(computed: Computed[ResolvedDry]) -> Lead:
    until = "Dry enough when" if computed.form.has_lost_enough else "Dry it until"
    if computed.form.is_to_dry and not _is_known(computed):
        word, label, then = "moisture_pct_wet", "Test it first: moisture", computed.within("moisture_pct_wet")
    elif computed.has("full_container_kg"):
        word, label, then = "full_container_kg", f"{until} container and sand weigh", _lighter(computed)
    elif computed.has("dried_kg"):
        word, label, then = "dried_kg", f"{until} it weighs", _lighter(computed)
    elif computed.has("drying_min"):
        word, label, then = "drying_min", "Dry it for about", computed.within("drying_min")
    else:
        word, label, then = "moisture_pct_wet", "Moisture", computed.within("moisture_pct_wet")
    return Lead(word=word, label=label, text=computed.text(word), then=then)


def _lighter(computed: Computed[ResolvedDry]) -> str:
    before = "at the start" if computed.form.lost_so_far_kg else "now"
    return f"{computed.text('water_to_lose_kg')} less than {before}"


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
    if not _is_known(computed):
        yield ToDo(text="Dry a sample first, and enter its moisture here")
    if form.dries_in_air and stays_wet(computed):
        yield ToDo(
            text="In this air it would not dry to its target: first change the air, the layer or the way of drying"
        )
    elif form.dries_in_air:
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
    dew = "" if dew_c is None else f", dew point {true_minus(f'{dew_c:.1f}')} °C"
    temp, wet_bulb = true_minus(f"{air.temp_c:g}"), true_minus(f"{air.wet_bulb_c:.1f}")
    yield f"air {temp} °C, {air.humidity_pct:g} %, {air.wind_m_s:g} m/s: wet bulb {wet_bulb} °C{dew}"
    for dry_m in (0.0, min(0.01, depth_m)):
        lost, temp_c = front(air, bed, dry_m)
        rate, front_c = true_minus(f"{3600 * form.drying_rate * lost:.3f}"), true_minus(f"{temp_c:.1f}")
        yield f"under {1000 * dry_m:g} mm of dry sand: {rate} kg/m²h, the wet sand at {front_c} °C"


def _timers(computed: Computed[ResolvedDry]) -> Iterable[Timer]:
    """The clocks: when to turn it, and when to weigh it, which is the early end of the range."""
    if computed.form.has_lost_enough or not _is_known(computed):
        return
    if computed.has("turn_every_min"):
        every_s = 60 * computed.number("turn_every_min")
        yield Timer(name="turn", label=TURN_IT, after_s=every_s, text=computed.text("turn_every_min"))
    if computed.has("drying_min"):
        low, high = _ends_min(computed)
        yield Timer(name="weigh", label=WEIGH_FIRST, after_s=60 * low, text=_earliest(computed), latest_s=60 * high)


def _records(computed: Computed[ResolvedDry]) -> Iterable[Record]:
    """The water that was dried off, as an entry of the book: as weighed where it is enough, else as planned. It is no test."""
    form = computed.form
    if not computed.is_above_zero("water_to_lose_kg") or not _is_known(computed):
        return
    if form.has_lost_enough:
        dried, words = _lost(form), {"water_kg": f"{form.lost_so_far_kg:g} kg"}
    else:
        dried, words = computed.text("water_to_lose_kg"), computed.carried(water_kg="water_to_lose_kg")
    yield Record(kind="dried", label=f"Record {dried} of water dried off in the book", words=words)


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
