"""The remarks of *feed*: whether a riser is needed, whether it helps, whether it fits, and what it is compared with."""

from __future__ import annotations

from collections.abc import Iterable

from sandmix.asking.job import Computed, WayOut
from sandmix.feeding import riser
from sandmix.feeding.modulus import SIDE, TOP
from sandmix.jobs.feed.form import ResolvedFeed
from sandmix.language.wording import to_figures
from sandmix.materials.metals import METALS
from sandmix.materials.shrinkage import (
    EXPANDS_PCT,
    LONG,
    SHRINKAGES,
    freezes_over,
    freezing_range_k,
    superheat_shrinks_pct,
)

_SLACK = 1.05
"""A thickness is measured to about 5 %."""
THIN_MM = 8.0
"""Up to this thickness a wall often feeds itself from the gate (own choice)."""
HEAVY_PCT = 100.0
"""A riser heavier than its casting is a reason to look at the design (own choice)."""
FLAT_RATIO = 1.5
"""With this ratio the riser freezes last beside the widest plate, in every metal and contact that was solved (see the method page)."""


def too_tall(computed: Computed[ResolvedFeed]) -> bool:
    """Whether the riser to make is taller than the cope that was given; an open-top mould has none."""
    cope_mm = computed.form.cope_depth_mm
    return bool(cope_mm) and computed.has("cope_needed_mm") and computed.number("cope_needed_mm") > (cope_mm or 0.0)


def is_thin(computed: Computed[ResolvedFeed]) -> bool:
    """Whether the part that is fed is so thin that it often feeds itself; not where its modulus says that it is thicker."""
    thickness_mm = computed.form.thickness_mm
    return thickness_mm is not None and thickness_mm <= THIN_MM and not _has_more_modulus(computed.form)


def _has_more_modulus(form: ResolvedFeed) -> bool:
    """Whether the modulus is more than a part of the given thickness can have: that of a plate, half the thickness."""
    return form.modulus is not None and form.section_mm is not None and form.modulus > _SLACK * form.section_mm / 2


def _has_less_modulus(form: ResolvedFeed) -> bool:
    """Whether the modulus is less than a part of the given thickness can have: that of a ball, a sixth of the thickness."""
    return form.modulus is not None and form.section_mm is not None and _SLACK * form.modulus < form.section_mm / 6


def farther_than_fed(computed: Computed[ResolvedFeed]) -> bool:
    """Whether the farthest point is beyond the feeding distance."""
    length_mm = computed.form.feed_length_mm
    return (
        length_mm is not None
        and computed.has("feeding_distance_mm")
        and length_mm > computed.number("feeding_distance_mm")
    )


def covers_too_much(computed: Computed[ResolvedFeed]) -> bool:
    """Whether no riser on top is large enough, because it would cover too much of the casting; only where that can be worked out."""
    form = computed.form
    return (
        form.riser_kind == TOP
        and form.part_modulus_mm is None
        and computed.has("riser_diameter_mm")
        and form.casting_area_cm2 is not None
        and not computed.has("covered_modulus_mm")
    )


def remarks(computed: Computed[ResolvedFeed]) -> Iterable[str]:
    """Yield the remarks, those that change what to do first."""
    sized = computed.has("riser_diameter_mm")
    if sized:
        yield from _on_the_height(computed)
    yield from _on_the_thickness(computed)
    yield from _on_the_need(computed)
    yield from _on_the_metal(computed)
    if sized:
        yield from _on_the_size(computed)
        yield from _on_what_it_covers(computed)
    yield from _on_the_neck(computed)
    yield from _on_the_distance(computed)
    yield from _on_the_joint(computed)
    yield from _on_other_rules(computed)


def _on_the_thickness(computed: Computed[ResolvedFeed]) -> Iterable[str]:
    """A modulus that is not that of the given thickness, and one of a whole casting that may have a thicker part."""
    form = computed.form
    modulus_mm, section_mm = form.modulus, form.section_mm
    if modulus_mm is None:
        return
    if section_mm is not None and (_has_more_modulus(form) or _has_less_modulus(form)):
        yield WayOut(
            f"The riser is sized for a modulus of {to_figures(modulus_mm, 3)} mm, but a part {section_mm:g} mm thick has "
            f"{to_figures(section_mm / 6, 2)} mm as a ball to {to_figures(section_mm / 2, 2)} mm as a plate. Enter the modulus of that part, "
            "or check its thickness."
        )
    elif form.part_modulus_mm is None and not form.expands:
        yield WayOut(
            f"The modulus of {to_figures(modulus_mm, 2)} mm is that of the whole casting. If one part is clearly thicker than the rest, it freezes "
            "last and may need a larger riser. Then choose “its thickest part” and enter the sizes of that part."
        )


