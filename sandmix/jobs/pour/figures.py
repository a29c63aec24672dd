"""The figures of *pour*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures, Needs
from sandmix.jobs.pour.form import ResolvedPour
from sandmix.materials.metals import ALUMINIUM, SCRAPS, thermal
from sandmix.maths.uncertainty import Band
from sandmix.mould import charge as lots_of
from sandmix.mould import pour


def run(form: ResolvedPour) -> Figures:
    """Return the figures; the charge needs a volume, the weights a projected area and a head."""
    metal = thermal(form.metal)
    figures: Figures = {}
    if form.casting_volume_cm3 is not None:
        casting = (form.casting_volume_cm3, form.gating_pct / 100, metal.solid_kg_m3)
        charge = pour.charge_kg(*casting, form.loss, form.spare_pct / 100)
        figures["charge_kg"] = charge
        left_kg = lots_of.left_over_kg(charge, form.loss, pour.charge_kg(*casting, 0.0, 0.0))
        figures["ingot_kg"] = left_kg
        figures["ingot_cm3"] = 1e6 * left_kg / form.liquid_kg_m3
        if form.scrap_lots:
            figures |= _of_the_scrap(form, charge)
        if form.crucible_l is not None:
            figures["crucible_fill_pct"] = pour.crucible_fill_pct(charge, form.liquid_kg_m3, form.crucible_l)
        if form.fill_time_s is not None and form.head_mm is not None:
            mould_kg = pour.charge_kg(*casting, 0.0, 0.0)
            figures["choke_mm2"] = pour.choke_mm2(mould_kg, form.liquid_kg_m3, form.fill_time_s, form.head_mm)
    if form.projected_area_cm2 is not None:
        figures["vents"] = pour.vents(form.projected_area_cm2)
        if form.head_mm is not None:
            uplift = pour.uplift_kg(form.projected_area_cm2, form.head_mm, form.liquid_kg_m3, form.core_volume_cm3)
            figures["uplift_kg"] = uplift
            figures["hold_down_kg"] = form.uplift_factor * uplift
            if form.cope_kg is not None:
                figures["weights_kg"] = form.uplift_factor * uplift - form.cope_kg
    if form.metal in ALUMINIUM:
        figures["hydrogen_cm3_100g"] = pour.hydrogen_cm3_100g(form.pour_temp_c)
    return figures


def _of_the_scrap(form: ResolvedPour, charge_kg: float) -> Figures:
    """What is on hand for a charge, what of it to weigh, and what is missing or stays."""
    on_hand_kg = lots_of.on_hand_kg(form.lots)
    weighed = lots_of.to_weigh_kg(form.lots, charge_kg)
    return {
        "scrap_kg": on_hand_kg,
        "scrap_short_kg": max(0.0, charge_kg - on_hand_kg),
        "scrap_left_kg": max(0.0, on_hand_kg - charge_kg),
        "scrap_take": [
            {"name": name_of(row), "kg": kg} for row, kg in zip(form.scrap_lots or (), weighed, strict=True)
        ],
    }


def name_of(row: Mapping[str, object]) -> str:
    """Return what a lot of scrap is called: its name, else its kind."""
    return str(row.get("name") or SCRAPS[str(row["scrap"])].label)


def finish(filled: Filled[ResolvedPour], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return the weights to put on: the high end of those needed, rounded up."""
    return {"put_on_kg": pour.put_on_kg(doubt["weights_kg"][1])} if "weights_kg" in doubt else {}


def needs(form: ResolvedPour, figures: Figures) -> Needs:
    """Return the inputs that each answer needs."""
    over = ("projected_area_cm2", "head_mm")
    return {
        "charge_kg": ("casting_volume_cm3",),
        "crucible_fill_pct": ("casting_volume_cm3", "crucible_l"),
        "uplift_kg": over,
        "hold_down_kg": over,
        "put_on_kg": (*over, "cope_kg"),
        "weights_kg": (*over, "cope_kg"),
        "vents": ("projected_area_cm2",),
    }
