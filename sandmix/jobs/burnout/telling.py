"""What *burnout* says: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sandmix.asking.cautions import DUST, HOT_CASTING, HOT_SAND, Caution
from sandmix.asking.job import Computed, Lead, Next, Telling, Timer
from sandmix.cooling.burnout import MULLS_BELOW_C
from sandmix.cooling.freezing import FINE, MEASURED_CONTACT_W_M2K, Cooling
from sandmix.jobs.burnout.charts import contact_of, drawn, fronts, peaks
from sandmix.jobs.burnout.figures import _coolings
from sandmix.jobs.burnout.form import GRANULES_C, BurnoutForm
from sandmix.jobs.pour.telling import lent
from sandmix.language.wording import to_figures
from sandmix.materials.sands_and_clays import CLAYS

NO_MULLING_C = 71.0
LEAST_HEAP_KG = 0.05
WEAR_OF_IRON = (0.25, 0.40)


def tell(computed: Computed[BurnoutForm]) -> Telling:
    """Say when to open, what was lost, and why."""
    form = computed.form
    coolings = _coolings(form, FINE)
    return Telling(
        headline=_headline(computed),
        state=("wait", "care"),
        lead=_lead(computed),
        remarks=tuple(_remarks(computed, coolings)),
        cautions=tuple(_cautions(computed)),
        working=tuple(_working(computed, coolings)),
        charts=(peaks(computed, coolings), fronts(coolings[-1])),
        drawings={"shell": drawn(computed, coolings[0])},
        timers=tuple(_timers(computed)),
        sources=("wear_factor",) if computed.has("burnt_sand_per_metal") else (),
        next=_next(computed),
    )


def _headline(computed: Computed[BurnoutForm]) -> str:
    said = []
    if computed.has("open_after_min"):
        said.append(f"Leave it shut for {computed.text('open_after_min')}.")
    if computed.has("clay_loss_pct"):
        loss = computed.number("clay_loss_pct")
        said.append(
            f"At most {computed.text('clay_loss_pct')} of the heap's live clay dies."
            if loss > 0
            else "By its limit no clay dies."
        )
    elif computed.number("burnt_depth_mm") > 0:
        said.append(f"Clay dies at most {computed.text('burnt_depth_mm')} deep.")
    if computed.has("water_driven_kg"):
        said.append(f"{computed.text('water_driven_kg')} of water goes off.")
    return " ".join(said) or "It stays hot for longer than a mould is left shut."


def _lead(computed: Computed[BurnoutForm]) -> Lead:
    for word, label in (("open_after_min", "Open after"), ("solid_after_min", "Solid after")):
        if computed.has(word):
            return Lead(word=word, label=label, text=computed.text(word), then=computed.within(word))
    return Lead(
        word="dry_depth_mm",
        label="Dried to",
        text=computed.text("dry_depth_mm"),
        then=computed.within("dry_depth_mm"),
    )


def _remarks(computed: Computed[BurnoutForm], coolings: Sequence[Cooling]) -> Iterable[str]:
    yield from _of_the_shape(computed.form)
    yield from _of_the_clay(computed, coolings)
    yield from _of_the_sand(computed)
    yield from _of_the_waits(computed)
    yield from lent(computed.form.metal)
    if computed.has("metal_kg"):
        yield "The metal is the casting alone, by its volume. In the book it is casting and gating together: add what the gating weighs."


def _of_the_shape(form: BurnoutForm) -> Iterable[str]:
    if form.shape is None and form.box_mm is None:
        yield (
            "No shape and no box are given: it is taken as a plate, which burns and dries the most sand for its size."
        )
    elif form.is_hollow:
        yield (
            "The box is far larger than so thin a casting fills: it is thin-walled, hollow or branched. It is "
            "taken as a plate of that "
            "modulus; sand shut in by it on several sides gets hotter than told here."
        )
    if form.shape is not None and form.box_mm is not None:
        yield "Both a shape and a box are given: the shape is used."


def _of_the_clay(computed: Computed[BurnoutForm], coolings: Sequence[Cooling]) -> Iterable[str]:
    form, limit, hot = computed.form, computed.form.clay_limit_c, coolings[0]
    assert limit is not None and form.pour_temp_c is not None
    if limit >= form.pour_temp_c:
        yield (
            f"A limit of {limit:g} °C is above the pour temperature of {form.pour_temp_c:g} °C: no sand can pass "
            "it. Look at the clay and the limit."
        )
    elif computed.number("burnt_depth_mm") == 0:
        yield (
            f"The sand's face gets no hotter than {hot.peaks_c[0]:.0f} °C: by its limit of {limit:g} °C no clay dies."
        )
    if form.contact_w_m2k is None and computed.number("burnt_depth_mm") > 0:
        slow = coolings[-1]
        yield (
            "This is the most: metal in perfect contact with the sand. A gap opens as it freezes; with the "
            "contact measured beside aluminium plates "
            f"({MEASURED_CONTACT_W_M2K:g} W/m²K) the sand's face gets to {slow.peaks_c[0]:.0f} °C and clay dies "
            f"{to_figures(slow.depth_past_mm(limit), 2)} mm deep."
        )
    if computed.has("clay_burnt_by_rate_kg") and computed.number("clay_burnt_by_rate_kg") > 2 * computed.number(
        "clay_burnt_kg"
    ):
        yield (
            f"Counted by rate instead of a limit, {computed.text('clay_burnt_by_rate_kg')} of clay dies: sand that "
            "stays hot for long loses clay below the "
            "limit too. The truth is likely between the two."
        )
    if CLAYS[form.clay].limit_c is None and computed.filled.bands.get("clay_limit_c") == GRANULES_C:
        yield (
            "Whether granules die at 316 or at 638 °C is not known: taken at 316, with 638 as the low end. If "
            "they swell to a gel in water, write 638."
        )
    if computed.has("burnt_sand_per_metal"):
        low, high = WEAR_OF_IRON
        mark = computed.number("burnt_sand_per_metal")
        said = (
            f"{mark:.2f} kg of sand per kg of casting loses its clay. The published figure for iron is {low:.2f} "
            f"to {high:.2f}, of shapes not stated"
        )
        poured = (
            "" if form.metal == "grey_iron" else f"; iron is poured at about 1380 °C, this at {form.pour_temp_c:g} °C"
        )
        yield f"{said}{poured}."


def _of_the_sand(computed: Computed[BurnoutForm]) -> Iterable[str]:
    form = computed.form
    if form.flask_sand_kg is not None and form.sand_kg is not None and form.flask_sand_kg > form.sand_kg:
        yield (
            f"The flask holds {form.flask_sand_kg:g} kg, more than the {form.sand_kg:g} kg of the whole heap. Look "
            "at both."
        )
    reaches_mm = max(computed.number("burnt_depth_mm"), 0.0)
    if form.wall_mm is not None and reaches_mm >= 0.999 * form.wall_mm:
        yield (
            f"All {form.wall_mm:g} mm of sand to the wall pass the clay's limit: the flask itself burns. Take a "
            "larger flask."
        )
    elif form.wall_mm is not None and computed.number("dry_depth_mm") >= 0.999 * form.wall_mm:
        yield (
            f"The sand dries right to the wall, {form.wall_mm:g} mm away: wood there chars, and no damp sand is "
            "left to hold the mould. Take a larger flask."
        )
    if computed.has("sand_mean_c"):
        mean_c = computed.number("sand_mean_c")
        if mean_c > NO_MULLING_C:
            yield (
                f"Shaken out and mixed, the sand is at about {computed.text('sand_mean_c')}: above {NO_MULLING_C:g} °C "
                "it does not mull at all. Spread it and wait."
            )
        elif mean_c > MULLS_BELOW_C:
            yield (
                f"Shaken out and mixed, the sand is at about {computed.text('sand_mean_c')}: above {MULLS_BELOW_C:g} "
                "°C it mulls badly. Spread it and wait."
            )


_LONG_WAIT_MIN = 12 * 60.0
"""From here a wait in endless sand is worth a word about the wall (own choice)."""


def _of_the_waits(computed: Computed[BurnoutForm]) -> Iterable[str]:
    never = [
        label
        for word, label in (
            ("solid_after_min", "solid"),
            ("open_after_min", "open"),
            ("handle_after_min", "cool enough to handle"),
        )
        if not computed.has(word)
    ]
    if never:
        yield (
            f"Left out, since it would take longer than 90 days in a closed mould: {', '.join(never)}. Open it "
            "sooner, with tongs."
        )
    if (
        computed.form.wall_mm is None
        and computed.has("handle_after_min")
        and computed.number("handle_after_min") > _LONG_WAIT_MIN
    ):
        yield (
            "How far it is to the wall is not given, so the sand counts as endless: in a real flask the casting is cool enough to "
            "handle much sooner than that. Give the distance."
        )
    yield (
        "The time to open is a rule of our own: the middle has fallen to half its solidus in °C. Brittle alloys "
        "and thick-and-thin castings want longer."
    )


def _cautions(computed: Computed[BurnoutForm]) -> Iterable[Caution]:
    yield HOT_CASTING
    if computed.has("sand_mean_c") and computed.number("sand_mean_c") > MULLS_BELOW_C:
        yield HOT_SAND
    yield DUST


def _working(computed: Computed[BurnoutForm], coolings: Sequence[Cooling]) -> Iterable[str]:
    form, hot = computed.form, coolings[0]
    case = hot.case
    yield (
        f"modulus {case.modulus_mm:.3g} mm, area growing as r^{case.shape_n:.3g}; poured at {case.pour_temp_c:g} "
        f"°C, solidus {case.metal.solidus_c:g} °C; sand "
        f"{case.sand.key.upper()}, {form.moisture_pct_wet:g} % of wet mass is {case.water:.4f} kg of water per kg dry"
    )
    for cooling in coolings:
        froze = "not within what was followed" if cooling.freeze_s is None else f"{cooling.freeze_s:.0f} s"
        yield (
            f"{contact_of(cooling)}: frozen in {froze}, the sand's face at most {cooling.peaks_c[0]:.0f} °C, dried "
            f"to {cooling.dry_depth_mm:.1f} mm; energy kept to "
            f"{cooling.residual:.0e} of the heat poured"
        )
    if computed.has("burnt_sand_kg"):
        yield (
            f"burnt sand = {case.sand.density_kg_m3:g} kg/m³ × the shell to {computed.number('burnt_depth_mm'):.2f} mm "
            f"around {form.area_m2:.4g} m² = "
            f"{computed.number('burnt_sand_kg'):.3f} kg, at most what the flask holds"
        )
        yield f"water = {case.water:.4f} × the dried shell = {computed.number('water_driven_kg'):.3f} kg"


def _timers(computed: Computed[BurnoutForm]) -> Iterable[Timer]:
    for name, word, label in (
        ("solid", "solid_after_min", "Solid, with a margin"),
        ("open", "open_after_min", "Open the mould"),
        ("bin", "bin_after_min", "Sand cool enough for a plastic bin, if spread and turned"),
        ("handle", "handle_after_min", "Cool enough to handle, left in the mould"),
    ):
        if computed.has(word):
            latest = computed.doubt[word][1] * 60 if word in computed.doubt else None
            yield Timer(
                name=name, label=label, after_s=computed.number(word) * 60, text=computed.text(word), latest_s=latest
            )


def _next(computed: Computed[BurnoutForm]) -> tuple[Next, ...]:
    if computed.form.sand_kg is None:
        return ()
    return (
        Next(
            job="rebond",
            label="Put back what it lost",
            inputs={"heap_kg": f"{max(LEAST_HEAP_KG, computed.form.sand_kg):g} kg"},
        ),
    )
