"""The job *mix*: what to weigh in for a new moulding sand, from a wanted mass or from what is on hand."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from .. import mix, strip
from ..cautions import CEMENT, DRYING, DUST, Caution
from ..doubt import Band
from ..form import Filled
from ..forms.bought import is_untested
from ..forms.mix import DAMP_FROM_PCT, Mix, settle
from ..job import Figures, Job, Lead, Next, Telling, Told, Way, Ways, needs_always
from ..materials import CLAYS
from ..sand import Sand
from .doses import most_water, stop_limit, water_figures, wet_mould

CLAY_STEPS = 4


def weigh(form: Mix, activity_pct: float) -> mix.Weights:
    """Return what to weigh in when *activity_pct* of the dry clay product is live."""
    materials, clay = form.as_bought(activity_pct), form.clay_fraction
    dry = float("inf")
    if form.sand_on_hand_kg is not None or form.clay_on_hand_kg is not None:
        dry, _ = mix.dry_from_stock(
            sand_on_hand_kg=form.sand_on_hand_kg, clay_on_hand_kg=form.clay_on_hand_kg, clay=clay, materials=materials
        )
    moisture = _moisture(form)
    if form.make_kg is not None:
        dry = min(dry, form.make_kg * (1 - moisture))
    return mix.design(dry_kg=dry, clay=clay, moisture=moisture, materials=materials)


def _moisture(form: Mix) -> float:
    if form.moisture_pct_wet is not None:
        return form.moisture_pct_wet / 100
    return mix.moisture_from_clay(1.0, form.clay_fraction, form.water_per_clay)


def run(form: Mix) -> Figures:
    """Return the figures of the mix; none where moved words leave no room for sand."""
    if form.clay_fraction >= form.activity_pct / 100:
        return {}
    weights = weigh(form, form.activity_pct)
    clay, activity, moisture = form.clay_fraction, form.activity_pct / 100, _moisture(form)
    bulking = form.bulking_pct / 100 if form.sand_moisture_pct_wet >= DAMP_FROM_PCT else 0.0
    sand_l = weights.sand_kg * (1 - form.sand_moisture_pct_wet / 100) / form.sand_bulk_kg_l * (1 + bulking)
    clay_l = weights.clay_kg / form.bulk_kg_l
    figures: Figures = {
        "make_kg": weights.make_kg,
        "sand_kg": weights.sand_kg,
        "clay_kg": weights.clay_kg,
        **water_figures(weights.water_balance_kg),
        "moisture_pct_wet": 100 * moisture,
        "moisture_pct_dry": 100 * moisture / (1 - moisture),
        "clay_pct_dry": 100 * clay,
        "clay_pct_sand": 100 * mix.clay_per_sand(clay, activity),
        "clay_pct_wet": 100 * clay * (1 - moisture),
        "sand_l": sand_l,
        "clay_l": clay_l,
        "sand_buckets": sand_l / form.bucket_l,
        "clay_buckets": clay_l / form.bucket_l,
    }
    if form.mixer_kg is not None:
        count = mix.batches(weights.make_kg, form.mixer_kg)
        figures |= {
            "batches": count,
            "batch_sand_kg": weights.sand_kg / count,
            "batch_clay_kg": weights.clay_kg / count,
            "batch_water_kg": weights.water_balance_kg / count,
        }
    return figures


def finish(filled: Filled[Mix], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return what carries no band of its own.

    The most water, how it would stand with none added, the recipe by volume, and for a clay of unknown live share the most clay
    and the steps towards it.
    """
    more, form = most_water(filled, figures, doubt), filled.form
    standing = weigh(form, form.activity_pct).as_it_would_stand
    more |= {"standing_kg": standing.wet_kg, "standing_moisture_pct_wet": standing.moisture_pct_wet}
    if form.clay_fraction > 0:
        more["parts_sand"] = mix.parts_sand_per_clay(form.clay_fraction, form.sand_bulk_kg_l, form.parts_bulk_kg_l)
        more["parts_clay"] = 1.0
    if is_untested(filled):
        start = weigh(form, form.activity_pct).clay_kg
        most = weigh(form, CLAYS[form.clay].activity_band_pct[0]).clay_kg
        more |= {"clay_most_kg": most, "clay_step_kg": max(0.0, most - start) / CLAY_STEPS}
    return more