def _on_the_need(computed: Computed[ResolvedFeed]) -> Iterable[str]:
    form = computed.form
    thickness_mm = form.thickness_mm
    if not form.expands:
        yield (
            "Do not feed unless you have to. If you can, cast one without a riser, saw through its thickest part, and look for a hole "
            "there. A part that is thicker than all around it needs feeding most."
        )
    if thickness_mm is not None and is_thin(computed) and not form.expands:
        yield (
            f"A wall of about {to_figures(thickness_mm, 2)} mm that is even, or grows thinner away from the gate, often feeds itself "
            "from the gate and needs no riser."
        )
    modulus_mm, volume_cm3, area_cm2 = form.part_modulus_mm, form.casting_volume_cm3, form.casting_area_cm2
    if (
        modulus_mm is not None
        and volume_cm3 is not None
        and area_cm2 is not None
        and modulus_mm < 10 * volume_cm3 / area_cm2
    ):
        yield (
            f"The part that is fed has a modulus of {modulus_mm:g} mm, less than the {10 * volume_cm3 / area_cm2:.3g} mm of the "
            "casting as a whole. Feed the part with the largest modulus."
        )


def _on_the_metal(computed: Computed[ResolvedFeed]) -> Iterable[str]:
    form = computed.form
    metal = METALS[form.metal]
    if form.metal in EXPANDS_PCT:
        liquid_pct = superheat_shrinks_pct(form.metal, metal.pour_temp_c)
        yield (
            f"Grey iron expands by about {EXPANDS_PCT[form.metal]:g} % as it freezes. Poured at {metal.pour_temp_c:g} °C the liquid "
            f"shrinks by about {liquid_pct:.1f} % before that (from memory), so the two nearly cancel. Iron low in carbon and silicon, "
            "a soft mould or hot metal can still leave holes. Ram the mould hard. A riser for iron has a small neck that freezes "
            "before the expansion ends, so that the metal is not pushed back into the riser."
        )
        if form.expands:
            yield (
                "So nothing asks for a riser here, and gating without one is carried on. The sizes are those of a riser that freezes "
                "last. To size one by volume too, enter the shrinkage."
            )
    elif "shrinkage_pct" in computed.filled.assumed:
        row = SHRINKAGES[form.metal]
        yield (f"Shrinkage assumed: {row.pct:g} %, likely {row.low_pct:g} to {row.high_pct:g} % ({row.figure_of}).")
    range_k = freezing_range_k(form.metal)
    if freezes_over(form.metal) == LONG:
        yield WayOut(
            f"{metal.label[:1].upper()}{metal.label[1:]} freezes over {range_k:g} K, so the whole section turns to mush before it is "
            "solid. A riser then helps little: the shrinkage spreads as fine pores. What helps more: pour no hotter than you must, "
            "keep walls thin and even, and cool the thick part with a piece of iron in the mould wall (a chill), dry and warm."
        )


def _on_the_size(computed: Computed[ResolvedFeed]) -> Iterable[str]:
    form = computed.form
    if not form.expands and computed.has("feed_needed_cm3") and computed.number("feed_needed_cm3") > 0:
        other = (
            f"to hold enough metal {computed.text('volume_diameter_mm')} is enough"
            if computed.figures["decides"] == riser.FREEZING
            else f"to freeze last {computed.text('freezing_diameter_mm')} is enough"
        )
        yield f"What decides is {'freezing' if computed.figures['decides'] == riser.FREEZING else 'volume'}: {other}."
    if computed.figures["decides"] == riser.FREEZING and form.is_flat and form.riser_ratio < FLAT_RATIO:
        yield (
            f"On a wide, flat casting the rule of the modulus asks for too little: sand around a riser takes heat away sooner than sand on a "
            f"flat face. By the heat that is solved, a ratio of {form.riser_ratio:g} may not be enough in alloys that freeze over a "
            f"range. Enter {FLAT_RATIO:g} there."
        )
    if computed.has("classroom_cm3") and computed.number("classroom_cm3") > 0 and computed.has("feed_needed_cm3"):
        yield (
            f"The classroom rule of {riser.CLASSROOM:g} times the shrinkage gives {computed.text('classroom_cm3')}. It leaves out what "
            f"the riser itself shrinks; with {form.feed_efficiency_pct:g} % of its metal to give, the volume asks for "
            f"{computed.text('feed_needed_cm3')}."
        )
    if computed.has("riser_share_pct"):
        share_pct = computed.number("riser_share_pct")
        if share_pct > HEAVY_PCT and not form.expands:
            yield WayOut(
                f"The riser holds {share_pct:.0f} % of the casting's volume. Before you melt that much: hollow the thick part out, "
                "make it thinner, or put a chill there, and work out the riser again."
            )
        if not form.expands:
            added = (
                "your figure"
                if "gating_volume_cm3" not in computed.filled.assumed
                else "assumed at 30 % of the casting"
            )
            yield (
                f"The next steps get the riser to make together with sprue, runners and gates ({added}): "
                f"{computed.text('gating_with_riser_cm3')} in all. “After the pour” gets its diameter, since it is the last to freeze."
            )


