"""How much is tried: in a usual run enough to notice what breaks, and all of it with `tests/run.py --long`."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from hypothesis import settings

LONG = "SANDMIX_LONG"
SHORTER = 16
LEAST = 4
"""A usual run tries a sixteenth of the random examples, but at least four."""


def is_long() -> bool:
    """Whether this is a long run."""
    return os.environ.get(LONG) == "1"


def fewer(count: int) -> int:
    """How many of *count* this run tries."""
    return count if is_long() else max(count // SHORTER, min(count, LEAST))


def only_long(*cases: Any) -> list[Any]:
    """These cases of a test, for a long run only: a usual one tries others of the same promise."""
    import pytest

    return [pytest.param(case, marks=pytest.mark.full) for case in cases]


def examples(count: int = 100) -> settings:
    """Settings for a property that a long run tries on *count* examples.

    How many inputs a job refuses, and how busy the machine is, says nothing of the property.
    """
    from hypothesis import HealthCheck, settings

    unsaid = [HealthCheck.filter_too_much, HealthCheck.too_slow]
    return settings(max_examples=fewer(count), deadline=None, suppress_health_check=unsaid)
