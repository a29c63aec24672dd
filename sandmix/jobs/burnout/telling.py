"""How *burnout* presents its answer: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from sandmix.asking.cautions import DUST, HOT_CASTING, HOT_SAND, VENT_GAS, Caution
from sandmix.asking.job import Computed, Lead, Next, Telling, Timer
from sandmix.cooling.burnout import EXCESSIVELY_HOT_C, MULLS_BELOW_C
from sandmix.cooling.freezing import CONTACTS_W_M2K, MEASURED_CONTACT_W_M2K, Cooling
from sandmix.jobs.burnout.charts import contact_of, fronts, peaks, section
from sandmix.jobs.burnout.figures import coolings
from sandmix.jobs.burnout.form import GRANULES_C, ResolvedBurnout
from sandmix.jobs.shared.metal_remarks import borrowed_figures, unsourced_figures
from sandmix.language.wording import to_figures
from sandmix.materials.metals import METALS
from sandmix.materials.sands_and_clays import CLAYS

LEAST_HEAP_KG = 0.05
WEAR_OF_IRON = (0.25, 0.40)
"""Source: wear_factor."""
_LONG_WAIT_MIN = 12 * 60.0
"""From here on a remark says that a flask wall makes it shorter (own choice)."""


def tell(computed: Computed[ResolvedBurnout]) -> Telling:
    """Say when to open the mould, what the sand lost, and why."""
    form = computed.form
    solutions = coolings(form)
    sources = [METALS[form.metal].source]
    sources += ["measured_contact", "green_sand_contact"] if form.contact_w_m2k is None else []
    sources += ["wear_factor"] if computed.has("burnt_sand_per_metal") else []
    return Telling(
        headline=_headline(computed),
        state=("wait", "care"),
        lead=_lead(computed),
        remarks=tuple(_remarks(computed, solutions)),
        cautions=tuple(_cautions(computed)),
        working=tuple(_working(computed, solutions)),
        charts=(peaks(computed, solutions), fronts(solutions[-1])),
        drawings={"shell": section(computed, solutions[0])},
        timers=tuple(_timers(computed)),
        sources=tuple(sources),
        next=_next(computed),
    )


def _headline(computed: Computed[ResolvedBurnout]) -> str:
    sentences = [
        f"Leave the mould shut for {computed.text('open_after_min')}."
        if computed.has("open_after_min")
        else "No opening time is given: it would take more than 90 days in a closed mould."
    ]
    if computed.has("clay_loss_pct"):
        sentences.append(
            f"At most {computed.text('clay_loss_pct')} of the heap's live clay is lost."
            if computed.number("clay_loss_pct") > 0
            else "By the temperature limit no clay is lost."
        )
    elif computed.number("burnt_depth_mm") > 0:
        sentences.append(f"Clay burns to a depth of at most {computed.text('burnt_depth_mm')}.")
    if computed.is_above_zero("water_driven_kg"):
        sentences.append(f"{computed.text('water_driven_kg')} of water boils off.")
    return " ".join(sentences)


def _lead(computed: Computed[ResolvedBurnout]) -> Lead:
    for word, label in (("open_after_min", "Open after"), ("solid_after_min", "Solid after")):
        if computed.has(word):
            return Lead(word=word, label=label, text=computed.text(word), then=computed.within(word))
    word = "dry_depth_mm"
    return Lead(word=word, label="Dried to", text=computed.text(word), then=computed.within(word))


def _remarks(computed: Computed[ResolvedBurnout], solutions: Sequence[Cooling]) -> Iterable[str]:
    yield from _on_the_shape(computed.form)
    yield from _on_the_clay(computed, solutions)
    yield from _on_the_wear(computed)
    yield from _on_the_flask(computed)
    yield from _on_the_hot_sand(computed)
    yield from _on_the_waits(computed)
    yield from borrowed_figures(computed.form.metal)
    yield from unsourced_figures(computed.form.metal)
    if computed.has("metal_kg"):
        yield "The mass of metal is that of the casting alone. The book needs casting and gating together: add the gating."


def _on_the_shape(form: ResolvedBurnout) -> Iterable[str]:
    if form.shape is None and form.box_mm is None:
        yield (
            "No shape and no box are given, so the casting is taken as a plate. For its size a plate burns and dries the "
            "most sand."
        )
    elif form.is_hollow:
        yield (
            "The box is far larger than so thin a casting fills, so the casting is thin-walled, hollow or branched. It is "
            "taken as a plate of that modulus. Sand between its walls gets hotter than computed here."
        )
    if form.shape is not None and form.box_mm is not None:
        yield "Both a shape and a box are given: the shape is used."


def _on_the_clay(computed: Computed[ResolvedBurnout], solutions: Sequence[Cooling]) -> Iterable[str]:
    form, limit, burns = computed.form, computed.form.clay_limit_c, computed.number("burnt_depth_mm") > 0
    if limit >= form.pour_temp_c:
        yield (
            f"The clay's limit of {limit:g} °C is above the pour temperature of {form.pour_temp_c:g} °C, so no sand can "
            "pass it. Check the clay and the limit."
        )
    elif not burns:
        yield (
            f"The sand face gets no hotter than {solutions[0].peaks_c[0]:.0f} °C: by the limit of {limit:g} °C no clay is lost."
        )
    if form.contact_w_m2k is None and burns:
        slow = solutions[-1]
        depth_mm = slow.depth_past_mm(limit)
        lost = f"clay burns to {to_figures(depth_mm, 2)} mm" if depth_mm > 0 else "no clay is lost"
        low, high = CONTACTS_W_M2K
        yield (
            "This is the upper limit, for perfect contact. In practice a gap opens as the metal freezes. With a contact of "
            f"{MEASURED_CONTACT_W_M2K:g} W/m²K (measured beside aluminium: {low:g} to {high:g}) the sand face reaches "
            f"{slow.peaks_c[0]:.0f} °C and {lost}."
        )
    by_rate = "clay_burnt_by_rate_kg"
    if computed.has(by_rate) and computed.number(by_rate) > 2 * computed.number("clay_burnt_kg"):
        yield (
            f"By rate instead of a limit, {computed.text(by_rate)} of clay is lost: sand that stays hot for long loses "
            "clay below the limit too. The truth is probably between the two."
        )
    if CLAYS[form.clay].limit_c is None and computed.filled.bands.get("clay_limit_c") == GRANULES_C:
        yield (
            "It is not known whether the clay of granules is lost at 316 or at 638 °C. The answer is for 316, and its "
            "range reaches to 638. If they swell to a gel in water, enter 638."
        )


def _on_the_wear(computed: Computed[ResolvedBurnout]) -> Iterable[str]:
    if not computed.has("burnt_sand_per_metal"):
        return
    form, (low, high) = computed.form, WEAR_OF_IRON
    poured = (
        "" if form.metal == "grey_iron" else f" Iron is poured at about 1380 °C, this metal at {form.pour_temp_c:g} °C."
    )
    yield (
        f"{computed.number('burnt_sand_per_metal'):.2f} kg of sand per kg of casting loses its clay. The published figure "
        f"for iron is {low:.2f} to {high:.2f}, for shapes that are not stated.{poured}"
    )


def _on_the_flask(computed: Computed[ResolvedBurnout]) -> Iterable[str]:
    form, wall_mm = computed.form, computed.form.wall_mm
    if form.flask_sand_kg is not None and form.sand_kg is not None and form.flask_sand_kg > form.sand_kg:
        yield (
            f"The flask holds {form.flask_sand_kg:g} kg, which is more than the whole heap of {form.sand_kg:g} kg. Check "
            "both."
        )
    if wall_mm is None:
        return
    if computed.number("burnt_depth_mm") >= 0.999 * wall_mm:
        yield (
            f"All {wall_mm:g} mm of sand up to the wall pass the clay's limit, so the flask itself burns. Take a larger "
            "flask."
        )
    elif computed.number("dry_depth_mm") >= 0.999 * wall_mm:
        yield (
            f"The sand dries all the way to the wall, {wall_mm:g} mm from the casting. Wood chars there, and no damp sand is "
            "left to hold the mould. Take a larger flask."
        )


def _on_the_hot_sand(computed: Computed[ResolvedBurnout]) -> Iterable[str]:
    if not computed.has("sand_mean_c") or computed.number("sand_mean_c") <= MULLS_BELOW_C:
        return
    limit, state = (
        (EXCESSIVELY_HOT_C, "excessively hot for mulling")
        if computed.number("sand_mean_c") > EXCESSIVELY_HOT_C
        else (MULLS_BELOW_C, "too hot to mull evenly")
    )
    yield (
        f"Shaken out and mixed, the sand is at about {computed.text('sand_mean_c')}. Above {limit:g} °C it is {state}: "
        "spread it and wait."
    )


def _on_the_waits(computed: Computed[ResolvedBurnout]) -> Iterable[str]:
    labels = {"solid_after_min": "solid", "open_after_min": "open", "handle_after_min": "middle below 60 °C"}
    never = [label for word, label in labels.items() if not computed.has(word)]
    if never:
        yield (
            f"Left out, because it would take more than 90 days in a closed mould: {', '.join(never)}. Open it sooner, "
            "with tongs."
        )
    handle = "handle_after_min"
    if computed.form.wall_mm is None and computed.has(handle) and computed.number(handle) > _LONG_WAIT_MIN:
        yield (
            "The distance to the wall is not given, so the sand counts as endless. In a real flask the casting cools much "
            "sooner. Enter the distance."
        )
    yield (
        "The opening time is our own rule: the middle has cooled to half its solidus in °C. Brittle alloys, and castings "
        "with thick and thin parts, need longer."
    )


def _cautions(computed: Computed[ResolvedBurnout]) -> Iterable[Caution]:
    yield HOT_CASTING
    yield VENT_GAS
    if computed.has("sand_mean_c") and computed.number("sand_mean_c") > MULLS_BELOW_C:
        yield HOT_SAND
    yield DUST


def _working(computed: Computed[ResolvedBurnout], solutions: Sequence[Cooling]) -> Iterable[str]:
    form, case = computed.form, solutions[0].case
    yield (
        f"modulus {case.modulus_mm:.3g} mm, area proportional to r^{case.shape_n:.3g}; poured at {case.pour_temp_c:g} °C, "
        f"solidus {case.metal.solidus_c:g} °C; sand {case.sand.key.upper()}, {form.moisture_pct_wet:g} % of the wet mass "
        f"is {case.water:.4f} kg of water per kg of dry sand"
    )
    for solution in solutions:
        froze = (
            "not frozen by the end of the solution"
            if solution.freeze_s is None
            else f"frozen after {solution.freeze_s:.0f} s"
        )
        yield (
            f"{contact_of(solution)}: {froze}, sand face at most {solution.peaks_c[0]:.0f} °C, dried to "
            f"{solution.dry_depth_mm:.1f} mm; energy balance within {solution.residual:.0e} of the heat poured"
        )
    if computed.has("burnt_sand_kg") and form.casting_volume_cm3 is not None:
        yield (
            f"burnt sand = {case.sand.density_kg_m3:g} kg/m³ × the shell to {computed.number('burnt_depth_mm'):.2f} mm "
            f"around {form.casting_volume_cm3 * 1e-3 / form.modulus:.4g} m² = {computed.number('burnt_sand_kg'):.3f} kg, at "
            "most what the flask holds"
        )
        yield f"water = {case.water:.4f} × the dried shell = {computed.number('water_driven_kg'):.3f} kg"


def _timers(computed: Computed[ResolvedBurnout]) -> Iterable[Timer]:
    for name, word, label in (
        ("solid", "solid_after_min", "Solid, with a margin"),
        ("open", "open_after_min", "Open the mould"),
        ("bin", "bin_after_min", "Sand cool enough for a plastic bin, if spread and turned"),
        ("handle", "handle_after_min", "Middle below 60 °C, left in the mould (still wear gloves)"),
    ):
        if computed.has(word):
            latest = computed.doubt[word][1] * 60 if word in computed.doubt else None
            yield Timer(
                name=name, label=label, after_s=computed.number(word) * 60, text=computed.text(word), latest_s=latest
            )


def _next(computed: Computed[ResolvedBurnout]) -> tuple[Next, ...]:
    if computed.form.sand_kg is None:
        return ()
    heap = f"{max(LEAST_HEAP_KG, computed.form.sand_kg):g} kg"
    return (Next(job="rebond", label="Restore the sand", inputs={"heap_kg": heap}),)