def _on_the_neck(computed: Computed[ResolvedFeed]) -> Iterable[str]:
    if computed.has("neck_mm"):
        yield (
            f"Neck: from {computed.text('neck_least_mm')} to {computed.text('neck_most_mm')} as a long round bar; only the order "
            "casting, neck, riser is sure, the figures are from memory. On a plate such a bar is thicker than the plate: make the neck "
            "as high as the plate and that wide. Keep it as short as the sand between allows: then it stays hot from both sides."
        )


def _on_the_height(computed: Computed[ResolvedFeed]) -> Iterable[str]:
    form = computed.form
    above_mm, high_mm = form.cope_height_mm, computed.number("riser_made_height_mm")
    if form.riser_kind == SIDE and above_mm > 0 and high_mm <= above_mm:
        yield WayOut(
            f"The riser would be {high_mm:g} mm high, and the casting rises {above_mm:g} mm above the parting line. Metal does not run "
            "uphill: make the riser taller than the casting, or put it on top."
        )
    if not too_tall(computed):
        return
    cope_mm = form.cope_depth_mm
    assert cope_mm is not None
    left_mm = cope_mm - (above_mm if form.riser_kind == TOP else 0.0)
    needed_cm3 = computed.number("feed_needed_cm3") if computed.has("feed_needed_cm3") else 0.0
    modulus_mm = computed.number("riser_modulus_mm")
    if computed.has("covered_modulus_mm"):
        modulus_mm = max(modulus_mm, form.riser_ratio * computed.number("covered_modulus_mm"))
    flat_mm = riser.flat_diameter_mm(modulus_mm, needed_cm3, form.riser_kind, left_mm) if left_mm > 0 else None
    ring = "set a ring of sand, held by a tin or a frame, on the cope around it"
    ways = (
        f"{ring}; take a deeper cope; or make it flatter and wider, {riser.made_mm(flat_mm):g} mm across and {left_mm:g} mm high"
        if flat_mm is not None
        else f"{ring}, or take a deeper cope. No flatter riser is large enough"
    )
    yield WayOut(
        f"The riser needs a cope {computed.text('cope_needed_mm')} deep, and yours is {cope_mm:g} mm. Ways out: {ways}."
    )


def _on_the_distance(computed: Computed[ResolvedFeed]) -> Iterable[str]:
    form = computed.form
    if not computed.has("feeding_distance_mm"):
        return
    told = (
        f"By the rule of steel a riser feeds {computed.text('feeding_distance_mm')} from its edge to a free end; no figure for "
        f"{METALS[form.metal].label} was found. Later research on steel found about twice as much."
    )
    if farther_than_fed(computed):
        yield WayOut(
            f"{told} You need {form.feed_length_mm:g} mm: use another riser, make the part thicker towards the riser, or put a chill at "
            "its far end."
        )
    else:
        yield told


def _on_what_it_covers(computed: Computed[ResolvedFeed]) -> Iterable[str]:
    form = computed.form
    if form.riser_kind != TOP:
        return
    if computed.has("covered_modulus_mm"):
        yield (
            f"A riser on top covers a cooling face of the casting. Without that face the casting has a modulus of "
            f"{computed.text('covered_modulus_mm')}, and the riser must be {computed.text('covered_diameter_mm')} across. The riser to "
            f"make counts that; the riser diameter of {computed.text('riser_diameter_mm')} by the plain rule leaves it out."
        )
    elif covers_too_much(computed):
        yield WayOut(
            "A riser on top of this casting would cover so much of it that no size is large enough. Put it beside the casting, or cut "
            "its base in to a narrow neck."
        )
    else:
        yield (
            "A riser on top covers a cooling face of the casting, which then freezes later. Enter volume and surface without a modulus "
            "to see by how much."
        )


def _on_the_joint(computed: Computed[ResolvedFeed]) -> Iterable[str]:
    if not computed.has("joint_circle_mm"):
        return
    least, most = computed.number("joint_least_modulus_mm"), computed.number("joint_most_modulus_mm")
    modulus_mm = computed.form.modulus
    tail = (
        f" Your modulus of {to_figures(modulus_mm, 3)} mm is below that: the joint freezes last. Enter its own modulus, at most "
        f"{to_figures(most, 3)} mm."
        if modulus_mm is not None and modulus_mm < least
        else " A smaller fillet, or two walls that meet at different places, makes the joint thinner."
    )
    yield (
        f"Where the walls meet, a circle of {computed.text('joint_circle_mm')} fits in. The modulus there is between "
        f"{to_figures(least, 3)} and {to_figures(most, 3)} mm.{tail}"
    )


def _on_other_rules(computed: Computed[ResolvedFeed]) -> Iterable[str]:
    told = []
    if computed.has("caine_diameter_mm"):
        told.append(f"Caine’s rule asks for {computed.text('caine_diameter_mm')} across (constants from memory)")
    if computed.has("naval_riser_cm3"):
        told.append(f"the shape factor, a rule of steel, for {computed.text('naval_riser_cm3')}")
    if told:
        yield f"For comparison only: {' and '.join(told)}."
