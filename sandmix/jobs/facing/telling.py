"""The texts of *facing*: headline, what to do, remarks, entries for both books, working and chart."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import DUST, HOT_SAND
from sandmix.asking.job import Axis, Chart, Computed, Lead, Limit, Line, Next, Record, Telling, ToDo, WayOut
from sandmix.jobs.facing.figures import backing_now, this_cast, wetness
from sandmix.jobs.facing.form import USUAL_MM, USUAL_PCT, ResolvedFacing
from sandmix.jobs.shared import wet_sand
from sandmix.jobs.shared.bought import UNTESTED, is_untested, to_buy
from sandmix.jobs.shared.metal_remarks import borrowed_figures, unsourced_figures
from sandmix.language.wording import noun, number_to, to_figures
from sandmix.materials.metals import METALS, thermal
from sandmix.materials.sand import Sand
from sandmix.recipes import facing
from sandmix.recipes.facing import Shakeout
from sandmix.recipes.too_wet import STOP

_POINTS = 50
_ENDS = "backing_end_dead_fines_pct_dry"
_THIN, _OLD, _GOOD = ("thin layer", "care"), ("at its limit", "care"), ("holds", "go")


def tell(computed: Computed[ResolvedFacing]) -> Telling:
    """Say how much facing the mould needs, and where both sands end."""
    form = computed.form
    now, wet = this_cast(form, form.mould(form.cooling())), wetness(computed.filled)
    stops = wet.tone == STOP
    return Telling(
        headline=wet_sand.headline(wet, _headline(computed)),
        state=wet_sand.state(wet, *(_THIN if _is_thin(computed) else _OLD if _ends_above(computed) else _GOOD)),
        lead=Lead(
            word="facing_rammed_kg",
            label="Facing",
            text=computed.text("facing_rammed_kg"),
            then=f"{form.facing_mm:g} mm around the pattern",
        ),
        todo=tuple(wet_sand.to_do(wet) if stops else _to_do(computed)),
        remarks=(*wet_sand.remarks(wet), *_remarks(computed)),
        cautions=(*wet_sand.cautions(wet), DUST, HOT_SAND),
        working=tuple(_working(computed, now)),
        charts=(_chart(computed),),
        next=(_dry_first(form), *_next(computed)) if stops else _next(computed),
        records=() if stops else tuple(_records(computed, now)),
        sources=("facing_notes", "facing_share", METALS[form.metal].source),
    )


def _headline(computed: Computed[ResolvedFacing]) -> str:
    said = f"{computed.text('facing_rammed_kg')} of facing and {computed.text('backing_kg')} of backing for this mould."
    if not computed.has(_ENDS):
        return f"{said} Too little sand leaves the backing. What burns in it stays there, so its dead fines rise without end."
    return f"{said} In the long run the backing has {computed.text(_ENDS)} dead fines (of the dry mass)."


def _is_thin(computed: Computed[ResolvedFacing]) -> bool:
    return computed.form.facing_mm < computed.number("dry_depth_mm") * (1 - 1e-9)


def _ends_above(computed: Computed[ResolvedFacing]) -> bool:
    return not computed.has(_ENDS) or computed.number(_ENDS) > computed.form.dead_fines_limit_pct_dry * (1 + 1e-9)


def _to_do(computed: Computed[ResolvedFacing]) -> Iterable[ToDo]:
    if computed.is_above_zero("facing_rammed_kg"):
        yield ToDo(
            text=f"Riddle facing onto the pattern, {computed.form.facing_mm:g} mm deep",
            amount=computed.text("facing_rammed_kg"),
        )
    if computed.is_above_zero("backing_kg"):
        yield ToDo(text="Fill the rest of the flask with backing", amount=computed.text("backing_kg"))
    if computed.is_above_zero("facing_lost_kg"):
        yield ToDo(text="After the pour, throw away crust and lumps", amount=computed.text("facing_lost_kg"))
    if computed.is_above_zero("facing_joins_kg"):
        yield ToDo(
            text="When it is cold, put the rest of the facing on the backing heap",
            amount=computed.text("facing_joins_kg"),
        )


def _remarks(computed: Computed[ResolvedFacing]) -> Iterable[str]:
    form, dry_mm = computed.form, computed.number("dry_depth_mm")
    low, high = USUAL_MM
    if _is_thin(computed):
        yield WayOut(
            f"The pour dries the sand to {computed.text('dry_depth_mm')}, deeper than {form.facing_mm:g} mm of facing. The backing behind it "
            "dries and wears too: make the layer deeper."
        )
    elif form.facing_mm > high and "facing_mm" in computed.filled.assumed:
        yield (
            f"The usual layer is {low:g} to {high:g} mm. This pour dries the sand to {number_to(dry_mm, 0)} mm at most (perfect contact, a "
            "closed mould), so the layer is deeper."
        )
    if computed.number("facing_share_pct") > USUAL_PCT[1]:
        yield (
            f"That is {computed.text('facing_share_pct')} of the sand in the flask; {USUAL_PCT[0]:g} to {USUAL_PCT[1]:g} % is usual (from "
            "memory). In a small flask it may be easier to use one sand for all of it."
        )
    yield from _on_the_long_run(computed)
    if computed.has("new_grain_pct"):
        yield (
            f"After {form.casts:g} {noun('cast', form.casts)} {computed.text('new_grain_pct')} of the backing's grain has come as facing. "
            "In the long run all of it "
            "does, so choose a grain for the facing that suits the whole heap."
        )
    if "sand_lost_kg" in computed.filled.assumed:
        yield "The facing thrown away is taken as 1 to 3 % of the sand in the flask (from memory). Weigh yours: it decides how far dead fines rise."
    yield "Each entry of this cast belongs to one of two books: choose that heap first, then record it."
    if form.shape is None:
        yield "No shape is given, so the casting is taken as a plate, which dries the most sand for its size."
    if is_untested(computed.filled):
        yield UNTESTED
    yield from borrowed_figures(form.metal)
    yield from unsourced_figures(form.metal)


def _on_the_long_run(computed: Computed[ResolvedFacing]) -> Iterable[str]:
    form, limit = computed.form, computed.form.dead_fines_limit_pct_dry
    if not computed.has(_ENDS):
        yield WayOut("Discard some of the backing at each cast, and put in new sand: otherwise what burns in it stays.")
        return
    if _ends_above(computed):
        yield WayOut(
            f"In the long run the backing has {computed.text(_ENDS)} dead fines, above the limit of {limit:g} % (from memory). Throw more of the "
            "crust away, or discard more of the backing and put in new sand."
        )
    if form.make_up == "yes" and computed.number("backing_end_clay_pct_dry") > form.clay_pct_dry + 0.005:
        yield (
            f"The facing brings more clay than burns and is thrown away: the backing needs none and rises to "
            f"{computed.text('backing_end_clay_pct_dry')}."
        )


def _records(computed: Computed[ResolvedFacing], now: Shakeout) -> Iterable[Record]:
    """The cast as entries of two books: facing out of its own, and what is left of it into that of the backing."""
    form = computed.form
    if now.facing.wet_kg > 0:
        yield Record(
            kind="split",
            label="In the facing heap's book: record the facing taken out",
            words=computed.carried(split_kg="facing_rammed_kg"),
        )
    if now.taken.wet_kg > 0:
        yield Record(
            kind="split",
            label="In the backing heap's book: record the backing taken for the facing",
            words={"split_kg": f"{now.taken.wet_kg:.4g} kg"},
        )
    if now.joined.wet_kg > 0:
        yield Record(
            kind="joined",
            label="In the backing heap's book: record the facing that comes in",
            words=computed.carried(joined_kg="facing_joins_kg") | _shares(now.joined),
        )
    if form.mould(form.cooling()).backing_kg > 0:
        yield Record(kind="poured", label="In the backing heap's book: record the cast", words=_poured(form, now))


def _shares(sand: Sand) -> dict[str, str]:
    return {
        "moisture_pct_wet": f"{to_figures(sand.moisture_pct_wet, 4)} %",
        "clay_pct_dry": f"{to_figures(sand.clay_pct_dry, 4)} %",
        "dead_fines_pct_dry": f"{to_figures(sand.dead_fines_pct_dry, 4)} %",
    }


def _poured(form: ResolvedFacing, now: Shakeout) -> dict[str, str]:
    """What the cast does to the backing alone: the facing's own losses are in its entry."""
    mould = form.mould(form.cooling())
    dry_kg = mould.backing_kg
    water_kg = dry_kg * form.moisture_pct_wet / (100 - form.moisture_pct_wet)
    metal_kg = form.casting_volume_cm3 * 1e-6 * thermal(form.metal).solid_kg_m3
    return {
        "metal": form.metal,
        "metal_kg": f"{max(0.001, metal_kg):.4g} kg",
        "flask_sand_kg": f"{max(0.05, dry_kg + water_kg):.4g} kg",
        "sand_lost_kg": "0 kg",
        "clay_burnt_kg": f"{to_figures(mould.burnt_backing * dry_kg * form.clay_pct_dry / 100, 4)} kg",
        "water_driven_kg": f"{to_figures(mould.dried_backing * water_kg, 4)} kg",
        "modulus_mm": f"{10 * form.casting_volume_cm3 / form.casting_area_cm2:.4g} mm",
    }


