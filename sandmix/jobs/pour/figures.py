"""The figures of *pour*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures, Needs
from sandmix.jobs.pour.form import ResolvedPour
from sandmix.materials.metals import thermal
from sandmix.maths.uncertainty import Band
from sandmix.mould import pour

_ALUMINIUM = ("aluminium", "al_si7mg", "al_si12", "al_6061")


def run(form: ResolvedPour) -> Figures:
    """Return the figures; the charge needs a volume, the weights a projected area and a head."""
    metal = thermal(form.metal)
    figures: Figures = {}
    if form.casting_volume_cm3 is not None:
        casting = (form.casting_volume_cm3, form.gating_pct / 100, metal.solid_kg_m3)
        charge = pour.charge_kg(*casting, form.melt_loss_pct / 100, form.spare_pct / 100)
        figures["charge_kg"] = charge
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
    if form.metal in _ALUMINIUM:
        figures["hydrogen_cm3_100g"] = pour.hydrogen_cm3_100g(form.pour_temp_c)
    return figures


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
