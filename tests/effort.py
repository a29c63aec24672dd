"""The number of random examples for a property: enough for every run, and four times as many with `tests/run.py --long`."""

from __future__ import annotations

import os

from hypothesis import settings

LONG = "SANDMIX_LONG"
SHORTER = 4


def is_long() -> bool:
    """Whether this is a long run."""
    return os.environ.get(LONG) == "1"


def examples(count: int = 100) -> settings:
    """Settings for a property that a long run tries on *count* examples."""
    return settings(max_examples=count if is_long() else max(count // SHORTER, min(count, 10)), deadline=None)
