"""What *gate* answers in words: headline, what to cut, remarks, working, and the next step."""

from __future__ import annotations

import math
from collections.abc import Iterable

from sandmix.asking.cautions import BURNS, ZINC_FUME, Caution
from sandmix.asking.job import Computed, Lead, Next, Telling, ToDo, WayOut
from sandmix.gating import pouring_time, ratio, sprue, torricelli
from sandmix.gating.misrun import FILLING_W_M2K
from sandmix.jobs.gate.form import ResolvedGate
from sandmix.jobs.gate.picture import drawings
from sandmix.jobs.gate.verdict import FREEZES, MAY_NOT, arrives_frozen, verdict
from sandmix.jobs.gate.working import working
from sandmix.jobs.shared.metal_remarks import borrowed_figures, liquid_density
from sandmix.language.wording import list_of, to_figures
from sandmix.materials.liquid_metals import LIQUIDS
from sandmix.materials.metals import COPPER, METALS, ZINC_FUMING
from sandmix.vocabulary import quantity

_LEADS = (
    ("fill_time_s", "Filling time"),
    ("choke_cm2", "Choke"),
    ("sprue_base_mm", "Sprue, base"),
    ("flow_stops_s", "Flow stops in the thinnest wall after"),
    ("furnace_temp_c", "Temperature in the furnace"),
    ("speed_limit_m_s", "Speed limit"),
)
_STEP_MM, _COARSE_STEP_MM = 0.5, 1.0
_LARGE_MM = 20.0
"""From here on nobody cuts sand to half a millimetre (own choice)."""
WIDEST = 8.0
"""A gate is at most so many times as wide as deep (own rule)."""


def tell(computed: Computed[ResolvedGate]) -> Telling:
    """Say how wide the gating must be, how long it fills, and whether the thinnest wall fills."""
    word = verdict(computed)
    return Telling(
        headline=_headline(computed, word),
        state=word,
        lead=_lead(computed),
        todo=tuple(_to_do(computed, word)),
        remarks=tuple(_remarks(computed, word)),
        cautions=tuple(_cautions(computed.form)),
        working=tuple(working(computed)),
        drawings=drawings(computed),
        next=tuple(_next(computed, word)),
        sources=tuple(_sources(computed)),
    )


def _lead(computed: Computed[ResolvedGate]) -> Lead:
    word, label = next((word, label) for word, label in _LEADS if computed.has(word))
    return Lead(word=word, label=label, text=computed.text(word), then=computed.within(word))


def _headline(computed: Computed[ResolvedGate], word: tuple[str, str]) -> str:
    sentences = []
    if arrives_frozen(computed):
        sentences.append("Do not pour it like this: the metal would reach the mould partly frozen.")
    elif word == FREEZES:
        sentences.append("Do not pour it like this: the thinnest wall freezes before the mould is full.")
    elif word == MAY_NOT:
        sentences.append("The thinnest wall may not fill.")
    if computed.has("fill_time_s"):
        usual = ", the usual time" if _is_usual(computed.form) else ""
        sentences.append(f"The mould fills in {computed.text('fill_time_s')}{usual}.")
    if computed.has("sprue_base_mm"):
        top = f" and {computed.text('sprue_top_mm')} at the top" if computed.has("sprue_top_mm") else ""
        sentences.append(f"The sprue is {computed.text('sprue_base_mm')} across at the base{top}.")
    if computed.has("gate_cm2"):
        many = "gates" if computed.form.gates_count > 1 else "gate"
        sentences.append(f"{many.capitalize()}: {computed.text('gate_cm2')} in all.")
    if not sentences and computed.has("flow_stops_s"):
        sentences.append(f"Metal in the thinnest wall stops flowing after {computed.text('flow_stops_s')}.")
    if not sentences and computed.has("furnace_temp_c"):
        sentences.append(f"The metal loses {computed.text('heat_loss_c')} on its way to the mould.")
    return " ".join(sentences) or f"The skin of the metal breaks above {computed.text('speed_limit_m_s')} in the gates."


def _is_usual(form: ResolvedGate) -> bool:
    """Whether the usual time was taken."""
    return form.fill_time_s is None and form.gate_cm2 is None and form.base_mm is None


