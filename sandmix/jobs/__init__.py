"""The jobs, in the order of the menu: a folder a job, with its form, its figures, what it says, and its row ``JOB``."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from importlib import import_module

from sandmix.asking.job import AnyJob

ORDER = (
    "plan",
    "pattern",
    "fit",
    "feed",
    "gate",
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


class _Jobs(Mapping[str, AnyJob]):
    """All jobs by name. A job is imported when it is first asked for: one answer needs a third of the library."""

    def __getitem__(self, name: str) -> AnyJob:
        if name not in ORDER:
            raise KeyError(name)
        job: AnyJob = import_module(f"{__name__}.{name}").JOB
        return job

    def __iter__(self) -> Iterator[str]:
        return iter(ORDER)

    def __len__(self) -> int:
        return len(ORDER)


JOBS: Mapping[str, AnyJob] = _Jobs()