def _dry_first(form: ResolvedFacing) -> Next:
    wet = {"moisture_pct_wet": f"{form.moisture_pct_wet:g} %", "metal": form.metal}
    return Next(job="temper", label="Dry the sand first", inputs=wet, foremost=True)


def _next(computed: Computed[ResolvedFacing]) -> tuple[Next, ...]:
    form = computed.form
    target = METALS[form.metal].target_moisture_pct_wet
    mixed = {"clay_pct_dry": f"{form.facing_clay_pct_dry:.4g} %", "moisture_pct_wet": f"{target:.4g} %"}
    mix = Next(job="mix", label="Mix the facing", inputs=computed.carried(make_kg="facing_rammed_kg") | mixed)
    season = Next(job="season", label="Dump, dilute or keep?", inputs={"clay_pct_dry": f"{form.clay_pct_dry:.4g} %"})
    if not computed.has("facing_sand_kg"):
        return (mix, season)
    sand, clay = (
        sum(computed.number(f"{which}_{what}_kg") for which in ("facing", "backing")) for what in ("sand", "clay")
    )
    buy = to_buy(sand, clay)
    return (mix, buy, season) if buy else (mix, season)


def _working(computed: Computed[ResolvedFacing], now: Shakeout) -> Iterable[str]:
    form, cooling = computed.form, computed.form.cooling()
    shell = cooling.shell_m3_m2(form.facing_mm)
    yield (
        f"facing = {form.casting_area_cm2:g} cm² × {1000 * shell:.4g} mm (its curvature counted) × {form.rammed_density_kg_l:g} kg/L = "
        f"{computed.number('facing_rammed_kg'):.4g} kg"
    )
    mould = form.mould(cooling)
    yield f"burnt: {100 * mould.burnt_facing:.3g} % of the facing's live clay, {100 * mould.burnt_backing:.3g} % of that of the backing in the flask"
    yield f"water boiled off in this cast = {now.boiled_kg:.3g} kg"
    if computed.has(_ENDS):
        share = mould.joins_kg / form.backing_dry_kg
        yield f"each cast, {100 * share:.3g} % of the dry backing comes as facing, and as much leaves it; dead fines settle where both carry the same"