def tell(told: Told[Mix]) -> Telling:
    """Say what to weigh in."""
    over_wet = told.number("water_to_lose_kg") > 0
    if over_wet:
        state, lead = (
            ("dry first", "care"),
            Lead(
                word="water_to_lose_kg",
                label="Add no water. Dry off",
                text=told.text("water_to_lose_kg"),
                then="before the sand goes in",
            ),
        )
    else:
        state, lead = (
            ("mix", "go"),
            Lead(
                word="first_water_kg",
                label="First water",
                text=told.text("first_water_kg"),
                then=f"{told.text('water_most_kg')} at most in all (95 %)" if told.number("water_kg") > 0 else "",
            ),
        )
    return Telling(
        headline=(
            f"{told.text('sand_kg')} sand and {told.text('clay_kg') if told.number('clay_kg') else 'no'} clay, as bought, make "
            f"{told.text('make_kg')} "
            "of moulding sand."
        ),
        state=state,
        lead=lead,
        remarks=(*_remarks(told), *(_granules(told) if is_untested(told.filled) else ())),
        cautions=tuple(_cautions(told, over_wet)),
        working=tuple(_working(told)),
        drawings=_strips(told),
        next=(
            Next(
                job="shopping",
                label="How many bags is that?",
                inputs=told.carried(sand_kg="sand_kg", clay_kg="clay_kg", make_kg="make_kg"),
            ),
            Next(job="flask", label="Is it enough for a flask?", inputs=told.carried(heap_kg="make_kg")),
        ),
    )


def _remarks(told: Told[Mix]) -> Iterable[str]:
    form = told.form
    if told.number("water_to_lose_kg") > 0:
        yield (
            "The materials bring more water than the mix is to hold: with none added it would stand at "
            f"{told.number('standing_kg'):.2f} kg and"
            f" {told.number('standing_moisture_pct_wet'):.1f} % of the wet mass. Add none. Dry the sand, to "
            "about 1 %, weigh its moisture and ask again."
        )
    elif told.number("first_water_kg") > told.doubt["water_kg"][0]:
        yield (
            "The first dose may already be enough: how much water the clay wants is no more than a range. Test before "
            "any more goes in."
            if form.moisture_pct_wet is None
            else "The first dose may already be enough: what the sand and the clay bring is not known well enough. Dry "
            "500 g of the damp sand on a 1 g scale and give its moisture."
        )
    if form.moisture_pct_wet is None:
        yield (
            "No moisture is named, so the water is drawn from the live clay: 0.33 to 0.55 kg in all per kg. The "
            "squeeze or tin test decides."
        )
    if form.sand_on_hand_kg is not None and form.clay_on_hand_kg is not None:
        _, scarce = mix.dry_from_stock(
            sand_on_hand_kg=form.sand_on_hand_kg,
            clay_on_hand_kg=form.clay_on_hand_kg,
            clay=form.clay_fraction,
            materials=form.as_bought(form.activity_pct),
        )
        yield f"The {scarce} on hand is the scarcer and decides how much can be made."
    if form.make_kg is not None and told.number("make_kg") < form.make_kg * (1 - 1e-9):
        yield f"What is on hand is enough for {told.text('make_kg')} of the {form.make_kg:g} kg wanted."
    if told.has("batches") and told.number("batches") > 1:
        yield (
            "Mull each batch until no clay balls are left: balls that are riddled out later are clay lost from the "
            "recipe."
        )
    if "parts_sand" not in told.filled.assumed:
        yield (
            "Parts are read as loose dry sand and dry, wholly live clay. Of the sand and clay as bought here, level "
            f"buckets come to {told.number('sand_l') / told.number('clay_l'):.1f} : 1."
        )
    yield from stop_limit(told.number("moisture_pct_wet"))
    if told.number("clay_pct_dry") == 0:
        yield "With no clay at all it is damp sand, which does not bond."
    yield (
        "Mix sand and clay dry, add the first dose in a fine spray while turning, mull, rest an hour to a night, "
        "test, then add the rest."
    )


def _granules(told: Told[Mix]) -> Iterable[str]:
    form = told.form
    low, high = CLAYS[form.clay].activity_band_pct
    start, most = weigh(form, high), weigh(form, low)
    live = start.mix.live_clay_kg * low / high
    ratio = mix.WATER_PER_LIVE_CLAY
    brought = start.sand_kg + start.clay_kg - start.mix.dry_kg
    fines = 100 * (1 - most.mix.grain_kg / most.mix.dry_kg)
    yield (
        f"Nobody can tell from a label how much of the granules is live: between {low:g} and {high:g} %. Start "
        f"with {start.clay_kg:.1f} kg, mull and test, and go on in steps of"
        f" {told.number('clay_step_kg'):.1f} kg up to {most.clay_kg:.1f} kg in all. There all fines are "
        f"{fines:.0f} % of the dry mass: if it is still weak, the granules are wrong, so stop."
    )
    yield (
        f"The start takes {ratio[0] * start.mix.live_clay_kg:.1f} to {ratio[1] * start.mix.live_clay_kg:.1f} kg "
        f"of water in all if {high:g} % is live,"
        f" {ratio[0] * live:.1f} to {ratio[1] * live:.1f} kg if {low:g} % is; the materials bring {brought:.2f} "
        "kg of it."
    )
    yield (
        "Stir 2 g of the ground granules into 100 mL of water: sodium bentonite swells to a gel of 24 to 36 mL "
        "overnight, calcium bentonite to about 8."
    )


