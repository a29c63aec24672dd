"""The figures of *feed*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures, Needs
from sandmix.feeding import comparison, distance, joints, riser
from sandmix.feeding.modulus import SIDE, TOP, cylinder_cm3
from sandmix.jobs.feed.form import ResolvedFeed
from sandmix.materials.metals import METALS
from sandmix.materials.shrinkage import EXPANDS_PCT
from sandmix.maths.uncertainty import Band

_SLACK = 1 + 1e-9
"""Rounding of the root."""


def run(form: ResolvedFeed) -> Figures:
    """Return the figures: the demand by freezing needs a modulus, the demand by volume a volume, and the riser both."""
    figures: Figures = {}
    modulus_mm, volume_cm3 = form.modulus, form.casting_volume_cm3
    if modulus_mm is not None:
        figures |= _by_freezing(form, modulus_mm)
    if volume_cm3 is not None:
        figures |= _by_volume(form, volume_cm3)
    freezing, volume = figures.get("freezing_diameter_mm"), figures.get("volume_diameter_mm")
    if form.shrinkage_pct == 0 and volume is None:
        volume = 0.0
    if isinstance(freezing, float) and isinstance(volume, float):
        figures |= _riser(form, freezing, volume)
        figures["decides"] = riser.NONE if form.expands else riser.decides(freezing, volume)
    return figures | _joint(form)


def _by_freezing(form: ResolvedFeed, modulus_mm: float) -> Figures:
    riser_mm = form.riser_ratio * modulus_mm
    figures: Figures = {
        "modulus_mm": modulus_mm,
        "riser_modulus_mm": riser_mm,
        "freezing_diameter_mm": riser.freezing_diameter_mm(riser_mm, form.riser_kind, form.riser_height_share),
    }
    if form.riser_kind == SIDE and form.metal not in EXPANDS_PCT:
        figures["neck_mm"] = riser.neck_mm(riser.NECK_RATIO * modulus_mm)
        figures["neck_least_mm"] = riser.neck_mm(modulus_mm)
        figures["neck_most_mm"] = riser.neck_mm(riser_mm)
    assert form.thickness_mm is not None, "a modulus gives a thickness"
    figures["feeding_distance_mm"] = distance.to_an_end_mm(form.shape or distance.PLATE, form.thickness_mm)
    return figures | _covered(form)


def _covered(form: ResolvedFeed) -> Figures:
    """The casting and a riser on top that covers part of it; only where the casting's own volume and surface make its modulus."""
    volume_cm3, area_cm2 = form.casting_volume_cm3, form.casting_area_cm2
    if form.riser_kind != TOP or form.part_modulus_mm is not None or volume_cm3 is None or area_cm2 is None:
        return {}
    diameter_mm = riser.covering_diameter_mm(
        volume_cm3, area_cm2, form.riser_ratio, form.riser_height_share, form.top_face_cm2
    )
    if diameter_mm is None:
        return {}
    held_mm = riser.volume_diameter_mm(
        volume_cm3, form.shrinkage_pct / 100, form.feed_efficiency_pct / 100, form.riser_height_share
    )
    diameter_mm = max(diameter_mm, held_mm)
    modulus_mm = riser.covered_modulus_mm(volume_cm3, area_cm2, diameter_mm, form.top_face_cm2)
    needed_mm = riser.freezing_diameter_mm(form.riser_ratio * modulus_mm, TOP, form.riser_height_share)
    if not 0 < needed_mm <= _SLACK * diameter_mm:
        return {}
    return {"covered_modulus_mm": modulus_mm, "covered_diameter_mm": diameter_mm}


def _by_volume(form: ResolvedFeed, volume_cm3: float) -> Figures:
    share, efficiency = form.shrinkage_pct / 100, form.feed_efficiency_pct / 100
    if efficiency <= share:
        return {}
    shrinks_cm3 = share * volume_cm3
    return {
        "shrinkage_cm3": shrinks_cm3,
        "classroom_cm3": riser.CLASSROOM * shrinks_cm3,
        "feed_needed_cm3": riser.feed_needed_cm3(volume_cm3, share, efficiency),
        "volume_diameter_mm": riser.volume_diameter_mm(volume_cm3, share, efficiency, form.riser_height_share),
    }


