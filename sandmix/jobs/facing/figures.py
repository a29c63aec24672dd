"""The figures of *facing*."""

from __future__ import annotations

from collections.abc import Mapping

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures, Needs
from sandmix.cooling.freezing import FINE, QUICK, Grid
from sandmix.jobs.facing.form import ResolvedFacing
from sandmix.materials.metals import METALS
from sandmix.materials.sand import Sand
from sandmix.maths.uncertainty import Band
from sandmix.recipes import facing
from sandmix.recipes.facing import Mould, Shakeout, TwoSandCast
from sandmix.recipes.too_wet import STOP, Wetness

LONG_RUN = ("facing_end_clay_pct_dry", "facing_end_dead_fines_pct_dry", "backing_end_clay_pct_dry", "backing_end_dead_fines_pct_dry")  # fmt: skip
WATER = ("facing_water_kg", "backing_water_kg")
SEASON = (
    "facing_sand_kg",
    "facing_clay_kg",
    "facing_water_kg",
    "backing_sand_kg",
    "backing_clay_kg",
    "backing_water_kg",
    "backing_discard_kg",
)


def run(form: ResolvedFacing) -> Figures:
    """Return the figures."""
    return _figures(form, FINE)


def run_roughly(form: ResolvedFacing) -> Figures:
    """Return the figures with the heat on a coarse grid, for their uncertainty."""
    return _figures(form, QUICK)


def this_cast(form: ResolvedFacing, mould: Mould) -> Shakeout:
    """Return both sands at the shake-out, with the backing as it is now."""
    return facing.shake_out(backing_now(form), mould, form.two_sands)


def backing_now(form: ResolvedFacing) -> Sand:
    """Return the backing as it is now; where no heap is given, as much as the flask holds."""
    return Sand.lying(
        form.backing_dry_kg / form.dry_share,
        moisture_pct_wet=form.moisture_pct_wet,
        clay_pct_dry=form.clay_pct_dry,
        other_fines_pct_dry=min(form.dead_fines_pct_dry, 100 - form.clay_pct_dry),
    )


def _figures(form: ResolvedFacing, grid: Grid) -> Figures:
    cooling = form.cooling(grid)
    mould = form.mould(cooling)
    now = this_cast(form, mould)
    rammed_kg = mould.facing_kg / form.dry_share
    figures: Figures = {
        "facing_layer_mm": form.facing_mm,
        "dry_depth_mm": cooling.dry_depth_mm,
        "facing_rammed_kg": rammed_kg,
        "backing_kg": form.flask_sand_kg - rammed_kg,
        "facing_share_pct": 100 * rammed_kg / form.flask_sand_kg,
        "facing_joins_kg": now.joined.wet_kg,
        "facing_lost_kg": now.lost.wet_kg,
    }
    two = form.two_sands
    ends = facing.long_run(mould, two, form.backing_dry_kg)
    return figures if ends is None else figures | _long_run(form, facing.cast(ends, mould, two), ends)


def _long_run(form: ResolvedFacing, one: TwoSandCast, ends: Sand) -> Figures:
    """Both sands in the long run, from *one* cast with the backing that it ends at, and what all casts need at its rates."""
    casts = form.casts
    figures: Figures = {
        "facing_end_clay_pct_dry": one.out.facing.clay_pct_dry,
        "facing_end_dead_fines_pct_dry": one.out.facing.dead_fines_pct_dry,
        "backing_end_clay_pct_dry": ends.clay_pct_dry,
        "backing_end_dead_fines_pct_dry": ends.dead_fines_pct_dry,
        "facing_sand_kg": casts * one.out.to_facing.sand.wet_kg,
        "facing_clay_kg": casts * one.out.to_facing.clay.wet_kg,
        "facing_water_kg": casts * one.out.to_facing.water_kg,
        "backing_sand_kg": casts * one.to_backing.sand.wet_kg,
        "backing_clay_kg": casts * one.to_backing.clay.wet_kg,
        "backing_water_kg": casts * one.to_backing.water_kg,
        "backing_discard_kg": casts * one.discarded.wet_kg,
    }
    if form.heap_kg is None:
        return figures
    new = 1.0 - one.kept**form.casts
    figures["new_grain_pct"] = 100 * new
    if form.heap_gfn is not None and form.facing_gfn is not None:
        figures["backing_gfn_after"] = form.heap_gfn + new * (form.facing_gfn - form.heap_gfn)
    return figures


def wetness(filled: Filled[ResolvedFacing]) -> Wetness:
    """Return how wet both sands are for the metal."""
    band = filled.bands.get("moisture_pct_wet")
    return Wetness(
        metal=METALS[filled.form.metal],
        sand_pct_wet=filled.form.moisture_pct_wet,
        sand_band=band if band and isinstance(band[0], float) and isinstance(band[1], float) else None,
    )


def finish(filled: Filled[ResolvedFacing], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Leave out the water where the sand would be too wet to pour on."""
    return dict.fromkeys(WATER) if wetness(filled).tone == STOP else {}


def needs(form: ResolvedFacing, figures: Figures) -> Needs:
    """How fast the backing's grain changes needs its mass, and its fineness both numbers."""
    return {"new_grain_pct": ("heap_kg",), "backing_gfn_after": ("heap_kg", "heap_gfn", "facing_gfn")}