def _to_do(computed: Computed[ResolvedGate], word: tuple[str, str]) -> Iterable[ToDo]:
    """What to do instead where the wall freezes first; else the sprue, runner and gates to cut, and the time to pour in."""
    form = computed.form
    if arrives_frozen(computed):
        yield ToDo(
            text="Make the metal hotter in the furnace, or shorten its way: it would reach the mould partly frozen, at",
            amount=computed.text("pour_temp_c"),
        )
        return
    if word == FREEZES:
        yield ToDo(
            text="Make the thinnest wall thicker, fill faster, or pour hotter: it freezes after",
            amount=computed.text("wall_freeze_s"),
        )
        return
    has_both = form.sprue_base_mm is not None and form.sprue_top_mm is not None
    if computed.has("sprue_base_stick_mm") and not has_both:
        yield ToDo(
            text="Make the narrow end of the sprue with a stick or drill of",
            amount=computed.text("sprue_base_stick_mm"),
        )
    if computed.has("sprue_top_stick_mm") and not has_both:
        yield ToDo(text="Open it upwards to", amount=computed.text("sprue_top_stick_mm"))
    if computed.has("runner_cm2"):
        side = _up(math.sqrt(100 * computed.number("runner_cm2")))
        yield ToDo(text=f"Cut the runner, about {side} × {side} mm", amount=computed.text("runner_cm2"))
    if computed.has("gate_cm2"):
        count = form.gates_count
        each = f"{count:g} gates, each about" if count > 1 else "one gate, about"
        depth, width = (_up(computed.number(size)) for size in ("gate_depth_mm", "gate_width_mm"))
        sizes = f"{each} {depth} mm deep and {width} mm wide{'; together' if count > 1 else ''}"
        yield ToDo(text=f"Cut {sizes}", amount=computed.text("gate_cm2"))
    if computed.has("fill_time_s"):
        yield ToDo(text="Keep the pouring cup full, and fill the mould in about", amount=computed.text("fill_time_s"))


def _up(size_mm: float) -> str:
    """A size rounded up to half a millimetre, a large one to a whole one."""
    step = _STEP_MM if size_mm < _LARGE_MM else _COARSE_STEP_MM
    return f"{step * math.ceil(size_mm / step - 1e-9):g}"


def _remarks(computed: Computed[ResolvedGate], word: tuple[str, str]) -> Iterable[str]:
    form = computed.form
    yield from _on_the_wall(computed, word)
    yield from _on_the_speed(computed)
    yield from _on_the_time(computed)
    yield from _on_the_ratio(computed)
    yield from _on_the_sprue(computed)
    yield from _on_the_place(computed)
    yield from _on_the_width(computed)
    yield from _on_the_way(computed)
    if computed.has("gating_volume_cm3"):
        lengths = (("the runner", form.runner_length_mm), ("the gates", form.gate_length_mm))
        without = [*(what for what, length in lengths if length is None), "the pouring cup"]
        yield f"Volume of the gating: {computed.text('gating_volume_cm3')}, without {list_of(without, 'and')}."
    yield from borrowed_figures(form.metal, ("liquid density",))
    yield liquid_density(form.metal)


def _on_the_wall(computed: Computed[ResolvedGate], word: tuple[str, str]) -> Iterable[str]:
    if not computed.has("flow_stops_s") or arrives_frozen(computed):
        return
    form = computed.form
    stops, frozen = computed.text("flow_stops_s"), computed.text("wall_freeze_s")
    moisture = METALS[form.metal].target_moisture_pct_wet
    basis = (
        f"For a plate in sand of {moisture:g} % moisture (of the wet mass), in perfect contact to {FILLING_W_M2K:g} W/m²K, as while the mould "
        "fills."
    )
    if word == FREEZES:
        yield WayOut(
            f"A wall of {form.thinnest_mm:g} mm is frozen through after {frozen}, before the mould is full. {basis}"
        )
    elif word == MAY_NOT:
        within = computed.range("flow_stops_s") or stops
        yield WayOut(
            f"In a wall of {form.thinnest_mm:g} mm the metal stops flowing after about {stops} (likely range {within}), and is frozen through "
            f"after {frozen}. Filling takes {computed.text('fill_time_s')}. Fill faster, pour hotter, or put a gate near the thin wall. {basis}"
        )
    elif computed.has("fill_time_s"):
        yield f"In a wall of {form.thinnest_mm:g} mm the metal flows for about {stops}: long enough. {basis}"
    if computed.has("flow_length_m"):
        yield (
            f"For comparison, Flemings' formula lets the metal flow {computed.text('flow_length_m')} m into that wall. Its contact is from memory, "
            "and it leaves out how the sand warms up."
        )


def _on_the_speed(computed: Computed[ResolvedGate]) -> Iterable[str]:
    if not computed.has("gate_speed_m_s"):
        return
    form = computed.form
    now, limit = computed.text("gate_speed_m_s"), computed.text("speed_limit_m_s")
    fall = to_figures(torricelli.head_mm(computed.number("speed_limit_m_s")), 2)
    if computed.number("gate_speed_m_s") <= computed.number("speed_limit_m_s"):
        yield f"The metal leaves the gates at {now} at most, below the {limit} at which its skin breaks."
        return
    text = (
        f"The metal leaves the gates at {now}, faster than the {limit} at which its skin breaks. Gates of {computed.text('gate_for_speed_cm2')} "
        f"in all would keep it, with the same flow. A fall of {fall} mm is enough to break the skin, so only a wide runner and wide gates slow "
        "the metal down."
    )
    yield (
        f"{text} For iron this matters less than holding back slag."
        if form.metal in pouring_time.IRON
        else WayOut(text)
    )


