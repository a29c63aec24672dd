"""The jobs, in the order of the menu: a folder a job, with its form, its figures, what it says, and its row ``JOB``."""

from __future__ import annotations

from importlib import import_module

from sandmix.asking.job import AnyJob

ORDER = (
    "plan",
    "pattern",
    "fit",
    "mix",
    "shopping",
    "temper",
    "flask",
    "pour",
    "burnout",
    "heap",
    "learned",
    "tin",
    "dry",
    "rebond",
    "forecast",
    "facing",
    "season",
    "carbon",
    "blend",
    "bench",
    "feel",
    "readings",
    "fineness",
    "match",
    "estimate",
    "diagnose",
    "choose",
)
"""The jobs by name; a folder below must exist for each. Menus, lists and tables are drawn from this order."""

JOBS: dict[str, AnyJob] = {name: import_module(f"{__name__}.{name}").JOB for name in ORDER}
