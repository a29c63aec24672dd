"""The jobs, one row each, in the order of a season. A job is a file here: what it asks, what computes it, what it says."""

from __future__ import annotations

from typing import Any

from ..job import Job
from . import blend, burnout, diagnose, fineness, flask, forecast, heap, mix, pour, rebond, shopping, temper

_ROWS = (mix, shopping, temper, flask, pour, burnout, heap, rebond, forecast, blend, fineness, diagnose)
JOBS: dict[str, Job[Any]] = {row.JOB.name: row.JOB for row in _ROWS}