def _on_the_time(computed: Computed[ResolvedGate]) -> Iterable[str]:
    form = computed.form
    if not computed.has("rule_time_s") or form.volume_cm3 is None:
        return
    mass_kg = form.volume_cm3 * 1e-6 * form.liquid_kg_m3
    said = [
        f"{to_figures(rule.time_s, 2)} s by {rule.name} ({rule.holds}; {'read' if rule.source == 'pouring_rates' else 'from memory, unsourced'})"
        for rule in pouring_time.rules(form.metal, mass_kg, form.rule_wall_mm, form.gate_place)
    ]
    wall = f"a wall of {form.rule_wall_mm:g} mm" + ("" if form.thinnest_mm is not None else " (taken, none is given)")
    yield (
        f"Usual pouring time for {to_figures(mass_kg, 2)} kg and {wall}: {'; '.join(said)}. Rules of thumb: half or twice as long is still "
        "usual."
    )


def _on_the_ratio(computed: Computed[ResolvedGate]) -> Iterable[str]:
    form = computed.form
    usual = ratio.USUAL[form.metal]
    sure = "own choice" if usual.source == "own" else "read"
    why = f"Usual for {METALS[form.metal].label}: {usual.ratio.text} ({sure}): {usual.why}."
    if form.gate_ratio:
        kind = "pressurised" if form.areas.is_pressurised else "unpressurised"
        yield f"{form.areas.text} is {kind}. {why}"
    elif computed.has("choke_cm2"):
        yield WayOut(
            f"No ratio is given, so the gates count as the narrowest place and set the flow. {why} Enter it to get runner and gates."
        )


def _on_the_sprue(computed: Computed[ResolvedGate]) -> Iterable[str]:
    form = computed.form
    if computed.has("sprue_top_mm") and form.length_mm is not None:
        taken = (
            "" if form.basin_mm is not None else f", with {form.cup_mm:g} mm of metal in the pouring cup (own choice)"
        )
        length = (
            "" if form.sprue_length_mm is not None else f" A sprue of {form.length_mm:g} mm down to the gate is taken."
        )
        yield f"The sprue should narrow downwards as the falling metal does, so that it draws in no air{taken}.{length}"
    yield from _on_its_taper(form)
    base = form.stream_mm
    if base is not None and computed.has("choke_cm2"):
        needed = computed.number("choke_cm2") * form.areas.sprue / form.areas.choke
        has = sprue.round_cm2(base)
        if has < 0.95 * needed:
            yield WayOut(
                f"The sprue's base carries a stream of {to_figures(base, 3)} mm with {to_figures(has, 3)} cm². The flow needs "
                f"{to_figures(needed, 3)} cm² there, so the sprue is the narrowest place and filling takes longer. Make it "
                "wider, or leave gates and time out to go by the sprue."
            )
    depth, wall = computed.figures.get("gate_depth_mm"), form.thinnest_mm
    if isinstance(depth, float) and wall is not None and depth > 1.0001 * wall:
        yield WayOut(
            f"A gate of {to_figures(depth, 2)} mm is deeper than the thinnest wall of {wall:g} mm. It freezes after the wall and can tear it "
            "or leave a hole where it is cut off. Make it wide and shallow."
        )
    if computed.has("sprue_top_stick_mm"):
        yield "Sticks and drills are rounded up. A parallel stick needs to be opened to the upper size with a tapered one or a knife."


def _on_its_taper(form: ResolvedGate) -> Iterable[str]:
    """A sprue whose both ends are given, and that is as wide below as above or nearly so."""
    base, stream, top = form.sprue_base_mm, form.stream_mm, form.sprue_top_mm
    if base is not None and stream is not None and top is not None and base > 1.02 * stream:
        yield WayOut(
            f"The sprue narrows too little: metal that enters at {top:g} mm is only {to_figures(stream, 3)} mm across at the base of {base:g} mm. "
            "There it falls free and draws in air. Make the base narrower or the top wider. The flow counts with the narrower stream."
        )


def _on_the_width(computed: Computed[ResolvedGate]) -> Iterable[str]:
    """One very wide gate is hard to cut evenly, and hot metal keeps to its middle."""
    if not computed.has("gate_width_mm"):
        return
    times = computed.number("gate_width_mm") / computed.number("gate_depth_mm")
    if times > WIDEST:
        count = math.ceil(times / WIDEST) * computed.form.gates_count
        yield f"A gate that is more than {WIDEST:g} times as wide as deep is hard to cut evenly: use {count:g} gates instead (own rule)."


