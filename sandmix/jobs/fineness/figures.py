"""The figures of *fineness*."""

from __future__ import annotations

import math
from collections.abc import Mapping

from sandmix.asking.job import Figures, Needs
from sandmix.bench import measurements
from sandmix.jobs.fineness.form import FinenessForm
from sandmix.materials import fineness, partial_sieves
from sandmix.maths.uncertainty import Band

_NO_BALANCE = 2.0
_MEAN = 0.05


def run(form: FinenessForm) -> Figures:
    """Return the figures of the grain, what the wash took where it was weighed, and what was lost where the sample was."""
    assert form.retained is not None
    retained = form.retained
    series = partial_sieves.series_of(retained, form.unnamed_sieves)
    number = fineness.gfn(series)
    figures: Figures = {
        "gfn": number,
        "mean_um": fineness.mean_um(number),
        "surface_cm2_g": fineness.surface_cm2_g(series),
    }
    if partial_sieves.is_of_the_series(retained):
        figures |= {
            "screens": fineness.screens(retained),
            "gaps": fineness.gaps(retained),
            "passing": fineness.passing_pct(retained),
        }
    else:
        figures["passing"] = partial_sieves.passing_pct(retained)
    if _is_open(form):
        figures["gfn_estimate"] = partial_sieves.estimate(retained, form.unnamed_sieves)
    return figures | _balance(form)


def _balance(form: FinenessForm) -> Figures:
    """What the wash took and what was lost, in percent; no loss where sieves and sample can't be in the same unit."""
    assert form.retained is not None
    figures: Figures = {}
    held, washed, sample = fineness.total(form.retained), form.clay_washed_g, form.sample_g
    if washed is not None:
        figures["washed_pct_dry"] = 100 * washed / (washed + held)
    if sample is not None and 1 / _NO_BALANCE <= (held + (washed or 0.0)) / sample <= _NO_BALANCE:
        figures["sieve_loss_pct"] = 100 * (sample - held - (washed or 0.0)) / sample
    return figures


def _is_open(form: FinenessForm) -> bool:
    """Whether gradings of more than one number agree with the readings."""
    assert form.retained is not None
    low, high = partial_sieves.band(form.retained, form.unnamed_sieves)
    return high - low > 1e-9 * high


def known(form: FinenessForm) -> Mapping[str, Band]:
    """The bands that the sieves leave: of the number those of all gradings that agree with them, of what was lost that of the scale."""
    assert form.retained is not None
    low, high = partial_sieves.band(form.retained, form.unnamed_sieves)
    number = partial_sieves.number(form.retained, form.unnamed_sieves)
    low, high = min(low, number), max(high, number)
    bands = {
        "gfn": (low, high),
        "gfn_estimate": (low, high),
        "mean_um": ((1 - _MEAN) * fineness.mean_um(high), (1 + _MEAN) * fineness.mean_um(low)),
    }
    loss = _balance(form).get("sieve_loss_pct")
    if not isinstance(loss, float) or form.sample_g is None:
        return bands
    readings = len(form.retained) + 1 + (form.clay_washed_g is not None)
    off = 100 * math.sqrt(readings) * measurements.reading_error_g(form.scale_step_g) / form.sample_g
    return bands | {"sieve_loss_pct": (loss - off, loss + off)}


def needs(form: FinenessForm, figures: Figures) -> Needs:
    """What the wash took and the sample must be weighed to be told."""
    return {"washed_pct_dry": ("clay_washed_g",), "sieve_loss_pct": ("sample_g",)}
