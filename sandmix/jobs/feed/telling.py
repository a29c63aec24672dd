"""How *feed* presents its answer: headline, what to make, remarks, cautions, working and the drawing."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.cautions import BURNS, LIFT, Caution
from sandmix.asking.job import Computed, Lead, Next, Telling, ToDo
from sandmix.drawings import riser_section
from sandmix.feeding import comparison, distance, riser
from sandmix.feeding.modulus import SIDE, TOP, cylinder_cm3, riser_share
from sandmix.gating import ratio
from sandmix.jobs.feed.form import ResolvedFeed
from sandmix.jobs.feed.remarks import covers_too_much, farther_than_fed, is_thin, remarks, too_tall
from sandmix.language.wording import sides_typed, to_figures
from sandmix.materials.metals import METALS
from sandmix.materials.shrinkage import LONG, SHRINKAGES, freezes_over
from sandmix.vocabulary import quantity
from sandmix.vocabulary.feeding_words import PARTS

MAKE_IT = "make it"
"""The word where a riser is worth making."""


def tell(computed: Computed[ResolvedFeed]) -> Telling:
    """Say how large the riser must be, whether one is likely to help, and what it costs."""
    form = computed.form
    return Telling(
        headline=_headline(computed),
        state=_state(computed),
        lead=_lead(computed),
        todo=tuple(_to_do(computed)),
        remarks=tuple(remarks(computed)),
        cautions=tuple(_cautions(computed)),
        working=tuple(_working(computed)),
        drawings=_section(computed),
        sources=tuple(_sources(computed)),
        labels={"modulus_mm": "Modulus of the part that is fed"},
        next=_next(computed, form),
    )


def _headline(computed: Computed[ResolvedFeed]) -> str:
    form = computed.form
    if not computed.has("riser_diameter_mm"):
        if computed.has("freezing_diameter_mm"):
            return f"To freeze last, the riser must be at least {computed.text('freezing_diameter_mm')} across. Its volume is not checked yet."
        return f"The shrinkage asks for a riser of {computed.text('feed_needed_cm3')}. Whether it freezes last is not checked yet."
    if covers_too_much(computed) and not (form.expands or is_thin(computed)):
        return (
            "A riser on top would cover too much of this casting: no size is large enough. Put it beside the casting."
        )
    size = f"{_made(computed)}, {computed.text('riser_made_kg')} of metal"
    if form.expands:
        return f"Cast it without a riser first: grey iron expands as it freezes. If it shows a hole, try one of {size}."
    if is_thin(computed):
        return f"A part this thin often feeds itself from the gate: cast one without a riser first. If it shows a hole, try one of {size}."
    where = "beside the casting" if form.riser_kind == SIDE else "on top of the casting"
    if freezes_over(form.metal) == LONG:
        words = f"A riser helps little in this metal, which freezes over a wide range. If you make one {where}: {size}."
    else:
        words = f"A riser {where}: {size}."
    if too_tall(computed):
        return f"{words} It is too tall for this cope: take a deeper one, or set a ring of sand on it."
    return words


def _made(computed: Computed[ResolvedFeed]) -> str:
    return f"{computed.text('riser_made_mm')} across and {computed.text('riser_made_height_mm')} high"


def _state(computed: Computed[ResolvedFeed]) -> tuple[str, str]:
    form = computed.form
    if not computed.has("riser_diameter_mm"):
        return "half known", "care"
    if form.expands or is_thin(computed):
        return "try without", "plain"
    if covers_too_much(computed):
        return "covers too much", "care"
    if too_tall(computed):
        return "too tall", "care"
    if farther_than_fed(computed):
        return "too far", "care"
    return ("helps little", "care") if freezes_over(form.metal) == LONG else (MAKE_IT, "plain")


def _lead(computed: Computed[ResolvedFeed]) -> Lead:
    if computed.has("riser_made_mm"):
        within = computed.within("riser_diameter_mm")
        return Lead(word="riser_made_mm", label="Riser, across", text=computed.text("riser_made_mm"), then=within)
    labels = {
        "riser_diameter_mm": "Riser, across",
        "freezing_diameter_mm": "Riser, at least",
        "feed_needed_cm3": "Riser, at least",
    }
    word = next(word for word in labels if computed.has(word))
    return Lead(word=word, label=labels[word], text=computed.text(word), then=computed.within(word))


def _to_do(computed: Computed[ResolvedFeed]) -> Iterable[ToDo]:
    """What to make, in the order of the work."""
    form = computed.form
    if not computed.has("riser_diameter_mm"):
        return
    if form.expands or is_thin(computed):
        yield ToDo(text="Cast one without a riser, saw through its thickest part, and look for a hole: only then go on")
    if covers_too_much(computed):
        yield ToDo(text="Choose a riser beside the casting, and work it out again: on top no size is large enough")
        return
    yield ToDo(text="Make a round riser pattern this wide", amount=computed.text("riser_made_mm"))
    yield ToDo(text="and this high", amount=computed.text("riser_made_height_mm"))
    if computed.has("neck_mm"):
        yield ToDo(
            text=f"Join it to the thickest part by a short neck, {_neck_shape(computed)}",
            amount=computed.text("neck_mm"),
        )
    if form.cope_depth_mm != 0:
        yield ToDo(text="Have a cope at least this deep", amount=computed.text("cope_needed_mm"))
    yield ToDo(text="Melt this much more for the riser", amount=computed.text("riser_made_kg"))


def _neck_shape(computed: Computed[ResolvedFeed]) -> str:
    """How the neck's size is meant: a round neck thicker than the part would stand out of it, so it is as high as the part instead."""
    thickness_mm = computed.form.thickness_mm
    is_thicker = thickness_mm is not None and computed.number("neck_mm") > thickness_mm
    return "as high as that part and this wide" if is_thicker else "about this thick"


