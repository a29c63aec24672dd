"""The figures of *fineness*."""

from __future__ import annotations

import math
from collections.abc import Mapping

from sandmix.asking.job import Figures, Needs
from sandmix.bench import measurements
from sandmix.jobs.fineness.form import FinenessForm
from sandmix.materials import fineness, partial_sieves
from sandmix.maths.uncertainty import Band

_OTHER_UNIT = 2.0
"""Sieves that hold more than this times the sample, or less than the sample over this, are in another unit (own choice)."""
_MEAN_ERROR = 0.05


def run(form: FinenessForm) -> Figures:
    """Return the figures of the grain; what the wash took, if it was weighed; what was lost, if the sample was weighed."""
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
    """What the wash took and what was lost, in percent; no loss where sieves and sample cannot be in the same unit."""
    figures: Figures = {}
    held, washed, sample = fineness.total(form.retained), form.clay_washed_g, form.sample_g
    if washed is not None:
        figures["washed_pct_dry"] = 100 * washed / (washed + held)
    if sample is not None and 1 / _OTHER_UNIT <= (held + (washed or 0.0)) / sample <= _OTHER_UNIT:
        figures["sieve_loss_pct"] = 100 * (sample - held - (washed or 0.0)) / sample
    return figures


def _is_open(form: FinenessForm) -> bool:
    """Whether gradings with different fineness numbers fit the readings."""
    low, high = partial_sieves.band(form.retained, form.unnamed_sieves)
    return high - low > 1e-9 * high


def known(form: FinenessForm) -> Mapping[str, Band]:
    """Return the band of the number, over all gradings that fit the sieves, and the band of the loss, from the scale."""
    low, high = partial_sieves.band(form.retained, form.unnamed_sieves)
    number = partial_sieves.number(form.retained, form.unnamed_sieves)
    low, high = min(low, number), max(high, number)
    bands = {
        "gfn": (low, high),
        "gfn_estimate": (low, high),
        "mean_um": ((1 - _MEAN_ERROR) * fineness.mean_um(high), (1 + _MEAN_ERROR) * fineness.mean_um(low)),
    }
    loss = _balance(form).get("sieve_loss_pct")
    if not isinstance(loss, float) or form.sample_g is None:
        return bands
    readings = len(form.retained) + 1 + (form.clay_washed_g is not None)
    off = 100 * math.sqrt(readings) * measurements.reading_error_g(form.scale_step_g) / form.sample_g
    return bands | {"sieve_loss_pct": (loss - off, loss + off)}


def needs(form: FinenessForm, figures: Figures) -> Needs:
    """Return what an answer needs: the weight of what was washed out, and that of the sample."""
    return {"washed_pct_dry": ("clay_washed_g",), "sieve_loss_pct": ("sample_g",)}
