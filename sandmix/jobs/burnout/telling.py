"""How *burnout* presents its answer: headline, remarks, cautions, working and drawings."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import DUST, HOT_CASTING, HOT_SAND, VENT_GAS, Caution
from sandmix.asking.job import Computed, Lead, Next, Telling, Timer, ToDo, WayOut
from sandmix.cooling.burnout import EXCESSIVELY_HOT_C, MULLS_BELOW_C
from sandmix.cooling.freezing import CONTACTS_W_M2K, MEASURED_CONTACT_W_M2K
from sandmix.cooling.opening import CASTING, GATING, HANDLE_C, LEAST_OPEN_S
from sandmix.jobs.burnout.charts import contact_of, fronts, peaks, section
from sandmix.jobs.burnout.figures import Solutions, solutions
from sandmix.jobs.burnout.form import ResolvedBurnout
from sandmix.jobs.shared.heated import GRANULES_C
from sandmix.jobs.shared.metal_remarks import borrowed_figures, unsourced_figures
from sandmix.language.wording import to_figures
from sandmix.materials.metals import HEAT_ENDS, METALS
from sandmix.materials.sands_and_clays import CLAYS

LEAST_HEAP_KG = 0.05
WEAR_OF_IRON = (0.25, 0.40)
"""Source: wear_factor."""
_LONG_WAIT_MIN = 12 * 60.0
"""From here on a remark says that the flask's sand makes it shorter (own choice)."""
_LEAST_WATER_KG = 0.0005
"""Less water is not worth a sentence: it would be shown as none."""

_LEAST_RESIDUAL = 1e-9
"""A smaller residual is noise of the arithmetic, which differs from one processor to the next."""


def tell(computed: Computed[ResolvedBurnout]) -> Telling:
    """Say when to open the mould, what the sand lost, and why."""
    form = computed.form
    found = solutions(form)
    sources = [METALS[form.metal].source]
    sources += ["measured_contact", "green_sand_contact"] if form.contact_w_m2k is None else []
    sources += ["wear_factor"] if computed.has("burnt_sand_per_metal") else []
    sources += ["alloy_heat_ends"] if form.metal in HEAT_ENDS else []
    sources += ["equipment_handbook"] if computed.has("handle_after_min") else []
    return Telling(
        headline=_headline(computed),
        state=("wait", "care"),
        lead=_lead(computed),
        todo=tuple(_to_do(computed)),
        remarks=tuple(_remarks(computed, found)),
        cautions=tuple(_cautions(computed)),
        working=tuple(_working(computed, found)),
        charts=(peaks(computed, found.contacts), fronts(found.slow)),
        drawings={"shell": section(computed, found.hot)},
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
    if computed.has("water_driven_kg") and computed.number("water_driven_kg") >= _LEAST_WATER_KG:
        sentences.append(f"{computed.text('water_driven_kg')} of water boils off.")
    return " ".join(sentences)


def _lead(computed: Computed[ResolvedBurnout]) -> Lead:
    for word, label in (("open_after_min", "Open after"), ("solid_after_min", "Solid after")):
        if computed.has(word):
            return Lead(word=word, label=label, text=computed.text(word), then=computed.within(word))
    word = "dry_depth_mm"
    return Lead(word=word, label="Dried to", text=computed.text(word), then=computed.within(word))


def _to_do(computed: Computed[ResolvedBurnout]) -> Iterable[ToDo]:
    """What to do after the pour, in the order of time."""
    if computed.has("solid_after_min"):
        yield ToDo(text="Leave the mould alone until the casting is solid", amount=computed.text("solid_after_min"))
    yield (
        ToDo(text="Open the mould after", amount=computed.text("open_after_min"))
        if computed.has("open_after_min")
        else ToDo(text="Open it with tongs: in a closed mould it would stay hot for more than 90 days")
    )
    if computed.has("handle_after_min"):
        yield ToDo(
            text="Take the casting out only with tongs; with gloves after",
            amount=computed.text("handle_after_min"),
        )
    if computed.has("sand_mean_c") and computed.number("sand_mean_c") > MULLS_BELOW_C:
        yield ToDo(
            text="Spread the sand to cool before you mull it: mixed, it is at",
            amount=computed.text("sand_mean_c"),
        )


def _remarks(computed: Computed[ResolvedBurnout], found: Solutions) -> Iterable[str]:
    yield from _on_the_shape(computed.form)
    yield from _on_the_clay(computed, found)
    yield from _on_the_wear(computed)
    yield from _on_the_flask(computed)
    yield from _on_the_hot_sand(computed)
    yield from _on_the_waits(computed, found)
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


def _on_the_clay(computed: Computed[ResolvedBurnout], found: Solutions) -> Iterable[str]:
    form, limit, burns = computed.form, computed.form.clay_limit_c, computed.number("burnt_depth_mm") > 0
    if limit >= form.pour_temp_c:
        yield (
            f"The clay's limit of {limit:g} °C is above the pour temperature of {form.pour_temp_c:g} °C, so no sand can "
            "pass it. Check the clay and the limit."
        )
    elif not burns:
        yield (
            f"The sand face gets no hotter than {found.hot.peaks_c[0]:.0f} °C: by the limit of {limit:g} °C no clay is lost."
        )
    sodium_c = CLAYS["sodium_bentonite"].limit_c
    if burns and CLAYS[form.clay].limit_c is not None and sodium_c is not None and limit < sodium_c:
        yield WayOut(
            f"Sodium bentonite keeps its bond up to {sodium_c:g} °C, this clay up to {limit:g} °C: with it less clay is lost."
        )
    if form.contact_w_m2k is None and burns:
        slow = found.slow
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
            "It is not known whether the clay of granules is lost at 316 or at 638 °C. The answer is for 316 °C, "
            "and its range reaches to 638 °C. If they swell to a gel in water, enter 638 °C."
        )