def _cautions(computed: Computed[ResolvedFeed]) -> Iterable[Caution]:
    """An open riser is a second mouth of molten metal; its weight is lifted with the casting."""
    if computed.has("riser_diameter_mm"):
        yield BURNS
        yield LIFT


def _section(computed: Computed[ResolvedFeed]) -> dict[str, str]:
    form = computed.form
    thickness_mm = form.thickness_mm
    if not computed.has("riser_diameter_mm") or thickness_mm is None:
        return {}
    drawn = riser_section.RiserSection(
        thickness_mm=thickness_mm,
        above_mm=form.cope_height_mm,
        diameter_mm=computed.number("riser_made_mm"),
        height_mm=computed.number("riser_made_height_mm"),
        neck_mm=computed.number("neck_mm") if computed.has("neck_mm") else None,
    )
    return {"section": riser_section.draw(drawn, "feed-section", "The part that is fed, neck and riser, to scale")}


def _sources(computed: Computed[ResolvedFeed]) -> Iterable[str]:
    form = computed.form
    if "shrinkage_pct" in computed.filled.assumed:
        yield SHRINKAGES[form.metal].source
    yield "freezing_ranges"
    yield "no_riser_first"
    if computed.has("feeding_distance_mm"):
        yield "steel_research"
    if form.metal == "grey_iron":
        yield "iron_without_riser"
    if form.metal == "tin_bronze":
        yield "spread_shrinkage"


def _next(computed: Computed[ResolvedFeed], form: ResolvedFeed) -> tuple[Next, ...]:
    """The gates that fill casting and riser, the pour with the riser's metal, and the flask with its space."""
    pour = {"metal": form.metal}
    if form.casting_volume_cm3 is not None:
        pour["casting_volume_cm3"] = f"{form.casting_volume_cm3:.4g} cm³"
    if form.casting_area_cm2 is not None:
        pour["casting_area_cm2"] = f"{form.casting_area_cm2:.4g} cm²"
    if form.box_mm is not None:
        pour["box_mm"] = sides_typed(form.box_mm)
    if not computed.has("gating_with_riser_pct"):
        return (Next(job="pattern", label="Find volume and surface", inputs={"metal": form.metal}),)
    made_mm, section = computed.number("riser_made_mm"), quantity("gating_section_mm")
    if not form.expands and section.low <= made_mm <= section.high:
        pour["gating_section_mm"] = f"{made_mm:g} mm"
    whole_cm3 = form.casting_volume_cm3 or 0.0
    if not form.expands:
        whole_cm3 += cylinder_cm3(made_mm, form.riser_height_share)
    gate = {
        "metal": form.metal,
        "fill_volume_cm3": f"{min(whole_cm3, quantity('fill_volume_cm3').high):.4g} cm³",
        "gate_ratio": ratio.USUAL[form.metal].ratio.text,
    }
    links = [
        Next(job="gate", label="Sprue, runner and gates", inputs=gate),
        Next(
            job="pour",
            label="Metal and weights",
            inputs=pour | _gating(computed, "gating_pct", "gating_with_riser_pct"),
        ),
    ]
    flask = {"metal": form.metal, "pattern_volume_cm3": pour["casting_volume_cm3"]}
    flask |= _gating(computed, "gating_volume_cm3", "gating_with_riser_cm3")
    if form.cope_depth_mm is not None:
        flask["cope_depth_mm"] = f"{form.cope_depth_mm:.4g} mm"
    links.append(Next(job="flask", label="Fill the flask", inputs=flask))
    return tuple(links)


