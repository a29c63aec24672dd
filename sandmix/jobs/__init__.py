"""The jobs, one row each, in the order of a season. A job is a file here: what it asks, what computes it, what it says."""

from __future__ import annotations

from typing import Any

from ..job import Job
from . import (
    bench,
    blend,
    burnout,
    choose,
    diagnose,
    estimate,
    fineness,
    fit,
    flask,
    forecast,
    heap,
    match,
    mix,
    pattern,
    pour,
    rebond,
    shopping,
    temper,
)

_ROWS = (
    choose,
    mix,
    shopping,
    temper,
    pattern,
    fit,
    flask,
    pour,
    burnout,
    heap,
    rebond,
    forecast,
    blend,
    fineness,
    match,
    bench,
    estimate,
    diagnose,
)
JOBS: dict[str, Job[Any]] = {row.JOB.name: row.JOB for row in _ROWS}