def _on_the_place(computed: Computed[ResolvedGate]) -> Iterable[str]:
    form = computed.form
    head, height, above = form.over_gate_mm, form.fill_height_mm, form.above_mm
    if head is None:
        return
    rising = height if form.gate_place == "bottom" else above if form.gate_place == "parting" else None
    if form.gate_place == "parting" and form.cope_height_mm is None and above:
        yield f"Half of the cavity's height, {above:g} mm, is taken to stand above the parting. Enter how much it is."
    if rising is not None and rising > 0.75 * head:
        yield WayOut(
            f"The cavity stands {rising:g} mm above the gate, and the head is {head:g} mm: the last of it fills slowly and may stay rounded. "
            "More head helps most."
        )


def _on_the_way(computed: Computed[ResolvedGate]) -> Iterable[str]:
    form = computed.form
    if form.pot is None:
        return
    if not computed.has("heat_loss_c"):
        yield WayOut(
            "So little metal cools too fast in this crucible: it can't be carried for that long. Enter less time or more metal."
        )
        return
    poured, (least, most) = computed.number("pour_temp_c"), METALS[form.metal].pour_c
    yield (
        f"On the way of {form.carry_min:g} min the metal loses {computed.text('heat_loss_c')}: from {computed.text('furnace_temp_c')} to "
        f"{computed.text('pour_temp_c')}. The surface loses about half of that and the wall the rest (own choice: half to twice as much as the "
        "surface). The stream and the gating cool it further. A lid cuts the loss much."
    )
    if form.furnace_temp_c is None and computed.number("furnace_temp_c") > most:
        yield WayOut(
            f"It must leave the furnace at {computed.text('furnace_temp_c')}, hotter than the usual {most:g} °C at most. Hotter metal burns off "
            "and takes up gas. Carry it faster, cover it, or take more metal."
        )
    if poured < METALS[form.metal].liquidus_c:
        yield WayOut(
            f"It would arrive partly frozen, below {METALS[form.metal].liquidus_c:g} °C. Carry it faster, take more metal, or cover it."
        )
    elif poured < least:
        yield WayOut(
            f"It arrives colder than the usual {least:g} °C. From the furnace there are {computed.text('pour_within_min')} until then."
        )


def _cautions(form: ResolvedGate) -> Iterable[Caution]:
    if form.pot is None:
        return
    if form.metal in ZINC_FUMING:
        yield ZINC_FUME
    yield BURNS


def _next(computed: Computed[ResolvedGate], word: tuple[str, str]) -> Iterable[Next]:
    """The flask, whose sand the gating takes up, and the pour; only the pattern where the wall freezes first."""
    form = computed.form
    if arrives_frozen(computed):
        yield Next(job="gate", label="Try hotter metal or a shorter way", inputs={"metal": form.metal})
        return
    if word == FREEZES:
        yield Next(job="pattern", label="Make the wall thicker", inputs={"metal": form.metal})
        return
    pour, flask = {"metal": form.metal}, {"metal": form.metal}
    volume = form.volume_cm3
    if volume is not None:
        pour |= _allowed("casting_volume_cm3", volume)
        flask |= _allowed("pattern_volume_cm3", volume)
        if computed.has("fill_time_s"):
            pour |= _allowed("fill_time_s", computed.number("fill_time_s"))
        if computed.has("gating_volume_cm3"):
            pour |= _allowed("gating_pct", 100 * computed.number("gating_volume_cm3") / volume)
    if computed.has("gating_volume_cm3"):
        flask |= _allowed("gating_volume_cm3", computed.number("gating_volume_cm3"))
    if computed.has("pour_temp_c") and computed.number("pour_temp_c") >= METALS[form.metal].liquidus_c:
        pour |= _allowed("pour_temp_c", computed.number("pour_temp_c"))
    yield Next(job="pour", label="Metal and weights", inputs=pour)
    yield Next(job="flask", label="Fill the flask around it", inputs=flask)


def _allowed(word: str, value: float) -> dict[str, str]:
    """The figure as an input of another job, where its word allows it."""
    declared = quantity(word)
    return {word: f"{value:.4g} {declared.unit}".strip()} if declared.low <= value <= declared.high else {}


def _sources(computed: Computed[ResolvedGate]) -> Iterable[str]:
    form = computed.form
    liquid = LIQUIDS[form.metal]
    yield from ("surface_tension_memory", "gate_speed_memory", liquid.viscosity_source, ratio.USUAL[form.metal].source)
    if form.metal in COPPER:
        yield "pouring_memory"
    if form.pot is not None:
        yield from ("convection_memory", liquid.emissivity_source)