def _chart(computed: Computed[ResolvedFacing]) -> Chart:
    """Dead fines and live clay of the backing after each cast, from now on."""
    form = computed.form
    mould, two = form.mould(form.cooling()), form.two_sands
    sand, points = backing_now(form), []
    casts = int(form.casts)
    each = max(1, casts // _POINTS)
    for at in range(casts + 1):
        if at % each == 0 or at == casts:
            points.append((float(at), round(sand.dead_fines_pct_dry, 4), round(sand.clay_pct_dry, 4)))
        if at < casts:
            sand = facing.cast(sand, mould, two).backing
    first, last = points[0], points[-1]
    return Chart(
        name="backing",
        title="The backing after each cast",
        sentence=(
            f"Over {form.casts:g} {noun('cast', form.casts)} the backing's dead fines go from {first[1]:.2f} to {last[1]:.2f} % and its live "
            f"clay from {first[2]:.2f} to "
            f"{last[2]:.2f} %."
        ),
        x=Axis(label="Casts", unit=""),
        y=Axis(label="Share of the dry sand", unit="%"),
        series=(
            Line(label="live clay", points=tuple((at, live) for at, _, live in points)),
            Line(label="dead fines", points=tuple((at, dead) for at, dead, _ in points)),
        ),
        limits=(Limit(axis="y", at=form.dead_fines_limit_pct_dry, label="limit for dead fines"),),
    )