def _riser(form: ResolvedFeed, freezing_mm: float, volume_mm: float) -> Figures:
    diameter_mm = max(freezing_mm, volume_mm)
    riser_cm3 = cylinder_cm3(diameter_mm, form.riser_height_share)
    figures: Figures = {
        "riser_diameter_mm": diameter_mm,
        "riser_height_mm": form.riser_height_share * diameter_mm,
        "riser_volume_cm3": riser_cm3,
        "riser_kg": riser_cm3 * 1e-6 * METALS[form.metal].solid_kg_m3,
    }
    if form.casting_volume_cm3 is None or form.modulus is None:
        return figures
    figures["riser_share_pct"] = 100 * riser_cm3 / form.casting_volume_cm3
    constants = comparison.CAINE_OF.get(form.metal)
    if constants is not None:
        figures["caine_diameter_mm"] = comparison.caine_diameter_mm(
            comparison.CAINE[constants], form.casting_volume_cm3, form.modulus, form.riser_kind, form.riser_height_share
        )
    if form.box_mm is not None:
        length, width, thickness = form.box_mm
        factor = comparison.shape_factor((length, width, thickness))
        figures["naval_riser_cm3"] = form.casting_volume_cm3 * comparison.naval_volume_ratio(factor)
    return figures


def _joint(form: ResolvedFeed) -> Figures:
    if form.joint is None or form.section_mm is None:
        return {}
    circle_mm = joints.JOINTS[form.joint](form.section_mm, form.fillet_mm)
    least_mm, most_mm = joints.bounds_mm(circle_mm)
    return {"joint_circle_mm": circle_mm, "joint_least_modulus_mm": least_mm, "joint_most_modulus_mm": most_mm}


def finish(filled: Filled[ResolvedFeed], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return the riser to make, rounded up from the larger of the plain and the covering one, the cope that it needs, and the gating with it."""
    form, diameter_mm = filled.form, figures.get("riser_diameter_mm")
    if not isinstance(diameter_mm, float):
        return {}
    covered_mm = figures.get("covered_diameter_mm")
    made_mm = riser.made_mm(max(diameter_mm, covered_mm) if isinstance(covered_mm, float) else diameter_mm)
    high_mm, made_cm3 = form.riser_height_share * made_mm, cylinder_cm3(made_mm, form.riser_height_share)
    above_mm = form.cope_height_mm
    made: Figures = {
        "riser_made_mm": made_mm,
        "riser_made_height_mm": high_mm,
        "riser_made_kg": made_cm3 * 1e-6 * METALS[form.metal].solid_kg_m3,
        "cope_needed_mm": above_mm + high_mm if form.riser_kind == TOP else max(above_mm, high_mm),
    }
    if form.casting_volume_cm3 is not None and form.gating_volume_cm3 is not None:
        with_riser_cm3 = form.gating_volume_cm3 + made_cm3
        made["gating_with_riser_cm3"] = with_riser_cm3
        made["gating_with_riser_pct"] = 100 * with_riser_cm3 / form.casting_volume_cm3
    return made


def needs(form: ResolvedFeed, figures: Figures) -> Needs:
    """Return the inputs that each answer needs."""
    volume = "casting_volume_cm3"
    thick = "modulus_mm" if form.casting_area_cm2 is None else volume
    takes: dict[str, tuple[str, ...]] = dict.fromkeys(("feed_needed_cm3", "shrinkage_cm3"), (volume,))
    takes |= dict.fromkeys(
        ("riser_modulus_mm", "neck_mm") if form.riser_kind == SIDE else ("riser_modulus_mm",), (thick,)
    )
    takes |= dict.fromkeys(("riser_diameter_mm", "riser_height_mm", "riser_volume_cm3", "riser_kg"), (volume, thick))
    takes["joint_circle_mm"] = ("section_mm",) if form.joint else ()
    return takes
