"""How much sand a cast loses, in addition to what burns: crust thrown away, lumps in the riddle, sand on the casting, dust and spills.

The loss is what was weighed; without a weighing, the mean of the person's own weighed casts; without those, a default with its uncertainty.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sandmix.maths import statistics

WEIGHED, LEARNED, DEFAULT = "weighed", "learned", "default"
DEFAULT_SHARE = 0.02
DEFAULT_HALF_WIDTH = 0.01
ENOUGH_CASTS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Loss:
    """A loss as a share of the sand in the mould, its 95 % half-width, and where it comes from."""

    share: float
    half_width: float
    how: str


def loss_a_cast(own: Sequence[float]) -> Loss:
    """Return what the next cast will lose, as a share of its sand, from the shares *own* of casts that were weighed.

    From three casts on it is their mean, with the prediction interval of one more cast: t s √(1 + 1/N), over the last twenty. Below three it is
    1 to 3 % (from memory). Source: the usual prediction interval.

    >>> loss_a_cast([]).how, loss_a_cast([0.03, 0.04, 0.05]).share
    ('default', 0.04)
    """
    lately = own[-statistics.MOST_READINGS :]
    if len(lately) < ENOUGH_CASTS:
        return Loss(share=DEFAULT_SHARE, half_width=DEFAULT_HALF_WIDTH, how=DEFAULT)
    mean, half_width = statistics.prediction_interval(lately)
    return Loss(share=mean, half_width=half_width, how=LEARNED)
