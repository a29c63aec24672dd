"""The figures of *burnout*."""

from __future__ import annotations

import math
from dataclasses import dataclass

from sandmix.asking.job import Figures, Needs
from sandmix.cooling import opening
from sandmix.cooling.burnout import HeatedMould, cool_enough_s
from sandmix.cooling.cooling import cool
from sandmix.cooling.freezing import FINE, PERFECT, QUICK, Cooling, Grid
from sandmix.jobs.burnout.form import ResolvedBurnout
from sandmix.materials.sands_and_clays import RAMMED_KG_L

LONGEST_WAIT_MIN = 90 * 24 * 60.0
LOOSE_KG_M3 = RAMMED_KG_L * 550


@dataclass(frozen=True, slots=True, kw_only=True)
class Solutions:
    """The solutions behind one answer: what burns and dries, the times of casting and gating, and the casting as a ball in the flask's sand.

    ``ball`` is None where the flask's sand or the casting's volume is not known, and for a casting that is a ball by itself.
    """

    hot: Cooling
    opening: opening.Opening
    ball: Cooling | None

    @property
    def slow(self) -> Cooling:
        """The casting, with the contact that times are computed with."""
        return self.opening.casting

    @property
    def contacts(self) -> tuple[Cooling, ...]:
        """One solution of the casting for each contact, that which burns the most first."""
        same = self.slow.case.contact_w_m2k == self.hot.case.contact_w_m2k
        return (self.hot,) if same else (self.hot, self.slow)

    @property
    def handle_s(self) -> float | None:
        """When the casting's middle is below 60 °C, never before the mould may be opened, in s.

        Where the flask's sand is known it is the sooner of two: the casting by its own shape and as a ball of the same volume, each with that
        sand around it. A plate in layers of sand spreads its heat to two sides only, and of all shapes a ball keeps its heat longest, so that
        both are late.
        """
        middles = [
            cooling.middle_below_s(opening.HANDLE_C) for cooling in (self.slow, self.ball) if cooling is not None
        ]
        return opening.latest((opening.earliest(middles), self.opening.open_s))


def run(form: ResolvedBurnout) -> Figures:
    """Return the figures."""
    return _figures(form, FINE)


def run_roughly(form: ResolvedBurnout) -> Figures:
    """Return the figures on a coarse grid, for their uncertainty."""
    return _figures(form, QUICK)


def solutions(form: ResolvedBurnout, grid: Grid = FINE) -> Solutions:
    """Return the solutions for the contact given; without one, perfect contact for what burns and the lowest measured one for the times.

    Gating and ball are always solved on the quick grid, which changes their times by far less than a section that is assumed and a shape that
    is simplified.
    """
    times = form.case(form.times_contact_w_m2k, form.depth_mm)
    ball = None
    if form.casting_volume_cm3 is not None and form.sand_cm3 is not None and form.shape_n < 2:
        ball = cool(opening.ball(times, form.casting_volume_cm3, form.sand_cm3), QUICK)
    return Solutions(
        hot=cool(form.case(PERFECT if form.contact_w_m2k is None else form.contact_w_m2k, form.wall_mm), grid),
        opening=opening.Opening(
            casting=cool(times, grid), gating=cool(opening.bar(times, form.gating_section_mm), QUICK)
        ),
        ball=ball,
    )


def _figures(form: ResolvedBurnout, grid: Grid) -> Figures:
    found = solutions(form, grid)
    hot, times = found.hot, found.opening
    figures: Figures = {
        "freeze_s": found.slow.freeze_s,
        "solid_after_min": _minutes(opening.solid_s(found.slow)),
        "casting_open_min": _minutes(times.casting_s),
        "open_after_min": _minutes(times.open_s),
        "handle_after_min": _minutes(found.handle_s),
        "burnt_depth_mm": hot.depth_past_mm(form.clay_limit_c),
        "dry_depth_mm": hot.dry_depth_mm,
    }
    if form.casting_volume_cm3 is None:
        return figures
    return figures | _masses(form, form.casting_volume_cm3, found)


def _masses(form: ResolvedBurnout, volume_cm3: float, found: Solutions) -> Figures:
    hot, opened_s = found.hot, found.opening.open_s
    mould = HeatedMould(cooling=hot, area_m2=volume_cm3 * 1e-3 / form.modulus, dry_kg=form.dry_kg)
    burnt_kg = mould.shell_kg(hot.depth_past_mm(form.clay_limit_c))
    metal_kg = volume_cm3 * 1e-6 * hot.case.metal.solid_kg_m3
    figures: Figures = {
        "metal_kg": metal_kg,
        "burnt_sand_kg": burnt_kg,
        "burnt_sand_per_metal": burnt_kg / metal_kg,
        "water_driven_kg": mould.water_driven_kg,
    }
    if form.clay_pct_dry is not None:
        figures["clay_burnt_kg"] = burnt_kg * form.clay_pct_dry / 100
        by_rate = mould.burnt_by_rate_kg(1000 * form.activation_kj_mol)
        figures["clay_burnt_by_rate_kg"] = by_rate * form.clay_pct_dry / 100
    if form.sand_kg is not None:
        heap_dry_kg = form.sand_kg * (1 - form.moisture_pct_wet / 100)
        figures["clay_loss_pct"] = min(100.0, 100 * burnt_kg / heap_dry_kg)
    if math.isfinite(form.dry_kg) and opened_s is not None:
        mean_c = mould.sand_mean_c(opened_s)
        hottest_c = max(mean_c, found.opening.layer_c(hot, opened_s))
        figures["sand_mean_c"] = mean_c
        figures["bin_after_min"] = _minutes(opened_s + cool_enough_s(hottest_c, hot.case.sand.heat_j_kgk, LOOSE_KG_M3))
    return figures


def _minutes(time_s: float | None) -> float | None:
    """The time in minutes, or None where it is too long for a closed mould."""
    return None if time_s is None or time_s / 60 > LONGEST_WAIT_MIN else time_s / 60


def needs(form: ResolvedBurnout, figures: Figures) -> Needs:
    """Return the inputs that each answer needs."""
    volume = "casting_volume_cm3"
    takes: dict[str, tuple[str, ...]] = dict.fromkeys(
        ("burnt_sand_kg", "burnt_sand_per_metal", "water_driven_kg", "metal_kg"), (volume,)
    )
    takes |= dict.fromkeys(("clay_burnt_kg", "clay_burnt_by_rate_kg"), (volume, "clay_pct_dry"))
    takes["clay_loss_pct"] = (volume, "sand_kg")
    if math.isinf(form.dry_kg):
        takes |= dict.fromkeys(("sand_mean_c", "bin_after_min"), (volume, "sand_kg"))
    return takes
