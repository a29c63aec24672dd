"""Where a function that rises through zero once is zero: Newton steps, kept inside a bracket that only shrinks."""

from __future__ import annotations

import math
from collections.abc import Callable

MOST_STEPS = 200
_ROUNDING = 1e-15


def rising_root(
    function: Callable[[float], tuple[float, float]], low: float, high: float, start: float | None = None
) -> float:
    """Return where *function*, which gives its value and its slope, is zero between *low*, where it is below zero, and *high*, where it is above.

    It begins at *start*, or in the middle.

    A Newton step that would leave the bracket, or that shrinks it too slowly, is replaced by a halving. So it ends at a root for every continuous
    function, and at the root where there is only one. It ends where the bracket, or the step, is within rounding.

    >>> round(rising_root(lambda x: (x * x - 2, 2 * x), 0.0, 2.0), 12)
    1.414213562373
    """
    at, before = (low + high) / 2 if start is None else start, math.inf
    for _ in range(MOST_STEPS):
        value, slope = function(at)
        if value == 0:
            return at
        if value < 0:
            low = at
        else:
            high = at
        step = value / slope if slope > 0 else math.inf
        if abs(step) <= _ROUNDING * max(abs(low), abs(high)):
            return at
        aimed = at - step
        if not low < aimed < high or abs(step) > before / 2:
            aimed = (low + high) / 2
        before = abs(aimed - at)
        if aimed in (low, high):
            return aimed
        at = aimed
    return at