def _cautions(told: Told[Mix], over_wet: bool) -> Iterable[Caution]:
    yield from wet_mould(told.number("moisture_pct_wet"))
    yield DUST
    yield CEMENT
    if over_wet:
        yield DRYING


def _working(told: Told[Mix]) -> Iterable[str]:
    form, activity = told.form, told.form.activity_pct / 100
    dry = told.number("make_kg") / (1 + told.number("moisture_pct_dry") / 100)
    live = dry * form.clay_fraction
    yield f"dry mix = {told.number('make_kg'):.3f} × (1 − {told.number('moisture_pct_wet') / 100:.4f}) = {dry:.3f} kg"
    yield (
        f"live clay = {form.clay_fraction:.4f} × {dry:.3f} = {live:.3f} kg; dry clay product = {live:.3f} / "
        f"{activity:g} = {live / activity:.3f} kg"
    )
    yield (
        f"clay as bought = {live / activity:.3f} / (1 − {form.clay_moisture_pct_wet / 100:g}) = "
        f"{told.number('clay_kg'):.3f} kg"
    )
    yield (
        f"sand as bought = ({dry:.3f} − {live / activity:.3f}) / (1 − {form.sand_moisture_pct_wet / 100:g}) = "
        f"{told.number('sand_kg'):.3f} kg"
    )
    wanted = told.number("make_kg") - dry
    brought = told.number("sand_kg") + told.number("clay_kg") - dry
    yield f"water wanted {wanted:.3f} kg, brought {brought:.3f} kg, to add {told.number('water_kg'):.3f} kg"
    parts = f"{told.number('parts_sand'):.1f} : 1 by volume, loose and dry" if told.has("parts_sand") else "no clay"
    yield (
        f"the recipe: live clay {told.number('clay_pct_dry'):.2f} % of dry mix = {told.number('clay_pct_sand'):.2f} "
        f"per 100 of sand = {told.number('clay_pct_wet'):.2f} % of wet mix = {parts}"
    )


def _strips(told: Told[Mix]) -> dict[str, str]:
    form = told.form
    weights = weigh(form, form.activity_pct)
    clay_dry = weights.clay_kg * (1 - form.clay_moisture_pct_wet / 100)
    sand = Sand(grain_kg=weights.mix.grain_kg, water_kg=weights.sand_kg - weights.mix.grain_kg)
    clay = Sand(
        live_clay_kg=weights.mix.live_clay_kg,
        other_fines_kg=weights.mix.other_fines_kg,
        water_kg=max(0.0, weights.clay_kg - clay_dry),
    )
    full = weights.mix.dry_kg
    strips = {
        "mix": strip.draw(weights.mix, "mix-mix", "The mix", full_dry_kg=full),
        "sand": strip.draw(sand, "mix-sand", "The sand in it", full_dry_kg=full),
    }
    return strips | ({"clay": strip.draw(clay, "mix-clay", "The clay in it", full_dry_kg=full)} if clay.dry_kg else {})


_BATCH = ("batches", "batch_sand_kg", "batch_clay_kg", "batch_water_kg")
JOB = Job(
    name="mix",
    short="Mix",
    title="What do I weigh in for a new sand?",
    form=Mix,
    settle=settle,
    run=run,
    finish=finish,
    tell=tell,
    answers=(
        "sand_kg",
        "clay_kg",
        "clay_step_kg",
        "clay_most_kg",
        "first_water_kg",
        "water_most_kg",
        "water_kg",
        "water_to_lose_kg",
        "make_kg",
        *_BATCH,
        "sand_l",
        "clay_l",
        "sand_buckets",
        "clay_buckets",
        "standing_kg",
        "standing_moisture_pct_wet",
        "clay_pct_dry",
        "clay_pct_sand",
        "clay_pct_wet",
        "parts_sand",
        "parts_clay",
        "moisture_pct_wet",
        "moisture_pct_dry",
    ),
    needs=needs_always(_BATCH, "mixer_kg"),
    ways=(
        Ways(
            name="amount",
            label="How much?",
            options=(
                Way(name="make", label="As much as I want", words=("make_kg",)),
                Way(name="stock", label="As much as I have stuff for", words=("sand_on_hand_kg", "clay_on_hand_kg")),
            ),
        ),
        Ways(
            name="clay",
            label="How is the clay said?",
            options=(
                Way(name="dry", label="% of dry mix", words=("clay_pct_dry",)),
                Way(name="sand", label="per 100 of sand", words=("clay_pct_sand",)),
                Way(name="wet", label="% of wet mix", words=("clay_pct_wet",)),
                Way(name="parts", label="buckets", words=("parts_sand", "parts_clay")),
            ),
        ),
    ),
    example={
        "make_kg": "35 kg",
        "clay_pct_dry": "7 %",
        "moisture_pct_wet": "3.5 %",
        "clay_moisture_pct_wet": "9 %",
        "mixer_kg": "12 kg",
    },
    story="A first tub for a 300 × 300 mm flask: kiln-dried sand, bagged bentonite, and a mixer that takes 12 kg.",
)
