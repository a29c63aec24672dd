"""What a cast loses of the sand beside what burns: crust discarded, lumps in the riddle, sand on the casting, dust, spill.

From what was weighed where it was, else from the person's own casts that were weighed, else a default with its doubt.
"""

from __future__ import annotations

import math
import statistics
from collections.abc import Sequence
from dataclasses import dataclass

WEIGHED, LEARNED, DEFAULT = "weighed", "learned", "default"
DEFAULT_SHARE = 0.02
DEFAULT_HALF_WIDTH = 0.01
ENOUGH_CASTS = 3
MOST_CASTS = 20
# two-sided 95 % of Student's t, by degrees of freedom (read in any table of it)
_T_95 = (
    12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228,
    2.201, 2.179, 2.160, 2.145, 2.131, 2.120, 2.110, 2.101, 2.093,
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Loss:
    """A loss as a share of the sand that was in the mould, its 95 % half-width, and how it was had."""

    share: float
    half_width: float
    how: str


def loss_a_cast(own: Sequence[float]) -> Loss:
    """Return what the next cast will lose, as a share of its sand, from the shares *own* of casts that were weighed.

    From three casts on it is their mean, and its doubt is where one more cast would fall: t s √(1 + 1/N), over the last twenty. Below three it is
    1 to 3 % (from memory). Source: the usual prediction interval.

    >>> loss_a_cast([]).how, loss_a_cast([0.03, 0.04, 0.05]).share
    ('default', 0.04)
    """
    lately = own[-MOST_CASTS:]
    count = len(lately)
    if count < ENOUGH_CASTS:
        return Loss(share=DEFAULT_SHARE, half_width=DEFAULT_HALF_WIDTH, how=DEFAULT)
    half_width = _T_95[count - 2] * statistics.stdev(lately) * math.sqrt(1 + 1 / count)
    mean = statistics.fmean(lately)
    return Loss(share=mean, half_width=half_width, how=LEARNED)
