"""The figures of *bench*."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from sandmix.asking.form import Filled
from sandmix.asking.job import Figures, Needs
from sandmix.bench import measurements
from sandmix.bench.water_tests import TIN
from sandmix.jobs.bench.form import ResolvedBench
from sandmix.jobs.bench.formulas import figure_of
from sandmix.maths import statistics
from sandmix.maths.uncertainty import Band, wider_side

FEWEST_PAST = 3


def run(form: ResolvedBench) -> Figures:
    """Return the figure of the test, moved by the test's own scatter where the uncertainty is worked out, and what follows from it."""
    value = figure_of(form)
    if isinstance(value, str):
        return {form.row.figure: value}
    value += form.deviation * form.scatter
    if form.test == "compactability":
        return {form.row.figure: value} | _of_the_tin(form)
    if form.test != "spray":
        return {form.row.figure: value}
    figures: Figures = {"strokes_per_100ml": value, "stroke_ml": 100 / value}
    return figures if form.dose_ml is None else figures | {"dose_strokes": form.dose_ml * value / 100}


def _of_the_tin(form: ResolvedBench) -> Figures:
    """The energy of the three blows and the fall that matches the standard, where rammer and tin are known."""
    if not form.has(*TIN):
        return {}
    rammer, fall, width = (form.number(word) for word in TIN)
    return {
        "ram_energy_kj_m2": measurements.ram_energy_kj_m2(rammer, fall, width),
        "matching_fall_mm": measurements.matching_fall_mm(rammer, width),
    }


def finish(filled: Filled[ResolvedBench], figures: Figures, doubt: Mapping[str, Band]) -> Figures:
    """Return what follows from the uncertainty: the plan for the target ±, and whether today's figure lies among the earlier ones."""
    form, value = filled.form, figures[filled.form.row.figure]
    if not isinstance(value, float):
        return {}
    found: Figures = {"tin_rammed": form.tin_rammed} if form.test == "compactability" else {}
    if form.wanted_error is not None:
        plan = measurements.least_work(plans(form, value, doubt), form.wanted_error)
        if plan is not None:
            found |= {"plan_repeats": float(plan.repeats), "plan_work_min": plan.work_min}
            found |= {} if plan.sample_g is None else {"plan_sample_g": plan.sample_g, "plan_step_g": plan.step_g}
    if form.history is not None and len(form.history) >= FEWEST_PAST:
        mean, within = statistics.prediction_interval(form.history[-statistics.MOST_READINGS :])
        ordinary = "yes" if abs(value - mean) <= within + 1e-9 else "no"
        found |= {"history_mean": mean, "history_within": within, "ordinary": ordinary}
    return found


def plans(form: ResolvedBench, value: float, doubt: Mapping[str, Band]) -> Sequence[measurements.TestPlan]:
    """Return all plans for the test that are compared, from the errors of its readings and its own scatter today."""
    whole, times = wider_side(doubt[form.row.figure], value), math.sqrt(form.repeats)
    reading = math.sqrt(max(0.0, whole**2 - form.scatter**2)) * times
    sample_g = getattr(form, form.row.weighed) if form.row.weighed else None
    return measurements.plans(
        form.test, reading_error=reading, scatter=form.scatter * times, sample_g=sample_g, step_g=form.scale_step_g
    )


def needs(form: ResolvedBench, figures: Figures) -> Needs:
    """Return what an answer needs: a dose, or rammer and tin; figures of other tests are not missing."""
    if form.test == "compactability" and form.manner != "lab":
        return dict.fromkeys(("ram_energy_kj_m2", "matching_fall_mm"), TIN)
    return {"dose_strokes": ("dose_ml",)} if form.test == "spray" else {}