def _gating(computed: Computed[ResolvedFeed], theirs: str, ours: str) -> dict[str, str]:
    """The gating with the riser as an input of another job, for iron without it; the riser is made to size, so the ± is that of the rest."""
    form = computed.form
    low_cm3, high_cm3 = computed.filled.bands.get("gating_volume_cm3", (0.0, 0.0))
    declared, value = quantity(theirs), computed.number(ours)
    if form.casting_volume_cm3 is None or form.gating_volume_cm3 is None:
        return {}
    a_cm3 = 100 / form.casting_volume_cm3 if declared.unit == "%" else 1.0
    if form.expands:
        value = form.gating_volume_cm3 * a_cm3
    if not declared.low <= value <= declared.high:
        return {}
    assert isinstance(low_cm3, float) and isinstance(high_cm3, float)
    half = (high_cm3 - low_cm3) / 2 * a_cm3
    return {theirs: f"{to_figures(value, 4)} ± {to_figures(half, 2)} {declared.unit}"}


def _working(computed: Computed[ResolvedFeed]) -> Iterable[str]:
    form = computed.form
    if computed.has("modulus_mm"):
        modulus = computed.number("modulus_mm")
        if form.part_modulus_mm is None:
            yield f"modulus = {form.casting_volume_cm3:g} cm³ / {form.casting_area_cm2:g} cm² = {modulus:.2f} mm"
        elif form.modulus_mm is None and form.part:
            yield f"modulus of the thickest part, {PARTS[form.part]}, from its sizes = {modulus:.2f} mm"
        share = riser_share(form.riser_kind, form.riser_height_share)
        yield f"riser's modulus = {form.riser_ratio:g} × {modulus:.2f} mm = {computed.number('riser_modulus_mm'):.2f} mm"
        yield (
            f"its modulus is the diameter / {1 / share:.3g}, so to freeze last it is "
            f"{computed.number('freezing_diameter_mm'):.1f} mm across"
        )
    if computed.has("feed_needed_cm3") and computed.number("feed_needed_cm3") > 0:
        yield (
            f"riser's volume = {form.shrinkage_pct:g} % × {form.casting_volume_cm3:g} cm³ / ({form.feed_efficiency_pct:g} − "
            f"{form.shrinkage_pct:g}) % = {computed.number('feed_needed_cm3'):.1f} cm³, so to hold enough it is "
            f"{computed.number('volume_diameter_mm'):.1f} mm across"
        )
    if computed.has("riser_kg"):
        yield (
            f"metal in the riser = {computed.number('riser_volume_cm3'):.1f} cm³ × {METALS[form.metal].solid_kg_m3 / 1000:g} "
            f"g/cm³ = {computed.number('riser_kg'):.3f} kg"
        )
    if computed.has("neck_mm"):
        yield f"neck = 4 × {riser.NECK_RATIO:g} × {computed.number('modulus_mm'):.2f} mm = {computed.number('neck_mm'):.1f} mm"
    if computed.has("feeding_distance_mm"):
        rule = "30 × √" if form.shape == distance.BAR else "4.5 × "
        yield f"feeding distance = {rule}{form.thickness_mm:.3g} mm = {computed.number('feeding_distance_mm'):.0f} mm (rule of steel)"
    if computed.has("covered_modulus_mm") and form.riser_kind == TOP:
        yield (
            f"a riser of {computed.number('covered_diameter_mm'):.1f} mm covers its base: the casting then has "
            f"{computed.number('covered_modulus_mm'):.2f} mm"
        )
    if computed.has("naval_riser_cm3") and form.box_mm is not None:
        length, width, thickness = form.box_mm
        yield (
            f"shape factor = {comparison.shape_factor((length, width, thickness)):.3g}: a steel riser of "
            f"{computed.number('naval_riser_cm3'):.0f} cm³"
        )