def _on_the_wear(computed: Computed[ResolvedBurnout]) -> Iterable[str]:
    if not computed.is_above_zero("burnt_sand_per_metal"):
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
        yield WayOut(
            f"The flask holds {form.flask_sand_kg:g} kg, which is more than the whole heap of {form.sand_kg:g} kg. Check "
            "both."
        )
    if wall_mm is None:
        return
    if computed.number("burnt_depth_mm") >= 0.999 * wall_mm:
        yield WayOut(
            f"All {wall_mm:g} mm of sand up to the wall pass the clay's limit, so the flask itself burns. Take a larger "
            "flask."
        )
    elif computed.number("dry_depth_mm") >= 0.999 * wall_mm:
        yield WayOut(
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


def _on_the_waits(computed: Computed[ResolvedBurnout], found: Solutions) -> Iterable[str]:
    if computed.has("open_after_min"):
        yield from _on_what_decides(computed, found)
    labels = {"solid_after_min": "solid", "open_after_min": "open", "handle_after_min": "middle below 60 °C"}
    never = [label for word, label in labels.items() if not computed.has(word)]
    if never:
        yield WayOut(
            f"Left out, because it would take more than 90 days in a closed mould: {', '.join(never)}. Open it sooner, "
            "with tongs."
        )
    handle = "handle_after_min"
    if computed.form.depth_mm is None and computed.has(handle) and computed.number(handle) > _LONG_WAIT_MIN:
        yield (
            "Neither the sand in the flask nor the distance to the wall is given, so the sand counts as endless. In a real "
            "flask the casting cools much sooner. Enter one of them, and the volume."
        )
    if computed.has(handle):
        yield from _on_handling(computed, found)
    yield (
        "The opening time is our own rule: the middles of casting and gating have cooled to half their solidus in °C, and "
        f"{LEAST_OPEN_S / 60:g} min have passed. Brittle alloys, and castings with thick and thin parts, need longer."
    )


def _on_what_decides(computed: Computed[ResolvedBurnout], found: Solutions) -> Iterable[str]:
    form, assumed = computed.form, "gating_section_mm" in computed.filled.assumed
    section = f"{form.gating_section_mm:.0f} mm"
    by_itself = f"the casting by itself after {computed.text('casting_open_min')}"
    if found.opening.decided_by == GATING:
        yield (
            f"The gating decides: its thickest round section of {section} can be opened after "
            f"{computed.text('open_after_min')}, {by_itself}."
        )
    elif found.opening.decided_by == CASTING:
        yield f"The casting decides. Its gating, {section} thick, can be opened sooner."
    else:
        yield (
            f"No mould is opened before {LEAST_OPEN_S / 60:g} min (own rule). Gating of {section} could be opened sooner, and "
            f"{by_itself}."
        )
    if assumed:
        yield (
            f"The thickest section of the gating is assumed: {section} (own rule). Enter that of your sprue, riser or cup, "
            "whichever is thickest."
        )


def _on_handling(computed: Computed[ResolvedBurnout], found: Solutions) -> Iterable[str]:
    gating = found.opening.gating
    gating_c = gating.at_s(gating.middle_c, 60 * computed.number("handle_after_min"))
    hotter = f" The middle of the gating is then still at {gating_c:.0f} °C." if gating_c > HANDLE_C + 1 else ""
    yield (
        f"Middle below {HANDLE_C:g} °C is not cool: bare metal burns skin within seconds at about 60 °C and within a minute from "
        "about 51 °C (from memory). A handbook for electronic equipment allows at most 60 °C for parts that people can touch and "
        "49 °C for controls. Wear gloves."
        f"{hotter}"
    )


def _cautions(computed: Computed[ResolvedBurnout]) -> Iterable[Caution]:
    yield HOT_CASTING
    yield VENT_GAS
    if computed.has("sand_mean_c") and computed.number("sand_mean_c") > MULLS_BELOW_C:
        yield HOT_SAND
    yield DUST


def _working(computed: Computed[ResolvedBurnout], found: Solutions) -> Iterable[str]:
    form, case = computed.form, found.hot.case
    yield (
        f"modulus {case.modulus_mm:.3g} mm, area proportional to r^{case.shape_n:.3g}; poured at {case.pour_temp_c:g} °C, "
        f"solidus {case.metal.solidus_c:g} °C; sand {case.sand.key.upper()}, {form.moisture_pct_wet:g} % of the wet mass "
        f"is {case.water:.4f} kg of water per kg of dry sand"
    )
    for solution in found.contacts:
        froze = (
            "not frozen by the end of the solution"
            if solution.freeze_s is None
            else f"frozen after {solution.freeze_s:.0f} s"
        )
        yield (
            f"{contact_of(solution)}: {froze}, sand face at most {solution.peaks_c[0]:.0f} °C, dried to "
            f"{solution.dry_depth_mm:.1f} mm; energy balance within {max(solution.residual, _LEAST_RESIDUAL):.0e} of the heat poured"
        )
    yield from _working_of_the_times(computed, found)
    if computed.has("burnt_sand_kg") and form.casting_volume_cm3 is not None:
        yield (
            f"burnt sand = {case.sand.density_kg_m3:g} kg/m³ × the shell to {computed.number('burnt_depth_mm'):.2f} mm "
            f"around {form.casting_volume_cm3 * 1e-3 / form.modulus:.4g} m² = {computed.number('burnt_sand_kg'):.3f} kg, at "
            "most what the flask holds"
        )
        yield f"water = {case.water:.4f} × the dried shell = {computed.number('water_driven_kg'):.3f} kg"


def _working_of_the_times(computed: Computed[ResolvedBurnout], found: Solutions) -> Iterable[str]:
    form, gating = computed.form, found.opening.gating
    if computed.has("casting_open_min") and gating.freeze_s is not None and found.opening.gating_s is not None:
        yield (
            f"gating: a round bar of {form.gating_section_mm:.3g} mm, modulus {gating.case.modulus_mm:.3g} mm, {contact_of(gating)}: "
            f"frozen after {gating.freeze_s:.0f} s, to be opened after {found.opening.gating_s / 60:.1f} min; the casting after "
            f"{computed.number('casting_open_min'):.1f} min"
        )
    if found.ball is not None and form.depth_mm is not None and computed.has("handle_after_min"):
        yield (
            f"handling: the casting with {form.depth_mm:.0f} mm of sand around it, or as a ball of its volume with "
            f"{found.ball.case.wall_mm:.0f} mm around it, whichever is cool sooner: {computed.number('handle_after_min'):.0f} min"
        )


def _timers(computed: Computed[ResolvedBurnout]) -> Iterable[Timer]:
    for name, word, label in (
        ("solid", "solid_after_min", "Casting solid, with a margin. Keep the mould shut"),
        ("open", "open_after_min", "Open the mould"),
        ("bin", "bin_after_min", "Sand cool enough for a plastic bin, if mixed, spread and turned"),
        ("handle", "handle_after_min", "Middle below 60 °C, left in the mould (still wear gloves)"),
    ):
        if computed.has(word):
            latest = computed.doubt[word][1] * 60 if word in computed.doubt else None
            yield Timer(
                name=name, label=label, after_s=computed.number(word) * 60, text=computed.text(word), latest_s=latest
            )


def _next(computed: Computed[ResolvedBurnout]) -> tuple[Next, ...]:
    sand_kg = computed.form.sand_kg
    heap = {} if sand_kg is None else {"heap_kg": f"{max(LEAST_HEAP_KG, sand_kg):g} kg"}
    return (Next(job="rebond", label="Restore the sand", inputs=heap),)
